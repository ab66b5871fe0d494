"""The section drawing: true to scale, legible, and only with numbers of the records."""

import itertools
import re

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings

from figures.subjects import NAMES, drawable, example, subjects
from figures.svg_reading import ids, layer, length, path_data, root_of
from shedlight.errors import CalculationError, InputError
from shedlight.figures.hatching import strokes
from shedlight.figures.millimetres import given as written
from shedlight.figures.millimetres import measured
from shedlight.figures.painters.svg import FINE, paint
from shedlight.figures.scene import Box, Drawn, Layer, Scene, Spot, Text, To
from shedlight.figures.section import Mark, place_names, section_drawing
from shedlight.figures.section.legend import CAUTION
from shedlight.figures.section.materials import LOOKS
from shedlight.figures.sheet import SCALES, SIZES, frame_of
from shedlight.geometry.curves import Point
from shedlight.given.bushing import Installation
from shedlight.given.changing import changed
from strategies import installations

LAYERS = {
    "colour", "hatching", "outline", "fittings", "axis", "creepage path", "arcing path",
    "oil path", "oil level", "dimensions", "labels", "marks", "sheet",
}  # fmt: skip
every = pytest.mark.parametrize("name", NAMES)


def _words(scene: Scene, *layers: str) -> set[str]:
    return {
        item.text
        for each in scene.layers
        if not layers or each.name in layers
        for item in each.items
        if isinstance(item, Text)
    }


# --- true to scale -------------------------------------------------------------------------


@every
def test_drawn_paths_are_as_long_as_the_measured_ones(name: str) -> None:
    """Read back from the SVG, arcs and all, and multiplied by the scale."""
    subject = subjects()[name]
    scene = subject.full()
    root = root_of(paint(scene))
    for which, true in (
        ("creepage path", subject.measures.creepage_length),
        ("arcing path", subject.measures.arcing.length),
        ("oil path", subject.measures.oil_path.length),
    ):
        drawn = length(path_data(layer(root, which))[0]) / FINE / scene.placement.scale

        assert drawn == pytest.approx(true, rel=2e-3)


@every
def test_scale_is_a_standard_one_and_the_largest_that_fits(name: str) -> None:
    scene = subjects()[name].full()
    scale = scene.placement.scale / 1e3
    assert scale in SCALES
    assert (scene.width, scene.height) in SIZES.values()

    larger = [other for other in SCALES if other > scale]
    heights = subjects()[name].section.heights
    tall = (heights.top - heights.bottom) * 1e3
    wide = max(item.box.right for item in scene.texts if item.turned) - scene.placement.axis
    for other in larger:
        too_tall = tall * other > frame_of("A3").height - 30
        too_wide = wide * other / scale > 100
        assert too_tall or too_wide or other > 2.4 * scale


def test_the_scale_shown_is_the_scale_drawn() -> None:
    scene = subjects()["quay"].full()

    assert scene.placement.scale == 500
    assert "1:2" in _words(scene, "sheet")
    assert "1:5" in _words(subjects()["quarry"].full(), "sheet")


def test_a_wanted_sheet_is_taken() -> None:
    quay = subjects()["quay"]

    assert (quay.full("A4").width, quay.full("A4").placement.scale) == (210, 200)
    assert (quay.full("A3").width, quay.full("A3").placement.scale) == (297, 500)


# --- legible -------------------------------------------------------------------------------


def _clashes(scene: Scene) -> list[str]:
    """Lettering off the sheet, over other lettering, or over a straight line."""
    texts = list(scene.texts)
    paper = Box(0, 0, scene.width, scene.height)
    found = [text.text for text in texts if not _holds(paper, text.box)]
    found += [
        f"{a.text} | {b.text}"
        for a, b in itertools.combinations(texts, 2)
        if a.box.meets(b.box, -0.05)
    ]
    lines = [
        ends
        for each in scene.layers
        if each.name not in ("colour", "hatching", "marks")
        for ends in _straight(each)
    ]
    for text in texts:
        inner = text.box.grown(-0.15)
        found += [f"line over {text.text}" for a, b in lines if _crosses(a, b, inner)]
    return found


def _holds(outer: Box, inner: Box) -> bool:
    return (
        outer.left <= inner.left
        and inner.right <= outer.right
        and outer.top <= inner.top
        and inner.bottom <= outer.bottom
    )


def _straight(each: Layer) -> list[tuple[Spot, Spot]]:
    found = []
    for item in each.items:
        if isinstance(item, Drawn) and item.pen:
            for path in item.paths:
                place = path.start
                for step in path.steps:
                    if isinstance(step, To):
                        found.append((place, step.end))
                    place = step.end
    return found


