import json
import math
import re

from hypothesis import given
from hypothesis import strategies as st

from figures.svg_reading import ids, layer, length, path_data, root_of, steps
from shedlight.figures.painters.svg import FINE, paint, unfitted
from shedlight.figures.scene import (
    Drawn,
    Item,
    Layer,
    Path,
    Pen,
    Placement,
    Scene,
    Spot,
    Text,
    circle,
    line,
)


def _scene(*items: Item, key: str = "a", title: str = "T", shown: bool = True) -> Scene:
    drawing = Layer("some layer", "What it is", items, shown)
    return Scene(key, title, "D", 100, 80, (drawing,), Placement(50, 40, 200))


places = st.floats(0, 90).map(lambda x: round(x, 4))


@given(st.lists(st.tuples(places, places), min_size=2, max_size=40))
def test_rounding_never_adds_up(spots: list[tuple[float, float]]) -> None:
    """Relative whole steps: every place stays within half a fine unit of the truth."""
    path = line(*(Spot(*spot) for spot in spots))
    data = path_data(root_of(paint(_scene(Drawn((path,), Pen(0.2))))))
    ends = [end for d in data for _, end, _ in steps(d)]

    for x, y in spots[1:]:
        nearest = min(
            (math.dist((x * FINE, y * FINE), end) for end in [*ends, _start(data)]), default=9.0
        )
        assert nearest <= math.sqrt(0.5) + 1e-6


def _start(data: list[str]) -> tuple[float, float]:
    if not data:
        return math.inf, math.inf
    x, y = re.match(r"M(-?\d+) (-?\d+)", data[0]).groups()  # type: ignore[union-attr]
    return float(x), float(y)


@given(places, places, st.floats(0.5, 30))
def test_a_circle_keeps_its_length(x: float, y: float, radius: float) -> None:
    data = path_data(root_of(paint(_scene(Drawn((circle(Spot(x, y), radius),), Pen(0.2))))))

    assert abs(length(data[0]) / FINE - 2 * math.pi * radius) < 0.05


def test_neighbours_drawn_alike_share_an_element() -> None:
    items = [Drawn((line(Spot(i, 0), Spot(i, 9)),), Pen(0.2)) for i in range(20)]

    assert len(path_data(root_of(paint(_scene(*items))))) == 1


def test_words_are_escaped_and_control_signs_left_out() -> None:
    odd = 'A & B <i> "c" \x00\x07 \ud7ff'
    root = root_of(paint(_scene(Text(odd, 1, 9, 2.5), title=odd)))
    text = next(element for element in root.iter() if element.tag.endswith("text"))

    assert text.text is not None
    assert text.text.startswith('A & B <i> "c" ')
    assert "\x00" not in text.text


def test_a_viewer_without_our_typeface_fits_its_own_into_the_room() -> None:
    label = Text("Creepage 914 mm", 1, 9, 2.5)
    svg = paint(_scene(label, Text("\u6f22", 1, 9, 2.5)))
    fitted, foreign = (one for one in root_of(svg).iter() if one.tag.endswith("text"))

    assert int(fitted.attrib["textLength"]) == round(label.width * FINE)
    assert "textLength" not in foreign.attrib


def test_on_paper_our_typeface_keeps_its_kerning() -> None:
    svg = paint(_scene(Text("AV", 1, 9, 2.5)))

    assert "textLength" in svg
    assert "textLength" not in unfitted(svg)
    assert "textLength" not in unfitted(json.dumps({"svg": svg}))
    assert root_of(json.loads(unfitted(json.dumps({"svg": svg})))["svg"]) is not None


def test_every_id_begins_with_the_key_and_labels_point_at_them() -> None:
    root = root_of(paint(_scene(Text("x", 1, 9, 2.5), key="left")))

    assert ids(root) == ["left", "left-title", "left-desc", "left-some-layer"]
    assert root.get("aria-labelledby") == "left-title left-desc"
    assert root.get("role") == "img"


def test_a_hidden_layer_is_there_but_not_displayed() -> None:
    hidden = layer(root_of(paint(_scene(Text("x", 1, 9, 2.5), shown=False))), "some layer")
    shown = layer(root_of(paint(_scene(Text("x", 1, 9, 2.5)))), "some layer")

    assert hidden.get("display") == "none"
    assert shown.get("display") is None


def test_a_path_without_steps_paints_nothing() -> None:
    nothing = Drawn((Path(Spot(1, 1), ()),), None)

    assert "NaN" not in paint(_scene(nothing))
