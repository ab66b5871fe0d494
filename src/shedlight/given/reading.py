"""Reading a description: TOML with quantities as text, into a validated Installation."""

from pathlib import Path
from typing import Any

from pydantic import ValidationError

from shedlight.errors import DescriptionError, ImpossibleShapeError, Problem
from shedlight.given.bushing import Installation
from shedlight.given.problems import line_numbers, nearest_line, problems_in
from shedlight.toml import tables_in, text_of


def read(path: str | Path) -> Installation:
    """Read an installation from a TOML file.

    Args:
        path: The file.

    Raises:
        DescriptionError: the file cannot be used; carries every problem found.
    """
    place = Path(path)
    return parse(text_of(place), origin=str(path))


def parse(text: str, origin: str = "description") -> Installation:
    """Read an installation from TOML text.

    Args:
        text: The text.
        origin: What to call it in messages.

    Raises:
        DescriptionError: the text cannot be used; carries every problem found.
    """
    return from_data(tables_in(text, origin), origin, text)


def from_data(data: dict[str, Any], origin: str, text: str = "") -> Installation:
    """Validate already parsed data as an installation.

    Args:
        data: Tables as dicts, quantities as text.
        origin: What to call it in messages.
        text: The text it was parsed from, for line numbers.

    Raises:
        DescriptionError: the data cannot be used; carries every problem found.
    """
    try:
        return Installation.model_validate(data, context={"file": True})
    except ValidationError as error:
        raise DescriptionError(origin, problems_in(error, text)) from None


def located(error: ImpossibleShapeError, origin: str, text: str) -> DescriptionError:
    """An impossible shape as a problem of the description that asked for it, with its line.

    Args:
        error: What geometry refused.
        origin: What to call the description in messages.
        text: Its text.
    """
    found = error.problem
    line = nearest_line(found.field.split("."), line_numbers(text))
    placed = Problem(found.field, found.given, found.expected, found.cure, line)
    return DescriptionError(origin, (placed,))
