"""Spreading notes along a margin: as near to their places as they can be without touching.

Solved exactly on a fine grid by dynamic programming, so a crowd of notes is never left overlapping
as long as there is room at all.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

STEP = 0.25


@dataclass(frozen=True)
class Wish:
    """A note that wants to stand at a height [mm on paper], and the room it needs.

    Attributes:
        at: Where it wants to stand.
        above: Room it needs above that height.
        below: Room it needs below.
    """

    at: float
    above: float
    below: float


def spread(
    wishes: Sequence[Wish], low: float, high: float, walls: Sequence[float] = ()
) -> tuple[float, ...]:
    """Heights for all notes, in their given order, with the least sum of squared shifts.

    The range is widened downwards when the notes need more room than it has.

    Args:
        wishes: From the uppermost to the lowest.
        low: Uppermost height that may be used [mm on paper].
        high: Lowest height that may be used.
        walls: Heights of lines that no note may stand on.
    """
    if not wishes:
        return ()
    needed = sum(wish.above + wish.below for wish in wishes) + 8.0 * len(walls)
    count = math.ceil(max(high - low, needed) / STEP) + 1
    grid = [low + STEP * index for index in range(count)]
    costs: list[list[float]] = []
    best_before: list[list[int]] = []
    for index, wish in enumerate(wishes):
        own = [_cost(wish, place, low, walls) for place in grid]
        if index == 0:
            costs.append(own)
            best_before.append([-1] * count)
            continue
        apart = math.ceil((wishes[index - 1].below + wish.above) / STEP)
        best = _running_best(costs[-1])
        row, back = [math.inf] * count, [-1] * count
        for place in range(apart, count):
            back[place] = best[place - apart]
            row[place] = costs[-1][back[place]] + own[place]
        costs.append(row)
        best_before.append(back)
    return tuple(grid[place] for place in _walk_back(costs, best_before))


def _cost(wish: Wish, place: float, low: float, walls: Sequence[float]) -> float:
    if place - wish.above < low:
        return math.inf
    if any(place - wish.above < wall < place + wish.below for wall in walls):
        return math.inf
    return (place - wish.at) ** 2


def _running_best(costs: Sequence[float]) -> list[int]:
    """For every grid place, where at or before it the cost is least."""
    best, found = 0, []
    for place, cost in enumerate(costs):
        if cost < costs[best]:
            best = place
        found.append(best)
    return found


def _walk_back(costs: list[list[float]], best_before: list[list[int]]) -> list[int]:
    place = min(range(len(costs[-1])), key=costs[-1].__getitem__)
    places = [place]
    for back in reversed(best_before[1:]):
        place = back[place]
        places.append(place)
    return places[::-1]
