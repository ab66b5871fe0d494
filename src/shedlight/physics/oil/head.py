"""Head, expansion and viscosity of the oil, and the gas cushion above it.

The head of a bushing counts from the lowest oil level with the coldest, densest oil where gas
must not collect, and from the highest level where a gasket must not leak.
"""

import math

from shedlight.errors import InputError
from shedlight.physics.domain import finite, not_negative, ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

GRAVITY = 9.80665  # [m/s²], standard acceleration of free fall
_REFERENCE = 293.15  # [K], 20 °C
_ZERO_CELSIUS = 273.15  # [K]
_PHYSICS = cite("first principles", "hydrostatics and thermal expansion", "exact")
_EXPANSION = ("Volume expansion of the oil", "beta", "1/K")
_TEMPERATURE = ("Oil temperature", "theta", "°C")
_DENSITY = ("Density of the oil", "rho", "kg/m³")
_WALTHER = cite("ASTM D341", "viscosity–temperature equation", "memory", "high")


@formula(
    _DENSITY,
    'rho_20 / (1 + beta (theta - 20 "°C"))',
    {
        "density_at_20": ("Density at 20 °C", "rho_20", "kg/m³"),
        "expansion": _EXPANSION,
        "temperature": _TEMPERATURE,
    },
    _PHYSICS,
)
def oil_density(density_at_20: float, expansion: float, temperature: float) -> float:
    """Density of the oil at a temperature.

    rho = rho_20/(1 + beta (theta - 20 °C))

    Args:
        density_at_20: Density at 20 °C [kg/m³].
        expansion: Volume expansion coefficient [1/K].
        temperature: Oil temperature [K].

    Returns:
        Density [kg/m³].

    Raises:
        InputError: density or temperature not above zero, expansion negative, oil of no volume.

    Source: first principles — basis: exact for a constant expansion coefficient.
    Valid for: liquid oil.
    """
    positive(density_at_20=density_at_20, temperature=temperature)
    not_negative(expansion=expansion)
    growth = 1 + expansion * (temperature - _REFERENCE)
    if growth <= 0:
        raise InputError(
            f"expansion: given {expansion:g} 1/K at {temperature:g} K; expected a volume above 0"
        )
    return density_at_20 / growth


@formula(
    ("Pressure of the head", "p", "kPa"),
    "rho g h",
    {"density": _DENSITY, "height": ("Height of oil above the point", "h", "mm")},
    _PHYSICS,
)
def head_pressure(density: float, height: float) -> float:
    """Pressure by which a column of oil exceeds the pressure on its surface.

    p = rho g h

    Args:
        density: Density of the oil [kg/m³].
        height: Oil level above the point; negative where the level lies below it [m].

    Returns:
        Pressure above that on the oil's surface [Pa].

    Raises:
        InputError: density not above zero, height not a finite number.

    Source: hydrostatics — basis: exact.
    Valid for: oil at rest.
    """
    positive(density=density)
    finite(height=height)
    return density * GRAVITY * height


@formula(
    ("Growth of the oil volume", "Delta V", "l"),
    "beta V Delta theta",
    {
        "volume": ("Oil volume", "V", "l"),
        "expansion": _EXPANSION,
        "temperature_change": ("Change of temperature", "Delta theta", "K"),
    },
    _PHYSICS,
)
def expanded_volume(volume: float, expansion: float, temperature_change: float) -> float:
    """Volume by which the oil grows, to be taken up by conservator, cushion or free space.

    Delta V = beta V Delta theta

    Args:
        volume: Oil volume before [m³].
        expansion: Volume expansion coefficient [1/K].
        temperature_change: Rise of temperature; negative on cooling [K].

    Returns:
        Growth of the volume; negative on cooling [m³].

    Raises:
        InputError: volume not above zero, expansion negative, change not a finite number.

    Source: thermal expansion — basis: exact for a constant expansion coefficient.
    Valid for: liquid oil.
    """
    positive(volume=volume)
    not_negative(expansion=expansion)
    finite(temperature_change=temperature_change)
    return expansion * volume * temperature_change


