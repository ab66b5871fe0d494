"""The wet, dirty surface in pictures: where it heats, what it holds by each rule, a season."""

from collections.abc import Sequence

import numpy as np

from shedlight.figures.bars import Bar, Mark, bars_scene
from shedlight.figures.chart import Axis, Chart, Curve, Limit, chart_scene, fitted
from shedlight.figures.panels import stacked
from shedlight.figures.scene import Scene
from shedlight.figures.words import words_scene
from shedlight.units import shown_in
from shedlight.workings import Workings
from shedlight.workings.dirt import season_of
from shedlight.workings.rain import tips_in

LENGTH = "creepage length from the clamps, mm"
SIZE = (170.0, 78.0)


def heat_picture(work: Workings) -> Scene:
    """Heat per area and share of the voltage along the wet surface, before it dries.

    Args:
        work: What was computed for an installation.
    """
    first, second = _heat_chart(work), _resistance_chart(work)
    said = words_scene("words", "In words", _heat_words(work))
    panels = [*map(chart_scene, (first, second)), said]
    return stacked("leakage", first.title, first.description, panels)


def _along(work: Workings) -> tuple[Axis, tuple[float, ...]]:
    """The axis of creepage, and where shed tips stand on it."""
    tips = tuple(1e3 * tip for tip in tips_in(work.measures))
    return Axis(LENGTH, 0.0, 1e3 * float(work.dirt.path.ends[-1])), tips


def _heat_chart(work: Workings) -> Chart:
    leakage, (along, tips) = work.leakage, _along(work)
    heat = _of(leakage.state.heat / 1e3)
    return Chart(
        "heat",
        f"Heat of the wet layer at {work.voltages.phase / 1e3:.4g} kV rms to earth",
        "Heat per area of the fully wet layer along the creepage path; the necks are hottest",
        along,
        fitted("heat, kW/m²", heat),
        (Curve("heat per area", _of(1e3 * work.dirt.path.middles), heat),),
        (),
        tips,
        "ticks above: shed tips; bars below: necks, where dry bands begin",
        tuple((1e3 * neck.start, 1e3 * neck.end) for neck in leakage.necks),
        SIZE,
    )


def _resistance_chart(work: Workings) -> Chart:
    dirt, (along, tips) = work.dirt, _along(work)
    ends = dirt.path.ends
    curves = [Curve("in fog, evenly wet", *_shares(ends, dirt.resistances(dirt.layer)))]
    wet: tuple[tuple[float, float], ...] = ()
    if dirt.washed is not None:
        curves.append(Curve("in fog after a shower", *_shares(ends, dirt.washed.resistances)))
        wet = tuple((1e3 * s.start, 1e3 * s.end) for s in work.rain.stated.stretches if s.wet)
    curves.append(Curve("if all were alike (mean)", (0.0, along.high), (0.0, 100.0)))
    return Chart(
        "resistance",
        "Resistance of the layer, gathered from the clamps",
        "Share of the layer's whole resistance up to each place: steep where narrow or clean",
        along,
        fitted("share of the resistance, %", (0.0, 100.0)),
        tuple(curves),
        (),
        tips,
        "bars below: what rain washes" if wet else "",
        wet,
        SIZE,
    )


def _shares(ends: np.ndarray, each: np.ndarray) -> tuple[tuple[float, ...], tuple[float, ...]]:
    gathered = np.concatenate([[0.0], np.cumsum(each)])
    return _of(1e3 * ends), _of(100 * gathered / gathered[-1])


def _heat_words(work: Workings) -> list[str]:
    leakage, layer = work.leakage, work.dirt.layer
    return [
        f"Layer {shown_in(layer.upper, 'µS'):.3g} µS (upper sides) and "
        f"{shown_in(layer.lower, 'µS'):.3g} µS (trunk and undersides), read from "
        f"{layer.read_from}; resistance {layer.resistance / 1e3:.3g} kΩ.",
        f"Before dry bands form {1e3 * leakage.current:.3g} mA rms flow, "
        f"{1e3 * leakage.peak:.3g} mA peak; an arc needs {work.flashover.current:.3g} A "
        "peak at its hardest moment.",
        f"The hottest neck takes {leakage.necks[0].heat / 1e3:.3g} kW/m² and dries in no less than "
        f"{leakage.dries_in:.2g} s. Fully wet and even all round; capacitance left out.",
    ]


