"""Where margins are gone as one dimension is moved: the values at which a check would just do."""

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from scipy.optimize import brentq

from shedlight.given.bushing import Installation
from shedlight.sizing.bench import SLOW_HEAT
from shedlight.sizing.moving import Dimension, margins_at

STEPS = (0.35, 0.5, 0.7, 0.85, 0.95, 1.05, 1.2, 1.5, 2.0, 2.8)
SPARSE = (0.35, 0.5, 0.85, 1.2, 2.0, 2.8)  # where what takes long is asked too
COUNT_REACH = 6
FINE = 1e-5
ROOT = 5e-4
TOLD = 2  # values that would just do, on each side
SHAPE = "shape"
BENT = 3.0  # what a bent line may reach that a straight one would not
BEYOND = 3.0  # margins above this decide nothing

Margins = Mapping[str, float]


@dataclass(frozen=True)
class Bound:
    """A value of a dimension at which one check would just do.

    Attributes:
        check: Id of the check; "shape" where the body can no longer be drawn.
        value: Value at which its margin is gone [SI].
        lower: Whether the dimension must stay above the value, or below it.
        rungs: The values between which it lies, with the margin at each; none once it is exact.
    """

    check: str
    value: float
    lower: bool
    rungs: tuple[tuple[float, float], ...] = ()

    def may_lie_before(self, other: "Bound", value: float) -> bool:
        """Whether it may be nearer to a value than another on the same side, once it is exact."""
        if not self.rungs or self.lower != other.lower:
            return False
        near = min(abs(at - value) for at, _ in self.rungs)
        return near < abs(other.value - value)


@dataclass
class _Walk:
    """One dimension moved outward on one side, and the margins that are still followed.

    A check is asked no further once its margin is gone, or cannot be gone before the last rung;
    once enough is known to be told, only what is short already is asked on.
    """

    case: Installation
    dimension: Dimension
    value: float
    here: Margins
    last: float
    followed: dict[str, tuple[float, float]] = field(init=False)
    found: list[Bound] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.followed = {name: (self.value, margin) for name, margin in self.here.items()}

    def ask(self, at: float, names: Collection[str]) -> bool:
        """Whether the body can be drawn at a value; what crosses zero there is noted."""
        there = margins_at(self.case, self.dimension, at, tuple(names))
        if there is None:
            return False
        for name in names:
            before, now = self.followed[name], (at, there.get(name, math.inf))
            self.followed[name] = now
            crosses = math.isfinite(now[1]) and (before[1] < 0) != (now[1] < 0)
            if crosses:
                self.found.append(_crossing(self.dimension, name, before, now))
            if crosses or not (self.dimension.is_count or self._may_end(before, now)):
                del self.followed[name]
        return True

    def _may_end(self, before: tuple[float, float], now: tuple[float, float]) -> bool:
        """Whether a margin may be gone before the last rung, were the way somewhat bent."""
        steepness = abs((now[1] - before[1]) / (now[0] - before[0]))
        return abs(now[1]) < BENT * steepness * abs(self.last - now[0])

    def forget(self) -> None:
        """Follow only what is short already, once enough else is known."""
        if sum(self.here.get(bound.check, 0.0) >= 0 for bound in self.found) >= TOLD:
            self.followed = {n: at for n, at in self.followed.items() if self.here[n] < 0}


def bounds_of(
    case: Installation, dimension: Dimension, value: float, margins: Margins
) -> list[Bound]:
    """The values at which margins are gone, by straight lines between the rungs of a ladder.

    Args:
        case: The installation.
        dimension: Which dimension is moved.
        value: What it is [SI].
        margins: The margins to be followed, as they are now.
    """
    rungs = sorted(_ladder(dimension, value))
    below, above = [at for at in rungs if at < value][::-1], [at for at in rungs if at > value]
    found = _outward(case, dimension, value, margins, below)
    found += _outward(case, dimension, value, margins, above)
    return found


def _ladder(dimension: Dimension, value: float) -> Iterator[float]:
    if dimension.is_count:
        low = max(1, int(value) - COUNT_REACH)
        yield from (float(n) for n in range(low, int(value) + COUNT_REACH + 1))
    else:
        yield from (value * step for step in STEPS)


def _outward(
    case: Installation,
    dimension: Dimension,
    value: float,
    margins: Margins,
    rungs: Sequence[float],
) -> list[Bound]:
    if not rungs:
        return []
    walk = _Walk(case, dimension, value, margins, rungs[-1])
    sparse = rungs if dimension.is_count else [value * step for step in SPARSE]
    good = value
    for at in rungs:
        quick = [name for name in walk.followed if not name.startswith(SLOW_HEAT)]
        if not walk.ask(at, list(walk.followed) if at in sparse else quick):
            waiting = [name for name, last in walk.followed.items() if last[0] != good]
            walk.ask(good, waiting)
            edge = good if dimension.is_count else _edge(case, dimension, good, at)
            walk.found.append(Bound(SHAPE, edge, at < value))
            break
        walk.forget()
        good = at
    return walk.found


def _crossing(
    dimension: Dimension, name: str, one: tuple[float, float], other: tuple[float, float]
) -> Bound:
    (low, before), (high, after) = sorted((one, other))
    if dimension.is_count:
        return Bound(name, high if after >= 0 else low, after > before)
    crossing = low + (high - low) * before / (before - after)
    return Bound(name, crossing, after > before, ((low, before), (high, after)))


def exact(case: Installation, dimension: Dimension, bound: Bound) -> Bound:
    """A bound found as the root between its rungs.

    Args:
        case: The installation.
        dimension: Which dimension is moved.
        bound: The bound, as a straight line gives it.
    """
    known = dict(bound.rungs)

    def margin(at: float) -> float:
        if at not in known:
            there = margins_at(case, dimension, at, (bound.check,))
            known[at] = -1.0 if there is None else there.get(bound.check, BEYOND)
        return known[at]

    low, high = sorted(known)
    crossing = brentq(margin, low, high, xtol=FINE, rtol=ROOT)
    return replace(bound, value=float(crossing), rungs=())


def _edge(case: Installation, dimension: Dimension, good: float, bad: float) -> float:
    """The last value that can be drawn, between one that can and one that cannot."""
    while abs(bad - good) > FINE * 10:
        middle = (good + bad) / 2
        drawn = margins_at(case, dimension, middle, ()) is not None
        good, bad = (middle, bad) if drawn else (good, middle)
    return good
