// The shape of the piece as a form: its words, the frame, and sections as rows of clusters.

import { button, choices, dot, element, field } from "./make.js";

const KINDS = [["", "as the piece"], ["single", "single"], ["pair", "pair"], ["trio", "trio"], ["quad", "quad"], ["five", "five"]];
const TURNS = [["", "nestles"], ["valley in", "valley in"], ["point in", "point in"]];
const HOURS = ["12", "1:30", "3", "4:30", "6", "7:30", "9", "10:30"];

/** `state` is what the server told; `act(changes)` carries changes out; `pick(path)` selects. */
export function shape(state, act, pick) {
  const given = state.given;
  return [
    element("h2", {}, "Frame"),
    frame(given, act),
    element("h2", {}, "Sections"),
    element("p", { class: "aside" }, "Clusters from the middle outward; both sides are alike."),
    ...(given.section || []).map((section, number) => block(state, section, number, act, pick)),
    given.garland ? element("p", { class: "aside" }, "Garlands are written in the text.") : null,
    button("Add a section", () => act([{ do: "insert", path: ["section"], at: (given.section || []).length, value: fresh(given) }]), { class: "add" }),
    element("h2", {}, "For the sheets"),
    element("div", { class: "pair" },
      words(given, act, ["title"], "Title", { required: true }),
      words(given, act, ["client"], "Client"),
      words(given, act, ["venue"], "Venue"),
      unit(given, act)),
  ].filter(Boolean);
}

/** A field for text or a length at a path; emptied, its key goes. */
export function words(given, act, path, label, { hint = "", required = false, list = null, placeholder = "" } = {}) {
  const now = at(given, path) ?? "";
  const control = element("input", {
    type: "text", value: String(now), "data-key": path.join("."), placeholder, list, required,
    onchange: (event) => {
      const value = event.target.value.trim();
      if (value === String(now)) return;
      act([value || required ? { do: "set", path, value } : { do: "unset", path }]);
    },
  });
  return field(label, control, hint);
}

export function at(given, path) {
  return path.reduce((held, step) => (held === undefined || held === null ? undefined : held[step]), given);
}

function unit(given, act) {
  const control = choices([["in", "inches"], ["cm", "centimetres"]], given.unit || "in", {
    "data-key": "unit", onchange: (event) => act([{ do: "set", path: ["unit"], value: event.target.value }]),
  });
  return field("Lengths shown in", control);
}

function frame(given, act) {
  const arc = at(given, ["frame", "kind"]) === "arc";
  const now = at(given, ["frame", "kind"]) || "ring";
  const usual = [["ring", "a whole ring"], ["arc", "an arc"]];
  const plain = usual.some(([one]) => one === now);
  const kind = choices(plain ? usual : [...usual, [now, now]], now, {
    "data-key": "frame.kind",
    onchange: (event) => act([...others(given), ...(event.target.value === "arc"
      ? [set(["frame", "kind"], "arc"), set(["frame", "from"], "9"), set(["frame", "to"], "3")]
      : [set(["frame", "kind"], "ring")])]),
  });
  const stand = element("input", {
    type: "checkbox", checked: given.stand !== undefined, "data-key": "stand",
    onchange: (event) => act([event.target.checked ? set(["stand"], { rise: "12in" }) : unset(["stand"])]),
  });
  // Frames of other kinds show what the file says of them; the text names what else they may have.
  const more = plain ? [] : Object.keys(given.frame).filter((key) => typeof given.frame[key] === "string" && !["kind", "tube"].includes(key));
  return element("div", { class: "pair" },
    field("Kind", kind),
    plain ? words(given, act, ["frame", "outside"], "Outside diameter", { placeholder: "30in" }) : null,
    ...more.map((key) => words(given, act, ["frame", key], key.replaceAll("_", " "))),
    words(given, act, ["frame", "tube"], "Tube", { placeholder: "1/2in" }),
    arc ? words(given, act, ["frame", "from"], "From, on the clock") : null,
    arc ? words(given, act, ["frame", "to"], "To, on the clock") : null,
    element("label", { class: "tick" }, stand, " stands on a pole"),
    given.stand !== undefined ? words(given, act, ["stand", "rise"], "Floor to frame", { placeholder: "12in" }) : null,
    given.stand !== undefined ? words(given, act, ["stand", "plate"], "Base plate", { placeholder: "16in" }) : null);
}

