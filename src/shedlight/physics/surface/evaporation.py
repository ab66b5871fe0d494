"""Water that leaves a warm layer, and the heat that leaves with it."""

import numpy as np
from numpy.typing import NDArray

from shedlight.physics.domain import not_negative, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

Array = NDArray[np.float64]

_ZERO_CELSIUS = 273.15  # [K]
GAS_CONSTANT_OF_VAPOUR = 461.5  # [J/kgK]
AIR_HEAT = 1207.0  # density times specific heat of air near 20 °C [J/m³K]
LEWIS = 0.87  # thermal over mass diffusivity of vapour in air
MAGNUS = (611.2, 17.62, 243.12)  # [Pa], [1], [K]


@formula(
    ("Density of saturated vapour", "rho_s", "kg/m³"),
    '(611.2 "Pa" thin upright(e)^(17.62 t slash (243.12 + t))) / (461.5 "J/kgK" T)',
    {"temperature": ("Temperature", "T", "°C")},
    cite("WMO 8", "saturation over water, Magnus form", "memory", "high"),
    ranges={"temperature": (228.15, 373.15)},
    note="t in °C; T in kelvin.",
)
def saturated_vapour(temperature: float) -> float:
    """Water vapour that saturated air holds.

    rho_s = 611.2 Pa exp(17.62 t/(243.12 + t))/(R_v T), t in °C

    Args:
        temperature: Temperature [K].

    Returns:
        Vapour density [kg/m³].

    Raises:
        InputError: temperature outside -60 to 110 °C.

    Source: WMO No. 8 — basis: memory, high confidence.
    Valid for: -45 to 60 °C; 1 % at 100 °C.
    """
    within(_ZERO_CELSIUS - 60, _ZERO_CELSIUS + 110, temperature=temperature)
    return float(vapour_densities(np.array([temperature]))[0])


def vapour_densities(temperatures: Array) -> Array:
    """The same for many places at once.

    Args:
        temperatures: Temperatures [K].

    Returns:
        Vapour densities [kg/m³].

    Source: as :func:`saturated_vapour` — basis: memory, high confidence.
    """
    celsius = temperatures - _ZERO_CELSIUS
    pressure = MAGNUS[0] * np.exp(MAGNUS[1] * celsius / (MAGNUS[2] + celsius))
    return np.asarray(pressure / (GAS_CONSTANT_OF_VAPOUR * temperatures), dtype=np.float64)


def vapour_slopes(temperatures: Array) -> Array:
    """How saturated vapour grows with temperature.

    Args:
        temperatures: Temperatures [K].

    Returns:
        Slopes [kg/m³K].

    Source: derivative of :func:`saturated_vapour` — basis: exact.
    """
    celsius = temperatures - _ZERO_CELSIUS
    steep = MAGNUS[1] * MAGNUS[2] / (MAGNUS[2] + celsius) ** 2 - 1 / temperatures
    return np.asarray(vapour_densities(temperatures) * steep, dtype=np.float64)


@formula(
    ("Mass transfer coefficient", "h_m", "m/s"),
    'h / (rho c_p "Le"^(2 slash 3))',
    {"heat_transfer": ("Heat transfer coefficient", "h", "W/m²K")},
    cite("Incropera", "analogy of heat and mass transfer (Chilton and Colburn)", "memory", "high"),
    note="rho c_p = 1207 J/m³K and Le = 0.87, vapour in air near 20 °C.",
)
def mass_transfer(heat_transfer: float) -> float:
    """How easily vapour leaves a surface, from how easily heat does.

    h_m = h/(rho c_p Le^(2/3))

    Args:
        heat_transfer: Convective heat transfer coefficient [W/m²K].

    Returns:
        Mass transfer coefficient [m/s].

    Raises:
        InputError: heat transfer not above zero.

    Source: Incropera, DeWitt — basis: memory, high confidence.
    Valid for: air near room temperature.
    """
    positive(heat_transfer=heat_transfer)
    return float(heat_transfer / (AIR_HEAT * LEWIS ** (2 / 3)))


@formula(
    ("Relative humidity by the psychrometer", "phi", "%"),
    "rho_s (T_w) T_w / (rho_s (T) T) - (A p (T - T_w)) / (R_v rho_s (T) T),"
    ' quad A = 6.53 dot 10^(-4) (1 + 9.44 dot 10^(-4) t_w) thin "1/K"',
    {
        "air_temperature": ("Temperature of the air", "T", "°C"),
        "wet_temperature": ("Temperature of the wet bulb", "T_w", "°C"),
    },
    cite("WMO 8", "equation of the aspirated psychrometer over water", "memory", "high"),
    ranges={"wet_temperature": (273.15, 313.15)},
    note="p = 101.325 kPa; the vapour pressures are rho_s R_v T.",
)
def psychrometer_humidity(air_temperature: float, wet_temperature: float) -> float:
    """Humidity of air in which an aspirated wet bulb settles at some temperature.

    phi = (e_s(T_w) - A p (T - T_w))/e_s(T), A = 6.53e-4 (1 + 9.44e-4 t_w) per kelvin

    Args:
        air_temperature: Of the air [K].
        wet_temperature: Of the wet bulb [K].

    Returns:
        Relative humidity [1].

    Raises:
        InputError: the wet bulb warmer than the air, or a temperature out of range.

    Source: WMO No. 8 — basis: memory, high confidence.
    Valid for: near 1013 hPa, ventilated with 2.5 m/s or more, above freezing.
    """
    not_negative(cooling=air_temperature - wet_temperature)
    wet, dry = (
        saturated_vapour(t) * GAS_CONSTANT_OF_VAPOUR * t for t in (wet_temperature, air_temperature)
    )
    coefficient = 6.53e-4 * (1 + 9.44e-4 * (wet_temperature - _ZERO_CELSIUS))
    return (wet - coefficient * 101325.0 * (air_temperature - wet_temperature)) / dry
