"""The layers of the drawing itself, before it is put on a sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shedlight.figures.drafting import thin
from shedlight.figures.scene import Box, Drawn, Item, Layer, Path, Placement, To
from shedlight.figures.section import cut, fittings, notes, paths, sizes
from shedlight.figures.section.elevation import cap_outline, elevation, ring_outline
from shedlight.figures.section.marks import Mark, marks
from shedlight.figures.section.materials import GLAZES, LOOKS, SOLID
from shedlight.figures.section.parts import Numbered, numbered_parts
from shedlight.figures.section.room import Room, room_for
from shedlight.figures.section.view import View
from shedlight.geometry.curves import Curve, Point, line
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.parts import Palm

WAYS = ("creepage path", "arcing path", "oil path")


@dataclass(frozen=True)
class Subject:
    """What is drawn: the records, and the marks on them."""

    installation: Installation
    section: Section
    measures: Measures
    wanted: tuple[Mark, ...] = ()

    @property
    def palm(self) -> bool:
        """Whether the terminal is a palm."""
        return isinstance(self.installation.bushing.terminal, Palm)

    @property
    def parts(self) -> tuple[Numbered, ...]:
        """The parts with their numbers."""
        return numbered_parts(self.installation, self.section)


def layers(
    subject: Subject, placement: Placement, lettered: bool, paper: Box | None = None
) -> list[Layer]:
    """Every layer of the drawing.

    Args:
        subject: What is drawn.
        placement: Where it lies on paper.
        lettered: Whether dimensions, labels and path lengths are wanted.
        paper: Within which the words of marks must stay [mm]; left out while only the extent is
            wanted, and with it hatching and marks, which do not add to it.
    """
    view = View(placement)
    section, installation = subject.section, subject.installation
    numbers = {row.key: row.part.number for row in subject.parts}
    margin = notes.right_notes(installation, section, view, numbers)
    room = room_for(section, view, [note.text for note in margin if note.text])
    faces = cut.areas(installation, section, view, room.window)
    heights = section.heights
    found = [
        Layer("colour", "Colour of the materials", tuple(_colours(subject, view, room, faces))),
        Layer("hatching", "Hatching", tuple(cut.hatches(faces, view)) if paper else ()),
        Layer("outline", "Outline", tuple(_outline(subject, view, room))),
        Layer("fittings", "Terminal, horns and studs", tuple(_fittings(subject, view))),
        Layer("axis", "Axis", (fittings.axis_line(view, heights.top, heights.bottom),)),
        *_ways(subject, view, lettered),
    ]
    if lettered:
        found += _lettering(subject, view, room, margin, numbers)
    if paper:
        spots = marks(subject.wanted, installation, section, subject.measures, view, room, paper)
        found.append(Layer("marks", "Places that checks point at", tuple(spots)))
    return found


def _colours(subject: Subject, view: View, room: Room, faces: Sequence[cut.Area]) -> Iterator[Item]:
    yield from cut.tints(list(faces), view)
    section = subject.section
    glaze = GLAZES[subject.installation.bushing.porcelain.glaze]
    metal, earth = LOOKS["live metal"].tint, LOOKS["cover"].tint
    end, under = room.window.cover_end, section.heights.cover_underside
    plate = line(Point(end, under), Point(end, 0.0))
    for curve, colour in (
        (subject.measures.creepage, glaze),
        (section.curve("collar side"), glaze),
        (section.curve("oil side"), glaze),
        (cap_outline(section, subject.palm), metal),
        (section.curve("shield"), metal),
        (ring_outline(section), earth),
        (plate, earth),
        (section.curve("gasket outer"), SOLID),
    ):
        yield Drawn((_to_axis(curve, view),), fill=colour)


def _to_axis(curve: Curve, view: View) -> Path:
    """What lies between an outline and the axis, on the left."""
    path = view.path(curve, mirrored=True)
    foot, head = view.left(0.0, curve.start.z), view.left(0.0, curve.end.z)
    return Path(foot, (To(path.start), *path.steps, To(head)), closed=True)


def _outline(subject: Subject, view: View, room: Room) -> Iterator[Item]:
    section = subject.section
    yield from elevation(section, subject.measures, view, subject.palm)
    yield from cut.outlines(subject.installation, section, view)
    yield from fittings.cover(section, view, room.window)


def _fittings(subject: Subject, view: View) -> Iterator[Item]:
    bushing, section = subject.installation.bushing, subject.section
    yield from fittings.bolts(section, bushing.fixing, view)
    pair = fittings.drawn_horns(subject.installation, section)
    if pair:
        yield from fittings.horns(section, pair, view)
    yield from fittings.rings(section, view)
    if isinstance(bushing.terminal, Palm):
        yield from fittings.palm(section, bushing.terminal, view)


def _ways(subject: Subject, view: View, lettered: bool) -> Iterator[Layer]:
    found = paths.ways(subject.section, subject.measures, view)
    words = paths.labels(found, subject.installation, view, subject.section)
    for way in found:
        said = words[way.layer] if lettered else ()
        yield Layer(way.layer, way.text, (way.drawn(), *said), shown=lettered)


def _lettering(
    subject: Subject,
    view: View,
    room: Room,
    margin: Sequence[notes.Note],
    numbers: dict[str, int],
) -> list[Layer]:
    section, installation = subject.section, subject.installation
    diameters, balloons = notes.placed(margin, section, view, room)
    dimensions = (
        *sizes.heights_on_the_right(installation, section, view, room),
        *sizes.heights_on_the_left(section, view, room),
        *sizes.horn_gap(installation, section, view),
        *sizes.diameters_below_the_cover(section, view),
        *sizes.diameters_at_the_foot(section, view),
        *diameters,
    )
    labels = (*balloons, *notes.left_balloons(installation, section, view, numbers))
    level = tuple(sizes.oil_level(installation, section, view, room))
    return [
        Layer("oil level", "Lowest oil level", level),
        Layer("dimensions", "Dimensions", _lines_first(dimensions)),
        Layer("labels", "Part numbers", labels),
    ]


def _lines_first(items: Sequence[Item]) -> tuple[Item, ...]:
    """Lines together, then arrow heads, then numbers: fewer elements, and no line over a number."""
    lines = [path for item in items if isinstance(item, Drawn) and item.pen for path in item.paths]
    tips = [item for item in items if isinstance(item, Drawn) and not item.pen]
    words = [item for item in items if not isinstance(item, Drawn)]
    return (thin(*lines), *tips, *words)
