"""Data tables: CSV files beside the code that uses them, every row with its source.

The columns ``source,where,basis,confidence`` are the citation of a row. A user who holds a
publication can confirm or correct rows in a file of their own (an overlay):

    [[confirmed]]
    table = "surface/classes"
    row = { letter = "e" }
    read_in = "IEC TS 60815-1:2008, Table 1"
    set = { mm_per_kv = "53.7" }      # only where the figure differs

A confirmed row counts as firmly held: a check that rests on it may fail.
"""

import csv
import functools
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from importlib import resources
from importlib.resources.abc import Traversable
from typing import ParamSpec, TypeVar

from shedlight.errors import InputError
from shedlight.sources import Basis, Citation, cite

P = ParamSpec("P")
T = TypeVar("T")
Row = Mapping[str, str]
CITATION_COLUMNS = frozenset(("source", "where", "basis", "confidence"))
_PLACE = "@row"


@dataclass(frozen=True)
class Confirmation:
    """One entry of an overlay: which rows of which table, where read, and what differs."""

    table: str
    row: Mapping[str, str]
    read_in: str
    corrected: Mapping[str, str]

    def names(self, row: Row) -> bool:
        """Whether a row of the table is meant."""
        return all(row[column] == value for column, value in self.row.items())


_active: tuple[Confirmation, ...] = ()
_caches: list[Callable[[], None]] = []


def cached(function: Callable[P, T]) -> Callable[P, T]:
    """Keep what a function made of a table until an overlay comes or goes."""
    kept = functools.cache(function)
    _caches.append(kept.cache_clear)
    return functools.wraps(function)(kept)  # type: ignore[return-value]


@cache
def known_tables() -> Mapping[str, Traversable]:
    """Every table by name, such as ``surface/classes``."""

    def walk(folder: Traversable, name: str) -> Iterator[tuple[str, Traversable]]:
        for entry in folder.iterdir():
            if entry.is_dir():
                yield from walk(entry, name if entry.name == "data" else entry.name)
            elif entry.name.endswith(".csv") and name:
                yield f"{name}/{entry.name.removesuffix('.csv')}", entry

    package = resources.files("shedlight")
    found = sorted(walk(package, ""), key=lambda item: item[0])
    return {name: file for name, file in found if set(_lines(file)[0]) >= CITATION_COLUMNS}


def _lines(file: Traversable) -> tuple[dict[str, str], ...]:
    rows = tuple(csv.DictReader(file.read_text(encoding="utf-8").splitlines()))
    return rows or ({},)


def rows_as_kept(table: str) -> tuple[Row, ...]:
    """The rows of a known table as the file holds them, whatever is confirmed."""
    return _lines(known_tables()[table])


@cached
def read(table: str) -> tuple[Row, ...]:
    """All rows of a table as text by column, with what the active overlay confirms.

    Args:
        table: Name such as ``surface/classes``: the folder's name and the file's.

    Raises:
        InputError: no such table.
    """
    if table not in known_tables():
        raise InputError(f"table: given {table!r}; expected one of {', '.join(known_tables())}")
    rows = _lines(known_tables()[table])
    return tuple(_confirmed(table, {**row, _PLACE: _place(table, row, rows)}) for row in rows)


def _place(table: str, row: Row, rows: tuple[dict[str, str], ...]) -> str:
    """A row's name: the table and the fewest leading columns that tell it from the others."""
    columns = [column for column in row if column not in CITATION_COLUMNS] + ["source"]
    for count in range(1, len(columns) + 1):
        lead = columns[:count]
        if sum(all(other[c] == row[c] for c in lead) for other in rows) == 1:
            break
    return f"{table} ({', '.join(f'{column} = {row[column]}' for column in lead if row[column])})"


def _confirmed(table: str, row: dict[str, str]) -> Row:
    for entry in _active:
        if entry.table == table and entry.names(row):
            row |= {**entry.corrected, "where": entry.read_in, "basis": str(Basis.CONFIRMED)}
    return row


def citation(row: Row) -> Citation:
    """The source a row names."""
    confidence = row["confidence"] or "low"
    return cite(row["source"], row["where"], row["basis"], confidence, row=row[_PLACE])


def active_overlay() -> tuple[Confirmation, ...]:
    """The confirmations that hold at this moment."""
    return _active


@contextmanager
def confirmed(overlay: tuple[Confirmation, ...]) -> Iterator[None]:
    """Let an overlay's rows hold while the block runs."""
    before = _active
    _activate(overlay)
    try:
        yield
    finally:
        _activate(before)


def _activate(overlay: tuple[Confirmation, ...]) -> None:
    """Let an overlay hold from now on; what was made of the tables before is forgotten."""
    global _active  # noqa: PLW0603  tables are shared by all rooms; `confirmed` restores them
    if overlay != _active:
        _active = overlay
        for clear in _caches:
            clear()
