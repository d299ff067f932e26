// Balls that press on one another: what shows of each, and how it is painted.
//
// The page reckons the outlines itself, from where the balls lie, by the same rules as the drawings
// on paper: seen along an axis, a sphere's front is cut by the planes in which it meets those drawn
// before it, and what shows is bounded by arcs of its silhouette and of those circles. In units of
// the ball's own sphere: radius 1, centre 0; right, up, toward the viewer.

const TAU = 2 * Math.PI;
const MEET = 1e-6;
const FLAT = 0.004; // sheet mm: an ellipse as narrow as this is a line

const FIGURES = ["nx", "ny", "nz", "depth"];
const SILHOUETTE = cut(0, 0, 1, 0, false);

/** What is kept of a unit sphere by a plane: normal . Q > -depth. Their circle has the radius `reach`
    round -depth * normal, along u (in the picture) and w (rising to the viewer). */
function cut(nx, ny, nz, depth, pressed = true) {
  const lean = Math.hypot(nx, ny);
  const reach = Math.sqrt(Math.max(0, 1 - depth * depth));
  if (lean < 1e-12) return { nx, ny, nz, depth, reach, pressed, ux: 1, uy: 0, wx: 0, wy: 1, wz: 0 };
  const ux = -ny / lean;
  const uy = nx / lean;
  return { nx, ny, nz, depth, reach, pressed, ux, uy, wx: -nz * uy, wy: nz * ux, wz: lean };
}

function pointAt(one, angle) {
  const c = one.reach * Math.cos(angle);
  const s = one.reach * Math.sin(angle);
  const k = one.depth;
  return [c * one.ux + s * one.wx - k * one.nx, c * one.uy + s * one.wy - k * one.ny, s * one.wz - k * one.nz];
}

/** Each ball's cuts by those painted before it; `centres` and `radii` in mm, `pairs` those that touch. */
export function cutsOf(centres, radii, pairs, order) {
  const rank = new Array(radii.length).fill(-1);
  order.forEach((ball, place) => { rank[ball] = place; });
  const found = Array.from(radii, () => []);
  for (let k = 0; k < pairs.length; k += 2) {
    const [behind, front] = rank[pairs[k]] < rank[pairs[k + 1]] ? [pairs[k], pairs[k + 1]] : [pairs[k + 1], pairs[k]];
    const [x, y, z] = [0, 1, 2].map((axis) => centres[3 * front + axis] - centres[3 * behind + axis]);
    const apart = Math.max(Math.sqrt(x * x + y * y + z * z), 1e-9);
    const depth = (apart * apart + radii[front] ** 2 - radii[behind] ** 2) / (2 * apart * radii[front]);
    if (depth < 1 && Math.hypot(x, y) / apart > depth) found[front].push(cut(x / apart, y / apart, z / apart, depth));
  }
  return found;
}

/** The arcs that bound what shows, the shown part on their left; none where nothing shows. */
export function bowsOf(cuts) {
  const walls = [SILHOUETTE, ...cuts];
  if (walls.some((wall) => wall.depth <= -1)) return [];
  return walls.filter((wall) => wall.depth < 1).flatMap((wall) => kept(wall, walls));
}

function kept(wall, walls) {
  const waves = walls.filter((other) => other !== wall).map((other) => wave(wall, other));
  const ends = waves.filter(([, half]) => half > 0 && half < Math.PI).flatMap(([lead, half]) => [turned(lead - half), turned(lead + half)]);
  if (!ends.length) return waves.every(([, half]) => half >= Math.PI) ? [{ cut: wall, start: 0, end: TAU }] : [];
  ends.sort((a, b) => a - b);
  const last = ends.map((_, k) => (k + 1 < ends.length ? ends[k + 1] : ends[0] + TAU));
  const good = ends.map((a, k) => waves.every(([lead, half]) => within((a + last[k]) / 2, lead, half)));
  const turn = good.indexOf(false);
  if (turn < 0) return [{ cut: wall, start: 0, end: TAU }];
  const stretches = [];
  let start = null;
  for (let step = 0; step < ends.length; step += 1) {
    const k = (turn + step) % ends.length;
    const from = ends[k] + (turn + step >= ends.length ? TAU : 0);
    if (good[k] && start === null) start = from;
    if (!good[k] && start !== null) {
      stretches.push({ cut: wall, start, end: from });
      start = null;
    }
  }
  if (start !== null) stretches.push({ cut: wall, start, end: ends[turn] + TAU });
  return stretches;
}

