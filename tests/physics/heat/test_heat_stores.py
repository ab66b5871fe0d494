"""Heat stores against a solver of differential equations, and the loading guide's fit."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from shedlight.errors import InputError
from shedlight.physics.heat import guide_fit, heat_stores, loading, top_oil
from shedlight.physics.heat.heat_stores import HeatStores, Spell, Temperatures

Array = NDArray[np.float64]

STORES = HeatStores(1400.0, 900.0, 3500.0, 1.4, 1.6, 1.3, 1.1, 1.3e-5, 0.00393)
CALM = Spell(3600.0, 800.0, 358.15, 313.15)
HOUR = 3600.0

currents = st.floats(0, 1400)
starts = st.tuples(st.floats(270, 390), st.floats(270, 390), st.floats(270, 390))


def slope(stores: HeatStores, spell: Spell, t: Array) -> Array:
    """Heat balances written out, not as a matrix."""
    resistance = stores.resistance_20 * (1 + stores.temperature_coefficient * (t[0] - 293.15))
    into_oil = stores.conductor_to_oil * (t[0] - t[1])
    into_wall = stores.oil_to_porcelain * (t[1] - t[2])
    conductor = spell.current**2 * resistance - into_oil
    conductor -= stores.conductor_to_tank * (t[0] - spell.tank_oil)
    porcelain = into_wall + spell.sun - stores.porcelain_to_air * (t[2] - spell.air)
    return np.array(
        [
            conductor / stores.conductor,
            (into_oil - into_wall) / stores.oil,
            porcelain / stores.porcelain,
        ]
    )


@settings(max_examples=15, deadline=None)
@given(currents, starts, st.floats(60, 20000), st.floats(0, 50))
def test_a_spell_is_what_the_balances_integrate_to(
    current: float, start: Temperatures, duration: float, sun: float
) -> None:
    spell = Spell(duration, current, 358.15, 313.15, sun)
    found = heat_stores.after(STORES, start, spell)
    rival = solve_ivp(
        lambda _, t: slope(STORES, spell, t), (0, duration), start, rtol=1e-9, atol=1e-9
    )
    assert found == pytest.approx(tuple(rival.y[:, -1]), abs=1e-5)


@given(currents)
def test_nothing_changes_any_more_once_settled(current: float) -> None:
    spell = replace(CALM, current=current)
    end = heat_stores.settled(STORES, spell)
    assert np.abs(slope(STORES, spell, np.array(end))).max() < 1e-10
    assert heat_stores.after(STORES, end, spell) == pytest.approx(end, abs=1e-8)


@given(currents, st.floats(1, 300))
def test_more_current_is_slower_and_hotter(current: float, more: float) -> None:
    slow, middle, fast = heat_stores.time_constants(STORES, current)
    assert slow > middle > fast > 0
    assert heat_stores.time_constants(STORES, current + more)[0] > slow
    one = heat_stores.settled(STORES, replace(CALM, current=current))
    other = heat_stores.settled(STORES, replace(CALM, current=current + more))
    assert all(cool < hot for cool, hot in zip(one, other, strict=True))


def test_one_store_that_rules_has_the_time_constant_of_its_own() -> None:
    """Handbook case: 30 mm copper, 2438.4 J/mK on 2 W/mK, 20.3 min."""
    stores = HeatStores(2438.4, 1e-3, 1e-3, 0.0, 2.0, 1e6, 1e6, 1e-9, 0.0)
    assert heat_stores.time_constants(stores, 0.0)[0] / 60 == pytest.approx(20.32, abs=0.01)


DAY = (
    Spell(7 * HOUR, 400.0, 340.15, 293.15),
    Spell(4 * HOUR, 900.0, 350.15, 303.15, 20.0),
    Spell(6 * HOUR, 700.0, 352.15, 308.15, 30.0),
    Spell(4 * HOUR, 1200.0, 360.15, 303.15),
    Spell(3 * HOUR, 600.0, 350.15, 296.15),
)


def test_the_day_repeats_itself() -> None:
    cycle = heat_stores.repeated(STORES, DAY)
    assert cycle.times[-1] == 24 * HOUR
    assert heat_stores.after(STORES, cycle.starts[-1], DAY[-1]) == pytest.approx(cycle.starts[0])
    assert cycle.temperatures(25 * HOUR) == pytest.approx(cycle.temperatures(HOUR))
    start: Temperatures = (293.15, 293.15, 293.15)
    for _ in range(12):
        for spell in DAY:
            start = heat_stores.after(STORES, start, spell)
    assert start == pytest.approx(cycle.starts[0], abs=1e-6)


def test_the_highest_of_the_day_is_the_highest() -> None:
    cycle = heat_stores.repeated(STORES, DAY)
    when, highest = cycle.highest
    sampled = [cycle.temperatures(time)[0] for time in np.linspace(0, 24 * HOUR, 500)]
    assert max(sampled) <= highest + 1e-9
    assert cycle.temperatures(when)[0] == pytest.approx(highest, abs=1e-6)
    assert 17 * HOUR < when <= 21 * HOUR


def test_a_steady_day_is_the_settled_state() -> None:
    cycle = heat_stores.repeated(STORES, (CALM, CALM))
    assert cycle.starts[1] == pytest.approx(heat_stores.settled(STORES, CALM))
    with pytest.raises(InputError, match="at least one"):
        heat_stores.repeated(STORES, ())


def test_time_to_a_limit_and_the_current_that_just_reaches_it_agree() -> None:
    start = heat_stores.settled(STORES, CALM)
    spell = replace(CALM, duration=2 * HOUR, current=2200.0)
    limit = 378.15
    time = heat_stores.time_to_limit(STORES, start, spell, limit)
    assert 0 < time < 2 * HOUR
    assert heat_stores.after(STORES, start, replace(spell, duration=time))[0] == pytest.approx(
        limit, abs=1e-5
    )
    current = heat_stores.emergency_current(STORES, start, replace(spell, duration=time), limit)
    assert current == pytest.approx(2200.0, rel=1e-6)


def test_limits_met_at_once_or_never() -> None:
    start = heat_stores.settled(STORES, CALM)
    assert heat_stores.time_to_limit(STORES, start, CALM, start[0] - 1) == 0.0
    assert heat_stores.time_to_limit(STORES, start, CALM, start[0] + 50) == math.inf
    assert heat_stores.emergency_current(STORES, (400.0, 400.0, 400.0), CALM, 320.0) == 0.0


@given(st.floats(300, 20000), st.floats(360, 450))
def test_shorter_emergencies_bear_more(duration: float, limit: float) -> None:
    start = heat_stores.settled(STORES, replace(CALM, current=300.0))
    spell = replace(CALM, duration=duration)
    once = heat_stores.emergency_current(STORES, start, spell, limit)
    longer = heat_stores.emergency_current(
        STORES, start, replace(spell, duration=2 * duration), limit
    )
    assert longer <= once * (1 + 1e-6)


def test_response_time_up_and_down_lies_among_the_time_constants() -> None:
    high = replace(CALM, current=1200.0, duration=20 * HOUR)
    low = replace(high, current=400.0)
    slow, _, fast = heat_stores.time_constants(STORES, 1200.0)
    up = heat_stores.response_time(STORES, low, high)
    down = heat_stores.response_time(STORES, high, low)
    assert fast < down < up < slow
    with pytest.raises(InputError, match="step of load"):
        heat_stores.response_time(STORES, high, high)
    assert heat_stores.response_time(STORES, high, replace(low, duration=1.0)) == math.inf


def test_runaway_is_refused() -> None:
    with pytest.raises(InputError, match="runaway"):
        heat_stores.time_constants(STORES, 20000.0)
    with pytest.raises(InputError, match="runaway"):
        heat_stores.repeated(STORES, (replace(CALM, current=20000.0),))


def test_a_short_while_of_a_current_that_would_run_away_is_still_right() -> None:
    spell = Spell(60.0, 20000.0, 358.15, 313.15)
    start: Temperatures = (330.0, 330.0, 320.0)
    rival = solve_ivp(lambda _, t: slope(STORES, spell, t), (0, 60), start, rtol=1e-10)
    assert heat_stores.after(STORES, start, spell) == pytest.approx(tuple(rival.y[:, -1]))


# --- loading guide ------------------------------------------------------------------------


@settings(deadline=None)
@given(st.floats(10, 40), st.floats(0.3, 0.9), st.floats(1.2, 2.4))
def test_the_fit_finds_the_constants_again(k1: float, k2: float, n: float) -> None:
    points = [(load, oil) for load in (0.4, 0.7, 1.0, 1.3) for oil in (20.0, 40.0, 60.0)]
    loads = tuple(load for load, _ in points)
    oils = tuple(oil for _, oil in points)
    rises = tuple(
        loading.guide_hot_spot(313.15, k1, load, n, k2, oil) - 313.15 for load, oil in points
    )
    found = guide_fit.fit_guide(loads, oils, rises)
    assert found.current_rise == pytest.approx(k1, rel=1e-5)
    assert found.oil_share == pytest.approx(k2, rel=1e-5)
    assert found.exponent == pytest.approx(n, rel=1e-5)
    assert found.worst_miss < 1e-3
    assert found.rise(1.0, 50.0) == pytest.approx(k1 + k2 * 50, rel=1e-5)


def test_points_that_cannot_tell_current_from_oil_are_refused() -> None:
    loads = (1.0, 1.0, 1.0, 1.0)
    with pytest.raises(InputError, match="vary current and oil"):
        guide_fit.fit_guide(loads, (50.0,) * 4, (60.0,) * 4)
    with pytest.raises(InputError, match="at least four"):
        guide_fit.fit_guide((1.0,), (50.0,), (60.0,))


@pytest.mark.parametrize("row", top_oil.oil_coolings(), ids=lambda row: row.cooling)
def test_top_oil_rises_with_load_from_its_rated_value(row: top_oil.OilCooling) -> None:
    assert top_oil.oil_cooling(row.cooling) == row
    assert top_oil.top_oil_rise(52.0, 1.0, 6.0, row.exponent) == pytest.approx(52.0)
    assert top_oil.top_oil_rise(52.0, 0.0, 6.0, row.exponent) < 15
    assert top_oil.top_oil_rise(52.0, 1.3, 6.0, row.exponent) > 52


def test_an_unknown_cooling_is_refused() -> None:
    with pytest.raises(InputError, match="expected one of"):
        top_oil.oil_cooling("AN")
