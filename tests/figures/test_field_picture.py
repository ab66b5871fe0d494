"""The field's pictures against the field itself, read where they are painted."""

import math
import time
from functools import cache, reduce
from itertools import pairwise

import numpy as np
import pytest
import shapely

from figures.subjects import example
from shedlight.documents.field_pictures import FieldView, field_picture
from shedlight.documents.pictures import PICTURES
from shedlight.errors import RequestError
from shedlight.figures.field_layers import LEGEND, POTENTIALS, SHADES, Scale, areas_of
from shedlight.figures.field_section import field_section
from shedlight.figures.painters.svg import paint
from shedlight.figures.scene import Drawn, Scene, Text
from shedlight.figures.section.materials import SOLID
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.readings import read_at
from shedlight.workings import Workings, work_out
from shedlight.workings.field import fillings_of, problem_of, solved

NEAR = 0.05  # a grid line of 0.5 to 2 mm leaves the edge of a shade this far out


@cache
def painted() -> tuple[Scene, Solution, float]:
    installation = example("quay-24kv")
    work = work_out(installation)
    problem = problem_of(work.section, fillings_of(installation), installation.duty.frequency)
    solution, voltage = solved(problem), float(work.voltages.phase)
    scene = field_section(installation, work.section, work.measures, solution, voltage)
    return scene, solution, voltage


def shades() -> dict[str, shapely.Geometry]:
    """The area of each shade, even-odd."""
    areas: dict[str, shapely.Geometry] = {}
    for item in painted()[0].layer("field").items:
        assert isinstance(item, Drawn)
        assert item.fill is not None
        rings: list[shapely.Geometry] = [
            shapely.Polygon(path.spots).buffer(0) for path in item.paths
        ]
        areas[item.fill] = reduce(shapely.symmetric_difference, rings)
    return areas


def ranges() -> dict[str, tuple[float, float]]:
    """Least and most strength [kV/mm] the legend gives each shade."""
    items = painted()[0].layer("legend").items
    fills = [item.fill for item in items if isinstance(item, Drawn) and item.fill]
    lows = [
        0.0 if item.text.startswith("up to") else float(item.text.split()[-1])
        for item in items
        if isinstance(item, Text) and item.text.startswith(("above", "up to"))
    ]
    highs = [math.inf, *lows[:-1]]
    return dict(zip(fills, zip(lows, highs, strict=True), strict=True))


def spots() -> list[tuple[float, float, float]]:
    """Places in sight and their strength [kV/mm], by a fixed draw."""
    scene, solution, voltage = painted()
    place, draw = scene.placement, np.random.default_rng(24)
    x = draw.uniform(place.axis, scene.width - LEGEND - 0.1, 3000)
    y = draw.uniform(1.0, scene.height - 1.0, 3000)
    found = read_at(solution, (x - place.axis) / place.scale, (place.cover_top - y) / place.scale)
    return [
        (a, b, float(e))
        for a, b, e in zip(x, y, found.strength * voltage / 1e6, strict=True)
        if np.isfinite(e)
    ]


def test_every_shade_painted_stands_in_the_legend_from_dark_to_light() -> None:
    assert list(ranges()) == list(reversed(SHADES))
    assert set(shades()) <= set(ranges())


def test_the_shade_at_a_place_says_the_strength_at_that_place() -> None:
    areas, said = shades(), ranges()
    for area in areas.values():
        shapely.prepare(area)
    wrong = []
    seen = spots()
    for x, y, strength in seen:
        shade = next(s for s in reversed(areas) if shapely.intersects_xy(areas[s], x, y))
        low, high = said[shade]
        if not (1 - NEAR) * low <= strength <= (1 + NEAR) * high:
            wrong.append((x, y, strength, low, high))

    assert len(seen) > 1500
    assert len(wrong) <= 0.005 * len(seen), wrong[:5]


def test_only_the_field_and_its_legend_are_coloured() -> None:
    for layer in painted()[0].layers:
        fills = {item.fill for item in layer.items if isinstance(item, Drawn)} - {None}
        allowed = set(SHADES) if layer.name in ("field", "legend") else {"#ffffff", SOLID}
        assert fills <= allowed | {"#ffffff"}, layer.name


