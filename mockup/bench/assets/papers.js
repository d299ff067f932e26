// The papers: each is written beside the piece, then opened or kept.

import { button, element } from "./make.js";

export const PAPERS = [
  { kind: "proof", name: "the colour proof", title: "Colour proof", says: "True to scale, for the client to look at and sign." },
  { kind: "page", name: "the client's page", title: "Client's page", says: "One file to send: it opens on a phone, shows every colourway and takes the answer." },
  { kind: "build", name: "the build sheet", title: "Build sheet", says: "What to fill, to which size, in which order, tied where." },
  { kind: "phone", name: "the build sheet for a phone", title: "Build sheet for a phone", says: "The same, to tick off with one hand." },
  { kind: "gauge", name: "the sizing gauge", title: "Sizing gauge", says: "Holes at true size. Print it at 100 %, on card." },
  { kind: "buy", name: "the buy list", title: "Buy list", says: "What to buy, with boxes to tick." },
  { kind: "workbook", name: "the buy list as a workbook", title: "Buy list as a workbook", says: "The same in a table that reckons (XLSX)." },
  { kind: "lines", name: "the buy list as plain lines", title: "Buy list as plain lines", says: "The same for any other program (CSV)." },
  { kind: "quote", name: "the quote", title: "Quote", says: "The price for the client. It needs prices in your studio book." },
  { kind: "options", name: "the options side by side", title: "Options side by side", says: "Every option of the piece on one sheet, with its figures." },
];

export function papers(handouts) {
  const shown = PAPERS.filter((one) => one.kind !== "options" || handouts.hands.state.given.option);
  return [
    element("h2", {}, "Papers"),
    element("p", { class: "aside" }, "Each is written beside the piece file, of the piece as it is saved; what is not saved yet is saved first."),
    element("ul", { class: "papers" }, ...shown.map((one) => element("li", {}, paper(handouts, one)))),
  ];
}

function paper(handouts, one) {
  const made = handouts.made[one.kind];
  return element("article", { class: "block", "aria-label": one.title },
    element("header", {},
      element("h3", {}, one.title),
      button(handouts.making === one.kind ? "Making it ..." : made ? "Make it anew" : "Make it", () => handouts.make(one.kind), {
        "data-key": `make.${one.kind}`, "aria-label": `Make ${one.name}`, disabled: handouts.making !== "",
      })),
    element("p", { class: "aside" }, one.says),
    made ? element("p", {}, element("strong", {}, made.name), `, revision ${made.revision}${made.about ? `, ${made.about}` : ""}. `,
      ...links(made)) : null,
    made && made.failing.length ? element("p", { class: "verdict look" }, draft(made)) : null,
    made && made.changed.length ? element("p", { class: "verdict look" }, `Changed since it was approved: ${made.changed.join("; ")}.`) : null,
    made && made.note ? element("p", { class: "verdict look" }, made.note) : null);
}

/** What is amiss with the piece a paper was made of. */
export function draft(made) {
  return `Not every check holds: ${made.failing.join(", ")}. A proof of it is marked as a draft.`;
}

/** Ways to a paper that was made: to look at it, and to keep a copy elsewhere. */
export function links(made) {
  const href = `/made/${encodeURIComponent(made.name)}`;
  const shown = /\.(pdf|html)$/.test(made.name); // a browser only keeps the others
  return [
    ...(shown ? [element("a", { class: "link", href, target: "_blank", rel: "noopener", "aria-label": `Open it: ${made.name}` }, "Open it"), " "] : []),
    element("a", { class: "link", href, download: made.name, "aria-label": `Keep a copy of ${made.name}` }, "Keep a copy"),
  ];
}
