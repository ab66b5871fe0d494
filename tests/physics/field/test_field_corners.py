"""Exponents of corners, and that the mesh knows where it is singular."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.field.benchmarks import EARTH, LIVE, path
from shedlight.physics.field.corners import corners_of
from shedlight.physics.field.domain import Medium, Shape, Side
from shedlight.physics.field.singular import (
    dielectric_corner_exponent,
    flange_edge_exponent,
    metal_corner_exponent,
)


@given(st.floats(0.1, 2 * math.pi), st.floats(1, 10))
def test_one_medium_between_metal(angle: float, permittivity: float) -> None:
    found = metal_corner_exponent([angle], [permittivity])
    assert found == pytest.approx(min(math.pi / angle, 8.0), rel=1e-9)


@given(st.floats(1.01, 20))
def test_the_flange_edge_is_a_root_of_the_wedge_equation(ratio: float) -> None:
    found = metal_corner_exponent([math.pi, math.pi / 2], [ratio, 1.0])
    assert found == pytest.approx(flange_edge_exponent(ratio), rel=1e-9)


@given(st.floats(0.3, 2.8), st.floats(0.2, 5), st.floats(0.2, 5), st.floats(2, 9))
def test_only_the_ratio_of_permittivities_counts(
    angle: float, first: float, second: float, factor: float
) -> None:
    angles = [angle, math.pi - 0.2]
    plain = metal_corner_exponent(angles, [first, second])
    assert metal_corner_exponent(angles, [factor * first, factor * second]) == pytest.approx(plain)


def test_a_flat_interface_is_no_corner() -> None:
    assert dielectric_corner_exponent([math.pi, math.pi], [6.0, 1.0]) == pytest.approx(1.0)


def test_a_dielectric_corner_is_mildly_singular() -> None:
    found = dielectric_corner_exponent([math.pi / 2, 3 * math.pi / 2], [6.0, 1.0])
    assert 0.5 < found < 1


@pytest.mark.parametrize(
    ("angles", "permittivities"),
    [([], []), ([1.0], [1.0, 2.0]), ([4.0, 3.0], [1.0, 1.0]), ([-1.0], [1.0]), ([1.0], [0.0])],
)
def test_impossible_corners_are_refused(angles: list[float], permittivities: list[float]) -> None:
    with pytest.raises(InputError):
        metal_corner_exponent(angles, permittivities)
    with pytest.raises(InputError):
        dielectric_corner_exponent(angles, permittivities)


def test_corners_of_a_shape() -> None:
    sides = (
        Side("disc", path((0, 0), (0.5, 0)), "air", None, LIVE),
        Side("middle", path((0.5, 0), (1, 0)), "air", None),
        Side("wall", path((1, 0), (1, 1)), "air", None, EARTH),
        Side("lid", path((1, 1), (0, 1)), "air", None, EARTH),
        Side("axis", path((0, 1), (0, 0)), "air", None),
    )
    found = {frozenset(c.edges): c.exponent for c in corners_of(Shape(sides), {"air": Medium(1.0)})}
    assert found[frozenset(("disc", "middle"))] == pytest.approx(
        0.5
    )  # a knife, cut by its plane of symmetry
    assert found[frozenset(("wall", "lid"))] == pytest.approx(2.0)
    assert found[frozenset(("middle", "wall"))] == pytest.approx(
        1.0
    )  # a right angle, cut the same way
    assert len(found) == 3  # corners on the axis are none


def test_touching_electrodes_are_seen() -> None:
    sides = (
        Side("base", path((0, 0), (1, 0)), "air", None, EARTH),
        Side("wall", path((1, 0), (1, 1)), "air", None, LIVE),
        Side("lid", path((1, 1), (0, 1)), "air", None, LIVE),
        Side("axis", path((0, 1), (0, 0)), "air", None),
    )
    found = {frozenset(c.edges): c.exponent for c in corners_of(Shape(sides), {"air": Medium(1.0)})}
    assert found[frozenset(("base", "wall"))] == 0
