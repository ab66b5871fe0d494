"""Why each dimension is what it is: what governs it, what would just do, what gives way next."""

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from itertools import pairwise
from typing import Any

from scipy.optimize import brentq

from shedlight.checks.assessment import assess
from shedlight.errors import InputError
from shedlight.given.bushing import Installation
from shedlight.given.changing import changed

NUDGE = 1e-3  # relative step of the slopes
STEPS = (0.97, 0.9, 0.8, 0.65, 0.5, 0.35, 1.03, 1.1, 1.25, 1.5, 2.0, 2.8)
COUNT_REACH = 6
FINE = 1e-5
STIRS = 1e-4  # least slope that counts: margin per relative change
SHAPE = "shape"
REACH = 1.7  # by more than this factor no dimension is changed to mend one check
BEYOND = 3.0  # margins above this decide nothing


@dataclass(frozen=True)
class Slope:
    """How a margin moves with a dimension: its margin now, and its change per millimetre."""

    check: str
    margin: float
    per_step: float


@dataclass(frozen=True)
class Bound:
    """A value of a dimension at which one check would just do.

    Attributes:
        check: Id of the check; "shape" where the body can no longer be drawn.
        value: Value at which its margin is gone [SI].
        lower: Whether the dimension must stay above the value, or below it.
    """

    check: str
    value: float
    lower: bool


@dataclass(frozen=True)
class Reason:
    """Why one dimension is what it is.

    Attributes:
        path: Where it stands in the description.
        name: What it is called.
        value: What it is [SI], or a count.
        bounds: The values at which each check would just do, the nearest to bind first.
        slopes: Every margin that it moves, the steepest first.
    """

    path: str
    name: str
    value: float
    bounds: tuple[Bound, ...]
    slopes: tuple[Slope, ...]

    @property
    def governing(self) -> Bound | None:
        """What binds first: the check that is short, else the nearest below, else above."""
        broken = [b for b in self.bounds if self._is_broken(b) and self._mends(b)]
        if broken:
            return max(broken, key=lambda b: abs(b.value - self.value))
        return self._nearest(lower=True) or self._nearest(lower=False)

    @property
    def out_of_reach(self) -> tuple[Bound, ...]:
        """What is short too, but would take another dimension to mend."""
        return tuple(b for b in self.bounds if self._is_broken(b) and not self._mends(b))

    def closest(self, count: int) -> tuple[Slope, ...]:
        """The slopes of the margins that this dimension soonest brings to zero.

        Args:
            count: How many at most.
        """
        ordered = sorted(self.slopes, key=lambda slope: abs(slope.margin / slope.per_step))
        return tuple(ordered[:count])

    def _is_broken(self, bound: Bound) -> bool:
        away = bound.value - self.value
        return abs(away) > 1e-9 * self.value and bound.lower == (away > 0)

    def _mends(self, bound: Bound) -> bool:
        return 1 / REACH <= bound.value / self.value <= REACH

    @property
    def next(self) -> Bound | None:
        """What gives way after the governing check, on the same side."""
        first = self.governing
        if first is None:
            return None
        others = [
            b
            for b in self.bounds
            if b.lower == first.lower and b.check != first.check and self._mends(b)
        ]
        return min(others, key=lambda b: abs(b.value - first.value), default=None)

    @property
    def ceiling(self) -> Bound | None:
        """What binds first on the other side."""
        first = self.governing
        return None if first is None else self._nearest(lower=not first.lower)

    @property
    def slack(self) -> float | None:
        """What could be taken off (negative: what is missing) before the governing check gives."""
        first = self.governing
        if first is None:
            return None
        return (self.value - first.value) * (1 if first.lower else -1)

    def _nearest(self, *, lower: bool) -> Bound | None:
        side = [b for b in self.bounds if b.lower == lower and not self._is_broken(b)]
        return min(side, key=lambda b: abs(b.value - self.value), default=None)


@dataclass(frozen=True)
class Dimension:
    """One main dimension of the table: its path, its name, what follows when it moves."""

    path: str
    name: str
    follows: str


@cache
def dimensions() -> tuple[Dimension, ...]:
    """The main dimensions, in the order of the table."""
    text = resources.files("shedlight.sizing").joinpath("dimensions.csv").read_text("utf-8")
    return tuple(Dimension(**row) for row in csv.DictReader(text.splitlines()))


