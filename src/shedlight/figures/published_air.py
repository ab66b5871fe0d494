"""Published curves of air gaps, steep waves, thin air and risk, drawn beside ours."""

from collections.abc import Callable, Mapping, Sequence

import numpy as np

from shedlight.figures.chart import Chart, Curve, chart_scene, fitted
from shedlight.figures.panels import stacked
from shedlight.figures.scene import Scene
from shedlight.figures.words import words_scene
from shedlight.physics.air.altitude_rules import altitude_strengths
from shedlight.physics.air.atmosphere import altitude_factor
from shedlight.physics.air.gaps import rod_gap_mean, ten_percent
from shedlight.physics.air.horns import volt_time
from shedlight.physics.air.tables import deviation, minimum_clearances

POINTS = 120
KILO = 1e3
SHORTEST, LONGEST = 0.12, 0.9  # [m]; shorter clearances are rounded up to 60 and 90 mm
EPRI = ((2.0, 6.0), (822.0, 585.0))  # µs and kV/m as the reference rows quote them


def _line(name: str, xs: Sequence[float] | np.ndarray, law: Callable[[float], float]) -> Curve:
    places = tuple(float(x) for x in xs)
    return Curve(name, places, tuple(float(law(x)) for x in places))


def _picture(
    key: str, title: str, axes: tuple[str, str], curves: Sequence[Curve], said: str
) -> Scene:
    across = [x for curve in curves for x in curve.xs]
    up = [y for curve in curves for y in curve.ys]
    told = "; ".join(curve.name for curve in curves)
    chart = Chart(key, title, told, fitted(axes[0], across), fitted(axes[1], up), tuple(curves))
    return stacked(key, title, told, (chart_scene(chart), words_scene("words", "Sources", (said,))))


def clearance_picture() -> Scene:
    """Lightning withstand of short gaps against the clearance table."""
    rows = [row for row in minimum_clearances() if SHORTEST <= row.rod_structure <= LONGEST]
    scatter = deviation("lightning").deviation
    printed = (
        tuple(KILO * row.rod_structure for row in rows),
        tuple(row.lightning_impulse / KILO for row in rows),
    )
    ours = _line(
        "rod–rod table, held in nine of ten",
        np.linspace(KILO * SHORTEST, KILO * LONGEST, POINTS),
        lambda gap: ten_percent(rod_gap_mean(gap / KILO), scatter) / KILO,
    )
    return _picture(
        "air-clearance",
        "Lightning strength of short gaps",
        ("distance, mm", "lightning impulse, kV peak"),
        (Curve("clearances, IEC 60071-1 A.1", *printed, dots=True), ours),
        "Dots: least clearances rod to structure, held from memory. Line: IEEE Std 4 rod-gap table "
        "less 1.28 standard deviations; independent of the dots.",
    )


def volt_time_picture() -> Scene:
    """Volt–time curve of line insulation against handbook figures."""
    ours = _line(
        "400 + 710/t^0.75",
        np.linspace(0.5, 16, POINTS),
        lambda time: volt_time(1.0, time * 1e-6) / KILO,
    )
    return _picture(
        "air-volt-time",
        "Voltage that gaps reach before they spark over",
        ("time to sparkover, µs", "kV peak per metre"),
        (Curve("EPRI reference book", *EPRI, dots=True), ours),
        "Dots: Anderson, Transmission Line Reference Book, from memory. Line: Darveniza, "
        "Popolansky, Whitehead, Electra 41 (1975).",
    )


def altitude_picture() -> Scene:
    """Altitude factor against the table of another standard."""
    rows = altitude_strengths()
    printed = tuple(row.altitude for row in rows), tuple(1 / row.factor for row in rows)
    ours = _line(
        "IEC 60137", np.linspace(0, 4500, POINTS), lambda height: altitude_factor(1.0, height)
    )
    return _picture(
        "air-altitude",
        "What thin air asks of a level",
        ("height above sea level, m", "factor on the level"),
        (Curve("IEEE C57.12.00 table", *printed, dots=True), ours),
        "Dots: reciprocal of the dielectric strength printed for each height, from memory. Line: "
        "exp((H − 1000 m)/8150 m).",
    )


PUBLISHED_AIR: Mapping[str, Callable[[], Scene]] = {
    "air-clearance": clearance_picture,
    "air-volt-time": volt_time_picture,
    "air-altitude": altitude_picture,
}
"""Curves of the air end, by the name their file gets."""
