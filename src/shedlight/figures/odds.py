"""Odds as two curves and what they have in common: how often it comes, how likely it then is."""

import numpy as np
from numpy.typing import NDArray

from shedlight.figures.chart import Axis, Chart, Curve, LogAxis, chart_scene, fitted
from shedlight.figures.panels import stacked
from shedlight.figures.scene import Scene
from shedlight.figures.words import WIDTH, words_scene
from shedlight.physics.air.risk import risk_integral, sparkover_curve
from shedlight.physics.surface.odds import event_overlap, flashover_curve
from shedlight.trace import Number
from shedlight.units import shown_in
from shedlight.workings.numbers import assumption
from shedlight.workings.odds import Odds, SurgeOdds

Array = NDArray[np.float64]

KILO = 1e3
SHOWN = 3.5  # standard deviations to either side of both curves
POINTS = 160
ALL_BUT_SURE = 0.99
RAREST_DRAWN = 1e-12  # below it the product is rounding
KEPT = 8  # every so many points of the integral are drawn
ASSUMED = (
    "severity spread",
    "wetting events",
    "lightning spread",
    "lightning surges",
    "switching per unit",
    "switchings",
)
TOO_RARE = "both together: too rare to draw"
WHAT = (
    "First curve: how often an event brings it, its height set to 100 %. Second: how likely at "
    "least one bushing then flashes over. Third: both together, raised to 100 %; what lies under "
    "it, not raised, is the odds of one event.",
    "Spreads and numbers of events are assumed where nothing else is said; they move the odds by "
    "tenfolds. Odds serve to compare cures, not to promise.",
)


def odds_picture(odds: Odds) -> Scene:
    """Pollution, lightning and switching: the two curves and their overlap.

    Args:
        odds: The odds of one installation.
    """
    parts = [
        _dirt(odds),
        _surge("Lightning", odds.lightning, odds.bushings),
        _surge("Switching", odds.switching, odds.bushings),
        words_scene("words", "What the odds rest on", [*_said(odds), "", *WHAT]),
    ]
    title = "Odds of flashover in a year"
    return stacked("odds", title, f"{title}: dirt, lightning and switching", parts)


def _dirt(odds: Odds) -> Scene:
    found, count = odds.dirt, round(odds.bushings)
    median, wide = float(found.median), float(found.log_deviation)
    critical, narrow = float(found.critical), float(found.critical_log_deviation)
    overlap = event_overlap(median, wide, critical, narrow, count)
    low = min(median * np.exp(-SHOWN * wide), critical * np.exp(-SHOWN * narrow))
    high = max(median * np.exp(SHOWN * wide), critical * np.exp(SHOWN * narrow))
    frame = np.exp(np.linspace(np.log(low), np.log(high), POINTS))
    name = "salinity" if odds.unit == "kg/m³" else "salt deposit"
    ends = (shown_in(low, odds.unit), shown_in(high, odds.unit))
    both = _both(overlap.probability)
    curves = (
        _curve("how often the site is so dirty", overlap.severities, overlap.density, odds.unit),
        _probability(frame, flashover_curve(frame, critical, narrow, count), odds.unit, count),
        _curve(both, overlap.severities, overlap.product, odds.unit, *ends),
    )
    title = f"Dirt: {_chance(found.per_event)} an event, {_chance(found.per_year)} a year"
    return _chart("dirt", title, LogAxis(f"{name}, {odds.unit}", *ends), curves)


