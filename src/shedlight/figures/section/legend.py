"""What stands beside the drawing: title block, parts list, and the key to hatches and lines."""

from collections.abc import Sequence

from shedlight.figures import lettering
from shedlight.figures.drafting import EDGE, SMALL, TINY, thin
from shedlight.figures.hatching import strokes
from shedlight.figures.millimetres import given
from shedlight.figures.scene import Box, Drawn, Item, Spot, Text, line
from shedlight.figures.section.fittings import drawn_horns
from shedlight.figures.section.materials import LOOKS, SOLID
from shedlight.figures.section.paths import Way
from shedlight.figures.sheet import GREY, Block, Cell, scale_bar, scale_words
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.parts import Tube
from shedlight.units import shown_in

CAUTION = "Calculation aid – not a manufacturing drawing"
SWATCH = (9.0, 4.0)
ROW = 5.3
KEYED = ("porcelain", "live metal", "cover", "clamps", "gasket", "oil")


def title_rows(
    installation: Installation, scale: float, sheet: str, date: str | None, narrow: bool
) -> list[list[Cell]]:
    """The fields of the title block.

    Args:
        installation: The installation.
        scale: Paper to truth.
        sheet: Name of the sheet's size.
        date: The date to show, if one is given.
        narrow: Whether the block stands in a column.
    """
    duty = installation.duty
    lines = 2 if narrow else 1
    name = Cell("Installation", installation.name, 1.0, "bold", 3.0, 2)
    what = Cell("Subject", "Solid oil-filled porcelain bushing, half section", lines=lines)
    caution = Cell("Use", CAUTION, face="bold", lines=lines)
    voltage = Cell("Highest voltage (rms, ph–ph)", _kilovolts(duty.highest_voltage), 1.15)
    current = Cell("Rated current (rms)", f"{duty.rated_current:g} A", 0.75)
    impulse = Cell("Lightning impulse (peak)", _kilovolts(duty.lightning_impulse), 0.95)
    angle = f"{shown_in(installation.transformer.mounting_angle, '°'):.4g}° from upright"
    upright = installation.transformer.mounting_angle == 0
    mounting = Cell("Mounting", "upright" if upright else angle, 0.9)
    size = Cell("Scale", scale_words(scale), 0.4, "bold")
    unit = Cell("Units", "mm", 0.35)
    paper = Cell("Sheet", sheet, 0.35)
    dated = [Cell("Date", date, 0.6)] if date else []
    last = [size, unit, paper, *dated]
    if narrow:
        return [[name], [what], [caution], [voltage, current], [impulse, mounting], last]
    return [[name], [what, caution], [voltage, current, impulse, mounting, *last]]


def _kilovolts(voltage: float) -> str:
    return f"{shown_in(voltage, 'kV'):g} kV"


def key_block(ways: Sequence[Way], scale: float, left: float, right: float, bottom: float) -> Block:
    """The key to hatches and lines with a scale bar, standing on a line.

    Args:
        ways: The ways drawn, with their lengths.
        scale: Paper to truth.
        left: Left edge [mm].
        right: Right edge [mm].
        bottom: Lower edge [mm].
    """
    rows = len(KEYED) + len(ways)
    top = bottom - rows * ROW - 12.5
    items: list[Item] = [Text("Key", left, top + TINY, TINY, colour=GREY)]
    y = top + TINY + 2.2
    room = right - left - SWATCH[0] - 3.0
    for name in KEYED:
        items += _swatch(name, Box(left, y, left + SWATCH[0], y + SWATCH[1]))
        base = y + (SWATCH[1] + SMALL) / 2
        words = lettering.shortened(LOOKS[name].words, room, SMALL)
        items.append(Text(words, left + SWATCH[0] + 3.0, base, SMALL))
        y += ROW
    for way in ways:
        middle = y + SWATCH[1] / 2
        items.append(Drawn((line(Spot(left, middle), Spot(left + SWATCH[0], middle)),), way.pen))
        words = lettering.shortened(way.text, room, SMALL)
        items.append(Text(words, left + SWATCH[0] + 3.0, middle + SMALL / 2, SMALL))
        y += ROW
    bar = scale_bar(left + 1.0, y + 1.4, min(right - left, 62.0), scale)
    return Block(Box(left, top, right, bottom), (*items, *bar.items))


def _swatch(name: str, box: Box) -> list[Item]:
    look = LOOKS[name]
    ring = list(box.path().spots)
    items: list[Item] = [Drawn((box.path(),), fill=SOLID if look.solid else look.tint)]
    if look.hatch:
        items.append(thin(*strokes([ring], look.hatch)))
    items.append(Drawn((box.path(),), EDGE))
    return items


def remarks(installation: Installation, section: Section) -> list[str]:
    """What a reader of the drawing must know besides.

    Args:
        installation: The installation.
        section: Its section.
    """
    horns = drawn_horns(installation, section)
    what = "Studs, nuts and horn arms" if horns else "Studs and nuts"
    found = [f"{what} are suggestions."]
    pair = installation.bushing.horns
    if pair and not horns:
        sizes = f"gap {given(pair.gap)}, {given(pair.reach)} from the axis"
        found.append(f"Arcing horns ({sizes}) not drawn: no room beside the bushing.")
    transformer, heights = installation.transformer, section.heights
    if transformer.mounting_angle == 0:
        if not heights.bottom <= transformer.lowest_oil_level <= heights.top:
            found.append("Underlined: not to scale.")
    else:
        angle = given(1e-3 * shown_in(transformer.mounting_angle, "°"))
        level = given(transformer.lowest_oil_level)
        found.append(f"Mounted {angle}° from upright; drawn along its axis.")
        found.append(f"Lowest oil level {level} above the cover, measured upright.")
    if not transformer.hole_bled:
        found.append("Gap in the hole not bled: shown without oil.")
    if isinstance(installation.bushing.conductor, Tube):
        found.append("Ends of the tube are suggestions.")
    return found


def remark_block(texts: Sequence[str], left: float, right: float, bottom: float) -> Block:
    """Remarks, one below the other, standing on a line.

    Args:
        texts: The remarks.
        left: Left edge [mm].
        right: Right edge [mm].
        bottom: Lower edge [mm].
    """
    room = right - left
    lines = [part for text in texts for part in lettering.wrapped(text, room, SMALL, lines=3)]
    step = 1.75 * SMALL
    top = bottom - step * len(lines)
    items = [Text(text, left, top + step * (i + 1) - 0.9, SMALL) for i, text in enumerate(lines)]
    return Block(Box(left, top, right, bottom), tuple(items))