def _crosses(a: Spot, b: Spot, box: Box) -> bool:
    """Liang and Barsky's test of a straight line against a box."""
    low, high = 0.0, 1.0
    for start, run, least, most in (
        (a.x, b.x - a.x, box.left, box.right),
        (a.y, b.y - a.y, box.top, box.bottom),
    ):
        if run == 0:
            if not least < start < most:
                return False
            continue
        first, second = sorted(((least - start) / run, (most - start) / run))
        low, high = max(low, first), min(high, second)
    return low < high


@pytest.mark.parametrize("sheet", [None, "A4"])
@every
def test_lettering_stands_clear(name: str, sheet: None) -> None:
    assert _clashes(subjects()[name].full(sheet)) == []


# Not shrunk: simpler bushings take minutes to find and tell no more.
@settings(
    max_examples=25,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.generate),
)
@given(installations())
def test_lettering_stands_clear_on_any_bushing(installation: Installation) -> None:
    try:
        subject = drawable(installation)
    except CalculationError:
        assume(False)  # no taut string was found: the geometry's own finding

    assert _clashes(subject.full()) == []


@every
def test_everything_lies_on_the_sheet(name: str) -> None:
    scene = subjects()[name].full()
    for each in scene.layers:
        for item in each.items:
            if isinstance(item, Drawn):
                for spot in itertools.chain.from_iterable(path.spots for path in item.paths):
                    assert 0 <= spot.x <= scene.width
                    assert 0 <= spot.y <= scene.height


def test_materials_differ_without_colour() -> None:
    """In black and white each pair of materials still differs in angle, spacing or dashes."""
    ring = [Spot(0, 0), Spot(9, 0), Spot(9, 4), Spot(0, 4)]
    prints = {
        name: strokes([ring], look.hatch) if look.hatch else look.solid
        for name, look in LOOKS.items()
    }

    assert all(prints.values())
    assert len(set(prints.values())) == len(prints)


# --- the numbers ---------------------------------------------------------------------------


@every
def test_main_dimensions_are_those_of_the_records(name: str) -> None:
    subject = subjects()[name]
    heights, radii = subject.section.heights, subject.section.radii
    words = _words(subject.full(), "dimensions")

    lengths = [
        heights.cap_base - heights.clamp_top,
        heights.top,
        heights.seat - heights.oil_end,
    ]
    radial = [
        radii.hole, radii.body, radii.bore, radii.conductor, radii.collar, radii.cap,
        radii.shield, radii.stud, radii.ring_outer,
    ]  # fmt: skip
    expected = {written(value) for value in lengths}
    expected |= {f"Ø {written(2 * value)}" for value in radial}
    sheds = subject.section.sheds
    if sheds:
        expected.add(f"Ø {written(2 * max(shed.tip_radius for shed in sheds))}")
        expected.add(written(sheds[0].tip_height - heights.clamp_top))
    pair = subject.installation.bushing.horns
    if pair:
        expected.add(written(pair.gap))
    assert expected <= words


@every
def test_lengths_of_the_paths_are_in_the_key(name: str) -> None:
    subject = subjects()[name]
    words = _words(subject.full(), "sheet")

    assert f"Creepage distance {measured(subject.measures.creepage_length)} mm" in words
    assert f"Arcing distance {measured(subject.measures.arcing.length)} mm" in words
    assert f"Oil path {measured(subject.measures.oil_path.length)} mm" in words


def test_a_changed_record_changes_the_number() -> None:
    longer = drawable(changed(example("quay-24kv"), bushing__porcelain__air_length="312.5 mm"))

    assert "312.5" in _words(longer.full(), "dimensions")
    assert "312.5" not in _words(subjects()["quay"].full(), "dimensions")


def test_title_block_says_what_it_must() -> None:
    words = _words(subjects()["quay"].full(), "sheet")

    assert {"24 kV", "630 A", "1:2", "mm", "upright", CAUTION} <= words
    assert "Date" not in words
    quay = subjects()["quay"]
    dated = section_drawing(quay.installation, quay.section, quay.measures, date="3 May 2031")
    assert {"Date", "3 May 2031"} <= _words(dated, "sheet")


def test_a_long_name_is_shortened_in_the_block_and_whole_in_the_title() -> None:
    subject = subjects()["flange and tube"]
    scene = subject.full()
    bold = [t for t in scene.layer("sheet").items if isinstance(t, Text) and t.face == "bold"]

    assert bold[0].text.startswith("Ostrel Quay and the far longer name")
    assert any(text.text.endswith("…") for text in bold)
    assert scene.title.startswith(subject.installation.name)


def test_an_oil_level_beyond_the_picture_is_said_not_to_scale() -> None:
    assert "Underlined: not to scale." in " ".join(_words(subjects()["quay"].full(), "sheet"))
    assert "lowest oil level 560" in _words(subjects()["quay"].full(), "oil level")


