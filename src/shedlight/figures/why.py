"""Why the bushing looks as it does: the section, every main dimension with its reason."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from shedlight.checks.catalogue import questions
from shedlight.figures.drafting import INK, SMALL, dot, heads, thin
from shedlight.figures.lettering import wrapped
from shedlight.figures.scene import Item, Layer, Placement, Scene, Spot, Text, line
from shedlight.figures.section.picture import Subject, layers
from shedlight.figures.section.view import View
from shedlight.figures.spreading import Wish, spread
from shedlight.geometry.section import Section
from shedlight.sizing.bounds import SHAPE, Bound
from shedlight.sizing.comparison import Comparison
from shedlight.sizing.reasons import Reason

WIDTH, HEIGHT = 210.0, 297.0
TOP, BOTTOM = 26.0, 262.0
NOTES, EDGE = 120.0, 206.0
AXIS = 66.0
PITCH = 3.1  # from line to line of a note
APART = 2.4
GREY = "#555555"
DEGREES = "°"
FIXED = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True)
class _Note:
    path: str
    target: Spot
    head: str
    lines: tuple[str, ...]

    @property
    def height(self) -> float:
        return PITCH * (1 + len(self.lines))


def why_picture(
    subject: Subject, reasons: Sequence[Reason], comparison: Comparison | None
) -> Scene:
    """One page: the section on the left, on the right why each dimension is what it is.

    Args:
        subject: What is drawn.
        reasons: Why each main dimension is what it is.
        comparison: Why the air end is longer than the oil end; left out where it is not known.
    """
    heights, radii = subject.section.heights, subject.section.radii
    tall = heights.top - heights.bottom
    widest = max([radii.ring_outer, *(shed.tip_radius for shed in subject.section.sheds)])
    horns = subject.installation.bushing.horns
    reach = 0.0 if horns is None else horns.reach + horns.rod_diameter
    scale = min((BOTTOM - TOP) / tall, 40.0 / widest, (AXIS - 6.0) / max(reach, widest))
    placement = Placement(AXIS, TOP + scale * heights.top, scale)
    view = View(placement)
    drawn = layers(subject, placement, lettered=False)
    notes = _notes(subject.section, view, reasons)
    title = Text(f"Why: {subject.installation.name}", 12.0, 12.0, 3.0, face="bold")
    words = (title, *_explained(), *_answer(comparison))
    said = Layer("words", "Words", words)
    description = "The section with every main dimension labelled by the check that governs it."
    return Scene(
        "why", title.text, description, WIDTH, HEIGHT, (*drawn, *_placed(notes), said), placement
    )


def _explained() -> tuple[Item, ...]:
    text = (
        "Each note: the value, the check that governs it, the value at which that check would "
        "just hold, and what gives way next. Moved one at a time, all else kept."
    )
    lines = wrapped(text, EDGE - 12.0, SMALL, lines=2)
    return tuple(
        Text(said, 12.0, 17.0 + PITCH * n, SMALL, colour=GREY) for n, said in enumerate(lines)
    )


def _answer(comparison: Comparison | None) -> tuple[Item, ...]:
    if comparison is None:
        return ()
    lines = wrapped(comparison.sentence, EDGE - 12.0, SMALL, lines=6)
    head = Text(
        f"Why is the air end {comparison.ratio:.1f} times the oil end?",
        12.0,
        270.0,
        2.2,
        face="bold",
    )
    return (head, *(Text(t, 12.0, 274.5 + 3.4 * n, SMALL) for n, t in enumerate(lines)))


def _notes(section: Section, view: View, reasons: Sequence[Reason]) -> list[_Note]:
    places = _places(section)
    found = []
    for reason in reasons:
        if reason.path in places:
            lines = tuple(
                part
                for said in _sentences(reason)
                for part in wrapped(said.replace(" mm", f"{FIXED}mm"), EDGE - NOTES - 2.0, SMALL)
            )
            target = view.right(*places[reason.path])
            head = f"{reason.name}: {shown(reason.path, reason.value)}"
            found.append(_Note(reason.path, target, head, lines))
    return sorted(found, key=lambda note: note.target.y)


def shown(path: str, value: float) -> str:
    """A dimension as it is written: a count, degrees or millimetres."""
    if path.endswith("count"):
        return f"{value:.0f}"
    if path.endswith("slope"):
        return f"{value * 57.29577951308232:.1f}{DEGREES}"
    text = f"{1e3 * value:.1f}".removesuffix(".0")
    return f"{text} mm"


def _sentences(reason: Reason) -> list[str]:
    first = reason.governing
    if first is None:
        return ["no check limits it within a third and three times of its value"]
    found = [f"{_bound(reason, first)} ({_slack(reason)})"]
    second = reason.next
    if second is not None:
        found.append(f"next: {_bound(reason, second)}")
    elif reason.ceiling is not None:
        found.append(f"other side: {_bound(reason, reason.ceiling)}")
    return found


def _bound(reason: Reason, bound: Bound) -> str:
    name = "Shape that can be drawn" if bound.check == SHAPE else questions()[bound.check].title
    side = "at least" if bound.lower else "at most"
    return f"{name}: {side} {shown(reason.path, bound.value)}"


def _slack(reason: Reason) -> str:
    slack = reason.slack or 0.0
    return f"{shown(reason.path, abs(slack))} {'to spare' if slack >= 0 else 'missing'}"


def _places(section: Section) -> Mapping[str, tuple[float, float]]:
    """Where on the right half each dimension is pointed at [m]."""
    h, r, sheds = section.heights, section.radii, section.sheds
    air = h.cap_base - h.clamp_top
    found = {
        "bushing.conductor.diameter": (r.conductor, h.cap_base - 0.55 * air),
        "bushing.porcelain.bore": (r.bore, h.cap_base - 0.42 * air),
        "bushing.porcelain.wall": (r.top_body, h.cap_base - 0.02 * air),
        "bushing.porcelain.air_length": (r.top_body, h.clamp_top + 0.02 * air),
        "bushing.oil_end.length": (r.oil_end, h.oil_end + 0.25 * (0.0 - h.oil_end)),
        "bushing.oil_end.shield_diameter": (r.shield, (h.oil_end + h.shield_bottom) / 2),
        "bushing.cap.edge_radius": (r.cap, h.cap_top - 0.001),
        "bushing.gasket.compressed_thickness": (r.gasket_outer, h.seat / 2),
        "bushing.terminal.width": (r.terminal, (h.cap_top + h.top) / 2),
        "bushing.terminal.diameter": (r.terminal, (h.cap_top + h.top) / 2),
        "transformer.hole_diameter": (r.hole, h.cover_underside / 2),
    }
    if sheds:
        low, high = sheds[0], sheds[-1]
        middle = sheds[len(sheds) // 2]
        found["bushing.sheds.overhang"] = (high.tip_radius, high.tip_height)
        found["bushing.sheds.count"] = (middle.tip_radius, middle.tip_height)
        found["bushing.sheds.pitch"] = (low.tip_radius, low.tip_height)
        short = [shed for shed in sheds if not shed.long]
        if short:
            found["bushing.sheds.short_overhang"] = (short[0].tip_radius, short[0].tip_height)
    return found


def _placed(notes: Sequence[_Note]) -> Iterator[Layer]:
    """Each note as a layer of its own, so that it can be chosen."""
    wishes = [Wish(note.target.y, PITCH, note.height - PITCH + APART) for note in notes]
    for note, y in zip(notes, spread(wishes, TOP, BOTTOM), strict=True):
        elbow = NOTES - 6.0
        path = line(note.target, Spot(elbow, y - 0.6), Spot(NOTES - 1.0, y - 0.6))
        said = (
            Text(words, NOTES, y + PITCH * (n + 1), SMALL) for n, words in enumerate(note.lines)
        )
        head = Text(note.head, NOTES, y, SMALL + 0.1, face="bold")
        items: tuple[Item, ...] = (thin(path, colour=INK), heads(dot(note.target)), head, *said)
        yield Layer(f"reason {note.path}", note.head, items)
