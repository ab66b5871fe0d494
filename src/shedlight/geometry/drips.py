"""Where run-off water leaves the surface, and what it falls on.

Water runs down and hangs where the surface is lowest all about: an edge round an upright bushing,
one place at the low side of a leaning one. From there it falls straight down, to the surface
below or past it. What falling drops do to the insulation is a matter of physics.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from shedlight.errors import InputError
from shedlight.geometry.chords import Array
from shedlight.geometry.curves import TOUCH, Arc, Curve, Point, chain

SAGITTA = 1e-6


@dataclass(frozen=True)
class DripEdge:
    """A place where water hangs and drops.

    Attributes:
        length: Length along the path from its earthed end [m].
        point: Radius and height in the meridian that hangs lowest.
        lands_at: Length along the path where a drop strikes next [m]; none if it falls clear.
        fall: How far it falls to there [m]; infinite if it falls clear.
        ring: Whether water hangs all round (upright) or at one place.
    """

    length: float
    point: Point
    lands_at: float | None
    fall: float
    ring: bool

    @property
    def creepage_spanned(self) -> float:
        """Creepage between the edge and where its drops land [m]; 0 if they fall clear."""
        return 0.0 if self.lands_at is None else abs(self.length - self.lands_at)


def drip_edges(creepage: Curve, mounting_angle: float) -> tuple[DripEdge, ...]:
    """Every place of the path where water drips off, the lowest length first.

    On a leaning bushing only the meridian at the low side is looked at: everywhere else on a
    ring, water runs on along the ring.

    Args:
        creepage: The path, earthed end first.
        mounting_angle: Angle of the axis from upright [rad], 0 to pi/2.

    Raises:
        InputError: mounting angle outside its range.
    """
    if not 0.0 <= mounting_angle <= math.pi / 2:
        raise InputError(
            f"mounting_angle: given {mounting_angle:g} rad; expected 0 (upright) to pi/2"
        )
    down = (math.sin(mounting_angle), -math.cos(mounting_angle))
    line = np.array(list(chain(creepage.points(SAGITTA))))
    walked = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    scale = creepage.length / float(walked[-1])
    found: list[DripEdge] = []
    for length, point in _lowest(creepage, down):
        # A flat edge is one edge: the drop leaves where it ends.
        if found and length - found[-1].length < TOUCH:
            continue
        fall, at = _landing(line, walked, point, down)
        lands_at = None if at is None else at * scale
        found.append(DripEdge(length, point, lands_at, fall, mounting_angle <= TOUCH))
    return tuple(found)


def _lowest(creepage: Curve, down: tuple[float, float]) -> Iterator[tuple[float, Point]]:
    """Places with nothing lower right before and right after them, away from both ends."""
    places = list(_candidates(creepage, down))
    depths = [down[0] * point.r + down[1] * point.z for _, point in places]
    for index in range(1, len(places) - 1):
        before, here, after = depths[index - 1 : index + 2]
        if here > before + TOUCH and here >= after - TOUCH and _air_below(creepage, places, index):
            falls = next((d for d in depths[index + 1 :] if abs(d - here) > TOUCH), here)
            if falls < here:
                yield places[index]


def _candidates(creepage: Curve, down: tuple[float, float]) -> Iterator[tuple[float, Point]]:
    """Ends of pieces and, on arcs, the points where the tangent is level."""
    walked = 0.0
    level = math.atan2(down[1], down[0])
    yield 0.0, creepage.start
    for piece in creepage.pieces:
        if isinstance(piece, Arc):
            turn = math.copysign(1.0, piece.sweep)
            shares = sorted(
                ((angle - piece.start_angle) * turn) % (2 * math.pi) / abs(piece.sweep)
                for angle in (level, level + math.pi)
            )
            for share in shares:
                if TOUCH < share < 1 - TOUCH:
                    yield walked + share * piece.length, piece.at(share)
        walked += piece.length
        yield walked, piece.end


def _air_below(creepage: Curve, places: list[tuple[float, Point]], index: int) -> bool:
    """Whether air, not porcelain, lies under a place: the path climbs with air on its right."""
    length = places[index][0]
    step = 0.2 * min(length - places[index - 1][0], places[index + 1][0] - length)
    before, after = creepage.at(length - step), creepage.at(length + step)
    here = places[index][1]
    first = (here.r - before.r, here.z - before.z)
    last = (after.r - here.r, after.z - here.z)
    # Turning left over a lowest place keeps the porcelain, on the left, above it.
    return first[0] * last[1] - first[1] * last[0] > 0


def _landing(
    line: Array, walked: Array, point: Point, down: tuple[float, float]
) -> tuple[float, float | None]:
    """How far a drop falls in the meridian, and the length along the polyline where it lands."""
    away = line - (point.r, point.z)
    across = away @ (-down[1], down[0])
    crossed = np.flatnonzero((across[:-1] > 0) != (across[1:] > 0))
    share = across[crossed] / (across[crossed] - across[crossed + 1])
    places = line[crossed] + share[:, None] * (line[crossed + 1] - line[crossed])
    falls = (places - (point.r, point.z)) @ down
    below = np.flatnonzero((falls > SAGITTA * 10) & (places[:, 0] >= 0))
    if not below.size:
        return math.inf, None
    first = below[np.argmin(falls[below])]
    start = crossed[first]
    at = walked[start] + share[first] * (walked[start + 1] - walked[start])
    return float(falls[first]), float(at)
