"""Reading an overlay: table rows that a user has checked against their publication."""

import math
from collections.abc import Mapping
from typing import Any

from shedlight.errors import DescriptionError, Problem
from shedlight.tables import CITATION_COLUMNS, Confirmation, Row, known_tables, rows_as_kept
from shedlight.toml import tables_in

KEYS = {"table", "row", "read_in", "set"}
LONGEST = 300


def overlay_from(text: str, origin: str) -> tuple[Confirmation, ...]:
    """Read an overlay, refusing entries that name no table, column, row or figure.

    Args:
        text: TOML.
        origin: What to call it in messages.

    Raises:
        DescriptionError: it cannot be used; carries every problem found.
    """
    entries = tables_in(text, origin).get("confirmed", [])
    if not isinstance(entries, list) or not entries:
        problem = Problem("confirmed", "nothing", "[[confirmed]] entries", "Add one.")
        raise DescriptionError(origin, (problem,))
    found, problems = [], []
    for number, entry in enumerate(entries, start=1):
        try:
            found.append(_entry(entry, f"confirmed.{number}"))
        except _RefusedError as refused:
            problems.append(refused.problem)
    if problems:
        raise DescriptionError(origin, tuple(problems))
    return tuple(found)


class _RefusedError(Exception):
    def __init__(self, field: str, given: object, expected: str, cure: str) -> None:
        self.problem = Problem(field, f"{given!r}"[:60], expected, cure)
        super().__init__(field)


def _entry(entry: Any, where: str) -> Confirmation:
    if not isinstance(entry, dict) or not {"table", "row", "read_in"} <= set(entry) <= KEYS:
        keys = sorted(entry) if isinstance(entry, dict) else entry
        cure = "Say of which table which row you read in which publication."
        raise _RefusedError(where, keys, "table, row, read_in and perhaps set", cure)
    table = entry["table"]
    if table not in known_tables():
        cure = f"Known: {', '.join(known_tables())}."
        raise _RefusedError(f"{where}.table", table, "a known table", cure)
    read_in = entry["read_in"]
    if not isinstance(read_in, str) or not read_in.isprintable() or not 0 < len(read_in) <= LONGEST:
        cure = "Name standard, edition and table."
        raise _RefusedError(f"{where}.read_in", read_in, "one line of text", cure)
    kept = rows_as_kept(table)
    row = _cells(entry["row"], f"{where}.row", kept[0])
    made = Confirmation(table, row, read_in, _figures(entry, where, kept, row))
    if not any(made.names(candidate) for candidate in kept):
        cure = "Correct its columns."
        raise _RefusedError(f"{where}.row", dict(row), "a row of the table", cure)
    return made


def _cells(given: Any, where: str, columns: Row) -> Mapping[str, str]:
    if not isinstance(given, dict) or not given:
        raise _RefusedError(where, given, 'columns such as { letter = "e" }', "Name columns.")
    for column in given:
        if column not in columns:
            cure = f"Columns: {', '.join(columns)}."
            raise _RefusedError(f"{where}.{column}", column, "a column of the table", cure)
    return {column: str(value) for column, value in given.items()}


def _figures(
    entry: Mapping[str, Any], where: str, kept: tuple[Row, ...], row: Mapping[str, str]
) -> Mapping[str, str]:
    """The corrections: figures for figures, and no column by which the row is found."""
    if "set" not in entry:
        return {}
    corrected = _cells(entry["set"], f"{where}.set", kept[0])
    meant = [line for line in kept if all(line[c] == v for c, v in row.items())]
    for column, value in corrected.items():
        place = f"{where}.set.{column}"
        if column in CITATION_COLUMNS or column in row:
            cure = "Correct the figure, not how the row is known."
            raise _RefusedError(place, value, "a column with a figure", cure)
        if not all(_is_figure(line[column]) for line in meant) or not _is_figure(value):
            cure = "Only figures can be corrected, by finite figures above zero."
            raise _RefusedError(place, value, "a figure for a figure", cure)
    return corrected


def _is_figure(text: str) -> bool:
    try:
        return math.isfinite(float(text)) and float(text) > 0
    except ValueError:
        return False
