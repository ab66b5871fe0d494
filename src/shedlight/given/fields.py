"""How one field of a description is declared: unit, symbol, bounds and one plain sentence.

The file's error messages, the page's form and the reference manual are all made from this.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, ClassVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo
from pydantic_core import PydanticCustomError

from shedlight import units
from shedlight.errors import UnitError


class Record(BaseModel):
    """Base of every description: frozen, closed, no NaN."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)
    title: ClassVar[str] = ""


@dataclass(frozen=True)
class Facts:
    """What a field of a record says about itself."""

    sentence: str
    symbol: str = ""
    unit: str = ""
    low: float = -math.inf
    high: float = math.inf
    basis: str = ""

    @property
    def range_text(self) -> str:
        """The bounds, in the unit of the field."""
        if not self.unit:
            return ""
        return f"{units.write(self.low, self.unit)} to {units.write(self.high, self.unit)}"


def facts_of(record: type[BaseModel], name: str) -> Facts:
    """The facts of one field of a record."""
    for item in record.model_fields[name].metadata:
        if isinstance(item, Facts):
            return item
    return Facts(record.model_fields[name].description or "")


def quantity(
    sentence: str, *, symbol: str, unit: str, low: str, high: str, basis: str = "", **more: Any
) -> Any:
    """A field holding a quantity.

    Args:
        sentence: What it is, plainly.
        symbol: Typst mathematics.
        unit: Unit it is written and shown in.
        low: Lowest accepted value, as text with unit.
        high: Highest accepted value, as text with unit.
        basis: Why the default is what it is; needed when there is one.
        **more: ``default`` or ``default_factory``.
    """
    facts = Facts(sentence, symbol, unit, units.parse(low, unit), units.parse(high, unit), basis)
    if more and not basis:
        raise TypeError(f"field {sentence!r} has a default without a basis")
    return _field(facts, **more)


def choice(sentence: str, *, basis: str = "", **more: Any) -> Any:
    """A field that is one of a few words, or yes/no, or a count, or another record."""
    if more.keys() & {"default", "default_factory"} and not basis:
        raise TypeError(f"field {sentence!r} has a default without a basis")
    return _field(Facts(sentence, basis=basis), **more)


def _field(facts: Facts, **more: Any) -> Any:
    class_field = Field(description=facts.sentence, **more)
    class_field.metadata.append(facts)
    if facts.unit:
        class_field.metadata.append(BeforeValidator(_reader(facts)))
    return class_field


def _reader(facts: Facts) -> Callable[[Any, ValidationInfo], Any]:
    def read(value: Any, info: ValidationInfo) -> Any:
        if value is None:
            return None
        if isinstance(value, str):
            try:
                value = units.parse(value, facts.unit)
            except UnitError as error:
                raise PydanticCustomError("unit", "{why}", {"why": str(error)}) from None
        elif (
            isinstance(value, bool)
            or not isinstance(value, (int, float))
            or (_from_file(info) and facts.unit != "1")
        ):
            raise PydanticCustomError("unit", "{why}", {"why": _wants_text(facts)})
        number = float(value)
        if not math.isfinite(number):
            raise PydanticCustomError("unit", "{why}", {"why": "not a finite number"})
        if not facts.low <= number <= facts.high:
            raise PydanticCustomError("bounds", "{why}", {"why": f"expected {facts.range_text}"})
        return number

    return read


def _from_file(info: ValidationInfo) -> bool:
    return bool(info.context and info.context.get("file"))


def _wants_text(facts: Facts) -> str:
    if facts.unit == "1":
        return "expected a number"
    return f'expected text with a unit such as "{units.write(facts.low, facts.unit)}"'
