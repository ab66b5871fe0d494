"""What the places of an axis need: creepage and arcing distance, needed and given."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from shedlight.figures.chart import Axis, Chart, Curve, chart_scene, fitted
from shedlight.figures.drafting import SMALL
from shedlight.figures.scene import Layer, Scene, Text
from shedlight.variants.summary import PlaceSummary

SHOWN = (
    ("creepage_needed", "creepage needed"),
    ("creepage", "creepage given"),
    ("arcing_needed", "arcing distance needed"),
    ("arcing", "arcing distance given"),
    ("height", "height above the cover"),
)
MOST_LABELS = 30
LABEL_ROOM = 16.0


def lengths_picture(plan: str, axis: str, places: Sequence[PlaceSummary]) -> Scene:
    """Lengths over the places of one axis, averaged over all other axes.

    Args:
        plan: Name of the plan.
        axis: Name of the axis.
        places: What its places say, in order.
    """
    measured = _quantities(places)
    if measured is None:
        xs = tuple(n + side for n in range(1, len(places) + 1) for side in (-0.5, 0.5))
        along, each = Axis(axis, 0.5, len(places) + 0.5), 2  # names have no order: a stair
    else:
        xs, unit = measured
        along, each = Axis(f"{axis} ({unit})", xs[0], xs[-1]), 1
    curves = tuple(
        Curve(title, xs, tuple(1e3 * place.means[name] for place in places for _ in range(each)))
        for name, title in SHOWN
    )
    chart = Chart(
        f"lengths-{axis}",
        f"{plan}: lengths by {axis}, mean over all else",
        "Creepage and arcing distance that the sites and duties need, and that the shapes have.",
        along,
        fitted("mm", [y for curve in curves for y in curve.ys]),
        curves,
        size=(170.0, 100.0),
        margins=(16.0, 16.0, 4.0, LABEL_ROOM),
    )
    scene = chart_scene(chart)
    if measured is not None:
        return scene
    return replace(scene, layers=(*_without_numbers(scene), _labels(chart, places)))


def _quantities(places: Sequence[PlaceSummary]) -> tuple[tuple[float, ...], str] | None:
    """The places as rising numbers of one unit; none where they are names."""
    cut = [place.label.partition(" ") for place in places]
    try:
        values = tuple(float(number) for number, _, _ in cut)
    except ValueError:
        return None
    one_unit = len({unit for _, _, unit in cut}) == 1
    rising = all(low < high for low, high in pairwise(values))
    return (values, cut[0][2] or "1") if one_unit and rising else None


def _without_numbers(scene: Scene) -> tuple[Layer, ...]:
    """The chart's layers without the numbers of its places: they have names."""
    bottom = scene.height - LABEL_ROOM
    return tuple(
        replace(
            layer,
            items=tuple(
                item
                for item in layer.items
                if not (isinstance(item, Text) and bottom < item.y < scene.height - 3.0)
            ),
        )
        for layer in scene.layers
    )


def _labels(chart: Chart, places: Sequence[PlaceSummary]) -> Layer:
    left, _, right, bottom = chart.margins
    width, height = chart.size
    step = max(1, -(-len(places) // MOST_LABELS))
    room = (width - left - right) / len(places) * step
    items = []
    for n in range(0, len(places), step):
        x = left + chart.x.share(n + 1.0) * (width - left - right)
        letters = max(2, int(room / (0.75 * SMALL)))
        lower = 3.0 if (n // step) % 2 else 0.0
        items.append(
            Text(places[n].label[: 2 * letters], x, height - bottom + 4.4 + lower, SMALL, "middle")
        )
    return Layer("places", "Places of the axis", tuple(items))
