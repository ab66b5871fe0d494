// The description that all rooms look at, with its history: kept by the browser for this tab,
// so that a reload loses nothing.

const KEPT = "shedlight:document";
const PAGE = "shedlight:page";
const LONGEST_HISTORY = 200;
const SHOW_WAIT = 350; // only what takes longer is announced [ms]
const ONE_EDIT = 900; // changes of one value that follow each other within this are one step [ms]

export const page = sessionStorage.getItem(PAGE) ?? crypto.randomUUID();
sessionStorage.setItem(PAGE, page);

let kept = read();

function read() {
  try {
    return JSON.parse(sessionStorage.getItem(KEPT));
  } catch {
    return null;
  }
}

function keep() {
  try {
    sessionStorage.setItem(KEPT, JSON.stringify(kept));
  } catch {
    kept.past.splice(0, Math.ceil(kept.past.length / 2)); // the browser's room is full
  }
}

/** What is looked at: origin, name, values, saved values; null if nothing was opened yet. */
export function current() {
  return kept;
}

/** Start with what the server sent; edits made before a reload are taken up again.
 *  Says whether the file is another than the one that those edits began from. */
export function begin(sent) {
  const same = kept && kept.origin === sent.origin && kept.name === sent.name;
  if (same && kept.past.length + kept.future.length > 0) {
    const moved = kept.seen !== sent.seen;
    kept.folder = sent.folder;
    keep();
    return moved;
  }
  const { origin, name, base, seen, folder, values } = sent;
  kept = { origin, name, base, seen, folder, saved: values, values: { ...values } };
  Object.assign(kept, { past: [], future: [] });
  keep();
  return false;
}

/** Set some values as one step that can be undone; a run of edits of one value is one step. */
export function change(values, label, joined = false) {
  const before = {};
  const after = {};
  for (const [path, text] of Object.entries(values)) {
    if ((kept.values[path] ?? "") === text) continue;
    before[path] = kept.values[path] ?? "";
    after[path] = text;
  }
  if (Object.keys(after).length === 0) return false;
  Object.assign(kept.values, after);
  const last = kept.past.at(-1);
  const now = Date.now();
  if (joined && last && last.label === label && now - last.at < ONE_EDIT) {
    Object.assign(last.after, after);
    last.at = now;
  } else {
    kept.past.push({ label, before, after, at: now });
    if (kept.past.length > LONGEST_HISTORY) kept.past.shift();
  }
  kept.future = [];
  keep();
  return true;
}

/** Take the last step back; gives the values that changed. */
export function undo() {
  return step(kept.past, kept.future, "before");
}

/** Take a step again that was undone. */
export function redo() {
  return step(kept.future, kept.past, "after");
}

function step(from, to, side) {
  const entry = from.pop();
  if (!entry) return null;
  Object.assign(kept.values, entry[side]);
  entry.at = 0;
  to.push(entry);
  keep();
  return entry[side];
}

/** Take note of what was saved. */
export function saved(name, seen, base, values) {
  Object.assign(kept, { origin: "file", name, seen, base, saved: values });
  keep();
}

/** What differs from what is saved: path, saved text, text now. */
export function changes() {
  const paths = new Set([...Object.keys(kept.saved), ...Object.keys(kept.values)]);
  const found = [];
  for (const path of paths) {
    const [was, now] = [kept.saved[path] ?? "", kept.values[path] ?? ""];
    if (!alike(was, now)) found.push({ path, was, now });
  }
  return found;
}

/** "38 mm" and "38" say the same in a field of millimetres. */
function alike(was, now) {
  if (was === now) return true;
  const number = was.match(/^(\S+) (\S+)$/);
  return number !== null && now.trim() === number[1];
}

/** Ask the server; gives its answer, or what went wrong in its words. */
export async function ask(address, body, signal = null) {
  try {
    const answer = await fetch(address, {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ page, ...body }),
      signal,
    });
    if (answer.headers.get("Content-Disposition")) return { file: answer };
    return await answer.json();
  } catch {
    if (signal?.aborted) return { stopped: "This was stopped before it was done." };
    return { fault: "The page's server does not answer; it may have been ended.", gone: true };
  }
}

/** Long work that can be stopped: the request, and what stops it here and at the server. */
export function askLong(address, body) {
  const control = new AbortController();
  const stop = () => {
    control.abort();
    ask("/stop", {});
  };
  return { answer: ask(address, body, control.signal), stop };
}

/** Ask the same of ever newer values: one request under way, the newest one waiting. */
export function loop(address, more, show, told) {
  const state = { underway: false, wanted: false };
  state.run = async () => {
    state.wanted = true;
    told.started();
    if (state.underway) return;
    state.underway = true;
    while (state.wanted) {
      state.wanted = false;
      const waiting = setTimeout(told.long, SHOW_WAIT);
      const answer = await ask(address, { values: kept.values, ...more() });
      clearTimeout(waiting);
      if (!answer.superseded) show(answer);
    }
    state.underway = false;
    told.done();
  };
  return state;
}
