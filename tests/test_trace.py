"""A number remembers how it came about: every step once, inputs before what uses them."""

import base64
import copy
import math
import pickle
import subprocess
import sys
import time
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from shedlight.errors import CalculationError
from shedlight.sources import cite
from shedlight.trace import (
    FORMULAS,
    Kind,
    Label,
    Number,
    Shared,
    calculate,
    citations,
    derivation,
    formula,
    formula_of,
    given,
    looked_up,
    measured,
    out_of_range,
)
from shedlight.verification import values

EXACT = cite("IEC 60071-1", "nowhere", "exact")
LENGTH = Label("Length", "l", "mm")


@formula(
    ("Sum", "s", "mm"),
    "a + b",
    {"a": ("First", "a", "mm"), "b": ("Second", "b", "mm")},
    EXACT,
    ranges={"a": (0.0, 1.0)},
    note="A standing remark.",
)
def added(a: float, b: float = 2.0) -> float:
    return a + b


@formula(("Total", "t", "mm"), "sum a_i", {"parts": ("Parts", "a_i", "mm")}, EXACT)
def total(parts: tuple[float, ...]) -> float:
    return math.fsum(parts)


def start(value: float) -> Number:
    return given(value, LENGTH, "somewhere")


def test_number_is_a_float_with_its_step() -> None:
    number = start(0.5)

    assert number == 0.5
    assert number.step.kind is Kind.GIVEN
    assert type(number + 1) is float
    assert given(0.5, LENGTH, "x", default=True).step.kind is Kind.DEFAULT
    assert measured(0.5, LENGTH, "x").step.kind is Kind.MEASURED
    assert looked_up(0.5, LENGTH, EXACT, "row").step.kind is Kind.TABLE


@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy])
def test_copies_keep_the_step(again: object) -> None:
    number = calculate(added, start(0.5), start(0.25))

    assert again(number).step == number.step  # type: ignore[operator]
    assert pickle.loads(pickle.dumps(number)).step == number.step


def test_calculation_records_inputs_source_and_remark() -> None:
    first = start(0.5)
    number = calculate(added, first, b=0.25)
    step = number.step

    assert number == 0.75
    assert (step.kind, step.label.name, step.typeset) == (Kind.FORMULA, "Sum", "a + b")
    assert [item.label.name for item in step.inputs] == ["First", "Second"]
    assert [item.value for item in step.inputs] == [0.5, 0.25]
    assert step.inputs[0].origins == (first.step,)
    assert step.inputs[1].origins == ()
    assert (step.citation, step.note) == (EXACT, "A standing remark.")


def test_default_argument_is_an_input_too() -> None:
    assert calculate(added, 0.5).step.inputs[1].value == 2.0


def test_several_numbers_at_once_keep_their_origins() -> None:
    parts = (start(0.1), start(0.2), 0.3)
    step = calculate(total, parts).step

    assert step.inputs[0].value == (0.1, 0.2, 0.3)
    assert step.inputs[0].origins == (parts[0].step, parts[1].step)


@for_all(st.lists(st.floats(0.0, 1.0), min_size=1, max_size=12))
def test_derivation_lists_every_step_once_and_inputs_first(values: list[float]) -> None:
    number: Number = start(values[0])
    for value in values[1:]:
        number = calculate(added, calculate(total, (number, start(value))), number)
    steps = derivation(number, number)

    assert len(set(steps)) == len(steps)
    for place, step in enumerate(steps):
        for origin in (origin for item in step.inputs for origin in item.origins):
            assert origin in steps[:place]
    assert steps[-1] == number.step


def test_many_ways_to_the_same_step_cost_no_time() -> None:
    """Sixty doublings make 2^60 ways from the result to its input: each step is walked once."""
    number: Number = start(1.0)
    for _ in range(60):
        number = calculate(added, number, number)
    begun = time.process_time()

    assert len(derivation(number)) == 61
    assert time.process_time() - begun < 1.0


def test_two_copies_of_a_long_calculation_cost_no_time_either() -> None:
    def doubled(times: int) -> Number:
        number = measured(1e-9, LENGTH, "start")
        for _ in range(times):
            number = calculate(added, number, number)
        return number

    started = time.perf_counter()
    one, other = doubled(40), doubled(40)
    assert one.step == other.step
    assert one.step != doubled(39).step
    assert len(derivation(one, other)) == 41
    assert time.perf_counter() - started < 1.0


