"""Thin air: what each standard's rule asks, against height, and what it means for this bushing."""

import math
from collections.abc import Callable

from shedlight.figures.chart import Axis, Chart, Curve, Limit, chart_scene, fitted
from shedlight.figures.panels import stacked
from shedlight.figures.ranges import level, ranges_scene
from shedlight.figures.scene import Scene
from shedlight.figures.words import WIDTH, words_scene
from shedlight.given.bushing import Installation
from shedlight.physics.air.altitude_rules import (
    altitude_factor_by_table,
    altitude_factor_from_sea_level,
    altitude_strengths,
    clearance_altitude_factor,
)
from shedlight.physics.air.atmosphere import (
    COVERED_ALTITUDE,
    SCALE_HEIGHT,
    altitude_factor,
)
from shedlight.workings import Workings
from shedlight.workings.altitude import AltitudeRule, altitude_rules

KILO = 1e3
HIGHEST = 4000.0
POINTS = 80
EXPONENT = 1.0  # lightning and power frequency


def altitude_picture(installation: Installation, work: Workings) -> Scene:
    """Rules against height, the arcing distance each leads to, how not to count twice.

    Args:
        installation: What was described.
        work: What was computed for it.
    """
    rules = altitude_rules(work.number, work.voltages)
    parts = [
        _factors(installation.site.altitude),
        _distances(rules, work),
        words_scene("words", "How not to count twice", _said(rules, work)),
    ]
    title = f"Thin air at {installation.site.altitude:g} m: rules side by side"
    return stacked("altitude", title, title, parts)


def _factors(altitude: float) -> Scene:
    heights = [HIGHEST * n / POINTS for n in range(POINTS + 1)]

    def curve(name: str, rule: Callable[[float], float]) -> Curve:
        return Curve(name, tuple(heights), tuple(rule(height) for height in heights))

    rows = [row for row in altitude_strengths() if row.altitude <= HIGHEST]
    curves = (
        curve("IEC 60137, from 1000 m", lambda height: altitude_factor(EXPONENT, height)),
        Curve(
            "table of IEEE C57.19.100",
            tuple(row.altitude for row in rows),
            tuple(altitude_factor_by_table(row.altitude) for row in rows),
        ),
        curve("IEC 60076-3, on distance", clearance_altitude_factor),
        curve("IEC 60071-2:1996, from sea level", _from_sea_level),
    )
    return chart_scene(
        Chart(
            "factors",
            "Altitude factors of several standards, lightning and power frequency",
            "Factor on the level or the distance against height above sea level",
            Axis(f"height above sea level, m; tick above: this site, {altitude:g} m", 0.0, HIGHEST),
            fitted("factor", [y for c in curves for y in c.ys], from_zero=False),
            curves,
            (),
            (altitude,) if 0 <= altitude <= HIGHEST else (),
            size=(WIDTH, 88.0),
        )
    )


def _from_sea_level(height: float) -> float:
    return altitude_factor_from_sea_level(EXPONENT, height)


def _distances(rules: tuple[AltitudeRule, ...], work: Workings) -> Scene:
    rows = [level(_name(rule), KILO * rule.distance) for rule in rules]
    arcing = KILO * work.air.arcing
    axis = fitted("arcing distance, mm", [*(row.high for row in rows), arcing])
    limits = (Limit(f"this bushing has {arcing:.0f} mm", arcing),)
    title = f"Arcing distance that each rule asks for {work.voltages.lightning / KILO:.0f} kV here"
    return ranges_scene("distances", title, "Distance by each rule", axis, rows, limits)


def _name(rule: AltitudeRule) -> str:
    return f"{rule.standard}{' (decides)' if rule.decides else ''}"


def _said(rules: tuple[AltitudeRule, ...], work: Workings) -> list[str]:
    said = []
    for rule in rules:
        remark = f"; {rule.remark}" if rule.remark else ""
        said.append(
            f"{rule.standard}: {rule.corrects}, factor {rule.factor:.3f}, "
            f"{KILO * rule.distance:.0f} mm{remark}."
        )
    twice = math.exp(COVERED_ALTITUDE / SCALE_HEIGHT)
    return [
        *said,
        "",
        "The rules are rivals: one is used, none is multiplied by another. Standard levels already "
        f"cover 1000 m; counting from sea level on them asks {100 * (twice - 1):.0f} % too much. "
        "Nor is a demand raised and the gap's strength lowered for the same air.",
        "What a gap really holds at the site follows the air density from sea level, here "
        f"{work.voltages.density:.3f}: that is for horns and for tests, not for levels. Only the "
        "air end is corrected; oil and wall know nothing of the height.",
    ]
