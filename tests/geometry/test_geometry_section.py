"""The section: closed regions that tile the half box, each inner edge between two of them."""

import math
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
import shapely
from hypothesis import given, settings

from geometry.bodies import FLANGE, SHEDS, SMOOTH, built, everyday, sections
from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.curves import TOUCH, Arc
from shedlight.geometry.outline import body_radius
from shedlight.geometry.section import OUTSIDE, Section, build_section
from shedlight.given.bushing import Installation
from shedlight.given.changing import changed
from shedlight.given.reading import read
from strategies import installations

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
REGIONS = {
    "air",
    "clamps",
    "clearance",
    "conductor",
    "cover",
    "gasket",
    "oil",
    "porcelain",
    "tank oil",
}
MANY = 1200


def assert_sound(section: Section) -> None:
    """Everything a field solver relies on."""
    assert {region.name for region in section.regions} == REGIONS
    assert_edges_shared(section)
    polygons = {name: section.polygon(name) for name in sorted(REGIONS)}
    for name, polygon in polygons.items():
        outline = section.outline(name)
        assert outline.start.to(outline.end) <= TOUCH, name
        assert polygon.is_valid, name
        assert polygon.exterior.is_ccw, name
        assert polygon.area > 0, name
        assert all(piece.length > 0 for piece in outline.pieces), name
        assert min(r for r, _ in polygon.exterior.coords) > -TOUCH, name
    far = section.curve("far air")
    height = far.start.z - section.curve("far oil").end.z
    whole = far.end.r * height
    # No gap: the areas fill the box. No overlap: no two of them share more than their edges.
    assert math.fsum(p.area for p in polygons.values()) == pytest.approx(whole, rel=1e-10)
    union = shapely.union_all(list(polygons.values()), grid_size=1e-12)
    assert union.area == pytest.approx(whole, rel=1e-9)


def assert_edges_shared(section: Section) -> None:
    """Each edge is walked forwards round its left and backwards round its right region."""
    walked = Counter(
        (edge, region.name, forward)
        for region in section.regions
        for edge, forward in region.boundary
    )
    expected: Counter[tuple[str, str, bool]] = Counter()
    for name, edge in section.edges.items():
        assert edge.name == name
        assert edge.left != edge.right
        expected.update(
            (name, side, forward)
            for side, forward in ((edge.left, True), (edge.right, False))
            if side != OUTSIDE
        )
    assert walked == expected


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: str(path.stem))
def test_examples(path: Path) -> None:
    installation = read(path)
    assert_sound(build_section(installation.bushing, installation.transformer))


def test_the_examples_were_found() -> None:
    assert len(EXAMPLES) >= 3


RIBBED = SHEDS | {"ribs": 2, "rib_depth": 12e-3}
ALTERNATING = SHEDS | {"form": "alternating", "short_overhang": 25e-3}
SLIVERS = (0.0, 1e-12, -1e-12, 1e-9, -1e-9, 1e-7, -1e-7, 1e-6, 1e-5, -1e-5)
CASES = {
    "smooth": SMOOTH,
    "flange": FLANGE,
    "smooth in a flange": {**SMOOTH, **FLANGE},
    "narrowing": {"porcelain__top_wall": 8e-3},
    "narrowing in a flange": {"porcelain__top_wall": 8e-3, **FLANGE},
    "widening": {"porcelain__top_wall": 20e-3, "cap__diameter": 76e-3},
    "ribs": {"sheds": RIBBED, "porcelain__top_wall": 10e-3},
    "alternating": {"sheds": ALTERNATING},
    "alternating with ribs": {"sheds": ALTERNATING | {"ribs": 2, "rib_depth": 8e-3}},
    "one shed": {"sheds": SHEDS | {"count": 1}},
    "flat sheds": {"sheds": SHEDS | {"top_slope": 0.0, "under_slope": 0.0}},
    "shield wider": {"oil_end__shield_diameter": 90e-3},
    "shield narrower": {"oil_end__shield_diameter": 48e-3},
    "no taper in oil": {"oil_end__end_diameter": 68e-3},
    "cap as the body": {"cap__diameter": 68e-3},
    "cap wider": {"cap__diameter": 200e-3},
    "terminal as the cap": {"terminal__diameter": 68e-3},
    "stud as the shield": {"oil_end__stud_diameter": 58e-3},
    "ring as the collar": {"fixing__outer_diameter": 120e-3},
    "thin cover": {"cover_thickness": 2e-3, "gasket__compressed_thickness": 0.5e-3},
    "short taper": {"oil_end__taper_length": 1e-3, "oil_end__shield_diameter": 40e-3},
}


