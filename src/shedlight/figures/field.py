"""What the field does along surfaces: stress and voltage against creepage length."""

from collections.abc import Sequence

import numpy as np

from shedlight.figures.chart import Axis, Chart, Curve, Limit, chart_scene, fitted
from shedlight.figures.drafting import SMALL
from shedlight.figures.panels import stacked
from shedlight.figures.scene import Layer, Placement, Scene, Text
from shedlight.physics.field.profiles import Profile
from shedlight.units import shown_in
from shedlight.workings.field import Field
from shedlight.workings.surface_states import SPAN, StateReading, SurfaceStates

CREEPAGE = "creepage length from the top of the clamps, mm"
IN_OIL = "creepage length in oil from the cover's underside, mm"
ON_STEM = "length of the conductor from the lower end of the oil space, mm"
FIELD = "field, kV/mm rms"
TIPS = "ticks above: shed tips"
CLEAR = 1e-3  # nearer to metal the field grows without limit and a peak would mean nothing
LEFT_OUT = f"the last {1e3 * CLEAR:g} mm beside metal are left out"
WIDTH, LOW = 170.0, 76.0
LINE = 3.8


def surface_stress(
    field: Field,
    voltage: float,
    *,
    start: float = 0.0,
    sheds: Sequence[float] = (),
    limits: Sequence[Limit] = (),
) -> Scene:
    """Field along and away from the porcelain in air and in oil, and on the conductor.

    Args:
        field: The field at one volt.
        voltage: Voltage on the live metal, rms [V].
        start: How much of the surface in air lies below the top of the clamps [m].
        sheds: Creepage lengths at which shed tips stand [m].
        limits: Levels to hold against in air [kV/mm].
    """
    at = f"at {voltage / 1e3:.4g} kV rms to earth"
    panels = [
        _beside(field.surface("air side", "air"), voltage, "air", start, sheds, limits, at),
        _beside(field.surface("oil side", "tank oil"), voltage, "oil", 0.0, (), (), at),
        _conductor(field.surface("stem", "oil"), voltage, at),
    ]
    title = f"Field on porcelain and conductor {at}"
    said = (
        "Field along and away from the porcelain in air and in oil, and on the conductor in the "
        f"oil, against length; {LEFT_OUT}"
    )
    return stacked("stress", title, said, panels)


def _beside(
    seen: Profile,
    voltage: float,
    medium: str,
    start: float,
    sheds: Sequence[float],
    limits: Sequence[Limit],
    at: str,
) -> Scene:
    """Tangential and normal field beside the porcelain, from its earthed end on."""
    lengths, along, away = _clear(seen, voltage)
    places = tuple(1e3 * (lengths - start))
    curves = (
        Curve("along the surface", places, tuple(along)),
        Curve(f"into the {medium}", places, tuple(away)),
    )
    return chart_scene(
        Chart(
            f"stress-{medium}",
            f"Field beside the porcelain in {medium} {at}",
            f"Tangential and normal field in {medium} against creepage length; {LEFT_OUT}",
            Axis(CREEPAGE if medium == "air" else IN_OIL, places[0], places[-1]),
            fitted(FIELD, (*along, *away, *(limit.value for limit in limits))),
            curves,
            tuple(limits),
            tuple(1e3 * tip for tip in sheds),
            TIPS if sheds else "",
            size=(WIDTH, LOW),
        )
    )


def _conductor(seen: Profile, voltage: float, at: str) -> Scene:
    lengths, _, away = _clear(seen, voltage)
    places = tuple(1e3 * lengths)
    return chart_scene(
        Chart(
            "stress-conductor",
            f"Field on the conductor in the oil of the bushing {at}",
            f"Normal field at the conductor against its length; {LEFT_OUT}",
            Axis(ON_STEM, places[0], places[-1]),
            fitted(FIELD, away.tolist()),
            (Curve("at the conductor", places, tuple(away)),),
            size=(WIDTH, LOW),
        )
    )