def reasons(case: Installation) -> tuple[Reason, ...]:
    """Why each main dimension of a bushing is what it is.

    Args:
        case: The installation.

    Raises:
        InputError: it makes no body.
    """
    _ = assess(case, only=()).workings.section
    found = []
    for dimension in dimensions():
        value = value_at(case, dimension.path)
        if value is not None:
            found.append(reason_of(case, dimension, value))
    return tuple(found)


def value_at(case: Installation, path: str) -> float | None:
    """The number at a dotted path; None where there is none."""
    place: Any = case
    for step in path.split("."):
        place = getattr(place, step, None)
    return None if place is None or isinstance(place, bool) else float(place)


def reason_of(case: Installation, dimension: Dimension, value: float) -> Reason:
    """Why one dimension is what it is.

    Args:
        case: The installation.
        dimension: Which one.
        value: What it is [SI].
    """
    is_count = dimension.path.endswith("count")
    ladder = _ladder(value, is_count=is_count)
    here = margins_at(case, dimension, value)
    assert here is not None
    step = 1.0 if is_count else NUDGE * value
    near = margins_at(case, dimension, value + step) or margins_at(case, dimension, value - step)
    slopes = _slopes(here, near or here, step, value)
    stirred = tuple(slope.check for slope in slopes)
    seen = {at: margins_at(case, dimension, at, stirred) for at in ladder if at != value}
    seen[value] = here
    bounds = [
        bound
        for name in stirred
        for bound in _bounds_of(case, dimension, name, seen, is_count=is_count)
    ]
    bounds += _shape_bounds(case, dimension, seen, value, is_count=is_count)
    bounds.sort(key=lambda bound: abs(bound.value - value))
    return Reason(dimension.path, dimension.name, value, tuple(bounds), slopes)


def _ladder(value: float, *, is_count: bool) -> list[float]:
    if is_count:
        low = max(1, int(value) - COUNT_REACH)
        return [float(n) for n in range(low, int(value) + COUNT_REACH + 1)]
    return [value * step for step in sorted(STEPS)]


def margins_at(
    case: Installation, dimension: Dimension, value: float, only: tuple[str, ...] | None = None
) -> Mapping[str, float] | None:
    """Every margin with a dimension at another value; None where the body cannot be drawn.

    Args:
        case: The installation.
        dimension: Which dimension.
        value: Its other value [SI].
        only: The checks wanted; all if left out.
    """
    try:
        found = assess(moved(case, dimension, value), only=only)
        _ = found.workings.section  # drawn, even where no check is asked
    except InputError:
        return None
    return {c.id: c.margin for c in found.checks if c.margin is not None}


def moved(case: Installation, dimension: Dimension, value: float) -> Installation:
    """The installation with one dimension changed, and what must follow it.

    Args:
        case: The installation.
        dimension: Which dimension.
        value: Its new value [SI].

    Raises:
        DescriptionError: the value lies outside what a description may hold.
    """
    is_count = dimension.path.endswith("count")
    edits: dict[str, Any] = {dimension.path.replace(".", "__"): int(value) if is_count else value}
    bushing, sheds = case.bushing, case.bushing.sheds
    if dimension.follows == "body":
        wall = value if dimension.path.endswith("wall") else bushing.porcelain.wall
        bore = value if dimension.path.endswith("bore") else bushing.porcelain.bore
        grown = bore + 2 * wall - bushing.porcelain.body_diameter
        edits["bushing__cap__diameter"] = bushing.cap.diameter + grown
        edits["bushing__oil_end__end_diameter"] = bushing.oil_end.end_diameter + grown
        edits["bushing__oil_end__shield_diameter"] = bushing.oil_end.shield_diameter + grown
    if dimension.follows == "taper":
        share = value / bushing.oil_end.length
        edits["bushing__oil_end__taper_length"] = bushing.oil_end.taper_length * share
    if dimension.follows == "sheds" and sheds is not None and sheds.count > 1:
        air = value if dimension.path.endswith("air_length") else bushing.porcelain.air_length
        count = int(value) if is_count else sheds.count
        ends = bushing.porcelain.air_length - (sheds.count - 1) * sheds.pitch
        edits["bushing__sheds__pitch"] = (air - ends) / max(1, count - 1)
    return changed(case, **edits)


def _slopes(
    here: Mapping[str, float], near: Mapping[str, float], step: float, value: float
) -> tuple[Slope, ...]:
    found = []
    for name, margin in here.items():
        if name not in near or not math.isfinite(margin) or not math.isfinite(near[name]):
            continue
        per_step = (near[name] - margin) / step
        if abs(per_step) * value > STIRS * max(1.0, abs(margin)):
            found.append(Slope(name, margin, per_step))
    return tuple(sorted(found, key=lambda slope: -abs(slope.per_step)))


