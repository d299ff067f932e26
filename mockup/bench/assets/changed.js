// What of a drawing is to be painted anew: the box round all that differs from the one before.

const WIDE = 1.6; // of a ball's radius: its shadow reaches further than it does

/** Of each part, the box [left, top, right, bottom] (sheet mm) round what differs: null where that is
    everything, [] where it is nothing. `before` and `after` are { size, parts, balls }. */
export function changed(before, after) {
  const stays = before && ["width", "height", "scale"].every((key) => before.size[key] === after.size[key])
    && before.size.origin.every((value, axis) => value === after.size.origin[axis]);
  return Object.fromEntries(Object.keys(after.parts).map((name) => [name, stays ? boxOf(name, before, after) : null]));
}

function boxOf(name, before, after) {
  const own = (one, other) => one.parts[name].items.map((item) => [named(item), item, one]).map(([key, item]) => ({
    key, item, kept: item[0] !== "b" || one.balls.same(item[1], other.balls),
  }));
  const [old, now] = [own(before, after), own(after, before)];
  const shared = (mine, theirs) => {
    const known = new Set(theirs.filter((one) => one.kept).map((one) => one.key));
    return mine.map((one) => ({ ...one, kept: one.kept && known.has(one.key) }));
  };
  const [was, is] = [shared(old, now), shared(now, old)];
  const order = (list) => list.filter((one) => one.kept).map((one) => one.key).join("\n");
  if (order(was) !== order(is)) return null;
  return around([
    ...was.filter((one) => !one.kept).map((one) => reach(one.item, before.balls)),
    ...is.filter((one) => !one.kept).map((one) => reach(one.item, after.balls)),
  ]);
}

/** An item as words: what is painted alike has the same ones. */
function named(item) {
  return item[0] === "b" && !item[2].length ? `b${item[1]}` : JSON.stringify(item);
}

/** The box round boxes: [] round none, null where one of them is not known. */
function around(boxes) {
  if (boxes.includes(null)) return null;
  return boxes.reduce((all, box) => {
    if (!all.length || !box.length) return all.length ? all : box;
    return [Math.min(all[0], box[0]), Math.min(all[1], box[1]), Math.max(all[2], box[2]), Math.max(all[3], box[3])];
  }, []);
}

/** The box that an item is painted in; null where it is not known. */
export function reach(item, balls) {
  const find = REACHES[item[0]];
  return find ? find(item, balls) : null;
}

const REACHES = {
  c: ([, x, y, r, style]) => square(x, y, r + stroke(style)),
  e: ([, x, y, rx, ry, , style]) => square(x, y, Math.max(rx, ry) + stroke(style)),
  l: ([, x1, y1, x2, y2, style]) => grown([Math.min(x1, x2), Math.min(y1, y2), Math.max(x1, x2), Math.max(y1, y2)], stroke(style)),
  r: ([, x, y, w, h, , style]) => grown([x, y, x + w, y + h], stroke(style)),
  p: ([, d, style]) => grown(pathBox(d), stroke(style)),
  u: ([, id, x, y, scale]) => (id.startsWith("ball-") ? square(x, y, WIDE * scale) : null), // a knot is a small ball
  b: ([, ball, over], balls) => around([square(...balls.at(ball), WIDE * balls.radii[ball] * balls.scale), ...over.map((item) => reach(item, balls))]),
  g: ([, , , items], balls) => around(items.map((item) => reach(item, balls))),
};

function square(x, y, half) {
  return [x - half, y - half, x + half, y + half];
}

function stroke(style) {
  return style[1] ? 2 * style[2] : 0;
}

function grown(box, by) {
  return box && box.length ? [box[0] - by, box[1] - by, box[2] + by, box[3] + by] : box;
}

/** Round the points of a path, its curves' handles and twice the radii of its arcs; null for other letters. */
function pathBox(d) {
  const parts = d.match(/[A-Za-z][^A-Za-z]*/g) || [];
  const boxes = parts.map((part) => {
    const figures = (part.slice(1).match(/-?[\d.]+(?:e-?\d+)?/gi) || []).map(Number);
    if (part[0] === "Z") return [];
    if (part[0] === "A") return around(runs(figures, 7).map(([rx, ry, , , , x, y]) => square(x, y, 2 * Math.max(rx, ry))));
    if ("MLCQ".includes(part[0])) return around(runs(figures, 2).map(([x, y]) => square(x, y, 0)));
    return null;
  });
  return around(boxes);
}

function runs(figures, size) {
  return Array.from({ length: Math.floor(figures.length / size) }, (_, k) => figures.slice(size * k, size * (k + 1)));
}

/** Whether two boxes share anything. */
export function meet(one, other) {
  return one[0] < other[2] && other[0] < one[2] && one[1] < other[3] && other[1] < one[3];
}
