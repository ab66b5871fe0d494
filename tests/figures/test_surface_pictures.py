"""Charts of the field along surfaces, against the field they were drawn from."""

from collections.abc import Callable
from functools import cache

import numpy as np
import pytest

from figures.subjects import example
from shedlight.documents.pictures import PICTURES, picture_file
from shedlight.figures.chart import STRIP
from shedlight.figures.field import CLEAR, surface_field, surface_stress, surface_voltage
from shedlight.figures.painters.svg import paint
from shedlight.figures.scene import Drawn, Scene, Spot, Text
from shedlight.workings import Workings
from shedlight.workings.field import Field, field_of
from shedlight.workings.surface_states import SurfaceStates, slot_of, surface_states, tips_of

NAME = "quay-24kv"
VOLTAGE = 12e3


@cache
def field() -> Field:
    work = Workings(example(NAME))
    return field_of(work.installation, work.section)


@cache
def stress() -> Scene:
    work = Workings(example(NAME))
    return surface_stress(field(), VOLTAGE, start=slot_of(work), sheds=tips_of(work, field()))


@cache
def states() -> SurfaceStates:
    return surface_states(Workings(example(NAME)))


PICTURED: dict[str, Callable[[], Scene]] = {
    "stress": stress,
    "voltage": lambda: surface_voltage(states()),
    "field": lambda: surface_field(states()),
}


def highest(scene: Scene, panel: int, curve: int) -> float:
    """The highest point of a curve as drawn, as a share of its frame."""
    item = [i for i in scene.layer(f"{panel}-curves").items if isinstance(i, Drawn)][curve]
    (box, *_) = [i for i in scene.layer(f"{panel}-axes").items if isinstance(i, Drawn) and i.pen]
    ys = [spot.y for spot in box.paths[0].spots]
    tops = [spot.y for path in item.paths for spot in path.spots]
    return (max(ys) - min(tops)) / (max(ys) - min(ys))


def scale_of(scene: Scene, panel: int) -> float:
    """The largest number along the upright axis of a panel."""
    texts = [t for t in scene.layer(f"{panel}-labels").items if isinstance(t, Text)]
    return max(float(t.text) for t in texts if t.anchor == "end" and t.text[:1].isdigit())


@pytest.mark.parametrize(
    ("panel", "curve", "edge", "region", "part"),
    [
        (1, 0, "air side", "air", "tangential"),
        (1, 1, "air side", "air", "normal"),
        (2, 0, "oil side", "tank oil", "tangential"),
        (2, 1, "oil side", "tank oil", "normal"),
        (3, 0, "stem", "oil", "normal"),
    ],
)
def test_the_top_of_a_drawn_curve_is_the_largest_field(
    panel: int, curve: int, edge: str, region: str, part: str
) -> None:
    seen = field().surface(edge, region)
    inside = (seen.lengths > CLEAR) & (seen.lengths < seen.lengths[-1] - CLEAR)
    largest = np.abs(getattr(seen, part)[inside]).max() * VOLTAGE / 1e6

    drawn = highest(stress(), panel, curve) * scale_of(stress(), panel)
    assert drawn == pytest.approx(largest, rel=0.01)


def test_oil_is_read_from_the_cover_down() -> None:
    seen = field().surface("oil side", "tank oil")
    under = Workings(example(NAME)).section.heights.cover_underside

    assert seen.points[0][1] == pytest.approx(under, abs=1e-4)
    assert seen.points[-1][1] < under


def test_sheds_are_marked_in_air() -> None:
    work = Workings(example(NAME))
    lines = [i for i in stress().layer("1-axes").items if isinstance(i, Drawn) and i.pen]
    ticks = [path.spots for item in lines for path in item.paths if len(path.spots) == 2]
    top = min(spot.y for item in lines for path in item.paths for spot in path.spots)
    tips = [a for a, b in ticks if a.y == top and b.y > top]

    assert len(tips) == len(work.section.sheds)


@pytest.mark.parametrize("which", PICTURED)
def test_lettering_stays_on_the_sheet_and_apart(which: str) -> None:
    scene = PICTURED[which]()
    texts = list(scene.texts)
    for n, one in enumerate(texts):
        assert one.box.left >= 0, one.text
        assert one.box.right <= scene.width + 1.5, one.text
        assert one.box.bottom <= scene.height, one.text
        for other in texts[n + 1 :]:
            assert not one.box.meets(other.box), (one.text, other.text)


@pytest.mark.parametrize("which", PICTURED)
def test_pictures_are_small_and_curves_told_apart_by_dash(which: str) -> None:
    scene = PICTURED[which]()
    assert len(paint(scene).encode()) < 1_000_000
    for layer in scene.layers:
        if layer.name.endswith("-curves"):
            pens = [item.pen for item in layer.items if isinstance(item, Drawn) and item.pen]
            assert len({pen.dashes for pen in pens}) == len(pens)


@pytest.mark.parametrize("which", ["voltage", "field"])
def test_bars_show_where_rain_strikes(which: str) -> None:
    scene = PICTURED[which]()
    bars = [i for i in scene.layer("1-axes").items if isinstance(i, Drawn) and i.fill]
    spots: list[list[Spot]] = [list(path.spots) for item in bars for path in item.paths]

    wet = [item for item in states().rain if item.wet]
    assert len(spots) == len(wet)
    widths = [abs(s[-1].x - s[0].x) for s in spots]
    lengths = [item.length for item in wet]
    assert np.ptp(np.array(widths) / np.array(lengths)) < 1e-6 * max(widths) / min(lengths)
    assert all(s[0].y - s[1].y == pytest.approx(STRIP) for s in spots)


def test_all_three_states_stand_in_one_figure() -> None:
    for which in ("voltage", "field"):
        said = {text.text for text in PICTURED[which]().texts}
        assert {reading.name for reading in states().readings} <= said


@pytest.mark.parametrize("picture", ["stress", "surface-voltage", "surface-field"])
def test_every_picture_can_be_written(picture: str) -> None:
    assert picture in PICTURES
    assert picture_file(example("inland-12kv"), picture, "svg").startswith(b"<svg")
