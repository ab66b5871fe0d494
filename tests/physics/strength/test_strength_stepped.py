"""Stepped beams, loads as vectors, earthquakes."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from shedlight.errors import InputError
from shedlight.physics.strength import bending, combined, earthquake, loads, stepped
from shedlight.physics.strength.combined import Load, SpreadLoad
from shedlight.physics.strength.stepped import PointMass, Segment, SteppedBeam

E = 75e9
BODY = Segment(1.5, 0.20, 0.14, E, 38.45)
STEPS = (
    Segment(0.08, 0.15, 0.05, E, 40.0),
    Segment(0.30, 0.09, 0.05, E, 12.0),
    Segment(0.06, 0.03, 0.0, 120e9, 6.3),
)

forces = st.floats(-5000, 5000)


def test_a_tip_load_bends_an_even_beam_by_the_third_power() -> None:
    beam = SteppedBeam((BODY,))
    exact = 2500.0 * 1.5**3 / (3 * BODY.bending_stiffness)
    assert stepped.deflection(beam, ((1.5, 2500.0),), 1.5) == pytest.approx(exact, rel=1e-9)
    half = 2500.0 * 0.75**2 * (3 * 1.5 - 0.75) / (6 * BODY.bending_stiffness)
    assert stepped.deflection(beam, ((1.5, 2500.0),), 0.75) == pytest.approx(half, rel=1e-9)


@given(st.lists(forces, min_size=1, max_size=3), st.floats(0.1, 1))
def test_deflection_is_the_integral_of_virtual_work(pulls: list[float], share: float) -> None:
    beam = SteppedBeam(STEPS)
    given_loads = tuple((beam.height * (i + 1) / len(pulls), f) for i, f in enumerate(pulls))
    height = share * beam.height

    def work(z: float) -> float:
        moment = sum(f * max(h - z, 0.0) for h, f in given_loads)
        return moment * max(height - z, 0.0) / beam.segment_at(z).bending_stiffness

    corners = sorted({*beam.borders, height, *(h for h, _ in given_loads)})
    exact = sum(quad(work, low, high)[0] for low, high in pairwise(corners) if low < height)
    found = stepped.deflection(beam, given_loads, height)
    scale = 5000 * beam.height**3 / STEPS[-1].bending_stiffness
    assert found == pytest.approx(exact, abs=1e-9 * scale)


def test_a_rocking_base_adds_its_own_angle() -> None:
    stiff = stepped.deflection(SteppedBeam((BODY,)), ((1.5, 1000.0),), 1.5)
    soft = stepped.deflection(SteppedBeam((BODY,), (), 5e6), ((1.5, 1000.0),), 1.5)
    assert soft - stiff == pytest.approx(1000.0 * 1.5**2 / 5e6, rel=1e-6)


def test_even_beams_have_the_frequencies_of_the_books() -> None:
    first, second = stepped.natural_modes(SteppedBeam((BODY,)))
    scale = math.sqrt(BODY.bending_stiffness / 38.45) / (2 * math.pi * 1.5**2)
    assert first.frequency == pytest.approx(1.8751041**2 * scale, rel=5e-6)
    assert second.frequency == pytest.approx(4.6940911**2 * scale, rel=1e-4)
    assert first.mass / (38.45 * 1.5) == pytest.approx(0.6131, abs=1e-4)
    assert second.mass / (38.45 * 1.5) == pytest.approx(0.1883, abs=1e-4)
    assert first.participation == pytest.approx(1.5660, abs=1e-4)
    assert first.lever / 1.5 == pytest.approx(0.7265, abs=1e-4)


def test_frequencies_converge_from_above() -> None:
    exact = 1.8751040687**2 * math.sqrt(BODY.bending_stiffness / 38.45) / (2 * math.pi * 2.25)
    parts = [
        SteppedBeam(tuple(Segment(1.5 / n, 0.20, 0.14, E, 38.45) for _ in range(n))) for n in (1, 3)
    ]
    found = [stepped.natural_modes(beam, 1)[0].frequency for beam in parts]
    assert found[0] >= found[1] * (1 - 1e-12)
    assert found[1] >= exact * (1 - 1e-9)


def test_a_heavy_top_and_a_rocking_base_agree_with_their_bounds() -> None:
    """Rayleigh lies above, Dunkerley below."""
    second_moment = bending.second_moment_tube(0.20, 0.14)
    beam = SteppedBeam((BODY,), (PointMass(1.5, 20.0),))
    found = stepped.natural_modes(beam, 1)[0].frequency
    above = loads.natural_frequency_with_top(E, second_moment, 38.45, 1.5, 20.0)
    assert 0.98 * above < found <= above
    rocking = stepped.natural_modes(SteppedBeam((BODY,), (), 5e6), 1)[0].frequency
    below = loads.combined_frequency(84.85, 54.11)
    assert below < rocking < below * 1.03


@given(st.floats(0, 100), st.floats(1, 100))
def test_a_heavier_top_swings_slower(mass: float, more: float) -> None:
    light = stepped.stepped_frequencies((1.0,), (0.1,), (0.05,), E, (20.0,), mass, None)
    heavy = stepped.stepped_frequencies((1.0,), (0.1,), (0.05,), E, (20.0,), mass + more, None)
    assert heavy[0] < light[0] < light[1]


def test_all_modes_together_move_all_mass() -> None:
    """The mass of every mode sums to the mass that is free to move."""
    beam = SteppedBeam(STEPS, (PointMass(0.38, 3.0),))
    modes = stepped.natural_modes(beam, 40)
    total = sum(s.length * s.mass_per_length for s in STEPS) + 3.0
    assert 0.97 * total < sum(mode.mass for mode in modes) <= total
    turned = sum(mode.mass * mode.lever for mode in modes)
    first_moment = 3.0 * 0.38 + sum(
        s.length * s.mass_per_length * (low + high) / 2
        for s, (low, high) in zip(STEPS, pairwise(beam.borders), strict=True)
    )
    assert turned == pytest.approx(first_moment, rel=0.01)


def test_a_taper_converges_and_lies_between_its_ends() -> None:
    def swing(parts: int) -> float:
        cone = stepped.tapered(1.0, (0.2, 0.1), (0.12, 0.06), E, 20.0, parts)
        return stepped.deflection(SteppedBeam(cone), ((1.0, 1000.0),), 1.0)

    def curvature(z: float) -> float:
        d, i = 0.2 - 0.08 * z, 0.1 - 0.04 * z
        return 1000.0 * (1 - z) ** 2 / (E * bending.second_moment_tube(d, i))

    exact = quad(curvature, 0, 1)[0]
    errors = [abs(swing(parts) - exact) for parts in (4, 8, 16)]
    assert errors[0] > 3 * errors[1] > 9 * errors[2]
    assert errors[2] < 2e-3 * exact


def test_beams_that_are_none_are_refused() -> None:
    with pytest.raises(InputError, match="segments"):
        SteppedBeam(())
    with pytest.raises(InputError, match="height"):
        SteppedBeam((BODY,), (PointMass(2.0, 1.0),))
    with pytest.raises(InputError, match="base_stiffness"):
        SteppedBeam((BODY,), (), 0.0)
    with pytest.raises(InputError, match="as many of each"):
        stepped.stepped_frequencies((1.0,), (0.1, 0.1), (0.0,), E, (20.0,), 0.0, None)
    with pytest.raises(InputError, match="count"):
        stepped.natural_modes(SteppedBeam((BODY,)), 0)


# --- loads as vectors ---------------------------------------------------------------------


@given(st.floats(1, 500), st.floats(0, math.pi))
def test_weight_resolved_is_weight(mass: float, tilt: float) -> None:
    across, along = combined.weight_across(mass, tilt), combined.weight_along(mass, tilt)
    assert math.hypot(across, along) == pytest.approx(mass * 9.80665)
    assert (along <= 1e-9) == (tilt <= math.pi / 2 + 1e-9)


@given(st.floats(0, 1e4), st.floats(0, math.pi), st.floats(-4, 4))
def test_a_pull_resolved_is_the_pull(tension: float, off: float, azimuth: float) -> None:
    pull = combined.conductor_pull(1.0, tension, off, azimuth)
    parts = (pull.across, pull.sideways, pull.along)
    assert math.hypot(*parts) == pytest.approx(tension)


@given(forces, forces, forces, forces)
def test_moments_add_as_vectors(a: float, b: float, c: float, d: float) -> None:
    both = combined.section_force(0.0, (Load(1.0, a, b), Load(0.5, c, d)))
    assert both.moment == pytest.approx(math.hypot(a + c / 2, b + d / 2))
    one = combined.section_force(0.0, (Load(1.0, a, b),))
    other = combined.section_force(0.0, (Load(0.5, c, d),))
    assert both.moment <= one.moment + other.moment + 1e-6


@given(st.floats(0.2, 2), forces, st.floats(0, 1))
def test_a_spread_load_is_many_small_ones(length: float, force: float, share: float) -> None:
    height = share * length
    spread = combined.section_force(height, (), (SpreadLoad(0.0, length, force, 0.0, -force),))
    left = length - height
    assert spread.moment == pytest.approx(abs(force) * left**2 / 2, abs=1e-9)
    assert spread.axial == pytest.approx(-force * left, abs=1e-9)
    assert spread.shear == pytest.approx(abs(force) * left, abs=1e-9)


def test_stress_along_the_handbook_tube() -> None:
    """2500 N at 1.5 m on D 200/d 140: 6.283 MPa; 0.1 MPa inside adds 0.0961 MPa."""
    beam = SteppedBeam((BODY,))
    stresses = combined.stresses_along(beam, (Load(1.5, 2500.0),), (), 0.1e6)
    worst = combined.largest_tension(stresses)
    assert worst.force.height == 0.0
    assert worst.bending == pytest.approx(6.283e6, rel=1e-4)
    assert worst.highest - worst.bending == pytest.approx(0.0961e6, rel=1e-3)
    assert stresses[-1].highest == pytest.approx(0.0961e6, rel=1e-3)


def test_the_worst_section_need_not_be_the_lowest() -> None:
    """Above a thick collar the plain body is the weaker, though its lever is shorter."""
    stresses = combined.stresses_along(SteppedBeam(STEPS[:2]), (Load(0.38, 1250.0),))
    worst = combined.largest_tension(stresses)
    assert worst.force.height == pytest.approx(0.08)
    assert worst.outer_diameter == 0.09


@given(st.floats(0, 5e4), st.floats(0, 3000))
def test_a_tie_lowers_tension_and_raises_pressure(clamp: float, pull: float) -> None:
    force = combined.section_force(0.0, (Load(0.4, pull),))
    bare = combined.section_stress(0.09, 0.05, force)
    tied = combined.section_stress(0.09, 0.05, force, 0.0, clamp)
    assert tied.highest <= bare.highest
    assert tied.highest - tied.lowest == pytest.approx(2 * bare.bending, abs=1e-3)


def test_a_tied_joint_opens_where_its_tension_vanishes() -> None:
    modulus, area = bending.section_modulus_tube(0.2, 0.14), math.pi / 4 * (0.04 - 0.0196)
    opening = bending.opening_moment(40e3, modulus, area)
    force = combined.section_force(0.0, (Load(1.0, opening),))
    stress = combined.section_stress(0.2, 0.14, force, 0.0, 40e3)
    assert stress.highest == pytest.approx(0.0, abs=1e-3)


def test_loads_above_the_top_and_no_sections_are_refused() -> None:
    with pytest.raises(InputError, match="at most"):
        combined.stresses_along(SteppedBeam((BODY,)), (Load(2.0, 1.0),))
    with pytest.raises(InputError, match="at least one"):
        combined.largest_tension(())


# --- earthquakes --------------------------------------------------------------------------


@pytest.mark.parametrize("row", earthquake.seismic_levels(), ids=lambda r: f"{r.code} {r.level}")
def test_every_level_can_be_found(row: earthquake.SeismicLevel) -> None:
    assert earthquake.seismic_level(row.code, row.level) == row
    assert row.amplification >= 1


@pytest.mark.parametrize("row", earthquake.seismic_figures(), ids=lambda row: row.figure)
def test_every_figure_can_be_found(row: earthquake.SeismicFigure) -> None:
    assert earthquake.seismic_figure(row.figure) == row
    assert 0 < row.low <= row.high


def test_an_unknown_level_is_refused() -> None:
    with pytest.raises(InputError, match="expected one of"):
        earthquake.seismic_figure("luck")
    with pytest.raises(InputError, match="expected one of"):
        earthquake.seismic_level("IEC", "AG9")


@given(st.floats(0.01, 0.1), st.sampled_from([1.1, 8.0, 33.0]))
def test_the_spectrum_has_no_steps(damping: float, corner: float) -> None:
    below = earthquake.required_spectrum(corner * (1 - 1e-9), damping, 5.0)
    above = earthquake.required_spectrum(corner * (1 + 1e-9), damping, 5.0)
    assert below == pytest.approx(above, rel=0.02)


@given(st.floats(0.2, 60), st.floats(0.005, 0.1))
def test_more_damping_is_never_worse(frequency: float, damping: float) -> None:
    once = earthquake.required_spectrum(frequency, damping, 5.0)
    more = earthquake.required_spectrum(frequency, 2 * damping, 5.0)
    assert more <= once * (1 + 1e-9)


def test_a_stiff_body_moves_with_its_base() -> None:
    """All modes at the zero-period acceleration and no rest: never above mass times it."""
    beam = SteppedBeam(STEPS)
    total = sum(s.length * s.mass_per_length for s in STEPS)
    moment = sum(
        s.length * s.mass_per_length * (low + high) / 2
        for s, (low, high) in zip(STEPS, pairwise(beam.borders), strict=True)
    )
    modes = stepped.natural_modes(beam, 2)
    found = earthquake.modal_response(modes, (5.0, 5.0), total, moment, 5.0)
    assert found.counted_mass + found.rest_mass == pytest.approx(total)
    assert 0.4 * total * 5.0 < found.base_shear <= total * 5.0
    assert 0.4 * moment * 5.0 < found.base_moment <= moment * 5.0
    shaken = earthquake.modal_response(modes, (10.0, 5.0), total, moment, 5.0)
    assert shaken.base_moment > found.base_moment
    assert shaken.top_swing > found.top_swing > 0
    with pytest.raises(InputError, match="one each"):
        earthquake.modal_response(modes, (5.0,), total, moment, 5.0)


def test_the_swing_of_a_soft_mode_is_that_of_one_mass() -> None:
    """Nearly all mass on top: S_a/omega²."""
    beam = SteppedBeam((Segment(1.0, 0.1, 0.05, E, 1e-3),), (PointMass(1.0, 50.0),))
    (mode,) = stepped.natural_modes(beam, 1)
    found = earthquake.modal_response((mode,), (8.0,), 50.0, 50.0, 5.0)
    omega = 2 * math.pi * mode.frequency
    assert found.top_swing == pytest.approx(8.0 / omega**2, rel=1e-3)
    assert found.base_moment == pytest.approx(50.0 * 8.0, rel=1e-3)
    assert float(np.hypot(found.rest_mass, 0)) < 0.05
