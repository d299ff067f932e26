// The first visit: three questions, or a sample.

import { playAll } from "./player.js";
import { button, dot, element, field } from "./make.js";
import { call } from "./wire.js";

export async function start(home, begin) {
  const [{ palettes }, { samples, frames }] = await Promise.all([call("palettes"), call("samples")]);
  home.replaceChildren(questions(palettes, frames, begin), element("section", { class: "samples", "aria-label": "Samples" },
    element("h2", {}, "Or begin with a sample"),
    element("p", { class: "aside" }, "All are invented: their events and clients stand for no real ones."),
    element("ul", {}, ...samples.map((one) => element("li", {}, card(one, begin))))));
  home.hidden = false;
  for (const one of home.querySelectorAll("canvas")) await portrait(one);
}

function card(sample, begin) {
  return element("button", { type: "button", class: "card", onclick: () => begin({ sample: sample.name }) },
    element("canvas", { width: 260, height: 260, "data-name": sample.name, "aria-hidden": "true" }),
    element("span", {}, sample.title));
}

async function portrait(canvas) {
  const { drawing } = await call("sample", { name: canvas.dataset.name });
  paint(canvas, drawing);
}

/** A whole drawing on a canvas of its own, as large as it goes. */
export function paint(canvas, drawing) {
  const scale = Math.min(canvas.width / drawing.width, canvas.height / drawing.height);
  const context = canvas.getContext("2d");
  context.translate((canvas.width - drawing.width * scale) / 2, (canvas.height - drawing.height * scale) / 2);
  playAll(context, drawing, scale);
}

function questions(palettes, frames, begin) {
  const title = element("input", { type: "text", name: "title", placeholder: "Ruby turns thirty", maxlength: 120 });
  const own = element("input", { type: "text", name: "own", placeholder: "or your own, such as 75cm", "aria-label": "Another size" });
  const numerals = element("input", { type: "text", name: "numerals", value: "30", maxlength: 12, "aria-label": "Numerals" });
  const said = element("p", { class: "trouble", role: "alert" });
  const inside = question("3", "Which numerals?", numerals, element("small", {}, "Leave it empty for none."));
  const form = element("form", { class: "questions", "aria-label": "A new piece" },
    element("h2", {}, "A new piece"),
    field("What is it called?", title),
    question("1", "Which frame?", element("div", { class: "picks" }, ...frames.map((one, k) => pick("frame", one.name, one.name, k === 0))),
      ...frames.map(sizes), own),
    question("2", "Which colours?", element("div", { class: "picks palettes" }, ...palettes.map((one, k) => pick("palette", one.name,
      element("span", {}, element("span", { class: "dots" }, ...one.colours.slice(0, 3).map((each) => dot(each.srgb))), one.name), k === 0)))),
    inside,
    said,
    element("button", { type: "submit", class: "main" }, "Put it on the bench"));
  const settle = () => {
    const chosen = frames.find((one) => one.name === new FormData(form).get("frame"));
    for (const one of form.querySelectorAll(".sizes")) one.hidden = one.dataset.frame !== chosen.name;
    inside.hidden = !chosen.numerals;
  };
  form.addEventListener("change", settle);
  settle();
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const told = new FormData(form);
    const trouble = await begin({
      title: told.get("title"), frame: told.get("frame"), size: told.get("own").trim() || told.get(`size ${told.get("frame")}`),
      numerals: told.get("numerals").trim().toUpperCase(), palette: told.get("palette"),
      unit: /[cm]m\s*$/.test(told.get("own")) ? "cm" : "in",
    });
    if (trouble) said.textContent = trouble;
  });
  return form;
}

/** The sizes one frame is begun with; only those of the chosen frame are shown. */
function sizes(frame) {
  const usual = Math.floor(frame.sizes.length / 2);
  return element("div", { class: "picks sizes", "data-frame": frame.name, role: "group", "aria-label": `How large: ${frame.asks}` },
    element("small", {}, frame.asks),
    ...frame.sizes.map((one, k) => pick(`size ${frame.name}`, one, one.replace(/(in|ft)$/, " $1"), one === "30in" || (frame.name !== "ring" && k === usual))));
}

function question(number, words, ...inside) {
  return element("fieldset", {}, element("legend", {}, element("span", { class: "count", "aria-hidden": "true" }, number), words), ...inside);
}

function pick(name, value, words, checked) {
  return element("label", { class: "pick" }, element("input", { type: "radio", name, value, checked }), element("span", {}, words));
}

export function notice(home, words, deeds = []) {
  home.replaceChildren(...(words ? [element("div", { class: "notice" }, element("p", {}, words), ...deeds.map(([name, deed]) => button(name, deed)))] : []));
}