/** Takes out what goes with another kind of frame only. */
function others(given) {
  return Object.keys(given.frame || {}).filter((key) => !["kind", "outside", "tube"].includes(key)).map((key) => unset(["frame", key]));
}

function fresh(given) {
  const used = new Set((given.section || []).map((one) => String(one.at)));
  return { at: HOURS.find((hour) => !used.has(hour)) || "12", clusters: [{ strokes: 2 }], end_cap: true };
}

function block(state, section, number, act, pick) {
  const path = ["section", number];
  const told = state.places.sections[number];
  const name = told ? told.name : `section ${number + 1}`;
  const where = element("input", {
    type: "text", value: String(section.at), size: 5, "data-key": `${path.join(".")}.at`,
    onchange: (event) => act([set([...path, "at"], event.target.value.trim())]),
  });
  return element("section", { class: "block", "aria-label": `Section ${name}` },
    element("header", {},
      element("h3", {}, name),
      field("at", where),
      state.given.section.length > 1 ? button("Remove", () => act([{ do: "remove", path }]), { "aria-label": `Remove section ${name}` }) : null),
    reach(section, told, path, act),
    ...("taper" in section ? [taper(section, path, act)] : [rows(state, section, [...path, "clusters"], act, pick, name)]),
    "left" in section ? element("h4", {}, "Left side") : null,
    "left" in section ? rows(state, section, [...path, "left"], act, pick, `${name}, left`) : null,
    cap(state, section, path, act));
}

function reach(section, told, path, act) {
  if (!told) return null;
  const whole = element("input", {
    type: "checkbox", checked: section.whole === true, "data-key": `${path.join(".")}.whole`,
    onchange: (event) => act(event.target.checked
      ? [unset([...path, "end_cap"]), unset([...path, "left"]), set([...path, "whole"], true)]
      : [unset([...path, "whole"]), unset([...path, "count"])]),
  });
  if (section.whole) {
    return element("div", { class: "reach" }, element("label", { class: "tick" }, whole, " all round"),
      element("span", { class: "aside" }, `${told.count} clusters close it`));
  }
  const right = told.a_side.right;
  const more = (by) => () => act({ kind: "end", section: path[1], side: "right", by });
  return element("div", { class: "reach" },
    element("span", {}, `${right} a side`),
    button("Fewer", more(-1), { "data-key": `${path.join(".")}.fewer`, "aria-label": `One cluster fewer a side of ${told.name}`, disabled: right === 0 }),
    button("More", more(1), { "data-key": `${path.join(".")}.more`, "aria-label": `One cluster more a side of ${told.name}` }),
    element("label", { class: "tick" }, whole, " all round"));
}

function taper(section, path, act) {
  const known = ["even", "gentle", "strong"];
  const options = known.map((one) => [one, one]);
  if (!known.includes(section.taper)) options.push([section.taper, section.taper]);
  const control = choices(options, section.taper, {
    "data-key": `${path.join(".")}.taper`, onchange: (event) => act([set([...path, "taper"], event.target.value)]),
  });
  const strokes = element("input", {
    type: "number", value: section.strokes ?? "", step: 0.5, min: 0.5, placeholder: "usual fill", "data-key": `${path.join(".")}.strokes`,
    oninput: (event) => event.target.value > 0 && act([unset([...path, "fill"]), set([...path, "strokes"], Number(event.target.value))], `${path.join(".")}.strokes`),
  });
  return element("div", { class: "pair" }, field("Taper", control), field("Strokes in the middle", strokes));
}

function rows(state, section, path, act, pick, name) {
  const list = path.reduce((held, step) => held[step], state.given);
  const made = element("ol", { class: "rows", "aria-label": `Clusters of ${name}` });
  list.forEach((row, place) => made.append(rowOf(state, section, list, row, [...path, place], act, pick)));
  const last = list.at(-1);
  const value = { ...last };
  delete value.turn;
  delete value.times;
  made.append(element("li", { class: "more" }, button("Add a cluster", () => act([{ do: "insert", path, at: list.length, value }]), { class: "add" })));
  return made;
}

