"""Rain all round the bushing: against the closed form to windward, a mesh, and by hand."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from geometry.bodies import SMOOTH, built, sections
from shedlight.errors import InputError
from shedlight.geometry.curves import Curve, chain
from shedlight.geometry.paths import air_creepage
from shedlight.geometry.rain import rain_direction, wet_map, wetted_meridian
from shedlight.geometry.section import Section
from shedlight.geometry.shadow import dry_length, wetted
from shedlight.geometry.wetting import RainDirection

Array = NDArray[np.float64]

BODY = built()
PATH = air_creepage(BODY)
HALF = math.pi / 2
UPRIGHT_45 = wet_map(BODY, PATH, rain_direction(math.pi / 4, 0.0, 0.0), meridians=36, step=2e-3)


@pytest.mark.parametrize("degrees", [0, 1, 15, 45, 70, 90])
def test_windward_side_agrees_with_the_plane_closed_form(degrees: float) -> None:
    """Every one of some ten edges between wet and dry may be off by half a place."""
    angle = math.radians(degrees)
    found = wetted_meridian(BODY, PATH, rain_direction(angle, 0.0, 0.0), 0.0)
    plane = wetted(BODY, PATH, angle)
    assert dry_length(found) == pytest.approx(dry_length(plane), abs=2.5e-3)
    assert sum(stretch.length for stretch in found) == pytest.approx(PATH.length)


@pytest.mark.parametrize("degrees", [20, 45, 70])
@pytest.mark.parametrize("around", [0.0, 0.6, 1.2])
def test_shade_of_the_cap_on_a_smooth_body(degrees: float, around: float) -> None:
    """By hand: the way up the rain leaves each ring of the cap after a chord across the plan."""
    body = built(**SMOOTH, cap__diameter=110e-3)
    path = air_creepage(body)
    angle = math.radians(degrees)
    stretches = wetted_meridian(body, path, rain_direction(angle, 0.0, 0.0), around, step=2e-4)
    top = stretches[-1]
    assert not top.wet
    trunk = path.at(top.start).r
    sideways = trunk * math.sin(around)
    rings = body.curve("cap").points(1e-6)
    shade = [
        (math.sqrt(ring.r**2 - sideways**2) - trunk * math.cos(around)) / math.tan(angle)
        - (ring.z - body.curve("cap").start.z)
        for ring in rings
        if ring.r > abs(sideways)
    ]
    reached = body.curve("cap").start.z - path.at(top.start).z
    assert reached == pytest.approx(max(shade), abs=2e-4)


@pytest.mark.parametrize(
    "body", [found for _, found in sections("all round", 24)][:15], ids=lambda _: "body"
)
def test_windward_side_of_odd_bodies(body: Section) -> None:
    """Drooping, ribbed, alternating sheds: within half a place at each edge of shadow."""
    path = air_creepage(body)
    found = wetted_meridian(body, path, rain_direction(0.7, 0.0, 0.0), 0.0)
    slack = 1e-3 + 6e-4 * len(body.sheds)
    assert dry_length(found) == pytest.approx(dry_length(wetted(body, path, 0.7)), abs=slack)


def test_lee_side_stays_dry_and_sides_mirror() -> None:
    lee = np.abs(UPRIGHT_45.around) > math.radians(150)
    assert UPRIGHT_45.dry_creepage[lee].min() > 0.9 * PATH.length
    assert UPRIGHT_45.factor == pytest.approx(UPRIGHT_45.factor[:, ::-1])
    assert 0.1 < UPRIGHT_45.wet_share < 0.5
    windward = np.abs(UPRIGHT_45.around) < math.radians(10)
    assert UPRIGHT_45.dry_creepage[windward].max() < UPRIGHT_45.dry_creepage[lee].min()


def test_factor_is_the_cosine_of_incidence() -> None:
    """A wet bare trunk facing level rain is struck as its normal turns away."""
    body = built(**SMOOTH)
    level = wet_map(body, air_creepage(body), RainDirection(HALF, 0.0), meridians=24, step=4e-3)
    middle = len(level.lengths) // 2
    assert level.factor[middle] == pytest.approx(np.maximum(np.cos(level.around), 0.0), abs=1e-3)
    assert level.mean_factor[middle] == pytest.approx(1 / math.pi, rel=0.01)


def test_upright_rain_on_a_lying_bushing_wets_the_upper_half_only() -> None:
    direction = rain_direction(0.0, 0.3, HALF)
    assert direction.off_axis == pytest.approx(HALF)
    assert abs(direction.side) == pytest.approx(math.pi)
    found = wet_map(BODY, PATH, direction, meridians=24, step=4e-3)
    under = np.abs(found.around) > HALF
    assert np.all(found.factor[:, under] == 0)
    assert np.all(found.dry_creepage[~under] < 0.5 * PATH.length)


def test_water_caught_is_what_falls_through_the_shadow_in_plan() -> None:
    """Rain along the axis: the creepage path catches the widest circle less the cap's."""
    found = wet_map(BODY, PATH, RainDirection(0.0, 0.0), meridians=4, step=1e-3)
    caught = 2 * math.pi * float(np.sum(found.sizes * found.radii * found.mean_factor))
    widest = max(shed.tip_radius for shed in BODY.sheds)
    assert caught == pytest.approx(math.pi * (widest**2 - BODY.radii.cap**2), rel=0.02)


