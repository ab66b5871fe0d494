"""A plan of many cases: one description, and axes along which it changes."""

import hashlib
import json
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from shedlight.errors import DescriptionError, Problem
from shedlight.given.bushing import Installation
from shedlight.given.reading import parse
from shedlight.sizing.rows import rows_of
from shedlight.toml import tables_in, text_of

DEPTHS = ("quick", "full", "field")
KNOWN = ("name", "base", "depth", "sections", "chunk", "axes")
MOST_CASES = 10_000_000
SHAPING = ("bushing__", "transformer__")
COUNTS = ("count", "holes", "bolts", "ribs")


@dataclass(frozen=True)
class Axis:
    """One axis: its name, and at each place a label and what changes there."""

    name: str
    labels: tuple[str, ...]
    changes: tuple[Mapping[str, Any], ...]

    @property
    def shapes(self) -> bool:
        """Whether it changes the shape, or what the shape stands on."""
        return any(path.startswith(SHAPING) for row in self.changes for path in row)


@dataclass(frozen=True)
class Plan:
    """What is to be computed: every combination of the axes' places.

    Attributes:
        name: What it is called.
        base: The description that changes, as text.
        axes: The axes, those that change the shape first; the last one changes fastest.
        depth: quick, full, or with the field.
        sections: Whether heat and stress of the section are solved with the field.
        chunk: How many cases one task takes.
    """

    name: str
    base: str
    axes: tuple[Axis, ...]
    depth: str
    sections: bool
    chunk: int

    @property
    def count(self) -> int:
        """How many cases there are."""
        return math.prod(len(axis.labels) for axis in self.axes)

    @property
    def chunks(self) -> int:
        """How many tasks there are."""
        return math.ceil(self.count / self.chunk)

    @cached_property
    def case(self) -> Installation:
        """The installation that changes."""
        return parse(self.base, self.name)

    @cached_property
    def fingerprint(self) -> str:
        """The same for plans that ask the same."""
        axes = [[axis.name, list(axis.labels), list(axis.changes)] for axis in self.axes]
        said = json.dumps([self.base, axes, self.depth, self.sections, self.chunk], sort_keys=True)
        return hashlib.sha256(said.encode()).hexdigest()[:16]

    def places(self, number: int) -> tuple[int, ...]:
        """The place on each axis of one case.

        Args:
            number: Number of the case, from 0.
        """
        found = []
        for axis in reversed(self.axes):
            number, place = divmod(number, len(axis.labels))
            found.append(place)
        return tuple(reversed(found))

    def cases_of(self, chunk: int) -> range:
        """Numbers of the cases of one task.

        Args:
            chunk: Number of the task, from 0.
        """
        return range(chunk * self.chunk, min(self.count, (chunk + 1) * self.chunk))


def read_plan(path: str | Path) -> Plan:
    """A plan from a TOML file: ``base``, ``depth`` and axes.

    Args:
        path: The file; tables and the base are looked for beside it.

    Raises:
        DescriptionError: it cannot be used.
    """
    place = Path(path)
    tables = tables_in(text_of(place), str(path))
    unknown = [name for name in tables if name not in KNOWN]
    if unknown:
        raise refused(place, unknown[0], "an unknown name", f"one of {', '.join(KNOWN)}")
    if not isinstance(tables.get("base"), str):
        raise refused(place, "base", "nothing", "the file of the description that changes")
    base = text_of(place.parent / tables["base"])
    depth = tables.get("depth", "quick")
    if depth not in DEPTHS:
        raise refused(place, "depth", repr(depth), f"one of {', '.join(DEPTHS)}")
    chunk = tables.get("chunk", 4 if depth == "field" else 100)
    if not isinstance(chunk, int) or isinstance(chunk, bool) or not 1 <= chunk <= 10_000:
        raise refused(place, "chunk", repr(chunk), "a whole number from 1 to 10000")
    sections = tables.get("sections", False)
    if not isinstance(sections, bool) or (sections and depth != "field"):
        raise refused(place, "sections", repr(sections), 'true or false, with depth = "field"')
    # A shape that stays while all else changes is measured, and its field solved, only once.
    axes = tuple(sorted(_axes(place, tables.get("axes")), key=lambda axis: not axis.shapes))
    plan = Plan(str(tables.get("name", place.stem)), base, axes, depth, sections, chunk)
    if plan.count > MOST_CASES:
        raise refused(place, "axes", f"{plan.count} cases", f"at most {MOST_CASES}")
    _ = plan.case
    return plan


def refused(place: Path, field: str, given: str, expected: str) -> DescriptionError:
    """A plan that cannot be used, as one clear message."""
    cure = "See docs/variants.md."
    return DescriptionError(str(place), (Problem(field, given, expected, cure),))


def _axes(place: Path, tables: Any) -> Iterator[Axis]:
    if not isinstance(tables, dict) or not tables:
        raise refused(place, "axes", "nothing", "at least one table [axes.NAME]")
    for name, table in tables.items():
        if not isinstance(table, dict):
            raise refused(place, f"axes.{name}", repr(table), "a table")
        rows = list(_rows(place, name, table))
        if not rows:
            raise refused(place, f"axes.{name}", "no rows", "at least one")
        labels = tuple(str(row.get("name", number)) for number, row in enumerate(rows, start=1))
        yield Axis(name, labels, tuple(_changes(row) for row in rows))


def _rows(place: Path, name: str, table: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    """The rows of an axis: of a file, written in the plan, or values of one field."""
    if isinstance(table.get("table"), str):
        yield from rows_of(place.parent / table["table"])
    elif isinstance(table.get("rows"), list):
        yield from table["rows"]
    elif isinstance(table.get("values"), list) and isinstance(table.get("path"), str):
        for value in table["values"]:
            yield {"name": str(value), table["path"]: value}
    else:
        wanted = 'table = "FILE", rows = [...], or path = "..." with values = [...]'
        raise refused(place, f"axes.{name}", "none of them", wanted)


def _changes(row: Mapping[str, Any]) -> dict[str, Any]:
    """What a row changes, by paths with double underscores; empty cells change nothing."""
    found: dict[str, Any] = {}
    for path, value in row.items():
        if path == "name" or value in ("", None):
            continue
        last = path.rpartition(".")[2]
        whole = last in COUNTS and isinstance(value, str)
        found[path.replace(".", "__")] = int(value) if whole else value
    return found
