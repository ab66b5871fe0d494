"""Numbers as a reader wants them: four significant digits, everyday units, a real minus sign.

The documents make their own numbers into text here. A sentence that comes to them has its numbers
from :func:`units.amount`, or as its own room rounds them: margins in a verdict's reason, remarks on
ranges of the heat room and on usual levels, and what sizing says.
"""

import math
import re

from shedlight import units
from shedlight.checks.check import AMPLE
from shedlight.trace import Value
from shedlight.units import SPACE, digits


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
    return f"{('+0.0' if float(text) == 0 else text).replace('-', '−')}{SPACE}%"
