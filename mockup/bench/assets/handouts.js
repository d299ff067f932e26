// The panels that are worked out on demand: options, ideas, what to buy, and the papers.

import { buying } from "./buying.js";
import { ideas } from "./ideas.js";
import { options } from "./options.js";
import { PAPERS, papers } from "./papers.js";
import { call } from "./wire.js";

const SOON = 350;
const ASK = 250;

/** `hands` is what the page lends: its state and look, and ways to act, tell and fail. */
export class Handouts {
  constructor(hands) {
    this.hands = hands;
    this.open = "";
    this.timer = 0;
    this.told = {};
    this.made = {};
    this.seeking = null;
    this.making = "";
  }

  /** A tab was opened. */
  shown(name) {
    this.open = name;
    this.draw();
    this.load();
  }

  /** The piece is another one now; what is open is worked out anew when the hand rests. */
  changed() {
    clearTimeout(this.timer);
    this.draw();
    if (["options", "buying"].includes(this.open)) {
      document.getElementById(this.open).setAttribute("aria-busy", "true");
      this.timer = setTimeout(() => this.load(), SOON);
    }
  }

  async load() {
    const name = this.open;
    const { state, look } = this.hands;
    if (!["options", "buying"].includes(name) || !state.design) return;
    if (state.faults.length) return this.settled(name, this.told[name]);
    if (name === "options" && !(state.given?.option || []).length) return this.settled(name, null);
    const panel = document.getElementById(name);
    panel.setAttribute("aria-busy", "true");
    try {
      const told = await call(name, { look });
      if (told.version === state.version) this.settled(name, told);
    } catch (trouble) {
      if (trouble.told) this.settled(name, { trouble: trouble.message });
      else this.hands.failed(trouble);
    }
  }

  settled(name, told) {
    this.told[name] = told;
    document.getElementById(name).setAttribute("aria-busy", "false");
    this.draw();
  }

  draw() {
    const make = { options, ideas, buying, papers }[this.open];
    const { state } = this.hands;
    if (!make || !state.design || !state.given) return;
    const panel = document.getElementById(this.open);
    const focus = panel.contains(document.activeElement) ? document.activeElement.dataset.key : "";
    const typed = Object.fromEntries([...panel.querySelectorAll("[data-kept]")].map((one) => [one.dataset.kept, one.value]));
    panel.replaceChildren(...make(this).filter(Boolean));
    for (const one of panel.querySelectorAll("[data-kept]")) if (typed[one.dataset.kept] !== undefined) one.value = typed[one.dataset.kept];
    if (focus) panel.querySelector(`[data-key="${CSS.escape(focus)}"]`)?.focus({ preventScroll: true });
  }

  /** Makes a paper; answers with what was made, or with nothing. */
  async make(kind) {
    const name = PAPERS.find((one) => one.kind === kind).name;
    this.making = kind;
    this.draw();
    this.hands.say(`Making ${name} ...`);
    const made = await this.hands.line.put("paper", { kind });
    this.making = "";
    if (made) {
      this.made[kind] = made;
      this.hands.say(`Wrote ${made.name}.`);
    } else {
      this.hands.say("");
    }
    this.hands.bar();
    this.draw();
    return made;
  }

  async seek() {
    try {
      this.seeking = await call("seek");
      this.draw();
      while (this.seeking.running) {
        await new Promise((done) => setTimeout(done, ASK));
        this.seeking = { ...await call("sought", { stop: this.seeking.stopping === true }), stopping: this.seeking.stopping };
        if (this.open === "ideas") this.draw();
      }
      this.hands.say(this.seeking.says.join(" "));
    } catch (trouble) {
      this.seeking = null;
      this.draw();
      this.hands.failed(trouble);
    }
  }

  stop() {
    if (this.seeking) this.seeking.stopping = true;
    this.draw();
  }
}
