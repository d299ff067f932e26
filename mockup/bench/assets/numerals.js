// The numerals in the opening.

import { button, choices, element, field } from "./make.js";
import { at, set, unset, words } from "./shape.js";

export function numerals(state, act) {
  const given = state.given;
  if (given.panel === undefined) {
    return [
      element("h2", {}, "Numerals"),
      element("p", { class: "aside" }, "There are none in the opening."),
      button("Put numerals in", () => act([set(["panel"], { numerals: "1", height: "12in" })]), { class: "add" }),
    ];
  }
  const told = state.places.numerals;
  const letters = Object.entries(state.design.colours);
  const foil = at(given, ["panel", "colour"]);
  const options = [["", "brass"], ...letters.map(([letter, one]) => [letter, `${letter}  ${one.name}`])];
  if (foil !== undefined && !letters.some(([letter]) => letter === foil)) options.push(["-", typeof foil === "string" ? foil : "as written"]);
  const chosen = foil === undefined ? "" : letters.some(([letter]) => letter === foil) ? foil : "-";
  return [
    element("h2", {}, "Numerals"),
    told ? element("p", { class: `verdict ${told.verdict}` }, told.says) : null,
    element("div", { class: "pair" },
      words(given, act, ["panel", "numerals"], "They spell", { required: true }),
      words(given, act, ["panel", "height"], "Flat height, as named", { placeholder: "16in" }),
      words(given, act, ["panel", "measured"], "Filled height, if measured"),
      words(given, act, ["panel", "gap"], "Room between two", { placeholder: "1/2in" }),
      field("Foil", choices(options, chosen, {
        "data-key": "panel.colour", onchange: (event) => {
          if (event.target.value !== "-") act([event.target.value ? set(["panel", "colour"], event.target.value) : unset(["panel", "colour"])]);
        },
      })),
      field("They hang", choices([["in front", "in front of the ring"], ["inside", "inside the ring"]], given.panel.place || "in front", {
        "data-key": "panel.place", onchange: (event) => act([set(["panel", "place"], event.target.value)]),
      })),
      words(given, act, ["panel", "raised"], "Raised by", { placeholder: "best fit", hint: "or drag them on the drawing; - for down" })),
    element("div", { class: "deeds" },
      button("Best fit", () => act([unset(["panel", "raised"])]), { disabled: given.panel.raised === undefined }),
      button("Take them out", () => act([unset(["panel"])]))),
  ];
}
