"""Published curves of rain, wet surfaces and odds, drawn beside ours."""

import math
from collections.abc import Callable, Mapping, Sequence

import numpy as np

from shedlight.figures.chart import Axis, Chart, Curve, LogAxis, chart_scene, fitted
from shedlight.figures.panels import stacked
from shedlight.figures.scene import Scene
from shedlight.figures.words import words_scene
from shedlight.physics.air.many_gaps import strength_of_some, strength_of_some_truncated
from shedlight.physics.air.rain import MM_PER_HOUR, SPECTRA, fall_speed, spectrum
from shedlight.physics.air.rain_benchmarks import caught_on_slope, wet_share_of_post
from shedlight.physics.air.rain_tables import drop_classes
from shedlight.physics.air.risk import TEN_PERCENT, TWO_PERCENT, risk_integral
from shedlight.physics.surface.drying_benchmarks import warmed_wall, wet_bulb
from shedlight.physics.surface.evaporation import psychrometer_humidity

ZERO_CELSIUS = 273.15
MEASURED_RATE, WIND = 25.0, 10.0  # mm/h and m/s
POST, DISC, HEIGHT = 0.05, 0.10, 0.40  # [m]
WALL, CONDUCTIVITY, STORED = 0.014, 1.5, 2.2e6  # porcelain of the drying model [m, W/mK, J/m³K]
QUANTILES = {1.2816: 1e-1, 2.3263: 1e-2, 3.0902: 1e-3, 3.7190: 1e-4, 4.2649: 1e-5}
SPREADS = ((0.10, 0.06), (0.25, 0.06))  # of overvoltage and of strength, over their means


def _picture(chart: Chart, said: Sequence[str]) -> Scene:
    words = words_scene("words", "Sources", said)
    return stacked(chart.key, chart.title, chart.description, (chart_scene(chart), words))


def _chart(key: str, title: str, x: Axis, y: Axis, curves: Sequence[Curve]) -> Chart:
    return Chart(key, title, "; ".join(curve.name for curve in curves), x, y, tuple(curves))


def _fitted(key: str, title: str, axes: tuple[str, str], curves: Sequence[Curve]) -> Chart:
    across = [x for curve in curves for x in curve.xs]
    up = [y for curve in curves for y in curve.ys]
    return _chart(key, title, fitted(axes[0], across), fitted(axes[1], up), curves)


def drop_slant_picture() -> Scene:
    """Which share of a rain's water comes how slantingly, from measured drops and from laws."""
    rate = MEASURED_RATE * MM_PER_HOUR
    rows = [row for row in drop_classes() if math.isclose(row.rate, rate)]
    edges = [row.diameter + rows[0].diameter / 2 for row in rows]
    steeper = 100 * (1 - np.cumsum([row.share for row in rows]))
    slants = [math.degrees(math.atan2(WIND, fall_speed(edge))) for edge in edges]
    curves = [Curve("measured by Laws and Parsons", tuple(slants), tuple(steeper), dots=True)]
    for law in SPECTRA:
        if law != "Laws & Parsons":
            rain = spectrum(rate, law)
            shares = 100 * np.cumsum(rain.shares[::-1])
            angles = np.degrees(np.arctan2(WIND, rain.speeds[::-1]))
            curves.append(Curve(law, tuple(angles.tolist()), tuple(shares.tolist())))
    title = "How slantingly the water of one rain comes"
    x, y = Axis("angle from the vertical, °", 40.0, 90.0), Axis("water as steep, %", 0.0, 100.0)
    return _picture(
        _chart("rain-slants", title, x, y, curves),
        (
            f"{MEASURED_RATE:g} mm/h in {WIND:g} m/s of wind. Dots: drop sizes measured by Laws, "
            "Parsons (1943) as tabulated by Medhurst (1965), from memory, falling at the speeds of "
            "Gunn, Kinzer (1949). Lines: the laws the code offers; Marshall and Palmer is its own.",
        ),
    )


