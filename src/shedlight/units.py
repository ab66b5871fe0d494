"""Everyday units to SI and back, exact to the last digit, used only at the doors.

The accepted units stand in ``units.csv``; every factor is a decimal, so that a text such as
"25 mm" gives the float nearest to 0.025 and writes back as "25 mm".
"""

import csv
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation, localcontext
from functools import cache
from importlib import resources
from types import MappingProxyType

from shedlight.errors import UnitError

_QUANTITY = re.compile(r"\s*([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?)\s*(\S.*?)?\s*\Z")
LONGEST_TEXT = 60


@dataclass(frozen=True)
class Unit:
    """One accepted unit: SI value = number · factor + offset."""

    text: str
    dimension: str
    factor: Decimal
    offset: Decimal


@cache
def units() -> Mapping[str, Unit]:
    """Every accepted unit by its text, read once."""
    text = resources.files("shedlight").joinpath("units.csv").read_text(encoding="utf-8")
    found = {
        row["text"]: Unit(
            row["text"], row["dimension"], Decimal(row["factor"]), Decimal(row["offset"])
        )
        for row in csv.DictReader(text.splitlines())
    }
    return MappingProxyType(found)


def accepted(dimension: str) -> tuple[str, ...]:
    """The units a quantity of this dimension may be written in."""
    return tuple(unit.text for unit in units().values() if unit.dimension == dimension)


def _unit(text: str) -> Unit:
    spelled = text.replace("·", "").replace("μ", "µ").replace("^2", "²").replace("^3", "³")
    spelled = spelled.replace(" ", "").replace("degC", "°C").replace("C°", "°C")
    try:
        return units()[spelled]
    except KeyError:
        raise UnitError(f"unit {text!r} is not known") from None


def parse(text: str, like: str) -> float:
    """Read a quantity such as "25 mm" into SI.

    Args:
        text: Number, space, unit.
        like: Any unit of the dimension wanted.

    Raises:
        UnitError: no number, not finite, an unknown unit, or a unit of another dimension.
    """
    wanted = _unit(like)
    example = f'a number and a unit such as "1 {like}" ({", ".join(accepted(wanted.dimension))})'
    shown = text if len(text) <= LONGEST_TEXT else text[:LONGEST_TEXT] + "…"
    match = _QUANTITY.match(text) if len(text) <= LONGEST_TEXT else None
    if match is None:
        raise UnitError(f"{shown!r} is not {example}")
    digits, unit_text = match.groups()
    if not unit_text:
        if wanted.text != "1":
            raise UnitError(f"{shown!r} has no unit; write {example}")
        unit_text = "1"
    unit = _unit(unit_text)
    if unit.dimension != wanted.dimension:
        raise UnitError(
            f"{shown!r} is a {unit.dimension}; wanted is a {wanted.dimension}: {example}"
        )
    return _finite(digits.replace(",", "."), unit, shown)


def _finite(digits: str, unit: Unit, shown: str) -> float:
    try:
        with localcontext(prec=60):
            value = float(Decimal(digits) * unit.factor + unit.offset)
    except (InvalidOperation, OverflowError):
        value = math.inf
    if not math.isfinite(value):
        raise UnitError(f"{shown!r} is not a finite number")
    return value


def shown_in(value: float, unit: str) -> float:
    """An SI value as a number of the given unit."""
    known = _unit(unit)
    return float((Decimal(float(value)) - known.offset) / known.factor)


def si(number: float, unit: str) -> float:
    """A number of the given unit as an SI value."""
    known = _unit(unit)
    with localcontext(prec=60):
        return float(Decimal(repr(float(number))) * known.factor + known.offset)


def write(value: float, unit: str) -> str:
    """An SI value as text that reads back to the very same float."""
    known = _unit(unit)
    with localcontext(prec=60):
        exact = (Decimal(repr(float(value))) - known.offset) / known.factor
        for digits in range(1, 40):
            short = f"{exact:.{digits}g}"
            if float(Decimal(short) * known.factor + known.offset) == float(value):
                plain = f"{Decimal(short).normalize():f}"
                text = plain if len(plain) < 24 else short
                return text if known.text == "1" else f"{text} {known.text}"
    raise UnitError(f"{value!r} cannot be written in {unit}")  # pragma: no cover


def dimension_of(unit: str) -> str:
    """The dimension a unit measures, in words."""
    return _unit(unit).dimension
