"""Conductor, oil and porcelain as three heat stores: steps, a day's load, emergency loading.

    C dT/dt = -K(I) T + sources,   K linear because the loss I² R grows linearly with temperature

For one current this is linear, so every step is exact: a sum of three exponentials about the
settled state. A day is a row of spells of constant current; the state that repeats itself day
after day follows from one linear system.
"""

import math
from dataclasses import dataclass
from itertools import accumulate

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.heat.conductor import REFERENCE_TEMPERATURE
from shedlight.physics.heat.fin_state import RUNAWAY

Array = NDArray[np.float64]
Temperatures = tuple[float, float, float]  # conductor, oil, porcelain [K]

_LARGEST_EXPONENT = 300.0
_SAMPLES = 64  # per spell, where the highest temperature is looked for
_ZOOMS = 3  # each looks again between the neighbours of the highest sample


@dataclass(frozen=True)
class HeatStores:
    """Three heat stores in a row between the tank's oil and the air.

    Raises:
        InputError: a field outside its domain.
    """

    conductor: float  # heat capacity [J/K]
    oil: float  # heat capacity of the bushing's own oil [J/K]
    porcelain: float  # heat capacity [J/K]
    conductor_to_tank: float  # along the conductor into the tank's oil [W/K]
    conductor_to_oil: float  # [W/K]
    oil_to_porcelain: float  # [W/K]
    porcelain_to_air: float  # [W/K]
    resistance_20: float  # of the conductor at 20 °C, skin effect included [Ω]
    temperature_coefficient: float  # at 20 °C [1/K]

    def __post_init__(self) -> None:
        """Refuse what stores no heat."""
        positive(
            conductor=self.conductor,
            oil=self.oil,
            porcelain=self.porcelain,
            conductor_to_oil=self.conductor_to_oil,
            oil_to_porcelain=self.oil_to_porcelain,
            porcelain_to_air=self.porcelain_to_air,
            resistance_20=self.resistance_20,
        )
        not_negative(
            conductor_to_tank=self.conductor_to_tank,
            temperature_coefficient=self.temperature_coefficient,
        )


@dataclass(frozen=True)
class Spell:
    """Some time of constant current and surroundings."""

    duration: float  # [s]
    current: float  # rms [A]
    tank_oil: float  # [K]
    air: float  # [K]
    sun: float = 0.0  # taken up by the porcelain [W]

    def __post_init__(self) -> None:
        """Refuse what is no spell."""
        positive(duration=self.duration, tank_oil=self.tank_oil, air=self.air)
        not_negative(current=self.current, sun=self.sun)


@dataclass(frozen=True)
class _Modes:
    """Decay rates [1/s], shapes and the settled state of one spell."""

    rates: Array
    shapes: Array  # columns, orthonormal over the heat capacities
    capacities: Array
    settled: Array

    def after(self, start: Array, time: float) -> Array:
        weights = self.shapes.T @ (self.capacities * (start - self.settled))
        # A spell that would run away in the end is still exact while it lasts.
        grown = np.exp(np.minimum(-self.rates * time, _LARGEST_EXPONENT))
        return self.settled + self.shapes @ (grown * weights)

    def at(self, start: Array, times: Array) -> Array:
        """Temperatures of all stores at some times [K]."""
        weights = self.shapes.T @ (self.capacities * (start - self.settled))
        grown = np.exp(np.minimum(-np.outer(times, self.rates), _LARGEST_EXPONENT))
        found: Array = self.settled + (grown * weights) @ self.shapes.T
        return found

    def lasting(self, current: float) -> "_Modes":
        """Refuse a spell that never settles."""
        if self.rates[0] <= 0:
            raise InputError(f"current: given {current:g} A; {RUNAWAY}")
        return self


def _modes(stores: HeatStores, spell: Spell) -> _Modes:
    tank, inner = stores.conductor_to_tank, stores.conductor_to_oil
    wall, outer = stores.oil_to_porcelain, stores.porcelain_to_air
    growth = spell.current**2 * stores.resistance_20 * stores.temperature_coefficient
    matrix = np.array(
        [
            [tank + inner - growth, -inner, 0.0],
            [-inner, inner + wall, -wall],
            [0.0, -wall, wall + outer],
        ]
    )
    loss = spell.current**2 * stores.resistance_20 - growth * REFERENCE_TEMPERATURE
    load = np.array([loss + tank * spell.tank_oil, 0.0, outer * spell.air + spell.sun])
    capacities = np.array([stores.conductor, stores.oil, stores.porcelain])
    scale = 1 / np.sqrt(capacities)
    rates, plain = np.linalg.eigh(matrix * np.outer(scale, scale))
    return _Modes(rates, scale[:, None] * plain, capacities, np.linalg.solve(matrix, load))


