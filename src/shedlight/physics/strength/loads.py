"""Loads from outside: wind, ice, short-circuit forces, a heavier top on a springy base."""

import math

from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

MAGNETIC = 2e-7  # mu_0/(2 pi) [N/A²]

_FORCE = ("Force", "F", "N")
_LENGTH = ("Length of conductor", "l", "m")
_SPACING = ("Distance between conductors", "a", "mm")


@formula(
    ("Wind pressure", "q", "Pa"),
    "rho / 2 v^2",
    {
        "wind_speed": ("Wind speed", "v", "m/s"),
        "air_density": ("Density of air", "rho", "kg/m³"),
    },
    cite("first principles", "stagnation pressure", "exact"),
)
def wind_pressure(wind_speed: float, air_density: float) -> float:
    """Stagnation pressure of the wind.

    q = rho v²/2

    Args:
        wind_speed: Wind speed [m/s].
        air_density: 1.225 at sea level and 15 °C [kg/m³].

    Returns:
        Pressure [Pa].

    Raises:
        InputError: wind speed negative, density not above zero.

    Source: Bernoulli — basis: exact.
    Valid for: any wind.
    """
    not_negative(wind_speed=wind_speed)
    positive(air_density=air_density)
    return air_density * wind_speed**2 / 2


@formula(
    ("Weight of ice per length", "w", "N/m"),
    "rho g pi t (D + t)",
    {
        "thickness": ("Thickness of ice", "t", "mm"),
        "diameter": ("Diameter under the ice", "D", "mm"),
        "ice_density": ("Density of ice", "rho", "kg/m³"),
    },
    cite("IEC 62271-1", "ice classes 1, 10, 20 mm at 900 kg/m³"),
    ranges={"thickness": (0.0, 0.02)},
)
def ice_weight(thickness: float, diameter: float, ice_density: float) -> float:
    """Weight of an even coat of ice on a metre of round body.

    w = rho g pi t (D + t)

    Args:
        thickness: Thickness of ice [m].
        diameter: Diameter under the ice [m].
        ice_density: 900 by convention [kg/m³].

    Returns:
        Weight per length [N/m].

    Raises:
        InputError: an argument negative.

    Source: IEC 62271-1, ice classes — basis: memory, high confidence.
    Valid for: up to 20 mm.
    """
    not_negative(thickness=thickness, diameter=diameter, ice_density=ice_density)
    return ice_density * 9.80665 * math.pi * thickness * (diameter + thickness)


@formula(
    _FORCE,
    "mu_0 / (2 pi) i^2 l / a",
    {
        "peak_current": ("Peak of the current in both", "i", "kA"),
        "length": _LENGTH,
        "spacing": _SPACING,
    },
    cite("first principles", "force between parallel conductors", "exact"),
)
def pair_force(peak_current: float, length: float, spacing: float) -> float:
    """Peak force between two parallel conductors that carry one current there and back.

    F = mu_0/(2 pi) · i² l/a

    Args:
        peak_current: Peak of the current [A].
        length: Length that acts on the terminal [m].
        spacing: Distance between the conductors [m].

    Returns:
        Force, apart [N].

    Raises:
        InputError: current or length negative, spacing not above zero.

    Source: Ampère's law — basis: exact.
    Valid for: lengths well above the spacing.
    """
    not_negative(peak_current=peak_current, length=length)
    positive(spacing=spacing)
    return MAGNETIC * peak_current**2 * length / spacing


@formula(
    _FORCE,
    "mu_0 / (2 pi) sqrt(3) / 2 i_3^2 l / a",
    {
        "peak_current": ("Peak of the three-phase short-circuit current", "i_3", "kA"),
        "length": _LENGTH,
        "spacing": _SPACING,
    },
    cite("IEC 60865-1", "force on the central main conductor, three-phase"),
)
def three_phase_force(peak_current: float, length: float, spacing: float) -> float:
    """Peak force on the middle one of three conductors in a row, three-phase short circuit.

    F = mu_0/(2 pi) · sqrt(3)/2 · i² l/a

    Args:
        peak_current: Peak of the three-phase short-circuit current [A].
        length: Length that acts on the terminal [m].
        spacing: Distance between neighbours [m].

    Returns:
        Force [N].

    Raises:
        InputError: current or length negative, spacing not above zero.

    Source: IEC 60865-1 — basis: memory, high confidence.
    Valid for: lengths well above the spacing; vibration comes on top.
    """
    return math.sqrt(3) / 2 * pair_force(peak_current, length, spacing)


@formula(
    ("Natural frequency with a mass on top", "f", "Hz"),
    "1 / (2 pi) sqrt((3 E J) / (L^3 (m_t + 33 / 140 m' L)))",
    {
        "elastic_modulus": ("Elastic modulus", "E", "GPa"),
        "second_moment": ("Second moment of area", "J", "cm⁴"),
        "mass_per_length": ("Mass per length", "m'", "kg/m"),
        "length": ("Free length", "L", "m"),
        "top_mass": ("Mass on top", "m_t", "kg"),
    },
    cite("Timoshenko", "Rayleigh's estimate of a cantilever with a tip mass", "exact"),
)
def natural_frequency_with_top(
    elastic_modulus: float,
    second_moment: float,
    mass_per_length: float,
    length: float,
    top_mass: float,
) -> float:
    """Lowest natural frequency of a bushing with a heavy top, on a stiff cover.

    f = 1/(2 pi) · sqrt(3 E J/(L³ (m_t + 33/140 m' L)))

    Args:
        elastic_modulus: Of the body [Pa].
        second_moment: Of the section [m⁴].
        mass_per_length: With oil and sheds [kg/m].
        length: Free length above the cover [m].
        top_mass: Mass of cap and terminal [kg].

    Returns:
        Frequency, at most 2 % above the true one [Hz].

    Raises:
        InputError: top mass negative, another argument not above zero.

    Source: Rayleigh's estimate — basis: exact to 2 %.
    Valid for: slender bodies.
    """
    not_negative(top_mass=top_mass)
    positive(
        elastic_modulus=elastic_modulus,
        second_moment=second_moment,
        mass_per_length=mass_per_length,
        length=length,
    )
    mass = top_mass + 33 / 140 * mass_per_length * length
    return math.sqrt(3 * elastic_modulus * second_moment / (length**3 * mass)) / (2 * math.pi)


@formula(
    ("Natural frequency of both together", "f", "Hz"),
    "(1 / f_1^2 + 1 / f_2^2)^(-1 / 2)",
    {
        "one": ("Natural frequency of one alone", "f_1", "Hz"),
        "other": ("Natural frequency of the other alone", "f_2", "Hz"),
    },
    cite("Timoshenko", "Dunkerley's rule", "exact"),
    note="Never above the true frequency.",
)
def combined_frequency(one: float, other: float) -> float:
    """Natural frequency when the body bends and its base rocks.

    1/f² = 1/f1² + 1/f2²

    Args:
        one: Natural frequency with a stiff base [Hz].
        other: Natural frequency of a stiff body on the springy base [Hz].

    Returns:
        Frequency, on the low side [Hz].

    Raises:
        InputError: an argument not above zero.

    Source: Dunkerley's rule — basis: exact as a lower bound.
    Valid for: two flexibilities in series.
    """
    positive(one=one, other=other)
    return 1 / math.hypot(1 / one, 1 / other)
