"""Offers: what cannot be mounted is said, what fails ranks below what holds."""

import csv
import zipfile
from collections.abc import Callable, Sequence
from pathlib import Path

import openpyxl
import pytest

from shedlight.errors import DescriptionError
from shedlight.sizing.prices import prices_of
from shedlight.sizing.rows import rows_of
from shedlight.sizing.stock import Offer, choose
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
    with pytest.raises(DescriptionError, match=r"\.csv, \.xlsx or \.ods"):
        rows_of(tmp_path / "prices.doc")


OPEN_SHEET = """<?xml version="1.0"?>
<office:document-content
 xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0">
<office:body><office:spreadsheet><table:table>{}</table:table></office:spreadsheet></office:body>
</office:document-content>"""


def open_document(path: Path, lines: Sequence[Sequence[object]]) -> None:
    """An OpenDocument spreadsheet, its empty cells repeated as programs write them."""
    text = ""
    for line in lines:
        cells = ""
        for value in line:
            kind, shown = "", f"<text:p>{value}</text:p>"
            if isinstance(value, float | int):
                kind = f' office:value-type="float" office:value="{value}"'
                shown = f"<text:p>{value:.0f}</text:p>"
            cells += f"<table:table-cell{kind}>{shown if value != '' else ''}</table:table-cell>"
        empty = '<table:table-cell table:number-columns-repeated="16000"/>'
        text += f"<table:table-row>{cells}{empty}</table:table-row>"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("content.xml", OPEN_SHEET.format(text))


def test_an_open_document_reads_like_its_comma_separated_twin(tmp_path: Path) -> None:
    lines = list(csv.reader(STOCK.read_text("utf-8").splitlines()))
    typed = [[float(c) if c.replace(".", "", 1).isdigit() else c for c in row] for row in lines]
    open_document(tmp_path / "stock.ods", typed)
    assert rows_of(tmp_path / "stock.ods") == rows_of(STOCK)

    (tmp_path / "broken.ods").write_text("no archive")
    with pytest.raises(DescriptionError, match="OpenDocument"):
        rows_of(tmp_path / "broken.ods")


def sheet_of(path: Path, rows: str) -> list[dict[str, str]]:
    """The rows read from an OpenDocument sheet that is given as its markup."""
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("content.xml", OPEN_SHEET.format(rows))
    return rows_of(path)


HEADS = "".join(
    f"<table:table-cell><text:p>{head}</text:p></table:table-cell>"
    for head in ("name", "price", "oil_end.angle [%]")
)


def ods_row(price: str, share: str, times: str = "1") -> str:
    """A row as an office program stores it: rounded and with a currency where it is shown."""
    return (
        f'<table:table-row table:number-rows-repeated="{times}">'
        "<table:table-cell><text:p>Store</text:p></table:table-cell>"
        f'<table:table-cell office:value-type="currency" office:currency="EUR"'
        f' office:value="{price}"><text:p>1.250,40 €</text:p></table:table-cell>'
        f'<table:table-cell office:value-type="percentage" office:value="{share}">'
        "<office:annotation><text:p>ask again</text:p></office:annotation>"
        "<text:p>7%</text:p></table:table-cell></table:table-row>"
    )


def test_cells_of_an_open_document_hold_what_is_stored_not_what_is_shown(tmp_path: Path) -> None:
    head = f"<table:table-row>{HEADS}</table:table-row>"
    empty = '<table:table-row table:number-rows-repeated="9000"><table:table-cell/>'
    rows = head + empty + "</table:table-row>" + ods_row("1250.4", "0.065", "3")
    found = sheet_of(tmp_path / "offers.ods", rows)
    assert found == 3 * [{"name": "Store", "price": "1250.4", "oil_end.angle": "6.5 %"}]


def test_a_remark_pinned_to_a_cell_is_none_of_its_text(tmp_path: Path) -> None:
    pinned = (
        "<table:table-row><table:table-cell><text:p>name</text:p></table:table-cell>"
        "</table:table-row><table:table-row><table:table-cell>"
        "<office:annotation><text:p>ask again</text:p></office:annotation>"
        "<text:p>Store</text:p></table:table-cell></table:table-row>"
    )
    assert sheet_of(tmp_path / "offers.ods", pinned) == [{"name": "Store"}]


def test_a_row_repeated_endlessly_is_refused(tmp_path: Path) -> None:
    rows = f"<table:table-row>{HEADS}</table:table-row>" + ods_row("1", "0", "1048575")
    with pytest.raises(DescriptionError, match="repeats 1048575 times"):
        sheet_of(tmp_path / "offers.ods", rows)


def offered(tmp_path: Path, edit: Callable[[dict[str, str]], dict[str, str]]) -> Offer:
    """The first row of stock after an edit, judged for the hole of 76 mm."""
    head, first = list(csv.reader(STOCK.read_text("utf-8").splitlines()))[:2]
    row = edit(dict(zip(head, first, strict=True)))
    with (tmp_path / "stock.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(row))
        writer.writeheader()
        writer.writerow(row)
    request = asked(transformer__hole_diameter="76 mm", **{"bushing": {}})
    (offer,) = choose(request, rows_of(tmp_path / "stock.csv"))
    return offer


def test_awkward_tables_are_read_or_refused_by_name(tmp_path: Path) -> None:
    bore = "porcelain.bore [mm]"
    as_it_is = offered(tmp_path, lambda row: row)
    assert not as_it_is.trouble

    def without(row: dict[str, str]) -> dict[str, str]:
        return {name: text for name, text in row.items() if name != bore}

    assert "bore" in offered(tmp_path, without).trouble

    same = offered(tmp_path, lambda row: without(row) | {"porcelain.bore [cm]": "3.6"})
    assert same.case is not None
    assert as_it_is.case is not None
    assert same.case.bushing == as_it_is.case.bushing

    unitless = offered(tmp_path, lambda row: without(row) | {"porcelain.bore": "36"})
    assert "bore" in unitless.trouble
    assert "unit" in unitless.trouble

    unknown = offered(tmp_path, lambda row: row | {"porcelain.colour": "brown"})
    assert "colour" in unknown.trouble

    dear = offered(tmp_path, lambda row: row | {"price": "on request"})
    assert not dear.trouble
    assert dear.price is None

    unclear = offered(tmp_path, lambda row: row | {"price": "1,250"})
    assert unclear.trouble.startswith("price: given '1,250'")
    assert unclear.price is None
    plain = offered(tmp_path, lambda row: row | {"price": "EUR 1250"})
    assert plain.price == 1250


def test_clearances_lengths_and_hole_decide_what_can_be_mounted() -> None:
    row = rows_of(STOCK)[1:2]
    easy = {"transformer__hole_diameter": "76 mm", "bushing": {}}
    (good,) = choose(asked(**easy), row)
    assert good.fits
    tight = {
        "clearance.phase-phase": {"transformer__phase_spacing": "190 mm"},
        "clearance.phase-earth": {"transformer__earth_distance": "130 mm"},
        "oil.immersion": {"transformer__lowest_oil_level": "-100 mm"},
        "oil.head.top": {"transformer__lowest_oil_level": "200 mm"},
    }
    for check, change in tight.items():
        (offer,) = choose(asked(**easy, **change), row)
        assert check in [one.id for one in offer.misfits], check
        assert offer.rank > good.rank
