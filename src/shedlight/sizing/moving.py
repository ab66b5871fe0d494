"""Moving one dimension of a bushing: which there are, what follows them, every margin then."""

import csv
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from shedlight.checks.assessment import assess
from shedlight.checks.catalogue import questions
from shedlight.checks.check import Check
from shedlight.errors import InputError
from shedlight.given.bushing import Installation
from shedlight.given.changing import changed

# Odds follow from other margins, and proofs judge the computation: neither is designed by.
NO_DEMANDS = ("odds.", "heat.balance", "field.")


@dataclass(frozen=True)
class Dimension:
    """One main dimension of the table: its path, its name, what follows when it moves."""

    path: str
    name: str
    follows: str

    @property
    def is_count(self) -> bool:
        """Whether it is a number of things, not a length."""
        return self.path.endswith("count")


@cache
def dimensions() -> tuple[Dimension, ...]:
    """The main dimensions, in the order of the table."""
    text = resources.files("shedlight.sizing").joinpath("dimensions.csv").read_text("utf-8")
    return tuple(Dimension(**row) for row in csv.DictReader(text.splitlines()))


def value_at(case: Installation, path: str) -> float | None:
    """The number at a dotted path; None where there is none."""
    place: Any = case
    for step in path.split("."):
        place = getattr(place, step, None)
    return None if place is None or isinstance(place, bool) else float(place)


@cache
def demands() -> frozenset[str]:
    """The questions that a dimension may be designed by."""
    return frozenset(name for name in questions() if not name.startswith(NO_DEMANDS))


def margins_at(
    case: Installation, dimension: Dimension, value: float, only: Collection[str] | None = None
) -> Mapping[str, float] | None:
    """Every margin with a dimension at another value; None where the body cannot be drawn.

    Args:
        case: The installation.
        dimension: Which dimension.
        value: Its other value [SI].
        only: The checks wanted; every demand if left out.
    """
    try:
        found = assess(moved(case, dimension, value), only=demands() if only is None else only)
        _ = found.workings.section  # drawn, even where no check is asked
    except InputError:
        return None
    return margins_in(found.checks)


def margins_in(checks: Iterable[Check]) -> Mapping[str, float]:
    """The margin of each check that has one.

    Args:
        checks: The checks.
    """
    return {check.id: check.margin for check in checks if check.margin is not None}


def moved(case: Installation, dimension: Dimension, value: float) -> Installation:
    """The installation with one dimension changed, and what must follow it.

    Args:
        case: The installation.
        dimension: Which dimension.
        value: Its new value [SI].

    Raises:
        DescriptionError: the value lies outside what a description may hold.
    """
    is_count = dimension.is_count
    edits: dict[str, Any] = {dimension.path.replace(".", "__"): int(value) if is_count else value}
    bushing, sheds = case.bushing, case.bushing.sheds
    if dimension.follows == "body":
        wall = value if dimension.path.endswith("wall") else bushing.porcelain.wall
        bore = value if dimension.path.endswith("bore") else bushing.porcelain.bore
        grown = bore + 2 * wall - bushing.porcelain.body_diameter
        edits["bushing__cap__diameter"] = bushing.cap.diameter + grown
        edits["bushing__oil_end__end_diameter"] = bushing.oil_end.end_diameter + grown
        edits["bushing__oil_end__shield_diameter"] = bushing.oil_end.shield_diameter + grown
    if dimension.follows == "taper":
        share = value / bushing.oil_end.length
        edits["bushing__oil_end__taper_length"] = bushing.oil_end.taper_length * share
    if dimension.follows == "sheds" and sheds is not None and sheds.count > 1:
        air = value if dimension.path.endswith("air_length") else bushing.porcelain.air_length
        count = int(value) if is_count else sheds.count
        ends = bushing.porcelain.air_length - (sheds.count - 1) * sheds.pitch
        edits["bushing__sheds__pitch"] = (air - ends) / max(1, count - 1)
    return changed(case, **edits)