def _as_temperatures(values: Array) -> Temperatures:
    return float(values[0]), float(values[1]), float(values[2])


def time_constants(stores: HeatStores, current: float) -> tuple[float, float, float]:
    """Time constants of the three stores together, slowest first.

    1/tau are the eigenvalues of C⁻¹ K(I)

    Args:
        stores: The heat stores.
        current: Current, rms; more makes the slowest slower [A].

    Returns:
        Time constants [s].

    Raises:
        InputError: current negative, or so large that nothing settles ("runaway").

    Source: linear heat stores — basis: exact.
    Valid for: one temperature per store.
    """
    modes = _modes(stores, Spell(1.0, current, REFERENCE_TEMPERATURE, REFERENCE_TEMPERATURE))
    modes.lasting(current)
    return _as_temperatures(1 / modes.rates)


def settled(stores: HeatStores, spell: Spell) -> Temperatures:
    """Temperatures that a spell would reach if it lasted.

    K(I) T = sources

    Args:
        stores: The heat stores.
        spell: Current and surroundings.

    Returns:
        Conductor, oil, porcelain [K].

    Raises:
        InputError: nothing settles ("runaway").

    Source: linear heat stores — basis: exact.
    Valid for: one temperature per store.
    """
    return _as_temperatures(_modes(stores, spell).lasting(spell.current).settled)


def after(stores: HeatStores, start: Temperatures, spell: Spell) -> Temperatures:
    """Temperatures at the end of a spell.

    T(t) = T_inf + sum of three modes · exp(-t/tau_i)

    Args:
        stores: The heat stores.
        start: Conductor, oil, porcelain at its beginning [K].
        spell: Duration, current and surroundings.

    Returns:
        Conductor, oil, porcelain [K].

    Source: linear heat stores — basis: exact.
    Valid for: one temperature per store.
    """
    modes = _modes(stores, spell)
    return _as_temperatures(modes.after(np.array(start), spell.duration))


def time_to_limit(stores: HeatStores, start: Temperatures, spell: Spell, limit: float) -> float:
    """How long into a spell the conductor reaches a temperature.

    T_conductor(t) = limit, by bisection on the exact response

    Args:
        stores: The heat stores.
        start: Conductor, oil, porcelain at its beginning [K].
        spell: Current and surroundings; looked for within its duration.
        limit: Temperature of the conductor [K].

    Returns:
        Time; 0 if it is that hot already, infinity if it is not reached in the spell [s].

    Raises:
        InputError: limit not above zero.

    Source: linear heat stores — basis: exact.
    Valid for: one temperature per store.
    """
    positive(limit=limit)
    modes, begin = _modes(stores, spell), np.array(start)

    # Half a second of imports that only those pay who ask for a time or a current.
    from scipy.optimize import brentq  # noqa: PLC0415

    def short_of(time: float) -> float:
        return limit - float(modes.after(begin, time)[0])

    if short_of(0.0) <= 0:
        return 0.0
    times = np.linspace(0.0, spell.duration, 4 * _SAMPLES)
    reached = next((time for time in times if short_of(float(time)) <= 0), None)
    if reached is None:
        return math.inf
    return float(brentq(short_of, reached - times[1], reached, xtol=1e-6))


def emergency_current(stores: HeatStores, start: Temperatures, spell: Spell, limit: float) -> float:
    """Current that brings the conductor just to a limit at the end of a spell.

    T_conductor(duration; I) = limit, solved for I

    Args:
        stores: The heat stores.
        start: Conductor, oil, porcelain at its beginning [K].
        spell: Duration and surroundings; its own current is not used.
        limit: Temperature of the conductor allowed [K].

    Returns:
        Current, rms; 0 if the limit is exceeded even without current [A].

    Raises:
        InputError: limit not above zero.

    Source: linear heat stores — basis: exact.
    Valid for: one temperature per store; not for short circuits, which are adiabatic.
    """
    positive(limit=limit)

    from scipy.optimize import brentq  # noqa: PLC0415

    def over(current: float) -> float:
        trial = Spell(spell.duration, current, spell.tank_oil, spell.air, spell.sun)
        return after(stores, start, trial)[0] - limit

    if over(0.0) >= 0:
        return 0.0
    low, high = 0.0, 1.0
    while over(high) <= 0:
        low, high = high, 2 * high
    return float(brentq(over, low, high, xtol=1e-6))


