// The file itself: its text both ways, with the faults at their lines.

import { element } from "./make.js";

const WAIT = 140;

export class Text {
  constructor(write) {
    this.area = document.getElementById("toml");
    this.numbers = document.getElementById("numbers");
    this.faults = document.getElementById("faults");
    this.sent = "";
    this.timer = 0;
    this.area.addEventListener("input", () => {
      this.count();
      clearTimeout(this.timer);
      this.timer = setTimeout(() => this.send(write), WAIT);
    });
    this.area.addEventListener("scroll", () => { this.numbers.scrollTop = this.area.scrollTop; });
  }

  /** Whether words typed here have not reached the server yet. */
  get typing() {
    return this.timer !== 0;
  }

  send(write) {
    this.timer = 0;
    this.sent = this.area.value;
    write(this.area.value);
  }

  show(text, faults) {
    if (!this.typing && this.area.value !== text) {
      const caret = Math.min(this.area.selectionStart, text.length);
      const top = this.area.scrollTop;
      this.area.value = text;
      this.area.setSelectionRange(caret, caret);
      this.area.scrollTop = top;
    }
    this.wrong = new Set(faults.map((one) => one.line));
    this.area.setAttribute("aria-invalid", String(faults.length > 0));
    this.count();
    this.faults.replaceChildren(...faults.map((one) => element("li", {},
      element("button", { type: "button", onclick: () => this.go(one.line) },
        element("strong", {}, `Line ${one.line}`), ` ${one.what}${one.instead ? `; ${one.instead}` : ""}.`))));
  }

  count() {
    const lines = this.area.value.split("\n").length;
    const wrong = this.wrong || new Set();
    const key = `${lines} ${[...wrong]}`;
    if (this.counted === key) return;
    this.counted = key;
    this.numbers.replaceChildren(...Array.from({ length: lines }, (_, k) => element("div", { class: wrong.has(k + 1) ? "wrong" : "" }, String(k + 1))));
    this.numbers.scrollTop = this.area.scrollTop;
  }

  go(line) {
    const before = this.area.value.split("\n").slice(0, line - 1).join("\n").length;
    const start = line > 1 ? before + 1 : 0;
    const end = this.area.value.indexOf("\n", start);
    this.area.focus();
    this.area.setSelectionRange(start, end < 0 ? this.area.value.length : end);
  }
}
