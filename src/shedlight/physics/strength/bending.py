"""Porcelain and conductor as a beam and as a pressed tube."""

import math

from shedlight.physics.domain import finite, not_negative, ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

_OUTER = ("Outer diameter", "D", "mm")
_INNER = ("Inner diameter", "d", "mm")
_TUBE = {"outer_diameter": _OUTER, "inner_diameter": _INNER}
_PRESSURE_TUBE = {"pressure": ("Gauge pressure inside", "p", "kPa"), **_TUBE}
_MODULUS = ("Section modulus", "Z", "cm³")
_MOMENT = ("Bending moment", "M", "Nm")


def _tube(outer_diameter: float, inner_diameter: float) -> None:
    not_negative(inner_diameter=inner_diameter)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)


@formula(
    _MODULUS,
    "pi (D^4 - d^4) / (32 D)",
    _TUBE,
    cite("Timoshenko", "bending of a circular ring section", "exact"),
)
def section_modulus_tube(outer_diameter: float, inner_diameter: float) -> float:
    """Section modulus of a tube against bending.

    Z = pi (D⁴ - d⁴)/(32 D)

    Args:
        outer_diameter: Outer diameter [m].
        inner_diameter: Inner diameter; 0 is a rod [m].

    Returns:
        Section modulus [m³].

    Raises:
        InputError: inner diameter negative or not below the outer one.

    Source: Timoshenko and Goodier — basis: exact.
    Valid for: any tube.
    """
    _tube(outer_diameter, inner_diameter)
    return math.pi * (outer_diameter**4 - inner_diameter**4) / (32 * outer_diameter)


@formula(
    ("Second moment of area", "J", "cm⁴"),
    "pi / 64 (D^4 - d^4)",
    _TUBE,
    cite("Timoshenko", "bending of a circular ring section", "exact"),
)
def second_moment_tube(outer_diameter: float, inner_diameter: float) -> float:
    """Second moment of area of a tube.

    J = pi (D⁴ - d⁴)/64

    Args:
        outer_diameter: Outer diameter [m].
        inner_diameter: Inner diameter; 0 is a rod [m].

    Returns:
        Second moment of area [m⁴].

    Raises:
        InputError: inner diameter negative or not below the outer one.

    Source: Timoshenko and Goodier — basis: exact.
    Valid for: any tube.
    """
    _tube(outer_diameter, inner_diameter)
    return math.pi / 64 * (outer_diameter**4 - inner_diameter**4)


@formula(
    _MOMENT,
    "F a",
    {"force": ("Force at right angles to the axis", "F", "N"), "lever": ("Lever", "a", "mm")},
    cite("first principles", "statics", "exact"),
)
def bending_moment(force: float, lever: float) -> float:
    """Moment of a load at the terminal about the section looked at.

    M = F a

    Args:
        force: Force at right angles to the axis [N].
        lever: From the load to the section [m].

    Returns:
        Bending moment [Nm].

    Raises:
        InputError: an argument negative.

    Source: statics — basis: exact.
    Valid for: any.
    """
    not_negative(force=force, lever=lever)
    return force * lever


@formula(
    ("Bending stress", "sigma", "MPa"),
    "M / Z",
    {"moment": _MOMENT, "section_modulus": _MODULUS},
    cite("Timoshenko", "pure bending", "exact"),
)
def bending_stress(moment: float, section_modulus: float) -> float:
    """Highest tensile stress of a section that is bent.

    sigma = M/Z

    Args:
        moment: Bending moment [Nm].
        section_modulus: Of the section [m³].

    Returns:
        Stress in the outermost fibre [Pa].

    Raises:
        InputError: moment negative, section modulus not above zero.

    Source: Timoshenko and Goodier — basis: exact.
    Valid for: slender beams; local stress at clamps comes on top.
    """
    not_negative(moment=moment)
    positive(section_modulus=section_modulus)
    return moment / section_modulus


@formula(
    ("Hoop stress at the bore", "sigma_t", "MPa"),
    "p (D^2 + d^2) / (D^2 - d^2)",
    _PRESSURE_TUBE,
    cite("Timoshenko", "Lamé's thick tube, pressure inside", "exact"),
)
def lame_hoop_at_bore(pressure: float, outer_diameter: float, inner_diameter: float) -> float:
    """Tension round the bore of a tube under pressure inside.

    sigma_t = p (D² + d²)/(D² - d²)

    Args:
        pressure: Gauge pressure inside; negative below the outside pressure [Pa].
        outer_diameter: Outer diameter [m].
        inner_diameter: Inner diameter [m].

    Returns:
        Hoop stress, tension positive [Pa].

    Raises:
        InputError: pressure not finite, inner diameter negative or not below the outer one.

    Source: Lamé, in Timoshenko and Goodier — basis: exact.
    Valid for: away from the ends.
    """
    finite(pressure=pressure)
    _tube(outer_diameter, inner_diameter)
    outer, inner = outer_diameter**2, inner_diameter**2
    return pressure * (outer + inner) / (outer - inner)


