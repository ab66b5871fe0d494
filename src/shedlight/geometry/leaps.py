"""Ways through air that a discharge may take instead of the surface: from shed to shed."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely

from shedlight.geometry.curves import Curve, chain
from shedlight.geometry.outline import Shed
from shedlight.geometry.spacing import tip_lengths

HAIR = 5e-5
SAGITTA = 2e-5
NEAR_TIP = 0.012
TRIES = 12


@dataclass(frozen=True)
class AirWay:
    """A straight way through air between two places of the creepage path.

    Attributes:
        start: Length along the path where it leaves [m].
        end: Length along the path where it arrives [m].
        way: Its length [m].
    """

    start: float
    end: float
    way: float

    @property
    def saved(self) -> float:
        """How much shorter it is than the surface between its ends [m]."""
        return self.end - self.start - self.way


def air_ways(creepage: Curve, sheds: Sequence[Shed]) -> tuple[AirWay, ...]:
    """Straight ways between the tips of sheds, and to both ends of the path, that nothing blocks.

    From every tip to the next and, over a shorter shed, to the next but one; where one tip hides
    the other, and from the ends of the path, between those places nearby which save most.

    Args:
        creepage: The path, earthed end first.
        sheds: The sheds on it, the lowest first.
    """
    if not sheds:
        return ()
    tips = tip_lengths(creepage, sheds)
    outline = [*chain(creepage.points(SAGITTA)), (0.0, creepage.end.z), (0.0, creepage.start.z)]
    solid = shapely.Polygon(outline).buffer(-HAIR, join_style="mitre")
    shapely.prepare(solid)
    near = [number * NEAR_TIP / TRIES for number in range(-TRIES, TRIES + 1)]
    over = [
        (tips[index], tips[index + 2])
        for index in range(len(sheds) - 2)
        if sheds[index + 1].tip_radius < min(sheds[index].tip_radius, sheds[index + 2].tip_radius)
    ]
    ways = [_best(creepage, [(0.0, tips[0] + off) for off in near], solid)]
    for start, end in [*pairwise(tips), *over]:
        around = [(start + low, end + high) for low in near[::4] for high in near[::4]]
        tip_to_tip = _best(creepage, [(start, end)], solid)
        ways.append(tip_to_tip or _best(creepage, around, solid))
    ways.append(_best(creepage, [(tips[-1] + off, creepage.length) for off in near], solid))
    return tuple(way for way in ways if way is not None)


def _best(
    creepage: Curve, choice: Sequence[tuple[float, float]], solid: shapely.Geometry
) -> AirWay | None:
    """The unblocked way that saves most; none if every one is blocked or saves nothing."""
    best = None
    for start, end in choice:
        here, there = creepage.at(start), creepage.at(end)
        way = AirWay(start, end, here.to(there))
        if way.saved <= (best.saved if best else 0.0):
            continue
        if shapely.disjoint(solid, shapely.LineString([(here.r, here.z), (there.r, there.z)])):
            best = way
    return best
