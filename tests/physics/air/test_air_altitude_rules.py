"""Altitude rules side by side: same start, published places, what must not be mixed."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.physics.air import altitude_rules as rules
from shedlight.physics.air.atmosphere import altitude_factor, site_density
from shedlight.physics.air.gaps import rod_gap_mean, ten_percent

heights = st.floats(0.0, 4000.0)


@given(st.floats(-300.0, 1000.0))
def test_rules_for_levels_and_distances_ask_nothing_up_to_1000_m(height: float) -> None:
    assert altitude_factor(1.0, height) == 1.0
    assert rules.altitude_factor_by_table(height) == 1.0
    assert rules.clearance_altitude_factor(height) == 1.0


@given(heights)
def test_counting_from_sea_level_on_a_level_is_13_percent_too_much(height: float) -> None:
    from_sea = rules.altitude_factor_from_sea_level(1.0, max(height, 1000.0))
    assert from_sea / altitude_factor(1.0, max(height, 1000.0)) == pytest.approx(
        math.exp(1000 / 8150)
    )
    assert rules.altitude_factor_from_sea_level(1.0, height) == pytest.approx(
        1 / site_density(height)
    )


@given(heights, heights)
def test_every_rule_grows_with_height(one: float, other: float) -> None:
    low, high = sorted((one, other))
    for rule in (rules.altitude_factor_by_table, rules.clearance_altitude_factor):
        assert rule(low) <= rule(high)


@given(heights)
def test_the_table_and_the_exponential_agree_within_five_percent(height: float) -> None:
    by_table = rules.altitude_factor_by_table(height)
    assert by_table == pytest.approx(altitude_factor(1.0, height), rel=0.05)


@given(st.floats(40e3, 900e3))
def test_the_distance_found_holds_just_the_voltage(voltage: float) -> None:
    gap = rules.distance_for_lightning(voltage)
    assert ten_percent(rod_gap_mean(gap), 0.03) == pytest.approx(voltage, rel=1e-9)
