"""The air end alone, seen from outside: the ground on which rain and ways are drawn."""

from collections.abc import Iterator
from dataclasses import dataclass

import shapely

from shedlight.figures.drafting import CENTRE, EDGE, SMALL, WIDE
from shedlight.figures.scene import Drawn, Item, Path, Pen, Placement, Spot, Text, To, line
from shedlight.figures.section.materials import GLAZES, LOOKS, SOLID
from shedlight.figures.section.view import Shape, View, widest
from shedlight.geometry.curves import Curve, chain
from shedlight.geometry.rings import LIVE_RING
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation

WIDTH = 170.0
TOP, BOTTOM = 12.0, 8.0
HEIGHT = 150.0
LEGEND = 66.0  # what is left free for words on the right [mm]
SAGITTA = 2e-5
ABOVE_CAP = 0.03  # how far the picture reaches above the cap, in share of the height


@dataclass(frozen=True)
class AirEnd:
    """The air end on paper.

    Attributes:
        view: Where it lies.
        items: What is drawn of it.
        left: Left edge of what belongs to the picture [mm].
        right: Right edge, where the words begin [mm].
        top: Upper edge [mm].
        floor: Where the cover's top lies [mm].
        body: Both halves as one shape, cover included [m]; what stops rain.
    """

    view: View
    items: tuple[Item, ...]
    left: float
    right: float
    top: float
    floor: float
    body: Shape

    @property
    def height(self) -> float:
        """Height of the whole picture [mm]."""
        return self.floor + BOTTOM


def air_end(installation: Installation, section: Section) -> AirEnd:
    """The air end drawn from outside, its axis upright on paper.

    Args:
        installation: What was described.
        section: Its section.
    """
    reach = section.heights.cap_top * (1 + ABOVE_CAP)
    room = WIDTH - LEGEND - 8.0
    scale = min(HEIGHT / reach, 0.5 * room / (1.25 * widest(section)))
    axis, floor = 4.0 + room / 2, TOP + scale * reach
    view = View(Placement(axis, floor, scale))
    return AirEnd(
        view,
        (
            *_tints(installation, section, view),
            *_lines(section, view, room),
            *_rings(section, view),
        ),
        4.0,
        4.0 + room,
        TOP,
        floor,
        _body(section),
    )


def _seen(section: Section) -> list[tuple[str, Curve]]:
    """The outlines from the cover up; the terminal is cut off a little above the cap."""
    cap = section.curve("cap")
    reach = section.heights.cap_top * (1 + ABOVE_CAP)
    rising = [length for length in cap.rises_through(reach) if length > 0]
    shown = cap.between(0.0, rising[0]) if rising else cap
    names = ("gasket outer", "collar side", "clamps", "air side")
    return [*((name, section.curve(name)) for name in names), ("cap", shown)]


def _tints(installation: Installation, section: Section, view: View) -> list[Item]:
    glaze = GLAZES[installation.bushing.porcelain.glaze]
    metal, earth = LOOKS["live metal"].tint, LOOKS["cover"].tint
    colours = {"gasket outer": SOLID, "clamps": earth, "cap": metal}
    return [
        Drawn((_to_axis(curve, view, mirrored),), fill=colours.get(name, glaze))
        for name, curve in _seen(section)
        for mirrored in (False, True)
    ]


def _rings(section: Section, view: View) -> Iterator[Item]:
    """Shield rings cut across on both sides: what goes round is left out to let see the rest."""
    for name in section.rings:
        tint = LOOKS["live metal" if name == LIVE_RING else "clamps"].tint
        tubes = tuple(
            view.path(section.curve(name), mirrored, closed=True) for mirrored in (False, True)
        )
        yield Drawn(tubes, EDGE, tint)


def _to_axis(curve: Curve, view: View, mirrored: bool) -> Path:
    path = view.path(curve, mirrored)
    place = view.left if mirrored else view.right
    foot, head = place(0.0, curve.start.z), place(0.0, curve.end.z)
    return Path(foot, (To(path.start), *path.steps, To(head)), closed=True)


def _lines(section: Section, view: View, room: float) -> list[Item]:
    paths = [
        view.path(curve, mirrored) for _, curve in _seen(section) for mirrored in (False, True)
    ]
    heights = section.heights
    half = room / 2
    floor = view.right(0.0, 0.0)
    cover = line(Spot(floor.x - half, floor.y), Spot(floor.x + half, floor.y))
    axis = line(view.right(0.0, heights.cap_top * (1 + ABOVE_CAP)), Spot(floor.x, floor.y + 3.0))
    words = Text("cover", floor.x - half, floor.y + 3.4, SMALL, colour="#555555")
    return [Drawn(tuple(paths), EDGE), Drawn((cover,), WIDE), Drawn((axis,), CENTRE), words]


def _body(section: Section) -> Shape:
    """Cap, porcelain, clamps and gasket of both halves, on a cover without end [m]."""
    parts = []
    for name in ("air side", "cap", "clamps", "collar side", "gasket outer"):
        points = list(chain(section.curve(name).points(SAGITTA)))
        ring = [(0.0, points[0][1]), *points, (0.0, points[-1][1])]
        parts += [
            shapely.Polygon([(side * r, z) for r, z in ring]).buffer(0) for side in (1.0, -1.0)
        ]
    return shapely.union_all([*parts, shapely.box(-50.0, -1.0, 50.0, 0.0)])


def sample(left: float, y: float, pen: Pen, words: str) -> list[Item]:
    """A line of the legend: how something is drawn and what it is.

    Args:
        left: Where it begins [mm].
        y: Its height [mm].
        pen: How it is drawn.
        words: What it is.
    """
    rule = Drawn((line(Spot(left, y), Spot(left + 8.0, y)),), pen)
    return [rule, Text(words, left + 9.8, y + 0.8, SMALL)]
