// The section: values on the left, figure in the middle, verdicts on the right, all one state.

import * as session from "./session.js";
import * as figure from "./figure.js";
import * as keeping from "./keeping.js";
import { narrow, onStep } from "./finding.js";

const VIEW = "shedlight:view";
const WORKING = "Working it out …";
const SETTLE = 400; // before long work starts after a change [ms]

const $ = (id) => document.getElementById(id);
const form = $("form");
const sent = JSON.parse($("begin").textContent);
const view = { opened: "", dimensioned: true, field: false, picture: "section", hidden: [], ...stored() };

let turn = 0; // of the newest values
let slow = null; // what the slow worker is doing for this page
let settle = 0;
let problems = [];
let held = null; // scale and place of the figure while something is dragged
let defaults = sent.defaults;
let lit = sent.lit.map((each) => each.place);

function stored() {
  try {
    return JSON.parse(sessionStorage.getItem(VIEW)) ?? {};
  } catch {
    return {};
  }
}

function look(changes) {
  Object.assign(view, changes);
  sessionStorage.setItem(VIEW, JSON.stringify(view));
}

// --- figure and verdicts, each for itself: one request under way, the newest one waiting ------

const told = { started: announce, long: () => say(WORKING), done: settled };
const asFigure = () => ({ dimensioned: view.dimensioned, scale: held?.scale, lit });
const drawing = session.loop("/ask/figure", asFigure, drawn, told);
const judging = session.loop("/ask/verdicts", () => ({ opened: view.opened }), judged, told);

function settled() {
  const busy = drawing.underway || judging.underway;
  if (!busy && $("status").textContent === WORKING) say("");
  later();
  announce();
}

/** The values changed: draw and judge anew. */
async function refresh() {
  turn += 1;
  if (view.picture === "section") drawing.run();
  await judging.run();
}

function drawn(answer) {
  if (!answer.figure || view.picture !== "section") return; // why not is told by the verdicts
  figure.show(answer.figure, view.hidden, held);
  document.documentElement.dataset.drawn = turn;
}

function judged(answer) {
  if (answer.values) {
    problems = [];
    defaults = answer.defaults;
    swap(answer.parts);
    light(answer.lit);
    document.body.classList.remove("stale");
    note("");
    say("");
  } else {
    problems = answer.problems ?? [];
    goStale(answer);
  }
  showProblems();
  showDefaults();
  showChanges();
  document.documentElement.dataset.shown = turn;
}

/** Light up the places that checks point at; the figure is drawn anew only if they are others. */
function light(found) {
  const places = found.map((each) => each.place);
  figure.caption(found);
  if (JSON.stringify(places) === JSON.stringify(lit)) return;
  lit = places;
  if (view.picture === "section") drawing.run();
}

/** Long work, once the values have settled: the field for the checks, and the other pictures. */
function later() {
  clearTimeout(settle);
  settle = 0;
  if (drawing.underway || judging.underway || problems.length) return;
  if (!view.field && view.picture === "section") return;
  settle = setTimeout(async () => {
    const key = turn;
    settle = 0;
    if (view.picture !== "section") await long("Drawing it …", "/ask/picture", key, showPicture);
    if (view.field && key === turn) await long("Solving the field …", "/ask/verdicts", key, showField);
    announce();
  }, SETTLE);
}

async function long(words, address, key, show) {
  slow = words;
  const body = { values: session.current().values, opened: view.opened, picture: view.picture, field: view.field };
  const work = session.askLong(address, body);
  say(words, "Stop", work.stop);
  announce();
  const answer = await work.answer;
  slow = null;
  if (answer.superseded || key !== turn) return announce();
  if (answer.key) {
    say("");
    show(answer);
  } else {
    const said = answer.stopped ?? answer.fault ?? answer.problems.map((each) => each.said).join(" ");
    say(said, "Try again", later);
    if (view.picture !== "section") note("This picture is as it was before the last change.");
  }
  announce();
}

function showPicture(answer) {
  figure.show(answer.figure, view.hidden, null);
  note("");
}

function showField(answer) {
  swap(answer.parts);
  light(answer.lit);
}

function announce() {
  const busy = [drawing, judging].some((each) => each.underway || each.wanted);
  const idle = !busy && !slow && !settle;
  document.documentElement.dataset.idle = idle ? "yes" : "no";
}

// --- putting what came into the page -----------------------------------------------------