def shade_picture() -> Scene:
    """Wet share of a post under a disc against rain angle: the map of wetting against geometry."""
    angles = np.linspace(2.0, 88.0, 87)
    places = np.arange(5.0, 90.0, 10.0)
    ours = [100 * wet_share_of_post(DISC, POST, HEIGHT, math.radians(a)) for a in angles]
    exact = [100 * _shaded(math.radians(a)) for a in places]
    curves = (
        Curve("plane geometry", tuple(places), tuple(exact), dots=True),
        Curve("map of wetting", tuple(angles), tuple(ours)),
    )
    x = Axis("angle of the rain from the vertical, °", 0.0, 90.0)
    y = Axis("wet share of the post's side, %", 0.0, 50.0)
    title = "What a disc keeps dry of the post below it"
    return _picture(
        _chart("rain-shade", title, x, y, curves),
        (
            f"Post of {2e3 * POST:g} mm, {1e3 * HEIGHT:g} mm long, under a disc of "
            f"{2e3 * DISC:g} mm. Dots: exact, the chord that the rain's way up cuts from the disc, "
            "summed all round; no measurement on sheds could be found. Line: the map of wetting.",
        ),
    )


def _shaded(angle: float) -> float:
    """Wet share of the post by the chord from each meridian to the disc's edge."""
    turns = (np.arange(4000) + 0.5) / 4000 * math.pi - math.pi / 2
    chord = np.sqrt(DISC**2 - (POST * np.sin(turns)) ** 2) - POST * np.cos(turns)
    wet = np.maximum(0.0, 1 - chord / math.tan(angle) / HEIGHT)
    return float(np.mean(wet)) / 2


def slope_picture() -> Scene:
    """Water that slopes catch against their fall."""
    slopes, places = np.linspace(0.0, 60.0, 13), np.arange(0.0, 61.0, 10.0)
    curves = []
    for name, around in (("facing the wind", 0.0), ("turned away", math.pi)):
        for slant in (20.0, 45.0):
            angle = math.radians(slant)
            printed = [_slope_rule(math.radians(s), angle, around) for s in places]
            ours = [caught_on_slope(math.radians(s), angle, around) for s in slopes]
            curves.append(Curve(f"rule, {name}, {slant:g}°", tuple(places), tuple(printed), True))
            curves.append(Curve(f"map, {name}, {slant:g}°", tuple(slopes), tuple(ours)))
    axes = ("fall of the slope, °", "water per area over that on level ground")
    return _picture(
        _fitted("rain-slopes", "What slopes catch of slanting rain", axes, curves),
        (
            "Dots: Sharon (1980), cos s + sin s tan(angle) cos(turn), made for hillsides. Lines: "
            "the map of wetting on a cone. The angles are those of the rain from the vertical.",
        ),
    )


def _slope_rule(slope: float, angle: float, around: float) -> float:
    found = math.cos(slope) + math.sin(slope) * math.tan(angle) * math.cos(around)
    return max(0.0, found)


def wet_bulb_picture() -> Scene:
    """Cooling of a wet surface in dry air against the psychrometer."""
    curves = []
    for air in (10.0, 20.0, 30.0):
        warm = air + ZERO_CELSIUS
        coolings = np.arange(1.0, 1.0 + 0.5 * air, 1.0 + air / 20)
        damp = [100 * psychrometer_humidity(warm, warm - cooling) for cooling in coolings]
        humid = np.linspace(20.0, 95.0, 6)
        ours = [warm - wet_bulb(warm, h / 100) for h in humid]
        kept = [(h, c) for h, c in zip(damp, coolings.tolist(), strict=True) if h > 18]
        xs, ys = zip(*kept, strict=True)
        curves.append(Curve(f"psychrometer, {air:g} °C", xs, ys, dots=True))
        curves.append(Curve(f"drying model, {air:g} °C", tuple(humid), tuple(ours)))
    axes = ("relative humidity, %", "wet surface below the air, K")
    return _picture(
        _fitted("wet-bulb", "How far a wet surface without voltage cools", axes, curves),
        (
            "Dots: the psychrometer's equation, WMO No. 8. Lines: the drying model run until it "
            "settles. The model cools up to a tenth further; a psychrometer also takes up "
            "radiation.",
        ),
    )


def warming_picture() -> Scene:
    """Warming of the porcelain under a steady current against the exact slab."""
    heat, places = 10.0, np.array([5.0, 15.0, 30.0, 60.0, 120.0, 180.0, 240.0, 300.0])
    times = np.geomspace(4.0, 300.0, 20)
    curves = (
        Curve("slab, exact", tuple(places), tuple(_slab(heat, t) for t in places), dots=True),
        Curve("drying model", tuple(times), tuple(warmed_wall(heat, float(t)) for t in times)),
    )
    title = "How the surface warms under a steady current"
    axes = ("time, s", f"rise of the surface at {heat:g} W/m², K")
    return _picture(
        _fitted("wall-warming", title, axes, curves),
        (
            "Dots: slab of porcelain 14 mm deep, insulated behind (Carslaw, Jaeger), exact. Line: "
            "the drying model with neither fog nor air. No published leakage-current record with "
            "all its data could be found: currents over time are compared in kind only.",
        ),
    )


