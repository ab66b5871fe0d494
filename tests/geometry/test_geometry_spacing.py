"""Sheds against one another: clearance and creepage over air, by closed forms and brute force."""

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.bodies import SHEDS, SMOOTH, built, random_body, sections
from geometry.brute_force import drip_clearance, steepest_ratio
from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.outline import Shed
from shedlight.geometry.paths import air_creepage
from shedlight.geometry.section import Section, build_section
from shedlight.geometry.spacing import (
    Bay,
    bays_of,
    creepage_per_repeat,
    ends_creepage_over_air,
    tip_lengths,
)
from shedlight.given.bushing import BulkBushing
from shedlight.given.transformer import Transformer

ALTERNATING = {"form": "alternating", "short_overhang": 25e-3}
RIBBED = {"ribs": 2, "rib_depth": 12e-3}
DEEP = {"form": "alternating", "short_overhang": 15e-3, "overhang": 70e-3, "pitch": 36e-3}
COMPARED, MANY = 24, 200


def sheds(**changes: Any) -> Section:
    return built(sheds=SHEDS | changes)


def bays(section: Section) -> tuple[Bay, ...]:
    return bays_of(air_creepage(section), section.sheds)


def largest(section: Section) -> float:
    path = air_creepage(section)
    ratios = [bay.creepage_over_air for bay in bays_of(path, section.sheds)]
    return max(*ratios, *ends_creepage_over_air(path, section.sheds))


# --- tips and repeats ----------------------------------------------------------------------


def test_tips_of_random_bodies() -> None:
    """One for each shed, in order, each at its height and nowhere near the trunk."""
    found = 0
    for seed, section in sections("tips", MANY):
        path = air_creepage(section)
        lengths = tip_lengths(path, section.sheds)
        assert len(lengths) == len(section.sheds), seed
        assert all(a < b for a, b in pairwise(lengths)), seed
        for length, shed in zip(lengths, section.sheds, strict=True):
            place = path.at(length)
            assert place.z == pytest.approx(shed.tip_height, abs=2e-9), seed
            assert shed.tip_radius - place.r < 0.3 * shed.overhang, seed
            found += 1
    assert found > MANY


def test_drooping_ribs_are_not_taken_for_tips() -> None:
    section = built(
        sheds=SHEDS
        | {"count": 2, "ribs": 3, "rib_depth": 6e-3, "pitch": 60e-3}
        | {"under_slope": math.radians(35), "top_slope": math.radians(38), "tip_radius": 1e-3}
        | {"root_radius": 2e-3}
    )
    path = air_creepage(section)
    for length in tip_lengths(path, section.sheds):
        assert path.at(length).r == pytest.approx(section.sheds[0].tip_radius, abs=1e-3)


def test_creepage_per_repeat_of_plain_sheds_is_that_of_one_pitch() -> None:
    """Taking one shed away and one pitch of length changes the creepage by one repeat."""
    five, four = sheds(), built(sheds=SHEDS | {"count": 4}, porcelain__air_length=(290 - 48) * 1e-3)
    repeat = creepage_per_repeat(air_creepage(five), five.sheds)
    difference = air_creepage(five).length - air_creepage(four).length
    assert repeat == pytest.approx(difference, rel=1e-12)


def test_creepage_per_repeat_of_alternating_sheds_is_that_of_a_pair() -> None:
    five = sheds(**ALTERNATING)
    three = built(sheds=SHEDS | ALTERNATING | {"count": 3}, porcelain__air_length=(290 - 96) * 1e-3)
    repeat = creepage_per_repeat(air_creepage(five), five.sheds)
    difference = air_creepage(five).length - air_creepage(three).length
    assert repeat == pytest.approx(difference, rel=1e-12)


@pytest.mark.parametrize(("form", "count"), [("plain", 1), ("alternating", 1), ("alternating", 2)])
def test_no_repeat_without_a_second_shed_of_the_kind(form: str, count: int) -> None:
    arranged = ALTERNATING if form == "alternating" else {}
    section = sheds(**arranged, count=count)
    assert creepage_per_repeat(air_creepage(section), section.sheds) is None


# --- clearance -----------------------------------------------------------------------------


@settings(max_examples=40)
@given(st.floats(0.05, 0.5), st.floats(0.0, 0.9), st.floats(40e-3, 90e-3), st.floats(1e-3, 4e-3))
def test_clearance_of_plain_sheds(top: float, share: float, pitch: float, tip: float) -> None:
    """From the drip edge of the rounded tip, square to the straight face below."""
    under, thickness = share * top, 10e-3
    section = built(
        sheds=SHEDS
        | {"count": 2, "pitch": pitch, "top_slope": top, "under_slope": under}
        | {"tip_thickness": thickness, "tip_radius": tip, "root_radius": 2e-3},
    )
    rise = tip * math.tan((math.pi / 2 + under) / 2) - tip
    expected = (pitch - thickness + rise) * math.cos(top) - tip * math.sin(top)
    assert bays(section)[0].clearance == pytest.approx(expected, rel=1e-7)


def test_clearance_of_flat_sheds_is_pitch_less_thickness() -> None:
    section = sheds(top_slope=0.0, under_slope=0.0)
    for bay in bays(section):
        assert bay.clearance == pytest.approx(48e-3 - 9e-3, rel=1e-9)


