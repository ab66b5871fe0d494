"""Dry, rained on, wet all over: the field against what must hold for each."""

import math
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

import shedlight as sl
from shedlight.workings import Workings
from shedlight.workings.field import DRY, field_of
from shedlight.workings.surface_states import (
    RAINED_ON,
    SHORTEST,
    WET,
    SurfaceStates,
    slot_of,
    surface_states,
)

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("inland-12kv", "quay-24kv", "quarry-36kv")


def case(name: str, **changes: object) -> sl.Installation:
    return sl.changed(sl.read(EXAMPLES / f"{name}.toml"), **changes)


@cache
def states(name: str) -> SurfaceStates:
    return surface_states(Workings(case(name)))


@pytest.mark.parametrize("name", NAMES)
def test_a_film_all_over_shares_the_voltage_by_its_form_factor(name: str) -> None:
    """A film that conducts far better than capacitance carries I; U = I/kappa int dl/(2 pi r)."""
    found, work = states(name).reading(WET), Workings(case(name))
    edge = work.section.curve("air side")
    lengths = found.lengths + slot_of(work)
    whole = edge.form_factor
    for share in (0.2, 0.5, 0.8):
        at = int(share * len(lengths))
        part = edge.between(0.0, float(lengths[at])).form_factor
        assert found.share[at] == pytest.approx(part / whole, abs=2e-3)


@pytest.mark.parametrize("name", NAMES)
def test_what_rain_wets_stands_at_one_potential_and_dry_stretches_take_the_voltage(
    name: str,
) -> None:
    found = states(name)
    rained, dry = found.reading(RAINED_ON), found.reading(DRY.name)
    for stretch in (item for item in found.rain if item.wet):
        inside = (rained.lengths > stretch.start) & (rained.lengths < stretch.end)
        assert np.ptp(rained.share[inside]) < 2e-3
        if stretch.length > 0.03:
            assert np.ptp(dry.share[inside]) > 0.02
    assert rained.worst > dry.worst * 0.99
    place = rained.place
    assert any(not item.wet and item.start < place < item.end for item in found.rain)


@pytest.mark.parametrize("name", NAMES)
def test_the_mean_field_gives_back_the_voltage_where_it_only_rises(name: str) -> None:
    """Wet all over the potential rises steadily, so the field integrates to all of it."""
    found = states(name)
    wet = found.reading(WET)
    gathered = float(np.trapezoid(wet.along, wet.lengths))

    assert gathered == pytest.approx(float(found.voltage), rel=0.01)


def test_the_dry_state_is_the_field_of_the_checks() -> None:
    work = Workings(case("quay-24kv"))
    plain = field_of(work.installation, work.section)

    dry = states("quay-24kv").reading(DRY.name).field
    assert dry.capacitance == pytest.approx(float(plain.capacitance), rel=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_stretches_of_rain_cover_the_creepage_without_gap_or_sliver(name: str) -> None:
    rain = states(name).rain
    work = Workings(case(name))

    assert rain[0].start == 0.0
    assert rain[-1].end == pytest.approx(work.measures.creepage.length)
    for one, other in pairwise(rain):
        assert one.end == other.start
        assert one.wet != other.wet
    assert min(item.length for item in rain) >= SHORTEST
    raw = sum(item.length for item in work.measures.rain if item.wet)
    assert sum(item.length for item in rain if item.wet) == pytest.approx(raw, abs=SHORTEST)


def test_the_layer_is_that_of_the_site() -> None:
    assert states("inland-12kv").layer.read_from == "the measured deposit"
    assert states("quay-24kv").layer.read_from == "the site salinity"
    assert states("quarry-36kv").layer.read_from.endswith("no measurement")


def test_one_tip_for_each_shed_in_order() -> None:
    found, work = states("quarry-36kv"), Workings(case("quarry-36kv"))

    assert len(found.tips) == len(work.section.sheds)
    assert list(found.tips) == sorted(found.tips)


def test_vertical_rain_spares_a_straight_body() -> None:
    bare = case("quay-24kv", bushing__sheds=None, site__rain_angle=0.0)
    found = surface_states(Workings(bare))

    assert found.tips == ()
    dry, rained = found.reading(DRY.name), found.reading(RAINED_ON)
    wet = sum(item.length for item in found.rain if item.wet)
    assert wet < 0.1 * found.rain[-1].end
    assert rained.worst == pytest.approx(float(dry.worst), rel=0.3)


def test_flat_rain_wets_a_straight_body_all_over() -> None:
    bare = case("quay-24kv", bushing__sheds=None, site__rain_angle=math.pi / 2)
    found = surface_states(Workings(bare))
    wet = sum(item.length for item in found.rain if item.wet)

    assert wet > 0.95 * found.rain[-1].end
    rained, soaked = found.reading(RAINED_ON).share, found.reading(WET).share
    middle = len(rained) // 2
    assert rained[middle] == pytest.approx(soaked[middle], abs=0.02)


def test_a_leaning_bushing_is_rained_on_otherwise() -> None:
    leaning = surface_states(Workings(case("inland-12kv", transformer__mounting_angle="40 °")))

    wet = [sum(i.length for i in s.rain if i.wet) for s in (leaning, states("inland-12kv"))]
    assert wet[0] != pytest.approx(wet[1], rel=0.02)
