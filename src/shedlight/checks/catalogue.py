"""The catalogue of checks: every question once, its words in a data file, its answer in code."""

import tomllib
from collections.abc import Callable, Mapping
from functools import cache
from importlib import resources
from types import MappingProxyType

from shedlight.checks.check import Check, Question
from shedlight.errors import CalculationError
from shedlight.given.bushing import Installation
from shedlight.workings import Workings

Answer = Callable[[Question, Installation, Workings], Check]
ANSWERS: dict[str, Answer] = {}


@cache
def questions() -> Mapping[str, Question]:
    """Every question by id, in the order of the catalogue."""
    text = resources.files("shedlight.checks").joinpath("catalogue.toml").read_text("utf-8")
    read = tomllib.loads(text)["question"]
    return MappingProxyType({entry["id"]: Question(**entry) for entry in read})


def answers(identifier: str) -> Callable[[Answer], Answer]:
    """Register the function that answers a question of the catalogue.

    Args:
        identifier: The question's id.

    Raises:
        CalculationError: no such question, or two answers for one.
    """
    if identifier not in questions():
        raise CalculationError(f"{identifier!r} is not in catalogue.toml")

    def register(answer: Answer) -> Answer:
        if identifier in ANSWERS:
            raise CalculationError(f"{identifier!r} is answered twice")
        ANSWERS[identifier] = answer
        return answer

    return register
