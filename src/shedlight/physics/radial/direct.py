"""The share-out of a standing direct voltage: conductivities take the place of permittivities."""

import math
from collections.abc import Sequence

from shedlight.physics.domain import finite, ordered, positive
from shedlight.physics.radial.layers import check_layers
from shedlight.sources import cite
from shedlight.trace import formula

_EXACT = cite("first principles", "coaxial layers, continuity of the current", "exact")
_RADII = ("Radii of the layers, inner to outer", "r_i", "mm")
_CONDUCTIVITIES = ("Conductivities, inner to outer", "sigma_i", "S/m")
_ACROSS = ("Direct voltage across the layers", "U", "kV")
_CONDUCTIVITY = ("Conductivity", "sigma", "S/m")
_DC_SUM = ("Layer sum, direct voltage", "S_sigma", "Ωm")


@formula(
    _DC_SUM,
    "sum_i ln(r_i / r_(i-1)) / sigma_i",
    {"radii": _RADII, "conductivities": _CONDUCTIVITIES},
    _EXACT,
)
def layer_sum_dc(radii: Sequence[float], conductivities: Sequence[float]) -> float:
    """How a standing direct voltage shares out: conductivities take the place of permittivities.

    S = sum over layers of ln(r_i/r_(i-1))/sigma_i

    Args:
        radii: Boundaries of the layers, inner to outer; one more than layers [m].
        conductivities: Conductivity of each layer, inner to outer [S/m].

    Returns:
        Layer sum [Ωm].

    Raises:
        InputError: radii not growing, another number of conductivities, one not above zero.

    Source: first principles — basis: exact.
    Valid for: long concentric cylinders, many time constants after switching on.
    """
    check_layers(radii, conductivities, "conductivities")
    positive(**{f"conductivities[{place}]": s for place, s in enumerate(conductivities)})
    return math.fsum(
        math.log(outer / inner) / conductivity
        for inner, outer, conductivity in zip(radii, radii[1:], conductivities, strict=False)
    )


@formula(
    ("Field strength, direct voltage", "E", "kV/mm"),
    "U / (sigma r S_sigma)",
    {
        "voltage_across": _ACROSS,
        "conductivity": _CONDUCTIVITY,
        "radius": ("Radius", "r", "mm"),
        "layer_sum": _DC_SUM,
    },
    _EXACT,
)
def layer_gradient_dc(
    voltage_across: float, conductivity: float, radius: float, layer_sum: float
) -> float:
    """Field strength at one radius under standing direct voltage.

    E(r) = U/(sigma r S_sigma)

    Args:
        voltage_across: Direct voltage between the innermost and the outermost electrode [V].
        conductivity: Conductivity of the layer that holds the radius [S/m].
        radius: Place asked for [m].
        layer_sum: From :func:`layer_sum_dc` [Ωm].

    Returns:
        Radial field strength [V/m].

    Raises:
        InputError: conductivity, radius or layer sum not above zero.

    Source: first principles — basis: exact.
    Valid for: long concentric cylinders, many time constants after switching on.
    """
    finite(voltage_across=voltage_across)
    positive(conductivity=conductivity, radius=radius, layer_sum=layer_sum)
    return voltage_across / (conductivity * radius * layer_sum)


@formula(
    ("Voltage across one layer, direct voltage", "U_i", "kV"),
    "(U ln(r_o / r_i)) / (sigma S_sigma)",
    {
        "voltage_across": _ACROSS,
        "inner_radius": ("Inner radius of the layer", "r_i", "mm"),
        "outer_radius": ("Outer radius of the layer", "r_o", "mm"),
        "conductivity": _CONDUCTIVITY,
        "layer_sum": _DC_SUM,
    },
    _EXACT,
)
def layer_voltage_dc(
    voltage_across: float,
    inner_radius: float,
    outer_radius: float,
    conductivity: float,
    layer_sum: float,
) -> float:
    """What one of several concentric layers takes of a standing direct voltage.

    U_i = U ln(r_o/r_i)/(sigma S_sigma)

    Args:
        voltage_across: Direct voltage between the innermost and the outermost electrode [V].
        inner_radius: Inner radius of the layer [m].
        outer_radius: Outer radius of the layer [m].
        conductivity: Conductivity of the layer [S/m].
        layer_sum: From :func:`layer_sum_dc` [Ωm].

    Returns:
        Voltage across the layer [V].

    Raises:
        InputError: radii not growing, conductivity or layer sum not above zero.

    Source: first principles — basis: exact.
    Valid for: long concentric cylinders, many time constants after switching on.
    """
    finite(voltage_across=voltage_across)
    positive(inner_radius=inner_radius, conductivity=conductivity, layer_sum=layer_sum)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    return voltage_across * math.log(outer_radius / inner_radius) / (conductivity * layer_sum)
