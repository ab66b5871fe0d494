"""A solved field as layers of a picture: shades of strength, equal potentials, field lines."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from shedlight.figures.chart import round_step, thinned
from shedlight.figures.contours import Array, Sheet, Window, above, at, sheets
from shedlight.figures.drafting import INK, SMALL, TINY
from shedlight.figures.scene import (
    Box,
    Drawn,
    Item,
    Layer,
    Path,
    Pen,
    Placement,
    Spot,
    Text,
    closed,
    line,
)
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import Side
from shedlight.physics.field.lines import field_lines
from shedlight.physics.field.profiles import profiles_of
from shedlight.physics.field.readings import read_at
from shedlight.physics.field.summary import CLEAR, distance_to_corners

Scale = Literal["log", "linear"]

# Light to dark, even steps in grey, told apart by the colour-blind (after the viridis family).
SHADES = ("#fdf5d3", "#f7d98b", "#edb45c", "#dd8a4a", "#c05e4f", "#96375a", "#5f1f57", "#2a0f3a")
NARROW = 0.03  # a region less wide than this is read on the finer grid [m]
STEP, FINE_STEP = 2e-3, 0.5e-3
POTENTIALS = tuple(range(10, 100, 10))
HARDLY = 0.3  # a line that starts with less of the largest strength is not among the worst
LEGEND = 38.0
MARGIN = 8.0  # between picture and legend: room for the names of the equipotentials
_LEVEL = " level"  # ends the name of a free surface of oil
_DASHED = Pen(0.25, INK, (1.2, 0.6), rounded=False)


@dataclass(frozen=True, eq=False)
class FieldSubject:
    """What is painted: a field at one volt, its voltage [V rms], where the picture is cut."""

    solution: Solution
    voltage: float
    window: Window
    scale: Scale = "log"


def field_layers(subject: FieldSubject, place: Placement, width: float) -> tuple[Layer, ...]:
    """The layers of a field, lowest first, with their legend to the right of the picture.

    Args:
        subject: The field.
        place: Where the section lies on paper.
        width: Where the picture ends and the legend may begin [mm].
    """
    strengths, potentials = _sheets(subject)
    levels = _levels(strengths, subject.scale)
    return (
        Layer("field", "Field strength", tuple(_fills(strengths, levels, place))),
        Layer("equipotentials", "Equipotentials", tuple(_equal(potentials, place, width))),
        Layer("field lines", "Field lines", tuple(_field_lines(subject, place))),
        Layer("oil levels", "Oil levels", tuple(_oil_levels(subject, place))),
        Layer("legend", "Legend", tuple(_legend(subject, levels, width + MARGIN))),
    )


def areas_of(solution: Solution) -> Mapping[str, BaseGeometry]:
    """Every region of a solved shape as an area [m], whatever the shape is.

    Args:
        solution: A solved field.
    """
    lines = [
        shapely.LineString(np.round([(p.r, p.z) for p in side.curve.points(2e-5)], 10))
        for side in solution.problem.shape.sides
    ]
    faces = shapely.get_parts(shapely.polygonize([shapely.node(shapely.MultiLineString(lines))]))
    inside = [face.representative_point() for face in faces]
    read = read_at(solution, np.array([p.x for p in inside]), np.array([p.y for p in inside]))
    found: dict[str, list[BaseGeometry]] = {}
    for face, name in zip(faces, read.regions, strict=True):
        if name:
            found.setdefault(name, []).append(face)
    return {name: shapely.union_all(parts) for name, parts in found.items()}


def _sheets(subject: FieldSubject) -> tuple[list[Sheet], list[Sheet]]:
    """Strength [kV/mm] and potential [%] of every region in sight."""

    def read(r: Array, z: Array) -> tuple[Array, Array]:
        readings = read_at(subject.solution, r, z)
        return readings.strength * subject.voltage / 1e6, 100 * np.abs(readings.potential)

    strengths, potentials = [], []
    box = subject.window.box
    for area in areas_of(subject.solution).values():
        shown = shapely.intersection(area, box)
        if shown.is_empty:
            continue
        # Read a little beyond the picture, so that its edge is not the edge of what is known.
        border = shapely.intersection(area, shapely.box(*box.buffer(2 * STEP).bounds))
        wide = shown.bounds[2] - shown.bounds[0]
        found = sheets(border, read, FINE_STEP if wide < NARROW else STEP)
        if found:
            strengths.append(replace(found[0], border=shown))
            potentials.append(replace(found[1], border=shown))
    return strengths, potentials


def _levels(strengths: Sequence[Sheet], scale: Scale) -> tuple[float, ...]:
    """Round levels: three to a decade, or evenly spaced; the highest below the peak."""
    peak = max(float(np.quantile(found.values, 0.999)) for found in strengths)
    if scale == "linear":
        step = round_step(peak / len(SHADES))
        rounds = [step * n for n in range(1, len(SHADES))]
        return tuple(level for level in rounds if level < peak)
    rounds = [m * 10.0**n for n in range(-6, 4) for m in (1, 2, 5)]
    return tuple(level for level in rounds if level < peak)[-(len(SHADES) - 1) :]


def _shades(levels: Sequence[float]) -> tuple[str, ...]:
    """As many shades as there are steps, spread from lightest to darkest."""
    places = np.round(np.linspace(0, len(SHADES) - 1, len(levels) + 1)).astype(int)
    return tuple(SHADES[n] for n in places)


def _fills(strengths: Sequence[Sheet], levels: Sequence[float], place: Placement) -> Iterator[Item]:
    """Lowest level first, each painted over the last: no seams between neighbours."""
    lowest, *shades = _shades(levels)
    whole = [path for found in strengths for path in shapes_of(found.border, place)]
    yield Drawn(tuple(whole), fill=lowest)
    for level, shade in zip(levels, shades, strict=True):
        paths = [path for found in strengths for path in shapes_of(above(found, level), place)]
        if paths:
            yield Drawn(tuple(paths), fill=shade)


def _equal(potentials: Sequence[Sheet], place: Placement, width: float) -> Iterator[Item]:
    """Lines of equal potential, and their names where they leave the picture to the right."""
    paths: list[Path] = []
    ends: list[tuple[float, int]] = []
    for found in potentials:
        for level, cut in zip(POTENTIALS, at(found, POTENTIALS), strict=True):
            for part in shapely.get_parts(shapely.line_merge(cut)):
                if part.geom_type == "LineString" and not part.is_empty:
                    spots = thinned([place.spot(r, z) for r, z in part.coords])
                    paths.append(line(*spots))
                    leaving = (s.y for s in (spots[0], spots[-1]) if s.x > width - 0.5)
                    ends += [(y, level) for y in leaving]
    yield Drawn(tuple(paths), Pen(0.14, INK, rounded=False, opacity=0.8))
    lowest = -np.inf
    for y, level in sorted(ends):
        if y - lowest > 2.6 and y > 2.0:
            yield Text(f"{level} %", width + 0.8, y + TINY / 2, TINY)
            lowest = y


def _field_lines(subject: FieldSubject, place: Placement) -> Iterator[Item]:
    """The lines that leave the most stressed place of every metal edge, through every material."""
    solution = subject.solution
    starts, sizes = [], []
    for (name, _), seen in profiles_of(solution).items():
        side = solution.problem.shape.side(name)
        clear = distance_to_corners(solution, seen.points) >= CLEAR
        if side.electrode is None or not clear.any():
            continue
        best = int(np.argmax(np.where(clear, seen.strength, -np.inf)))
        starts.append(seen.points[best])
        sizes.append(seen.strength[best])
    worst = np.array(starts)[np.array(sizes) > HARDLY * max(sizes)]
    paths = []
    for found in field_lines(solution, worst, None):
        inside = found.points[_in_sight(found.points, subject.window)]
        if len(inside) > 2:
            paths.append(line(*thinned([place.spot(r, z) for r, z in inside])))
    yield Drawn(tuple(paths), Pen(0.5, "#ffffff", rounded=False))
    yield Drawn(tuple(paths), _DASHED)


def _in_sight(points: Array, window: Window) -> slice:
    """The part of a line up to where it first leaves the picture."""
    r, z = points.T
    out = np.flatnonzero((r > window.r_high) | (z < window.z_low) | (z > window.z_high))
    return slice(0, int(out[0]) if len(out) else len(points))


def _oil_levels(subject: FieldSubject, place: Placement) -> Iterator[Item]:
    """Free surfaces of oil: a line with the triangle of a level on it."""
    for side in _free_surfaces(subject):
        low, high = side.curve.start, side.curve.end
        ends = sorted((low.r, min(high.r, subject.window.r_high)))
        left, right = (place.spot(r, low.z) for r in ends)
        yield Drawn((line(left, right),), Pen(0.45, INK, rounded=False))
        yield Drawn((_triangle(Spot((left.x + right.x) / 2, left.y)),), Pen(0.2, INK), "#ffffff")


def _free_surfaces(subject: FieldSubject) -> list[Side]:
    return [side for side in subject.solution.problem.shape.sides if side.name.endswith(_LEVEL)]


def _triangle(foot: Spot) -> Path:
    return closed(foot, Spot(foot.x - 1.1, foot.y - 1.9), Spot(foot.x + 1.1, foot.y - 1.9))


def shapes_of(area: BaseGeometry, place: Placement) -> Iterator[Path]:
    """Outer and inner rings as paths on paper; even-odd filling leaves holes open.

    Args:
        area: What is to be filled [m].
        place: Where the section lies on paper.
    """
    for part in shapely.get_parts(area):
        if part.geom_type != "Polygon" or part.area < 1e-9:
            continue
        for ring in (part.exterior, *part.interiors):
            spots = thinned([place.spot(r, z) for r, z in ring.coords])
            if len(spots) > 3:
                yield closed(*spots[:-1])


def _legend(subject: FieldSubject, levels: Sequence[float], left: float) -> Iterator[Item]:
    yield Text("Field, kV/mm rms", left, 8.0, SMALL)
    yield Text(f"at {subject.voltage / 1e3:.4g} kV to earth,", left, 11.6, TINY)
    steps = "logarithmic steps" if subject.scale == "log" else "even steps"
    yield Text(steps, left, 14.2, TINY)
    names = [f"up to {levels[0]:g}", *(f"above {level:g}" for level in levels)]
    for n, (name, shade) in enumerate(zip(names[::-1], _shades(levels)[::-1], strict=True)):
        top = 16.5 + 5.0 * n
        box = Box(left, top, left + 6.0, top + 4.2)
        yield Drawn((box.path(),), Pen(0.15, INK, rounded=False), shade)
        yield Text(name, left + 7.5, top + 3.0, SMALL)
    row = 16.5 + 5.0 * len(names) + 5.0
    yield Drawn((line(Spot(left, row), Spot(left + 6.0, row)),), Pen(0.14, INK, rounded=False))
    yield Text("equal potential,", left + 7.5, row - 0.6, TINY)
    yield Text("each 10 %", left + 7.5, row + 2.0, TINY)
    row += 7.0
    yield Drawn((line(Spot(left, row), Spot(left + 6.0, row)),), _DASHED)
    yield Text("field lines of the", left + 7.5, row - 0.6, TINY)
    yield Text("worst places", left + 7.5, row + 2.0, TINY)
    if _free_surfaces(subject):
        yield Drawn((_triangle(Spot(left + 3.0, row + 7.6)),), Pen(0.2, INK), "#ffffff")
        yield Text("oil level", left + 7.5, row + 7.4, TINY)
