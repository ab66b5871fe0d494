"""Bolted contacts: how hard they are pressed, what they resist, what they lose."""

import math

from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

_FORCE = ("Contact force", "F", "kN")
_RESISTANCE = ("Contact resistance", 'R_"c"', "µΩ")
_CURRENT = ("Current, rms", "I", "A")
_HOLM_INPUTS = {
    "resistivity": ("Resistivity", "rho", "nΩm"),
    "hardness": ("Contact hardness", "H", "MPa"),
    "force": _FORCE,
}


@formula(
    ("Clamping force of a bolt", "F", "kN"),
    "T / (K d)",
    {
        "torque": ("Tightening torque", "T", "Nm"),
        "nut_factor": ("Nut factor", "K", "1"),
        "bolt_diameter": ("Bolt diameter", "d", "mm"),
    },
    cite("trade", "torque to clamping force", "practice", "medium"),
    ranges={"nut_factor": (0.1, 0.3)},
    note="Scatter of 25 to 30 % either way: 0.20 dry steel, 0.15 lubricated.",
)
def clamp_force(torque: float, nut_factor: float, bolt_diameter: float) -> float:
    """Force with which a tightened bolt presses.

    F = T/(K d)

    Args:
        torque: Tightening torque [Nm].
        nut_factor: 0.20 dry steel, 0.15 lubricated [1].
        bolt_diameter: Nominal diameter [m].

    Returns:
        Clamping force [N].

    Raises:
        InputError: torque negative, another argument not above zero.

    Source: habit of the trade — basis: practice.
    Valid for: metric and inch bolts, scatter of 25 to 30 %.
    """
    not_negative(torque=torque)
    positive(nut_factor=nut_factor, bolt_diameter=bolt_diameter)
    return torque / (nut_factor * bolt_diameter)


@formula(
    _RESISTANCE,
    "rho / 2 sqrt((pi H) / F)",
    _HOLM_INPUTS,
    cite("Holm", "constriction resistance of one plastic spot"),
    note="One clean spot; oxide films come on top.",
)
def constriction_resistance(resistivity: float, hardness: float, force: float) -> float:
    """Resistance of the one spot in which two pressed metals really touch.

    R = rho/2 · sqrt(pi H/F)

    Args:
        resistivity: Resistivity of the metal [Ωm].
        hardness: Contact hardness [Pa].
        force: Contact force [N].

    Returns:
        Constriction resistance [Ω].

    Raises:
        InputError: an argument not above zero.

    Source: Holm, Electric Contacts — basis: memory, high confidence.
    Valid for: one clean spot, plastic.
    """
    positive(resistivity=resistivity, hardness=hardness, force=force)
    return resistivity / 2 * math.sqrt(math.pi * hardness / force)


@formula(
    _RESISTANCE,
    "rho / (2 n) sqrt((pi n H) / F)",
    {**_HOLM_INPUTS, "spots": ("Number of equal spots", "n", "1")},
    cite("Holm", "constriction resistance of several plastic spots"),
    note="Clean spots that do not feel each other; oxide films come on top.",
)
def constriction_resistance_spots(
    resistivity: float, hardness: float, force: float, spots: float
) -> float:
    """Resistance of several equal spots that share the force.

    R = rho/(2 n) · sqrt(pi n H/F)

    Args:
        resistivity: Resistivity of the metal [Ωm].
        hardness: Contact hardness [Pa].
        force: Contact force of all spots together [N].
        spots: Number of spots [1].

    Returns:
        Constriction resistance [Ω].

    Raises:
        InputError: an argument not above zero.

    Source: Holm, Electric Contacts — basis: memory, high confidence.
    Valid for: clean spots far from each other, plastic.
    """
    positive(spots=spots)
    return constriction_resistance(resistivity, hardness, force / spots) / spots


@formula(
    ("Loss in the contact", 'P_"c"', "W"),
    'I^2 R_"c"',
    {"current": _CURRENT, "resistance": _RESISTANCE},
    cite("first principles", "Joule's law", "exact"),
)
def contact_power(current: float, resistance: float) -> float:
    """Heat made in a contact.

    P = I² R

    Args:
        current: Current, rms [A].
        resistance: Contact resistance [Ω].

    Returns:
        Loss [W].

    Raises:
        InputError: an argument negative.

    Source: Joule's law — basis: exact.
    Valid for: any.
    """
    not_negative(current=current, resistance=resistance)
    return current**2 * resistance


@formula(
    ("Current density of the lapped face", "J", "A/mm²"),
    "I / A",
    {"current": _CURRENT, "area": ("Lapped area, holes left out", "A", "mm²")},
    cite("first principles", "definition", "exact"),
)
def lapped_current_density(current: float, area: float) -> float:
    """Current per area of the faces bolted together.

    J = I/A

    Args:
        current: Current, rms [A].
        area: Lapped area without the holes [m²].

    Returns:
        Current density, rms [A/m²].

    Raises:
        InputError: current negative, area not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    not_negative(current=current)
    positive(area=area)
    return current / area


@formula(
    ("Mean contact pressure", "p", "MPa"),
    "F / A",
    {"force": _FORCE, "area": ("Lapped area, holes left out", "A", "mm²")},
    cite("first principles", "definition", "exact"),
)
def contact_pressure(force: float, area: float) -> float:
    """Force per area of the faces bolted together.

    p = F/A

    Args:
        force: Clamping force of all bolts [N].
        area: Lapped area without the holes [m²].

    Returns:
        Mean pressure [Pa].

    Raises:
        InputError: force negative, area not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    not_negative(force=force)
    positive(area=area)
    return force / area


@formula(
    ("Contact rise at full load", 'Delta T_"full"', "K"),
    "Delta T (I_r / I)^n",
    {
        "rise": ("Rise measured", "Delta T", "K"),
        "load": ("Load over rated current", "I slash I_r", "1"),
        "exponent": ("Load exponent", "n", "1"),
    },
    cite("trade", "thermogram scaled to rated current, exponent 1.6 to 2", "practice", "medium"),
    ranges={"load": (0.3, 1.5), "exponent": (1.6, 2.0)},
)
def rise_at_full_load(rise: float, load: float, exponent: float) -> float:
    """What a contact seen warm at part load would show at rated current.

    Delta T_full = Delta T (I_r/I)^n

    Args:
        rise: Rise measured [K].
        load: Current then over rated current [1].
        exponent: 1.6 to 2 [1].

    Returns:
        Rise at rated current [K].

    Raises:
        InputError: rise negative, another argument not above zero.

    Source: habit of the trade — basis: practice.
    Valid for: load of 0.3 and more.
    """
    not_negative(rise=rise)
    positive(load=load, exponent=exponent)
    return float(rise * (1 / load) ** exponent)
