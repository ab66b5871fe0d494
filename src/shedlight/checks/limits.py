"""Limits that belong to no room of physics: customs of the trade, each with its source."""

from collections.abc import Mapping
from types import MappingProxyType

from shedlight import tables
from shedlight.errors import CalculationError
from shedlight.trace import Label, Number, looked_up


@tables.cached
def _limits() -> Mapping[str, Number]:
    found = {}
    for row in tables.read("checks/limits"):
        citation = tables.citation(row)
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
