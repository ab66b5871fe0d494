"""Dirt, leakage and flashover joined: readings of the site, limits, uneven layers, rivals."""

import math
from functools import cache

import numpy as np
import pytest

import shedlight as sl
from edits import EXAMPLES, NAMES
from shedlight.checks.check import Verdict
from shedlight.workings import Workings, work_out
from shedlight.workings.flashover import AVERAGE
from shedlight.workings.wet_layer import MEASURED, SALTED, wet_layer_of

CLEAN = {"site__pollution_class": None, "site__salinity": None}


def case(name: str = "inland-12kv", **changes: object) -> sl.Installation:
    return sl.changed(sl.read(EXAMPLES / f"{name}.toml"), **changes)


@cache
def plain(name: str) -> Workings:
    return work_out(sl.read(EXAMPLES / f"{name}.toml"))


def held(name: str = "inland-12kv", **changes: object) -> float:
    return float(work_out(case(name, **changes)).flashover.held)


def measured(deposit: float, **changes: object) -> sl.Installation:
    """The quarry's bushing at sea level under a measured deposit [mg/cm²]."""
    given = {**CLEAN, "site__insoluble_deposit": None, "site__altitude": 0.0, **changes}
    return case("quarry-36kv", site__deposit=deposit / 100, **given)


@pytest.mark.parametrize("name", NAMES)
def test_every_demonstration_has_a_layer_and_says_where_from(name: str) -> None:
    work = plain(name)
    of_class = "class d, no measurement"
    expected = {"inland-12kv": MEASURED, "quarry-36kv": of_class, "quarry-36kv-cured": of_class}

    assert work.dirt.layer.read_from == expected.get(name, SALTED)
    # Flashover, drying and the field all rest on one layer.
    assert wet_layer_of(work.installation, work.number).severity == work.dirt.layer.severity


def test_a_layer_from_the_class_never_fails_and_is_said_aloud() -> None:
    dirtier = case("quarry-36kv", site__altitude=0.0, site__pollution_class="e")
    check = sl.assess(dirtier).check("surface.flashover")

    assert check.margin is not None
    assert check.margin < 0
    assert check.verdict is Verdict.CAUTION
    assert "derived from the class" in check.reason
    assert any("derived from the class, not measured" in note for note in check.notes)


def test_the_class_is_read_at_the_upper_edge_of_its_band() -> None:
    surface = plain("quarry-36kv")

    assert float(surface.dirt.layer.severity) == pytest.approx(0.25e-2)
    middle = dict(surface.flashover.rivals)["Middle of the class's band"]
    assert float(middle) > float(surface.flashover.held)


def test_salt_spray_is_read_by_the_salt_fog_test_of_equal_severity() -> None:
    # 40 kg/m³ and 0.20 mg/cm² are one severity in IEC 815:1986: 35 µS.
    salted = work_out(case("quay-24kv", site__salinity=40.0)).dirt.layer
    dusty = work_out(measured(0.20)).dirt.layer

    assert float(salted.upper) == pytest.approx(35e-6, rel=0.01)
    assert float(dusty.upper) == pytest.approx(35e-6, rel=0.01)


def test_of_two_measurements_the_more_conductive_decides_and_the_other_is_shown() -> None:
    both = work_out(case("quay-24kv", site__deposit=0.0003))
    other = work_out(case("quay-24kv", site__deposit=0.0003, site__salinity=3.0))

    assert both.dirt.layer.read_from == SALTED
    assert "Layer from the measured deposit" in dict(both.flashover.rivals)
    assert other.dirt.layer.read_from == MEASURED
    assert "Layer from the site salinity" in dict(other.flashover.rivals)


@pytest.mark.parametrize(
    ("deposit", "specific"), [(0.06, 34.7), (0.20, 45.0)], ids=["class c", "class d"]
)
def test_the_arc_asks_for_the_creepage_the_classes_ask_for(deposit: float, specific: float) -> None:
    """Class mid values against the reference creepages of IEC TS 60815-1, at sea level.

    Neither the closed form nor the equivalence of the tests knows the classes; within the scatter
    of a tenth they come to the same creepage per kilovolt.
    """
    work = work_out(measured(deposit))
    asked = float(work.surface.creepage) / float(work.flashover.critical)

    assert 1e6 * asked == pytest.approx(specific, rel=0.05)


def test_more_dirt_less_held_and_clean_holds_far_more() -> None:
    found = [
        float(work_out(measured(deposit)).flashover.held)
        for deposit in (0.0001, 0.01, 0.05, 0.2, 0.6, 5.0)
    ]

    assert found == sorted(found, reverse=True)
    assert found[0] > 3 * found[-2]
    # Outside the range of the rule a pass is never silent.
    check = sl.assess(measured(0.0001)).check("surface.flashover")
    assert check.verdict is Verdict.CAUTION
    assert "outside the range" in check.reason


