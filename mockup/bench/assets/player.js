// Replays the lists of a drawing on a canvas. The canvas only paints: nothing in a drawing runs.

import { Balls } from "./balls.js";
import { meet, reach } from "./changed.js";

export const PARTS = ["back", "numerals", "front"];
const known = { paints: new Map(), symbols: new Map(), glyphs: new Map() };
export const held = new Set(); // names of the symbols that are dear to send
const sprites = new Map();
const pictures = new Map();
const MANY = 16;
const MOST_PICTURES = 2;
const MOST_SPRITES = 600;
const MOST_KNOWN = 4000;
const MOST_HELD = 40;
const LONG = 4000;

/** Keeps the gradients, symbols and glyphs a part of the drawing brings; they are named by content. */
function learn(part) {
  for (const kind of ["paints", "symbols", "glyphs"]) {
    for (const [id, thing] of Object.entries(part[kind] || {})) known[kind].set(id, thing);
  }
  for (const [id, items] of Object.entries(part.symbols)) if (!held.has(id) && JSON.stringify(items).length > LONG) held.add(id);
}

/** Lets go of what was kept, once it is much; what is held need not be sent again. */
function forget() {
  if (Object.values(known).every((kind) => kind.size < MOST_KNOWN) && held.size <= MOST_HELD) return;
  Object.values(known).forEach((kind) => kind.clear());
  held.clear();
}

/** Paints the items of a part, which are in sheet mm, at `scale` pixels a mm; `balls` are the drawing's.
    Of balls only those that come into the box `within`, where there is one. */
export function play(context, part, scale, balls, within = null) {
  const items = within ? part.items.filter((item) => item[0] !== "b" || meet(reach(item, balls) || within, within)) : part.items;
  context.save();
  context.scale(scale, scale);
  paintAll(context, items, { scale, fade: 1, balls });
  context.restore();
}

/** Paints a whole drawing. */
export function playAll(context, drawing, scale) {
  const balls = learned(drawing);
  for (const part of PARTS) play(context, drawing[part], scale, balls);
}

/** Keeps what a drawing brings and gives its balls, which borrow from those `before`. */
export function learned(drawing, before = null) {
  forget();
  for (const part of PARTS) learn(drawing[part]);
  learn(drawing.balls);
  return new Balls(drawing, before);
}

function paintAll(context, items, how) {
  for (const item of items) PAINTERS[item[0]](context, item, how);
}

const PAINTERS = {
  c(context, [, x, y, r, style], how) {
    inked(context, style, how, [x - r, y - r, 2 * r, 2 * r], (c) => c.arc(x, y, r, 0, 2 * Math.PI));
  },
  e(context, [, x, y, rx, ry, turn, style], how) {
    context.save();
    context.translate(x, y);
    context.rotate((turn * Math.PI) / 180);
    context.scale(1, ry / rx);
    inked(context, style, how, [-rx, -rx, 2 * rx, 2 * rx], (c) => c.arc(0, 0, rx, 0, 2 * Math.PI));
    context.restore();
  },
  p(context, [, d, style, evenodd], how) {
    const path = new Path2D(d);
    dress(context, style, how, null);
    if (style[0]) context.fill(path, evenodd ? "evenodd" : "nonzero");
    if (style[1]) context.stroke(path);
    context.globalAlpha = how.fade;
  },
  l(context, [, x1, y1, x2, y2, style], how) {
    inked(context, style, how, null, (c) => { c.moveTo(x1, y1); c.lineTo(x2, y2); });
  },
  r(context, [, x, y, w, h, corner, style], how) {
    inked(context, style, how, [x, y, w, h], (c) => c.roundRect(x, y, w, h, corner));
  },
  u(context, [, id, x, y, scale, turn], how) {
    const items = known.symbols.get(id);
    const pixels = scale * how.scale;
    const sprite = turn === 0 && pixels > 1 ? spriteOf(id, items, pixels) : null;
    if (sprite) {
      const side = sprite.reach * scale;
      context.drawImage(sprite.image, x - side, y - side, 2 * side, 2 * side);
      return;
    }
    context.save();
    context.translate(x, y);
    if (turn) context.rotate((turn * Math.PI) / 180);
    context.scale(scale, scale);
    paintAll(context, items, { scale: pixels, fade: how.fade });
    context.restore();
  },
  b(context, [, ball, over], how) {
    how.balls.paint(context, ball, (id, x, y, scale) => PAINTERS.u(context, ["u", id, x, y, scale, 0], how));
    paintAll(context, over, how);
  },
  g(context, [, clip, opacity, items], how) {
    if (!clip && opacity === 1) return items.length < MANY ? paintAll(context, items, how) : paintKept(context, items, how);
    context.save();
    if (clip) context.clip(new Path2D(clip));
    context.globalAlpha = how.fade * opacity;
    paintAll(context, items, { ...how, fade: how.fade * opacity });
    context.restore();
  },
  t(context, [, x, y, turn, colour, parts], how) {
    context.save();
    context.translate(x, y);
    if (turn) context.rotate((turn * Math.PI) / 180);
    context.fillStyle = colour;
    for (const [start, rise, scale, glyphs] of parts) {
      context.save();
      context.translate(start, rise);
      context.scale(scale, -scale);
      let at = 0;
      for (const [id, along] of glyphs) {
        context.translate(along - at, 0);
        at = along;
        const outline = known.glyphs.get(id);
        if (outline) context.fill(new Path2D(outline));
      }
      context.restore();
    }
    context.restore();
    context.globalAlpha = how.fade;
  },
};

