"""Deep frost: oil that thickens, load that comes on, a wall that warms from inside."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.heat import cold_start, dielectric, ends, films, oil_properties
from shedlight.physics.heat.heat_stores import Spell, settled
from shedlight.physics.heat.network import Network, TopOil

COPPER = 0.00393
NETWORK = Network((400.0, 300.0, 2500.0), (0.4, 2.0, 3.0, 1.2), 2.5e-5, COPPER)
STORES = NETWORK.stores
OIL = TopOil(55.0, 1000.0, 6.0, 0.8, 3.5 * 3600)
COLD_TANK = replace(OIL, rated_rise=0.0)
COLD = 233.15


def test_cold_oil_is_as_thick_as_its_standard_permits_and_joins_the_hot_law() -> None:
    def kinematic(celsius: float) -> float:
        density = oil_properties.oil_density(celsius + 273.15)
        return oil_properties.oil_viscosity_cold(celsius + 273.15, density) / density

    assert kinematic(-30.0) == pytest.approx(1800e-6, rel=1e-9)
    hot = oil_properties.oil_viscosity_hot(273.15) / oil_properties.oil_density(273.15)
    assert kinematic(0.0) == pytest.approx(hot, rel=1e-9)
    # The law is straight: a third of the way in lg T lies a third of the way in lg lg (nu + 0.7).
    ordinate = [math.log10(math.log10(1e6 * kinematic(t) + 0.7)) for t in (0.0, -10.0, -30.0)]
    way = math.log10(273.15 / 263.15) / math.log10(273.15 / 243.15)
    assert ordinate[1] == pytest.approx(ordinate[0] + way * (ordinate[2] - ordinate[0]), rel=1e-9)


@given(st.floats(233.15, 300.0), st.floats(0.5, 30.0))
def test_colder_oil_is_thicker_and_moves_less(temperature: float, step: float) -> None:
    warm, cold = films.oil_at(temperature + step), films.oil_at(temperature)
    assert cold.kinematic_viscosity > warm.kinematic_viscosity
    assert cold.rayleigh(5.0, 0.01) < warm.rayleigh(5.0, 0.01)


@given(st.floats(0.0, 1500.0), st.floats(220.0, 300.0))
def test_a_cold_start_begins_at_the_air_and_ends_where_the_stores_settle(
    current: float, air: float
) -> None:
    course = cold_start.course_of_cold_start(STORES, current, air, COLD_TANK)
    assert course.top_oil == pytest.approx(air)
    end = settled(STORES, Spell(1.0, current, air, air))
    assert course.stores[-1] == pytest.approx(end, abs=0.05)
    assert course.stores[0].max() - air <= max(end[0] - air, 0.0) + 1e-9


def test_more_and_shorter_spells_change_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Convergence: the top oil taken at each spell's end is the only thing not exact."""
    few = cold_start.cold_start_heat(NETWORK, 1000.0, COLD, OIL)
    cold_start.course_of_cold_start.cache_clear()
    monkeypatch.setattr(cold_start, "SPELLS", 1536)
    many = cold_start.cold_start_heat(NETWORK, 1000.0, COLD, OIL)
    cold_start.course_of_cold_start.cache_clear()
    assert few == pytest.approx(many, rel=0.01)
    assert few >= many - 1e-9  # on the safe side


def test_heat_put_into_the_stores_is_what_they_hold_and_lose() -> None:
    """Balance over the first hour, the losses integrated apart from the exact response."""
    course = cold_start.course_of_cold_start(STORES, 1000.0, COLD, OIL)
    inside = course.times <= 3600.0
    times = np.array([0.0, *course.times[inside]])
    stores = np.vstack([[COLD] * 3, course.stores[inside]])
    made = 1000.0**2 * 2.5e-5 * (1 + COPPER * (stores[:, 0] - 293.15))
    tank = np.array([COLD, *course.top_oil[inside]])
    net = made + 0.4 * (tank - stores[:, 0]) - 1.2 * (stores[:, 2] - COLD)
    held = float(np.dot(stores[-1] - COLD, (400.0, 300.0, 2500.0)))
    assert float(np.trapezoid(net, times)) == pytest.approx(held, rel=0.01)


def test_the_lead_is_that_of_the_settled_state_where_the_oil_stays_cold() -> None:
    lead = cold_start.cold_start_lead(NETWORK, 1000.0, COLD, COLD_TANK)
    conductor, _, porcelain = settled(STORES, Spell(1.0, 1000.0, COLD, COLD))
    assert lead >= conductor - porcelain - 0.01
    assert cold_start.cold_start_lead(NETWORK, 0.0, COLD, COLD_TANK) == pytest.approx(0.0)


def test_heat_through_a_wall() -> None:
    assert cold_start.across_wall(20.0, 0.1, 0.4) == pytest.approx(5.0)
    with pytest.raises(InputError, match="length"):
        cold_start.across_wall(20.0, 0.1, 0.0)


def test_a_warm_wall_loses_more() -> None:
    assert dielectric.loss_when_warm(0.2, 293.15, 40.0) == pytest.approx(0.2)
    assert dielectric.loss_when_warm(0.2, 373.15, 40.0) == pytest.approx(0.8)
    with pytest.raises(InputError, match="doubling"):
        dielectric.loss_when_warm(0.2, 373.15, 0.0)


def test_a_mean_along_stretches_is_weighed_by_length() -> None:
    assert ends.mean_along((300.0, 360.0), (2.0, 1.0)) == pytest.approx(320.0)
    with pytest.raises(InputError, match="as many"):
        ends.mean_along((300.0,), ())
