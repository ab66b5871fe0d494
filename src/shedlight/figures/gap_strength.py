"""Strength of the air along the bushing: against distance, for every kind of voltage."""

import math

from shedlight.figures.chart import Axis, Chart, Curve, Limit, chart_scene, fitted
from shedlight.figures.panels import stacked
from shedlight.figures.ranges import Range, ranges_scene
from shedlight.figures.scene import Scene
from shedlight.figures.words import WIDTH, words_scene
from shedlight.physics.air.gap_bands import STRESSES, Band, gap_factor, strength_band
from shedlight.physics.air.gaps import lightning_mean, lightning_negative
from shedlight.physics.air.horn_gaps import horn_sparkover_negative
from shedlight.physics.air.tables import gap_factors, minimum_clearances
from shedlight.trace import Number
from shedlight.workings import Workings
from shedlight.workings.air import BUSHING_GAP

KILO = 1e3
ROOT = math.sqrt(2)
POINTS = 100
SHORTEST = 0.02
LEAST_SHOWN = 0.6  # [m]
LAWS_FROM = 1.0

SAID = (
    "Below about 1 m the rod–rod table decides. The straight law in kV per metre is made for long "
    "gaps and makes short ones look weak: harmless for a withstand, wrong where a gap must spark.",
    "Clearance table: the least air distance of a standard for each lightning level; its gaps have "
    "to hold the level in nine cases of ten, so it runs below the mean.",
    "Negative lightning lies at or above positive; positive decides a withstand. Rain hardly moves "
    "lightning; along porcelain it takes up to half of the dry power-frequency strength.",
    "Gap factors multiply the strength of rod against plane under switching surges, of long gaps; "
    "for lightning a quarter of their excess counts. They say little about gaps below 1 m.",
)


def gap_strength_picture(work: Workings) -> Scene:
    """Strength against distance with published clearances, all kinds of voltage, gap factors.

    Args:
        work: What was computed for the bushing.
    """
    parts = [
        _against_distance(work),
        _all_kinds(work),
        _factors(),
        words_scene("words", "What decides", SAID),
    ]
    title = f"Strength of the air over {KILO * work.air.arcing:.0f} mm"
    return stacked("air", title, f"{title}, for every kind of voltage", parts)


def _against_distance(work: Workings) -> Scene:
    arcing = float(work.air.arcing)
    longest = max(LEAST_SHOWN, 1.5 * arcing)
    curves = (*_ours(longest), _published(longest))
    required = float(work.voltages.required_lightning) / KILO
    return chart_scene(
        Chart(
            "distance",
            "Lightning strength against distance, positive, standard atmosphere",
            "Mean, low and high side, the law of long gaps and the published clearance table",
            Axis(
                f"distance in air, mm; tick above: this bushing, {KILO * arcing:.0f} mm",
                0.0,
                KILO * longest,
            ),
            fitted("voltage, kV peak", [y for curve in curves for y in curve.ys]),
            curves,
            (Limit(f"required here, {required:.4g} kV", required),),
            (KILO * arcing,),
            size=(WIDTH, 92.0),
        )
    )


def _ours(longest: float) -> tuple[Curve, ...]:
    """The band that decides, and the law of long gaps beside it."""
    gaps = [SHORTEST + (longest - SHORTEST) * n / POINTS for n in range(POINTS + 1)]
    bands = [strength_band(gap, BUSHING_GAP, "lightning") for gap in gaps]
    factor = gap_factor(BUSHING_GAP).factor
    across = tuple(KILO * gap for gap in gaps)
    straight = tuple(lightning_mean(gap, factor) / KILO for gap in gaps)
    return (
        Curve("mean", across, tuple(band.mean / KILO for band in bands)),
        Curve("low side", across, tuple(band.low / KILO for band in bands)),
        Curve("high side", across, tuple(band.high / KILO for band in bands)),
        Curve("straight law of long gaps", across, straight),
    )


def _published(longest: float) -> Curve:
    rows = [row for row in minimum_clearances() if row.rod_structure <= longest]
    return Curve(
        "clearances, IEC 60071-1 Table A.1",
        tuple(KILO * row.rod_structure for row in rows),
        tuple(row.lightning_impulse / KILO for row in rows),
    )


def _all_kinds(work: Workings) -> Scene:
    air, volts, gap = work.air, work.voltages, float(work.air.arcing)
    by = {stress: strength_band(gap, BUSHING_GAP, stress) for stress in STRESSES}
    rows = (
        _row("lightning, positive", by["lightning"], volts.required_lightning),
        _negative(gap, volts.required_lightning),
        _row("switching, positive", by["switching"], volts.required_switching),
        _row("power frequency, dry, peak", by["power-frequency"], volts.required_dry, ROOT),
        Range(
            "power frequency, rain, peak",
            ROOT * air.wet_low / KILO,
            None,
            ROOT * air.wet_high / KILO,
            ROOT * volts.required_wet / KILO,
        ),
    )
    axis = fitted("kV peak, standard atmosphere", [row.high for row in rows])
    title = "This bushing's way through the air; triangles: asked at this altitude"
    return ranges_scene("kinds", title, "Bands for each kind of voltage", axis, rows)


def _row(name: str, band: Band, asked: Number | None, factor: float = 1.0) -> Range:
    wanted = None if asked is None else factor * asked / KILO
    return Range(name, band.low / KILO, band.mean / KILO, band.high / KILO, wanted)


def _negative(gap: float, asked: Number) -> Range:
    """From the positive mean up to the rule for negative polarity."""
    positive = strength_band(gap, BUSHING_GAP, "lightning").mean
    negative = horn_sparkover_negative(gap, 1.0)
    if gap >= LAWS_FROM:
        negative = lightning_negative(gap, gap_factor(BUSHING_GAP).factor)
    low, high = sorted((positive, negative))
    return Range("lightning, negative", low / KILO, None, high / KILO, asked / KILO)


def _factors() -> Scene:
    rows = [Range(row.configuration, row.low, row.factor, row.high) for row in gap_factors()]
    axis = Axis("gap factor K against rod–plane, switching impulse", 0.9, 1.7)
    title = "Gap factors and their ranges (IEC 60071-2; the bushing's is practice)"
    return ranges_scene("factors", title, "Gap factor of each arrangement", axis, rows)
