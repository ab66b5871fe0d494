"""Shaping a draft: the constrained optimum over its dimensions, then whole millimetres."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, cast

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import NonlinearConstraint, minimize

from shedlight.errors import InputError
from shedlight.sizing.bench import (
    APART,
    MOST,
    Tried,
    possible,
    quantity_of,
    shape_margins,
    tried,
)
from shedlight.sizing.draft import Draft, hole_for
from shedlight.sizing.request import Objective, Request

Array = NDArray[np.float64]

# Name of a free dimension: where it stands if it is fixed, least, most, step of a drawing [m].
LEVERS: Mapping[str, tuple[str, float, float, float]] = {
    "gap": ("porcelain.bore", 0.003, 0.08, 0.0005),
    "wall": ("porcelain.wall", 0.008, 0.06, 0.0005),
    "air": ("porcelain.air_length", 0.08, 2.9, 0.001),
    "overhang": ("sheds.overhang", 0.015, 0.12, 0.001),
    "oil": ("oil_end.length", 0.04, 1.8, 0.001),
}
NUDGE = 2e-3  # relative step of the differences
PRICES = np.array([100.0, 20.0])  # of what firm and what soft demands stay short by
ROUNDS = 14
HELD = -1e-9
FEASIBLE = 2e-3
LARGER = 1.25  # what the widest margin may cost in length, where no height is given
LOSS = 0.01  # what a margin decided apart may lose while the shape is sought


@dataclass(frozen=True)
class Shaped:
    """A draft that was sought: what it reaches, and how far it stays behind."""

    tried: Tried
    short: Mapping[str, float]
    evaluations: int

    @property
    def fits(self) -> bool:
        """Whether every demand is met."""
        return not self.short


@dataclass(frozen=True)
class Cap:
    """What an objective may come to at most [SI]."""

    objective: Objective
    value: float


class Search:
    """The search for the best shape of one form and number of sheds."""

    def __init__(
        self,
        request: Request,
        start: Draft,
        height: float | None = None,
        cap: Cap | None = None,
    ) -> None:
        """Keep where to start.

        Args:
            request: What is asked.
            start: The draft to start from.
            height: Largest height that the search itself sets, if any [m].
            cap: What another objective may come to at most, if it is bound.
        """
        self.request = request
        self.start = start
        self.height = height
        self.cap = cap
        self.levers = [name for name, (path, *_) in LEVERS.items() if not request.fixes(path)]
        self.evaluations = 0
        self._seen: dict[tuple[Draft, bool], tuple[Tried, dict[str, float]] | None] = {}
        self._targets: dict[str, float] = {}

    def look(self, draft: Draft, *, whole: bool = False) -> tuple[Tried, dict[str, float]] | None:
        """A draft with what it has beyond each target; None where it cannot be drawn."""
        key = draft, whole
        if key not in self._seen:
            self.evaluations += 1
            try:
                found = tried(self.request, draft, whole=whole)
                self._seen[key] = found, self._beyond(found)
            except InputError:
                self._seen[key] = None
        return self._seen[key]

    def _beyond(self, found: Tried) -> dict[str, float]:
        wishes = self.request.wishes
        height = found.work.section.heights.top
        beyond = shape_margins(self.request, found.draft, height)
        if self.height is not None:
            beyond["search.height"] = self.height / height - 1
        if self.cap is not None:
            bound = self.request.wishing(objective=self.cap.objective)
            beyond["search.cap"] = self.cap.value / quantity_of(bound, found) - 1
        for name, margin in found.margins.items():
            if name not in beyond:
                beyond[name] = min(margin, MOST) - self._targets.get(name, wishes.margin)
        return beyond

    def looked(self, *, whole: bool) -> Iterator[tuple[Tried, dict[str, float]]]:
        """Every draft that was looked at and could be drawn, with what it has beyond each target.

        Args:
            whole: Those in whole millimetres, or the others.
        """
        for (_, is_whole), seen in self._seen.items():
            if seen is not None and is_whole == whole:
                yield seen

    def set_targets(self, found: Tried, held: Mapping[str, float] | None = None) -> None:
        """Margins that no free dimension gives are held where they are, not raised.

        Args:
            found: The draft to start from.
            held: Other margins that are only to be held, each at its own value.
        """
        wanted = self.request.wishes.margin
        for name, margin in found.margins.items():
            if name.startswith(APART):
                self._targets[name] = min(wanted, margin - LOSS)
        self._targets |= held or {}
        self._seen.clear()

    def drafted(self, z: Array) -> Draft:
        """The draft at relative logarithms of the free dimensions."""
        moved = {
            name: getattr(self.start, name) * math.exp(float(value))
            for name, value in zip(self.levers, z, strict=True)
        }
        return possible(self.request, replace(self.start, **moved))

    def bounds(self) -> list[tuple[float, float]]:
        """Least and greatest logarithm of each free dimension."""
        found = []
        for name in self.levers:
            _, low, high, _ = LEVERS[name]
            here = getattr(self.start, name)
            found.append((min(0.0, math.log(low / here)), max(0.0, math.log(high / here))))
        return found

    def best(self) -> tuple[Draft, float]:
        """The continuous optimum, and its objective with a price on what stays short.

        Raises:
            InputError: the start cannot be drawn.
        """
        if not self.levers:
            return self.start, 0.0
        problem = _Problem(self)
        size = len(self.levers)
        minimize(
            problem.objective,
            np.append(np.zeros(size), problem.slacks(np.zeros(size))),
            jac=problem.objective_slope,
            bounds=[*self.bounds(), (0.0, 3.0), (0.0, 3.0)],
            constraints=NonlinearConstraint(problem.slackened, 0.0, np.inf, jac=problem.slopes),
            method="SLSQP",
            options={"maxiter": ROUNDS, "ftol": 2e-4},
        )
        return self.drafted(problem.best), problem.merit * problem.scale


class _Problem:
    """The search as the library's optimiser wants it: values and slopes, each computed once."""

    def __init__(self, search: Search) -> None:
        self.search = search
        seen = search.look(search.drafted(np.zeros(len(search.levers))))
        if seen is None:
            raise InputError("the first draft cannot be drawn")
        self.names = [name for name, value in seen[1].items() if value < MOST]
        soft = np.array([name in seen[0].soft for name in self.names], dtype=float)
        self.kinds = np.stack([1 - soft, soft], axis=1)
        self.scale = abs(quantity_of(search.request, seen[0])) or 1.0
        self.cache: dict[bytes, tuple[float, Array]] = {}
        self.slopes_cache: dict[bytes, Array] = {}
        self.best = np.zeros(len(search.levers))
        self.merit = math.inf

    def at(self, z: Array) -> tuple[float, Array]:
        key = np.round(z, 12).tobytes()
        if key not in self.cache:
            seen = self.search.look(self.search.drafted(z))
            if seen is None:
                self.cache[key] = 3.0, np.full(len(self.names), -1.0)
            else:
                beyond = np.array([max(-1.0, seen[1].get(name, MOST)) for name in self.names])
                self.cache[key] = quantity_of(self.search.request, seen[0]) / self.scale, beyond
                merit = self.cache[key][0] + float(PRICES @ self.slacks(z))
                if merit < self.merit:
                    self.merit, self.best = merit, z.copy()
        return self.cache[key]

    def values(self, z: Array) -> Array:
        return self.at(z)[1]

    def slacks(self, z: Array) -> Array:
        """What the firm and the soft demands stay short by, at most."""
        short = np.maximum(0.0, -self.values(z))[:, None] * self.kinds
        return cast(Array, np.max(short, axis=0, initial=0.0))

    def objective(self, x: Array) -> float:
        return self.at(x[:-2])[0] + float(PRICES @ x[-2:])

    def slackened(self, x: Array) -> Array:
        return self.values(x[:-2]) + self.kinds @ x[-2:]

    def _differences(self, z: Array) -> Array:
        key = np.round(z, 12).tobytes()
        if key not in self.slopes_cache:
            here = np.append(*self._stacked(z))
            columns = []
            for index in range(len(z)):
                moved = z.copy()
                moved[index] += NUDGE
                columns.append((np.append(*self._stacked(moved)) - here) / NUDGE)
            self.slopes_cache[key] = np.stack(columns, axis=1)
        return self.slopes_cache[key]

    def _stacked(self, z: Array) -> tuple[Any, Array]:
        value, beyond = self.at(z)
        return value, beyond

    def objective_slope(self, x: Array) -> Array:
        return cast(Array, np.append(self._differences(x[:-2])[0], PRICES))

    def slopes(self, x: Array) -> Array:
        return np.hstack([self._differences(x[:-2])[1:], self.kinds])


