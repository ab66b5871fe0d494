"""How one field of a description is declared: unit, symbol, bounds and one plain sentence.

The file's error messages, the page's form and the reference manual are all made from this.
"""

import math
import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, get_args

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    Strict,
    ValidationInfo,
    model_validator,
)
from pydantic_core import PydanticCustomError

from shedlight import units
from shedlight.errors import UnitError

LARGEST = 1e308


class Record(BaseModel):
    """Base of every description: frozen, closed, no NaN."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)
    title: ClassVar[str] = ""

    @model_validator(mode="before")
    @classmethod
    def _nothing_is_left_out(cls, data: Any) -> Any:
        """None says the same as leaving a field out, and is written to a file the same way."""
        if isinstance(data, dict):
            return {name: value for name, value in data.items() if value is not None}
        return data


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

    @property
    def wanted(self) -> str:
        """What may stand here, in words that follow "expected"; empty if it is no quantity."""
        if not self.unit:
            return ""
        kind = "number" if self.unit == "1" else units.dimension_of(self.unit)
        article = "an" if kind[0] in "aeiou" else "a"
        return f"{article} {kind} from {self.range_text}"


def facts_of(record: type[BaseModel], name: str) -> Facts:
    """The facts of one field of a record."""
    for item in record.model_fields[name].metadata:
        if isinstance(item, Facts):
            return item
    return Facts(record.model_fields[name].description or "")


def limits_of(record: type[BaseModel], name: str) -> dict[str, int]:
    """Bounds of a count (ge, le) or of the length of a text (min_length, max_length)."""
    keys = ("ge", "le", "min_length", "max_length")
    metadata = record.model_fields[name].metadata
    return {key: getattr(item, key) for item in metadata for key in keys if hasattr(item, key)}


def inner_records(record: type[BaseModel], name: str) -> tuple[type[BaseModel], ...]:
    """The records that a field may hold, whichever kinds there are; none if it holds a value."""

    def leaves(annotation: Any) -> Iterator[type[BaseModel]]:
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            yield annotation
        for inner in get_args(annotation):
            yield from leaves(inner)

    return tuple(leaves(record.model_fields[name].annotation))


def records_in(record: type[BaseModel], path: str = "") -> Iterator[tuple[str, type[BaseModel]]]:
    """A record and all that it may hold, each with its table in the file.

    Args:
        record: Where to start.
        path: The table it stands in; empty for the top of the file.
    """
    yield path, record
    for name in record.model_fields:
        for inner in inner_records(record, name):
            yield from records_in(inner, f"{path}.{name}" if path else name)


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
        from_file = bool(info.context and info.context.get("file"))
        number = _parsed(value, facts) if isinstance(value, str) else _bare(value, facts, from_file)
        if not facts.low <= number <= facts.high:
            raise refusal(facts.wanted)
        return number

    return read


def _parsed(text: str, facts: Facts) -> float:
    try:
        return units.parse(text, facts.unit)
    except UnitError as error:
        raise refusal(facts.wanted, error.cure) from None


def _bare(value: Any, facts: Facts, from_file: bool) -> float:
    """A number without a unit: in a file only where the field has none, in a program in SI."""
    number = math.nan
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        # A whole number may be larger than any float: that is refused like infinity.
        number = float(value) if abs(value) < LARGEST else math.inf
    if from_file and facts.unit != "1":
        example = units.write(facts.low, facts.unit)
        if math.isfinite(number):
            example = f"{value} {facts.unit}"
        raise refusal(facts.wanted, f'Write it as text with its unit, such as "{example}".')
    if not math.isfinite(number):
        raise refusal(facts.wanted, "Give a finite number.")
    return number


def refusal(expected: str, cure: str = "") -> PydanticCustomError:
    """The error of a value that cannot be used, in the parts that a message is made of.

    Args:
        expected: What should have stood there.
        cure: What to do, as a sentence; empty for the usual one.
    """
    parts = {"expected": expected, "cure": cure}
    return PydanticCustomError("refused", "expected {expected}. {cure}", parts)


def clash(
    record: BaseModel, name: str, expected: str, cure: str = "", *, within: str = ""
) -> PydanticCustomError:
    """The error of a field that does not go with the others of its record.

    Args:
        record: The record, all fields already accepted one by one.
        name: The field to name in the message.
        expected: What would go with the others.
        cure: What to do, as a sentence; empty for the usual one.
        within: Name of the record, where it is the one around it that finds the clash.
    """
    parts = {
        "field": f"{within}.{name}" if within else name,
        "given": stated(record, name),
        "expected": expected,
        "cure": cure,
    }
    return PydanticCustomError(
        "clash", "{field}: given {given}; expected {expected}. {cure}", parts
    )


def stated(record: BaseModel, name: str) -> str:
    """What a field of a record says, for a message, and whether that is its default."""
    value, facts = getattr(record, name), facts_of(type(record), name)
    if value is None:
        return "nothing"
    text = units.write(value, facts.unit) if facts.unit else f"{value}"
    return text if name in record.model_fields_set else f"{text} (its default)"


def _without_controls(text: str) -> str:
    for character in text:
        unprintable = unicodedata.category(character) in ("Cc", "Cs") and character not in "\n\t"
        if unprintable or ord(character) & 0xFFFE == 0xFFFE:
            raise refusal("text without control characters", f"Take out {character!a}.")
    return text


def _on_one_line(text: str) -> str:
    if not text.strip():
        raise refusal("a text that can be seen", "Write a few words.")
    if "\n" in text or "\t" in text:
        raise refusal("text on one line", "Take out line breaks and tabs.")
    return text


YesNo = Annotated[bool, Strict()]
Count = Annotated[int, Strict()]
Text = Annotated[str, AfterValidator(_without_controls)]
Heading = Annotated[Text, AfterValidator(_on_one_line)]
