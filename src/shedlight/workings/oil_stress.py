"""What the solved field means for oil: the worst stretch of a way against its design curve."""

from collections.abc import Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import FieldError
from shedlight.physics.field.lines import FieldLine, cumulative_means
from shedlight.physics.oil.curves import GapCurve
from shedlight.physics.oil.strength import creep_strength
from shedlight.trace import Label, Number, calculate
from shedlight.workings.field import Field
from shedlight.workings.field_numbers import SOLVED, derived, stress
from shedlight.workings.numbers import on_outline
from shedlight.workings.oil import strength_on
from shedlight.workings.streamers import Lines, lines_of

SHORTEST_CREEP, LONGEST_CREEP = 5e-3, 0.2
SHORTEST_GAP, LONGEST_GAP = 1e-3, 50e-3
CREEP_EXPONENT = 0.46  # of the creep curve; finds the stretch nearest to it

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Stretch:
    """The stretch of a way in oil that comes nearest to its curve [V/m rms], at a test voltage.

    `inception` is the voltage at which the stretch would stand on its curve [V rms].
    """

    length: Number
    mean: Number
    strength: Number
    inception: Number


def creep_stretch(field: Field, test: Number) -> Stretch:
    """Cumulated mean stress along the porcelain in oil, against the creep curve.

    Args:
        field: The field.
        test: The voltage of the test, rms.

    Raises:
        InputError: the surface is shorter than the curve reaches.
    """
    seen = field.surface("oil side", "tank oil")
    along = np.abs(seen.tangential)
    size, mean = _worst(seen.lengths, along, SHORTEST_CREEP, LONGEST_CREEP, CREEP_EXPONENT)
    length = on_outline(size, "Stretch of the surface", "d", "mm", "nearest to the creep curve")
    return _stretch(field, length, mean, calculate(creep_strength, length), test)


def gap_stretches(
    field: Field,
    solution: Solution,
    edge: str,
    region: str,
    test: Number,
    curves: Sequence[GapCurve],
    lines: Lines = MappingProxyType({}),
) -> tuple[Stretch, ...]:
    """Mean stress along the worst field line from a metal edge in oil, against gap curves.

    Args:
        field: The field.
        solution: The same as it was solved.
        edge: Name of the metal edge.
        region: The oil beside it.
        test: The voltage of the test, rms.
        curves: The design curves; each has its own worst stretch.
        lines: From the most stressed places, where they have been walked.

    Returns:
        One stretch for each curve.

    Raises:
        FieldError: no line that is long enough leaves the edge.
    """
    followed = lines_of(solution, edge, region, lines)
    long = [line for line in followed if line.lengths[-1] > SHORTEST_GAP]
    if not long:
        raise FieldError(edge, "no field line leaves it")
    return tuple(_on_curve(field, long, curve, test) for curve in curves)


def _on_curve(field: Field, lines: Sequence[FieldLine], curve: GapCurve, test: Number) -> Stretch:
    size, mean = max(
        (
            _worst(line.lengths, line.strength, SHORTEST_GAP, LONGEST_GAP, curve.exponent)
            for line in lines
        ),
        key=lambda item: item[1] * item[0] ** curve.exponent,
    )
    length = on_outline(size, "Stretch of the field line", "d", "mm", "nearest to the gap curve")
    return _stretch(field, length, mean, strength_on(curve, length), test)


def _stretch(field: Field, length: Number, mean: float, strength: Number, test: Number) -> Stretch:
    demand = stress(mean, "Mean field along the stretch, rms", field, test)
    label = Label("Voltage at which the stretch stands on its curve, rms", "U_d", "kV")
    inception = derived(
        float(strength) / mean, label, "U E_d / E", SOLVED, "", (test, strength, demand)
    )
    return Stretch(length, demand, strength, inception)


def _worst(
    lengths: Array, along: Array, low: float, high: float, exponent: float
) -> tuple[float, float]:
    """Length and mean of the stretch that comes nearest to a curve falling as d^-exponent."""
    sizes, means = cumulative_means(lengths, along)
    held = (sizes >= low) & (sizes <= high)
    if not held.any():
        raise InputError(f"lengths: given a way of {sizes.max():g} m; expected at least {low:g} m")
    sizes, means = sizes[held], means[held]
    worst = int(np.argmax(means * sizes**exponent))
    return float(sizes[worst]), float(means[worst])