function rowOf(state, section, list, row, path, act, pick) {
  const place = path.at(-1);
  const key = path.join(".");
  const letters = row.colours || section.colours || Object.keys(state.design.colours).slice(0, 2).join("");
  const says = `${row.times > 1 ? `${row.times} × ` : ""}${row.kind || section.kind || state.given.kind || "quad"}, ${fillWords(row, section)}`;
  const open = state.open.has(key);
  const item = element("li", { class: "row", "data-path": key },
    element("div", { class: "line" },
      grip(list, path, act),
      element("button", {
        type: "button", class: "say", "aria-expanded": String(open), "data-key": `${key}.say`,
        onclick: () => pick(path, !open),
      }, element("span", {}, says), element("span", { class: "dots" }, ...[...letters].map((one) => dot(state.design.colours[one]?.srgb, "small")))),
    ),
    open ? details(state, section, list, row, path, act) : null);
  item.dataset.place = place;
  return item;
}

function fillWords(row, section) {
  if (row.strokes !== undefined) return `${row.strokes} strokes`;
  if (row.fill !== undefined) return row.fill;
  if (section.strokes !== undefined) return `${section.strokes} strokes`;
  return section.fill || "usual fill";
}

function details(state, section, list, row, path, act) {
  const key = path.join(".");
  const place = path.at(-1);
  const turn = row.turn === undefined ? "" : String(row.turn);
  const turns = TURNS.some(([value]) => value === turn) ? TURNS : [...TURNS, [turn, `${turn}°`]];
  return element("div", { class: "details pair" },
    fill(row, section, path, act),
    words(state.given, act, [...path, "colours"], "Colours round it", { placeholder: section.colours || "AB", hint: "letters, such as AB" }),
    field("Kind", choices(KINDS, row.kind || "", { "data-key": `${key}.kind`, onchange: (event) => act([orGone([...path, "kind"], event.target.value)]) })),
    field("Turn", choices(turns, turn, { "data-key": `${key}.turn`, onchange: (event) => act([orGone([...path, "turn"], event.target.value)]) })),
    number("How many in a row", row.times || 1, 1, `${key}.times`, (value) => act([value > 1 ? set([...path, "times"], value) : unset([...path, "times"])])),
    words(state.given, act, [...path, "size"], "Balloon size", { placeholder: section.size || state.given.size || "5in" }),
    element("div", { class: "deeds" },
      button("Up", () => move(path, place - 1, act), { disabled: place === 0, "data-key": `${key}.up` }),
      button("Down", () => move(path, place + 1, act), { disabled: place === list.length - 1, "data-key": `${key}.down` }),
      button("Remove", () => act([{ do: "remove", path }]), { disabled: list.length === 1, "aria-label": "Remove this row" })));
}

function fill(row, section, path, act) {
  const bySize = row.fill !== undefined || (row.strokes === undefined && section.strokes === undefined);
  const key = path.join(".");
  const how = choices([["strokes", "strokes"], ["fill", "size"]], bySize ? "fill" : "strokes", {
    "data-key": `${key}.how`, "aria-label": "Filled by",
    onchange: (event) => act(event.target.value === "fill"
      ? [unset([...path, "strokes"]), set([...path, "fill"], "4in")]
      : [unset([...path, "fill"]), set([...path, "strokes"], 2)]),
  });
  const value = bySize
    ? element("input", {
      type: "text", value: row.fill || section.fill || "", "data-key": `${key}.fill`, "aria-label": "Filled to", placeholder: "4in",
      onchange: (event) => act([unset([...path, "strokes"]), set([...path, "fill"], event.target.value.trim())]),
    })
    : element("input", {
      type: "number", value: row.strokes ?? section.strokes, step: 0.5, min: 0.5, "data-key": `${key}.strokes`, "aria-label": "Strokes",
      oninput: (event) => event.target.value > 0 && act([unset([...path, "fill"]), set([...path, "strokes"], Number(event.target.value))], `${key}.strokes`),
    });
  return element("div", { class: "field" }, element("span", {}, "Filled by"), element("div", { class: "joined" }, value, how));
}

