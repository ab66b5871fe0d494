"""Heat in pictures: along the conductor, through a day, and where it comes from and goes."""

import math

from shedlight.figures.bars import Bar, bars_scene
from shedlight.figures.chart import Axis, Chart, Curve, Limit, chart_scene, fitted
from shedlight.figures.panels import stacked
from shedlight.figures.scene import Scene
from shedlight.geometry.section import Section
from shedlight.physics.heat.day import SAMPLES, DayCourse
from shedlight.physics.heat.steady import SteadyState
from shedlight.workings.heat import Steady
from shedlight.workings.heat.model import Model

ZERO = 273.15  # [K]
PLACES = 160
LEAST = 0.005  # heat less than this is not worth a row [W]
OUT = {
    "lower stem": "stem below the porcelain, to the oil",
    "oil end": "oil end, to the oil",
    "hole": "through the hole, to the cover",
    "collar": "collar, to the air",
    "air end": "shedded air end, to the air",
    "air end without oil": "air end above the oil, to the air",
    "cap": "neck of the cap, to the air",
}


def along_conductor(section: Section, steady: Steady, limits: tuple[Limit, ...] = ()) -> Scene:
    """Temperature of the conductor against height, on the safe side and by the middle of films.

    Args:
        section: The section.
        steady: What the bushing settles to.
        limits: Temperatures to hold against [°C].
    """
    model = steady.safe.model
    start = section.heights.oil_end - float(model.pieces[0].length) * _below(model)
    curves = (
        _profile("poor films: decides", steady.safe.state, start),
        _profile("middle of the films", steady.mean, start),
    )
    values = [y for curve in curves for y in curve.ys] + [limit.value for limit in limits]
    places = [1e3 * (start + place) for place in steady.safe.state.chain.places]
    oil = _celsius(float(model.around.oil))
    return chart_scene(
        Chart(
            "conductor-temperature",
            "Temperature along the conductor at rated current",
            "Temperature of the conductor against height above the cover, with poor films and with "
            f"films as the correlations say; oil at {oil:.0f} °C, air at "
            f"{_celsius(float(model.around.air)):.0f} °C, noon sun",
            Axis("height above the cover, mm", 10 * math.floor(places[0] / 10), places[-1]),
            _warm("temperature, °C", values),
            curves,
            limits,
            tuple(places[1:-1]),
            "ticks above: ends of the stretches",
            size=(170.0, 84.0),
        )
    )


def _below(model: Model) -> float:
    """1 where a bare stem hangs below the porcelain."""
    return 1.0 if model.pieces[0].name == "lower stem" else 0.0


def _profile(name: str, state: SteadyState, start: float) -> Curve:
    whole = state.chain.places[-1]
    places = [whole * n / PLACES for n in range(PLACES + 1)]
    return Curve(
        name,
        tuple(1e3 * (start + place) for place in places),
        tuple(_celsius(state.chain.temperature(place)) for place in places),
    )


def _celsius(temperature: float) -> float:
    return temperature - ZERO


def _warm(title: str, values: list[float]) -> Axis:
    """An axis over temperatures with room above for the names of limits."""
    return fitted(title, (min(values), max(values) + 3), from_zero=False)


def day_load(course: DayCourse, limits: tuple[Limit, ...] = ()) -> Scene:
    """Temperatures of a day that repeats itself, and the load that makes them.

    Args:
        course: The day.
        limits: Temperatures to hold against [°C].
    """
    # The middle of every spell: air and top oil are even in each and would show as stairs.
    middles = slice(SAMPLES // 2, None, SAMPLES)
    hours = tuple(float(time) for time in course.times[middles])
    named = (
        ("conductor, hottest place", course.hot_spot),
        ("top oil of the tank", course.top_oil),
        ("oil inside", course.oil),
        ("porcelain", course.porcelain),
        ("air", course.air),
    )
    curves = tuple(
        Curve(name, hours, tuple(_celsius(float(t)) for t in values[middles]))
        for name, values in named
    )
    loads = tuple(float(load) for load in course.loads[middles])
    heat, load = _temperatures(curves, limits), _load(hours, loads)
    return stacked(
        "day",
        "A day's load: temperatures and current",
        f"{heat.description}; below, the current over the rated one.",
        (chart_scene(heat), chart_scene(load)),
    )


_DAY = Axis("hour of the day", 0.0, 24.0)


def _temperatures(curves: tuple[Curve, ...], limits: tuple[Limit, ...]) -> Chart:
    values = [y for curve in curves for y in curve.ys] + [limit.value for limit in limits]
    return Chart(
        "day-temperatures",
        "Temperatures in a day's load",
        "Temperatures of conductor, oil, porcelain and air through a day that repeats itself",
        _DAY,
        _warm("temperature, °C", values),
        curves,
        limits,
        size=(170.0, 96.0),
    )


def _load(hours: tuple[float, ...], loads: tuple[float, ...]) -> Chart:
    return Chart(
        "day-load",
        "Load",
        "Current over rated current through the day",
        _DAY,
        fitted("current over rated", (*loads, 1.2)),
        (Curve("load", *_steps(hours, loads)),),
        size=(170.0, 44.0),
    )


def _steps(
    hours: tuple[float, ...], loads: tuple[float, ...]
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Corners of a load that changes in steps."""
    xs: list[float] = [0.0]
    ys: list[float] = [loads[0]]
    for before, hour, load in zip((0.0, *hours), hours, loads, strict=False):
        if load != ys[-1]:
            edge = (before + hour) / 2
            xs += [edge, edge]
            ys += [ys[-1], load]
    return (*xs, 24.0), (*ys, ys[-1])


def heat_paths(steady: Steady) -> Scene:
    """Where the heat of the bushing comes from and where it goes.

    Args:
        steady: What the bushing settles to.
    """
    safe = steady.safe
    chain, case = safe.state.chain, safe.model.case
    lower, upper = chain.nodes[0], chain.nodes[-1]
    joints = [chain.current**2 * end.contact_resistance for end in (case.lower, case.upper)]
    wall = sum(zone.other_power * zone.length for zone in chain.zones)
    made = [
        ("current in the conductor", sum(chain.generated) - wall),
        ("lower joint", joints[0]),
        ("outer joint", joints[1]),
        ("sun and line at cap and terminal", upper.power - joints[1]),
        ("voltage in the wall", wall),
    ]
    gone = [
        ("lower end, to the oil", lower.conductance * (chain.temperatures[0] - lower.ambient)),
        *(
            (OUT[piece.name], loss)
            for piece, loss in zip(safe.model.pieces, chain.side_losses, strict=True)
        ),
        ("cap and terminal, to the air", upper.conductance * (safe.terminal - upper.ambient)),
    ]
    rows = [_row("in: ", name, power) for name, power in made if abs(power) >= LEAST]
    rows += [_row("out: ", name, power) for name, power in gone if abs(power) >= LEAST]
    return bars_scene(
        "heat-paths",
        "Where the heat comes from and where it goes",
        "heat, W; below zero it flows the other way",
        tuple(rows),
        description="Heat made in conductor, joints and ends, and heat given off by every stretch; "
        "what is given off by porcelain is counted less what it takes from the sun.",
        width=170.0,
    )


def _row(way: str, name: str, power: float) -> Bar:
    return Bar(
        f"{way}{name}",
        min(0.0, power),
        max(0.0, power),
        f"{power:.3g} W".replace("-", "−"),
        "plain" if way == "in: " else "quiet",
    )
