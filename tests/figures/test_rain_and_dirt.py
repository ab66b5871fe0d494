"""Pictures of rain and dirt: on their paper, small, and saying what was computed."""

import math
from functools import cache

import pytest

import shedlight as sl
from edits import EXAMPLES, NAMES
from shedlight.documents.surface_pictures import SURFACE_PICTURES
from shedlight.figures.painters.svg import paint
from shedlight.figures.scene import Scene, extent
from shedlight.geometry.shadow import dry_length
from shedlight.workings import Workings

QUICK = ("rain", "ways", "leakage", "flashover", "season")
LARGEST = 1_000_000  # bytes


def case(name: str) -> sl.Installation:
    lying = name == "lying"
    read = sl.read(EXAMPLES / f"{'quay-24kv' if lying else name}.toml")
    if not lying:
        return read
    rain = {"site__rain_rate": 20 / 3.6e6, "site__rain_wind": 8.0}
    return sl.changed(read, transformer__mounting_angle=math.pi / 2, **rain)


@cache
def picture(name: str, which: str) -> Scene:
    return SURFACE_PICTURES[which](case(name))


def told(scene: Scene) -> str:
    return " ".join(text.text for text in scene.texts)


@pytest.mark.parametrize("which", QUICK)
@pytest.mark.parametrize("name", [*NAMES, "lying"])
def test_everything_stands_on_the_paper(name: str, which: str) -> None:
    scene = picture(name, which)

    for layer in scene.layers:
        for item in layer.items:
            box = extent([item])
            assert box.left >= -0.1, (layer.name, item)
            assert box.right <= scene.width + 0.1, (layer.name, item)
            assert box.top >= -0.1, (layer.name, item)
            assert box.bottom <= scene.height + 0.1, (layer.name, item)
    assert len(paint(scene).encode()) < LARGEST


@pytest.mark.parametrize("which", ["wetting", "rain-angle"])
@pytest.mark.parametrize("name", ["quay-24kv", "lying"])
def test_maps_and_charts_stay_small(name: str, which: str) -> None:
    scene = picture(name, which)

    box = extent([item for layer in scene.layers for item in layer.items])
    assert box.left >= -0.1
    assert box.right <= scene.width + 0.1
    assert len(paint(scene).encode()) < LARGEST


@pytest.mark.parametrize("name", ["quarry-36kv", "lying"])
def test_legend_words_do_not_run_into_one_another(name: str) -> None:
    boxes = [text.box for text in picture(name, "rain").texts]

    assert not any(
        one.meets(other) for place, one in enumerate(boxes) for other in boxes[place + 1 :]
    )


def test_the_rain_picture_names_the_lengths_that_were_computed() -> None:
    work = Workings(case("quay-24kv"))
    dry = dry_length(work.rain.stated.stretches)

    assert f"dry: {1e3 * dry:.0f} mm" in told(picture("quay-24kv", "rain"))
    assert "fog wets everything" in told(picture("quay-24kv", "rain"))
    assert "Mounted 90° from upright" in told(picture("lying", "rain"))


def test_no_drop_falls_through_the_porcelain() -> None:
    """The lines of rain end where they first strike: none reaches into the body."""
    scene = picture("quay-24kv", "rain")
    work = Workings(case("quay-24kv"))
    place = scene.placement
    trunk = work.section.radii.body
    for path in (path for item in scene.layer("rain").items for path in item.paths):  # type: ignore[union-attr]
        for spot in path.spots:
            r, z = (spot.x - place.axis) / place.scale, (place.cover_top - spot.y) / place.scale
            inside = work.section.heights.shoulder < z < work.section.heights.cap_base
            assert not inside or abs(r) > trunk - 1e-6


def test_the_map_says_what_kind_of_rain_it_is() -> None:
    assert "The wet test's water" in told(picture("quay-24kv", "wetting"))
    natural = told(picture("lying", "wetting"))
    assert "Natural rain of 20 mm/h in wind of 8 m/s" in natural
    assert "from its upper side" in natural


def test_both_ways_are_drawn_with_their_lengths() -> None:
    words = told(picture("quay-24kv", "ways"))

    assert "along the surface: 606 mm" in words
    assert "through the air: 303 mm" in words


def test_bars_carry_every_rival_and_say_which_are_short() -> None:
    work = Workings(case("quarry-36kv"))
    words = told(picture("quarry-36kv", "flashover"))

    assert words.count("short by") + words.count("spare") == len(work.flashover.rivals) + 2
    assert f"{work.flashover.held / 1e3:.1f} kV, short by" in words


def test_a_season_leaves_what_rain_spares_dirtier() -> None:
    words = told(picture("quay-24kv", "season"))

    assert "what rain cannot wash stays dirty" in words
    assert "measure where it matters" in words
