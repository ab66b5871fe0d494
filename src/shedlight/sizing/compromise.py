"""The set of best compromises between two objectives."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from shedlight.sizing.bench import QUANTITIES, Tried, least_margin
from shedlight.sizing.draft import Draft
from shedlight.sizing.prices import cost
from shedlight.sizing.request import Objective, Request
from shedlight.sizing.sized import Sized, size
from shedlight.sizing.sized import shape as shaped_once

COST = "Cost"
LEAST = 0.0
MARGIN = "Least margin"


@dataclass(frozen=True)
class Candidate:
    """One compromise: the bushing, and what it is worth by each of the two objectives [SI]."""

    tried: Tried
    first: float
    second: float


@dataclass(frozen=True)
class Front:
    """The best compromises, in order of the first objective."""

    first: Objective
    second: Objective
    candidates: tuple[Candidate, ...]


def axis_of(objective: Objective) -> tuple[str, str]:
    """Name and unit of what an objective counts."""
    if objective == "cheapest":
        return COST, "1"
    if objective == "widest margin":
        return MARGIN, "%"
    return QUANTITIES[objective][:2]


def value_of(request: Request, objective: Objective, found: Tried) -> float:
    """What a draft is worth by an objective, in SI.

    Args:
        request: What is asked.
        objective: Which objective.
        found: The draft.
    """
    if objective == "cheapest":
        return cost(request.prices, found.work)
    if objective == "widest margin":
        return least_margin(request, found)
    return QUANTITIES[objective][2](found.work)


def compromises(
    request: Request, first: Objective, second: Objective, count: int = 7
) -> Iterator[Front]:
    """The front, growing as it is found; the last one given is complete.

    Margins are traded by asking for more of them step by step; anything else by allowing the
    length in steps between the shortest and the best by the other objective.

    Args:
        request: What is asked.
        first: One objective.
        second: The other.
        count: How many compromises are sought.
    """
    found: list[Candidate] = []
    for asked in _steps(request, first, second, count):
        for tried in asked:
            values = (value_of(request, name, tried) for name in (first, second))
            found.append(Candidate(tried, *values))
        yield Front(first, second, _undominated(found, first, second))


def _steps(
    request: Request, first: Objective, second: Objective, count: int
) -> Iterator[list[Tried]]:
    if "widest margin" in (first, second):
        other = second if first == "widest margin" else first
        base = request.wishing(objective=other)
        start = size(base)
        yield _whole(start)
        for margin in np.linspace(request.wishes.margin, request.wishes.margin + 0.3, count)[1:]:
            shaped = shaped_once(base.wishing(margin=float(margin)), _plain(start))
            # What is asked for here need not be reached: it counts for what it has.
            enough = shaped is not None and least_margin(base, shaped.tried) >= LEAST
            yield [shaped.tried] if shaped is not None and enough else []
        return
    ends = [size(request.wishing(objective=name)) for name in (first, second)]
    yield [tried for end in ends for tried in _whole(end)]
    tops = [end.assessment.workings.section.heights.top for end in ends]
    for top in np.linspace(tops[0], tops[1], count)[1:-1]:
        limited = request.wishing(objective=second, largest_height=float(top))
        for end in ends:
            shaped = shaped_once(limited, _plain(end))
            yield [shaped.tried] if shaped is not None and shaped.fits else []


def _plain(sized: Sized) -> Draft:
    return replace(sized.draft, horn_gap=None)


def _whole(sized: Sized) -> list[Tried]:
    return [Tried(sized.draft, sized.case, sized.assessment)] if sized.holds else []


def _undominated(
    found: list[Candidate], first: Objective, second: Objective
) -> tuple[Candidate, ...]:
    """Those that no other beats in both."""

    def counted(one: Candidate) -> tuple[float, float]:
        signs = [-1.0 if name == "widest margin" else 1.0 for name in (first, second)]
        return signs[0] * one.first, signs[1] * one.second

    kept, best = [], float("inf")
    for one in sorted(found, key=counted):
        if counted(one)[1] < best - 1e-9:
            kept.append(one)
            best = counted(one)[1]
    return tuple(sorted(kept, key=lambda one: one.first))
