"""An assessment as data: complete, finite, and without losing where a number came from."""

import json
import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings

import shedlight as sl
from edits import NAMES, example
from shedlight.errors import InputError
from shedlight.exchange.examples import example_text
from shedlight.exchange.record import assessment_record, check_record
from shedlight.given.reading import from_data
from strategies import installations


def plain(value: Any) -> bool:
    """Only what JSON knows, and no number that it does not."""
    if isinstance(value, dict):
        return all(isinstance(key, str) and plain(item) for key, item in value.items())
    if isinstance(value, list):
        return all(plain(item) for item in value)
    if isinstance(value, float):
        return math.isfinite(value)
    return value is None or isinstance(value, (str, int, bool))


@pytest.mark.parametrize("name", NAMES)
def test_record_is_plain_data_and_survives_json(name: str) -> None:
    record = assessment_record(sl.assess(sl.parse(example(name))))

    assert plain(record)
    assert json.loads(json.dumps(record, allow_nan=False)) == record


@pytest.mark.parametrize("name", NAMES)
def test_installation_in_the_record_is_the_one_assessed(name: str) -> None:
    case = sl.parse(example(name))

    assert from_data(assessment_record(sl.assess(case))["installation"], "record") == case


@given(installations())
@settings(max_examples=15)
def test_any_installation_gives_a_plain_record(case: sl.Installation) -> None:
    assessment = sl.assess(case)
    record = assessment_record(assessment)

    assert plain(record)
    assert {check["verdict"] for check in record["checks"]} <= set(sl.Verdict)
    assert record["verdict"] == assessment.verdict
    for check in record["checks"]:
        if check["verdict"] in ("fail", "not-assessed"):
            assert check["reason"]
        if check["margin"] is not None and check["margin"] < 0:
            assert check["verdict"] in ("fail", "caution")


def test_steps_come_with_formula_source_and_trust() -> None:
    check = sl.assess(sl.parse(example())).check("surface.creepage")
    record = check_record(check)

    assert record["basis"]
    assert record["source"]
    formulas = [step for step in record["trace"] if step["kind"] == "formula"]
    assert formulas
    assert all(step["formula"] and step["source"] and step["basis"] for step in formulas)
    assert record["trace"][0]["kind"] != "formula", "inputs come first"


def test_margin_without_end_is_written_as_nothing() -> None:
    check = sl.assess(sl.parse(example())).check("surface.creepage")

    assert check_record(replace(check, margin=math.inf))["margin"] is None
    assert check_record(replace(check, demand=None))["demand"] is None


@pytest.mark.parametrize("name", NAMES)
def test_example_that_comes_with_the_tool(name: str) -> None:
    assert example_text(name) == example(name)


@pytest.mark.parametrize("name", ["nope", "", "../README", "inland-12kv.toml"])
def test_example_that_does_not(name: str) -> None:
    with pytest.raises(InputError, match="no example"):
        example_text(name)
