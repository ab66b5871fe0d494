"""What a gas bubble or a gas film sees of the field round it, and shares of one layer's field."""

import math

from shedlight.physics.domain import ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

_EXACT = cite("Jackson", "boundary-value problems with dielectrics, sphere in a field", "exact")
_SURROUNDING = ("Relative permittivity round the gas", "epsilon_r", "1")


@formula(
    ("Field factor of a bubble", 'k_"bubble"', "1"),
    "(3 epsilon_r) / (1 + 2 epsilon_r)",
    {"permittivity": _SURROUNDING},
    _EXACT,
)
def bubble_factor(permittivity: float) -> float:
    """Field in a spherical gas bubble over the undisturbed field of the liquid or solid round it.

    k = 3 epsilon_r/(1 + 2 epsilon_r)

    Args:
        permittivity: Relative permittivity round the bubble [1].

    Returns:
        Field factor, 1 to 1.5 [1].

    Raises:
        InputError: permittivity not above zero.

    Source: J. D. Jackson, Classical Electrodynamics, sphere in a uniform field — basis: exact.
    Valid for: bubbles small against the layer.
    """
    positive(permittivity=permittivity)
    return 3 * permittivity / (1 + 2 * permittivity)


@formula(
    ("Field factor of a film", 'k_"film"', "1"),
    "epsilon_r",
    {"permittivity": _SURROUNDING},
    cite("first principles", "continuity of the normal displacement", "exact"),
)
def film_factor(permittivity: float) -> float:
    """Field in a thin gas film across the field over the undisturbed field beside it.

    k = epsilon_r

    Args:
        permittivity: Relative permittivity beside the film [1].

    Returns:
        Field factor [1].

    Raises:
        InputError: permittivity not above zero.

    Source: continuity of the normal displacement — basis: exact.
    Valid for: films thin against the layer and normal to the field.
    """
    positive(permittivity=permittivity)
    return permittivity


@formula(
    ("Utilisation", "eta", "1"),
    "ln(r_o / r_i) / (r_o / r_i - 1)",
    {
        "inner_radius": ("Inner radius of the layer", "r_i", "mm"),
        "outer_radius": ("Outer radius of the layer", "r_o", "mm"),
    },
    cite("first principles", "coaxial layer, mean over peak", "exact"),
)
def utilisation(inner_radius: float, outer_radius: float) -> float:
    """How evenly a layer is stressed: its mean field over its peak field.

    eta = ln(r_o/r_i)/(r_o/r_i - 1)

    Args:
        inner_radius: Inner radius of the layer [m].
        outer_radius: Outer radius of the layer [m].

    Returns:
        Mean over peak field, 0 to 1 [1].

    Raises:
        InputError: radii not growing.

    Source: first principles — basis: exact.
    Valid for: one concentric layer.
    """
    positive(inner_radius=inner_radius)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    excess = (outer_radius - inner_radius) / inner_radius
    return math.log1p(excess) / excess
