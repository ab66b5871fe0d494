"""Read a room's tables: CSV files beside its code, every row with its source.

The last columns of every table are ``key,where,basis,confidence``: the citation.
"""

import csv
from collections.abc import Mapping
from functools import cache
from importlib import resources

from shedlight.sources import Citation, cite


@cache
def read(room: str, file: str) -> tuple[Mapping[str, str], ...]:
    """All rows of a table, as text by column.

    Args:
        room: Package that holds the file, such as ``shedlight.physics.air``.
        file: File name.
    """
    text = resources.files(room).joinpath(file).read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))


def citation(row: Mapping[str, str]) -> Citation:
    """The source a row names."""
    return cite(row["key"], row["where"], row["basis"], row["confidence"])
