// Deciding: a proposal from duty and site, compromises to choose from, why each dimension is so.

import * as session from "./session.js";

const DEMO = { origin: "example", name: "quay-24kv" };
const ASKED = "shedlight:asked";
const LARGEST_STOCK = 150000; // bytes of all tables together
const REACH = 2.6; // of a place in the chart, in its own radii
const $ = (id) => document.getElementById(id);
const all = (selector) => [...document.querySelectorAll(selector)];

const offered = {}; // what can be taken over: changes and words, by the part of the page
let under = null; // the long work under way
let turn = 0;
let candidates = [];
let chosen = -1;

// --- what is asked ------------------------------------------------------------------------

async function begin() {
  if (!session.current()) {
    const found = await session.ask("/description", DEMO);
    if (!found.values) return say(wordsOf(found));
    session.begin({ ...DEMO, base: found.base, seen: "", folder: "", values: found.values });
  }
  recall();
  const { origin, name, values } = session.current();
  const link = document.createElement("a");
  link.href = `/${origin}/${encodeURIComponent(name)}`;
  link.textContent = values.name || name;
  $("whose").replaceChildren(link);
  for (const now of all("[data-now]")) now.textContent = values[now.dataset.now] ?? "";
  idle(true);
}

/** The form as it was left, after a reload. */
function recall() {
  const kept = JSON.parse(sessionStorage.getItem(ASKED) ?? "{}");
  for (const input of all("[data-wish]")) input.value = kept[input.dataset.wish] ?? input.value;
  for (const box of all("[data-keep]")) box.checked = kept[box.dataset.keep] ?? box.checked;
}

$("asked").addEventListener("submit", (event) => event.preventDefault());
$("asked").addEventListener("change", () => {
  const wishes = all("[data-wish]").map((input) => [input.dataset.wish, input.value]);
  const keep = all("[data-keep]").map((box) => [box.dataset.keep, box.checked]);
  sessionStorage.setItem(ASKED, JSON.stringify(Object.fromEntries([...wishes, ...keep])));
});

async function question() {
  return {
    values: session.current().values,
    wishes: Object.fromEntries(all("[data-wish]").map((input) => [input.dataset.wish, input.value])),
    keep: all("[data-keep]:checked").map((box) => box.dataset.keep),
    stock: await stock(),
  };
}

async function stock() {
  const files = all("[data-stock]").filter((input) => input.files.length);
  const size = files.reduce((sum, input) => sum + input.files[0].size, 0);
  if (size > LARGEST_STOCK) throw new Error("The tables from stock are too large to be sent: together at most 150 kB.");
  const found = {};
  for (const input of files) {
    const bytes = new Uint8Array(await input.files[0].arrayBuffer());
    let text = "";
    for (const byte of bytes) text += String.fromCharCode(byte);
    found[input.dataset.stock] = { name: input.files[0].name, content: btoa(text) };
  }
  return found;
}

// --- long work: pieces as they come, stopped when it is no longer wanted ---------------------

async function follow(job, words, more, take) {
  const before = under;
  const mine = ++turn;
  const control = (under = new AbortController());
  idle(false);
  say(words);
  busy(true);
  if (before) {
    before.abort();
    await session.ask("/stop", { of: "deciding" });
  }
  let last = null;
  try {
    const body = JSON.stringify({ page: session.page, ...(await question()), ...more });
    const headers = { "Content-Type": "application/json" };
    const answer = await fetch(`/follow/${job}`, { method: "POST", headers, body, signal: control.signal });
    if (!answer.ok) last = await refusal(answer);
    else for await (const piece of pieces(answer.body)) {
      if (mine !== turn) return;
      last = piece;
      if (piece.said) say(`${piece.said}`);
      take(piece);
    }
  } catch (error) {
    if (mine !== turn) return;
    const gone = error instanceof TypeError ? "The page's server does not answer; it may have been ended." : error.message;
    last = control.signal.aborted ? { stopped: "Stopped before it was done; what was found so far stays." } : { fault: gone };
  }
  if (mine !== turn) return;
  under = null;
  busy(false);
  say(wordsOf(last ?? {}));
  idle(true);
}

async function refusal(answer) {
  try {
    return await answer.json();
  } catch {
    return { fault: "The page's server refused this; reload the page." };
  }
}

async function* pieces(stream) {
  const reader = stream.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    const lines = (rest + part.value).split("\n");
    rest = lines.pop();
    for (const line of lines) yield JSON.parse(line);
  }
}

$("stop").addEventListener("click", () => {
  under?.abort();
  session.ask("/stop", { of: "deciding" });
});

/** Who leaves the room wants no answer any more. */
window.addEventListener("pagehide", () => {
  if (!under) return;
  const body = JSON.stringify({ page: session.page, of: "deciding" });
  fetch("/stop", { method: "POST", headers: { "Content-Type": "application/json" }, body, keepalive: true });
});

