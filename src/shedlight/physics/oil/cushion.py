"""A bushing sealed with its own oil under a gas cushion: pressures over the year, gas needed."""

from shedlight.errors import InputError
from shedlight.physics.domain import ordered, positive
from shedlight.physics.oil.head import expanded_volume, sealed_gas_pressure
from shedlight.sources import cite
from shedlight.trace import formula


def cushion_pressures(
    filling_pressure: float,
    gas_volume: float,
    oil_volume: float,
    expansion: float,
    filling_temperature: float,
    temperatures: tuple[float, ...],
) -> tuple[float, ...]:
    """Absolute pressure of a sealed cushion at many temperatures.

    p = p_0 V_g/(V_g - beta V_oil (T - T_0)) · T/T_0

    Args:
        filling_pressure: Absolute, when sealed [Pa].
        gas_volume: When sealed [m³].
        oil_volume: When sealed [m³].
        expansion: Volume expansion of the oil, less that of the housing [1/K].
        filling_temperature: When sealed [K].
        temperatures: Of oil and gas, asked for [K].

    Returns:
        Absolute pressures [Pa].

    Raises:
        InputError: the oil fills the cushion at one of them, or a value outside its domain.

    Source: ideal gas law, thermal expansion — basis: exact.
    Valid for: gas that does not go into solution: the widest swing.
    """
    return tuple(
        sealed_gas_pressure(
            filling_pressure,
            gas_volume,
            filling_temperature,
            temperature,
            expanded_volume(oil_volume, expansion, temperature - filling_temperature),
        )
        for temperature in temperatures
    )


@formula(
    ("Gas volume needed when sealed", 'V_"min"', "l"),
    '(beta V_"oil" (T - T_0)) / (1 - (p_0 T) / (p_"max" T_0))',
    {
        "oil_volume": ("Oil volume when sealed", 'V_"oil"', "l"),
        "expansion": ("Volume expansion of the oil", "beta", "1/K"),
        "filling_pressure": ("Pressure when sealed, absolute", "p_0", "kPa"),
        "filling_temperature": ("Temperature when sealed", "T_0", "°C"),
        "highest_temperature": ("Highest mean temperature", "T", "°C"),
        "highest_pressure": ("Pressure allowed, absolute", 'p_"max"', "kPa"),
    },
    cite(
        "first principles", "ideal gas law and thermal expansion, solved for the cushion", "exact"
    ),
    note="Absolute temperatures.",
)
def gas_volume_needed(
    oil_volume: float,
    expansion: float,
    filling_pressure: float,
    filling_temperature: float,
    highest_temperature: float,
    highest_pressure: float,
) -> float:
    """Gas that a sealed bushing needs, so that hot oil does not raise its pressure too far.

    V_g = beta V_oil (T - T_0)/(1 - p_0 T/(p_max T_0))

    Args:
        oil_volume: When sealed [m³].
        expansion: Volume expansion of the oil [1/K].
        filling_pressure: Absolute, when sealed [Pa].
        filling_temperature: When sealed [K].
        highest_temperature: Mean of oil and gas when hottest [K].
        highest_pressure: Allowed, absolute [Pa].

    Returns:
        Gas volume when sealed [m³].

    Raises:
        InputError: the gas alone would exceed the pressure, temperatures out of order, or a
            value not above zero.

    Source: ideal gas law, thermal expansion — basis: exact.
    Valid for: gas that does not go into solution.
    """
    positive(
        oil_volume=oil_volume,
        expansion=expansion,
        filling_pressure=filling_pressure,
        filling_temperature=filling_temperature,
        highest_pressure=highest_pressure,
    )
    ordered(filling_temperature=filling_temperature, highest_temperature=highest_temperature)
    alone = filling_pressure * highest_temperature / filling_temperature / highest_pressure
    if alone >= 1:
        raise InputError(
            f"highest_pressure: given {highest_pressure:g} Pa; expected more than "
            f"{alone * highest_pressure:g} Pa, which the gas reaches by itself"
        )
    warming = highest_temperature - filling_temperature
    return expanded_volume(oil_volume, expansion, warming) / (1 - alone)
