"""Heating of a steel cover by the current that passes through it."""

import math

from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Magnetic field at the edge of the hole, rms", "H", "kA/m"),
    "I / (2 pi r)",
    {"current": ("Current, rms", "I", "A"), "radius": ("Radius of the hole", "r", "mm")},
    cite("first principles", "Ampère's law", "exact"),
)
def edge_field(current: float, radius: float) -> float:
    """Magnetic field that drives losses in the cover around one bushing.

    H = I/(2 pi r)

    Args:
        current: Current, rms [A].
        radius: Radius of the hole [m].

    Returns:
        Field strength at the hole's edge, rms [A/m].

    Raises:
        InputError: current negative, radius not above zero.

    Source: Ampère's law — basis: exact.
    Valid for: one conductor, centred, the others far away.
    """
    not_negative(current=current)
    positive(radius=radius)
    return current / (2 * math.pi * radius)
