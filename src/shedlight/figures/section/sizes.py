"""The main dimensions: heights in columns on both sides, diameters below cover and foot."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from shedlight.figures.dimensions import COLUMN, TAIL, Upright, across, columns, half, upright
from shedlight.figures.drafting import ABOVE, BEYOND, CAPITAL, GAP, WIDE, level_mark, thin
from shedlight.figures.lettering import width
from shedlight.figures.millimetres import diameter, given
from shedlight.figures.scene import Drawn, Item, Spot, line
from shedlight.figures.section.fittings import drawn_horns, horn_heights
from shedlight.figures.section.room import OIL_LABEL, Room, free_left_of_oil_end
from shedlight.figures.section.view import View
from shedlight.figures.spreading import Wish, spread
from shedlight.geometry.section import Section
from shedlight.given.bushing import BulkBushing, Installation
from shedlight.given.parts import Palm

BELOW_THE_COVER = 4  # hole, body, bore, conductor
LABEL_HALF = CAPITAL + 1.6  # half the height of a label of two lines [mm on paper]
FOOT = 8.0  # from the lower terminal to the first diameter below it [mm on paper]
FIRST_LINE = 5.3  # from the cover to the first diameter below it, clear of the broken end
LINE = 5.0  # from one diameter below the cover to the next [mm on paper]
BEYOND_ALL = 6.0  # how far past the drawing a level that lies further still is shown
LEVEL_LINE = 6.0  # from the level's mark to its dimension line


def heights_on_the_right(
    installation: Installation, section: Section, view: View, room: Room
) -> Iterator[Item]:
    """Sheds, air length, overall height and the lowest oil level.

    Args:
        installation: The installation.
        section: Its section.
        view: Where it lies on paper.
        room: How the room is shared out.
    """
    found = _right_column(installation, section, view, room)
    for dimension, column in zip(found, columns(found), strict=True):
        yield from upright(dimension, view.axis + room.columns + COLUMN * column)


def oil_level(
    installation: Installation, section: Section, view: View, room: Room
) -> Iterator[Item]:
    """The lowest oil level: its mark and its height above the cover, in the outermost column.

    Left out where the bushing leans: heights would then not lie along its axis.

    Args:
        installation: The installation.
        section: Its section.
        view: Where it lies on paper.
        room: How the room is shared out.
    """
    transformer, heights = installation.transformer, section.heights
    if transformer.mounting_angle != 0:
        return
    found = _right_column(installation, section, view, room)
    x = view.axis + room.columns + COLUMN * (max(columns(found)) + 1)
    level = transformer.lowest_oil_level
    inside = heights.bottom <= level <= heights.top
    beyond = heights.top if level > 0 else heights.bottom
    shown = level if inside else beyond + math.copysign(view.metres(BEYOND_ALL), level)
    mark = x + LEVEL_LINE if inside and level > 0 else x - LEVEL_LINE
    surface = Spot(min(x, mark), view.right(0.0, shown).y)
    cover = _cover_spot(view, room, 0.0)
    upper, lower = (surface, cover) if level >= 0 else (cover, surface)
    yield from upright(Upright(f"lowest oil level {given(level)}", upper, lower, inside), x)
    yield from level_mark(mark, surface.y)
    if heights.oil_end < level < heights.cap_base:
        radii = section.radii
        yield Drawn(
            (line(view.right(radii.conductor, level), view.right(radii.bore, level)),), WIDE
        )


def _right_column(
    installation: Installation, section: Section, view: View, room: Room
) -> list[Upright]:
    """The heights on the right; numbers without room between their lines stand on no other line."""
    found = [*_shed_heights(section, view), *_overall(installation.bushing, section, view, room)]
    walls = [spot.y for each in found for spot in (each.upper, each.lower)]
    return [_off_lines(each, walls) if each.tight else each for each in found]


def _off_lines(dimension: Upright, walls: Sequence[float]) -> Upright:
    half = width(dimension.text, CAPITAL) / 2 + 0.5
    wish = Wish(dimension.number_middle, half, half)
    low, high = dimension.upper.y - 8 * half, dimension.lower.y + 8 * half
    return replace(dimension, number_at=spread([wish], low, high, walls)[0])


def _shed_heights(section: Section, view: View) -> Iterator[Upright]:
    sheds = section.sheds
    if not sheds:
        return
    base = view.right(section.radii.ring_outer, section.heights.clamp_top)
    first, last = sheds[0], sheds[-1]
    tip = view.right(first.tip_radius, first.tip_height)
    yield Upright(given(first.tip_height - section.heights.clamp_top), tip, base)
    if len(sheds) > 1:
        pitch = given(sheds[1].tip_height - first.tip_height)
        total = given(last.tip_height - first.tip_height)
        count = len(sheds) - 1
        top = view.right(last.tip_radius, last.tip_height)
        words = (f"{count} × {pitch} (= {total})", f"{count} × {pitch}")
        chains = [Upright(text, top, tip) for text in words]
        fitting = [chain for chain in chains if not chain.tight and count > 1]
        second = view.right(sheds[1].tip_radius, sheds[1].tip_height)
        yield fitting[0] if fitting else Upright(pitch, second, tip)


def _overall(bushing: BulkBushing, section: Section, view: View, room: Room) -> Iterator[Upright]:
    heights, radii = section.heights, section.radii
    yield Upright(
        given(heights.cap_base - heights.clamp_top),
        view.right(radii.cap, heights.cap_base),
        view.right(radii.ring_outer, heights.clamp_top),
    )
    terminal = bushing.terminal
    half_top = terminal.width / 2 if isinstance(terminal, Palm) else radii.terminal
    yield Upright(
        given(heights.top), view.right(half_top, heights.top), _cover_spot(view, room, 0.0)
    )


def _cover_spot(view: View, room: Room, z: float) -> Spot:
    return view.right(room.window.cover_end, z)


def heights_on_the_left(section: Section, view: View, room: Room) -> Iterator[Item]:
    """The oil end below the seat, and all below the seat where its number has room."""
    found = _below_the_seat(section, view)
    for dimension, column in zip(found, columns(found), strict=True):
        yield from upright(dimension, view.axis - room.left_columns - COLUMN * column)


def _below_the_seat(section: Section, view: View) -> list[Upright]:
    heights, radii = section.heights, section.radii
    seat, end = view.left(radii.collar, heights.seat), view.left(radii.oil_end, heights.oil_end)
    foot = view.left(radii.stud, heights.bottom)
    short = Upright(given(heights.seat - heights.oil_end), seat, end)
    whole = Upright(given(heights.seat - heights.bottom), seat, foot)
    if not short.tight:
        return [short, whole]
    below = end.y + TAIL + width(short.text, CAPITAL) / 2
    short = replace(short, number_at=below)
    if foot.y - end.y < width(whole.text, CAPITAL) + 1.0:
        return [short]
    # The short one's number stands below its lines: outermost, it meets no other extension line.
    return [replace(whole, number_at=(end.y + foot.y) / 2), short]


def horn_gap(installation: Installation, section: Section, view: View) -> Iterator[Item]:
    """The gap between the horns' tips."""
    pair = drawn_horns(installation, section)
    if pair is None:
        return
    _, high, low, _ = horn_heights(section, pair.gap)
    outside = pair.reach + pair.rod_diameter / 2
    dimension = Upright(given(pair.gap), view.left(pair.reach, high), view.left(pair.reach, low))
    yield from upright(dimension, view.left(outside, 0.0).x - 6.0)


