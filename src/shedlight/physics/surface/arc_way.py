"""Flashover on the true profile: the arc may follow the surface or leap from shed to shed.

The arc begins at one end. Its foot moves on over the surface, or leaps through air where the
voltage across the stretch leapt over breaks the gap down. To move the foot somewhere takes a
voltage; flashover takes the least voltage with which some chain of moves reaches the far end. All
values are PEAK. Under alternating voltage the arc must also light again after each current zero.

An average layer resistance hides where the resistance lies and is unsafe: an arc that has little
resistance behind it and much before it runs at less voltage than one in an even layer.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.surface.constants import (
    ArcConstants,
    Reignition,
    arc_constants_of,
    reignitions,
)

Array = NDArray[np.float64]

LEAP_GRADIENT = 5e5  # [V/m] peak: positive streamers cross air at 4.5 to 5 kV/cm
SHORTEST_ARC = 1e-6  # [m]: from which a leap may start
STEPS_OF_NEWTON, CONVERGED = 40, 1e-12
ALTERNATING = (
    ("Alston & Zoledziowski", "Rizk"),
    ("Claverie & Porcheron", "Claverie"),
    ("Topalis", ""),
    ("Alston & Zoledziowski", ""),
)
"""Pairs of arc constants and re-ignition that are compared, the default first.

With re-ignition the two alternating sets come out 15 to 45 % above Rizk's closed form for an even
strip, which is fitted to tests; without it constants for direct voltage come out at half of it.
The truth for alternating voltage lies between: a margin has to be read against the closed form.
"""


@dataclass(frozen=True)
class Leap:
    """A way through air between two places of the path, from the end where creepage counts 0."""

    start: float  # creepage [m]
    end: float  # creepage [m]
    way: float  # through air [m]


@dataclass(frozen=True)
class ArcFlashover:
    """The hardest moment of the arc's easiest way across; peak values.

    Attributes:
        voltage: That carries the arc across [V].
        current: At the hardest moment: the greatest leakage current that is survived [A].
        arc_length: Length of the arc then [m].
        foot: Creepage the arc has got past then, from where it began [m].
        leaps: Leaps through air on the whole way.
        from_far_end: Whether the arc began at the far end of the path.
    """

    voltage: float
    current: float
    arc_length: float
    foot: float
    leaps: int
    from_far_end: bool = False


@dataclass(frozen=True)
class _Model:
    arc: ArcConstants
    reignition: Reignition | None
    electrode_drop: float

    def currents(self, lengths: Array, rests: Array, least: float) -> Array:
        """Currents at which arcs need least voltage, burn on, and carry at least `least`."""
        a, n = self.arc.constant * lengths, self.arc.exponent
        best = np.maximum(least, (n * a / rests) ** (1 / (n + 1)))
        if self.reignition is None:
            return np.asarray(best, dtype=np.float64)
        return self._relit(best, lengths, rests, self.reignition)

    def _relit(self, best: Array, lengths: Array, rests: Array, again: Reignition) -> Array:
        """The same where the arc must light again: ln U + m ln I = ln(N x), by Newton.

        Above the least voltage the left side grows and is convex in ln I: from the right, where
        the layer alone takes what lights the arc, the steps never overshoot.
        """
        a, n, m = self.arc.constant * lengths, self.arc.exponent, again.exponent
        wanted = np.log(again.coefficient * lengths)
        u = np.maximum(np.log(best), (wanted - np.log(rests)) / (1 + m))
        for _ in range(STEPS_OF_NEWTON):
            current = np.exp(u)
            layer, arc = rests * current, a * current**-n
            voltage = layer + arc + self.electrode_drop
            step = (np.log(voltage) + m * u - wanted) / ((layer - n * arc) / voltage + m)
            u = np.maximum(u - step, np.log(best))
            if not np.max(np.abs(step)) > CONVERGED:
                break
        return np.asarray(np.exp(u), dtype=np.float64)

    def voltages(self, currents: Array, lengths: Array, rests: Array) -> Array:
        arcs = self.arc.constant * lengths * currents**-self.arc.exponent
        return np.asarray(arcs + rests * currents + self.electrode_drop, dtype=np.float64)


@dataclass(frozen=True)
class _Progress:
    """One way of getting the foot to a place: what it took so far and the arc's length now."""

    voltage: float
    length: float
    leaps: int
    hardest: tuple[float, float, float]  # current, arc length, foot

    def moved(
        self, model: _Model, feet: Array, lengths: Array, rests: Array, leap: bool
    ) -> "_Progress":
        """The foot at the last of some places on, with so much arc and so much layer at each."""
        now = _Progress(self.voltage, float(lengths[-1]), self.leaps + leap, self.hardest)
        left = rests > 0
        return now.pressed(model, feet[left], lengths[left], rests[left], 0.0)

    def pressed(
        self, model: _Model, feet: Array, lengths: Array, rests: Array, least: float
    ) -> "_Progress":
        """The same arc after it has stood some places with at least so much current."""
        if not len(feet):
            return self
        currents = model.currents(lengths, rests, least)
        voltages = model.voltages(currents, lengths, rests)
        worst = int(np.argmax(voltages))
        if voltages[worst] <= self.voltage:
            return self
        hardest = float(currents[worst]), float(lengths[worst]), float(feet[worst])
        return _Progress(float(voltages[worst]), self.length, self.leaps, hardest)


