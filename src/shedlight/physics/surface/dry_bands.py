"""A partly dried layer under voltage: which dry bands arcs cross, and how voltage is shared.

Quasi-steady: within a half-wave the band that is stressed most, measured by what it holds, breaks
down first; then the network is solved anew, until no band breaks down. The arc's gradient never
exceeds what the band holds: at a few milliampere sparks take the place of arcs. An arc counts as a
resistance that takes its voltage at the peak of the current, so that powers add up to voltage
times current. Peak values where it says so.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, within
from shedlight.physics.surface.constants import ArcConstants, arc_constants_of
from shedlight.physics.surface.resistance import SurfacePath

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

STEPS_OF_NEWTON = 30


@dataclass(frozen=True)
class BandArcs:
    """How dry bands hold and how arcs across them burn.

    Attributes:
        arc: Gradient of the arc.
        electrode_drop: Cathode and anode drop of one arc, peak [V]; 840 V after Wilkins (1969).
        hold: Gradient at which a dry band breaks down, peak [V/m]; 5 kV/cm, streamers in air.
    """

    arc: ArcConstants
    electrode_drop: float = 840.0
    hold: float = 5e5

    def gradient(self, current: float) -> float:
        """Of an arc, or of sparks where the current is too small for one, peak [V/m]."""
        if current <= 0:
            return self.hold
        return min(self.hold, float(self.arc.constant * current**-self.arc.exponent))

    def breakdown(self, lengths: Array) -> Array:
        """What bands of some length hold, peak [V]."""
        return np.asarray(self.electrode_drop + self.hold * lengths, dtype=np.float64)


@dataclass(frozen=True)
class Network:
    """The layer with its bands and arcs at one moment.

    Attributes:
        current: Along the surface, rms [A].
        voltages: Across each cell, rms [V].
        burning: Cells that an arc bridges.
        spreading: Greatest ratio, at the ends of the arcs, of the layer's gradient to the arc's
            [1]; above 1 an arc runs on over the wet layer (Hampton's criterion). 0 without arcs.
    """

    current: float
    voltages: Array
    burning: Flags
    spreading: float


def default_arcs() -> BandArcs:
    """The arcs of Alston and Zoledziowski with Wilkins's electrode drops.

    Source: Alston, Zoledziowski (1963), Wilkins (1969) — basis: memory, as the rows say.
    """
    return BandArcs(arc_constants_of("Alston & Zoledziowski"))


def banded_network(
    path: SurfacePath, resistances: Array, dry: Flags, voltage_across: float, arcs: BandArcs
) -> Network:
    """Current and voltages along a layer with dry bands.

    √2 U = R I + sum over burning bands of (U_e + A d I^-n), I peak

    Args:
        path: The path.
        resistances: Layer resistance of each cell, dry ones too [Ω].
        dry: Cells that count as dry; neighbours make a band.
        voltage_across: Voltage across the insulator, rms [V].
        arcs: How bands hold and arcs burn.

    Returns:
        The network with every band burning that must.

    Raises:
        InputError: arrays that do not fit, voltage negative.

    Source: series circuit; breakdown by streamers, arcs after Alston and Zoledziowski (1963),
    Wilkins (1969); spreading after Hampton (1964) — basis: a stated model.
    Valid for: bands that close all round the axis; quasi-steady, no capacitance.
    """
    not_negative(voltage_across=voltage_across)
    if resistances.shape != path.sizes.shape or dry.shape != path.sizes.shape:
        raise InputError(f"resistances, dry: expected {len(path.sizes)} cells each")
    peak = math.sqrt(2) * voltage_across
    bands = _bands(dry)
    sums = np.array([float(np.sum(resistances[low:high])) for low, high in bands])
    lengths = np.array([float(path.ends[high] - path.ends[low]) for low, high in bands])
    total = float(np.sum(resistances))
    lit: list[int] = []
    current = peak / total
    while len(lit) < len(bands):
        stress = current * sums / arcs.breakdown(lengths)
        stress[lit] = 0.0
        next_one = int(np.argmax(stress))
        if stress[next_one] < 1:
            break
        chosen = [*lit, next_one]
        rest = total - float(np.sum(sums[chosen]))
        length = float(np.sum(lengths[chosen]))
        burns = _burning_current(peak - arcs.electrode_drop * len(chosen), rest, length, arcs)
        if burns is None:
            break
        lit, current = chosen, burns
    return _network(path, resistances, [bands[index] for index in lit], current, arcs)


def _bands(dry: Flags) -> list[tuple[int, int]]:
    edges = np.flatnonzero(np.diff(np.concatenate([[False], dry, [False]]).astype(int)))
    return [(int(low), int(high)) for low, high in edges.reshape(-1, 2)]


def _burning_current(voltage: float, rest: float, length: float, arcs: BandArcs) -> float | None:
    """Largest root of voltage = rest · I + length · gradient(I); none where nothing burns."""
    if rest <= 0 or voltage <= 0:
        return None
    a, n = arcs.arc.constant * length, arcs.arc.exponent
    least = (n * a / rest) ** (1 / (n + 1))
    if rest * least + a * least**-n <= voltage:
        current = voltage / rest
        for _ in range(STEPS_OF_NEWTON):
            short = rest * current + a * current**-n - voltage
            step = short / (rest - n * a * current ** (-n - 1))
            if not abs(step) > 1e-12 * current:
                break
            current = max(least, current - step)
        if arcs.gradient(current) < arcs.hold:
            return float(current)
    # Too little current for an arc: sparks keep the band at what it holds.
    sparks = (voltage - arcs.hold * length) / rest
    return sparks if sparks > 0 else None


def _network(
    path: SurfacePath,
    resistances: Array,
    lit: list[tuple[int, int]],
    current: float,
    arcs: BandArcs,
) -> Network:
    voltages = resistances * current
    gradients = voltages / path.sizes
    burning = np.zeros(len(resistances), dtype=np.bool_)
    arc = arcs.gradient(current)
    beside = [0.0]
    for low, high in lit:
        length = float(path.ends[high] - path.ends[low])
        drop = arcs.electrode_drop + arc * length
        voltages[low:high] = drop * path.sizes[low:high] / length
        burning[low:high] = True
        beside += [float(gradients[at]) / arc for at in (low - 1, high) if 0 <= at < len(gradients)]
    return Network(current / math.sqrt(2), voltages / math.sqrt(2), burning, max(beside))


def arc_heat_on_surface(network: Network, share: float) -> Array:
    """Heat that each cell receives from current and arcs.

    P_i = U_i I, of arcs a share

    Args:
        network: From :func:`banded_network`.
        share: Of an arc's power that warms the surface under it, 0 to 1; the rest goes to the
            air [1].

    Returns:
        Power into each cell [W].

    Raises:
        InputError: share outside 0 to 1.

    Source: first principles — basis: exact; the share is an assumption.
    Valid for: arcs close to the surface.
    """
    within(0.0, 1.0, share=share)
    power = network.voltages * network.current
    return np.asarray(np.where(network.burning, share * power, power), dtype=np.float64)
