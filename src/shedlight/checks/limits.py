"""Limits that belong to no room of physics: customs of the trade, each with its source."""

from shedlight.trace import Number
from shedlight.workings.numbers import figure


def limit(key: str) -> Number:
    """A limit by its key in ``limits.csv``, in SI, with its source.

    Raises:
        CalculationError: no such limit.
    """
    return figure("checks/limits", key)
