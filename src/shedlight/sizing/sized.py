"""The whole of sizing: closed form, choices from lists, shape, proof."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from shedlight.checks.assessment import Assessment, assess
from shedlight.checks.check import Check, Verdict
from shedlight.errors import InputError
from shedlight.given.bushing import Installation
from shedlight.sizing.bench import margins_of, possible, quantity_of, tried
from shedlight.sizing.draft import (
    GASKETS,
    Draft,
    Form,
    complete,
    hole_for,
    palms,
    preferred_conductors,
    taking_fixed,
)
from shedlight.sizing.prices import cost, need_prices, unpriced
from shedlight.sizing.request import Request
from shedlight.sizing.search import LARGER, Cap, Search, Shaped, in_whole, weighed
from shedlight.sizing.start import closed_form
from shedlight.workings import Workings

CURRENT = ("conductor.current-density", "conductor.hot-spot", "conductor.short-time")
FACE = ("terminal.contact", "terminal.rise", "terminal.bolts")
SLOW = ("surface.profile.l-d",)  # takes as long as all that is asked of a draft
HORNS = ("horns.ride-through", "horns.protection")
NEARLY = 2e-3  # what whole millimetres mend
FINISHED = 2  # optima that are brought to whole millimetres
THICKER = 3  # steps of the conductor after the shape is known
LEAST_GAP, LEAST_WALL = 0.004, 0.008
FORMS: tuple[Form, ...] = ("plain", "alternating")


@dataclass(frozen=True)
class Sized:
    """A sized bushing with its proof.

    Attributes:
        case: The whole installation.
        assessment: Every check.
        start: What the closed form proposed.
        draft: What the search made of it.
        remarks: What a reader should know of the choices.
        short: What the margin wished for is not reached by, check by check.
        soft: What can at most give a caution.
        evaluations: How many drafts were assessed.
    """

    case: Installation
    assessment: Assessment
    start: Draft
    draft: Draft
    remarks: tuple[str, ...]
    short: dict[str, float]
    soft: frozenset[str]
    evaluations: int

    @property
    def holds(self) -> bool:
        """Whether no check fails, and no firm demand on the shape is short of the margin."""
        return not self.failed and not set(self.short) - self.soft

    @property
    def failed(self) -> tuple[Check, ...]:
        """The checks that fail."""
        return tuple(c for c in self.assessment.checks if c.verdict is Verdict.FAIL)

    @property
    def cautions(self) -> tuple[Check, ...]:
        """The checks that give a caution."""
        return tuple(c for c in self.assessment.checks if c.verdict is Verdict.CAUTION)


def propose(request: Request, form: Form | None = None) -> Draft:
    """The closed form with conductor, terminal and gasket chosen; not yet proved.

    Args:
        request: What is asked.
        form: Kind of sheds; the first that is allowed if left out.
    """
    return _chosen(request, closed_form(request, form or forms(request)[0]))


def size(request: Request, *, thorough: bool = True) -> Sized:
    """The best bushing in whole millimetres for what is asked.

    Args:
        request: What is asked.
        thorough: Whether all kinds and numbers of sheds are tried, and not only the closed
            form's.

    Raises:
        InputError: what is fixed makes no body at all, or the cheapest is asked without prices.
    """
    if request.wishes.objective == "cheapest":
        need_prices(request.prices)
    starts = [propose(request, form) for form in forms(request)[: None if thorough else 1]]
    tries = [draft for start in starts for draft in _counts(request, start)]
    shaped, spent = _best_of(request, tries if thorough else starts, walks=thorough)
    shaped = _open_enough(request, _cool_enough(request, shaped))
    draft, remarks = with_horns(request, shaped.tried.draft)
    case = complete(request, draft, whole=True)
    assessment = assess(case)
    if request.wishes.objective == "cheapest":
        remarks += _costs(request, assessment.workings)
    return Sized(
        case,
        assessment,
        starts[0],
        draft,
        remarks,
        dict(shaped.short),
        shaped.tried.soft,
        spent,
    )


def _costs(request: Request, work: Workings) -> tuple[str, ...]:
    """What it costs, and what the table leaves out: that is not counted."""
    left = unpriced(request.prices, work)
    said = f"Costs {cost(request.prices, work):.2f} by the table of prices"
    return (
        f"{said}; without a price, and not counted: {', '.join(left)}." if left else f"{said}.",
    )


def _cool_enough(request: Request, shaped: Shaped) -> Shaped:
    """The same with a thicker conductor where the finished shape is too hot for the chosen one."""
    for _ in range(THICKER):
        case = shaped.tried.case
        hot = [c for c in assess(case, only=CURRENT).checks if c.verdict is Verdict.FAIL]
        sizes = request.conductors or preferred_conductors()
        thicker = [size for size in sizes if size > case.bushing.conductor.diameter + 1e-9]
        if not hot or not thicker or request.fixes("conductor.diameter"):
            break
        again = shape(request, replace(shaped.tried.draft, conductor=thicker[0]))
        if again is None or weighed(again.short, again.tried) > weighed(shaped.short, shaped.tried):
            break
        shaped = again
    return shaped


def _open_enough(request: Request, shaped: Shaped) -> Shaped:
    """The same sought again with the slow question of the sheds, where the finished shape fails."""
    failed = [c for c in assess(shaped.tried.case, only=SLOW).checks if c.verdict is Verdict.FAIL]
    if not failed:
        return shaped
    asking = replace(request, also=request.also | {check.id for check in failed})
    again = shape(asking, shaped.tried.draft)
    return shaped if again is None or again.tried.failed else again


def forms(request: Request) -> tuple[Form, ...]:
    """The kinds of sheds that may be taken."""
    fixed = request.fixed.get("sheds", {}).get("form")
    if fixed in FORMS:
        return (fixed,)
    if request.wishes.sheds == "any":
        return FORMS
    return (request.wishes.sheds,)


def _counts(request: Request, draft: Draft) -> list[Draft]:
    """The draft with a shed more and less."""
    if request.fixes("sheds.count"):
        return [draft]
    counts = {max(1, draft.count + step) for step in (-1, 0, 1)}
    return [replace(draft, count=count) for count in sorted(counts)]


def _best_of(request: Request, starts: Iterable[Draft], *, walks: bool) -> tuple[Shaped, int]:
    """The best whole draft over kinds and numbers of sheds, walking on while more sheds help."""
    waiting, done = list(starts), set()
    optima: list[tuple[float, Draft, Search]] = []
    while waiting:
        start = waiting.pop(0)
        if (start.form, start.count) in done:
            continue
        done.add((start.form, start.count))
        found = optimum(request, start)
        if found is None:
            continue
        best = min((merit for merit, *_ in optima), default=math.inf)
        optima.append(found)
        if walks and found[0] < best and not request.fixes("sheds.count"):
            draft = found[1]
            near = (max(1, draft.count - 1), draft.count + 1)
            waiting += [replace(draft, count=count) for count in near]
    optima.sort(key=lambda item: item[0])
    whole = [
        shaped
        for _, draft, search in optima[:FINISHED]
        if (shaped := in_whole_or_none(search, draft))
    ]
    if not whole:
        raise InputError("sizing: no bushing of these fixed dimensions can be drawn")
    spent = sum(search.evaluations for *_, search in optima)
    return min(whole, key=lambda shaped: _rank(request, shaped)), spent


def _rank(request: Request, shaped: Shaped) -> tuple[float, float]:
    """What fits first, then the objective."""
    short = weighed(shaped.short, shaped.tried)
    return (round(short, 6), quantity_of(request, shaped.tried))


def shape(request: Request, start: Draft) -> Shaped | None:
    """The best shape of one kind and number of sheds; None where nothing can be drawn.

    Args:
        request: What is asked.
        start: Where to start.
    """
    found = optimum(request, start)
    return None if found is None else in_whole_or_none(found[2], found[1])


def least_shortfall(request: Request, start: Draft) -> dict[str, float] | None:
    """What stays short in the best compromise of one kind and number of sheds, drawn or not.

    Args:
        request: What is asked.
        start: Where to start.
    """
    found = optimum(request, start)
    seen = None if found is None else found[2].look(found[1])
    if seen is None:
        return None
    short = {name: value for name, value in seen[1].items() if value < -NEARLY}
    for check in seen[0].failed:
        short.setdefault(check.id, -1.0 if check.margin is None else check.margin)
    return short


def in_whole_or_none(search: Search, draft: Draft) -> Shaped | None:
    """A draft in whole millimetres; None where it cannot be drawn so.

    Args:
        search: The search it came from.
        draft: The continuous optimum.
    """
    try:
        return in_whole(search, draft)
    except InputError:
        return None


def optimum(
    request: Request,
    start: Draft,
    held: Mapping[str, float] | None = None,
    cap: Cap | None = None,
) -> tuple[float, Draft, Search] | None:
    """The continuous optimum of one kind and number of sheds, its worth, and the search.

    Args:
        request: What is asked.
        start: Where to start.
        held: Margins that are only to be held, each at its own value.
        cap: What another objective may come to at most.
    """
    start = possible(request, taking_fixed(request, start))
    try:
        height = None
        if request.wishes.objective == "widest margin":
            lean = optimum(request.wishing(objective="shortest"), start)
            if lean is None:
                return None
            start = lean[1]
            if request.wishes.largest_height is None:
                height = LARGER * tried(request, start).work.section.heights.top
        search = Search(request, start, height, cap)
        search.set_targets(tried(request, start), held)
        draft, merit = search.best()
        return merit, draft, search
    except InputError:
        return None


def _chosen(request: Request, draft: Draft) -> Draft:
    """Conductor, gasket and palm from their lists, each the smallest that serves.

    The palm is chosen before the rod too: one too small for the current heats the rod.
    """
    draft = _conductor(request, _palm(request, draft))
    if not request.fixes("gasket.material"):
        draft = _first(
            request,
            [replace(draft, gasket=name) for name in GASKETS],
            ("gasket.temperature",),
        )
    return _palm(request, draft)


def _palm(request: Request, draft: Draft) -> Draft:
    if request.fixes("terminal.width"):
        return draft
    return _first(request, [replace(draft, palm=number) for number in range(len(palms()))], FACE)


def _conductor(request: Request, draft: Draft) -> Draft:
    if request.fixes("conductor.diameter"):
        return draft
    sizes = request.conductors or preferred_conductors()
    if not request.hole_is_free:
        room = hole_for(request, draft) / (1 + request.wishes.margin)
        sizes = tuple(d for d in sizes if d + 2 * (LEAST_GAP + LEAST_WALL) <= room) or sizes[:1]
    drafts = [possible(request, replace(draft, conductor=size)) for size in sizes]
    return _first(request, drafts, CURRENT)


def _first(request: Request, drafts: list[Draft], ids: tuple[str, ...]) -> Draft:
    """The first draft with the margin wished for, else with nearly all that any of them has."""
    known: dict[Draft, Mapping[str, float]] = {}
    for draft in drafts:
        known[draft] = margins_of(request, draft, ids)
        if all(known[draft][name] >= request.wishes.margin for name in ids):
            return draft
    reachable = {name: max(found[name] for found in known.values()) for name in ids}
    wanted = {
        name: min(request.wishes.margin, most - 0.1 * abs(most)) for name, most in reachable.items()
    }
    for draft, found in known.items():
        if all(found[name] >= wanted[name] for name in ids):
            return draft
    return max(drafts, key=lambda draft: min(known[draft][name] - wanted[name] for name in ids))


def with_horns(request: Request, draft: Draft) -> tuple[Draft, tuple[str, ...]]:
    """The draft with horns if one gap both rides through and protects, and what to say of it.

    Args:
        request: What is asked.
        draft: A finished draft.
    """
    if request.wishes.horns == "none":
        return draft, ("No horns, as wished: what protects against lightning is not described.",)
    if request.fixes("horns.gap"):
        return replace(draft, horn_gap=0.1), ()
    gap = _middle_gap(request, draft)
    fitted = replace(draft, horn_gap=gap)
    found = assess(complete(request, fitted), only=HORNS)
    if all(check.verdict is Verdict.PASS for check in found.checks):
        return fitted, ()
    margins = margins_of(request, fitted, HORNS)
    if min(margins.values()) >= 0:
        why = f"No horns: the gap of {1e3 * gap:.0f} mm is outside what is known of such gaps."
        return draft, (why,)
    why = (
        f"No horns: at {1e3 * gap:.0f} mm, the best gap, they would "
        f"{'not ride through' if margins[HORNS[0]] < 0 else 'spark too late to protect'} "
        f"(short by {-min(margins.values()):.1%}); an arrester protects better."
    )
    return draft, (why,)


def _middle_gap(request: Request, draft: Draft) -> float:
    """The gap, in whole millimetres, that rides through as surely as it protects."""
    low, high = 0.015, max(0.05, 0.7 * draft.air)
    for _ in range(12):
        if high - low <= 0.001:
            break
        middle = (low + high) / 2
        margins = margins_of(request, replace(draft, horn_gap=middle), HORNS)
        surer = margins["horns.ride-through"] >= margins["horns.protection"]
        low, high = (low, middle) if surer else (middle, high)
    return round(1e3 * (low + high) / 2) / 1e3
