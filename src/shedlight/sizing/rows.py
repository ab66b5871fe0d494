"""Tables that people keep as CSV or as a spreadsheet: bodies, rods, offers, prices."""

import csv
import io
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from shedlight import units
from shedlight.errors import DescriptionError, Problem, UnitError
from shedlight.toml import text_of

Row = dict[str, str]
MOST_ROWS = 100_000
KINDS = (".csv", ".xlsx", ".ods")


def rows_of(path: Path) -> list[Row]:
    """The rows of a table as text by column; a column head may carry a unit, ``wall [mm]``.

    Args:
        path: A CSV file, or the first sheet of a spreadsheet.

    Raises:
        DescriptionError: it cannot be read, or has no rows.
    """
    if path.suffix.lower() not in KINDS:
        raise refused(path, f"the ending {path.suffix!r}", ".csv, .xlsx or .ods", "Save it as one.")
    lines = {".xlsx": _sheet, ".ods": _open_sheet}.get(path.suffix.lower(), _commas)(path)
    head = [str(cell or "").strip() for cell in next(lines, [])]
    if not any(head):
        raise refused(path, "no column heads", "a first line of heads", "Add them.")
    found = []
    for cells in lines:
        row = dict(_with_unit(name, cell) for name, cell in zip(head, cells, strict=False) if name)
        if any(row.values()):
            found.append(row)
    if not found:
        raise refused(path, "no rows", "at least one row below the heads", "Fill it in.")
    return found


def refused(path: Path, given: str, expected: str, cure: str) -> DescriptionError:
    """A table that cannot be used, as one clear message."""
    return DescriptionError(str(path), (Problem("table", given, expected, cure),))


def _commas(path: Path) -> Iterator[list[Any]]:
    text = text_of(path)
    separator = (
        ";" if text.split("\n", 1)[0].count(";") > text.split("\n", 1)[0].count(",") else ","
    )
    yield from csv.reader(io.StringIO(text), delimiter=separator)


def _sheet(path: Path) -> Iterator[list[Any]]:
    import openpyxl  # noqa: PLC0415  a tenth of a second, for spreadsheets only

    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=True)
    except Exception as error:  # the library raises whatever it meets in a broken archive
        raise refused(path, f"{error}", "a spreadsheet", "Check the file.") from None
    sheet = book.worksheets[0]
    for cells in sheet.iter_rows(values_only=True, max_row=MOST_ROWS):
        yield list(cells)
    book.close()


def _open_sheet(path: Path) -> Iterator[list[Any]]:
    from shedlight.sizing.open_document import lines_of  # noqa: PLC0415  opens an archive reader

    try:
        yield from lines_of(path, MOST_ROWS)
    except (OSError, ValueError) as error:
        raise refused(path, f"{error}", "an OpenDocument spreadsheet", "Check the file.") from None


def _with_unit(head: str, cell: Any) -> tuple[str, str]:
    """The column's name without its unit, and the cell's text with it."""
    name, bracket, rest = head.partition("[")
    text = "" if cell is None else f"{cell}".strip()
    unit = rest.rstrip("] ") if bracket else ""
    bare = text.replace(",", ".").replace(".", "", 1).lstrip("+-").isdigit()
    return name.strip(), f"{text} {unit}" if text and unit and bare else text


def nested(row: Iterable[tuple[str, str]]) -> dict[str, Any]:
    """Cells with dotted heads as tables; empty cells are left out, counts become numbers."""
    found: dict[str, Any] = {}
    for name, text in row:
        if not text:
            continue
        *way, last = name.split(".")
        place = found
        for step in way:
            place = place.setdefault(step, {})
        place[last] = int(text) if last in ("count", "holes", "bolts", "ribs") else text
        if text.lower() in ("true", "false", "yes", "no"):
            place[last] = text.lower() in ("true", "yes")
    return found


def conductors_of(path: Path) -> tuple[float, ...]:
    """Diameters of rods in stock [m], the smallest first: a column ``diameter``.

    Args:
        path: The table.

    Raises:
        DescriptionError: it cannot be used.
    """
    try:
        return tuple(sorted(units.parse(row["diameter"], "mm") for row in rows_of(path)))
    except (KeyError, UnitError) as error:
        cure = 'Head a column "diameter [mm]".'
        raise refused(path, f"{error}", "a column of diameters", cure) from None
