"""Rain and light: against rays, against closed forms, at both ends of the angle."""

import math
from itertools import pairwise
from typing import Any

import pytest

from geometry import brute_force
from geometry.bodies import FLANGE, SHEDS, SMOOTH, built, sections
from shedlight.geometry.measures import measure
from shedlight.geometry.paths import air_creepage
from shedlight.geometry.section import Section
from shedlight.geometry.shadow import dry_length, wetted
from shedlight.geometry.wetting import Stretch

ANGLES = (0.0, 15.0, 45.0, 75.0, 90.0)
COMPARED, MANY = 20, 80


def stretches(section: Section, degrees: float) -> tuple[Stretch, ...]:
    return wetted(section, air_creepage(section), math.radians(degrees))


def dry(section: Section, degrees: float) -> float:
    return dry_length(stretches(section, degrees))


@pytest.mark.parametrize("degrees", ANGLES)
def test_against_rays(degrees: float) -> None:
    """A ray from every 0.3 mm of the outline; each edge of a shadow may be off by one of them."""
    compared = 0
    for seed, section in sections("shadow", COMPARED):
        path = air_creepage(section)
        edges = 4 * len(section.sheds) + 2
        slack = edges * brute_force.RAIN_STEP / 2 + 1e-4
        rays = brute_force.dry_length(section, path, math.radians(degrees))
        assert dry(section, degrees) == pytest.approx(rays, abs=slack), seed
        compared += 1
    assert compared > COMPARED / 2


def test_dry_and_wet_make_up_the_creepage_without_gap() -> None:
    for seed, section in sections("stretches", MANY):
        length = air_creepage(section).length
        for degrees in ANGLES:
            found = stretches(section, degrees)
            assert found[0].start == 0.0, seed
            assert found[-1].end == pytest.approx(length, rel=1e-9), seed
            for lower, upper in pairwise(found):
                assert upper.start == lower.end, seed
                assert upper.wet != lower.wet, seed
            assert all(stretch.length > 0 for stretch in found), seed
            wet = math.fsum(stretch.length for stretch in found if stretch.wet)
            assert dry_length(found) + wet == pytest.approx(length, rel=1e-9), seed


def test_flatter_rain_wets_more() -> None:
    """True wherever no face rises outwards: what sees the sky at one angle sees it lower too."""
    steps = [math.radians(degrees) for degrees in range(0, 91, 6)]
    for seed, section in sections("angle", MANY):
        slopes = [s.top_root - s.tip_height for s in section.sheds]
        if slopes and min(slopes) < 0.1 * max(s.overhang for s in section.sheds):
            continue  # all but flat faces are grazed by level rain
        path = air_creepage(section)
        lengths = [dry_length(wetted(section, path, angle)) for angle in steps]
        for steeper, flatter in pairwise(lengths):
            assert flatter <= steeper + 1e-6, seed


# --- closed forms --------------------------------------------------------------------------


@pytest.mark.parametrize("cap", [68e-3, 90e-3, 200e-3])
def test_straight_down_rain_wets_no_trunk(cap: float) -> None:
    section = built(**SMOOTH, cap__diameter=cap)
    assert dry(section, 0.0) == pytest.approx(290e-3, rel=1e-9)


def test_level_rain_wets_a_smooth_trunk_all_over() -> None:
    assert dry(built(**SMOOTH, cap__diameter=200e-3), 90.0) == pytest.approx(0.0, abs=1e-8)


@pytest.mark.parametrize("degrees", [20.0, 45.0, 70.0])
def test_the_shadow_of_a_cap_on_a_trunk(degrees: float) -> None:
    """Rain grazes the rounding of the cap's lower edge."""
    rounding, angle = 3e-3, math.radians(degrees)
    section = built(**SMOOTH, cap__diameter=160e-3, cap__edge_radius=rounding)
    base = section.heights.cap_base
    grazing = (80e-3 - rounding) * math.cos(angle) - (base + rounding) * math.sin(angle) + rounding
    edge = (34e-3 * math.cos(angle) - grazing) / math.sin(angle)
    expected = min(base - edge, 290e-3)
    assert dry(section, degrees) == pytest.approx(expected, abs=5e-6)


def test_light_from_the_side_leaves_the_undersides() -> None:
    """From the drip edge in along the underside, and down the trunk to the drip edge's height."""
    under, root, tip = math.radians(12), 6e-3, 3e-3
    sheds = SHEDS | {"under_slope": under, "root_radius": root, "tip_radius": tip, "count": 4}
    section = built(sheds=sheds)
    half = math.tan((math.pi / 2 + under) / 2)
    shed = section.sheds[0]
    drip = shed.tip_height - 4.5e-3 + tip * half - tip
    face = 38e-3 / math.cos(under) - (root + tip) * half
    trunk = shed.under_root - root * half - drip
    each = tip * under + face + root * (math.pi / 2 + under) + trunk
    assert dry(section, 90.0) == pytest.approx(4 * each, abs=4 * 5e-6)
    assert measure(section).protected_90 == pytest.approx(4 * each, abs=4 * 5e-6)


@pytest.mark.parametrize("fixing", [{}, FLANGE], ids=["clamps", "flange"])
def test_flat_sheds_in_level_light_hide_only_what_lies_above_their_roundings(
    fixing: dict[str, Any],
) -> None:
    """Without slopes light grazes both faces; grazed is not lit."""
    sheds = SHEDS | {"top_slope": 0.0, "under_slope": 0.0, "root_radius": 5e-3, "tip_radius": 4e-3}
    section = built(sheds=sheds, **fixing)
    hidden = 2 * (38e-3 - 5e-3 - 4e-3)
    # Level roots bend up into the underside and stay lit; they bend out of the top face lit too.
    assert dry(section, 90.0) == pytest.approx(5 * hidden, abs=5 * 1e-3)


def test_the_measured_rain_is_the_one_asked_for() -> None:
    section = built()
    for degrees in ANGLES:
        measures = measure(section, math.radians(degrees))
        assert measures.rain_angle == math.radians(degrees)
        assert measures.dry_creepage == pytest.approx(dry(section, degrees), rel=1e-12)
        assert measures.protected_90 == pytest.approx(dry(section, 90.0), rel=1e-12)
        assert measures.protected_45 == pytest.approx(dry(section, 45.0), rel=1e-12)
