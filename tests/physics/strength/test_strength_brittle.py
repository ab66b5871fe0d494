"""Brittle fracture, glaze and thermal stress, gaskets."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.strength import brittle, gasket
from shedlight.trace import calculate

moduli = st.floats(5, 20)
strengths = st.floats(3e7, 2e8)


@given(st.floats(1e-9, 0.999), strengths, moduli)
def test_probability_and_stress_undo_each_other(p: float, s0: float, m: float) -> None:
    stress = brittle.weibull_stress(p, s0, m)
    assert brittle.weibull_probability(stress, s0, m) == pytest.approx(p, rel=1e-9)


@given(st.floats(0, 3e8), strengths, moduli)
def test_more_stress_breaks_more(stress: float, s0: float, m: float) -> None:
    low = brittle.weibull_probability(stress, s0, m)
    assert 0 <= low <= brittle.weibull_probability(1.01 * stress, s0, m) <= 1


@given(st.floats(0.3, 1), strengths, moduli, st.floats(1, 100))
def test_a_chain_of_n_links_is_as_weak_as_n_times_the_volume(
    share: float, s0: float, m: float, n: float
) -> None:
    stress = share * s0
    one = brittle.weibull_probability(stress, s0, m)
    chain = -math.expm1(n * math.log1p(-one))
    larger = brittle.weibull_probability(stress, s0 * brittle.weibull_size_factor(n, m), m)
    assert larger == pytest.approx(chain, rel=1e-6)


@given(st.floats(1, 1e9), st.floats(20, 40))
def test_a_lasting_load_is_borne_less(ratio: float, n: float) -> None:
    assert brittle.static_fatigue_factor(ratio, n) <= 1
    assert brittle.static_fatigue_factor(1.0, n) == 1


@given(st.floats(-3e-6, 3e-6), st.floats(0, 800), st.floats(1e-5, 1e-3), st.floats(1e-3, 0.1))
def test_glaze_and_body_pull_with_equal_force(a: float, dt: float, g: float, b: float) -> None:
    """The glaze's compression times its thickness is the body's tension times its own."""
    compression = brittle.glaze_compression(a, dt, 65e9, 80e9, 0.22, g, b)
    tension = compression * g / b
    strain = compression * (1 - 0.22) / 65e9 + tension * (1 - 0.22) / 80e9
    assert strain == pytest.approx(a * dt, rel=1e-9, abs=1e-15)


@given(st.floats(1.01, 3), st.floats(-50, 50))
def test_warm_bore_is_pressed_and_cool_outside_pulled(ratio: float, difference: float) -> None:
    wall = (ratio * 0.05, 0.05, difference, 75e9, 5e-6, 0.22)
    bore, outside = brittle.thermal_hoop_at_bore(*wall), brittle.thermal_hoop_outside(*wall)
    assert outside - bore == pytest.approx(75e9 * 5e-6 * difference / (1 - 0.22), abs=1)
    if abs(difference) > 1e-3:
        assert (bore < 0 < outside) == (difference > 0)


@given(st.floats(1e-3, 0.02), st.floats(0.3, 1.2))
def test_compression_is_the_share_given_up(free: float, share: float) -> None:
    assert gasket.compression(free, share * free) == pytest.approx(1 - share, abs=1e-12)


@given(st.floats(0.1e6, 10e6), st.floats(0.05, 0.5), st.floats(0.5, 0.98))
def test_seating_force_undoes_seating_stress(stress: float, d: float, share: float) -> None:
    force = gasket.seating_force(stress, d, share * d)
    assert gasket.seating_stress(force, d, share * d) == pytest.approx(stress)


@given(st.floats(0.005, 0.03), st.floats(0.002, 0.01), st.floats(0.1, 0.6))
def test_a_groove_as_wide_as_the_squeezed_gasket_is_just_full(
    width: float, thickness: float, squeeze: float
) -> None:
    depth = thickness * (1 - squeeze)
    assert gasket.groove_fill(width, thickness, width / (1 - squeeze), depth) == pytest.approx(1)


def test_the_overfull_groove_is_seen() -> None:
    assert gasket.groove_fill(0.015, 0.006, 0.018, 0.0042) > 1


@given(st.floats(-1e5, 1e6), st.floats(0.02, 0.5))
def test_end_load_is_pressure_times_area(p: float, d: float) -> None:
    assert gasket.pressure_end_load(p, d) == pytest.approx(p * math.pi * (d / 2) ** 2)


def test_beyond_the_source_is_flagged() -> None:
    assert not calculate(brittle.static_fatigue_factor, 1e6, 25.0).step.beyond
    assert calculate(brittle.static_fatigue_factor, 1e6, 5.0).step.beyond


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: brittle.weibull_probability(-1, 6e7, 12), "stress"),
        (lambda: brittle.weibull_stress(1.0, 6e7, 12), "probability"),
        (lambda: brittle.weibull_size_factor(0, 12), "volume_ratio"),
        (lambda: brittle.static_fatigue_factor(1, 0), "growth_exponent"),
        (lambda: brittle.glaze_compression(1e-6, 600, 0, 8e10, 0.2, 1e-4, 0.01), "glaze_modulus"),
        (lambda: brittle.glaze_compression(1e-6, 600, 7e10, 8e10, 0.6, 1e-4, 0.01), "poisson"),
        (lambda: brittle.thermal_hoop_at_bore(0.05, 0.06, 20, 7e10, 5e-6, 0.2), "outer_radius"),
        (lambda: brittle.thermal_hoop_outside(0.05, 0.04, 20, 7e10, 0, 0.2), "expansion"),
        (lambda: gasket.compression(0, 0.004), "free_thickness"),
        (lambda: gasket.groove_fill(0.01, 0.006, 0.02, 0), "groove_depth"),
        (lambda: gasket.seating_stress(1, 0.1, 0.1), "outer_diameter"),
        (lambda: gasket.seating_force(-1, 0.1, 0.08), "seating_stress"),
        (lambda: gasket.pressure_end_load(1e5, 0), "seal_diameter"),
    ],
)
def test_misuse_names_the_parameter(call: Callable[[], float], named: str) -> None:
    with pytest.raises(InputError, match=rf"^{named}: given .*; expected"):
        call()
