"""Odds of a year: closed forms, one and many bushings, what is given before what is assumed."""

import math
from functools import cache

import pytest

import shedlight as sl
from edits import EXAMPLES, NAMES
from shedlight.checks.check import Verdict
from shedlight.physics.air.coordination import flashover_risk
from shedlight.physics.air.risk import risk_for_safety_factor
from shedlight.physics.surface.odds import event_probability
from shedlight.trace import citations, derivation
from shedlight.workings import Workings
from shedlight.workings.odds import BY_ARC, BY_CREEPAGE, Odds


def case(name: str, **changes: object) -> sl.Installation:
    return sl.changed(sl.read(EXAMPLES / f"{name}.toml"), **changes)


@cache
def _odds(name: str, changes: tuple[tuple[str, object], ...]) -> Odds:
    return Workings(case(name, **dict(changes))).odds


def odds(name: str, **changes: object) -> Odds:
    return _odds(name, tuple(changes.items()))


@pytest.mark.parametrize("name", NAMES)
def test_one_bushing_meets_the_closed_forms(name: str) -> None:
    """Quotient of two log-normal, difference of two normal quantities: no integral needed."""
    one = odds(name, site__bushings_exposed=1)
    dirt = one.dirt
    closed = event_probability(
        dirt.median, dirt.log_deviation, dirt.critical, dirt.critical_log_deviation
    )

    assert dirt.per_event == pytest.approx(closed, rel=1e-3, abs=1e-15)
    for surge in (one.lightning, one.switching):
        numbers = surge.mean, surge.deviation, surge.strength, surge.strength_deviation
        assert surge.per_event == pytest.approx(flashover_risk(*numbers), rel=1e-2, abs=1e-15)


@pytest.mark.parametrize("name", NAMES)
def test_more_bushings_draw_more_tickets_but_not_more_than_one_each(name: str) -> None:
    one = odds(name, site__bushings_exposed=1)
    many = odds(name, site__bushings_exposed=12)

    for lone, all_of_them in ((one.dirt, many.dirt), (one.lightning, many.lightning)):
        assert lone.per_event <= all_of_them.per_event <= min(1.0, 12 * lone.per_event) + 1e-15


def test_three_are_taken_and_said_aloud() -> None:
    quay = sl.assess(case("quay-24kv"))
    step = quay.workings.odds.bushings.step

    assert quay.workings.odds.bushings == pytest.approx(3)
    assert "three, one for each phase" in step.note
    assert any("3 bushings" in note for note in quay.check("odds.pollution").notes)


def test_the_measured_half_life_of_the_site_decides_by_the_arc_and_a_class_by_creepage() -> None:
    assert odds("quay-24kv").dirt.by == BY_ARC
    assert odds("quarry-36kv").dirt.by == BY_CREEPAGE
    assert odds("quarry-36kv").other_dirt.by == BY_ARC


def test_odds_tell_ill_from_cured() -> None:
    assert odds("quay-24kv").dirt.per_year > 100 * odds("quay-24kv-cured").dirt.per_year
    assert (
        odds("quarry-36kv").lightning.per_year > 100 * odds("quarry-36kv-cured").lightning.per_year
    )
    ill, cured = (sl.assess(case(name)) for name in ("quarry-36kv", "quarry-36kv-cured"))
    assert ill.check("odds.lightning").verdict is Verdict.CAUTION
    assert cured.check("odds.lightning").verdict is Verdict.PASS


def test_assumed_spreads_never_fail_a_bushing() -> None:
    worst = sl.assess(case("quay-24kv", site__salinity=250.0, site__altitude=4000.0))

    for identifier in ("odds.pollution", "odds.lightning"):
        check = worst.check(identifier)
        assert check.margin is not None
        assert check.margin < 0
        assert check.verdict is Verdict.CAUTION


def test_a_surge_that_is_given_counts_before_the_assumed_one() -> None:
    assumed = odds("quay-24kv")
    given = odds("quay-24kv", duty__lightning_surge=170e3, duty__switching_surge=90e3)

    assert not assumed.lightning.is_given
    assert given.lightning.is_given
    assert given.lightning.two_percent == 170e3
    assert given.switching.two_percent == 90e3
    assert given.lightning.per_year > assumed.lightning.per_year
    notes = sl.assess(case("quay-24kv", duty__lightning_surge=170e3)).check("odds.lightning").notes
    assert not any("not described" in note for note in notes)


def test_the_safety_factor_of_the_standard_goes_with_its_risk() -> None:
    """IEC 60071-2: 1.15 goes with about 1e-4, by its closed form, and more the wider the spread."""
    one = odds("quay-24kv", site__bushings_exposed=1)
    surge = one.switching.strength * (1 - 1.2816 * 0.06) / 1.15
    found = odds("quay-24kv", site__bushings_exposed=1, duty__switching_surge=surge).switching
    spread = found.deviation / found.mean

    assert found.safety == pytest.approx(1.15, rel=1e-6)
    closed = risk_for_safety_factor(1.15, spread, 0.06)
    assert found.per_event == pytest.approx(closed, rel=1e-3)
    assert risk_for_safety_factor(1.15, 0.1, 0.06) < closed < 1e-3


def test_less_than_one_in_a_million_is_not_told() -> None:
    quay = sl.assess(case("quay-24kv"))
    check = quay.check("odds.switching")

    assert check.demand == pytest.approx(1e-6)
    assert any("One in a million" in note for note in check.notes)


def test_severity_is_followed_over_one_tenfold_only() -> None:
    inland = Workings(case("inland-12kv"))
    strong = inland.flashover.critical / inland.voltages.phase

    assert strong**5 > 10
    assert inland.odds.dirt.critical == pytest.approx(10 * inland.dirt.layer.severity)


def test_every_odds_carries_its_trace_in_the_unit_of_its_severity() -> None:
    for name, unit in (("quay-24kv", "kg/m³"), ("inland-12kv", "mg/cm²")):
        found = odds(name)
        steps = {step.label.name: step for step in derivation(found.dirt.per_year)}
        assert steps["Median severity of an event"].label.unit == unit
        assert steps["Severity that flashes over in half the trials"].label.unit == unit
        assert len(citations(found.dirt.per_year, found.lightning.per_year)) >= 5


def test_years_follow_from_events() -> None:
    found = odds("quay-24kv").dirt
    assert found.per_year == pytest.approx(1 - math.pow(1 - found.per_event, 10), rel=1e-9)
