// The figure: shown as it comes, layers switched, dimensions dragged.

const SVG = "http://www.w3.org/2000/svg";
const FINE = 10; // of a step while Shift is held

const $ = (id) => document.getElementById(id);
const overlay = $("grips");
let shown = null; // the figure as the server told it
let layersChanged = () => {};
let dragged = () => {};
let dragging = null;
let offered = "";

/** Be told of a layer switched on or off. */
export const onLayers = (told) => (layersChanged = told);

/** Be told of a dimension dragged: path, value, what is held, whether it is over. */
export const onDrag = (told) => (dragged = told);

/** Show a figure; while something is dragged the section stays where it is, at its scale. */
export function show(figure, hidden, held) {
  shown = figure;
  $("picture").innerHTML = figure.svg;
  const drawn = $("picture").firstElementChild;
  const [width, height] = held ? held.paper : figure.paper;
  const left = held ? figure.axis - held.axis : 0;
  const top = held ? figure.coverTop - held.coverTop : 0;
  for (const each of [drawn, overlay]) each.setAttribute("viewBox", `${left} ${top} ${width} ${height}`);
  drawn.removeAttribute("width");
  drawn.removeAttribute("height");
  layers(figure.layers, hidden);
  grips(figure.grips);
}

function layers(all, hidden) {
  for (const layer of all) toggle(layer.name, !hidden.includes(layer.name));
  const text = JSON.stringify([all, hidden]);
  if (text === offered) return;
  offered = text;
  const box = $("layers").querySelector("div");
  const focused = document.activeElement?.dataset?.layerSwitch;
  box.replaceChildren(...all.map((layer) => layerSwitch(layer, !hidden.includes(layer.name))));
  if (!all.some((layer) => layer.name === "dimensions") && shown.picture === "section") {
    box.append(layerSwitch({ name: "dimensions", title: "Dimensions and part numbers" }, false));
  }
  $("layers").hidden = all.length === 0;
  if (focused) box.querySelector(`[data-layer-switch="${CSS.escape(focused)}"]`)?.focus();
}

function layerSwitch(layer, on) {
  const label = document.createElement("label");
  const box = document.createElement("input");
  box.type = "checkbox";
  box.checked = on;
  box.dataset.layerSwitch = layer.name;
  box.addEventListener("change", () => {
    toggle(layer.name, box.checked);
    layersChanged(layer.name, box.checked);
  });
  label.append(box, sample(layer), ` ${layer.title}`);
  return label;
}

/** A piece of the layer's own line, so that the switch is the key as well. */
function sample(layer) {
  const svg = document.createElementNS(SVG, "svg");
  svg.setAttribute("viewBox", "0 0 12 4");
  svg.setAttribute("class", "sample");
  svg.setAttribute("aria-hidden", "true");
  const line = document.createElementNS(SVG, "path");
  line.setAttribute("d", "M0 2H12");
  line.setAttribute("stroke", layer.colour || "none");
  line.setAttribute("stroke-width", "1.2");
  line.setAttribute("stroke-dasharray", layer.dashes || "none");
  svg.append(line);
  return svg;
}

function toggle(name, on) {
  const group = $("picture").querySelector(`[data-layer="${CSS.escape(name)}"]`);
  if (group) group.setAttribute("display", on ? "inline" : "none");
}

/** Say in words what is lit up. */
export function caption(lit) {
  const said = lit.map((each) => `${each.title}: ${each.reason}`);
  $("caption").textContent = said.length ? `Lit up: ${said.join("; ")}.` : "";
}

// --- grips ---------------------------------------------------------------------------------

function grips(all) {
  const focused = document.activeElement?.dataset?.grip;
  for (const grip of all) {
    const handle = overlay.querySelector(`[data-grip="${CSS.escape(grip.path)}"]`) ?? newHandle(grip);
    handle.setAttribute("transform", `translate(${grip.x} ${grip.y})`);
    handle.setAttribute("aria-valuenow", grip.value);
    handle.setAttribute("aria-valuemin", grip.low);
    handle.setAttribute("aria-valuemax", grip.high);
    handle.setAttribute("aria-valuetext", `${grip.value} ${grip.unit}`);
  }
  const paths = new Set(all.map((grip) => grip.path));
  for (const handle of overlay.querySelectorAll("[data-grip]")) {
    if (!paths.has(handle.dataset.grip)) handle.remove();
  }
  if (focused && document.activeElement === document.body) {
    overlay.querySelector(`[data-grip="${CSS.escape(focused)}"]`)?.focus();
  }
}

