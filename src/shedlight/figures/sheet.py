"""The sheet: sizes, frame, standard scales, title block, parts list, legend.

Sizes and frame after ISO 5457 (A4, A3; 20 mm filing margin, else 10 mm), scales ISO 5455, title
block in the manner of ISO 7200, parts list ISO 7573 (all from memory).
"""

from collections.abc import Sequence
from dataclasses import dataclass

from shedlight.figures import lettering
from shedlight.figures.drafting import FRAME, INK, RULE, SMALL, TINY, thin
from shedlight.figures.lettering import Face
from shedlight.figures.scene import Box, Drawn, Item, Spot, Text, closed, line

SCALES = (5.0, 2.0, 1.0, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50)  # paper to truth
SIZES = {"A4": (210.0, 297.0), "A3": (297.0, 420.0)}
FILING, MARGIN = 20.0, 10.0
PAD = 1.4
ROW = 4.6
GREY = "#555555"


def frame_of(sheet: str) -> Box:
    """The frame inside a sheet's margins [mm]."""
    width, height = SIZES[sheet]
    return Box(FILING, MARGIN, width - MARGIN, height - MARGIN)


def scale_words(scale: float) -> str:
    """A scale as drawings write it: 1:2 or 2:1."""
    if scale >= 1:
        return f"{scale:g}:1"
    return f"1:{1 / scale:g}"


@dataclass(frozen=True)
class Cell:
    """One field of the title block: a small heading over its value."""

    heading: str
    value: str
    share: float = 1.0
    face: Face = "regular"
    capital: float = SMALL
    lines: int = 1

    def wrapped(self, width: float) -> tuple[str, ...]:
        """Its value in as many lines as it needs and may have."""
        room = width - 2 * PAD
        return lettering.wrapped(self.value, room, self.capital, self.face, self.lines)

    def height(self, width: float) -> float:
        """Height it needs at a width [mm]."""
        lines = len(self.wrapped(width))
        return 2 * PAD + TINY + 1.2 + (1.75 * lines - 0.75) * self.capital + 0.4


def title_block(
    rows: Sequence[Sequence[Cell]], left: float, right: float, bottom: float
) -> "Block":
    """A title block standing on a line.

    Args:
        rows: Fields from top to bottom; the shares of a row divide its width.
        left: Left edge [mm].
        right: Right edge [mm].
        bottom: Lower edge [mm].
    """
    widths = [
        [(right - left) * cell.share / sum(other.share for other in row) for cell in row]
        for row in rows
    ]
    heights = [
        max(cell.height(width) for cell, width in zip(row, wide, strict=True))
        for row, wide in zip(rows, widths, strict=True)
    ]
    top = bottom - sum(heights)
    items: list[Item] = [Drawn((Box(left, top, right, bottom).path(),), FRAME)]
    rules = []
    y = top
    for row, wide, height in zip(rows, widths, heights, strict=True):
        x = left
        for cell, width in zip(row, wide, strict=True):
            items += _cell(cell, Box(x, y, x + width, y + height))
            if x > left:
                rules.append(line(Spot(x, y), Spot(x, y + height)))
            x += width
        if y > top:
            rules.append(line(Spot(left, y), Spot(right, y)))
        y += height
    return Block(Box(left, top, right, bottom), (*items, Drawn(tuple(rules), RULE)))


def _cell(cell: Cell, box: Box) -> list[Item]:
    y = box.top + PAD + TINY
    heading = lettering.shortened(cell.heading, box.width - 2 * PAD, TINY)
    items: list[Item] = [Text(heading, box.left + PAD, y, TINY, colour=GREY)]
    y += 1.2
    for text in cell.wrapped(box.width):
        y += cell.capital
        items.append(Text(text, box.left + PAD, y, cell.capital, face=cell.face))
        y += 0.75 * cell.capital
    return items


@dataclass(frozen=True)
class Block:
    """Something finished that takes up a box on the sheet."""

    box: Box
    items: tuple[Item, ...]


@dataclass(frozen=True)
class Part:
    """One row of the parts list."""

    number: int
    name: str
    details: str


def parts_list(parts: Sequence[Part], left: float, right: float, bottom: float) -> Block:
    """A parts list standing on a line, its heading on top.

    Args:
        parts: From the first to the last.
        left: Left edge [mm].
        right: Right edge [mm].
        bottom: Lower edge [mm].
    """
    number = left + 7.0
    details = number + 2 * PAD + max(lettering.width(part.name, SMALL) for part in parts)
    room = right - details - 2 * PAD
    wrapped = [lettering.wrapped(part.details, room, SMALL, lines=3) for part in parts]
    heights = [ROW + (max(1, len(lines)) - 1) * 1.7 * SMALL for lines in wrapped]
    top = bottom - sum(heights) - ROW
    items: list[Item] = [
        Text("No.", left + PAD, top + 3.0, TINY, colour=GREY),
        Text("Part", number + PAD, top + 3.0, TINY, colour=GREY),
        Text("Material, size (mm)", details + PAD, top + 3.0, TINY, colour=GREY),
    ]
    rules = []
    y = top + ROW
    for part, lines, height in zip(parts, wrapped, heights, strict=True):
        rules.append(line(Spot(left, y), Spot(right, y)))
        base = y + 0.5 * (ROW + SMALL)
        items.append(Text(str(part.number), number - PAD, base, SMALL, "end"))
        items.append(Text(part.name, number + PAD, base, SMALL))
        items += [
            Text(text, details + PAD, base + index * 1.7 * SMALL, SMALL)
            for index, text in enumerate(lines)
        ]
        y += height
    rules += [line(Spot(x, top), Spot(x, bottom)) for x in (number, details)]
    box = Box(left, top, right, bottom)
    return Block(box, (Drawn((box.path(),), RULE), thin(*rules), *items))


def frame(sheet: str) -> tuple[Item, ...]:
    """The frame with its centring marks."""
    box = frame_of(sheet)
    width, height = SIZES[sheet]
    marks = (
        line(Spot(width / 2, box.top - 5), Spot(width / 2, box.top)),
        line(Spot(width / 2, box.bottom + 5), Spot(width / 2, box.bottom)),
        line(Spot(box.left - 5, height / 2), Spot(box.left, height / 2)),
        line(Spot(box.right + 5, height / 2), Spot(box.right, height / 2)),
    )
    return Drawn((box.path(),), FRAME), Drawn(marks, FRAME)


def scale_bar(left: float, top: float, room: float, scale: float) -> Block:
    """A bar that keeps its truth when the sheet is enlarged or reduced.

    Args:
        left: Left edge [mm].
        top: Upper edge [mm].
        room: Greatest width [mm].
        scale: Paper to truth.
    """
    steps = [base * 10**power for power in range(4) for base in (1, 2, 5)]
    step = max((s for s in steps if 5 * s * scale <= room - 8), default=1)
    size = step * scale
    y = top + SMALL + 1.6
    fields = [
        closed(Spot(x, y), Spot(x + size, y), Spot(x + size, y + 1.2), Spot(x, y + 1.2))
        for x in (left + size * index for index in range(5))
    ]
    words = [
        Text(f"{step * index:g}", left + size * index, top + SMALL, SMALL, "middle")
        for index in (0, 1, 5)
    ]
    unit = Text("mm", words[-1].box.right + 1.0, top + SMALL, SMALL)
    bar = Drawn(tuple(fields), RULE), Drawn(tuple(fields[::2]), fill=INK)
    box = Box(left, top, unit.box.right, y + 1.2)
    return Block(box, (*bar, *words, unit))
