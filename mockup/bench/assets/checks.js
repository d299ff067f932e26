// The findings, each with what would mend it; one touched is shown on the drawing.

import { element } from "./make.js";

const WORDS = { holds: "holds", look: "look", fails: "fails" };
const ORDER = ["fails", "look", "holds"];

export function checks(findings, chosen, point) {
  const sorted = [...findings].sort((a, b) => ORDER.indexOf(a.verdict) - ORDER.indexOf(b.verdict));
  return sorted.map((one) => element("li", {},
    element("button", {
      type: "button", class: `finding ${one.verdict}`, "aria-pressed": String(chosen === one.name), "data-key": `finding.${one.name}`,
      onclick: () => point(one),
    },
    element("span", { class: "verdict-word" }, WORDS[one.verdict]),
    element("span", { class: "what" }, element("strong", {}, one.name), " ", one.says,
      one.remedy ? element("span", { class: "remedy" }, `To mend: ${one.remedy}.`) : null))));
}

export function tally(findings) {
  const fails = findings.filter((one) => one.verdict === "fails").length;
  const looks = findings.filter((one) => one.verdict === "look").length;
  if (fails) return { words: `${fails} ${fails === 1 ? "fails" : "fail"}`, kind: "fails" };
  return looks ? { words: `${looks} to look at`, kind: "look" } : { words: "all hold", kind: "holds" };
}
