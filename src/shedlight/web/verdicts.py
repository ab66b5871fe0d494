"""The verdicts as the page lists them: grouped by what they protect, least margin first."""

from collections.abc import Iterator
from dataclasses import dataclass

from shedlight.checks.assessment import Assessment
from shedlight.checks.check import Check, Verdict
from shedlight.documents.calculation import word_of
from shedlight.documents.numerals import percent
from shedlight.trace import Kind
from shedlight.web.form import FormGroup


@dataclass(frozen=True)
class VerdictRow:
    """One check in the list."""

    id: str
    title: str
    word: str
    margin: str
    reason: str
    part: str

    @property
    def key(self) -> str:
        """Its id on the page."""
        return "verdict-" + self.id.replace(".", "-")

    @property
    def shape(self) -> str:
        """The shape that stands beside the word."""
        return "shape-" + self.word.replace(" ", "-")

    @property
    def tone(self) -> str:
        """The class that colours it."""
        return "verdict-" + self.word.replace(" ", "-")


@dataclass(frozen=True)
class VerdictGroup:
    """The checks that protect one part."""

    title: str
    rows: tuple[VerdictRow, ...]

    @property
    def worst(self) -> VerdictRow:
        """Its most urgent check."""
        return self.rows[0]


@dataclass(frozen=True)
class Headline:
    """The overall verdict, in words and numbers."""

    word: str
    sentence: str
    failing: tuple[VerdictRow, ...]

    @property
    def shape(self) -> str:
        """The shape that stands beside the word."""
        return "shape-" + self.word.replace(" ", "-")

    @property
    def tone(self) -> str:
        """The class that colours it."""
        return "verdict-" + self.word.replace(" ", "-")


def verdict_groups(assessment: Assessment) -> tuple[VerdictGroup, ...]:
    """Every check, by what it protects; the part with the most urgent check first.

    Args:
        assessment: What was found.
    """
    groups: dict[str, list[VerdictRow]] = {}
    for check in assessment.by_urgency:
        groups.setdefault(check.question.part, []).append(row_of(check))
    return tuple(VerdictGroup(part.capitalize(), tuple(rows)) for part, rows in groups.items())


def row_of(check: Check) -> VerdictRow:
    """One check as a row.

    Args:
        check: The check.
    """
    margin = "" if check.margin is None else percent(check.margin)
    question = check.question
    return VerdictRow(
        check.id, question.title, word_of(check.verdict), margin, check.reason, question.part
    )


def headline_of(assessment: Assessment) -> Headline:
    """The overall verdict.

    Args:
        assessment: What was found.
    """
    failing = tuple(row_of(c) for c in assessment.by_urgency if c.verdict is Verdict.FAIL)
    return Headline(word_of(assessment.verdict), assessment.verdict_sentence, failing)


def fields_behind(check: Check, form: tuple[FormGroup, ...]) -> Iterator[tuple[str, str]]:
    """The values of the form that a check's numbers start from: path, and what it is.

    Args:
        check: The check.
        form: The form.
    """
    known = {
        field.path: f"{group.title}: {field.label.lower()}"
        for group in form
        for field in group.fields
    }
    starts = (step for step in check.trace if step.kind in (Kind.GIVEN, Kind.DEFAULT))
    paths = dict.fromkeys(step.note.split(" ", 1)[0].rstrip(".,;:") for step in starts)
    yield from ((path, known[path]) for path in paths if path in known)
