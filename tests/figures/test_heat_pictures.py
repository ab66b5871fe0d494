"""The pictures of heat against what they are made from."""

from itertools import pairwise

import numpy as np
import pytest

import shedlight as sl
from figures.subjects import example
from shedlight.cli.commands import Picture
from shedlight.documents.heat_pictures import HEAT_PICTURES
from shedlight.documents.pictures import PICTURES, picture_file
from shedlight.errors import RequestError
from shedlight.figures.heat import along_conductor, day_load, heat_paths
from shedlight.figures.heat_section import SHADES, temperature_section
from shedlight.figures.scene import Drawn, Scene, Text
from shedlight.physics.heat.day import SAMPLES
from shedlight.workings import Workings
from shedlight.workings.heat import Steady
from shedlight.workings.heat.loading import Loading
from shedlight.workings.heat.section import SectionHeat, section_heat

ZERO = 273.15


def words(scene: Scene) -> list[str]:
    return [item.text for layer in scene.layers for item in layer.items if isinstance(item, Text)]


@pytest.fixture(scope="module")
def work() -> Workings:
    return Workings(example("quay-24kv"))


@pytest.fixture(scope="module")
def steady(work: Workings) -> Steady:
    found = work.heat.steady
    assert isinstance(found, Steady)
    return found


@pytest.fixture(scope="module")
def solved(work: Workings, steady: Steady) -> SectionHeat:
    found = section_heat(
        work.installation, work.section, work.measures, steady.safe, work.heat.cover
    )
    assert isinstance(found, SectionHeat)
    return found


def luminance(colour: str) -> float:
    red, green, blue = (int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_shades_grow_darker_with_heat_in_grey_print_too() -> None:
    grey = [luminance(shade) for shade in SHADES]
    assert all(one - other > 0.05 for one, other in pairwise(grey))


def test_the_section_names_its_isotherms_and_its_conditions(
    work: Workings, solved: SectionHeat
) -> None:
    scene = temperature_section(work.installation, work.section, work.measures, solved.field)
    told = words(scene)
    named = {float(item.text) for item in scene.layer("names").items if isinstance(item, Text)}
    low = min(a for a, _ in solved.field.extremes.values()) - ZERO
    high = max(b for _, b in solved.field.extremes.values()) - ZERO
    assert len(named) >= 4
    assert all(low < level < high for level in named)
    assert any(word.startswith("at 630 A") for word in told)
    assert any("noon sun" in word for word in told)
    fills = [item for item in scene.layer("temperature").items if isinstance(item, Drawn)]
    assert 4 <= len(fills) <= len(SHADES)


def test_a_named_isotherm_stands_where_the_field_has_its_temperature(
    work: Workings, solved: SectionHeat
) -> None:
    scene = temperature_section(work.installation, work.section, work.measures, solved.field)
    place = scene.placement
    checked = 0
    for item in scene.layer("names").items:
        if not isinstance(item, Text):
            continue
        r = (item.x - place.axis) / place.scale
        z = (place.cover_top - item.y) / place.scale
        around = np.array([(r + a, z + b) for a in (-1e-3, 0, 1e-3) for b in (-1e-3, 0, 1e-3)])
        seen = solved.field.at(around[:, 0], around[:, 1]) - ZERO
        seen = seen[np.isfinite(seen)]
        assert seen.min() - 2.5 <= float(item.text) <= seen.max() + 2.5
        checked += 1
    assert checked >= 4


def test_the_conductor_is_drawn_with_what_decides(work: Workings, steady: Steady) -> None:
    told = words(along_conductor(work.section, steady))
    assert "poor films: decides" in told
    assert "middle of the films" in told
    assert "height above the cover, mm" in told


def test_the_day_shows_five_temperatures_and_its_load(work: Workings) -> None:
    loading = work.heat.loading
    assert isinstance(loading, Loading)
    told = words(day_load(loading.course))
    for name in ("conductor, hottest place", "top oil of the tank", "oil inside", "porcelain"):
        assert name in told
    assert told.count("hour of the day") == 2
    shown = loading.course.hot_spot[SAMPLES // 2 :: SAMPLES].max()
    assert shown == pytest.approx(loading.course.highest, abs=0.2)


def test_bars_of_heat_add_up(steady: Steady) -> None:
    """What is written beside the bars: in and out differ by no more than their last digits."""
    rows = [item for item in words(heat_paths(steady)) if item.startswith(("in: ", "out: "))]
    watts = [w for w in words(heat_paths(steady)) if w.endswith(" W")]
    values = [float(w[:-2].replace("−", "-")) for w in watts]
    made = sum(v for row, v in zip(rows, values, strict=True) if row.startswith("in"))
    gone = sum(v for row, v in zip(rows, values, strict=True) if row.startswith("out"))
    assert made == pytest.approx(gone, rel=0.005)
    assert made == pytest.approx(steady.safe.generated, rel=0.005)


@pytest.mark.parametrize("name", sorted(HEAT_PICTURES))
def test_every_picture_of_heat_is_drawn_and_small(name: str) -> None:
    assert name in PICTURES
    assert name in {picture.value for picture in Picture}
    svg = picture_file(example("inland-12kv"), name, "svg")
    assert svg.startswith(b"<svg")
    assert len(svg) < 1_000_000


@pytest.mark.parametrize("name", sorted(HEAT_PICTURES))
def test_what_runs_away_cannot_be_drawn_and_says_why(name: str) -> None:
    wild = sl.changed(example("inland-12kv"), duty__rated_current=6000.0)
    with pytest.raises(RequestError, match="steady"):
        HEAT_PICTURES[name](wild)


def test_oil_below_the_cap_has_no_field_of_heat_and_says_so() -> None:
    low = sl.changed(example("inland-12kv"), transformer__lowest_oil_level=0.2)
    with pytest.raises(RequestError, match="oil"):
        HEAT_PICTURES["temperature"](low)
