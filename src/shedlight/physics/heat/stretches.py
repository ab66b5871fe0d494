"""A stretch of bushing across: conductor, filling, porcelain, and what is outside.

From the mean temperature of the conductor follow the temperatures of bore and surface and the
side conductance that the fin needs. Films depend on these temperatures, so each call improves a
guess (:class:`Across`) by one round; :mod:`shedlight.physics.heat.steady` repeats it.
"""

import math
from dataclasses import dataclass

from shedlight.physics.domain import not_negative, ordered, positive, within
from shedlight.physics.heat.air_properties import STANDARD_PRESSURE, air_conductivity
from shedlight.physics.heat.dielectric import loss_when_warm
from shedlight.physics.heat.films import (
    Cooling,
    Fluid,
    air_at,
    annulus_nusselt,
    oil_at,
    still_film,
    wind_film,
)
from shedlight.physics.heat.oil_properties import oil_conductivity
from shedlight.physics.heat.radial import cylinder_resistance, radiation_coefficient


@dataclass(frozen=True)
class OilBath:
    """The transformer's oil around the lower end."""

    temperature: float  # [K]

    def __post_init__(self) -> None:
        """Refuse what is no temperature."""
        positive(temperature=self.temperature)


@dataclass(frozen=True)
class CoverHole:
    """The edge of the cover's hole across a gap of oil or of trapped gas at rest."""

    temperature: float  # of the cover at the hole [K]
    radius: float  # of the hole [m]
    oil_filled: bool = True  # or gas, under a cover that was not bled

    def __post_init__(self) -> None:
        """Refuse what is no hole."""
        positive(temperature=self.temperature, radius=self.radius)


@dataclass(frozen=True)
class OpenAir:
    """Air, wind and sun."""

    temperature: float  # [K]
    wind_speed: float = 0.0  # across the axis [m/s]
    irradiance: float = 0.0  # of the sun, across the axis [W/m²]
    absorptivity: float = 0.75  # of the surface for the sun [1]
    emissivity: float = 0.9  # of the surface [1]
    pressure: float = STANDARD_PRESSURE  # absolute [Pa]

    def __post_init__(self) -> None:
        """Refuse what is no weather."""
        positive(temperature=self.temperature, pressure=self.pressure)
        not_negative(wind_speed=self.wind_speed, irradiance=self.irradiance)
        within(0.0, 1.0, absorptivity=self.absorptivity, emissivity=self.emissivity)


@dataclass(frozen=True)
class Housing:
    """Porcelain around the conductor, and what fills the space between."""

    bore_radius: float  # [m]
    body_radius: float  # of the plain body [m]
    envelope_radius: float  # over the sheds; radiates and takes the sun [m]
    area_factor: float  # area that convects, over the plain body's [1]
    conductivity: float  # of the porcelain [W/mK]
    oil_filled: bool = True  # or air, as above an oil level that has sunk
    cavity_height: float | None = None  # of the whole space inside, where it is longer [m]

    def __post_init__(self) -> None:
        """Refuse what is no housing."""
        if self.cavity_height is not None:
            positive(cavity_height=self.cavity_height)
        ordered(nothing=0.0, bore_radius=self.bore_radius, body_radius=self.body_radius)
        within(self.body_radius, math.inf, envelope_radius=self.envelope_radius)
        within(1.0, math.inf, area_factor=self.area_factor)
        positive(conductivity=self.conductivity)


Outside = OilBath | CoverHole | OpenAir


@dataclass(frozen=True)
class Stretch:
    """A stretch of conductor with one kind of housing, or bare, and one kind of outside."""

    length: float  # [m]
    outside: Outside
    housing: Housing | None = None
    field_loss: float = 0.0  # of oil and porcelain at 20 °C, counted at the conductor [W/m]
    loss_doubling: float = math.inf  # warming of the wall that doubles it [K]
    area_ratio: float = 1.0  # section of the metal here over that of the conductor [1]

    def __post_init__(self) -> None:
        """Refuse what is no stretch."""
        positive(length=self.length, area_ratio=self.area_ratio)
        not_negative(field_loss=self.field_loss)
        if math.isfinite(self.loss_doubling):
            positive(loss_doubling=self.loss_doubling)

    def loss_at(self, wall: float) -> float:
        """Heat that the voltage makes in a wall of some temperature [K], per length [W/m]."""
        if math.isinf(self.loss_doubling):
            return self.field_loss
        return loss_when_warm(self.field_loss, wall, self.loss_doubling)

    @property
    def around(self) -> float:
        """Temperature outside, without the sun [K]."""
        return self.outside.temperature


@dataclass(frozen=True)
class Across:
    """A stretch across, at its mean temperature."""

    bore: float  # bore of the porcelain [K]
    surface: float  # outer surface [K]
    side_conductance: float  # conductor to surroundings, per length [W/mK]
    surroundings: float  # temperature outside, raised by the sun [K]
    nusselt: float  # of the filling [1]
    film: float  # outside, convection and radiation over the convecting area [W/m²K]

    @property
    def wall(self) -> float:
        """Mean temperature of the porcelain [K]."""
        return (self.bore + self.surface) / 2