def test_a_rib_that_hangs_lowest_counts() -> None:
    """The inner rib hangs lowest over a rising face; without ribs the drip edge does."""
    plain, ribbed = sheds(), sheds(**RIBBED)
    assert bays(ribbed)[0].clearance < bays(plain)[0].clearance - 5e-3


def root_end(shed: Shed, slope: float, turn: float, rounding: float) -> float:
    """Radius at which the rounding of a shed's root ends on its face, on a cylinder."""
    return shed.body_radius + rounding * math.tan(turn / 2) * math.cos(slope)


def test_clearance_against_brute_force() -> None:
    compared = 0
    for number in range(MANY):
        bushing, transformer = random_body(f"clearance {number}")
        bushing["porcelain"]["top_wall"] = bushing["porcelain"]["wall"]
        bushing["cap"]["diameter"] += 40e-3
        try:
            section = build_section(
                BulkBushing.model_validate(bushing), Transformer.model_validate(transformer)
            )
        except ImpossibleShapeError:
            continue
        path = air_creepage(section)
        tips = tip_lengths(path, section.sheds)
        for bay, (lower, upper) in zip(bays(section), pairwise(section.sheds), strict=True):
            middle = next(path.rises_through((lower.top_root + upper.under_root) / 2, tips[0]))
            below = path.between(tips[bay.lower - 1], middle)
            above = path.between(middle, tips[bay.lower])
            under, top = (bushing["sheds"][f"{side}_slope"] for side in ("under", "top"))
            rounding = bushing["sheds"]["root_radius"]
            reach = root_end(upper, under, math.pi / 2 + under, rounding) - 1e-9
            root = root_end(lower, top, math.pi / 2 - top, rounding) - 1e-9
            expected = drip_clearance(below, above, reach, root)
            assert bay.clearance == pytest.approx(expected, abs=1e-5), number
            assert bay.clearance > 0, number
            compared += 1
        if compared > 120:
            break
    assert compared > 100


# --- creepage over air ---------------------------------------------------------------------


def test_a_smooth_body_has_no_short_cut() -> None:
    section = built(**SMOOTH)
    assert bays(section) == ()
    assert ends_creepage_over_air(air_creepage(section), ()) == (1.0, 1.0)


def test_the_mouth_of_a_flat_bay() -> None:
    """From drip edge to the tip below, straight across: the way round over the way across."""
    section = sheds(top_slope=0.0, under_slope=0.0, tip_radius=2e-3, root_radius=2e-3)
    across = 48e-3 - 9e-3
    saved = 2 * (2 - math.pi / 2) * 2e-3
    round_about = across + 2 * 38e-3 - saved
    # The best points lie a little round the tips' roundings, so that the bound is from below.
    quarter = 2e-3 * math.pi / 2
    lowest = (round_about - 2 * quarter) / across
    assert lowest < bays(section)[0].creepage_over_air < 1.1 * lowest


def test_creepage_over_air_against_all_pairs() -> None:
    """Any two places of the whole path; refined where it matters, ours may only be larger."""
    bodies = [("plain", sheds()), ("alternating", sheds(**ALTERNATING)), ("ribs", sheds(**RIBBED))]
    bodies.append(("deep", sheds(**DEEP)))
    bodies += list(sections("ratio", COMPARED))
    for seed, section in bodies:
        if len(section.sheds) > 5:
            continue
        slow = steepest_ratio(section, air_creepage(section), 420)
        assert 0.99 * slow <= largest(section) <= 1.05 * slow + 0.02, seed


def test_long_sheds_face_each_other_over_a_short_one() -> None:
    """The way round a short shed counts between two long ones, not only up to the short one."""
    section = sheds(**DEEP, count=3)
    path = air_creepage(section)
    tips = tip_lengths(path, section.sheds)
    over = path.at(tips[0]).to(path.at(tips[2]))
    assert bays(section)[0].creepage_over_air > 0.9 * (tips[2] - tips[0]) / over
    assert bays(section)[0].creepage_over_air > 2.5


def test_alike_bays_are_alike() -> None:
    """On a cylinder every inner bay has the same figures, whichever was measured."""
    section = sheds(count=6, pitch=44e-3)
    found = bays(section)
    assert [bay.lower for bay in found] == [1, 2, 3, 4, 5]
    for bay in found[1:]:
        assert bay.clearance == pytest.approx(found[0].clearance, rel=1e-6)
        assert bay.creepage_over_air == pytest.approx(found[0].creepage_over_air, rel=1e-3)


def test_bays_of_long_over_short_and_short_over_long_are_told_apart() -> None:
    """Of four alternating sheds every window on them is cut off at one end or the other."""
    four = bays(sheds(**ALTERNATING, count=4))
    six = bays(sheds(**ALTERNATING, count=6, pitch=44e-3))
    for found in (four, six):
        assert found[0].clearance == pytest.approx(found[2].clearance, rel=1e-6)
        assert abs(found[1].clearance - found[0].clearance) > 1e-4


def test_bays_of_a_tapered_body_differ() -> None:
    found = bays(built(porcelain__top_wall=8e-3))
    assert len({bay.creepage_over_air for bay in found}) == len(found)


def test_the_lowest_bay_counts_ribs_of_a_single_shed() -> None:
    section = sheds(count=1, ribs=3, rib_depth=15e-3)
    below, above = ends_creepage_over_air(air_creepage(section), section.sheds)
    assert bays(section) == ()
    assert below > 2.0
    assert 1.0 <= above < 1.5