def diameters_below_the_cover(section: Section, view: View) -> Iterator[Item]:
    """Hole, body, bore and conductor, each from its right edge to beyond the axis.

    Where the oil end is too short on paper they stand in the right margin instead.
    """
    if crowded_below_the_cover(section, view):
        return
    heights, radii = section.heights, section.radii
    outside = free_left_of_oil_end(section, view)
    step = _step_below_the_cover(section, view)
    edges = (
        (radii.body, heights.taper_start),
        (radii.hole, heights.cover_underside),
        (radii.bore, heights.oil_end),
        (radii.conductor, heights.oil_end),
    )
    longest = max(width(diameter(radius), CAPITAL) for radius, _ in edges)
    inside = view.size(radii.oil_end) if longest + 2.4 < view.size(radii.oil_end) else 0.0
    y = view.right(0.0, heights.cover_underside).y + FIRST_LINE
    for radius, ends in edges:
        edge = view.right(radius, ends)
        if edge.y < y:
            yield thin(line(Spot(edge.x, edge.y + GAP), Spot(edge.x, y + BEYOND)))
        yield from half(diameter(radius), Spot(edge.x, y), view.axis, inside, outside)
        y += step


def _step_below_the_cover(section: Section, view: View) -> float:
    """From one diameter below the cover to the next [mm on paper]."""
    room = view.size(section.heights.cover_underside - section.heights.oil_end)
    return min(LINE, (room - FIRST_LINE - 1.5) / (BELOW_THE_COVER - 1))


def crowded_below_the_cover(section: Section, view: View) -> bool:
    """Whether the oil end is too short on paper for the diameters."""
    return _step_below_the_cover(section, view) < CAPITAL + 1.4


def foot_of_diameters(section: Section, view: View) -> float:
    """Height on paper below which the left of the oil end is free of diameters."""
    under = view.right(0.0, section.heights.cover_underside).y
    if crowded_below_the_cover(section, view):
        return under
    steps = (BELOW_THE_COVER - 1) * _step_below_the_cover(section, view)
    return under + FIRST_LINE + steps + ABOVE


def oil_label_height(section: Section, view: View) -> float:
    """Height on paper of the oil path's label: clear of diameters and of extension lines."""
    heights = section.heights
    lines = [view.left(0.0, z).y for z in (heights.oil_end, heights.bottom)]
    wish = Wish(lines[0] - LABEL_HALF - 0.4, LABEL_HALF, LABEL_HALF)
    free = foot_of_diameters(section, view) + 0.6
    return spread([wish], free, lines[1] + 4 * LABEL_HALF, lines)[0]


def diameters_at_the_foot(section: Section, view: View) -> Iterator[Item]:
    """Lower terminal and shield, below the drawing."""
    heights, radii = section.heights, section.radii
    y = view.right(0.0, heights.bottom).y + FOOT
    rounding = 0.5 * (heights.oil_end - heights.shield_bottom)
    clear = view.left(radii.shield, 0.0).x - 1.2
    if oil_label_height(section, view) + LABEL_HALF > y - CAPITAL - 2 * ABOVE:
        clear = view.axis - free_left_of_oil_end(section, view) - OIL_LABEL
    beside = _below_the_seat(section, view)[-1]
    if beside.tight:
        y = max(y, beside.reach[1] + CAPITAL + 2 * ABOVE)
    for radius, z in (
        (radii.stud, heights.bottom),
        (radii.shield, heights.shield_bottom + rounding),
    ):
        yield from across(diameter(radius), view.left(radius, z), view.right(radius, z), y, clear)
        y += COLUMN


def shed_notes(section: Section) -> Sequence[tuple[str, float, float]]:
    """Text, radius and height of the notes on shed diameters: one per kind of shed [m]."""
    found = []
    for long in (True, False):
        alike = [shed for shed in section.sheds if shed.long == long]
        if alike:
            shed = alike[len(alike) // 2]
            found.append((diameter(shed.tip_radius), shed.tip_radius, shed.tip_height))
    return found
