"""Horn gaps for a duty: inverse of the sparkover rules, polarity, steep waves."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.air import horn_gaps, horns

gaps_of_horns = st.floats(0.05, 2.0)
densities = st.floats(0.6, 1.1)


@given(gaps_of_horns, densities)
def test_the_gap_that_protects_sparks_over_at_just_that_voltage(gap: float, density: float) -> None:
    high = horns.horn_sparkover_high(gap, density)
    assert horn_gaps.gap_to_protect(high, density) == pytest.approx(gap, rel=1e-9)


@given(gaps_of_horns, densities)
def test_the_gap_that_rides_through_stands_just_that_voltage(gap: float, density: float) -> None:
    wet = horns.horn_wet_power_frequency_low(gap, density)
    assert horn_gaps.gap_to_ride_through(wet, density) == pytest.approx(gap, rel=1e-9)


@given(st.floats(30e3, 400e3), st.floats(0.6, 1.0))
def test_thin_air_widens_both_ends_of_the_window(voltage: float, density: float) -> None:
    for rule in (horn_gaps.gap_to_protect, horn_gaps.gap_to_ride_through):
        assert rule(voltage, density) >= rule(voltage, 1.0)


def test_no_gap_protects_below_what_the_rule_gives_at_none() -> None:
    assert horn_gaps.gap_to_protect(39e3, 1.0) == 0.0


@given(gaps_of_horns, densities)
def test_negative_lies_between_low_and_high(gap: float, density: float) -> None:
    negative = horn_gaps.horn_sparkover_negative(gap, density)
    assert horns.horn_sparkover_low(gap, density) <= negative
    assert negative <= horns.horn_sparkover_high(gap, density) * (1 + 1e-12)


@given(st.floats(1e4, 1e6), st.floats(0.5e-6, 15e-6))
def test_the_steeper_the_wave_the_higher(voltage: float, time: float) -> None:
    steep = horn_gaps.steep_wave_sparkover(voltage, time)
    assert steep > horn_gaps.steep_wave_sparkover(voltage, 16e-6)
    assert horn_gaps.steep_wave_sparkover(voltage, 16e-6) == pytest.approx(voltage)


def test_misuse_is_refused() -> None:
    for rule in (horn_gaps.gap_to_protect, horn_gaps.gap_to_ride_through):
        with pytest.raises(InputError):
            rule(0.0, 1.0)
    with pytest.raises(InputError, match="time"):
        horn_gaps.steep_wave_sparkover(1e5, 0.0)
