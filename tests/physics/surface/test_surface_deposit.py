"""Deposit: bands that close, conversions that join, a season that sheltered surfaces remember."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.surface import deposit, layer, severity, solution, wetting

deposits = st.floats(1e-5, 1e-2)


@pytest.mark.parametrize("kind", ["deposit", "salinity"])
def test_the_middle_of_a_class_falls_into_it(kind: str) -> None:
    read = {"deposit": severity.class_for_deposit, "salinity": severity.class_for_salinity}[kind]
    for letter in "abcde":
        found = deposit.severity_of_class(letter, kind)
        assert found.lowest < found.middle < found.highest
        assert read(found.middle).letter == letter
        assert not found.citation.may_fail


@given(st.floats(0.004, 20), st.floats(0.004, 20))
def test_salinity_grows_with_conductivity_across_the_join(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert deposit.salinity_of_water(low) <= deposit.salinity_of_water(high)


@given(st.floats(0.43, 20))
def test_salinity_and_conductivity_undo_each_other(conductivity: float) -> None:
    back = solution.conductivity_of_salinity(deposit.salinity_of_water(conductivity))
    assert back == pytest.approx(conductivity)


def test_the_fog_rule_stays_inside_the_old_equivalence() -> None:
    """IEEE's 140 kg/m³ per mg/cm² against the bands of IEC 815, each end within two to one."""
    for row in deposit.equivalences():
        for salt, lying in zip(row.salinity, row.deposit, strict=True):
            assert layer.fog_salinity(lying) == pytest.approx(salt, rel=0.5)


def test_the_wetted_rule_meets_the_old_equivalence_at_its_light_level() -> None:
    light = deposit.equivalences()[0]
    low, high = light.layer
    assert high is not None
    found = [layer.layer_conductivity_wetted_rule(lying) for lying in light.deposit]
    assert 0.7 * low < found[0] < high < found[1] < 1.2 * high


@given(deposits, deposits, st.floats(0.01, 1), st.floats(0.01, 1))
def test_mean_deposit_lies_between_the_sides(
    top: float, bottom: float, one: float, other: float
) -> None:
    mean = deposit.mean_deposit(top, bottom, one, other)
    assert min(top, bottom) * (1 - 1e-9) <= mean <= max(top, bottom) * (1 + 1e-9)


@given(deposits, deposits, st.floats(0.05, 0.15))
def test_cleaner_tops_are_stronger(top: float, bottom: float, slope: float) -> None:
    factor = deposit.uneven_factor(top, bottom, slope)
    assert (factor > 1) == (top < bottom) or top == pytest.approx(bottom)


@given(deposits, st.floats(1e-6, 1e-4), st.floats(0, 300), st.floats(0, 300))
def test_build_up_in_two_steps_is_build_up_in_one(
    limit: float, rate: float, first: float, second: float
) -> None:
    once = deposit.accumulated_deposit(0.0, rate, first + second, limit)
    between = deposit.accumulated_deposit(0.0, rate, first, limit)
    assert deposit.accumulated_deposit(between, rate, second, limit) == pytest.approx(once)
    assert once <= limit


def test_a_season_leaves_dirt_where_rain_does_not_strike() -> None:
    rain = np.zeros(90)
    rain[[20, 50, 80]] = 20e-3
    found = deposit.season(2e-5, 2e-3, rain)
    assert found.top_to_bottom < 0.5
    assert found.exposed[20] < 0.1 * found.exposed[19]
    assert found.sheltered[20] > 0.7 * found.sheltered[19]
    dry = deposit.season(2e-5, 2e-3, np.zeros(90))
    assert dry.exposed == pytest.approx(dry.sheltered)
    expected = deposit.accumulated_deposit(0.0, 2e-5, 90, 2e-3)
    assert dry.exposed[-1] == pytest.approx(expected)


def test_warm_layers_follow_salt_water_to_boiling() -> None:
    """Limiting conductivity of NaCl over 114 S cm²/mol at 20 °C."""
    for celsius, limiting in ((25, 126.5), (50, 203.0), (100, 362.0)):
        factor = wetting.warm_layer_factor(273.15 + celsius)
        assert factor == pytest.approx(limiting / 114, rel=0.02)


@given(st.floats(273.15, 380), st.floats(273.15, 380))
def test_warmer_conducts_better(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert wetting.warm_layer_factor(low) <= wetting.warm_layer_factor(high)


def test_below_thirty_degrees_the_two_corrections_undo_each_other() -> None:
    for celsius in (5, 12, 20, 29):
        warm = 10e-6 * wetting.warm_layer_factor(273.15 + celsius)
        assert solution.conductivity_at_20(warm, 273.15 + celsius) == pytest.approx(10e-6)


@given(st.floats(0, 1), st.floats(1e-6, 1e-4))
def test_half_wet_conducts_half(water: float, fully: float) -> None:
    full = wetting.wetted_conductivity(fully, 1.0, 1.0, 0.05)
    found = wetting.wetted_conductivity(fully, 1.0, water * 0.05, 0.05)
    assert found == pytest.approx(water * full, abs=1e-15)


def test_all_salt_dissolved_conducts_more_than_any_rule() -> None:
    """Rules count what layers show; were all salt dissolved in an even film, it would be more."""
    lying, water = 5e-4, 0.05
    salt = wetting.layer_salinity(lying, water)
    ideal = wetting.fog_film_conductivity(salt, water / 1000)
    assert ideal > 3 * layer.layer_conductivity_wetted_rule(lying)
    assert math.isfinite(ideal)


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="kind"):
        deposit.severity_of_class("c", "dust")
    with pytest.raises(InputError, match="daily_rain"):
        deposit.season(1e-5, 1e-3, np.array([]))
    with pytest.raises(InputError, match="name"):
        deposit.washing_value("soap")
    with pytest.raises(InputError, match="top_area"):
        deposit.mean_deposit(1e-3, 1e-3, 0.0, 1.0)
    with pytest.raises(InputError, match="temperature"):
        wetting.warm_layer_factor(200.0)
