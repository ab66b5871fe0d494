"""The first sheet of an OpenDocument spreadsheet, as rows of text (ISO/IEC 26300)."""

import zipfile
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from xml.etree import ElementTree

MOST_BYTES = 50_000_000
MOST_CELLS = 1_000  # empty cells are stored as one that repeats to the end of the sheet
MOST_REPEATS = 1_000  # of one row that is not empty: more of them are no table of anyone's
NUMBERS = ("float", "currency")
OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"


def lines_of(path: Path, most: int) -> Iterator[list[str]]:
    """The lines of the first sheet, each as its cells' text.

    Args:
        path: The file.
        most: How many lines at most.

    Raises:
        ValueError: it is no such spreadsheet, or repeats a row endlessly.
    """
    try:
        with zipfile.ZipFile(path) as archive:
            if archive.getinfo("content.xml").file_size > MOST_BYTES:
                raise ValueError(f"more than {MOST_BYTES // 1_000_000} MB unpacked")
            tree = ElementTree.fromstring(archive.read("content.xml"))
    except (zipfile.BadZipFile, KeyError, ElementTree.ParseError) as error:
        raise ValueError(f"{error}") from None
    sheet = tree.find(f".//{TABLE}table")
    if sheet is None:
        raise ValueError("no sheet")
    yield from islice(_filled(sheet), most)


def _filled(sheet: ElementTree.Element) -> Iterator[list[str]]:
    """The rows that are not empty; equal ones that follow each other are stored as one."""
    for row in sheet.iter(f"{TABLE}table-row"):
        cells = [text for cell in row for text in _repeated(cell)]
        if not any(cells):
            continue
        times = int(row.get(f"{TABLE}number-rows-repeated", "1"))
        if times > MOST_REPEATS:
            raise ValueError(f"a row that repeats {times} times, more than {MOST_REPEATS}")
        for _ in range(times):
            yield cells


def _repeated(cell: ElementTree.Element) -> list[str]:
    times = int(cell.get(f"{TABLE}number-columns-repeated", "1"))
    return [_text(cell)] * min(times, MOST_CELLS)


def _text(cell: ElementTree.Element) -> str:
    """A number as it is stored, not as it is shown; else the cell's paragraphs."""
    kind, value = cell.get(f"{OFFICE}value-type"), cell.get(f"{OFFICE}value")
    if value is not None and kind in NUMBERS:
        return f"{float(value):.15g}"
    if value is not None and kind == "percentage":
        return f"{100 * float(value):.15g} %"
    # Only its own: a remark pinned to a cell has paragraphs too.
    return "\n".join("".join(part.itertext()) for part in cell.findall(f"{TEXT}p"))
