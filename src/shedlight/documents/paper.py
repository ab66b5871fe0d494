"""The calculation as PDF, set by Typst from the records of the calculation."""

import json
from dataclasses import asdict
from functools import cache
from importlib import resources

import typst

from shedlight.checks.assessment import Assessment
from shedlight.documents.calculation import Calculation, calculation
from shedlight.documents.wording import wording
from shedlight.figures import lettering

# Nothing of the clock goes into the file, so that equal input gives equal bytes.
TIMESTAMP = 0


def calculation_pdf(assessment: Assessment, *, date: str = "") -> bytes:
    """The calculation of one installation as a tagged PDF; the same bytes for the same input.

    Args:
        assessment: What is printed.
        date: Date to print, as it should read; none if empty.
    """
    return paper(calculation(assessment, date))


def paper(document: Calculation) -> bytes:
    """Set the records of a calculation on paper.

    The shipped typeface serves alone, so that pages are the same on every machine. Only a name in
    a script it lacks borrows from the machine's own; a sign that no typeface has keeps the file
    from being certified as accessible (PDF/UA), not from being made.
    """
    records = json.dumps({**asdict(document), "words": asdict(wording())}, ensure_ascii=False)
    texts = document.name + document.remark + document.date
    try:
        return _set(records, own_typefaces=lettering.covered(texts), accessible=True)
    except typst.TypstError:
        return _set(records, own_typefaces=False, accessible=False)


def _set(records: str, *, own_typefaces: bool, accessible: bool) -> bytes:
    return typst.compile(
        resources.files("shedlight.documents").joinpath("paper.typ").read_bytes(),
        format="pdf",
        sys_inputs={"calculation": records},
        font_paths=_typefaces(own_typefaces),
        ignore_system_fonts=own_typefaces,
        pdf_standards="ua-1" if accessible else None,
        timestamp=TIMESTAMP,
    )


@cache
def _typefaces(own: bool) -> typst.Fonts:
    """The shipped typeface with those of Typst, and the machine's too unless only `own` ones."""
    with resources.as_file(resources.files("shedlight.figures").joinpath("fonts")) as shipped:
        return typst.Fonts(include_system_fonts=not own, font_paths=[str(shipped)])
