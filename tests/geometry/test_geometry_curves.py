"""Curves: closed forms, convergence of polylines towards them, cutting, joining, walking back."""

import math
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.curves import Arc, Curve, Line, Piece, Point, chain, line

QUARTER = math.pi / 2


def close(expected: float) -> Any:
    """Equal to ten digits."""
    return pytest.approx(expected, rel=1e-10, abs=0.0)


def straight(*corners: tuple[float, float]) -> Curve:
    return line(*(Point(r, z) for r, z in corners))


def arc(r: float, z: float, radius: float, start: float, sweep: float) -> Curve:
    return Curve((Arc(Point(r, z), radius, start, sweep),))


def wavy() -> Curve:
    """Lines and arcs of both senses of turning."""
    first = Arc(Point(0.05, 0.0), 0.02, 0.0, QUARTER)
    second = Arc(Point(0.05, 0.05), 0.03, -QUARTER, -2.0)
    lead = Line(Point(0.09, -0.03), first.start)
    last = Line(second.end, Point(0.04, 0.1))
    return Curve((lead, first, second, last))


# --- closed forms -------------------------------------------------------------------------


def test_cylinder() -> None:
    face = straight((0.03, 0.1), (0.03, 0.5))
    assert face.length == close(0.4)
    assert face.form_factor == close(0.4 / (2 * math.pi * 0.03))
    assert face.swept_area == close(2 * math.pi * 0.03 * 0.4)
    assert face.enclosed_volume == close(math.pi * 0.03**2 * 0.4)


def test_cone() -> None:
    face = straight((0.03, 0.0), (0.06, 0.04))
    assert face.length == close(0.05)
    assert face.form_factor == close(0.05 * math.log(2) / (2 * math.pi * 0.03))
    assert face.swept_area == close(math.pi * 0.09 * 0.05)
    frustum = math.pi * 0.04 / 3 * (0.03**2 + 0.03 * 0.06 + 0.06**2)
    assert face.enclosed_volume == close(frustum)


def test_flat_ring() -> None:
    face = straight((0.02, 0.1), (0.05, 0.1))
    assert face.form_factor == close(math.log(2.5) / (2 * math.pi))
    assert face.swept_area == close(math.pi * (0.05**2 - 0.02**2))
    assert face.enclosed_volume == 0.0


def test_sphere() -> None:
    face = arc(0.0, 0.2, 0.1, -QUARTER, math.pi)
    assert face.length == close(math.pi * 0.1)
    assert face.swept_area == close(4 * math.pi * 0.01)
    assert face.enclosed_volume == close(4 / 3 * math.pi * 0.001)
    assert face.form_factor == math.inf


def test_zone_of_a_sphere() -> None:
    """Gudermann: the integral of d(angle) / cos(angle)."""
    low, high = -0.4, 1.1
    expected = math.log(math.tan(math.pi / 4 + high / 2) / math.tan(math.pi / 4 + low / 2))
    face = arc(0.0, 0.0, 0.07, low, high - low)
    assert face.form_factor == close(expected / (2 * math.pi))
    # Archimedes: a zone sweeps as much as the cylinder round it.
    height = 0.07 * (math.sin(high) - math.sin(low))
    assert face.swept_area == close(2 * math.pi * 0.07 * height)


@pytest.mark.parametrize(("start", "sense"), [(0.0, 1), (QUARTER, 1), (math.pi, 1), (-QUARTER, 1)])
def test_quarter_of_a_torus(start: float, sense: int) -> None:
    """Pappus: area is arc length times the way of its centroid."""
    c, size = 0.05, 0.02
    middle = start + QUARTER / 2
    centroid = c + size * math.cos(middle) * math.sin(QUARTER / 2) / (QUARTER / 2)
    there, back = arc(c, 0.3, size, start, QUARTER), arc(c, 0.3, size, start + QUARTER, -QUARTER)
    for face in (there, back):
        assert face.length == close(size * QUARTER)
        swept = 2 * math.pi * centroid * size * QUARTER
        assert face.swept_area == close(swept)
    assert sense * there.enclosed_volume == close(-back.enclosed_volume)


def test_whole_torus() -> None:
    c, size = 0.05, 0.02
    face = arc(c, 0.0, size, 0.7, 2 * math.pi)
    assert face.swept_area == close(4 * math.pi**2 * c * size)
    assert face.enclosed_volume == close(2 * math.pi**2 * c * size**2)
    assert face.form_factor == close(size / math.sqrt(c**2 - size**2))


