"""Heat in against heat out, counted apart from the solution that is to be proved."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from shedlight.physics.domain import positive
from shedlight.physics.heat.chain import CHAIN, CITATION, FIN, Many, chain_of
from shedlight.physics.heat.conductor import REFERENCE_TEMPERATURE
from shedlight.physics.heat.zones import ChainState, Zone
from shedlight.sources import cite
from shedlight.trace import formula

_POINTS, _WEIGHTS = np.polynomial.legendre.leggauss(12)


def _made(zone: Zone, current: float, temperature: float) -> float:
    warm = 1 + zone.temperature_coefficient * (temperature - REFERENCE_TEMPERATURE)
    return current**2 * zone.resistance_20 * warm + zone.other_power


def _lost(zone: Zone, current: float, temperature: float) -> float:
    return zone.side_conductance * (temperature - zone.surroundings)


def _summed(
    state: ChainState, zones: tuple[Zone, ...], density: Callable[[Zone, float, float], float]
) -> float:
    """A heat per length, integrated along every stretch [W]."""
    total = 0.0
    for zone, fin in zip(zones, state.fins, strict=True):
        places = zone.length * (_POINTS + 1) / 2
        found = [density(zone, state.current, fin.temperature(float(place))) for place in places]
        total += zone.length / 2 * float(np.dot(_WEIGHTS, found))
    return total


@formula(
    ("Heat made in the bushing", 'P_"in"', "W"),
    "sum P + sum integral (I^2 r_i (1 + alpha (T - 20 °C)) + p_i) dif x, quad " + FIN,
    CHAIN,
    CITATION,
    note="Integrals by Gauss and Legendre over the temperatures found, apart from the solution.",
)
def chain_generated(
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
    """Heat made by the current and the voltage, in conductor and ends.

    P_in = sum P + sum of the integrals of I² r (1 + alpha (T - 20 °C)) + p

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
        Heat; negative only if a line takes more than is made [W].

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
    return _summed(state, state.zones, _made) + sum(end_powers)


@formula(
    ("Heat given to oil, cover and air", 'P_"out"', "W"),
    '"sum" thin U (T - T_"end") + "sum" thin integral G_i (T - T_i) dif x, quad ' + FIN,
    {
        **CHAIN,
        "renewed_conductances": ("Conductances renewed once more", "G_i", "W/mK"),
        "renewed_surroundings": ("Surroundings renewed once more", "T_i", "°C"),
    },
    CITATION,
    note="Integrals by Gauss and Legendre over the temperatures found, with the films of one "
    "further round: it closes only once the rounds have settled.",
)
def chain_given_off(  # noqa: PLR0913, PLR0917 (each is a line of the trace)
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
    renewed_conductances: Many,
    renewed_surroundings: Many,
) -> float:
    """Heat that leaves through sides and ends, what flows in counted negative.

    P_out = sum U (T - T_end) + sum of the integrals of G (T - T_i), films renewed once more

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
        renewed_conductances: Conductances at the temperatures found, per length [W/mK].
        renewed_surroundings: Temperature around each stretch, with them [K].

    Returns:
        Heat [W].

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
    renewed = tuple(
        replace(zone, side_conductance=conductance, surroundings=around)
        for zone, conductance, around in zip(
            state.zones, renewed_conductances, renewed_surroundings, strict=True
        )
    )
    ends = zip(
        end_conductances, (state.temperatures[0], state.temperatures[-1]), end_ambients, strict=True
    )
    return _summed(state, renewed, _lost) + sum(
        conductance * (end - ambient) for conductance, end, ambient in ends
    )


@formula(
    ("Heat that the warm oil leads in", 'P_"oil"', "W"),
    "U_1 (T_1 - T(0)), quad " + FIN,
    CHAIN,
    CITATION,
)
def chain_led_in(
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
    """Heat that flows from the oil into the lower end.

    P_oil = U_1 (T_1 - T(0))

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
        Heat; negative if the conductor heats the oil [W].

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
    return end_conductances[0] * (end_ambients[0] - state.temperatures[0])


@formula(
    ("Heat unaccounted for", "delta", "%"),
    'abs(P_"in" - P_"out") / (P_"in" + abs(P_"end"))',
    {
        "generated": ("Heat made in the bushing", 'P_"in"', "W"),
        "given_off": ("Heat given to oil, cover and air", 'P_"out"', "W"),
        "led_in": ("Heat led in from the oil", 'P_"end"', "W"),
    },
    cite("first principles", "conservation of energy", "exact"),
)
def unaccounted(generated: float, given_off: float, led_in: float) -> float:
    """Share of the heat that a balance misses.

    delta = |P_in - P_out|/(|P_in| + |P_end|)

    Args:
        generated: Heat made in the bushing [W].
        given_off: Heat given off, net [W].
        led_in: Heat that passes through besides, led in at the warm end [W].

    Returns:
        Share [1].

    Raises:
        InputError: nothing made and nothing led in.

    Source: conservation of energy — basis: exact.
    Valid for: steady states.
    """
    turned_over = abs(generated) + abs(led_in)
    positive(turned_over=turned_over)
    return abs(generated - given_off) / turned_over
