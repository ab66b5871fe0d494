"""Every exception shedlight raises on purpose.

    ShedlightError
    ├── InputError (ValueError)      what was given cannot be used        exit status 2
    │   ├── UnitError                a quantity's text, unit or dimension
    │   ├── DescriptionError         a description file, or a field in it
    │   ├── RequestError             what is asked beside the description: a level, a place
    │   └── ImpossibleShapeError     dimensions that no body can have
    └── CalculationError             our own fault: no number came out    exit status 3

A bushing that fails a check is a result, never an exception.
"""

from dataclasses import dataclass
from typing import ClassVar

MOST_LISTED = 20


class ShedlightError(Exception):
    """Root of everything shedlight raises on purpose."""

    exit_status: ClassVar[int] = 3


class InputError(ShedlightError, ValueError):
    """What was given cannot be used."""

    exit_status: ClassVar[int] = 2


class UnitError(InputError):
    """A quantity is not written as a number with a unit of the right kind."""

    def __init__(self, given: str, expected: str, cure: str) -> None:
        """Keep the parts, so that a door can show them beside the field."""
        self.given = given
        self.expected = expected
        self.cure = cure
        super().__init__(f"given {given}; expected {expected}. {cure}")


@dataclass(frozen=True)
class Problem:
    """One thing wrong with a description: where, what came, what was expected, the cure."""

    field: str
    given: str
    expected: str
    cure: str
    line: int | None = None

    def __str__(self) -> str:
        """One readable sentence, the field first."""
        place = f"{self.field} (line {self.line})" if self.line else self.field
        return f"{place}: given {self.given}; expected {self.expected}. {self.cure}"


class RequestError(InputError):
    """What is asked for beside the description cannot be: a level, an offset, a place."""


class DescriptionError(InputError):
    """A description cannot be used; carries every problem found in it."""

    def __init__(self, origin: str, problems: tuple[Problem, ...]) -> None:
        """Keep where the description came from and what is wrong with it."""
        self.origin = origin
        self.problems = problems
        lines = [f"  {problem}" for problem in problems[:MOST_LISTED]]
        if len(problems) > MOST_LISTED:
            lines.append(f"  … and {len(problems) - MOST_LISTED} more")
        super().__init__("\n".join([f"{origin} cannot be used:", *lines]))


class ImpossibleShapeError(InputError):
    """Dimensions that no body can have: names the field and the cure."""

    def __init__(self, field: str, given: str, expected: str, cure: str) -> None:
        """Keep the problem so that a door can show it beside its field."""
        self.problem = Problem(field, given, expected, cure)
        super().__init__(str(self.problem))


class CalculationError(ShedlightError):
    """A formula gave no finite number although its inputs were accepted."""