radii = st.floats(1e-3, 0.3)
angles = st.floats(-3.0, 3.0)
sweeps = st.floats(-6.0, 6.0).filter(lambda sweep: abs(sweep) > 1e-3)


@given(radii, st.floats(0.0, 0.5), angles, sweeps)
def test_arcs_agree_with_numerical_integration(
    size: float, inner: float, start: float, sweep: float
) -> None:
    """Centre further out than the arc's radius, nearer in, and on either side of that."""
    face = arc(size * 0.9 + inner, 0.0, size, start, sweep)
    piece = face.pieces[0]
    low, high = sorted((start, start + sweep))
    lows = [math.pi + 2 * math.pi * k for k in range(-3, 4)]
    if min(piece.at(share).r for share in np.linspace(0, 1, 400)) < 0.02 * size:
        return
    inside = [angle for angle in lows if low < angle < high]
    c = size * 0.9 + inner

    def over(value: float) -> float:
        return size / (2 * math.pi * (c + size * math.cos(value)))

    found, _ = quad(over, low, high, points=inside or None, epsabs=0.0, epsrel=1e-12, limit=500)
    assert face.form_factor == pytest.approx(found, rel=1e-9)
    area, _ = quad(lambda v: 2 * math.pi * size * (c + size * math.cos(v)), low, high, limit=500)
    assert face.swept_area == pytest.approx(area, rel=1e-9)
    sense = math.copysign(1.0, sweep)
    volume, _ = quad(
        lambda v: math.pi * (c + size * math.cos(v)) ** 2 * size * math.cos(v), low, high, limit=500
    )
    assert face.enclosed_volume == pytest.approx(sense * volume, rel=1e-9, abs=1e-12 * size**3)


@given(st.floats(1e-3, 1.0), st.floats(-1e-5, 1e-5))
def test_a_slight_cone_is_nearly_a_cylinder(radius: float, taper: float) -> None:
    """No digits are lost where the two radii all but agree."""
    cone = straight((radius, 0.0), (radius * (1 + taper), 0.1))
    slant = cone.length / (2 * math.pi * radius)
    series = 1 - taper / 2 + taper**2 / 3
    assert cone.form_factor == pytest.approx(slant * series, rel=1e-13)


@pytest.mark.parametrize(
    "face",
    [
        straight((0.0, 0.0), (0.1, 0.0)),
        straight((0.0, 0.0), (0.0, 0.1)),
        arc(0.1, 0.0, 0.1, QUARTER, math.pi),
        arc(0.01, 0.0, 0.1, 3.0, 1.0),
    ],
)
def test_a_face_on_the_axis_has_no_form_factor(face: Curve) -> None:
    assert face.form_factor == math.inf


# --- polylines come closer with the square of their chords --------------------------------


def polyline(curve: Curve, chords: int) -> Curve:
    shares = [index / chords for index in range(chords + 1)]
    points = [piece.at(share) for piece in curve.pieces for share in shares]
    return line(*points)


@pytest.mark.parametrize("name", ["length", "form_factor", "swept_area", "enclosed_volume"])
def test_polylines_converge_with_order_two(name: str) -> None:
    curve = wavy()
    exact = getattr(curve, name)
    errors = [abs(getattr(polyline(curve, n), name) - exact) for n in (40, 80, 160, 320)]
    orders = [math.log2(a / b) for a, b in pairwise(errors)]
    assert orders == pytest.approx([2.0] * 3, abs=0.02)
    assert errors[-1] < 2e-5 * abs(exact)


@given(st.floats(1e-6, 1e-3))
def test_chords_stray_by_no_more_than_the_sagitta(sagitta: float) -> None:
    face = arc(0.05, 0.0, 0.03, 0.3, 4.0)
    points = list(chain(face.points(sagitta)))
    for (ra, za), (rb, zb) in pairwise(points):
        middle = math.hypot((ra + rb) / 2 - 0.05, (za + zb) / 2)
        assert 0.03 - middle <= sagitta * (1 + 1e-9)
    assert points[0] == (face.start.r, face.start.z)
    assert points[-1] == pytest.approx((face.end.r, face.end.z))


# --- walking back, cutting, joining --------------------------------------------------------


