"""Temperatures of a conductor through several surroundings, from plain numbers, for the trace.

What :func:`zones.solve_chain` settles is told here quantity by quantity, from one :class:`Chain`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import ClassVar

from shedlight.physics.domain import not_negative, positive
from shedlight.physics.heat.zones import ChainState, Node, Zone, solve_chain
from shedlight.sources import cite
from shedlight.trace import Shared, formula

Many = tuple[float, ...]

CITATION = cite("Carslaw", "steady temperature in a thin rod heated by a current", "exact")
FIN = (
    "T'' - b_i (T - T_i) + s_i = 0, quad b_i = (G_i - I^2 r_i alpha) / (k A_i),"
    " quad s_i = (I^2 r_i (1 + alpha (T_i - 20 °C)) + p_i) / (k A_i)"
)


@dataclass(frozen=True)
class Chain(Shared):
    """A conductor through several surroundings, its stretches from the lower end up."""

    lengths: Many  # of the stretches [m]
    conductions: Many  # conductivity times area of the metal in each stretch [Wm/K]
    side_conductances: Many  # to the surroundings, per length [W/mK]
    surroundings: Many  # temperature around each stretch [K]
    resistances_20: Many  # per length at 20 °C, skin effect included [Ω/m]
    temperature_coefficient: float  # of the resistance, at 20 °C [1/K]
    other_powers: Many  # heat made besides that of the current, per length [W/m]
    end_conductances: Many  # of the lower and the upper end [W/K]
    end_ambients: Many  # around the lower and the upper end [K]
    end_powers: Many  # made in the lower and the upper end [W]
    current: float  # rms [A]

    LABELS: ClassVar[Mapping[str, tuple[str, str, str]]] = {
        "lengths": ("Lengths of the stretches", "L_i", "mm"),
        "conductions": ("Conductivity times area of the metal", "k A_i", "Wm/K"),
        "side_conductances": ("Conductance to the surroundings per length", "G_i", "W/mK"),
        "surroundings": ("Temperature around each stretch", "T_i", "°C"),
        "resistances_20": ("Resistance per length at 20 °C, skin effect included", "r_i", "µΩ/m"),
        "temperature_coefficient": ("Temperature coefficient at 20 °C", "alpha", "1/K"),
        "other_powers": ("Heat made besides that of the current", "p_i", "W/m"),
        "end_conductances": ("Conductance of lower and upper end", "U", "W/K"),
        "end_ambients": ("Temperature around lower and upper end", 'T_"end"', "°C"),
        "end_powers": ("Heat made in lower and upper end", "P", "W"),
        "current": ("Current, rms", "I", "A"),
    }


@lru_cache(maxsize=8)
def chain_of(
    chain: Chain,
) -> ChainState:
    """The settled chain of a conductor with two free ends; the last few are kept.

    As :func:`zones.solve_chain`, from plain numbers

    Args:
        chain: The conductor, its surroundings and its current.

    Returns:
        The steady state.

    Raises:
        InputError: a value outside its domain, or no steady state ("runaway").

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    for conduction in chain.conductions:
        positive(conductions=conduction)
    not_negative(current=chain.current, temperature_coefficient=chain.temperature_coefficient)
    zones = tuple(
        Zone(
            length,
            conduction,
            side,
            around,
            resistance,
            chain.temperature_coefficient,
            power,
        )
        for length, conduction, side, around, resistance, power in zip(
            chain.lengths,
            chain.conductions,
            chain.side_conductances,
            chain.surroundings,
            chain.resistances_20,
            chain.other_powers,
            strict=True,
        )
    )
    ends = zip(chain.end_conductances, chain.end_ambients, chain.end_powers, strict=True)
    lower, upper = (Node(conductance, ambient, power) for conductance, ambient, power in ends)
    return solve_chain(zones, (lower, *(Node(),) * (len(zones) - 1), upper), chain.current)


@formula(
    ("Hottest place of the conductor", 'T_"h"', "°C"),
    "max_x T(x), quad " + FIN,
    {"chain": Chain},
    CITATION,
)
def chain_hot_spot(
    chain: Chain,
) -> float:
    """How hot the hottest place of the conductor is.

    T_h = max T(x) over all stretches

    Args:
        chain: The conductor, its surroundings and its current.

    Returns:
        Temperature [K].

    Raises:
        InputError: as :func:`chain_of`.

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    state = chain_of(chain)
    return state.hot_spot[1]


@formula(
    ("Conductor temperature at a place", "T(x)", "°C"),
    "T(x), quad " + FIN,
    {"chain": Chain, "place": ("Distance from the lower end", "x", "mm")},
    CITATION,
)
def chain_temperature(
    chain: Chain,
    place: float,
) -> float:
    """How hot the conductor is at a place.

    T(x) of the stretch that holds x

    Args:
        chain: The conductor, its surroundings and its current.
        place: Distance from the lower end [m].

    Returns:
        Temperature [K].

    Raises:
        InputError: as :func:`chain_of`.

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    state = chain_of(chain)
    return state.temperature(place)


@formula(
    ("Mean temperature of a stretch", 'T_"m"', "°C"),
    "1 / L_n integral T dif x, quad " + FIN,
    {"chain": Chain, "number": ("Number of the stretch, from the lower end", "n", "1")},
    CITATION,
)
def chain_mean(
    chain: Chain,
    number: float,
) -> float:
    """Mean temperature of the conductor in one stretch.

    T_m = integral of T(x) over the stretch, over its length

    Args:
        chain: The conductor, its surroundings and its current.
        number: Of the stretch, from 1 at the lower end [1].

    Returns:
        Temperature [K].

    Raises:
        InputError: as :func:`chain_of`.

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    state = chain_of(chain)
    return state.means[round(number) - 1]
