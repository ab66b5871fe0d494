"""Risk of sparkover: closed form, parallel gaps, arresters, and the standard's safety factor."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.air import risk
from shedlight.physics.air.coordination import flashover_risk

means = st.floats(2e5, 1e6)
shares = st.floats(0.03, 0.2)


@given(means, shares, means, shares)
def test_integral_is_the_closed_form(one: float, wide: float, other: float, narrow: float) -> None:
    found = risk.risk_integral(one, wide * one, other, narrow * other).risk
    closed = flashover_risk(one, wide * one, other, narrow * other)
    assert found == pytest.approx(closed, rel=1e-3, abs=1e-10)


@given(st.integers(1, 40), st.integers(1, 40))
def test_more_gaps_are_never_safer(one: int, other: int) -> None:
    few, many = sorted((one, other))
    risks = [risk.risk_integral(6e5, 6e4, 8.5e5, 5e4, gaps).risk for gaps in (few, many)]
    assert risks[0] <= risks[1]


def test_an_arrester_cuts_the_tail() -> None:
    free = risk.risk_integral(6e5, 6e4, 8.5e5, 5e4).risk
    cut = risk.risk_integral(6e5, 6e4, 8.5e5, 5e4, 1, 6.5e5).risk
    assert cut < 0.05 * free
    everything = risk.risk_integral(6e5, 6e4, 8.5e5, 5e4, 1, 1e5).risk
    assert everything < 1e-12


@given(means, shares, means, shares)
def test_safety_factor_and_risk_belong_together(
    one: float, wide: float, other: float, narrow: float
) -> None:
    factor = risk.statistical_safety_factor(one, wide * one, other, narrow * other)
    found = risk.risk_for_safety_factor(factor, wide, narrow)
    closed = flashover_risk(one, wide * one, other, narrow * other)
    assert found == pytest.approx(closed, rel=1e-6, abs=1e-12)


def test_the_curves_can_be_drawn() -> None:
    found = risk.risk_integral(6e5, 6e4, 8.5e5, 5e4, 3)
    assert float(np.trapezoid(found.density, found.voltages)) == pytest.approx(1.0)
    assert float(np.trapezoid(found.product, found.voltages)) == pytest.approx(found.risk)
    assert math.isclose(found.strength[-1], 1.0, rel_tol=1e-3)


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="gaps"):
        risk.risk_integral(6e5, 6e4, 8.5e5, 5e4, 0)
    with pytest.raises(InputError, match="stress_spread"):
        risk.risk_for_safety_factor(1.15, 0.0, 0.06)
