"""Meridian curves made of straight lines and circular arcs, and what can be measured on them.

Radius r and height z in metres; z points up, z = 0 is the top face of the cover.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise

from shedlight.errors import ImpossibleShapeError

TOUCH = 1e-9


@dataclass(frozen=True, slots=True)
class Point:
    """A place in the meridian plane [m]."""

    r: float
    z: float

    def to(self, other: "Point") -> float:
        """Straight distance to another point [m]."""
        return math.hypot(other.r - self.r, other.z - self.z)


@dataclass(frozen=True, slots=True)
class Line:
    """A straight piece."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """Length [m]."""
        return self.start.to(self.end)

    def at(self, share: float) -> Point:
        """The point a share (0 to 1) along the piece."""
        if share == 1.0:
            return self.end
        return Point(
            self.start.r + share * (self.end.r - self.start.r),
            self.start.z + share * (self.end.z - self.start.z),
        )

    def reversed(self) -> "Line":
        """The same piece walked the other way."""
        return Line(self.end, self.start)

    def cut(self, low: float, high: float) -> "Line":
        """The piece between two shares."""
        return Line(self.at(low), self.at(high))

    def chords(self, sagitta: float) -> int:
        """How many chords follow the piece within a sagitta [m]."""
        del sagitta
        return 1

    def share_at_height(self, height: float) -> float | None:
        """The share (0 to 1) at which the piece rises through a height [m]; None if it does not."""
        low, high = self.start.z, self.end.z
        if low >= high or not low - TOUCH <= height <= high + TOUCH:
            return None
        return min(1.0, max(0.0, (height - low) / (high - low)))

    @property
    def form_factor(self) -> float:
        """Integral of dl / (2 pi r) [1]; infinite on the axis."""
        inner, outer = sorted((self.start.r, self.end.r))
        if inner <= TOUCH:
            return math.inf
        spread = (outer - inner) / inner
        return self.length / (2 * math.pi * inner) * (math.log1p(spread) / spread if spread else 1)

    @property
    def swept_area(self) -> float:
        """Area swept round the axis [m²]."""
        return math.pi * (self.start.r + self.end.r) * self.length

    @property
    def enclosed_volume(self) -> float:
        """Integral of pi r² dz [m³]."""
        a, b = self.start, self.end
        return math.pi / 3 * (a.r**2 + a.r * b.r + b.r**2) * (b.z - a.z)


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular piece; sweep is positive counter-clockwise [rad]."""

    centre: Point
    radius: float
    start_angle: float
    sweep: float

    @property
    def start(self) -> Point:
        """First point."""
        return self.at(0.0)

    @property
    def end(self) -> Point:
        """Last point."""
        return self.at(1.0)

    @property
    def length(self) -> float:
        """Length [m]."""
        return self.radius * abs(self.sweep)

    def at(self, share: float) -> Point:
        """The point a share (0 to 1) along the piece."""
        angle = self.start_angle + share * self.sweep
        return Point(
            self.centre.r + self.radius * math.cos(angle),
            self.centre.z + self.radius * math.sin(angle),
        )

    def reversed(self) -> "Arc":
        """The same piece walked the other way."""
        return Arc(self.centre, self.radius, self.start_angle + self.sweep, -self.sweep)

    def cut(self, low: float, high: float) -> "Arc":
        """The piece between two shares."""
        start = self.start_angle + low * self.sweep
        return Arc(self.centre, self.radius, start, (high - low) * self.sweep)

    def chords(self, sagitta: float) -> int:
        """How many chords follow the piece within a sagitta [m]."""
        share = min(1.0, sagitta / self.radius)
        step = 2 * math.acos(1 - share)
        return max(2, math.ceil(abs(self.sweep) / step))

    def share_at_height(self, height: float) -> float | None:
        """The share (0 to 1) at which the piece rises through a height [m]; None if it does not."""
        off = height - self.centre.z
        if abs(off) > self.radius + TOUCH:
            return None
        # Rising is on the right half of the circle counter-clockwise, on the left half clockwise.
        right = math.asin(max(-1.0, min(1.0, off / self.radius)))
        turn = math.copysign(1.0, self.sweep)
        angle = right if turn > 0 else math.pi - right
        walked = math.remainder(turn * (angle - self.start_angle), 2 * math.pi)
        slack = TOUCH / self.radius
        if walked < -slack:
            walked += 2 * math.pi
        if walked > abs(self.sweep) + slack:
            return None
        return min(1.0, max(0.0, walked / abs(self.sweep)))

    @property
    def form_factor(self) -> float:
        """Integral of dl / (2 pi r) [1]; infinite where the arc meets the axis."""
        if self._innermost <= TOUCH:
            return math.inf
        first, last = self._inverse_radius(0.0), self._inverse_radius(1.0)
        return self.radius / (2 * math.pi) * abs(last - first)

    @property
    def swept_area(self) -> float:
        """Area swept round the axis [m²]."""
        a, b = self.start_angle, self.start_angle + self.sweep
        rise = self.centre.r * (b - a) + self.radius * (math.sin(b) - math.sin(a))
        return 2 * math.pi * self.radius * math.copysign(1.0, self.sweep) * rise

    @property
    def enclosed_volume(self) -> float:
        """Integral of pi r² dz [m³]."""
        c, size = self.centre.r, self.radius

        def below(angle: float) -> float:
            sine = math.sin(angle)
            second = c * size * (angle + sine * math.cos(angle))
            return c**2 * sine + second + size**2 * (sine - sine**3 / 3)

        return math.pi * size * (below(self.start_angle + self.sweep) - below(self.start_angle))

    @property
    def _innermost(self) -> float:
        """Smallest radius of the arc from the axis [m]."""
        low, high = sorted((self.start_angle, self.start_angle + self.sweep))
        if low <= math.pi + 2 * math.pi * math.ceil((low - math.pi) / (2 * math.pi)) <= high:
            return self.centre.r - self.radius
        return min(self.start.r, self.end.r)

    def _inverse_radius(self, share: float) -> float:
        """Integral of d(angle) / r up to a share, but for a constant [1/m]."""
        c, size = self.centre.r, self.radius
        angle = self.start_angle + share * self.sweep
        sine, cosine = math.sin(angle), math.cos(angle)
        if abs(c - size) < 1e-9 * size:
            return math.tan(angle / 2) / c
        if c > size:
            root = math.sqrt(c**2 - size**2)
            bend = (c - root) / size
            return (angle - 2 * math.atan2(bend * sine, 1 + bend * cosine)) / root
        root = math.sqrt(size**2 - c**2)
        return math.log((size + c * cosine + root * sine) / (c + size * cosine)) / root