def arc_flashover(
    creepages: Array,
    resistances: Array,
    arc: ArcConstants,
    reignition: Reignition | None = None,
    leaps: Sequence[Leap] = (),
    leap_gradient: float = LEAP_GRADIENT,
    electrode_drop: float = 0.0,
) -> ArcFlashover:
    """Voltage that flashes over a layer of any distribution, from whichever end is easier.

    U = least over all ways of the greatest along the way of (A x I^-n + R(x) I + U_e), with I
    at least what re-ignition asks, U >= N x/I^m, and what breaks the air down at a leap,
    I · R(stretch) >= E · way

    Args:
        creepages: Creepage at the ends of the cells, from 0, growing [m].
        resistances: Layer resistance of each cell, at the layer's temperature [Ω].
        arc: Constants of the arc.
        reignition: Constants of re-ignition; none for direct voltage.
        leaps: Ways through air that are shorter than the surface.
        leap_gradient: Field that breaks such a way down, peak; infinite forbids leaps [V/m].
        electrode_drop: Cathode and anode drop, about 840 V in all; 0 leaves it out [V].

    Returns:
        The hardest moment of the easiest way; the current is that of the moment before the arc
        runs on by itself.

    Raises:
        InputError: arrays that do not fit, a resistance or other argument out of range, a leap
            that is not within the path.

    Source: Obenaus (1958); Alston, Zoledziowski (1963); re-ignition Rizk (1981), Claverie (1973)
    — basis: memory, high confidence for the model; leaps by streamer gradient are derived here.
    Valid for: one arc; layers even all round; accurate to the square of the cell length.
    """
    not_negative(electrode_drop=electrode_drop)
    if not math.isinf(leap_gradient):
        positive(leap_gradient=leap_gradient)
    _refuse_misfit(creepages, resistances, leaps)
    model = _Model(arc, reignition, electrode_drop)
    total = float(creepages[-1])
    back = [Leap(total - leap.end, total - leap.start, leap.way) for leap in leaps]
    near = _easiest(model, creepages, resistances, leaps, leap_gradient)
    far = _easiest(model, total - creepages[::-1], resistances[::-1], back, leap_gradient)
    chosen, from_far = min((near, False), (far, True), key=lambda item: item[0].voltage)
    current, length, foot = chosen.hardest
    return ArcFlashover(chosen.voltage, current, length, foot, chosen.leaps, from_far)


def flashover_by_constants(
    creepages: Array,
    resistances: Array,
    leaps: Sequence[Leap] = (),
    leap_gradient: float = LEAP_GRADIENT,
) -> dict[str, ArcFlashover]:
    """The same by several published sets of constants, the default first.

    The default takes arcs after Alston and Zoledziowski, measured most often, with re-ignition
    after Rizk: without re-ignition constants for direct voltage give too low a voltage for
    alternating.

    Args:
        creepages: Creepage at the ends of the cells, from 0, growing [m].
        resistances: Layer resistance of each cell [Ω].
        leaps: Ways through air that are shorter than the surface.
        leap_gradient: Field that breaks such a way down, peak [V/m].

    Returns:
        Flashover by name of the set.

    Raises:
        InputError: as :func:`arc_flashover`.

    Source: as :func:`arc_flashover` — basis: as the rows of the tables.
    Valid for: alternating voltage, but for the last set (direct).
    """
    again = {row.author: row for row in reignitions()}
    return {
        f"{author}, re-ignition {relit}" if relit else author: arc_flashover(
            creepages,
            resistances,
            arc_constants_of(author),
            again.get(relit),
            leaps,
            leap_gradient,
        )
        for author, relit in ALTERNATING
    }


