"""Numbers that start a calculation: from the description, from the outline, from tables."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from pydantic import BaseModel

from shedlight import tables
from shedlight.errors import CalculationError
from shedlight.given.bushing import Installation
from shedlight.given.fields import facts_of
from shedlight.given.levels import dry_level, rounding_remark, usual_level
from shedlight.sources import Citation
from shedlight.trace import Input, Kind, Label, Number, Step, given, looked_up, measured


class Description:
    """Hands out the numbers of a description: where they stand, and whether they are defaults."""

    def __init__(self, installation: Installation) -> None:
        """Keep the installation whose numbers are wanted."""
        self._installation = installation
        self._known: dict[str, Number] = {}

    def __call__(self, path: str) -> Number:
        """The number at a dotted path, such as ``duty.rated_current``.

        Raises:
            CalculationError: no number stands there.
        """
        if path not in self._known:
            self._known[path] = self._looked_up(path)
        return self._known[path]

    def _looked_up(self, path: str) -> Number:
        record, value = _at(self._installation, path)
        name = path.rpartition(".")[2]
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            raise CalculationError(f"{path} holds {value!r}, not a number")
        facts = facts_of(type(record), name)
        label = Label(facts.sentence.rstrip("."), facts.symbol or _words(name), facts.unit or "1")
        if name in record.model_fields_set:
            return given(float(value), label, path)
        note, citation = f"{path} left out: {facts.basis}", None
        if path in ("duty.lightning_impulse", "duty.power_frequency_wet"):
            citation = usual_level(self._installation.duty.highest_voltage).citation
            note = _levels_note(note, self._installation)
        if path == "duty.power_frequency_dry":
            citation = dry_level(self._installation.duty.highest_voltage).citation
            note = _levels_note(note, self._installation)
        return given(float(value), label, note, default=True, citation=citation)


def _levels_note(note: str, installation: Installation) -> str:
    remark = rounding_remark(installation.duty.highest_voltage)
    return f"{note}. {remark}" if remark else note


def _at(record: BaseModel, path: str) -> tuple[BaseModel, Any]:
    *way, last = path.split(".")
    for step in way:
        record = getattr(record, step)
    return record, getattr(record, last)


def _words(name: str) -> str:
    return f'"{name.replace("_", " ")}"'


def on_outline(value: float, name: str, symbol: str, unit: str, how: str) -> Number:
    """A number measured on the outline."""
    return measured(value, Label(name, symbol, unit), how)


def from_table(
    value: float, name: str, symbol: str, unit: str, citation: Citation, row: str, *origins: Number
) -> Number:
    """A number read from a table row."""
    return looked_up(value, Label(name, symbol, unit), citation, row, origins)


def modelled(
    value: float,
    label: Label,
    citation: Citation,
    how: str,
    origins: tuple[Number, ...],
    beyond: tuple[str, ...] = (),
) -> Number:
    """A number that a model found from others in more steps than one formula has.

    Args:
        value: What was found, in SI.
        label: Name, symbol and unit to show.
        citation: Where the model stands.
        how: The model in a few words, printed in place of a formula.
        origins: The numbers it was found from.
        beyond: Why the model may not be trusted here, if so.
    """
    used = tuple(Input(origin.step.label, float(origin), (origin.step,)) for origin in origins)
    typeset = f'"{how}"'
    step = Step(Kind.FORMULA, label, value, citation, typeset, used, beyond=beyond)
    return Number(value, step)


@tables.cached
def _figures(table: str) -> Mapping[str, Number]:
    found = {}
    for row in tables.read(table):
        label = Label(row["name"], row["symbol"], row["unit"])
        citation = tables.citation(row)
        if row["key"] in found:
            raise CalculationError(f"the row {row['key']!r} stands twice in the table {table}")
        found[row["key"]] = looked_up(float(row["value"]), label, citation, row["row"])
    return MappingProxyType(found)


def figure(table: str, key: str) -> Number:
    """One figure of a table of single figures, in SI, with its source.

    Args:
        table: Name such as ``checks/limits``.
        key: The row's key.

    Raises:
        CalculationError: no such row.
    """
    try:
        return _figures(table)[key]
    except KeyError:
        raise CalculationError(f"no row {key!r} in the table {table}") from None


def assumption(key: str) -> Number:
    """What is assumed where nothing is described; see ``assumptions.csv``."""
    return figure("workings/assumptions", key)
