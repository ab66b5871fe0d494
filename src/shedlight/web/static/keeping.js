// Keeping: changed against saved, saving in the working folder, taking files away.

import * as session from "./session.js";

const $ = (id) => document.getElementById(id);
let bench = null; // what the section lends: set, say, travelled

/** Begin, with what the section lends. */
export function begin(lent) {
  bench = lent;
  const { name, origin } = session.current();
  $("kept").textContent = origin === "file" ? name : `example ${name}`;
}

// --- changed against saved -----------------------------------------------------------------

/** Say how much differs from what is saved, and list it. */
export function showChanges(found, labelOf) {
  const number = found.length;
  $("show-changes").textContent = number === 0 ? "No changes" : number === 1 ? "1 change" : `${number} changes`;
  $("show-changes").disabled = number === 0;
  $("document-name").textContent = session.current().values.name;
  const rows = found.map(({ path, was, now }) => {
    const row = document.createElement("tr");
    for (const text of [labelOf(path), was || "left out", now || "left out"]) {
      const cell = document.createElement("td");
      cell.textContent = text;
      row.append(cell);
    }
    const last = document.createElement("td");
    last.append(button("Put back", () => bench.set({ [path]: was }, `put back ${path}`), `Put back ${labelOf(path)}`));
    row.append(last);
    return row;
  });
  const table = document.createElement("table");
  table.innerHTML = '<thead><tr><th scope="col">What</th><th scope="col">Saved</th><th scope="col">Now</th><th scope="col"><span class="unseen">Undo</span></th></tr></thead><tbody></tbody>';
  table.tBodies[0].append(...rows);
  $("changes-list").replaceChildren(number ? table : document.createTextNode("Nothing differs from what is saved."));
  $("put-back").disabled = number === 0;
}

function button(words, act, label = "") {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = words;
  if (label) made.setAttribute("aria-label", label);
  made.addEventListener("click", act);
  return made;
}

$("show-changes").addEventListener("click", () => $("changes").showModal());
$("put-back").addEventListener("click", () => {
  const all = Object.fromEntries(session.changes().map(({ path, was }) => [path, was]));
  bench.set(all, "put everything back");
});
for (const close of document.querySelectorAll('[data-act="dismiss"]')) {
  close.addEventListener("click", () => close.closest("dialog").close());
}

// --- saving --------------------------------------------------------------------------------

/** Save where it came from; ask for a name first where there is none yet. */
export function save() {
  const { origin, name, seen } = session.current();
  if (origin === "file") return write(name, seen);
  $("saving-why").textContent = "An example stays as it is; choose a name for your own description.";
  $("save-name").value = `my-${name}.toml`;
  open();
}

function open(wrong = "") {
  $("saving-wrong").textContent = wrong;
  $("saving-wrong").hidden = wrong === "";
  if (!$("saving").open) $("saving").showModal();
  $("save-name").focus();
}

async function write(name, seen) {
  const { values, base } = session.current();
  const answer = await session.ask("/save", { values, base, name, seen });
  if (answer.seen !== undefined && !answer.changed) return done(answer);
  if (answer.changed) return meanwhile(name, answer);
  const said = answer.fault ?? answer.stopped ?? "The values cannot be used yet; mend those marked on the left.";
  if ($("saving").open) open(said);
  else bench.say(`Not saved: ${said}`);
}

function done(answer) {
  const moved = session.current().origin !== "file" || session.current().name !== answer.name;
  session.saved(answer.name, answer.seen, answer.base, { ...session.current().values });
  $("saving").close();
  $("kept").textContent = answer.name;
  if (moved) history.replaceState(null, "", `/file/${encodeURIComponent(answer.name)}`);
  bench.travelled();
  bench.say(`Saved as ${answer.name}.`);
}

function meanwhile(name, answer) {
  $("saving-why").textContent = "Nothing was written. Save under another name, or replace what is there now.";
  $("save-name").value = name;
  $("save-over").hidden = !answer.seen;
  $("save-over").onclick = () => write($("save-name").value === name ? name : $("save-name").value, answer.seen);
  open(`${answer.changed[0].toUpperCase()}${answer.changed.slice(1)}.`);
}

$("save")?.addEventListener("click", save);
$("save-now").addEventListener("click", () => write($("save-name").value.trim(), ""));
$("saving").addEventListener("close", () => ($("save-over").hidden = true));

// --- taking away ---------------------------------------------------------------------------

document.getElementById("take").addEventListener("click", async (event) => {
  const kind = event.target.dataset.take;
  if (!kind) return;
  const words = event.target.getAttribute("aria-label").toLowerCase();
  const work = session.askLong("/take", { values: session.current().values, kind, field: bench.view.field });
  bench.say(`Writing ${words} …`, "Stop", work.stop);
  const answer = await work.answer;
  if (!answer.file) {
    const problems = (answer.problems ?? []).map((each) => `${each.field} ${each.said}`).join(" ");
    return bench.say(`Not written: ${answer.fault ?? answer.stopped ?? problems}`);
  }
  const address = URL.createObjectURL(await answer.file.blob());
  const link = document.createElement("a");
  link.href = address;
  link.download = nameIn(answer.file.headers.get("Content-Disposition"));
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
  $("take").open = false;
  bench.say(`Wrote ${words}: ${link.download}.`);
});

const nameIn = (header) => decodeURIComponent(header.split("''")[1] ?? "shedlight");

$("print").addEventListener("click", () => {
  $("take").open = false;
  window.print();
});

document.addEventListener("click", (event) => {
  for (const menu of document.querySelectorAll("details.menu[open]")) {
    if (!menu.contains(event.target)) menu.open = false;
  }
});
document.addEventListener("keydown", (event) => {
  const menu = document.activeElement?.closest?.("details.menu[open]");
  if (event.key !== "Escape" || !menu) return;
  menu.open = false;
  menu.querySelector("summary").focus();
});
