"""What is wrong with a description, in words: the field, what came, what was expected, the cure."""

import difflib
import json
import re
from collections.abc import Mapping, Sequence
from contextlib import suppress
from datetime import date, datetime, time
from enum import Enum
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from shedlight.errors import Problem
from shedlight.given.bushing import Installation
from shedlight.given.fields import facts_of, inner_records, limits_of, records_in

_SHORT = 60
_DEEPEST = 8  # tables in tables
_PLAIN_NAME = re.compile(rf"\w[\w-]{{0,{_SHORT}}}\Z")
_KEY_PART = re.compile(r"""\s*("(?:[^"\\]|\\.)*"|'[^']*'|[A-Za-z0-9_-]+)\s*(\.?)""")
_NOT_TABLES = ("model_type", "model_attributes_type")
_NO_DEFAULT = "default_factory_not_called"
_MEANT = ": "
_NO_TAG = ("union_tag_not_found", "union_tag_invalid")
_TOO_FAR = ("greater_than_equal", "less_than_equal", "string_too_short", "string_too_long")


def problems_in(error: ValidationError, text: str) -> tuple[Problem, ...]:
    """Everything that validation found, in words.

    Args:
        error: What pydantic raised.
        text: The TOML it was read from, for line numbers; may be empty.
    """
    lines = line_numbers(text)
    # A default computed from another field says nothing new when that field is itself wrong.
    details = [d for d in error.errors(include_url=False) if d["type"] != _NO_DEFAULT]
    found = [_problem(detail, lines) for detail in details]
    # A misspelt name is also a missing one: say it once.
    meant = {p.field.rpartition(".")[0] + _MEANT + p.cure for p in found}
    return tuple(p for p in found if not _is_misspelt(p, meant))


def _is_misspelt(problem: Problem, meant: set[str]) -> bool:
    table, _, name = problem.field.rpartition(".")
    return problem.given == "nothing" and f"{table}{_MEANT}{_did_you_mean(name)}" in meant


def _did_you_mean(name: str) -> str:
    return f"Did you mean {name}?"


def _problem(detail: ErrorDetails, lines: Mapping[tuple[str, ...], int]) -> Problem:
    record, path = _walk(detail["loc"])
    kind, context = detail["type"], detail.get("ctx") or {}
    given, cure = _shown(detail["input"]), ""
    if kind == "missing":
        given, (expected, cure) = "nothing", _missing(record, path)
    elif kind == "extra_forbidden":
        expected, cure = "a known name", _nearest(record, path)
    elif kind in _NO_TAG:
        tag = str(context["discriminator"]).strip("'")
        options = [_tag_of(member) for member in inner_records(record, path[-1])]
        given = "nothing" if kind == "union_tag_not_found" else _shown(context["tag"])
        path, expected = [*path, tag], "one of " + ", ".join(options)
        cure = _like(str(context.get("tag", "")), options) or f"Set {tag} to say which it is."
    elif kind == "clash":
        path = [*path, *str(context["field"]).split(".")]
        given, expected = str(context["given"]), str(context["expected"])
        cure = str(context["cure"]) or "Change one of the two."
    elif kind == "refused":
        expected, cure = str(context["expected"]), str(context["cure"])
    else:
        expected, cure = _words(detail, record, path)
    field = _dotted(path) or "file"
    return Problem(field, given, expected, cure or _cure(record, path), nearest_line(path, lines))


def _words(detail: ErrorDetails, record: type[BaseModel], path: list[str]) -> tuple[str, str]:
    """What pydantic expected, in our words; and a cure where there is a better one than usual."""
    kind, name = detail["type"], path[-1] if path else ""
    if kind in _NOT_TABLES:
        return f"a table [{_dotted(path)}]" if path else "tables", ""
    if kind == "bool_type":
        return "true or false, without quotes", ""
    if kind == "int_type" or kind in _TOO_FAR:
        return _bounds(record, name), ""
    if kind == "string_type":
        return "text in quotes", ""
    options = (detail.get("ctx") or {}).get("expected")
    if options is not None:
        known = re.findall(r"'([^']*)'", str(options))
        return f"one of {', '.join(known)}", _like(str(detail["input"]), known)
    return detail["msg"].removeprefix("Input should be "), ""


def _bounds(record: type[BaseModel], name: str) -> str:
    """The range of a count, or of the length of a text."""
    limits = limits_of(record, name)
    if "max_length" in limits:
        return f"text of {limits.get('min_length', 0)} to {limits['max_length']} characters"
    return f"a whole number from {limits['ge']} to {limits['le']}, without quotes"


def _missing(record: type[BaseModel], path: list[str]) -> tuple[str, str]:
    facts = facts_of(record, path[-1])
    sentence = facts.sentence[0].lower() + facts.sentence[1:].rstrip(".")
    if inner_records(record, path[-1]):
        table = f"[{_dotted(path)}]"
        return f"a table {table}, {sentence}", f"Add {table} and its fields."
    place = f"[{_dotted(path[:-1])}]" if path[:-1] else "the top of the file"
    range_ = facts.range_text or _options(record, path[-1])
    return f"{sentence} ({range_})" if range_ else sentence, f"Add {path[-1]} to {place}."


