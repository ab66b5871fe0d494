"""The conductor in the short-time current: how hot, how large the first peak."""

from dataclasses import dataclass

from shedlight.errors import InputError
from shedlight.given.bushing import Installation
from shedlight.given.parts import Tube
from shedlight.physics.heat.conductor import skin_ratio_rod, skin_ratio_tube
from shedlight.physics.heat.short_circuit import adiabatic_temperature_with_skin, peak_current
from shedlight.physics.heat.short_time import (
    effective_section_round,
    iec60137_short_time_rise,
    peak_factor,
    peak_over_rms,
    resistance_to_reactance,
)
from shedlight.physics.heat.tables import short_time_metal
from shedlight.physics.heat.terminal import warmed
from shedlight.trace import Number, calculate
from shedlight.workings.heat.rod import RoundRod
from shedlight.workings.numbers import Description, assumption, from_table, on_outline

METALS = ("copper", "aluminium")


@dataclass(frozen=True)
class ShortTime:
    """The conductor after the short-time current [K], by the standard and by its mean; peak [A]."""

    rise: Number
    final: Number
    mean: Number | None
    peak: Number


def short_time_of(
    installation: Installation, rod: RoundRod, before: Number, number: Description
) -> ShortTime | None:
    """What the short-time current does; none for metals whose constants are not held.

    Args:
        installation: What was described.
        rod: Its conductor.
        before: Hottest place of the conductor before [K].
        number: Hands out the description's numbers.
    """
    conductor = installation.bushing.conductor
    if conductor.metal not in METALS:
        return None
    row = short_time_metal(conductor.metal)
    current, duration = number("duty.short_time_current"), number("duty.short_time_duration")
    coefficient = from_table(
        row.coefficient, "Coefficient of the metal", "a", "Kcm⁴/kA²s", row.citation, row.metal
    )
    effective = rod.area
    outer = on_outline(conductor.diameter / 2, "Radius", "a", "mm", "half the diameter")
    if isinstance(conductor, Tube):
        inner = on_outline(conductor.inner_diameter / 2, "Inner radius", "a_i", "mm", "half")
        skin = calculate(skin_ratio_tube, outer, inner, rod.skin_depth)
    else:
        diameter = number("bushing.conductor.diameter")
        effective = calculate(effective_section_round, diameter, rod.skin_depth)
        skin = calculate(skin_ratio_rod, outer, rod.skin_depth)
    rise = calculate(iec60137_short_time_rise, coefficient, current, rod.area, effective, duration)
    constant = from_table(
        row.adiabatic, "Adiabatic constant", "K", "A√s/mm²", row.citation, row.metal
    )
    beta = from_table(row.beta, "Inverse coefficient at 0 °C", "beta", "K", row.citation, row.metal)
    try:
        mean = calculate(
            adiabatic_temperature_with_skin,
            current, duration, rod.area, skin, constant, beta, before,
        )  # fmt: skip
    except InputError:  # nothing of the conductor is left: the standard's rise says so too
        mean = None
    return ShortTime(rise, calculate(warmed, before, rise), mean, _peak(current, number))


def _peak(current: Number, number: Description) -> Number:
    """First peak of the current, which decides the forces."""
    ratio = calculate(
        resistance_to_reactance, assumption("direct component"), number("duty.frequency")
    )
    return calculate(peak_current, current, calculate(peak_over_rms, calculate(peak_factor, ratio)))