def first_guess(stretch: Stretch, conductor: float) -> Across:
    """A start: temperatures spread evenly between conductor and outside.

    Args:
        stretch: The stretch.
        conductor: Mean temperature of the conductor, a guess [K].

    Returns:
        Temperatures across; conductance zero.

    Source: an arbitrary start of an iteration — basis: exact.
    """
    step = (conductor - stretch.around) / 3
    return Across(conductor - step, conductor - 2 * step, 0.0, stretch.around, 1.0, 0.0)


def across(
    stretch: Stretch,
    conductor_radius: float,
    conductor: float,
    guess: Across,
    lying: bool,
    cooling: Cooling,
) -> Across:
    """One round better temperatures and conductance across a stretch.

    q = (T_c - T_s)/(R_filling + R_wall + R_outside), films at the guessed temperatures

    Args:
        stretch: The stretch.
        conductor_radius: Outer radius of the conductor [m].
        conductor: Mean temperature of the conductor [K].
        guess: What was found before.
        lying: Whether the axis is closer to level than to upright.
        cooling: End of the correlations' spread taken.

    Returns:
        Temperatures and conductance.

    Raises:
        InputError: the conductor does not fit in the bore.

    Source: resistances in series; correlations of :mod:`films` — basis: memory, high confidence.
    Valid for: heat that flows radially.
    """
    housing = stretch.housing
    filling, wall, nusselt, radius = 0.0, 0.0, 1.0, conductor_radius
    if housing is not None:
        ordered(conductor_radius=conductor_radius, bore_radius=housing.bore_radius)
        fluid = _filling(stretch, housing, (conductor + guess.bore) / 2)
        nusselt = annulus_nusselt(
            fluid,
            conductor - guess.bore,
            conductor_radius,
            housing.bore_radius,
            housing.cavity_height or stretch.length,
            lying,
            cooling,
        )
        filling = cylinder_resistance(
            conductor_radius, housing.bore_radius, nusselt * fluid.conductivity
        )
        radius = housing.body_radius
        wall = cylinder_resistance(housing.bore_radius, radius, housing.conductivity)
    surface = conductor if housing is None else guess.surface
    outside, surroundings, film = _outside(stretch, radius, surface, cooling)
    conductance = 1 / (filling + wall + outside)
    heat = conductance * (conductor - surroundings)
    bore = conductor - heat * filling
    return Across(bore, bore - heat * wall, conductance, surroundings, nusselt, film)


def _filling(stretch: Stretch, housing: Housing, temperature: float) -> Fluid:
    if housing.oil_filled:
        return oil_at(temperature)
    weather = stretch.outside
    return air_at(
        temperature, weather.pressure if isinstance(weather, OpenAir) else STANDARD_PRESSURE
    )


def _outside(
    stretch: Stretch, radius: float, surface: float, cooling: Cooling
) -> tuple[float, float, float]:
    """Resistance times length outside, the temperature there, the film coefficient."""
    outside = stretch.outside
    if isinstance(outside, CoverHole):
        middle = (surface + outside.temperature) / 2
        filling = oil_conductivity(middle) if outside.oil_filled else air_conductivity(middle)
        return cylinder_resistance(radius, outside.radius, filling), outside.temperature, 0.0
    if isinstance(outside, OilBath):
        fluid = oil_at((surface + outside.temperature) / 2)
        film = still_film(
            fluid, surface - outside.temperature, stretch.length, "still oil", cooling
        )
        return 1 / (2 * math.pi * radius * film), outside.temperature, film
    housing = stretch.housing
    envelope = housing.envelope_radius if housing else radius
    factor = housing.area_factor if housing else 1.0
    convecting = 2 * math.pi * radius * factor
    convection, radiation = air_films(outside, surface, stretch.length, 2 * envelope, cooling)
    per_length = convecting * convection + 2 * math.pi * envelope * radiation
    sun = outside.absorptivity * outside.irradiance * 2 * envelope
    return 1 / per_length, outside.temperature + sun / per_length, per_length / convecting


def air_films(
    weather: OpenAir, surface: float, height: float, diameter: float, cooling: Cooling
) -> tuple[float, float]:
    """Film coefficients of convection and of radiation in the open.

    h_c the larger of still air and wind, h_r = epsilon sigma (T1² + T2²)(T1 + T2)

    Args:
        weather: Air, wind and surface.
        surface: Surface temperature [K].
        height: Height of the surface [m].
        diameter: Diameter of the body across the wind [m].
        cooling: End of the correlations' spread taken.

    Returns:
        Convection and radiation [W/m²K].

    Raises:
        InputError: an argument out of its domain.

    Source: Churchill and Chu; Churchill and Bernstein; the larger one as in IEEE Std 738
        — basis: memory, high confidence.
    Valid for: surroundings as warm as the air; a clear night sky is colder.
    """
    air = air_at((surface + weather.temperature) / 2, weather.pressure)
    difference = surface - weather.temperature
    convection = still_film(air, difference, height, "still air", cooling)
    if weather.wind_speed > 0:
        convection = max(convection, wind_film(air, weather.wind_speed, diameter, cooling))
    return convection, radiation_coefficient(weather.emissivity, surface, weather.temperature)