function newHandle(grip) {
  const handle = document.createElementNS(SVG, "g");
  const upright = grip.down !== 0;
  for (const [name, value] of Object.entries({
    "data-grip": grip.path,
    role: "slider",
    tabindex: "0",
    "aria-label": grip.name,
    "aria-orientation": upright ? "vertical" : "horizontal",
    class: upright ? "grip upright" : "grip",
  })) handle.setAttribute(name, value);
  const title = document.createElementNS(SVG, "title");
  title.textContent = `${grip.name}: drag, or use the arrow keys`;
  const reach = document.createElementNS(SVG, "circle");
  reach.setAttribute("r", "4.2");
  reach.setAttribute("class", "reach");
  const face = document.createElementNS(SVG, "circle");
  face.setAttribute("r", "2.7");
  face.setAttribute("class", "face");
  const mark = document.createElementNS(SVG, "path");
  mark.setAttribute("d", upright ? "M0 -2.2L1.3 -.4H-1.3ZM0 2.2L1.3 .4H-1.3Z" : "M-2.2 0L-.4 -1.3V1.3ZM2.2 0L.4 -1.3V1.3Z");
  handle.append(title, reach, face, mark);
  overlay.append(handle);
  return handle;
}

const gripOf = (handle) => shown.grips.find((grip) => grip.path === handle.dataset.grip);

overlay.addEventListener("pointerdown", (event) => {
  const handle = event.target.closest("[data-grip]");
  const grip = handle && gripOf(handle);
  if (!grip || event.button !== 0) return;
  event.preventDefault();
  handle.focus();
  handle.setPointerCapture(event.pointerId);
  const scale = 1 / overlay.getScreenCTM().a;
  const { axis, coverTop, paper } = shown;
  dragging = { grip, handle, x: event.clientX, y: event.clientY, scale, value: grip.value };
  dragging.hold = { scale: shown.scale, axis, coverTop, paper };
  handle.classList.add("dragged");
});

overlay.addEventListener("pointermove", (event) => {
  if (!dragging) return;
  const { grip, scale } = dragging;
  const right = (event.clientX - dragging.x) * scale;
  const down = (event.clientY - dragging.y) * scale;
  const value = grip.value + grip.across * right + grip.down * down;
  tell(grip, event.shiftKey ? Math.round(value * FINE) / FINE : Math.round(value), event);
});

function tell(grip, wanted, event) {
  const value = Math.min(grip.high, Math.max(grip.low, wanted));
  if (value === dragging.value) return;
  dragging.value = value;
  const readout = $("readout");
  const stage = $("stage").getBoundingClientRect();
  readout.textContent = `${grip.label}: ${value} ${grip.unit}`;
  readout.style.left = `${Math.min(event.clientX - stage.left + 24, stage.width - 170)}px`;
  readout.style.top = `${Math.max(event.clientY - stage.top - 40, 0)}px`;
  readout.hidden = false;
  dragged(grip.path, `${value} ${grip.unit}`, dragging.hold, false);
}

function letGo() {
  if (!dragging) return;
  const { grip, handle, value } = dragging;
  handle.classList.remove("dragged");
  dragging = null;
  $("readout").hidden = true;
  if (value !== grip.value) dragged(grip.path, `${value} ${grip.unit}`, null, true);
}
overlay.addEventListener("pointerup", letGo);
overlay.addEventListener("pointercancel", letGo);

overlay.addEventListener("keydown", (event) => {
  const handle = event.target.closest("[data-grip]");
  const steps = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 10, PageDown: -10 };
  if (!handle || !(event.key in steps)) return;
  event.preventDefault();
  const grip = gripOf(handle);
  const step = steps[event.key] / (event.shiftKey ? FINE : 1);
  const value = Math.min(grip.high, Math.max(grip.low, Math.round((grip.value + step) * FINE) / FINE));
  grip.value = value; // so that a key held down runs on before the answer is there
  dragged(grip.path, `${value} ${grip.unit}`, null, true);
});
