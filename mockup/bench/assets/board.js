// The drawing, in three layers, with our own marks over it; what a hand does on it.

import { changed } from "./changed.js";
import { PARTS, learned, play } from "./player.js";
import { element, mark } from "./make.js";

const NEAR = 6;
const UNSEEN = 0.2; // of a pixel: how far numerals may stand off before they are painted anew

export class Board {
  /** `tell` is called with ("pick", cluster, place), ("end", section, side, count, hold),
      ("raise", mm, hold), ("feel", mm) and ("say", words). */
  constructor(home, tell) {
    this.home = home;
    this.tell = tell;
    this.canvases = PARTS.map((name) => home.appendChild(element("canvas", { class: name })));
    this.marks = home.appendChild(mark("svg", { class: "marks", "aria-hidden": "true" }));
    this.parts = null;
    this.balls = null;
    this.speck = element("canvas", { width: 1, height: 1 }).getContext("2d");
    this.hung = null;
    this.places = null;
    this.size = null;
    this.chosen = new Set();
    this.shown = new Set();
    this.cursor = { cluster: -1, place: -1 };
    this.drag = null;
    new ResizeObserver(() => this.fit()).observe(home);
    home.addEventListener("pointerdown", (event) => this.down(event));
    home.addEventListener("pointermove", (event) => this.move(event));
    home.addEventListener("pointerup", (event) => this.up(event));
    home.addEventListener("pointercancel", () => this.drop());
    home.addEventListener("keydown", (event) => this.key(event));
  }

  /** Another drawing (null leaves the last good one) and where everything on it is. */
  show(drawing, places) {
    this.places = places;
    if (drawing) {
      const before = this.parts && { size: this.size, parts: this.parts, balls: this.balls };
      this.size = drawing;
      this.parts = Object.fromEntries(PARTS.map((name) => [name, drawing[name]]));
      this.balls = learned(drawing, this.balls);
      if (!this.fit()) this.repaint(changed(before, { size: drawing, parts: this.parts, balls: this.balls }));
      this.canvases[1].style.transform = "";
    }
    this.mark();
  }

  /** Sets the layers to the room there is; true where everything was painted anew. */
  fit() {
    if (!this.size) return false;
    const { clientWidth: wide, clientHeight: high } = this.home;
    if (!wide || !high) return false;
    const css = Math.min(wide / this.size.width, high / this.size.height);
    const dense = Math.min(window.devicePixelRatio || 1, 2);
    const pixels = [Math.round(this.size.width * css * dense), Math.round(this.size.height * css * dense)];
    this.css = css;
    this.scale = pixels[0] / this.size.width;
    const first = this.canvases[0];
    if (first.width === pixels[0] && first.height === pixels[1]) return false;
    for (const each of [...this.canvases, this.marks]) {
      each.style.width = `${this.size.width * css}px`;
      each.style.height = `${this.size.height * css}px`;
    }
    for (const canvas of this.canvases) [canvas.width, canvas.height] = pixels;
    this.marks.setAttribute("viewBox", `0 0 ${this.size.width} ${this.size.height}`);
    PARTS.forEach((_, k) => this.paint(k));
    this.mark();
    return true;
  }

  /** Paints what lies in the box of each part; all of it where that is null. */
  repaint(boxes) {
    for (const [k, name] of PARTS.entries()) {
      if (name === "numerals") {
        if (!alike(this.hung, this.parts[name].items, UNSEEN / this.scale)) this.paint(k);
      } else if (!boxes[name]) this.paint(k);
      else if (boxes[name].length) this.paint(k, boxes[name]);
    }
  }

  paint(k, box = null) {
    const canvas = this.canvases[k];
    const context = canvas.getContext("2d");
    context.setTransform(1, 0, 0, 1, 0, 0);
    const [left, top] = box ? box.slice(0, 2).map((mm) => Math.max(0, Math.floor(mm * this.scale) - 1)) : [0, 0];
    const [right, bottom] = box ? box.slice(2).map((mm) => Math.ceil(mm * this.scale) + 1) : [canvas.width, canvas.height];
    const within = box && [left, top, right, bottom].map((pixels) => pixels / this.scale);
    context.save();
    context.beginPath();
    context.rect(left, top, right - left, bottom - top); // whole pixels: nothing is blended at its edge
    context.clip();
    context.clearRect(left, top, right - left, bottom - top);
    play(context, this.parts[PARTS[k]], this.scale, this.balls, within);
    context.restore();
    // A canvas puts its strokes off until it is looked at: better now than within the next frame.
    this.speck.drawImage(canvas, 0, 0, 1, 1, 0, 0, 1, 1);
    if (PARTS[k] === "numerals") this.hung = this.parts.numerals.items;
  }

