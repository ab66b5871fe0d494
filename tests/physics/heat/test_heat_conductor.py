"""Resistance, skin effect and loss of rods and tubes."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.heat import conductor
from shedlight.trace import calculate

depths = st.floats(1e-3, 0.1)
thickness = st.floats(0.01, 300)  # radius in skin depths


@given(thickness, depths)
def test_only_radius_over_depth_matters_for_a_rod(ratio: float, depth: float) -> None:
    here = conductor.skin_ratio_rod(ratio * depth, depth)
    assert here == pytest.approx(conductor.skin_ratio_rod(ratio, 1.0))


@given(thickness)
def test_a_thicker_rod_has_more_skin_effect(ratio: float) -> None:
    one, more = conductor.skin_ratio_rod(ratio, 1.0), conductor.skin_ratio_rod(1.1 * ratio, 1.0)
    assert 1 <= one <= more


@given(st.floats(1e-9, 0.05))
def test_a_thin_rod_has_none(ratio: float) -> None:
    series = 1 + (math.sqrt(2) * ratio) ** 4 / 192
    assert conductor.skin_ratio_rod(ratio, 1.0) == pytest.approx(series, rel=1e-12)


@given(st.floats(20, 1e5))
def test_a_thick_rod_carries_in_its_skin(ratio: float) -> None:
    asymptote = ratio / 2 + 1 / 4 + 3 / (32 * ratio)
    assert conductor.skin_ratio_rod(ratio, 1.0) == pytest.approx(asymptote, rel=1e-4)


def test_the_argument_may_be_a_thousand() -> None:
    """Unscaled Bessel functions overflow here."""
    assert conductor.skin_ratio_rod(1000 / math.sqrt(2), 1.0) == pytest.approx(353.80, abs=0.01)


@given(thickness)
def test_a_tube_without_bore_is_a_rod(ratio: float) -> None:
    rod = conductor.skin_ratio_rod(ratio, 1.0)
    assert conductor.skin_ratio_tube(ratio, 0.0, 1.0) == rod
    assert conductor.skin_ratio_tube(ratio, 1e-9 * ratio, 1.0) == pytest.approx(rod, rel=1e-9)


@given(st.floats(0.1, 5))
def test_a_wide_tube_is_a_slab(wall: float) -> None:
    slab = math.sinh(2 * wall) + math.sin(2 * wall)
    slab *= wall / (math.cosh(2 * wall) - math.cos(2 * wall))
    tube = conductor.skin_ratio_tube(1e4 * wall, (1e4 - 1) * wall, 1.0)
    assert tube == pytest.approx(slab, rel=2e-4)


@given(st.floats(0.5, 50), st.floats(0.02, 0.95))
def test_a_bore_wastes_less_metal(outer: float, share: float) -> None:
    """Ratio to its own direct-current resistance: a tube always uses its metal better."""
    tube = conductor.skin_ratio_tube(outer, share * outer, 1.0)
    assert 1 <= tube <= conductor.skin_ratio_rod(outer, 1.0) * (1 + 1e-9)


def test_the_best_wall_is_a_quarter_wave_thick() -> None:
    """Per width, a slab fed from one side resists least at pi/2 skin depths: tanh(pi/2)."""
    wide = 1e4

    def sheet_resistance(wall: float) -> float:
        ratio = conductor.skin_ratio_tube(wide, wide - wall, 1.0)
        return ratio * 2 * math.pi * wide / conductor.tube_area(2 * wide, 2 * (wide - wall))

    best = sheet_resistance(math.pi / 2)
    assert best == pytest.approx(math.tanh(math.pi / 2), rel=1e-3)
    assert best < min(sheet_resistance(1.4), sheet_resistance(1.8), sheet_resistance(20.0))


@given(st.floats(0.01, 1.0))
def test_cable_approximation_follows_the_exact_ratio(ratio: float) -> None:
    exact = conductor.skin_ratio_rod(ratio, 1.0)
    assert conductor.skin_ratio_cable(ratio, 1.0) == pytest.approx(exact, rel=1e-4)


@given(st.floats(1e-8, 1e-7), st.floats(0, 0.01), st.floats(233, 473))
def test_resistivity_is_linear(rho: float, alpha: float, t: float) -> None:
    assert conductor.resistivity(rho, alpha, 293.15) == pytest.approx(rho)
    rise = conductor.resistivity(rho, alpha, t) - rho
    assert rise == pytest.approx(rho * alpha * (t - 293.15), abs=1e-15)


@given(st.floats(1e-8, 1e-6), st.floats(1, 1000), st.floats(1, 100))
def test_skin_depth_falls_with_root_of_frequency(rho: float, f: float, mu: float) -> None:
    depth = conductor.skin_depth(rho, f)
    assert conductor.skin_depth(rho, 4 * f) == pytest.approx(depth / 2)
    assert conductor.skin_depth(rho, f, mu) == pytest.approx(depth / math.sqrt(mu))


@given(st.floats(1, 5000), st.floats(1e-7, 1e-3))
def test_loss_grows_with_the_square(current: float, resistance: float) -> None:
    once = conductor.loss_per_length(current, resistance)
    assert conductor.loss_per_length(2 * current, resistance) == pytest.approx(4 * once)


@given(st.floats(0.005, 0.2), st.floats(0.0, 0.99))
def test_ring_and_bore_make_the_whole(outer: float, share: float) -> None:
    whole = conductor.circle_area(outer)
    ring = conductor.tube_area(outer, share * outer)
    assert ring + whole * share**2 == pytest.approx(whole)


def test_demo_conductors() -> None:
    """250, 630 and 1000 A in 12, 20 and 30 mm copper: 2.2, 2.0, 1.4 A/mm²; 12, 28, 31 W/m."""
    hot = conductor.resistivity(1.7241e-8, 0.00393, 363.15)
    for current, diameter, density, loss in (
        (250, 0.012, 2.2, 12),
        (630, 0.020, 2.0, 28),
        (1000, 0.030, 1.4, 31),
    ):
        area = conductor.circle_area(diameter)
        assert conductor.current_density(current, area) == pytest.approx(density * 1e6, rel=0.02)
        resistance = conductor.resistance_per_length(hot, area)
        assert conductor.loss_per_length(current, resistance) == pytest.approx(loss, rel=0.02)
        assert conductor.alternating_resistance(resistance, 1.0) == resistance


def test_beyond_the_source_is_flagged() -> None:
    assert not calculate(conductor.resistivity, 1.7e-8, 0.0039, 363.0).step.beyond
    assert calculate(conductor.resistivity, 1.7e-8, 0.0039, 600.0).step.beyond


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: conductor.resistivity(0, 0.004, 300), "resistivity_20"),
        (lambda: conductor.resistivity(1e-8, -0.1, 300), "coefficient"),
        (lambda: conductor.circle_area(-0.01), "diameter"),
        (lambda: conductor.tube_area(0.02, 0.02), "outer_diameter"),
        (lambda: conductor.resistance_per_length(1e-8, 0), "area"),
        (lambda: conductor.skin_depth(1e-8, 0), "frequency"),
        (lambda: conductor.skin_ratio_rod(0, 1), "radius"),
        (lambda: conductor.skin_ratio_tube(0.02, -0.01, 1), "inner_radius"),
        (lambda: conductor.skin_ratio_tube(0.02, 0.03, 1), "outer_radius"),
        (lambda: conductor.skin_ratio_cable(0.02, 0), "skin_depth"),
        (lambda: conductor.alternating_resistance(1e-5, 0), "skin_ratio"),
        (lambda: conductor.loss_per_length(-1, 1e-5), "current"),
        (lambda: conductor.current_density(1, 0), "area"),
    ],
)
def test_misuse_names_the_parameter(call: Callable[[], float], named: str) -> None:
    with pytest.raises(InputError, match=rf"^{named}: given .*; expected"):
        call()
