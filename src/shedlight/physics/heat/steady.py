"""The whole bushing in steady state: zones along, films across, iterated until both agree."""

import math
from dataclasses import dataclass, replace

from shedlight.errors import CalculationError, InputError
from shedlight.physics.domain import not_negative, ordered, positive
from shedlight.physics.heat.conductor import (
    resistivity,
    skin_depth,
    skin_ratio_tube,
    tube_area,
)
from shedlight.physics.heat.films import Cooling, oil_at, still_film
from shedlight.physics.heat.fin_state import RUNAWAY
from shedlight.physics.heat.stretches import (
    Across,
    OilBath,
    OpenAir,
    Outside,
    Stretch,
    across,
    air_films,
    first_guess,
)
from shedlight.physics.heat.zones import ChainState, Node, Zone, solve_chain

MOST_ROUNDS = 300
HOTTEST = 1000.0  # beyond this nothing of a bushing is left, and no correlation holds [K]
CLOSE = 1e-9  # largest change of any temperature in the last round, unless said otherwise [K]


@dataclass(frozen=True)
class Wire:
    """The conductor: rod or tube of one metal."""

    outer_radius: float  # [m]
    inner_radius: float  # 0 for a rod [m]
    resistivity_20: float  # [Ωm]
    temperature_coefficient: float  # at 20 °C [1/K]
    conductivity: float  # of heat [W/mK]
    frequency: float  # [Hz]

    def __post_init__(self) -> None:
        """Refuse what is no conductor."""
        not_negative(
            inner_radius=self.inner_radius, temperature_coefficient=self.temperature_coefficient
        )
        ordered(inner_radius=self.inner_radius, outer_radius=self.outer_radius)
        positive(
            resistivity_20=self.resistivity_20,
            conductivity=self.conductivity,
            frequency=self.frequency,
        )

    @property
    def area(self) -> float:
        """Cross-section [m²]."""
        return tube_area(2 * self.outer_radius, 2 * self.inner_radius)

    def resistance_20(self, temperature: float) -> float:
        """Resistance per length at 20 °C, with the skin effect of a temperature [Ω/m]."""
        warm = resistivity(self.resistivity_20, self.temperature_coefficient, temperature)
        depth = skin_depth(warm, self.frequency)
        ratio = skin_ratio_tube(self.outer_radius, self.inner_radius, depth)
        return self.resistivity_20 / self.area * ratio


@dataclass(frozen=True)
class EndBody:
    """Metal at an end: the lower terminal in oil, or cap and upper terminal in air."""

    outside: OilBath | OpenAir
    area: float  # that gives off heat [m²]
    height: float  # of that area [m]
    width: float  # across the wind [m]
    contact_resistance: float = 0.0  # of its joint [Ω]
    other_conductance: float = 0.0  # by cables or bars that carry heat off [W/K]
    other_temperature: float | None = None  # of those, where it is not that outside [K]

    def __post_init__(self) -> None:
        """Refuse what is no body."""
        if self.other_temperature is not None:
            positive(other_temperature=self.other_temperature)
        positive(area=self.area, height=self.height, width=self.width)
        not_negative(
            contact_resistance=self.contact_resistance, other_conductance=self.other_conductance
        )


@dataclass(frozen=True)
class SteadyCase:
    """One bushing at one current: stretches from the oil end up."""

    wire: Wire
    stretches: tuple[Stretch, ...]
    lower: EndBody
    upper: EndBody
    current: float  # rms [A]
    air_films: Cooling = Cooling.MEAN
    oil_films: Cooling = Cooling.MEAN
    lying: bool = False  # axis closer to level than to upright

    def films_of(self, outside: Outside) -> Cooling:
        """Which end of the correlations' spread holds at a place."""
        return self.air_films if isinstance(outside, OpenAir) else self.oil_films


@dataclass(frozen=True)
class SteadyState:
    """What the bushing settles to."""

    chain: ChainState
    across: tuple[Across, ...]  # per stretch
    rounds: int
    change: float  # of the last round [K]

    @property
    def hot_spot(self) -> tuple[float, float]:
        """Where the conductor is hottest [m], and how hot [K]."""
        return self.chain.hot_spot

    @property
    def lower_terminal(self) -> float:
        """Temperature of the lower terminal [K]."""
        return self.chain.temperatures[0]

    @property
    def upper_terminal(self) -> float:
        """Temperature of the upper terminal [K]."""
        return self.chain.temperatures[-1]