def _options(record: type[BaseModel], name: str) -> str:
    """The words a field may be, if it is one of a few."""
    annotation = record.model_fields[name].annotation
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        return ", ".join(str(member.value) for member in annotation)
    return ", ".join(str(word) for word in get_args(annotation) if isinstance(word, str))


def _cure(record: type[BaseModel], path: list[str]) -> str:
    if not path or path[-1] not in record.model_fields:
        return "Correct it."
    return f"It means: {facts_of(record, path[-1]).sentence}"


def _nearest(record: type[BaseModel], path: list[str]) -> str:
    """The known name meant, or the table where the name belongs, or all that are known."""
    name, known = path[-1], list(record.model_fields)
    homes = [home for home, inner in records_in(Installation) if name in inner.model_fields]
    if homes:
        places = [f"[{home}]" if home else "the top of the file" for home in homes]
        return f"It belongs to {' or '.join(dict.fromkeys(places))}."
    return _like(name, known) or f"Known here: {', '.join(known)}."


def _like(name: str, known: Sequence[str]) -> str:
    near = difflib.get_close_matches(name[:_SHORT].lower(), known, n=1, cutoff=0.5)
    return _did_you_mean(near[0]) if near else ""


def _walk(loc: Sequence[int | str]) -> tuple[type[BaseModel], list[str]]:
    """The record a location lies in, and the path without the union tags pydantic adds."""
    record: type[BaseModel] = Installation
    members: Sequence[type[BaseModel]] = ()
    path: list[str] = []
    for place, step in enumerate(loc, start=1):
        tagged = [member for member in members if len(members) > 1 and _tag_of(member) == step]
        if tagged:
            record, members = tagged[0], ()
            continue
        path.append(str(step))
        members = inner_records(record, str(step)) if step in record.model_fields else ()
        if len(members) == 1 and place < len(loc):
            record = members[0]
    return record, path


def _tag_of(member: type[BaseModel]) -> str:
    tagged = member.model_fields.get("form") or member.model_fields.get("kind")
    return str(get_args(tagged.annotation)[0]) if tagged else ""


def _shown(value: Any) -> str:
    """A value as it stands in the file, shortened."""
    if isinstance(value, (dict, list)):
        kind = "table" if isinstance(value, dict) else "list"
        return f"a {kind}" if value else f"an empty {kind}"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, (datetime, date, time)):
        return f"the date {value.isoformat()}"
    if isinstance(value, int) and abs(value) >= 10**_SHORT:
        return "a number of very many digits"
    if isinstance(value, str):
        text = value if len(value) <= _SHORT else value[:_SHORT] + "…"
        return f'"{text}"' if text.isprintable() and '"' not in text else repr(text)
    return repr(value)


def _dotted(path: Sequence[str]) -> str:
    """A path as it is written in a file, odd names in quotes and made visible."""
    parts = [part if _PLAIN_NAME.match(part) else json.dumps(part[:_SHORT]) for part in path[:12]]
    return ".".join(parts) + ("…" if len(path) > len(parts) else "")


def line_numbers(text: str) -> dict[tuple[str, ...], int]:
    """The line on which each table and each field of a TOML text stands.

    Args:
        text: The text.
    """
    found: dict[tuple[str, ...], int] = {}
    table: tuple[str, ...] = ()
    quotes = ""
    for number, line in enumerate(text.split("\n"), start=1):
        inside, quotes = bool(quotes), _left_open(line, quotes)
        if inside:
            continue
        start = line.lstrip()
        if start.startswith("["):
            table = _key(start.lstrip("["))[:_DEEPEST]
            path = table
        else:
            path = _key(start)
            path = (*table, *path) if path else ()
        for length in range(len(path[:_DEEPEST]), 0, -1):
            found.setdefault(path[:length], number)
    return found


def _left_open(line: str, quotes: str) -> str:
    """The triple quotes that are still open after a line; empty if none are."""
    for mark in re.findall(r'"""|' + "'''", line):
        if not quotes:
            quotes = mark
        elif mark == quotes:
            quotes = ""
    return quotes


def _key(text: str) -> tuple[str, ...]:
    parts, place = [], 0
    while match := _KEY_PART.match(text, place):
        parts.append(_unquoted(match[1]))
        place = match.end()
        if not match[2]:
            break
    return tuple(parts)


def _unquoted(part: str) -> str:
    """The name that a part of a key stands for; quotes in TOML and in JSON are much alike."""
    if part.startswith('"'):
        with suppress(ValueError):
            return str(json.loads(part))
    return part.strip("\"'")


def nearest_line(path: Sequence[str], lines: Mapping[tuple[str, ...], int]) -> int | None:
    """The line of a field, or of the nearest table around it; None if nothing is found.

    Args:
        path: The field.
        lines: What :func:`line_numbers` found.
    """
    for length in range(len(path), 0, -1):
        if tuple(path[:length]) in lines:
            return lines[tuple(path[:length])]
    return None
