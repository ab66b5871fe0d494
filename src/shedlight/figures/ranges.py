"""Quantities that scatter, one below the other: low, mean and high on one scale, and limits."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shedlight.figures.chart import Axis, Limit
from shedlight.figures.drafting import INK, SMALL, THIN
from shedlight.figures.scene import (
    Box,
    Drawn,
    Item,
    Layer,
    Path,
    Pen,
    Placement,
    Scene,
    Spot,
    Text,
    closed,
    line,
)

ROW = 6.4
BAR = 3.4
HEAD = 16.0  # with limits named above
BARE_HEAD = 9.5
FOOT = 11.0
NAMES = 66.0
RIGHT = 6.0
FILL = "#c8d4e3"
EDGE = Pen(0.2, INK, rounded=False)
MEAN = Pen(0.5, INK, rounded=False)
LIMIT = Pen(0.3, "#b00020", (2.4, 1.0), rounded=False)
GRID = Pen(0.1, "#d9d9d9", rounded=False)


@dataclass(frozen=True)
class Range:
    """One quantity: its band and, where it is known, its mean; a plain level is its mean.

    ``asked`` is what is demanded of it, drawn as a triangle.
    """

    name: str
    low: float
    mean: float | None
    high: float
    asked: float | None = None


def level(name: str, value: float) -> Range:
    """A quantity that does not scatter.

    Args:
        name: What it is.
        value: Its value.
    """
    return Range(name, value, value, value)


def ranges_scene(
    key: str,
    title: str,
    description: str,
    axis: Axis,
    ranges: Sequence[Range],
    limits: Sequence[Limit] = (),
    width: float = 170.0,
) -> Scene:
    """Bands on one scale, the mean a thick stroke, limits dashed across them.

    Args:
        key: Begins every id in it.
        title: What it is, in one line.
        description: What it shows, for those who cannot see it.
        axis: The scale.
        ranges: From top to bottom.
        limits: Levels to hold them against; told above, in two rows where they crowd.
        width: Of the paper [mm].
    """
    place = _Place(axis, len(ranges), HEAD if limits else BARE_HEAD, width)
    across = [place.upright(limit.value, 3.0) for limit in limits]
    drawn: tuple[Item, ...] = (
        *place.bands(ranges),
        *((Drawn(tuple(across), LIMIT),) if across else ()),
        Drawn((line(Spot(NAMES, place.bottom), Spot(width - RIGHT, place.bottom)),), THIN),
    )
    words: list[Item] = [Text(title, 16.0, 5.0, 2.4, face="bold"), *place.words(ranges)]
    words += _limit_words([(limit.name, place.at(limit.value)) for limit in limits], width)
    layers = (Layer("ranges", "Ranges", drawn), Layer("labels", "Labels", tuple(words)))
    paper = Placement(0.0, 0.0, 1.0)
    return Scene(key, title, description, width, place.bottom + FOOT, layers, paper)


@dataclass(frozen=True)
class _Place:
    """Where things stand on the paper [mm]."""

    axis: Axis
    rows: int
    head: float
    width: float

    @property
    def bottom(self) -> float:
        return self.head + ROW * self.rows

    def at(self, value: float) -> float:
        room = self.width - NAMES - RIGHT
        return NAMES + room * self.axis.share(min(max(value, self.axis.low), self.axis.high))

    def top(self, row: int) -> float:
        return self.head + ROW * row + 1.0

    def upright(self, value: float, above: float) -> Path:
        return line(Spot(self.at(value), self.head - above), Spot(self.at(value), self.bottom))

    def bands(self, ranges: Sequence[Range]) -> Iterator[Item]:
        """Grid, bands, means and what is asked, from bottom to top."""
        boxes, means, asked = [], [], []
        for row, found in enumerate(ranges):
            top = self.top(row)
            boxes.append(Box(self.at(found.low), top, self.at(found.high), top + BAR).path())
            if found.mean is not None:
                x = self.at(found.mean)
                means.append(line(Spot(x, top - 0.6), Spot(x, top + BAR + 0.6)))
            if found.asked is not None:
                asked.append(_pointer(self.at(found.asked), top + BAR))
        yield Drawn(tuple(self.upright(value, 2.0) for value in self.axis.ticks(8)), GRID)
        yield Drawn(tuple(boxes), EDGE, FILL)
        if means:
            yield Drawn(tuple(means), MEAN)
        if asked:
            yield Drawn(tuple(asked), None, LIMIT.colour)

    def words(self, ranges: Sequence[Range]) -> Iterator[Text]:
        """Names of the bands, values and title of the scale."""
        for row, found in enumerate(ranges):
            yield Text(found.name, NAMES - 2.0, self.top(row) + BAR - 0.7, SMALL, "end")
        for value in self.axis.ticks(8):
            yield Text(_tick(value), self.at(value), self.bottom + 3.6, SMALL, "middle")
        middle = (NAMES + self.width - RIGHT) / 2
        yield Text(self.axis.title, middle, self.bottom + 8.4, SMALL, "middle")


def _pointer(x: float, y: float) -> Path:
    """A triangle as high as a band whose lower edge is given."""
    return closed(Spot(x, y - BAR), Spot(x - 1.3, y), Spot(x + 1.3, y))


def _tick(value: float) -> str:
    return f"{round(value, 12):g}".replace("-", "−")


def _limit_words(limits: Sequence[tuple[str, float]], width: float) -> list[Text]:
    """The limits' names above their lines, on a higher row where two would meet."""
    placed: list[Text] = []
    for name, x in sorted(limits, key=lambda item: item[1]):
        for row in range(3):
            text = _inside(Text(name, x, HEAD - 3.8 - 3.0 * row, SMALL, "middle"), width)
            if not any(text.box.meets(other.box, 0.6) for other in placed):
                break
        placed.append(text)
    return placed


def _inside(text: Text, width: float) -> Text:
    """A text moved onto the paper where it would leave it."""
    over = text.box.right - (width - 1.0)
    return text if over <= 0 else Text(text.text, text.x - over, text.y, SMALL, "middle")