@pytest.mark.parametrize("changes", CASES.values(), ids=CASES.keys())
def test_every_kind_of_body(changes: dict[str, object]) -> None:
    assert_sound(built(**changes))


@pytest.mark.parametrize("sliver", SLIVERS)
@pytest.mark.parametrize(
    ("field", "flush"),
    [
        ("oil_end__shield_diameter", 56e-3),
        ("oil_end__stud_diameter", 58e-3),
        ("cap__diameter", 68e-3),
        ("terminal__diameter", 68e-3),
        ("fixing__outer_diameter", 120e-3),
        ("oil_end__end_diameter", 68e-3),
        ("porcelain__top_wall", 16e-3),
    ],
)
def test_faces_all_but_flush(field: str, flush: float, sliver: float) -> None:
    """Less than a hundredth of a millimetre is nothing: no face is thinner than that."""
    section = built(**{field: flush + sliver})
    assert_sound(section)
    shortest = min(piece.length for edge in section.edges.values() for piece in edge.curve.pieces)
    assert shortest > 1e-6


@pytest.mark.parametrize("sliver", [0.0, 1e-7, -1e-7])
def test_a_shield_all_but_as_wide_as_the_end_is_as_wide(sliver: float) -> None:
    section = built(oil_end__shield_diameter=56e-3 + sliver)
    assert section.radii.shield == section.radii.oil_end


def test_random_bodies() -> None:
    """Regions closed, counter-clockwise, tiling, edges shared; the seed tells which one failed."""
    found = 0
    for seed, section in sections("section", MANY):
        found += 1
        try:
            assert_sound(section)
        except AssertionError as failure:
            raise AssertionError(f"body of seed {seed!r}") from failure
    assert found > MANY / 2


@settings(max_examples=60)
@given(installations())
def test_bodies_of_the_whole_range(installation: Installation) -> None:
    assert_sound(build_section(installation.bushing, installation.transformer))


# --- what lies where -----------------------------------------------------------------------


def test_the_air_side_of_clamps_starts_in_the_slot_and_ends_at_the_cap() -> None:
    section = built()
    face, r, h = section.curve("air side"), section.radii, section.heights
    assert (face.start.r, face.start.z) == (r.ring_inner, h.shoulder)
    assert (face.end.r, face.end.z) == (r.top_body, h.cap_base)


def test_the_air_side_of_a_flange_starts_on_its_edge() -> None:
    section = built(**FLANGE)
    face, r, h = section.curve("air side"), section.radii, section.heights
    assert (face.start.r, face.start.z) == (r.body, h.clamp_top)
    assert section.curve("clamps").start == face.start


def test_heights_add_up() -> None:
    h = built().heights
    assert h.seat == 5.6e-3
    assert h.shoulder - h.seat == pytest.approx(25e-3)
    assert h.clamp_top - h.shoulder == pytest.approx(14e-3)
    assert h.cap_base - h.clamp_top == pytest.approx(290e-3)
    assert h.seat - h.oil_end == pytest.approx(150e-3)
    assert h.taper_start - h.oil_end == pytest.approx(60e-3)
    assert h.cover_underside == -10e-3
    assert h.oil_end - h.shield_bottom == pytest.approx(24e-3)
    assert h.shield_bottom - h.bottom == pytest.approx(40e-3)
    assert h.top - h.cap_top == pytest.approx(60e-3)


