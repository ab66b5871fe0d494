"""A day, an emergency and the ends of a bushing: closed forms and limits."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.heat import day, dielectric, emergency, ends, from_nusselt, heat_stores
from shedlight.physics.heat.network import Network, TopOil

CAPACITIES, CONDUCTANCES = (600.0, 600.0, 2500.0), (0.7, 1.7, 1.5, 2.1)
NETWORK = Network(CAPACITIES, CONDUCTANCES, 4e-5, 0.00393)
STORES = NETWORK.stores
OIL = TopOil(55.0, 1000.0, 6.0, 0.8, 12600.0)


def course(loads: tuple[float, ...], swing: float = 20.0, sun: float = 30.0) -> day.DayCourse:
    return day.course_of_day(STORES, 4.0, 1000.0, 313.15, sun, OIL, loads, swing)


def test_a_peak_ends_at_four_and_its_hours_keep_their_squares() -> None:
    loads = day.loads_of_day(0.5, 1.0, 8 * 3600.0)
    assert loads[32:64] == (1.0,) * 32
    assert set(loads[:32] + loads[64:]) == {0.5}
    half = day.loads_of_day(0.5, 1.0, 450.0)
    assert half[63] == pytest.approx(math.sqrt((1 + 0.25) / 2))
    assert day.loads_of_day(0.2, 1.0, 24 * 3600.0) == (1.0,) * 96


@given(st.floats(0, 2), st.floats(0, 2), st.floats(60, 82800))
def test_the_heat_of_a_two_step_day_is_that_of_its_steps(
    low: float, high: float, duration: float
) -> None:
    """The mean square is what heats: it is kept whatever hours the peak cuts."""
    loads = day.loads_of_day(low, high, duration)
    share = duration / 86400
    assert np.mean(np.square(loads)) == pytest.approx(share * high**2 + (1 - share) * low**2)


def test_air_is_hottest_at_three_and_sun_at_noon() -> None:
    assert day.air_at_hour(313.15, 20.0, 15.0) == pytest.approx(313.15)
    assert day.air_at_hour(313.15, 20.0, 3.0) == pytest.approx(293.15)
    assert day.sun_at_hour(12.0) == 1.0
    assert day.sun_at_hour(0.0) == day.sun_at_hour(5.9) == 0.0


def test_an_even_day_is_a_settled_state() -> None:
    found = course((1.0,) * 96, swing=0.0, sun=0.0)
    spell = heat_stores.Spell(1.0, 1000.0, 368.15, 313.15)
    conductor, oil, porcelain = heat_stores.settled(STORES, spell)
    assert found.conductor == pytest.approx(conductor, abs=1e-6)
    assert found.oil == pytest.approx(oil, abs=1e-6)
    assert found.porcelain == pytest.approx(porcelain, abs=1e-6)
    assert found.highest == pytest.approx(max(conductor + 4.0, 368.15), abs=1e-6)


def test_a_day_agrees_with_small_steps_of_time() -> None:
    """Euler's rule with steps of 5 s over three days, from the last start on."""
    loads = day.loads_of_day(0.6, 1.2, 6 * 3600.0)
    found = course(loads)
    state = np.array([found.conductor[0], found.oil[0], found.porcelain[0]])
    tank_to, inner, wall, outer = CONDUCTANCES
    step, seen = 5.0, []
    for tick in range(3 * 17280):
        part = int(tick * step / 900) % 96
        air, tank = found.air[3 * part], found.top_oil[3 * part]
        sun = 30.0 * day.sun_at_hour(part / 4 + 0.125)
        loss = (1000 * loads[part]) ** 2 * 4e-5 * (1 + 0.00393 * (state[0] - 293.15))
        flows = (
            loss + tank_to * (tank - state[0]) - inner * (state[0] - state[1]),
            inner * (state[0] - state[1]) - wall * (state[1] - state[2]),
            wall * (state[1] - state[2]) - outer * (state[2] - air) + sun,
        )
        state = state + step * np.array(flows) / CAPACITIES
        seen.append(state[0])
    assert max(seen[-17280:]) == pytest.approx(found.conductor.max(), abs=0.1)
    assert min(seen[-17280:]) == pytest.approx(found.conductor.min(), abs=0.1)


def test_an_emergency_without_more_current_stays_where_it_was() -> None:
    same = emergency.emergency_conductor(
        NETWORK, 1000.0, 368.15, 1000.0, 368.15, 313.15, 0.0, 7200.0
    )
    spell = heat_stores.Spell(1.0, 1000.0, 368.15, 313.15)
    assert same == pytest.approx(heat_stores.settled(STORES, spell)[0], abs=1e-9)


@given(st.floats(60.0, 1e6))
def test_the_oil_of_an_emergency_lies_between_both_ends(duration: float) -> None:
    rise = emergency.emergency_oil_rise(1000.0, 1300.0, duration, OIL)
    assert 55.0 <= rise <= 55.0 * (11.14 / 7) ** 0.8 + 1e-9


def test_ends_add_up() -> None:
    assert ends.end_conductance(5.0, 3.0, 0.02, 0.5) == pytest.approx(0.66)
    assert ends.end_power(2.0, 3.0, 0.5, 353.15, 313.15) == pytest.approx(25.0)
    assert ends.end_power(2.0, 0.0, 0.5, 303.15, 313.15) == pytest.approx(-3.0)
    assert ends.sun_on_body(0.5, 1000.0, 0.1, 0.2) == pytest.approx(10.0)


def test_impossible_ends_films_and_losses_are_refused() -> None:
    with pytest.raises(InputError, match="area"):
        ends.end_conductance(5.0, 3.0, 0.0, 0.5)
    with pytest.raises(InputError, match="nusselt"):
        from_nusselt.moving_conductivity(0.5, 0.12)
    with pytest.raises(InputError, match="one for each layer"):
        dielectric.layered_loss_factor((1.0, 2.0), (0.01,))
    with pytest.raises(InputError, match="peak_duration"):
        day.loads_of_day(0.5, 1.0, 90000.0)


@given(st.floats(1.0, 5.0), st.floats(0.0, 1.0))
def test_sheds_never_lessen_the_area(ratio: float, efficiency: float) -> None:
    factor = from_nusselt.shed_area_factor(ratio, 1.0, efficiency)
    assert 1.0 <= factor <= ratio + 1e-12
