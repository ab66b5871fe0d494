"""A short circuit in a thick rod: the skin heats first, and within seconds the core follows.

Between two closed forms - no flow of heat inside (skin effect at its worst) and perfect mixing
(mean temperature) - this follows the radial flow itself.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import solve_banded
from scipy.special import jve

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

Array = NDArray[np.float64]

_ZERO_CELSIUS = 273.15  # [K]
_BOILED = 10.0  # e^10 times the temperature before [1]


@formula(
    ("Mean temperature after", 'theta_"f"', "°C"),
    '(theta_"i" + beta) exp((I_"th"^2 t thin k_"s") / (K^2 S^2)) - beta',
    {
        "short_time_current": ("Short-time current, rms", 'I_"th"', "kA"),
        "duration": ("Duration", "t", "s"),
        "section": ("Cross-section", "S", "mm²"),
        "skin_ratio": ("Skin effect ratio", 'k_"s"', "1"),
        "adiabatic_constant": ("Adiabatic constant of the metal", "K", "A√s/mm²"),
        "beta": ("Inverse of the resistance coefficient at 0 °C", "beta", "K"),
        "initial": ("Temperature before", 'theta_"i"', "°C"),
    },
    cite("IEC 60949", "adiabatic formula with the alternating-current resistance", "exact"),
    ranges={"duration": (0.1, 5.0)},
    note="The skin effect of the temperature before; it lessens as the metal warms: safe side.",
)
def adiabatic_temperature_with_skin(
    short_time_current: float,
    duration: float,
    section: float,
    skin_ratio: float,
    adiabatic_constant: float,
    beta: float,
    initial: float,
) -> float:
    """Mean temperature of a conductor after a short circuit, with its alternating resistance.

    theta_f = (theta_i + beta) exp(I_th² t k_s/(K² S²)) - beta, theta in °C

    Args:
        short_time_current: Short-time current, rms [A].
        duration: Duration [s].
        section: Cross-section [m²].
        skin_ratio: Skin effect ratio at the temperature before [1].
        adiabatic_constant: K of the metal [A √s/m²].
        beta: Inverse of the temperature coefficient of resistance at 0 °C [K].
        initial: Temperature before [K].

    Returns:
        Mean temperature [K].

    Raises:
        InputError: current or duration negative, ratio below 1, another argument not above zero,
            or heat that leaves no metal.

    Source: IEC 60949, energy balance with R_ac — basis: exact for the mean temperature.
    Valid for: short circuits of some seconds.
    """
    not_negative(short_time_current=short_time_current, duration=duration)
    positive(section=section, adiabatic_constant=adiabatic_constant, beta=beta, initial=initial)
    within(1.0, math.inf, skin_ratio=skin_ratio)
    offset = beta - _ZERO_CELSIUS
    growth = (short_time_current / (adiabatic_constant * section)) ** 2 * duration * skin_ratio
    if growth > _BOILED:
        raise InputError(
            f"short_time_current: given {short_time_current:g} A; no metal of this section is left"
        )
    return (initial + offset) * math.exp(growth) - offset


@dataclass(frozen=True)
class ShortCircuitRise:
    """Temperatures of a rod at the end of a short circuit [K]."""

    surface: float
    mean: float
    centre: float


def rod_after_short_circuit(
    short_time_current: float,
    duration: float,
    radius: float,
    skin_depth: float,
    resistivity: float,
    temperature_coefficient: float,
    volumetric_heat: float,
    conductivity: float,
    initial: float,
    rings: int = 80,
    steps: int = 200,
) -> ShortCircuitRise:
    """Temperature across a round rod at the end of a short circuit, heat flowing inward.

    c dT/dt = (1/r) d/dr(r k dT/dr) + rho(T) |J(r)|², J by Bessel functions, no heat outward

    Args:
        short_time_current: Short-time current, rms [A].
        duration: Duration, above zero [s].
        radius: Rod radius [m].
        skin_depth: At the temperature before [m].
        resistivity: At the temperature before [Ωm].
        temperature_coefficient: Of the resistivity, over its value before [1/K].
        volumetric_heat: Heat per volume and kelvin [J/m³K].
        conductivity: Thermal conductivity [W/mK].
        initial: Temperature before, even over the section [K].
        rings: Rings of equal width.
        steps: Steps of time.

    Returns:
        Surface, mean and centre.

    Raises:
        InputError: current or coefficient negative, fewer than 8 rings or steps, another
            argument not above zero.

    Source: Rosa and Grover (current), Carslaw and Jaeger (heat), finite volumes — basis: exact
        for the density of current that the rod had before it warmed.
    Valid for: seconds, too short for heat to leave the rod.
    """
    not_negative(
        short_time_current=short_time_current, temperature_coefficient=temperature_coefficient
    )
    positive(
        duration=duration,
        radius=radius,
        skin_depth=skin_depth,
        resistivity=resistivity,
        volumetric_heat=volumetric_heat,
        conductivity=conductivity,
        initial=initial,
    )
    if rings < 8 or steps < 8:
        raise InputError(f"rings, steps: given {rings}, {steps}; expected at least 8 of each")
    borders = np.linspace(0.0, radius, rings + 1)
    areas = np.pi * np.diff(borders**2)
    density = _density(borders, areas, skin_depth) * short_time_current
    heating = resistivity * density**2 * areas
    link = 2 * np.pi * borders[1:-1] * conductivity / (radius / rings)
    step = duration / steps
    diagonal = volumetric_heat * areas / step - heating * temperature_coefficient
    diagonal[:-1] += link
    diagonal[1:] += link
    bands = np.zeros((3, rings))
    bands[0, 1:], bands[1], bands[2, :-1] = -link, diagonal, -link
    rise: Array = np.zeros(rings)
    for _ in range(steps):
        rise = solve_banded((1, 1), bands, volumetric_heat * areas / step * rise + heating)
    mean = float(np.sum(areas * rise) / np.sum(areas))
    surface = float(rise[-1] + (rise[-1] - rise[-2]) / 8)
    centre = float(rise[0] + (rise[0] - rise[1]) / 8)
    return ShortCircuitRise(initial + surface, initial + mean, initial + centre)


def _density(borders: Array, areas: Array, skin_depth: float) -> Array:
    """Current density per ampere, rms, in every ring [1/m²]."""
    middles = np.sqrt((borders[1:] ** 2 + borders[:-1] ** 2) / 2)
    wave = (1 - 1j) / skin_depth
    # Scaled Bessel functions leave out exp(|Im z|); it comes back relative to the surface.
    grown = np.exp((middles - borders[-1]) / skin_depth)
    profile = jve(0, wave * middles) * grown
    total = np.sum(profile * areas)
    magnitude: Array = np.abs(profile / total)
    return magnitude


@formula(
    ("First peak of the short-circuit current", 'i_"p"', "kA"),
    'I_"th" dot i_"p" slash I',
    {
        "short_time_current": ("Short-time current, rms", 'I_"th"', "kA"),
        "ratio": ("Peak over rms short-circuit current", 'i_"p" slash I', "1"),
    },
    cite("IEC 60909", "peak short-circuit current"),
)
def peak_current(short_time_current: float, ratio: float) -> float:
    """First peak of the short-circuit current, which decides the forces.

    i_p = I_th · (i_p/I)

    Args:
        short_time_current: Rms [A].
        ratio: Peak over rms [1].

    Returns:
        Peak [A].

    Raises:
        InputError: an argument negative.

    Source: IEC 60909-0 — basis: memory, high confidence.
    Valid for: any network.
    """
    not_negative(short_time_current=short_time_current, ratio=ratio)
    return short_time_current * ratio
