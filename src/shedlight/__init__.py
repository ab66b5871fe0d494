"""Software for the engineer who answers for the bushings of power transformers.

import shedlight as sl
case = sl.read("bushing.toml")
assessment = sl.assess(case)
for check in assessment.by_urgency:
    print(check.id, check.verdict, check.reason)
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from shedlight.checks.assessment import Assessment, assess
    from shedlight.checks.check import Check, Verdict
    from shedlight.errors import (
        CalculationError,
        DescriptionError,
        ImpossibleShapeError,
        InputError,
        ShedlightError,
        UnitError,
    )
    from shedlight.given.bushing import Installation
    from shedlight.given.changing import changed
    from shedlight.given.reading import parse, read
    from shedlight.given.writing import to_toml

__all__ = [
    "Assessment",
    "CalculationError",
    "Check",
    "DescriptionError",
    "ImpossibleShapeError",
    "InputError",
    "Installation",
    "ShedlightError",
    "UnitError",
    "Verdict",
    "assess",
    "changed",
    "parse",
    "read",
    "to_toml",
]

# Loaded on first use, so that a single room of physics can be used without the rest.
_HOMES = {
    "Assessment": "checks.assessment",
    "assess": "checks.assessment",
    "Check": "checks.check",
    "Verdict": "checks.check",
    "Installation": "given.bushing",
    "changed": "given.changing",
    "parse": "given.reading",
    "read": "given.reading",
    "to_toml": "given.writing",
}


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    home = _HOMES.get(name, "errors")
    return getattr(import_module(f"{__name__}.{home}"), name)


def __dir__() -> list[str]:
    return list(__all__)
