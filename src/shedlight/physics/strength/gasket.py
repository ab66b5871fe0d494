"""Gaskets: how much they are pressed, whether they fit their groove, what seats them."""

import math

from shedlight.physics.domain import finite, not_negative, ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

_RING = {
    "outer_diameter": ("Outer diameter of the gasket", "D", "mm"),
    "inner_diameter": ("Inner diameter of the gasket", "d", "mm"),
}


@formula(
    ("Compression of the gasket", "epsilon", "%"),
    "1 - h / h_0",
    {
        "free_thickness": ("Thickness unpressed", "h_0", "mm"),
        "compressed_thickness": ("Thickness pressed, down to the stop", "h", "mm"),
    },
    cite("first principles", "definition", "exact"),
)
def compression(free_thickness: float, compressed_thickness: float) -> float:
    """Share of its thickness that a gasket gives up.

    epsilon = 1 - h/h0

    Args:
        free_thickness: Thickness unpressed [m].
        compressed_thickness: Thickness pressed [m].

    Returns:
        Compression; negative if the gasket is loose [1].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any; 25 to 35 % is usual for nitrile-cork.
    """
    positive(free_thickness=free_thickness, compressed_thickness=compressed_thickness)
    return 1 - compressed_thickness / free_thickness


@formula(
    ("Groove fill", "phi", "%"),
    "(b h_0) / (B T)",
    {
        "gasket_width": ("Width of the gasket", "b", "mm"),
        "gasket_thickness": ("Thickness of the gasket", "h_0", "mm"),
        "groove_width": ("Width of the groove", "B", "mm"),
        "groove_depth": ("Depth of the groove", "T", "mm"),
    },
    cite("first principles", "ratio of sections; rubber keeps its volume", "exact"),
)
def groove_fill(
    gasket_width: float, gasket_thickness: float, groove_width: float, groove_depth: float
) -> float:
    """Share of its groove that a gasket fills when closed; above 1 it cannot close.

    phi = b h0/(B T)

    Args:
        gasket_width: Width of the gasket's section [m].
        gasket_thickness: Thickness of the gasket's section [m].
        groove_width: Width of the groove [m].
        groove_depth: Depth of the groove [m].

    Returns:
        Fill [1].

    Raises:
        InputError: an argument not above zero.

    Source: rubber keeps its volume — basis: exact.
    Valid for: rectangular sections; 85 to 95 % is usual.
    """
    positive(
        gasket_width=gasket_width,
        gasket_thickness=gasket_thickness,
        groove_width=groove_width,
        groove_depth=groove_depth,
    )
    return gasket_width * gasket_thickness / (groove_width * groove_depth)


@formula(
    ("Mean seating stress", 'sigma_"s"', "MPa"),
    "(4 F) / (pi (D^2 - d^2))",
    {"clamp_force": ("Clamping force", "F", "kN"), **_RING},
    cite("first principles", "force over ring area", "exact"),
)
def seating_stress(clamp_force: float, outer_diameter: float, inner_diameter: float) -> float:
    """Mean pressure of the clamps on a gasket.

    sigma = 4 F/(pi (D² - d²))

    Args:
        clamp_force: Clamping force [N].
        outer_diameter: Outer diameter of the gasket [m].
        inner_diameter: Inner diameter of the gasket [m].

    Returns:
        Mean stress [Pa].

    Raises:
        InputError: force negative, inner diameter negative or not below the outer one.

    Source: force over ring area — basis: exact.
    Valid for: no metal stop in contact; 2 to 5 MPa is usual.
    """
    not_negative(clamp_force=clamp_force, inner_diameter=inner_diameter)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)
    return 4 * clamp_force / (math.pi * (outer_diameter**2 - inner_diameter**2))


@formula(
    ("Clamping force for a seating stress", "F", "kN"),
    'sigma_"s" pi / 4 (D^2 - d^2)',
    {"seating_stress": ("Mean seating stress", 'sigma_"s"', "MPa"), **_RING},
    cite("first principles", "stress times ring area", "exact"),
)
def seating_force(seating_stress: float, outer_diameter: float, inner_diameter: float) -> float:
    """Clamping force that gives a gasket a mean pressure.

    F = sigma pi (D² - d²)/4

    Args:
        seating_stress: Mean stress wanted [Pa].
        outer_diameter: Outer diameter of the gasket [m].
        inner_diameter: Inner diameter of the gasket [m].

    Returns:
        Force [N].

    Raises:
        InputError: stress negative, inner diameter negative or not below the outer one.

    Source: stress times ring area — basis: exact.
    Valid for: no metal stop in contact.
    """
    not_negative(seating_stress=seating_stress, inner_diameter=inner_diameter)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)
    return seating_stress * math.pi / 4 * (outer_diameter**2 - inner_diameter**2)


@formula(
    ("Force of the oil pressure that lifts the joint", "F", "kN"),
    "p pi / 4 d^2",
    {
        "pressure": ("Gauge pressure of the oil", "p", "kPa"),
        "seal_diameter": ("Mean diameter of the seal", "d", "mm"),
    },
    cite("first principles", "pressure times area", "exact"),
)
def pressure_end_load(pressure: float, seal_diameter: float) -> float:
    """Force with which the oil pressure tries to open a joint.

    F = p pi d²/4

    Args:
        pressure: Gauge pressure of the oil [Pa].
        seal_diameter: Mean diameter of the seal [m].

    Returns:
        Force, opening positive [N].

    Raises:
        InputError: pressure not finite, diameter not above zero.

    Source: pressure times area — basis: exact.
    Valid for: any.
    """
    finite(pressure=pressure)
    positive(seal_diameter=seal_diameter)
    return pressure * math.pi / 4 * seal_diameter**2
