"""The sheet for the test bay: what to apply, what to expect, room for what is read; one page."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from importlib import metadata, resources

from shedlight.checks.assessment import Assessment
from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.fragments import cell, paragraph, row, small, whole_page
from shedlight.documents.markup import NOTHING, Markup, element
from shedlight.documents.numerals import in_print, shown, unit_name
from shedlight.documents.typeset import typeset
from shedlight.trace import Number
from shedlight.workings.proving import ProvingTest, proving_tests

KIND = "Sheet for the tests"
HEADS = (
    "Test",
    "Apply",
    "Expected by calculation",
    "Accepted if",
    "Measured",
    "Passed, by, date",
)
BEFORE = (
    "Order and values by the current edition of IEC 60137 and by what was ordered: they prevail "
    "over this sheet. Voltages are for standard air; the test day corrects those in air. Partial "
    "discharge and loss factor are limits of graded bodies and not asked of plain porcelain."
)
GROUPS = {
    "routine": "Routine tests: every bushing, in this order",
    "type": "Type tests: once for the design; put the certificate where no test is made",
}


@dataclass(frozen=True)
class ProofRow:
    """One test as it is printed."""

    title: str
    how: str
    applied: str
    expected: str
    accepted: str
    source: str


@dataclass(frozen=True)
class ProofGroup:
    """Tests of one kind."""

    title: str
    rows: tuple[ProofRow, ...]


@dataclass(frozen=True)
class ProofSheet:
    """Everything that is printed on the sheet."""

    kind: str
    name: str
    subject: str
    before: str
    heads: tuple[str, ...]
    groups: tuple[ProofGroup, ...]
    cautions: tuple[str, ...]
    version: str


def proof_sheet(assessment: Assessment) -> ProofSheet:
    """The sheet of one bushing as plain records.

    Args:
        assessment: The bushing that was assessed.
    """
    tests = proving_tests(assessment.workings)
    rated = assessment.workings.number
    subject = ", ".join(
        f"{_quantity(rated(f'duty.{name}'))}"
        for name in ("highest_voltage", "rated_current", "frequency")
    )
    groups = tuple(
        ProofGroup(title, tuple(_row(test) for test in tests if test.kind == kind))
        for kind, title in GROUPS.items()
    )
    return ProofSheet(
        KIND,
        assessment.installation.name,
        f"Solid porcelain bushing, oil-filled, {subject}",
        BEFORE,
        HEADS,
        groups,
        CAUTIONS,
        metadata.version("shedlight"),
    )


def proof_sheet_pdf(assessment: Assessment) -> bytes:
    """The sheet as a tagged PDF of one page.

    Args:
        assessment: The bushing that was assessed.
    """
    sheet = proof_sheet(assessment)
    template = resources.files("shedlight.documents").joinpath("proof_sheet.typ").read_bytes()
    return typeset(template, json.dumps(asdict(sheet), ensure_ascii=False), sheet.name)


def proof_sheet_html(assessment: Assessment) -> str:
    """The sheet as one HTML file that needs nothing else.

    Args:
        assessment: The bushing that was assessed.
    """
    sheet = proof_sheet(assessment)
    body = element("body", element("main", *_page(sheet)))
    return whole_page(f"{sheet.kind}: {sheet.name}", body)


def _page(sheet: ProofSheet) -> Sequence[Markup]:
    return (
        element(
            "header",
            paragraph(sheet.kind, class_="kicker"),
            element("h1", element("bdi", sheet.name)),
            paragraph(sheet.subject, class_="soft"),
        ),
        paragraph(sheet.before, class_="note"),
        *(_group(group, sheet.heads) for group in sheet.groups),
        element(
            "aside",
            element("ul", *(element("li", text) for text in sheet.cautions)),
            class_="cautions",
        ),
        element("footer", paragraph(f"Made with shedlight {sheet.version}.")),
    )


def _group(group: ProofGroup, heads: Sequence[str]) -> Markup:
    head = element("thead", row(*(element("th", text, scope="col") for text in heads)))
    rows = (
        row(
            element("th", one.title, small(one.how), small(one.source), scope="row"),
            cell(one.applied),
            cell(one.expected),
            cell(one.accepted),
            cell(NOTHING),
            cell(NOTHING),
        )
        for one in group.rows
    )
    table = element("table", head, element("tbody", *rows))
    return element("section", element("h3", group.title), element("div", table, class_="wide"))


def _row(test: ProvingTest) -> ProofRow:
    return ProofRow(
        test.title,
        test.how,
        _told(test.applied),
        f"Not calculated: {test.missing}" if test.missing else _told(test.expected),
        test.accepted,
        f"{test.citation.key}, {test.citation.where} ({test.citation.trust})",
    )


def _quantity(number: Number) -> str:
    unit = number.step.label.unit
    return in_print(f"{shown(float(number), unit)}\N{NO-BREAK SPACE}{unit_name(unit)}".strip())


def _told(numbers: Sequence[tuple[str, Number]]) -> str:
    found = "; ".join(f"{words} {_quantity(number)}" for words, number in numbers)
    return found[:1].upper() + found[1:]
