"""Transformer mineral oil by temperature: simple fits as used in published flow simulations.

Below 0 °C oil thickens faster than the fits know: there the law of Walther takes over, from the
viscosity at 0 °C to the greatest that the oil's standard permits at its cold-start temperature.
"""

import math

from shedlight.physics.domain import positive
from shedlight.sources import Citation, cite
from shedlight.trace import formula

_TEMPERATURE = {"temperature": ("Oil temperature", "T", "°C")}
_RANGE = {"temperature": (273.15, 373.15)}
FREEZING = 273.15  # [K]
_COLD_START, _COLD_START_VISCOSITY = 243.15, 1800.0  # IEC 60296: at most so at -30 °C [K, mm²/s]
_FIT: Citation = cite("Oil fits", "polynomials in absolute temperature", "memory", "medium")


@formula(
    ("Oil density", "rho", "kg/m³"),
    "1067.75 - 0.6376 thin T",
    _TEMPERATURE,
    _FIT,
    ranges=_RANGE,
    note="Absolute temperature.",
)
def oil_density(temperature: float) -> float:
    """Density of transformer mineral oil for heat transfer; for the oil head see the oil room.

    rho = 1067.75 - 0.6376 T kg/m³, T in K

    Args:
        temperature: Oil temperature [K].

    Returns:
        Density [kg/m³].

    Raises:
        InputError: temperature not above zero.

    Source: fit used in published transformer flow simulations — basis: memory, medium confidence.
    Valid for: 0 to 100 °C.
    """
    positive(temperature=temperature)
    return 1067.75 - 0.6376 * temperature


@formula(
    ("Oil specific heat", "c", "J/kgK"),
    "821.19 + 3.563 thin T",
    _TEMPERATURE,
    _FIT,
    ranges=_RANGE,
    note="Absolute temperature.",
)
def oil_specific_heat(temperature: float) -> float:
    """Specific heat of transformer mineral oil.

    c = 821.19 + 3.563 T J/kgK, T in K

    Args:
        temperature: Oil temperature [K].

    Returns:
        Specific heat [J/kgK].

    Raises:
        InputError: temperature not above zero.

    Source: fit used in published transformer flow simulations — basis: memory, medium confidence.
    Valid for: 0 to 100 °C.
    """
    positive(temperature=temperature)
    return 821.19 + 3.563 * temperature


@formula(
    ("Oil thermal conductivity", "k", "W/mK"),
    "0.1509 - 7.101 dot 10^(-5) thin T",
    _TEMPERATURE,
    _FIT,
    ranges=_RANGE,
    note="Absolute temperature.",
)
def oil_conductivity(temperature: float) -> float:
    """Thermal conductivity of transformer mineral oil.

    k = 0.1509 - 7.101e-5 T W/mK, T in K

    Args:
        temperature: Oil temperature [K].

    Returns:
        Thermal conductivity [W/mK].

    Raises:
        InputError: temperature not above zero.

    Source: fit used in published transformer flow simulations — basis: memory, medium confidence.
    Valid for: 0 to 100 °C.
    """
    positive(temperature=temperature)
    return 0.1509 - 7.101e-5 * temperature


@formula(
    ("Oil viscosity", "mu", "mPas"),
    '(0.08467 - 4 dot 10^(-4) thin T + 5 dot 10^(-7) thin T^2) "Pa s"',
    _TEMPERATURE,
    _FIT,
    ranges={"temperature": (273.15, 353.15)},
    note="Absolute temperature; too thick above 60 °C.",
)
def oil_viscosity(temperature: float) -> float:
    """Dynamic viscosity of transformer mineral oil.

    mu = 0.08467 - 4.0e-4 T + 5e-7 T² Pa s, T in K

    Args:
        temperature: Oil temperature [K].

    Returns:
        Dynamic viscosity [Pa s].

    Raises:
        InputError: temperature not above zero.

    Source: fit used in published transformer flow simulations — basis: memory, medium confidence.
    Valid for: 0 to 80 °C; too thick above 60 °C.
    """
    positive(temperature=temperature)
    return 0.08467 - 4.0e-4 * temperature + 5e-7 * temperature**2


