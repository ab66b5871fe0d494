"""The shortest way from metal to metal round a solid: a string pulled taut.

The string bends only where the solid bulges into the open, and leaves every bulge along a tangent.
So the ways to be compared are few: from bulge to bulge, from metal to bulge, from metal to metal,
each straight and clear of the solid. Pockets that no metal reaches into, such as the bays between
sheds, are closed with a lid first, because a shortest way never dips into them; that keeps the
cost in step with the number of sheds. Metal itself stands in no way: a string that meets it ends
there.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from shedlight.errors import CalculationError
from shedlight.geometry.chords import Array, corners
from shedlight.geometry.curves import Curve, Point

HAIR = 1e-5  # what a straight way may shave off a solid unnoticed [m]
FLAT = 1e-9
BATCH = 256


@dataclass(frozen=True)
class Taut:
    """A taut string: the points it runs through, first on earthed, last on live metal."""

    points: tuple[Point, ...]

    @property
    def length(self) -> float:
        """Length [m]."""
        return math.fsum(a.to(b) for a, b in pairwise(self.points))


def taut_string(
    surface: Curve, earth: Sequence[Curve], live: Sequence[Curve], *, downwards: bool = False
) -> Taut:
    """The shortest string in the open from earthed to live metal, round a solid.

    Args:
        surface: The solid's face from earthed to live metal, the open on its outer side.
        earth: Faces of earthed metal.
        live: Faces of live metal.
        downwards: Whether the surface leads down, as in oil, and not up.

    Raises:
        CalculationError: no way was found.
    """
    sign = -1.0 if downwards else 1.0
    face = _lidded(_polyline(surface, sign))
    solid = _shaved(face)
    earthed, charged = (_metal(curves, sign) for curves in (earth, live))
    bulges = _bulges(face)
    start = _legs(bulges, earthed.segments, solid, arriving=True)
    end = _legs(bulges, charged.segments, solid, arriving=False)
    round_about, touched = _cheapest(_spans(bulges, solid), start.lengths, end.lengths)
    straight = _straight(earthed, charged, solid, round_about)
    if straight is not None:
        string = straight
    elif math.isfinite(round_about):
        middle = bulges.at[touched]
        string = np.vstack([start.feet[touched[0]], middle, end.feet[touched[-1]]])
    else:
        raise CalculationError("no way through the open leads from earthed to live metal")
    return Taut(tuple(_points(string, sign)))


def _points(string: Array, sign: float) -> list[Point]:
    points = [Point(float(r), sign * float(z)) for r, z in string]
    return [points[0], *(b for a, b in pairwise(points) if a.to(b) > FLAT)]


def _polyline(curve: Curve, sign: float) -> Array:
    """The curve as a polyline, turned upside down if it leads down."""
    return corners(curve) * (1.0, sign)


@dataclass(frozen=True)
class _Corners:
    """Corners of a face, and the corners before and after them."""

    at: Array
    before: Array
    after: Array


@dataclass(frozen=True)
class _Metal:
    """Faces of metal: their chords as pairs of points, and their corners."""

    segments: Array
    corners: _Corners


def _metal(curves: Sequence[Curve], sign: float) -> _Metal:
    faces = [_polyline(curve, sign) for curve in curves]
    segments = np.concatenate([np.stack([face[:-1], face[1:]], axis=1) for face in faces])
    before = np.concatenate([np.vstack([face[:1], face[:-1]]) for face in faces])
    after = np.concatenate([np.vstack([face[1:], face[-1:]]) for face in faces])
    return _Metal(segments, _Corners(np.concatenate(faces), before, after))


def _cross(a: Array, b: Array) -> Array:
    product: Array = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return product


def _lidded(face: Array) -> Array:
    """The face with every pocket closed but the two at its ends, where the metal is."""
    hull = shapely.convex_hull(shapely.MultiPoint(face))
    if not isinstance(hull, shapely.Polygon):
        return face
    ring = shapely.get_coordinates(shapely.orient_polygons(hull))[:-1]
    ring = np.roll(ring, -int(np.argmin(ring[:, 1])), axis=0)
    outer = ring[: int(np.argmax(ring[:, 1])) + 1]
    touching = np.isin(face @ (1, 1j), outer @ (1, 1j))
    inner = np.flatnonzero(touching[1:-1]) + 1
    if not len(inner):
        return face
    lidded: Array = np.concatenate([face[: inner[0]], face[inner], face[inner[-1] + 1 :]])
    return lidded


def _shaved(face: Array) -> shapely.Geometry:
    """The solid behind a face, less a hair, so that touching it is not crossing it."""
    axis = [(0.0, face[-1, 1]), (0.0, face[0, 1])]
    solid = shapely.Polygon([*face, *axis]).buffer(-HAIR, join_style="mitre")
    shapely.prepare(solid)
    return solid


def _bulges(face: Array) -> _Corners:
    """The corners where a string may touch the face."""
    into, out = face[1:-1] - face[:-2], face[2:] - face[1:-1]
    kept = np.flatnonzero(_cross(into, out) > 0) + 1
    at = np.concatenate([[0], kept, [len(face) - 1]])
    before, after = np.maximum(at - 1, 0), np.minimum(at + 1, len(face) - 1)
    return _Corners(face[at], face[before], face[after])


def _beside(way: Array, corner: Array, *others: Array) -> NDArray[np.bool_]:
    """Whether the face beside a corner stays on the left of a way that touches it there."""
    slack = -FLAT * np.hypot(way[..., 0], way[..., 1])
    nearest: Array = np.min([_cross(way, other - corner) - slack for other in others], axis=0)
    return nearest >= 0


def _clear(ways: Array, solid: shapely.Geometry) -> NDArray[np.bool_]:
    """Which straight ways (pairs of points) stay out of the solid."""
    return np.asarray(shapely.disjoint(solid, shapely.linestrings(ways)), dtype=np.bool_)


def _spans(bulges: _Corners, solid: shapely.Geometry) -> list[tuple[int, int, float]]:
    """Straight ways from bulge to bulge: from which, to which, how long; in order of the first."""
    first, second = np.triu_indices(len(bulges.at), k=1)
    way = bulges.at[second] - bulges.at[first]
    tangent = np.logical_and(
        _beside(way, bulges.at[first], bulges.before[first], bulges.after[first]),
        _beside(way, bulges.at[second], bulges.before[second], bulges.after[second]),
    )
    first, second, way = first[tangent], second[tangent], way[tangent]
    clear = _clear(np.stack([bulges.at[first], bulges.at[second]], axis=1), solid)
    lengths = np.hypot(way[:, 0], way[:, 1])
    return [
        (int(i), int(j), float(length))
        for i, j, length in zip(first[clear], second[clear], lengths[clear], strict=True)
    ]


def _feet(points: Array, segments: Array) -> tuple[Array, Array]:
    """For every point and segment the nearest place on the segment, and its distance."""
    along = segments[:, 1] - segments[:, 0]
    share = np.sum((points[:, None] - segments[None, :, 0]) * along, axis=2)
    share = np.clip(share / np.sum(along**2, axis=1), 0.0, 1.0)[:, :, None]
    feet = (1 - share) * segments[:, 0] + share * segments[:, 1]
    away = feet - points[:, None]
    return feet, np.hypot(away[..., 0], away[..., 1])


@dataclass(frozen=True)
class _Legs:
    """For each bulge the shortest straight way to metal; infinite where none is clear."""

    lengths: Array
    feet: Array


def _legs(bulges: _Corners, metal: Array, solid: shapely.Geometry, *, arriving: bool) -> _Legs:
    feet, lengths = _feet(bulges.at, metal)
    at = bulges.at[:, None]
    way = at - feet if arriving else feet - at
    tangent = _beside(way, at, bulges.before[:, None], bulges.after[:, None])
    bulge, segment = np.nonzero(tangent)
    ways = np.stack([bulges.at[bulge], feet[bulge, segment]], axis=1)
    clear = _clear(ways, solid)
    allowed = np.full(lengths.shape, np.inf)
    allowed[bulge[clear], segment[clear]] = lengths[bulge[clear], segment[clear]]
    nearest = np.argmin(allowed, axis=1)
    every = np.arange(len(bulges.at))
    return _Legs(allowed[every, nearest], feet[every, nearest])


def _cheapest(
    spans: list[tuple[int, int, float]], start: Array, end: Array
) -> tuple[float, list[int]]:
    """The shortest way over bulges: its length and the bulges it touches, in order."""
    cost = start.tolist()
    came = [-1] * len(cost)
    for i, j, length in spans:
        if cost[i] + length < cost[j]:
            cost[j], came[j] = cost[i] + length, i
    total = np.array(cost) + end
    touched = [int(np.argmin(total))]
    while came[touched[0]] >= 0:
        touched.insert(0, came[touched[0]])
    return float(np.min(total)), touched


def _straight(earth: _Metal, live: _Metal, solid: shapely.Geometry, longest: float) -> Array | None:
    """The shortest clear straight way from metal to metal, if shorter than the longest allowed."""
    ways = np.concatenate([_short_cuts(earth, live), _short_cuts(live, earth)[:, ::-1]])
    lengths = np.hypot(*(ways[:, 1] - ways[:, 0]).T)
    order = np.argsort(lengths)
    order = order[: int(np.searchsorted(lengths[order], longest))]
    for begin in range(0, len(order), BATCH):
        batch = ways[order[begin : begin + BATCH]]
        clear = _clear(batch, solid)
        if clear.any():
            shortest: Array = batch[int(np.argmax(clear))]
            return shortest
    return None


def _short_cuts(metal: _Metal, other: _Metal) -> Array:
    """Ways from corners of metal to near places on other metal, unless sliding shortens them."""
    feet, lengths = _feet(metal.corners.at, other.segments)
    at = metal.corners.at[:, None]
    resting = np.ones(lengths.shape, dtype=np.bool_)
    for neighbour in (metal.corners.before, metal.corners.after):
        gain = np.sum((feet - at) * (neighbour[:, None] - at), axis=2)
        resting &= gain <= FLAT * lengths
    corner, segment = np.nonzero(resting)
    return np.stack([metal.corners.at[corner], feet[corner, segment]], axis=1)