def _clear(seen: Profile, voltage: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Lengths clear of metal [m], field along and away from the edge there [kV/mm]."""
    ends = seen.lengths[0] + CLEAR, seen.lengths[-1] - CLEAR
    clear = (seen.lengths > ends[0]) & (seen.lengths < ends[1])
    scale = voltage / 1e6
    along, away = np.abs(seen.tangential[clear]), np.abs(seen.normal[clear])
    return seen.lengths[clear], scale * along, scale * away


def surface_voltage(states: SurfaceStates) -> Scene:
    """How the voltage spreads along the surface in air, dry, rained on and wet all over.

    Args:
        states: The field in each state.
    """
    curves = tuple(
        # What stands at the full voltage may read a hair above it and must not leave the frame.
        Curve(item.name, tuple(1e3 * item.lengths), tuple(np.minimum(100 * item.share, 100)))
        for item in states.readings
    )
    axis = fitted("potential, % of the voltage", (0.0, 100.0))
    said = "Potential along the creepage path in share of the voltage, for each surface state"
    title = "Voltage along the surface in air"
    return _of_states(
        states, Chart("voltage", title, said, _along(states, slot=True), axis, curves)
    )


def surface_field(states: SurfaceStates) -> Scene:
    """The field along the creepage path in air, dry, rained on and wet all over.

    The slot beside the clamps, where the dry field is far larger, is no creepage and left out.

    Args:
        states: The field in each state.
    """
    curves = tuple(_on_creepage(item) for item in states.readings)
    values = [value for curve in curves for value in curve.ys]
    axis = fitted(f"mean field over {1e3 * SPAN:g} mm, kV/mm rms", values)
    kilovolts = float(states.voltage) / 1e3
    title = f"Field along the surface in air at {kilovolts:.4g} kV rms to earth"
    said = f"Mean field along the surface over {1e3 * SPAN:g} mm, for each surface state"
    along = _along(states, slot=False)
    return _of_states(states, Chart("surface-field", title, said, along, axis, curves))


def _on_creepage(item: StateReading) -> Curve:
    kept = item.lengths >= 0
    return Curve(item.name, tuple(1e3 * item.lengths[kept]), tuple(item.along[kept] / 1e6))


def _along(states: SurfaceStates, *, slot: bool) -> Axis:
    lengths = states.readings[0].lengths
    return Axis(CREEPAGE, 1e3 * float(lengths[0]) if slot else 0.0, 1e3 * float(lengths[-1]))


def _of_states(states: SurfaceStates, chart: Chart) -> Scene:
    """A chart of all states over the strip of wet and dry and the words that belong to it."""
    marked = Chart(
        chart.key,
        chart.title,
        chart.description,
        chart.x,
        chart.y,
        chart.curves,
        (),
        tuple(1e3 * tip for tip in states.tips),
        TIPS if states.tips else "",
        tuple((1e3 * item.start, 1e3 * item.end) for item in states.rain if item.wet),
        (WIDTH, 92.0),
    )
    panels = [chart_scene(marked), _words(states)]
    return stacked(chart.key, chart.title, chart.description, panels)


def _words(states: SurfaceStates) -> Scene:
    layer = states.layer
    strength = shown_in(layer.conductivity, "µS")
    lines = [
        f"Layer when fully wet: {strength:.3g} µS, from {layer.read_from}. Rain at "
        f"{np.degrees(states.rain_angle):.0f}° from the vertical.",
        "Bars on the lower edge: where that rain strikes.",
        *(
            f"Largest mean over {1e3 * SPAN:g} mm, {item.name}: "
            f"{shown_in(item.worst, 'kV/mm'):.3g} kV/mm at {1e3 * item.place:.0f} mm."
            for item in states.readings
        ),
        *states.limits,
    ]
    texts = tuple(
        Text(words, 16.0, 3.0 + LINE * row, SMALL, colour="#333333")
        for row, words in enumerate(lines)
    )
    height = 4.0 + LINE * len(lines)
    layers = (Layer("words", "Words", texts),)
    return Scene("words", "Words", "", WIDTH, height, layers, Placement(0.0, 0.0, 1.0))
