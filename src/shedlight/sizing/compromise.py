"""The set of best compromises between two objectives."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from shedlight.given.bushing import Installation
from shedlight.sizing.bench import QUANTITIES, Tried
from shedlight.sizing.draft import Draft, complete, preferred_conductors
from shedlight.sizing.pool import MARGIN, Pool, Priced
from shedlight.sizing.prices import need_prices
from shedlight.sizing.request import Objective, Request
from shedlight.sizing.search import Cap
from shedlight.sizing.sized import SLOW, THICKER, forms, propose, with_horns
from shedlight.sizing.start import closed_form

COST = "Cost"
LEAST = "Least margin sized for"
WIDER, FINEST = 0.1, 0.02  # steps of the margin while the most that can be had is sought [1]
CLOSE = 0.5  # a step between neighbours this much smaller than even ones is close enough
WIDENING = 0.6  # of all drafts at most, so that some are left for what lies between
MOST_DRAFTS = 900  # after this many drafts no further step is filled


@dataclass(frozen=True)
class Candidate:
    """One compromise: the bushing, and what it is worth by each of the two objectives [SI].

    Attributes:
        tried: The draft with what the checks said.
        request: What it was sought for; its margin may be more than what was asked.
        first: Worth by the first objective.
        second: Worth by the second.
    """

    tried: Tried
    request: Request
    first: float
    second: float


@dataclass(frozen=True)
class Front:
    """The best compromises, in order of the first objective.

    Attributes:
        first: One objective.
        second: The other.
        candidates: The compromises; none where no bushing holds.
        drafts: How many drafts were looked at so far.
        counted: The checks over which the least margin is counted.
        below: The checks that are only held, for the first bushing found has them below the
            margin wished for; each with the least margin that a compromise has there.
    """

    first: Objective
    second: Objective
    candidates: tuple[Candidate, ...]
    drafts: int = 0
    counted: frozenset[str] = frozenset()
    below: tuple[tuple[str, float], ...] = ()


def axis_of(objective: Objective) -> tuple[str, str]:
    """Name and unit of what an objective counts."""
    if objective == "cheapest":
        return COST, "1"
    if objective == MARGIN:
        return LEAST, "%"
    return QUANTITIES[objective][:2]


def compromises(
    request: Request, first: Objective, second: Objective, count: int = 7
) -> Iterator[Front]:
    """The front, growing as it is found; the last one given is complete.

    Every draft in whole millimetres that a search looks at, and that holds, is a candidate; the
    searches go for the ends first, then for the widest step between two neighbours: what is best
    by one objective while the other is bound to the middle of the step.

    Args:
        request: What is asked.
        first: One objective.
        second: The other.
        count: How many compromises are sought.

    Raises:
        InputError: what is fixed cannot be used, or the cheapest is asked without prices.
    """
    if "cheapest" in (first, second):
        need_prices(request.prices)
    seeking = _Seeking(request, (first, second), count)
    for _ in seeking.steps():
        yield seeking.front()


def finished(request: Request, draft: Draft) -> Installation:
    """The whole installation of a compromise, with horns if they serve.

    Args:
        request: What it was sought for.
        draft: Its draft.
    """
    return complete(request, with_horns(request, draft)[0], whole=True)


class _Seeking:
    """The search for a front: the drafts looked at so far, and what is looked for next."""

    def __init__(self, request: Request, pair: tuple[Objective, Objective], count: int) -> None:
        self.pair = pair
        self.count = count
        self.led = next(name for name in reversed(pair) if name != MARGIN)
        self.request = request.wishing(objective=self.led)
        self.pool = Pool(self.request)
        self.asked: set[tuple[object, ...]] = set()

    def steps(self) -> Iterator[None]:
        """Do the work, step by step."""
        yield from self._start()
        for objective in self._small():
            yield from self._walk(objective)
        if MARGIN in self.pair:
            yield from self._widen()
        while self.pool.drafts < MOST_DRAFTS and self._fill():
            yield

    def front(self) -> Front:
        """The best compromises among all drafts so far, as many as wanted, well apart."""
        while True:
            chosen = _apart(self._placed(), self.count)
            if all(self.pool.proves(place.priced) for place in chosen):
                break
        found = (Candidate(p.priced.tried, p.priced.request, p.first, p.second) for p in chosen)
        ordered = tuple(sorted(found, key=lambda one: one.first))
        below = tuple(self._below(ordered))
        return Front(*self.pair, ordered, self.pool.drafts, self.pool.counted, below)

    def _below(self, found: Sequence[Candidate]) -> Iterator[tuple[str, float]]:
        """The demands held for being below the wish, with the least margin of the compromises."""
        for name in self.pool.below:
            margins = [one.tried.margins[name] for one in found if name in one.tried.margins]
            if margins:
                yield name, min(margins)

    def _small(self) -> list[Objective]:
        return [name for name in self.pair if name != MARGIN]

    def _start(self) -> Iterator[None]:
        """Each kind of sheds by one objective."""
        kinds = forms(self.request)
        first = propose(self.request, kinds[0])
        for form in kinds:
            draft = first if form == kinds[0] else closed_form(self.request, form).chosen_as(first)
            self.asked.add((draft.form, draft.count, self.led))
            self.pool.seek(draft, self.led)
            yield
        again = [replace(first, conductor=size) for size in self._thicker(first.conductor)]
        for draft in (*again, first):
            # What was chosen before the shape was known is too hot in it, or its sheds too deep.
            if self.pool.best_by(self.led) is not None:
                break
            if draft is first:
                self.pool.request = replace(self.pool.request, also=frozenset(SLOW))
            self.pool.seek(draft, self.led)
            yield

    def _walk(self, objective: Objective) -> Iterator[None]:
        """On to more or fewer sheds as long as that is better."""
        while (best := self.pool.best_by(objective)) is not None:
            near = {(draft.form, draft.count, objective): draft for draft in self._near(best)}
            new = {kind: draft for kind, draft in near.items() if kind not in self.asked}
            if not new:
                return
            for kind, draft in new.items():
                self.asked.add(kind)
                self.pool.seek(draft, objective)
                yield

    def _thicker(self, diameter: float) -> Sequence[float]:
        if self.request.fixes("conductor.diameter"):
            return ()
        sizes = self.request.conductors or preferred_conductors()
        return [size for size in sizes if size > diameter + 1e-9][:THICKER]

    def _near(self, best: Priced) -> list[Draft]:
        """The best draft itself, then with the other kind of sheds, a shed less and one more."""
        draft = best.tried.draft
        near = [draft, *(replace(draft, form=form) for form in forms(self.request))]
        if not self.request.fixes("sheds.count"):
            near += [replace(draft, count=max(1, draft.count + step)) for step in (-1, 1)]
        return near

    def _widen(self) -> Iterator[None]:
        """Step by step to as much margin as can be had, from more than one place."""
        step = WIDER
        while step >= FINEST and self.pool.drafts < MOST_DRAFTS * WIDENING:
            had = self._widest()
            if math.isinf(had):
                return
            for draft in self._wideners():
                self.pool.seek(draft, self.led, margin=had + step)
                yield
                if self._widest() >= had + step / 2:
                    break
            else:
                step /= 2

    def _wideners(self) -> list[Draft]:
        """Where to start for more margin: from the lean end, from what has most, a shed more."""
        best = [self.pool.best_by(self.led), self.pool.best_by(MARGIN)]
        drafts = [priced.tried.draft for priced in best if priced is not None]
        drafts += [replace(draft, count=draft.count + 1) for draft in drafts[-1:]]
        if self.request.fixes("sheds.count"):
            drafts = drafts[:2]
        return list(dict.fromkeys(drafts))

    def _widest(self) -> float:
        best = self.pool.best_by(MARGIN)
        return -math.inf if best is None else self.pool.worth(best, MARGIN)

    def _fill(self) -> bool:
        """Look into the widest step between neighbours; False where none is left to look into."""
        steps = sorted(pairwise(self._placed()), key=lambda pair: -pair[0].far_from(pair[1]))
        for one, other in steps:
            if one.far_from(other) < CLOSE / max(1, self.count - 1):
                break
            bound = self._bound_between(one.priced, other.priced)
            starts = {_kind(place.priced): place.priced.tried.draft for place in (one, other)}
            new = [kind for kind in starts if (kind, bound) not in self.asked]
            for kind in new:
                self.asked.add((kind, bound))
                self._seek_within(starts[kind], bound)
            if new:
                return True
        return False

    def _bound_between(self, one: Priced, other: Priced) -> tuple[Objective, float]:
        name = MARGIN if MARGIN in self.pair else self.pair[0]
        middle = (self.pool.worth(one, name) + self.pool.worth(other, name)) / 2
        return name, round(middle, 6)

    def _seek_within(self, draft: Draft, bound: tuple[Objective, float]) -> None:
        objective, value = bound
        if objective == MARGIN:
            self.pool.seek(draft, self.led, margin=value)
        else:
            self.pool.seek(draft, self.pair[1], cap=Cap(objective, value))

    def _placed(self) -> list["_Place"]:
        """Those that no other beats in both, placed between the ends of the front."""
        signs = [-1.0 if name == MARGIN else 1.0 for name in self.pair]
        worth = {
            priced.key: tuple(self.pool.worth(priced, name) for name in self.pair)
            for priced in self.pool.holding()
        }

        def counted(priced: Priced) -> tuple[float, float]:
            first, second = worth[priced.key]
            return round(signs[0] * first, 9), round(signs[1] * second, 9)

        kept: list[Priced] = []
        for priced in sorted(self.pool.holding(), key=counted):
            if not kept or counted(priced)[1] < counted(kept[-1])[1]:
                kept.append(priced)
        values = [worth[priced.key] for priced in kept]
        spans = [max(column) - min(column) or 1.0 for column in zip(*values, strict=True)]
        return [
            _Place(priced, first, second, first / spans[0], second / spans[1])
            for priced, (first, second) in zip(kept, values, strict=True)
        ]


@dataclass(frozen=True)
class _Place:
    """One compromise: its worth, and its place where the whole front spans one by one."""

    priced: Priced
    first: float
    second: float
    x: float
    y: float

    def far_from(self, other: "_Place") -> float:
        return math.hypot(self.x - other.x, self.y - other.y)


def _apart(places: Sequence[_Place], count: int) -> list[_Place]:
    """As many places as wanted: the ends, then always the one farthest from those chosen."""
    if len(places) <= count:
        return list(places)
    chosen = [places[0], places[-1]]
    while len(chosen) < count:
        rest = [place for place in places if place not in chosen]
        chosen.append(max(rest, key=lambda p: min(p.far_from(other) for other in chosen)))
    return chosen


def _kind(priced: Priced) -> tuple[str, int]:
    return priced.tried.draft.form, priced.tried.draft.count
