"""Forces between conductors, against the currents themselves."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.strength import loads, short_circuit

lengths = st.floats(0.1, 10)
spacings = st.floats(0.1, 3)


def test_three_phase_factors_are_the_largest_over_time_and_phase() -> None:
    """A fully offset case scales both alike; steady sine currents give the factors themselves."""
    angle = np.linspace(0, 2 * math.pi, 200001)
    a, b, c = (np.sin(angle - k * 2 * math.pi / 3) for k in range(3))
    middle = np.abs(b * (a - c)).max()
    outer = np.abs(a * (b + c / 2)).max()
    assert loads.three_phase_force(1.0, 1.0, 1.0) / 2e-7 == pytest.approx(middle, rel=1e-8)
    assert short_circuit.outer_phase_force(1.0, 1.0, 1.0) / 2e-7 == pytest.approx(outer, rel=1e-8)


@given(st.floats(0, 2e5), lengths, spacings)
def test_two_phases_push_less_than_three(peak: float, length: float, spacing: float) -> None:
    two = loads.pair_force(short_circuit.two_phase_peak(peak), length, spacing)
    three = loads.three_phase_force(peak, length, spacing)
    assert two == pytest.approx(math.sqrt(3) / 2 * three)
    assert short_circuit.outer_phase_force(peak, length, spacing) <= three


@given(lengths, spacings)
def test_short_conductors_follow_from_mutual_inductance(length: float, spacing: float) -> None:
    def mutual(a: float) -> float:
        ratio = length / a
        return 2e-7 * length * (math.asinh(ratio) - math.hypot(1, 1 / ratio) + 1 / ratio)

    step = 1e-5 * spacing
    force = (mutual(spacing - step) - mutual(spacing + step)) / (2 * step)
    factor = short_circuit.finite_length_factor(length, spacing)
    assert factor * loads.pair_force(1.0, length, spacing) == pytest.approx(force, rel=1e-4)
    assert 0 < factor < 1


@given(st.floats(1, 300), st.floats(0.01, 0.2))
def test_magnification_has_its_limits(natural: float, damping: float) -> None:
    assert short_circuit.magnification(0.0, natural, damping) == pytest.approx(1.0)
    assert short_circuit.magnification(natural, natural, damping) == pytest.approx(0.5 / damping)
    assert short_circuit.magnification(100 * natural, natural, damping) < 2e-4


def test_resonance_without_damping_is_refused() -> None:
    with pytest.raises(InputError, match="damping"):
        short_circuit.magnification(100.0, 100.0, 0.0)
