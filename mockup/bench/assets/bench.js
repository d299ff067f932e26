// The page: keeps what the server told, shows it, and hands changes on.

import { Board } from "./board.js";
import { checks, tally } from "./checks.js";
import { colours } from "./colours.js";
import { Handouts } from "./handouts.js";
import { dot, element } from "./make.js";
import { numerals } from "./numerals.js";
import { draft, links } from "./papers.js";
import { held } from "./player.js";
import { shape } from "./shape.js";
import { notice, start } from "./start.js";
import { Text } from "./text.js";
import { Gone, Line, Refused, RUN, call } from "./wire.js";

const POLL = 1000;
const byId = (id) => document.getElementById(id);

const look = { sight: "normal", letters: false, dimensions: false, way: 0 };
const state = { version: -1, open: new Set(), letter: "", brush: "", finding: "", findings: [] };
let palettes = [];
let stopped = "";
let feeling = false;
let forming = 0;
let owed = false; // the form is to be made anew once the hand that types in it has done

const line = new Line(handle);
const board = new Board(byId("board"), (what, ...told) => HAND[what](...told));
window.benchBoard = board;
const handouts = new Handouts({ state, look, line, act, say: (words) => say(words), bar: () => bar(), failed: (trouble) => failed(trouble), wrote: (made) => wrote(made) });
const text = new Text((words) => line.put("write", { text: words, hold: "typed" }, "text"));

// To the server ---------------------------------------------------------------

async function handle({ name, asked, at }) {
  try {
    const told = await call(name, { base: state.version, look, have: [...held], ...asked });
    const frame = framed(); // asked for before the work, so that no frame is missed for it
    const came = performance.now();
    take(told);
    timed("taken", came);
    await frame;
    timed("redrawn", at);
    return told;
  } catch (trouble) {
    return failed(trouble);
  }
}

/** The first moment after the next frame. */
function framed() {
  return new Promise((done) => requestAnimationFrame(() => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = done;
    port2.postMessage(0);
  }));
}

/** Notes in the browser's own timeline how long something took until now: an edit until it was seen
    ("redrawn"), an answer until it was drawn ("taken"). */
function timed(name, start) {
  if (performance.getEntriesByName(name).length > 1500) performance.clearMeasures(name);
  performance.measure(name, { start, end: performance.now() });
}

function failed(trouble) {
  if (trouble instanceof Gone) return away();
  if (!(trouble instanceof Refused)) throw trouble;
  if (trouble.status === 403) return away();
  if (trouble.told.why === "disk") return changedOnDisk(trouble.told.over);
  if (trouble.told.why === "step" && text.area.value !== state.text && document.activeElement === text.area) {
    return notice(byId("notices"), "Another tab changed the piece while you typed.", [
      ["Keep what I typed", async () => { const mine = text.area.value; await refresh(); await line.put("write", { text: mine }); clear(); }],
      ["Take the other", async () => { text.area.value = ""; await refresh(); clear(); }],
    ]);
  }
  if (trouble.told.why === "step") refresh();
  notice(byId("notices"), trouble.message.replace(/\.?$/, "."), [["Good", clear]]);
  return null;
}

function act(changes, hold = "") {
  if (!Array.isArray(changes)) return line.put("gesture", { ...changes, hold });
  return line.put("change", { changes, hold }, hold);
}

const refresh = () => line.put("show", {}, "show");
const clear = () => notice(byId("notices"), "");

// What the server told --------------------------------------------------------

function take(told) {
  if (told.version === undefined) return;
  const before = state.given;
  const anew = told.version !== state.version;
  Object.assign(state, told);
  if (!told.started) return void first();
  document.body.classList.remove("starting");
  byId("start").hidden = true;
  byId("work").hidden = false;
  if ("drawing" in told && told.places) {
    board.show(told.drawing, told.places);
  }
  if ("text" in told) text.show(told.text, told.faults);
  bar();
  if (told.given || state.given !== before) formSoon();
  if (anew && told.design) judge();
  if (told.draft) offerDraft(told.draft);
}

