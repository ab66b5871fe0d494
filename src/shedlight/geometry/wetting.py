"""Which parts of a body of revolution rain from any side reaches, all round.

Rain falls in straight lines of one direction. A place is dry where its surface turns away from
the rain, or where the way back up the rain meets the body above. That way, seen in radius r and
height z, is the hyperbola r² = r0² + 2 r0 cos(phi) T (z - z0) + T² (z - z0)² with T the tangent of
the angle between rain and axis and phi the angle round the body. With F = r² - T² z² it is a
straight line of slope 2 T (r0 cos(phi) - T z0), so what decides is the steepest slope from a place
to anything above it: one walk down a convex hull finds it for all places and serves all angles
round. What remains of error: chords stray from arcs by `SAGITTA` at most, the body is known at
places `STEP` apart, and stretches are told apart at the middle of places. Nothing stands above the
lower end of the path but path and cap: rain from behind the cover counts as kept off. Splash,
run-off, drips, horns and leads are left out; :mod:`shedlight.geometry.drips` follows the water
that runs off.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.geometry.curves import Curve, chain

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

SAGITTA = 2e-5
STEP = 5e-4
MERIDIANS = 72
FLAT = 1e-9
BESIDE = 1e-7  # [m] further out than a place: nearer, it is the place's own chord
LYING = math.pi / 2


@dataclass(frozen=True)
class Stretch:
    """A stretch of the creepage path, by length from its earthed end [m], wet or dry."""

    start: float
    end: float
    wet: bool

    @property
    def length(self) -> float:
        """Length of the stretch [m]."""
        return self.end - self.start


@dataclass(frozen=True)
class RainDirection:
    """Where rain comes from, seen from the body.

    Attributes:
        off_axis: Angle between the axis, towards the cap, and the way the rain comes from [rad],
            0 to pi; above pi/2 it comes from behind the cover.
        side: Side of the body it comes from, round the axis from the side that hangs lowest [rad].
    """

    off_axis: float
    side: float


@dataclass(frozen=True)
class WetMap:
    """The unrolled surface: how squarely rain strikes, by creepage length and by angle round.

    Attributes:
        lengths: Middle of each place, by length from the earthed end [m].
        sizes: Length of each place along the path [m].
        radii: Radius of each place [m].
        around: Angle of each meridian from the side the rain comes from [rad], -pi to pi.
        factor: Cosine between surface normal and rain, 0 where dry [1]; places by meridians.
        direction: The rain.
    """

    lengths: Array
    sizes: Array
    radii: Array
    around: Array
    factor: Array
    direction: RainDirection

    @property
    def wet_share(self) -> float:
        """Share of the whole surface that rain strikes [1]."""
        area = self.sizes * self.radii
        return float(np.sum(area[:, None] * (self.factor > 0)) / (np.sum(area) * len(self.around)))

    @property
    def dry_creepage(self) -> Array:
        """Dry length of each meridian [m]."""
        return np.asarray(self.sizes @ (self.factor <= 0).astype(float), dtype=np.float64)

    @property
    def mean_factor(self) -> Array:
        """Mean over all meridians of the factor at each place [1]: water per ring."""
        return np.asarray(np.mean(self.factor, axis=1), dtype=np.float64)

    def dry_between(self, low: float, high: float) -> Array:
        """Dry length of each meridian within a part of the path, such as one shed's bay [m].

        Args:
            low: Length along the path where the part begins [m].
            high: Where it ends [m].
        """
        inside = self.sizes * ((self.lengths >= low) & (self.lengths < high))
        return np.asarray(inside @ (self.factor <= 0).astype(float), dtype=np.float64)

    def stretches(self, meridian: int) -> tuple[Stretch, ...]:
        """Wet and dry stretches of one meridian, from the earthed end.

        Args:
            meridian: Which meridian, counted as in ``around``.
        """
        wet = self.factor[:, meridian] > 0
        edges = np.concatenate([[0.0], np.cumsum(self.sizes)])
        turns = np.flatnonzero(np.diff(wet)) + 1
        bounds = [0, *turns.tolist(), len(wet)]
        return tuple(
            Stretch(float(edges[low]), float(edges[high]), bool(wet[low]))
            for low, high in pairwise(bounds)
        )


def wet_map_under(
    cap: Curve,
    path: Curve,
    direction: RainDirection,
    *,
    meridians: int = MERIDIANS,
    step: float = STEP,
    sagitta: float = SAGITTA,
) -> WetMap:
    """The same for any body of revolution: a path and what stands above it.

    Args:
        cap: What stands above the path and keeps rain off.
        path: The surface, from its lower end.
        direction: The rain.
        meridians: How many meridians, evenly round.
        step: Longest place along the path [m].
        sagitta: Largest distance between chord and arc [m].

    Raises:
        InputError: fewer than two meridians.
    """
    if meridians < 2:
        raise InputError(f"meridians: given {meridians}; expected at least 2")
    around = (np.arange(meridians) + 0.5) * 2 * math.pi / meridians - math.pi
    return mapped(cap, path, direction, around, step, sagitta)


def mapped(
    cap: Curve,
    creepage: Curve,
    direction: RainDirection,
    around: Array,
    step: float,
    sagitta: float,
) -> WetMap:
    """The map of chosen meridians.

    Args:
        cap: What stands above the path and keeps rain off.
        creepage: The path, from its lower end.
        direction: The rain.
        around: Angles of the meridians from the side the rain comes from [rad].
        step: Longest place along the path [m].
        sagitta: Largest distance between chord and arc [m].
    """
    places, normals, sizes = _places(creepage, step, sagitta)
    corners = _corners(creepage, sagitta)
    shade = np.concatenate(
        [corners, places, _corners(cap, sagitta), _places(cap, step, sagitta)[0]]
    )
    if direction.off_axis > LYING + FLAT:
        factor = np.zeros((len(places), len(around)))
    else:
        struck = _struck(places, normals, shade, direction.off_axis, around)
        factor = np.where(_hollow(places, corners)[:, None], 0.0, struck)
    sizes = sizes * (creepage.length / float(np.sum(sizes)))
    lengths = np.cumsum(sizes) - sizes / 2
    return WetMap(lengths, sizes, places[:, 0], around, factor, direction)


def _corners(curve: Curve, sagitta: float) -> Array:
    """Ends (r, z) of a curve's chords."""
    return np.array(list(chain(curve.points(sagitta))))


