"""Read the reference rows, run them, compare."""

import csv
import json
import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any

from shedlight.errors import InputError, ShedlightError
from shedlight.units import parse, shown_in
from shedlight.verification import values

_COLUMNS = ("id", "function", "inputs", "expected", "tolerance", "kind", "source", "basis")
_TROUBLE = (ShedlightError, TypeError, ValueError, LookupError, AttributeError, ArithmeticError)
_BASES = ("exact", "published", "practice", "memory")


class Kind(StrEnum):
    """What a reference row proves, from the least to the most."""

    ARITHMETIC = "arithmetic"  # that a formula is coded right
    EXACT = "exact"  # follows from first principles
    CROSS_MODEL = "cross-model"  # two independent models agree
    PUBLISHED = "published"  # a number known apart from the formula


@dataclass(frozen=True)
class Row:
    """One reference value as written: the columns of ``tests/reference/README.md``."""

    id: str
    function: str
    inputs: str
    expected: str
    tolerance: float
    kind: Kind
    source: str
    basis: str


@dataclass(frozen=True)
class Outcome:
    """A row with what this installation computed.

    ``expected`` and ``computed`` count ``unit``; ``deviation`` is relative to ``expected``
    (absolute where that is 0). ``trouble`` says why nothing could be computed; the numbers are
    then not finite and ``ok`` is false.
    """

    id: str
    function: str
    unit: str
    expected: float
    computed: float
    deviation: float
    tolerance: float
    ok: bool
    kind: Kind
    source: str
    basis: str
    trouble: str = ""


def _folder() -> Traversable | Path:
    """The shipped copy, or in a checkout the one place where the rows are written."""
    shipped = resources.files(__package__).joinpath("data")
    if shipped.is_dir():
        return shipped
    checkout = Path(__file__).resolve().parents[3] / "tests" / "reference"
    if checkout.is_dir():
        return checkout
    raise InputError(f"reference rows: expected in {shipped} or {checkout}; reinstall shedlight")


@cache
def rows() -> tuple[Row, ...]:
    """Every reference row of this installation, file by file in alphabetical order.

    Raises:
        InputError: a file or row is not as README.md tells, or an id stands twice.
    """
    return read_rows(_folder())


def read_rows(folder: Traversable | Path) -> tuple[Row, ...]:
    """Every reference row of a folder of CSV files.

    Args:
        folder: What holds the files.

    Raises:
        InputError: a file or row is not as README.md tells, or an id stands twice.
    """
    files = sorted((f for f in folder.iterdir() if f.name.endswith(".csv")), key=lambda f: f.name)
    found = [
        _row(file.name, number, cells)
        for file in files
        for number, cells in enumerate(
            csv.DictReader(file.read_text(encoding="utf-8").splitlines(), strict=True), start=2
        )
    ]
    seen: set[str] = set()
    for row in found:
        if row.id in seen:
            raise InputError(f"reference row {row.id}: the id stands twice; expected once")
        seen.add(row.id)
    return tuple(found)


def _row(file: str, line: int, cells: Mapping[str | Any, str | Any]) -> Row:
    place = f"{file} row {line}"
    if tuple(cells) != _COLUMNS or not all(cells.values()):
        raise InputError(
            f"{place}: given {dict(cells)}; expected {', '.join(_COLUMNS)}, all filled"
        )
    try:
        kind, tolerance = Kind(cells["kind"]), float(cells["tolerance"])
    except ValueError as wrong:
        raise InputError(f"{place}: {wrong}; expected a kind and a tolerance") from None
    if not 0 <= tolerance < 1:
        raise InputError(f"{place}: tolerance: given {tolerance:g}; expected 0 or more, below 1")
    if not cells["id"].startswith(f"{file.removesuffix('.csv')}."):
        raise InputError(
            f"{place}: id: given {cells['id']}; expected to begin with the file's name"
        )
    if cells["basis"] not in _BASES:
        raise InputError(f"{place}: basis: given {cells['basis']}; expected {', '.join(_BASES)}")
    return Row(
        cells["id"],
        cells["function"],
        cells["inputs"],
        cells["expected"],
        tolerance,
        kind,
        cells["source"],
        cells["basis"],
    )


def outcome(row: Row) -> Outcome:
    """Run one row; trouble in it is part of the outcome, not an exception."""
    unit = values.unit_of(row.expected)
    expected = computed = deviation = math.nan
    trouble = ""
    try:
        expected = shown_in(parse(row.expected, unit), unit)
        computed = shown_in(_computed(row), unit)
        deviation = abs(computed - expected) / (abs(expected) or 1.0)
    except _TROUBLE as wrong:
        trouble = f"{type(wrong).__name__}: {wrong}"
    return Outcome(
        row.id,
        row.function,
        unit,
        expected,
        computed,
        deviation,
        row.tolerance,
        deviation <= row.tolerance,
        row.kind,
        row.source,
        row.basis,
        trouble,
    )


def _computed(row: Row) -> float:
    function, steps = values.function_at(row.function)
    arguments = values.inputs(row.inputs)
    if formula := values.declared(row.function):
        values.check_dimensions(formula, json.loads(row.inputs), row.expected)
    return values.opened_by(values.called(function, arguments), steps)


def outcomes() -> tuple[Outcome, ...]:
    """Every reference row, run here and now."""
    return tuple(outcome(row) for row in rows())
