"""What is not round or not cut: cover, suggested bolts, palm, rings from outside, horns, axis."""

import math
from collections.abc import Iterator

from shedlight.figures.drafting import CENTRE, EDGE, WIDE, broken_end, thin
from shedlight.figures.scene import (
    Box,
    Drawn,
    Item,
    Path,
    Round,
    Spot,
    To,
    circle,
    line,
)
from shedlight.figures.section.cut import Window
from shedlight.figures.section.materials import LOOKS
from shedlight.figures.section.view import View, widest
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.parts import Clamps, Flange, Horns, Palm

PAPER = "#ffffff"
BOLT_SIZES = (6, 8, 10, 12, 16, 20, 24, 30)  # ISO 261, first choice [mm]
OVERSHOOT = 4.0  # how far the axis runs past the drawing [mm on paper]
SHORTEST_HORN = 1.5  # from arm to tip, in rod diameters
PALM_CORNER = 0.003
CAP_METAL = LOOKS["live metal"].tint


def axis_line(view: View, top: float, bottom: float) -> Item:
    """The chain-dotted axis between two heights [m]."""
    high, low = view.right(0.0, top), view.right(0.0, bottom)
    ends = Spot(high.x, high.y - OVERSHOOT), Spot(low.x, low.y + OVERSHOOT)
    return Drawn((line(*ends),), CENTRE)


def cover(section: Section, view: View, window: Window) -> tuple[Item, ...]:
    """The cover's faces on both sides, ending in break lines."""
    under, end = section.heights.cover_underside, window.cover_end
    faces = [
        line(view.left(end, 0.0), view.left(0.0, 0.0)),
        line(view.left(end, under), view.left(0.0, under)),
        line(view.right(section.radii.gasket_inner, 0.0), view.right(end, 0.0)),
        line(view.right(section.radii.hole, under), view.right(end, under)),
    ]
    top, bottom = view.right(end, 0.0), view.right(end, under)
    breaks = [broken_end(x, top.y, bottom.y) for x in (top.x, view.left(end, 0.0).x)]
    return Drawn(tuple(faces), WIDE), thin(*breaks)


def bolt_size(section: Section, fixing: Clamps | Flange) -> float | None:
    """The thread as given, else one that suits the ring outside the collar [mm].

    None where there is no room for it there.
    """
    room = 1e3 * (section.radii.ring_outer - section.radii.collar)
    if fixing.bolt_diameter:
        size = 1e3 * fixing.bolt_diameter
        return size if 1.2 * size <= room else None
    fitting = [size for size in BOLT_SIZES if 1.6 * size <= room]
    return fitting[-1] if fitting else None


def bolts(section: Section, fixing: Clamps | Flange, view: View) -> Iterator[Item]:
    """A suggested stud through the ring on each side; studs and nuts are never shown cut."""
    size = bolt_size(section, fixing)
    if size is None:
        return
    radii, heights = section.radii, section.heights
    middle = (radii.collar + radii.ring_outer) / 2
    shank, nut = 0.5e-3 * size, min(0.8e-3 * size, 0.6 * fixing.thickness)
    across = min(0.8e-3 * size, 0.8 * (radii.ring_outer - middle))
    for place in (view.left, view.right):
        yield _filled(place(middle - shank, 0.0), place(middle + shank, heights.shoulder))
    cut = view.right
    foot, head = heights.shoulder, heights.clamp_top
    yield _filled(cut(middle - shank, foot), cut(middle + shank, head - nut))
    yield _filled(cut(middle - across, head - nut), cut(middle + across, head))
    yield Drawn(
        tuple(
            line(
                cut(middle + side * 0.8 * shank, 0.0), cut(middle + side * 0.8 * shank, head - nut)
            )
            for side in (-1, 1)
        ),
        EDGE,
    )
    yield Drawn(
        tuple(
            line(Spot(x, view.right(0.0, head).y - 2.0), Spot(x, view.right(0.0, 0.0).y + 1.5))
            for x in (view.left(middle, 0.0).x, view.right(middle, 0.0).x)
        ),
        CENTRE,
    )


def _filled(a: Spot, b: Spot) -> Item:
    box = Box(min(a.x, b.x), min(a.y, b.y), max(a.x, b.x), max(a.y, b.y))
    return Drawn((box.path(),), WIDE, PAPER)


def palm(section: Section, shape: Palm, view: View) -> Iterator[Item]:
    """The palm in front view, with its holes."""
    half = shape.width / 2
    top, bottom = section.heights.top, section.heights.cap_top
    corner = view.size(min(PALM_CORNER, 0.2 * half, 0.2 * shape.height))
    a, b = view.left(half, top), view.right(half, bottom)
    plate = Path(
        Spot(a.x, b.y),
        (
            To(Spot(a.x, a.y + corner)),
            Round(Spot(a.x + corner, a.y), corner, True),
            To(Spot(b.x - corner, a.y)),
            Round(Spot(b.x, a.y + corner), corner, True),
            To(Spot(b.x, b.y)),
        ),
        closed=True,
    )
    yield Drawn((plate,), WIDE, CAP_METAL)
    centres = [view.right(x, bottom + z) for x, z in hole_centres(shape)]
    radius = view.size(shape.hole_diameter / 2)
    yield Drawn(tuple(circle(centre, radius) for centre in centres), WIDE, PAPER)
    reach = radius + 1.2
    crosses = [
        line(*ends)
        for c in centres
        for ends in (
            (Spot(c.x - reach, c.y), Spot(c.x + reach, c.y)),
            (Spot(c.x, c.y - reach), Spot(c.x, c.y + reach)),
        )
    ]
    yield thin(*crosses)


