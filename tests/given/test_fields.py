"""Every field of every record says what it is, in what unit, within what bounds, and why so."""

import itertools
import math
from typing import get_args

import pytest
from hypothesis import given, settings
from pydantic import BaseModel
from pydantic_core import PydanticUndefined

import shedlight as sl
from edits import NAMES, example
from shedlight import units
from shedlight.given.bushing import Installation
from shedlight.given.duty import Duty
from shedlight.given.fields import (
    Facts,
    Record,
    facts_of,
    inner_records,
    limits_of,
    quantity,
    records_in,
)
from strategies import installations

RECORDS = dict(records_in(Installation))
ALL = [
    pytest.param(record, name, id=f"{path}.{name}".strip("."))
    for path, record in records_in(Installation)
    for name in record.model_fields
]
# A quantity may only be told by its number if it is one of these.
WITHOUT_UNIT = (str, bool, int)


def optional(record: type[BaseModel], name: str) -> bool:
    return not record.model_fields[name].is_required()


@pytest.mark.parametrize(("record", "name"), ALL)
def test_field_has_one_plain_sentence(record: type[BaseModel], name: str) -> None:
    sentence = facts_of(record, name).sentence

    assert sentence == record.model_fields[name].description
    assert sentence[0].isupper()
    assert sentence.endswith(".")
    assert ". " not in sentence
    assert 5 <= len(sentence) <= 110


@pytest.mark.parametrize(("record", "name"), ALL)
def test_quantity_has_symbol_unit_and_bounds(record: type[BaseModel], name: str) -> None:
    facts = facts_of(record, name)
    kinds = [record.model_fields[name].annotation, *get_args(record.model_fields[name].annotation)]
    if float not in kinds:
        assert not facts.unit
        return

    assert facts.unit in units.units()
    assert facts.symbol.strip()
    assert math.isfinite(facts.low)
    assert math.isfinite(facts.high)
    assert facts.low < facts.high
    low, high = facts.range_text.split(" to ")
    assert (units.parse(low, facts.unit), units.parse(high, facts.unit)) == (facts.low, facts.high)
    kind = "number" if facts.unit == "1" else units.dimension_of(facts.unit)
    assert kind in facts.wanted


@pytest.mark.parametrize(("record", "name"), ALL)
def test_whole_numbers_and_yes_or_no_are_strict(record: type[BaseModel], name: str) -> None:
    field = record.model_fields[name]
    if field.annotation is int:
        limits = limits_of(record, name)
        assert 0 <= limits["ge"] < limits["le"] <= 200
    if field.annotation in (int, bool):
        assert any(getattr(item, "strict", False) for item in field.metadata)


@pytest.mark.parametrize(("record", "name"), ALL)
def test_default_has_a_basis_and_lies_within_its_bounds(record: type[BaseModel], name: str) -> None:
    field, facts = record.model_fields[name], facts_of(record, name)
    if not optional(record, name):
        assert not facts.basis
        return

    assert facts.basis.strip()
    if facts.unit and isinstance(field.default, float):
        assert facts.low <= field.default <= facts.high


@given(installations())
@settings(max_examples=60)
def test_computed_defaults_lie_within_their_bounds_too(case: Installation) -> None:
    def visit(record: BaseModel) -> None:
        for name in type(record).model_fields:
            value, facts = getattr(record, name), facts_of(type(record), name)
            if isinstance(value, BaseModel):
                visit(value)
            elif facts.unit and value is not None:
                assert facts.low <= value <= facts.high, name

    visit(case)


def test_what_would_hide_a_decision_has_no_default() -> None:
    for path in (
        "duty.neutral_earthing",
        "duty.earth_fault_duration",
        "duty.highest_voltage",
        "site.altitude",
        "transformer.breathing",
    ):
        table, name = path.split(".")
        assert RECORDS[table].model_fields[name].is_required(), path


def test_no_default_is_a_bare_zero_but_an_upright_axis() -> None:
    zeros = [
        f"{path}.{name}"
        for path, record in records_in(Installation)
        for name, field in record.model_fields.items()
        if field.default == 0.0 and field.annotation is float
    ]

    assert zeros == ["transformer.mounting_angle"]


def test_symbols_are_told_apart_within_a_record() -> None:
    for path, record in records_in(Installation):
        symbols = [facts_of(record, name).symbol for name in record.model_fields]
        written = [symbol for symbol in symbols if symbol]
        assert len(set(written)) == len(written), path


def test_every_record_is_closed_frozen_and_titled() -> None:
    for path, record in records_in(Installation):
        assert issubclass(record, Record)
        assert record.model_config["frozen"], path
        assert record.model_config["extra"] == "forbid", path
        assert record.title, path
        assert record.__doc__, path


def test_records_with_kinds_are_told_apart_by_a_tag() -> None:
    for _, record in records_in(Installation):
        for name in record.model_fields:
            kinds = inner_records(record, name)
            tags = [
                get_args((kind.model_fields.get("form") or kind.model_fields["kind"]).annotation)
                for kind in kinds
                if len(kinds) > 1
            ]
            assert len(set(itertools.chain(*tags))) == len(tags)


def test_no_table_is_empty_of_required_fields_unless_it_may_be_left_out() -> None:
    for path, record in records_in(Installation):
        required = [name for name, field in record.model_fields.items() if field.is_required()]
        if not required:
            home, _, name = path.rpartition(".")
            assert optional(RECORDS[home], name), path


@pytest.mark.parametrize("name", NAMES)
def test_examples_use_defaults_and_say_why(name: str) -> None:
    case = sl.parse(example(name))
    duty = case.duty

    assert "frequency" not in duty.model_fields_set
    assert facts_of(Duty, "frequency").basis


def test_default_without_basis_is_refused_when_declared() -> None:
    with pytest.raises(TypeError, match="without a basis"):
        quantity("Something.", symbol="x", unit="mm", low="1 mm", high="2 mm", default=0.001)


def test_facts_of_plain_field_fall_back_to_its_description() -> None:
    assert facts_of(Duty, "rated_current").unit == "A"
    assert Facts("Nothing.").range_text == ""
    assert Facts("Nothing.").wanted == ""
    assert Duty.model_fields["rated_current"].default is PydanticUndefined
