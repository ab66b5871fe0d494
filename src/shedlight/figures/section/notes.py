"""Notes in the margins: diameters with an arrow on their edge, part numbers in balloons."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from shedlight.figures.dimensions import LEFT
from shedlight.figures.drafting import (
    ABOVE,
    BALLOON,
    CAPITAL,
    arrow,
    balloon,
    dot,
    heads,
    thin,
)
from shedlight.figures.lettering import width
from shedlight.figures.millimetres import diameter
from shedlight.figures.scene import Item, Spot, Text, line
from shedlight.figures.section.fittings import drawn_horns, horn_heights
from shedlight.figures.section.paths import free_bays
from shedlight.figures.section.room import Room
from shedlight.figures.section.sizes import crowded_below_the_cover, shed_notes
from shedlight.figures.section.view import View
from shedlight.figures.spreading import Wish, spread
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.parts import Palm, Tube

APART = 0.7


@dataclass(frozen=True)
class Note:
    """Something that points at a place of the right half: a diameter or a part's number."""

    target: Spot
    text: str = ""
    number: int = 0

    @property
    def wish(self) -> Wish:
        """The height it wants and the room it needs there."""
        if self.number:
            return Wish(self.target.y, BALLOON + APART, BALLOON + APART)
        return Wish(self.target.y, CAPITAL + 2 * ABOVE, ABOVE)


def right_notes(
    installation: Installation, section: Section, view: View, numbers: Mapping[str, int]
) -> list[Note]:
    """Every note of the right margin, from the top down.

    Args:
        installation: The installation.
        section: Its section.
        view: Where it lies on paper.
        numbers: Part numbers by key.
    """
    radii, heights = section.radii, section.heights
    seen = [
        (diameter(radii.cap), radii.cap, (heights.cap_base + heights.cap_top) / 2),
        *shed_notes(section),
        (
            diameter(radii.ring_outer),
            radii.ring_outer,
            heights.shoulder + 0.35 * (heights.clamp_top - heights.shoulder),
        ),
        (diameter(radii.collar), radii.collar, (heights.seat + heights.shoulder) / 2),
        (diameter(radii.oil_end), radii.oil_end, heights.oil_end + 0.003),
    ]
    if crowded_below_the_cover(section, view):
        seen += _inner_diameters(section)
    notes = [Note(view.right(r, z), text) for text, r, z in seen]
    fixed = {
        "gasket": ((radii.gasket_inner + radii.gasket_outer) / 2, heights.seat / 2),
        "cover": (
            radii.ring_outer + view.metres(2.0),
            heights.cover_underside / 2,
        ),
        "fixing": (
            (radii.ring_inner + radii.collar) / 2,
            heights.shoulder + 0.75 * (heights.clamp_top - heights.shoulder),
        ),
        "shield": (0.7 * radii.shield, (heights.oil_end + heights.shield_bottom) / 2),
        "stud": (0.5 * radii.stud, heights.bottom + 0.4 * (heights.shield_bottom - heights.bottom)),
        **_inside(installation, section),
    }
    notes += [Note(view.right(*place), number=numbers[key]) for key, place in fixed.items()]
    return sorted(notes, key=lambda note: note.target.y)


def _inside(installation: Installation, section: Section) -> dict[str, tuple[float, float]]:
    """Places in porcelain, oil and conductor that a level leader reaches between the sheds [m]."""
    radii, conductor = section.radii, installation.bushing.conductor
    hollow = conductor.inner_diameter / 2 if isinstance(conductor, Tube) else 0.0
    bays = list(free_bays(section))
    chosen: list[int] = []
    for _ in range(3):
        sizes = [(high - low) / (1 + 2 * chosen.count(i)) for i, (low, high) in enumerate(bays)]
        chosen.append(max(range(len(bays)), key=sizes.__getitem__))
    places = []
    for index in sorted(set(chosen)):
        low, high = bays[index]
        count = chosen.count(index)
        places += [low + (high - low) * (k + 1) / (count + 1) for k in range(count)]
    across = {
        "porcelain": (radii.bore + radii.top_body) / 2,
        "oil": (radii.conductor + radii.bore) / 2,
        "conductor": (hollow + radii.conductor) / 2,
    }
    return {key: (r, z) for (key, r), z in zip(across.items(), places, strict=True)}


