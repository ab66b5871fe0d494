"""The records of the calculation say what the assessment says, number by number."""

import math
from collections.abc import Iterator
from dataclasses import replace

import pytest

from documents.subjects import DEMOS, LONG, assessed, demo
from documents.test_numerals import number_of
from shedlight import units
from shedlight.checks.assessment import assess
from shedlight.checks.check import AMPLE, Check, Rival, Verdict, held
from shedlight.documents.calculation import (
    BY_RATIO,
    LONGEST_HEADER,
    Calculation,
    CalculationSection,
    calculation,
    word_of,
)
from shedlight.documents.numerals import percent
from shedlight.documents.steps import StepLine
from shedlight.given.changing import changed
from shedlight.given.writing import entries
from shedlight.trace import Kind, derivation


@pytest.fixture(scope="module", params=DEMOS)
def name(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def sections(document: Calculation) -> Iterator[CalculationSection]:
    for chapter in document.chapters:
        yield from chapter.sections


def lines(document: Calculation) -> Iterator[StepLine]:
    yield from document.starts
    yield from document.shared
    for section in sections(document):
        yield from section.steps
        yield from section.rival_steps


def test_every_check_is_a_row_and_a_calculation_in_order_of_urgency(name: str) -> None:
    assessment = assessed(name)
    document = calculation(assessment)
    wanted = [check.id for check in assessment.by_urgency]

    assert [row.id for row in document.checks] == wanted
    assert [section.row.id for section in sections(document)] == wanted


def test_numbers_are_those_of_the_assessment(name: str) -> None:
    assessment = assessed(name)
    compared = 0
    for row in calculation(assessment).checks:
        check = assessment.check(row.id)
        if check.demand is None or check.capability is None:
            assert (row.demand, row.capability, row.unit) == ("", "", "")
            continue
        unit = row.unit or "1"
        for text, number in ((row.demand, check.demand), (row.capability, check.capability)):
            assert number_of(text) == pytest.approx(units.shown_in(number, unit), rel=6e-4)
        if check.margin is None:
            assert row.margin == ""  # a proof has both numbers and no margin
        elif math.isfinite(check.margin) and check.margin > AMPLE:
            assert row.margin == percent(check.margin)
        elif math.isfinite(check.margin):
            assert float(row.margin[:-2].replace("−", "-")) == pytest.approx(
                100 * check.margin, abs=0.51
            )
        compared += 1
    assert compared > 20


def test_the_overall_verdict_is_never_alone(name: str) -> None:
    assessment = assessed(name)
    summary = calculation(assessment).summary

    assert summary.sentence == assessment.verdict_sentence
    assert {count.verdict: count.number for count in summary.counts} == {
        word_of(verdict): number for verdict, number in assessment.counts.items()
    }


def test_every_step_behind_every_verdict_is_printed_once(name: str) -> None:
    assessment = assessed(name)
    printed = list(lines(calculation(assessment)))
    numbers = [
        number
        for check in assessment.checks
        for number in (check.demand, check.capability)
        if number is not None
    ]
    wanted = {
        (step.label.name, step.label.symbol, step.note)
        for step in derivation(*numbers)
        if step.kind is not Kind.DEFAULT
    }

    assert [line.number for line in printed] == list(range(1, len(printed) + 1))
    assert wanted <= {(line.name, line.symbol, line.note) for line in printed}


def test_a_step_refers_only_to_steps_printed_before_it(name: str) -> None:
    for line in lines(calculation(assessed(name))):
        for used in line.inputs:
            assert all(step < line.number for step in used.steps)


def test_demand_and_capability_name_the_step_with_their_value(name: str) -> None:
    document = calculation(assessed(name))
    by_number = {line.number: line for line in lines(document)}
    named = 0
    for section in sections(document):
        if not section.row.demand:
            assert (section.demand_step, section.capability_step) == (0, 0)
            continue
        line = by_number[section.demand_step]
        if line.unit == section.row.unit:
            assert line.value == section.row.demand
            named += 1
    assert named > 10


def test_every_source_is_listed_with_the_checks_that_use_it(name: str) -> None:
    assessment = assessed(name)
    document = calculation(assessment)
    listed = {
        (source.title, place.where, place.trust): place.used_by
        for source in document.sources
        for place in source.places
    }
    for check in assessment.checks:
        for citation in check.cited:
            users = listed[citation.source.title, citation.where, citation.trust]
            assert check.id in users
    assert [source.number for source in document.sources] == list(
        range(1, len(document.sources) + 1)
    )


def test_checks_on_unconfirmed_figures_are_named(name: str) -> None:
    assessment = assessed(name)
    document = calculation(assessment)
    weak = {
        check.id
        for check in assessment.checks
        if any(citation.basis in ("memory", "practice") for citation in check.cited)
    }
    assert set(document.unconfirmed) == weak
    for section in sections(document):
        assert section.rows_to_confirm == assessment.check(section.row.id).unconfirmed


def test_every_field_is_printed_and_every_default_has_its_basis(name: str) -> None:
    case = demo(name)
    rows = {row.path: row for group in calculation(assessed(name)).given for row in group.rows}
    fields = {entry.path: entry for entry in entries(case)}

    assert set(rows) == set(fields) - {"name", "remark"}
    for path, row in rows.items():
        assert row.defaulted == fields[path].defaulted
        assert bool(row.basis) == row.defaulted
        assert row.sentence == fields[path].facts.sentence


def test_a_voltage_between_the_listed_ones_is_said_aloud() -> None:
    case = changed(demo("inland-12kv"), duty__highest_voltage=11e3)

    assert "11 kV is not a listed" in calculation(assess(case)).given_remarks[0]
    assert calculation(assessed("inland-12kv")).given_remarks == ()


def test_the_date_is_printed_only_if_given() -> None:
    assert calculation(assessed()).date == ""
    assert calculation(assessed(), "3 May 2031").date == "3 May 2031"


def test_names_are_kept_and_shortened_only_in_the_header() -> None:
    document = calculation(assessed(called=LONG))

    assert document.name == LONG
    assert document.short_name == "W" * (LONGEST_HEADER - 1) + "…"


def test_an_empty_remark_is_no_remark() -> None:
    assert calculation(assessed(remark="")).remark == ""


def judged(check: Check) -> CalculationSection:
    """A check printed alone in a real assessment."""
    alone = replace(assessed(), checks=(check,))
    (section,) = sections(calculation(alone))
    return section


def test_a_rival_is_printed_with_its_own_steps() -> None:
    quay = assessed()
    creepage, dry = quay.check("surface.creepage"), quay.check("air.arcing-distance.dry-ac")
    assert creepage.demand is not None
    assert creepage.capability is not None
    assert dry.demand is not None
    assert dry.capability is not None
    other = Rival("Another rule", dry.demand, dry.capability, 0.5, "less cautious")

    section = judged(held(creepage.question, creepage.demand, creepage.capability, rivals=(other,)))

    (row,) = section.rivals
    assert (row.title, row.why_not, row.unit) == ("Another rule", "less cautious", "kV")
    assert row.margin.startswith("+50.0")
    assert row.demand != section.row.demand
    assert section.rival_steps
    assert not {line.number for line in section.rival_steps} & {
        line.number for line in section.steps
    }


def test_the_usual_margin_is_explained_and_another_is_left_to_the_notes() -> None:
    creepage = assessed().check("surface.creepage")
    assert creepage.demand is not None
    assert creepage.capability is not None
    question, demand, capability = creepage.question, creepage.demand, creepage.capability

    assert judged(held(question, demand, capability)).margin_rule == BY_RATIO
    assert judged(held(question, demand, capability, margin=0.25)).margin_rule == ""


def test_a_value_of_another_kind_than_the_question_keeps_its_unit() -> None:
    quay = assessed()
    dry = quay.check("air.arcing-distance.dry-ac")
    assert dry.demand is not None
    assert dry.capability is not None
    asked_in_mm = quay.check("surface.creepage").question

    assert judged(held(asked_in_mm, dry.demand, dry.capability)).row.unit == "kV"


def test_facts_and_open_questions_have_no_numbers() -> None:
    document = calculation(assessed())
    bare = [row for row in document.checks if not row.demand]

    assert any(row.verdict == "not assessed" for row in bare)
    assert any(row.verdict == word_of(Verdict.PASS) for row in bare)
    assert all(row.reason and not row.margin for row in bare)
