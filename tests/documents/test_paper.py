"""The paper: complete, the same bytes each time, and never led astray by a name."""

import io
from dataclasses import replace
from functools import cache
from typing import cast

import pypdf
import pytest

from documents.subjects import ARABIC, EMOJI, HTML, LONG, TYPST, assessed, squeezed
from shedlight.checks.assessment import Assessment
from shedlight.checks.check import Verdict
from shedlight.documents.calculation import calculation
from shedlight.documents.drawing import drawing_of
from shedlight.documents.paper import calculation_pdf

POINTS_PER_MM = 72 / 25.4


@cache
def paper() -> bytes:
    return calculation_pdf(assessed())


def short(called: str = "") -> Assessment:
    """Only a few checks, so that it is quickly set."""
    whole = assessed("inland-12kv", called)
    return replace(whole, checks=whole.checks[:3])


def read(content: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(content))


@cache
def text() -> str:
    return squeezed("".join(page.extract_text() for page in read(paper()).pages))


def title_of(content: bytes) -> str:
    metadata = read(content).metadata
    assert metadata is not None
    return metadata.title or ""


def test_every_check_source_and_reason_is_there() -> None:
    assessment = assessed()

    assert squeezed(assessment.verdict_sentence) in text()
    for check in assessment.checks:
        assert squeezed(check.id) in text()
        assert squeezed(check.question.title) in text()
        if check.verdict is not Verdict.PASS:
            assert squeezed(check.reason) in text()
        for citation in check.cited:
            assert squeezed(citation.source.title) in text()


def test_numbers_of_the_table_are_there() -> None:
    rows = [row for row in calculation(assessed()).checks if row.demand]

    assert len(rows) > 20
    for row in rows:
        assert squeezed(f"{row.demand}{row.capability}{row.unit}{row.margin}") in text()


def test_every_page_says_which_it_is() -> None:
    total = len(read(paper()).pages)

    assert total > 20
    assert all(f"page{number}of{total}" in text() for number in range(1, total + 1))


def test_cautions_stand_on_the_first_page() -> None:
    first = squeezed(read(paper()).pages[0].extract_text())

    for caution in calculation(assessed()).cautions:
        assert squeezed(caution) in first


def test_equal_input_gives_equal_bytes() -> None:
    assert calculation_pdf(assessed()) == paper()


def test_the_file_is_accessible_and_titled() -> None:
    reader = read(paper())

    assert title_of(paper()) == f"Calculation: {assessed().installation.name}"
    assert reader.metadata is not None
    assert reader.metadata.creation_date_raw is None
    assert b"<pdfuaid:part>1</pdfuaid:part>" in paper()
    assert "/StructTreeRoot" in reader.root_object


def test_only_shipped_typefaces_are_used() -> None:
    names: set[str] = set()
    for page in read(paper()).pages[:5]:
        fonts = cast("dict[str, pypdf.generic.DictionaryObject]", page["/Resources"])["/Font"]
        names |= {str(font.get_object()["/BaseFont"]) for font in fonts.values()}

    assert names
    shipped = ("Inter", "NewCM", "DejaVuSansMono")
    assert all(name.partition("+")[2].startswith(shipped) for name in names)


def test_the_drawing_keeps_its_size() -> None:
    drawing = drawing_of(assessed())
    reader = read(paper())
    (place,) = [
        entry
        for entry in reader.outline
        if isinstance(entry, pypdf.generic.Destination) and entry.title == "Section drawing"
    ]
    number = reader.get_destination_page_number(place)
    assert number is not None
    box = reader.pages[number].mediabox

    wanted = (drawing.width * POINTS_PER_MM, drawing.height * POINTS_PER_MM)
    assert (float(box.width), float(box.height)) == pytest.approx(wanted, abs=0.1)


@pytest.mark.parametrize("called", [TYPST, HTML, LONG])
def test_a_name_stays_a_name(called: str) -> None:
    content = calculation_pdf(short(called))

    assert squeezed(called) in squeezed(read(content).pages[0].extract_text())
    assert title_of(content) == f"Calculation: {called}"


@pytest.mark.parametrize("called", [ARABIC, EMOJI, "\N{CJK UNIFIED IDEOGRAPH-5909}\U000e0fff"])
def test_signs_that_no_typeface_has_do_not_keep_it_from_being_made(called: str) -> None:
    assert title_of(calculation_pdf(short(called))) == f"Calculation: {called}"


def test_a_long_name_stays_on_the_page() -> None:
    page = read(calculation_pdf(short(LONG))).pages[0]
    starts: list[float] = []

    def note(text: str, _: object, matrix: list[float], *__: object) -> None:
        if "W" in text:
            starts.append(matrix[4])

    page.extract_text(visitor_text=note)
    assert starts
    assert max(starts) < float(page.mediabox.width)


def test_the_date_stands_only_where_given() -> None:
    dated = read(calculation_pdf(short(), date="3 May 2031")).pages[-1]
    undated = read(calculation_pdf(short())).pages[-1]

    assert "3 May 2031" in dated.extract_text()
    assert "3 May 2031" not in undated.extract_text()
