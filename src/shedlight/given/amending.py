"""Amending the text of a description: what changed is written anew, every other line stays."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

import tomli_w

from shedlight.errors import DescriptionError
from shedlight.given.bushing import Installation
from shedlight.given.problems import line_numbers
from shedlight.given.reading import parse
from shedlight.given.writing import to_data, to_toml

Way = tuple[str, ...]
_LINE = re.compile(
    r"""(?P<start>\s*[\w-]+\s*=\s*)(?P<value>"(?:[^"\\]|\\.)*"|'[^']*'|[^\s#"'\[{]+)(?P<end>\s*(?:\#.*)?)\Z"""
)


def amended(text: str, installation: Installation) -> str:
    """The text with the values of another installation: remarks and order stay as they were.

    Where a text is laid out in a way that cannot be amended line by line, it is written anew.

    Args:
        text: A description.
        installation: What it is to describe.
    """
    whole = to_toml(installation)
    try:
        told = to_data(parse(text))
        candidate = _amended(text, dict(_flat(told, ())), dict(_flat(to_data(installation), ())))
        return candidate if parse(candidate) == installation else whole
    except (
        DescriptionError,
        KeyError,
    ):  # no description, or names that stand on no line of their own
        return whole


def _amended(text: str, told: Mapping[Way, Any], wanted: Mapping[Way, Any]) -> str:
    lines: list[str | None] = list(text.split("\n"))
    numbers = line_numbers(text)
    for way in told.keys() - wanted.keys():
        lines[numbers[way] - 1] = None
    for way in told.keys() & wanted.keys():
        number = numbers[way] - 1
        line = lines[number]
        if told[way] != wanted[way] and line is not None:
            lines[number] = _with_value(line, wanted[way])
    added: dict[int, list[str]] = {}
    fresh: dict[Way, list[str]] = {}
    for way in (way for way in wanted if way not in told):
        line, table = f"{way[-1]} = {_literal(wanted[way])}", way[:-1]
        if table in numbers or not table:
            added.setdefault(_last_line(table, numbers), []).append(line)
        else:
            fresh.setdefault(table, []).append(line)
    return "\n".join(_joined(lines, added, fresh))


def _joined(
    lines: list[str | None], added: Mapping[int, list[str]], fresh: Mapping[Way, list[str]]
) -> Iterator[str]:
    yield from added.get(0, ())
    for number, line in enumerate(lines, start=1):
        if line is not None:
            yield line
        yield from added.get(number, ())
    for table, own in fresh.items():
        yield f"[{'.'.join(table)}]"
        yield from own
        yield ""


def _last_line(table: Way, numbers: Mapping[Way, int]) -> int:
    """The last line on which the table itself, not a table within it, says something."""
    own = [number for way, number in numbers.items() if way[:-1] == table or way == table]
    inner = {way[: len(table) + 1] for way in numbers if len(way) > len(table) + 1}
    outer = [numbers[way] for way in inner if way[:-1] == table]
    return max((number for number in own if number not in outer), default=0)


def _with_value(line: str, value: Any) -> str:
    found = _LINE.match(line)
    return line if found is None else f"{found['start']}{_literal(value)}{found['end']}"


def _literal(value: Any) -> str:
    return tomli_w.dumps({"x": value}).partition("= ")[2].rstrip("\n")


def _flat(data: Mapping[str, Any], way: Way) -> Iterator[tuple[Way, Any]]:
    for name, value in data.items():
        if isinstance(value, dict):
            yield from _flat(value, (*way, name))
        else:
            yield (*way, name), value