def in_whole(search: Search, draft: Draft) -> Shaped:
    """A draft on the steps of a drawing: every demand held, then what is to spare taken off.

    Args:
        search: The search it came from.
        draft: The continuous optimum.
    """
    here = _mended(search, on_steps(search, draft))
    seen = search.look(here, whole=True)
    if seen is not None and min(seen[1].values()) >= HELD:
        here = _trimmed(search, here)
        seen = search.look(here, whole=True)
    if seen is None:
        raise InputError("the draft cannot be drawn in whole millimetres")
    short = {name: value for name, value in seen[1].items() if value < HELD}
    return Shaped(seen[0], short, search.evaluations)


def on_steps(search: Search, draft: Draft) -> Draft:
    """A draft with its free dimensions rounded up to the steps of a drawing.

    Args:
        search: The search it came from.
        draft: The continuous optimum.
    """
    rounded = {
        name: math.ceil(round(getattr(draft, name) / LEVERS[name][3], 3)) * LEVERS[name][3]
        for name in search.levers
    }
    here = replace(draft, **{name: round(value, 6) for name, value in rounded.items()})
    return _through_the_hole(search, here)


def _through_the_hole(search: Search, draft: Draft) -> Draft:
    """What was rounded up, a step down again where the body would no longer pass."""
    here = draft
    for name in ("gap", "wall", "gap", "wall"):
        if search.request.hole_is_free or here.body < hole_for(search.request, here):
            break
        if name in search.levers:
            here = replace(here, **{name: round(getattr(here, name) - LEVERS[name][3], 6)})
    return here


