// The colours of the piece: its letters, and palettes to choose from.

import { button, choices, dot, element, field } from "./make.js";
import { set, unset } from "./shape.js";

let shelf = "";

/** `open` is the letter whose colour is being chosen; `choose(letter)` opens another. */
export function colours(state, palettes, open, act, choose) {
  const used = state.design.colours;
  const letters = Object.keys(used);
  const next = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].find((one) => !letters.includes(one));
  const shown = palettes.find((one) => one.name === (shelf || state.given.palette)) || palettes[0];
  return [
    element("h2", {}, "Colours"),
    element("ul", { class: "letters" }, ...letters.map((letter) => element("li", {},
      element("button", {
        type: "button", class: "letter", "aria-expanded": String(open === letter), "data-key": `letter.${letter}`,
        onclick: () => choose(open === letter ? "" : letter),
      }, dot(used[letter].srgb, "large"), element("span", {}, `${letter}  ${used[letter].name}`), element("small", {}, used[letter].finish)),
      letters.length > 1 && !inUse(state, letter)
        ? button("Remove", () => act([unset(["colours", letter])]), { "aria-label": `Remove colour ${letter}` }) : null))),
    next ? button("Add a colour", () => act([set(["colours", next], named(state, shown, shown.colours.at(-1)))]).then(() => choose(next)), { class: "add" }) : null,
    open && used[open] ? chooser(state, palettes, shown, open, act) : element("p", { class: "aside" }, "Touch a letter to give it another colour."),
  ];
}

/** A palette colour as the file writes it: by its name alone where it is in the file's palette. */
function named(state, palette, colour) {
  return palette.name === state.given.palette ? colour.name : { colour: colour.name, palette: palette.name };
}

function chooser(state, palettes, shown, letter, act) {
  const path = ["colours", letter];
  return element("section", { class: "block", "aria-label": `Another colour for ${letter}` },
    element("header", {}, element("h3", {}, `For ${letter}`),
      field("from", choices(palettes.map((one) => [one.name, one.name]), shown.name, {
        "data-key": "shelf", onchange: (event) => { shelf = event.target.value; document.dispatchEvent(new Event("bench:draw")); },
      }))),
    element("div", { class: "shelf" }, ...shown.colours.map((colour) => element("button", {
      type: "button", class: "patch", "data-key": `patch.${colour.name}`,
      onclick: () => act([set(path, named(state, shown, colour))]),
    }, dot(colour.srgb, "large"), element("span", {}, colour.name), element("small", {}, colour.finish)))),
    element("div", { class: "pair" },
      field("Or one of your own", element("input", {
        type: "color", value: state.design.colours[letter].srgb, "data-key": "own",
        onchange: (event) => act([set(path, { name: "our own", srgb: event.target.value })]),
      })),
      field("Finish", choices(["matte", "gloss", "pearl", "mirror", "clear"].map((one) => [one, one]), state.design.colours[letter].finish, {
        "data-key": "finish", onchange: (event) => act([set(path, finished(state, letter, event.target.value))]),
      }))));
}

function finished(state, letter, finish) {
  const now = state.given.colours[letter];
  return typeof now === "string" ? { colour: now, finish } : { ...now, finish };
}

/** Whether a letter stands anywhere in the sections, the end caps or the panel. */
function inUse(state, letter) {
  if (state.places.clusters.some((one) => one.letters.includes(letter))) return true;
  return JSON.stringify([state.given.section, state.given.panel, state.given.colourway, state.given.garland, state.given.topper]).match(new RegExp(`"[A-Z]*${letter}[A-Z]*"`)) !== null;
}
