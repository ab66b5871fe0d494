"""Published curves drawn beside ours: dots are published figures, lines what this code computes.

Each picture stands for one topic and names its source; the reference rows hold single figures of
the same topics to their tolerances, the pictures show the run of the curves.
"""

import math
from collections.abc import Callable, Mapping, Sequence

import numpy as np

from shedlight import tables
from shedlight.figures.chart import Chart, Curve, chart_scene, fitted
from shedlight.figures.panels import stacked
from shedlight.figures.published_air import PUBLISHED_AIR
from shedlight.figures.published_weather import PUBLISHED_WEATHER
from shedlight.figures.scene import Scene
from shedlight.figures.words import words_scene
from shedlight.physics.air.driving_rain import slant_quantile, upright_face, upright_face_lacy
from shedlight.physics.air.rain import (
    MM_PER_HOUR,
    Spectrum,
    fall_speed_fit,
    median_marshall_palmer,
    slant,
    spectrum,
)
from shedlight.physics.air.rain_tables import fall_speeds
from shedlight.physics.surface.arc_way import arc_flashover
from shedlight.physics.surface.constants import arc_constants_of, reignitions
from shedlight.physics.surface.deposit import equivalences
from shedlight.physics.surface.discs import cap_and_pin_voltage
from shedlight.physics.surface.flashover import reignition_creepage, rizk_gradient
from shedlight.physics.surface.layer import (
    highest_leakage_current,
    layer_conductivity_field_rule,
    layer_conductivity_wetted_rule,
)
from shedlight.physics.surface.layer_rules import (
    layer_conductivity_equal_deposit,
    layer_conductivity_equal_salinity,
)
from shedlight.physics.surface.severity import pollution_classes
from shedlight.physics.surface.solution import (
    saline_waters,
    salinity_at,
    salinity_from_conductivity,
    temperature_coefficient,
)

POINTS = 120
CELLS = 200
MICRO = 1e6
DISC = (0.330, 0.268, 0.79)  # creepage [m], diameter [m], form factor [1]


