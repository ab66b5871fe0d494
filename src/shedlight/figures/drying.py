"""A wet, dirty surface over minutes: current, sharing of the voltage, where the energy goes."""

import numpy as np

from shedlight.figures.bars import Bar, bars_scene
from shedlight.figures.chart import Axis, Chart, Curve, chart_scene, fitted
from shedlight.figures.panels import stacked
from shedlight.figures.scene import Scene
from shedlight.figures.words import INDENT, WIDTH, words_scene
from shedlight.trace import Number
from shedlight.units import shown_in
from shedlight.workings.drying import MINUTE, Drying, Scenario

CLOSELY = 1e-5
HEADROOM = 1.05
KILOJOULE = 1e3


def drying_picture(drying: Drying) -> Scene:
    """Current over the minutes, voltage along the creepage at chosen times, energy.

    Args:
        drying: The run.
    """
    parts = [_current(drying), _sharing(drying), _energy(drying), _words(drying)]
    weather = "fog" if drying.scenario is Scenario.FOG else "rain"
    title = f"{drying.minutes:g} minutes of {weather} on the dirty surface"
    return stacked("drying", title, f"{title}. {drying.sentence}", parts)


def _current(drying: Drying) -> Scene:
    run = drying.run
    minutes = tuple(float(time) / MINUTE for time in run.times)
    amps = tuple(1e3 * float(current) for current in run.currents)
    top = max(amps)
    unit, scale = ("mA", 1.0) if top >= 1 else ("µA", 1e3)
    values = tuple(scale * amp for amp in amps)
    marks = tuple(minutes[at] for at, _ in moments(drying))
    voltage = float(drying.voltage) / 1e3
    return chart_scene(
        Chart(
            "current",
            f"Leakage current at {voltage:.4g} kV rms, layer "
            f"{_layer(drying)} from {drying.layer.read_from}",
            "Leakage current against time",
            Axis("time, min", 0.0, drying.minutes),
            fitted(f"leakage current, {unit} rms", (*values, HEADROOM * max(values))),
            (Curve("leakage current", minutes, values),),
            (),
            marks,
            "ticks above: moments of the next picture",
            size=(WIDTH, 70.0),
        )
    )


def _layer(drying: Drying) -> str:
    upper, lower = (1e6 * float(side) for side in (drying.layer.upper, drying.layer.lower))
    return f"{upper:.3g} µS" if upper == lower else f"{upper:.3g} µS above, {lower:.3g} µS below,"


def moments(drying: Drying) -> tuple[tuple[int, str], ...]:
    """Moments worth a look, each with its name, in order of time.

    Args:
        drying: The run.
    """
    last = len(drying.run.times) - 1
    if drying.scenario is Scenario.RAIN:
        return ((min(2, last), "first drops"), (last, "at the end"))
    chosen = [(drying.peak // 2, "wetting"), (drying.peak, "highest wet current")]
    if drying.banded is not None:
        chosen.append((drying.banded, "bands have dried"))
    chosen.append((last, "at the end"))
    return tuple(dict(chosen).items())


def _sharing(drying: Drying) -> Scene:
    run, path, tips = drying.run, drying.path, drying.tips
    places = tuple(1e3 * float(end) for end in path.ends)
    curves = []
    for at, name in moments(drying):
        reached = np.concatenate([[0.0], np.cumsum(run.voltages[at])])
        share = tuple(float(value) for value in 100 * reached / reached[-1])
        curves.append(Curve(f"{run.times[at] / MINUTE:.1f} min, {name}", places, share))
    return chart_scene(
        Chart(
            "sharing",
            "How the surface shares the voltage; steep where it is dry",
            "Potential along the creepage path at chosen times",
            Axis("creepage length from the clamps, mm", 0.0, places[-1]),
            fitted("potential, % of the voltage", (0.0, 100.0)),
            tuple(curves),
            (),
            tuple(1e3 * tip for tip in tips),
            "ticks above: shed tips" if tips else "",
            size=(WIDTH, 78.0),
        )
    )


def _energy(drying: Drying) -> Scene:
    book = drying.run.ledger
    went = (
        ("brought by the current", book.electrical),
        ("evaporated water", book.evaporated),
        ("carried off by the air", book.convected),
        ("arcs to the air", book.arcs_to_air),
        ("left with water that ran off", book.run_off),
        ("stored in porcelain and film", book.stored),
    )
    bars = tuple(Bar(name, 0.0, joules / 1e3, _told(joules, drying)) for name, joules in went)
    closes = f"{100 * book.error:.2g} %" if book.error > CLOSELY else "better than 0.001 %"
    title = f"Energy over the whole time; the book closes to {closes}"
    said = "Where the energy of the current went"
    return bars_scene("energy", title, "energy, kJ", bars, description=said, width=WIDTH)


def _told(joules: float, drying: Drying) -> str:
    """The amount, and in fog, where the current brings nearly all, its share."""
    book = drying.run.ledger
    if abs(joules) < CLOSELY * max(abs(book.electrical), abs(book.evaporated)):
        return "0 J"
    text = f"{joules / 1e3:.3g} kJ" if abs(joules) >= KILOJOULE else f"{joules:.3g} J"
    if drying.scenario is Scenario.FOG:
        text += f", {100 * joules / book.electrical:.3g} %"
    return text.replace("-", "−")


def _words(drying: Drying) -> Scene:
    """What happened, what was published of it, what the model leaves out."""
    said = [drying.sentence, ""]
    for seen in drying.observations:
        mark = "seen" if seen.seen else "not seen"
        said.append(f"{seen.published} ({seen.citation.key})")
        said.append(f"{INDENT}Here {mark}: {seen.here}.")
    said += ["", f"Assumed: {'; '.join(map(_assumed, drying.assumed))}."]
    said += ["", "Limits of the model:", *(f"{INDENT}{text}" for text in drying.limits)]
    return words_scene("words", drying.sentence, said)


def _assumed(number: Number) -> str:
    label = number.step.label
    unit = "" if label.unit == "1" else f" {label.unit}"
    name = label.name[0].lower() + label.name[1:]
    return f"{name} {shown_in(number, label.unit):.3g}{unit}"