def hole_centres(shape: Palm) -> list[tuple[float, float]]:
    """The holes in a square pattern: across from the axis, up from the palm's foot [m]."""
    columns = max(1, round(math.sqrt(shape.holes)))
    rows = math.ceil(shape.holes / columns)
    found = []
    for index in range(shape.holes):
        row, column = divmod(index, columns)
        in_row = min(columns, shape.holes - row * columns)
        across = (column - (in_row - 1) / 2) * shape.hole_spacing
        up = shape.height / 2 + (row - (rows - 1) / 2) * shape.hole_spacing
        found.append((across, up))
    return found


def rings(section: Section, view: View) -> Iterator[Item]:
    """The shield rings on the left, in thin lines that let see what they go round."""
    for name in section.rings:
        outer, inner = section.curve(name).start, section.curve(name).pieces[0].end
        half = (outer.r - inner.r) / 2
        middle = (outer.r + inner.r) / 2
        high, low = view.left(middle, outer.z + half), view.left(middle, outer.z - half)
        axis = view.axis
        band = Path(
            Spot(axis, high.y),
            (To(high), Round(low, view.size(half), False), To(Spot(axis, low.y))),
        )
        yield thin(band)


def drawn_horns(installation: Installation, section: Section) -> Horns | None:
    """The horns, if there are any and they have room beside the sheds, between cap and clamps."""
    pair = installation.bushing.horns
    if pair is None or pair.reach - pair.rod_diameter / 2 < widest(section):
        return None
    upper, high, low, lower = horn_heights(section, pair.gap)
    bent = upper - high > SHORTEST_HORN * pair.rod_diameter
    return pair if bent and low - lower > SHORTEST_HORN * pair.rod_diameter else None


def horn_heights(section: Section, gap: float) -> tuple[float, float, float, float]:
    """Heights of the upper arm, the upper tip, the lower tip and the lower arm [m]."""
    heights = section.heights
    upper = (heights.cap_base + heights.cap_top) / 2
    lower = heights.shoulder + 0.6 * (heights.clamp_top - heights.shoulder)
    middle = (upper + lower) / 2
    return upper, middle + gap / 2, middle - gap / 2, lower


def horns(section: Section, pair: Horns, view: View) -> Iterator[Item]:
    """Both horns on the left, as round rods bent once; arms suggested, gap and reach as given."""
    upper, high_tip, low_tip, lower = horn_heights(section, pair.gap)
    rod = view.size(pair.rod_diameter)
    for arm, tip, root in (
        (upper, high_tip, section.radii.cap),
        (lower, low_tip, section.radii.ring_outer),
    ):
        start, bend, end = (
            view.left(root, arm),
            view.left(pair.reach, arm),
            view.left(pair.reach, tip),
        )
        yield Drawn((_rod(start, bend, end, rod),), WIDE, CAP_METAL if arm == upper else EARTH)
    for arm, tip in ((upper, high_tip), (lower, low_tip)):
        bend, end = view.left(pair.reach, arm), view.left(pair.reach, tip)
        away = math.copysign(1.0, end.y - bend.y)
        yield Drawn(
            (line(Spot(bend.x, bend.y - away * rod), Spot(end.x, end.y + away * 1.2)),), CENTRE
        )


EARTH = LOOKS["clamps"].tint


def _rod(start: Spot, bend: Spot, end: Spot, rod: float) -> Path:
    """The outline of a rod from its root along an arm, round a bend to its rounded tip."""
    half = rod / 2
    side = math.copysign(1.0, start.x - bend.x)
    down = math.copysign(1.0, end.y - bend.y)
    length, drop = abs(start.x - bend.x), abs(end.y - bend.y)
    inner = min(1.5 * rod, length - half, drop - rod)
    outer = inner + rod
    near, far = bend.x + side * half, bend.x - side * half
    turn = side * down < 0
    tip = end.y - down * half
    return Path(
        Spot(start.x, bend.y + down * half),
        (
            To(Spot(near + side * inner, bend.y + down * half)),
            Round(Spot(near, bend.y + down * (half + inner)), inner, turn),
            To(Spot(near, tip)),
            Round(Spot(far, tip), half, not turn),
            To(Spot(far, bend.y + down * (half + inner))),
            Round(Spot(near + side * inner, bend.y - down * half), outer, not turn),
            To(Spot(start.x, bend.y - down * half)),
        ),
        closed=True,
    )
