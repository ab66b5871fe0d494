"""Films and annuli as a band: the least, middle and most heat that the correlations allow."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.heat.air_properties import (
    AIR_SPECIFIC_HEAT,
    STANDARD_PRESSURE,
    air_conductivity,
    air_density,
    air_viscosity,
)
from shedlight.physics.heat.convection import (
    annulus_de_vahl_davis,
    annulus_elsherbiny,
    annulus_macgregor_emery,
    annulus_raithby_hollands,
    nusselt_vertical,
    nusselt_wind,
    rayleigh,
)
from shedlight.physics.heat.oil_properties import (
    FREEZING,
    oil_conductivity,
    oil_density,
    oil_specific_heat,
    oil_viscosity_cold,
    oil_viscosity_hot,
)
from shedlight.physics.heat.oil_properties import prandtl as prandtl_number
from shedlight.sources import Citation

_OIL_DENSITY_SLOPE = 0.6376  # [kg/m³K], of oil_density
VERTICAL_ANNULUS = (annulus_macgregor_emery, annulus_elsherbiny, annulus_de_vahl_davis)


class Cooling(StrEnum):
    """Which end of the correlations' spread is taken."""

    LOW = "low"  # least heat passes
    MEAN = "mean"
    HIGH = "high"  # most heat passes


@dataclass(frozen=True)
class Fluid:
    """Properties of a fluid at one temperature."""

    conductivity: float  # [W/mK]
    kinematic_viscosity: float  # [m²/s]
    prandtl: float  # [1]
    expansion: float  # [1/K]

    def rayleigh(self, difference: float, length: float) -> float:
        """Rayleigh number of a temperature difference [K] over a length [m]."""
        return rayleigh(
            abs(difference), length, self.expansion, self.kinematic_viscosity, self.prandtl
        )


def oil_at(temperature: float) -> Fluid:
    """Transformer mineral oil at a temperature.

    Args:
        temperature: Oil temperature [K].

    Returns:
        Its properties.

    Raises:
        InputError: temperature not above zero.

    Source: fits of published transformer simulations; viscosity after Susa, below 0 °C after
        Walther — basis: memory.
    Valid for: 0 to 100 °C; viscosity from -30 °C.
    """
    positive(temperature=temperature)
    density, conductivity = oil_density(temperature), oil_conductivity(temperature)
    if temperature < FREEZING:
        viscosity = oil_viscosity_cold(temperature, density)
    else:
        viscosity = oil_viscosity_hot(temperature)
    number = prandtl_number(viscosity, oil_specific_heat(temperature), conductivity)
    return Fluid(conductivity, viscosity / density, number, _OIL_DENSITY_SLOPE / density)


def air_at(temperature: float, pressure: float = STANDARD_PRESSURE) -> Fluid:
    """Dry air at a temperature and pressure.

    Args:
        temperature: Air temperature [K].
        pressure: Absolute pressure; less at height [Pa].

    Returns:
        Its properties.

    Raises:
        InputError: an argument not above zero.

    Source: US Standard Atmosphere 1976, ideal gas — basis: memory, high confidence.
    Valid for: -60 to 200 °C.
    """
    density, conductivity = air_density(temperature, pressure), air_conductivity(temperature)
    viscosity = air_viscosity(temperature)
    number = prandtl_number(viscosity, AIR_SPECIFIC_HEAT, conductivity)
    return Fluid(conductivity, viscosity / density, number, 1 / temperature)


@dataclass(frozen=True)
class Spread:
    """How far a film may lie from its correlation."""

    film: str
    factors: Mapping[Cooling, float]
    citation: Citation


@tables.cached
def spreads() -> tuple[Spread, ...]:
    """The spread of every kind of film."""
    return tuple(
        Spread(
            row["film"],
            MappingProxyType(
                {
                    Cooling.LOW: float(row["low"]),
                    Cooling.MEAN: 1.0,
                    Cooling.HIGH: float(row["high"]),
                }
            ),
            tables.citation(row),
        )
        for row in tables.read("heat/film_spread")
    )


