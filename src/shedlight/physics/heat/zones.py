"""A conductor in several surroundings, one exact fin after another.

Each zone is a fin of its own (:mod:`shedlight.physics.heat.fin_state`). At every node between two
zones, and at both ends, temperature is one and heat is balanced:

    heat out of the zone below + power of the node
        = heat into the zone above + conductance of the node · (T - ambient of the node)

The heat at the ends of a zone is linear in its two end temperatures, so the nodes' temperatures
follow from one small symmetric system. It is positive definite as long as a steady state exists.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import finite, not_negative, positive
from shedlight.physics.heat.conductor import REFERENCE_TEMPERATURE
from shedlight.physics.heat.fin_state import (
    RUNAWAY,
    FinState,
    bulge_area,
    bulge_slope,
    share_area,
    share_slope,
)

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Zone:
    """A stretch of conductor whose side conductance and surroundings do not change.

    Raises:
        InputError: a field outside its domain.
    """

    length: float  # [m]
    conduction: float  # conductivity times area of the conductor [Wm/K]
    side_conductance: float  # to the surroundings, per length [W/mK]
    surroundings: float  # [K]
    resistance_20: float  # per length at 20 °C, skin effect included [Ω/m]
    temperature_coefficient: float  # of the resistance, at 20 °C [1/K]
    other_power: float = 0.0  # heat made besides that of the current, per length [W/m]

    def __post_init__(self) -> None:
        """Refuse what is no zone."""
        positive(
            length=self.length,
            conduction=self.conduction,
            surroundings=self.surroundings,
            resistance_20=self.resistance_20,
        )
        not_negative(
            side_conductance=self.side_conductance,
            temperature_coefficient=self.temperature_coefficient,
            other_power=self.other_power,
        )

    def growth(self, current: float) -> float:
        """By how much the loss per length grows with temperature [W/mK]."""
        return current**2 * self.resistance_20 * self.temperature_coefficient

    def coefficient(self, current: float) -> float:
        """Fin coefficient b [1/m²]."""
        return (self.side_conductance - self.growth(current)) / self.conduction

    def source(self, current: float) -> float:
        """Fin source s, of the current and of other heat [K/m²]."""
        warm = 1 + self.temperature_coefficient * (self.surroundings - REFERENCE_TEMPERATURE)
        made = current**2 * self.resistance_20 * warm + self.other_power
        return made / self.conduction


@dataclass(frozen=True)
class Node:
    """An end of the conductor, or a place between two zones.

    Raises:
        InputError: a field outside its domain.
    """

    conductance: float = 0.0  # to the node's own ambient [W/K]
    ambient: float = REFERENCE_TEMPERATURE  # [K]
    power: float = 0.0  # made in the node, as in a contact [W]
    held: float | None = None  # temperature it is held at, if it is [K]

    def __post_init__(self) -> None:
        """Refuse what is no node."""
        not_negative(conductance=self.conductance)
        positive(ambient=self.ambient)
        finite(power=self.power)
        if self.held is not None:
            positive(held=self.held)


@dataclass(frozen=True)
class ChainState:
    """Steady state of the whole conductor; places count from its first node [m]."""

    zones: tuple[Zone, ...]
    nodes: tuple[Node, ...]
    current: float  # rms [A]
    temperatures: tuple[float, ...]  # of the nodes [K]

    @cached_property
    def fins(self) -> tuple[FinState, ...]:
        """The fin of every zone."""
        return tuple(
            FinState(
                zone.coefficient(self.current),
                zone.source(self.current),
                zone.surroundings,
                below,
                above,
                zone.length,
            )
            for zone, (below, above) in zip(self.zones, pairwise(self.temperatures), strict=True)
        )

    @cached_property
    def places(self) -> tuple[float, ...]:
        """Where the nodes are [m]."""
        return (0.0, *accumulate(zone.length for zone in self.zones))

    def _zone_at(self, place: float) -> tuple[int, float]:
        places = self.places
        if not 0.0 <= place <= places[-1] * (1 + 1e-12):
            raise InputError(f"place: given {place:g} m; expected 0 to {places[-1]:g} m")
        last = len(self.zones) - 1
        index = next((i for i, above in enumerate(places[1:]) if place <= above), last)
        return index, min(place - places[index], self.zones[index].length)

    def temperature(self, place: float) -> float:
        """Temperature at a place [K]."""
        index, inside = self._zone_at(place)
        return self.fins[index].temperature(inside)

    def flow(self, place: float) -> float:
        """Heat along the conductor at a place, toward its last node [W]."""
        index, inside = self._zone_at(place)
        return -self.zones[index].conduction * self.fins[index].slope(inside)

    @property
    def hot_spot(self) -> tuple[float, float]:
        """Where the conductor is hottest [m], and how hot [K]."""
        found = [
            (below + fin.hot_spot_place, fin.hot_spot)
            for below, fin in zip(self.places, self.fins, strict=False)
        ]
        return max(found, key=lambda item: item[1])

    @cached_property
    def means(self) -> tuple[float, ...]:
        """Mean temperature of every zone [K]."""
        return tuple(
            zone.surroundings + area / zone.length
            for zone, area in zip(self.zones, self._areas, strict=True)
        )

    @cached_property
    def _areas(self) -> tuple[float, ...]:
        """Rise over the surroundings, integrated along every zone [Km]."""
        return tuple(
            (fin.oil_end + fin.terminal - 2 * fin.surroundings)
            * share_area(fin.coefficient, fin.length)
            + fin.source * bulge_area(fin.coefficient, fin.length)
            for fin in self.fins
        )

    @property
    def generated(self) -> tuple[float, ...]:
        """Heat made in every zone [W]."""
        return tuple(
            zone.source(self.current) * zone.conduction * zone.length
            + zone.growth(self.current) * area
            for zone, area in zip(self.zones, self._areas, strict=True)
        )

    @property
    def side_losses(self) -> tuple[float, ...]:
        """Heat that leaves every zone through its side [W]."""
        return tuple(
            zone.side_conductance * area for zone, area in zip(self.zones, self._areas, strict=True)
        )

    @property
    def node_inflows(self) -> tuple[float, ...]:
        """Heat that enters the conductor at every node, contact power included [W]."""
        flows = [
            (-zone.conduction * fin.slope(0.0), -zone.conduction * fin.slope(fin.length))
            for zone, fin in zip(self.zones, self.fins, strict=True)
        ]
        starting = [*(start for start, _ in flows), 0.0]
        arriving = [0.0, *(end for _, end in flows)]
        return tuple(out - into for out, into in zip(starting, arriving, strict=True))

    @property
    def imbalance(self) -> float:
        """Heat unaccounted for, over all heat made, led in and led off [1]."""
        flows = (*self.generated, *self.node_inflows, *(-loss for loss in self.side_losses))
        turned_over = sum(abs(flow) for flow in flows)
        return sum(flows) / turned_over if turned_over else 0.0


def solve_chain(zones: tuple[Zone, ...], nodes: tuple[Node, ...], current: float) -> ChainState:
    """Temperatures along a conductor that passes through several surroundings.

    T'' - b_i (T - T_i) + s_i = 0 in zone i; temperature and heat go through every node

    Args:
        zones: From the oil end to the terminal, at least one.
        nodes: The oil end, the places between zones, the terminal: one more than zones.
        current: Current, rms [A].

    Returns:
        The steady state, exact within the model.

    Raises:
        InputError: numbers of zones and nodes do not fit, or no steady state ("runaway").

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each zone.
    """
    not_negative(current=current)
    if not zones or len(nodes) != len(zones) + 1:
        raise InputError(
            f"nodes: given {len(nodes)} for {len(zones)} zones; expected one more than zones"
        )
    matrix, load = _system(zones, nodes, current)
    held = np.array([node.held is not None for node in nodes])
    values = np.array([node.held or 0.0 for node in nodes])
    free = ~held
    if free.any():
        inner = matrix[free][:, free]
        if np.linalg.eigvalsh(inner)[0] <= 1e-12 * np.abs(inner).max():
            raise InputError(f"current: given {current:g} A; {RUNAWAY}")
        values[free] = np.linalg.solve(inner, load[free] - matrix[free][:, held] @ values[held])
    if values.min() <= 0:
        raise InputError(f"current: given {current:g} A; the balance lies below absolute zero")
    return ChainState(zones, nodes, current, tuple(float(value) for value in values))


def _system(
    zones: tuple[Zone, ...], nodes: tuple[Node, ...], current: float
) -> tuple[Array, Array]:
    matrix = np.diag([node.conductance for node in nodes]).astype(np.float64)
    load = np.array([node.conductance * node.ambient + node.power for node in nodes])
    for index, zone in enumerate(zones):
        b, length = zone.coefficient(current), zone.length
        # Refuses a zone that runs away even between ends held at its surroundings.
        FinState(b, 0.0, zone.surroundings, zone.surroundings, zone.surroundings, length)
        own = zone.conduction * share_slope(b, length, length)
        other = zone.conduction * share_slope(b, 0.0, length)
        made = zone.conduction * zone.source(current) * bulge_slope(b, 0.0, length)
        pair = slice(index, index + 2)
        matrix[pair, pair] += np.array([[own, -other], [-other, own]])
        load[pair] += made + (own - other) * zone.surroundings
    return matrix, load


def even_chain(
    lengths: tuple[float, ...],
    conduction: float,
    side_conductances: tuple[float, ...],
    surroundings: tuple[float, ...],
    resistance_20: float,
    temperature_coefficient: float,
    current: float,
    oil_end: float,
    terminal_conductance: float,
    air: float,
    contact_power: float,
) -> ChainState:
    """A conductor of one section through several zones, held at the oil end, cooled at the other.

    As :func:`solve_chain`, from plain numbers

    Args:
        lengths: Of the zones [m].
        conduction: Conductivity times area of the conductor [Wm/K].
        side_conductances: Of the zones, per length [W/mK].
        surroundings: Temperatures around the zones [K].
        resistance_20: Resistance per length at 20 °C, skin effect included [Ω/m].
        temperature_coefficient: Of the resistance, at 20 °C [1/K].
        current: Current, rms [A].
        oil_end: Temperature held at the oil end [K].
        terminal_conductance: From the terminal to the air [W/K].
        air: Air temperature at the terminal [K].
        contact_power: Loss in the terminal's contact [W].

    Returns:
        The steady state.

    Raises:
        InputError: tuples of different lengths, a value outside its domain, or "runaway".

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: as :func:`solve_chain`.
    """
    if not len(lengths) == len(side_conductances) == len(surroundings):
        raise InputError(
            f"lengths, side_conductances, surroundings: given {len(lengths)}, "
            f"{len(side_conductances)}, {len(surroundings)} values; expected as many of each"
        )
    zones = tuple(
        Zone(length, conduction, side, around, resistance_20, temperature_coefficient)
        for length, side, around in zip(lengths, side_conductances, surroundings, strict=True)
    )
    between = (Node(),) * (len(zones) - 1)
    end = Node(terminal_conductance, air, contact_power)
    return solve_chain(zones, (Node(held=oil_end), *between, end), current)