  // Marks -------------------------------------------------------------------

  choose(clusters) {
    this.chosen = new Set(clusters);
    this.mark();
  }

  point(balloons) {
    this.shown = new Set(balloons);
    this.mark();
  }

  mark() {
    if (!this.places) return;
    const made = [];
    this.places.balloons.forEach(([x, y, r, , cluster], index) => {
      const kinds = [];
      if (this.chosen.has(cluster)) kinds.push("chosen");
      if (this.shown.has(index)) kinds.push("pointed");
      if (this.drag?.touches?.includes(index)) kinds.push("touched");
      if (kinds[0] === "chosen") made.push(mark("circle", { cx: x, cy: y, r: r + 0.4, class: "halo" }));
      for (const kind of kinds) made.push(mark("circle", { cx: x, cy: y, r: r + 0.4, class: kind }));
    });
    const at = this.places.clusters[this.cursor.cluster];
    if (at && this.cursor.place >= 0) {
      const [x, y, r] = this.places.balloons[at.balloons[this.cursor.place]];
      made.push(mark("circle", { cx: x, cy: y, r: r * 0.55, class: "cursor" }));
    }
    this.places.sections.forEach((section, number) => {
      for (const [side, spot] of Object.entries(section.ends)) {
        if (spot) made.push(mark("circle", { cx: spot[0], cy: spot[1], r: this.reach(), class: "end", "data-end": `${number} ${side}` }));
      }
    });
    this.marks.replaceChildren(...made);
  }

  /** The radius of a handle, in sheet mm: large enough for a finger. */
  reach() {
    return Math.max(2.4, 11 / (this.css || 1));
  }

  // Pointer -----------------------------------------------------------------

  spot(event) {
    const box = this.canvases[0].getBoundingClientRect();
    return [(event.clientX - box.left) / this.css, (event.clientY - box.top) / this.css];
  }

  balloonAt([x, y]) {
    let found = -1;
    this.places.balloons.forEach(([bx, by, r, z], index) => {
      if (Math.hypot(x - bx, y - by) > r) return;
      if (found < 0 || z > this.places.balloons[found][3]) found = index;
    });
    return found;
  }

  endAt([x, y]) {
    for (const [number, section] of this.places.sections.entries()) {
      for (const [side, spot] of Object.entries(section.ends)) {
        if (spot && Math.hypot(x - spot[0], y - spot[1]) <= this.reach()) return { section: number, side };
      }
    }
    return null;
  }

  onNumerals([x, y], balloon) {
    const row = this.places.numerals;
    if (!row) return false;
    const [x0, y0, x1, y1] = row.box;
    const within = x >= x0 && x <= x1 && y >= y0 && y <= y1;
    return within && (balloon < 0 || this.places.balloons[balloon][3] < row.depth);
  }

  down(event) {
    if (!this.places || event.button > 0) return;
    const at = this.spot(event);
    const balloon = this.balloonAt(at);
    const end = this.endAt(at);
    const kind = end ? "end" : this.onNumerals(at, balloon) ? "numerals" : balloon >= 0 ? "balloon" : "";
    if (!kind) return this.tell("pick", -1, -1);
    this.drag = { kind, at, balloon, moved: false, hold: crypto.randomUUID(), ...end };
    this.home.setPointerCapture(event.pointerId);
    event.preventDefault();
    this.home.focus({ preventScroll: true });
  }

  move(event) {
    if (!this.drag) return this.hover(event);
    const at = this.spot(event);
    const away = Math.hypot(at[0] - this.drag.at[0], at[1] - this.drag.at[1]) * this.css;
    if (away > NEAR) this.drag.moved = true;
    if (!this.drag.moved) return;
    if (this.drag.kind === "numerals") this.moveNumerals(at);
    if (this.drag.kind === "end") this.moveEnd(at);
  }

  hover(event) {
    if (!this.places) return;
    const at = this.spot(event);
    const balloon = this.balloonAt(at);
    const grip = this.endAt(at) ? "grab" : this.onNumerals(at, balloon) ? "ns-resize" : balloon >= 0 ? "pointer" : "";
    this.home.style.cursor = grip;
  }

