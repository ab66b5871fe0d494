"""The reference pages hold everything, and those in docs/ are up to date."""

from pathlib import Path

import pytest

from documents.subjects import ROOT
from shedlight.checks.catalogue import questions
from shedlight.documents.catalogue import checks_page, declared_formulas, formulas_page, plain
from shedlight.documents.fields import description_page, records
from shedlight.documents.reference import CURE, MISUSED, PAGES, main
from shedlight.given.bushing import Installation
from shedlight.given.parts import Palm, Rod, Stud, Tube


@pytest.mark.parametrize("name", PAGES)
def test_docs_are_up_to_date(name: str) -> None:
    path = ROOT / "docs" / name
    assert path.exists(), f"docs/{name} is missing; run: {CURE}"
    same = path.read_text(encoding="utf-8") == PAGES[name]()
    assert same, f"docs/{name} is out of date; run: {CURE}"


def test_every_question_is_in_the_catalogue() -> None:
    page = checks_page()
    for question in questions().values():
        assert f"`{question.id}`" in page
        assert plain(question.why) in page


def test_every_formula_is_listed_with_its_source() -> None:
    page = formulas_page()
    declared = declared_formulas()

    assert len(declared) > 200
    for name, formula in declared.items():
        assert f"`{name.rpartition('.')[2]}`" in page
        assert f"{formula.result.symbol} = {formula.typeset}" in page
        assert plain(str(formula.citation)) in page


def test_every_field_of_every_record_is_described() -> None:
    page = description_page()
    found = [record for _, record in records(Installation)]

    assert {Rod, Tube, Palm, Stud} <= set(found)
    for path, record in records(Installation):
        assert f"## {plain(record.title)}" in page
        assert not path or f"`[{path}]`" in page
        for name in record.model_fields:
            assert f"| `{name}` |" in page


def test_bounds_and_defaults_are_told() -> None:
    page = description_page()

    assert "1.1 kV to 52 kV | required |" in page
    assert "effective, low-resistance, resonant, isolated | required |" in page
    assert "50 Hz: the more common network frequency" in page


def test_markdown_signs_are_escaped() -> None:
    assert plain("a|b *c* <d>\n[e]") == "a\\|b \\*c\\* \\<d\\> \\[e\\]"
    assert plain("`U_m`") == "`U_m`"


def test_writing_the_pages(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([str(tmp_path / "docs")]) == 0

    said = capsys.readouterr().out
    for name, text in PAGES.items():
        assert (tmp_path / "docs" / name).read_text(encoding="utf-8") == text()
        assert name in said


def test_a_missing_folder_is_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == MISUSED
    assert CURE in capsys.readouterr().err