/** Lead and half width of the angles of a wall's circle that another cut keeps. */
function wave(wall, other) {
  const { nx, ny, nz } = other;
  const a = wall.reach * (nx * wall.ux + ny * wall.uy);
  const b = wall.reach * (nx * wall.wx + ny * wall.wy + nz * wall.wz);
  const c = other.depth - wall.depth * (nx * wall.nx + ny * wall.ny + nz * wall.nz);
  const swing = Math.hypot(a, b);
  if (swing <= Math.abs(c)) return [0, c > 0 ? Math.PI : 0];
  return [Math.atan2(b, a), Math.acos(-c / swing)];
}

function turned(angle) {
  return ((angle % TAU) + TAU) % TAU;
}

function within(angle, lead, half) {
  return Math.abs(turned(angle - lead + Math.PI) - Math.PI) < half;
}

/** Arcs put head to tail into closed loops. */
export function loopsOf(bows) {
  const left = bows.map((bow) => ({ bow, from: pointAt(bow.cut, bow.start), to: pointAt(bow.cut, bow.end) }));
  const loops = [];
  while (left.length) {
    const loop = [left.shift()];
    while (left.length && !closed(loop)) {
      const end = loop.at(-1).to;
      const away = left.map((one) => distance(end, one.from));
      loop.push(...left.splice(away.indexOf(Math.min(...away)), 1));
    }
    loops.push(loop.map((one) => one.bow));
  }
  return loops;
}

function closed(loop) {
  if (loop[0].bow.end - loop[0].bow.start >= TAU - 1e-9) return true;
  return loop.length > 1 && distance(loop.at(-1).to, loop[0].from) < MEET;
}

