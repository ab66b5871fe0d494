"""Hatching by drafting conventions, as single strokes cut to the outline.

Strokes rather than patterns: they print crisply at every size, need no ids and go to other
drawing formats unchanged. Which hatch stands for what: ISO 128-3 (formerly 128-50) leaves special
hatches to the drawing, with a legend; adjoining parts differ in direction or spacing.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from shedlight.figures.scene import Box, Path, Spot, line

Ring = Sequence[Spot]


@dataclass(frozen=True)
class Hatch:
    """Parallel strokes: angle anticlockwise from the horizontal [degree], distances [mm].

    Attributes:
        angle: Direction of the strokes [degree].
        spacing: From one group of strokes to the next [mm].
        offsets: Where the strokes of a group lie [mm].
        dash: Length of a dash and of a gap [mm]; empty for unbroken strokes. Every other line is
            shifted by half of both, as in the section of a liquid.
    """

    angle: float
    spacing: float
    offsets: tuple[float, ...] = (0.0,)
    dash: tuple[float, ...] = ()


def strokes(rings: Sequence[Ring], hatch: Hatch, voids: Iterable[Box] = ()) -> tuple[Path, ...]:
    """The strokes of a hatch inside an outline, outside some boxes.

    Args:
        rings: Closed outlines on paper; what lies inside an odd number of them is hatched.
        hatch: The hatch.
        voids: Boxes left free, for lettering.
    """
    holes = tuple(voids)
    return tuple(
        line(a, b)
        for whole in _crossed(rings, hatch)
        for piece in _dashed(whole, hatch)
        for a, b in _outside(piece, holes)
        if math.dist(a, b) > 0.15
    )


@dataclass(frozen=True)
class _Stroke:
    """From one place along a hatch line to another; `number` tells which line it is."""

    number: int
    start: float
    end: float
    across: float


def _crossed(rings: Sequence[Ring], hatch: Hatch) -> Iterator[_Stroke]:
    """Every stroke, found by letting each side of the outline say which hatch lines it crosses."""
    along, across = _axes(hatch)
    for index, offset in enumerate(hatch.offsets):
        hits: dict[int, list[float]] = {}
        for ring in rings:
            for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
                u = (_dot(a, across) - offset) / hatch.spacing
                v = (_dot(b, across) - offset) / hatch.spacing
                low, high = min(u, v), max(u, v)
                for number in range(math.ceil(low), math.ceil(high)):
                    share = (number - u) / (v - u)
                    place = _dot(a, along) + share * (_dot(b, along) - _dot(a, along))
                    hits.setdefault(number, []).append(place)
        for number in sorted(hits):
            places = sorted(hits[number])
            level = number * hatch.spacing + offset
            for start, end in zip(places[::2], places[1::2], strict=True):
                yield _Stroke(number + index, start, end, level)


def _dashed(stroke: _Stroke, hatch: Hatch) -> Iterator[tuple[Spot, Spot]]:
    if not hatch.dash:
        yield _spot(stroke, stroke.start, hatch), _spot(stroke, stroke.end, hatch)
        return
    dash, gap = hatch.dash
    period = dash + gap
    shift = period / 2 * (stroke.number % 2)
    first = math.floor((stroke.start - shift) / period)
    last = math.ceil((stroke.end - shift) / period)
    for count in range(first, last):
        start = max(stroke.start, shift + count * period)
        end = min(stroke.end, shift + count * period + dash)
        if end - start > 0.25 * dash:
            yield _spot(stroke, start, hatch), _spot(stroke, end, hatch)


def _outside(piece: tuple[Spot, Spot], voids: Sequence[Box]) -> Iterator[tuple[Spot, Spot]]:
    """The parts of a straight line that lie in none of the boxes."""
    spans = [(0.0, 1.0)]
    for box in voids:
        inside = _inside(piece, box)
        if inside:
            low, high = inside
            spans = [
                part
                for start, end in spans
                for part in ((start, min(end, low)), (max(start, high), end))
                if part[1] > part[0]
            ]
    a, b = piece
    for start, end in spans:
        yield (
            Spot(a.x + start * (b.x - a.x), a.y + start * (b.y - a.y)),
            Spot(a.x + end * (b.x - a.x), a.y + end * (b.y - a.y)),
        )


def _inside(piece: tuple[Spot, Spot], box: Box) -> tuple[float, float] | None:
    """The shares of a line between which it lies in a box."""
    a, b = piece
    low, high = 0.0, 1.0
    for start, run, least, most in (
        (a.x, b.x - a.x, box.left, box.right),
        (a.y, b.y - a.y, box.top, box.bottom),
    ):
        if run == 0:
            if not least < start < most:
                return None
            continue
        first, second = sorted(((least - start) / run, (most - start) / run))
        low, high = max(low, first), min(high, second)
    return (low, high) if low < high else None


def _axes(hatch: Hatch) -> tuple[Spot, Spot]:
    """Unit steps along the strokes and across them; y points down on paper."""
    angle = math.radians(hatch.angle)
    return Spot(math.cos(angle), -math.sin(angle)), Spot(math.sin(angle), math.cos(angle))


def _spot(stroke: _Stroke, place: float, hatch: Hatch) -> Spot:
    along, across = _axes(hatch)
    return Spot(
        place * along.x + stroke.across * across.x, place * along.y + stroke.across * across.y
    )


def _dot(spot: Spot, axis: Spot) -> float:
    return spot.x * axis.x + spot.y * axis.y
