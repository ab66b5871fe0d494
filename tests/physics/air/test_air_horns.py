"""Protective horns: low and high side, rain, time to sparkover."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.air import atmosphere, gaps, horns, tables
from shedlight.trace import calculate

horn_gaps = st.floats(0.05, 2.0)
densities = st.floats(0.6, 1.1)


@given(horn_gaps, densities)
def test_low_mean_high_stand_in_order(gap: float, density: float) -> None:
    low = horns.horn_sparkover_low(gap, density)
    mean = horns.horn_sparkover_mean(gap, density)
    high = horns.horn_sparkover_high(gap, density)
    assert low <= high
    assert low * 0.98 <= mean <= high


@given(horn_gaps, densities)
def test_every_bound_is_proportional_to_density(gap: float, density: float) -> None:
    for bound in (
        horns.horn_sparkover_low,
        horns.horn_sparkover_mean,
        horns.horn_sparkover_high,
        horns.horn_wet_power_frequency_low,
    ):
        assert bound(gap, density) == pytest.approx(density * bound(gap, 1.0))


@given(horn_gaps, st.floats(0, 2000))
def test_thin_air_makes_horns_protect_better(gap: float, altitude: float) -> None:
    """The one air margin that rises with altitude."""
    site = atmosphere.site_density(altitude)
    assert horns.horn_sparkover_high(gap, site) <= horns.horn_sparkover_high(gap, 1.0)


def test_horns_of_86_mm_do_not_surely_protect_a_75_kv_level() -> None:
    assert horns.horn_sparkover_low(0.086, 1.0) < 75e3 < horns.horn_sparkover_high(0.086, 1.0)


@given(horn_gaps)
def test_the_high_side_covers_both_rivals(gap: float) -> None:
    high = horns.horn_sparkover_high(gap, 1.0)
    assert high >= gaps.rod_gap_trade_rule(gap)
    scattered = gaps.rod_gap_mean(gap) * (1 + 3 * tables.deviation("lightning").deviation)
    assert high >= scattered * (1 - 1e-12)
    assert high == pytest.approx(max(gaps.rod_gap_trade_rule(gap), scattered))


def test_rain_takes_the_share_that_is_typeset() -> None:
    """0.7 and 0.91 are printed with the formula; they must be what is computed."""
    dry = gaps.rod_gap_mean_rms(0.22)
    assert horns.horn_wet_power_frequency_low(0.22, 1.0) == pytest.approx(0.7 * 0.91 * dry)
    assert 1 + 3 * tables.deviation("lightning").deviation == pytest.approx(1.09)


@given(st.floats(0.05, 2), st.floats(0.5e-6, 15e-6))
def test_the_sooner_the_higher(gap: float, time: float) -> None:
    assert horns.volt_time(gap, time) > horns.volt_time(gap, time * 1.05)
    assert horns.volt_time(2 * gap, time) == pytest.approx(2 * horns.volt_time(gap, time))


@given(st.floats(0.05, 2), st.floats(0.5e-6, 16e-6))
def test_sparkover_time_undoes_volt_time(gap: float, time: float) -> None:
    assert horns.sparkover_time(gap, horns.volt_time(gap, time)) == pytest.approx(time)


def test_below_400_kv_per_metre_a_gap_never_sparks_over() -> None:
    assert horns.sparkover_time(1.0, 400e3) == math.inf


def test_beyond_the_source_is_flagged() -> None:
    assert not calculate(horns.horn_sparkover_high, 0.06, 0.97).step.beyond
    assert calculate(horns.horn_sparkover_high, 0.03, 1.0).step.beyond
    assert calculate(horns.horn_sparkover_low, 0.2, 0.5).step.beyond
    assert calculate(horns.volt_time, 0.2, 0.2e-6).step.beyond


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: horns.horn_sparkover_low(0.0, 1.0), "gap"),
        (lambda: horns.horn_sparkover_high(0.1, 0.0), "density"),
        (lambda: horns.horn_sparkover_mean(0.1, math.nan), "density"),
        (lambda: horns.horn_wet_power_frequency_low(-1.0, 1.0), "gap"),
        (lambda: horns.volt_time(0.1, 0.0), "time"),
        (lambda: horns.sparkover_time(0.1, 0.0), "voltage_at_sparkover"),
    ],
)
def test_misuse_names_the_parameter(call: Callable[[], float], named: str) -> None:
    with pytest.raises(InputError, match=rf"^{named}: given .*; expected"):
        call()
