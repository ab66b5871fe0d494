"""Everyday units to SI and back, exact to the last digit, used only at the doors.

The accepted units stand in ``units.csv``; every factor is a decimal, so that a text such as
"25 mm" gives the float nearest to 0.025 and writes back as "25 mm".
"""

import csv
import difflib
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation, Overflow, localcontext
from functools import cache
from importlib import resources
from types import MappingProxyType

from shedlight.errors import UnitError

_NUMBER = r"[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?"
_QUANTITY = re.compile(rf"\s*({_NUMBER})\s*((?:1/|[^\s0-9]).*?)?\s*\Z")
_THOUSANDS = re.compile(r"\s*[+-]?[1-9][0-9]{0,2},[0-9]{3}(?![0-9])")
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


def asked_for(like: str) -> str:
    """What a quantity has to look like, in words that follow "expected".

    Args:
        like: Any unit of the dimension wanted; the example is written in it.
    """
    unit = _unit(like)
    if unit.text == "1":
        return "a plain number"
    article = "an" if unit.dimension[0] in "aeiou" else "a"
    others = " or ".join(", ".join(accepted(unit.dimension)).rsplit(", ", 1))
    return f'{article} {unit.dimension} such as "1 {unit.text}" (in {others})'


def _spelled(text: str) -> str:
    spelled = text.replace("·", "").replace("μ", "µ").replace("^2", "²").replace("^3", "³")
    return spelled.replace(" ", "").replace("degC", "°C").replace("C°", "°C")


def _unit(text: str) -> Unit:
    try:
        return units()[_spelled(text)]
    except KeyError:
        near = _nearest(_spelled(text), tuple(units()))
        raise UnitError(repr(text), "a known unit", near or "See units.csv.") from None


def _nearest(spelled: str, known: tuple[str, ...]) -> str:
    """A question that names the unit probably meant; empty if there is none like it."""
    same = [text for text in known if text.lower() == spelled.lower()]
    near = same or difflib.get_close_matches(spelled, known, n=1, cutoff=0.5)
    return f"Did you mean {near[0]}?" if near else ""


def parse(text: str, like: str) -> float:
    """Read a quantity such as "25 mm" into SI.

    A decimal comma is read as a point; "1,600" is refused, for it may mean two numbers.

    Args:
        text: Number, space, unit.
        like: Any unit of the dimension wanted.

    Raises:
        UnitError: no number, not finite, an unknown unit, or a unit of another dimension.
    """
    wanted = _unit(like)
    shown, expected = _shown(text), asked_for(like)
    match = _QUANTITY.match(text.replace("\u2212", "-")) if len(text) <= LONGEST_TEXT else None
    if match is None:
        raise UnitError(shown, expected, "Write one number, then its unit.")
    digits, unit_text = match.groups()
    if _THOUSANDS.match(digits):
        cure = f"Write {digits.replace(',', '')} or {digits.replace(',', '.')}, whichever it is."
        raise UnitError(shown, expected, f"The comma may mean thousands or decimals. {cure}")
    if not unit_text and wanted.text != "1":
        raise UnitError(shown, expected, f'Add the unit: "{digits} {wanted.text}", if so meant.')
    unit = _among(unit_text or "1", wanted, shown)
    return _finite(digits.replace(",", "."), unit, shown, expected)


def _among(unit_text: str, wanted: Unit, shown: str) -> Unit:
    """The unit written, if it measures what is wanted."""
    unit = units().get(_spelled(unit_text))
    if unit is None:
        near = _nearest(_spelled(unit_text), accepted(wanted.dimension))
        cure = f"The unit {unit_text!r} is not known. {near}".rstrip()
        raise UnitError(shown, asked_for(wanted.text), cure)
    if unit.dimension != wanted.dimension:
        cure = f"The unit {unit.text} is one of {unit.dimension}."
        raise UnitError(shown, asked_for(wanted.text), cure)
    return unit


def _shown(text: str) -> str:
    return repr(text if len(text) <= LONGEST_TEXT else text[:LONGEST_TEXT] + "…")


def _finite(digits: str, unit: Unit, shown: str, expected: str) -> float:
    try:
        with localcontext(prec=60):
            value = float(Decimal(digits) * unit.factor + unit.offset)
    except (InvalidOperation, Overflow, OverflowError):
        value = math.inf
    if not math.isfinite(value):
        raise UnitError(shown, expected, "The number is too large to be meant.")
    return value


def shown_in(value: float, unit: str) -> float:
    """An SI value as a number of the given unit."""
    known = _unit(unit)
    # By the digits of the float: 0 °C is 273.15 K here, and what binary adds to it is nobody's.
    return float((Decimal(repr(float(value))) - known.offset) / known.factor)


def si(number: float, unit: str) -> float:
    """A number of the given unit as an SI value."""
    known = _unit(unit)
    with localcontext(prec=60):
        return float(Decimal(repr(float(number))) * known.factor + known.offset)


def write(value: float, unit: str) -> str:
    """An SI value as text that reads back to the very same float.

    Args:
        value: The value [SI].
        unit: The unit to write it in.

    Raises:
        UnitError: no text of the unit reads back to it.
    """
    known = _unit(unit)
    if not math.isfinite(value):
        raise UnitError(repr(value), "a finite number", "Only finite numbers have a text.")
    with localcontext(prec=60):
        exact = (Decimal(float(value)) - known.offset) / known.factor + 0  # no minus zero
        if float(known.offset) == float(value):
            exact = Decimal(0)  # 0 °C: what an offset's rounding leaves is no digit of anyone's
        for digits in range(1, 40):
            short = f"{exact:.{digits}g}"
            if float(Decimal(short) * known.factor + known.offset) == float(value):
                plain = f"{Decimal(short).normalize():f}"
                text = plain if len(plain) < 24 else short
                return text if known.text == "1" else f"{text} {known.text}"
    raise UnitError(repr(value), f"a value that can be written in {unit}", "Use another unit.")


def dimension_of(unit: str) -> str:
    """The dimension a unit measures, in words."""
    return _unit(unit).dimension


SIGNIFICANT = 4
LARGEST_PLAIN, SMALLEST_PLAIN = 1e6, 1e-3
SPACE = "\N{NO-BREAK SPACE}"
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def digits(number: float) -> str:
    """A number to four significant digits; digits before the point are never dropped."""
    if math.isinf(number):
        return "∞" if number > 0 else "−∞"
    size = abs(number)
    if size and not SMALLEST_PLAIN <= size < LARGEST_PLAIN:
        factor, _, exponent = f"{number:.{SIGNIFICANT - 1}e}".partition("e")
        return f"{_signed(_without_idle_zeros(factor))}·10{str(int(exponent)).translate(_RAISED)}"
    before_point = math.floor(math.log10(size)) + 1 if size else 1
    text = f"{Decimal(number):.{max(0, SIGNIFICANT - before_point)}f}"
    return _signed(_without_idle_zeros(text))


def amount(value: float, unit: str) -> str:
    """A value as every sentence and every document tells it, with its unit.

    Args:
        value: The value, in SI.
        unit: Unit to tell it in.
    """
    between = "" if unit in ("1", "°") else " "
    return f"{digits(shown_in(value, unit))}{between}{'' if unit == '1' else unit}"


def _without_idle_zeros(text: str) -> str:
    plain = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if plain in ("-0", "") else plain


def _signed(text: str) -> str:
    return text.replace("-", "−")