@pytest.mark.parametrize("top_wall", [16e-3, 6e-3, 22e-3])
def test_faces_of_sheds_slope_as_given_up_to_the_trunk(top_wall: float) -> None:
    """On a tapered trunk too: from the tip's edge along the slope to a point on the trunk."""
    top, under, half = math.radians(15), math.radians(6), 4.5e-3
    section = built(porcelain__top_wall=top_wall, cap__diameter=90e-3)
    for shed in section.sheds:
        for root, edge, slope in (
            (shed.top_root, shed.tip_height + half, top),
            (shed.under_root, shed.tip_height - half, under),
        ):
            trunk = body_radius(root, section.heights, section.radii)
            rise = (root - edge) / (shed.tip_radius - trunk)
            assert rise == pytest.approx(math.tan(slope), rel=1e-9)


def test_volumes_of_a_smooth_bushing() -> None:
    """Cylinders and rings by hand; roundings of a few millimetres are all that differs."""
    section = built(**SMOOTH, oil_end__end_diameter=68e-3, oil_end__taper_length=1e-3)
    height = section.heights.cap_base - section.heights.oil_end
    oil = math.pi / 4 * (36e-3**2 - 20e-3**2) * height
    assert section.outline("oil").enclosed_volume == pytest.approx(oil, rel=1e-12)
    body = math.pi / 4 * (68e-3**2 - 36e-3**2) * height
    collar = math.pi / 4 * (120e-3**2 - 68e-3**2) * 25e-3
    porcelain = section.outline("porcelain").enclosed_volume
    assert porcelain == pytest.approx(body + collar, rel=2e-3)
    gasket = math.pi / 4 * (116e-3**2 - 78e-3**2) * 5.6e-3
    assert section.outline("gasket").enclosed_volume == pytest.approx(gasket, rel=1e-12)


@cache
def reference() -> Section:
    return built()


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("mounting_angle", 0.5),
        ("lowest_oil_level", -0.5),
        ("highest_oil_level", 5.0),
        ("phase_spacing", 1.0),
        ("earth_distance", 1.0),
        ("tank_clearance", 0.5),
        ("cover_metal", "aluminium"),
        ("breathing", "free"),
        ("top_oil_temperature", 350.0),
        ("hole_bled", True),
    ],
)
def test_only_hole_and_cover_of_the_transformer_shape_the_section(
    field: str, value: object
) -> None:
    bushing, transformer = everyday()
    other = build_section(bushing, transformer.model_copy(update={field: value}))
    assert dict(other.edges) == dict(reference().edges)


@pytest.mark.parametrize("field", ["hole_diameter", "cover_thickness"])
def test_hole_and_cover_do(field: str) -> None:
    bushing, transformer = everyday()
    value = getattr(transformer, field) - 1e-3
    other = build_section(bushing, transformer.model_copy(update={field: value}))
    assert dict(other.edges) != dict(reference().edges)


@pytest.mark.parametrize(
    ("field", "value"),
    [("conductor__metal", "brass"), ("porcelain__glaze", "none"), ("porcelain__material", "C-110")],
)
def test_no_material_shapes_the_section(field: str, value: str) -> None:
    assert dict(built(**{field: value}).edges) == dict(reference().edges)


def test_the_rounding_of_the_collar_is_drawn_as_described() -> None:
    quay = next(path for path in EXAMPLES if path.stem == "quay-24kv")
    usual = read(quay)
    for radius in (0.001, 0.005):
        case = changed(usual, bushing__porcelain__collar_rounding=radius)
        section = build_section(case.bushing, case.transformer)
        arcs = [piece for piece in section.curve("air side").pieces if isinstance(piece, Arc)]
        assert arcs[0].radius == pytest.approx(radius)
        assert_sound(section)
    wide = changed(usual, bushing__porcelain__collar_rounding=0.045)
    with pytest.raises(ImpossibleShapeError, match="collar_rounding"):
        build_section(wide.bushing, wide.transformer)
