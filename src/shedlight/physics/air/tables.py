"""The room's tables: rod gaps, least clearances, wet gradients, scatter, gap factors."""

from collections.abc import Sequence
from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.sources import Citation
from shedlight.units import si


@dataclass(frozen=True)
class RodGap:
    """Sparkover of one rod–rod gap, a.c., peak."""

    gap: float  # [m]
    sparkover: float  # [V]
    citation: Citation


@dataclass(frozen=True)
class Clearance:
    """Least clearance in air phase to earth for one lightning impulse level.

    ``conductor_structure`` stands only in the rows for which the standard gives it.
    """

    lightning_impulse: float  # peak [V]
    rod_structure: float  # [m]
    conductor_structure: float | None  # [m]
    citation: Citation


@dataclass(frozen=True)
class WetGradient:
    """Wet power-frequency withstand per arcing distance, rms."""

    side: str  # "low" or "high"
    gradient: float  # [V/m]
    what: str
    citation: Citation


@dataclass(frozen=True)
class Deviation:
    """Standard deviation of the sparkover voltage, relative to its mean."""

    stress: str
    deviation: float
    what: str
    citation: Citation


@dataclass(frozen=True)
class GapFactor:
    """Strength of one electrode arrangement over that of rod against plane."""

    configuration: str
    factor: float
    low: float
    high: float
    citation: Citation


def _length(millimetres: str) -> float | None:
    return si(float(millimetres), "mm") if millimetres else None


@tables.cached
def rod_gaps() -> tuple[RodGap, ...]:
    """The rod–rod table, shortest gap first."""
    return tuple(
        RodGap(
            si(float(row["gap_mm"]), "mm"), si(float(row["peak_kv"]), "kV"), tables.citation(row)
        )
        for row in tables.read("air/rod_gaps")
    )


@tables.cached
def minimum_clearances() -> tuple[Clearance, ...]:
    """Least clearances in air, lowest level first."""
    return tuple(
        Clearance(
            si(float(row["lightning_impulse_kv"]), "kV"),
            si(float(row["rod_structure_mm"]), "mm"),
            _length(row["conductor_structure_mm"]),
            tables.citation(row),
        )
        for row in tables.read("air/minimum_clearances")
    )


@tables.cached
def wet_gradients() -> tuple[WetGradient, ...]:
    """The two ends of the band of wet power-frequency gradients."""
    return tuple(
        WetGradient(
            row["side"],
            si(float(row["kv_rms_per_cm"]), "kV/cm"),
            row["what"],
            tables.citation(row),
        )
        for row in tables.read("air/wet_gradients")
    )


@tables.cached
def deviations() -> tuple[Deviation, ...]:
    """Scatter of sparkover voltages by kind of stress."""
    return tuple(
        Deviation(row["stress"], float(row["deviation"]), row["what"], tables.citation(row))
        for row in tables.read("air/deviations")
    )


@tables.cached
def gap_factors() -> tuple[GapFactor, ...]:
    """Gap factors by arrangement."""
    return tuple(
        GapFactor(
            row["configuration"],
            float(row["factor"]),
            float(row["low"]),
            float(row["high"]),
            tables.citation(row),
        )
        for row in tables.read("air/gap_factors")
    )


def wet_gradient(side: str) -> WetGradient:
    """The ``low`` or ``high`` end of the band of wet gradients.

    Raises:
        InputError: another side.
    """
    for row in wet_gradients():
        if row.side == side:
            return row
    raise InputError(f"side: given {side!r}; expected 'low' or 'high'")


def deviation(stress: str) -> Deviation:
    """Scatter under ``lightning``, ``switching`` or ``power-frequency`` stress.

    Raises:
        InputError: another stress.
    """
    for row in deviations():
        if row.stress == stress:
            return row
    known = ", ".join(row.stress for row in deviations())
    raise InputError(f"stress: given {stress!r}; expected one of {known}")


def along(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """Straight line between table points; the end pieces run on beyond the table.

    Args:
        x: Where to read.
        xs: At least two places, growing.
        ys: Values there.
    """
    last = len(xs) - 2
    piece = next((i for i in range(last) if x <= xs[i + 1]), last)
    share = (x - xs[piece]) / (xs[piece + 1] - xs[piece])
    return ys[piece] + share * (ys[piece + 1] - ys[piece])
