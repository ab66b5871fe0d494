"""The best compromises between two objectives, and summary charts of many cases."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from shedlight.figures.chart import STYLES, Chart, Curve, chart_scene, fitted
from shedlight.figures.drafting import INK, SMALL
from shedlight.figures.scene import Drawn, Layer, Pen, Scene, Spot, Text, circle
from shedlight.sizing.compromise import Front, axis_of
from shedlight.units import shown_in

DOT = 1.1


def front_picture(front: Front, name: str) -> Scene:
    """The best compromises as numbered places between two axes.

    Args:
        front: The compromises.
        name: What is sized.
    """
    titles, scales = [], []
    for objective in (front.first, front.second):
        title, unit = axis_of(objective)
        titles.append(title if unit == "1" else f"{title}, {unit}")
        scales.append(unit)
    xs = tuple(shown_in(c.first, scales[0]) for c in front.candidates)
    ys = tuple(shown_in(c.second, scales[1]) for c in front.candidates)
    chart = Chart(
        "compromises",
        f"Best compromises: {name}",
        "Each numbered place is a bushing of which no check fails; none is better both as "
        f"{front.first} and as {front.second}.",
        fitted(titles[0], _wide(xs), from_zero=False),
        fitted(titles[1], _wide(ys), from_zero=False),
        (Curve("best compromises, numbered", xs, ys),),
    )
    scene = chart_scene(chart)
    return replace(scene, layers=(*scene.layers, *_places(chart, xs, ys)))


def _wide(values: Sequence[float]) -> tuple[float, ...]:
    """Some room beyond the outermost places."""
    room = 0.08 * ((max(values) - min(values)) or abs(values[0]) or 1.0)
    return (min(values) - room, max(values) + room, *values)


def _places(chart: Chart, xs: Sequence[float], ys: Sequence[float]) -> Iterator[Layer]:
    """Each place as a layer of its own, so that it can be chosen."""
    left, top, right, bottom = chart.margins
    width, height = chart.size
    upper = top + 4.2 - 8.0
    for number, (x, y) in enumerate(zip(xs, ys, strict=True), start=1):
        spot = Spot(
            left + chart.x.share(x) * (width - right - left),
            height - bottom - chart.y.share(y) * (height - bottom - upper),
        )
        dot = Drawn((circle(spot, DOT),), Pen(0.3, INK), STYLES[0][0])
        words = Text(f"{number}", spot.x + 1.8, spot.y - 1.4, SMALL, face="bold")
        yield Layer(f"place {number}", f"Compromise {number}", (dot, words))