def _bounds_of(
    case: Installation,
    dimension: Dimension,
    name: str,
    seen: Mapping[float, Mapping[str, float] | None],
    *,
    is_count: bool,
) -> list[Bound]:
    """Where one margin goes through zero, on the ladder of values."""
    known = [(at, found[name]) for at, found in sorted(seen.items()) if found and name in found]
    found = []
    for (low, before), (high, after) in pairwise(known):
        if (before < 0) == (after < 0):
            continue
        if is_count:
            found.append(Bound(name, high if after >= 0 else low, after > before))
            continue

        def margin(at: float) -> float:
            there = margins_at(case, dimension, at, (name,))
            return -1.0 if there is None else there.get(name, BEYOND)

        crossing = float(brentq(margin, low, high, xtol=FINE, rtol=1e-4))
        found.append(Bound(name, crossing, after > before))
    return found


def _shape_bounds(
    case: Installation,
    dimension: Dimension,
    seen: Mapping[float, Mapping[str, float] | None],
    value: float,
    *,
    is_count: bool,
) -> list[Bound]:
    """Where the body can no longer be drawn, below and above."""
    found = []
    for lower in (True, False):
        ladder = sorted(at for at in seen if (at < value) == lower and at != value)
        near = list(reversed(ladder)) if lower else ladder
        good = value
        for at in near:
            if seen[at] is not None:
                good = at
                continue
            if is_count:
                found.append(Bound(SHAPE, good, lower))
            else:
                found.append(Bound(SHAPE, _edge(case, dimension, good, at), lower))
            break
    return found


def _edge(case: Installation, dimension: Dimension, good: float, bad: float) -> float:
    """The last value that can be drawn, between one that can and one that cannot."""
    while abs(bad - good) > FINE * 10:
        middle = (good + bad) / 2
        drawn = margins_at(case, dimension, middle, ()) is not None
        good, bad = (middle, bad) if drawn else (good, middle)
    return good


@dataclass(frozen=True)
class Comparison:
    """Why the air end is so much longer than the oil end, in numbers [m, V/m, V].

    Attributes:
        air: Length of the air end.
        oil: Length of the oil end.
        air_needed: Length of the air end that would just do.
        oil_needed: Length of the oil end that would just do.
        air_check: What governs the air end.
        oil_check: What governs the oil end.
        air_gradient: Mean stress along the surface in air at the test, dry.
        oil_gradient: The same in oil.
    """

    air: float
    oil: float
    air_needed: float
    oil_needed: float
    air_check: str
    oil_check: str
    air_gradient: float
    oil_gradient: float

    @property
    def ratio(self) -> float:
        """Air end over oil end [1]."""
        return self.air / self.oil

    @property
    def needed_ratio(self) -> float:
        """What just does in air over what just does in oil [1]."""
        return self.air_needed / self.oil_needed

    @property
    def sentence(self) -> str:
        """The answer in words and numbers."""
        return (
            f"The air end is {self.ratio:.1f} times the oil end ({1e3 * self.air:.0f} mm against "
            f"{1e3 * self.oil:.0f} mm). In air {self.air_check} would just do with "
            f"{1e3 * self.air_needed:.0f} mm; in oil {self.oil_check} would just do with "
            f"{1e3 * self.oil_needed:.0f} mm: {self.needed_ratio:.1f} times. At the dry test the "
            f"surface in oil bears {self.oil_gradient / 1e6:.2f} kV/mm on the mean, that in air "
            f"{self.air_gradient / 1e6:.2f} kV/mm along its creepage: clean oil lets the same "
            "voltage stand on less length, and no rain, dirt or thin air reaches it."
        )


def air_against_oil(case: Installation, found: tuple[Reason, ...]) -> Comparison | None:
    """Why the air end is longer than the oil end; None where no check governs one of them.

    Args:
        case: The installation.
        found: The reasons of its dimensions.
    """
    by_path = {reason.path: reason for reason in found}
    air = by_path["bushing.porcelain.air_length"]
    oil = by_path["bushing.oil_end.length"]
    if air.governing is None or oil.governing is None:
        return None
    work = assess(case, only=()).workings
    dry = float(work.voltages.dry)
    return Comparison(
        air=air.value,
        oil=oil.value,
        air_needed=air.governing.value,
        oil_needed=oil.governing.value,
        air_check=air.governing.check,
        oil_check=oil.governing.check,
        air_gradient=dry / work.measures.creepage_length,
        oil_gradient=dry / work.measures.oil_creepage.length,
    )
