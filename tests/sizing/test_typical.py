"""Sized dimensions against common ones: within the stated band, or the reason is stated and shown.

The bands of ``typical.csv`` were written before anything was sized. Their low sides for the arcing
distance are the clearances of IEC 60076-3; the rest is held from memory or is practice.
"""

import csv
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from shedlight import units
from shedlight.sizing.sized import Sized, propose, size
from sizing.requests import asked

PAGE = (Path(__file__).parents[2] / "docs" / "sizing.md").read_text("utf-8")
TABLE = Path(__file__).parent / "typical.csv"
ROWS = list(csv.DictReader(TABLE.read_text("utf-8").splitlines()))
ORDINARY = {
    "site__altitude": "1000 m",
    "site__salinity": None,
    "site__pollution_class": "c",
    "transformer__lowest_oil_level": "1500 mm",
    "transformer__highest_oil_level": "1800 mm",
    "transformer__phase_spacing": "900 mm",
    "transformer__earth_distance": "700 mm",
    "transformer__tank_clearance": "200 mm",
    "transformer__cover_metal": "non-magnetic steel",
}
COOLING_LINE = {"duty__line_conductance": "2 W/K", "duty__line_temperature": "60 °C"}


@cache
def sized(voltage: str) -> Sized:
    duty = {"duty__highest_voltage": voltage, "duty__rated_current": "250 A"}
    return size(asked(**ORDINARY, **duty), thorough=False)


def rod(current: str, **more: Any) -> float:
    duty = {"duty__highest_voltage": "24 kV", "duty__rated_current": current}
    return propose(asked(**ORDINARY, **duty, **more)).conductor


def value_of(quantity: str, duty: str) -> float:
    if quantity == "conductor":
        return rod(duty)
    found = sized(duty)
    return {
        "arcing distance": float(found.assessment.workings.air.arcing),
        "oil end": found.draft.oil,
    }[quantity]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['quantity']} {row['duty']}")
def test_a_sized_dimension_is_a_common_one_or_says_why_not(row: dict[str, str]) -> None:
    low, high = (units.parse(row[side], "mm") for side in ("low", "high"))
    assert (low <= value_of(row["quantity"], row["duty"]) <= high) is (not row["outside"])


@pytest.mark.parametrize("current", ["3150 A"])
def test_a_thick_rod_is_thick_because_no_line_cools_it(current: str) -> None:
    row = next(row for row in ROWS if row["duty"] == current)
    low, high = (units.parse(row[side], "mm") for side in ("low", "high"))
    assert rod(current) > high
    assert low <= rod(current, **COOLING_LINE) <= high


def page_rows() -> list[tuple[str, str, str]]:
    """Every cell of the two tables of the page: what, for which duty, and what stands there."""
    found: list[tuple[str, str, str]] = []
    heads: list[str] = []
    part = PAGE.split("## Sized against common dimensions")[1].split("\n## ")[0]
    for line in part.splitlines():
        what, *cells = [cell.strip() for cell in line.strip().strip("|").split("|")]
        if not line.startswith("| |") and line.startswith("| "):
            found += [(what, head, cell) for head, cell in zip(heads, cells, strict=True)]
        elif line.startswith("| |"):
            heads = [cell.strip() for cell in line.strip("|").split("|")][1:]
    return found


ON_PAGE = page_rows()
QUANTITY = {"arcing distance": "arcing distance", "porcelain below the seat": "oil end"}
COOLED = "rod, its line carrying off 2 W/K at 60 °C"


def test_the_page_has_every_quantity_and_duty_of_the_table() -> None:
    shown = {(QUANTITY.get(what, what), head) for what, head, _ in ON_PAGE}
    wanted = {(row["quantity"].replace("conductor", "rod"), row["duty"]) for row in ROWS}
    assert wanted <= shown
    assert {(COOLED, "2000 A"), (COOLED, "3150 A")} <= shown


@pytest.mark.parametrize("cell", ON_PAGE, ids=lambda cell: f"{cell[0]} {cell[1]}")
def test_the_page_tells_what_is_sized(cell: tuple[str, str, str]) -> None:
    what, head, text = cell
    quantity = QUANTITY.get(what, "conductor")
    rows = [row for row in ROWS if row["quantity"] == quantity]
    if head == "common":
        bands = (f"{row['low']}–{row['high']}".replace(" mm", "") for row in rows)
        assert text == f"{', '.join(bands)} mm"
    elif what == "stud":
        (source,) = (row["source"] for row in rows if row["duty"] == head)
        assert f"stud {text}," in source
    else:
        value = rod(head, **COOLING_LINE) if what == COOLED else value_of(quantity, head)
        assert text == f"{1e3 * value:.0f} mm"


def test_the_page_gives_the_reason_of_what_is_outside_its_band() -> None:
    said = " ".join(PAGE.split())
    reasons = [row["outside"] for row in ROWS if row["outside"]]
    assert reasons
    assert [reason for reason in reasons if reason not in said] == []


@pytest.mark.parametrize("voltage", ["12 kV", "24 kV", "36 kV"])
def test_what_is_sized_for_an_ordinary_duty_holds_and_spares_little_creepage(voltage: str) -> None:
    found = sized(voltage)
    surface = found.assessment.workings.surface
    assert found.holds
    assert 1.05 <= float(surface.creepage) / float(surface.required) <= 1.35
