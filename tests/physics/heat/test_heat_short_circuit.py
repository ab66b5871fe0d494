"""Short circuits in thick rods, between the two closed forms."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.heat import conductor, short_circuit, short_time

COPPER = 3.45e6
K = 225.67e6  # of that heat, 1.7241e-8 Ωm and 234.5 K
BETA = 234.5


def after(
    current: float, duration: float, radius: float, rings: int = 80, steps: int = 200
) -> tuple[short_circuit.ShortCircuitRise, float]:
    """A copper rod at 90 °C, 50 Hz, and its skin effect ratio."""
    rho = conductor.resistivity(1.7241e-8, 0.00393, 363.15)
    depth = conductor.skin_depth(rho, 50.0)
    alpha = 0.00393 / (1 + 0.00393 * 70)
    found = short_circuit.rod_after_short_circuit(
        current, duration, radius, depth, rho, alpha, COPPER, 380.0, 363.15, rings, steps
    )
    return found, conductor.skin_ratio_rod(radius, depth)


def test_a_thin_rod_is_the_adiabatic_formula() -> None:
    """No skin effect, no gradient: only the growth of resistance is left."""
    found, ratio = after(12e3, 1.0, 0.006, steps=2000)
    section = math.pi * 0.006**2
    closed = short_time.adiabatic_temperature(12e3, 1.0, section, K, BETA, 363.15)
    skin = short_circuit.adiabatic_temperature_with_skin(12e3, 1.0, section, ratio, K, BETA, 363.15)
    assert closed < skin < closed + 0.5
    assert found.mean - 363.15 == pytest.approx(skin - 363.15, rel=1e-3)
    assert found.surface - found.centre < 0.1


@settings(max_examples=12, deadline=None)
@given(st.floats(0.01, 0.04), st.floats(0.2, 3), st.floats(1, 20))
def test_skin_is_hotter_than_mean_than_centre(
    radius: float, duration: float, density: float
) -> None:
    current = density * 1e6 * math.pi * radius**2
    found, ratio = after(current, duration, radius)
    assert found.surface >= found.mean >= found.centre >= 363.15
    closed = short_circuit.adiabatic_temperature_with_skin(
        current, duration, math.pi * radius**2, ratio, K, BETA, 363.15
    )
    assert found.mean - 363.15 == pytest.approx(closed - 363.15, rel=0.04)


def test_the_standard_lies_on_the_safe_side_of_a_thick_rod() -> None:
    """58 mm, 62.5 kA for 2 s: the standard's effective section against the flow of heat."""
    found, _ = after(62.5e3, 2.0, 0.029)
    section = math.pi * 0.029**2
    effective = short_time.effective_section_round(0.058, 10.553e-3)
    standard = short_time.iec60137_short_time_rise(8e-15, 62.5e3, section, effective, 2.0)
    assert found.mean - 363.15 < standard
    assert 0.75 * standard < found.surface - 363.15 < 1.25 * standard


def test_rings_and_steps_converge() -> None:
    exact = after(100e3, 1.0, 0.029, 320, 1600)[0].surface
    errors = [abs(after(100e3, 1.0, 0.029, n, 5 * n)[0].surface - exact) for n in (20, 40, 80)]
    assert errors[0] > errors[1] > errors[2]
    assert errors[2] < 0.1


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="skin_ratio"):
        short_circuit.adiabatic_temperature_with_skin(1e4, 1.0, 1e-3, 0.9, K, BETA, 363.15)
    with pytest.raises(InputError, match="rings"):
        after(1e4, 1.0, 0.01, 4)
