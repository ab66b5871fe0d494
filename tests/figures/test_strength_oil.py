"""Stress along the height, the section filled with stress, the sketch of levels and heads."""

import math
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import shedlight as sl
from shedlight.figures.oil import LABELS, SIZE, oil_levels
from shedlight.figures.painters.svg import paint
from shedlight.figures.scene import Drawn, Scene
from shedlight.figures.strength import stress_heights, stress_section
from shedlight.workings import Workings
from shedlight.workings.section_stress import SectionStress, problem_of, solved

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("inland-12kv", "quay-24kv", "quarry-36kv-cured")


@cache
def solved_work(name: str) -> Workings:
    return Workings(sl.read(EXAMPLES / f"{name}.toml"), with_field=True)


def stress(work: Workings) -> SectionStress:
    found = work.section_stress
    assert not isinstance(found, str)
    return found


def sketch(name: str, **changes: Any) -> Scene:
    case = sl.changed(sl.read(EXAMPLES / f"{name}.toml"), **changes)
    return oil_levels(case, Workings(case))


def words(scene: Scene) -> list[str]:
    return [text.text for text in scene.texts]


def lie_apart(scene: Scene) -> None:
    texts = list(scene.texts)
    for text in texts:
        box = text.box
        assert box.left >= 0.0, text.text
        assert box.top >= 0.0, text.text
        assert box.right <= scene.width, text.text
        assert box.bottom <= scene.height, text.text
    for index, text in enumerate(texts):
        for other in texts[index + 1 :]:
            assert not text.box.meets(other.box, -0.2), (text.text, other.text)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("lean", [0.0, 30.0, 60.0, 90.0])
def test_levels_and_heads_lie_apart_on_the_sheet(name: str, lean: float) -> None:
    scene = sketch(name, transformer__mounting_angle=math.radians(lean))

    lie_apart(scene)
    assert sum("kPa" in text for text in words(scene)) == 5
    assert len(paint(scene)) < 1e6


def test_levels_stand_at_their_heights() -> None:
    scene = sketch("quay-24kv")
    place = scene.placement
    lines = [item for item in scene.layer("levels").items if isinstance(item, Drawn)]
    at = sorted(path.start.y for item in lines for path in item.paths if len(path.spots) == 2)

    for level in (0.900, 0.560):
        assert min(abs(y - (place.cover_top - place.scale * level)) for y in at) < 1e-9


@pytest.mark.parametrize("lean", [0.0, 45.0, 90.0])
def test_no_two_leaders_cross(lean: float) -> None:
    scene = sketch("quay-24kv", transformer__mounting_angle=math.radians(lean))
    ways = [
        path.spots
        for item in scene.layer("heads").items
        for path in getattr(item, "paths", ())
        if len(path.spots) == 3 and not path.closed and path.spots[-1].x < LABELS
    ]

    assert len(ways) == 5
    for n, one in enumerate(ways):
        for other in ways[n + 1 :]:
            left = max(one[0].x, other[0].x)
            gaps = [_height(one, x) - _height(other, x) for x in (left + 0.01, one[1].x)]
            assert gaps[0] * gaps[1] > 0


def _height(way: Any, x: float) -> float:
    share = (x - way[0].x) / (way[1].x - way[0].x)
    return float(way[0].y + share * (way[1].y - way[0].y))


def test_a_cushion_has_no_conservator_and_unknown_heads_say_so() -> None:
    scene = sketch("quay-24kv", transformer__breathing="sealed cushion")

    assert not scene.layer("conservator").items
    assert any(text.startswith("? to") for text in words(scene))
    assert (scene.width, scene.height) == SIZE


@pytest.mark.parametrize("name", NAMES)
def test_heights_show_every_combination_and_the_limit(name: str) -> None:
    work = solved_work(name)
    plain, full = stress_heights(work), stress_heights(work, stress(work))

    lie_apart(full)
    said = words(full)
    assert "bending test" in said
    assert "bending test, solved surface" in said
    assert "bending test, solved surface" not in words(plain)
    assert "strength with safety in test and service" in said
    if name == "inland-12kv":
        assert {"short circuit", "earthquake"} <= set(said)


@pytest.mark.parametrize("name", NAMES)
def test_the_section_tells_its_peak_and_its_levels(name: str) -> None:
    work = solved_work(name)
    case, found = work.installation, stress(work)
    solution = solved(problem_of(case, work.section, work.loads))
    scene = stress_section(case, work.section, work.measures, solution, found)

    said = words(scene)
    assert f"{found.peak / 1e6:.3g} MPa" in said
    assert "pressed" in said
    levels = [float(text.removeprefix("above ")) for text in said if text.startswith("above ")]
    assert levels == sorted(levels, reverse=True)
    assert levels[0] < found.peak / 1e6
    assert levels[-1] == 0.0
    assert len(paint(scene)) < 1e6
    for item in scene.layer("legend").items:
        assert isinstance(item, Drawn) or item.box.right <= scene.width