def _inner_diameters(section: Section) -> list[tuple[str, float, float]]:
    """Text, radius and height of hole, body, bore and conductor [m]."""
    heights, radii = section.heights, section.radii
    under = heights.cover_underside
    step = (under - heights.taper_start) / 4
    edges = (radii.body, radii.bore, radii.conductor)
    found = [(diameter(radii.hole), radii.hole, 0.9 * under)]
    found += [(diameter(r), r, under - (i + 1) * step) for i, r in enumerate(edges)]
    return found


def walls(section: Section, view: View) -> list[float]:
    """Heights on paper of the extension lines that cross the right margin."""
    heights = section.heights
    places = [heights.top, heights.cap_base, heights.clamp_top, 0.0]
    if section.sheds:
        places += [section.sheds[0].tip_height, section.sheds[-1].tip_height]
    return [view.right(0.0, z).y for z in places]


def placed(
    notes: Sequence[Note], section: Section, view: View, room: Room
) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    """The diameters, and the balloons, side by side in the right margin.

    Args:
        notes: From the top down.
        section: The section.
        view: Where it lies on paper.
        room: How the room is shared out.
    """
    top = view.right(0.0, section.heights.top).y
    bottom = view.right(0.0, section.heights.bottom).y
    at = spread([note.wish for note in notes], top, bottom, walls(section, view))
    sizes: list[Item] = []
    numbers: list[Item] = []
    for note, y in zip(notes, at, strict=True):
        if note.number:
            numbers += _numbered(note, y, view.axis + room.elbow, view.axis + room.notes)
        else:
            sizes += _sized(note, y, view.axis + room.elbow, view.axis + room.notes)
    return tuple(sizes), tuple(numbers)


def _sized(note: Note, y: float, elbow: float, at: float) -> Iterator[Item]:
    end = at + width(note.text, CAPITAL) + 0.5
    spots = [note.target, Spot(elbow, note.target.y), Spot(at - 0.8, y), Spot(end, y)]
    if abs(y - note.target.y) < 0.2:
        spots = [note.target, Spot(end, note.target.y)]
    yield thin(line(*spots))
    yield heads(arrow(note.target, LEFT))
    yield Text(note.text, at, spots[-1].y - ABOVE, CAPITAL)


def _numbered(note: Note, y: float, elbow: float, at: float) -> Iterator[Item]:
    centre = Spot(at + BALLOON, y)
    spots = [note.target, Spot(elbow, note.target.y), Spot(at, y)]
    yield thin(line(*spots))
    yield heads(dot(note.target))
    yield from balloon(centre, note.number)


def left_balloons(
    installation: Installation, section: Section, view: View, numbers: Mapping[str, int]
) -> Iterator[Item]:
    """Terminal, cap and horns, above the upper horn on the left.

    Args:
        installation: The installation.
        section: Its section.
        view: Where it lies on paper.
        numbers: Part numbers by key.
    """
    heights, radii, bushing = section.heights, section.radii, installation.bushing
    terminal = bushing.terminal
    half = terminal.width / 2 if isinstance(terminal, Palm) else radii.terminal
    x = view.left(max(half, radii.cap), 0.0).x - 9.0
    cap = view.left(
        0.55 * radii.cap, heights.cap_base + 0.72 * (heights.cap_top - heights.cap_base)
    )
    tip = view.left(0.8 * half, heights.cap_top + 0.7 * (heights.top - heights.cap_top))
    cap_y = cap.y - 5.0
    yield from _pointing(cap, Spot(x, cap_y), numbers["cap"])
    yield from _pointing(tip, Spot(x, min(tip.y, cap_y - 2 * BALLOON - 1.5)), numbers["terminal"])
    for name in section.rings:
        tube = section.curve(name).start
        edge = view.left(tube.r, tube.z)
        yield from _pointing(edge, Spot(edge.x - 8.0, edge.y - 5.0), numbers[name])
    pair = drawn_horns(installation, section)
    if pair:
        arm, _, _, _ = horn_heights(section, pair.gap)
        bend = view.left(pair.reach - 0.4 * pair.rod_diameter, arm)
        beside = min(bend.x - 6.0, x - 2 * BALLOON - 1.5)
        yield from _pointing(bend, Spot(beside, bend.y - 6.0), numbers["horns"])


def _pointing(target: Spot, centre: Spot, number: int) -> Iterator[Item]:
    away = ((target.x - centre.x) ** 2 + (target.y - centre.y) ** 2) ** 0.5
    edge = Spot(
        centre.x + (target.x - centre.x) * BALLOON / away,
        centre.y + (target.y - centre.y) * BALLOON / away,
    )
    yield thin(line(target, edge))
    yield heads(dot(target))
    yield from balloon(centre, number)
