"""The values of a form: one flat map from dotted path to text, and the description they make.

A table that may be left out has a value of its own, "yes" or "no". What lies under a table that
is left out, or belongs to another kind than the one chosen, is kept in the map and passed over:
switching back loses nothing.
"""

import re
from collections.abc import Iterator, Mapping
from enum import Enum
from functools import cache
from types import MappingProxyType
from typing import Any, get_args

from pydantic import BaseModel

from shedlight import units
from shedlight.errors import DescriptionError, Problem
from shedlight.given.bushing import Installation
from shedlight.given.fields import Facts, facts_of, inner_records, limits_of
from shedlight.given.reading import from_data
from shedlight.given.writing import to_data

Values = Mapping[str, str]

YES, NO = "yes", "no"
MOST_VALUES = 400
LONGEST_VALUE = 4000
LONGEST_COUNT = 6  # digits
TAGS = ("form", "kind")
_BARE = re.compile(r"\s*[+\-\u2212]?\d[\d.,]*(?:[eE][+-]?\d+)?\s*\Z")
_WHOLE = re.compile(rf"\s*-?\d{{1,{LONGEST_COUNT}}}\s*\Z")


def values_of(installation: Installation) -> dict[str, str]:
    """The map that makes an installation: only what was given, defaults stay left out.

    Args:
        installation: The installation.
    """
    found = dict(_flat(to_data(installation), ""))
    present = {path: _there(installation, path) for path in optional_tables()}
    return found | {path: YES if there else NO for path, there in present.items()}


def installation_of(values: Values, origin: str = "the form") -> Installation:
    """The installation that a map describes.

    Args:
        values: Texts by dotted path; an empty one leaves its field to the default.
        origin: What to call it in messages.

    Raises:
        DescriptionError: it cannot be used; carries every problem found.
    """
    _within_bounds(values, origin)
    return from_data(_table(Installation, "", values), origin)


def tables_of(values: Values, record: type[BaseModel] = Installation) -> dict[str, Any]:
    """The tables that a map describes, as a file would hold them; nothing is validated.

    Args:
        values: Texts by dotted path; an empty one leaves its field to the default.
        record: What they describe.

    Raises:
        DescriptionError: there are too many of them, or one is too long.
    """
    _within_bounds(values, "the form")
    return _table(record, "", values)


@cache
def optional_tables() -> tuple[str, ...]:
    """The tables that a description may leave out on purpose, such as the horns."""
    return tuple(_optional(Installation, ""))


def kind_at(record: type[BaseModel], name: str, path: str, values: Values) -> type[BaseModel]:
    """The record that stands at a field, by the kind chosen there; the first one if none is.

    Args:
        record: The record around it.
        name: The field.
        path: The field's dotted path.
        values: The map.
    """
    members = inner_records(record, name)
    for member in members:
        for tag in TAGS:
            options = options_of(member, tag) if tag in member.model_fields else ()
            if values.get(f"{path}.{tag}") in options:
                return member
    return members[0]


def options_of(record: type[BaseModel], name: str) -> tuple[str, ...]:
    """The words that a field may be; none if it holds something else.

    Args:
        record: Its record.
        name: The field.
    """
    return tuple(_words(record.model_fields[name].annotation))


def is_yes_or_no(record: type[BaseModel], name: str) -> bool:
    """Whether a field is a yes or no."""
    return record.model_fields[name].annotation is bool


def is_count(record: type[BaseModel], name: str) -> bool:
    """Whether a field is a whole number."""
    return "ge" in limits_of(record, name)


def shown_without_unit(text: str, unit: str) -> str:
    """A quantity's text as it stands in a field beside which the unit is printed."""
    return text.removesuffix(f" {unit}") if unit and unit != "1" else text


def _words(annotation: Any) -> Iterator[str]:
    if isinstance(annotation, str):
        yield annotation
    elif isinstance(annotation, type) and issubclass(annotation, Enum):
        yield from (str(member.value) for member in annotation)
    else:
        for inner in get_args(annotation):
            yield from _words(inner)


def _flat(data: Mapping[str, Any], path: str) -> Iterator[tuple[str, str]]:
    for name, value in data.items():
        where = f"{path}.{name}" if path else name
        if isinstance(value, dict):
            yield from _flat(value, where)
        elif isinstance(value, bool):
            yield where, YES if value else NO
        else:
            yield where, str(value)


def _there(installation: Installation, path: str) -> bool:
    place: Any = installation
    for name in path.split("."):
        place = getattr(place, name)
    return place is not None


def _optional(record: type[BaseModel], path: str) -> Iterator[str]:
    for name, field in record.model_fields.items():
        where = f"{path}.{name}" if path else name
        inner = inner_records(record, name)
        if inner and field.default is None and field.default_factory is None:
            yield where
        for member in inner:
            yield from _optional(member, where)


def _table(record: type[BaseModel], path: str, values: Values) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name in record.model_fields:
        where = f"{path}.{name}" if path else name
        if inner_records(record, name):
            if where in optional_tables() and values.get(where) != YES:
                continue
            inner = _table(kind_at(record, name, where, values), where, values)
            if inner or record.model_fields[name].is_required() or where in optional_tables():
                found[name] = inner
        elif values.get(where, "").strip():
            found[name] = _value(record, name, values[where])
    return found


def _value(record: type[BaseModel], name: str, text: str) -> Any:
    """A text as a file would hold it; what cannot be read so is left for validation to refuse."""
    facts = facts_of(record, name)
    if facts.unit:
        return _quantity(text, facts)
    if is_yes_or_no(record, name):
        return MappingProxyType({YES: True, NO: False}).get(text.strip(), text)
    if is_count(record, name) and _WHOLE.match(text):
        return int(text)
    return text


def _quantity(text: str, facts: Facts) -> Any:
    """A bare number is taken in the unit that stands beside the field."""
    bare = _BARE.match(text) and facts.unit != "1"
    return f"{text.strip()} {facts.unit}" if bare else text


def _within_bounds(values: Values, origin: str) -> None:
    if len(values) > MOST_VALUES:
        problem = Problem("form", f"{len(values)} values", f"at most {MOST_VALUES}", "Reload it.")
        raise DescriptionError(origin, (problem,))
    for path, text in values.items():
        if len(text) > LONGEST_VALUE:
            wanted = f"at most {LONGEST_VALUE} characters"
            problem = Problem(path[:80], f"{len(text)} characters", wanted, "Shorten it.")
            raise DescriptionError(origin, (problem,))


def plain_number(text: str, unit: str) -> float | None:
    """The number of a text in a unit; None where it is no quantity of it."""
    try:
        return units.shown_in(units.parse(text, unit), unit)
    except ValueError:
        return None
