"""Reference of the description in Markdown: every field that a file may hold."""

from collections.abc import Iterator
from enum import Enum
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from shedlight import units
from shedlight.documents.catalogue import MADE, page, plain, table
from shedlight.documents.numerals import in_print
from shedlight.given.bushing import Installation
from shedlight.given.fields import Facts, Record, facts_of

INTRO = (
    'A description is a TOML file. Quantities are texts with a unit, such as `"25 mm"`; other '
    "units of the same kind are understood. A field with a default may be left out: the default "
    "and its basis are printed in every calculation."
)
_HEADS = ("Field", "Meaning", "Symbol", "Accepted", "Default")


def description_page() -> str:
    """Every record and field of a description, with bounds, defaults and their basis."""
    blocks = ["# Description", MADE, INTRO]
    for path, record in records(Installation):
        name = f": `[{path}]`" if path else ""
        blocks.append(f"## {plain(record.title)}{name}")
        blocks.append(plain((record.__doc__ or "").splitlines()[0]))
        blocks.append(table(_HEADS, list(_rows(record))))
    return page(blocks)


def records(record: type[Record], path: str = "") -> Iterator[tuple[str, type[Record]]]:
    """A record and all in it, each with its place in the file, whichever kinds there are."""
    yield path, record
    for name, field in record.model_fields.items():
        inner = f"{path}.{name}" if path else name
        for kind in _inner(field):
            yield from records(kind, inner)


def _rows(record: type[Record]) -> Iterator[tuple[str, ...]]:
    for name, field in record.model_fields.items():
        facts = facts_of(record, name)
        symbol = f"`{facts.symbol}`" if facts.symbol else ""
        accepted = "table of its own" if _inner(field) else _accepted(field, facts)
        yield f"`{name}`", facts.sentence, symbol, accepted, _default(field, facts)


def _inner(field: FieldInfo) -> tuple[type[Record], ...]:
    """The records a field may hold; none if it holds a value."""
    kinds = _kinds(field.annotation)
    return tuple(kind for kind in kinds if isinstance(kind, type) and issubclass(kind, Record))


def _kinds(annotation: Any) -> tuple[Any, ...]:
    """The members of a union, however wrapped, `None` left out; a single kind by itself."""
    if get_origin(annotation) is Annotated:
        return _kinds(get_args(annotation)[0])
    if get_origin(annotation) in (Union, UnionType):
        return tuple(kind for member in get_args(annotation) for kind in _kinds(member))
    return () if annotation is NoneType else (annotation,)


def _accepted(field: FieldInfo, facts: Facts) -> str:
    if facts.unit:
        return " to ".join(in_print(part) for part in facts.range_text.split(" to "))
    words = [word for kind in _kinds(field.annotation) for word in _words(kind)]
    if words:
        return ", ".join(words)
    if field.annotation is bool:
        return "true, false"
    bounds = {key: value for item in field.metadata for key, value in _bounds(item)}
    if field.annotation is int:
        return f"{bounds['ge']} to {bounds['le']}"
    return f"text of at most {bounds['max_length']} letters" if "max_length" in bounds else "text"


def _bounds(item: Any) -> Iterator[tuple[str, int]]:
    """What pydantic's constraint on a number or a text says."""
    for key in ("ge", "le", "max_length"):
        if hasattr(item, key):
            yield key, getattr(item, key)


def _words(kind: Any) -> tuple[str, ...]:
    if get_origin(kind) is Literal:
        return tuple(str(word) for word in get_args(kind))
    if isinstance(kind, type) and issubclass(kind, Enum):
        return tuple(str(member.value) for member in kind)
    return ()


def _default(field: FieldInfo, facts: Facts) -> str:
    if field.is_required():
        return "required"
    value = field.default
    if field.default_factory is not None or value is None or value == "":
        return facts.basis
    if isinstance(value, bool):
        return f"{str(value).lower()}: {facts.basis}"
    text = units.write(value, facts.unit) if facts.unit else str(value)
    # Some bases begin with the value itself.
    return (
        facts.basis
        if facts.basis.startswith((text, in_print(text)))
        else f"{in_print(text)}: {facts.basis}"
    )
