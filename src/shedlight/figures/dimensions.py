"""Dimension lines after ISO 129-1: slender filled arrows, extension lines with gaps, numbers above.

Upright dimensions are read from the right; where there is no room between the extension lines
the arrows stand outside.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from shedlight.figures.drafting import (
    ABOVE,
    ARROW,
    BEYOND,
    CAPITAL,
    GAP,
    arrow,
    broken_end,
    heads,
    thin,
)
from shedlight.figures.lettering import width
from shedlight.figures.scene import Item, Path, Spot, Text, line

COLUMN = 6.5  # from one dimension line to the next
LEFT, RIGHT, UP, DOWN = Spot(-1, 0), Spot(1, 0), Spot(0, -1), Spot(0, 1)
TAIL = 4.0  # length of an arrow's tail outside the extension lines


@dataclass(frozen=True)
class Upright:
    """A height to be shown: between two places on paper, each where its extension line begins.

    Attributes:
        text: What stands on the dimension line.
        upper: The upper place.
        lower: The lower place.
        to_scale: Whether the upper end stands where it belongs; else the number is underlined.
        number_at: Height of the number's middle; left out, half-way, or above where it has no room.
    """

    text: str
    upper: Spot
    lower: Spot
    to_scale: bool = True
    number_at: float | None = None

    @property
    def tight(self) -> bool:
        """Whether arrows or number have no room between the extension lines."""
        room = self.lower.y - self.upper.y
        return room < max(2 * ARROW, width(self.text, CAPITAL)) + 0.6

    @property
    def number_middle(self) -> float:
        """Height of the number's middle on paper."""
        if self.number_at is not None:
            return self.number_at
        if self.tight:
            return self.upper.y - TAIL - width(self.text, CAPITAL) / 2
        return (self.upper.y + self.lower.y) / 2

    @property
    def reach(self) -> tuple[float, float]:
        """The heights on paper it takes up, lettering and outside arrows included."""
        if not self.tight:
            return self.upper.y, self.lower.y
        half = width(self.text, CAPITAL) / 2 + 0.5
        return (
            min(self.upper.y - TAIL, self.number_middle - half),
            max(self.lower.y + TAIL, self.number_middle + half),
        )


def columns(dimensions: Sequence[Upright]) -> tuple[int, ...]:
    """In which column each dimension stands, so that none overlaps another.

    Args:
        dimensions: Those that want to stand nearest to the body first.
    """
    taken: list[list[tuple[float, float]]] = []
    found = []
    for dimension in dimensions:
        top, bottom = dimension.reach
        column = 0
        while column < len(taken) and _clashes((top, bottom), taken[column]):
            column += 1
        if column == len(taken):
            taken.append([])
        taken[column].append((top, bottom))
        found.append(column)
    return tuple(found)


def _clashes(reach: tuple[float, float], taken: Sequence[tuple[float, float]]) -> bool:
    return any(reach[0] < bottom - 0.05 and top < reach[1] - 0.05 for top, bottom in taken)


def upright(dimension: Upright, x: float) -> tuple[Item, ...]:
    """A height on a dimension line at x, with its extension lines.

    Args:
        dimension: What to show.
        x: Where the dimension line stands [mm].
    """
    top, bottom = dimension.upper.y, dimension.lower.y
    side = 1.0 if x > dimension.upper.x else -1.0
    extensions = [
        line(Spot(spot.x + side * GAP, spot.y), Spot(x + side * BEYOND, spot.y))
        for spot in (dimension.upper, dimension.lower)
    ]
    number = Text(
        dimension.text, x - ABOVE, dimension.number_middle, CAPITAL, "middle", turned=True
    )
    if dimension.tight:
        high, low = dimension.reach
        lines = [line(Spot(x, high), Spot(x, low))]
        tips = [arrow(Spot(x, top), DOWN), arrow(Spot(x, bottom), UP)]
    else:
        lines = _unbroken(x, top, bottom) if dimension.to_scale else _broken(x, top, bottom)
        tips = [arrow(Spot(x, top), UP), arrow(Spot(x, bottom), DOWN)]
    if not dimension.to_scale:
        lines.append(_underline(number))
    return thin(*extensions, *lines), heads(*tips), number


def _unbroken(x: float, top: float, bottom: float) -> list[Path]:
    return [line(Spot(x, top), Spot(x, bottom))]


def _broken(x: float, top: float, bottom: float) -> list[Path]:
    """A dimension line that is longer in truth than on paper."""
    at = top + min(12.0, 0.25 * (bottom - top))
    zigzag = broken_end(x, at, at, 0.9)
    first, *_, last = zigzag.spots
    return [line(Spot(x, top), first), zigzag, line(last, Spot(x, bottom))]


def _underline(number: Text) -> Path:
    """Under a number that is not to scale."""
    box = number.box
    return line(Spot(number.x + 0.45, box.top), Spot(number.x + 0.45, box.bottom))


def across(
    text: str, left: Spot, right: Spot, y: float, clear: float | None = None
) -> tuple[Item, ...]:
    """A width on a dimension line at y below both places, with its extension lines.

    Args:
        text: What stands on the dimension line.
        left: Where the left extension line begins.
        right: Where the right one begins.
        y: Where the dimension line lies [mm].
        clear: Left of which a number that has no room inside may stand [mm].
    """
    side = 1.0 if y > left.y else -1.0
    extensions = [
        line(Spot(spot.x, spot.y + side * GAP), Spot(spot.x, y + side * BEYOND))
        for spot in (left, right)
    ]
    room = right.x - left.x
    long = width(text, CAPITAL)
    if room > max(2 * ARROW + 0.6, long + 1.0):
        lines = [line(Spot(left.x, y), Spot(right.x, y))]
        tips = [arrow(Spot(left.x, y), LEFT), arrow(Spot(right.x, y), RIGHT)]
        number = Text(text, (left.x + right.x) / 2, y - ABOVE, CAPITAL, "middle")
    else:
        edge = left.x - TAIL if clear is None else min(left.x - TAIL, clear)
        lines = [line(Spot(edge - long - 0.5, y), Spot(right.x + TAIL, y))]
        tips = [arrow(Spot(left.x, y), RIGHT), arrow(Spot(right.x, y), LEFT)]
        number = Text(text, edge, y - ABOVE, CAPITAL, "end")
    return thin(*extensions, *lines), heads(*tips), number


def half(text: str, edge: Spot, axis: float, inside: float, outside: float) -> tuple[Item, ...]:
    """A diameter shown from one side: an arrow on the right edge, the number left of the axis.

    Args:
        text: What stands on the dimension line.
        edge: The place on the right edge.
        axis: Where the axis lies [mm].
        inside: Free width left of the axis, before the silhouette [mm].
        outside: Where free paper begins again left of the silhouette [mm].
    """
    long = width(text, CAPITAL)
    end = axis - long - 2.2
    start = axis - 1.2
    if long + 2.4 > inside:
        end, start = axis - outside - long - 2.0, axis - outside - 1.0
    number = Text(text, start, edge.y - ABOVE, CAPITAL, "end")
    return thin(line(Spot(end, edge.y), edge)), heads(arrow(edge, RIGHT)), number
