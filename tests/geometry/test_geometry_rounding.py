"""Rounded corners: tangent, set back as far as geometry says, refused where they do not fit."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.curves import Arc, Curve, Line, Piece, Point
from shedlight.geometry.rounding import Corner, fitting, rounded


def at(r: float, z: float, radius: float = 0.0, field: str = "") -> Corner:
    return Corner(Point(r, z), radius, field)


def heading(piece: Piece, *, leaving: bool) -> float:
    """Direction in which a piece ends or starts [rad]."""
    if isinstance(piece, Line):
        return math.atan2(piece.end.z - piece.start.z, piece.end.r - piece.start.r)
    angle = piece.start_angle + (piece.sweep if leaving else 0.0)
    return angle + math.copysign(math.pi / 2, piece.sweep)


def kinks(curve: Curve) -> list[float]:
    """By how much the direction jumps at each joint."""
    pairs = zip(curve.pieces[:-1], curve.pieces[1:], strict=True)
    return [
        abs(math.remainder(heading(b, leaving=False) - heading(a, leaving=True), 2 * math.pi))
        for a, b in pairs
    ]


turns = st.floats(-2.8, 2.8).filter(lambda turn: abs(turn) > 0.01)


@given(turns, st.floats(-3.1, 3.1), st.floats(1e-4, 0.02))
def test_an_arc_is_tangent_and_set_back_by_its_radius_times_the_half_tangent(
    turn: float, first: float, radius: float
) -> None:
    setback = radius * math.tan(abs(turn) / 2)
    reach = 1.5 * setback + 0.01
    corner = Point(5.0, 5.0)
    before = Point(corner.r - reach * math.cos(first), corner.z - reach * math.sin(first))
    out = first + turn
    after = Point(corner.r + reach * math.cos(out), corner.z + reach * math.sin(out))
    curve = rounded([Corner(before), Corner(corner, radius), Corner(after)])
    lead, bend, tail = curve.pieces
    assert isinstance(bend, Arc)
    assert max(kinks(curve)) < 1e-9
    assert bend.sweep == pytest.approx(turn, abs=1e-9)
    assert bend.start.to(corner) == pytest.approx(setback, rel=1e-9)
    assert bend.end.to(corner) == pytest.approx(setback, rel=1e-9)
    assert lead.end.to(bend.start) < 1e-9
    assert tail.start.to(bend.end) < 1e-9
    saved = 2 * setback - radius * abs(turn)
    assert curve.length == pytest.approx(2 * reach - saved, rel=1e-9)


def test_a_square_corner() -> None:
    curve = rounded([at(0.1, 0.0), at(0.2, 0.0, 0.02), at(0.2, 0.1)])
    assert curve.length == pytest.approx(0.2 - (2 - math.pi / 2) * 0.02, rel=1e-14)


def test_ends_stay_where_they_are() -> None:
    curve = rounded([at(0.1, 0.0, 0.5), at(0.2, 0.0, 0.02), at(0.2, 0.1, 0.5)])
    assert (curve.start, curve.end) == (Point(0.1, 0.0), Point(0.2, 0.1))


def test_a_straight_corner_needs_no_arc() -> None:
    curve = rounded([at(0.1, 0.0), at(0.15, 0.0, 0.02), at(0.2, 0.0)])
    assert all(isinstance(piece, Line) for piece in curve.pieces)
    assert curve.length == pytest.approx(0.1, rel=1e-14)


def test_corners_on_one_another_count_once() -> None:
    once = rounded([at(0.1, 0.0), at(0.2, 0.0, 0.02), at(0.2, 0.1)])
    twice = rounded([at(0.1, 0.0), at(0.2, 0.0, 0.02), at(0.2, 1e-12, 0.01), at(0.2, 0.1)])
    assert twice == once


@pytest.mark.parametrize("radius", [0.05, 0.05 - 1e-6])
def test_two_arcs_may_just_meet(radius: float) -> None:
    curve = rounded([at(0.0, 0.0), at(0.1, 0.0, radius), at(0.1, 0.1, radius), at(0.0, 0.1)])
    assert max(kinks(curve)) < 1e-9
    assert curve.length == pytest.approx(0.3 - 2 * (2 - math.pi / 2) * radius, rel=1e-9)


def test_an_arc_too_large_is_refused_by_name() -> None:
    corners = [at(0.0, 0.0), at(0.1, 0.0, 0.05 + 1e-6, "a.b"), at(0.1, 0.1, 0.05), at(0.0, 0.1)]
    with pytest.raises(ImpossibleShapeError) as caught:
        rounded(corners)
    problem = caught.value.problem
    assert problem.field == "a.b"
    assert problem.given == "a rounding of 50 mm"
    assert problem.expected
    assert problem.cure


@pytest.mark.parametrize("back", [0.0, 1e-7])
def test_a_hairpin_cannot_be_rounded(back: float) -> None:
    with pytest.raises(ImpossibleShapeError):
        rounded([at(0.0, 0.0), at(0.1, 0.0, 0.001), at(0.0, back)])


@given(turns, st.floats(0.01, 0.2), st.floats(0.01, 0.2), st.floats(1e-4, 0.1))
def test_a_fitted_rounding_fits_and_leaves_half_of_each_face(
    turn: float, lead: float, tail: float, wanted: float
) -> None:
    before, corner = Point(1.0, 1.0), Point(1.0 + lead, 1.0)
    after = Point(corner.r + tail * math.cos(turn), corner.z + tail * math.sin(turn))
    assume(lead > 1e-6)
    radius = fitting(before, corner, after, wanted)
    assert 0 < radius <= wanted
    setback = radius * math.tan(abs(turn) / 2)
    assert setback <= 0.5 * min(lead, tail) * (1 + 1e-9)
    assert radius == wanted or setback == pytest.approx(0.5 * min(lead, tail), rel=1e-9)
    rounded([Corner(before), Corner(corner, radius), Corner(after)])