function swap(parts) {
  const focused = document.activeElement?.dataset?.check;
  for (const name of ["headline", "verdicts"]) $(name).innerHTML = parts[name];
  const column = $("calculation").parentElement;
  const top = column.scrollTop;
  $("calculation").innerHTML = parts.calculation;
  column.scrollTop = top;
  document.body.classList.toggle("opened", parts.calculation !== "");
  if (focused) document.querySelector(`[data-check="${focused}"]`)?.focus({ preventScroll: true });
}

function goStale(answer) {
  document.body.classList.add("stale");
  note("Figure and verdicts show the last values that could be used.");
  const placed = problems.filter((problem) => fieldOf(problem.field));
  const others = problems.filter((problem) => !fieldOf(problem.field)).map((problem) => `${problem.field} ${problem.said}`);
  if (placed.length) others.unshift(placed.length === 1 ? "One value cannot be used; it is marked on the left." : `${placed.length} values cannot be used; they are marked on the left.`);
  if (answer.fault) others.push(answer.fault);
  if (answer.stopped) others.push(answer.stopped);
  say(others.join(" "), problems.length ? "" : "Try again", refresh);
}

function say(words, button = "", act = null) {
  const status = $("status");
  status.textContent = words;
  if (!button) return;
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = button;
  made.addEventListener("click", act);
  status.append(" ", made);
}

function note(words) {
  $("stale-note").textContent = words;
  $("stale-note").hidden = words === "";
}

const fieldOf = (path) => (path ? document.querySelector(`[data-field="${CSS.escape(path)}"]`) : null);

function showProblems() {
  for (const wrong of form.querySelectorAll(".wrong:not([hidden])")) {
    wrong.hidden = true;
    wrong.closest(".field").querySelector("[data-path]").removeAttribute("aria-invalid");
  }
  for (const problem of problems) {
    const field = fieldOf(problem.field);
    if (!field) continue;
    field.closest("details").open = true;
    field.hidden = false;
    const wrong = field.querySelector(".wrong");
    wrong.textContent = problem.said;
    wrong.hidden = false;
    field.querySelector("[data-path]").setAttribute("aria-invalid", "true");
  }
}

function showDefaults() {
  for (const input of form.querySelectorAll("input[data-unit]")) {
    input.placeholder = defaults[input.dataset.path] ?? "";
  }
}

function showChanges() {
  const found = session.changes();
  const marked = new Map(found.map((each) => [each.path, each]));
  for (const field of form.querySelectorAll("[data-field]")) {
    const was = field.querySelector(".was");
    const change = marked.get(field.dataset.field);
    was.hidden = !change;
    if (change) was.textContent = `Saved: ${change.was || "left out"}`;
  }
  for (const group of form.querySelectorAll("details[data-group]")) {
    const number = group.querySelectorAll(".was:not([hidden])").length;
    group.querySelector("[data-count]").textContent = number ? `${number} changed` : "";
  }
  keeping.showChanges(found, labelOf);
  $("undo").disabled = session.current().past.length === 0;
  $("redo").disabled = session.current().future.length === 0;
}

function labelOf(path) {
  const field = fieldOf(path);
  if (!field) return path.replaceAll("_", " ").replaceAll(".", ", ");
  const group = field.closest("details").querySelector("summary").firstChild.textContent.trim();
  return `${group}: ${field.querySelector("label").firstChild.textContent.trim().toLowerCase()}`;
}

// --- changing values -----------------------------------------------------------------------

function valueOf(input) {
  if (input.dataset.kind === "fitted") return input.checked ? "yes" : "no";
  return input.value;
}

form.addEventListener("input", (event) => {
  const input = event.target;
  if (!input.dataset.path) return;
  if (!session.change({ [input.dataset.path]: valueOf(input) }, input.dataset.path, true)) return;
  const shapes = input.dataset.kind === "fitted" || input.dataset.path.endsWith(".form");
  if (shapes) reshape(input.dataset.path).then(refresh);
  else refresh();
});

onStep((path, text) => set({ [path]: text }, path, true));

form.addEventListener("submit", (event) => event.preventDefault());

/** Change values from elsewhere than their own fields. */
export function set(values, label, joined = false) {
  if (!session.change(values, label, joined)) return;
  fill(Object.keys(values));
  refresh();
}

function fill(paths) {
  for (const path of paths) {
    const input = form.querySelector(`[data-path="${CSS.escape(path)}"]`);
    if (!input) continue;
    const text = session.current().values[path] ?? "";
    if (input.dataset.kind === "fitted") input.checked = text === "yes";
    else input.value = input.dataset.unit ? text.replace(new RegExp(` ${input.dataset.unit}$`), "") : text;
  }
}

