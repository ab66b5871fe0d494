"""Horns: which gap would suit, how they, bushing and winding meet lightning, what they mean."""

import math
from collections.abc import Callable

from shedlight.checks.catalogue import ANSWERS, questions
from shedlight.checks.horns import horn_window
from shedlight.figures.chart import Axis, Chart, Curve, Limit, chart_scene, fitted
from shedlight.figures.panels import stacked
from shedlight.figures.ranges import Range, level, ranges_scene
from shedlight.figures.scene import Scene
from shedlight.figures.words import WIDTH, words_scene
from shedlight.given.bushing import Installation
from shedlight.physics.air.gaps import three_sigma_high, three_sigma_low
from shedlight.physics.air.horn_gaps import SLOWEST, steep_wave_sparkover
from shedlight.physics.air.horns import (
    horn_sparkover_high,
    horn_sparkover_low,
    horn_wet_power_frequency_low,
)
from shedlight.physics.air.tables import deviation
from shedlight.physics.air.weather_of_the_day import sparkover_at_site
from shedlight.workings import Workings
from shedlight.workings.horns import HornStrength, HornWindow
from shedlight.workings.numbers import assumption

KILO = 1e3
ROOT = math.sqrt(2)
POINTS = 120
SHORTEST = 0.02  # [m]
SOONEST = 1e-6  # [s] from which the volt–time curves are to fit the frame
ASKED = ("horns.window", "horns.protection", "horns.chopped-wave")


def horns_picture(installation: Installation, work: Workings) -> Scene:
    """Window of gaps, volt–time curves and a ladder of levels, for the horns of a bushing.

    Args:
        installation: What was described.
        work: What was computed for it.
    """
    horns, window = work.air.horns, horn_window(work)
    parts = [_gaps(installation, work, window)]
    if horns is not None:
        parts += [_volt_time(work, horns, window), _ladder(work, horns, window)]
    said = list(dict.fromkeys(note for key in ASKED for note in _notes(key, installation, work)))
    parts.append(words_scene("words", "What it means", said))
    title = "Horns: sparkover, co-ordination and what it means"
    return stacked("horns", title, f"{title}. {said[0]}", parts)


def _notes(key: str, installation: Installation, work: Workings) -> tuple[str, ...]:
    return ANSWERS[key](questions()[key], installation, work).notes


def _gaps(installation: Installation, work: Workings, window: HornWindow) -> Scene:
    horns = installation.bushing.horns
    told = [("narrowest", float(window.narrowest)), ("widest", float(window.widest))]
    if horns is not None:
        told.append(("described", horns.gap))
    longest = 1.25 * max(gap for _, gap in told)
    curves = _against_gap(longest, float(work.voltages.density))
    stay_below, to_stand = window.to_stay_below / KILO, ROOT * window.to_stand / KILO
    limits = (
        Limit("lightning level less its margin", stay_below, left=True),
        Limit("temporary overvoltage with its margin", to_stand, below=True),
    )
    ticks = ", ".join(f"{name} {KILO * gap:.0f} mm" for name, gap in sorted(told, key=_second))
    return chart_scene(
        Chart(
            "gaps",
            "Sparkover of horns in the mean air of the site",
            "Sparkover against the gap, with the level to stay below and the voltage to stand",
            Axis(f"gap, mm; ticks above: {ticks}", 0.0, KILO * longest),
            fitted("voltage, kV peak", [y for curve in curves for y in curve.ys]),
            curves,
            limits,
            tuple(KILO * gap for _, gap in told),
            size=(WIDTH, 82.0),
        )
    )


def _against_gap(longest: float, density: float) -> tuple[Curve, ...]:
    gaps = [SHORTEST + (longest - SHORTEST) * n / POINTS for n in range(POINTS + 1)]

    def curve(name: str, law: Callable[[float, float], float], factor: float = 1.0) -> Curve:
        volts = tuple(factor * law(gap, density) / KILO for gap in gaps)
        return Curve(name, tuple(KILO * gap for gap in gaps), volts)

    return (
        curve("lightning, high side", horn_sparkover_high),
        curve("lightning, low side", horn_sparkover_low),
        curve("in rain, a.c., low side", horn_wet_power_frequency_low, ROOT),
    )


def _second(item: tuple[str, float]) -> float:
    return item[1]


def _volt_time(work: Workings, horns: HornStrength, window: HornWindow) -> Scene:
    times = [0.5e-6 * (SLOWEST / 0.5e-6) ** (n / POINTS) for n in range(POINTS + 1)]
    bushing = sparkover_at_site(work.air.lightning_mean, work.voltages.density)

    def curve(name: str, fifty: float) -> Curve:
        volts = tuple(steep_wave_sparkover(fifty, time) / KILO for time in times)
        return Curve(name, tuple(1e6 * time for time in times), volts)

    full, chopped = (float(v) / KILO for v in (work.voltages.lightning, window.chopped_level))
    curves = (
        curve("horns, high side", horns.high),
        curve("horns, low side", horns.low),
        curve("bushing, mean", bushing),
        Curve("winding, proved", (3.0, 6.0, 6.0, 16.0), (chopped, chopped, full, full)),
    )
    inside = [y for c in curves for x, y in zip(c.xs, c.ys, strict=True) if x >= 1e6 * SOONEST]
    return chart_scene(
        Chart(
            "volt-time",
            "The steeper the wave, the higher it climbs before a gap sparks over",
            "Sparkover of horns and bushing against its time, with the proved levels of a winding",
            Axis("time to sparkover, µs", 0.0, 1e6 * SLOWEST),
            fitted("voltage, kV peak", inside),
            curves,
            size=(WIDTH, 82.0),
        )
    )


def _ladder(work: Workings, horns: HornStrength, window: HornWindow) -> Scene:
    volts, scatter = work.voltages, deviation("lightning").deviation
    bushing = sparkover_at_site(work.air.lightning_mean, volts.density)
    table, mean = float(horns.low), float(horns.mean)
    chopped = float(assumption("chopping time"))
    steep = [steep_wave_sparkover(u, chopped) for u in (table, mean, float(horns.high))]
    rows = (
        level("service, to earth", ROOT * volts.phase),
        level("temporary overvoltage", ROOT * volts.temporary),
        Range("horns, a.c., rain to dry", ROOT * horns.wet_low, None, table),
        _scattered("horns, positive lightning", table, scatter),
        Range("horns, negative lightning", table, None, float(horns.high)),
        Range(f"horns, wave chopped at {1e6 * chopped:g} µs", steep[0], steep[1], steep[2]),
        _scattered("bushing, positive lightning", bushing, scatter),
        level("winding, full wave proved", float(volts.lightning)),
        level("winding, chopped wave if proved", float(window.chopped_level)),
    )
    shown = [Range(r.name, r.low / KILO, _in_kilo(r.mean), r.high / KILO) for r in rows]
    axis = fitted("kV peak, in the mean air of the site", [r.high for r in shown])
    limits = (Limit("level less its margin", float(window.to_stay_below) / KILO),)
    title = "Who gives way first"
    return ranges_scene("ladder", title, "Levels and bands in kV peak", axis, shown, limits)


def _scattered(name: str, mean: float, scatter: float) -> Range:
    return Range(name, three_sigma_low(mean, scatter), mean, three_sigma_high(mean, scatter))


def _in_kilo(value: float | None) -> float | None:
    return None if value is None else value / KILO
