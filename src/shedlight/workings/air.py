"""Strength of the air end and of the horns; corona of the smallest rounding."""

from dataclasses import dataclass

from shedlight.geometry.measures import Measures
from shedlight.given.bushing import Installation
from shedlight.physics.air.gap_bands import switching_mean_cautious
from shedlight.physics.air.gaps import (
    clearance_for_lightning,
    rod_gap_mean,
    rod_gap_mean_rms,
    ten_percent,
    wet_power_frequency,
)
from shedlight.physics.air.tables import deviation, gap_factors, wet_gradient
from shedlight.trace import Number, calculate
from shedlight.workings.glow import Glows, glows_of
from shedlight.workings.horns import HornStrength, horns_of
from shedlight.workings.numbers import Description, from_table, on_outline
from shedlight.workings.voltages import Voltages

BUSHING_GAP = "bushing top to flange without ring"


@dataclass(frozen=True)
class Air:
    """Strength of the air end at standard atmosphere [V]: lightning peak, the rest rms."""

    arcing: Number
    lightning_mean: Number
    lightning_withstand: Number
    dry_mean: Number
    dry_withstand: Number
    wet_low: Number
    wet_high: Number
    switching_withstand: Number | None
    clearance: Number
    glows: Glows
    horns: HornStrength | None


def air_of(
    installation: Installation, measures: Measures, voltages: Voltages, number: Description
) -> Air:
    """Everything that follows from the arcing distance and the air of the site."""
    how = "taut string in air from live to earthed metal round the sheds, horns left out"
    arcing = on_outline(measures.arcing.length, "Arcing distance", "d", "mm", how)
    lightning, dry = calculate(rod_gap_mean, arcing), calculate(rod_gap_mean_rms, arcing)
    return Air(
        arcing=arcing,
        lightning_mean=lightning,
        lightning_withstand=calculate(ten_percent, lightning, _scatter("lightning")),
        dry_mean=dry,
        dry_withstand=calculate(ten_percent, dry, _scatter("power-frequency")),
        wet_low=calculate(wet_power_frequency, arcing, _gradient("low")),
        wet_high=calculate(wet_power_frequency, arcing, _gradient("high")),
        switching_withstand=_switching(installation, arcing),
        clearance=calculate(clearance_for_lightning, voltages.required_lightning),
        glows=glows_of(installation, arcing, voltages, number),
        horns=None if installation.bushing.horns is None else horns_of(number, voltages),
    )


def _switching(installation: Installation, arcing: Number) -> Number | None:
    """Switching withstand of the arcing distance, where a level is asked."""
    if installation.duty.switching_impulse is None:
        return None
    row = next(row for row in gap_factors() if row.configuration == BUSHING_GAP)
    factor = from_table(row.factor, "Gap factor", "K", "1", row.citation, row.configuration)
    return calculate(
        ten_percent, calculate(switching_mean_cautious, arcing, factor), _scatter("switching")
    )


def _scatter(stress: str) -> Number:
    row = deviation(stress)
    return from_table(row.deviation, "Scatter of sparkover", "s", "%", row.citation, row.what)


def _gradient(side: str) -> Number:
    row = wet_gradient(side)
    return from_table(row.gradient, "Wet gradient", "E", "kV/cm", row.citation, row.what)
