"""Gas where oil should be: the field in a cavity, and the field that breaks it down."""

import math

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Field in the gas, rms", 'E_"gas"', "kV/mm"),
    "k E",
    {
        "gradient": ("Field of the oil around, rms", "E", "kV/mm"),
        "cavity_factor": ("Field in the cavity over field around", "k", "1"),
    },
    cite("first principles", "dielectric sphere or layer in an even field", "exact"),
)
def cavity_gradient(gradient: float, cavity_factor: float) -> float:
    """Field inside a small gas cavity in oil, rms.

    E_gas = k E

    Args:
        gradient: Field of the oil where the cavity sits, rms [V/m].
        cavity_factor: 3 ε/(1 + 2 ε) for a bubble, ε for a layer across the field [1].

    Returns:
        Field in the gas, rms [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: dielectric sphere or layer in an even field — basis: exact.
    Valid for: cavities small against the oil space.
    """
    positive(gradient=gradient, cavity_factor=cavity_factor)
    return cavity_factor * gradient


@formula(
    ("Breakdown field of the gas, rms", 'E_"b"', "kV/mm"),
    "U_b / (sqrt(2) d)",
    {
        "breakdown": ("Breakdown voltage of the gas gap, peak", "U_b", "kV"),
        "gap": ("Length of the gas", "d", "mm"),
    },
    cite("first principles", "even field, peak to rms", "exact"),
)
def breakdown_gradient(breakdown: float, gap: float) -> float:
    """Field at which an evenly stressed gas gap breaks down, rms.

    E_b = U_b/(√2 d)

    Args:
        breakdown: Breakdown voltage, peak [V].
        gap: Length of the gas along the field [m].

    Returns:
        Breakdown field, rms [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: an even field.
    """
    positive(breakdown=breakdown, gap=gap)
    return breakdown / (math.sqrt(2) * gap)
