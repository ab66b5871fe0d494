"""How sheds stand to one another: clearance, and creepage against the short cut through air."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from shedlight.geometry.chords import Array, corners
from shedlight.geometry.curves import TOUCH, Arc, Curve, Point
from shedlight.geometry.outline import Shed

SAMPLES = 100
REFINEMENTS = 3
AROUND = np.linspace(-1.0, 1.0, 9)
BATCH = 200
HAIR = 2e-5
FINE = 0.02


@dataclass(frozen=True)
class Bay:
    """The space between one shed and the next above it.

    Attributes:
        lower: Number of the lower shed.
        clearance: From the upper shed's lowest point to the shed below [m].
        creepage_over_air: Largest ratio of creepage to the straight way through air, between two
            points that see each other, from this shed up to the next like it [1].
    """

    lower: int
    clearance: float
    creepage_over_air: float


def bays_of(creepage: Curve, sheds: Sequence[Shed]) -> tuple[Bay, ...]:
    """Every bay, the lowest first.

    Args:
        creepage: The creepage path, earthed end first.
        sheds: The sheds on it, the lowest first.
    """
    clearances = clearances_of(creepage, sheds)
    tips, roots = tip_lengths(creepage, sheds), _root_lengths(creepage, sheds)
    measured: dict[tuple[object, ...], float] = {}
    found = []
    for lower in range(len(sheds) - 1):
        kind, last = _kind(sheds, lower)
        if kind not in measured:
            outer = creepage.between(roots[lower], roots[last + 1])
            window = creepage.between(tips[lower], tips[last])
            measured[kind] = steepest_ratio(window, outer)
        found.append(Bay(lower + 1, clearances[lower], measured[kind]))
    return tuple(found)


def clearances_of(creepage: Curve, sheds: Sequence[Shed]) -> tuple[float, ...]:
    """Clearance between each shed and the next above it [m], the lowest first.

    Args:
        creepage: The creepage path, earthed end first.
        sheds: The sheds on it, the lowest first.
    """
    tips, roots = tip_lengths(creepage, sheds), _root_lengths(creepage, sheds)
    measured: dict[tuple[object, ...], float] = {}
    found = []
    for lower in range(len(sheds) - 1):
        kind, _ = _kind(sheds, lower)
        if kind not in measured:
            below = creepage.between(tips[lower], roots[lower + 1])
            above = creepage.between(roots[lower + 1], tips[lower + 1])
            measured[kind] = _clearance(below, above)
        found.append(measured[kind])
    return tuple(found)


def _kind(sheds: Sequence[Shed], lower: int) -> tuple[tuple[object, ...], int]:
    """What tells one bay from another, and the number of the next shed like its lowest."""
    # A long shed's bay reaches to the next long shed, over the short one between.
    step = 1 if sheds[lower].long == sheds[lower + 1].long else 2
    last = min(lower + step, len(sheds) - 1)
    # On a cylinder bays are alike, and one of each kind is enough.
    first = max(0, lower - 1)
    return (lower - first, last - lower, *map(_size, sheds[first : last + 2])), last


def ends_creepage_over_air(creepage: Curve, sheds: Sequence[Shed]) -> tuple[float, float]:
    """The same ratio as in a bay, below the lowest and above the highest shed; 1 without sheds.

    Args:
        creepage: The creepage path, earthed end first.
        sheds: The sheds on it, the lowest first.
    """
    if not sheds:
        return 1.0, 1.0
    tips, roots = tip_lengths(creepage, sheds), _root_lengths(creepage, sheds)
    below, above = creepage.between(0.0, tips[0]), creepage.between(tips[-1], creepage.length)
    return (
        steepest_ratio(below, creepage.between(0.0, roots[1])),
        steepest_ratio(above, creepage.between(roots[-2], creepage.length)),
    )


def creepage_per_repeat(creepage: Curve, sheds: Sequence[Shed]) -> float | None:
    """Creepage from the lowest shed's tip to the next like it [m]; none without a next.

    Args:
        creepage: The creepage path, earthed end first.
        sheds: The sheds on it, the lowest first.
    """
    alike = [shed.number - 1 for shed in sheds if shed.long]
    if len(alike) < 2:
        return None
    tips = tip_lengths(creepage, sheds)
    return tips[alike[1]] - tips[alike[0]]


def tip_lengths(creepage: Curve, sheds: Sequence[Shed]) -> list[float]:
    """Length along the path at which each shed's tip stands [m].

    Args:
        creepage: The creepage path, earthed end first.
        sheds: The sheds on it, the lowest first.
    """
    roots = _root_lengths(creepage, sheds)
    found = []
    for shed, low, high in zip(sheds, roots, roots[1:], strict=False):
        part = creepage.between(low, high)
        # Trunk and ribs may rise through the tip's height too, but further in.
        at = max(part.rises_through(shed.tip_height), key=lambda length: part.at(length).r)
        found.append(low + at)
    return found


def _root_lengths(creepage: Curve, sheds: Sequence[Shed]) -> list[float]:
    """Lengths at which the trunk stands bare: the start, midway between sheds, the end."""
    found = [0.0]
    for lower, upper in pairwise(sheds):
        middle = (lower.top_root + upper.under_root) / 2
        found.append(next(creepage.rises_through(middle, found[-1])))
    return [*found, creepage.length]


def _size(shed: Shed) -> tuple[float, float, float]:
    return shed.overhang, shed.body_radius, shed.tip_height - shed.under_root


def _clearance(below: Curve, above: Curve) -> float:
    """Distance from the upper shed's lowest point (drip edge or rib) to the shed below.

    The trunk may be nearer; it and the roundings that lead to it are no part of the sheds.
    """
    hanging = list(_low_points(Curve(above.pieces[_roundings(above)[0] + 1 :])))
    floor = min(point.z for point in hanging) + TOUCH
    lowest = max((point for point in hanging if point.z <= floor), key=lambda point: point.r)
    face = shapely.LineString(corners(Curve(below.pieces[: _roundings(below)[-1]]), FINE))
    return float(shapely.distance(face, shapely.Point(lowest.r, lowest.z)))


def _roundings(curve: Curve) -> list[int]:
    return [number for number, piece in enumerate(curve.pieces) if isinstance(piece, Arc)]


def _low_points(curve: Curve) -> Iterator[Point]:
    """Every point of a curve that may be its lowest."""
    for piece in curve.pieces:
        yield piece.start
        if isinstance(piece, Arc):
            turned = (-math.pi / 2 - piece.start_angle) * math.copysign(1.0, piece.sweep)
            share = turned % (2 * math.pi) / abs(piece.sweep)
            if share < 1:
                yield piece.at(share)
    yield curve.end


def steepest_ratio(window: Curve, around: Curve) -> float:
    """Largest creepage over air distance between two points that see each other [1].

    Args:
        window: The part of the path on which the two points lie.
        around: The part of the path that may stand between them, from trunk to trunk.
    """
    axis = [(0.0, around.end.z), (0.0, around.start.z)]
    solid = shapely.Polygon([*corners(around), *axis])
    solid = solid.buffer(-HAIR, join_style="mitre")
    shapely.prepare(solid)
    track = _track(window)
    lengths = np.linspace(0.0, window.length, SAMPLES)
    first, second = np.triu_indices(SAMPLES, k=1)
    best, low, high = _steepest(track, lengths[first], lengths[second], solid)
    step = window.length / (SAMPLES - 1)
    for _ in range(REFINEMENTS):
        near = [np.clip(at + step * AROUND, 0.0, window.length) for at in (low, high)]
        lows, highs = np.meshgrid(near[0], near[1])
        ratio, *places = _steepest(track, lows.ravel(), highs.ravel(), solid)
        if ratio > best:
            best, (low, high) = ratio, places
        step /= 4
    return best


def _track(curve: Curve) -> Array:
    """Lengths along a curve, and radius and height there, close enough to be interpolated."""
    places = corners(curve)
    walked = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(places, axis=0).T))])
    return np.vstack([walked * (curve.length / walked[-1]), places.T])


def _steepest(
    track: Array, low: Array, high: Array, solid: shapely.Geometry
) -> tuple[float, float, float]:
    """The largest ratio between pairs of lengths that see each other, and the two lengths."""
    ways = np.stack(
        [np.interp(side, track[0], across) for side in (low, high) for across in track[1:]], axis=1
    ).reshape(-1, 2, 2)
    straight = np.hypot(*(ways[:, 1] - ways[:, 0]).T)
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.where(straight > 0, (high - low) / straight, 0.0)
    order = np.argsort(-ratio)
    for begin in range(0, len(order), BATCH):
        batch = order[begin : begin + BATCH]
        seen = shapely.disjoint(solid, shapely.linestrings(ways[batch]))
        if seen.any():
            best = batch[int(np.argmax(seen))]
            return float(ratio[best]), float(low[best]), float(high[best])
    return 1.0, float(low[0]), float(high[-1])