  moveNumerals(at) {
    const down = at[1] - this.drag.at[1];
    this.canvases[1].style.transform = `translateY(${down * this.css}px)`;
    this.drag.raised = this.places.numerals.raised - down / this.size.scale;
    this.tell("feel", this.drag.raised);
  }

  /** What the numerals would do where they are held now. */
  felt(told) {
    if (!this.drag) return;
    this.drag.touches = told.verdict === "clear" ? [] : told.touches;
    this.home.dataset.verdict = told.verdict;
    this.mark();
  }

  moveEnd(at) {
    const { section, side, hold } = this.drag;
    const count = this.countAt(section, side, at);
    if (count === this.drag.count) return;
    this.drag.count = count;
    this.tell("end", section, side, count, hold);
  }

  /** How many clusters a side reach to a point: the nearest one's step, or further ones beyond the
      last at the angle of the last two. */
  countAt(number, side, at) {
    const own = this.places.clusters.filter((one) => one.section === number && !one.cap && (one.side === side || one.side === "middle"));
    own.sort((a, b) => a.step - b.step);
    const angle = ([x, y]) => Math.atan2(y - this.size.origin[1], x - this.size.origin[0]);
    const turned = (from, to) => Math.atan2(Math.sin(to - from), Math.cos(to - from));
    const middle = this.places.sections[number].middle;
    const outward = Math.sign(turned(angle(middle), angle(this.places.sections[number].ends[side])) || this.outward(number, side, middle));
    const from = (spot) => outward * turned(angle(middle), angle(spot));
    const steps = own.map((one) => from(one.at));
    const aim = from(at);
    const last = steps.at(-1);
    const stride = own.length > 1 ? last - steps.at(-2) : 0.2;
    const least = own[0].step === 0 ? 0 : 1;
    if (aim > last) return own.at(-1).step + Math.round((aim - last) / stride);
    const near = steps.reduce((best, one, k) => (Math.abs(one - aim) < Math.abs(steps[best] - aim) ? k : best), 0);
    return Math.max(least, own[near].step);
  }

  /** Which way a side lies from the middle on the screen, as a turn (clockwise is above 0). */
  outward(number, side, middle) {
    const below = middle[1] > this.size.origin[1] + 0.01;
    return (side === "right") === below ? -1 : 1;
  }

  up(event) {
    const drag = this.drag;
    if (!drag) return;
    this.drag = null;
    delete this.home.dataset.verdict;
    if (drag.kind === "numerals" && drag.moved) return this.tell("raise", drag.raised, drag.hold);
    if (drag.kind === "end") return this.mark();
    if (drag.balloon >= 0 && !drag.moved) {
      const cluster = this.places.balloons[drag.balloon][4];
      return this.tell("pick", cluster, this.places.clusters[cluster].balloons.indexOf(drag.balloon));
    }
    this.canvases[1].style.transform = "";
    if (!drag.moved) this.tell("numerals");
    return this.hover(event);
  }

  drop() {
    this.drag = null;
    this.canvases[1].style.transform = "";
    this.mark();
  }

  // Keys --------------------------------------------------------------------

  key(event) {
    if (!this.places || event.ctrlKey || event.metaKey || event.altKey) return;
    const count = this.places.clusters.length;
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    const inside = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step && count) {
      this.cursor = { cluster: (this.cursor.cluster + step + count) % count, place: -1 };
      this.tell("walk", this.cursor.cluster, -1);
    } else if (inside && this.cursor.cluster >= 0) {
      const size = this.places.clusters[this.cursor.cluster].balloons.length;
      this.cursor.place = (this.cursor.place + inside + size + 1) % (size + 1);
      if (this.cursor.place === size) this.cursor.place = -1;
      this.tell("walk", this.cursor.cluster, this.cursor.place);
    } else if (/^[a-z]$/i.test(event.key) && this.cursor.cluster >= 0) {
      this.tell("letter", this.cursor.cluster, this.cursor.place, event.key.toUpperCase());
    } else if (event.key === "Escape") {
      this.cursor = { cluster: -1, place: -1 };
      this.tell("pick", -1, -1);
    } else {
      return;
    }
    event.preventDefault();
  }
}

/** Whether two lists are the same but for figures that differ by less than `slack`. A settling moves
    the numerals by hundredths of a millimetre, and they are the dearest part to paint. */
function alike(a, b, slack) {
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) < slack;
  if (!Array.isArray(a) || !Array.isArray(b)) return a === b;
  return a.length === b.length && a.every((one, k) => alike(one, b[k], slack));
}
