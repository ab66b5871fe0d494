"""Heat in against heat out, counted apart from the solution that is to be proved."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from shedlight.physics.domain import positive
from shedlight.physics.heat.chain import CITATION, FIN, Chain, Many, chain_of
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
    {"chain": Chain},
    CITATION,
    note="Integrals by Gauss and Legendre over the temperatures found, apart from the solution.",
)
def chain_generated(
    chain: Chain,
) -> float:
    """Heat made by the current and the voltage, in conductor and ends.

    P_in = sum P + sum of the integrals of I² r (1 + alpha (T - 20 °C)) + p

    Args:
        chain: The conductor, its surroundings and its current.

    Returns:
        Heat; negative only if a line takes more than is made [W].

    Raises:
        InputError: as :func:`chain_of`.

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    state = chain_of(chain)
    return _summed(state, state.zones, _made) + sum(chain.end_powers)


@formula(
    ("Heat given to oil, cover and air", 'P_"out"', "W"),
    '"sum" thin U (T - T_"end") + "sum" thin integral G_i (T - T_i) dif x, quad ' + FIN,
    {
        "chain": Chain,
        "renewed_conductances": ("Conductances renewed once more", "G_i", "W/mK"),
        "renewed_surroundings": ("Surroundings renewed once more", "T_i", "°C"),
    },
    CITATION,
    note="Integrals by Gauss and Legendre over the temperatures found, with the films of one "
    "further round: it closes only once the rounds have settled.",
)
def chain_given_off(
    chain: Chain,
    renewed_conductances: Many,
    renewed_surroundings: Many,
) -> float:
    """Heat that leaves through sides and ends, what flows in counted negative.

    P_out = sum U (T - T_end) + sum of the integrals of G (T - T_i), films renewed once more

    Args:
        chain: The conductor, its surroundings and its current.
        renewed_conductances: Conductances at the temperatures found, per length [W/mK].
        renewed_surroundings: Temperature around each stretch, with them [K].

    Returns:
        Heat [W].

    Raises:
        InputError: as :func:`chain_of`.

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    state = chain_of(chain)
    renewed = tuple(
        replace(zone, side_conductance=conductance, surroundings=around)
        for zone, conductance, around in zip(
            state.zones, renewed_conductances, renewed_surroundings, strict=True
        )
    )
    ends = zip(
        chain.end_conductances,
        (state.temperatures[0], state.temperatures[-1]),
        chain.end_ambients,
        strict=True,
    )
    return _summed(state, renewed, _lost) + sum(
        conductance * (end - ambient) for conductance, end, ambient in ends
    )


@formula(
    ("Heat that the warm oil leads in", 'P_"oil"', "W"),
    "U_1 (T_1 - T(0)), quad " + FIN,
    {"chain": Chain},
    CITATION,
)
def chain_led_in(
    chain: Chain,
) -> float:
    """Heat that flows from the oil into the lower end.

    P_oil = U_1 (T_1 - T(0))

    Args:
        chain: The conductor, its surroundings and its current.

    Returns:
        Heat; negative if the conductor heats the oil [W].

    Raises:
        InputError: as :func:`chain_of`.

    Source: Carslaw and Jaeger, rod heated by a current; balance at the nodes — basis: exact.
    Valid for: one temperature over the cross-section, steady values in each stretch.
    """
    state = chain_of(chain)
    return chain.end_conductances[0] * (chain.end_ambients[0] - state.temperatures[0])


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
