"""Rain on the air end: what it wets and spares, at every angle, and all round."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np
import shapely

from shedlight.figures.air_end import LEGEND, WIDTH, AirEnd, air_end, sample
from shedlight.figures.chart import Axis, Chart, Curve, chart_scene, fitted
from shedlight.figures.drafting import INK, SMALL, heads
from shedlight.figures.panels import stacked
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
    circle,
    line,
)
from shedlight.figures.words import words_scene, wrapped
from shedlight.geometry.measures import Measures
from shedlight.geometry.rain import UPRIGHT, wet_map
from shedlight.geometry.section import Section
from shedlight.geometry.shadow import dry_length, wetted
from shedlight.geometry.wetting import RainDirection
from shedlight.given.bushing import Installation
from shedlight.units import shown_in
from shedlight.workings.rain import Rain, Wetting

WET = Pen(1.3, "#0072b2", rounded=False)
DRY = Pen(0.9, "#b84f00", (1.6, 0.9), rounded=False)
DROPS = Pen(0.18, "#4a86b0", (2.0, 1.3), rounded=False)
FALLING = Pen(0.3, INK, (0.4, 0.8))
APART = 5.0  # between the rain's lines on paper [mm]
# Light to dark in even steps of grey; blues, the dry left white.
WATER = ("#d6e6f2", "#a6c8e1", "#6ba3cc", "#3879b0", "#174a80")
DRY_FILL = "#ffffff"
_LEFT = 4.0


def rain_section(
    installation: Installation, section: Section, measures: Measures, rain: Rain
) -> Scene:
    """The air end in rain: the side that faces it on the right, wet and dry stretches told apart.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        rain: What rain does to it.
    """
    ground = air_end(installation, section)
    mounting = installation.transformer.mounting_angle
    layers = (
        Layer("rain", "Rain", tuple(_drops(ground, rain.stated.off_axis))),
        Layer("air end", "Air end", ground.items),
        Layer("wetting", "Wet and dry", tuple(_wetting(ground, measures, rain))),
        Layer("drips", "Drips", tuple(_drips(ground, measures, rain, mounting))),
        Layer("legend", "Legend", tuple(_legend(ground, measures, rain, mounting))),
    )
    return Scene(
        "rain",
        f"Rain on {installation.name}",
        f"Rain at {_degrees(rain.stated.slant)} from the vertical leaves "
        f"{_millimetres(rain.stated.dry)} of {_millimetres(measures.creepage_length)} dry.",
        WIDTH,
        ground.height,
        layers,
        ground.view.placement,
    )


def _drops(ground: AirEnd, off_axis: float) -> Iterator[Item]:
    """Lines of falling water from the upper right, each to where it first strikes."""
    view = ground.view
    step = view.metres(APART)
    low_r, high_r = (view.metres(x - view.axis) for x in (ground.left, ground.right))
    high_z = view.metres(ground.floor - ground.top)
    frame = shapely.box(low_r, 0.0, high_r, high_z)
    shapely.prepare(ground.body)
    falling = np.array([-math.sin(off_axis), -math.cos(off_axis)])
    across = np.array([-falling[1], falling[0]])
    far = math.hypot(high_r - low_r, high_z)
    paths = []
    for number in range(-int(far / step) - 1, int(far / step) + 2):
        middle = across * number * step + np.array([0.0, high_z / 2])
        whole = shapely.LineString([middle - falling * far, middle + falling * far])
        inside = shapely.intersection(whole, frame)
        if inside.is_empty or inside.geom_type != "LineString":
            continue
        start, end = inside.coords[0], inside.coords[-1]
        met = shapely.intersection(shapely.LineString([start, end]), ground.body)
        if not met.is_empty:
            points = shapely.get_coordinates(met)
            end = min(points.tolist(), key=lambda p: math.dist(p, start))
        if math.dist(start, end) > step / 2:
            paths.append(line(*(view.right(r, z) for r, z in (start, end))))
    yield Drawn(tuple(paths), DROPS)


def _wetting(ground: AirEnd, measures: Measures, rain: Rain) -> Iterator[Item]:
    for wet, pen in ((False, DRY), (True, WET)):
        paths = [
            ground.view.path(measures.creepage.between(one.start, one.end))
            for one in rain.stated.stretches
            if one.wet == wet
        ]
        if paths:
            yield Drawn(tuple(paths), pen)


def _drips(ground: AirEnd, measures: Measures, rain: Rain, mounting: float) -> Iterator[Item]:
    """Where water hangs and how far it falls; only upright, where it hangs on the side drawn."""
    if mounting > UPRIGHT:
        return
    paths, dots = [], []
    for gap in rain.gaps:
        if math.isinf(gap.fall):
            continue
        # Drops leave the upper shed and land on the lower one.
        edge = measures.creepage.at(gap.edge)
        start, end = ground.view.right(edge.r, edge.z), ground.view.right(edge.r, edge.z - gap.fall)
        paths.append(line(start, end))
        dots += [circle(start, 0.5), circle(end, 0.5)]
    if paths:
        yield Drawn(tuple(paths), FALLING)
        yield heads(*dots)


def _legend(ground: AirEnd, measures: Measures, rain: Rain, mounting: float) -> Iterator[Item]:
    left, y = ground.right + 4.0, ground.top + 2.0
    stated, whole = rain.stated, measures.creepage_length
    yield Text("Rain on the air end", _LEFT, 6.0, 2.4, face="bold")
    yield from sample(left, y, DROPS, f"rain at {_degrees(stated.slant)} from the vertical")
    wet = whole - float(stated.dry)
    share = float(stated.dry) / whole
    yield from sample(left, y + 5.0, WET, f"wet: {_millimetres(wet)} ({1 - share:.0%})")
    yield from sample(left, y + 10.0, DRY, f"dry: {_millimetres(stated.dry)} ({share:.0%})")
    y += 17.0
    if mounting > UPRIGHT:
        said = [
            f"Mounted {_degrees(mounting)} from upright, drawn along its axis.",
            f"The side rain strikes most, turned as is worst: rain {_degrees(stated.off_axis)} off "
            "the axis.",
        ]
    else:
        said = ["Right: the side the rain comes from. The other side stays dry."]
        yield from sample(left, y - 2.0, FALLING, "drops from shed to shed")
        y += 5.0
    for gap in rain.gaps:
        falls = f"drops fall {_millimetres(gap.fall)}: {gap.state}"
        if math.isinf(gap.fall):
            falls = "drops fall clear of it"
        said.append(
            f"Gap {gap.lower}–{gap.lower + 1}: {1e3 * gap.dry:.0f} of {1e3 * gap.length:.0f} mm "
            f"dry; {falls}."
        )
    said.append("Counts in rain only: fog wets everything, and what stays dry stays dirty.")
    said.append("Splash and run-off left out.")
    for text in said:
        for row in wrapped(text, LEGEND - 8.0):
            yield Text(row, left, y, SMALL)
            y += 3.6
        y += 1.0


def share_against_angle(
    section: Section, measures: Measures, rain: Rain, *, angles: int = 46
) -> Scene:
    """How much of the creepage, and of the whole surface, rain wets at every angle to the axis.

    Takes some tenths of a second.

    Args:
        section: The section.
        measures: What was measured on it.
        rain: What rain does to it.
        angles: At how many angles the whole surface is looked at.
    """
    curves = (_facing(section, measures), _all_round(section, measures, angles))
    here = math.degrees(rain.stated.off_axis)
    return chart_scene(
        Chart(
            "rain-angle",
            "Wet share against the angle of the rain",
            f"Share of creepage and surface that rain wets, from along the axis to square to it; "
            f"here {here:.0f}°",
            Axis("angle between rain and axis, °", 0.0, 90.0),
            fitted("wet share, %", (0.0, 100.0)),
            curves,
            (),
            (here,),
            "tick: the rain described",
        )
    )


def _facing(section: Section, measures: Measures) -> Curve:
    """Wet share of the creepage on the side that faces the rain [%]."""
    whole, angles = measures.creepage_length, np.linspace(0.0, math.pi / 2, 91)
    shares = [
        100 * (1 - dry_length(wetted(section, measures.creepage, float(angle))) / whole)
        for angle in angles
    ]
    return Curve("creepage facing the rain", _of(np.degrees(angles)), _of(shares))


def _all_round(section: Section, measures: Measures, count: int) -> Curve:
    """Wet share of the whole surface [%]."""
    angles = np.linspace(0.0, math.pi / 2, count)
    maps = (
        wet_map(
            section, measures.creepage, RainDirection(float(angle), 0.0), meridians=180, step=2e-3
        )
        for angle in angles
    )
    shares = [100 * found.wet_share for found in maps]
    return Curve("whole surface, all round", _of(np.degrees(angles)), _of(shares))


def _of(values: Sequence[float] | np.ndarray) -> tuple[float, ...]:
    return tuple(float(value) for value in values)


def wetting_picture(installation: Installation, measures: Measures, wetting: Wetting) -> Scene:
    """The unrolled surface: how fast rain wets every place, by angle round and by creepage.

    Args:
        installation: What was described.
        measures: What was measured on its section.
        wetting: How fast it is wetted.
    """
    plate = _Plate(measures, wetting)
    chart = Scene(
        "wetting",
        "How fast rain wets the unrolled surface",
        "Water per time on each place, by angle round the body and by creepage length.",
        WIDTH,
        plate.frame.bottom + 12.0,
        (
            Layer("water", "Water", tuple(plate.fills())),
            Layer("tips", "Shed tips", tuple(plate.tips())),
            Layer("axes", "Axes", tuple(plate.axes())),
            Layer("legend", "Legend", tuple(plate.legend())),
        ),
        Placement(0.0, 0.0, 1.0),
    )
    said = words_scene("words", "What is drawn", plate.said(installation))
    return stacked("wetting", chart.title, chart.description, (chart, said))


class _Plate:
    """Where things stand on the unrolled surface."""

    def __init__(self, measures: Measures, wetting: Wetting) -> None:
        self.measures, self.wetting = measures, wetting
        self.frame = Box(18.0, 14.0, WIDTH - 44.0, 124.0)
        self.whole = measures.creepage_length
        first = wetting.maps[0]
        self.around = np.degrees(first.around)
        self.lengths = first.lengths
        self.rates = wetting.rates * 3.6e6  # [mm/h]
        top = float(np.max(self.rates))
        self.levels = [top * share / len(WATER) for share in range(len(WATER))]

    def at(self, angle: float, length: float) -> Spot:
        frame = self.frame
        return Spot(
            frame.left + (angle + 180) / 360 * frame.width,
            frame.bottom - length / self.whole * frame.height,
        )

    def fills(self) -> Iterator[Item]:
        """Bands of water, the least first, each a run of one meridian's places."""
        half = 180.0 / len(self.around)
        edges = np.concatenate([[0.0], (self.lengths[1:] + self.lengths[:-1]) / 2, [self.whole]])
        band = np.where(self.rates > 0, np.digitize(self.rates, self.levels[1:]), -1)
        for number, colour in enumerate(WATER):
            paths: list[Path] = []
            for column, angle in enumerate(self.around):
                here = band[:, column] == number
                turns = np.flatnonzero(
                    np.diff(np.concatenate([[False], here, [False]]).astype(int))
                )
                for low, high in turns.reshape(-1, 2):
                    a = self.at(angle - half, float(edges[low]))
                    b = self.at(angle + half, float(edges[high]))
                    paths.append(Box(a.x, b.y, b.x, a.y).path())
            if paths:
                yield Drawn(tuple(paths), Pen(0.05, colour, rounded=False), colour)

    def tips(self) -> Iterator[Item]:
        found = []
        for length in self.wetting.tips:
            found.append(line(self.at(-180, length), self.at(180, length)))
        if found:
            yield Drawn(tuple(found), Pen(0.18, INK, (1.2, 0.8), rounded=False))

    def axes(self) -> Iterator[Item]:
        frame = self.frame
        yield Drawn((frame.path(),), Pen(0.3, INK, rounded=False))
        ticks = []
        for angle in range(-180, 181, 45):
            spot = self.at(angle, 0.0)
            ticks.append(line(spot, Spot(spot.x, spot.y + 1.2)))
            yield Text(f"{angle}".replace("-", "−"), spot.x, spot.y + 4.4, SMALL, "middle")
        axis = fitted("", (0.0, 1e3 * self.whole))
        for value in axis.ticks():
            if value <= 1e3 * self.whole:
                spot = self.at(-180, value / 1e3)
                ticks.append(line(spot, Spot(spot.x - 1.2, spot.y)))
                yield Text(f"{value:g}", spot.x - 2.0, spot.y + 0.9, SMALL, "end")
        yield Drawn(tuple(ticks), Pen(0.18, INK, rounded=False))
        middle = (frame.left + frame.right) / 2
        under = frame.bottom + 9.0
        yield Text(self.wetting.counted, middle, under, SMALL, "middle")
        up = (frame.top + frame.bottom) / 2
        yield Text("creepage length from the clamps, mm", 4.0, up, SMALL, "middle", turned=True)
        yield Text("How fast rain wets the unrolled surface", frame.left, 6.0, 2.4, face="bold")

    def legend(self) -> Iterator[Item]:
        left, y = self.frame.right + 4.0, self.frame.top
        yield Text("Water, mm/h", left, y, SMALL)
        bounds = [*self.levels, float(np.max(self.rates))]
        rows = [
            (f"{a:.3g} to {b:.3g}", colour)
            for (a, b), colour in zip(pairwise(bounds), WATER, strict=True)
        ]
        for text, colour in (*reversed(rows), ("none: dry", DRY_FILL)):
            y += 5.2
            box = Box(left, y - 3.0, left + 6.0, y + 1.2)
            yield Drawn((box.path(),), Pen(0.15, INK, rounded=False), colour)
            yield Text(text, left + 7.5, y, SMALL)
        y += 7.0
        if self.wetting.tips:
            yield from sample(left, y, Pen(0.18, INK, (1.2, 0.8), rounded=False), "shed tips")

    def said(self, installation: Installation) -> list[str]:
        first = self.wetting.maps[0]
        share = float(np.sum((self.wetting.rates > 0) * (first.sizes * first.radii)[:, None]))
        share /= float(np.sum(first.sizes * first.radii)) * len(first.around)
        mounting = installation.transformer.mounting_angle
        site = installation.site
        if self.wetting.natural and site.rain_rate is not None and site.rain_wind is not None:
            slants = [math.degrees(found.direction.off_axis) for found in self.wetting.maps]
            rain = (
                f"Natural rain of {shown_in(site.rain_rate, 'mm/h'):.3g} mm/h in wind of "
                f"{site.rain_wind:.3g} m/s: drops after Marshall and Palmer, fall speeds after "
                f"Gunn and Kinzer; five parts of equal water strike {_span(slants)} off the axis."
            )
        else:
            rain = (
                f"The wet test's water (IEC 60060-1: 1.5 mm/min down and across) falling at "
                f"{_degrees(site.rain_angle)} from the vertical."
            )
        stands = "upright" if mounting == UPRIGHT else f"mounted {_degrees(mounting)} from upright"
        return [
            f"{rain} The bushing is {stands}; the wind blows broadside.",
            f"Rain strikes {share:.0%} of the surface. White stays dry in rain: it keeps its dirt, "
            "and fog wets it too. Splash, run-off, drips, horns, rings and leads are left out.",
        ]


def _degrees(angle: float) -> str:
    return f"{math.degrees(angle):.0f}°"


def _millimetres(length: float) -> str:
    return f"{1e3 * length:.0f} mm"


def _span(angles: Sequence[float]) -> str:
    low, high = round(min(angles)), round(max(angles))
    return f"{low}°" if low == high else f"{low}° to {high}°"
