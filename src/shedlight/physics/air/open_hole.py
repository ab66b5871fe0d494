"""What a conductor would need that passes through an earthed hole with nothing but air round it."""

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Hole with air alone", 'D_"air"', "mm"),
    "d + 2 c",
    {
        "conductor_diameter": ("Diameter of the conductor", "d", "mm"),
        "clearance": ("Least clearance in air", "c", "mm"),
    },
    cite("first principles", "clearance on both sides of a rod", "exact"),
)
def hole_in_air(conductor_diameter: float, clearance: float) -> float:
    """How wide a hole would have to be if air alone kept the conductor from the cover.

    D = d + 2 c

    Args:
        conductor_diameter: Diameter of the bare conductor [m].
        clearance: Least clearance in air for its lightning level [m].

    Returns:
        Diameter of the hole [m].

    Raises:
        InputError: a length not above zero.

    Source: clearance on both sides — basis: exact; the clearance has its own source.
    Valid for: a conductor in the middle of a round hole; the edge of the hole counts as a rod.
    """
    positive(conductor_diameter=conductor_diameter, clearance=clearance)
    return conductor_diameter + 2 * clearance
