"""Limits of the weather: rain straight down and level, no sheds, all wet, all clean."""

import math

import numpy as np
import pytest

import shedlight as sl
from edits import EXAMPLES
from shedlight.checks.check import Verdict
from shedlight.workings import Workings, work_out
from shedlight.workings.drying import Scenario, drying_of
from shedlight.workings.rain import wetting_of

INLAND = sl.read(EXAMPLES / "inland-12kv.toml")
BARE = sl.changed(INLAND, bushing__sheds=None)
CLEAN = sl.changed(INLAND, site__deposit="0.0005 mg/cm²", site__deposit_below=None)


def wet_share(case: sl.Installation, degrees: float) -> float:
    turned = sl.changed(case, site__rain_angle=math.radians(degrees))
    work = work_out(turned)
    return wetting_of(turned, work.section, work.measures, 36).maps[0].wet_share


def test_rain_straight_down_wets_no_upright_face() -> None:
    assert wet_share(BARE, 0.0) == 0.0
    # Of equal sheds the topmost shades all others.
    assert 0.05 < wet_share(INLAND, 0.0) < 0.15


def test_level_rain_wets_half_of_what_stands_free() -> None:
    # A smooth body has its windward half wet, but for the fillet below the cap.
    assert wet_share(BARE, 90.0) == pytest.approx(0.5, abs=0.02)
    assert 0.1 < wet_share(INLAND, 90.0) < 0.5


def test_rain_that_is_nearly_level_or_upright_wets_nearly_as_much() -> None:
    for case in (BARE, INLAND):
        for limit, near in ((0.0, 0.05), (90.0, 89.95)):
            assert wet_share(case, near) == pytest.approx(wet_share(case, limit), abs=0.02)


def test_all_wet_leaves_no_dry_creepage_to_count_on() -> None:
    fog = drying_of(INLAND, Workings(INLAND), Scenario.FOG, 10.0)
    peak = fog.peak

    assert fog.dry_shares[peak] < 0.2
    # All along the way some voltage lies across the layer, and it adds up.
    assert np.all(fog.run.voltages[peak] > 0)
    assert float(np.sum(fog.run.voltages[peak])) == pytest.approx(float(fog.voltage), rel=1e-6)


def test_all_clean_holds_far_more_and_neither_dries_nor_sparks() -> None:
    clean, dirty = work_out(CLEAN), work_out(INLAND)
    fog = drying_of(CLEAN, Workings(CLEAN), Scenario.FOG, 10.0)

    assert float(clean.flashover.held) > 3 * float(clean.voltages.phase)
    assert float(clean.flashover.held) > 1.5 * float(dirty.flashover.held)
    assert float(clean.odds.dirt.per_event) < 1e-5
    assert fog.banded is None
    assert not fog.run.burning.any()
    assert fog.run.ledger.error < 1e-2


def test_cleaner_than_any_rule_is_made_for_is_told_and_not_passed_in_silence() -> None:
    check = sl.assess(CLEAN).check("surface.flashover")

    assert check.margin is not None
    assert check.margin > 2
    assert check.verdict is Verdict.CAUTION


def test_without_sheds_the_arc_has_nothing_to_leap() -> None:
    found = work_out(BARE)

    assert found.flashover.leaps == ()
    assert found.rain.gaps == ()
    assert found.measures.creepage_length < 1.2 * found.measures.arcing.length


def test_what_rain_spares_stays_dirty_and_counts_in_fog() -> None:
    """Said where it matters: with dry creepage, with flashover, and of the next fog."""
    deposit = sl.changed(INLAND, site__deposit="0.1 mg/cm²", site__deposit_below=None)
    checks = sl.assess(deposit)
    rain = " ".join(checks.check("surface.rain-dry").notes)
    fog = " ".join(checks.check("surface.flashover").notes)

    assert "fog wets everything" in rain
    assert "does not wash" in rain
    assert "undersides that stay dry in rain do not help here" in fog
    assert "What rain cannot wash stays dirty" in fog
