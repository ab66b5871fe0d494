"""The section filled with its field: strength by material, lines of equal potential."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from shedlight.figures.chart import thinned
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
    Scene,
    Spot,
    Text,
    closed,
    line,
)
from shedlight.figures.section import section_drawing
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.lines import field_lines
from shedlight.physics.field.profiles import profile
from shedlight.physics.field.readings import read_at
from shedlight.physics.field.summary import CLEAR, distance_to_corners

# Light to dark, even steps in grey, told apart by the colour-blind (after the viridis family).
SHADES = ("#fdf5d3", "#f7d98b", "#edb45c", "#dd8a4a", "#c05e4f", "#96375a", "#5f1f57", "#2a0f3a")
DIELECTRICS = ("air", "tank oil", "oil", "clearance", "gasket", "porcelain")
FINE = ("oil", "clearance", "gasket")
STEP, FINE_STEP = 2e-3, 0.5e-3
POTENTIALS = tuple(range(10, 100, 10))
WORST = (("cap", "air"), ("clamps", "air"), ("shield", "tank oil"), ("stem", "oil"))
LEGEND = 30.0


def field_section(
    installation: Installation,
    section: Section,
    measures: Measures,
    solution: Solution,
    voltage: float,
) -> Scene:
    """The right half of the section filled with field strength, with lines of equal potential.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        solution: Its field at one volt.
        voltage: Voltage on the live metal, rms [V].
    """
    plain = section_drawing(installation, section, measures, detail="plain")
    place, wide = plain.placement, plain.width + LEGEND
    window = Window(
        (plain.width - place.axis) / place.scale,
        (place.cover_top - plain.height) / place.scale,
        place.cover_top / place.scale,
    )
    strengths, potentials = _sheets(section, window, solution, voltage)
    levels = _levels(strengths)
    kept = [layer for layer in plain.layers if layer.name not in ("hatching", "colour")]
    layers = (
        Layer("field", "Field strength", tuple(_fills(strengths, levels, place))),
        Layer("equipotentials", "Equipotentials", tuple(_equipotentials(potentials, place))),
        Layer("field lines", "Field lines", tuple(_field_lines(solution, place, plain.height))),
        *kept,
        Layer("legend", "Legend", tuple(_legend(levels, plain.width + 4.0, voltage))),
    )
    return replace(
        plain,
        key=f"{plain.key}-field",
        title=f"Electric field of {installation.name} at {voltage / 1e3:.4g} kV rms to earth",
        description="Field strength by material on the right half of the section, and lines of "
        "equal potential at every tenth of the voltage.",
        width=wide,
        layers=layers,
    )


def _sheets(
    section: Section, window: Window, solution: Solution, voltage: float
) -> tuple[list[Sheet], list[Sheet]]:
    """Strength [kV/mm] and potential [%] of every region in sight."""

    def read(r: Array, z: Array) -> tuple[Array, Array]:
        readings = read_at(solution, r, z)
        return readings.strength * voltage / 1e6, 100 * np.abs(readings.potential)

    strengths, potentials = [], []
    for region in DIELECTRICS:
        border = shapely.intersection(section.polygon(region), window.box)
        found = sheets(border, read, FINE_STEP if region in FINE else STEP)
        if found:
            strengths.append(found[0])
            potentials.append(found[1])
    return strengths, potentials


def _levels(strengths: Sequence[Sheet]) -> tuple[float, ...]:
    """Round levels on a logarithmic scale, three to a decade, the highest below the peak."""
    peak = max(float(np.quantile(found.values, 0.999)) for found in strengths)
    rounds = [m * 10.0**n for n in range(-6, 4) for m in (1, 2, 5)]
    return tuple(level for level in rounds if level < peak)[-(len(SHADES) - 1) :]


def _fills(strengths: Sequence[Sheet], levels: Sequence[float], place: Placement) -> Iterator[Item]:
    """Lowest level first, each painted over the last: no seams between neighbours."""
    whole = [path for found in strengths for path in _paths(found.border, place)]
    yield Drawn(tuple(whole), fill=SHADES[0])
    for level, shade in zip(levels, SHADES[1:], strict=False):
        paths = [path for found in strengths for path in _paths(above(found, level), place)]
        if paths:
            yield Drawn(tuple(paths), fill=shade)


def _equipotentials(potentials: Sequence[Sheet], place: Placement) -> Iterator[Item]:
    paths: list[Path] = []
    for found in potentials:
        for cut in at(found, POTENTIALS):
            for part in shapely.get_parts(shapely.line_merge(cut)):
                if part.geom_type == "LineString":
                    spots = thinned([place.spot(r, z) for r, z in part.coords])
                    paths.append(line(*spots))
    yield Drawn(tuple(paths), Pen(0.12, INK, rounded=False, opacity=0.75))


def _field_lines(solution: Solution, place: Placement, height: float) -> Iterator[Item]:
    """The lines that leave the most stressed place of each metal edge."""
    paths = []
    for edge, region in WORST:
        seen = profile(solution, edge, region)
        clear = distance_to_corners(solution, seen.points) >= CLEAR
        if not clear.any():
            continue
        start = seen.points[clear][np.argmax(seen.strength[clear])]
        for found in field_lines(solution, start, region):
            spots = [place.spot(r, z) for r, z in found.points]
            inside = [spot for spot in spots if 0.0 <= spot.y <= height]
            if len(inside) > 2:
                paths.append(line(*thinned(inside)))
    yield Drawn(tuple(paths), Pen(0.35, "#ffffff", rounded=False))
    yield Drawn(tuple(paths), Pen(0.2, INK, (1.2, 0.6), rounded=False))


def _paths(area: BaseGeometry, place: Placement) -> Iterator[Path]:
    """Outer and inner rings; even-odd filling leaves holes open."""
    for part in shapely.get_parts(area):
        if part.geom_type != "Polygon" or part.area < 1e-9:
            continue
        for ring in (part.exterior, *part.interiors):
            spots = thinned([place.spot(r, z) for r, z in ring.coords[:-1]])
            if len(spots) > 2:
                yield closed(*spots)


def _legend(levels: Sequence[float], left: float, voltage: float) -> Iterator[Item]:
    yield Text("Field, kV/mm rms", left, 8.0, SMALL)
    yield Text(f"at {voltage / 1e3:.4g} kV to earth", left, 11.6, TINY)
    names = [f"above {level:g}" for level in levels]
    names.insert(0, f"up to {levels[0]:g}")
    shades = SHADES[: len(names)]
    for n, (name, shade) in enumerate(zip(reversed(names), reversed(shades), strict=True)):
        top = 14.0 + 5.0 * n
        box = Box(left, top, left + 6.0, top + 4.2)
        yield Drawn((box.path(),), Pen(0.15, INK, rounded=False), shade)
        yield Text(name, left + 7.5, top + 3.0, SMALL)
    below = 14.0 + 5.0 * len(names) + 5.0
    yield Drawn((line(Spot(left, below), Spot(left + 6.0, below)),), Pen(0.12, INK, rounded=False))
    yield Text("equal potential,", left + 7.5, below - 0.6, TINY)
    yield Text("each 10 %", left + 7.5, below + 2.0, TINY)
    lower = below + 7.0
    row = line(Spot(left, lower), Spot(left + 6.0, lower))
    yield Drawn((row,), Pen(0.2, INK, (1.2, 0.6), rounded=False))
    yield Text("field lines of the", left + 7.5, lower - 0.6, TINY)
    yield Text("worst places", left + 7.5, lower + 2.0, TINY)