def _neighbours(search: Search, draft: Draft, reach: tuple[int, ...]) -> list[Draft]:
    found = []
    for name in search.levers:
        _, low, high, step = LEVERS[name]
        for steps in reach:
            value = round(getattr(draft, name) + steps * step, 6)
            if low <= value <= high:
                found.append(replace(draft, **{name: value}))
    return found


def _longer(search: Search, draft: Draft) -> list[Draft]:
    """The same draft with a somewhat longer air end, where that is free."""
    if "air" not in search.levers:
        return []
    return [replace(draft, air=round(draft.air + 0.003, 6))]


def _shortfall(search: Search, draft: Draft) -> float:
    seen = search.look(draft, whole=True)
    if seen is None:
        return math.inf
    return weighed({name: value for name, value in seen[1].items() if value < 0}, seen[0])


def weighed(short: Mapping[str, float], found: Tried) -> float:
    """What a draft stays short by in all; the firm demands weigh more.

    Args:
        short: What is short, and by how much (negative).
        found: The draft.
    """
    ratio = float(PRICES[0] / PRICES[1])
    return -math.fsum(v * (1.0 if name in found.soft else ratio) for name, v in short.items())


def _mended(search: Search, draft: Draft) -> Draft:
    """Step by step to where nothing is short any more, or as near as steps lead."""
    here, left = draft, _shortfall(search, draft)
    for _ in range(12):
        if left <= -HELD:
            break
        near = _neighbours(search, here, (-1, 1, 4))
        near += [longer for other in near for longer in _longer(search, other)]
        best = min(near, key=lambda other: _shortfall(search, other), default=here)
        if _shortfall(search, best) >= left:
            break
        here, left = best, _shortfall(search, best)
    return here


def _trimmed(search: Search, draft: Draft) -> Draft:
    """One dimension after the other as long as the objective gains and all holds."""
    here = draft
    for _ in range(8):
        better = None
        for other in _neighbours(search, here, (-1, 1)):
            if _shortfall(search, other) > -HELD:
                continue
            seen, now = search.look(other, whole=True), search.look(better or here, whole=True)
            if seen is None or now is None:
                continue
            gain = quantity_of(search.request, now[0]) - quantity_of(search.request, seen[0])
            if gain > 1e-9:
                better = other
        if better is None:
            break
        here = better
    return here
