"""Reading a description: TOML with quantities as text, into a validated Installation."""

import difflib
import re
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from shedlight.errors import DescriptionError, Problem
from shedlight.given.bushing import Installation
from shedlight.given.fields import facts_of

LARGEST_FILE = 256 * 1024
_SHORT = 60


def read(path: str | Path) -> Installation:
    """Read an installation from a TOML file.

    Raises:
        DescriptionError: the file cannot be used; carries every problem found.
    """
    place = Path(path)
    return parse(text_of(place), origin=str(path))


def parse(text: str, origin: str = "description") -> Installation:
    """Read an installation from TOML text; `origin` names it in messages.

    Raises:
        DescriptionError: the text cannot be used; carries every problem found.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _one(origin, "file", "text that is not TOML", "valid TOML", f"{error}.") from None
    except RecursionError:
        raise _one(origin, "file", "deeply nested text", "plain tables", "Flatten it.") from None
    return from_data(data, origin, text)


def from_data(data: dict[str, Any], origin: str, text: str = "") -> Installation:
    """Validate already parsed data as an installation.

    Raises:
        DescriptionError: the data cannot be used; carries every problem found.
    """
    try:
        return Installation.model_validate(data, context={"file": True})
    except ValidationError as error:
        details = error.errors(include_url=False)
        found = tuple(_problem(detail, text) for detail in details if _tells_something(detail))
        raise DescriptionError(origin, found) from None


def text_of(path: Path) -> str:
    """The text of a file, refusing what cannot be a description.

    Raises:
        DescriptionError: not readable, too large, or not UTF-8 text.
    """
    origin = str(path)
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST_FILE + 1)
    except OSError as error:
        why = error.strerror or type(error).__name__
        raise _one(origin, "file", f"{why.lower()}", "a readable file", "Check the path.") from None
    except ValueError:
        raise _one(origin, "file", "a name with NUL", "a file name", "Check the path.") from None
    if len(raw) > LARGEST_FILE:
        cure = "A description is a few kilobytes of text; check that this is the right file."
        raise _one(origin, "file", "a huge file", f"at most {LARGEST_FILE} bytes", cure)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        cure = "Check that this is the right file and save it as UTF-8 text."
        raise _one(origin, "file", "bytes that are not text", "UTF-8 text", cure) from None


def _one(origin: str, field: str, given: str, expected: str, cure: str) -> DescriptionError:
    return DescriptionError(origin, (Problem(field, given, expected, cure),))


def _tells_something(detail: ErrorDetails) -> bool:
    # A default computed from another field says nothing new when that field is itself wrong.
    return detail["type"] != "default_factory_not_called"


def _problem(detail: ErrorDetails, text: str) -> Problem:
    record, path = _walk(detail["loc"])
    line = _line_of(text, path)
    field = ".".join(path) or "file"
    given = _shown(detail.get("input"))
    kind, message = detail["type"], detail["msg"]
    if kind == "missing":
        given, expected = "nothing", _expected(record, path)
        place = f"[{'.'.join(path[:-1])}]" if path[:-1] else "the description"
        return Problem(field, given, expected, f"Add {path[-1]} to {place}.", line)
    if kind == "extra_forbidden":
        return Problem(field, given, "a known field", _nearest(record, path[-1]), line)
    if kind in ("union_tag_not_found", "union_tag_invalid"):
        tag = (detail.get("ctx") or {}).get("discriminator", "form").strip("'")
        field = f"{field}.{tag}"
        expected = "one of " + ", ".join(_tags(record, path[-1]))
        return Problem(field, given, expected, f"Set {tag} to say which it is.", line)
    if kind == "value_error":
        name, _, why = message.removeprefix("Value error, ").partition(": ")
        field = ".".join([*path, name]) if path or name else name
        line = _line_of(text, [*path, name]) or line
        return Problem(field, "values that do not go together", why, "Change one of them.", line)
    why = message.removeprefix("Input should be ").removeprefix("expected ")
    why = why[0].lower() + why[1:]
    return Problem(field, given, why, _cure(record, path), line)


def _walk(loc: Sequence[int | str]) -> tuple[type[BaseModel], list[str]]:
    """The record a location lies in, and the path without the union tags pydantic adds."""
    record: type[BaseModel] = Installation
    path: list[str] = []
    for step in loc:
        if isinstance(step, str) and step in record.model_fields:
            path.append(step)
            members = _members(record, step)
            if len(members) == 1:
                record = members[0]
            choices = {_tag_of(member): member for member in members}
        elif path and len(members) > 1 and step in choices:
            record = choices[str(step)]
        else:
            path.append(str(step))
    return record, path


def _members(record: type[BaseModel], name: str) -> list[type[BaseModel]]:
    def leaves(annotation: Any) -> Iterator[type[BaseModel]]:
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            yield annotation
        for inner in get_args(annotation):
            yield from leaves(inner)

    return list(leaves(record.model_fields[name].annotation))


def _tag_of(member: type[BaseModel]) -> str:
    tagged = member.model_fields.get("form") or member.model_fields.get("kind")
    return str(get_args(tagged.annotation)[0]) if tagged else ""


def _tags(record: type[BaseModel], name: str) -> list[str]:
    if name not in record.model_fields:
        return []
    return [_tag_of(member) for member in _members(record, name)]


def _expected(record: type[BaseModel], path: list[str]) -> str:
    if path[-1] not in record.model_fields:
        return f"a table [{'.'.join(path)}]: {record.title.lower() or 'its fields'}"
    facts = facts_of(record, path[-1])
    meaning = facts.sentence[0].lower() + facts.sentence[1:].rstrip(".")
    return f"{meaning} ({facts.range_text})" if facts.unit else meaning


def _cure(record: type[BaseModel], path: list[str]) -> str:
    if not path or path[-1] not in record.model_fields:
        return "Correct it."
    return f"It means: {facts_of(record, path[-1]).sentence}"


def _nearest(record: type[BaseModel], name: str) -> str:
    known = list(record.model_fields)
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
    if near:
        return f"Did you mean {near[0]}?"
    return f"Known here: {', '.join(known)}."


def _shown(value: Any) -> str:
    if isinstance(value, dict):
        return "a table" if value else "an empty table"
    shown = repr(value)
    return shown if len(shown) <= _SHORT else shown[:_SHORT] + "…"


def _line_of(text: str, path: Sequence[str]) -> int | None:
    """The line a field stands on; that of its table if it is missing; None if not found."""
    if not path:
        return None
    table: list[str] = []
    table_line = None
    for number, line in enumerate(text.splitlines(), start=1):
        if header := re.match(r"\s*\[([^\[\]]+)\]", line):
            table = [part.strip().strip("\"'") for part in header[1].split(".")]
            if table == list(path) or table == list(path[:-1]):
                table_line = number
        elif key := re.match(r"\s*([^=#]+?)\s*=", line):
            if [*table, *(part.strip().strip("\"'") for part in key[1].split("."))] == list(path):
                return number
    return table_line
