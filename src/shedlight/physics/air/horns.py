"""Protective horns: when they spark over, and when they must not.

What a gap really holds at site follows the air there, so every bound is scaled with the density
counted from sea level. The table is the low side of the lightning sparkover; the high side, which
decides whether horns protect, is the larger of the scattered table and the trade rule.
"""

import math

from shedlight.physics.air.gaps import (
    rod_gap_mean,
    rod_gap_mean_rms,
    rod_gap_trade_rule,
    three_sigma_high,
    three_sigma_low,
)
from shedlight.physics.air.tables import deviation
from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula

WET_SHARE = 0.7  # least share of the dry a.c. sparkover left in rain, IEC 60071-2

_HORN_RANGES = {"gap": (0.05, 2.0), "density": (0.6, 1.1)}
_HORN_INPUTS = {
    "gap": ("Horn gap", "d", "mm"),
    "density": ("Relative air density at site", "delta", "1"),
}
_SOURCE = cite(
    "IEEE 4", "rod–rod gap table; with the trade rule of protective gaps", "memory", "low"
)


@formula(
    ("Horn sparkover, lightning, low side, peak", 'U_"low"', "kV"),
    'delta U_"table" (d)',
    _HORN_INPUTS,
    cite("IEEE 4", "rod–rod gap table, a.c. peak", "memory", "medium"),
    ranges=_HORN_RANGES,
)
def horn_sparkover_low(gap: float, density: float) -> float:
    """Lightning voltage at which horns may begin to spark over.

    U = delta · U_table(d)

    Args:
        gap: Shortest distance in air between the horns [m].
        density: Relative air density at site, counted from sea level [1].

    Returns:
        Sparkover voltage in the air at site, peak [V].

    Raises:
        InputError: gap or density not above zero.

    Source: IEEE Std 4, rod-gap table — basis: memory, medium confidence for impulse.
    Valid for: 50 mm to 2 m.
    """
    positive(gap=gap, density=density)
    return density * rod_gap_mean(gap)


@formula(
    ("Horn sparkover, lightning, high side, peak", 'U_"high"', "kV"),
    'delta max(1.09 thin U_"table" (d), 40 "kV" + 5 "kV/cm" dot d)',
    _HORN_INPUTS,
    _SOURCE,
    ranges=_HORN_RANGES,
)
def horn_sparkover_high(gap: float, density: float) -> float:
    """Lightning voltage at which horns have sparked over: what the winding may see.

    U = delta · max(U_table(d) (1 + 3 s), 40 kV + 5 kV/cm · d), s = 3 %

    Args:
        gap: Shortest distance in air between the horns [m].
        density: Relative air density at site, counted from sea level [1].

    Returns:
        Sparkover voltage in the air at site, peak [V].

    Raises:
        InputError: gap or density not above zero.

    Source: IEEE Std 4, rod-gap table; trade rule — basis: memory, low confidence.
    Valid for: 50 mm to 2 m; steep waves go higher, see volt_time.
    """
    positive(gap=gap, density=density)
    scattered = three_sigma_high(rod_gap_mean(gap), deviation("lightning").deviation)
    return density * max(scattered, rod_gap_trade_rule(gap))


@formula(
    ("Horn sparkover, lightning, middle, peak", "U_50", "kV"),
    'delta / 2 (U_"table" (d) + 40 "kV" + 5 "kV/cm" dot d)',
    _HORN_INPUTS,
    _SOURCE,
    ranges=_HORN_RANGES,
    note="Half-way between the two rules; it only shows the middle of the band.",
)
def horn_sparkover_mean(gap: float, density: float) -> float:
    """Middle of the two rules for the lightning sparkover of horns.

    U = delta/2 · (U_table(d) + 40 kV + 5 kV/cm · d)

    Args:
        gap: Shortest distance in air between the horns [m].
        density: Relative air density at site, counted from sea level [1].

    Returns:
        Sparkover voltage in the air at site, peak [V].

    Raises:
        InputError: gap or density not above zero.

    Source: IEEE Std 4, rod-gap table; trade rule — basis: memory, low confidence.
    Valid for: 50 mm to 2 m.
    """
    positive(gap=gap, density=density)
    return density * (rod_gap_mean(gap) + rod_gap_trade_rule(gap)) / 2


@formula(
    ("Horn sparkover in rain, low side, rms", 'U_"wet"', "kV"),
    '0.7 dot 0.91 thin (delta U_"table" (d)) / sqrt(2)',
    _HORN_INPUTS,
    cite("IEC 60071-2", "rain on a.c. strength, down to 0.7; rod table", "memory", "medium"),
    ranges=_HORN_RANGES,
    note="0.7 is quoted for wet insulators; an open gap loses less in rain.",
)
def horn_wet_power_frequency_low(gap: float, density: float) -> float:
    """Power-frequency voltage that horns certainly stand in rain.

    U = 0.7 · (1 - 3 s) · delta · U_table(d)/sqrt(2), s = 3 %

    Args:
        gap: Shortest distance in air between the horns [m].
        density: Relative air density at site, counted from sea level [1].

    Returns:
        Voltage in the air at site, rms [V].

    Raises:
        InputError: gap or density not above zero.

    Source: IEC 60071-2 (rain), IEEE Std 4 (rod gap) — basis: memory, medium confidence.
    Valid for: 50 mm to 2 m.
    """
    positive(gap=gap, density=density)
    dry = three_sigma_low(rod_gap_mean_rms(gap), deviation("power-frequency").deviation)
    return WET_SHARE * density * dry


@formula(
    ("Gap voltage at sparkover time, peak", "U(t)", "kV"),
    '(400 + 710 / (t / "µs")^0.75) "kV/m" dot d',
    {"gap": ("Gap", "d", "mm"), "time": ("Time to sparkover", "t", "µs")},
    cite("Darveniza", "volt–time curve of line insulation"),
    ranges={"time": (0.5e-6, 16e-6)},
    note="For rod gaps within about 15 %.",
)
def volt_time(gap: float, time: float) -> float:
    """Voltage a gap reaches before it sparks over after a given time: the steeper, the higher.

    U(t) = (400 + 710/t^0.75) kV/m · d, t in µs

    Args:
        gap: Shortest distance in air [m].
        time: Time to sparkover [s].

    Returns:
        Peak voltage at standard atmosphere [V].

    Raises:
        InputError: gap or time not above zero.

    Source: Darveniza, Popolansky, Whitehead, Electra 41 — basis: memory, high confidence.
    Valid for: 0.5 to 16 µs.
    """
    positive(gap=gap, time=time)
    return float((400e3 + 710e3 / (time * 1e6) ** 0.75) * gap)


def sparkover_time(gap: float, voltage_at_sparkover: float) -> float:
    """When a gap sparks over at a given voltage; never below 400 kV/m.

    t = (710 d/(U - 400 d))^(4/3) µs, the inverse of :func:`volt_time`

    Args:
        gap: Shortest distance in air [m].
        voltage_at_sparkover: Peak voltage across the gap at sparkover [V].

    Returns:
        Time to sparkover [s]; infinite if the voltage never sparks the gap over.

    Raises:
        InputError: gap or voltage not above zero.

    Source: Darveniza, Popolansky, Whitehead, Electra 41 — basis: memory, high confidence.
    Valid for: results of 0.5 to 16 µs.
    """
    positive(gap=gap, voltage_at_sparkover=voltage_at_sparkover)
    excess = voltage_at_sparkover - 400e3 * gap
    if excess <= 0:
        return math.inf
    return float((710e3 * gap / excess) ** (4 / 3)) * 1e-6
