"""From the meridian plane to paper: curves keep their arcs, the left half is the mirror image."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import shapely

from shedlight.figures.scene import Path, Placement, Round, Spot, To, line
from shedlight.geometry.curves import Arc, Curve, Piece, Point
from shedlight.geometry.section import Section

Shape = shapely.geometry.base.BaseGeometry
FINENESS = 0.01  # how far a chord may stray from an arc where hatching is cut [mm on paper]


@dataclass(frozen=True)
class View:
    """A placement with the turning of curves into paths."""

    placement: Placement

    @property
    def axis(self) -> float:
        """Where the axis lies [mm]."""
        return self.placement.axis

    def right(self, r: float, z: float) -> Spot:
        """A place in the right, cut half."""
        return self.placement.spot(r, z)

    def left(self, r: float, z: float) -> Spot:
        """A place in the left half, seen from outside."""
        return self.placement.spot(-r, z)

    def size(self, metres: float) -> float:
        """A length on paper [mm]."""
        return self.placement.scale * metres

    def metres(self, millimetres: float) -> float:
        """The true length of a length on paper [m]."""
        return millimetres / self.placement.scale

    @property
    def sagitta(self) -> float:
        """How far a chord may stray from an arc [m]."""
        return self.metres(FINENESS)

    def path(self, curve: Curve, mirrored: bool = False, closed: bool = False) -> Path:
        """A curve as a path; its arcs stay arcs."""
        place = self.left if mirrored else self.right
        steps = tuple(self._step(piece, mirrored) for piece in curve.pieces)
        return Path(place(curve.start.r, curve.start.z), steps, closed)

    def string(self, points: Iterable[Point], mirrored: bool = False) -> Path:
        """Straight lines through points."""
        place = self.left if mirrored else self.right
        return line(*(place(point.r, point.z) for point in points))

    def rings(self, shape: Shape) -> list[list[Spot]]:
        """The outlines of a shape in the right half, for hatching."""
        return [
            [self.right(r, z) for r, z in list(ring.coords)[:-1]]
            for polygon in _polygons(shape)
            for ring in (polygon.exterior, *polygon.interiors)
        ]

    def polygon(self, section: Section, region: str) -> shapely.Polygon:
        """A region of the section, as fine as paper can show."""
        return section.polygon(region, self.sagitta)

    def _step(self, piece: Piece, mirrored: bool) -> To | Round:
        place = self.left if mirrored else self.right
        end = place(piece.end.r, piece.end.z)
        if not isinstance(piece, Arc):
            return To(end)
        clockwise = (piece.sweep < 0) != mirrored
        large = abs(piece.sweep) > math.pi
        return Round(end, self.size(piece.radius), clockwise, large)


def _polygons(shape: Shape) -> Iterator[shapely.Polygon]:
    if isinstance(shape, shapely.Polygon):
        if not shape.is_empty:
            yield shape
    elif isinstance(shape, shapely.GeometryCollection | shapely.MultiPolygon):
        for part in shape.geoms:
            yield from _polygons(part)


def closed_path(ring: Sequence[Spot]) -> Path:
    """A ring of places as a closed path."""
    return Path(ring[0], tuple(To(spot) for spot in ring[1:]), closed=True)


def widest(section: Section) -> float:
    """Largest radius of sheds, clamps, cap and shield rings [m]."""
    radii = section.radii
    rings = [section.curve(name).start.r for name in section.rings]
    return max([radii.ring_outer, radii.cap, *(shed.tip_radius for shed in section.sheds), *rings])
