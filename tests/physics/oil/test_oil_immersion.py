"""Lengths and fields at the oil end: the rounded end against the exact image series."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.oil import immersion
from shedlight.trace import calculate


def sphere_against_plane(gap_over_radius: float) -> float:
    """Largest over mean field of a sphere against a plane, by its series of image charges."""
    height = 1 + gap_over_radius
    charge, place = 1.0, 0.0  # of the images inside the sphere of radius 1, towards the plane
    field = 0.0
    for _ in range(2000):
        field += charge / (1 - place) ** 2 + charge / (2 * height - 1 - place) ** 2
        distance = 2 * height - place
        charge, place = charge / distance, 1 / distance
        if charge < 1e-15:
            break
    return field * gap_over_radius  # the first charge alone holds the sphere at potential 1


@pytest.mark.parametrize(("ratio", "exact"), [(0.25, 1.1726143), (1, 1.7702812), (5, 5.5864877)])
def test_the_series_itself_meets_known_values(ratio: float, exact: float) -> None:
    assert sphere_against_plane(ratio) == pytest.approx(exact, rel=1e-7)


@given(st.floats(0.5, 10.0))
def test_a_rounded_end_is_within_a_tenth_of_the_series(ratio: float) -> None:
    exact = sphere_against_plane(ratio)
    assert immersion.rounded_end_factor(0.01 * ratio, 0.01) == pytest.approx(exact, rel=0.1)


@given(st.floats(0.01, 1.0), st.floats(1e3, 1e5))
def test_fields_and_voltages_along_a_surface_are_one_another(path: float, across: float) -> None:
    mean = immersion.mean_surface_gradient(across, path)
    assert immersion.creep_voltage(mean, path) == pytest.approx(across)
    assert immersion.largest_gap_gradient(across, path, 1.0) == pytest.approx(mean)
    assert immersion.largest_gap_gradient(across, path, 2.0) == pytest.approx(2 * mean)


def test_depth_counts_down_from_the_level() -> None:
    assert immersion.depth_below(0.2, -0.1) == pytest.approx(0.3)
    assert immersion.depth_below(-0.2, -0.1) == pytest.approx(-0.1)
    assert immersion.pressure_with_cushion(2e3, -5e3) == -3e3
    assert immersion.temperature_range(368.15, 258.15) == 110


def test_immersion_refuses_nonsense() -> None:
    with pytest.raises(InputError, match="field_factor"):
        immersion.largest_gap_gradient(1e4, 0.01, 0.9)
    with pytest.raises(InputError, match="radius"):
        immersion.rounded_end_factor(0.01, 0.0)
    with pytest.raises(InputError, match="path"):
        immersion.mean_surface_gradient(1e4, 0.0)
    with pytest.raises(InputError, match="hottest"):
        immersion.temperature_range(-1.0, 258.15)


def test_a_rounded_end_flags_its_range() -> None:
    assert not calculate(immersion.rounded_end_factor, 0.02, 0.01).step.beyond
    assert calculate(immersion.rounded_end_factor, 2.0, 0.01).step.beyond