def spread(film: str) -> Spread:
    """The spread of one kind of film.

    Args:
        film: ``still air``, ``wind``, ``still oil`` or ``horizontal annulus``.

    Raises:
        InputError: another film.
    """
    for row in spreads():
        if row.film == film:
            return row
    known = ", ".join(row.film for row in spreads())
    raise InputError(f"film: given {film!r}; expected one of {known}")


def still_film(
    fluid: Fluid, difference: float, height: float, film: str, cooling: Cooling
) -> float:
    """Film coefficient of a vertical surface in a fluid at rest.

    h = f Nu k/H, Nu after Churchill and Chu

    Args:
        fluid: The fluid's properties at the film's temperature.
        difference: Surface less fluid temperature, either sign [K].
        height: Height of the surface [m].
        film: ``still air`` or ``still oil``.
        cooling: End of the spread taken.

    Returns:
        Film coefficient [W/m²K].

    Raises:
        InputError: height not above zero, or another film.

    Source: Churchill and Chu (1975); spread from ``film_spread.csv`` — basis: memory.
    Valid for: Rayleigh numbers 0.1 to 1e12.
    """
    positive(height=height)
    number = nusselt_vertical(fluid.rayleigh(difference, height), fluid.prandtl)
    return spread(film).factors[cooling] * number * fluid.conductivity / height


def wind_film(fluid: Fluid, wind_speed: float, diameter: float, cooling: Cooling) -> float:
    """Film coefficient of a cylinder across the wind.

    h = f Nu k/D, Nu after Churchill and Bernstein

    Args:
        fluid: Properties of the air at the film's temperature.
        wind_speed: Wind across the axis [m/s].
        diameter: Diameter of the body [m].
        cooling: End of the spread taken.

    Returns:
        Film coefficient [W/m²K].

    Raises:
        InputError: wind speed negative, diameter not above zero.

    Source: Churchill and Bernstein (1977); spread from ``film_spread.csv`` — basis: memory.
    Valid for: Re Pr above 0.2.
    """
    not_negative(wind_speed=wind_speed)
    positive(diameter=diameter)
    number = nusselt_wind(wind_speed * diameter / fluid.kinematic_viscosity, fluid.prandtl)
    return spread("wind").factors[cooling] * number * fluid.conductivity / diameter


_CHOICE: Mapping[Cooling, Callable[[list[float]], float]] = MappingProxyType(
    {
        Cooling.MEAN: lambda numbers: sorted(numbers)[len(numbers) // 2],
        Cooling.HIGH: max,
    }
)


def annulus_nusselt(
    fluid: Fluid,
    difference: float,
    inner_radius: float,
    outer_radius: float,
    height: float,
    lying: bool,
    cooling: Cooling,
) -> float:
    """By how much motion raises the conduction across an annulus.

    Least: 1, the filling at rest; upright the middle or the most of three correlations; lying one
    with its scatter

    Args:
        fluid: The filling's properties at its mean temperature.
        difference: Inner less outer temperature, either sign [K].
        inner_radius: Inner radius [m].
        outer_radius: Outer radius [m].
        height: Length of the annulus along its axis [m].
        lying: Whether the axis is closer to level than to upright.
        cooling: End of the spread taken.

    Returns:
        Factor on the conductivity of the resting fluid, at least 1 [1].

    Raises:
        InputError: radii out of order, height not above zero.

    Source: MacGregor and Emery; Elsherbiny; de Vahl Davis and Thomas; Raithby and Hollands
        — basis: memory, high confidence; they differ by 40 to 60 %.
    Valid for: see each correlation; most bushings lie outside one or the other's range.
    """
    gap = outer_radius - inner_radius
    positive(inner_radius=inner_radius, gap=gap, height=height)
    if cooling is Cooling.LOW:
        return 1.0  # no motion carries less than none: needs no correlation and no range
    ratio = outer_radius / inner_radius
    number = fluid.rayleigh(difference, gap)
    if lying:
        factor = spread("horizontal annulus").factors[cooling]
        return max(1.0, factor * annulus_raithby_hollands(number, fluid.prandtl, 1.0, ratio))
    slender = height / gap
    return _CHOICE[cooling]([f(number, fluid.prandtl, slender, ratio) for f in VERTICAL_ANNULUS])