/** Another kind of part has other values: the form is laid out anew, open groups stay open. */
async function reshape(focus) {
  const answer = await session.ask("/ask/form", { values: session.current().values, defaults });
  if (!answer.parts) return;
  const open = new Set([...form.querySelectorAll("details[open]")].map((group) => group.dataset.group));
  form.innerHTML = answer.parts.form;
  for (const group of form.querySelectorAll("details")) group.open = open.has(group.dataset.group);
  narrow();
  if (focus) form.querySelector(`[data-path="${CSS.escape(focus)}"]`)?.focus();
}

async function travel(move) {
  const changed = move();
  if (!changed) return;
  const paths = Object.keys(changed);
  const shapes = paths.some((path) => path.endsWith(".form") || ["bushing.horns", "bushing.sheds", "bushing.live_ring", "bushing.earth_ring"].includes(path));
  if (shapes) await reshape("");
  else fill(paths);
  refresh();
}

export function goTo(path) {
  const field = fieldOf(path);
  if (!field) return;
  document.body.classList.remove("alone");
  field.closest("details").open = true;
  field.hidden = false;
  const input = field.querySelector("[data-path]");
  input.focus({ preventScroll: true });
  input.select?.();
  field.scrollIntoView({ block: "center" });
}

// --- judging -------------------------------------------------------------------------------

document.querySelector(".judge").addEventListener("click", (event) => {
  const target = event.target.closest("button");
  if (!target) return;
  if (target.dataset.check) open(target.dataset.check === view.opened ? "" : target.dataset.check);
  if (target.dataset.act === "close") open("");
  if (target.dataset.goto) goTo(target.dataset.goto);
});

async function open(check) {
  const before = view.opened;
  look({ opened: check });
  document.querySelector(".judge").scrollTop = 0;
  await refresh();
  if (check) $("calculation").focus();
  else document.querySelector(`[data-check="${before}"]`)?.focus();
}

$("verdicts").addEventListener("keydown", (event) => {
  const steps = { ArrowDown: 1, ArrowUp: -1 };
  if (!(event.key in steps) || !event.target.dataset.check) return;
  event.preventDefault();
  const all = [...$("verdicts").querySelectorAll("[data-check]")];
  all[all.indexOf(event.target) + steps[event.key]]?.focus();
});

// --- looking -------------------------------------------------------------------------------

$("picture-choice").addEventListener("change", (event) => {
  look({ picture: event.target.value });
  if (view.picture !== "section") note("Waiting for this picture; the section is shown until it is there.");
  refresh();
});

$("with-field").addEventListener("change", (event) => {
  look({ field: event.target.checked });
  refresh();
});

$("large").addEventListener("click", () => {
  const alone = document.body.classList.toggle("alone");
  $("large").setAttribute("aria-pressed", String(alone));
});

figure.onLayers((name, shown) => {
  look({ hidden: shown ? view.hidden.filter((each) => each !== name) : [...view.hidden, name] });
  if (name === "dimensions") {
    look({ dimensioned: shown });
    refresh();
  }
});

figure.onDrag((path, value, hold, done) => {
  held = done ? null : hold;
  const moved = session.change({ [path]: value }, `drag ${path}`, true);
  if (moved) fill([path]);
  if (moved || done) refresh();
});

document.addEventListener("keydown", (event) => {
  const key = event.key.toLowerCase();
  if (event.key === "Escape" && view.opened && !document.querySelector("dialog[open]")) return open("");
  if (!(event.ctrlKey || event.metaKey)) return;
  if (key === "z" || key === "y") {
    event.preventDefault();
    travel(key === "y" || event.shiftKey ? session.redo : session.undo);
  }
  if (key === "s" && $("save")) {
    event.preventDefault();
    keeping.save();
  }
});
$("undo").addEventListener("click", () => travel(session.undo));
$("redo").addEventListener("click", () => travel(session.redo));

// --- beginning -----------------------------------------------------------------------------

const moved = session.begin(sent);
keeping.begin({ set, say, travelled: () => showChanges(), goTo, view });
$("picture-choice").value = view.picture;
if (!$("picture-choice").value) look({ picture: ($("picture-choice").value = "section") });
$("with-field").checked = view.field;
const asSent = session.changes().length === 0 && !view.opened && view.dimensioned;
document.documentElement.dataset.shown = turn;
if (asSent) {
  figure.show(sent.figure, view.hidden, null);
  figure.caption(sent.lit);
  showDefaults();
  showChanges();
} else {
  await reshape("");
}
if (!asSent || view.picture !== "section" || view.field) refresh();
if (moved) say("The file was changed by something else since these edits began; saving will ask first.");
announce();
