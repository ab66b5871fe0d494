"""Strength of an electrode arrangement as a band: gap factors have a range, laws differ."""

from dataclasses import dataclass

from shedlight.errors import InputError
from shedlight.physics.air.gaps import lightning_mean, lightning_mean_cigre
from shedlight.physics.air.long_gaps import (
    SWITCHING_MEANS,
    power_frequency_factor,
    power_frequency_mean,
)
from shedlight.physics.air.tables import GapFactor, gap_factors
from shedlight.physics.domain import positive
from shedlight.sources import Citation

STRESSES = ("switching", "lightning", "power-frequency")


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