@formula(
    ("Axial stress from pressure", "sigma_z", "MPa"),
    "p d^2 / (D^2 - d^2)",
    _PRESSURE_TUBE,
    cite("Timoshenko", "closed thick tube, pressure inside", "exact"),
)
def axial_pressure_stress(pressure: float, outer_diameter: float, inner_diameter: float) -> float:
    """Tension along a closed tube under pressure inside.

    sigma_z = p d²/(D² - d²)

    Args:
        pressure: Gauge pressure inside; negative below the outside pressure [Pa].
        outer_diameter: Outer diameter [m].
        inner_diameter: Inner diameter [m].

    Returns:
        Axial stress, tension positive [Pa].

    Raises:
        InputError: pressure not finite, inner diameter negative or not below the outer one.

    Source: Timoshenko and Goodier — basis: exact.
    Valid for: away from the ends; none if a tie through the bore carries the end load.
    """
    finite(pressure=pressure)
    _tube(outer_diameter, inner_diameter)
    return pressure * inner_diameter**2 / (outer_diameter**2 - inner_diameter**2)


@formula(
    ("Moment that opens the joint", "M_0", "Nm"),
    "F Z / A",
    {
        "clamp_force": ("Clamping force along the axis", "F", "kN"),
        "section_modulus": _MODULUS,
        "area": ("Ring area of the joint", "A", "cm²"),
    },
    cite("first principles", "kern of the joint's section", "exact"),
)
def opening_moment(clamp_force: float, section_modulus: float, area: float) -> float:
    """Bending moment at which one side of a clamped joint loses its pressure.

    M = F Z/A

    Args:
        clamp_force: Clamping force along the axis [N].
        section_modulus: Of the ring that bears [m³].
        area: Of the ring that bears [m²].

    Returns:
        Bending moment [Nm].

    Raises:
        InputError: clamping force negative, another argument not above zero.

    Source: kern of the joint's section — basis: exact.
    Valid for: stiff faces.
    """
    not_negative(clamp_force=clamp_force)
    positive(section_modulus=section_modulus, area=area)
    return clamp_force * section_modulus / area


@formula(
    ("Lowest natural frequency", "f_1", "Hz"),
    "1.8751^2 / (2 pi L^2) sqrt((E J) / m')",
    {
        "elastic_modulus": ("Elastic modulus", "E", "GPa"),
        "second_moment": ("Second moment of area", "J", "cm⁴"),
        "mass_per_length": ("Mass per length", "m'", "kg/m"),
        "length": ("Free length", "L", "m"),
    },
    cite("Timoshenko", "cantilever after Euler and Bernoulli", "exact"),
)
def natural_frequency(
    elastic_modulus: float, second_moment: float, mass_per_length: float, length: float
) -> float:
    """Lowest natural frequency of a bushing taken as an even cantilever on a stiff cover.

    f = 1.8751²/(2 pi L²) · sqrt(E J/m')

    Args:
        elastic_modulus: Of the body [Pa].
        second_moment: Of the section [m⁴].
        mass_per_length: With oil and sheds [kg/m].
        length: Free length above the cover [m].

    Returns:
        Frequency [Hz].

    Raises:
        InputError: an argument not above zero.

    Source: Euler and Bernoulli; 1.8751 is the first root of cos x cosh x = -1 — basis: exact.
    Valid for: slender bodies, stiff base.
    """
    positive(
        elastic_modulus=elastic_modulus,
        second_moment=second_moment,
        mass_per_length=mass_per_length,
        length=length,
    )
    stiffness = math.sqrt(elastic_modulus * second_moment / mass_per_length)
    return 1.875104068711961**2 / (2 * math.pi * length**2) * stiffness


@formula(
    ("Wind force", "F", "N"),
    "q C_d D L",
    {
        "wind_pressure": ("Wind pressure", "q", "Pa"),
        "drag": ("Drag coefficient", "C_d", "1"),
        "diameter": ("Diameter of the envelope", "D", "mm"),
        "length": ("Length in the wind", "L", "m"),
    },
    cite("first principles", "definition of the drag coefficient", "exact"),
)
def wind_pressure_force(wind_pressure: float, drag: float, diameter: float, length: float) -> float:
    """Force of the wind on a housing, acting at half its length.

    F = q C_d D L

    Args:
        wind_pressure: Stagnation pressure; 700 Pa is the usual design value [Pa].
        drag: 0.7 to 1.2 for round bodies with sheds [1].
        diameter: Diameter of the envelope [m].
        length: Length in the wind [m].

    Returns:
        Force [N].

    Raises:
        InputError: an argument negative.

    Source: definition of the drag coefficient — basis: exact.
    Valid for: any.
    """
    not_negative(wind_pressure=wind_pressure, drag=drag, diameter=diameter, length=length)
    return wind_pressure * drag * diameter * length
