"""Creepage against the fillet formula worked by hand; the taut string against exact tangents,
against Dijkstra over everything that sees everything, and against what no string can do."""

import math
from collections.abc import Iterator
from typing import Any

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies import (
    FLANGE,
    SHEDS,
    SMOOTH,
    built,
    everyday,
    random_body,
    scaled,
    sections,
)
from geometry.brute_force import SOLIDS, corners, shortest_string, solid_of
from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.curves import Curve, Point, chain, line
from shedlight.geometry.outline import body_radius
from shedlight.geometry.paths import air_creepage, arcing_path, oil_creepage, oil_path
from shedlight.geometry.section import Section, build_section
from shedlight.geometry.taut import Taut, taut_string
from shedlight.given.bushing import BulkBushing
from shedlight.given.transformer import Transformer

FEW, MANY = 20, 180
SAGGING = {
    "overhang": 60e-3,
    "under_slope": math.radians(40),
    "top_slope": math.radians(42),
    "pitch": 40e-3,
    "tip_radius": 1.5e-3,
}


# --- creepage ------------------------------------------------------------------------------


def by_hand(air_length: float, sheds: dict[str, Any]) -> float:
    """Creepage of plain sheds on a cylinder.

    Each shed replaces the length it takes up on the trunk by its two faces and its tip; each of
    its four corners, turning by t, saves R (2 tan(t/2) - t).
    """
    under, top = sheds["under_slope"], sheds["top_slope"]
    overhang, thickness = sheds["overhang"], sheds["tip_thickness"]
    faces = overhang / math.cos(under) + overhang / math.cos(top) + thickness
    trunk = thickness + overhang * (math.tan(top) - math.tan(under))
    saved = sum(2 * math.tan(t / 2) - t for t in (math.pi / 2 + under, math.pi / 2 - top))
    rounded = (sheds["root_radius"] + sheds["tip_radius"]) * saved
    count: int = sheds["count"]
    return air_length + count * float(faces - trunk - rounded)


@given(
    st.integers(1, 12),
    st.floats(20e-3, 90e-3),
    st.floats(0.0, 0.6),
    st.floats(0.0, 0.3),
    st.floats(1e-3, 5e-3),
    st.floats(1e-3, 3e-3),
)
def test_creepage_of_plain_sheds(
    count: int, overhang: float, top: float, more: float, root: float, tip: float
) -> None:
    sheds = SHEDS | {
        "count": count,
        "overhang": overhang,
        "top_slope": top + 0.2 * more,
        "under_slope": top,
        "root_radius": root,
        "tip_radius": tip,
        "tip_thickness": 12e-3,
        "pitch": 0.1,
        "first_tip": 60e-3,
    }
    air = 0.2 + 0.1 * count
    path = air_creepage(built(sheds=sheds, porcelain__air_length=air))
    assert path.length == pytest.approx(by_hand(air, sheds), rel=1e-11)


def test_creepage_of_a_smooth_cylinder_and_cone() -> None:
    assert air_creepage(built(**SMOOTH)).length == pytest.approx(290e-3, rel=1e-12)
    section = built(**SMOOTH, porcelain__top_wall=8e-3)
    low = body_radius(section.heights.clamp_top, section.heights, section.radii)
    path = air_creepage(section)
    assert path.start.r == pytest.approx(low, rel=1e-12)
    assert path.length == pytest.approx(math.hypot(290e-3, low - 26e-3), rel=1e-12)


@pytest.mark.parametrize("fixing", [{}, FLANGE], ids=["clamps", "flange"])
def test_creepage_runs_from_the_clamps_to_the_cap(fixing: dict[str, Any]) -> None:
    section = built(**fixing)
    path = air_creepage(section)
    assert path.start.z == pytest.approx(section.heights.clamp_top, abs=1e-12)
    assert (path.end.r, path.end.z) == (section.radii.top_body, section.heights.cap_base)


@pytest.mark.parametrize("fixing", [{}, FLANGE], ids=["clamps", "flange"])
def test_the_fixing_does_not_change_the_creepage_of_a_cylinder(fixing: dict[str, Any]) -> None:
    assert air_creepage(built(**fixing)).length == pytest.approx(
        by_hand(290e-3, built_sheds()), rel=1e-11
    )


def built_sheds() -> dict[str, Any]:
    """The everyday sheds with their defaults written out."""
    bushing, _ = everyday()
    assert bushing.sheds is not None
    return bushing.sheds.model_dump()


def test_a_root_rounding_that_dips_behind_the_clamps_is_cut_at_their_top() -> None:
    sheds = SHEDS | {"first_tip": 7e-3, "root_radius": 6e-3}
    section = built(sheds=sheds)
    path = air_creepage(section)
    top = section.heights.clamp_top
    shed = section.sheds[0]
    setback = 6e-3 * math.tan(math.radians(48))
    assert shed.under_root - setback < top < shed.under_root - 1e-3
    assert path.start.z == pytest.approx(top, abs=1e-12)
    assert path.start.r > section.radii.body


