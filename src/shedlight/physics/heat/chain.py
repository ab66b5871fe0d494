"""Temperatures of a conductor through several surroundings, from plain numbers, for the trace.

What :func:`zones.solve_chain` settles is told here quantity by quantity; every function takes the
same arguments first.
"""

from functools import lru_cache

from shedlight.physics.domain import not_negative, positive
from shedlight.physics.heat.zones import ChainState, Node, Zone, solve_chain
from shedlight.sources import cite
from shedlight.trace import formula

Many = tuple[float, ...]

CITATION = cite("Carslaw", "steady temperature in a thin rod heated by a current", "exact")
CHAIN = {
    "lengths": ("Lengths of the stretches", "L_i", "mm"),
    "conduction": ("Conductor's conductivity times area", "k A", "Wm/K"),
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
FIN = (
    "T'' - b_i (T - T_i) + s_i = 0, quad b_i = (G_i - I^2 r_i alpha) / (k A),"
    " quad s_i = (I^2 r_i (1 + alpha (T_i - 20 °C)) + p_i) / (k A)"
)


@lru_cache(maxsize=8)
def chain_of(
    lengths: Many,
    conduction: float,
    side_conductances: Many,
    surroundings: Many,
    resistances_20: Many,
    temperature_coefficient: float,
    other_powers: Many,
    end_conductances: Many,
    end_ambients: Many,
    end_powers: Many,
    current: float,
) -> ChainState:
    """The settled chain of a conductor with two free ends; the last few are kept.

    As :func:`zones.solve_chain`, from plain numbers

    Args:
        lengths: Of the stretches, from the lower end up [m].
        conduction: Conductivity times area of the conductor [Wm/K].
        side_conductances: To the surroundings, per length [W/mK].
        surroundings: Temperature around each stretch [K].
        resistances_20: Per length at 20 °C, skin effect included [Ω/m].
        temperature_coefficient: Of the resistance, at 20 °C [1/K].
        other_powers: Heat made besides that of the current, per length [W/m].
        end_conductances: Of the lower and the upper end [W/K].
        end_ambients: Around the lower and the upper end [K].
        end_powers: Made in the lower and the upper end [W].
        current: Current, rms [A].

    Returns:
        The steady state.

    Raises:
        InputError: a value outside its domain, or no steady state ("runaway").

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    positive(conduction=conduction)
    not_negative(current=current, temperature_coefficient=temperature_coefficient)
    zones = tuple(
        Zone(length, conduction, side, around, resistance, temperature_coefficient, power)
        for length, side, around, resistance, power in zip(
            lengths, side_conductances, surroundings, resistances_20, other_powers, strict=True
        )
    )
    lower, upper = (
        Node(conductance, ambient, power)
        for conductance, ambient, power in zip(
            end_conductances, end_ambients, end_powers, strict=True
        )
    )
    return solve_chain(zones, (lower, *(Node(),) * (len(zones) - 1), upper), current)


@formula(
    ("Hottest place of the conductor", 'T_"h"', "°C"),
    "max_x T(x), quad " + FIN,
    CHAIN,
    CITATION,
)
def chain_hot_spot(
    lengths: Many,
    conduction: float,
    side_conductances: Many,
    surroundings: Many,
    resistances_20: Many,
    temperature_coefficient: float,
    other_powers: Many,
    end_conductances: Many,
    end_ambients: Many,
    end_powers: Many,
    current: float,
) -> float:
    """How hot the hottest place of the conductor is.

    T_h = max T(x) over all stretches

    Args:
        lengths: Of the stretches, from the lower end up [m].
        conduction: Conductivity times area of the conductor [Wm/K].
        side_conductances: To the surroundings, per length [W/mK].
        surroundings: Temperature around each stretch [K].
        resistances_20: Per length at 20 °C, skin effect included [Ω/m].
        temperature_coefficient: Of the resistance, at 20 °C [1/K].
        other_powers: Heat made besides that of the current, per length [W/m].
        end_conductances: Of the lower and the upper end [W/K].
        end_ambients: Around the lower and the upper end [K].
        end_powers: Made in the lower and the upper end [W].
        current: Current, rms [A].

    Returns:
        Temperature [K].

    Raises:
        InputError: as :func:`chain_of`.

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    state = chain_of(
        lengths,
        conduction,
        side_conductances,
        surroundings,
        resistances_20,
        temperature_coefficient,
        other_powers,
        end_conductances,
        end_ambients,
        end_powers,
        current,
    )
    return state.hot_spot[1]


@formula(
    ("Conductor temperature at a place", "T(x)", "°C"),
    "T(x), quad " + FIN,
    {**CHAIN, "place": ("Distance from the lower end", "x", "mm")},
    CITATION,
)
def chain_temperature(
    lengths: Many,
    conduction: float,
    side_conductances: Many,
    surroundings: Many,
    resistances_20: Many,
    temperature_coefficient: float,
    other_powers: Many,
    end_conductances: Many,
    end_ambients: Many,
    end_powers: Many,
    current: float,
    place: float,
) -> float:
    """How hot the conductor is at a place.

    T(x) of the stretch that holds x

    Args:
        lengths: Of the stretches, from the lower end up [m].
        conduction: Conductivity times area of the conductor [Wm/K].
        side_conductances: To the surroundings, per length [W/mK].
        surroundings: Temperature around each stretch [K].
        resistances_20: Per length at 20 °C, skin effect included [Ω/m].
        temperature_coefficient: Of the resistance, at 20 °C [1/K].
        other_powers: Heat made besides that of the current, per length [W/m].
        end_conductances: Of the lower and the upper end [W/K].
        end_ambients: Around the lower and the upper end [K].
        end_powers: Made in the lower and the upper end [W].
        current: Current, rms [A].
        place: Distance from the lower end [m].

    Returns:
        Temperature [K].

    Raises:
        InputError: as :func:`chain_of`.

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    state = chain_of(
        lengths,
        conduction,
        side_conductances,
        surroundings,
        resistances_20,
        temperature_coefficient,
        other_powers,
        end_conductances,
        end_ambients,
        end_powers,
        current,
    )
    return state.temperature(place)


@formula(
    ("Mean temperature of a stretch", 'T_"m"', "°C"),
    "1 / L_n integral T dif x, quad " + FIN,
    {**CHAIN, "number": ("Number of the stretch, from the lower end", "n", "1")},
    CITATION,
)
def chain_mean(
    lengths: Many,
    conduction: float,
    side_conductances: Many,
    surroundings: Many,
    resistances_20: Many,
    temperature_coefficient: float,
    other_powers: Many,
    end_conductances: Many,
    end_ambients: Many,
    end_powers: Many,
    current: float,
    number: float,
) -> float:
    """Mean temperature of the conductor in one stretch.

    T_m = integral of T(x) over the stretch, over its length

    Args:
        lengths: Of the stretches, from the lower end up [m].
        conduction: Conductivity times area of the conductor [Wm/K].
        side_conductances: To the surroundings, per length [W/mK].
        surroundings: Temperature around each stretch [K].
        resistances_20: Per length at 20 °C, skin effect included [Ω/m].
        temperature_coefficient: Of the resistance, at 20 °C [1/K].
        other_powers: Heat made besides that of the current, per length [W/m].
        end_conductances: Of the lower and the upper end [W/K].
        end_ambients: Around the lower and the upper end [K].
        end_powers: Made in the lower and the upper end [W].
        current: Current, rms [A].
        number: Of the stretch, from 1 at the lower end [1].

    Returns:
        Temperature [K].

    Raises:
        InputError: as :func:`chain_of`.

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    state = chain_of(
        lengths,
        conduction,
        side_conductances,
        surroundings,
        resistances_20,
        temperature_coefficient,
        other_powers,
        end_conductances,
        end_ambients,
        end_powers,
        current,
    )
    return state.means[round(number) - 1]
