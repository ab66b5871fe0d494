"""The form's values make the description they came from, and lose nothing."""

import pytest
from hypothesis import given, settings

import shedlight as sl
from edits import NAMES, example
from shedlight.errors import DescriptionError
from shedlight.given.bushing import Installation
from shedlight.given.fields import inner_records, records_in
from shedlight.given.writing import entries
from shedlight.web.form import defaults_of, form_of
from shedlight.web.values import installation_of, optional_tables, values_of
from strategies import installations

QUAY = values_of(sl.parse(example("quay-24kv")))


@given(installations())
@settings(max_examples=30)
def test_any_installation_survives(case: Installation) -> None:
    made = installation_of(values_of(case))
    assert made == case
    # In a form an empty text and one left out are the same; all else keeps how it was said.
    told = [[entry for entry in entries(each) if entry.path != "remark"] for each in (made, case)]
    assert told[0] == told[1]


@given(installations())
@settings(max_examples=10)
def test_the_form_shows_every_value(case: Installation) -> None:
    values = values_of(case)
    shown = {field.path for group in form_of(values, defaults_of(case)) for field in group.fields}
    hidden = {path for path in values if path not in shown}
    assert hidden <= {"bushing.kind", *optional_tables()}


def test_the_form_knows_every_field() -> None:
    every = {
        f"{path}.{name}" if path else name
        for path, record in records_in(Installation)
        for name in record.model_fields
        if not inner_records(record, name)
    }
    shown: set[str] = set()
    kinds: tuple[dict[str, str], ...] = (
        {f"bushing.{part}": "yes" for part in ("sheds", "horns", "live_ring", "earth_ring")},
        {
            "bushing.sheds": "yes",
            "bushing.sheds.form": "alternating",
            "bushing.conductor.form": "tube",
            "bushing.fixing.form": "flange",
            "bushing.terminal.form": "stud",
        },
    )
    for values in kinds:
        shown |= {field.path for group in form_of(values, {}) for field in group.fields}
    assert every - shown == {"bushing.kind"}


def test_a_bare_number_is_taken_in_the_unit_beside_it() -> None:
    for text in ("41", " 41 ", "41 mm", "4.1 cm", "41.0"):
        case = installation_of(QUAY | {"bushing.sheds.overhang": text})
        assert case.bushing.sheds is not None
        assert case.bushing.sheds.overhang == 0.041


@pytest.mark.parametrize("text", ["41 kg", "wide", "1,600", "−", "41 mm mm", "400"])
def test_what_cannot_be_used_is_told_at_its_field(text: str) -> None:
    with pytest.raises(DescriptionError) as caught:
        installation_of(QUAY | {"bushing.sheds.overhang": text})
    assert [problem.field for problem in caught.value.problems] == ["bushing.sheds.overhang"]


def test_switching_a_part_off_and_on_loses_nothing() -> None:
    off = QUAY | {"bushing.horns": "no"}
    assert installation_of(off).bushing.horns is None
    on = off | {"bushing.horns": "yes"}
    assert installation_of(on) == installation_of(QUAY)
    stud = QUAY | {"bushing.terminal.form": "stud", "bushing.terminal.diameter": "20"}
    assert installation_of(stud).bushing.terminal.form == "stud"
    assert installation_of(stud | {"bushing.terminal.form": "palm"}) == installation_of(QUAY)


def test_unknown_names_are_passed_over() -> None:
    strange = {"__class__": "x", "bushing.sheds.__init__": "x", "a.b.c": "x", "": "x"}
    assert installation_of(QUAY | strange) == installation_of(QUAY)


@pytest.mark.parametrize("name", NAMES)
def test_every_symbol_has_been_drawn(name: str) -> None:
    from shedlight.web.rendering import formulary  # noqa: PLC0415  draws a hundred symbols

    for group in form_of(values_of(sl.parse(example(name))), {}):
        for field in group.fields:
            if field.symbol:
                assert "<svg" in formulary().inline(field.symbol)
