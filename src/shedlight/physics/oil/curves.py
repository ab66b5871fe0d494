"""The room's tables: oil-gap curves, limits on surfaces in oil, conversion of test voltages."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.sources import Citation


@dataclass(frozen=True)
class GapCurve:
    """Strength of an oil gap, mean stress: coefficient · (gap/1 mm)^-exponent."""

    oil: str  # "degassed" or "gas-saturated"
    electrodes: str  # "covered" or "bare"
    coefficient: float  # [V/m] rms, at a gap of 1 mm
    exponent: float  # [1]
    shortest: float  # [m]
    longest: float  # [m]
    is_default: bool
    what: str
    citation: Citation


@dataclass(frozen=True)
class SurfaceLimit:
    """Mean stress along a surface in oil that one school of the trade allows at the a.c. test."""

    name: str  # "cautious" or "usual"
    lowest: float  # [V/m] rms
    highest: float  # [V/m] rms
    is_default: bool
    what: str
    citation: Citation


@dataclass(frozen=True)
class Conversion:
    """How many times its one-minute a.c. voltage an insulation in oil holds of another kind."""

    stress: str
    ratio: float  # [1]
    lowest: float  # [1]
    highest: float  # [1]
    what: str
    citation: Citation


@tables.cached
def gap_curves() -> tuple[GapCurve, ...]:
    """The four curves, strongest first, read once."""
    return tuple(
        GapCurve(
            row["oil"],
            row["electrodes"],
            float(row["kv_rms_per_mm"]) * 1e6,
            float(row["exponent"]),
            float(row["low_mm"]) * 1e-3,
            float(row["high_mm"]) * 1e-3,
            row["default"] == "yes",
            row["what"],
            tables.citation(row),
        )
        for row in tables.read("oil/gap_curves")
    )


def gap_curve(oil: str, electrodes: str) -> GapCurve:
    """The curve for a state of the oil and of the electrodes.

    Args:
        oil: "degassed" or "gas-saturated".
        electrodes: "covered" or "bare".

    Raises:
        InputError: the table has no such pair.
    """
    for row in gap_curves():
        if (row.oil, row.electrodes) == (oil, electrodes):
            return row
    known = ", ".join(f"{row.oil} {row.electrodes}" for row in gap_curves())
    raise InputError(f"oil, electrodes: given {oil} {electrodes}; expected one of {known}")


def default_gap_curve() -> GapCurve:
    """The weakest curve, gas-saturated oil on bare metal: used where nothing better is known."""
    return next(row for row in gap_curves() if row.is_default)


@tables.cached
def surface_limits() -> tuple[SurfaceLimit, ...]:
    """What the schools of the trade allow along a surface in oil, most cautious first."""
    return tuple(
        SurfaceLimit(
            row["name"],
            float(row["low_kv_rms_per_mm"]) * 1e6,
            float(row["high_kv_rms_per_mm"]) * 1e6,
            row["default"] == "yes",
            row["what"],
            tables.citation(row),
        )
        for row in tables.read("oil/surface_limits")
    )


def conversion(stress: str) -> Conversion:
    """The ratio of another kind of test voltage to the one-minute a.c. voltage.

    Args:
        stress: "lightning impulse", "switching impulse" or "one hour".

    Raises:
        InputError: the table has no such kind.
    """
    rows = tables.read("oil/conversions")
    for row in rows:
        if row["stress"] == stress:
            return Conversion(
                row["stress"],
                float(row["ratio"]),
                float(row["low"]),
                float(row["high"]),
                row["what"],
                tables.citation(row),
            )
    known = ", ".join(row["stress"] for row in rows)
    raise InputError(f"stress: given {stress!r}; expected one of {known}")
