// Turns the pages of the tour. Every number stands in the file already, computed; here only the
// two moving points read their length off the way they have gone.

/** Bring a tour to life. `signal` ends its listeners when another tour takes its place. */
export function run(tour, signal) {
  const views = [...tour.querySelectorAll(".view")];
  const jump = tour.querySelector("#jump");
  const clock = tour.querySelector("#clock");
  let here = 0;
  let started = null;

  function show(index, focus = true) {
    here = Math.max(0, Math.min(views.length - 1, index));
    views.forEach((view, n) => view.classList.toggle("here", n === here));
    const id = views[here].id;
    if ([...jump.options].some((option) => option.value === id)) jump.value = id;
    history.replaceState(null, "", `#${id}`);
    if (focus) views[here].focus({ preventScroll: true });
    window.scrollTo(0, 0);
    started ??= Date.now();
    tour.dispatchEvent(new CustomEvent("viewshown", { detail: id }));
  }

  function depth(value) {
    tour.dataset.depth = value;
    const input = tour.querySelector(`input[name=depth][value=${value}]`);
    if (input) input.checked = true;
  }

  function notes() {
    const on = tour.classList.toggle("with-notes");
    tour.querySelector("#notes").setAttribute("aria-pressed", String(on));
  }

  function fullScreen() {
    if (document.fullscreenElement) document.exitFullscreen();
    else tour.requestFullscreen?.();
  }

  const KEYS = {
    ArrowRight: () => show(here + 1),
    PageDown: () => show(here + 1),
    ArrowLeft: () => show(here - 1),
    PageUp: () => show(here - 1),
    Home: () => show(0),
    End: () => show(views.length - 1),
    1: () => depth("operator"),
    2: () => depth("apprentice"),
    3: () => depth("engineer"),
    n: notes,
    f: fullScreen,
  };

  document.addEventListener("keydown", (event) => {
    const typing = ["INPUT", "SELECT", "TEXTAREA"].includes(event.target.tagName);
    if (typing || event.ctrlKey || event.metaKey || event.altKey) return;
    const act = KEYS[event.key] ?? KEYS[event.key.toLowerCase()];
    if (!act) return;
    event.preventDefault();
    act();
  }, { signal });

  tour.querySelector("#next").addEventListener("click", () => show(here + 1));
  tour.querySelector("#previous").addEventListener("click", () => show(here - 1));
  tour.querySelector("#notes").addEventListener("click", notes);
  tour.querySelector("#full-screen").addEventListener("click", fullScreen);
  jump.addEventListener("change", () => show(views.findIndex((view) => view.id === jump.value)));
  for (const input of tour.querySelectorAll("input[name=depth]")) {
    input.addEventListener("change", () => depth(input.value));
  }

  for (const asked of tour.querySelectorAll(".prediction")) {
    asked.querySelector(".reveal").addEventListener("click", () => {
      const chosen = asked.querySelector("input:checked");
      asked.classList.add("shown");
      asked.classList.toggle("hit", chosen?.value === asked.dataset.right);
      asked.classList.toggle("missed", Boolean(chosen) && chosen.value !== asked.dataset.right);
    });
  }

  // --- the two ways: one point on each, both started and ended together --------------------------

  function wayIn(view, layer) {
    return view.querySelector(`[data-layer="${layer}"] path`);
  }

  function pointOn(path) {
    const point = document.createElementNS("http://www.w3.org/2000/svg", "circle");
    point.setAttribute("r", "180");
    point.setAttribute("fill", "#111111");
    point.setAttribute("stroke", "#ffffff");
    point.setAttribute("stroke-width", "60");
    path.parentNode.append(point);
    return point;
  }

  const ways = tour.querySelector(".ways");
  if (ways) {
    const view = ways.closest(".view");
    const paths = { along: wayIn(view, "creepage path"), through: wayIn(view, "arcing path") };
    const slider = ways.querySelector("input");
    const points = Object.fromEntries(
      Object.entries(paths).filter(([, path]) => path).map(([name, path]) => [name, pointOn(path)]),
    );
    const move = () => {
      const share = slider.value / slider.max;
      for (const [name, point] of Object.entries(points)) {
        const place = paths[name].getPointAtLength(share * paths[name].getTotalLength());
        point.setAttribute("cx", place.x);
        point.setAttribute("cy", place.y);
        const gone = share * Number(ways.dataset[name]);
        ways.querySelector(`#${name}`).value = gone.toFixed(0);
      }
    };
    slider.addEventListener("input", move);
    move();
  }

  const ticking = setInterval(() => {
    if (!started) return;
    const seconds = Math.floor((Date.now() - started) / 1000);
    clock.value = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  }, 1000);

  signal?.addEventListener("abort", () => clearInterval(ticking));

  tour.classList.add("running");
  const asked = views.findIndex((view) => `#${view.id}` === location.hash);
  show(asked < 0 ? 0 : asked, false);
}

const alone = document.querySelector("body > .tour");
if (alone) run(alone);