def flashover_picture(work: Workings) -> Scene:
    """What the wet, dirty surface holds by the deciding rule and its rivals, against the demands.

    Args:
        work: What was computed for an installation.
    """
    found, phase = work.flashover, float(work.voltages.phase)
    rows = [("Arc on the true profile (decides)", float(found.held))]
    rows += [(_shortened(title), float(value)) for title, value in found.rivals]
    if found.after_rain is not None:
        rows.append(("In fog after a shower", float(found.after_rain)))
    bars = tuple(
        Bar(
            name,
            0.0,
            value / 1e3,
            f"{value / 1e3:.1f} kV, {'short by' if value < phase else 'spare'} "
            f"{abs(value / phase - 1):.0%}",
            "short" if value < phase else "plain",
        )
        for name, value in rows
    )
    marks = (
        Mark("service", phase / 1e3),
        Mark("temporary overvoltage", float(work.voltages.temporary) / 1e3),
    )
    scene = bars_scene(
        "flashover",
        "What the wet, dirty surface holds, by rule and constants",
        "voltage held in nine cases of ten, kV rms to earth",
        bars,
        marks,
        width=170.0,
    )
    said = words_scene("words", "In words", _flashover_words(work))
    return stacked("flashover", scene.title, scene.description, (scene, said))


def _shortened(title: str) -> str:
    """A rival's name that fits beside its bar."""
    return (
        title.replace("Arc followed with constants of ", "")
        .replace("Alston & Zoledziowski", "Alston, Zoledziowski")
        .replace("Claverie & Porcheron", "Claverie, Porcheron")
        .replace(", re-ignition", ", relit:")
        .replace(", no re-ignition", ", not relit")
    )


def _flashover_words(work: Workings) -> list[str]:
    arc, layer = work.flashover.arc, work.dirt.layer
    end = "cap" if arc.from_far_end else "clamps"
    through = f", {arc.leaps} leaps over shed gaps" if arc.leaps else ", no leap over a shed gap"
    return [
        f"Layer read from {layer.read_from}: {shown_in(layer.upper, 'µS'):.3g} µS. The arc begins "
        f"at the {end}; its hardest moment is {1e3 * arc.arc_length:.0f} mm long at "
        f"{arc.current:.2f} A peak{through}.",
        f"Creepage of this profile that would just hold service: {1e3 * work.flashover.enough:.0f} "
        f"mm; the class asks for {1e3 * work.surface.required:.0f} mm; there are "
        f"{1e3 * work.surface.creepage:.0f} mm.",
        "Sets of constants stand bare; the deciding line carries a closed form fitted to tests on "
        "alternating voltage to the true profile.",
    ]


def season_picture(work: Workings) -> Scene:
    """How dirt gathers and is washed over half a year, where rain strikes and where it does not.

    Args:
        work: What was computed for an installation.
    """
    found = season_of(work.dirt)
    days = _of(np.arange(1, len(found.season.exposed) + 1))
    exposed, sheltered = (_of(100 * v) for v in (found.season.exposed, found.season.sheltered))
    chart = Chart(
        "season",
        "Dirt over a season: what rain cannot wash stays dirty",
        "Salt deposit day by day on surfaces that rain strikes and on those it spares",
        Axis("days", 0.0, float(len(days))),
        fitted("salt deposit, mg/cm²", (*exposed, *sheltered, 100 * float(found.saturated))),
        (Curve("where rain strikes", days, exposed), Curve("where it does not", days, sheltered)),
        (Limit("deposit that decides", 100 * float(found.saturated)),),
    )
    said = words_scene("words", "In words", found.said)
    return stacked("season", chart.title, chart.description, (chart_scene(chart), said))


def _of(values: Sequence[float] | np.ndarray) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
