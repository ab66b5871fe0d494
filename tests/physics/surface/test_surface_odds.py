"""Odds: closed form against integral, counting, and what common weather does."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.surface import odds, trends

severities = st.floats(1e-4, 1e-2)
spreads = st.floats(0.2, 1.2)


@given(severities, spreads, severities, spreads)
def test_integral_is_the_closed_form_for_one(
    median: float, wide: float, critical: float, narrow: float
) -> None:
    closed = odds.event_probability(median, wide, critical, narrow)
    found = odds.event_overlap(median, wide, critical, narrow).probability
    assert found == pytest.approx(closed, rel=1e-4, abs=1e-9)


@given(severities, spreads, severities, spreads, st.integers(2, 30))
def test_common_weather_lies_between_one_and_as_many_independent(
    median: float, wide: float, critical: float, narrow: float, count: int
) -> None:
    one = odds.event_overlap(median, wide, critical, narrow).probability
    many = odds.event_overlap(median, wide, critical, narrow, count).probability
    assert one * (1 - 1e-9) <= many <= 1 - (1 - one) ** count + 1e-9


def test_counting_by_drawing_lots() -> None:
    """A hundred thousand events, three bushings each."""
    lots = np.random.default_rng(3)
    site = np.log(5e-4) + 0.8 * lots.standard_normal(100_000)
    three = np.log(2e-3) + 0.4 * lots.standard_normal((3, 100_000))
    counted = float(np.mean(np.any(site > three, axis=0)))
    found = odds.event_overlap(5e-4, 0.8, 2e-3, 0.4, 3).probability
    assert found == pytest.approx(counted, rel=0.05)


@given(st.floats(1e3, 1e5), severities, st.floats(0.1, 0.36), severities)
def test_critical_severity_undoes_the_power_law(
    voltage: float, reference: float, exponent: float, severity: float
) -> None:
    falls = voltage * trends.severity_factor(exponent, severity, reference)
    back = odds.critical_severity(voltage, reference, exponent, falls)
    assert back == pytest.approx(severity, rel=1e-6)


def test_scatter_of_voltage_is_multiplied_by_the_flat_law() -> None:
    """A flat law makes severity hard to tell from voltage: 8 % becomes 0.36 in ln S."""
    assert odds.critical_log_deviation(0.08, 0.22) == pytest.approx(0.3636, rel=1e-3)


@given(st.floats(0, 1), st.floats(0, 100), st.floats(0, 100))
def test_years_chain(probability: float, first: float, second: float) -> None:
    stood = [1 - odds.yearly_probability(probability, events) for events in (first, second)]
    both = 1 - odds.yearly_probability(probability, first + second)
    assert stood[0] * stood[1] == pytest.approx(both, abs=1e-9)


@given(severities, spreads)
def test_two_per_cent_value_is_exceeded_by_two_per_cent(median: float, wide: float) -> None:
    statistical = median * math.exp(2.0537 * wide)
    assert odds.severity_log_deviation(statistical, median) == pytest.approx(wide)
    exceeded = odds.event_probability(median, wide, statistical, 0.0)
    assert exceeded == pytest.approx(0.02, rel=1e-3)


def test_the_curves_can_be_drawn() -> None:
    found = odds.event_overlap(5e-4, 0.8, 3e-3, 0.4, 3)
    assert np.all(np.diff(found.severities) > 0)
    assert np.all(np.diff(found.strength) >= -1e-12)
    logs = np.log(found.severities)
    assert float(np.trapezoid(found.density, logs)) == pytest.approx(1.0)
    assert float(np.trapezoid(found.product, logs)) == pytest.approx(found.probability)


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="statistical"):
        odds.severity_log_deviation(1e-4, 1e-3)
    with pytest.raises(InputError, match="log_deviation"):
        odds.event_probability(1e-3, 0.0, 1e-3, 0.0)
    with pytest.raises(InputError, match="probability"):
        odds.yearly_probability(1.5, 10)
    with pytest.raises(InputError, match="bushings"):
        odds.event_overlap(1e-3, 0.5, 1e-3, 0.5, 0)
