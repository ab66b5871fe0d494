"""The catalogue is whole: every question once, every question answered, every answer traced."""

import math
from pathlib import Path

import pytest

import shedlight as sl
from shedlight.checks.catalogue import ANSWERS, answers, questions
from shedlight.checks.check import Verdict
from shedlight.trace import Kind
from shedlight.units import dimension_of

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
ASSESSMENTS = [sl.assess(sl.read(path)) for path in EXAMPLES]


def test_every_question_has_exactly_one_answer() -> None:
    assert set(ANSWERS) == set(questions())
    assert len(questions()) >= 50


def test_questions_are_told_in_plain_words() -> None:
    for question in questions().values():
        assert question.id == question.id.lower()
        assert len(question.why.split()) >= 15, question.id
        assert question.part
        assert question.title
        assert question.demand
        assert question.capability


@pytest.mark.parametrize("assessment", ASSESSMENTS, ids=lambda a: a.installation.name)
def test_every_number_carries_its_trace_in_the_unit_of_the_question(
    assessment: sl.Assessment,
) -> None:
    for check in assessment.checks:
        if check.demand is None or check.capability is None:
            assert check.margin is None
            continue
        unit = check.question.unit
        for number in (check.demand, check.capability):
            assert dimension_of(number.step.label.unit) == dimension_of(unit), check.id
            assert math.isfinite(number)
        assert check.trace, check.id
        plain = {Kind.GIVEN, Kind.DEFAULT, Kind.MEASURED}
        assert check.cited or {step.kind for step in check.trace} <= plain, check.id


@pytest.mark.parametrize("assessment", ASSESSMENTS, ids=lambda a: a.installation.name)
def test_every_place_is_on_the_section(assessment: sl.Assessment) -> None:
    known = set(assessment.workings.section.edges) | {"arcing path", "horns", "terminal"}
    for check in assessment.checks:
        assert not check.place or check.place in known, (check.id, check.place)


@pytest.mark.parametrize("assessment", ASSESSMENTS, ids=lambda a: a.installation.name)
def test_verdicts_obey_margin_and_trust(assessment: sl.Assessment) -> None:
    for check in assessment.checks:
        if check.verdict is Verdict.FAIL and check.margin is not None:
            assert check.margin < 0
            assert all(citation.may_fail for citation in check.cited), check.id
        if check.verdict is Verdict.PASS and check.margin is not None:
            assert check.margin >= 0
            assert not any(step.beyond for step in check.trace), check.id
        if check.verdict is Verdict.NOT_ASSESSED:
            assert check.reason


def test_the_overall_verdict_always_counts_what_was_not_assessed() -> None:
    for assessment in ASSESSMENTS:
        assert assessment.verdict_sentence.endswith("not assessed")
        assert sum(assessment.counts.values()) == len(assessment.checks) == len(questions())


def test_an_answer_for_an_unknown_question_is_refused() -> None:
    with pytest.raises(sl.CalculationError, match="not in catalogue"):
        answers("no.such.question")
    with pytest.raises(sl.CalculationError, match="answered twice"):
        answers("duty.levels")(ANSWERS["duty.levels"])
