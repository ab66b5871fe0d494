"""From the steady bushing to its three heat stores: a lumped model that settles where it does.

Two conductances, into the tank's oil and to the air, are chosen so that the model has the mean
conductor temperature of the bushing both without current and at the current of the case. That to
the air is split between conductor, oil and porcelain as the resistances across the stretches in
air are.
"""

import math
from dataclasses import dataclass, replace

from shedlight.errors import InputError
from shedlight.physics.domain import positive
from shedlight.physics.heat.conductor import REFERENCE_TEMPERATURE
from shedlight.physics.heat.heat_stores import HeatStores
from shedlight.physics.heat.oil_properties import oil_density, oil_specific_heat
from shedlight.physics.heat.steady import SteadyCase, SteadyState, steady_state
from shedlight.physics.heat.stretches import OpenAir, Stretch


@dataclass(frozen=True)
class BushingStores:
    """Heat stores of a bushing, and what its hottest spot has over the mean of the conductor."""

    stores: HeatStores
    excess: float  # hot spot less mean conductor temperature, at the case's current [K]

    def hot_spot(self, conductor: float, load: float) -> float:
        """Hot spot for a mean conductor temperature [K] and current over the case's, [K]."""
        return conductor + self.excess * load**2


def mean_conductor(state: SteadyState) -> float:
    """Mean temperature of the whole conductor.

    sum of L_i T_i/sum of L_i over the stretches

    Args:
        state: What a bushing settled to.

    Returns:
        Temperature [K].

    Source: mean weighed by length — basis: exact.
    """
    lengths = [zone.length for zone in state.chain.zones]
    weighted = sum(mean * length for mean, length in zip(state.chain.means, lengths, strict=True))
    return weighted / sum(lengths)


def stores_of(case: SteadyCase, conductor_heat: float, porcelain_heat: float) -> BushingStores:
    """Heat stores of a bushing that settle at its steady temperature.

    K_tank (T_tank - T) + I² R = K_air (T - T_air), for the idle and the loaded bushing at once

    Args:
        case: The bushing at the current for which the model has to be right, tank hotter than
            air, some of it housed in air; the sun is left out.
        conductor_heat: Heat per volume and kelvin of the conductor [J/m³K].
        porcelain_heat: Heat per volume and kelvin of the porcelain [J/m³K].

    Returns:
        The stores, and the hot spot's excess.

    Raises:
        InputError: no current, no housing in air, the tank not hotter than the air, or "runaway".

    Source: balance of lumped heat stores — basis: exact for the settled states without and with
        this current; the way from one to the other is an estimate.
    Valid for: currents up to about that of the case.
    """
    shaded = replace(case, stretches=tuple(_shaded(stretch) for stretch in case.stretches))
    if isinstance(case.upper.outside, OpenAir):
        upper = replace(case.upper, outside=replace(case.upper.outside, irradiance=0.0))
        shaded = replace(shaded, upper=upper)
    positive(current=case.current)
    loaded, idle = steady_state(shaded), steady_state(replace(shaded, current=0.0))
    return stores_between(shaded, loaded, idle, conductor_heat, porcelain_heat)


def stores_between(
    shaded: SteadyCase,
    loaded: SteadyState,
    idle: SteadyState,
    conductor_heat: float,
    porcelain_heat: float,
) -> BushingStores:
    """Heat stores of a bushing whose settled states are known already.

    As :func:`stores_of`

    Args:
        shaded: The bushing at its current, without sun.
        loaded: What it settles to.
        idle: What it settles to without current.
        conductor_heat: Heat per volume and kelvin of the conductor [J/m³K].
        porcelain_heat: Heat per volume and kelvin of the porcelain [J/m³K].

    Returns:
        The stores, and the hot spot's excess.

    Raises:
        InputError: no current, no housing in air, or the tank not hotter than the air.

    Source: balance of lumped heat stores — basis: exact for the settled states.
    Valid for: currents up to about that of the case.
    """
    positive(conductor_heat=conductor_heat, porcelain_heat=porcelain_heat, current=shaded.current)
    case = shaded
    tank, air = case.lower.outside.temperature, case.upper.outside.temperature
    warm, cool = mean_conductor(loaded), mean_conductor(idle)
    if not tank > cool > air or not warm > cool:
        raise InputError(f"case: given a tank at {tank:g} K in air at {air:g} K; expected hotter")
    resistance = _resistance(shaded, warm)
    made = case.current**2 * resistance * _growth(case, warm)
    ratio = (tank - cool) / (cool - air)
    to_tank = made / (ratio * (warm - air) - (tank - warm))
    to_air = ratio * to_tank
    filling, wall, outside = _shares(shaded, loaded)
    oil, porcelain = _capacities(shaded, loaded)
    metal = case.wire.area * sum(one.length * one.area_ratio for one in case.stretches)
    stores = HeatStores(
        conductor_heat * metal,
        oil,
        porcelain_heat * porcelain,
        to_tank,
        to_air / (filling / 2),
        to_air / (filling / 2 + wall / 2),
        to_air / (wall / 2 + outside),
        resistance,
        case.wire.temperature_coefficient,
    )
    return BushingStores(stores, loaded.hot_spot[1] - warm)


def _shaded(stretch: Stretch) -> Stretch:
    if isinstance(stretch.outside, OpenAir):
        return replace(stretch, outside=replace(stretch.outside, irradiance=0.0))
    return stretch


def _growth(case: SteadyCase, temperature: float) -> float:
    rise = temperature - REFERENCE_TEMPERATURE
    return 1 + case.wire.temperature_coefficient * rise


def _resistance(case: SteadyCase, temperature: float) -> float:
    """Whole resistance at 20 °C, with both joints so counted that they are right when warm."""
    length = sum(stretch.length / stretch.area_ratio for stretch in case.stretches)
    joints = case.lower.contact_resistance + case.upper.contact_resistance
    return case.wire.resistance_20(temperature) * length + joints / _growth(case, temperature)


def _shares(case: SteadyCase, state: SteadyState) -> tuple[float, float, float]:
    """Shares of filling, wall and outside in the resistance across the housed air end."""
    drops = [0.0, 0.0, 0.0]
    for stretch, side, mean in zip(case.stretches, state.across, state.chain.means, strict=True):
        if stretch.housing is not None and isinstance(stretch.outside, OpenAir):
            drops[0] += (mean - side.bore) * stretch.length
            drops[1] += (side.bore - side.surface) * stretch.length
            drops[2] += (side.surface - side.surroundings) * stretch.length
    total = sum(drops)
    if not total > 0:
        raise InputError("stretches: given none housed in air; expected at least one")
    return drops[0] / total, drops[1] / total, drops[2] / total


def _capacities(case: SteadyCase, state: SteadyState) -> tuple[float, float]:
    """Heat capacity of the oil [J/K] and volume of the porcelain [m³]."""
    oil, porcelain = 0.0, 0.0
    for stretch, side, mean in zip(case.stretches, state.across, state.chain.means, strict=True):
        housing = stretch.housing
        if housing is None:
            continue
        middle = (mean + side.bore) / 2
        space = math.pi * (housing.bore_radius**2 - case.wire.outer_radius**2) * stretch.length
        if housing.oil_filled:
            oil += space * oil_density(middle) * oil_specific_heat(middle)
        porcelain += math.pi * (housing.body_radius**2 - housing.bore_radius**2) * stretch.length
    return max(oil, 1e-6), porcelain
