"""Writing a description and reading it again loses nothing, nor what was left to a default."""

import math
import string
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel

import shedlight as sl
from edits import NAMES, example
from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.section import build_section
from shedlight.given.bushing import Installation
from shedlight.given.fields import facts_of
from shedlight.given.reading import from_data
from shedlight.given.writing import Entry, entries, to_data, to_toml
from strategies import descriptions, installations


def written_fields(record: BaseModel) -> object:
    """Which fields were written, record by record."""
    return {
        name: written_fields(value) if isinstance(value := getattr(record, name), BaseModel) else 0
        for name in record.model_fields_set
    }


def same(one: Installation, other: Installation) -> bool:
    return one == other and written_fields(one) == written_fields(other)


@pytest.mark.parametrize("name", NAMES)
def test_example_survives(name: str) -> None:
    case = sl.parse(example(name))

    assert same(sl.parse(to_toml(case)), case)
    assert to_toml(sl.parse(to_toml(case))) == to_toml(case)


@pytest.mark.parametrize("name", NAMES)
def test_example_defaults_stay_left_out(name: str) -> None:
    case = sl.parse(example(name))

    assert "lightning_impulse" not in to_data(case)["duty"]
    assert "lightning_impulse" not in case.duty.model_fields_set
    assert "frequency = " not in to_toml(case)


@given(installations())
@settings(max_examples=150)
def test_any_installation_survives(case: Installation) -> None:
    assert same(sl.parse(to_toml(case)), case)


@given(installations())
@settings(max_examples=40)
def test_data_survives_without_text(case: Installation) -> None:
    assert same(from_data(to_data(case), "data"), case)


@given(descriptions())
@settings(max_examples=150)
def test_descriptions_are_possible_by_construction(data: dict[str, object]) -> None:
    """The strategy hardly ever has to throw a shape away, so it covers what it says."""
    case = from_data(data, "strategy")
    try:
        build_section(case.bushing, case.transformer)
    except ImpossibleShapeError as error:
        pytest.fail(f"{error}")


VISIBLE = st.characters(exclude_categories=["Cc", "Cs", "Cn"], exclude_characters="\n\t")


@given(st.text(VISIBLE, min_size=1, max_size=200).filter(str.strip))
def test_any_name_survives(name: str) -> None:
    case = sl.changed(sl.parse(example()), name=name)

    assert sl.parse(to_toml(case)).name == name


@given(st.text(VISIBLE | st.sampled_from("\n\t"), max_size=2000))
@settings(max_examples=30)
def test_any_remark_survives(remark: str) -> None:
    case = sl.changed(sl.parse(example()), remark=remark)

    assert sl.parse(to_toml(case)).remark == remark


@given(st.floats(0.005, 0.5, allow_nan=False))
def test_every_float_survives_a_file(bore: float) -> None:
    case = sl.parse(example())
    wide = sl.changed(case, bushing__porcelain__bore=bore)

    assert sl.parse(to_toml(wide)).bushing.porcelain.bore == bore


def test_nothing_given_is_left_out() -> None:
    case = sl.parse(example())
    without = sl.changed(case, bushing__horns=None, bushing__sheds=None)

    assert without.bushing.horns is None
    assert "horns" not in without.bushing.model_fields_set
    assert same(sl.parse(to_toml(without)), without)


def test_none_in_a_program_is_as_good_as_left_out() -> None:
    data = sl.parse(example()).model_dump()
    data["site"]["salinity"] = None

    assert "salinity" not in Installation.model_validate(data).site.model_fields_set


def test_comments_and_order_do_not_matter() -> None:
    text = example()
    tables = text.split("\n[")
    turned = "\n[".join([tables[0], *reversed(tables[1:])])

    assert sl.parse(turned) == sl.parse(text)


def test_carriage_returns_and_byte_order_mark_do_not_matter(tmp_path: Path) -> None:
    file = tmp_path / "windows.toml"
    file.write_bytes(b"\xef\xbb\xbf" + example().replace("\n", "\r\n").encode())

    assert sl.read(file) == sl.parse(example())


@given(installations())
@settings(max_examples=25)
def test_entries_show_every_field_once(case: Installation) -> None:
    found = list(entries(case))

    assert len({entry.path for entry in found}) == len(found)
    assert all(entry.text for entry in found)
    for entry in found:
        record: BaseModel = case
        *way, last = entry.path.split(".")
        for step in way:
            record = getattr(record, step)
        assert entry.facts == facts_of(type(record), last)
        assert entry.defaulted == (last not in record.model_fields_set)


def test_entries_are_in_words() -> None:
    texts = {entry.path: entry for entry in entries(sl.parse(example()))}

    assert texts["bushing.porcelain.bore"].text == "25 mm"
    assert texts["transformer.hole_bled"].text == "yes"
    assert texts["site.salinity"].text == "–"
    assert texts["bushing.sheds.count"].text == "4"
    frequency = texts["duty.frequency"]
    assert frequency == Entry("duty.frequency", frequency.facts, "50 Hz", True)


def test_records_are_frozen() -> None:
    case = sl.parse(example())

    with pytest.raises(ValueError, match="frozen"):
        case.duty.rated_current = 1.0  # type: ignore[misc]


def test_numbers_in_a_record_are_finite() -> None:
    for name in NAMES:
        for entry in entries(sl.parse(example(name))):
            if entry.facts.unit and entry.text != "–":
                number = float(entry.text.split(" ")[0])
                assert math.isfinite(number), entry.path


def test_printable_ascii_name_is_written_plainly() -> None:
    name = string.ascii_letters + string.digits + " .,;:-_()"

    assert f'name = "{name}"' in to_toml(sl.changed(sl.parse(example()), name=name))
