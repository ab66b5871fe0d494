"""Whether water that drips from a shed closes the gap to the shed below, and what that costs."""

import math
from dataclasses import dataclass

from shedlight import tables
from shedlight.physics.domain import not_negative, positive, within
from shedlight.sources import Citation, cite
from shedlight.trace import formula
from shedlight.units import si

GRAVITY = 9.81  # [m/s²]
CLEAR = "clear"


@dataclass(frozen=True)
class ShedGap:
    """Up to which distance a gap between sheds is in some state when water drips through it."""

    state: str
    up_to: float  # [m]
    what: str
    citation: Citation


@tables.cached
def shed_gaps() -> tuple[ShedGap, ...]:
    """The states of a shed gap, the narrowest first, read once."""
    return tuple(
        ShedGap(row["state"], si(float(row["up_to_mm"]), "mm"), row["what"], tables.citation(row))
        for row in tables.read("surface/shed_gaps")
    )


def gap_in_rain(distance: float) -> tuple[str, Citation]:
    """What dripping water does to a gap between sheds.

    Args:
        distance: Fall from the drip edge to the shed below, infinite if drops fall clear [m].

    Returns:
        State, "clear" beyond the table, and the row's source (the widest row's when clear).

    Raises:
        InputError: distance not above zero.

    Source: rows of ``shed_gaps.csv`` — basis: practice to memory, as each row says.
    Valid for: upright bushings; a leaning one lets drops fall clear.
    """
    if not math.isinf(distance):
        positive(distance=distance)
    for row in shed_gaps():
        if distance <= row.up_to:
            return row.state, row.citation
    return CLEAR, shed_gaps()[-1].citation


@formula(
    ("Capillary length", "a", "mm"),
    "sqrt(gamma / (rho g))",
    {
        "surface_tension": ("Surface tension", "gamma", "N/m"),
        "density": ("Density of the water", "rho", "kg/m³"),
    },
    cite("first principles", "weight against surface tension", "exact"),
    note="g = 9.81 m/s². A hanging drop is about two capillary lengths high.",
)
def capillary_length(surface_tension: float, density: float) -> float:
    """Length beyond which weight wins over surface tension: sets the size of hanging drops.

    a = √(gamma/(rho g))

    Args:
        surface_tension: Of water against air [N/m].
        density: Of the water [kg/m³].

    Returns:
        Capillary length [m].

    Raises:
        InputError: an argument not above zero.

    Source: first principles — basis: exact.
    Valid for: any liquid.
    """
    positive(surface_tension=surface_tension, density=density)
    return math.sqrt(surface_tension / (density * GRAVITY))


@formula(
    ("Creepage left with bridged gaps", 'L_"left"', "mm"),
    "L - n l_b + n c",
    {
        "creepage": ("Creepage", "L", "mm"),
        "spanned": ("Creepage from a drip edge to where its drops land", "l_b", "mm"),
        "fall": ("Fall between the two", "c", "mm"),
        "bridged": ("Number of gaps bridged", "n", "1"),
    },
    cite("first principles", "water threads replace the surface between their ends", "exact"),
)
def creepage_left(creepage: float, spanned: float, fall: float, bridged: float) -> float:
    """Length of the way along surface and water threads when gaps are bridged.

    L_left = L - n l_b + n c

    Args:
        creepage: Of the whole path [m].
        spanned: Creepage from a drip edge to where its drops land [m].
        fall: Length of the thread [m].
        bridged: How many gaps are bridged [1].

    Returns:
        Length of the way [m].

    Raises:
        InputError: a length negative, or more bridged than there is.

    Source: first principles — basis: exact; whether threads form is practice.
    Valid for: alike gaps.
    """
    not_negative(creepage=creepage, spanned=spanned, fall=fall, bridged=bridged)
    within(0.0, creepage, bridged_creepage=bridged * spanned)
    return creepage - bridged * (spanned - fall)
