"""The oil from conservator to shield: levels and heads, at the mounting angle."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from shedlight.figures.drafting import CAPITAL, EDGE, INK, SMALL, TINY, dot, heads, level_mark, thin
from shedlight.figures.scene import (
    Box,
    Drawn,
    Item,
    Layer,
    Path,
    Pen,
    Placement,
    Scene,
    Spot,
    Text,
    closed,
    line,
)
from shedlight.figures.spreading import Wish, spread
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.workings import Workings

SIZE = (190.0, 160.0)
TOP, BOTTOM = 16.0, 152.0
TANK, VESSEL = (8.0, 44.0), (10.0, 34.0)  # where the conservator's column stands [mm]
BODY = (50.0, 112.0)  # where the bushing may lie
LABELS = 134.0
OIL, METAL, PORCELAIN = "#f3dfa2", "#c3cad1", "#efe3d8"
FILLS = (("porcelain", PORCELAIN), ("oil", OIL), ("clamps", METAL), ("conductor", METAL))
SAFE = Pen(0.35, "#b84f00", (3.0, 1.2), rounded=False)
SERVICE = Pen(0.35, "#0072b2", rounded=False)
ROOM = 1.35  # height of a label over its lettering


@dataclass(frozen=True)
class _Sketch:
    """Where the leaning section lies on paper."""

    tilt: float
    scale: float  # [mm/m]
    x: float  # of the middle of the hole
    y: float

    def spot(self, r: float, z: float) -> Spot:
        """The place of a radius (toward the upper side) and a height along the axis [m]."""
        across = r * math.cos(self.tilt) - z * math.sin(self.tilt)
        up = z * math.cos(self.tilt) + r * math.sin(self.tilt)
        return Spot(self.x + self.scale * across, self.y - self.scale * up)

    def level(self, height: float) -> float:
        """The place of a height above the middle of the hole [m] on paper."""
        return self.y - self.scale * height

    def path(self, points: list[tuple[float, float]]) -> Path:
        """A closed path through radii and heights."""
        return closed(*(self.spot(r, z) for r, z in points))


def oil_levels(installation: Installation, work: Workings) -> Scene:
    """A sketch to scale of the levels of the oil and the heads they give at every height.

    Args:
        installation: What was described.
        work: What was computed.
    """
    sketch = _fitted(installation, work)
    lean = math.degrees(installation.transformer.mounting_angle)
    standing = "upright" if lean == 0 else f"leaning {lean:.3g}° from upright"
    width, height = SIZE
    return Scene(
        "oil-level",
        f"Oil levels and heads of {installation.name}, {standing}",
        "The bushing with its oil to scale, the lowest safe, lowest and highest level as lines, "
        "and the gauge pressure of the oil at five places",
        width,
        height,
        (
            Layer("tank", "Tank", tuple(_tank(work.section, sketch))),
            Layer("section", "Section", tuple(_section(work.section, sketch))),
            Layer("conservator", "Conservator", tuple(_conservator(installation, sketch))),
            Layer("levels", "Levels", tuple(_levels(installation, work, sketch))),
            Layer("heads", "Heads", tuple(_heads(work, sketch))),
            Layer("words", "Words", tuple(_words(installation, work, standing))),
        ),
        Placement(sketch.x, sketch.y, sketch.scale),
    )


def _corners(section: Section) -> list[tuple[float, float]]:
    """The outermost places of the section and the cover beside it [m]."""
    heights, radii = section.heights, section.radii
    wide = _beside(section)
    return [
        *((sign * radii.cap, heights.top) for sign in (-1, 1)),
        *((sign * wide, z) for sign in (-1, 1) for z in (0.0, heights.bottom * 1.05)),
        *((sign * shed.tip_radius, shed.tip_height) for shed in section.sheds for sign in (-1, 1)),
    ]


def _beside(section: Section) -> float:
    """How far cover and tank are drawn from the axis [m]."""
    return 1.3 * section.radii.ring_outer


def _fitted(installation: Installation, work: Workings) -> _Sketch:
    """The largest scale at which section and levels fit."""
    transformer = installation.transformer
    bare = _Sketch(transformer.mounting_angle, 1.0, 0.0, 0.0)
    spots = [bare.spot(r, z) for r, z in _corners(work.section)]
    safe = work.filling.safe_level
    levels = [transformer.lowest_oil_level, transformer.highest_oil_level]
    levels += [] if isinstance(safe, str) else [float(safe)]
    high = max(*(-spot.y for spot in spots), *levels)
    low = min(*(-spot.y for spot in spots), *levels)
    left, right = min(spot.x for spot in spots), max(spot.x for spot in spots)
    scale = min((BOTTOM - TOP) / (high - low), (BODY[1] - BODY[0]) / (right - left))
    spare = (BODY[1] - BODY[0] - scale * (right - left)) / 2
    # Levels need room above for their names.
    return _Sketch(bare.tilt, scale, BODY[0] + spare - scale * left, TOP + scale * high)


def _tank(section: Section, sketch: _Sketch) -> Iterator[Item]:
    heights, radii = section.heights, section.radii
    wide, deep = _beside(section), heights.bottom * 1.05
    under = heights.cover_underside
    inside = [(-wide, under), (wide, under), (wide, deep), (-wide, deep)]
    yield Drawn((sketch.path(inside),), fill=OIL)
    plates = (
        [
            (sign * radii.hole, under),
            (sign * wide, under),
            (sign * wide, 0.0),
            (sign * radii.hole, 0.0),
        ]
        for sign in (-1, 1)
    )
    yield Drawn(tuple(sketch.path(plate) for plate in plates), EDGE, METAL)


def _section(section: Section, sketch: _Sketch) -> Iterator[Item]:
    for region, fill in FILLS:
        ring = list(section.polygon(region, 2e-4).exterior.coords)[:-1]
        paths = tuple(sketch.path([(sign * r, z) for r, z in ring]) for sign in (-1, 1))
        if region == "conductor":
            yield Drawn(paths, None, fill)
            outer = [(r, z) for r, z in ring if r > 1e-9]
            walls = tuple(line(*(sketch.spot(sign * r, z) for r, z in outer)) for sign in (-1, 1))
            yield Drawn(walls, EDGE)
        else:
            yield Drawn(paths, EDGE, fill)


def _conservator(installation: Installation, sketch: _Sketch) -> Iterator[Item]:
    """A column beside the bushing, from under the lowest to over the highest level."""
    transformer = installation.transformer
    if transformer.breathing != "conservator":
        return
    high = sketch.level(transformer.highest_oil_level)
    low = sketch.level(transformer.lowest_oil_level)
    left, right = VESSEL
    over, under = high - 4.0, low + 4.0
    yield Drawn((Box(left, low, right, under).path(),), None, OIL)
    yield Drawn((Box(left, over, right, under).path(),), EDGE)
    middle = (left + right) / 2
    foot = max(under + 4.0, min(sketch.level(0.0), BOTTOM))
    yield thin(
        *(line(Spot(middle + side, under), Spot(middle + side, foot)) for side in (-0.8, 0.8))
    )
    yield Text("to the tank", middle + 2.0, foot - 0.6, TINY)
    yield Text("conservator", left, over - 1.2, TINY)


def _levels(installation: Installation, work: Workings, sketch: _Sketch) -> Iterator[Item]:
    transformer, safe = installation.transformer, work.filling.safe_level
    lines = [
        ("highest", transformer.highest_oil_level, SERVICE),
        ("lowest", transformer.lowest_oil_level, SERVICE),
    ]
    if not isinstance(safe, str):
        lines.append(("lowest safe", float(safe), SAFE))
    lines.sort(key=lambda row: -row[1])
    wishes = [Wish(sketch.level(height) - 0.8, SMALL * ROOM, 0.8) for _, height, _ in lines]
    places = spread(wishes, 4.0, BOTTOM)
    left, right = TANK[1] - 6.0, BODY[1] + 4.0
    for (name, height, pen), place in zip(lines, places, strict=True):
        y = sketch.level(height)
        yield Drawn((line(Spot(VESSEL[0] - 4.0, y), Spot(right, y)),), pen)
        yield Text(f"{name} {1e3 * height:.0f} mm", left, place, SMALL, colour=pen.colour)
        if pen is SERVICE:
            yield from level_mark((VESSEL[0] + VESSEL[1]) / 2 - 7.0, y)


def _heads(work: Workings, sketch: _Sketch) -> Iterator[Item]:
    """Places on the oil's side, with least and greatest pressure beside them."""
    rows = []
    for head in work.filling.heads:
        spot = sketch.spot(head.across, head.along)
        least = "?" if head.least is None else f"{head.least / 1e3:.2f}".replace("-", "−")
        rows.append((spot, head.place, f"{least} to {head.greatest / 1e3:.2f} kPa"))
    # At one height the right-hand place comes first and no note stands higher: no lines cross.
    rows.sort(key=lambda row: (round(row[0].y, 1), -row[0].x))
    wishes = [Wish(spot.y, 2.6, 4.2) for spot, _, _ in rows]
    places = spread(wishes, rows[0][0].y - 2.6, BOTTOM)
    for (spot, name, pressure), y in zip(rows, places, strict=True):
        yield heads(dot(spot))
        yield thin(line(spot, Spot(LABELS - 6.0, y), Spot(LABELS - 1.0, y)))
        yield Text(name, LABELS, y - 0.4, SMALL)
        yield Text(pressure, LABELS, y + 2.8, SMALL, face="bold")


def _words(installation: Installation, work: Workings, standing: str) -> Iterator[Item]:
    yield Text(f"Oil levels and heads, {standing}", 6.0, 6.0, CAPITAL, face="bold")
    yield Text("gauge pressure of the oil,", LABELS, 8.0, TINY)
    yield Text("lowest level upper side to", LABELS, 10.6, TINY)
    yield Text("highest level lower side, coldest oil", LABELS, 13.2, TINY)
    below = "heights above the middle of the hole; drawn to scale, the conservator's width is not"
    yield Text(below, 6.0, SIZE[1] - 2.0, TINY, colour=INK)
    if isinstance(work.filling.safe_level, str):
        yield Text(work.filling.safe_level, 6.0, SIZE[1] - 5.0, TINY)
