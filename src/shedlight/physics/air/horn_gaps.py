"""Horns for a duty: how wide to ride through, how narrow to protect, and what steep waves do."""

import math

from shedlight.physics.air.gaps import rod_gap_trade_rule
from shedlight.physics.air.horns import WET_SHARE, volt_time
from shedlight.physics.air.tables import along, deviation, rod_gaps
from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula

SLOWEST = 16e-6  # [s] longest time of the volt–time curve; its value there stands for the 50 %
_DENSITY = ("Relative air density at site", "delta", "1")
_RULES = cite("IEEE 4", "rod–rod gap table, solved for the gap", "memory", "medium")


@formula(
    ("Horn sparkover, negative lightning, peak", 'U_"50−"', "kV"),
    'delta max(U_"table" (d), 40 "kV" + 5 "kV/cm" dot d)',
    {"gap": ("Horn gap", "d", "mm"), "density": _DENSITY},
    cite("trade", "negative sparkover of rod gaps lies at or above positive", "practice", "low"),
    ranges={"gap": (0.05, 2.0), "density": (0.6, 1.1)},
    note="The table is of alternating peaks and so of the weaker, positive polarity.",
)
def horn_sparkover_negative(gap: float, density: float) -> float:
    """Middle of the sparkover under negative lightning: what the winding sees at the worst.

    U = delta · max(U_table(d), 40 kV + 5 kV/cm · d)

    Args:
        gap: Shortest distance in air between the horns [m].
        density: Relative air density at site, counted from sea level [1].

    Returns:
        Sparkover voltage in the air at site, magnitude of the peak [V].

    Raises:
        InputError: gap or density not above zero.

    Source: rod–rod table for positive, trade rule above it — basis: practice, low confidence.
    Valid for: 50 mm to 2 m.
    """
    positive(gap=gap, density=density)
    return density * max(_table(gap), rod_gap_trade_rule(gap))


def _table(gap: float) -> float:
    rows = rod_gaps()
    return along(gap, [0.0, *(r.gap for r in rows)], [0.0, *(r.sparkover for r in rows)])


def _gap_of_table(sparkover: float) -> float:
    """The gap whose table value is a peak voltage [V]."""
    rows = rod_gaps()
    return along(sparkover, [0.0, *(r.sparkover for r in rows)], [0.0, *(r.gap for r in rows)])


@formula(
    ("Narrowest horn gap that rides through", 'd_"min"', "mm"),
    '0.7 dot 0.91 thin (delta U_"table" (d_"min")) / sqrt(2) = U',
    {
        "voltage_to_stand": ("Overvoltage with its margin, rms", "U", "kV"),
        "density": _DENSITY,
    },
    _RULES,
    note="Solved for the gap; rain and scatter as in the sparkover in rain.",
)
def gap_to_ride_through(voltage_to_stand: float, density: float) -> float:
    """Narrowest gap that certainly stands a power-frequency voltage in rain.

    0.7 · (1 - 3 s) · delta · U_table(d)/sqrt(2) = U, solved for d; s = 3 %

    Args:
        voltage_to_stand: Temporary overvoltage with its margin, rms [V].
        density: Relative air density at site, counted from sea level [1].

    Returns:
        Gap [m].

    Raises:
        InputError: an argument not above zero.

    Source: inverse of :func:`horn_wet_power_frequency_low` — basis: memory, medium confidence.
    Valid for: results of 50 mm to 2 m.
    """
    positive(voltage_to_stand=voltage_to_stand, density=density)
    share = WET_SHARE * (1 - 3 * deviation("power-frequency").deviation)
    return _gap_of_table(math.sqrt(2) * voltage_to_stand / (share * density))


@formula(
    ("Widest horn gap that protects", 'd_"max"', "mm"),
    'delta max(1.09 thin U_"table" (d_"max"), 40 "kV" + 5 "kV/cm" dot d_"max") = U',
    {
        "voltage_to_stay_below": ("Highest voltage to let through, peak", "U", "kV"),
        "density": _DENSITY,
    },
    cite("IEEE 4", "rod–rod gap table with the trade rule, solved for the gap", "memory", "low"),
    note="Solved for the gap; 0 where no gap sparks over low enough.",
)
def gap_to_protect(voltage_to_stay_below: float, density: float) -> float:
    """Widest gap that has certainly sparked over at a lightning voltage.

    delta · max(U_table(d) (1 + 3 s), 40 kV + 5 kV/cm · d) = U, solved for d; s = 3 %

    Args:
        voltage_to_stay_below: Highest voltage that may reach the winding, peak [V].
        density: Relative air density at site, counted from sea level [1].

    Returns:
        Gap; 0 where none protects [m].

    Raises:
        InputError: an argument not above zero.

    Source: inverse of :func:`horn_sparkover_high` — basis: memory, low confidence.
    Valid for: results of 50 mm to 2 m.
    """
    positive(voltage_to_stay_below=voltage_to_stay_below, density=density)
    standard = voltage_to_stay_below / density
    by_table = _gap_of_table(standard / (1 + 3 * deviation("lightning").deviation))
    by_rule = (standard - rod_gap_trade_rule(0.0)) / 5e5
    return max(0.0, min(by_table, by_rule))


@formula(
    ("Sparkover on a steep wave, peak", "U(t)", "kV"),
    'U_50 (400 + 710 / (t / "µs")^0.75) / (400 + 710 / 16^0.75)',
    {
        "fifty_percent_voltage": ("Sparkover on a full wave, peak", "U_50", "kV"),
        "time": ("Time to sparkover", "t", "µs"),
    },
    cite("Darveniza", "shape of the volt–time curve, set on the gap's own 50 %", "practice", "low"),
    ranges={"time": (0.5e-6, 16e-6)},
    note="The curve's own level belongs to long gaps and lies too low for short ones.",
)
def steep_wave_sparkover(fifty_percent_voltage: float, time: float) -> float:
    """Voltage a gap lets through when a steep wave sparks it over after a given time.

    U(t) = U50 (400 + 710/t^0.75)/(400 + 710/16^0.75), t in µs

    Args:
        fifty_percent_voltage: Sparkover on full waves, peak [V].
        time: Time to sparkover [s].

    Returns:
        Peak voltage before it collapses [V].

    Raises:
        InputError: an argument not above zero.

    Source: shape of Darveniza, Popolansky, Whitehead, Electra 41, on another level — basis:
    practice, low confidence.
    Valid for: 0.5 to 16 µs.
    """
    positive(fifty_percent_voltage=fifty_percent_voltage, time=time)
    return fifty_percent_voltage * volt_time(1.0, time) / volt_time(1.0, SLOWEST)
