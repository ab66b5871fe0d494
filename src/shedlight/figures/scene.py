"""A scene: what a picture shows, in millimetres on paper, before anything paints it.

x runs to the right and y down from the upper left corner, as on every sheet. Everything is frozen.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

from shedlight.figures import lettering
from shedlight.figures.lettering import Face

Anchor = Literal["start", "middle", "end"]


class Spot(NamedTuple):
    """A place on paper [mm]."""

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class To:
    """A straight step to a place."""

    end: Spot


@dataclass(frozen=True, slots=True)
class Round:
    """A circular step to a place; `clockwise` as seen on paper, `large` if over half a turn."""

    end: Spot
    radius: float
    clockwise: bool
    large: bool = False


@dataclass(frozen=True, slots=True)
class Path:
    """One line without a break, open or closed."""

    start: Spot
    steps: tuple[To | Round, ...]
    closed: bool = False

    @property
    def spots(self) -> tuple[Spot, ...]:
        """The places it runs through."""
        return (self.start, *(step.end for step in self.steps))


@dataclass(frozen=True, slots=True)
class Pen:
    """What a line is drawn with: width [mm], colour, dashes [mm], rounded ends or not."""

    width: float
    colour: str = "#111111"
    dashes: tuple[float, ...] = ()
    rounded: bool = True
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Drawn:
    """Paths drawn with one pen, filled with one colour, or both."""

    paths: tuple[Path, ...]
    pen: Pen | None = None
    fill: str | None = None


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle on paper [mm]."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Width [mm]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height [mm]."""
        return self.bottom - self.top

    def meets(self, other: "Box", gap: float = 0.0) -> bool:
        """Whether two boxes come nearer than a gap [mm]."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def grown(self, by: float) -> "Box":
        """The box with a margin all round [mm]."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def path(self) -> Path:
        """The box as a closed path."""
        return closed(
            Spot(self.left, self.top),
            Spot(self.right, self.top),
            Spot(self.right, self.bottom),
            Spot(self.left, self.bottom),
        )


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering; `turned` reads from below upwards."""

    text: str
    x: float
    y: float
    capital: float
    anchor: Anchor = "start"
    face: Face = "regular"
    turned: bool = False
    colour: str = "#111111"

    @property
    def width(self) -> float:
        """Width of the lettering [mm]."""
        return lettering.width(self.text, self.capital, self.face)

    @property
    def box(self) -> Box:
        """The room it takes."""
        before = self.width * {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        after = self.width - before
        above = self.capital * (1 + lettering.ASCENT)
        hangs = any(letter in "gjpqyQ,;()/|@ç" for letter in self.text)
        below = self.capital * lettering.DESCENT if hangs else 0.0
        if self.turned:
            return Box(self.x - above, self.y - after, self.x + below, self.y + before)
        return Box(self.x - before, self.y - above, self.x + after, self.y + below)


Item = Drawn | Text


@dataclass(frozen=True)
class Layer:
    """What can be switched on and off as a whole."""

    name: str
    title: str
    items: tuple[Item, ...]
    shown: bool = True


@dataclass(frozen=True)
class Placement:
    """Where a section lies on paper: axis and top of the cover [mm], and mm per metre."""

    axis: float
    cover_top: float
    scale: float

    def spot(self, r: float, z: float) -> Spot:
        """The place on paper of a radius and a height [m]; negative radii lie to the left."""
        return Spot(self.axis + self.scale * r, self.cover_top - self.scale * z)


@dataclass(frozen=True)
class Scene:
    """A whole picture: its size [mm], its layers from bottom to top, its words for the ear.

    Attributes:
        key: Begins every id in it, so that several pictures can stand on one page.
        title: What it is, in one line.
        description: What it shows, for those who cannot see it.
        width: Width of the paper [mm].
        height: Height of the paper [mm].
        layers: From the lowest to the topmost.
        placement: Where the section lies on it.
    """

    key: str
    title: str
    description: str
    width: float
    height: float
    layers: tuple[Layer, ...]
    placement: Placement

    def layer(self, name: str) -> Layer:
        """The layer of a name."""
        return next(layer for layer in self.layers if layer.name == name)

    @property
    def texts(self) -> Iterator[Text]:
        """Every text of every layer."""
        for layer in self.layers:
            yield from (item for item in layer.items if isinstance(item, Text))


def line(*spots: Spot) -> Path:
    """An open path of straight steps."""
    return Path(spots[0], tuple(To(spot) for spot in spots[1:]))


def closed(*spots: Spot) -> Path:
    """A closed path of straight steps."""
    return Path(spots[0], tuple(To(spot) for spot in spots[1:]), closed=True)


def circle(centre: Spot, radius: float) -> Path:
    """A full circle."""
    left, right = Spot(centre.x - radius, centre.y), Spot(centre.x + radius, centre.y)
    return Path(left, (Round(right, radius, True), Round(left, radius, True)), closed=True)


def extent(items: Iterable[Item]) -> Box:
    """The smallest box round some items; an arc counts by its ends and its middle."""
    xs: list[float] = []
    ys: list[float] = []
    for item in items:
        if isinstance(item, Text):
            box = item.box
            xs += [box.left, box.right]
            ys += [box.top, box.bottom]
            continue
        half = item.pen.width / 2 if item.pen else 0.0
        for path in item.paths:
            for spot in (*path.spots, *_middles(path)):
                xs += [spot.x - half, spot.x + half]
                ys += [spot.y - half, spot.y + half]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _middles(path: Path) -> Iterator[Spot]:
    place = path.start
    for step in path.steps:
        if isinstance(step, Round):
            yield arc_middle(place, step)
        place = step.end


def arc_middle(start: Spot, step: Round) -> Spot:
    """The place half-way along a circular step."""
    chord = math.dist(start, step.end)
    if chord == 0:
        return start
    half = min(chord / 2, step.radius)
    height = step.radius - math.sqrt(step.radius**2 - half**2)
    if step.large:
        height = 2 * step.radius - height
    side = 1.0 if step.clockwise else -1.0
    across = (step.end.y - start.y) / chord, -(step.end.x - start.x) / chord
    return Spot(
        (start.x + step.end.x) / 2 + side * height * across[0],
        (start.y + step.end.y) / 2 + side * height * across[1],
    )
