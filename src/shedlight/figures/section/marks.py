"""Lighting up the place on the section where a check bites."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely

from shedlight.errors import InputError
from shedlight.figures.drafting import CAPITAL, SMALL
from shedlight.figures.lettering import shortened, width
from shedlight.figures.scene import Box, Drawn, Item, Path, Pen, Spot, Text, circle, line
from shedlight.figures.section import fittings
from shedlight.figures.section.room import Room
from shedlight.figures.section.view import View, closed_path
from shedlight.geometry.curves import Curve, Point
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import OUTSIDE, Section
from shedlight.given.bushing import Installation
from shedlight.given.parts import Palm

GLOW = Pen(2.4, "#d4007a", opacity=0.35)
RING = Pen(0.6, "#d4007a")
COLOUR = "#b00065"
RING_RADIUS = 3.2
LONG_TEXT = 24  # characters
WAYS = ("creepage path", "arcing path", "oil path")
FITTINGS = ("horns", "terminal")


@dataclass(frozen=True)
class Mark:
    """A place to light up, and what to say there.

    Attributes:
        place: Name of an edge or region of the section, of a path, "horns" or "terminal"; or a
            point in the right half.
        text: A few words; none leaves the light alone.
    """

    place: str | Point
    text: str = ""


@dataclass(frozen=True)
class _Light:
    """What glows, and where the ring and its words stand."""

    glow: tuple[Path, ...]
    spot: Spot


def place_names(section: Section) -> tuple[str, ...]:
    """Every name a mark may give; edges of the space around are not among them.

    Args:
        section: The section.
    """
    regions = {region.name for region in section.regions}
    return tuple(sorted({*_edges(section), *regions, *WAYS, *FITTINGS}))


def _edges(section: Section) -> set[str]:
    return {name for name, edge in section.edges.items() if OUTSIDE not in (edge.left, edge.right)}


def marks(
    wanted: Sequence[Mark],
    installation: Installation,
    section: Section,
    measures: Measures,
    view: View,
    room: Room,
    paper: Box,
) -> Iterator[Item]:
    """Every mark: a glow along its place, a ring, and its words on white.

    A mark on horns is left out where none are drawn.

    Args:
        wanted: The marks.
        installation: The installation.
        section: Its section.
        measures: What was measured on it.
        view: Where it lies on paper.
        room: How far cover and oil are shown.
        paper: Within which the words must stay [mm].

    Raises:
        InputError: a mark names no place of the section.
    """
    lights = [
        (mark.text, light)
        for mark in wanted
        if (light := _light(mark.place, installation, section, measures, view, room))
    ]
    for _, light in lights:
        if light.glow:
            yield Drawn(light.glow, GLOW)
        yield Drawn((circle(light.spot, RING_RADIUS),), RING)
    taken: list[Box] = []
    for text, light in lights:
        if text:
            side = -1.0 if light.spot.x < view.axis - 0.01 else 1.0
            yield from _words(text, light.spot, side, paper, taken)


def _light(
    place: str | Point,
    installation: Installation,
    section: Section,
    measures: Measures,
    view: View,
    room: Room,
) -> _Light | None:
    if isinstance(place, Point):
        return _Light((), view.right(place.r, place.z))
    if place in WAYS:
        return _on_way(place, measures, view)
    if place in FITTINGS:
        return _on_fitting(place, installation, section, view)
    if place in _edges(section):
        curve = _shown(section.curve(place), view, room)
        middle = curve.at(curve.length / 2)
        return _Light((view.path(curve),), view.right(middle.r, middle.z))
    if any(region.name == place for region in section.regions):
        return _on_region(place, section, view, room)
    known = ", ".join(place_names(section))
    raise InputError(f"place of a mark: given {place!r}; expected a Point or one of {known}")


def _on_way(place: str, measures: Measures, view: View) -> _Light:
    """Paths are drawn on the left half."""
    if place == "creepage path":
        curve = measures.creepage
        middle = curve.at(curve.length / 2)
        return _Light((view.path(curve, mirrored=True),), view.left(middle.r, middle.z))
    points = (measures.arcing if place == "arcing path" else measures.oil_path).points
    middle = points[len(points) // 2]
    return _Light((view.string(points, mirrored=True),), view.left(middle.r, middle.z))


def _on_fitting(
    place: str, installation: Installation, section: Section, view: View
) -> _Light | None:
    bushing, heights = installation.bushing, section.heights
    if place == "terminal":
        shape = bushing.terminal
        half = shape.width / 2 if isinstance(shape, Palm) else shape.diameter / 2
        a, b = view.left(half, heights.top), view.right(half, heights.cap_top)
        return _Light((Box(a.x, a.y, b.x, b.y).path(),), Spot(b.x, (a.y + b.y) / 2))
    pair = fittings.drawn_horns(installation, section)
    if pair is None:
        return None
    _, high, low, _ = fittings.horn_heights(section, pair.gap)
    tips = view.left(pair.reach, high), view.left(pair.reach, low)
    return _Light((line(*tips),), Spot(tips[0].x, (tips[0].y + tips[1].y) / 2))


def _on_region(place: str, section: Section, view: View, room: Room) -> _Light:
    window = _window(section, room)
    shape = view.polygon(section, place).intersection(window)
    inside = shape.representative_point()
    glow = () if place in ("air", "tank oil") else tuple(map(closed_path, view.rings(shape)))
    return _Light(glow, view.right(inside.x, inside.y))


def _shown(curve: Curve, view: View, room: Room) -> Curve:
    """As much of an edge as lies within the drawing: cover and oil go on far beyond it."""
    end = room.window.cover_end
    if max(curve.start.r, curve.end.r) <= end:
        return curve
    inner = curve if curve.start.r < curve.end.r else curve.reversed()
    return inner.between(0.0, max(end - inner.start.r, view.metres(1.0)))


def _window(section: Section, room: Room) -> shapely.Polygon:
    low, high = room.window.oil_bottom, section.heights.top
    return shapely.box(0.0, low, room.window.cover_end, high)


def _words(text: str, spot: Spot, side: float, paper: Box, taken: list[Box]) -> Iterator[Item]:
    """The words beside the ring, on the outer side, moved down past those already there."""
    capital = CAPITAL if len(text) < LONG_TEXT else SMALL
    text = shortened(text, paper.width - 4.0, capital)
    long, y = width(text, capital), spot.y
    if spot.x - RING_RADIUS - long < paper.left + 5.0:
        side = 1.0
    near = spot.x + side * (RING_RADIUS + 2.0)
    left = near if side > 0 else near - long - 2.0
    left = max(paper.left + 1.0, min(left, paper.right - long - 3.0))
    box = Box(left, y - capital / 2 - 1.2, left + long + 2.0, y + capital / 2 + 1.2)
    while any(box.meets(other, 0.5) for other in taken):
        y += 1.0
        box = Box(box.left, box.top + 1.0, box.right, box.bottom + 1.0)
    taken.append(box)
    yield Drawn((line(Spot(spot.x + side * RING_RADIUS, spot.y), Spot(near, y)),), RING)
    yield Drawn((box.path(),), RING, "#ffffff")
    yield Text(text, left + 1.0, y + capital / 2, capital, colour=COLOUR)