@formula(
    ("Kinematic viscosity", "nu", "mm²/s"),
    "10^(10^W) - 0.7, quad W = W_1 + (W_2 - W_1) lg(T / T_1) / lg(T_2 / T_1),"
    " quad W_i = lg lg(nu_i + 0.7)",
    {
        "temperature": ("Oil temperature", "T", "°C"),
        "viscosity_one": ("Viscosity at the first temperature", "nu_1", "mm²/s"),
        "temperature_one": ("First temperature", "T_1", "°C"),
        "viscosity_two": ("Viscosity at the second temperature", "nu_2", "mm²/s"),
        "temperature_two": ("Second temperature", "T_2", "°C"),
    },
    _WALTHER,
    ranges={"temperature": (243.15, 393.15)},
    note="Absolute temperatures; viscosities as numbers of mm²/s.",
)
def walther_viscosity(
    temperature: float,
    viscosity_one: float,
    temperature_one: float,
    viscosity_two: float,
    temperature_two: float,
) -> float:
    """Viscosity of an oil at any temperature, from two that its data sheet prints.

    lg lg(nu + 0.7) is a straight line in lg T (nu in mm²/s, T absolute)

    Args:
        temperature: Temperature asked for [K].
        viscosity_one: Kinematic viscosity at the first temperature [m²/s].
        temperature_one: First, lower temperature [K].
        viscosity_two: Kinematic viscosity at the second temperature [m²/s].
        temperature_two: Second, higher temperature [K].

    Returns:
        Kinematic viscosity [m²/s].

    Raises:
        InputError: temperatures not growing, viscosities not falling or below 0.4 mm²/s.

    Source: ASTM D341, Walther equation — basis: memory, high confidence.
    Valid for: mineral oils from the pour point to about 120 °C, viscosity above 2 mm²/s.
    """
    positive(temperature=temperature, temperature_one=temperature_one)
    ordered(temperature_one=temperature_one, temperature_two=temperature_two)
    ordered(least=0.4e-6, viscosity_two=viscosity_two, viscosity_one=viscosity_one)
    first, second = _ordinate(viscosity_one), _ordinate(viscosity_two)
    along = math.log(temperature / temperature_one) / math.log(temperature_two / temperature_one)
    return (10 ** (10 ** (first + (second - first) * along)) - 0.7) * 1e-6


def _ordinate(viscosity: float) -> float:
    return math.log10(math.log10(viscosity * 1e6 + 0.7))


@formula(
    ("Pressure of the gas cushion, absolute", "p", "kPa"),
    "(p_0 V_0) / (V_0 - Delta V) dot T / T_0",
    {
        "filling_pressure": ("Pressure when sealed, absolute", "p_0", "kPa"),
        "gas_volume": ("Gas volume when sealed", "V_0", "l"),
        "filling_temperature": ("Temperature when sealed", "T_0", "°C"),
        "temperature": ("Gas temperature", "T", "°C"),
        "oil_growth": ("Growth of the oil volume", "Delta V", "l"),
    },
    cite("first principles", "ideal gas law, closed cushion", "exact"),
    note="Absolute temperatures; neither gas going into solution nor the tank giving way.",
)
def sealed_gas_pressure(
    filling_pressure: float,
    gas_volume: float,
    filling_temperature: float,
    temperature: float,
    oil_growth: float,
) -> float:
    """Pressure of a sealed gas cushion as oil and gas warm or cool; it can fall below the air's.

    p = p_0 V_0/(V_0 - Delta V) · T/T_0

    Args:
        filling_pressure: Absolute pressure when the tank was sealed [Pa].
        gas_volume: Gas volume then [m³].
        filling_temperature: Gas temperature then [K].
        temperature: Gas temperature now [K].
        oil_growth: By how much the oil has grown since; negative on cooling [m³].

    Returns:
        Absolute pressure [Pa].

    Raises:
        InputError: an argument not above zero, the oil grown beyond the gas space.

    Source: ideal gas law — basis: exact for a dry ideal gas in a stiff tank.
    Valid for: sealed tanks; gas dissolving in oil lowers the true pressure swing.
    """
    positive(
        filling_pressure=filling_pressure,
        gas_volume=gas_volume,
        filling_temperature=filling_temperature,
        temperature=temperature,
    )
    finite(oil_growth=oil_growth)
    if oil_growth >= gas_volume:
        raise InputError(
            f"oil_growth: given {oil_growth:g}; expected less than gas_volume ({gas_volume:g})"
        )
    return (
        filling_pressure
        * gas_volume
        / (gas_volume - oil_growth)
        * temperature
        / filling_temperature
    )
