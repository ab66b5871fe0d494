"""The form: every value of a description, grouped by part, told by the fields' own facts."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pydantic import BaseModel

from shedlight.documents.numerals import in_print
from shedlight.given.bushing import Installation
from shedlight.given.fields import Facts, facts_of, inner_records, limits_of, records_in
from shedlight.given.writing import entries
from shedlight.web.values import (
    NO,
    TAGS,
    YES,
    Values,
    is_count,
    is_yes_or_no,
    kind_at,
    optional_tables,
    options_of,
    shown_without_unit,
)

QUANTITY, COUNT, WORD, LINE, TEXT = "quantity", "count", "word", "line", "text"
LONG_TEXTS = ("remark",)
OPENED_FIRST = ("bushing.sheds",)


@dataclass(frozen=True)
class FormField:
    """One value as the form shows it."""

    path: str
    label: str
    sentence: str
    symbol: str
    kind: str
    text: str
    unit: str
    range: str
    options: tuple[str, ...]
    default: str
    basis: str
    required: bool

    @property
    def key(self) -> str:
        """Its id on the page."""
        return "field-" + self.path.replace(".", "-").replace("_", "-")

    @property
    def basis_said(self) -> str:
        """What leaving it out comes to, as a sentence; empty if there is nothing to say."""
        if self.required or self.basis in ("", "left out"):
            return ""
        said = f"Left out: {self.basis}" if self.default else self.basis
        return f"{said[0].upper()}{said[1:]}."


@dataclass(frozen=True)
class FormGroup:
    """The values of one part."""

    path: str
    title: str
    optional: bool
    there: bool
    opened: bool
    fields: tuple[FormField, ...]

    @property
    def key(self) -> str:
        """Its id on the page."""
        return "group-" + (self.path or "installation").replace(".", "-").replace("_", "-")


def form_of(values: Values, defaults: Mapping[str, str]) -> tuple[FormGroup, ...]:
    """The whole form.

    Args:
        values: What stands in it.
        defaults: What each field left out comes to, where that is known.
    """
    return tuple(_groups(Installation, "", values, defaults))


def fields_of(record: type[BaseModel]) -> tuple[FormField, ...]:
    """The fields of one record by itself, with nothing filled in.

    Args:
        record: The record.
    """
    return tuple(_field(record, name, "", {}, {}) for name in record.model_fields)


def defaults_of(installation: Installation) -> dict[str, str]:
    """What every field that was left out comes to.

    Args:
        installation: The installation.
    """
    return {
        entry.path: in_print(shown_without_unit(entry.text, entry.facts.unit))
        for entry in entries(installation)
        if entry.defaulted and entry.text != "–"
    }


def symbols() -> Iterator[str]:
    """The symbol of every field that a form may show, as Typst mathematics."""
    for _, record in records_in(Installation):
        for name in record.model_fields:
            facts = facts_of(record, name)
            if facts.symbol:
                yield facts.symbol


def _groups(
    record: type[BaseModel], path: str, values: Values, defaults: Mapping[str, str]
) -> Iterator[FormGroup]:
    own = [name for name in record.model_fields if not inner_records(record, name)]
    own.sort(key=lambda name: name not in TAGS)  # the kind first: it decides the rest
    optional = path in optional_tables()
    there = not optional or values.get(path) == YES
    fields = tuple(_field(record, name, path, values, defaults) for name in own) if there else ()
    title = str(getattr(record, "title", "")).partition(" (")[0]
    shown = [field for field in fields if len(field.options) != 1]
    if shown or optional:
        opened = path in OPENED_FIRST
        yield FormGroup(path, title, optional, there, opened, tuple(shown))
    for name in record.model_fields:
        if name not in own:
            where = f"{path}.{name}" if path else name
            member = kind_at(record, name, where, values)
            yield from _groups(member, where, values, defaults)


def _field(
    record: type[BaseModel], name: str, group: str, values: Values, defaults: Mapping[str, str]
) -> FormField:
    path = f"{group}.{name}" if group else name
    facts = facts_of(record, name)
    kind, options = _kind(record, name, path)
    text = values.get(path, "")
    return FormField(
        path=path,
        label=name.replace("_", " ").capitalize(),
        sentence=facts.sentence,
        symbol=facts.symbol,
        kind=kind,
        text=shown_without_unit(text, facts.unit),
        unit="" if facts.unit == "1" else facts.unit,
        range=_range(record, name, facts),
        options=options,
        default=defaults.get(path, ""),
        basis=facts.basis,
        required=record.model_fields[name].is_required(),
    )


def _kind(record: type[BaseModel], name: str, path: str) -> tuple[str, tuple[str, ...]]:
    if name in TAGS:
        return WORD, _kinds_of(path)
    if is_yes_or_no(record, name):
        return WORD, (YES, NO)
    options = options_of(record, name)
    if options:
        return WORD, options
    if facts_of(record, name).unit:
        return QUANTITY, ()
    if is_count(record, name):
        return COUNT, ()
    return (TEXT if name in LONG_TEXTS else LINE), ()


def _kinds_of(path: str) -> tuple[str, ...]:
    """Every kind that may be chosen at a table, by its tag."""
    table, _, tag = path.rpartition(".")
    members = (record for place, record in records_in(Installation) if place == table)
    return tuple(word for member in members for word in options_of(member, tag))


def _range(record: type[BaseModel], name: str, facts: Facts) -> str:
    if facts.unit:
        return " to ".join(in_print(part) for part in facts.range_text.split(" to "))
    limits = limits_of(record, name)
    return f"{limits['ge']} to {limits['le']}" if "ge" in limits else ""
