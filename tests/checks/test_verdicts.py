"""How a verdict follows from margin, trust and range."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.checks.check import (
    Question,
    Verdict,
    fact,
    held,
    not_assessed,
    ratio_margin,
    rise_margin,
    window_margin,
)
from shedlight.sources import Citation, cite
from shedlight.trace import Label, Number, looked_up

QUESTION = Question("a.b", "part", "title", "demand", "capability", "kV", "why")
LABEL = Label("Quantity", "q", "kV")

FIRM = cite("IEC 60137", "a clause", "memory", "high")
QUOTED = cite("IEC 60815-1", "a table", "published")
SHAKY = cite("IEC 60137", "a clause", "memory", "medium")
CUSTOM = cite("trade", "a habit", "practice")


def number(value: float, citation: Citation, beyond: tuple[str, ...] = ()) -> Number:
    return looked_up(value, LABEL, citation, "row", beyond=beyond)


@pytest.mark.parametrize("citation", [FIRM, QUOTED])
def test_firm_sources_may_fail(citation: Citation) -> None:
    check = held(QUESTION, number(2.0, citation), number(1.0, citation))

    assert check.verdict is Verdict.FAIL
    assert check.margin == -0.5


@pytest.mark.parametrize("weak", [SHAKY, CUSTOM])
def test_one_weak_source_caps_at_caution_and_keeps_the_margin(weak: Citation) -> None:
    check = held(QUESTION, number(2.0, FIRM), number(1.0, weak))

    assert check.verdict is Verdict.CAUTION
    assert check.margin == -0.5
    assert check.deciding_source == weak
    assert "short by 50.0%" in check.reason


def test_confirmed_practice_gates_fully() -> None:
    confirmed = cite("trade", "a habit", "confirmed")

    check = held(QUESTION, number(2.0, FIRM), number(1.0, confirmed))

    assert check.verdict is Verdict.FAIL


def test_outside_the_range_is_never_a_silent_pass() -> None:
    check = held(QUESTION, number(1.0, FIRM), number(2.0, FIRM, ("the gap is too long",)))

    assert check.verdict is Verdict.CAUTION
    assert "the gap is too long" in check.reason


def test_enough_passes_whatever_the_trust() -> None:
    assert held(QUESTION, number(1.0, CUSTOM), number(2.0, SHAKY)).verdict is Verdict.PASS


def test_facts_fail_only_on_firm_ground() -> None:
    assert fact(QUESTION, False, "no vent", citation=FIRM).verdict is Verdict.FAIL
    assert fact(QUESTION, False, "no vent", citation=CUSTOM).verdict is Verdict.CAUTION
    assert fact(QUESTION, False, "no vent").verdict is Verdict.CAUTION
    assert fact(QUESTION, True, "vented").verdict is Verdict.PASS


def test_not_assessed_has_no_numbers_but_a_reason() -> None:
    check = not_assessed(QUESTION, "the torque is not given")

    assert check.verdict is Verdict.NOT_ASSESSED
    assert (check.demand, check.capability, check.margin) == (None, None, None)
    assert check.reason == "the torque is not given"


def test_worst_comes_first() -> None:
    failed = held(QUESTION, number(2.0, FIRM), number(1.0, FIRM))
    worse = held(QUESTION, number(4.0, FIRM), number(1.0, FIRM))
    caution = held(QUESTION, number(9.0, CUSTOM), number(1.0, FIRM))
    unknown = not_assessed(QUESTION, "missing")
    passed = held(QUESTION, number(1.0, FIRM), number(2.0, FIRM))

    ordered = sorted([passed, unknown, caution, failed, worse], key=lambda check: check.urgency)

    assert ordered == [worse, failed, caution, unknown, passed]


@given(st.floats(1e-3, 1e6), st.floats(1e-3, 1e6))
def test_margin_is_negative_exactly_when_short(demand: float, capability: float) -> None:
    assert (ratio_margin(demand, capability) < 0) == (capability / demand < 1)


def test_temperatures_count_by_rise() -> None:
    # 90 °C against a limit of 100 °C in 40 °C air: 50 K of 60 K.
    assert rise_margin(363.15, 373.15, 313.15) == pytest.approx(0.2)
    assert math.isinf(rise_margin(310.0, 373.15, 313.15))


def test_windows_take_the_smaller_side() -> None:
    assert window_margin(0.30, 0.25, 0.35) == pytest.approx(0.35 / 0.30 - 1)
    assert window_margin(0.24, 0.25, 0.35) == pytest.approx(-0.04)
    assert window_margin(0.40, 0.25, 0.35) == pytest.approx(-0.125)