@dataclass(frozen=True)
class Cycle:
    """A row of spells that repeats itself; its state after the last is that before the first."""

    stores: HeatStores
    spells: tuple[Spell, ...]
    starts: tuple[Temperatures, ...]  # at the beginning of every spell

    @property
    def times(self) -> tuple[float, ...]:
        """When every spell begins, and the end [s]."""
        return (0.0, *accumulate(spell.duration for spell in self.spells))

    def temperatures(self, time: float) -> Temperatures:
        """Conductor, oil, porcelain at a time, counted round [K]."""
        times = self.times
        inside = time % times[-1]
        index = max(i for i, begin in enumerate(times[:-1]) if begin <= inside)
        modes = _modes(self.stores, self.spells[index])
        return _as_temperatures(modes.after(np.array(self.starts[index]), inside - times[index]))

    def course(self, samples: int) -> tuple[Array, Array]:
        """Times [s] and temperatures of the three stores [K], evenly sampled in every spell."""
        shares = (np.arange(samples) + 0.5) / samples
        times, found = [], []
        for begin, start, spell in zip(self.times, self.starts, self.spells, strict=False):
            modes, inside = _modes(self.stores, spell), spell.duration * shares
            times.append(begin + inside)
            found.append(modes.at(np.array(start), inside))
        return np.concatenate(times), np.concatenate(found)

    @property
    def highest(self) -> tuple[float, float]:
        """When the conductor is hottest [s], and how hot [K]."""
        found: list[tuple[float, float]] = []
        for begin, start, spell in zip(self.times, self.starts, self.spells, strict=False):
            modes, first = _modes(self.stores, spell), np.array(start)
            low, high = 0.0, spell.duration
            for _ in range(_ZOOMS):
                times = np.linspace(low, high, _SAMPLES)
                values = modes.at(first, times)[:, 0]
                top = int(np.argmax(values))
                found.append((begin + float(times[top]), float(values[top])))
                low, high = times[max(top - 1, 0)], times[min(top + 1, _SAMPLES - 1)]
        return max(found, key=lambda item: item[1])


def repeated(stores: HeatStores, spells: tuple[Spell, ...]) -> Cycle:
    """The day that repeats itself: as hot at its end as at its beginning.

    T = M_n(… M_1(T)), each M_i the exact response to a spell; solved as a linear system

    Args:
        stores: The heat stores.
        spells: In order, making up the cycle; at least one.

    Returns:
        The cycle with the temperatures at the beginning of every spell.

    Raises:
        InputError: no spell, or each round is hotter than the one before ("runaway").

    Source: linear heat stores — basis: exact.
    Valid for: one temperature per store; surroundings that repeat themselves too.
    """
    if not spells:
        raise InputError("spells: given none; expected at least one")
    modes = [_modes(stores, spell) for spell in spells]

    def through(start: Array) -> Array:
        for mode, spell in zip(modes, spells, strict=True):
            start = mode.after(start, spell.duration)
        return start

    offset = through(np.zeros(3))
    response = np.column_stack([through(unit) - offset for unit in np.eye(3)])
    if np.abs(np.linalg.eigvals(response)).max() >= 1:
        raise InputError(f"spells: from one to the next hotter; {RUNAWAY}")
    start: Array = np.linalg.solve(np.eye(3) - response, offset).astype(np.float64)
    starts = []
    for mode, spell in zip(modes, spells, strict=True):
        starts.append(_as_temperatures(start))
        start = mode.after(start, spell.duration)
    return Cycle(stores, spells, tuple(starts))


def response_time(stores: HeatStores, before: Spell, afterwards: Spell) -> float:
    """Time in which the conductor goes 63.2 % of the way after a step of load.

    (T(t) - T_0)/(T_inf - T_0) = 1 - 1/e: the one time constant a loading guide wants

    Args:
        stores: The heat stores.
        before: Load and surroundings before the step, settled.
        afterwards: Those after it; looked for up to its duration.

    Returns:
        Time; infinity if the spell is too short [s].

    Raises:
        InputError: the step is none, or something runs away.

    Source: definition of a time constant on linear heat stores — basis: exact.
    Valid for: one temperature per store.
    """
    start, end = settled(stores, before), settled(stores, afterwards)
    if abs(end[0] - start[0]) < 1e-9:
        raise InputError("afterwards: given the load of before; expected a step of load")
    goal = end[0] + (start[0] - end[0]) / math.e
    if end[0] > start[0]:
        return time_to_limit(stores, start, afterwards, goal)
    modes, begin = _modes(stores, afterwards), np.array(start)

    from scipy.optimize import brentq  # noqa: PLC0415

    def above(time: float) -> float:
        return float(modes.after(begin, time)[0]) - goal

    if above(afterwards.duration) > 0:
        return math.inf
    return float(brentq(above, 0.0, afterwards.duration, xtol=1e-6))
