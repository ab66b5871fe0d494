"""Strength of an electrode arrangement as a band: gap factors have a range, laws differ."""

from dataclasses import dataclass

from shedlight.errors import InputError
from shedlight.physics.air.gaps import (
    lightning_mean,
    lightning_mean_cigre,
    rod_gap_mean,
    rod_gap_trade_rule,
    three_sigma_high,
    three_sigma_low,
)
from shedlight.physics.air.long_gaps import (
    SWITCHING_MEANS,
    power_frequency_factor,
    power_frequency_mean,
    switching_mean_paris,
)
from shedlight.physics.air.tables import GapFactor, deviation, gap_factors
from shedlight.physics.domain import positive
from shedlight.sources import Citation, cite
from shedlight.trace import formula

STRESSES = ("switching", "lightning", "power-frequency")
LAWS_FROM = 1.0  # [m]: below, the straight and curved laws of long gaps do not hold
_RODS = cite("IEEE 4", "rod–rod gap table, a.c. peak", "memory", "high")


@dataclass(frozen=True)
class Band:
    """Mean sparkover of a gap, with the least and greatest that range and laws allow; peak."""

    low: float  # [V]
    mean: float  # [V]
    high: float  # [V]
    citation: Citation


def gap_factor(configuration: str) -> GapFactor:
    """The gap factor of an arrangement, with its range.

    Args:
        configuration: As the table writes it, such as "rod–plane".

    Raises:
        InputError: no such arrangement.

    Source: IEC 60071-2, gap factor table — basis: as the row says.
    """
    for row in gap_factors():
        if row.configuration == configuration:
            return row
    known = ", ".join(row.configuration for row in gap_factors())
    raise InputError(f"configuration: given {configuration!r}; expected one of {known}")


def sparkover_band(gap: float, configuration: str, stress: str) -> Band:
    """Mean sparkover voltage of a long gap, positive polarity, with its band.

    The mean takes the first law with the typical factor; the band all laws and the factor's range.

    Args:
        gap: Shortest distance in air [m].
        configuration: As the table of gap factors writes it.
        stress: "switching", "lightning" or "power-frequency".

    Returns:
        The band, peak, at standard atmosphere.

    Raises:
        InputError: gap not above zero, no such arrangement or stress.

    Source: IEC 60071-2 and the laws named in `long_gaps` and `gaps` — basis: as the factor's row.
    Valid for: about 1 to 5 m; below, the rod–rod table decides.
    """
    positive(gap=gap)
    row = gap_factor(configuration)
    if stress not in STRESSES:
        raise InputError(f"stress: given {stress!r}; expected one of {', '.join(STRESSES)}")
    typical, *others = _by_all_laws(gap, row.factor, stress)
    ends = [
        voltage for factor in (row.low, row.high) for voltage in _by_all_laws(gap, factor, stress)
    ]
    every = [typical, *others, *ends]
    return Band(min(every), typical, max(every), row.citation)


def _by_all_laws(gap: float, factor: float, stress: str) -> list[float]:
    if stress == "switching":
        return [law(gap, factor) for law in SWITCHING_MEANS.values()]
    if stress == "lightning":
        return [lightning_mean(gap, factor), lightning_mean_cigre(gap, factor)]
    return [power_frequency_mean(gap, power_frequency_factor(factor))]


@formula(
    ("Switching sparkover of a short gap, positive, peak", "U_50", "kV"),
    'min(500 "kV" K (d / "m")^0.6, U_"table" (d))',
    {"gap": ("Gap", "d", "m"), "gap_factor": ("Gap factor", "K", "1")},
    cite("Paris", "law of long gaps, held below the rod–rod table", "practice", "low"),
    ranges={"gap": (LAWS_FROM, 5.0), "gap_factor": (1.0, 1.9)},
    note="Below 1 m the law makes gaps look stronger than the rod–rod table finds them.",
)
def switching_mean_cautious(gap: float, gap_factor: float) -> float:
    """Mean switching sparkover of a gap of any size, never above the rod–rod table.

    U50 = min(500 kV · K (d/m)^0.6, U_table(d))

    Args:
        gap: Shortest distance in air [m].
        gap_factor: K of the arrangement, 1 for rod–plane [1].

    Returns:
        50 % sparkover voltage, positive, peak [V].

    Raises:
        InputError: gap negative, gap factor not above zero.

    Source: Paris and Cortina (1968) under the rod–rod table of IEEE Std 4 — basis: practice, low
    confidence.
    Valid for: 1 to 5 m; below, a cautious stand-in.
    """
    return min(switching_mean_paris(gap, gap_factor), rod_gap_mean(gap))


def strength_band(gap: float, configuration: str, stress: str) -> Band:
    """Mean sparkover voltage of a gap of any size, with its band.

    Below 1 m the rod–rod table with its scatter; from there the laws of long gaps.

    Args:
        gap: Shortest distance in air [m].
        configuration: As the table of gap factors writes it.
        stress: "switching", "lightning" or "power-frequency".

    Returns:
        The band, peak, positive polarity, dry, at standard atmosphere.

    Raises:
        InputError: gap not above zero, no such arrangement or stress.

    Source: IEEE Std 4 rod–rod table, three deviations to either side; trade rule for the high
    side of lightning; long gaps as :func:`sparkover_band` — basis: as the rows.
    Valid for: 20 mm to 5 m.
    """
    if gap >= LAWS_FROM:
        return sparkover_band(gap, configuration, stress)
    positive(gap=gap)
    row = gap_factor(configuration)
    if stress not in STRESSES:
        raise InputError(f"stress: given {stress!r}; expected one of {', '.join(STRESSES)}")
    mean, scatter = rod_gap_mean(gap), deviation(stress).deviation
    high = three_sigma_high(mean, scatter)
    if stress == "switching":
        mean = switching_mean_cautious(gap, row.factor)
        high = max(high, switching_mean_paris(gap, row.high))
    if stress == "lightning":
        high = max(high, rod_gap_trade_rule(gap))
    return Band(three_sigma_low(mean, scatter), mean, high, _RODS)
