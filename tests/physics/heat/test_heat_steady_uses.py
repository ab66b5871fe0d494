"""What is made of a steady bushing: remarks on ranges, heat stores, guide constants, days."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.heat import (
    films,
    guide_fit,
    heat_stores,
    steady,
    steady_remarks,
    steady_stores,
    stretches,
    top_oil,
)
from shedlight.physics.heat.films import Cooling

HOUSING = stretches.Housing(0.025, 0.043, 0.070, 1.6, 1.0)


def bushing(current: float, tank: float = 368.15, air: float = 313.15) -> steady.SteadyCase:
    oil, weather = stretches.OilBath(tank), stretches.OpenAir(air)
    return steady.SteadyCase(
        steady.Wire(0.015, 0.0, 1.7241e-8, 0.00393, 385.0, 50.0),
        (
            stretches.Stretch(0.19, oil, HOUSING),
            stretches.Stretch(0.30, weather, HOUSING),
            stretches.Stretch(0.06, weather),
        ),
        steady.EndBody(oil, 0.006, 0.05, 0.04, 2e-6),
        steady.EndBody(weather, 0.02, 0.1, 0.1, 3e-6),
        current,
    )


# --- films against an independent library's numbers ----------------------------------------


def test_still_air_agrees_with_the_library_ht() -> None:
    """D 0.3, L 1.5, 60 °C in 40 °C: h = 3.627 W/m²K with its own air properties."""
    air = films.air_at(323.15)
    found = films.still_film(air, 20.0, 1.5, "still air", Cooling.MEAN)
    assert found == pytest.approx(3.627, rel=0.015)


@pytest.mark.parametrize(("speed", "film"), [(0.6, 4.965), (1.0, 6.612), (3.0, 12.72)])
def test_wind_agrees_with_the_library_ht(speed: float, film: float) -> None:
    found = films.wind_film(films.air_at(323.15), speed, 0.3, Cooling.MEAN)
    assert found == pytest.approx(film, rel=0.01)


def test_the_spread_of_still_air_holds_the_other_correlations() -> None:
    """Nusselt numbers of the same case by Popiel, McAdams, Kreith and Eckert over 195.0."""
    factors = films.spread("still air").factors
    for other in (202.1, 213.5, 151.6):
        assert factors[Cooling.LOW] * 0.997 <= other / 195.0 <= factors[Cooling.HIGH]


# --- remarks ------------------------------------------------------------------------------


def test_ranges_that_are_left_are_told() -> None:
    case = bushing(1000.0)
    remarks = steady_remarks.range_remarks(case, steady.steady_state(case))
    assert any("de Vahl Davis" in remark for remark in remarks)
    assert all(remark.startswith("stretch") for remark in remarks)


def test_lying_bushings_and_hot_oil() -> None:
    lying = replace(bushing(1000.0), lying=True)
    remarks = steady_remarks.range_remarks(lying, steady.steady_state(lying))
    assert not any("Rayleigh" in remark for remark in remarks)
    hot = bushing(2200.0)
    assert any(
        "hotter than the fits" in remark
        for remark in steady_remarks.range_remarks(hot, steady.steady_state(hot))
    )


# --- heat stores --------------------------------------------------------------------------


@pytest.mark.parametrize("current", [800.0, 1250.0])
def test_stores_settle_where_the_bushing_does(current: float) -> None:
    case = bushing(current)
    made = steady_stores.stores_of(case, 3.45e6, 2.2e6)
    spell = heat_stores.Spell(3600.0, current, 368.15, 313.15)
    conductor = heat_stores.settled(made.stores, spell)[0]
    state = steady.steady_state(case)
    assert made.hot_spot(conductor, 1.0) == pytest.approx(state.hot_spot[1], abs=1e-6)
    assert made.excess >= 0


def test_stores_are_right_enough_at_other_loads() -> None:
    made = steady_stores.stores_of(bushing(1000.0), 3.45e6, 2.2e6)
    for current, allowed in ((0.0, 1e-6), (500.0, 1.0), (800.0, 1.0), (1300.0, 3.0)):
        spell = heat_stores.Spell(3600.0, current, 368.15, 313.15)
        conductor = heat_stores.settled(made.stores, spell)[0]
        chain = steady.steady_state(bushing(current)).chain
        lengths = [zone.length for zone in chain.zones]
        mean = float(np.average(chain.means, weights=lengths))
        assert conductor == pytest.approx(mean, abs=allowed)


def test_time_constants_are_minutes_to_hours() -> None:
    made = steady_stores.stores_of(bushing(1000.0), 3.45e6, 2.2e6)
    slow, _, fast = heat_stores.time_constants(made.stores, 1000.0)
    assert 60 < fast < slow < 4 * 3600


def test_stores_need_a_hot_tank_current_and_a_housing() -> None:
    with pytest.raises(InputError, match="hotter"):
        steady_stores.stores_of(bushing(100.0, 293.15, 313.15), 3.45e6, 2.2e6)
    with pytest.raises(InputError, match="current"):
        steady_stores.stores_of(bushing(0.0), 3.45e6, 2.2e6)
    bare = bushing(500.0)
    bare = replace(bare, stretches=(bare.stretches[0], bare.stretches[2]))
    with pytest.raises(InputError, match="housed"):
        steady_stores.stores_of(bare, 3.45e6, 2.2e6)


# --- loading guide and the day ------------------------------------------------------------


def test_guide_constants_of_this_bushing_are_of_the_guide_s_kind() -> None:
    loads, oils, rises = [], [], []
    for load in (0.5, 0.8, 1.0, 1.2):
        for oil in (30.0, 45.0, 60.0):
            state = steady.steady_state(bushing(1000.0 * load, 303.15 + oil, 303.15))
            loads.append(load)
            oils.append(oil)
            rises.append(state.hot_spot[1] - 303.15)
    found = guide_fit.fit_guide(tuple(loads), tuple(oils), tuple(rises))
    assert 0.6 < found.oil_share < 1.0
    assert 1.5 < found.exponent < 3.0
    assert 0 < found.current_rise < 40
    assert found.worst_miss < 4.0


@given(st.lists(st.floats(0.2, 1.5), min_size=1, max_size=5), st.floats(1800, 20000))
def test_oil_rises_of_a_day_are_its_means(loads: list[float], tau: float) -> None:
    durations = tuple(3600.0 * (i + 2) for i in range(len(loads)))
    found = top_oil.oil_rises_of_day(durations, tuple(loads), 52.0, 6.0, 0.8, tau)
    ends = [top_oil.top_oil_rise(52.0, load, 6.0, 0.8) for load in loads]
    assert min(ends) - 1e-9 <= min(found) <= max(found) <= max(ends) + 1e-9
    # Over a whole day what is stored comes back, so the means of rise and of its goal agree.
    assert np.average(found, weights=durations) == pytest.approx(
        np.average(ends, weights=durations)
    )


def test_oil_rises_agree_with_an_integrated_day() -> None:
    durations, loads, tau = (8 * 3600.0, 16 * 3600.0), (1.2, 0.5), 3 * 3600.0
    found = top_oil.oil_rises_of_day(durations, loads, 52.0, 6.0, 0.8, tau)

    step, rise, total = 20.0, 30.0, 0.0
    for count in range(10 * 86400 // 20):
        time = count * step % 86400
        goal = top_oil.top_oil_rise(52.0, loads[0] if time < durations[0] else loads[1], 6.0, 0.8)
        before = rise
        rise = (rise * (1 - step / 2 / tau) + goal * step / tau) / (1 + step / 2 / tau)
        if count * step >= 9 * 86400 and time < durations[0]:
            total += (before + rise) / 2 * step
    mean = total / durations[0]
    assert found[0] == pytest.approx(mean, abs=1e-4)
    with pytest.raises(InputError, match="as many"):
        top_oil.oil_rises_of_day((1.0,), (), 52.0, 6.0, 0.8, tau)
