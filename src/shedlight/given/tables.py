"""Reading the data tables of this floor; every row names its source and basis."""

import csv
from collections.abc import Iterator
from functools import cache
from importlib import resources

from shedlight.sources import Citation, cite


@cache
def read_table(name: str) -> tuple[tuple[dict[str, str], Citation], ...]:
    """All rows of a table with the citation each row rests on.

    Args:
        name: File in ``given/data``; needs the columns source_key, where, basis, confidence.
    """
    return tuple(_rows(name))


def _rows(name: str) -> Iterator[tuple[dict[str, str], Citation]]:
    text = resources.files("shedlight.given").joinpath("data", name).read_text(encoding="utf-8")
    for row in csv.DictReader(text.splitlines()):
        confidence = row["confidence"] or "low"
        yield row, cite(row["source_key"], row["where"], row["basis"], confidence)
