"""Meridian curves made of straight lines and circular arcs, and what can be measured on them.

Radius r and height z in metres; z points up, z = 0 is the top face of the cover.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import ImpossibleShapeError

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(16)
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


Piece = Line | Arc
Integrand = Callable[[NDArray[np.float64], NDArray[np.float64]], NDArray[np.float64]]


@dataclass(frozen=True)
class Curve:
    """Pieces joined end to start."""

    pieces: tuple[Piece, ...]

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
        """Integral of dl / (2 pi r) along the curve [1]; exact on lines, Gauss on arcs."""
        return math.fsum(_form_factor(piece) for piece in self.pieces)

    @cached_property
    def swept_area(self) -> float:
        """Area of the surface that the curve sweeps round the axis [m²]."""
        return math.fsum(_gauss(piece, lambda r, _: 2 * np.pi * r) for piece in self.pieces)

    @cached_property
    def enclosed_volume(self) -> float:
        """Integral of pi r² dz along the curve [m³]: the volume between curve and axis."""
        return math.fsum(_volume(piece) for piece in self.pieces)

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

    def between(self, low: float, high: float) -> "Curve":
        """The part of the curve from one length to another.

        Args:
            low: Length along the curve where the part starts [m].
            high: Length where it ends [m].
        """
        kept: list[Piece] = []
        walked = 0.0
        for piece in self.pieces:
            size = piece.length
            first, last = max(0.0, (low - walked) / size), min(1.0, (high - walked) / size)
            if last - first > TOUCH:
                kept.append(piece if last - first > 1 - TOUCH else piece.cut(first, last))
            walked += size
        return Curve(tuple(kept))

    def at(self, length: float) -> Point:
        """The point a length along the curve.

        Args:
            length: Length along the curve [m]; clipped to its ends.
        """
        walked = 0.0
        for piece in self.pieces:
            if walked + piece.length >= length:
                return piece.at(max(0.0, (length - walked) / piece.length))
            walked += piece.length
        return self.end


def line(*points: Point) -> Curve:
    """A curve of straight lines through points."""
    pairs = zip(points[:-1], points[1:], strict=True)
    return Curve(tuple(Line(a, b) for a, b in pairs if a.to(b) > TOUCH))


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of an outline to be rounded; `field` names what to change if it does not fit."""

    at: Point
    radius: float = 0.0
    field: str = ""


def rounded(corners: Sequence[Corner]) -> Curve:
    """Straight lines from corner to corner, each corner rounded by a tangent arc.

    Args:
        corners: First and last are ends and stay sharp; radii in metres.

    Raises:
        ImpossibleShapeError: an arc does not fit between its neighbours.
    """
    corners = _distinct(corners)
    fillets = [_fillet(*three) for three in zip(corners, corners[1:], corners[2:], strict=False)]
    setbacks = [0.0, *(fillet[0] for fillet in fillets), 0.0]
    pieces: list[Piece] = []
    place = corners[0].at
    for index in range(1, len(corners)):
        before, after = corners[index - 1], corners[index]
        room = before.at.to(after.at) - setbacks[index - 1] - setbacks[index]
        if room < -TOUCH:
            _refuse(before, after)
        arc = fillets[index - 1][1] if index < len(corners) - 1 else None
        target = arc.start if arc else after.at
        if place.to(target) > TOUCH:
            pieces.append(Line(place, target))
        if arc:
            pieces.append(arc)
        place = arc.end if arc else after.at
    return Curve(tuple(pieces))


def _distinct(corners: Sequence[Corner]) -> list[Corner]:
    kept = [corners[0]]
    kept.extend(b for a, b in zip(corners, corners[1:], strict=False) if a.at.to(b.at) > TOUCH)
    return kept


def _refuse(before: Corner, after: Corner) -> None:
    tight = max(before, after, key=lambda corner: corner.radius)
    raise ImpossibleShapeError(
        tight.field or "outline",
        f"a rounding of {1e3 * tight.radius:.4g} mm",
        "room for it between its neighbours",
        "Make the rounding smaller or the faces beside it longer.",
    )


def _fillet(before: Corner, corner: Corner, after: Corner) -> tuple[float, Arc | None]:
    """How far the arc reaches from the corner along both faces, and the arc."""
    into = math.atan2(corner.at.z - before.at.z, corner.at.r - before.at.r)
    out = math.atan2(after.at.z - corner.at.z, after.at.r - corner.at.r)
    turn = math.remainder(out - into, 2 * math.pi)
    if corner.radius <= 0 or abs(turn) < 1e-12:
        return 0.0, None
    setback = corner.radius * math.tan(abs(turn) / 2)
    side = math.copysign(1.0, turn)
    start = Point(corner.at.r - setback * math.cos(into), corner.at.z - setback * math.sin(into))
    centre = Point(
        start.r - side * corner.radius * math.sin(into),
        start.z + side * corner.radius * math.cos(into),
    )
    return setback, Arc(centre, corner.radius, into - side * math.pi / 2, turn)


def _form_factor(piece: Piece) -> float:
    if isinstance(piece, Arc):
        return _gauss(piece, lambda r, _: 1 / (2 * np.pi * r))
    inner, outer = sorted((piece.start.r, piece.end.r))
    if outer - inner < 1e-9 * outer:
        return piece.length / (2 * math.pi * outer)
    return piece.length * math.log(outer / inner) / (2 * math.pi * (outer - inner))


def _volume(piece: Piece) -> float:
    if isinstance(piece, Line):
        a, b = piece.start, piece.end
        return math.pi / 3 * (a.r**2 + a.r * b.r + b.r**2) * (b.z - a.z)
    return _gauss(piece, lambda r, slope: np.pi * r**2 * slope)


def _gauss(piece: Piece, integrand: Integrand) -> float:
    shares = (_NODES + 1) / 2
    if isinstance(piece, Line):
        r = piece.start.r + shares * (piece.end.r - piece.start.r)
        slope = np.full_like(r, (piece.end.z - piece.start.z) / piece.length)
    else:
        angle = piece.start_angle + shares * piece.sweep
        r = piece.centre.r + piece.radius * np.cos(angle)
        slope = math.copysign(1.0, piece.sweep) * np.cos(angle)
    return float(piece.length / 2 * np.sum(_WEIGHTS * integrand(r, slope)))


def chain(points: Iterable[Point]) -> Iterator[tuple[float, float]]:
    """Points as (r, z) pairs."""
    for point in points:
        yield point.r, point.z
