"""Offers: what cannot be mounted is said, what fails ranks below what holds."""

from pathlib import Path

import openpyxl
import pytest

from shedlight.errors import DescriptionError
from shedlight.sizing.prices import prices_of
from shedlight.sizing.rows import rows_of
from shedlight.sizing.stock import choose
from sizing.requests import asked

STOCK = Path(__file__).parents[2] / "examples" / "sizing" / "stock.csv"


def test_what_holds_comes_first_and_says_what_it_is_short_of() -> None:
    offers = choose(asked(transformer__hole_diameter="76 mm"), rows_of(STOCK)[:4])

    assert [offer.name for offer in offers[:2]] == [
        "Store 4 alternating seven",
        "Store 4 plain five",
    ]
    assert offers[0].holds
    assert "surface.creepage" in [check.id for check in offers[1].short]
    assert not offers[1].holds
    assert not any(offer.fits for offer in offers[2:])
    assert any("hole" in offer.trouble for offer in offers[2:])


def test_an_offer_deviates_where_it_is_other_than_what_is_fixed() -> None:
    request = asked(
        transformer__hole_diameter="76 mm",
        bushing={"porcelain": {"bore": "40 mm", "wall": "16 mm"}, "conductor": {"metal": "copper"}},
    )
    (offer,) = choose(request, rows_of(STOCK)[:1])
    assert offer.deviations == ("porcelain.bore 36 mm, asked 40 mm",)


def test_a_spreadsheet_reads_like_its_comma_separated_twin(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["item", "unit", "price"])
    sheet.append(["porcelain", "kg", 9.5])
    sheet.append(["shed", "piece", 4])
    book.save(tmp_path / "prices.xlsx")
    (tmp_path / "prices.csv").write_text("item,unit,price\nporcelain,kg,9.5\nshed,piece,4\n")

    assert prices_of(tmp_path / "prices.xlsx") == prices_of(tmp_path / "prices.csv")


def test_a_table_that_cannot_be_used_says_why(tmp_path: Path) -> None:
    (tmp_path / "prices.csv").write_text("item,price\nporcelain,dear\n")
    with pytest.raises(DescriptionError, match="the price 'dear' of porcelain"):
        prices_of(tmp_path / "prices.csv")
    with pytest.raises(DescriptionError, match=r"\.csv or \.xlsx"):
        rows_of(tmp_path / "prices.ods")