function bar() {
  byId("title").textContent = state.design ? state.design.title : "Bench";
  document.title = state.design ? `${state.saved ? "" : "* "}${state.design.title}` : "Bench";
  byId("file").textContent = state.file ? `${state.file}, ${state.saved ? "saved" : "not saved yet"}` : "";
  byId("undo").disabled = !state.undo;
  byId("redo").disabled = !state.redo;
  byId("save").disabled = state.saved;
  const faults = state.faults || [];
  byId("slips").textContent = faults.length ? `${faults.length} ${faults.length === 1 ? "slip" : "slips"}` : "";
  byId("slips").className = faults.length ? "fails" : "";
  byId("board").classList.toggle("stale", faults.length > 0);
  if (faults.length) say(`The text has a fault at line ${faults[0].line}; this is the last good drawing.`);
  else if (byId("said").textContent.startsWith("The text has")) say("");
  const ways = state.design ? state.design.ways : [];
  byId("way-label").hidden = !ways.length;
  const options = ["the first", ...ways];
  if ([...byId("way").options].map((one) => one.text).join("\n") !== options.join("\n")) {
    byId("way").replaceChildren(...options.map((one, k) => element("option", { value: k }, one)));
    if (look.way >= options.length) look.way = 0;
    byId("way").value = String(look.way);
  }
}

/** The form follows the picture: first the frame that shows the change, then the fields. */
function formSoon() {
  clearTimeout(forming);
  framed().then(() => { clearTimeout(forming); forming = setTimeout(form); });
}

function form() {
  if (!state.given || !state.places) return;
  const at = document.activeElement;
  owed = at?.dataset.waits !== undefined && at.value !== at.defaultValue;
  if (owed) return;
  const focus = at?.dataset?.key;
  const marked = typeof at?.selectionStart === "number" ? [at.selectionStart, at.selectionEnd] : null;
  byId("shape").replaceChildren(...shape(state, act, pickRow));
  byId("colours").replaceChildren(...colours(state, palettes, state.letter, act, choosing));
  byId("numerals").replaceChildren(...numerals(state, act).filter(Boolean));
  brush();
  handouts.changed();
  if (!focus || document.querySelector(":focus[data-key]")) return;
  const again = document.querySelector(`[data-key="${CSS.escape(focus)}"]`);
  again?.focus({ preventScroll: true });
  if (marked && again?.setSelectionRange && again.selectionStart !== null) again.setSelectionRange(...marked);
}

/** Opens a colour; the drawing shows the colourway that it belongs to. */
function choosing(open) {
  state.letter = open;
  const way = open.includes(".") ? Number(open.split(".")[0]) + 1 : 0;
  if (open && look.way !== way) {
    look.way = way;
    byId("way").value = String(way);
    refresh();
  }
  form();
}

function brush() {
  const letters = Object.entries(state.design.colours);
  byId("swatches").replaceChildren(...letters.map(([letter, one]) => element("button", {
    type: "button", class: "swatch", "aria-pressed": String(state.brush === letter), "data-key": `brush.${letter}`,
    "aria-label": `Paint with ${letter}, ${one.name}`,
    onclick: () => { state.brush = state.brush === letter ? "" : letter; brush(); document.querySelector(`[data-key="brush.${letter}"]`).focus(); },
  }, dot(one.srgb, "large"), element("span", {}, letter))));
  byId("brush-hint").textContent = state.brush ? `Painting ${state.design.colours[state.brush]?.name || ""}; touch balloons` : "Take a colour, then touch balloons";
}

let judging = 0;
function judge() {
  clearTimeout(judging);
  byId("findings").setAttribute("aria-busy", "true");
  judging = setTimeout(async () => {
    try {
      const told = await call("findings");
      if (told.version !== state.version) return;
      state.findings = told.findings;
      list();
      byId("findings").setAttribute("aria-busy", "false");
    } catch (trouble) {
      failed(trouble);
    }
  }, 120);
}

