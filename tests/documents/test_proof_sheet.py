"""The sheet for the test bay: one page, every number from the trace, room for what is read."""

import io

import pypdf
import pytest

from documents.subjects import DEMOS, HTML, assessed, demo, squeezed
from shedlight.checks.assessment import assess
from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.numerals import shown
from shedlight.documents.proof_sheet import (
    GROUPS,
    HEADS,
    proof_sheet,
    proof_sheet_html,
    proof_sheet_pdf,
)
from shedlight.tables import Confirmation
from shedlight.units import SPACE
from shedlight.workings.proving import proving_tests


def text_of(content: bytes) -> str:
    return squeezed("".join(p.extract_text() for p in pypdf.PdfReader(io.BytesIO(content)).pages))


@pytest.mark.parametrize("name", DEMOS)
def test_it_is_one_page_with_every_number_of_the_trace(name: str) -> None:
    assessment = assessed(name)
    content = proof_sheet_pdf(assessment)
    assert len(pypdf.PdfReader(io.BytesIO(content)).pages) == 1
    printed = text_of(content)
    for test in proving_tests(assessment.workings):
        assert squeezed(test.title) in printed
        for words, number in (*test.applied, *test.expected):
            unit = number.step.label.unit
            value = squeezed(f"{words} {shown(float(number), unit)} {unit}")
            assert value[1:] in printed, value
    for caution in CAUTIONS:
        assert squeezed(caution) in printed
    assert "IEC60137" in printed
    assert all(squeezed(head) in printed for head in HEADS)


def test_values_are_those_of_duty_and_tightness() -> None:
    """36 kV, dry 77 kV, impulse 170 kV, 1250 N; one bar over the highest pressure in service."""
    work = assessed("quarry-36kv").workings
    applied = {test.key: [float(n) for _, n in test.applied] for test in proving_tests(work)}
    assert applied["dry"] == [77e3]
    assert applied["impulse"] == [170e3]
    assert applied["load"][0] == 1250.0
    assert applied["routine oil"] == [pytest.approx(float(work.oil.head_highest) + 1e5), 43200.0]
    assert applied["routine flange gas"] == [150e3, 900.0]
    expected = {test.key: [float(n) for _, n in test.expected] for test in proving_tests(work)}
    # 251.3 kPa absolute lose one part in 293 for a kelvin.
    assert expected["routine flange gas"] == [pytest.approx(-251325 / 293.15, rel=1e-3)]
    assert len(expected["rise"]) == len(expected["short time"]) == 2


def test_room_is_left_for_what_is_measured() -> None:
    html = proof_sheet_html(assessed("inland-12kv"))
    tests = proving_tests(assessed("inland-12kv").workings)
    assert html.count("<td></td><td></td></tr>") == len(tests)
    assert all(title in html for title in GROUPS.values())


def test_a_hostile_name_stays_text() -> None:
    html = proof_sheet_html(assessed("inland-12kv", HTML))
    assert "<script" not in html
    assert proof_sheet_pdf(assessed("inland-12kv", HTML)).startswith(b"%PDF")


def test_equal_input_gives_equal_bytes() -> None:
    assert proof_sheet_pdf(assessed()) == proof_sheet_pdf(assessed())
    assert proof_sheet(assessed()).name == assessed().installation.name


def test_what_is_not_calculated_says_why() -> None:
    """6000 A never settle: neither rise nor short time can be expected."""
    case = demo("inland-12kv")
    hot = case.model_copy(update={"duty": case.duty.model_copy(update={"rated_current": 6000.0})})
    found = assess(hot)
    rows = {row.title: row for group in proof_sheet(found).groups for row in group.rows}
    for title in ("Temperature rise", "Short-time current"):
        assert rows[title].expected == f"Not calculated: {found.workings.heat.runaway}"
    assert len(pypdf.PdfReader(io.BytesIO(proof_sheet_pdf(found))).pages) == 1


def test_the_short_time_limit_is_the_one_that_is_confirmed() -> None:
    row = {"part": "conductor after short circuit"}
    read = Confirmation("heat/temperature_limits", row, "the standard", {"celsius": "200"})
    case = demo("inland-12kv")
    for overlay, told in ((), "180 °C"), ((read,), "200 °C"):
        found = assess(case, overlay)
        accepted = [test.accepted for test in proving_tests(found.workings)]
        said = [text.replace(SPACE, " ") for text in accepted if "Final temperature" in text]
        assert said == [f"Final temperature at most {told}; no harm"]
