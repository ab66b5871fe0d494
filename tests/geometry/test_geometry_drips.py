"""Where water drips: one edge a shed, where it lands, and what leaning changes."""

import math

import pytest

from geometry.bodies import SHEDS, SMOOTH, built
from shedlight.errors import InputError
from shedlight.geometry.drips import drip_edges
from shedlight.geometry.paths import air_creepage
from shedlight.geometry.spacing import bays_of

BODY = built()
PATH = air_creepage(BODY)


def test_every_shed_of_an_upright_bushing_drips_all_round() -> None:
    edges = drip_edges(PATH, 0.0)
    assert len(edges) == len(BODY.sheds) == SHEDS["count"]
    assert all(edge.ring for edge in edges)
    for edge, shed in zip(edges, BODY.sheds, strict=True):
        assert shed.body_radius < edge.point.r < shed.tip_radius
        assert abs(edge.point.z - shed.tip_height) < 0.5 * SHEDS["tip_thickness"]


def test_drops_land_on_the_shed_below_and_the_lowest_fall_clear() -> None:
    lowest, *others = drip_edges(PATH, 0.0)
    assert lowest.lands_at is None
    assert lowest.creepage_spanned == 0
    assert math.isinf(lowest.fall)
    for edge in others:
        assert edge.lands_at is not None
        below = PATH.at(edge.lands_at)
        assert below.r == pytest.approx(edge.point.r, abs=1e-5)
        assert edge.point.z - below.z == pytest.approx(edge.fall, abs=1e-5)
        assert edge.creepage_spanned > 2 * SHEDS["overhang"]


def test_fall_is_not_less_than_the_clearance() -> None:
    """The shortest way from the same edge to the shed below is at most the way straight down."""
    clearance = min(bay.clearance for bay in bays_of(PATH, BODY.sheds))
    falls = [edge.fall for edge in drip_edges(PATH, 0.0)[1:]]
    assert min(falls) >= clearance
    assert min(falls) == pytest.approx(clearance, rel=0.1)


@pytest.mark.parametrize("degrees", [30, 60, 90])
def test_leaning_lets_the_drops_fall_clear(degrees: float) -> None:
    edges = drip_edges(PATH, math.radians(degrees))
    assert len(edges) == len(BODY.sheds)
    assert not any(edge.ring for edge in edges)
    assert all(edge.lands_at is None for edge in edges)


def test_a_lying_bushing_drips_from_the_rims() -> None:
    for edge, shed in zip(drip_edges(PATH, math.pi / 2), BODY.sheds, strict=True):
        assert edge.point.r == pytest.approx(shed.tip_radius, abs=1e-6)


def test_without_sheds_water_runs_down() -> None:
    assert not drip_edges(air_creepage(built(**SMOOTH)), 0.0)


def test_impossible_mounting_is_refused() -> None:
    with pytest.raises(InputError, match="mounting_angle"):
        drip_edges(PATH, 2.0)