const wordsOf = (answer) =>
  [
    answer.fault ?? "",
    answer.stopped ?? "",
    answer.superseded ? "Another question took its place." : "",
    ...(answer.problems ?? []).map((each) => `${each.field.replace("sizing.", "")}: ${each.said}`),
  ]
    .join(" ")
    .trim();

function say(words, button = "", act = null) {
  $("status").textContent = words;
  if (!button) return;
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = button;
  made.addEventListener("click", act);
  $("status").append(" ", made);
}

function busy(working) {
  $("stop-row").hidden = !working;
}

function idle(done) {
  document.documentElement.dataset.idle = done ? "yes" : "no";
  if (done) document.documentElement.dataset.shown = turn;
}

// --- the proposal -------------------------------------------------------------------------

$("propose").addEventListener("click", () => {
  offered.proposal = null;
  $("proposal").hidden = true;
  follow("propose", "Working out a closed form …", {}, (piece) => {
    if (!piece.parts) return;
    $("conflicting").innerHTML = piece.parts.conflict ?? "";
    if (offered.proposal) return; // shown already, before the conflict was known
    $("proposed").innerHTML = piece.parts.proposed;
    offered.proposal = { changes: piece.changes, words: "the proposed bushing" };
    show("proposal");
  });
});

// --- compromises --------------------------------------------------------------------------

$("weigh").addEventListener("click", () => {
  candidates = [];
  chosen = -1;
  $("chosen").hidden = true;
  $("front").replaceChildren();
  $("candidates").replaceChildren();
  $("counted").replaceChildren();
  $("compromises").hidden = true;
  const pair = { first: $("first").value, second: $("second").value };
  follow("weigh", "Looking for the first bushing that holds …", pair, (piece) => {
    if (piece.drafts && !piece.done) say(`${piece.drafts} drafts looked at; better ones are being sought …`);
    if (!piece.candidates) return;
    if ($("compromises").hidden) show("compromises", piece.done);
    draw(piece);
    if (piece.done) conclude(piece);
  });
});

function conclude(piece) {
  const words = piece.candidates.length
    ? `${piece.candidates.length} bushings, from ${piece.drafts} drafts.`
    : `No bushing holds (${piece.drafts} drafts). Propose one to see which demands stand against each other.`;
  const single = piece.candidates.length === 1 ? " One is best by both: the two do not compete here." : "";
  const note = document.createElement("p");
  note.className = "found";
  note.textContent = words + single;
  $("front").append(note);
}

function draw(piece) {
  const focused = document.activeElement?.dataset?.choice;
  const before = chosen >= 0 ? JSON.stringify(candidates[chosen].draft) : "";
  candidates = piece.candidates;
  chosen = candidates.findIndex((each) => JSON.stringify(each.draft) === before);
  $("front").innerHTML = piece.front;
  $("counted").innerHTML = piece.counted;
  const svg = $("front").querySelector("svg");
  svg?.setAttribute("role", "group");
  candidates.forEach((each, index) => choosable(svg, index, each));
  $("candidates").replaceChildren(...candidates.map(listed));
  mark();
  if (focused !== undefined) svg?.querySelector(`[data-choice="${focused}"]`)?.focus({ preventScroll: true });
}

function choosable(svg, index, each) {
  const place = svg.querySelector(`[data-layer="place ${index + 1}"]`);
  const box = place.querySelector("path, circle").getBBox();
  const circle = document.createElementNS("http://www.w3.org/2000/svg", "circle");
  circle.setAttribute("class", "reach");
  circle.setAttribute("cx", box.x + box.width / 2);
  circle.setAttribute("cy", box.y + box.height / 2);
  circle.setAttribute("r", (REACH * box.width) / 2);
  place.append(circle);
  pressable(place, `Compromise ${index + 1}: ${each.worth.join(", ")}`);
  place.dataset.choice = index;
}

function pressable(place, words) {
  place.querySelector("title")?.remove();
  place.setAttribute("role", "button");
  place.setAttribute("tabindex", "0");
  place.setAttribute("aria-label", words);
}

function listed(each, index) {
  const item = document.createElement("li");
  const button = document.createElement("button");
  button.type = "button";
  button.dataset.pick = index;
  button.textContent = each.worth.join(", ");
  const words = document.createElement("small");
  words.textContent = ` ${each.words}`;
  button.append(words);
  item.append(button);
  return item;
}

function mark() {
  for (const button of all("[data-pick]")) button.setAttribute("aria-pressed", String(Number(button.dataset.pick) === chosen));
  for (const place of all("[data-choice]")) {
    place.classList.toggle("chosen", Number(place.dataset.choice) === chosen);
    place.setAttribute("aria-pressed", String(Number(place.dataset.choice) === chosen));
  }
}

$("compromises").addEventListener("click", (event) => {
  const place = event.target.closest("[data-choice], [data-pick]");
  if (place) choose(Number(place.dataset.choice ?? place.dataset.pick));
});