def test_equal_steps_made_apart_are_one() -> None:
    one = calculate(added, start(0.5), start(0.25))
    other = calculate(added, start(0.5), start(0.25))

    assert one.step is not other.step
    assert len(derivation(one, other)) == 3
    assert derivation(pickle.loads(pickle.dumps(one)), one) == derivation(other)


def test_steps_of_another_process_are_the_same_steps() -> None:
    code = (
        "import base64, pickle; from shedlight.trace import Label, given\n"
        "number = given(0.5, Label('Length', 'l', 'mm'), 'somewhere')\n"
        "print(base64.b64encode(pickle.dumps(number)).decode())"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        check=True,
        env={"PYTHONHASHSEED": "12345"},
    )
    number = pickle.loads(base64.b64decode(done.stdout))

    assert number.step == start(0.5).step
    assert hash(number.step) == hash(start(0.5).step)


def test_citations_come_once_and_in_order() -> None:
    other = cite("IEC 60071-1", "elsewhere", "practice")
    number = calculate(added, looked_up(0.5, LENGTH, other, "row"), calculate(added, 0.1, 0.2))

    assert citations(number) == (other, EXACT)
    assert citations(0.5) == ()


def test_value_beyond_the_range_of_its_source_is_told_all_the_way() -> None:
    beyond = calculate(added, start(1.5), 0.0)
    later = calculate(total, (beyond, start(0.1)))

    assert out_of_range(later) == ("First lies outside the range of the source",)
    assert out_of_range(calculate(added, start(1.0), 0.0)) == ()


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_result_that_is_no_number_is_our_own_fault(value: float) -> None:
    with pytest.raises(CalculationError, match=r"added gave .* for"):
        calculate(added, value, 1.0)


def test_undeclared_function_is_refused() -> None:
    def secret(a: float) -> float:
        return a

    with pytest.raises(CalculationError, match="not declared"):
        calculate(secret, 1.0)
    with pytest.raises(CalculationError, match="not declared"):
        formula_of(secret)


def test_declaration_must_name_the_parameters() -> None:
    with pytest.raises(CalculationError, match=r"takes .* but declares"):

        @formula(("X", "x", "1"), "x", {"b": ("B", "b", "1")}, EXACT)
        def wrong(a: float) -> float:
            return a


def test_declared_formulas_are_found_by_their_place() -> None:
    assert FORMULAS[f"{__name__}.added"].typeset == "a + b"


# --- arguments that several formulas share ---------------------------------------------------


@dataclass(frozen=True)
class Rod(Shared):
    length: float
    width: float

    LABELS: ClassVar[Mapping[str, tuple[str, str, str]]] = {
        "length": ("Length", "l", "mm"),
        "width": ("Width", "w", "mm"),
    }


@formula(
    ("Weight", "W", "N"),
    "g l w",
    {"rod": Rod, "weight": ("Weight per area", "g", "N/m")},
    cite("first principles", "a sum of nothing", "exact"),
    ranges={"width": (0.0, 0.5)},
)
def weighed(rod: Rod, weight: float) -> float:
    return rod.length * rod.width * weight


def test_shared_arguments_are_listed_one_by_one() -> None:
    assert list(FORMULAS[f"{__name__}.weighed"].inputs) == ["length", "width", "weight"]
    length = measured(2.0, Label("Length", "l", "mm"), "by hand")
    number = calculate(weighed, Rod(length, 3.0), 4.0)
    assert number == 24.0
    assert [one.label.symbol for one in number.step.inputs] == ["l", "w", "g"]
    assert number.step.inputs[0].origins == (length.step,)
    assert "Width" in number.step.beyond[0]


def test_shared_arguments_can_be_called_by_name() -> None:
    assert values.called(weighed, {"length": 2.0, "width": 3.0, "weight": 4.0}) == 24.0
    with pytest.raises(TypeError, match="width"):
        values.called(weighed, {"length": 2.0, "weight": 4.0})