def test_an_oil_level_within_the_picture_stands_at_its_height() -> None:
    scene = subjects()["low oil"].full()
    level = scene.placement.spot(0, 0.25).y
    marks = [
        path
        for item in scene.layer("oil level").items
        if isinstance(item, Drawn)
        for path in item.paths
        if path.closed and len(path.spots) == 3
    ]

    assert any(path.start.y == pytest.approx(level) for path in marks)
    oil = path_data(layer(root_of(paint(scene)), "hatching"))
    assert oil


# --- the SVG -------------------------------------------------------------------------------


@every
def test_svg_is_well_formed_small_and_without_nan(name: str) -> None:
    for scene in (subjects()[name].full(), subjects()[name].plain()):
        svg = paint(scene)
        root = root_of(svg)

        assert len(svg.encode()) < 200_000
        assert not re.search(r"\bnan\b|\binf\b", re.sub(r">[^<]*<", "><", svg), re.IGNORECASE)
        assert all(name.startswith(scene.key) for name in ids(root))


def test_two_drawings_share_no_id() -> None:
    quay, inland = subjects()["quay"], subjects()["inland"]
    pages = [quay.full(), quay.plain(), inland.full(), quay.full("A4")]
    found = [ids(root_of(paint(scene))) for scene in pages]

    assert len(set(itertools.chain(*found))) == sum(map(len, found))


def test_full_drawing_has_every_layer_shown() -> None:
    scene = subjects()["quay"].full()

    assert {each.name for each in scene.layers} == LAYERS
    assert all(each.shown for each in scene.layers)
    assert all(each.items for each in scene.layers if each.name != "marks")


def test_plain_drawing_has_no_lettering_and_hides_the_paths() -> None:
    scene = subjects()["quay"].plain()

    assert not list(scene.texts)
    assert not {"dimensions", "labels", "sheet"} & {each.name for each in scene.layers}
    assert not scene.layer("creepage path").shown


def test_layers_shown_can_be_chosen() -> None:
    quay = subjects()["quay"]
    scene = section_drawing(
        quay.installation, quay.section, quay.measures, detail="plain", shown={"outline"}
    )

    assert {each.name for each in scene.layers if each.shown} == {"outline"}


# --- marks ---------------------------------------------------------------------------------


@every
def test_every_named_place_can_be_lit_up(name: str) -> None:
    subject = subjects()[name]
    places = place_names(subject.section)
    scene = subject.plain(*(Mark(place, f"#{i}") for i, place in enumerate(places)))
    said = [item for item in scene.layer("marks").items if isinstance(item, Text)]
    paper = Box(0, 0, scene.width, scene.height)

    lit = {place for i, place in enumerate(places) if f"#{i}" in {item.text for item in said}}
    without = {"horns"} if subject.installation.bushing.horns is None else set()
    assert lit == set(places) - without
    assert all(paper.left <= item.box.left and item.box.right <= paper.right for item in said)


def test_marks_do_not_move_the_drawing() -> None:
    quay = subjects()["quay"]
    marked = quay.full(None, Mark("horns", "a very long remark on the arcing horns of this one"))

    assert marked.placement == quay.full().placement


def test_a_point_is_ringed_where_it_is() -> None:
    scene = subjects()["quay"].plain(Mark(Point(0.05, 0.2)))
    ring = next(item for item in scene.layer("marks").items if isinstance(item, Drawn))
    spot = scene.placement.spot(0.05, 0.2)

    left, right, _ = ring.paths[0].spots
    assert ((left.x + right.x) / 2, left.y) == pytest.approx((spot.x, spot.y))


def test_an_unknown_place_is_refused_by_name() -> None:
    with pytest.raises(InputError, match=r"'nowhere'.*arcing path.*terminal"):
        subjects()["quay"].full(None, Mark("nowhere"))


def test_unknown_detail_and_sheet_are_refused() -> None:
    quay = subjects()["quay"]
    with pytest.raises(InputError, match=r"detail: given 'huge'"):
        section_drawing(quay.installation, quay.section, quay.measures, detail="huge")  # type: ignore[arg-type]
    with pytest.raises(InputError, match=r"sheet: given 'A9'"):
        quay.full("A9")  # type: ignore[arg-type]


def test_shield_rings_are_listed_where_there_are_any() -> None:
    words, bare = (_words(subjects()[name].full()) for name in ("ringed", "quay"))

    assert {"Live shield ring", "Earth shield ring"} <= words
    assert not {"Live shield ring", "Earth shield ring"} & bare
    assert "Ø 260, aluminium tube Ø 40" in words