def test_water_caught_from_the_side_is_the_elevation() -> None:
    """Rain square to the axis: as wide as the widest at each height, as rims hide hollows."""
    found = wet_map(BODY, PATH, RainDirection(HALF, 0.0))
    caught = 2 * math.pi * float(np.sum(found.sizes * found.radii * found.mean_factor))
    steps = np.linspace(0.0, PATH.length, 4000)
    line = np.array(list(chain(PATH.at(float(at)) for at in steps)))
    heights = np.linspace(line[0, 1], line[-1, 1], 1500)
    low, high = np.minimum(line[:-1, 1], line[1:, 1]), np.maximum(line[:-1, 1], line[1:, 1])
    outer = np.maximum(line[:-1, 0], line[1:, 0])
    there = (low <= heights[:, None]) & (heights[:, None] <= high)
    widest = np.max(np.where(there, outer, 0.0), axis=1)
    assert caught == pytest.approx(2 * float(np.trapezoid(widest, heights)), rel=2e-3)


def test_bays_add_up_to_the_path() -> None:
    edges = np.linspace(0.0, PATH.length + 1e-9, 7)
    parts = [UPRIGHT_45.dry_between(low, high) for low, high in pairwise(edges.tolist())]
    assert np.sum(parts, axis=0) == pytest.approx(UPRIGHT_45.dry_creepage)


def test_rain_from_behind_the_cover_reaches_nothing() -> None:
    direction = rain_direction(math.pi / 4, math.pi, HALF)
    assert direction.off_axis > HALF
    assert wet_map(BODY, PATH, direction, meridians=8, step=8e-3).wet_share == 0


def test_rain_along_the_axis_strikes_upper_faces_evenly() -> None:
    found = wet_map(BODY, PATH, RainDirection(0.0, 0.0), meridians=6, step=4e-3)
    assert found.factor == pytest.approx(np.repeat(found.factor[:, :1], 6, axis=1))
    assert 0 < found.wet_share < 0.5


@settings(max_examples=40, deadline=None)
@given(st.floats(0, HALF), st.floats(-math.pi, math.pi), st.floats(0, HALF))
def test_direction_keeps_the_angle_to_the_axis(angle: float, wind: float, lean: float) -> None:
    """Spherical law of cosines between rain and axis."""
    found = rain_direction(angle, wind, lean)
    cosine = math.cos(angle) * math.cos(lean) + math.sin(angle) * math.sin(lean) * math.cos(wind)
    assert math.cos(found.off_axis) == pytest.approx(cosine, abs=1e-9)


