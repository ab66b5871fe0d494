"""The room's tables of constants: arcs on wet surfaces, re-ignition, pollution exponents."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.sources import Citation


@dataclass(frozen=True)
class ArcConstants:
    """Gradient of an arc on a wet surface: constant · (I/1 A)^-exponent."""

    author: str
    constant: float  # at 1 A [V/m]
    exponent: float  # [1]
    regime: str
    for_pollution: bool
    citation: Citation


@dataclass(frozen=True)
class Reignition:
    """Voltage per arc length that re-ignites an a.c. arc: coefficient · (I/1 A)^-exponent."""

    author: str
    coefficient: float  # peak, at 1 A peak [V/m]
    exponent: float  # [1]
    what: str
    citation: Citation


@dataclass(frozen=True)
class PollutionExponent:
    """How steeply the flashover voltage falls with a severity."""

    relation: str
    exponent: float  # [1]
    lowest: float
    highest: float
    what: str
    citation: Citation


@tables.cached
def arc_constants() -> tuple[ArcConstants, ...]:
    """All arc constants, read once."""
    return tuple(
        ArcConstants(
            row["author"],
            float(row["v_per_cm"]) * 100,
            float(row["exponent"]),
            row["regime"],
            row["pollution"] == "yes",
            tables.citation(row),
        )
        for row in tables.read("surface/arc_constants")
    )


def arc_constants_of(author: str) -> ArcConstants:
    """The arc constants of one author.

    Args:
        author: As the table writes it, such as "Alston & Zoledziowski".

    Raises:
        InputError: the table has no such author.
    """
    for row in arc_constants():
        if row.author == author:
            return row
    known = ", ".join(row.author for row in arc_constants())
    raise InputError(f"author: given {author!r}; expected one of {known}")


@tables.cached
def reignitions() -> tuple[Reignition, ...]:
    """All re-ignition constants, read once."""
    return tuple(
        Reignition(
            row["author"],
            float(row["v_per_cm"]) * 100,
            float(row["exponent"]),
            row["what"],
            tables.citation(row),
        )
        for row in tables.read("surface/reignition")
    )


@tables.cached
def pollution_exponents() -> tuple[PollutionExponent, ...]:
    """All pollution exponents, read once."""
    return tuple(
        PollutionExponent(
            row["relation"],
            float(row["exponent"]),
            float(row["low"]),
            float(row["high"]),
            row["what"],
            tables.citation(row),
        )
        for row in tables.read("surface/pollution_exponents")
    )
