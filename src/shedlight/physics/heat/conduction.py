"""Heat along the conductor."""

from shedlight.errors import InputError
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


@formula(
    ("Cross-section that conducts alike", "A", "mm²"),
    "(sum l_i) / (sum l_i slash A_i)",
    {
        "lengths": ("Lengths one after the other", "l_i", "mm"),
        "areas": ("Their cross-sections", "A_i", "mm²"),
    },
    cite("first principles", "resistances in series", "exact"),
)
def equal_section(lengths: tuple[float, ...], areas: tuple[float, ...]) -> float:
    """Cross-section of an even bar that resists as several lengths of other sections do.

    A = sum l_i/sum(l_i/A_i)

    Args:
        lengths: One after the other [m].
        areas: Their cross-sections [m²].

    Returns:
        Cross-section [m²].

    Raises:
        InputError: not as many of each, none, or one not above zero.

    Source: resistances in series — basis: exact.
    Valid for: heat and current that fill every section.
    """
    if not lengths or len(lengths) != len(areas):
        raise InputError(
            f"areas: given {len(areas)} for {len(lengths)} lengths; expected as many, at least 1"
        )
    for length, area in zip(lengths, areas, strict=True):
        positive(lengths=length, areas=area)
    return sum(lengths) / sum(length / area for length, area in zip(lengths, areas, strict=True))
