"""The outer terminal: its lapped face, the resistance of the joint, what it gives to the air."""

import math

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

_GEOMETRY = cite("first principles", "geometry", "exact")
_HOLES = ("Number of holes", "n", "1")


@formula(
    ("Lapped face of the palm", 'A_"lap"', "mm²"),
    "b h - n pi d_h^2 / 4",
    {
        "width": ("Width of the palm", "b", "mm"),
        "height": ("Height of the palm", "h", "mm"),
        "holes": _HOLES,
        "hole_diameter": ("Diameter of the holes", "d_h", "mm"),
    },
    _GEOMETRY,
)
def palm_face(width: float, height: float, holes: float, hole_diameter: float) -> float:
    """Contact face of a flat terminal fully covered by its lug, less the holes.

    A = b h - n π d_h²/4

    Args:
        width: Width of the palm [m].
        height: Height of the palm [m].
        holes: Number of holes [1].
        hole_diameter: Diameter of the holes [m].

    Returns:
        Face [m²].

    Raises:
        InputError: an argument not above zero, or holes larger than the palm.

    Source: geometry — basis: exact.
    Valid for: a lug that covers the whole palm.
    """
    positive(width=width, height=height, hole_diameter=hole_diameter)
    not_negative(holes=holes)
    face = width * height - holes * math.pi * hole_diameter**2 / 4
    if face <= 0:
        raise InputError(
            f"hole_diameter: given {hole_diameter:g} m for {holes:g} holes; expected holes that "
            "leave metal on the palm"
        )
    return face


@formula(
    ("Lapped face of the stud", 'A_"lap"', "mm²"),
    "pi d h",
    {
        "diameter": ("Diameter of the stud", "d", "mm"),
        "height": ("Length in the clamp", "h", "mm"),
    },
    _GEOMETRY,
)
def stud_face(diameter: float, height: float) -> float:
    """Contact face of a round terminal fully held by its clamp.

    A = π d h

    Args:
        diameter: Diameter of the stud [m].
        height: Length held by the clamp [m].

    Returns:
        Face [m²].

    Raises:
        InputError: an argument not above zero.

    Source: geometry — basis: exact.
    Valid for: a clamp as long as the stud.
    """
    positive(diameter=diameter, height=height)
    return math.pi * diameter * height


@formula(
    ("Resistance of the bolted joint", 'R_"j"', "µΩ"),
    "k_j rho l / A",
    {
        "joint_ratio": ("Joint over equal length of bar", "k_j", "1"),
        "resistivity": ("Resistivity of the terminal", "rho", "Ωm"),
        "length": ("Length of the lap", "l", "mm"),
        "section": ("Section of the terminal", "A", "mm²"),
    },
    cite("trade", "joint as long as its lap has 1.0 to 1.2 times the bar's resistance", "practice"),
)
def joint_resistance(
    joint_ratio: float, resistivity: float, length: float, section: float
) -> float:
    """Resistance of a sound bolted joint, as a multiple of an equal length of bar.

    R = k_j rho l/A

    Args:
        joint_ratio: 1.0 to 1.2 new, act above 2 [1].
        resistivity: Resistivity at the terminal's temperature [Ωm].
        length: Length of the lap along the current [m].
        section: Cross-section of the terminal [m²].

    Returns:
        Resistance [Ω].

    Raises:
        InputError: an argument not above zero.

    Source: habit of the trade — basis: practice.
    Valid for: clean faces, full clamping.
    """
    positive(joint_ratio=joint_ratio, resistivity=resistivity, length=length, section=section)
    return joint_ratio * resistivity * length / section


@formula(
    ("Conductance to the air", "U_A", "W/K"),
    "h A",
    {
        "coefficient": ("Film coefficient", "h", "W/m²K"),
        "area": ("Area in air", "A", "mm²"),
    },
    cite("first principles", "Newton's law of cooling", "exact"),
)
def surface_conductance(coefficient: float, area: float) -> float:
    """What a surface gives to the air per kelvin.

    U_A = h A

    Args:
        coefficient: Film coefficient, convection and radiation [W/m²K].
        area: Area in air [m²].

    Returns:
        Conductance [W/K].

    Raises:
        InputError: an argument not above zero.

    Source: Newton's law of cooling — basis: exact.
    Valid for: an isothermal surface.
    """
    positive(coefficient=coefficient, area=area)
    return coefficient * area


@formula(
    ("Film coefficient, convection and radiation", "h", "W/m²K"),
    'h_"c" + h_"r"',
    {
        "convection": ("Film coefficient of still air", 'h_"c"', "W/m²K"),
        "radiation": ("Radiation as a film coefficient", 'h_"r"', "W/m²K"),
    },
    cite("first principles", "parallel paths of heat", "exact"),
)
def combined_coefficient(convection: float, radiation: float) -> float:
    """Convection and radiation together.

    h = h_c + h_r

    Args:
        convection: Film coefficient of the air [W/m²K].
        radiation: Radiation as a film coefficient [W/m²K].

    Returns:
        Sum [W/m²K].

    Raises:
        InputError: an argument negative.

    Source: parallel paths — basis: exact.
    Valid for: air and surroundings at one temperature.
    """
    not_negative(convection=convection, radiation=radiation)
    return convection + radiation


@formula(
    ("Temperature after the rise", "theta", "°C"),
    "theta_0 + Delta T",
    {
        "before": ("Temperature before", "theta_0", "°C"),
        "rise": ("Rise", "Delta T", "K"),
    },
    cite("first principles", "definition", "exact"),
)
def warmed(before: float, rise: float) -> float:
    """A temperature after a rise.

    theta = theta_0 + Delta T

    Args:
        before: Temperature before [K].
        rise: Rise [K].

    Returns:
        Temperature [K].

    Raises:
        InputError: temperature not above absolute zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(before=before)
    return before + rise
