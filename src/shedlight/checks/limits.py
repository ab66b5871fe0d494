"""Limits that belong to no room of physics: customs of the trade, each with its source."""

import csv
from collections.abc import Mapping
from functools import cache
from importlib import resources
from types import MappingProxyType

from shedlight.errors import CalculationError
from shedlight.sources import cite
from shedlight.trace import Label, Number, looked_up


@cache
def _limits() -> Mapping[str, Number]:
    text = resources.files("shedlight.checks").joinpath("limits.csv").read_text(encoding="utf-8")
    found = {}
    for row in csv.DictReader(text.splitlines()):
        citation = cite(row["source_key"], row["where"], row["basis"], row["confidence"])
        label = Label(row["name"], row["symbol"], row["unit"])
        found[row["key"]] = looked_up(float(row["value"]), label, citation, row["row"])
    return MappingProxyType(found)


def limit(key: str) -> Number:
    """A limit by its key in ``limits.csv``, in SI, with its source.

    Raises:
        CalculationError: no such limit.
    """
    try:
        return _limits()[key]
    except KeyError:
        raise CalculationError(f"no limit {key!r} in limits.csv") from None
