// Options side by side: the piece as it is and each option of its file, with the same figures.

import { button, choices, element, field } from "./make.js";
import { paint } from "./start.js";

export function options(handouts) {
  const { state } = handouts.hands;
  const told = (state.given.option || []).length ? handouts.told.options : null;
  return [
    element("h2", {}, "Options"),
    element("p", { class: "aside" }, "An option is this piece with something in other words: another ring, other numerals, other colours. Here they stand side by side."),
    told && told.trouble ? element("p", { class: "verdict look" }, told.trouble) : null,
    ...(told && told.versions ? compared(told) : []),
    listed(handouts),
    adding(handouts),
  ];
}

function compared(told) {
  return [
    element("div", { class: "versions", tabindex: 0, role: "group", "aria-label": "The versions drawn" }, ...told.versions.map((one) => version(one))),
    element("div", { class: "scrolls", tabindex: 0, role: "group", "aria-label": "The figures of the versions" }, element("table", {},
      element("caption", {}, "Figures"),
      element("thead", {}, element("tr", {}, element("td"), ...told.versions.map((one) => element("th", { scope: "col" }, one.name)))),
      element("tbody", {}, ...told.rows.map((row) => element("tr", {}, element("th", { scope: "row" }, row.label),
        ...row.cells.map((cell, k) => element("td", { class: row.best[k] ? "best" : "" }, row.best[k] ? `${cell} (${row.word})` : cell))))))),
  ];
}

function version(one) {
  const canvas = element("canvas", { width: 440, height: 440, role: "img", "aria-label": `${one.name}, drawn` });
  paint(canvas, one.drawing);
  return element("figure", {}, element("div", { class: "sheet" }, canvas),
    element("figcaption", {}, element("strong", {}, one.name), element("br"),
      element("span", { class: one.failing.length ? "fails mark" : "holds mark" }, one.failing.length ? `fails: ${one.failing.join(", ")}` : "all hold")));
}

function listed(handouts) {
  const { state, act } = handouts.hands;
  const list = state.given.option || [];
  if (!list.length) return null;
  return element("ul", { class: "letters" }, ...list.map((one, place) => element("li", {},
    element("span", { class: "named" }, one.name),
    button("Remove", () => act([{ do: "remove", path: ["option", place] }]), { "aria-label": `Remove option ${one.name}`, "data-key": `option.${place}.remove` }))),
  element("li", {}, button("Print them", async () => {
    const made = await handouts.make("options");
    if (made) handouts.hands.wrote(made);
  }, { "data-key": "options.print" })));
}

function adding(handouts) {
  const { state, act } = handouts.hands;
  const given = state.given;
  const ring = given.frame?.outside !== undefined && ["ring", "arc", undefined].includes(given.frame.kind);
  const kept = (name, more = {}) => element("input", { type: "text", name, "data-kept": name, "data-key": `adding.${name}`, maxlength: 40, ...more });
  const said = element("p", { class: "trouble", role: "alert" });
  const form = element("form", { class: "block", "aria-label": "Another option" },
    element("h3", {}, "Another option"),
    element("div", { class: "pair" },
      field("What is it called?", kept("name", { required: true, placeholder: "smaller ring" })),
      ring ? field("On a ring of", kept("outside", { placeholder: String(given.frame.outside) })) : null,
      given.panel !== undefined ? field("Numerals of a height of", kept("height", { placeholder: String(given.panel.height || "16in") })) : null,
      (given.colourway || []).length ? field("In the colourway", choices([["", "the first"], ...given.colourway.map((one) => [one.name, one.name])], "", { name: "way", "data-kept": "way" })) : null),
    said,
    element("button", { type: "submit", "data-key": "adding.submit" }, "Put it beside the others"));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const told = new FormData(form);
    const value = patch(told);
    if (Object.keys(value).length < 2) said.textContent = "Say what is other in it: a ring, a height, a colourway.";
    else if (await act([{ do: "insert", path: ["option"], at: (given.option || []).length, value }])) form.reset();
  });
  return form;
}

function patch(told) {
  const word = (name) => String(told.get(name) ?? "").trim();
  const value = { name: word("name") };
  if (word("outside")) value.frame = { outside: word("outside") };
  if (word("height")) value.panel = { height: word("height") };
  if (word("way")) value.colourway = word("way");
  return value;
}