def steady_state(case: SteadyCase, close: float = CLOSE) -> SteadyState:
    """Temperatures along and across a bushing that carries a current.

    Fins in the zones (:func:`zones.solve_chain`), side conductances from the films at the
    temperatures found (:func:`stretches.across`), repeated until nothing changes

    Args:
        case: Bushing, surroundings and current.
        close: Largest change of any temperature allowed in the last round [K].

    Returns:
        Chain, temperatures across and how well the rounds have settled.

    Raises:
        InputError: no steady state ("runaway"), or sizes that do not fit.
        CalculationError: the rounds do not settle.

    Source: Carslaw and Jaeger along; correlations of :mod:`films` across — basis: memory, high.
    Valid for: radial heat in each stretch; a stretch long against its radius.
    """
    start = max(case.lower.outside.temperature, case.upper.outside.temperature)
    means = [start] * len(case.stretches)
    guesses = [first_guess(stretch, start) for stretch in case.stretches]
    ends = (case.lower.outside.temperature + 1.0, case.upper.outside.temperature + 1.0)
    change = math.inf
    for count in range(1, MOST_ROUNDS + 1):
        found = [
            across(
                stretch,
                case.wire.outer_radius,
                mean,
                guess,
                case.lying,
                case.films_of(stretch.outside),
            )
            for stretch, mean, guess in zip(case.stretches, means, guesses, strict=True)
        ]
        chain = solve_chain(_zones(case, means, found), _nodes(case, ends), case.current)
        _refuse_molten(chain)
        change = _change(chain, means, ends, found, guesses)
        means = list(chain.means)
        ends = (chain.temperatures[0], chain.temperatures[-1])
        guesses = [_between(old, new) for old, new in zip(guesses, found, strict=True)]
        if change < close:
            return SteadyState(chain, tuple(found), count, change)
    raise CalculationError(
        f"steady_state: still {change:g} K of change after {MOST_ROUNDS} rounds at "
        f"{case.current:g} A"
    )


@dataclass(frozen=True)
class SteadyBand:
    """The state by the middle of the correlations, and how far their spread reaches [K]."""

    mean: SteadyState
    hot_spot: tuple[float, float]  # lowest and highest
    upper_terminal: tuple[float, float]
    lower_terminal: tuple[float, float]


def steady_band(case: SteadyCase) -> SteadyBand:
    """Temperatures with the spread of the film correlations, as a band.

    The extremes over poor and good films, on the oil's side and in the air independently: good
    films in the oil cool a conductor that is hotter than the oil and heat one that is cooler

    Args:
        case: Bushing, surroundings and current; its own choice of films is not used.

    Returns:
        The middle state, lowest and highest temperatures.

    Raises:
        InputError: no steady state ("runaway") with some films.
        CalculationError: the rounds do not settle.

    Source: as :func:`steady_state`; spreads of ``film_spread.csv`` — basis: memory, medium.
    Valid for: as :func:`steady_state`.
    """
    ends = (Cooling.LOW, Cooling.HIGH)
    mean = steady_state(replace(case, air_films=Cooling.MEAN, oil_films=Cooling.MEAN))
    states = [mean] + [
        steady_state(replace(case, air_films=air, oil_films=oil)) for air in ends for oil in ends
    ]

    def reach(values: list[float]) -> tuple[float, float]:
        return min(values), max(values)

    return SteadyBand(
        mean,
        reach([state.hot_spot[1] for state in states]),
        reach([state.upper_terminal for state in states]),
        reach([state.lower_terminal for state in states]),
    )


def _refuse_molten(chain: ChainState) -> None:
    if max(*chain.temperatures, *chain.means) > HOTTEST:
        raise InputError(
            f"current: given {chain.current:g} A; hotter than {HOTTEST:g} K; {RUNAWAY}"
        )


def _zones(case: SteadyCase, means: list[float], found: list[Across]) -> tuple[Zone, ...]:
    wire = case.wire
    return tuple(
        Zone(
            stretch.length,
            wire.conductivity * wire.area * stretch.area_ratio,
            side.side_conductance,
            side.surroundings,
            wire.resistance_20(mean) / stretch.area_ratio,
            wire.temperature_coefficient,
            stretch.loss_at(side.wall),
        )
        for stretch, mean, side in zip(case.stretches, means, found, strict=True)
    )


def _nodes(case: SteadyCase, ends: tuple[float, float]) -> tuple[Node, ...]:
    lower = _end_node(case, case.lower, ends[0])
    upper = _end_node(case, case.upper, ends[1])
    return (lower, *(Node(),) * (len(case.stretches) - 1), upper)


def _end_node(case: SteadyCase, body: EndBody, temperature: float) -> Node:
    outside = body.outside
    power = case.current**2 * body.contact_resistance
    if body.other_temperature is not None:
        power += body.other_conductance * (body.other_temperature - outside.temperature)
    if isinstance(outside, OilBath):
        fluid = oil_at((temperature + outside.temperature) / 2)
        difference = temperature - outside.temperature
        film = still_film(fluid, difference, body.height, "still oil", case.oil_films)
        return Node(film * body.area + body.other_conductance, outside.temperature, power)
    films = air_films(outside, temperature, body.height, body.width, case.air_films)
    conductance = sum(films) * body.area + body.other_conductance
    sun = outside.absorptivity * outside.irradiance * body.width * body.height
    return Node(conductance, outside.temperature, power + sun)


def _between(old: Across, new: Across) -> Across:
    """Half-way: keeps two films in series from answering each other in swings."""
    return replace(new, bore=(old.bore + new.bore) / 2, surface=(old.surface + new.surface) / 2)


def _change(
    chain: ChainState,
    means: list[float],
    ends: tuple[float, float],
    found: list[Across],
    guesses: list[Across],
) -> float:
    pairs = [
        *zip(chain.means, means, strict=True),
        *zip((chain.temperatures[0], chain.temperatures[-1]), ends, strict=True),
        *((new.bore, old.bore) for new, old in zip(found, guesses, strict=True)),
        *((new.surface, old.surface) for new, old in zip(found, guesses, strict=True)),
    ]
    return max(abs(new - old) for new, old in pairs)
