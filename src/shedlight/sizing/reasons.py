"""Why each dimension is what it is: what governs it, what would just do, what gives way next."""

import csv
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from importlib import resources
from itertools import pairwise
from typing import Any

from scipy.optimize import brentq

from shedlight.checks.assessment import assess
from shedlight.checks.check import Check
from shedlight.errors import InputError
from shedlight.given.bushing import Installation
from shedlight.given.changing import changed

NUDGE = 1e-3  # relative step of the slopes
STEPS = (0.95, 0.85, 0.7, 0.5, 0.35, 1.05, 1.2, 1.5, 2.0, 2.8)
COUNT_REACH = 6
FINE = 1e-5
ODDS = "odds."
ROOT = 5e-4
TOLD = 3
KEPT = 4
STIRS = 1e-4  # least slope that counts: margin per relative change
SHAPE = "shape"
REACH = 1.7  # by more than this factor no dimension is changed to mend one check
FAR = 4.0  # what a bent line may reach that a straight one would not
BEYOND = 3.0  # margins above this decide nothing


@dataclass(frozen=True)
class Slope:
    """How a margin moves with a dimension: its margin now, and its change per millimetre."""

    check: str
    margin: float
    per_step: float

    def reaches(self, value: float) -> bool:
        """Whether the margin may be gone between a third and three times of the value [SI]."""
        return abs(self.margin) < FAR * abs(self.per_step) * value


@dataclass(frozen=True)
class Bound:
    """A value of a dimension at which one check would just do.

    Attributes:
        check: Id of the check; "shape" where the body can no longer be drawn.
        value: Value at which its margin is gone [SI].
        lower: Whether the dimension must stay above the value, or below it.
        rungs: The values between which it was found; empty for the shape.
    """

    check: str
    value: float
    lower: bool
    rungs: tuple[float, ...] = ()


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
            # What asks for more of it comes first: a dimension is there to give it.
            return max(broken, key=lambda b: (b.lower, abs(b.value - self.value)))
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
    here = _margins_here(case)
    step = 1.0 if is_count else NUDGE * value
    near = margins_at(case, dimension, value + step) or margins_at(case, dimension, value - step)
    slopes = _slopes(here, near or here, step, value)
    stirred = tuple(slope.check for slope in slopes if slope.reaches(value))
    seen = {at: margins_at(case, dimension, at, stirred) for at in ladder if at != value}
    seen[value] = here
    bounds = [bound for name in stirred for bound in _bounds_of(name, seen, is_count=is_count)]
    bounds += _shape_bounds(case, dimension, seen, value, is_count=is_count)
    if not is_count:
        bounds = _sharpened(case, dimension, bounds, value)
    bounds.sort(key=lambda bound: abs(bound.value - value))
    return Reason(dimension.path, dimension.name, value, tuple(bounds), slopes)


@lru_cache(KEPT)
def _margins_here(case: Installation) -> Mapping[str, float]:
    """Every margin as described; asked once for all dimensions."""
    return _margins(assess(case).checks)


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
    return _margins(found.checks)


def _margins(checks: Iterable[Check]) -> Mapping[str, float]:
    """Margins by check; odds follow from the others and are told, not designed by."""
    with_margin = ((check.id, check.margin) for check in checks)
    return {name: m for name, m in with_margin if m is not None and not name.startswith(ODDS)}


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
    name: str, seen: Mapping[float, Mapping[str, float] | None], *, is_count: bool
) -> list[Bound]:
    """Where one margin goes through zero between two rungs of the ladder, by a straight line."""
    known = [(at, found[name]) for at, found in sorted(seen.items()) if found and name in found]
    found = []
    for (low, before), (high, after) in pairwise(known):
        if (before < 0) == (after < 0):
            continue
        crossing = low + (high - low) * before / (before - after)
        if is_count:
            crossing = high if after >= 0 else low
        found.append(Bound(name, crossing, after > before, (low, high)))
    return found


def _sharpened(
    case: Installation, dimension: Dimension, bounds: list[Bound], value: float
) -> list[Bound]:
    """The bounds with those that come first on each side, which are told, found as roots."""
    checks = [bound for bound in bounds if bound.check != SHAPE]
    nearest = sorted(checks, key=lambda bound: abs(bound.value - value))
    told: list[Bound] = []
    for lower in (True, False):
        told += [bound for bound in nearest if bound.lower == lower][:TOLD]
    return [_root(case, dimension, bound) if bound in told else bound for bound in bounds]


def _root(case: Installation, dimension: Dimension, bound: Bound) -> Bound:
    def margin(at: float) -> float:
        there = margins_at(case, dimension, at, (bound.check,))
        return -1.0 if there is None else there.get(bound.check, BEYOND)

    low, high = bound.rungs
    crossing = brentq(margin, low, high, xtol=FINE, rtol=ROOT)
    return replace(bound, value=float(crossing))


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
