"""Compromises: each holds, none beats another, and the first are soon there."""

import pytest

import shedlight as sl
from shedlight.checks.check import Verdict
from shedlight.sizing.compromise import Front, compromises, finished
from shedlight.sizing.request import Objective
from sizing.requests import asked

SMALL = {
    "duty__highest_voltage": "12 kV",
    "duty__rated_current": "250 A",
    "site__pollution_class": "b",
    "site__salinity": None,
    "sizing__sheds": "plain",
}


@pytest.fixture(scope="module")
def fronts() -> list[Front]:
    """Everything that is shown while lightest is weighed against widest margin."""
    return list(compromises(asked(**SMALL), "lightest", "widest margin", 5))


def test_the_first_compromise_is_there_long_before_the_last(fronts: list[Front]) -> None:
    assert fronts[0].candidates
    assert fronts[0].drafts < fronts[-1].drafts / 4
    assert fronts[-1].drafts < 1200, "a page cannot wait for more"


def test_there_is_a_front_and_no_point_of_it_beats_another(fronts: list[Front]) -> None:
    found = fronts[-1].candidates
    assert len(found) == 5
    masses, margins = [one.first for one in found], [one.second for one in found]
    assert masses == sorted(masses)
    assert margins == sorted(margins), "more mass is only borne for more margin"
    assert margins[-1] > margins[0] + 0.1


def test_what_was_shown_is_only_left_for_what_is_no_worse(fronts: list[Front]) -> None:
    last = fronts[-1].candidates
    best = (min(c.first for c in last), max(c.second for c in last))
    for front in fronts:
        for one in front.candidates:
            assert one.first >= best[0] - 1e-9
            assert one.second <= best[1] + 1e-9


def test_each_compromise_holds_when_it_is_finished_and_checked(fronts: list[Front]) -> None:
    for one in fronts[-1].candidates[::2]:
        checks = sl.assess(finished(one.request, one.tried.draft)).checks
        assert not [check.id for check in checks if check.verdict is Verdict.FAIL]
        creepage = next(check for check in checks if check.id == "surface.creepage")
        assert creepage.margin is not None
        assert creepage.margin >= one.second - 1e-9


@pytest.mark.parametrize("pair", [("lightest", "widest margin"), ("shortest", "least oil")])
def test_where_no_bushing_holds_there_is_no_front(pair: tuple[Objective, Objective]) -> None:
    request = asked(transformer__hole_diameter="40 mm", bushing__conductor={"diameter": "20 mm"})
    *_, front = compromises(request, *pair, 3)
    assert front.candidates == ()
