"""Earth faults, arresters, risk."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.air import coordination as co

ohms = st.floats(0.1, 50)


@given(ohms, ohms, ohms, ohms, st.floats(0.1, 10))
def test_only_the_ratio_of_impedances_matters(
    r1: float, x1: float, r0: float, x0: float, scale: float
) -> None:
    once = co.earth_fault_factor(r1, x1, r0, x0)
    scaled = co.earth_fault_factor(scale * r1, scale * x1, scale * r0, scale * x0)
    assert scaled == pytest.approx(once)


@given(ohms, ohms)
def test_equal_sequences_leave_the_healthy_phases_alone(r: float, x: float) -> None:
    assert co.earth_fault_factor(r, x, r, x) == pytest.approx(1)


@given(st.floats(1, 1e6))
def test_more_zero_sequence_reactance_means_more_voltage(x0: float) -> None:
    assert co.earth_fault_factor(0, 1, 0, 1.1 * x0) >= co.earth_fault_factor(0, 1, 0, x0)
    assert co.earth_fault_factor(0, 1, 0, x0) < 3**0.5


@given(st.floats(1e4, 1e6), st.floats(0, 1e12), st.floats(0, 100))
def test_the_object_sees_at_least_the_level_and_at_most_twice(u: float, s: float, d: float) -> None:
    assert u <= co.voltage_beyond_arrester(u, s, d) <= 2 * u


@given(st.floats(1e5, 1e6), st.floats(1e3, 1e5), st.floats(1e5, 1e6), st.floats(1e3, 1e5))
def test_stress_and_strength_change_places(m: float, s: float, u: float, w: float) -> None:
    one, other = co.flashover_risk(m, s, u, w), co.flashover_risk(u, w, m, s)
    assert one + other == pytest.approx(1)


def test_margin_is_zero_where_level_and_protection_meet() -> None:
    assert co.protective_margin(75e3, 75e3) == 0
    assert co.protective_margin(90e3, 75e3) == pytest.approx(0.2)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: co.earth_fault_factor(-1, 1, 0, 1), "positive_resistance"),
        (lambda: co.earth_fault_factor(0, 0, 0, 1), "positive_reactance"),
        (lambda: co.voltage_beyond_arrester(1e5, 1e12, -1), "distance"),
        (lambda: co.protective_margin(0, 1e5), "lightning_impulse"),
        (lambda: co.flashover_risk(1e5, 0, 1e5, 0), "stress_deviation_with_strength_deviation"),
    ],
)
def test_misuse_names_the_parameter(call: Callable[[], float], named: str) -> None:
    with pytest.raises(InputError, match=rf"^{named}: given .*; expected"):
        call()
