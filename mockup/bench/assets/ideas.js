// Ideas: a search for the best pieces that hold, with how far it is and a way to stop it.

import { button, choices, element, field } from "./make.js";
import { at, orGone, set, unset, words } from "./shape.js";
import { paint } from "./start.js";

const RANKS = [["fullness", "the fullest"], ["smoothness", "the smoothest"], ["cost", "the cheapest"], ["minutes", "the quickest"]];

export function ideas(handouts) {
  const { state, act } = handouts.hands;
  const seeking = handouts.seeking;
  const running = seeking !== null && seeking.running;
  return [
    element("h2", {}, "Ideas"),
    element("p", { class: "aside" }, "Other fills and lengths for the sections of this piece, every one of them checked. What you fix here is kept in the file."),
    wishes(state.given, act),
    running ? progress(handouts, seeking)
      : button(seeking ? "Look again" : "Look for ideas", () => handouts.seek(), { class: "main", "data-key": "ideas.seek" }),
    ...(!running && seeking ? found(handouts, seeking) : []),
  ];
}

function wishes(given, act) {
  return element("div", { class: "pair" },
    field("Best is", choices(RANKS, at(given, ["wishes", "rank"]) || "fullness", {
      "data-key": "wishes.rank", onchange: (event) => act([orGone(["wishes", "rank"], event.target.value === "fullness" ? "" : event.target.value)].flatMap((one) => (one.do === "unset" && !given.wishes ? [] : [one]))),
    })),
    given.panel !== undefined ? words(given, act, ["wishes", "room"], "Room round the numerals", { placeholder: "1/2in" }) : null,
    whole(given, act, "most_balloons", "No more balloons than"),
    whole(given, act, "most_minutes", "No more minutes than"));
}

function whole(given, act, key, label) {
  const path = ["wishes", key];
  return field(label, element("input", {
    type: "number", min: 1, step: 1, value: at(given, path) ?? "", "data-key": path.join("."), placeholder: "any number",
    onchange: (event) => {
      const value = Number(event.target.value);
      if (Number.isInteger(value) && value > 0) act([set(path, value)]);
      else if (at(given, path) !== undefined) act([unset(path)]);
    },
  }));
}

function progress(handouts, seeking) {
  const said = seeking.looked ? `${seeking.looked.toLocaleString("en")} of ${seeking.total.toLocaleString("en")} looked at, ${seeking.found} found` : "Laying out what may vary ...";
  return element("div", { class: "block", role: "group", "aria-label": "The search" },
    element("progress", { max: seeking.total || 1, ...(seeking.looked ? { value: seeking.looked } : {}), "aria-label": "How far the search is" }),
    element("p", { role: "status" }, seeking.stopping ? "Stopping ..." : said),
    button("Stop", () => handouts.stop(), { "data-key": "ideas.stop", disabled: seeking.stopping === true }));
}

function found(handouts, seeking) {
  return [
    ...seeking.says.map((says) => element("p", { class: seeking.designs.length ? "aside" : "verdict look" }, says)),
    element("ol", { class: "ideas" }, ...seeking.designs.map((one, place) => element("li", {}, idea(handouts, one, place)))),
  ];
}

function idea(handouts, one, place) {
  const canvas = element("canvas", { width: 440, height: 440, role: "img", "aria-label": `Idea ${place + 1}: ${one.name}` });
  paint(canvas, one.drawing);
  return element("article", { class: "block idea", "aria-label": `Idea ${place + 1}` },
    element("div", { class: "sheet" }, canvas),
    element("div", { class: "told" },
      element("h3", {}, one.name),
      element("p", { class: "aside" }, one.says),
      button("Take this one", async () => {
        if (await handouts.hands.act(one.changes)) handouts.hands.say(`Idea ${place + 1} is on the bench; undo takes it back.`);
      }, { "data-key": `idea.${place}`, "aria-label": `Take idea ${place + 1}` })));
}
