"""Compromises: each holds, none beats another, and the first are soon there."""

from dataclasses import replace

import pytest

import shedlight as sl
from shedlight.checks.check import Verdict
from shedlight.cli.sizing_tables import show_front
from shedlight.documents.numerals import percent
from shedlight.errors import InputError
from shedlight.sizing.bench import QUANTITIES, shape_margins, tried
from shedlight.sizing.compromise import Candidate, Front, compromises, finished
from shedlight.sizing.draft import Draft
from shedlight.sizing.sized import NEARLY
from sizing.requests import asked

SMALL = {
    "duty__highest_voltage": "12 kV",
    "duty__rated_current": "250 A",
    "site__pollution_class": "b",
    "site__salinity": None,
    "sizing__sheds": "plain",
    "bushing": {
        "conductor": {"metal": "copper", "diameter": "12 mm"},
        "porcelain": {"bore": "20 mm", "wall": "16 mm"},
        "oil_end": {"length": "90 mm"},
        "sheds": {"form": "plain", "count": 4},
    },
}


@pytest.fixture(scope="module")
def fronts() -> list[Front]:
    """Everything that is shown while lightest is weighed against widest margin.

    All but air end and overhang is fixed.
    """
    return list(compromises(asked(**SMALL), "lightest", "widest margin", 3))


def test_the_first_compromise_is_there_long_before_the_last(fronts: list[Front]) -> None:
    assert fronts[0].candidates
    assert fronts[0].drafts < fronts[-1].drafts / 4
    assert fronts[-1].drafts < 1200, "a page cannot wait for more"


def test_there_is_a_front_and_no_point_of_it_beats_another(fronts: list[Front]) -> None:
    found = fronts[-1].candidates
    assert len(found) == 3
    masses, margins = [one.first for one in found], [one.second for one in found]
    assert masses == sorted(masses)
    assert margins == sorted(margins), "more mass is only borne for more margin"
    assert margins[-1] > margins[0] + 0.03


def test_what_was_shown_is_only_left_for_what_is_no_worse(fronts: list[Front]) -> None:
    last = fronts[-1].candidates
    best = (min(c.first for c in last), max(c.second for c in last))
    for front in fronts:
        for one in front.candidates[::2]:
            assert one.first >= best[0] - 1e-9
            assert one.second <= best[1] + 1e-9


def test_each_compromise_holds_when_it_is_finished_and_checked(fronts: list[Front]) -> None:
    for one in fronts[-1].candidates[::2]:
        checks = sl.assess(finished(one.request, one.tried.draft)).checks
        assert not [check.id for check in checks if check.verdict is Verdict.FAIL]
        creepage = next(check for check in checks if check.id == "surface.creepage")
        assert creepage.margin is not None
        assert creepage.margin >= one.second - 1e-9


def test_no_other_overhang_is_better_by_both(fronts: list[Front]) -> None:
    """Every whole overhang is tried at the lengths of both ends."""
    front = fronts[-1]
    for one in front.candidates[::2]:
        tries = [replace(one.tried.draft, overhang=1e-3 * n) for n in range(15, 61)]
        better = [value for draft in tries if (value := held(one, draft, front)) is not None]
        assert better, "the compromise itself is among them"
        assert max(better) <= one.second + 0.005


def held(one: Candidate, draft: Draft, front: Front) -> float | None:
    """The margin of a draft as the front counts it; None where it is heavier or does not hold."""
    try:
        found = tried(one.request, draft, whole=True)
    except InputError:
        return None
    height = found.work.section.heights.top
    within = min(shape_margins(one.request, draft, height).values()) >= 0
    mass = QUANTITIES["lightest"][2](found.work)
    if found.failed or not within or mass > one.first + 1e-9:
        return None
    return min(found.margins[name] for name in front.counted)


def test_what_stands_below_the_wish_is_told_and_not_counted(fronts: list[Front]) -> None:
    front = fronts[-1]
    assert front.counted
    assert not front.counted & dict(front.below).keys()
    for name, least in front.below:
        margins = [c.tried.margins[name] for c in front.candidates if name in c.tried.margins]
        assert least == min(margins)
    counted = [[one.tried.margins[name] for name in front.counted] for one in front.candidates]
    assert [min(margins) for margins in counted] == [one.second for one in front.candidates]
    # Whatever else any compromise has below the wish is moved by no dimension, or listed.
    wish = asked(**SMALL).wishes.margin
    lowest = front.candidates[0].tried.margins
    low = {name for name, m in lowest.items() if m < wish - NEARLY}
    assert low <= dict(front.below).keys()


def test_demands_held_below_the_wish_stand_beside_the_front(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The oil end is fixed: more margin than it has cannot be had of what it decides."""
    front = next(compromises(asked(**SMALL, sizing__margin="30 %"), "lightest", "widest margin", 3))
    (name, margin), *_ = front.below
    assert front.candidates
    assert all(least < 0.3 for _, least in front.below)
    assert not front.counted & dict(front.below).keys()
    show_front(front)
    said = " ".join(capsys.readouterr().out.split())
    assert "Held below the margin wished for" in said
    assert f"{name} {percent(margin)}".replace("\N{NO-BREAK SPACE}", " ") in said


def test_where_no_bushing_holds_there_is_no_front() -> None:
    request = asked(**SMALL, transformer__hole_diameter="53 mm", sizing__largest_height="200 mm")
    *_, front = compromises(request, "shortest", "least oil", 3)
    assert front.candidates == ()
