"""Clamping, size, shock, glaze."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad
from scipy.optimize import brentq

from shedlight.errors import InputError
from shedlight.physics.strength import (
    bending,
    brittle,
    clamping,
    glaze,
    size_effect,
    thermal_shock,
)

moduli = st.floats(4, 20)


@given(st.floats(0.03, 0.3), st.floats(0, 0.9), st.floats(0.1, 2), moduli)
def test_effective_volume_is_its_integral(d: float, bore: float, length: float, m: float) -> None:
    found = size_effect.effective_volume(d, bore * d, length, m)
    across, _ = dblquad(
        lambda r, phi: (2 * r / d * math.cos(phi)) ** m * r,
        -math.pi / 2,
        math.pi / 2,
        bore * d / 2,
        d / 2,
    )
    assert found == pytest.approx(across * length / (m + 1), rel=1e-6)


@given(st.floats(0.03, 0.3), st.floats(0.1, 2), moduli)
def test_a_thin_tube_is_its_surface(d: float, length: float, m: float) -> None:
    wall = 1e-6 * d
    volume = size_effect.effective_volume(d, d - 2 * wall, length, m)
    surface = size_effect.effective_surface(d, length, m)
    assert volume == pytest.approx(surface * wall, rel=1e-4)
    assert surface < math.pi / 2 * d * length


@given(moduli, st.floats(20, 40), st.floats(1, 1000), st.floats(1, 1e9), st.floats(1e-6, 0.4))
def test_large_lasting_and_safe_bodies_bear_less(
    m: float, n: float, size: float, time: float, p: float
) -> None:
    found = size_effect.body_strength(100e6, size, time, p, m, n)
    assert found <= 100e6
    parts = brittle.weibull_size_factor(size, m) * brittle.static_fatigue_factor(time, n)
    median = 100e6 / math.log(2) ** (1 / m)
    assert found == pytest.approx(parts * brittle.weibull_stress(p, median, m))


def test_half_of_equal_bars_break_at_the_median() -> None:
    assert size_effect.body_strength(60e6, 1, 1, 0.5, 12, 27) == pytest.approx(60e6)
    with pytest.raises(InputError, match="probability"):
        size_effect.body_strength(60e6, 1, 1, 0.0, 12, 27)


# --- clamping -----------------------------------------------------------------------------


@given(st.floats(1e3, 1e5), st.floats(0.05, 0.3), st.floats(0.1, 0.9))
def test_the_joint_opens_at_the_opening_moment(force: float, d: float, bore: float) -> None:
    modulus = bending.section_modulus_tube(d, bore * d)
    area = math.pi / 4 * d**2 * (1 - bore**2)
    opening = bending.opening_moment(force, modulus, area)
    least = clamping.least_joint_pressure(force, opening, modulus, area)
    assert least == pytest.approx(0, abs=1e-6 * force / area)
    greatest = clamping.greatest_joint_pressure(force, opening, modulus, area)
    assert greatest == pytest.approx(2 * force / area)
    needed = clamping.clamp_force_needed(opening, modulus, area, 0.0, d, 1.0)
    assert needed == pytest.approx(force)


@given(st.floats(1e5, 1e8), st.floats(0, 80))
def test_a_softer_tie_keeps_more_force(stiffness: float, warming: float) -> None:
    soft, stiff = (
        clamping.clamp_force_when_warm(4e4, k, 17e-6, warming, 5e-6, warming / 3, 0.5)
        for k in (stiffness, 2 * stiffness)
    )
    assert stiff <= soft <= 4e4


def test_a_stiff_body_takes_the_pull_from_its_tie() -> None:
    assert clamping.share_of_tie(1e6, 9e6) == pytest.approx(0.1)


# --- shock and glaze ----------------------------------------------------------------------


def plate_severity(biot: float) -> float:
    """Largest (mean - surface) over the step, of a plate cooled from both sides: its series."""
    roots = np.array(
        [
            brentq(
                lambda x: x * math.sin(x) - biot * math.cos(x),
                k * math.pi + 1e-12,
                (k + 0.5) * math.pi,
            )
            for k in range(60)
        ]
    )
    weight = 2 * np.sin(roots) / (roots + np.sin(roots) * np.cos(roots))
    times = np.geomspace(1e-4, 2, 400)
    decay = np.exp(-np.outer(times, roots**2))
    difference = decay @ (weight * (np.sin(roots) / roots - np.cos(roots)))
    return float(difference.max())


@pytest.mark.parametrize("biot", [0.3, 1.0, 5.0, 20.0])
def test_severity_is_that_of_the_cooled_plate(biot: float) -> None:
    assert thermal_shock.shock_severity(biot) == pytest.approx(plate_severity(biot), rel=0.03)


@given(st.floats(0.05, 1e5), st.floats(1.1, 100))
def test_better_coolants_shock_more(biot: float, times: float) -> None:
    once = thermal_shock.shock_severity(biot)
    assert 0 < once < thermal_shock.shock_severity(times * biot) < 1 + 1e-9


@given(st.floats(10e6, 200e6), st.floats(0.05, 1))
def test_the_critical_step_reaches_the_strength(strength: float, severity: float) -> None:
    step = thermal_shock.critical_step(strength, 75e9, 5e-6, 0.22, severity)
    stress = thermal_shock.shock_stress(75e9, 5e-6, step, 0.22, severity)
    assert stress == pytest.approx(strength)


def test_thicker_walls_are_shocked_more() -> None:
    thin, thick = (thermal_shock.biot(500.0, s, 1.5) for s in (0.005, 0.02))
    assert thin < thick
    assert thermal_shock.shock_severity(thin) < thermal_shock.shock_severity(thick)


@given(st.floats(10e6, 150e6), st.floats(1e6, 100e6), st.floats(0.05, 1))
def test_the_share_of_a_glaze_comes_back(bare: float, press: float, share: float) -> None:
    glazed = glaze.glazed_strength(bare, press, share)
    assert glazed >= bare
    assert glaze.glaze_share(glazed, bare, press) == pytest.approx(share, rel=1e-6)


def test_the_standard_minima_say_how_much_of_a_glaze_counts() -> None:
    """C-110: 60 MPa glazed, 50 bare; a glaze of 49.6 MPa then counts by a fifth."""
    press = brittle.glaze_compression(1e-6, 600.0, 65e9, 80e9, 0.22, 0.3e-3, 30e-3)
    assert glaze.glaze_share(60e6, 50e6, press) == pytest.approx(0.2016, abs=1e-3)
    assert glaze.body_tension(press, 0.3e-3, 30e-3) == pytest.approx(0.496e6, rel=1e-3)


def test_a_glaze_crazes_where_its_tension_reaches_its_strength() -> None:
    difference = glaze.crazing_difference(50e6, 65e9, 600.0, 0.22)
    assert difference < 0
    thin = brittle.glaze_compression(difference, 600.0, 65e9, 80e9, 0.22, 1e-9, 30e-3)
    assert thin == pytest.approx(-50e6, rel=1e-6)