def profile_penalty(
    creepages: Array,
    resistances: Array,
    arc: ArcConstants,
    reignition: Reignition | None = None,
    leaps: Sequence[Leap] = (),
    leap_gradient: float = LEAP_GRADIENT,
) -> float:
    """What the distribution of the resistance costs, against an even strip of the same whole.

    k = U(true profile)/U(even strip of equal length and resistance)

    Carries the true profile over to closed forms that know a mean resistance only: Rizk's, fitted
    to tests with alternating voltage, times this factor is the best estimate offered here.

    Args:
        creepages: Creepage at the ends of the cells, from 0, growing [m].
        resistances: Layer resistance of each cell [Ω].
        arc: Constants of the arc.
        reignition: Constants of re-ignition; none for direct voltage.
        leaps: Ways through air that are shorter than the surface.
        leap_gradient: Field that breaks such a way down, peak [V/m].

    Returns:
        Factor on the flashover voltage; below 1 the mean is unsafe [1].

    Raises:
        InputError: as :func:`arc_flashover`.

    Source: ratio of two results of :func:`arc_flashover` — basis: as that model.
    Valid for: as :func:`arc_flashover`.
    """
    found = arc_flashover(creepages, resistances, arc, reignition, leaps, leap_gradient)
    even = float(np.sum(resistances)) / float(creepages[-1]) * np.diff(creepages)
    return found.voltage / arc_flashover(creepages, even, arc, reignition).voltage


def _refuse_misfit(creepages: Array, resistances: Array, leaps: Sequence[Leap]) -> None:
    if len(creepages) < 2 or len(resistances) != len(creepages) - 1:
        raise InputError(
            f"resistances: given {len(resistances)} for {len(creepages)} creepages; expected one "
            "fewer than creepages, at least one"
        )
    if creepages[0] != 0 or np.any(np.diff(creepages) <= 0):
        raise InputError("creepages: expected to begin at 0 and to grow")
    if np.any(resistances < 0) or not 0 < float(np.sum(resistances)) < math.inf:
        raise InputError("resistances: expected at least 0, together above 0 and finite")
    for leap in leaps:
        positive(way=leap.way)
        if not -1e-9 <= leap.start < leap.end <= float(creepages[-1]) + 1e-9:
            raise InputError(f"leaps: given {leap}; expected within the path, start before end")


def _easiest(
    model: _Model, creepages: Array, resistances: Array, leaps: Sequence[Leap], gradient: float
) -> _Progress:
    """The easiest way across from the near end, from stop to stop, keeping all worth keeping."""
    rest = np.concatenate([np.cumsum(resistances[::-1])[::-1], [0.0]])
    jumps = _jumps(creepages, rest, leaps, gradient)
    last = len(creepages) - 1
    ends = (end for jump in jumps.values() for end, _, _ in jump)
    places: dict[int, list[_Progress]] = {stop: [] for stop in sorted({0, *jumps, *ends, last})}
    start = _Progress(model.electrode_drop, 0.0, 0, (0.0, 0.0, 0.0))
    best = start.moved(model, creepages[1:], creepages[1:], rest[1:], leap=False)
    places[0] = [start]
    for stop, after in pairwise(places):
        # What took as much as the surface alone cannot end better than it.
        kept = (now for now in _worth_keeping(places[stop]) if now.voltage < best.voltage)
        for now in kept:
            feet, rests = creepages[stop + 1 : after + 1], rest[stop + 1 : after + 1]
            along = now.length + feet - creepages[stop]
            places[after].append(now.moved(model, feet, along, rests, leap=False))
            for end, way, least in jumps.get(stop, ()):
                if least * float(rest[stop]) >= best.voltage:
                    continue  # the layer alone takes more than the surface's own way
                standing = np.array([max(now.length, SHORTEST_ARC)])
                here, left = creepages[stop : stop + 1], rest[stop : stop + 1]
                ready = now.pressed(model, here, standing, left, least)
                if ready.voltage < best.voltage:
                    there, length = creepages[end : end + 1], np.array([now.length + way])
                    gone = ready.moved(model, there, length, rest[end : end + 1], leap=True)
                    places[end].append(gone)
    return min([best, *places[last]], key=lambda way: way.voltage)


def _jumps(
    creepages: Array, rest: Array, leaps: Sequence[Leap], gradient: float
) -> dict[int, list[tuple[int, float, float]]]:
    """Leaps by the cell end they start from: where to, how far, with what current at least."""
    found: dict[int, list[tuple[int, float, float]]] = {}
    for leap in leaps:
        start, end = (int(np.argmin(np.abs(creepages - at))) for at in (leap.start, leap.end))
        across = float(rest[start] - rest[end])
        if end > start and across > 0 and math.isfinite(gradient):
            found.setdefault(start, []).append((end, leap.way, gradient * leap.way / across))
    return found


def _worth_keeping(ways: list[_Progress]) -> list[_Progress]:
    """Ways that no other beats in both voltage and arc length."""
    kept: list[_Progress] = []
    for way in sorted(ways, key=lambda item: (item.voltage, item.length)):
        if not kept or way.length < kept[-1].length - 1e-12:
            kept.append(way)
    return kept
