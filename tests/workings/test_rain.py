"""Rain on a bushing as it is mounted: limits, every mounting angle, natural rain, drops."""

import math
import time
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import shedlight as sl
from edits import EXAMPLES, NAMES
from shedlight.checks.check import Verdict
from shedlight.geometry.rain import wet_map
from shedlight.geometry.wetting import RainDirection
from shedlight.physics.air.rain_tables import wet_test
from shedlight.workings import Workings, work_out
from shedlight.workings.rain import natural_slants, rained_on, wetting_of

QUAY = "quay-24kv"


def case(name: str = QUAY, **changes: object) -> sl.Installation:
    return sl.changed(sl.read(EXAMPLES / f"{name}.toml"), **changes)


@cache
def plain(name: str = QUAY) -> Workings:
    return work_out(sl.read(EXAMPLES / f"{name}.toml"))


def dry(name: str = QUAY, **changes: object) -> float:
    return float(work_out(case(name, **changes)).rain.stated.dry)


@pytest.mark.parametrize("name", NAMES)
def test_upright_it_is_the_windward_shadow(name: str) -> None:
    work = plain(name)

    assert work.rain.stated.dry == work.measures.dry_creepage
    assert work.rain.stated.off_axis == pytest.approx(math.pi / 4)


def test_rain_from_straight_above_wets_the_upper_sides_only() -> None:
    work = work_out(case(site__rain_angle=0.0))
    stated = work.rain.stated

    # Everything that does not face upwards stays dry: trunk, undersides, and what sheds cover.
    assert stated.dry > 0.6 * work.surface.creepage
    assert all(one.length < 0.06 for one in stated.stretches if one.wet)


def test_level_rain_spares_the_undersides_only() -> None:
    work = work_out(case(site__rain_angle=math.pi / 2))
    stated = work.rain.stated
    steep = plain().rain.stated

    assert 0 < float(stated.dry) < float(steep.dry)
    # Between the sheds level rain reaches the trunk.
    bay = work.rain.gaps[1]
    assert bay.dry < 0.6 * bay.length


def test_without_sheds_slanting_rain_wets_all_but_the_cap_s_shade() -> None:
    bare = case(bushing__sheds=None)
    work = work_out(bare)
    rain = work.rain

    assert rain.gaps == ()
    assert rain.left_when_bridged == work.surface.creepage
    overhang = bare.bushing.cap.diameter / 2 - bare.bushing.porcelain.body_diameter / 2
    assert float(rain.stated.dry) == pytest.approx(max(0.0, overhang), abs=2e-3)
    above = work_out(case(bushing__sheds=None, site__rain_angle=0.0)).rain.stated
    assert float(above.dry) == pytest.approx(float(work.surface.creepage), rel=1e-6)


def test_on_its_side_the_top_is_wetted_nearly_throughout() -> None:
    upright = dry()
    leaning = dry(transformer__mounting_angle=math.pi / 4)
    lying = dry(transformer__mounting_angle=math.pi / 2)

    # At 45° of lean and of slant the rain may strike square to the axis, as it may on its side.
    assert lying == pytest.approx(leaning, rel=1e-9)
    assert lying < 0.7 * upright
    check = sl.assess(case(transformer__mounting_angle=math.pi / 2)).check("surface.rain-dry")
    assert check.verdict is not Verdict.NOT_ASSESSED
    assert any("90° from upright" in note for note in check.notes)


def test_lying_in_rain_from_above_all_meridians_that_look_up_are_wet() -> None:
    lying = case(transformer__mounting_angle=math.pi / 2, site__rain_angle=0.0)
    work = work_out(lying)
    wetting = wetting_of(lying, work.section, work.measures, meridians=36)
    around = wetting.maps[0].around

    looks_down = np.abs(around) > math.radians(100)
    share = np.mean(wetting.wet, axis=0)
    assert np.all(share[looks_down] < 0.25)
    assert np.all(share[np.abs(around) < math.radians(30)] > 0.5)


