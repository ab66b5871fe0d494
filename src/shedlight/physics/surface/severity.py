"""Site severity classes: what creepage each asks for, and which class a measured site falls in."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import not_negative
from shedlight.sources import Citation
from shedlight.units import si


@dataclass(frozen=True)
class PollutionClass:
    """One site severity class and the creepage it asks for."""

    letter: str  # "a" to "e"
    name: str
    specific_creepage: float  # [m/V] creepage per rms voltage across the insulator
    old_level: str  # of 1986: "0", "I" to "IV"
    old_specific_creepage: float  # [m/V] creepage per rms voltage phase to phase
    citation: Citation


@dataclass(frozen=True)
class SeverityBand:
    """From which measured severity on a class holds."""

    kind: str  # "deposit" or "salinity"
    letter: str
    lowest: float  # [kg/m²] or [kg/m³]
    what: str
    citation: Citation


@tables.cached
def pollution_classes() -> tuple[PollutionClass, ...]:
    """The five classes, lightest first, read once."""
    return tuple(
        PollutionClass(
            row["letter"],
            row["name"],
            si(float(row["mm_per_kv"]), "mm/kV"),
            row["old_level"],
            si(float(row["old_mm_per_kv_phase_phase"]), "mm/kV"),
            tables.citation(row),
        )
        for row in tables.read("surface/classes")
    )


def pollution_class(letter: str) -> PollutionClass:
    """The class with a letter.

    Args:
        letter: "a" (very light) to "e" (very heavy).

    Raises:
        InputError: no class has this letter.

    Source: IEC TS 60815-1:2008, site severity classes — basis: published (figures quoted by
    third parties).
    """
    for row in pollution_classes():
        if row.letter == letter:
            return row
    raise InputError(f"letter: given {letter!r}; expected one of a, b, c, d, e")


@tables.cached
def severity_bands(kind: str) -> tuple[SeverityBand, ...]:
    """The bands of one kind of severity, lightest first.

    Args:
        kind: "deposit" or "salinity".
    """
    return tuple(
        SeverityBand(
            row["kind"],
            row["letter"],
            si(float(row["from"]), row["unit"]),
            row["what"],
            tables.citation(row),
        )
        for row in tables.read("surface/severity_bands")
        if row["kind"] == kind
    )


def class_for_deposit(esdd: float) -> SeverityBand:
    """The class that a measured salt deposit falls in; on an edge, the heavier one.

    Args:
        esdd: Equivalent salt deposit density [kg/m²].

    Returns:
        The band, with its class letter and source.

    Raises:
        InputError: deposit negative.

    Source: working reading of the figures of IEC TS 60815-1 — basis: practice, low confidence.
    Valid for: dust-like deposits (type A) with about 0.1 mg/cm² of non-soluble matter.
    """
    not_negative(esdd=esdd)
    return _band(severity_bands("deposit"), esdd)


def class_for_salinity(salinity: float) -> SeverityBand:
    """The class that a site equivalent salinity falls in; on an edge, the heavier one.

    Args:
        salinity: Site equivalent salinity [kg/m³].

    Returns:
        The band, with its class letter and source.

    Raises:
        InputError: salinity negative.

    Source: working bands of the trade — basis: practice, low confidence.
    Valid for: salt spray and fog (type B).
    """
    not_negative(salinity=salinity)
    return _band(severity_bands("salinity"), salinity)


def _band(bands: tuple[SeverityBand, ...], severity: float) -> SeverityBand:
    return max((band for band in bands if band.lowest <= severity), key=lambda band: band.lowest)
