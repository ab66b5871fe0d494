"""The first sheet of an OpenDocument spreadsheet, as rows of text (ISO/IEC 26300)."""

import zipfile
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree

MOST_BYTES = 50_000_000
MOST_CELLS = 1_000  # empty cells are stored as one that repeats to the end of the sheet
OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"


def lines_of(path: Path, most: int) -> Iterator[list[str]]:
    """The lines of the first sheet, each as its cells' text.

    Args:
        path: The file.
        most: How many lines at most.

    Raises:
        ValueError: it is no such spreadsheet.
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
    for row in list(sheet.iter(f"{TABLE}table-row"))[:most]:
        cells = [text for cell in row for text in _repeated(cell)]
        if any(cells):
            yield cells


def _repeated(cell: ElementTree.Element) -> list[str]:
    times = int(cell.get(f"{TABLE}number-columns-repeated", "1"))
    return [_text(cell)] * min(times, MOST_CELLS)


def _text(cell: ElementTree.Element) -> str:
    """A number as it is stored, not as it is shown; else the cell's paragraphs."""
    if cell.get(f"{OFFICE}value-type") == "float":
        number = float(cell.get(f"{OFFICE}value", "nan"))
        return f"{number:.15g}"
    return "\n".join("".join(part.itertext()) for part in cell.iter(f"{TEXT}p"))