function list() {
  const focus = document.activeElement?.dataset?.key;
  byId("findings").replaceChildren(...checks(state.findings, state.finding, (one) => {
    state.finding = state.finding === one.name ? "" : one.name;
    board.point(state.finding ? one.balloons : []);
    say(state.finding ? one.says : "");
    list();
  }));
  const total = tally(state.findings);
  byId("tally").textContent = total.words;
  byId("tally").className = total.kind;
  if (focus) document.querySelector(`[data-key="${CSS.escape(focus)}"]`)?.focus({ preventScroll: true });
}

const say = (words) => { byId("said").textContent = words; };

// What a hand does on the drawing -----------------------------------------------

const HAND = {
  pick(cluster, place) {
    if (cluster < 0) return chosen(-1);
    board.cursor = { cluster, place: -1 };
    if (state.brush) return void paint(cluster, place, state.brush);
    return chosen(cluster);
  },
  walk(cluster, place) {
    chosen(cluster, place);
  },
  letter(cluster, place, letter) {
    if (state.design.colours[letter]) paint(cluster, place, letter, place < 0);
  },
  end(section, side, count, hold) {
    line.put("gesture", { kind: "end", section, side, count, hold }, hold);
    say(`${state.places.sections[section].name}: ${count} clusters a side`);
  },
  async feel(raised) {
    if (feeling) return;
    feeling = true;
    try {
      const told = await call("feel", { raised });
      board.felt(told);
      say(told.says);
    } catch (trouble) {
      failed(trouble);
    } finally {
      feeling = false;
    }
  },
  raise(raised, hold) {
    line.put("gesture", { kind: "raise", raised, hold });
  },
  numerals() {
    tab("numerals");
    say(state.places.numerals.says);
  },
};

function paint(cluster, place, letter, whole = byId("whole").checked) {
  line.put("gesture", { kind: "paint", cluster, place: whole ? null : place, letter });
}

function chosen(index, place = -1) {
  const one = state.places.clusters[index];
  board.choose(one ? [index, one.twin].filter((each) => each !== null) : []);
  if (!one) return say("");
  const twin = one.twin === null ? "" : ", and its twin";
  const fill = one.strokes ? `${one.strokes} strokes (${one.size})` : one.size;
  const which = place >= 0 ? `, balloon ${place + 1} of ${one.balloons.length} in ${state.design.colours[one.letters[place]]?.name}` : "";
  say(`${one.words}${twin}: ${one.kind}, ${fill}, ${one.letters}${which}`);
  const key = one.path.join(".");
  state.open = new Set([key]);
  form();
  document.querySelector(`[data-path="${CSS.escape(key)}"]`)?.scrollIntoView({ block: "nearest" });
}

function pickRow(path, open) {
  const key = path.join(".");
  state.open = new Set(open ? [key] : []);
  board.choose(open ? state.places.clusters.flatMap((one, index) => (one.path.join(".") === key ? [index] : [])) : []);
  form();
}

// The bar -----------------------------------------------------------------------

async function save(over = "") {
  const told = await line.put("save", { over });
  if (told && told.saved) { bar(); say(`Saved as ${state.file}.`); clear(); }
  return told;
}

function changedOnDisk(over) {
  notice(byId("notices"), `${state.file} was changed by another program since you opened it.`, [
    ["Take what is on disk", async () => { await line.put("reload", {}); clear(); }],
    ["Write mine over it", () => save(over)],
  ]);
  return null;
}

async function proof() {
  const made = await handouts.make("proof");
  if (made) wrote(made);
}

/** Tells of a paper that was made, with the way to it. */
function wrote(made) {
  const about = made.about ? `, ${made.about}` : "";
  notice(byId("notices"), `Wrote ${made.name} beside the piece: revision ${made.revision}${about}. ${made.failing.length ? `${draft(made)} ` : ""}`, [["Good", clear]]);
  byId("notices").querySelector("p").append(...links(made));
}

function offerDraft(draft) {
  notice(byId("notices"), "The bench was stopped last time with work that was not saved.", [
    ["Take it up", async () => { await line.put("write", { text: draft }); clear(); }],
    ["Leave it", clear],
  ]);
}

