"""Puncture of the porcelain wall, estimated."""

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Estimated puncture voltage of the wall, rms", 'U_"p"', "kV"),
    "E_p t_w",
    {
        "puncture_stress": ("Puncture stress of a thick wall, rms", "E_p", "kV/mm"),
        "wall": ("Thickness of the wall", "t_w", "mm"),
    },
    cite("trade", "wall times a cautious puncture stress", "practice"),
    ranges={"wall": (5e-3, 40e-3)},
)
def puncture_voltage(puncture_stress: float, wall: float) -> float:
    """What a porcelain wall holds alone, once the oil before it has broken down, rms.

    U_p = E_p t_w

    Args:
        puncture_stress: Puncture stress of a thick wall, rms [V/m].
        wall: Thickness of the wall [m].

    Returns:
        Puncture voltage, rms [V].

    Raises:
        InputError: an argument not above zero.

    Source: habit of the trade — basis: practice.
    Valid for: an estimate for walls of 5 to 40 mm; a puncture test decides.
    """
    positive(puncture_stress=puncture_stress, wall=wall)
    return puncture_stress * wall
