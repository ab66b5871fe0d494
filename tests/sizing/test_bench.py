"""Drafts are tried on what a shape decides, without what takes longer than all of it."""

import shedlight as sl
from edits import example
from shedlight.checks.assessment import assess
from shedlight.sizing.bench import quick_questions

LONG = ("heat", "flashover", "leakage", "odds", "rain", "dirt")


def test_trying_a_draft_works_out_neither_heat_nor_wet_surface() -> None:
    """One question that opened such a room would make every search four times as long."""
    found = assess(sl.parse(example("quay-24kv")), only=quick_questions(), settled=False)
    opened = [room for room in LONG if room in vars(found.workings)]

    assert opened == []
    assert len(found.checks) > 50


def test_heat_is_counted_where_it_is_asked_for() -> None:
    more = quick_questions(with_heat=True) - quick_questions()
    assert {"conductor.hot-spot", "terminal.bolts", "body.thermal-shock"} <= more