def test_equal_potentials_are_named_once_each_where_they_leave() -> None:
    scene = painted()[0]
    names = [t for t in scene.layer("equipotentials").items if isinstance(t, Text)]

    assert len(names) >= 4
    assert {t.text for t in names} <= {f"{level} %" for level in POTENTIALS}
    for n, one in enumerate(names):
        assert not any(one.box.meets(other.box) for other in names[n + 1 :])


@pytest.mark.parametrize("scale", ["log", "linear"])
def test_a_picture_is_painted_fast_and_small(scale: Scale) -> None:
    _, solution, voltage = painted()
    installation = example("quay-24kv")
    work = work_out(installation)
    before = time.process_time()
    scene = field_section(installation, work.section, work.measures, solution, voltage, scale=scale)
    svg = paint(scene)

    assert time.process_time() - before < 1.5
    assert len(svg.encode()) < 1_000_000
    steps = "logarithmic steps" if scale == "log" else "even steps"
    assert steps in {text.text for text in scene.texts}


def test_even_steps_are_even() -> None:
    _, solution, voltage = painted()
    installation = example("quay-24kv")
    work = work_out(installation)
    scene = field_section(
        installation, work.section, work.measures, solution, voltage, scale="linear"
    )
    said = [t.text for t in scene.layer("legend").items if isinstance(t, Text)]
    levels = [float(text.split()[-1]) for text in said if text.startswith("above")]

    assert np.ptp(np.diff(levels)) < 1e-9
    assert len(levels) >= 4


def test_nothing_of_the_legend_leaves_the_sheet() -> None:
    scene = painted()[0]
    for text in scene.texts:
        assert text.box.right <= scene.width + 0.1


@pytest.mark.parametrize("picture", ["field", "stress"])
def test_a_picture_names_its_voltage_to_earth(picture: str) -> None:
    scene, _, voltage = painted()
    scene = scene if picture == "field" else PICTURES[picture](example("quay-24kv"))

    assert f"{voltage / 1e3:.4g} kV rms to earth" in scene.title


@pytest.mark.parametrize("supposed", ["", "no-bushing", "no-sheds", "oil-drained"])
@pytest.mark.parametrize("name", ["inland-12kv", "quarry-36kv"])
def test_every_what_if_has_a_picture_of_its_field(name: str, supposed: str) -> None:
    scene = field_picture(example(name), FieldView(what_if=supposed))

    assert len(paint(scene).encode()) < 1_000_000
    drawn = [item for item in scene.layer("field").items if isinstance(item, Drawn)]
    assert len(drawn) >= 5
    assert scene.layer("field lines").items
    said = {text.text for text in scene.texts}
    assert ("oil level" in said) == (supposed in ("no-bushing", "oil-drained"))
    for text in scene.texts:
        assert text.box.right <= scene.width + 0.1, text.text


def test_pictures_of_what_ifs_stand_at_the_same_scale() -> None:
    placements = {
        field_picture(example("quay-24kv"), FieldView(what_if=supposed)).placement
        for supposed in ("", "no-bushing", "no-sheds", "oil-drained")
    }

    assert len({round(place.scale, 6) for place in placements}) == 1


def test_a_conductor_off_the_middle_has_no_picture() -> None:
    with pytest.raises(RequestError, match="not axisymmetric"):
        field_picture(example("quay-24kv"), FieldView(what_if="off-centre"))


def test_areas_of_a_solved_shape_are_those_of_the_section() -> None:
    section = Workings(example("quay-24kv")).section
    found = areas_of(painted()[1])

    for region in ("oil", "porcelain", "clearance", "gasket"):
        assert found[region].area == pytest.approx(section.polygon(region).area, rel=1e-4)


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour, as print in grey keeps it."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def test_shades_darken_step_by_step_in_grey() -> None:
    """Lightness (CIE L*) falls by at least 8 from shade to shade."""
    lightness = [116 * luminance(shade) ** (1 / 3) - 16 for shade in SHADES]

    assert all(a - b >= 8 for a, b in pairwise(lightness)), lightness
