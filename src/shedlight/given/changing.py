"""Changing an installation: a new one is made, the old one stays as it is."""

from typing import Any

from pydantic import ValidationError

from shedlight.errors import DescriptionError, Problem
from shedlight.given.bushing import Installation
from shedlight.given.problems import problems_in


def changed(installation: Installation, **paths: Any) -> Installation:
    """A copy with some fields changed.

    Args:
        installation: What to start from.
        **paths: New values; the names are dotted paths with ``__`` for the dots, such as
            ``site__altitude="1800 m"``. Bare numbers are SI. None leaves a field to its default.

    Raises:
        DescriptionError: the result is no valid installation; carries every problem found.
    """
    origin = f"{installation.name}, changed,"
    data = installation.model_dump(exclude_unset=True)
    for path, value in paths.items():
        *way, last = path.split("__")
        place = data
        for step in way:
            place = place.setdefault(step, {})
            if not isinstance(place, dict):
                given, expected = f"a path through {step}", "a table on the way"
                problem = Problem(".".join([*way, last]), given, expected, "Correct the path.")
                raise DescriptionError(origin, (problem,))
        if value is None:
            place.pop(last, None)
        else:
            place[last] = value
    try:
        return Installation.model_validate(data)
    except ValidationError as error:
        raise DescriptionError(origin, problems_in(error, "")) from None
