"""What if there were no bushing: the same conductor through the same hole, air above, oil below."""

import math
from itertools import pairwise

from shedlight.geometry.curves import Arc, Curve, Line, Piece, Point
from shedlight.geometry.section import Section
from shedlight.physics.field.domain import Problem, Shape, Side
from shedlight.workings.field import EARTH, LIVE, Filling

AIR, OIL = "air", "tank oil"


def bare_conductor(
    section: Section, fillings: tuple[Filling, ...], frequency: float, edge_radius: float = 1e-3
) -> Problem:
    """The conductor of a section alone in its hole, at one volt; oil stands half-way up the hole.

    The edges of the hole are taken as rounded, so that the field there has a largest value.

    Args:
        section: The section whose conductor and hole are taken.
        fillings: What fills its regions.
        frequency: Of the voltage [Hz].
        edge_radius: Of the hole's edges [m]; at most a third of the cover's thickness.
    """
    h, r = section.heights, section.radii
    thick = -h.cover_underside
    edge = min(edge_radius, thick / 3)
    reach = 3 * max(h.top, -h.bottom)
    rod, hole = r.conductor, r.hole
    level = Point(hole, -thick / 2)
    below: list[Piece] = [
        Line(Point(reach, -thick), Point(hole + edge, -thick)),
        Arc(Point(hole + edge, -thick + edge), edge, -math.pi / 2, -math.pi / 2),
        Line(Point(hole, -thick + edge), level),
    ]
    above: list[Piece] = [
        Line(level, Point(hole, -edge)),
        Arc(Point(hole + edge, -edge), edge, math.pi, -math.pi / 2),
        Line(Point(hole + edge, 0.0), Point(reach, 0.0)),
    ]
    sides = (
        Side("conductor in oil", _straight((rod, -reach), (rod, level.z)), None, OIL, LIVE),
        Side("conductor in air", _straight((rod, level.z), (rod, reach)), None, AIR, LIVE),
        Side("oil level", _straight((rod, level.z), (hole, level.z)), AIR, OIL),
        Side("cover in oil", Curve(tuple(below)), OIL, None, EARTH),
        Side("cover in air", Curve(tuple(above)), AIR, None, EARTH),
        Side("far air", _straight((reach, 0.0), (reach, reach), (rod, reach)), AIR, None),
        Side("far oil", _straight((rod, -reach), (reach, -reach), (reach, -thick)), OIL, None),
    )
    media = {item.region: item.medium for item in fillings if item.region in (AIR, OIL)}
    return Problem(Shape(sides), media, {LIVE: 1.0, EARTH: 0.0}, (), frequency)


def _straight(*places: tuple[float, float]) -> Curve:
    points = [Point(*place) for place in places]
    return Curve(tuple(Line(a, b) for a, b in pairwise(points)))
