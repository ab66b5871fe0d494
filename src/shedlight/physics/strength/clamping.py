"""Porcelain held by a tie through its bore or by clamps: what is left when warm and when bent."""

import math

from shedlight.errors import InputError
from shedlight.physics.domain import finite, not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

_CLAMP = ("Clamping force along the axis", "F", "kN")
_MOMENT = ("Bending moment at the joint", "M", "Nm")
_MODULUS = ("Section modulus of the joint", "Z", "cm³")
_AREA = ("Ring area of the joint", "A", "cm²")
_JOINT = {"clamp_force": _CLAMP, "moment": _MOMENT, "section_modulus": _MODULUS, "area": _AREA}
_KERN = cite("first principles", "pressure under an eccentric load", "exact")


@formula(
    ("Clamping force when warm", "F", "kN"),
    'F_0 - k (alpha_"t" Delta T_"t" - alpha_"p" Delta T_"p") L',
    {
        "cold_force": ("Clamping force as assembled", "F_0", "kN"),
        "stiffness": ("Stiffness of tie, springs and body in series", "k", "kN/mm"),
        "tie_expansion": ("Expansion of the tie", 'alpha_"t"', "µ/K"),
        "tie_warming": ("Warming of the tie", 'Delta T_"t"', "K"),
        "body_expansion": ("Expansion of the porcelain", 'alpha_"p"', "µ/K"),
        "body_warming": ("Warming of the porcelain", 'Delta T_"p"', "K"),
        "length": ("Clamped length", "L", "mm"),
    },
    cite("first principles", "springs in series, thermal expansion", "exact"),
    note="At or below zero the joint is loose.",
)
def clamp_force_when_warm(
    cold_force: float,
    stiffness: float,
    tie_expansion: float,
    tie_warming: float,
    body_expansion: float,
    body_warming: float,
    length: float,
) -> float:
    """What is left of the clamping force when the conductor outgrows the porcelain.

    F = F_0 - k (alpha_t Delta T_t - alpha_p Delta T_p) L

    Args:
        cold_force: As assembled [N].
        stiffness: Of tie, springs, gaskets and body in series [N/m].
        tie_expansion: Expansion of the tie or conductor [1/K].
        tie_warming: Since assembly; negative on cooling [K].
        body_expansion: Expansion of the porcelain [1/K].
        body_warming: Since assembly; negative on cooling [K].
        length: Clamped length [m].

    Returns:
        Force; below zero the joint has opened [N].

    Raises:
        InputError: force negative, stiffness or length not above zero, others not finite.

    Source: springs in series — basis: exact.
    Valid for: elastic parts; what a gasket has set is lost besides.
    """
    not_negative(cold_force=cold_force)
    positive(stiffness=stiffness, length=length)
    finite(
        tie_expansion=tie_expansion,
        tie_warming=tie_warming,
        body_expansion=body_expansion,
        body_warming=body_warming,
    )
    growth = (tie_expansion * tie_warming - body_expansion * body_warming) * length
    return cold_force - stiffness * growth


@formula(
    ("Least pressure in the joint", 'p_"min"', "MPa"),
    "F / A - M / Z",
    _JOINT,
    _KERN,
    note="At or below zero one side has opened.",
)
def least_joint_pressure(
    clamp_force: float, moment: float, section_modulus: float, area: float
) -> float:
    """Pressure on the side of a clamped joint that a bending moment relieves.

    p = F/A - M/Z

    Args:
        clamp_force: Clamping force less what the oil pressure lifts [N].
        moment: Bending moment at the joint [Nm].
        section_modulus: Of the ring that bears [m³].
        area: Of the ring that bears [m²].

    Returns:
        Pressure; at or below zero the joint opens there [Pa].

    Raises:
        InputError: force not finite, moment negative, another argument not above zero.

    Source: pressure under an eccentric load — basis: exact.
    Valid for: stiff faces, until one side opens.
    """
    finite(clamp_force=clamp_force)
    not_negative(moment=moment)
    positive(section_modulus=section_modulus, area=area)
    return clamp_force / area - moment / section_modulus


@formula(
    ("Greatest pressure in the joint", 'p_"max"', "MPa"),
    "F / A + M / Z",
    _JOINT,
    _KERN,
    note="Once one side has opened the other is pressed harder than this.",
)
def greatest_joint_pressure(
    clamp_force: float, moment: float, section_modulus: float, area: float
) -> float:
    """Pressure on the side of a clamped joint that a bending moment presses.

    p = F/A + M/Z

    Args:
        clamp_force: Clamping force less what the oil pressure lifts [N].
        moment: Bending moment at the joint [Nm].
        section_modulus: Of the ring that bears [m³].
        area: Of the ring that bears [m²].

    Returns:
        Pressure [Pa].

    Raises:
        InputError: force not finite, moment negative, another argument not above zero.

    Source: pressure under an eccentric load — basis: exact.
    Valid for: stiff faces, until one side opens.
    """
    finite(clamp_force=clamp_force)
    not_negative(moment=moment)
    positive(section_modulus=section_modulus, area=area)
    return clamp_force / area + moment / section_modulus


@formula(
    ("Clamping force needed", 'F_"min"', "kN"),
    "S M A / Z + p_0 pi / 4 d^2",
    {
        "moment": _MOMENT,
        "section_modulus": _MODULUS,
        "area": _AREA,
        "pressure": ("Gauge pressure of the oil", "p_0", "kPa"),
        "seal_diameter": ("Mean diameter of the seal", "d", "mm"),
        "safety": ("Safety against opening", "S", "1"),
    },
    cite("trade", "clamping at least 1.5 times what opens the joint", "practice", "medium"),
)
def clamp_force_needed(
    moment: float,
    section_modulus: float,
    area: float,
    pressure: float,
    seal_diameter: float,
    safety: float = 1.5,
) -> float:
    """Clamping force that keeps a joint shut under bending and oil pressure.

    F = S M A/Z + p pi d²/4

    Args:
        moment: Bending moment at the joint [Nm].
        section_modulus: Of the ring that bears [m³].
        area: Of the ring that bears [m²].
        pressure: Gauge pressure of the oil [Pa].
        seal_diameter: Mean diameter of the seal [m].
        safety: Against opening, at least 1.5 by practice [1].

    Returns:
        Force [N].

    Raises:
        InputError: moment negative, pressure not finite, another argument not above zero.

    Source: kern of the joint; safety by habit of the trade — basis: practice.
    Valid for: stiff faces.
    """
    not_negative(moment=moment)
    finite(pressure=pressure)
    positive(section_modulus=section_modulus, area=area, seal_diameter=seal_diameter, safety=safety)
    return safety * moment * area / section_modulus + pressure * math.pi / 4 * seal_diameter**2


def share_of_tie(stiffness_of_tie: float, stiffness_of_body: float) -> float:
    """How much of an outer pull a tie takes, the rest relieving the pressed body.

    k_t/(k_t + k_b)

    Args:
        stiffness_of_tie: Of tie and springs in series [N/m].
        stiffness_of_body: Of the pressed body and its gaskets in series [N/m].

    Returns:
        Share, 0 to 1 [1].

    Raises:
        InputError: an argument not above zero.

    Source: springs side by side, as in every text on bolted joints — basis: exact.
    Valid for: a joint that stays shut.
    """
    positive(stiffness_of_tie=stiffness_of_tie, stiffness_of_body=stiffness_of_body)
    share = stiffness_of_tie / (stiffness_of_tie + stiffness_of_body)
    if not math.isfinite(share):
        raise InputError("stiffness_of_tie: given too large a number; expected a finite share")
    return share
