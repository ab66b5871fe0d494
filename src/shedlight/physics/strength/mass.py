"""How heavy a part is."""

from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Mass", "m", "kg"),
    "rho V",
    {
        "density": ("Density", "rho", "kg/m³"),
        "volume": ("Volume", "V", "l"),
    },
    cite("first principles", "definition of density", "exact"),
)
def mass(density: float, volume: float) -> float:
    """Mass of a part of even density.

    m = ρ V

    Args:
        density: Density [kg/m³].
        volume: Volume [m³].

    Returns:
        Mass [kg].

    Raises:
        InputError: density not above zero, volume negative.

    Source: definition — basis: exact.
    Valid for: even density.
    """
    positive(density=density)
    not_negative(volume=volume)
    return density * volume