@settings(max_examples=12)
@given(st.floats(0.0, math.pi / 2), st.floats(0.0, math.pi / 2))
def test_no_meridian_is_less_dry_than_the_worst_side(slant: float, lean: float) -> None:
    """The closed form on the facing side against the map that knows all meridians."""
    work = plain("inland-12kv")
    found = rained_on(work.section, work.measures, slant, lean)
    mapped = wet_map(
        work.section,
        work.measures.creepage,
        RainDirection(found.off_axis, 0.0),
        meridians=24,
        step=1e-3,
    )
    assert float(np.min(mapped.dry_creepage)) >= float(found.dry) - 6e-3


def test_gaps_add_up_and_drops_land_on_the_shed_below() -> None:
    work = plain()
    rain, sheds = work.rain, work.measures.sheds

    assert len(rain.gaps) == len(sheds) - 1
    assert sum(gap.dry for gap in rain.gaps) < float(rain.stated.dry)
    for gap, bay in zip(rain.gaps, work.measures.bays, strict=True):
        assert bay.clearance <= gap.fall < 1.3 * bay.clearance
        assert gap.state == "clear"


def test_crowded_sheds_are_bridged_and_the_check_says_what_is_left() -> None:
    crowded = case("inland-12kv", bushing__sheds__pitch=0.030, bushing__sheds__first_tip=0.060)
    rain = work_out(crowded).rain

    assert len(rain.bridged) == len(rain.gaps) == 3
    gap = rain.gaps[0]
    whole = float(work_out(crowded).surface.creepage)
    assert float(rain.left_when_bridged) == pytest.approx(
        whole - 3 * (gap.spanned - gap.fall), abs=2e-4
    )
    notes = sl.assess(crowded).check("surface.rain-dry").notes
    assert any("strings of them" in note for note in notes)


def test_natural_rain_spreads_its_slants_about_the_mean_drift() -> None:
    windy = case(site__rain_rate=20 / 3.6e6, site__rain_wind=8.0)
    slants = natural_slants(windy)
    assert slants is not None
    rain = work_out(windy).rain

    assert len(rain.natural) == 5
    assert rain.natural[0].slant < rain.natural[-1].slant
    # 20 mm/h, drops of about 1.7 mm fall at 5.8 m/s: near 54° in 8 m/s of wind.
    assert math.degrees(rain.natural[2].slant) == pytest.approx(54, abs=3)
    assert rain.worst_natural is not None
    assert rain.worst_natural.dry == min(one.dry for one in rain.natural)
    rivals = sl.assess(windy).check("surface.rain-dry").rivals
    assert [rival.title for rival in rivals] == ["Natural rain of the site"]


def test_calm_rain_falls_straight_down() -> None:
    calm = work_out(case(site__rain_rate=20 / 3.6e6, site__rain_wind=0.0)).rain

    assert all(one.slant == 0 for one in calm.natural)


def test_water_is_counted_right() -> None:
    """What strikes a whole upright body is its shadow on the rain times the rain."""
    work = plain()
    wetting = wetting_of(case(), work.section, work.measures)
    first = wetting.maps[0]
    test = wet_test()
    assert test.horizontal is not None

    assert not wetting.natural
    assert np.max(wetting.rates) <= math.hypot(test.vertical, test.horizontal) * (1 + 1e-9)
    assert wetting.wet.mean() == pytest.approx(np.mean(first.factor > 0))
    natural = wetting_of(
        case(site__rain_rate=60 / 3.6e6, site__rain_wind=5.0), work.section, work.measures, 24
    )
    assert natural.natural
    assert len(natural.maps) == 5
    assert natural.wet.mean() >= max(np.mean(found.factor > 0) for found in natural.maps) - 1e-12


def test_rate_and_wind_belong_together() -> None:
    with pytest.raises(sl.InputError, match="rain_rate"):
        case(site__rain_rate=20 / 3.6e6)


def test_sixty_sheds_in_natural_rain_take_no_more_than_a_second_or_two() -> None:
    many = case(
        bushing__sheds__count=60,
        bushing__porcelain__air_length=2.95,
        site__rain_rate=30 / 3.6e6,
        site__rain_wind=8.0,
    )
    work = work_out(many)
    start = time.process_time()
    wetting = wetting_of(many, work.section, work.measures)

    assert time.process_time() - start < 2.0
    assert wetting.rates.shape[0] > 10_000
    assert len(wetting.maps) == 5
