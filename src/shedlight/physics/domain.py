"""Refuse arguments for which a formula has no meaning, in the same words everywhere."""

import math
from itertools import pairwise

from shedlight.errors import InputError


def _refuse(parameter: str, value: float, expected: str) -> InputError:
    return InputError(f"{parameter}: given {value:g}; expected {expected}")


def positive(**arguments: float) -> None:
    """Every argument is a finite number above zero.

    Args:
        **arguments: Values by parameter name.

    Raises:
        InputError: naming the first argument that is not.
    """
    for parameter, value in arguments.items():
        if not (math.isfinite(value) and value > 0):
            raise _refuse(parameter, value, "a finite number above 0")


def not_negative(**arguments: float) -> None:
    """Every argument is a finite number of at least zero.

    Args:
        **arguments: Values by parameter name.

    Raises:
        InputError: naming the first argument that is not.
    """
    for parameter, value in arguments.items():
        if not (math.isfinite(value) and value >= 0):
            raise _refuse(parameter, value, "a finite number of at least 0")


def finite(**arguments: float) -> None:
    """Every argument is a finite number.

    Args:
        **arguments: Values by parameter name.

    Raises:
        InputError: naming the first argument that is not.
    """
    for parameter, value in arguments.items():
        if not math.isfinite(value):
            raise _refuse(parameter, value, "a finite number")


def within(low: float, high: float, **arguments: float) -> None:
    """Every argument lies between two bounds, bounds included.

    Args:
        low: Least value allowed.
        high: Greatest value allowed.
        **arguments: Values by parameter name.

    Raises:
        InputError: naming the first argument that does not.
    """
    for parameter, value in arguments.items():
        if not low <= value <= high:
            raise _refuse(parameter, value, f"a number from {low:g} to {high:g}")


def ordered(**arguments: float) -> None:
    """The arguments grow strictly in the order written.

    Args:
        **arguments: Values by parameter name.

    Raises:
        InputError: naming the first argument that is not above the one before.
    """
    for before, after in pairwise(arguments):
        if not arguments[before] < arguments[after]:
            raise _refuse(after, arguments[after], f"more than {before} ({arguments[before]:g})")