$("front").addEventListener("keydown", (event) => {
  const place = event.target.closest("[data-choice]");
  if (!place) return;
  const steps = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };
  const index = Number(place.dataset.choice);
  if (event.key in steps) {
    event.preventDefault();
    $("front").querySelector(`[data-choice="${index + steps[event.key]}"]`)?.focus();
  }
  if (event.key === "Enter" || event.key === " ") {
    event.preventDefault();
    choose(index);
  }
});

async function choose(index) {
  chosen = index;
  mark();
  const { draft, margin } = candidates[index];
  const title = `Compromise ${index + 1}`;
  const worth = candidates[index].worth.join(", ");
  document.documentElement.dataset.idle = "no";
  const answer = await session.ask("/ask/candidate", { ...(await question()), draft, margin, title });
  if (answer.superseded) return;
  if (answer.parts) {
    $("chosen-title").textContent = `${title}: ${worth}`;
    $("candidate").innerHTML = answer.parts.candidate;
    offered.candidate = { changes: answer.changes, words: title.toLowerCase() };
    $("chosen").hidden = false;
    $("chosen").focus({ preventScroll: true });
    $("chosen").scrollIntoView({ block: "nearest" });
  } else say(wordsOf(answer));
  document.documentElement.dataset.chosen = index;
  if (!under) idle(true);
}

// --- taking over --------------------------------------------------------------------------

for (const button of all("[data-take]")) {
  button.addEventListener("click", () => {
    const offer = offered[button.dataset.take];
    if (!offer) return;
    const { origin, name } = session.current();
    if (!session.change(offer.changes, `take over ${offer.words}`)) return say("This is the bushing that is on the page already.");
    taken(`Took over ${offer.words}: ${Object.keys(offer.changes).length} values changed.`, `/${origin}/${encodeURIComponent(name)}`);
  });
}

function taken(words, address) {
  const back = () => {
    session.undo();
    say("Taken back: the bushing on the page is as it was.");
    refreshed();
  };
  say(words, "Undo", back);
  const link = document.createElement("a");
  link.href = address;
  link.textContent = "See it in the section";
  $("status").append(" ", link);
  $("status").scrollIntoView({ block: "nearest" });
  refreshed();
}

function refreshed() {
  const { values } = session.current();
  for (const now of all("[data-now]")) now.textContent = values[now.dataset.now] ?? "";
  document.documentElement.dataset.shown = `${turn} ${session.current().past.length}`;
}

// --- why ----------------------------------------------------------------------------------

$("why").addEventListener("click", () => {
  $("reason-list").replaceChildren();
  $("why-picture").replaceChildren();
  $("reasons").hidden = true;
  follow("why", "Moving one dimension after the other …", {}, (piece) => {
    if (piece.reason) {
      $("reason-list").insertAdjacentHTML("beforeend", piece.reason);
      if ($("reasons").hidden) show("reasons");
      say(`${piece.said} is known; on to the next …`);
    }
    if (piece.parts) {
      $("why-picture").innerHTML = piece.parts.why;
      const svg = $("why-picture").querySelector("svg");
      svg.setAttribute("role", "group");
      for (const note of svg.querySelectorAll('[data-layer^="reason "]')) {
        pressable(note, note.querySelector("title").textContent);
        note.dataset.choice = note.dataset.layer.slice("reason ".length);
        framed(note);
      }
    }
  });
});

/** A frame around a note, to be hit and to be seen when it has the focus. */
function framed(note) {
  const box = note.getBBox();
  const frame = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  const texts = [...note.querySelectorAll("text")].map((text) => text.getBBox());
  const room = texts[0].height * 0.3;
  const left = Math.min(...texts.map((each) => each.x)) - room;
  const top = Math.min(...texts.map((each) => each.y)) - room;
  frame.setAttribute("class", "reach");
  frame.setAttribute("x", left);
  frame.setAttribute("y", top);
  frame.setAttribute("width", box.x + box.width - left + room);
  frame.setAttribute("height", Math.max(...texts.map((each) => each.y + each.height)) - top + room);
  note.append(frame);
}

function openReason(path) {
  const found = document.querySelector(`[data-reason="${CSS.escape(path)}"]`);
  if (!found) return;
  for (const each of all("[data-reason]")) each.open = each === found;
  found.querySelector("summary").focus();
  found.scrollIntoView({ block: "nearest" });
}

$("why-picture").addEventListener("click", (event) => {
  const note = event.target.closest("[data-choice]");
  if (note) openReason(note.dataset.choice);
});
$("why-picture").addEventListener("keydown", (event) => {
  const note = event.target.closest("[data-choice]");
  if (!note || !["Enter", " "].includes(event.key)) return;
  event.preventDefault();
  openReason(note.dataset.choice);
});

function show(id, quietly = false) {
  $(id).hidden = false;
  if (!quietly) $(id).scrollIntoView({ block: "start" });
}

begin();
