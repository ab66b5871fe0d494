"""Text files that people write in TOML: read whole, within bounds, with clear refusals."""

import re
import tomllib
from pathlib import Path
from typing import Any

from shedlight.errors import DescriptionError, Problem

LARGEST_FILE = 64 * 1024
MOST_DOTS = 2100  # in a line: more of them cost the parser time that grows with their square
_SHORT = 60
_WHY: dict[type[OSError], str] = {
    FileNotFoundError: "a name under which there is no file",
    IsADirectoryError: "a folder",
    PermissionError: "a file that you may not read",
}
_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)")
_TWICE = re.compile("overwrite|twice|duplicate|immutable", re.IGNORECASE)


def text_of(path: Path) -> str:
    """The text of a file, refusing what cannot be a description.

    Args:
        path: The file.

    Raises:
        DescriptionError: not readable, too large, or not UTF-8 text.
    """
    origin = str(path)
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST_FILE + 1)
    except OSError as error:
        why = _WHY.get(type(error), error.strerror or type(error).__name__)
        raise _refused(origin, why, "a file that can be read", "Check the path.") from None
    except ValueError:
        raise _refused(origin, "a name with NUL", "a file name", "Check the path.") from None
    if len(raw) > LARGEST_FILE:
        cure = "A description is a few kilobytes of text; check that this is the right file."
        raise _refused(origin, "a larger file", f"at most {LARGEST_FILE // 1024} KiB", cure)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        cure = "Check that this is the right file and save it as UTF-8 text."
        raise _refused(origin, "bytes that are not text", "UTF-8 text", cure) from None


def tables_in(text: str, origin: str) -> dict[str, Any]:
    """The tables and values of a TOML text.

    Args:
        text: The text.
        origin: What to call it in messages.

    Raises:
        DescriptionError: it is not TOML; names the line.
    """
    for number, line in enumerate(text.split("\n"), start=1):
        if line.count(".") > MOST_DOTS:
            cure = "Write tables as headers, such as [bushing.sheds]."
            raise _refused(origin, "a line full of dots", "short names", cure, number)
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))
    except RecursionError:
        raise _refused(origin, "deeply nested brackets", "plain tables", "Flatten it.") from None
    except ValueError as error:  # also whole numbers of thousands of digits
        raise _not_toml(error, text, origin) from None


def _not_toml(error: ValueError, text: str, origin: str) -> DescriptionError:
    place = _PLACE.search(str(error))
    line, why = None, _PLACE.sub("", str(error)).split(":")[0]
    given = "text that is not TOML"
    if place and place[1]:
        line = int(place[1])
        given = repr(_shortened(text.split("\n")[line - 1].strip()))
        why += f", at column {place[2]}"
    elif place:
        why += ", at the end of the file"
    cure = 'Text and quantities stand in quotes: bore = "25 mm".'
    if _TWICE.search(why):
        cure = "A name or table stands twice: leave one of them out."
    return _refused(origin, f"{given} ({why[0].lower()}{why[1:]})", "valid TOML", cure, line)


def _shortened(text: str) -> str:
    return text if len(text) <= _SHORT else text[:_SHORT] + "…"


def _refused(
    origin: str, given: str, expected: str, cure: str, line: int | None = None
) -> DescriptionError:
    return DescriptionError(origin, (Problem("file", given, expected, cure, line),))
