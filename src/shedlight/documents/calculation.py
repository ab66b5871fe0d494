"""The calculation of one installation, as records that any painter can print.

Every number becomes text here, from what the computation recorded; a painter only sets it. All
texts are plain; `symbol` and `formula` are Typst mathematics from the code, never from a user.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from importlib import metadata
from operator import attrgetter

from shedlight import units
from shedlight.checks.assessment import Assessment
from shedlight.checks.check import Check, Rival, Verdict, disagreement, ratio_margin
from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.citing import Cited, SourceRow, confirmed, number_sources, source_rows
from shedlight.documents.drawing import Drawing, drawing_of, field_pictures_of, surface_drawings
from shedlight.documents.measured import GivenGroup, GivenRow, measured_groups
from shedlight.documents.numerals import in_print, percent, shown, unit_name
from shedlight.documents.steps import Layout, Ledger, StepLine, lay_out, runs, step_lines
from shedlight.documents.wording import wording
from shedlight.given.bushing import Installation
from shedlight.given.levels import rounding_remark
from shedlight.given.writing import Entry, entries
from shedlight.sources import Citation
from shedlight.trace import Number

LONGEST_HEADER = 64
SHOWN_APART = ("name", "remark")  # they stand above the lists
CHAPTERS = ("fail", "caution", "not assessed", "pass")
BY_RATIO = "capability ÷ demand − 1"


@dataclass(frozen=True)
class Count:
    """How many checks came to one verdict."""

    verdict: str
    number: int


@dataclass(frozen=True)
class Summary:
    """The overall verdict; never a pass without what was not assessed."""

    verdict: str
    sentence: str
    counts: tuple[Count, ...]


@dataclass(frozen=True)
class CheckRow:
    """One check as a line of the table; numbers are empty for facts and open questions."""

    id: str
    part: str
    title: str
    verdict: str
    reason: str
    demand: str
    capability: str
    unit: str
    margin: str
    source: Cited | None


@dataclass(frozen=True)
class RivalRow:
    """Another answer to the same question."""

    title: str
    demand: str
    capability: str
    unit: str
    margin: str
    uses_more: str
    why_not: str
    demand_step: int
    capability_step: int


@dataclass(frozen=True)
class CalculationSection:
    """One check with its whole calculation.

    Steps are 0 where there is no number; `rests_on` holds first and last of each run of shared
    steps behind it.
    """

    row: CheckRow
    why: str
    demand_words: str
    capability_words: str
    demand_step: int
    capability_step: int
    margin_rule: str
    place: str
    rests_on: tuple[tuple[int, int], ...]
    steps: tuple[StepLine, ...]
    rivals: tuple[RivalRow, ...]
    rival_steps: tuple[StepLine, ...]
    notes: tuple[str, ...]
    rows_to_confirm: tuple[str, ...]
    cited: tuple[Cited, ...]


@dataclass(frozen=True)
class Chapter:
    """The calculations of all checks that came to one verdict."""

    title: str
    sections: tuple[CalculationSection, ...]


@dataclass(frozen=True)
class Calculation:
    """The whole document."""

    name: str
    short_name: str
    subject: str
    remark: str
    date: str
    version: str
    summary: Summary
    cautions: tuple[str, ...]
    given: tuple[GivenGroup, ...]
    given_remarks: tuple[str, ...]
    measured: tuple[GivenGroup, ...]
    drawing: Drawing
    field_pictures: tuple[Drawing, ...]
    surface: tuple[Drawing, ...]
    checks: tuple[CheckRow, ...]
    starts: tuple[StepLine, ...]
    shared: tuple[StepLine, ...]
    chapters: tuple[Chapter, ...]
    sources: tuple[SourceRow, ...]
    unconfirmed: tuple[str, ...]


@dataclass(frozen=True)
class Excerpt:
    """The calculation of one check alone, with all that it starts from."""

    starts: tuple[StepLine, ...]
    section: CalculationSection
    sources: tuple[SourceRow, ...]


def calculation(assessment: Assessment, date: str = "") -> Calculation:
    """Turn an assessment into the records of its calculation.

    Args:
        assessment: What is printed.
        date: Date to print, as it should read; nothing printed changes by itself.
    """
    checks = assessment.by_urgency
    ledger = Ledger()
    deciding = {check.id: set(ledger.enter(check.id, _decided_by(check))) for check in checks}
    compared = {check.id: set(ledger.enter(check.id, _compared_with(check))) for check in checks}
    layout = lay_out(ledger, [check.id for check in checks])
    users = _citing_checks(checks, ledger)
    cited = number_sources(users)
    printer = _Printer(ledger, layout, layout.numbers, cited)
    installation = assessment.installation
    remark = rounding_remark(installation.duty.highest_voltage)
    return Calculation(
        name=installation.name,
        short_name=shortened(installation.name, LONGEST_HEADER),
        subject=subject_of(installation),
        remark=installation.remark,
        date=date,
        version=metadata.version("shedlight"),
        summary=_summary(assessment),
        cautions=CAUTIONS,
        given=given_groups(installation),
        given_remarks=(remark,) if remark else (),
        measured=measured_groups(assessment.workings),
        drawing=drawing_of(assessment),
        field_pictures=field_pictures_of(assessment),
        surface=surface_drawings(assessment),
        checks=tuple(printer.row(check) for check in checks),
        starts=printer.lines(layout.starts),
        shared=printer.lines(layout.shared),
        chapters=_chapters(
            [printer.section(check, deciding[check.id], compared[check.id]) for check in checks]
        ),
        sources=source_rows(cited, users),
        unconfirmed=_unconfirmed(checks),
    )


def _unconfirmed(checks: tuple[Check, ...]) -> tuple[str, ...]:
    """Checks that rest on a figure nobody confirmed against its publication."""
    return tuple(
        check.id for check in checks if not all(confirmed(source) for source in check.cited)
    )


def excerpt(check: Check) -> Excerpt:
    """The calculation of one check, numbered by itself.

    Args:
        check: The check.
    """
    ledger = Ledger()
    deciding = set(ledger.enter(check.id, _decided_by(check)))
    compared = set(ledger.enter(check.id, _compared_with(check)))
    layout = lay_out(ledger, [check.id])
    users = _citing_checks((check,), ledger)
    cited = number_sources(users)
    printer = _Printer(ledger, layout, layout.numbers, cited)
    section = printer.section(check, deciding, compared)
    return Excerpt(printer.lines(layout.starts), section, source_rows(cited, users))


def word_of(verdict: Verdict) -> str:
    """A verdict as documents print it."""
    return verdict.value.replace("-", " ")


def shortened(text: str, longest: int) -> str:
    """A text cut to a length, with an ellipsis if anything went."""
    return text if len(text) <= longest else text[: longest - 1].rstrip() + "…"


def given_groups(installation: Installation) -> tuple[GivenGroup, ...]:
    """Every field of an installation, grouped by the part it belongs to."""
    groups: dict[str, list[GivenRow]] = {}
    for entry in entries(installation):
        if entry.path not in SHOWN_APART:
            groups.setdefault(entry.path.rpartition(".")[0], []).append(_given_row(entry))
    return tuple(
        GivenGroup((attrgetter(path)(installation) if path else installation).title, tuple(rows))
        for path, rows in groups.items()
    )


def _given_row(entry: Entry) -> GivenRow:
    facts = entry.facts
    basis = facts.basis if entry.defaulted else ""
    text = in_print(entry.text) if facts.unit else entry.text
    return GivenRow(entry.path, facts.sentence, facts.symbol, text, entry.defaulted, basis)


def subject_of(installation: Installation) -> str:
    """What kind of bushing it is, in one line.

    Args:
        installation: The installation.
    """
    duty = installation.duty
    voltage = units.write(duty.highest_voltage, "kV")
    current = units.write(duty.rated_current, "A")
    return f"Solid porcelain bushing, highest voltage {voltage}, rated current {current}"


def _summary(assessment: Assessment) -> Summary:
    counts = assessment.counts
    ordered = (Verdict.FAIL, Verdict.CAUTION, Verdict.NOT_ASSESSED, Verdict.PASS)
    return Summary(
        word_of(assessment.verdict),
        assessment.verdict_sentence,
        tuple(Count(word_of(verdict), counts[verdict]) for verdict in ordered),
    )


def _decided_by(check: Check) -> tuple[Number | None, ...]:
    return check.demand, check.capability


def _compared_with(check: Check) -> tuple[Number, ...]:
    return tuple(number for rival in check.rivals for number in (rival.demand, rival.capability))


def _citing_checks(checks: tuple[Check, ...], ledger: Ledger) -> dict[Citation, list[str]]:
    """Every citation of the document with the checks that use it."""
    users: dict[Citation, dict[str, None]] = {}
    for check in checks:
        for citation in check.cited:
            users.setdefault(citation, {})[check.id] = None
    for place in ledger.places:
        found = ledger.step(place).citation
        if found is not None:
            users.setdefault(found, {}).update(dict.fromkeys(ledger.users(place)))
    return {citation: list(found) for citation, found in users.items()}


def _chapters(sections: list[CalculationSection]) -> tuple[Chapter, ...]:
    return tuple(
        Chapter(wording().title[verdict], tuple(found))
        for verdict in CHAPTERS
        if (found := [section for section in sections if section.row.verdict == verdict])
    )


@dataclass(frozen=True)
class _Printer:
    """Writes checks down with the numbers of the steps and sources they rest on."""

    ledger: Ledger
    layout: Layout
    numbers: Mapping[int, int]
    cited: Mapping[Citation, Cited]

    def lines(self, places: tuple[int, ...]) -> tuple[StepLine, ...]:
        return step_lines(self.ledger, places, self.numbers, self.cited)

    def row(self, check: Check) -> CheckRow:
        question = check.question
        unit = _unit(question.unit, check.demand)
        source = check.deciding_source
        return CheckRow(
            check.id,
            question.part,
            question.title,
            word_of(check.verdict),
            check.reason,
            "" if check.demand is None else shown(check.demand, unit),
            "" if check.capability is None else shown(check.capability, unit),
            unit_name(unit) if check.demand is not None else "",
            "" if check.margin is None else percent(check.margin),
            self.cited[source] if source else None,
        )

    def section(self, check: Check, deciding: set[int], compared: set[int]) -> CalculationSection:
        question = check.question
        own = self.layout.own[check.id]
        shared = [
            self.numbers[place] for place in self.layout.shared if place in deciding | compared
        ]
        return CalculationSection(
            row=self.row(check),
            why=question.why,
            demand_words=question.demand,
            capability_words=question.capability,
            demand_step=self._step_number(check.demand),
            capability_step=self._step_number(check.capability),
            margin_rule=_margin_rule(check),
            place=check.place,
            rests_on=runs(shared),
            steps=self.lines(tuple(place for place in own if place in deciding)),
            rivals=tuple(self._rival(check, rival) for rival in check.rivals),
            rival_steps=self.lines(tuple(place for place in own if place not in deciding)),
            notes=check.notes,
            rows_to_confirm=check.unconfirmed,
            cited=tuple(self.cited[citation] for citation in check.cited),
        )

    def _step_number(self, number: Number | None) -> int:
        return 0 if number is None else self.numbers[self.ledger.place_of(number)]

    def _rival(self, check: Check, rival: Rival) -> RivalRow:
        unit, more = _unit(check.question.unit, rival.demand), disagreement(check, rival)
        return RivalRow(
            rival.title,
            shown(rival.demand, unit),
            shown(rival.capability, unit),
            unit_name(unit),
            percent(rival.margin),
            "" if more is None else percent(more),
            rival.why_not,
            self._step_number(rival.demand),
            self._step_number(rival.capability),
        )


def _unit(asked: str, number: Number | None) -> str:
    """The unit of the question, unless the number measures something else."""
    if number is None:
        return asked
    own = number.step.label.unit
    alike = asked and units.dimension_of(asked) == units.dimension_of(own)
    return asked if alike else own


def _margin_rule(check: Check) -> str:
    if check.demand is None or check.capability is None or check.margin is None:
        return ""
    usual = ratio_margin(check.demand, check.capability)
    return BY_RATIO if math.isclose(check.margin, usual, rel_tol=1e-9, abs_tol=1e-12) else ""
