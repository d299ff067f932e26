// What to buy and what it costs, by the studio book in force.

import { button, dot, element } from "./make.js";

export function buying(handouts) {
  const told = handouts.told.buying;
  if (!told) return [element("h2", {}, "Buying"), element("p", { class: "aside" }, "Counting ...")];
  if (told.trouble) return [element("h2", {}, "Buying"), element("p", { class: "verdict look" }, told.trouble)];
  return [
    element("h2", {}, "Buying"),
    told.book
      ? element("p", { class: "aside" }, `Priced by ${told.book}. The bags are the cheapest set that covers what is to buy.`)
      : element("p", { class: "aside" }, "There is no studio book for this folder, so nothing is priced yet. 'mockup studio new' writes one to fill in: your bags, prices and minutes."),
    ...told.changed.map((says) => element("p", { class: "verdict look" }, says)),
    told.cost.length ? cost(told) : null,
    ...told.groups.flatMap((group) => [element("h3", {}, group.name), element("ul", { class: "goods" }, ...group.lines.map((line) => good(told, line)))]),
    told.tofind ? element("p", { class: "verdict look" }, told.tofind) : null,
    element("div", { class: "deeds" }, ...["buy", ...(told.book ? ["quote"] : [])].map((kind) => button(kind === "buy" ? "Print the list" : "Write the quote", () => paper(handouts, kind), {
      "data-key": `buying.${kind}`,
    }))),
  ];
}

async function paper(handouts, kind) {
  const made = await handouts.make(kind);
  if (made) handouts.hands.wrote(made);
}

function cost(told) {
  return element("dl", { class: "cost" },
    ...[["To pay in the shop", told.total], ...told.cost].flatMap(([name, said]) => [element("dt", {}, name), element("dd", {}, said)]));
}

/** One line: its name, then every figure that says something. */
function good(told, line) {
  const [name, needed, spares, hand, buy, bags, price] = line.cells;
  const [what, ...more] = name.split("\n");
  const facts = [[needed, "needed"], [spares, "spare"], [told.book && hand !== "0" ? hand : "", "on hand"], [told.book ? buy : "", "to buy"]]
    .filter(([figure]) => figure && !figure.startsWith("0")).map(([figure, word]) => `${figure} ${word}`);
  const found = told.book || !line.alarm;
  return element("li", { class: told.book && line.alarm ? "good alarm" : "good" },
    line.srgb ? dot(line.srgb, "large") : element("span", { class: "no-dot", "aria-hidden": "true" }),
    element("span", { class: "what" }, element("strong", {}, what), ...more.flatMap((one) => [element("br"), element("small", {}, one)]),
      element("br"), facts.join(", "),
      found && bags ? element("span", { class: "bags" }, bags === "TO FIND" ? "to find: no bag in the book" : bags) : null),
    price ? element("span", { class: "price" }, price) : null);
}