def test_an_even_layer_on_a_bare_cylinder_is_the_closed_form() -> None:
    bare = work_out(measured(0.1, bushing__sheds=None))
    found = bare.flashover

    assert found.leaps == ()
    # The trunk tapers nowhere: the mean tells all.
    assert found.profile_costs[0] == pytest.approx(1.0, abs=2e-3)
    assert float(found.held) == pytest.approx(float(dict(found.rivals)[AVERAGE]), rel=2e-3)


def test_clean_tops_over_dirty_undersides_make_the_mean_unsafe() -> None:
    """A case of two kinds of stretches: most resistance lies before little."""
    uneven = work_out(measured(0.01, site__deposit_below=1.0 / 100))
    turned = work_out(measured(1.0, site__deposit_below=0.01 / 100))

    for surface in (uneven, turned):
        cost = surface.flashover.profile_costs[0]
        average = float(dict(surface.flashover.rivals)[AVERAGE])
        assert average / float(surface.flashover.held) == pytest.approx(1 / cost, rel=1e-9)
    assert float(uneven.dirt.layer.lower) > 5 * float(uneven.dirt.layer.upper)
    # Sheds repeat, so that the two alternate all along and the difference stays small.
    assert uneven.flashover.profile_costs[0] < 0.996


def test_equal_deposits_on_both_sides_are_one_deposit() -> None:
    one = work_out(measured(0.1))
    two = work_out(measured(0.1, site__deposit_below=0.001))

    assert float(two.flashover.held) == pytest.approx(float(one.flashover.held), rel=1e-3)


def test_a_shower_helps_little_because_it_spares_most_of_the_way() -> None:
    surface = plain("quarry-36kv")
    assert surface.flashover.after_rain is not None
    assert surface.dirt.washed is not None

    gain = float(surface.flashover.after_rain) / float(surface.flashover.held)
    assert 1.0 < gain < 1.2
    # Were all of it washed down to what is left where rain strikes, far more would be held.
    everywhere = (float(surface.dirt.layer.upper) / float(surface.dirt.washed.struck)) ** 0.4
    assert everywhere > 1.25
    assert plain("quay-24kv").flashover.after_rain is None


def test_dust_beyond_the_reference_costs_by_its_power_law() -> None:
    less = float(work_out(measured(0.1)).flashover.held)
    dusty = measured(0.1, site__insoluble_deposit=0.01)
    more = float(work_out(dusty).flashover.held)

    assert more / less == pytest.approx(10**-0.1, rel=1e-9)


def test_warm_fog_conducts_better() -> None:
    warm = work_out(measured(0.1, site__fog_temperature=303.15))
    cool = work_out(measured(0.1))

    ratio = float(warm.dirt.layer.upper) / float(cool.dirt.layer.upper)
    assert ratio == pytest.approx(1 / (1 - 0.01905 * 10), rel=1e-3)
    assert float(warm.flashover.held) < float(cool.flashover.held)


def test_thin_air_counts_from_sea_level() -> None:
    low, high = held(), held(site__altitude=1800.0)
    density = float(work_out(case(site__altitude=1800.0)).voltages.density)
    at_250 = float(work_out(case()).voltages.density)

    assert high / low == pytest.approx(math.sqrt(density / at_250), rel=1e-9)


def test_overvoltage_is_asked_of_the_same_surface() -> None:
    inland = sl.assess(case())
    service = inland.check("surface.flashover")
    fault = inland.check("surface.flashover.overvoltage")

    assert service.capability == fault.capability
    assert fault.demand is not None
    assert service.demand is not None
    assert fault.demand / service.demand == pytest.approx(1.73)
    brief = sl.assess(case("quay-24kv")).check("surface.flashover.overvoltage")
    assert "have to meet" in brief.reason


def test_heat_gathers_on_the_trunk_and_energy_is_accounted_for() -> None:
    work = plain("quay-24kv")
    leakage, path = work.leakage, work.dirt.path

    trunk = work.section.radii.body
    for neck in leakage.necks:
        middle = 0.5 * (neck.start + neck.end)
        assert np.interp(middle, path.ends, path.radii) < 1.15 * trunk
    power = float(np.sum(leakage.state.heat * path.areas))
    # The cells know the form factor to a thousandth.
    assert power == pytest.approx(float(work.voltages.phase) * float(leakage.current), rel=1e-3)
    assert float(leakage.peak) == pytest.approx(math.sqrt(2) * float(leakage.current))
    assert len(leakage.necks) == len(work.measures.sheds) + 1


def test_the_undersides_need_the_upper_sides() -> None:
    with pytest.raises(sl.InputError, match="deposit_below"):
        case("quay-24kv", site__deposit_below=0.001)