@formula(
    ("Prandtl number", '"Pr"', "1"),
    "(mu c) / k",
    {
        "viscosity": ("Dynamic viscosity", "mu", "mPas"),
        "specific_heat": ("Specific heat", "c", "J/kgK"),
        "conductivity": ("Thermal conductivity", "k", "W/mK"),
    },
    cite("first principles", "definition", "exact"),
)
def prandtl(viscosity: float, specific_heat: float, conductivity: float) -> float:
    """How much faster a fluid passes on motion than heat.

    Pr = mu c/k

    Args:
        viscosity: Dynamic viscosity [Pa s].
        specific_heat: Specific heat [J/kgK].
        conductivity: Thermal conductivity [W/mK].

    Returns:
        Prandtl number [1].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any fluid.
    """
    positive(viscosity=viscosity, specific_heat=specific_heat, conductivity=conductivity)
    return viscosity * specific_heat / conductivity


@formula(
    ("Oil viscosity", "mu", "mPas"),
    '1.3573 dot 10^(-6) exp(2797.3 / T) thin "Pa s"',
    _TEMPERATURE,
    cite("Susa", "viscosity of transformer mineral oil", "memory", "medium"),
    ranges={"temperature": (273.15, 393.15)},
    note="Absolute temperature; good at operating temperature, where the polynomial is too thick.",
)
def oil_viscosity_hot(temperature: float) -> float:
    """Dynamic viscosity of transformer mineral oil, right also when hot.

    mu = 1.3573e-6 exp(2797.3/T) Pa s, T in K

    Args:
        temperature: Oil temperature [K].

    Returns:
        Dynamic viscosity [Pa s].

    Raises:
        InputError: temperature not above zero.

    Source: Susa, Lehtonen, Nordman (2005) — basis: memory, medium confidence.
    Valid for: 0 to 120 °C.
    """
    positive(temperature=temperature)
    return 1.3573e-6 * math.exp(2797.3 / temperature)


def _walther(viscosity: float) -> float:
    """The ordinate on which the law is straight, of a kinematic viscosity [mm²/s]."""
    return math.log10(math.log10(viscosity + 0.7))


_ZERO_VISCOSITY = 1e6 * oil_viscosity_hot(FREEZING) / oil_density(FREEZING)  # [mm²/s]
_STEEPNESS = (_walther(_COLD_START_VISCOSITY) - _walther(_ZERO_VISCOSITY)) / (
    math.log10(FREEZING) - math.log10(_COLD_START)
)


@formula(
    ("Oil viscosity", "mu", "mPas"),
    'rho nu, quad lg lg (nu + 0.7) = lg lg (nu_0 + 0.7) - B lg(T / T_0), quad nu (-30 "°C") = 1800',
    {
        "temperature": ("Oil temperature", "T", "°C"),
        "density": ("Oil density", "rho", "kg/m³"),
    },
    cite(
        "ASTM D341",
        "equation of Walther; IEC 60296: at most 1800 mm²/s at -30 °C",
        "memory",
        "medium",
    ),
    ranges={"temperature": (_COLD_START, FREEZING)},
    note="Absolute temperature, kinematic viscosity in mm²/s; as thick as the standard permits.",
)
def oil_viscosity_cold(temperature: float, density: float) -> float:
    """Dynamic viscosity of transformer mineral oil in the cold, as thick as its standard permits.

    lg lg (nu + 0.7) straight over lg T, through nu at 0 °C and 1800 mm²/s at -30 °C; mu = rho nu

    Args:
        temperature: Oil temperature [K].
        density: Oil density [kg/m³].

    Returns:
        Dynamic viscosity [Pa s].

    Raises:
        InputError: an argument not above zero.

    Source: ASTM D341; IEC 60296, lowest cold-start temperature -30 °C — basis: memory, medium.
    Valid for: -30 to 0 °C; colder the oil nears its pour point and may not flow at all.
    """
    positive(temperature=temperature, density=density)
    straight = _walther(_ZERO_VISCOSITY) + _STEEPNESS * math.log10(FREEZING / temperature)
    viscosity: float = 10.0 ** (10.0**straight) - 0.7
    return 1e-6 * viscosity * density
