"""Beams, pressed tubes, frequencies, loads."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.strength import bending, loads
from shedlight.trace import calculate

diameters = st.floats(0.03, 0.5)
bores = st.floats(0.05, 0.95)  # bore over outside
pressures = st.floats(-1e5, 1e6)


@given(diameters, bores)
def test_modulus_is_moment_of_area_over_half_the_diameter(d: float, bore: float) -> None:
    modulus = bending.section_modulus_tube(d, bore * d)
    assert modulus == pytest.approx(bending.second_moment_tube(d, bore * d) / (d / 2))
    assert modulus < bending.section_modulus_tube(d, 0)


@given(diameters, bores, st.floats(0, 5000), st.floats(0, 3))
def test_stress_is_proportional_to_load_and_lever(d: float, b: float, f: float, a: float) -> None:
    modulus = bending.section_modulus_tube(d, b * d)
    once = bending.bending_stress(bending.bending_moment(f, a), modulus)
    twice = bending.bending_stress(bending.bending_moment(2 * f, a), modulus)
    assert twice == pytest.approx(2 * once)


@given(diameters, bores, pressures)
def test_hoop_less_axial_balance(d: float, b: float, p: float) -> None:
    """Lamé: hoop and radial stress at the bore sum to twice the axial stress of a closed tube."""
    hoop = bending.lame_hoop_at_bore(p, d, b * d)
    axial = bending.axial_pressure_stress(p, d, b * d)
    assert hoop - p == pytest.approx(2 * axial, rel=1e-9, abs=1e-6)


@given(diameters, bores, pressures)
def test_axial_stress_carries_the_end_load(d: float, b: float, p: float) -> None:
    ring = math.pi / 4 * d**2 * (1 - b**2)
    load = bending.axial_pressure_stress(p, d, b * d) * ring
    assert load == pytest.approx(p * math.pi / 4 * (b * d) ** 2, rel=1e-9, abs=1e-9)


def test_demo_bending_stresses() -> None:
    """500, 1000, 1250 N at 250, 360, 430 mm: about 9, 13, 10 MPa."""
    for outer, bore, force, lever, stress in (
        (0.053, 0.025, 500, 0.250, 9),
        (0.068, 0.036, 1000, 0.360, 13),
        (0.086, 0.050, 1250, 0.430, 10),
    ):
        modulus = bending.section_modulus_tube(outer, bore)
        found = bending.bending_stress(bending.bending_moment(force, lever), modulus)
        assert found == pytest.approx(stress * 1e6, abs=0.6e6)


@given(diameters, bores, st.floats(1e3, 1e5))
def test_joint_opens_where_bending_tension_meets_clamping_pressure(
    d: float, b: float, force: float
) -> None:
    area = math.pi / 4 * d**2 * (1 - b**2)
    modulus = bending.section_modulus_tube(d, b * d)
    moment = bending.opening_moment(force, modulus, area)
    assert bending.bending_stress(moment, modulus) == pytest.approx(force / area)


beams = (st.floats(1e10, 1e11), st.floats(1e-7, 1e-4), st.floats(5, 100), st.floats(0.2, 4))


@given(*beams)
def test_frequency_falls_with_the_square_of_length(e: float, j: float, m: float, h: float) -> None:
    once = bending.natural_frequency(e, j, m, h)
    assert bending.natural_frequency(e, j, m, 2 * h) == pytest.approx(once / 4)


@given(*beams, st.floats(0, 200))
def test_a_heavy_top_slows_and_rayleigh_is_never_low(
    e: float, j: float, m: float, h: float, top: float
) -> None:
    bare = bending.natural_frequency(e, j, m, h)
    estimate = loads.natural_frequency_with_top(e, j, m, h, 0.0)
    assert bare < estimate < 1.02 * bare
    assert loads.natural_frequency_with_top(e, j, m, h, top) <= estimate


def test_first_root_of_the_cantilever() -> None:
    root = 1.875104068711961
    assert math.cos(root) * math.cosh(root) == pytest.approx(-1, abs=1e-12)


@given(st.floats(1, 200), st.floats(1, 200))
def test_together_slower_than_each(one: float, other: float) -> None:
    both = loads.combined_frequency(one, other)
    assert both < min(one, other)
    assert both == pytest.approx(loads.combined_frequency(other, one))


@given(st.floats(0, 60), st.floats(0.05, 0.5), st.floats(0.1, 4))
def test_wind_force_grows_with_the_square_of_speed(v: float, d: float, h: float) -> None:
    once = bending.wind_pressure_force(loads.wind_pressure(v, 1.225), 1.0, d, h)
    twice = bending.wind_pressure_force(loads.wind_pressure(2 * v, 1.225), 1.0, d, h)
    assert twice == pytest.approx(4 * once)


@given(st.floats(0, 0.02), st.floats(0.01, 0.5))
def test_ice_is_a_ring(t: float, d: float) -> None:
    ring = math.pi / 4 * ((d + 2 * t) ** 2 - d**2)
    assert loads.ice_weight(t, d, 900.0) == pytest.approx(900 * 9.80665 * ring, abs=1e-9)


@given(st.floats(0, 2e5), st.floats(0.1, 3), st.floats(0.1, 3))
def test_three_phases_push_less_than_one_current_there_and_back(
    i: float, length: float, a: float
) -> None:
    pair = loads.pair_force(i, length, a)
    assert loads.three_phase_force(i, length, a) == pytest.approx(pair * math.sqrt(3) / 2)


def test_beyond_the_source_is_flagged() -> None:
    assert not calculate(loads.ice_weight, 0.02, 0.3, 900.0).step.beyond
    assert calculate(loads.ice_weight, 0.05, 0.3, 900.0).step.beyond


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: bending.section_modulus_tube(0.05, -0.01), "inner_diameter"),
        (lambda: bending.section_modulus_tube(0.05, 0.05), "outer_diameter"),
        (lambda: bending.second_moment_tube(0, 0), "outer_diameter"),
        (lambda: bending.bending_moment(-1, 1), "force"),
        (lambda: bending.bending_stress(1, 0), "section_modulus"),
        (lambda: bending.lame_hoop_at_bore(math.inf, 0.1, 0.05), "pressure"),
        (lambda: bending.axial_pressure_stress(1e5, 0.05, 0.1), "outer_diameter"),
        (lambda: bending.opening_moment(1, 1, 0), "area"),
        (lambda: bending.natural_frequency(0, 1, 1, 1), "elastic_modulus"),
        (lambda: bending.wind_pressure_force(700, -1, 0.1, 1), "drag"),
        (lambda: loads.wind_pressure(-1, 1.2), "wind_speed"),
        (lambda: loads.ice_weight(-0.01, 0.1, 900), "thickness"),
        (lambda: loads.pair_force(1, 1, 0), "spacing"),
        (lambda: loads.three_phase_force(-1, 1, 1), "peak_current"),
        (lambda: loads.natural_frequency_with_top(1, 1, 1, 1, -1), "top_mass"),
        (lambda: loads.combined_frequency(0, 1), "one"),
    ],
)
def test_misuse_names_the_parameter(call: Callable[[], float], named: str) -> None:
    with pytest.raises(InputError, match=rf"^{named}: given .*; expected"):
        call()
