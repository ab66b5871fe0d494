"""Tilted bushings, conservators, cushions, pressure tests."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.oil import conservator, cushion, head, pressure_tests, tilt

CAVITY = ((-0.19, 0.025), (0.30, 0.025), (0.34, 0.015))  # bore, its top, under the cap
tilts = st.floats(0, math.pi)


@given(tilts, st.floats(-1, 1), st.floats(0, 0.1))
def test_a_turn_keeps_distances(angle: float, along: float, across: float) -> None:
    up = tilt.height_when_tilted(along, across, angle)
    down = tilt.height_when_tilted(along, -across, angle)
    assert abs(up) <= math.hypot(along, across) + 1e-12
    assert up - down == pytest.approx(2 * across * math.sin(angle), abs=1e-12)


def test_gas_gathers_at_the_top_and_when_level_along_the_bore() -> None:
    upright, hanging = tilt.highest_place(CAVITY, 0.0), tilt.highest_place(CAVITY, math.pi)
    assert upright[0] == 2
    assert upright[1] == pytest.approx(0.34)
    assert tilt.highest_place(CAVITY, math.pi / 2)[1] == pytest.approx(0.025)
    assert hanging[0] == 0
    assert hanging[1] == pytest.approx(0.19)


@given(st.floats(0.001, 0.1), st.floats(0.005, 0.05), st.floats(0.01, 0.99))
def test_the_vent_is_highest_up_to_its_tilt(lift: float, radius: float, share: float) -> None:
    """A vent in the axis above a flat top."""
    cavity, vent = ((0.3, radius), (0.3 + lift, 0.0)), (0.3 + lift, 0.0)
    limit = tilt.venting_tilt(0.3 + lift, 0.0, 0.3, radius)
    assert tilt.trapped_height(cavity, vent, share * limit) == pytest.approx(0, abs=1e-12)
    beyond = limit + share * (math.pi / 2 - limit)
    if beyond > limit + 1e-6:
        assert tilt.trapped_height(cavity, vent, beyond) > 0


def test_vents_beside_or_below() -> None:
    assert tilt.venting_tilt(0.3, 0.025, 0.3, 0.025) == 0.0
    assert tilt.venting_tilt(0.31, 0.025, 0.3, 0.025) == pytest.approx(math.pi / 2)
    assert tilt.venting_tilt(0.2, 0.0, 0.3, 0.025) == 0.0


@given(tilts, st.floats(0, 5e3))
def test_the_lowest_safe_level_leaves_just_its_reserve(angle: float, reserve: float) -> None:
    density = head.oil_density(895.0, 7.5e-4, 253.15)
    place, top = tilt.highest_place(CAVITY, angle)
    level = tilt.lowest_safe_level(top, reserve, density)
    pressures = tilt.pressures_along(CAVITY, level, density, 0.0, angle)
    assert pressures[place] == pytest.approx(reserve, abs=1e-6)
    assert min(pressures) == pytest.approx(pressures[place])


def test_a_bushing_on_its_side_needs_less_oil() -> None:
    upright, lying = (tilt.highest_place(CAVITY, a)[1] for a in (0.0, math.pi / 2))
    assert lying < upright
    with pytest.raises(InputError, match="at least one"):
        tilt.highest_place((), 0.0)


# --- conservator --------------------------------------------------------------------------


@given(st.floats(0.1, 1), st.floats(0.5, 5), st.floats(0, 1))
def test_depth_and_volume_are_each_other_solved(r: float, length: float, share: float) -> None:
    volume = conservator.conservator_volume(r, length, share * 2 * r)
    assert 0 <= volume <= math.pi * r**2 * length * (1 + 1e-12)
    depth = conservator.conservator_depth(r, length, volume)
    back = conservator.conservator_volume(r, length, depth)
    assert back == pytest.approx(volume, rel=1e-9, abs=1e-12)


@given(st.floats(-25, 60))
def test_a_warm_day_and_a_cold_night_undo_each_other(warming: float) -> None:
    warm = conservator.depth_at_temperature(0.3, 2.0, 0.25, 5.0, 7.5e-4, warming)
    back = conservator.depth_at_temperature(0.3, 2.0, warm, 5.0, 7.5e-4, -warming)
    assert back == pytest.approx(0.25, abs=1e-9)
    assert (warm > 0.25) == (warming > 0) or abs(warming) < 1e-6


def test_a_conservator_that_runs_empty_or_over_is_refused() -> None:
    with pytest.raises(InputError, match="volume"):
        conservator.depth_at_temperature(0.3, 2.0, 0.05, 5.0, 7.5e-4, -60.0)
    with pytest.raises(InputError, match="volume"):
        conservator.depth_at_temperature(0.3, 2.0, 0.55, 5.0, 7.5e-4, 60.0)


@given(st.floats(-2, 5))
def test_hanging_oil_is_the_head_below_the_air(above: float) -> None:
    pressure = conservator.hanging_pressure(101325.0, 870.0, 1.0, 1.0 + above)
    assert pressure == pytest.approx(101325.0 + head.head_pressure(870.0, -above))
    with pytest.raises(InputError, match="hang"):
        conservator.hanging_pressure(101325.0, 870.0, 0.0, 12.0)


# --- cushion and tests --------------------------------------------------------------------


@given(st.floats(1e-3, 0.1), st.floats(10, 90), st.floats(1.5, 4))
def test_the_gas_needed_just_reaches_the_pressure(oil: float, warming: float, n: float) -> None:
    hot = 293.15 + warming
    gas = cushion.gas_volume_needed(oil, 7.5e-4, 1e5, 293.15, hot, n * 1e5)
    (pressure,) = cushion.cushion_pressures(1e5, gas, oil, 7.5e-4, 293.15, (hot,))
    assert pressure == pytest.approx(n * 1e5)


def test_a_cushion_over_the_year() -> None:
    """Handbook: 6 l of gas on 24 l of oil; 146.9 kPa at 80 °C, vacuum at -20 °C."""
    found = cushion.cushion_pressures(1e5, 6e-3, 24e-3, 7.5e-4, 293.15, (253.15, 293.15, 353.15))
    assert found == pytest.approx((77.1e3, 100e3, 146.9e3), rel=1e-3)
    with pytest.raises(InputError, match="by itself"):
        cushion.gas_volume_needed(0.02, 7.5e-4, 1e5, 293.15, 353.15, 1.1e5)


@pytest.mark.parametrize("row", pressure_tests.pressure_tests(), ids=lambda row: row.test)
def test_every_test_has_one_pressure(row: pressure_tests.PressureTest) -> None:
    assert pressure_tests.pressure_test(row.test) == row
    assert (row.above_service is None) != (row.gauge is None)
    assert row.pressure(20e3) >= 100e3
    assert row.duration > 0


def test_tests_above_service_follow_the_service() -> None:
    row = pressure_tests.pressure_test("routine oil")
    assert row.pressure(40e3) - row.pressure(10e3) == pytest.approx(30e3)
    with pytest.raises(InputError, match="expected one of"):
        pressure_tests.pressure_test("soap")


@given(st.floats(250, 350), st.floats(250, 350))
def test_drift_has_the_sign_of_warming(start: float, end: float) -> None:
    drift = pressure_tests.gas_test_drift(2.5e5, start, end)
    assert drift == pytest.approx(2.5e5 * (end - start) / start)


def test_locked_oil_builds_up_a_megapascal_per_kelvin() -> None:
    stiff = pressure_tests.locked_oil_pressure(7.5e-4, 3.6e-5, 0.7e-9, 0.0, 1.0)
    assert 0.9e6 < stiff < 1.1e6
    assert pressure_tests.locked_oil_pressure(7.5e-4, 3.6e-5, 0.7e-9, 7e-9, 1.0) < stiff / 10
