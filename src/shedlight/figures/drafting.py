"""The drawing office's habits: line widths, lettering heights, arrows, balloons, broken ends.

Line widths follow the group 0.5 of ISO 128-2 (wide 0.5 mm, narrow half of it), lettering ISO 3098-1
(2.5 mm and 1.8 mm capitals), arrows and dimension lines ISO 129-1, part balloons ISO 6433
(all from memory).
"""

import math

from shedlight.figures.scene import Drawn, Item, Path, Pen, Spot, Text, circle, closed, line

INK = "#111111"
WIDE = Pen(0.5)
EDGE = Pen(0.25)  # a rounded edge seen from outside
THIN = Pen(0.18, rounded=False)  # dimensions, leaders, hatching
FRAME = Pen(0.7, rounded=False)
RULE = Pen(0.25, rounded=False)
CENTRE = Pen(0.25, dashes=(6.0, 0.9, 0.5, 0.9), rounded=False)  # long dash, dot

CAPITAL = 2.5
SMALL = 1.8
TINY = 1.5
ARROW = 2.6  # length of an arrow head
ARROW_HALF = 0.36  # half its width: a slender head of about 15°
BEYOND = 1.5  # how far an extension line runs past the dimension line
GAP = 0.8  # between an outline and the extension line that belongs to it
ABOVE = 0.8  # between a dimension line and the number above it
BALLOON = 2.9  # radius
DOT = 0.45


def arrow(tip: Spot, toward: Spot) -> Path:
    """A slender filled head whose tip points along a direction.

    Args:
        tip: Where it points [mm].
        toward: Direction it points in; any length but zero.
    """
    size = math.hypot(toward.x, toward.y)
    u = Spot(toward.x / size, toward.y / size)
    back = Spot(tip.x - ARROW * u.x, tip.y - ARROW * u.y)
    side = Spot(-u.y * ARROW_HALF, u.x * ARROW_HALF)
    return closed(
        tip, Spot(back.x + side.x, back.y + side.y), Spot(back.x - side.x, back.y - side.y)
    )


def heads(*paths: Path, colour: str = INK) -> Drawn:
    """Filled arrow heads or dots."""
    return Drawn(paths, fill=colour)


def thin(*paths: Path, colour: str = INK) -> Drawn:
    """Thin lines."""
    return Drawn(paths, Pen(THIN.width, colour, rounded=False))


def dot(spot: Spot) -> Path:
    """The dot that ends a leader inside a part."""
    return circle(spot, DOT)


def balloon(centre: Spot, number: int) -> tuple[Item, ...]:
    """A part number in its circle."""
    return (
        Drawn((circle(centre, BALLOON),), EDGE, "#ffffff"),
        Text(str(number), centre.x, centre.y + CAPITAL / 2, CAPITAL, "middle"),
    )


def broken_end(x: float, top: float, bottom: float, swing: float = 0.0) -> Path:
    """The zigzag of a plate that goes on beyond the picture (ISO 128-2)."""
    middle, swing = (top + bottom) / 2, swing or min(1.0, 0.25 * (bottom - top) + 0.4)
    return line(
        Spot(x, top - 1.6),
        Spot(x, middle - swing),
        Spot(x + swing, middle - 0.4 * swing),
        Spot(x - swing, middle + 0.4 * swing),
        Spot(x, middle + swing),
        Spot(x, bottom + 1.6),
    )


def level_mark(x: float, y: float) -> tuple[Item, ...]:
    """A liquid's level: triangle standing on the line, two shorter strokes below it."""
    return (
        Drawn((closed(Spot(x, y), Spot(x - 1.4, y - 2.4), Spot(x + 1.4, y - 2.4)),), EDGE),
        thin(
            line(Spot(x - 4.5, y), Spot(x + 4.5, y)),
            line(Spot(x - 2.4, y + 0.8), Spot(x + 2.4, y + 0.8)),
            line(Spot(x - 1.1, y + 1.6), Spot(x + 1.1, y + 1.6)),
        ),
    )
