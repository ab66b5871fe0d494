"""Why each dimension is what it is: what governs it, what would just do, what gives way next."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from shedlight.checks.assessment import assess
from shedlight.given.bushing import Installation
from shedlight.sizing.bounds import Bound, bounds_of, exact
from shedlight.sizing.moving import (
    Dimension,
    demands,
    dimensions,
    margins_at,
    margins_in,
    value_at,
)

NUDGE = 1e-3  # relative step of the slopes
KEPT = 4
STIRS = 1e-4  # least slope that counts: margin per relative change
REACH = 1.7  # by more than this factor no dimension is changed to mend one check
FAR = 4.0  # what a bent line may reach that a straight one would not


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


def reasons(case: Installation) -> tuple[Reason, ...]:
    """Why each main dimension of a bushing is what it is.

    Args:
        case: The installation.

    Raises:
        InputError: it makes no body.
    """
    return tuple(each_reason(case))


def each_reason(case: Installation) -> Iterator[Reason]:
    """The reasons one after the other, as they are found.

    Args:
        case: The installation.

    Raises:
        InputError: it makes no body.
    """
    _ = assess(case, only=()).workings.section
    for dimension in dimensions():
        value = value_at(case, dimension.path)
        if value is not None:
            yield reason_of(case, dimension, value)


def reason_of(case: Installation, dimension: Dimension, value: float) -> Reason:
    """Why one dimension is what it is.

    Args:
        case: The installation.
        dimension: Which one.
        value: What it is [SI].
    """
    here = _margins_here(case)
    slopes = _slopes_at(case, dimension, value, here)
    stirred = {slope.check: slope.margin for slope in slopes if slope.reaches(value)}
    bounds = _by_distance(bounds_of(case, dimension, value, stirred), value)
    return _sharpened(
        case, dimension, Reason(dimension.path, dimension.name, value, bounds, slopes)
    )


def _by_distance(bounds: Iterable[Bound], value: float) -> tuple[Bound, ...]:
    return tuple(sorted(bounds, key=lambda bound: abs(bound.value - value)))


@lru_cache(KEPT)
def _margins_here(case: Installation) -> Mapping[str, float]:
    """Every margin as described; asked once for all dimensions."""
    return margins_in(assess(case, only=demands()).checks)


def _slopes_at(
    case: Installation, dimension: Dimension, value: float, here: Mapping[str, float]
) -> tuple[Slope, ...]:
    """The slope of every margin that a dimension moves, by a small step up, else down."""
    step = 1.0 if dimension.is_count else NUDGE * value
    near = margins_at(case, dimension, value + step)
    if near is None:
        step = -step
        near = margins_at(case, dimension, value + step) or here
    found = []
    for name, margin in here.items():
        if name not in near or not math.isfinite(margin) or not math.isfinite(near[name]):
            continue
        per_step = (near[name] - margin) / step
        if abs(per_step) * value > STIRS * max(1.0, abs(margin)):
            found.append(Slope(name, margin, per_step))
    return tuple(sorted(found, key=lambda slope: -abs(slope.per_step)))


def _sharpened(case: Installation, dimension: Dimension, found: Reason) -> Reason:
    """The reason with the bounds that are told found as roots, whichever those then are."""
    while True:
        told = (found.governing, found.next, found.ceiling)
        blurred = next(_unsure([bound for bound in told if bound is not None], found), None)
        if blurred is None:
            return found
        sharp = exact(case, dimension, blurred)
        bounds = (sharp if bound is blurred else bound for bound in found.bounds)
        found = replace(found, bounds=_by_distance(bounds, found.value))


def _unsure(told: Sequence[Bound], found: Reason) -> Iterator[Bound]:
    """The bounds that are still a straight line's: what is told, then what may lie before it."""
    yield from (bound for bound in told if bound.rungs)
    for bound in found.bounds:
        if any(bound.may_lie_before(one, found.value) for one in told):
            yield bound
