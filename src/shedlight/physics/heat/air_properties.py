"""Dry air by temperature and pressure: the standard atmosphere's own formulas."""

import math

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula

STANDARD_PRESSURE = 101325.0  # [Pa]
AIR_SPECIFIC_HEAT = 1006.0  # at constant pressure, -50 to 100 °C within 0.5 % [J/kgK]
_GAS_CONSTANT = 287.053  # [J/kgK]
_TEMPERATURE = ("Air temperature", "T", "°C")
_RANGE = {"temperature": (213.15, 473.15)}


@formula(
    ("Dynamic viscosity of air", "mu", "mPas"),
    '1.458 dot 10^(-6) T^(3 / 2) / (T + 110.4) thin "Pa s"',
    {"temperature": _TEMPERATURE},
    cite("US Standard Atmosphere", "viscosity after Sutherland"),
    ranges=_RANGE,
    note="Absolute temperature.",
)
def air_viscosity(temperature: float) -> float:
    """Dynamic viscosity of air.

    mu = 1.458e-6 T^1.5/(T + 110.4) Pa s, T in K

    Args:
        temperature: Air temperature [K].

    Returns:
        Dynamic viscosity [Pa s].

    Raises:
        InputError: temperature not above zero.

    Source: US Standard Atmosphere 1976 — basis: memory, high confidence.
    Valid for: -60 to 200 °C.
    """
    positive(temperature=temperature)
    return float(1.458e-6 * temperature**1.5 / (temperature + 110.4))


@formula(
    ("Thermal conductivity of air", "k", "W/mK"),
    '2.64638 dot 10^(-3) T^(3 / 2) / (T + 245.4 dot 10^(-12 slash T)) thin "W/mK"',
    {"temperature": _TEMPERATURE},
    cite("US Standard Atmosphere", "thermal conductivity"),
    ranges=_RANGE,
    note="Absolute temperature.",
)
def air_conductivity(temperature: float) -> float:
    """Thermal conductivity of air.

    k = 2.64638e-3 T^1.5/(T + 245.4 · 10^(-12/T)) W/mK, T in K

    Args:
        temperature: Air temperature [K].

    Returns:
        Thermal conductivity [W/mK].

    Raises:
        InputError: temperature not above zero.

    Source: US Standard Atmosphere 1976 — basis: memory, high confidence.
    Valid for: -60 to 200 °C.
    """
    positive(temperature=temperature)
    return float(2.64638e-3 * temperature**1.5 / (temperature + 245.4 * 10 ** (-12 / temperature)))


@formula(
    ("Density of air", "rho", "kg/m³"),
    "p / (R T)",
    {"temperature": _TEMPERATURE, "pressure": ("Air pressure", "p", "kPa")},
    cite("US Standard Atmosphere", "ideal gas, R = 287.053 J/kgK"),
)
def air_density(temperature: float, pressure: float) -> float:
    """Density of dry air.

    rho = p/(R T)

    Args:
        temperature: Air temperature [K].
        pressure: Absolute pressure [Pa].

    Returns:
        Density [kg/m³].

    Raises:
        InputError: an argument not above zero.

    Source: US Standard Atmosphere 1976 — basis: memory, high confidence.
    Valid for: dry air.
    """
    positive(temperature=temperature, pressure=pressure)
    return pressure / (_GAS_CONSTANT * temperature)


@formula(
    ("Air pressure at a height", "p", "kPa"),
    '101.325 "kPa" (1 - 0.0065 h slash 288.15 "K")^5.2559',
    {"altitude": ("Height above sea level", "h", "m")},
    cite("US Standard Atmosphere", "pressure of the troposphere"),
    ranges={"altitude": (-500.0, 11000.0)},
)
def air_pressure(altitude: float) -> float:
    """Pressure of the standard atmosphere: thinner air cools less.

    p = 101.325 kPa (1 - 0.0065 h/288.15)^5.2559

    Args:
        altitude: Height above sea level [m].

    Returns:
        Absolute pressure [Pa].

    Raises:
        InputError: altitude above the troposphere's formula.

    Source: US Standard Atmosphere 1976 — basis: memory, high confidence.
    Valid for: -500 to 11 000 m.
    """
    ratio = 1 - 0.0065 * altitude / 288.15
    positive(ratio=ratio)
    return STANDARD_PRESSURE * math.pow(ratio, 5.2559)