function away() {
  if (stopped) return null;
  stopped = "away";
  document.body.classList.add("away");
  notice(byId("notices"), "The bench has been stopped. Nothing is lost: your text is still here, and what was not saved is offered again when 'mockup bench' is started anew.", [
    ["Copy the text", () => navigator.clipboard.writeText(text.area.value)],
  ]);
  return null;
}

async function poll() {
  try {
    const told = await call("look");
    if (stopped) { stopped = ""; document.body.classList.remove("away"); clear(); }
    if (told.run !== RUN) return away();
    if (told.version !== state.version && !line.busy) await refresh();
    if (told.disk === "changed" && told.saved) await line.put("reload", {});
    else if (told.disk === "changed" && !byId("notices").firstChild) changedOnDisk(told.over);
    else if (told.disk === "gone" && !byId("notices").firstChild) notice(byId("notices"), `${state.file} is no longer there; Save writes it again.`, [["Good", clear]]);
    if (told.saved !== state.saved) { state.saved = told.saved; bar(); }
    if (byId("autosave").checked && !state.saved && !line.busy && !(state.faults || []).length && told.disk !== "changed") await save();
  } catch (trouble) {
    failed(trouble);
  }
  return null;
}

async function first() {
  byId("work").hidden = true;
  document.body.classList.add("starting");
  if (!byId("start").childElementCount) {
    await start(byId("start"), async (answers) => {
      try {
        take(await call("start", { ...answers, look }));
        byId("start").hidden = true;
        byId("title").focus?.();
      } catch (trouble) {
        if (trouble instanceof Refused) return trouble.message;
        failed(trouble);
      }
      return "";
    });
  }
}

function tab(name) {
  for (const each of document.querySelectorAll("[role=tab]")) {
    const on = each.getAttribute("aria-controls") === name;
    each.setAttribute("aria-selected", String(on));
    each.tabIndex = on ? 0 : -1;
    byId(each.getAttribute("aria-controls")).hidden = !on;
  }
  handouts.shown(name);
}

function tabs() {
  const all = [...document.querySelectorAll("[role=tab]")];
  for (const [k, each] of all.entries()) {
    each.addEventListener("click", () => tab(each.getAttribute("aria-controls")));
    each.addEventListener("keydown", (event) => {
      const to = { ArrowRight: k + 1, ArrowLeft: k - 1, Home: 0, End: all.length - 1 }[event.key];
      if (to === undefined) return;
      event.preventDefault();
      const next = all[(to + all.length) % all.length];
      next.focus();
      tab(next.getAttribute("aria-controls"));
    });
  }
}

function toggle(id, key) {
  byId(id).addEventListener("click", () => {
    look[key] = !look[key];
    byId(id).setAttribute("aria-pressed", String(look[key]));
    refresh();
  });
}

function keys(event) {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  const deed = key === "s" ? () => save() : key === "z" ? () => line.put(event.shiftKey ? "redo" : "undo", {}) : key === "y" ? () => line.put("redo", {}) : null;
  if (!deed) return;
  event.preventDefault();
  deed();
}

byId("undo").addEventListener("click", () => line.put("undo", {}));
byId("redo").addEventListener("click", () => line.put("redo", {}));
byId("save").addEventListener("click", () => save());
byId("proof").addEventListener("click", proof);
byId("sight").addEventListener("change", (event) => { look.sight = event.target.value; refresh(); });
byId("way").addEventListener("change", (event) => { look.way = Number(event.target.value); refresh(); });
document.addEventListener("keydown", keys);
document.addEventListener("focusout", () => { if (owed) formSoon(); });
document.addEventListener("change", ({ target }) => { if (target.dataset.waits !== undefined) target.defaultValue = target.value; }, true);
document.addEventListener("bench:draw", form);
window.addEventListener("beforeunload", (event) => { if (state.started && !state.saved) event.preventDefault(); });
toggle("letters", "letters");
toggle("dimensions", "dimensions");
tabs();
refresh().then(() => {
  setInterval(poll, POLL);
  call("palettes").then((told) => { palettes = told.palettes; form(); }, failed);
});
