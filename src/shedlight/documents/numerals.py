"""Numbers as a reader wants them: four significant digits, everyday units, a real minus sign.

Every number of a document is made into text here, and nowhere else.
"""

import math
import re
from decimal import Decimal

from shedlight import units
from shedlight.checks.check import AMPLE
from shedlight.trace import Value

SIGNIFICANT = 4
LARGEST_PLAIN = 1e6
SPACE = "\N{NO-BREAK SPACE}"
SMALLEST_PLAIN = 1e-3
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def shown(value: Value, unit: str) -> str:
    """SI values in their everyday unit, without the unit's name.

    Args:
        value: One SI value, or several of one kind.
        unit: Unit to show them in.
    """
    if isinstance(value, tuple):
        return "; ".join(shown(item, unit) for item in value)
    return digits(units.shown_in(value, unit))


def unit_name(unit: str) -> str:
    """What stands behind a number; nothing behind a pure ratio."""
    return "" if unit == "1" else unit


def digits(number: float) -> str:
    """A number to four significant digits; digits before the point are never dropped."""
    if math.isinf(number):
        return "∞" if number > 0 else "−∞"
    size = abs(number)
    if size and not SMALLEST_PLAIN <= size < LARGEST_PLAIN:
        return _power_of_ten(number)
    before_point = math.floor(math.log10(size)) + 1 if size else 1
    text = f"{Decimal(number):.{max(0, SIGNIFICANT - before_point)}f}"
    return _signed(_without_idle_zeros(text))


def in_print(quantity: str) -> str:
    """A quantity as descriptions write it, with the signs that print uses."""
    return re.sub(r" °$", "°", re.sub(r"^-", "−", quantity))


def percent(margin: float) -> str:
    """A margin with its sign, to a tenth of a percent below a hundred; beyond all need, so said."""
    if math.isinf(margin):
        return digits(margin)
    if margin > AMPLE:
        return f"> {100 * AMPLE:.0f}{SPACE}%"
    hundredfold = 100 * margin
    text = f"{hundredfold:+.{1 if abs(hundredfold) < 99.95 else 0}f}"
    return f"{_signed('+0.0' if float(text) == 0 else text)}{SPACE}%"


def _power_of_ten(number: float) -> str:
    factor, _, exponent = f"{number:.{SIGNIFICANT - 1}e}".partition("e")
    raised = str(int(exponent)).translate(_RAISED)
    return f"{_signed(_without_idle_zeros(factor))}·10{raised}"


def _without_idle_zeros(text: str) -> str:
    plain = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if plain in ("-0", "") else plain


def _signed(text: str) -> str:
    return text.replace("-", "−")
