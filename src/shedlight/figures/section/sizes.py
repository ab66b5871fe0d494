"""The main dimensions: heights in columns on both sides, diameters below the cover and at the foot."""

from collections.abc import Iterator, Sequence

from shedlight.figures.dimensions import COLUMN, Upright, across, columns, half, upright
from shedlight.figures.drafting import CAPITAL, level_mark
from shedlight.figures.numbers import diameter, given
from shedlight.figures.scene import Item, Spot
from shedlight.figures.section.fittings import horn_heights
from shedlight.figures.section.room import Room
from shedlight.figures.section.view import View
from shedlight.geometry.section import Section
from shedlight.given.bushing import BulkBushing, Installation
from shedlight.given.parts import Palm

FOOT = 8.0  # from the lower terminal to the first diameter below it [mm on paper]
LINE = 5.0  # from one diameter below the cover to the next [mm on paper]
ABOVE_ALL = 5.0  # where a level beyond the picture is shown, above the topmost part


def heights_on_the_right(installation: Installation, section: Section, view: View, room: Room) -> Iterator[Item]:
    """Sheds, air length, overall height and the lowest oil level.

    Args:
        installation: The installation.
        section: Its section.
        view: Where it lies on paper.
        room: How the room is shared out.
    """
    found = [*_shed_heights(section, view), *_overall(installation.bushing, section, view, room)]
    level = _level(installation, section, view, room)
    places = list(columns(found))
    last = max(places) + 1
    for dimension, column in zip(found, places, strict=True):
        yield from upright(dimension, view.axis + room.columns + COLUMN * column)
    if level:
        x = view.axis + room.columns + COLUMN * last
        yield from upright(level, x)


def oil_level(installation: Installation, section: Section, view: View, room: Room) -> Iterator[Item]:
    """The mark of the lowest oil level, beside its dimension."""
    level = _level(installation, section, view, room)
    if level is None:
        return
    found = [*_shed_heights(section, view), *_overall(installation.bushing, section, view, room)]
    x = view.axis + room.columns + COLUMN * (max(columns(found)) + 1)
    above = installation.transformer.lowest_oil_level >= 0
    yield from level_mark(x + 5.5, (level.upper if above else level.lower).y)


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
        text = pitch if len(sheds) == 2 else f"{len(sheds) - 1} × {pitch} (= {total})"
        yield Upright(text, view.right(last.tip_radius, last.tip_height), tip)


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


def _level(installation: Installation, section: Section, view: View, room: Room) -> Upright | None:
    """The lowest oil level above the cover; not drawn true where it lies beyond the picture."""
    transformer, heights = installation.transformer, section.heights
    if transformer.mounting_angle != 0:
        return None
    level = transformer.lowest_oil_level
    text = f"lowest oil level {given(level)}"
    cover = _cover_spot(view, room, 0.0)
    inside = heights.bottom <= level <= heights.top
    if level < 0:
        low = level if inside else heights.bottom - view.metres(ABOVE_ALL)
        return Upright(text, cover, _cover_spot(view, room, low), inside)
    high = level if inside else heights.top + view.metres(ABOVE_ALL)
    return Upright(text, _cover_spot(view, room, high), cover, inside)


def heights_on_the_left(section: Section, view: View, room: Room) -> Iterator[Item]:
    """The oil end below the seat, and everything below the cover's top."""
    heights, radii = section.heights, section.radii
    seat = view.left(radii.collar, heights.seat)
    found = [
        Upright(
            given(heights.seat - heights.oil_end), seat, view.left(radii.oil_end, heights.oil_end)
        ),
        Upright(given(heights.seat - heights.bottom), seat, view.left(radii.stud, heights.bottom)),
    ]
    for dimension, column in zip(found, columns(found), strict=True):
        yield from upright(dimension, view.axis - room.left_columns - COLUMN * column)


def horn_gap(installation: Installation, section: Section, view: View) -> Iterator[Item]:
    """The gap between the horns' tips."""
    pair = installation.bushing.horns
    if pair is None:
        return
    _, high, low, _ = horn_heights(section, pair.gap)
    outside = pair.reach + pair.rod_diameter / 2
    dimension = Upright(given(pair.gap), view.left(pair.reach, high), view.left(pair.reach, low))
    yield from upright(dimension, view.left(outside, 0.0).x - 7.0)


def diameters_below_the_cover(section: Section, view: View) -> Iterator[Item]:
    """Hole, body, bore and conductor, each from its right edge to beyond the axis."""
    heights, radii = section.heights, section.radii
    room = view.size(radii.body)
    under = view.right(0.0, heights.cover_underside).y
    foot = view.right(0.0, heights.oil_end).y
    edges = [(radii.hole, under), (radii.body, under), (radii.bore, under), (radii.conductor, under)]
    line = min(LINE, max(CAPITAL + 1.4, (foot - under - 1.5) / len(edges)))
    y = under + line
    for radius, _ in edges:
        edge = Spot(view.right(radius, 0.0).x, y)
        yield from half(diameter(radius), edge, view.axis, room)
        y += line


def diameters_at_the_foot(section: Section, view: View) -> Iterator[Item]:
    """Lower terminal and shield, below the drawing."""
    heights, radii = section.heights, section.radii
    y = view.right(0.0, heights.bottom).y + FOOT
    rounding = 0.5 * (heights.oil_end - heights.shield_bottom)
    for radius, z in ((radii.stud, heights.bottom), (radii.shield, heights.shield_bottom + rounding)):
        yield from across(diameter(radius), view.left(radius, z), view.right(radius, z), y)
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