@settings(max_examples=6, deadline=None)
@given(st.floats(0.1, 1.4))
def test_leaning_into_the_rain_equals_less_slant(angle: float) -> None:
    straight = rain_direction(angle, 0.0, 0.0)
    leaned = rain_direction(angle / 2, math.pi, angle / 2)
    assert leaned.off_axis == pytest.approx(straight.off_axis)
    assert abs(leaned.side) == pytest.approx(math.pi)


def mesh_of(section: Section, sectors: int) -> Array:
    """Triangles of the surface of revolution, three corners each."""
    turn = np.arange(sectors + 1) * 2 * math.pi / sectors
    parts = []
    for name in ("air side", "cap", "clamps"):
        line = np.array(list(chain(section.curve(name).points(2e-4))))
        ring = line[:, None, :1] * np.stack([np.cos(turn), np.sin(turn)], axis=1)
        high = np.broadcast_to(line[:, None, 1:], (len(line), len(turn), 1))
        grid = np.concatenate([ring, high], axis=2)
        a, b, c, d = grid[:-1, :-1], grid[1:, :-1], grid[:-1, 1:], grid[1:, 1:]
        parts += [np.stack([a, b, c], axis=2), np.stack([b, d, c], axis=2)]
    return np.concatenate([part.reshape(-1, 3, 3) for part in parts])


def meets(mesh: Array, start: Array, way: Array) -> bool:
    """Möller and Trumbore's test of one ray against all triangles."""
    first, second = mesh[:, 1] - mesh[:, 0], mesh[:, 2] - mesh[:, 0]
    across = np.cross(way, second)
    volume = np.einsum("ij,ij->i", first, across)
    with np.errstate(divide="ignore", invalid="ignore"):
        to_start = start - mesh[:, 0]
        u = np.einsum("ij,ij->i", to_start, across) / volume
        turned = np.cross(to_start, first)
        v = turned @ way / volume
        t = np.einsum("ij,ij->i", second, turned) / volume
        return bool(np.any((u >= 0) & (v >= 0) & (u + v <= 1) & (t > 0)))


def outward(path: Curve, length: float) -> tuple[float, float, float, float]:
    here, before, after = path.at(length), path.at(length - 1e-6), path.at(length + 1e-6)
    size = before.to(after)
    return here.r, here.z, (after.z - before.z) / size, -(after.r - before.r) / size


@pytest.mark.parametrize(
    "direction", [RainDirection(0.8, 0.0), RainDirection(HALF, 0.0), RainDirection(1.2, 0.0)]
)
def test_map_agrees_with_rays_against_a_mesh(direction: RainDirection) -> None:
    """Only places near an edge of shadow may differ: the mesh is a polygon in plan."""
    found = wet_map(BODY, PATH, direction, meridians=12, step=2e-3)
    mesh = mesh_of(BODY, 120)
    chosen = np.arange(7, len(found.lengths), 23)
    way = np.array([math.sin(direction.off_axis), 0.0, math.cos(direction.off_axis)])
    same = []
    for place in chosen.tolist():
        r, z, nr, nz = outward(PATH, float(found.lengths[place]))
        for column in range(6, 12):
            turn = float(found.around[column])
            plan = np.array([math.cos(turn), math.sin(turn)])
            normal = np.array([*(nr * plan), nz])
            start = np.array([*(r * plan), z]) + 5e-4 * normal
            wet = float(normal @ way) > 0 and not meets(mesh, start, way)
            same.append(wet == bool(found.factor[place, column] > 0))
    assert len(same) > 60
    assert np.mean(same) > 0.95


@pytest.mark.parametrize("wrong", [(-0.1, 0.0), (2.0, 0.0), (0.5, -1.0), (0.5, 1.6)])
def test_impossible_angles_are_refused(wrong: tuple[float, float]) -> None:
    with pytest.raises(InputError, match=r"angle"):
        rain_direction(wrong[0], 0.0, wrong[1])


def test_one_meridian_is_no_map() -> None:
    with pytest.raises(InputError, match="meridians"):
        wet_map(BODY, PATH, RainDirection(0.5, 0.0), meridians=1)
