// The colours of the piece: its letters, the colourways, and palettes to choose from.

import { button, choices, dot, element, field } from "./make.js";
import { set, unset } from "./shape.js";

const FINISHES = ["matte", "gloss", "pearl", "mirror", "clear"].map((one) => [one, one]);
let shelf = "";

/** `open` names the colour being chosen: its mapping and its letter ("A", or "0.A" of a colourway);
    `choose(open)` opens another. */
export function colours(state, palettes, open, act, choose) {
  const used = state.design.colours;
  const letters = Object.keys(used);
  const next = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].find((one) => !letters.includes(one));
  const shown = palettes.find((one) => one.name === (shelf || state.given.palette)) || palettes[0];
  const picker = (key, path, now) => (open === key ? chooser(state, palettes, shown, path, now, act) : null);
  const ways = state.given.colourway || [];
  return [
    element("h2", {}, "Colours"),
    element("p", { class: "aside" }, "Touch a letter to give it another colour."),
    element("ul", { class: "letters" }, ...letters.map((letter) => element("li", {},
      patch(letter, used[letter], open === letter, () => choose(open === letter ? "" : letter), `letter.${letter}`),
      letters.length > 1 && !inUse(state, letter)
        ? button("Remove", () => act(everywhere(ways, letter, (path) => unset(path))), { "aria-label": `Remove colour ${letter}` }) : null,
      picker(letter, ["colours", letter], used[letter])))),
    next && shown ? button("Add a colour", () => act(everywhere(ways, next, (path) => set(path, named(state, shown, shown.colours.at(-1))))).then(() => choose(next)), { class: "add" }) : null,
    element("h2", {}, "Colourways"),
    element("p", { class: "aside" }, ways.length ? "The same piece in other colours; the proof shows each." : "The same piece in other colours, for the client to choose from."),
    ...ways.map((way, number) => colourway(state, way, number, open, act, choose, picker)),
    ways.length < 12 ? button("Add a colourway", () => act([{ do: "insert", path: ["colourway"], at: ways.length, value: { name: fresh(ways), colours: { ...state.given.colours } } }])
      .then(() => choose(`${ways.length}.${letters[0]}`)), { class: "add", "data-key": "colourway.add" }) : null,
  ];
}

/** A letter comes or goes in the first colours and in every colourway: each names them all. */
function everywhere(ways, letter, change) {
  return [change(["colours", letter]), ...ways.map((_, number) => change(["colourway", number, "colours", letter]))];
}

function fresh(ways) {
  const taken = new Set(ways.map((one) => one.name.toLowerCase()));
  return [..."BCDEFGHIJKLMN"].find((one) => !taken.has(one.toLowerCase()));
}

function patch(letter, one, isOpen, deed, key, whose = "") {
  return element("button", {
    type: "button", class: "letter", "aria-expanded": String(isOpen), "data-key": key, onclick: deed,
    "aria-label": `${letter}${whose}: ${one.name}, ${one.finish}`,
  }, dot(one.srgb, "large"), element("span", {}, `${letter}  ${one.name}`), element("small", {}, one.finish));
}

function colourway(state, way, number, open, act, choose, picker) {
  const path = ["colourway", number];
  const shades = state.design.shades[number] || {};
  return element("section", { class: "block", "aria-label": `Colourway ${way.name}` },
    element("header", {},
      field("Called", element("input", {
        type: "text", value: way.name, maxlength: 40, required: true, "data-key": `colourway.${number}.name`,
        onchange: (event) => {
          const name = event.target.value.trim();
          if (name) act([set([...path, "name"], name)]);
          else event.target.value = way.name;
        },
      })),
      button("Remove", () => act([{ do: "remove", path }]), { "aria-label": `Remove colourway ${way.name}` })),
    element("ul", { class: "letters" }, ...Object.keys(shades).map((letter) => {
      const key = `${number}.${letter}`;
      return element("li", {},
        patch(letter, shades[letter], open === key, () => choose(open === key ? "" : key), `letter.${key}`, ` of ${way.name}`),
        picker(key, [...path, "colours", letter], shades[letter]));
    })));
}

/** A palette colour as the file writes it: by its name alone where it is in the file's palette. */
function named(state, palette, colour) {
  return palette.name === state.given.palette ? colour.name : { colour: colour.name, palette: palette.name };
}

function chooser(state, palettes, shown, path, now, act) {
  const letter = path.at(-1);
  return element("section", { class: "block choosing", "aria-label": `Another colour for ${letter}` },
    element("header", {}, element("h3", {}, `For ${letter}`), shown ? field("from", choices(palettes.map((one) => [one.name, one.name]), shown.name, {
      "data-key": "shelf", onchange: (event) => { shelf = event.target.value; document.dispatchEvent(new Event("bench:draw")); },
    })) : null),
    shown ? patches(state, shown, path, act) : element("p", { class: "aside" }, "The palettes are being read ..."),
    element("div", { class: "pair" },
      field("Or one of your own", element("input", {
        type: "color", value: now.srgb, "data-key": "own",
        onchange: (event) => act([set(path, { name: "our own", srgb: event.target.value })]),
      })),
      field("Finish", choices(FINISHES, now.finish, {
        "data-key": "finish", onchange: (event) => act([set(path, finished(state, path, event.target.value))]),
      }))));
}

function patches(state, shown, path, act) {
  return element("div", { class: "shelf" }, ...shown.colours.map((colour) => element("button", {
    type: "button", class: "patch", "data-key": `patch.${colour.name}`,
    onclick: () => act([set(path, named(state, shown, colour))]),
  }, dot(colour.srgb, "large"), element("span", {}, colour.name), element("small", {}, colour.finish))));
}

function finished(state, path, finish) {
  const now = path.reduce((held, step) => held[step], state.given);
  return typeof now === "string" ? { colour: now, finish } : { ...now, finish };
}

/** Whether a letter stands anywhere in the sections, the end caps or the panel. */
function inUse(state, letter) {
  if (state.places.clusters.some((one) => one.letters.includes(letter))) return true;
  return JSON.stringify([state.given.section, state.given.panel, state.given.garland, state.given.topper]).match(new RegExp(`"[A-Z]*${letter}[A-Z]*"`)) !== null;
}
