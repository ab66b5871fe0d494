"""The ways a discharge may go, each in its own layer with its length on it."""

from dataclasses import dataclass, replace
from itertools import pairwise

from shedlight.figures.drafting import CAPITAL, SMALL, dot, heads, thin
from shedlight.figures.lettering import width
from shedlight.figures.millimetres import measured
from shedlight.figures.scene import Box, Drawn, Item, Path, Pen, Spot, Text, line
from shedlight.figures.section.fittings import drawn_horns, horn_heights
from shedlight.figures.section.room import free_left_of_oil_end
from shedlight.figures.section.sizes import LABEL_HALF, oil_label_height
from shedlight.figures.section.view import View, widest
from shedlight.figures.spreading import Wish, spread
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation

# After the colours of Okabe and Ito (2008), darkened to be legible as lettering; each has its own
# dashes besides.
CREEPAGE = Pen(0.7, "#0072b2", opacity=0.85)
ARCING = Pen(0.6, "#b84f00", (3.0, 1.2))
OIL = Pen(0.6, "#7a3b8f", (4.0, 1.1, 0.1, 1.1))
LABEL_GAP = 3.0


@dataclass(frozen=True)
class Way:
    """One way: layer, what it is called, its length, how and where it is drawn.

    Attributes:
        layer: Name of its layer.
        name: What it is called.
        short: The same in one word.
        length: Its length [m].
        pen: How it is drawn.
        path: Where it runs, in the left half.
        target: Where its label points.
        label: Place of the label's middle; the label lies to the left of it.
    """

    layer: str
    name: str
    short: str
    length: float
    pen: Pen
    path: Path
    target: Spot
    label: Spot

    @property
    def text(self) -> str:
        """Name and length."""
        return f"{self.name} {measured(self.length)} mm"

    def drawn(self) -> Item:
        """The way itself."""
        return Drawn((self.path,), self.pen)


def ways(section: Section, measures: Measures, view: View) -> tuple[Way, ...]:
    """Creepage, arcing and oil path, drawn on the left half.

    Args:
        section: The section.
        measures: What was measured on it.
        view: Where it lies on paper.
    """
    creepage, arcing = _apart(_creepage(section, measures, view), _arcing(section, measures, view))
    return creepage, arcing, _through_oil(section, measures, view)


def _apart(creepage: Way, arcing: Way) -> tuple[Way, Way]:
    """Both labels, moved apart where the air end is short on paper."""
    wishes = [Wish(way.label.y, LABEL_HALF, LABEL_HALF) for way in (arcing, creepage)]
    reach = 4 * LABEL_HALF
    upper, lower = spread(wishes, arcing.label.y - reach, creepage.label.y + reach)
    return (
        replace(creepage, label=Spot(creepage.label.x, lower)),
        replace(arcing, label=Spot(arcing.label.x, upper)),
    )


def _creepage(section: Section, measures: Measures, view: View) -> Way:
    target = _trunk_spot(section, view, _air_height(section, 0.3))
    path = view.path(measures.creepage, mirrored=True)
    label = Spot(_label_edge(section, view), target.y)
    length = measures.creepage_length
    name, short = "Creepage distance", "Creepage"
    return Way("creepage path", name, short, length, CREEPAGE, path, target, label)


def _arcing(section: Section, measures: Measures, view: View) -> Way:
    string = [view.left(p.r, p.z) for p in measures.arcing.points]
    y = view.left(0.0, _air_height(section, 0.68)).y
    label = Spot(_label_edge(section, view), y)
    length = measures.arcing.length
    target = _on_string(string, y)
    return Way(
        "arcing path", "Arcing distance", "Arcing", length, ARCING, line(*string), target, label
    )


def _through_oil(section: Section, measures: Measures, view: View) -> Way:
    string = [view.left(p.r, p.z) for p in measures.oil_path.points]
    y = oil_label_height(section, view)
    label = Spot(view.axis - free_left_of_oil_end(section, view) - LABEL_GAP + 0.5, y)
    length = measures.oil_path.length
    target = _on_string(string, y)
    return Way("oil path", "Oil path", "Oil path", length, OIL, line(*string), target, label)


def _air_height(section: Section, share: float) -> float:
    """The height a share of the air length above the clamps [m]."""
    heights = section.heights
    return heights.clamp_top + share * (heights.cap_base - heights.clamp_top)


def _label_edge(section: Section, view: View) -> float:
    return view.left(widest(section), 0.0).x - LABEL_GAP


def labels(
    found: tuple[Way, ...], installation: Installation, view: View, section: Section
) -> dict[str, tuple[Item, ...]]:
    """A label for every way, where there is room for one; the legend names them all.

    Args:
        found: The ways.
        installation: The installation; its horns may leave less room.
        view: Where the section lies on paper.
        section: The section.
    """
    result: dict[str, tuple[Item, ...]] = {}
    bars = _horn_boxes(installation, section, view)
    for way in found:
        result[way.layer] = _lying(way, bars) or _standing(way, bars, section, view)
    return result


