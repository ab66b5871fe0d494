"""Hatching against closed form: the strokes' length is the area over their spacing."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from shedlight.figures.hatching import Hatch, strokes
from shedlight.figures.scene import Box, Path, Spot

SQUARE = [Spot(0, 0), Spot(40, 0), Spot(40, 40), Spot(0, 40)]
HOLE = [Spot(10, 10), Spot(30, 10), Spot(30, 30), Spot(10, 30)]


def _length(paths: tuple[Path, ...]) -> float:
    return math.fsum(math.dist(path.start, path.steps[0].end) for path in paths)


@given(st.floats(-89, 89), st.floats(0.3, 1.0))
def test_length_is_area_over_spacing(angle: float, spacing: float) -> None:
    found = strokes([SQUARE], Hatch(angle, spacing))

    # Each of some 40/spacing strokes may be off by one stroke's worth at the rim.
    assert _length(found) == pytest.approx(1600 / spacing, rel=2.5 * spacing / 40)


def test_length_with_a_hole_is_that_of_the_ring() -> None:
    found = strokes([SQUARE, HOLE], Hatch(45, 0.25))

    assert _length(found) == pytest.approx((1600 - 400) / 0.25, rel=0.01)


def test_pairs_double_the_length() -> None:
    single = _length(strokes([SQUARE], Hatch(45, 2.0)))
    pair = _length(strokes([SQUARE], Hatch(45, 2.0, (0.0, 0.6))))

    assert pair == pytest.approx(2 * single, rel=0.03)


def test_dashes_keep_their_share() -> None:
    whole = _length(strokes([SQUARE], Hatch(0, 0.5)))
    dashed = _length(strokes([SQUARE], Hatch(0, 0.5, dash=(2.0, 1.0))))

    assert dashed == pytest.approx(whole * 2 / 3, rel=0.03)


@given(st.floats(-89, 89))
def test_strokes_lie_inside_the_outline_at_their_angle(angle: float) -> None:
    solid = shapely.Polygon(SQUARE, [HOLE]).buffer(1e-6)

    for path in strokes([SQUARE, HOLE], Hatch(angle, 3.0)):
        a, b = path.spots
        assert solid.covers(shapely.LineString([a, b]))
        slope = math.degrees(math.atan2(-(b.y - a.y), b.x - a.x))
        assert abs(math.remainder(slope - angle, 180)) < 1e-6


def test_boxes_for_lettering_stay_free() -> None:
    box = Box(12, 8, 25, 14)
    kept = strokes([SQUARE], Hatch(45, 1.0), [box])
    inner = shapely.box(box.left, box.top, box.right, box.bottom).buffer(-1e-6)

    assert not any(inner.intersects(shapely.LineString(path.spots)) for path in kept)
    whole = _length(strokes([SQUARE], Hatch(45, 1.0)))
    assert _length(kept) == pytest.approx(whole - 13 * 6, rel=0.02)
