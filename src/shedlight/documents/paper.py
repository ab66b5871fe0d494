"""The calculation as PDF, set by Typst from the records of the calculation."""

import json
from dataclasses import asdict
from importlib import resources

from shedlight.checks.assessment import Assessment
from shedlight.documents.calculation import Calculation, calculation
from shedlight.documents.typeset import typeset
from shedlight.documents.wording import wording


def calculation_pdf(assessment: Assessment, *, date: str = "") -> bytes:
    """The calculation of one installation as a tagged PDF; the same bytes for the same input.

    Args:
        assessment: What is printed.
        date: Date to print, as it should read; none if empty.
    """
    return paper(calculation(assessment, date))


def paper(document: Calculation) -> bytes:
    """Set the records of a calculation on paper.

    Args:
        document: The records.
    """
    records = json.dumps({**asdict(document), "words": asdict(wording())}, ensure_ascii=False)
    template = resources.files("shedlight.documents").joinpath("paper.typ").read_bytes()
    return typeset(template, records, document.name + document.remark + document.date)