/** Many strokes over one another, such as a tube's: painted once, then laid on as they are. */
function paintKept(context, items, how) {
  const { a, b, c, d, e, f } = context.getTransform();
  const { width, height } = context.canvas;
  const key = JSON.stringify([width, height, a, b, c, d, e, f, how.fade, items]);
  if (!pictures.has(key)) {
    const image = document.createElement("canvas");
    [image.width, image.height] = [width, height];
    const own = image.getContext("2d");
    own.setTransform(a, b, c, d, e, f);
    paintAll(own, items, how);
    if (pictures.size >= MOST_PICTURES) pictures.delete(pictures.keys().next().value);
    pictures.set(key, image);
  }
  context.save();
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.globalAlpha = 1;
  context.drawImage(pictures.get(key), 0, 0);
  context.restore();
}

function inked(context, style, how, box, draw) {
  dress(context, style, how, box);
  context.beginPath();
  draw(context);
  if (style[0]) context.fill();
  if (style[1]) context.stroke();
  context.globalAlpha = how.fade;
}

function dress(context, style, how, box) {
  const [fill, stroke, width, opacity = 1, dash, round] = style;
  context.globalAlpha = how.fade * opacity;
  if (fill) context.fillStyle = paint(context, fill, box);
  if (!stroke) return;
  context.strokeStyle = paint(context, stroke, box);
  context.lineWidth = width;
  context.setLineDash(dash || []);
  context.lineCap = round ? "round" : "butt";
  context.lineJoin = round ? "round" : "miter";
}

function paint(context, name, box) {
  if (name[0] === "#") return name;
  const [kind, ...figures] = known.paints.get(name);
  const stops = figures.pop();
  const made = kind === "radial" ? radial(context, figures, box) : linear(context, figures, box);
  for (const [offset, colour] of stops) made.addColorStop(offset, colour);
  return made;
}

function radial(context, [cx, cy, r, fx, fy], [x, y, w, h]) {
  const at = (u, v) => [x + u * w, y + v * h];
  return context.createRadialGradient(...at(fx, fy), 0, ...at(cx, cy), r * w);
}

function linear(context, [x1, y1, x2, y2, onSheet], box) {
  if (onSheet) return context.createLinearGradient(x1, y1, x2, y2);
  const [x, y, w, h] = box;
  return context.createLinearGradient(x + x1 * w, y + y1 * h, x + x2 * w, y + y2 * h);
}

/** A symbol of circles and ellipses round its origin, shaded once for this size; else null. */
function spriteOf(id, items, pixels) {
  const size = Math.max(2, Math.ceil(pixels));
  const key = `${id} ${size}`;
  const found = sprites.get(key);
  if (found !== undefined) return found;
  const reach = reachOf(items);
  const made = reach && reach * size < 600 ? shaded(items, reach, size) : null;
  if (sprites.size >= MOST_SPRITES) sprites.clear();
  sprites.set(key, made);
  return made;
}

function shaded(items, reach, size) {
  const image = document.createElement("canvas");
  image.width = image.height = Math.ceil(2 * reach * size);
  const context = image.getContext("2d");
  context.translate(image.width / 2, image.height / 2);
  context.scale(size, size);
  paintAll(context, items, { scale: size, fade: 1 });
  return { image, reach: image.width / 2 / size };
}

function reachOf(items) {
  let most = 0;
  for (const item of items) {
    if (item[0] !== "c" && item[0] !== "e") return 0;
    const [, x, y, a, b] = item;
    most = Math.max(most, Math.hypot(x, y) + (item[0] === "c" ? a : Math.max(a, b)));
  }
  return Math.min(most + 0.02, 1.6);
}
