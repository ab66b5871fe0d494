// The guided tour of the description that is looked at; pointing at the section; question sheets.

import * as session from "./session.js";
import { run } from "./slides.js";

const DEMO = { origin: "example", name: "quay-24kv" };
const $ = (id) => document.getElementById(id);
let values = session.current()?.values ?? null;
let running = null;
let pointing = false;
let asked = null; // the place that waits while another reading is under way
let reading = false;

function say(answer) {
  const problems = (answer.problems ?? []).map((each) => `${each.field}: ${each.said}`);
  $("status").textContent = [answer.fault ?? "", answer.stopped ?? "", ...problems].join(" ").trim();
}

async function show() {
  document.documentElement.dataset.idle = "no";
  values ??= (await session.ask("/description", DEMO)).values;
  const answer = await session.ask("/ask/tour", { values, language: $("language").value });
  if (answer.superseded) return;
  if (answer.parts) {
    running?.abort();
    running = new AbortController();
    $("stage").innerHTML = answer.parts.tour;
    const tour = $("stage").querySelector(".tour");
    tour.append(large());
    run(tour, running.signal);
    tour.addEventListener("pointermove", point);
    tour.addEventListener("pointerleave", () => ($("reading").hidden = true));
  }
  say(answer);
  document.documentElement.dataset.idle = "yes";
  document.documentElement.dataset.shown = $("language").value;
}

function large() {
  const panel = document.createElement("div");
  panel.id = "reading";
  panel.className = "reading";
  panel.hidden = true;
  panel.setAttribute("role", "status");
  return panel;
}

/** The place of the section under the pointer, in metres; null where the picture is no section. */
function placeUnder(event) {
  if (event.target.closest?.(".what-if")) return null; // another bushing than the one that is read
  const svg = event.target.closest?.("svg.figure");
  const scale = Number(svg?.dataset.scale);
  if (!svg || !(scale > 1)) return null;
  const box = svg.viewBox.baseVal;
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  if (at.x < 0 || at.y < 0 || at.x > box.width || at.y > box.height) return null;
  const [axis, top] = [Number(svg.dataset.axis), Number(svg.dataset.coverTop)];
  return { r: Math.abs(at.x - axis) / scale, z: (top - at.y) / scale };
}

function point(event) {
  if (!pointing) return;
  asked = placeUnder(event);
  if (asked) read();
  else $("reading").hidden = true;
}

async function read() {
  if (reading) return;
  reading = true;
  while (asked) {
    const place = asked;
    asked = null;
    const answer = await session.ask("/ask/reading", { values, ...place });
    const panel = $("reading");
    if (!panel || !pointing) break;
    panel.hidden = !answer.said?.length;
    if (answer.said?.length) {
      const where = document.createElement("small");
      where.textContent = answer.where;
      panel.replaceChildren(where, answer.said.join(" · "));
    }
    if (answer.fault || answer.problems) say(answer);
    document.documentElement.dataset.read = panel.textContent;
  }
  reading = false;
}

async function take(name) {
  const [topic, level] = [$("topic").value, $("level").value];
  const wish = {
    sheet: true,
    answers: name === "answers",
    topics: topic ? [topic] : [],
    levels: level ? [Number(level)] : [],
    count: Number($("count").value),
    seed: Number($("seed").value),
    vary: $("vary").checked,
  };
  $("status").textContent = "Asking questions …";
  const answer = await session.ask("/take", { values, ...wish });
  if (answer.file) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(await answer.file.blob());
    link.download = decodeURIComponent(
      answer.file.headers.get("Content-Disposition").split("UTF-8''")[1],
    );
    link.click();
    URL.revokeObjectURL(link.href);
  }
  say(answer);
}

$("lesson-tools").addEventListener("submit", (event) => event.preventDefault());
$("language").addEventListener("change", show);
$("point").addEventListener("click", () => {
  pointing = !pointing;
  $("point").setAttribute("aria-pressed", String(pointing));
  if (!pointing) $("reading").hidden = true;
});
for (const button of document.querySelectorAll("[data-sheet]")) {
  button.addEventListener("click", () => take(button.dataset.sheet));
}
show();
