"""Writing a description back to TOML, losing nothing."""

import os
import stat
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import Any

import tomli_w
from pydantic import BaseModel

from shedlight import units
from shedlight.given.bushing import Installation
from shedlight.given.fields import Facts, facts_of

NEW_FILE = 0o644  # all may read, the owner may write
_unfinished: set[str] = set()


def to_toml(installation: Installation) -> str:
    """The installation as TOML; what was left to a default stays left out."""
    return tomli_w.dumps(to_data(installation))


def to_data(installation: Installation) -> dict[str, Any]:
    """The installation as plain data, quantities as text; defaults stay left out."""
    return _plain(installation)


def write_whole(path: str | Path, content: str | bytes) -> None:
    """Write a file completely or not at all: a neighbour is written, then put in its place.

    A link is followed; a file that is replaced leaves its permissions to the new one.

    Args:
        path: The file.
        content: All that it is to hold; text as UTF-8.

    Raises:
        OSError: it cannot be written there; what stood there before still does.
    """
    target = Path(os.path.realpath(path))
    raw = content.encode("utf-8") if isinstance(content, str) else content
    mode = stat.S_IMODE(target.stat().st_mode) if target.exists() else NEW_FILE
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=".shedlight-")
    _unfinished.add(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(raw)
            file.flush()
            os.fsync(file.fileno())
        Path(name).chmod(mode)
        Path(name).replace(target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    finally:
        _unfinished.discard(name)


def abandon_unfinished() -> None:
    """Take away what is half written, when the process is told to end at once."""
    for name in tuple(_unfinished):
        Path(name).unlink(missing_ok=True)


def _plain(record: BaseModel) -> dict[str, Any]:
    fields = {
        name: getattr(record, name)
        for name in type(record).model_fields
        if name in record.model_fields_set and getattr(record, name) is not None
    }
    return {name: _value(value, facts_of(type(record), name)) for name, value in fields.items()}


def _value(value: Any, facts: Facts) -> Any:
    if isinstance(value, BaseModel):
        return _plain(value)
    if isinstance(value, Enum):
        return str(value.value)
    if facts.unit:
        return units.write(value, facts.unit)
    return value


@dataclass(frozen=True)
class Entry:
    """One field of an installation as a reader sees it."""

    path: str
    facts: Facts
    text: str
    defaulted: bool


def entries(record: BaseModel, path: str = "") -> Iterator[Entry]:
    """Every field of a record and of the records in it, in order, with its text."""
    for name in type(record).model_fields:
        value = getattr(record, name)
        where = f"{path}.{name}" if path else name
        facts = facts_of(type(record), name)
        if isinstance(value, BaseModel):
            yield from entries(value, where)
            continue
        yield Entry(where, facts, _text(value, facts), name not in record.model_fields_set)


def _text(value: Any, facts: Facts) -> str:
    if value is None or value == "":
        return "–"
    if isinstance(value, bool):
        return "yes" if value else "no"
    plain = _value(value, facts)
    return plain if isinstance(plain, str) else f"{plain}"