def test_oil_creepage_by_hand() -> None:
    """Cylinder down to the taper, the slanting taper, and no bare end face under a wide shield."""
    section = built()
    cylinder = 150e-3 - 5.6e-3 - 10e-3 - 60e-3
    expected = cylinder + math.hypot(60e-3, 6e-3)
    assert oil_creepage(section).length == pytest.approx(expected, rel=1e-12)


# --- strings whose length is known ---------------------------------------------------------


def test_a_smooth_body_in_a_flange_is_a_straight_line() -> None:
    string = arcing_path(built(**SMOOTH, **FLANGE))
    assert string.length == pytest.approx(290e-3, abs=1e-9)
    assert all(point.r == pytest.approx(34e-3, abs=1e-9) for point in string.points)


def test_a_smooth_body_in_clamps_is_a_straight_line_to_the_rounded_edge() -> None:
    section = built(**SMOOTH)
    centre = Point(section.radii.ring_inner + 2e-3, section.heights.clamp_top - 2e-3)
    cap = Point(section.radii.top_body, section.heights.cap_base)
    string = arcing_path(section)
    assert string.length == pytest.approx(centre.to(cap) - 2e-3, abs=2e-6)
    assert len(string.points) == 2


def test_wide_metal_faces_face_each_other_across_the_air_length() -> None:
    section = built(cap__diameter=220e-3, fixing__outer_diameter=220e-3)
    assert arcing_path(section).length == pytest.approx(290e-3, abs=1e-12)


def test_a_cap_beyond_the_clamps_flashes_to_the_cover_or_their_edge() -> None:
    """The straight way from the cap's rounded edge to the ring's, past all the sheds."""
    section = built(cap__diameter=400e-3, cap__edge_radius=5e-3, fixing__outer_diameter=300e-3)
    h = section.heights
    assert arcing_path(section).length == pytest.approx(h.cap_base - h.clamp_top, abs=1e-12)


def test_round_one_shed_half_way() -> None:
    """Tangents from the centres of two rounded edges to a round tip, and the arc between them."""
    edge, tip = 3e-3, 5e-3
    shed = {"count": 1, "overhang": 80e-3, "first_tip": 145e-3, "tip_thickness": 2 * tip}
    shed |= {"top_slope": 0.0, "under_slope": 0.0}
    section = built(
        sheds=SHEDS | shed,
        cap__diameter=150e-3,
        cap__edge_radius=edge,
        fixing=FLANGE["fixing"] | {"edge_radius": edge},
    )
    centre = Point(34e-3 + 80e-3 - tip, section.heights.clamp_top + 145e-3)
    below = Point(75e-3 - edge, section.heights.clamp_top - edge)
    away = below.to(centre)
    rising = math.atan2(centre.z - below.z, centre.r - below.r) - math.asin(tip / away)
    wrap = tip * (math.pi - 2 * rising)
    expected = 2 * (math.sqrt(away**2 - tip**2) - edge) + wrap
    assert arcing_path(section).length == pytest.approx(expected, abs=5e-6)


def test_in_oil_a_cylinder_is_a_straight_line_to_the_edge_of_the_hole() -> None:
    section = built(oil_end__end_diameter=68e-3, oil_end__shield_diameter=68e-3)
    start = Point(section.radii.hole, section.heights.cover_underside)
    end = Point(section.radii.oil_end, section.heights.oil_end)
    assert oil_path(section).length == pytest.approx(start.to(end), abs=1e-9)


def test_in_oil_a_wide_shield_faces_the_cover() -> None:
    section = built(oil_end__shield_diameter=140e-3)
    straight = section.heights.cover_underside - section.heights.oil_end
    assert oil_path(section).length == pytest.approx(straight, abs=1e-12)


# --- against brute force -------------------------------------------------------------------


def sagging_bodies() -> Iterator[tuple[str, Section]]:
    """Deep sheds that hang close to, beside and below the clamps."""
    for number, (first, outer, cap) in enumerate(
        [(5e-3, 122e-3, 68e-3), (12e-3, 150e-3, 180e-3), (20e-3, 260e-3, 68e-3)]
    ):
        sheds = SHEDS | SAGGING | {"count": 3, "first_tip": first}
        changes: dict[str, Any] = {"fixing__outer_diameter": outer, "cap__diameter": cap}
        yield f"sagging {number}", built(sheds=sheds, **changes)


def bodies_to_compare() -> list[tuple[str, Section]]:
    return [*sagging_bodies(), *sections("string", FEW)]