def test_walked_back_everything_but_the_volume_stays() -> None:
    curve = wavy()
    back = curve.reversed()
    assert back.length == close(curve.length)
    assert back.form_factor == close(curve.form_factor)
    assert back.swept_area == close(curve.swept_area)
    assert back.enclosed_volume == close(-curve.enclosed_volume)
    assert back.start.to(curve.end) < 1e-15
    assert back.end.to(curve.start) < 1e-15


@given(st.floats(0.01, 0.99))
def test_cut_in_two_the_parts_make_up_the_whole(share: float) -> None:
    curve = wavy()
    middle = share * curve.length
    low, high = curve.between(0.0, middle), curve.between(middle, curve.length)
    assert low.end.to(curve.at(middle)) < 1e-9
    assert low.end.to(high.start) < 1e-9
    whole = low.joined(high)
    for name in ("length", "form_factor", "swept_area", "enclosed_volume"):
        assert getattr(whole, name) == pytest.approx(getattr(curve, name), rel=1e-7)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_the_length_of_a_part_is_what_was_asked_for(one: float, other: float) -> None:
    curve = wavy()
    low, high = (share * curve.length for share in sorted((one, other)))
    if high - low > 1e-6:
        assert curve.between(low, high).length == pytest.approx(high - low, abs=1e-9)


def test_a_part_beyond_the_ends_is_the_whole() -> None:
    curve = wavy()
    assert curve.between(-1.0, 9.0) == curve


@pytest.mark.parametrize(("low", "high"), [(0.1, 0.1), (0.2, 0.1), (5.0, 6.0), (-2.0, -1.0)])
def test_a_part_of_nothing_is_refused(low: float, high: float) -> None:
    with pytest.raises(ImpossibleShapeError):
        wavy().between(low, high)


def test_a_curve_of_nothing_is_refused() -> None:
    with pytest.raises(ImpossibleShapeError, match="without length"):
        line(Point(0.1, 0.1), Point(0.1, 0.1))


def test_only_what_touches_is_joined() -> None:
    low, high = straight((0.1, 0.0), (0.1, 0.1)), straight((0.1, 0.1), (0.2, 0.1))
    assert low.joined(high).length == close(0.2)
    with pytest.raises(ImpossibleShapeError, match="touch"):
        high.joined(low)


def test_places_along_a_curve() -> None:
    curve = wavy()
    assert curve.at(-1.0) == curve.start
    assert curve.at(99.0) == curve.end
    steps = np.linspace(0.0, curve.length, 2001)
    places = np.array(list(chain(curve.at(float(step)) for step in steps)))
    walked = np.hypot(*np.diff(places, axis=0).T)
    assert np.all(walked <= steps[1] + 1e-12)
    assert float(np.sum(walked)) == pytest.approx(curve.length, rel=1e-4)


# --- where a curve rises through a height --------------------------------------------------


def crossings(curve: Curve, height: float) -> int:
    """How often a dense walk goes from below to above."""
    heights = [curve.at(float(s)).z for s in np.linspace(0.0, curve.length, 4001)]
    return sum(a < height <= b for a, b in pairwise(heights))


@given(st.floats(-0.029, 0.099))
def test_rising_through_a_height(height: float) -> None:
    curve = wavy()
    found = list(curve.rises_through(height))
    assert len(found) == crossings(curve, height)
    for length in found:
        assert curve.at(length).z == pytest.approx(height, abs=2e-9)
    assert found == sorted(found)


@given(angles, sweeps, st.floats(-0.999, 0.999))
def test_an_arc_rises_only_on_its_way_up(start: float, sweep: float, level: float) -> None:
    piece: Piece = Arc(Point(0.5, 0.0), 0.1, start, sweep)
    share = piece.share_at_height(0.1 * level)
    if share is not None:
        assert piece.at(share).z == pytest.approx(0.1 * level, abs=2e-9)
        assert piece.at(share + 1e-4).z > piece.at(share - 1e-4).z
    else:
        heights = [piece.at(s).z for s in np.linspace(0.0, 1.0, 500)]
        assert not any(a < 0.1 * level - 1e-9 < b for a, b in pairwise(heights))


def test_from_a_length_on() -> None:
    curve = straight((0.1, 0.0), (0.1, 0.1), (0.2, 0.0), (0.2, 0.1))
    first, second = curve.rises_through(0.05)
    assert list(curve.rises_through(0.05, first + 1e-6)) == [second]
    assert list(curve.rises_through(0.2)) == []
