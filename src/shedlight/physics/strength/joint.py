"""The joint between bushing and cover: how far it rocks, when it loosens, what cement bears."""

import math

from shedlight.physics.domain import not_negative, ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

_RING = {
    "outer_diameter": ("Outer diameter", "D", "mm"),
    "inner_diameter": ("Inner diameter", "d", "mm"),
}


@formula(
    ("Ring area", "A", "cm²"),
    "pi / 4 (D^2 - d^2)",
    _RING,
    cite("first principles", "area of a ring", "exact"),
)
def ring_area(outer_diameter: float, inner_diameter: float) -> float:
    """Area of a ring.

    A = pi/4 · (D² - d²)

    Args:
        outer_diameter: Outer diameter [m].
        inner_diameter: Inner diameter [m].

    Returns:
        Area [m²].

    Raises:
        InputError: inner diameter negative or not below the outer one.

    Source: geometry — basis: exact.
    Valid for: any ring.
    """
    not_negative(inner_diameter=inner_diameter)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)
    return math.pi / 4 * (outer_diameter**2 - inner_diameter**2)


@formula(
    ("Stiffness of the gasket against rocking", "k_theta", "Nm/rad"),
    "E_c pi (D^4 - d^4) / (64 h)",
    {
        "modulus": ("Apparent modulus of the ring", "E_c", "MPa"),
        **_RING,
        "thickness": ("Thickness of the gasket when pressed", "h", "mm"),
    },
    cite("first principles", "elastic foundation under a stiff face", "exact"),
)
def rocking_stiffness(
    modulus: float, outer_diameter: float, inner_diameter: float, thickness: float
) -> float:
    """How stiffly a gasket by itself holds a bushing upright.

    k = E_c pi (D⁴ - d⁴)/(64 h)

    Args:
        modulus: Apparent modulus of the ring [Pa].
        outer_diameter: Outer diameter of the gasket [m].
        inner_diameter: Inner diameter of the gasket [m].
        thickness: Of the gasket when pressed [m].

    Returns:
        Moment per angle [Nm/rad].

    Raises:
        InputError: an argument not above zero, or diameters out of order.

    Source: elastic foundation — basis: exact.
    Valid for: stiff faces, both sides still pressed; bolts and clamps make it stiffer.
    """
    positive(modulus=modulus, inner_diameter=inner_diameter, thickness=thickness)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)
    return modulus * math.pi * (outer_diameter**4 - inner_diameter**4) / (64 * thickness)


@formula(
    ("Deflection at which the gasket loosens", 'w_"max"', "mm"),
    "(h_0 - h) a / R",
    {
        "free_thickness": ("Thickness of the gasket unpressed", "h_0", "mm"),
        "compressed_thickness": ("Thickness of the gasket when pressed", "h", "mm"),
        "height": ("Height of the terminal above the seat", "a", "mm"),
        "radius": ("Outer radius of the gasket", "R", "mm"),
    },
    cite("first principles", "geometry of a rocking body", "exact"),
    note="What the gasket has set in service is lost besides.",
)
def loosening_deflection(
    free_thickness: float, compressed_thickness: float, height: float, radius: float
) -> float:
    """How far the terminal may move before the pulled side of the gasket is no longer pressed.

    w = (h_0 - h) a/R

    Args:
        free_thickness: Of the gasket unpressed [m].
        compressed_thickness: Of the gasket when pressed [m].
        height: Of the terminal above the seat [m].
        radius: Outer radius of the gasket [m].

    Returns:
        Deflection at the terminal [m].

    Raises:
        InputError: thicknesses out of order, another argument not above zero.

    Source: geometry — basis: exact.
    Valid for: a bushing that rocks about the middle of its seat.
    """
    positive(compressed_thickness=compressed_thickness, height=height, radius=radius)
    ordered(compressed_thickness=compressed_thickness, free_thickness=free_thickness)
    return (free_thickness - compressed_thickness) * height / radius


@formula(
    ("Greatest pressure in the cement", 'p_"c"', "MPa"),
    "(6 M) / (D t^2) + Q / (D t)",
    {
        "moment": ("Bending moment at the middle of the cement", "M", "Nm"),
        "shear": ("Force across the axis", "Q", "N"),
        "diameter": ("Diameter of the porcelain in the cement", "D", "mm"),
        "depth": ("Depth of the cement", "t", "mm"),
    },
    cite("first principles", "stiff peg in a socket, pressure straight over the depth", "exact"),
)
def cement_pressure(moment: float, shear: float, diameter: float, depth: float) -> float:
    """How hard a bent porcelain presses on the cement of its flange.

    p = 6 M/(D t²) + Q/(D t)

    Args:
        moment: At the middle of the cement's depth [Nm].
        shear: Force across the axis [N].
        diameter: Of the porcelain in the cement [m].
        depth: Of the cement along the axis [m].

    Returns:
        Pressure at the cement's edge, over the projected face [Pa].

    Raises:
        InputError: moment or shear negative, another argument not above zero.

    Source: stiff peg in a socket — basis: exact.
    Valid for: flange and porcelain stiff against the cement; what the collar bears is left out.
    """
    not_negative(moment=moment, shear=shear)
    positive(diameter=diameter, depth=depth)
    return 6 * moment / (diameter * depth**2) + shear / (diameter * depth)


@formula(
    ("Stiffness of the bed", "k", "N/mm³"),
    "E_c / h",
    {
        "modulus": ("Apparent modulus of the ring", "E_c", "MPa"),
        "thickness": ("Thickness of the gasket when pressed", "h", "mm"),
    },
    cite("first principles", "pressure per depth of a layer", "exact"),
)
def bed_stiffness(modulus: float, thickness: float) -> float:
    """How much pressure a layer gives back for each length it is pressed in.

    k = E_c/h

    Args:
        modulus: Apparent modulus of the layer [Pa].
        thickness: Of the layer [m].

    Returns:
        Pressure per depth [N/m³].

    Raises:
        InputError: an argument not above zero.

    Source: layer between stiff faces — basis: exact.
    Valid for: layers thin against their width.
    """
    positive(modulus=modulus, thickness=thickness)
    return modulus / thickness
