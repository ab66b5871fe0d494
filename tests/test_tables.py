"""Tables name their sources; an overlay confirms and corrects rows, and goes without a trace."""

from pathlib import Path

import pytest

import shedlight as sl
from shedlight import tables
from shedlight.checks.check import Verdict
from shedlight.given.overlay import overlay_from
from shedlight.physics.surface.severity import pollution_class

EXAMPLES = Path(__file__).parents[1] / "examples"

CUSTOM = """
[[confirmed]]
table = "checks/limits"
row = { key = "edge field steel" }
read_in = "works standard, table 3"
"""

LEVELS = '[[confirmed]]\ntable = "given/levels"\nread_in = "x"\n'
ROW = f'{LEVELS}row = {{ highest_voltage_kv = "12", usual = "yes" }}\n'

LONGER = """
[[confirmed]]
table = "surface/classes"
row = { letter = "b" }
read_in = "the publication, table 1"
set = { mm_per_kv = "60" }
"""


@pytest.mark.parametrize("name", list(tables.known_tables()))
def test_every_row_of_every_table_names_its_source(name: str) -> None:
    for row in tables.read(name):
        citation = tables.citation(row)
        assert citation.source.title
        assert citation.where or citation.key == "trade", row
        assert citation.row.startswith(name)


@pytest.mark.parametrize("name", list(tables.known_tables()))
def test_rows_can_be_told_apart_or_stand_for_special_cases(name: str) -> None:
    rows = [tables.citation(row).row for row in tables.read(name)]

    assert len(set(rows)) == len(rows)


def test_confirming_a_custom_lets_its_check_fail() -> None:
    case = sl.read(EXAMPLES / "quarry-36kv.toml")
    before = sl.assess(case).check("cover.heating")
    assert before.verdict is Verdict.CAUTION
    assert any("edge field steel" in row for row in before.unconfirmed)

    after = sl.assess(case, overlay_from(CUSTOM, "rows.toml")).check("cover.heating")

    assert after.verdict is Verdict.FAIL
    assert after.margin == before.margin
    assert not any("edge field steel" in row for row in after.unconfirmed)


def test_correcting_a_figure_changes_the_demand_only_inside_the_assessment() -> None:
    case = sl.read(EXAMPLES / "inland-12kv.toml")
    before = sl.assess(case).check("surface.creepage").demand
    corrected = sl.assess(case, overlay_from(LONGER, "rows.toml"))
    after = corrected.check("surface.creepage").demand

    assert before is not None
    assert after is not None
    assert after / before == pytest.approx(60 / 27.8)
    assert pollution_class("b").specific_creepage == pytest.approx(27.8e-6)


def test_an_overlay_is_lifted_even_when_the_block_stops() -> None:
    seen = []

    def stops() -> None:
        with tables.confirmed(overlay_from(LONGER, "rows.toml")):
            seen.append(pollution_class("b").specific_creepage)
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        stops()

    assert seen == [pytest.approx(60e-6)]
    assert pollution_class("b").specific_creepage == pytest.approx(27.8e-6)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[[", "not TOML"),
        ("", "entries"),
        ('[[confirmed]]\ntable = "no/such"\nrow = {}\nread_in = "x"', "known table"),
        ('[[confirmed]]\ntable = "surface/classes"\nrow = { x = "1" }\nread_in = "x"', "Columns"),
        (
            '[[confirmed]]\ntable = "surface/classes"\nrow = { letter = "z" }\nread_in = "x"',
            "a row of the table",
        ),
        ('[[confirmed]]\ntable = "surface/classes"', "read_in"),
        (f"{LEVELS}row = {{}}", "Name columns"),
        (f"{ROW}extra = 1", "perhaps set"),
        (f'{ROW}set = {{ lightning_impulse_kv = "abc" }}', "finite figures"),
        (f'{ROW}set = {{ lightning_impulse_kv = "nan" }}', "finite figures"),
        (f'{ROW}set = {{ lightning_impulse_kv = "-5" }}', "finite figures"),
        (f'{ROW}set = {{ lightning_impulse_kv = "1e400" }}', "finite figures"),
        (f'{ROW}set = {{ usual = "no" }}', "how the row is known"),
        (f'{ROW}set = {{ source = "zzz" }}', "how the row is known"),
    ],
)
def test_an_overlay_that_names_nothing_is_refused(text: str, told: str) -> None:
    with pytest.raises(sl.DescriptionError, match=told):
        overlay_from(text, "rows.toml")