export function number(label, now, least, key, act) {
  return field(label, element("input", {
    type: "number", value: now, min: least, step: 1, "data-key": key,
    oninput: (event) => Number.isInteger(Number(event.target.value)) && Number(event.target.value) >= least && act(Number(event.target.value)),
  }));
}

function cap(state, section, path, act) {
  if (section.whole) return null;
  const now = section.end_cap;
  const on = now !== undefined && now !== false;
  const key = path.join(".");
  const tick = element("input", {
    type: "checkbox", checked: on, "data-key": `${key}.end_cap`,
    onchange: (event) => act([event.target.checked ? set([...path, "end_cap"], true) : unset([...path, "end_cap"])]),
  });
  const table = typeof now === "object" ? now : {};
  return element("div", { class: "cap" },
    element("label", { class: "tick" }, tick, " closed by end pairs"),
    on ? element("input", {
      type: "number", step: 0.5, min: 0.5, value: table.strokes ?? "", placeholder: "half", "aria-label": "Strokes of the end pairs", "data-key": `${key}.end_cap.strokes`,
      oninput: (event) => act([event.target.value > 0 ? set([...path, "end_cap", "strokes"], Number(event.target.value)) : unset([...path, "end_cap", "strokes"])], `${key}.cap`),
    }) : null,
    on ? choices([["", "colour beside it"], ...Object.keys(state.design.colours).map((one) => [one, `colour ${one}`])], table.colours || "", {
      "aria-label": "Colour of the end pairs", "data-key": `${key}.end_cap.colours`,
      onchange: (event) => act([orGone([...path, "end_cap", "colours"], event.target.value)]),
    }) : null);
}

// Reordering ------------------------------------------------------------------

function move(path, to, act) {
  act([{ do: "move", path: path.slice(0, -1), at: path.at(-1), to }]);
}

/** The handle of a row: dragged, or moved with the arrow keys. */
function grip(list, path, act) {
  const place = path.at(-1);
  const handle = element("button", {
    type: "button", class: "grip", "data-key": `${path.slice(0, -1).join(".")}.grip.${place}`,
    "aria-label": `Move row ${place + 1} of ${list.length}: arrow keys up and down`, disabled: list.length === 1,
  }, element("span", { "aria-hidden": "true" }));
  handle.addEventListener("keydown", (event) => {
    const to = place + ({ ArrowUp: -1, ArrowDown: 1 }[event.key] || 0);
    if (to === place || to < 0 || to >= list.length) return;
    event.preventDefault();
    handle.dataset.key = `${path.slice(0, -1).join(".")}.grip.${to}`;
    move(path, to, act);
  });
  handle.addEventListener("pointerdown", (event) => lift(event, handle, place, (to) => move(path, to, act)));
  return handle;
}

function lift(event, handle, place, settle) {
  event.preventDefault();
  handle.focus();
  handle.setPointerCapture(event.pointerId);
  const row = handle.closest("li");
  const all = [...row.parentElement.querySelectorAll("li.row")];
  const boxes = all.map((one) => one.getBoundingClientRect());
  let to = place;
  row.classList.add("lifted");
  const moved = (now) => {
    row.style.transform = `translateY(${now.clientY - event.clientY}px)`;
    const middle = boxes[place].top + boxes[place].height / 2 + now.clientY - event.clientY;
    const below = boxes.findIndex((box) => middle < box.top + box.height / 2);
    to = Math.min(all.length - 1, Math.max(0, below < 0 ? all.length - 1 : below > place ? below - 1 : below));
    all.forEach((one, k) => one.classList.toggle("gap", k === to && k !== place));
  };
  const done = () => {
    handle.removeEventListener("pointermove", moved);
    row.classList.remove("lifted");
    row.style.transform = "";
    all.forEach((one) => one.classList.remove("gap"));
    if (to !== place) settle(to);
  };
  handle.addEventListener("pointermove", moved);
  handle.addEventListener("pointerup", done, { once: true });
  handle.addEventListener("pointercancel", done, { once: true });
}

export function set(path, value) {
  return { do: "set", path, value };
}

export function unset(path) {
  return { do: "unset", path };
}

export function orGone(path, value) {
  return value === "" ? unset(path) : set(path, value);
}