def _published(curve: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """One published curve of the table, as printed."""
    rows = [row for row in tables.read("figures/published") if row["curve"] == curve]
    return tuple(float(row["x"]) for row in rows), tuple(float(row["y"]) for row in rows)


def _line(name: str, xs: Sequence[float] | np.ndarray, law: Callable[[float], float]) -> Curve:
    places = tuple(float(x) for x in xs)
    return Curve(name, places, tuple(float(law(x)) for x in places))


def _picture(
    key: str, title: str, axes: tuple[str, str], curves: Sequence[Curve], said: Sequence[str]
) -> Scene:
    across = [x for curve in curves for x in curve.xs]
    up = [y for curve in curves for y in curve.ys]
    chart = Chart(
        key,
        title,
        "; ".join(curve.name for curve in curves),
        fitted(axes[0], across),
        fitted(axes[1], up),
        tuple(curves),
    )
    words = words_scene("words", "Sources", said)
    return stacked(key, title, chart.description, (chart_scene(chart), words))


def _half_slant(rain: Spectrum) -> Callable[[float], float]:
    """The slant that half of a rain's water does not exceed, by wind [m/s to degrees]."""
    return lambda wind: math.degrees(slant_quantile(rain, wind, 0.5))


def _on_upright_face(rate: float, rain: Spectrum) -> Callable[[float], float]:
    """Rain on an upright face, by wind [m/s to mm/h]."""
    return lambda wind: upright_face(rate, wind, rain) / MM_PER_HOUR


def _of_deposit(rule: Callable[[float], float]) -> Callable[[float], float]:
    """A rule for the layer, from mg/cm² to µS."""
    return lambda deposit: MICRO * rule(deposit / 100)


def fall_speed_picture() -> Scene:
    """Fall speed of raindrops against their size."""
    rows = fall_speeds()
    measured = (
        tuple(1e3 * row.diameter for row in rows),
        tuple(row.speed for row in rows),
    )
    fit = _line("fit of Atlas", np.linspace(0.1, 5.8, POINTS), lambda d: fall_speed_fit(d / 1e3))
    return _picture(
        "rain-fall-speed",
        "How fast raindrops fall",
        ("drop diameter, mm", "fall speed, m/s"),
        (Curve("measured, Gunn and Kinzer", *measured, dots=True), fit),
        (
            "Dots: Gunn, Kinzer (1949), still air at 20 °C; between them the code goes straight. "
            "Line: Atlas, Srivastava, Sekhon (1973), eq. 24.",
        ),
    )


def rain_angle_picture() -> Scene:
    """Slant of rain against wind."""
    winds = np.linspace(0.0, 20.0, 41)
    curves = []
    for rate in (5.0, 90.0):
        median = median_marshall_palmer(rate * MM_PER_HOUR)
        speed = fall_speed_fit(median)
        places = (2.0, 5.0, 7.0, 10.0, 15.0, 20.0)
        rain = spectrum(rate * MM_PER_HOUR)
        curves += [
            Curve(
                f"published laws, {rate:g} mm/h",
                places,
                tuple(math.degrees(slant(wind, speed)) for wind in places),
                dots=True,
            ),
            _line(
                f"half of all drops, {rate:g} mm/h",
                winds,
                _half_slant(rain),
            ),
        ]
    return _picture(
        "rain-angle",
        "How slantingly rain comes in wind",
        ("wind at the bushing, m/s", "angle from the vertical, °"),
        curves,
        (
            "Dots: median drop after Marshall, Palmer (1948), falling after Atlas (1973). Lines: "
            "the slant that half of the water on the ground does not exceed, from the whole "
            "spectrum with measured speeds.",
        ),
    )


def driving_rain_picture() -> Scene:
    """Rain on an upright face against wind."""
    curves = []
    for rate in (5.0, 25.0):
        rain, whole = spectrum(rate * MM_PER_HOUR), rate * MM_PER_HOUR
        curves += [
            Curve(
                f"Lacy, {rate:g} mm/h",
                (0.0, 5.0, 10.0, 15.0, 20.0),
                tuple(
                    upright_face_lacy(whole, wind) / MM_PER_HOUR
                    for wind in (0.0, 5.0, 10.0, 15.0, 20.0)
                ),
                dots=True,
            ),
            _line(
                f"summed over drops, {rate:g} mm/h",
                (0.0, 20.0),
                _on_upright_face(whole, rain),
            ),
        ]
    return _picture(
        "driving-rain",
        "What wind drives onto an upright face",
        ("wind, m/s", "rain on the face, mm/h"),
        curves,
        ("Dots: Lacy (1965), 0.222 u R^0.88, drawn from gauges. Lines: sum over the drop sizes.",),
    )


def salinity_picture() -> Scene:
    """Salinity of water against its conductivity."""
    rows = saline_waters()
    table = tuple(row.conductivity_at_20 for row in rows), tuple(row.salinity for row in rows)
    return _picture(
        "salinity",
        "Salt in water by its conductivity at 20 °C",
        ("conductivity at 20 °C, S/m", "salinity, kg/m³"),
        (
            Curve("IEC 60507, salt-fog table", *table, dots=True),
            Curve("CRC Handbook, brine", *_published("brine"), dots=True),
            _line("ours above 0.43 S/m", np.geomspace(0.43, 20.0, POINTS), salinity_at),
            _line(
                "washing-water formula carried on",
                np.geomspace(0.01, 20.0, POINTS),
                salinity_from_conductivity,
            ),
        ),
        (
            "The formula (5.7 sigma)^1.03 is made for up to 0.4 S/m; above it the code reads the "
            "table. Brine: taken to kg/m³ with the density of the solution.",
        ),
    )


def coefficient_picture() -> Scene:
    """Temperature coefficient of the washing water."""
    degrees = np.linspace(2.0, 35.0, POINTS)
    return _picture(
        "temperature-coefficient",
        "How the conductivity of washing water changes with temperature",
        ("temperature of the water, °C", "coefficient b, % per kelvin"),
        (
            Curve(
                "IEC 60507, table",
                _published("washing coefficient")[0],
                tuple(100 * b for b in _published("washing coefficient")[1]),
                dots=True,
            ),
            _line("cubic", degrees, lambda t: 100 * temperature_coefficient(273.15 + t)),
        ),
        ("Cubic: annex of IEC TS 60815-1; outside 5 to 30 °C it is flagged.",),
    )


def layer_picture() -> Scene:
    """Layer conductivity against deposit, by the rival rules."""
    levels = [row for row in equivalences() if row.layer[1] is not None]
    deposits = tuple(100 * d for row in levels for d in row.deposit)
    layers = tuple(MICRO * k for row in levels for k in row.layer if k is not None)
    places = np.geomspace(0.01, 0.3, POINTS)
    rules = (
        ("ours: equal severity", layer_conductivity_equal_deposit),
        ("full wetting (Topalis)", layer_conductivity_wetted_rule),
        ("field rule (IEEE 1243)", layer_conductivity_field_rule),
    )
    return _picture(
        "layer-conductivity",
        "Layer conductivity from a deposit: the rules differ",
        ("salt deposit, mg/cm²", "layer conductivity at 20 °C, µS"),
        (
            Curve("IEC 815:1986, levels I and II", deposits, layers, dots=True),
            *(_line(name, places, _of_deposit(rule)) for name, rule in rules),
        ),
        (
            "Dots: artificial tests of equal severity. Level III gives a lower bound only, 36 µS "
            "from 0.30 mg/cm² on.",
        ),
    )


def salt_layer_picture() -> Scene:
    """Layer conductivity of the salt-fog test."""
    levels = [row for row in equivalences() if row.layer[1] is not None]
    salts = tuple(s for row in levels for s in row.salinity)
    layers = tuple(MICRO * k for row in levels for k in row.layer if k is not None)
    return _picture(
        "salt-fog-layer",
        "Layer conductivity from a salinity",
        ("salinity, kg/m³", "layer conductivity at 20 °C, µS"),
        (
            Curve("IEC 815:1986, levels I and II", salts, layers, dots=True),
            _line(
                "ours: equal severity",
                np.linspace(2.5, 112.0, POINTS),
                lambda s: MICRO * layer_conductivity_equal_salinity(s),
            ),
        ),
        (
            "The table jumps by a fifth at 14 kg/m³, between its levels; the law runs through both "
            "ends. Level III: 36 µS at least, from 40 kg/m³ on.",
        ),
    )


def gradient_picture() -> Scene:
    """Critical gradient of an even strip against the resistance of its layer."""
    places = np.geomspace(200.0, 6000.0, 24)
    printed = (300.0, 600.0, 1000.0, 2000.0, 3000.0, 4500.0, 6000.0)
    again = {row.author: row for row in reignitions()}
    ours = (
        ("ours, direct", "Alston & Zoledziowski", None),
        ("ours, relit (Rizk)", "Alston & Zoledziowski", again["Rizk"]),
        ("ours, relit (Claverie)", "Claverie & Porcheron", again["Claverie"]),
    )

    def followed(author: str, relit: object) -> Callable[[float], float]:
        ends = np.linspace(0.0, 1.0, CELLS + 1)

        def gradient(r: float) -> float:
            each = np.full(CELLS, 100 * r / CELLS)
            found = arc_flashover(ends, each, arc_constants_of(author), relit)  # type: ignore[arg-type]
            return found.voltage / 100

        return gradient

    return _picture(
        "critical-gradient",
        "Critical gradient of an even strip",
        ("layer resistance, Ω per cm of creepage", "critical gradient, V/cm peak"),
        (
            _dots("Alston, Zoledziowski 10.5 r^0.43", printed, lambda r: 10.5 * r**0.43),
            _dots("Rizk 23 r^0.40", printed, lambda r: rizk_gradient(100 * r) / 100),
            *(_line(name, places, followed(author, relit)) for name, author, relit in ours),
        ),
        (
            "Dots: Alston, Zoledziowski (1963), direct voltage; Rizk (1981), closed form for "
            "alternating voltage. Lines: the arc followed cell by cell over one metre.",
        ),
    )


def _dots(name: str, xs: Sequence[float], law: Callable[[float], float]) -> Curve:
    return Curve(name, tuple(xs), tuple(law(x) for x in xs), dots=True)


def disc_picture() -> Scene:
    """Flashover of a polluted disc against its deposit."""
    creepage, diameter, form = DISC
    row = arc_constants_of("Topalis")

    def model(deposit: float) -> float:
        layer = layer_conductivity_wetted_rule(deposit / 100)
        return (
            cap_and_pin_voltage(layer, creepage, diameter, form, row.constant, row.exponent) / 1e3
        )

    return _picture(
        "disc-flashover",
        "Flashover of a polluted disc: model against tests",
        ("salt deposit, mg/cm²", "flashover voltage, kV"),
        (
            Curve("tests quoted by Gonos", *_published("disc tests"), dots=True),
            _line("closed form of Topalis", np.linspace(0.1, 0.6, POINTS), model),
        ),
        (
            "Disc of 268 mm, creepage 330 mm, form factor 0.79. The model lies 3 to 21 % above; "
            "whether the tests count peak is not certain: trust the trend.",
        ),
    )


def _by_verma(creepage: float) -> float:
    return highest_leakage_current(creepage / MICRO)


def leakage_picture() -> Scene:
    """Highest leakage current before flashover against specific creepage."""
    rows = pollution_classes()
    at_classes = [MICRO * row.specific_creepage for row in rows]
    claverie = next(row for row in reignitions() if row.author == "Claverie")

    def relit(creepage: float) -> float:
        """The current whose re-ignition asks for this creepage, by turning the law round."""
        return (creepage / MICRO / reignition_creepage(claverie.coefficient, 1.0)) ** 2

    return _picture(
        "leakage-current",
        "Highest leakage current before flashover",
        ("specific creepage, mm per kV across", "highest current, A peak"),
        (
            _dots(
                "Verma, at classes a to e", at_classes, lambda s: highest_leakage_current(s / MICRO)
            ),
            _line("ours: re-ignition after Claverie", np.linspace(15, 56, POINTS), relit),
        ),
        (
            "Dots: (S/15.32)² (Verma and others, 1978). Line: creepage just bridged by arcs that "
            "light again at 940 V/cm.",
        ),
    )


PUBLISHED: Mapping[str, Callable[[], Scene]] = {
    "rain-fall-speed": fall_speed_picture,
    "rain-angle": rain_angle_picture,
    "driving-rain": driving_rain_picture,
    "salinity": salinity_picture,
    "temperature-coefficient": coefficient_picture,
    "layer-conductivity": layer_picture,
    "salt-fog-layer": salt_layer_picture,
    "critical-gradient": gradient_picture,
    "disc-flashover": disc_picture,
    "leakage-current": leakage_picture,
    **PUBLISHED_AIR,
    **PUBLISHED_WEATHER,
}
"""Every published curve rebuilt, by the name its file gets."""
