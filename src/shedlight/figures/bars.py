"""Named horizontal bars on one axis, with lines they are held against: what a table shows at once.

Every bar stands beside its own name and carries its value in words, so no colour has to be told
from another; spans (from a low to a high side) are drawn as boxes with both values.
"""

from dataclasses import dataclass, replace
from typing import Literal

from shedlight.figures import lettering
from shedlight.figures.chart import GRID, Axis, fitted
from shedlight.figures.drafting import INK, SMALL
from shedlight.figures.lettering import shortened
from shedlight.figures.scene import (
    Box,
    Drawn,
    Item,
    Layer,
    Pen,
    Placement,
    Scene,
    Spot,
    Text,
    line,
)

Tone = Literal["plain", "short", "quiet"]
FILLS: dict[Tone, str] = {"plain": "#9cc4dd", "short": "#e8a27c", "quiet": "#dddddd"}
WIDTH = 130.0
ROW = 9.0
BAR = 5.0
TOP, BOTTOM = 15.0, 13.0
RIGHT = 6.0
RAISED = 3.4  # of the words of a line that stands close to another
LIMIT = Pen(0.4, INK, (2.0, 1.0), rounded=False)


@dataclass(frozen=True)
class Bar:
    """One row: its name, from where to where, its value in words.

    `tone` says "short" where a demand is not met; the words must say it too.
    """

    name: str
    low: float
    high: float
    said: str
    tone: Tone = "plain"


@dataclass(frozen=True)
class Mark:
    """A line across all rows, with its words on top."""

    name: str
    value: float


def bars_scene(
    key: str,
    title: str,
    axis: str,
    bars: tuple[Bar, ...],
    marks: tuple[Mark, ...] = (),
    *,
    description: str = "",
    width: float = WIDTH,
) -> Scene:
    """Bars as a picture.

    Args:
        key: Begins every id in it.
        title: What it shows, in one line.
        axis: What is drawn along the axis, with its unit.
        bars: The rows from top to bottom; values in the axis' unit.
        marks: Lines to hold the rows against.
        description: What it shows, for those who cannot see it; made of the rows if empty.
        width: Of the paper [mm].
    """
    values = [v for bar in bars for v in (bar.low, bar.high)] + [m.value for m in marks]
    height = TOP + ROW * len(bars) + BOTTOM
    names = max(lettering.width(bar.name, SMALL) for bar in bars)
    left = min(max(26.0, names + 6.0), 62.0)
    said = max(lettering.width(bar.said, SMALL) for bar in bars)
    frame = Box(left, TOP, width - RIGHT - said - 2.0, height - BOTTOM)
    scale = fitted(axis, values)
    layers = (
        Layer("grid", "Grid", tuple(_grid(scale, frame))),
        Layer("bars", "Bars", tuple(_rows(bars, scale, frame))),
        Layer("marks", "Lines to hold against", tuple(_marks(marks, scale, frame))),
        Layer("labels", "Labels", tuple(_labels(title, bars, scale, frame))),
    )
    words = description or "; ".join(f"{bar.name}: {bar.said}" for bar in bars)
    return Scene(key, title, words, width, height, layers, Placement(0.0, 0.0, 1.0))


def _x(value: float, scale: Axis, frame: Box) -> float:
    return frame.left + scale.share(value) * frame.width


def _grid(scale: Axis, frame: Box) -> list[Item]:
    places = [_x(tick, scale, frame) for tick in scale.ticks()]
    rules = tuple(line(Spot(x, frame.top), Spot(x, frame.bottom)) for x in places)
    zero = _x(0.0, scale, frame)
    axis = line(Spot(zero, frame.top), Spot(zero, frame.bottom))
    return [
        Drawn(rules, Pen(0.1, GRID, rounded=False)),
        Drawn((axis,), Pen(0.3, INK, rounded=False)),
    ]


def _rows(bars: tuple[Bar, ...], scale: Axis, frame: Box) -> list[Item]:
    found: list[Item] = []
    for n, bar in enumerate(bars):
        top = frame.top + ROW * n + (ROW - BAR) / 2
        ends = sorted((_x(bar.low, scale, frame), _x(bar.high, scale, frame)))
        box = Box(ends[0], top, ends[1], top + BAR)
        found.append(Drawn((box.path(),), Pen(0.25, INK, rounded=False), FILLS[bar.tone]))
    return found


def _marks(marks: tuple[Mark, ...], scale: Axis, frame: Box) -> list[Item]:
    found: list[Item] = []
    words: list[Text] = []
    for mark in marks:
        x = _x(mark.value, scale, frame)
        found.append(Drawn((line(Spot(x, frame.top - 1.0), Spot(x, frame.bottom)),), LIMIT))
        half = lettering.width(mark.name, SMALL) / 2
        middle = min(max(x, frame.left + half), frame.right + RIGHT - half)
        said = Text(mark.name, middle, frame.top - 2.2, SMALL, "middle")
        if any(said.box.meets(other.box, 1.0) for other in words):
            said = replace(said, y=said.y - RAISED)
        words.append(said)
    return [*found, *words]


def _labels(title: str, bars: tuple[Bar, ...], scale: Axis, frame: Box) -> list[Item]:
    found: list[Item] = [Text(title, 4.0, 5.0, 2.4, face="bold")]
    for tick in scale.ticks():
        x = _x(tick, scale, frame)
        said = f"{round(tick, 12):g}".replace("-", "−")
        found.append(Text(said, x, frame.bottom + 4.0, SMALL, "middle"))
    middle = (frame.left + frame.right) / 2
    found.append(Text(scale.title, middle, frame.bottom + 9.5, SMALL, "middle"))
    for n, bar in enumerate(bars):
        base = frame.top + ROW * (n + 0.5) + SMALL / 2
        name = shortened(bar.name, frame.left - 5.0, SMALL)
        found.append(Text(name, frame.left - 2.5, base, SMALL, "end"))
        found.append(Text(bar.said, frame.right + 2.5, base, SMALL))
    return found
