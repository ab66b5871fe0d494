"""Rain on the bushing as it is mounted: what stays dry, what water drips across, how fast it wets.

A bushing may turn any side to the rain, so the rain meets the axis at any angle between the
difference and the sum of slant and mounting angle. The side that faces the rain is wetted most;
of all those angles the one that leaves least dry counts. Rain from behind the cover is left out:
cover and tank keep it off.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shedlight.geometry.drips import drip_edges
from shedlight.geometry.measures import Measures
from shedlight.geometry.rain import UPRIGHT, rain_direction, wet_map
from shedlight.geometry.section import Section
from shedlight.geometry.shadow import dry_length, wetted
from shedlight.geometry.spacing import tip_lengths
from shedlight.geometry.wetting import RainDirection, Stretch, WetMap
from shedlight.given.bushing import Installation
from shedlight.physics.air.driving_rain import SlantedRain, slanted_rain, wetting_rate
from shedlight.physics.air.rain import spectrum
from shedlight.physics.air.rain_tables import wet_test
from shedlight.physics.surface.bridging import CLEAR, creepage_left, gap_in_rain
from shedlight.sources import Citation
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import on_outline

ANGLES = 7
SLANTS = 5
LEVEL = math.pi / 2
FACING, UPPER = "the side facing the rain", "its upper side, towards the wind negative"
Array = NDArray[np.float64]


@dataclass(frozen=True)
class RainedOn:
    """One rain on the side that faces it.

    Attributes:
        slant: Of the rain from the vertical [rad].
        off_axis: Between rain and axis, at the side turned worst [rad].
        stretches: Wet and dry stretches along the meridian that faces it.
        dry: Creepage that stays dry there [m].
    """

    slant: float
    off_axis: float
    stretches: tuple[Stretch, ...]
    dry: Number


@dataclass(frozen=True)
class GapInRain:
    """The gap between one shed and the next above it, in rain.

    Attributes:
        lower: Number of the lower shed.
        length: Creepage from tip to tip [m].
        dry: What of it stays dry [m].
        edge: Creepage at which drops leave the upper shed [m]; 0 if they fall clear.
        fall: How far drops fall through it [m]; infinite if they fall clear.
        spanned: Creepage between edge and landing place [m].
        state: What dripping water does to it, as ``shed_gaps.csv`` calls it.
        citation: Where that is taken from.
    """

    lower: int
    length: float
    dry: float
    edge: float
    fall: float
    spanned: float
    state: str
    citation: Citation


@dataclass(frozen=True)
class Rain:
    """What rain does to the air end.

    Attributes:
        stated: The one rain described, or that of the wet test.
        natural: Natural rain of a rate and wind, the steepest slant first; empty if not given.
        gaps: Every gap between neighbouring sheds, the lowest first.
        left_when_bridged: Creepage left where strings of drops close the narrow gaps [m].
    """

    stated: RainedOn
    natural: tuple[RainedOn, ...]
    gaps: tuple[GapInRain, ...]
    left_when_bridged: Number

    @property
    def bridged(self) -> tuple[GapInRain, ...]:
        """The gaps that water may close."""
        return tuple(gap for gap in self.gaps if gap.state not in (CLEAR, "may bridge"))

    @property
    def worst_natural(self) -> RainedOn | None:
        """The slant of the natural rain that leaves least dry; none if no rain was described."""
        return min(self.natural, key=lambda one: float(one.dry), default=None)


def rain_of(
    installation: Installation, section: Section, measures: Measures, creepage: Number
) -> Rain:
    """Everything rain does to the air end.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        creepage: Its creepage [m].
    """
    mounting = installation.transformer.mounting_angle
    stated = rained_on(section, measures, installation.site.rain_angle, mounting)
    slants = natural_slants(installation)
    gaps = _gaps(measures, stated.stretches, mounting)
    return Rain(
        stated=stated,
        natural=tuple(
            rained_on(section, measures, float(slant), mounting)
            for slant in (slants.slants[::-1] if slants else ())
        ),
        gaps=gaps,
        left_when_bridged=_left(creepage, gaps),
    )


def natural_slants(installation: Installation) -> SlantedRain | None:
    """Slants of the natural rain described, each bringing as much water; none if not described.

    Args:
        installation: What was described.
    """
    site = installation.site
    if site.rain_rate is None or site.rain_wind is None:
        return None
    return slanted_rain(spectrum(site.rain_rate), site.rain_wind, SLANTS)


def rained_on(section: Section, measures: Measures, slant: float, mounting: float) -> RainedOn:
    """The side of the bushing that a rain leaves least dry.

    Args:
        section: The section.
        measures: What was measured on it.
        slant: Angle of the rain from the vertical [rad].
        mounting: Angle of the axis from upright [rad].
    """
    low, high = abs(slant - mounting), min(slant + mounting, LEVEL)
    angles = [low] if high - low < 1e-9 else np.linspace(low, high, ANGLES).tolist()
    found = [(wetted(section, measures.creepage, angle), angle) for angle in angles]
    stretches, off_axis = min(found, key=lambda item: dry_length(item[0]))
    how = "rain shadow on the side that faces the rain, turned as is worst"
    if mounting == UPRIGHT:
        how = "rain shadow, windward side"
    dry = on_outline(dry_length(stretches), "Dry creepage", 'L_"dry"', "mm", how)
    return RainedOn(slant, off_axis, stretches, dry)


def _gaps(
    measures: Measures, stretches: Sequence[Stretch], mounting: float
) -> tuple[GapInRain, ...]:
    tips = tip_lengths(measures.creepage, measures.sheds)
    edges = drip_edges(measures.creepage, mounting)
    found = []
    for lower, (low, high) in enumerate(pairwise(tips), start=1):
        dry = math.fsum(
            max(0.0, min(one.end, high) - max(one.start, low)) for one in stretches if not one.wet
        )
        # Water that hangs from the upper shed and meets this very gap again.
        here = [
            edge
            for edge in edges
            if edge.lands_at is not None and low < edge.length <= high and edge.lands_at < high
        ]
        edge = min(here, key=lambda one: one.fall, default=None)
        at, fall, spanned = 0.0, math.inf, 0.0
        if edge is not None:
            at, fall, spanned = edge.length, edge.fall, edge.creepage_spanned
        state, citation = gap_in_rain(fall)
        found.append(GapInRain(lower, high - low, dry, at, fall, spanned, state, citation))
    return tuple(found)


def _left(creepage: Number, gaps: Sequence[GapInRain]) -> Number:
    """Creepage left where strings of drops close the narrow gaps, by groups of like gaps."""
    groups: dict[tuple[float, float], int] = {}
    for gap in gaps:
        if gap.state not in (CLEAR, "may bridge"):
            like = round(gap.spanned, 5), round(gap.fall, 5)
            groups[like] = groups.get(like, 0) + 1
    left = creepage
    for (spanned, fall), count in groups.items():
        left = calculate(creepage_left, left, spanned, fall, float(count))
    return left


@dataclass(frozen=True, eq=False)
class Wetting:
    """How fast rain wets the surface all round, in one direction of the wind.

    Attributes:
        maps: How squarely each slant strikes each place.
        rates: Water on each place; places by meridians [m/s].
        tips: Creepage at which shed tips stand [m].
        counted: From where angles round the body count, in words.
        natural: Whether it is the natural rain described; else the wet test's resultant falls at
            the angle described.
    """

    maps: tuple[WetMap, ...]
    rates: Array
    tips: tuple[float, ...]
    counted: str
    natural: bool

    @property
    def wet(self) -> NDArray[np.bool_]:
        """Places that any of the slants strikes."""
        return np.asarray(self.rates > 0, dtype=np.bool_)


def wetting_of(
    installation: Installation, section: Section, measures: Measures, meridians: int = 72
) -> Wetting:
    """How fast the rain described, or that of the wet test, wets the surface all round.

    The wind blows across the plane in which the bushing leans, so that it meets the body
    broadside. Takes some tenths of a second.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        meridians: How many meridians.
    """
    slants = natural_slants(installation)
    tips = tips_in(measures)
    angles = [installation.site.rain_angle] if slants is None else slants.slants.tolist()
    maps = tuple(
        wet_map(section, measures.creepage, direction, meridians=meridians)
        for direction in (broadside(installation, angle) for angle in angles)
    )
    upright = installation.transformer.mounting_angle == UPRIGHT
    start = maps[0].direction.side if upright else math.pi
    counted = f"angle round the body from {FACING if upright else UPPER}, °"
    factors = np.stack([_turned(found, start) for found in maps], axis=-1)
    if slants is not None and installation.site.rain_rate is not None:
        rates = wetting_rate(installation.site.rain_rate, slants, factors)
        return Wetting(maps, rates, tips, counted, natural=True)
    test = wet_test()
    resultant = math.hypot(test.vertical, test.horizontal or 0.0)
    return Wetting(maps, resultant * factors[..., 0], tips, counted, natural=False)


def broadside(installation: Installation, slant: float) -> RainDirection:
    """Rain of some slant in a wind that blows across the plane in which the bushing leans.

    Args:
        installation: What was described.
        slant: Of the rain from the vertical [rad].
    """
    mounting = installation.transformer.mounting_angle
    side = 0.0 if mounting == UPRIGHT else math.pi / 2
    return rain_direction(slant, side, mounting)


def _turned(found: WetMap, start: float) -> Array:
    """The factors of a map, its meridians counted from another side [rad from the lowest]."""
    turn = start - found.direction.side
    step = 2 * math.pi / len(found.around)
    return np.asarray(np.roll(found.factor, -round(turn / step), axis=1), dtype=np.float64)


def tips_in(measures: Measures) -> tuple[float, ...]:
    """Creepage at which shed tips stand, the lowest first [m]; none without sheds.

    Args:
        measures: What was measured on a section.
    """
    return tuple(tip_lengths(measures.creepage, measures.sheds)) if measures.sheds else ()
