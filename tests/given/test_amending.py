"""Amending a description: only what changed is written anew."""

import difflib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import shedlight as sl
from edits import NAMES, example
from shedlight.given.amending import amended
from shedlight.given.bushing import Installation
from shedlight.given.writing import entries, to_toml
from strategies import installations

QUAY = example("quay-24kv")


def differing(before: str, after: str) -> list[str]:
    """The lines that went and came."""
    lines = difflib.unified_diff(before.split("\n"), after.split("\n"), n=0, lineterm="")
    return [line for line in lines if not line.startswith(("---", "+++", "@@"))]


@given(st.sampled_from(NAMES), installations())
@settings(max_examples=30)
def test_the_text_describes_what_it_should(name: str, case: Installation) -> None:
    assert list(entries(sl.parse(amended(example(name), case)))) == list(entries(case))


@pytest.mark.parametrize("name", NAMES)
def test_nothing_changed_nothing_written(name: str) -> None:
    assert amended(example(name), sl.parse(example(name))) == example(name)


def test_a_value_changes_on_its_line_and_keeps_its_remark() -> None:
    case = sl.changed(sl.parse(QUAY), bushing__porcelain__air_length=0.33)
    assert differing(QUAY, amended(QUAY, case)) == [
        '-air_length = "290 mm"              # top of the clamps to the underside of the cap',
        '+air_length = "330 mm"              # top of the clamps to the underside of the cap',
    ]


def test_values_come_and_go_in_their_table() -> None:
    case = sl.changed(sl.parse(QUAY), site__rain_angle="30 °", site__salinity=None)
    text = amended(QUAY, case)
    assert differing(QUAY, text) == ['-salinity = "80 kg/m³"', '+rain_angle = "30 °"']
    assert sl.parse(text) == case


def test_a_table_comes_at_the_end() -> None:
    case = sl.changed(sl.parse(QUAY), evidence__lightning_impulse="125 kV")
    text = amended(QUAY, case)
    assert text.startswith(QUAY.rstrip("\n"))
    assert '[evidence]\nlightning_impulse = "125 kV"' in text


@pytest.mark.parametrize(
    "text",
    ["not a description", 'name = "x"', QUAY.replace("[site]", 'site.remark = "x"\n[site]')],
)
def test_what_cannot_be_amended_is_written_anew(text: str) -> None:
    case = sl.parse(QUAY)
    assert amended(text, case) == to_toml(case)


def test_odd_layouts_still_say_what_they_should() -> None:
    inline = QUAY.replace('[bushing.cap]\ndiameter = "68 mm"', "").replace(
        '[bushing]\nkind = "bulk"', '[bushing]\nkind = "bulk"\ncap = { diameter = "68 mm" }'
    )
    case = sl.changed(sl.parse(inline), bushing__cap__diameter="70 mm")
    assert sl.parse(amended(inline, case)) == case
