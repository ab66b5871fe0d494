"""Amounts side by side: a bar, its name and its value, in a frame with a line at zero."""

from collections.abc import Sequence
from dataclasses import dataclass

from shedlight.figures.drafting import INK, SMALL, THIN
from shedlight.figures.scene import Box, Drawn, Item, Layer, Pen, Placement, Scene, Spot, Text, line

ROW = 6.0
BAR = 3.6
HEAD = 10.0
FOOT = 4.0
NAMES = 62.0
VALUES = 40.0
FILL = "#c8d4e3"
EDGE = Pen(0.2, INK, rounded=False)


@dataclass(frozen=True)
class Bar:
    """One amount, with the text that tells it."""

    name: str
    amount: float
    told: str


def bars_scene(
    key: str, title: str, description: str, bars: Sequence[Bar], width: float = 170.0
) -> Scene:
    """Amounts as level bars, all to one scale.

    Args:
        key: Begins every id in it.
        title: What it is, in one line.
        description: What it shows, for those who cannot see it.
        bars: From top to bottom.
        width: Of the paper [mm].
    """
    low = min(0.0, *(bar.amount for bar in bars))
    high = max(0.0, *(bar.amount for bar in bars))
    span = (high - low) or 1.0
    left, room = NAMES, width - NAMES - VALUES
    height = HEAD + ROW * len(bars) + FOOT

    def at(amount: float) -> float:
        return left + (amount - low) / span * room

    filled, words = [], [Text(title, 16.0, 5.0, 2.4, face="bold")]
    for number, bar in enumerate(bars):
        top = HEAD + ROW * number
        ends = sorted((at(0.0), at(bar.amount)))
        filled.append(Box(ends[0], top, ends[1], top + BAR).path())
        words.append(Text(bar.name, left - 2.0, top + BAR - 0.8, SMALL, "end"))
        words.append(Text(bar.told, ends[1] + 2.0, top + BAR - 0.8, SMALL))
    zero = line(Spot(at(0.0), HEAD - 1.5), Spot(at(0.0), height - FOOT))
    drawn: tuple[Item, ...] = (Drawn(tuple(filled), EDGE, FILL), Drawn((zero,), THIN))
    layers = (Layer("bars", "Bars", drawn), Layer("labels", "Labels", tuple(words)))
    return Scene(key, title, description, width, height, layers, Placement(0.0, 0.0, 1.0))
