"""The porcelain under its loads: stress at every height, and the section filled with stress."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from shedlight.figures.chart import (
    Axis,
    Chart,
    Curve,
    Limit,
    chart_scene,
    fitted,
    thinned,
)
from shedlight.figures.contours import Array, Sheet, above, sheets
from shedlight.figures.drafting import CAPITAL, INK, SMALL, TINY, dot, heads, thin
from shedlight.figures.field_layers import SHADES
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
from shedlight.figures.section.materials import SOLID
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.physics.strength.section_stress import SectionSolution
from shedlight.workings import Workings
from shedlight.workings.section_stress import SectionStress

LEGEND = 46.0
STEP = 1e-3  # of the grid that is read [m]
BIN = 2e-3  # heights that share a point of the solved curve [m]
UNDER = ("hatching", "colour")  # layers that the stress replaces
PAPER = "#ffffff"


def stress_heights(work: Workings, solved: SectionStress | None = None) -> Scene:
    """Greatest tension at every height of the porcelain, for each combination of loads.

    Args:
        work: What was computed.
        solved: The solved section, to show beside beam theory.
    """
    seat = work.section.heights.seat
    curves = [
        Curve(
            one.name,
            tuple(1e3 * stress.force.height for stress in one.along),
            tuple(stress.highest / 1e6 for stress in one.along),
        )
        for one in work.loads.combinations
        if one is not work.loads.lasting  # lies under that of service
    ]
    if solved is not None:
        curves.insert(1, _solved_curve(solved, seat))
    limits = [Limit("strength with safety in test and service", work.loads.test.allowed / 1e6)]
    values = [value for curve in curves for value in curve.ys]
    tips = tuple(1e3 * (shed.tip_height - seat) for shed in work.section.sheds)
    return chart_scene(
        Chart(
            "stress-height",
            "Greatest tension in the porcelain along its height",
            "Tension along the axis by beam theory for each combination of loads, and the tension "
            "of the solved surface in the bending test where it was asked, against height above "
            "the seat",
            Axis("height above the seat, mm", 0.0, 1e3 * work.loads.body.porcelain_top),
            fitted("tension, MPa", (*values, *(limit.value for limit in limits))),
            tuple(curves),
            tuple(limits),
            tips,
            "ticks above: shed tips" if tips else "",
        )
    )


def _solved_curve(solved: SectionStress, seat: float) -> Curve:
    """The solved surface of the air side: the greatest of every few millimetres of height."""
    skin = next(skin for skin in solved.skins if skin.edge == "air side")
    heights = skin.heights - seat
    seen = np.isfinite(skin.tension)
    row = np.floor(heights[seen] / BIN).astype(int)
    found = np.full(row.max() + 1, -np.inf)
    np.maximum.at(found, np.maximum(row, 0), skin.tension[seen])
    kept = [n for n in range(len(found)) if math.isfinite(found[n])]
    xs = tuple(1e3 * (n + 0.5) * BIN for n in kept)
    return Curve("bending test, solved surface", xs, tuple(float(found[n]) / 1e6 for n in kept))


def stress_section(
    installation: Installation,
    section: Section,
    measures: Measures,
    solution: SectionSolution,
    solved: SectionStress,
) -> Scene:
    """The right half of the porcelain filled with its greatest tension in the bending test.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        solution: The solved section.
        solved: Where it is pulled hardest.
    """
    plain = section_drawing(installation, section, measures, detail="plain")
    place = plain.placement
    body = section.polygon("porcelain", 1e-5)

    def read(r: Array, z: Array) -> tuple[Array, ...]:
        return (solution.at(r, z).greatest / 1e6,)

    (sheet,) = sheets(body, read, STEP)
    levels = _levels(float(solved.peak) / 1e6)
    kept = [_uncoloured(layer) for layer in plain.layers if layer.name not in UNDER]
    return replace(
        plain,
        key=f"{plain.key}-stress-section",
        title=f"Tension in the porcelain of {installation.name} in the bending test",
        description="Greatest principal stress on the pulled side of the porcelain, right half, "
        "solved by finite elements; the cross marks the hardest pulled place of its surface.",
        width=plain.width + LEGEND,
        layers=(
            Layer("stress", "Tension", tuple(_fills(sheet, levels, place))),
            *kept,
            Layer("peak", "Hardest pulled", tuple(_peak(solved, place))),
            Layer("legend", "Legend", tuple(_legend(levels, solved, plain.width + 4.0))),
        ),
    )


def _levels(peak: float) -> tuple[float, ...]:
    """Nothing, then round levels three to a decade, the highest below the peak."""
    rounds = [m * 10.0**n for n in range(-3, 5) for m in (1, 2, 5)]
    return 0.0, *tuple(level for level in rounds if level < peak)[-(len(SHADES) - 2) :]


def _uncoloured(layer: Layer) -> Layer:
    """Metal without tint, so that every colour means a stress."""
    return replace(layer, items=tuple(_plain(layer.items)))


def _plain(items: Sequence[Item]) -> Iterator[Item]:
    for item in items:
        if isinstance(item, Drawn) and item.fill not in (None, SOLID):
            yield replace(item, fill=None)
        else:
            yield item


def _fills(sheet: Sheet, levels: Sequence[float], place: Placement) -> Iterator[Item]:
    """Lowest level first, each painted over the last: no seams between neighbours."""
    yield Drawn(tuple(_paths(sheet.border, place)), fill=SHADES[0])
    for level, shade in zip(levels, SHADES[1:], strict=False):
        paths = tuple(_paths(above(sheet, level), place))
        if paths:
            yield Drawn(paths, fill=shade)


def _paths(area: BaseGeometry, place: Placement) -> Iterator[Path]:
    for part in shapely.get_parts(area):
        if part.geom_type != "Polygon" or part.area < 1e-9:
            continue
        for ring in (part.exterior, *part.interiors):
            spots = thinned([place.spot(r, z) for r, z in ring.coords[:-1]])
            if len(spots) > 2:
                yield closed(*spots)


def _peak(solved: SectionStress, place: Placement) -> Iterator[Item]:
    spot = place.spot(*solved.place)
    out = Spot(spot.x + 16.0, spot.y - 9.0)
    yield heads(dot(spot))
    yield thin(line(spot, out, Spot(out.x + 3.0, out.y)))
    words = f"{solved.peak / 1e6:.3g} MPa"
    yield Drawn((Text(words, out.x + 3.8, out.y + 0.9, SMALL).box.grown(0.5).path(),), fill=PAPER)
    yield Text(words, out.x + 3.8, out.y + 0.9, SMALL, face="bold")


def _legend(levels: Sequence[float], solved: SectionStress, left: float) -> Iterator[Item]:
    yield Text("Tension, MPa", left, 8.0, CAPITAL)
    yield Text("bending test, pulled side", left, 11.8, TINY)
    names = ["pressed", *(f"above {level:g}" for level in levels)]
    shades = SHADES[: len(names)]
    for n, (name, shade) in enumerate(zip(reversed(names), reversed(shades), strict=True)):
        top = 14.4 + 5.0 * n
        box = Box(left, top, left + 6.0, top + 4.2)
        yield Drawn((box.path(),), Pen(0.15, INK, rounded=False), shade)
        yield Text(name, left + 7.5, top + 3.0, SMALL)
    below = 14.4 + 5.0 * len(names) + 5.0
    rounding = (
        f"on a rounding of {1e3 * solved.rounding:.3g} mm, as drawn"
        if math.isfinite(solved.rounding)
        else "on a straight stretch"
    )
    said = (
        f"Peak {solved.peak / 1e6:.3g} MPa at the dot,",
        f"{rounding}:",
        f"{solved.factor:.3g} times beam theory.",
        f"Orders of elements differ by {solved.doubt:.1%}.",
    )
    for n, words in enumerate(said):
        yield Text(words, left, below + 3.0 * n, TINY)
