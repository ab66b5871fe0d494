// Two variants side by side: what is on the page, what is saved, files and examples.

import * as session from "./session.js";

const CHOSEN = "shedlight:compared";
const $ = (id) => document.getElementById(id);
const sides = ["left", "right"];
const opened = session.current();
let turn = 0;

function offerOwn() {
  for (const own of document.querySelectorAll("[data-own]")) {
    if (!opened) {
      own.remove();
      continue;
    }
    const name = opened.values.name;
    own.append(new Option(`${name}, as on the page now`, "own:now"));
    own.append(new Option(`${name}, as saved`, "own:saved"));
  }
}

function choose() {
  const kept = JSON.parse(sessionStorage.getItem(CHOSEN) ?? "null");
  const usual = opened ? ["own:saved", "own:now"] : ["example:quay-24kv", "example:quay-24kv-cured"];
  const nothingChanged = opened && session.changes().length === 0;
  const first = nothingChanged && opened.name === "quay-24kv" ? ["own:now", "example:quay-24kv-cured"] : usual;
  sides.forEach((side, index) => {
    $(side).value = (kept ?? first)[index];
    if (!$(side).value) $(side).value = usual[index];
  });
}

async function valuesOf(choice) {
  const [origin, name] = [choice.slice(0, choice.indexOf(":")), choice.slice(choice.indexOf(":") + 1)];
  if (origin === "own") return { values: name === "now" ? opened.values : opened.saved };
  return session.ask("/description", { origin, name });
}

const wordsOf = (side) => $(side).selectedOptions[0].textContent;

async function compare() {
  const mine = ++turn;
  document.documentElement.dataset.idle = "no";
  sessionStorage.setItem(CHOSEN, JSON.stringify(sides.map((side) => $(side).value)));
  const waiting = setTimeout(() => ($("status").textContent = "Working out both …"), 350);
  const both = await Promise.all(sides.map((side) => valuesOf($(side).value)));
  const unusable = both.findIndex((each) => !each.values);
  const titles = sides.map(wordsOf);
  const answer =
    unusable < 0
      ? await session.ask("/ask/compare", { left: both[0].values, right: both[1].values, titles })
      : both[unusable];
  clearTimeout(waiting);
  if (mine !== turn || answer.superseded) return;
  if (answer.parts) {
    $("status").textContent = "";
    $("compared").innerHTML = answer.parts.compared;
  } else {
    const said = (answer.problems ?? []).map((each) => `${each.field}: ${each.said}`);
    $("status").textContent = ["This pair cannot be shown.", answer.fault ?? "", answer.stopped ?? "", ...said].join(" ");
    $("compared").replaceChildren();
  }
  document.documentElement.dataset.idle = "yes";
  document.documentElement.dataset.shown = mine;
}

offerOwn();
choose();
for (const side of sides) $(side).addEventListener("change", compare);
$("pair").addEventListener("submit", (event) => event.preventDefault());
$("swap").addEventListener("click", () => {
  [$("left").value, $("right").value] = [$("right").value, $("left").value];
  compare();
});
compare();