function distance(a, b) {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/** Adds an arc to a path in sheet mm; the first one begins it where `pen` is up. */
function trace(path, bow, [x, y], radius, begin) {
  const { cut: one, start, end } = bow;
  const along = one.reach * radius * Math.abs(one.nz);
  if (begin) path.moveTo(...seen(one, start, [x, y], radius));
  if (along < FLAT) {
    path.lineTo(...seen(one, start, [x, y], radius));
    path.lineTo(...seen(one, end, [x, y], radius));
    return;
  }
  const [cx, cy] = [x - one.depth * one.nx * radius, y + one.depth * one.ny * radius];
  const back = one.nz > 0; // y runs down on the sheet: what turns left there turns right here
  path.ellipse(cx, cy, one.reach * radius, along, Math.atan2(-one.uy, one.ux), back ? -start : start, back ? -end : end, back);
}

function seen(one, angle, [x, y], radius) {
  const point = pointAt(one, angle);
  return [x + point[0] * radius, y - point[1] * radius];
}

/** The closed path round what shows; the silhouette's arcs swing `margin` wide of it. */
export function outline(path, loops, at, radius, margin = 1) {
  for (const loop of loops) {
    loop.forEach((bow, k) => trace(path, bow, at, radius * (bow.cut.pressed ? 1 : margin), k === 0));
    path.closePath();
  }
  return path;
}

/** The balls of one drawing; those `before` that lie as they did lend their outlines. */
export class Balls {
  constructor(drawing, before = null) {
    const { balls: told, scale, origin } = drawing;
    const order = ["back", "numerals", "front"].flatMap((part) => drawing[part].items.filter(([kind]) => kind === "b").map(([, ball]) => ball));
    Object.assign(this, { told, scale, origin });
    this.centres = figures(told.centres, Float64Array);
    this.radii = figures(told.radii, Float64Array);
    this.cuts = cutsOf(this.centres, this.radii, figures(told.pairs, Int32Array), order);
    this.hung = [scale, ...origin, JSON.stringify(told.crease)].join(" ");
    this.forms = new Map([...(before?.forms || [])].filter(([ball]) => this.lies(ball, before)));
  }

  /** Whether a ball has the same outline as in another drawing. */
  lies(ball, other) {
    if (this.hung !== other.hung || !this.cuts[ball] || !other.cuts[ball]) return false;
    const [mine, theirs] = [this.cuts[ball], other.cuts[ball]];
    if (this.radii[ball] !== other.radii[ball] || mine.length !== theirs.length) return false;
    for (let k = 3 * ball; k < 3 * ball + 3; k += 1) if (this.centres[k] !== other.centres[k]) return false;
    return mine.every((one, k) => FIGURES.every((name) => one[name] === theirs[k][name]));
  }

  /** Whether a ball is painted as it is in another drawing. */
  same(ball, other) {
    return this.lies(ball, other) && this.worn(ball) === other.worn(ball);
  }

  worn(ball) {
    return this.told.looks[this.told.look[ball]]?.join(" ");
  }

  at(ball) {
    return [this.origin[0] + this.centres[3 * ball] * this.scale, this.origin[1] - this.centres[3 * ball + 1] * this.scale];
  }

  /** What is drawn of a ball in any colour: its paths, and the rings that shade its creases. */
  form(ball) {
    if (!this.forms.has(ball)) this.forms.set(ball, this.formed(ball));
    return this.forms.get(ball);
  }

  formed(ball) {
    const bows = bowsOf(this.cuts[ball]);
    const pressed = bows.filter((bow) => bow.cut.pressed);
    if (!pressed.length) return { shows: bows.length > 0, pressed: null };
    const at = this.at(ball);
    const radius = this.radii[ball] * this.scale;
    const { clip, seam } = this.told.crease;
    const loops = loopsOf(bows);
    const lines = new Path2D();
    for (const bow of pressed) trace(lines, bow, at, radius, true);
    return {
      shows: true,
      pressed: pressed.map((bow) => this.ring(bow.cut, at, radius)),
      close: outline(new Path2D(), loops, at, radius),
      wide: outline(new Path2D(), loops, at, radius, clip),
      lines,
      seam: Math.max(seam.share * radius, seam.least),
    };
  }

  /** Shade along a crease: the ring whose inside follows it, and where that ring is put. */
  ring(one, at, radius) {
    const { wide, bent, straight, step, first, rings } = this.told.crease;
    const middle = -one.depth * one.wz - one.reach * Math.abs(one.nz);
    const end = -one.depth / one.wz;
    const bulge = Math.max(end - middle, 1e-6);
    const bend = Math.min(Math.max((Math.max(0, 1 - end * end) + bulge * bulge) / (2 * bulge), bent), straight);
    const reach = ((middle + bend) * radius) / one.wz;
    const place = Math.round(Math.log(wide / bend) / Math.log(step)) - first;
    return [rings[place], at[0] + one.nx * reach, at[1] - one.ny * reach, bend * radius];
  }

  /** Paints one ball; `place` puts a symbol (id, x, y, scale). */
  paint(context, ball, place) {
    const form = this.form(ball);
    if (!form.shows) return;
    const [x, y] = this.at(ball);
    const radius = this.radii[ball] * this.scale;
    const [shadow, body, skin] = this.told.looks[this.told.look[ball]];
    if (shadow) place(shadow, x, y, radius);
    if (!form.pressed) {
      place(body, x, y, radius);
      place(skin, x, y, radius);
      return;
    }
    context.save();
    context.clip(form.wide);
    place(body, x, y, radius);
    context.save();
    context.clip(form.close);
    for (const ring of form.pressed) place(...ring);
    context.restore();
    place(skin, x, y, radius);
    context.restore();
    this.seam(context, form);
  }

  seam(context, form) {
    const { colour, opacity } = this.told.crease.seam;
    const full = context.globalAlpha;
    context.globalAlpha = full * opacity;
    context.strokeStyle = colour;
    context.lineWidth = form.seam;
    context.lineCap = "butt";
    context.lineJoin = "miter";
    context.setLineDash([]);
    context.stroke(form.lines);
    context.globalAlpha = full;
  }
}

/** Numbers that came as base64 of their bytes, the lowest byte first. */
function figures(text, Kind) {
  const signs = atob(text);
  const bytes = new Uint8Array(signs.length);
  for (let k = 0; k < signs.length; k += 1) bytes[k] = signs.charCodeAt(k);
  return new Kind(bytes.buffer);
}