Piece = Line | Arc


@dataclass(frozen=True)
class Curve:
    """Pieces joined end to start; at least one."""

    pieces: tuple[Piece, ...]

    def __post_init__(self) -> None:
        """Refuse a curve of nothing."""
        if not self.pieces:
            raise ImpossibleShapeError(
                "outline", "a face without length", "some length", "Move its two ends apart."
            )

    @property
    def start(self) -> Point:
        """First point."""
        return self.pieces[0].start

    @property
    def end(self) -> Point:
        """Last point."""
        return self.pieces[-1].end

    @cached_property
    def length(self) -> float:
        """Length [m]."""
        return math.fsum(piece.length for piece in self.pieces)

    @cached_property
    def form_factor(self) -> float:
        """Integral of dl / (2 pi r) along the curve [1]; infinite where it meets the axis."""
        return math.fsum(piece.form_factor for piece in self.pieces)

    @cached_property
    def swept_area(self) -> float:
        """Area of the surface that the curve sweeps round the axis [m²]."""
        return math.fsum(piece.swept_area for piece in self.pieces)

    @cached_property
    def enclosed_volume(self) -> float:
        """Integral of pi r² dz along the curve [m³]: the volume between curve and axis."""
        return math.fsum(piece.enclosed_volume for piece in self.pieces)

    def reversed(self) -> "Curve":
        """The same curve walked the other way."""
        return Curve(tuple(piece.reversed() for piece in reversed(self.pieces)))

    def joined(self, *others: "Curve") -> "Curve":
        """This curve followed by others; every joint must touch.

        Args:
            *others: Curves, each starting where the one before ends.

        Raises:
            ImpossibleShapeError: two neighbours do not touch.
        """
        pieces = list(self.pieces)
        for other in others:
            if pieces[-1].end.to(other.start) > TOUCH:
                raise ImpossibleShapeError(
                    "outline", f"{pieces[-1].end}", f"{other.start}", "Pieces must touch."
                )
            pieces.extend(other.pieces)
        return Curve(tuple(pieces))

    def points(self, sagitta: float = 2e-5) -> list[Point]:
        """Points on the curve whose chords stray from it by at most a sagitta.

        Args:
            sagitta: Largest distance between chord and arc [m].
        """
        found = [self.start]
        for piece in self.pieces:
            count = piece.chords(sagitta)
            found.extend(piece.at(i / count) for i in range(1, count + 1))
        return found

    @cached_property
    def _ends(self) -> tuple[float, ...]:
        """Length of the curve at the end of each piece [m]."""
        return tuple(accumulate(piece.length for piece in self.pieces))

    def between(self, low: float, high: float) -> "Curve":
        """The part of the curve from one length to another.

        Args:
            low: Length along the curve where the part starts [m].
            high: Length where it ends [m].

        Raises:
            ImpossibleShapeError: nothing of the curve lies between the two.
        """
        kept: list[Piece] = []
        for index in range(bisect_left(self._ends, low), len(self.pieces)):
            piece, end = self.pieces[index], self._ends[index]
            size = piece.length
            if end - size >= high:
                break
            if size <= 0:
                continue
            first, last = max(0.0, (low - end) / size + 1), min(1.0, (high - end) / size + 1)
            if last - first > TOUCH:
                kept.append(piece if last - first > 1 - TOUCH else piece.cut(first, last))
        return Curve(tuple(kept))

    def at(self, length: float) -> Point:
        """The point a length along the curve.

        Args:
            length: Length along the curve [m]; clipped to its ends.
        """
        index = bisect_left(self._ends, length)
        if index == len(self.pieces):
            return self.end
        piece = self.pieces[index]
        if piece.length <= 0:
            return piece.start
        return piece.at(min(1.0, max(0.0, (length - self._ends[index]) / piece.length + 1)))

    def rises_through(self, height: float, after: float = 0.0) -> Iterator[float]:
        """Every length along the curve at which it rises through a height, the first first.

        Args:
            height: The height [m].
            after: Length along the curve from which on it is followed [m].
        """
        for index in range(bisect_left(self._ends, after), len(self.pieces)):
            piece = self.pieces[index]
            share = piece.share_at_height(height)
            if share is None:
                continue
            length = self._ends[index] - (1 - share) * piece.length
            if length >= after:
                yield length
                after = length + TOUCH


def line(*points: Point) -> Curve:
    """A curve of straight lines.

    Args:
        *points: Where it runs through, in order.
    """
    return Curve(tuple(Line(a, b) for a, b in pairwise(points) if a.to(b) > TOUCH))


def chain(points: Iterable[Point]) -> Iterator[tuple[float, float]]:
    """Radius and height of points, as pairs [m].

    Args:
        points: The points.
    """
    for point in points:
        yield point.r, point.z
