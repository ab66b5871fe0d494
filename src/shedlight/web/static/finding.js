// Moving about in the form: finding a value by its words, stepping a number with the keyboard.

const $ = (id) => document.getElementById(id);
const STEPS = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 };

/** Show only the values whose words hold what is looked for. */
export function narrow() {
  const words = $("find").value.trim().toLowerCase();
  let any = false;
  for (const group of $("form").querySelectorAll("details[data-group]")) {
    const title = group.querySelector("summary").textContent.toLowerCase();
    let some = false;
    for (const field of group.querySelectorAll(".field")) {
      const hit = !words || title.includes(words) || field.textContent.toLowerCase().includes(words);
      field.hidden = !hit;
      some ||= hit;
    }
    group.hidden = words !== "" && !some;
    if (words && some) group.open = true;
    any ||= some;
  }
  $("found-none").hidden = any || !words;
}

$("find").addEventListener("input", narrow);

/** Be told of a number stepped with the keyboard: its path and new text. */
export function onStep(told) {
  $("form").addEventListener("keydown", (event) => {
    const input = event.target;
    if (!(event.key in STEPS) || !["quantity", "count"].includes(input.dataset.kind)) return;
    const text = input.value.trim() || input.placeholder.replace("−", "-");
    if (!/^-?\d+([.,]\d+)?$/.test(text)) return;
    event.preventDefault();
    const decimals = (text.split(/[.,]/)[1] ?? "").length;
    const next = Number(text.replace(",", ".")) + STEPS[event.key] * 10 ** -decimals;
    told(input.dataset.path, next.toFixed(decimals));
  });
}
