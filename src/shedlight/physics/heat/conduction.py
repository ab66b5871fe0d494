"""Heat along the conductor."""

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Conductor's conductivity times area", "k A", "Wm/K"),
    "k A",
    {
        "conductivity": ("Thermal conductivity", "k", "W/mK"),
        "area": ("Cross-section", "A", "mm²"),
    },
    cite("first principles", "Fourier's law along a bar", "exact"),
)
def axial_conduction(conductivity: float, area: float) -> float:
    """How well a bar carries heat along itself.

    k A

    Args:
        conductivity: Thermal conductivity of the metal [W/mK].
        area: Cross-section [m²].

    Returns:
        Conductivity times area [Wm/K].

    Raises:
        InputError: an argument not above zero.

    Source: Fourier's law — basis: exact.
    Valid for: any bar.
    """
    positive(conductivity=conductivity, area=area)
    return conductivity * area