def _surge(name: str, found: SurgeOdds, bushings: Number) -> Scene:
    count = round(bushings)
    mean, deviation = float(found.mean), float(found.deviation)
    strength, scatter = float(found.strength), float(found.strength_deviation)
    overlap = risk_integral(mean, deviation, strength, scatter, count)
    low = max(0.0, mean - SHOWN * deviation)
    high = max(mean + SHOWN * deviation, strength + SHOWN * scatter)
    frame = np.linspace(low, high, POINTS)
    axis = fitted("overvoltage, kV peak", (low / KILO, high / KILO), from_zero=False)
    both = _both(overlap.risk)
    curves = (
        _curve("how often it comes", overlap.voltages, overlap.density, "kV"),
        _probability(frame, sparkover_curve(frame, strength, scatter, count), "kV", count),
        _curve(both, overlap.voltages, overlap.product, "kV", axis.low, axis.high),
    )
    title = f"{name}: {_chance(found.per_event)} a surge, {_chance(found.per_year)} a year"
    return _chart(name.lower(), title, axis, curves)


def _curve(
    name: str, places: Array, heights: Array, unit: str, low: float = 0.0, high: float = np.inf
) -> Curve:
    """A curve raised to 100 % at its highest place within the frame; nothing where all is zero."""
    across = np.array([shown_in(float(place), unit) for place in places[::KEPT]])
    seen = heights[::KEPT]
    inside = (across >= low) & (across <= high)
    top = float(np.max(seen[inside], initial=0.0))
    if top <= 0 or name == TOO_RARE:
        return Curve(name, (), ())
    return Curve(name, tuple(across[inside].tolist()), tuple((100 * seen[inside] / top).tolist()))


def _both(probability: float) -> str:
    return "both together" if probability > RAREST_DRAWN else TOO_RARE


def _probability(frame: Array, heights: Array, unit: str, count: int) -> Curve:
    who = "the bushing" if count == 1 else f"one of {count} bushings"
    across = tuple(shown_in(float(place), unit) for place in frame)
    return Curve(f"{who} flashes over", across, tuple((100 * heights).tolist()))


def _chart(key: str, title: str, axis: Axis, curves: tuple[Curve, ...]) -> Scene:
    inside = tuple(_cut(curve, axis) for curve in curves)
    told = "How often it comes, how likely flashover then is, and both together"
    return chart_scene(
        Chart(key, title, told, axis, Axis("share, %", 0.0, 100.0), inside, size=(WIDTH, 64.0))
    )


def _cut(curve: Curve, axis: Axis) -> Curve:
    kept = [(x, y) for x, y in zip(curve.xs, curve.ys, strict=True) if axis.low <= x <= axis.high]
    return Curve(curve.name, tuple(x for x, _ in kept), tuple(y for _, y in kept))


def _chance(probability: float) -> str:
    """A probability in words that can be pictured."""
    if probability > ALL_BUT_SURE:
        return f"over {100 * ALL_BUT_SURE:.0f} %"
    if probability >= 0.01:
        return f"{100 * probability:.2g} %"
    if probability > 1e-6:
        return f"1 in {float(f'{1 / probability:.2g}'):,.0f}".replace(",", " ")
    return "less than 1 in a million"


def _said(odds: Odds) -> list[str]:
    dirt, other = odds.dirt, odds.other_dirt
    said = [
        f"Dirt: strength by: {dirt.by[0].lower()}{dirt.by[1:]}. By the other reading "
        f"({other.by[0].lower()}{other.by[1:]}) {_chance(other.per_year)} a year.",
    ]
    for name, found in (("Lightning", odds.lightning), ("Switching", odds.switching)):
        taken = "as described" if found.is_given else "taken"
        said.append(
            f"{name}: 2 % of surges exceed {found.two_percent / KILO:.0f} kV ({taken}); the air "
            f"end sparks over at {found.strength / KILO:.0f} kV in the mean; statistical safety "
            f"factor {found.safety:.2f} (1.15 goes with about 1 in 10 000 in IEC 60071-2)."
        )
    return [*said, f"Assumed: {'; '.join(_assumed(assumption(key)) for key in ASSUMED)}."]


def _assumed(number: Number) -> str:
    label = number.step.label
    unit = "" if label.unit == "1" else f" {label.unit}"
    return f"{label.name[0].lower()}{label.name[1:]} {shown_in(number, label.unit):.3g}{unit}"
