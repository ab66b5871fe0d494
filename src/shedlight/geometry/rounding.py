"""Outlines drawn as corners joined by straight lines, each corner rounded by a tangent arc."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.curves import TOUCH, Arc, Curve, Line, Piece, Point


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
    kept.extend(b for a, b in pairwise(corners) if a.at.to(b.at) > TOUCH)
    return kept


def fitting(before: Point, at: Point, after: Point, largest: float) -> float:
    """The largest rounding up to a wanted one that takes at most half of both faces beside it.

    For roundings that the house chooses and nobody gives.

    Args:
        before: The corner before.
        at: The corner to be rounded.
        after: The corner after.
        largest: The rounding wanted [m].
    """
    setback, _ = _fillet(Corner(before), Corner(at, largest), Corner(after))
    room = 0.5 * min(before.to(at), at.to(after))
    return largest if setback <= room else largest * room / setback


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
