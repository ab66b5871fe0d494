"""The two ways a discharge may go: along the surface, and straight through air or oil.

The shortest way through the open is a taut string from metal to metal round the porcelain. It is
found by pulling a string that first lies on the outline: a point is dropped wherever the string
turns away from the solid. The result is tested against the solid, so a wrong string is never
returned.
"""

import math
from dataclasses import dataclass

import shapely
import shapely.ops

from shedlight.errors import CalculationError
from shedlight.geometry.curves import Curve, Point, chain
from shedlight.geometry.section import Section

SAGITTA = 5e-6
SLACK = 2e-5


@dataclass(frozen=True)
class Taut:
    """A taut string: the points it runs through, first on earthed, last on live metal."""

    points: tuple[Point, ...]

    @property
    def length(self) -> float:
        """Length [m]."""
        pairs = zip(self.points[:-1], self.points[1:], strict=True)
        return math.fsum(a.to(b) for a, b in pairs)


def air_creepage(section: Section) -> Curve:
    """The surface in air that counts as creepage: from the top of the clamps to the cap.

    The slot between clamps and body is left out, as dirt and water bridge it (practice).

    Args:
        section: The section.
    """
    surface = section.curve("air side")
    return surface.between(_slot_length(section), surface.length)


def _slot_length(section: Section) -> float:
    """Length of the air side that lies behind the clamps, below their top."""
    walked = 0.0
    top = section.heights.clamp_top
    for piece in section.curve("air side").pieces:
        low, high = piece.start.z, piece.end.z
        if high > top:
            inside = max(0.0, (top - low) / (high - low)) if high > low else 0.0
            return walked + inside * piece.length
        walked += piece.length
    return 0.0


def oil_creepage(section: Section) -> Curve:
    """The porcelain's surface in the tank's oil, from the cover's underside to the shield.

    Args:
        section: The section.
    """
    return section.curve("oil side")


def arcing_path(section: Section) -> Taut:
    """The shortest way in air between live and earthed metal, round the sheds, horns left out.

    Args:
        section: The section.

    Raises:
        CalculationError: the string found would cut through a solid.
    """
    surface = section.curve("air side").points(SAGITTA)
    earth = _bare_metal(section, "clamps", "cover top")
    live = _bare_metal(section, "cap")
    return _taut_between(surface, earth, live, _solids(section), 1.0)


def oil_path(section: Section) -> Taut:
    """The shortest way in oil between live and earthed metal, round the porcelain's lower end.

    Args:
        section: The section.

    Raises:
        CalculationError: the string found would cut through a solid.
    """
    surface = section.curve("oil side").points(SAGITTA)
    earth = _bare_metal(section, "hole wall", "cover underside")
    live = _bare_metal(section, "shield")
    return _taut_between(surface, earth, live, _solids(section), -1.0)


def _bare_metal(section: Section, *edges: str) -> shapely.Geometry:
    """The metal surface that a string may end on."""
    curves = [list(chain(section.curve(name).points(SAGITTA))) for name in edges]
    return shapely.MultiLineString(curves)


def _solids(section: Section) -> shapely.Geometry:
    """Everything a string may not cross, shrunk by a hair so that touching is not crossing."""
    names = ("porcelain", "clamps", "cover", "conductor", "gasket")
    return shapely.union_all([section.polygon(name, SAGITTA) for name in names]).buffer(
        -SLACK, join_style="mitre"
    )


def _taut_between(
    surface: list[Point],
    earth: shapely.Geometry,
    live: shapely.Geometry,
    solids: shapely.Geometry,
    side: float,
) -> Taut:
    """Pull the string tight, then let its ends slide on the metal until they rest."""
    first, last = surface[0], surface[-1]
    points = [first, last]
    for _ in range(30):
        points = _pulled([first, *surface[1:-1], last], side)
        inner = points[1:-1]
        near_live = inner[-1] if inner else first
        new_last = _nearest(live, near_live)
        near_earth = inner[0] if inner else new_last
        new_first = _nearest(earth, near_earth)
        moved = first.to(new_first) + last.to(new_last)
        first, last = new_first, new_last
        if moved < 1e-9:
            break
    string = shapely.LineString(list(chain(points)))
    if string.intersects(solids):
        raise CalculationError("the shortest way through the open would cut through a solid")
    return Taut(tuple(points))


def _nearest(metal: shapely.Geometry, point: Point) -> Point:
    found = shapely.ops.nearest_points(metal, shapely.Point(point.r, point.z))[0]
    return Point(found.x, found.y)


def _pulled(outline: list[Point], side: float) -> list[Point]:
    """Drop every point where the string bends away from the solid (side 1: solid on the left)."""
    kept: list[Point] = []
    for point in outline:
        while len(kept) > 1 and side * _turn(kept[-2], kept[-1], point) <= 0:
            kept.pop()
        if not kept or kept[-1].to(point) > 0:
            kept.append(point)
    return kept


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b.r - a.r) * (c.z - b.z) - (b.z - a.z) * (c.r - b.r)
