// Making elements: names, attributes, what is inside. No text is ever read as markup.

const WRITTEN = new Set(["text", "date", "number"]);
const SVG = "http://www.w3.org/2000/svg";

export function element(name, attributes = {}, ...inside) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (value === true) made.setAttribute(key, "");
    else if (value !== false && value !== null && value !== undefined) made.setAttribute(key, value);
  }
  // A text that is sent only once it is done must not be taken from under the hand that types it.
  if (name === "input" && attributes.onchange && WRITTEN.has(made.type)) made.dataset.waits = "";
  made.append(...inside.filter((one) => one !== null && one !== undefined));
  return made;
}

export function mark(name, attributes = {}) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

/** A round patch of a colour. */
export function dot(colour, size = "") {
  const made = element("span", { class: `dot ${size}`, "aria-hidden": "true" });
  if (colour) made.style.setProperty("--ink", colour);
  return made;
}

/** A labelled field; `key` lets the focus return to it when the form is made anew. */
export function field(label, control, hint = "") {
  return element("label", { class: "field" }, element("span", {}, label), control, hint ? element("small", {}, hint) : null);
}

export function button(words, deed, attributes = {}) {
  return element("button", { type: "button", onclick: deed, ...attributes }, words);
}

export function choices(options, chosen, attributes = {}) {
  const made = element("select", attributes);
  for (const [value, words] of options) made.append(element("option", { value, selected: value === chosen }, words));
  return made;
}
