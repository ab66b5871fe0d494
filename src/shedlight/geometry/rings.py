"""Shield rings beside the body: round tubes that touch nothing the section shows."""

import math
from collections.abc import Iterator, Sequence

import shapely

from shedlight.geometry.curves import Arc, Curve, Point, chain
from shedlight.geometry.levels import Heights
from shedlight.given.bushing import BulkBushing
from shedlight.given.parts import EarthRing, LiveRing, ShieldRing

LIVE_RING, EARTH_RING = "live ring", "earth ring"
RINGS = (LIVE_RING, EARTH_RING)
SAGITTA = 2e-5


def rings_of(bushing: BulkBushing, heights: Heights) -> Iterator[tuple[str, ShieldRing, Curve]]:
    """Every ring: the name of its edge, what was described, its tube cut across.

    Args:
        bushing: The bushing.
        heights: Its heights.
    """
    live, earth = bushing.live_ring, bushing.earth_ring
    if live is not None:
        yield LIVE_RING, live, _tube(live, heights.cap_base - live.offset)
    if earth is not None:
        yield EARTH_RING, earth, _tube(earth, heights.clamp_top + earth.offset)


def _tube(ring: LiveRing | EarthRing, height: float) -> Curve:
    centre, radius = Point(ring.diameter / 2, height), ring.tube_diameter / 2
    # Two halves, as a whole turn in one piece would begin where it ends; the air lies to the right.
    return Curve((Arc(centre, radius, 0.0, math.pi), Arc(centre, radius, math.pi, math.pi)))


def clear_way(tube: Curve, others: Sequence[Curve]) -> float:
    """Shortest straight way from a ring's tube to other metal [m].

    Args:
        tube: The tube cut across.
        others: Faces of the metal.
    """
    lines = [shapely.LineString(list(chain(curve.points(SAGITTA)))) for curve in (tube, *others)]
    return float(min(lines[0].distance(other) for other in lines[1:]))