def test_strings_against_brute_force() -> None:
    """Dijkstra over everything that sees everything; metal studded every millimetre."""
    compared = 0
    for seed, section in bodies_to_compare():
        if len(section.sheds) > 5:
            continue
        compared += 1
        air = shortest_string(section, "air side", ["clamps", "cover top"], "cap")
        assert arcing_path(section).length == pytest.approx(air, abs=6e-5), seed
        oil = shortest_string(section, "oil side", ["hole wall", "cover underside"], "shield")
        assert oil_path(section).length == pytest.approx(oil, abs=6e-5), seed
    assert compared >= FEW / 2


def straight_distance(section: Section, earth: list[str], live: str) -> float:
    faces = [shapely.LineString(corners(section.curve(name))) for name in [*earth, live]]
    return float(shapely.distance(shapely.union_all(faces[:-1]), faces[-1]))


def ends_on(string: Taut, first: list[Curve], last: Curve) -> bool:
    def away(point: Point, faces: list[Curve]) -> float:
        lines = [shapely.LineString(corners(face, 1e-6)) for face in faces]
        return float(min(shapely.distance(line, shapely.Point(point.r, point.z)) for line in lines))

    return away(string.points[0], first) < 2e-5 and away(string.points[-1], [last]) < 2e-5


def test_strings_of_random_bodies_do_what_strings_must() -> None:
    """Not under straight, not over the surface, never through a solid, and from metal to metal."""
    for seed, section in sections("string", MANY):
        solid = solid_of(section, *SOLIDS)
        for string, face, earth, live, gap in (
            (
                arcing_path(section),
                air_creepage(section),
                ["clamps", "cover top"],
                "cap",
                section.radii.ring_inner - section.radii.body,
            ),
            (
                oil_path(section),
                oil_creepage(section),
                ["hole wall", "cover underside"],
                "shield",
                section.radii.hole - section.radii.body,
            ),
        ):
            assert string.length >= straight_distance(section, earth, live) - 2e-5, seed
            assert string.length <= face.length + gap + 2e-5, seed
            assert shapely.disjoint(solid, shapely.LineString(list(chain(string.points)))), seed
            curves = [section.curve(name) for name in earth]
            assert ends_on(string, curves, section.curve(live)), seed


# --- laws ----------------------------------------------------------------------------------


@pytest.mark.parametrize("factor", [0.7, 1.9])
def test_scaled_bodies_have_scaled_paths(factor: float) -> None:
    scaling = compared = 0
    for number in range(60):
        bushing, transformer = random_body(f"scaling {number}")
        # A house-chosen rounding at the bare end in oil does not scale.
        bushing["oil_end"]["shield_diameter"] = bushing["oil_end"]["end_diameter"]
        bushing["oil_end"]["stud_diameter"] = bushing["oil_end"]["shield_diameter"]
        try:
            one, other = (
                build_section(
                    BulkBushing.model_validate(scaled(bushing, k)),
                    Transformer.model_validate(
                        transformer
                        | {
                            name: transformer[name] * k
                            for name in ("hole_diameter", "cover_thickness")
                        }
                    ),
                )
                for k in (1.0, factor)
            )
        except (ImpossibleShapeError, ValueError):
            continue
        scaling += 1
        for measure in (air_creepage, oil_creepage, arcing_path, oil_path):
            expected = factor * measure(one).length
            assert measure(other).length == pytest.approx(expected, rel=1e-6), number
            compared += 1
    assert scaling > 15
    assert compared == 4 * scaling


def test_a_string_over_a_hill_with_pockets() -> None:
    """Only the two summits count; the pocket between them, however winding, does not."""
    hill = [(1.0, 0.0), (3.0, 1.0), (1.5, 1.2), (1.2, 2.0), (2.0, 1.6), (1.4, 3.0), (3.0, 3.0)]
    face = line(*(Point(r, z) for r, z in [*hill, (1.0, 4.0)]))
    earth, live = line(Point(1.0, 0.0), Point(1.0, -1.0)), line(Point(1.0, 4.0), Point(1.0, 5.0))
    string = taut_string(face, [earth], [live])
    assert string.length == pytest.approx(2 * math.hypot(2, 1) + 2.0, rel=1e-9)


def test_a_string_out_of_a_pocket() -> None:
    """Metal at the bottom of a pocket: the string has to follow its mouth."""
    face = line(*(Point(r, z) for r, z in [(1.0, 0.0), (1.0, 2.0), (4.0, 1.0), (4.0, 3.0)]))
    earth = line(Point(2.0, 1.0), Point(2.0, 0.5))
    live = line(Point(4.0, 3.0), Point(4.0, 5.0))
    string = taut_string(face, [earth], [live])
    assert string.length == pytest.approx(4.0, rel=1e-9)
    face, earth, live = (mirrored(curve) for curve in (face, earth, live))
    assert taut_string(face, [earth], [live], downwards=True).length == pytest.approx(4.0, rel=1e-9)


def mirrored(curve: Curve) -> Curve:
    return line(*(Point(point.r, -point.z) for point in curve.points()))
