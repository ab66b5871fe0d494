"""Areas above a level and lines at a level against areas and lengths known exactly."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely

from shedlight.figures.contours import Array, above, at, sheets

BOX = shapely.box(0.1, -0.2, 0.4, 0.2)
RING = shapely.Point(0.0, 0.0).buffer(1.0, 256).difference(shapely.Point(0.0, 0.0).buffer(0.5, 256))


def radius(r: Array, z: Array) -> tuple[Array, ...]:
    return (r,)


def distance(r: Array, z: Array) -> tuple[Array, ...]:
    return (np.hypot(r, z),)


@pytest.mark.parametrize("level", [0.15, 0.25, 0.38])
def test_area_above_a_level_of_a_slope(level: float) -> None:
    (found,) = sheets(BOX, radius, 0.01)

    assert above(found, level).area == pytest.approx((0.4 - level) * 0.4, rel=1e-9)


def test_levels_beyond_the_values_give_all_or_nothing() -> None:
    (found,) = sheets(BOX, radius, 0.01)

    assert above(found, 0.0).equals(BOX)
    assert above(found, 0.5).is_empty


def test_a_region_with_a_hole_keeps_its_hole_and_its_true_border() -> None:
    (found,) = sheets(RING, distance, 0.01)
    area = above(found, 0.7).area

    assert area == pytest.approx(math.pi * (1.0 - 0.7**2), rel=2e-3)
    assert above(found, 0.45).area == pytest.approx(RING.area, rel=1e-9)


def test_areas_shrink_as_the_level_rises() -> None:
    (found,) = sheets(RING, distance, 0.02)
    sizes = [above(found, level).area for level in np.linspace(0.5, 1.0, 11)]

    assert all(small <= large for large, small in pairwise(sizes))


def test_lines_at_a_level_have_the_length_of_the_circle() -> None:
    (found,) = sheets(RING, distance, 0.01)
    (line,) = at(found, [0.75])

    assert line.length == pytest.approx(2 * math.pi * 0.75, rel=1e-3)


def test_a_region_out_of_sight_gives_nothing() -> None:
    assert sheets(shapely.Polygon(), radius, 0.01) == ()


def test_values_unknown_near_the_border_are_taken_from_the_nearest_known() -> None:
    def holed(r: Array, z: Array) -> tuple[Array, ...]:
        return (np.where(r < 0.12, np.nan, r),)

    (found,) = sheets(BOX, holed, 0.01)

    assert np.isfinite(found.values).all()
    assert found.values.min() >= 0.12