def _lying(way: Way, bars: list[Box]) -> tuple[Item, ...]:
    """Two lines of lettering with a leader; nothing if horns are in the way."""
    x, y = way.label
    texts = (
        Text(way.short, x - 1.0, y - 0.7, CAPITAL, "end", colour=way.pen.colour),
        Text(
            f"{measured(way.length)} mm",
            x - 1.0,
            y + CAPITAL + 0.9,
            CAPITAL,
            "end",
            colour=way.pen.colour,
        ),
    )
    if any(text.box.meets(bar, 0.8) for text in texts for bar in bars):
        return ()
    return (*texts, *_leader(way, x))


def _standing(way: Way, bars: list[Box], section: Section, view: View) -> tuple[Item, ...]:
    """One line of lettering read from the right, beside the way; nothing if it does not fit."""
    heights = section.heights
    room = view.size(heights.cap_base - heights.clamp_top) / 2 - 2.0
    words = f"{way.short} {measured(way.length)} mm"
    capital = CAPITAL if width(words, CAPITAL) < room else SMALL
    x, y = way.label
    text = Text(words, x + 1.6, y, capital, "middle", turned=True, colour=way.pen.colour)
    if text.width > room or any(text.box.meets(bar, 0.5) for bar in bars):
        return ()
    return (text, *_leader(way, text.box.right + 0.4))


def _leader(way: Way, x: float) -> tuple[Item, ...]:
    """From the label's edge to the way, ending in a dot."""
    colour = way.pen.colour
    leader = line(Spot(x, way.label.y), way.target)
    return thin(leader, colour=colour), heads(dot(way.target), colour=colour)


def _horn_boxes(installation: Installation, section: Section, view: View) -> list[Box]:
    pair = drawn_horns(installation, section)
    if pair is None:
        return []
    upper, high_tip, low_tip, lower = horn_heights(section, pair.gap)
    half = view.size(pair.rod_diameter) / 2
    x = view.left(pair.reach, 0.0).x
    right = view.left(section.radii.cap, 0.0).x
    found = []
    for arm, tip in ((upper, high_tip), (lower, low_tip)):
        a, b = view.left(0.0, arm).y, view.left(0.0, tip).y
        found.append(Box(x - half, min(a, b) - half, x + half, max(a, b)))
        found.append(Box(x, a - half, right, a + half))
    gap_top, gap_bottom = view.left(0.0, high_tip).y, view.left(0.0, low_tip).y
    found.append(Box(x - half - 12.0, gap_top, x + half, gap_bottom))
    return found


def _trunk_spot(section: Section, view: View, height: float) -> Spot:
    """A place on the trunk between two sheds, as near to a height as there is one."""
    bays = free_bays(section)
    low, high = min(bays, key=lambda bay: abs((bay[0] + bay[1]) / 2 - height))
    z = min(max(height, low), high) if not section.sheds else (low + high) / 2
    radii, heights = section.radii, section.heights
    share = (z - heights.shoulder) / (heights.cap_base - heights.shoulder)
    return view.left(radii.body + share * (radii.top_body - radii.body), z)


def free_bays(section: Section) -> tuple[tuple[float, float], ...]:
    """Between which heights the trunk can be reached level from outside [m], lowest first.

    A shed's drip edge hides part of the trunk below it; where it hides all, the middle of the
    trunk is given.
    """
    heights, sheds = section.heights, section.sheds
    floors = [heights.clamp_top, *(shed.top_root for shed in sheds)]
    drips = [*_drips(section), heights.cap_base]
    roofs = [*(shed.under_root for shed in sheds), heights.cap_base]
    found = []
    for floor, drip, roof in zip(floors, drips, roofs, strict=True):
        middle = (floor + roof) / 2
        found.append((floor, drip) if drip > floor else (middle, middle))
    return tuple(found)


def _drips(section: Section) -> list[float]:
    """Height of the lowest point of each shed [m]: its drip edge, or its lowest rib."""
    surface = section.curve("air side").points(section.radii.bore * 1e-3)
    found = []
    start = 0
    for shed in section.sheds:
        outside = shed.tip_radius - 1e-5
        tip = next(i for i in range(start, len(surface)) if surface[i].r > outside)
        root = tip
        while root > start and surface[root].r > shed.body_radius + 0.2 * shed.overhang:
            root -= 1
        found.append(min(point.z for point in surface[root : tip + 1]))
        start = tip
    return found


def _on_string(string: list[Spot], y: float) -> Spot:
    """Where a string is at a height on paper."""
    for a, b in pairwise(string):
        if min(a.y, b.y) <= y <= max(a.y, b.y) and a.y != b.y:
            share = (y - a.y) / (b.y - a.y)
            return Spot(a.x + share * (b.x - a.x), y)
    return min(string, key=lambda spot: abs(spot.y - y))