def _slab(heat: float, time: float) -> float:
    fourier = CONDUCTIVITY / STORED * time / WALL**2
    waves = sum(math.exp(-((n * math.pi) ** 2) * fourier) / n**2 for n in range(1, 200))
    return heat * WALL / CONDUCTIVITY * (fourier + 1 / 3 - 2 / math.pi**2 * waves)


def many_gaps_picture() -> Scene:
    """Voltage that sparks one of many gaps over, against the standard's rule."""
    mean, deviation = 1.0, 0.06
    counts = np.geomspace(1.0, 200.0, 60)
    places = (1.0, 2.0, 3.0, 6.0, 10.0, 20.0, 50.0, 100.0, 200.0)
    rule = [100 * strength_of_some_truncated(mean, deviation, n) for n in places]
    curves = (
        Curve("IEC 60071-2, spread that ends", places, tuple(rule), dots=True),
        Curve(
            "ours, Gaussian spread",
            tuple(counts),
            tuple(100 * strength_of_some(mean, deviation, n) for n in counts),
        ),
    )
    x, y = LogAxis("gaps stressed together", 1.0, 200.0), Axis("voltage of one, %", 80.0, 102.0)
    return _picture(
        _chart("many-gaps", "The weakest of many gaps", x, y, curves),
        (
            "50 % voltage of n gaps over that of one, each with 6 % scatter. Dots: modified "
            "Weibull law of IEC 60071-2 on parallel insulations, from memory. Line: the law of "
            "the odds.",
        ),
    )


def safety_factor_picture() -> Scene:
    """Risk against the statistical safety factor: integral against the normal table."""
    curves = [Curve("IEC 60071-2: 1.15", (1.15,), (1e-4,), dots=True)]
    for stress, strength in SPREADS:
        name = f"{100 * stress:g} and {100 * strength:g} %"
        exact = [_factor_at(x, stress, strength) for x in QUANTILES]
        factors = np.linspace(0.75, max(exact) + 0.02, 40)
        risks = [_risk(k, stress, strength) for k in factors]
        kept = [(k, r) for k, r in zip(factors.tolist(), risks, strict=True) if 1e-6 < r < 0.5]
        xs, ys = zip(*kept, strict=True)
        curves.append(Curve(f"normal table, {name}", tuple(exact), tuple(QUANTILES.values()), True))
        curves.append(Curve(f"integral, {name}", xs, ys))
    across = [x for curve in curves for x in curve.xs]
    x = Axis("statistical safety factor", math.floor(10 * min(across)) / 10, max(across) + 0.02)
    y = LogAxis("risk of a sparkover per event", 1e-6, 1.0)
    return _picture(
        _chart("risk", "What a safety margin is worth", x, y, curves),
        (
            "Spread of overvoltages and of strength over their means. Dots: upper points of the "
            "normal distribution as tabulated, exact; and the pair of IEC 60071-2, from memory. "
            "Lines: the integral over both spreads that the odds use.",
        ),
    )


def _factor_at(quantile: float, stress: float, strength: float) -> float:
    """Safety factor whose risk lies at a quantile: (u - 1)² = x² (s² + u² w²) solved for u."""
    a = 1 - (quantile * strength) ** 2
    c = 1 - (quantile * stress) ** 2
    mean = (1 + math.sqrt(1 - a * c)) / a
    return mean * (1 - TEN_PERCENT * strength) / (1 + TWO_PERCENT * stress)


def _risk(factor: float, stress: float, strength: float) -> float:
    mean = factor * (1 + TWO_PERCENT * stress) / (1 - TEN_PERCENT * strength)
    return risk_integral(1.0, stress, mean, strength * mean).risk


PUBLISHED_WEATHER: Mapping[str, Callable[[], Scene]] = {
    "rain-slants": drop_slant_picture,
    "rain-shade": shade_picture,
    "rain-slopes": slope_picture,
    "wet-bulb": wet_bulb_picture,
    "wall-warming": warming_picture,
    "many-gaps": many_gaps_picture,
    "risk": safety_factor_picture,
}
"""Curves of rain, drying and odds, by the name their file gets."""
