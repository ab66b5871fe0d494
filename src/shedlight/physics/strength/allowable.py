"""What a stress may be: strength over safety; tension from bending."""

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Allowable stress", 'sigma_"all"', "MPa"),
    "sigma / S",
    {
        "strength": ("Strength", "sigma", "MPa"),
        "safety": ("Safety on the mean strength", "S", "1"),
    },
    cite("first principles", "definition of a safety factor", "exact"),
)
def allowable_stress(strength: float, safety: float) -> float:
    """Stress that a strength allows with a safety factor.

    sigma_all = sigma/S

    Args:
        strength: Strength [Pa].
        safety: Safety factor, at least 2.5 for porcelain in bending [1].

    Returns:
        Allowable stress [Pa].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(strength=strength, safety=safety)
    return strength / safety


@formula(
    ("Tensile strength from bending strength", 'sigma_"t"', "MPa"),
    'k sigma_"b"',
    {
        "bending_strength": ("Bending strength", 'sigma_"b"', "MPa"),
        "ratio": ("Tensile over bending strength", "k", "1"),
    },
    cite("trade", "tensile strength of ceramics about 0.8 of bending strength", "practice"),
)
def tensile_strength(bending_strength: float, ratio: float) -> float:
    """Tensile strength of a ceramic, estimated from its bending strength.

    sigma_t = k sigma_b

    Args:
        bending_strength: Bending strength of test bars [Pa].
        ratio: About 0.8 [1].

    Returns:
        Tensile strength [Pa].

    Raises:
        InputError: an argument not above zero.

    Source: common figure of ceramics texts — basis: practice.
    Valid for: an estimate.
    """
    positive(bending_strength=bending_strength, ratio=ratio)
    return ratio * bending_strength