def _places(creepage: Curve, step: float, sagitta: float) -> tuple[Array, Array, Array]:
    """Middles (r, z) of short pieces of the path's chords, their outward normals, their sizes."""
    corners = _corners(creepage, sagitta)
    ways = np.diff(corners, axis=0)
    sizes = np.hypot(*ways.T)
    kept = sizes > FLAT
    corners, ways, sizes = corners[:-1][kept], ways[kept], sizes[kept]
    counts = np.maximum(1, np.ceil(sizes / step)).astype(int)
    share = np.concatenate([(np.arange(count) + 0.5) / count for count in counts])
    places = np.repeat(corners, counts, axis=0)
    places = places + np.repeat(ways, counts, axis=0) * share[:, None]
    # Air lies to the right of the path as it climbs.
    normals = np.stack([ways[:, 1], -ways[:, 0]], axis=1) / sizes[:, None]
    return places, np.repeat(normals, counts, axis=0), np.repeat(sizes / counts, counts)


def _hollow(places: Array, corners: Array) -> Flags:
    """Places that have body beside them, further out at their own height."""
    ways = np.sign(np.diff(corners[:, 1]))
    turns = np.flatnonzero(ways[1:] != ways[:-1]) + 1
    order = np.argsort(places[:, 1])
    heights, reach = places[order, 1], np.zeros(len(places))
    for low, high in pairwise([0, *turns.tolist(), len(ways)]):
        run = corners[low : high + 1]
        run = run if ways[low] >= 0 else run[::-1]
        first, last = np.searchsorted(heights, (run[0, 1] + FLAT, run[-1, 1] - FLAT))
        if first < last:
            here = np.interp(heights[first:last], run[:, 1], run[:, 0])
            reach[first:last] = np.maximum(reach[first:last], here)
    found = np.zeros(len(places), dtype=np.bool_)
    found[order] = reach > places[order, 0] + BESIDE
    return found


def _struck(places: Array, normals: Array, shade: Array, off_axis: float, around: Array) -> Array:
    """Cosine between normal and rain, 0 where dry; places by meridians; hollows not told apart."""
    sine, cosine, turned = math.sin(off_axis), math.cos(off_axis), np.cos(around)
    factor = normals[:, :1] * turned * sine + normals[:, 1:] * cosine
    if cosine <= FLAT:  # level rain meets only the body beside a place
        return np.where((turned > 0) & (factor > FLAT), factor, 0.0)
    tangent, level = sine / cosine, (0.0, float(np.mean(shade[:, 1])))
    here = places - level
    steepest = _steepest_above(here, shade - level, tangent)
    slopes = 2 * tangent * (here[:, :1] * turned - tangent * here[:, 1:])
    return np.where((slopes > steepest[:, None]) & (factor > FLAT), factor, 0.0)


def _steepest_above(places: Array, shade: Array, tangent: float) -> Array:
    """Steepest slope of F = r² - T² z² from each place to anything above it."""
    points = np.concatenate([places, shade])
    heights = _levelled(points[:, 1])
    values = points[:, 0] ** 2 - (tangent * heights) ** 2
    hull: list[tuple[float, float]] = []  # upper hull of what lies above, nearest last
    order = np.lexsort((values, -heights))
    steepest = []
    for z, f in zip(heights[order].tolist(), values[order].tolist(), strict=True):
        while hull and hull[-1][0] == z:
            hull.pop()
        while len(hull) > 1 and _slope(z, f, hull[-1]) <= _slope(z, f, hull[-2]):
            hull.pop()
        steepest.append(_slope(z, f, hull[-1]) if hull else -math.inf)
        hull.append((z, f))
    found = np.empty(len(points))
    found[order] = steepest
    return found[: len(places)]


def _levelled(heights: Array) -> Array:
    """The same heights, those of one flat ring made equal."""
    order = np.argsort(heights)
    steps = np.diff(heights[order], prepend=heights[order[0]])
    found = np.empty_like(heights)
    found[order] = heights[order[0]] + np.cumsum(np.where(steps < FLAT, 0.0, steps))
    return found


def _slope(z: float, f: float, point: tuple[float, float]) -> float:
    return (point[1] - f) / (point[0] - z)
