"""The texts of the explanations, one file a language, and how numbers come into them.

A text names facts in braces, ``{creepage}`` or ``{creepage|m}`` for another unit, and checks by
``{surface.creepage.margin}``. A paragraph that names a fact the installation does not have is left
out, and the view says so; no text holds a computed number of its own.
"""

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from shedlight.checks.assessment import Assessment
from shedlight.checks.check import Check
from shedlight.documents.calculation import word_of
from shedlight.documents.numerals import percent, shown, unit_name
from shedlight.errors import CalculationError, InputError
from shedlight.trace import Number

DEPTHS = ("operator", "apprentice", "engineer")
SPACE = "\N{NO-BREAK SPACE}"
_PLACE = re.compile(r"\{([a-z0-9_.-]+)(?:\|([^}]+))?\}")
_OF_A_CHECK = ("demand", "capability", "margin", "verdict", "reason")


@dataclass(frozen=True)
class ViewText:
    """One view of the tour in words."""

    key: str
    minutes: float
    title: str
    idea: str
    caption: str
    operator: tuple[str, ...]
    apprentice: tuple[str, ...]
    engineer: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True)
class PredictionText:
    """A question before the answer: options, which is right, and what the computation says."""

    key: str
    view: str
    question: str
    options: tuple[str, ...]
    right: int
    answer: tuple[str, ...]


@dataclass(frozen=True)
class WhatIfText:
    """One switch in words; `says` may name facts before and, with ``then.``, after the change."""

    key: str
    view: str
    title: str
    says: tuple[str, ...]


@dataclass(frozen=True)
class Words:
    """Everything an explanation says in one language."""

    language: str
    name: str
    chrome: Mapping[str, str]
    facts: Mapping[str, str]
    views: tuple[ViewText, ...]
    predictions: tuple[PredictionText, ...]
    what_ifs: tuple[WhatIfText, ...]
    pictures: Mapping[str, Mapping[str, str]]

    def view(self, key: str) -> ViewText:
        """The text of one view."""
        return next(view for view in self.views if view.key == key)


def languages() -> tuple[str, ...]:
    """The languages there are texts in."""
    folder = resources.files("shedlight.explain").joinpath("texts")
    return tuple(sorted(item.name.removesuffix(".toml") for item in folder.iterdir()))


@cache
def words(language: str = "en") -> Words:
    """The texts of a language.

    Args:
        language: Two letters, such as "en".

    Raises:
        InputError: there are no texts in it.
    """
    if language not in languages():
        expected = ", ".join(languages())
        raise InputError(f"language: given {language!r}; expected one of {expected}")
    folder = resources.files("shedlight.explain").joinpath("texts")
    read = tomllib.loads(folder.joinpath(f"{language}.toml").read_text("utf-8"))
    return Words(
        language=language,
        name=read["name"],
        chrome=read["chrome"],
        facts=read["facts"],
        views=tuple(ViewText(**_frozen(entry)) for entry in read["view"]),
        predictions=tuple(PredictionText(**_frozen(entry)) for entry in read["prediction"]),
        what_ifs=tuple(WhatIfText(**_frozen(entry)) for entry in read["what-if"]),
        pictures=read["picture"],
    )


def _frozen(entry: Mapping[str, Any]) -> dict[str, Any]:
    return {key: tuple(item) if isinstance(item, list) else item for key, item in entry.items()}


@dataclass(frozen=True)
class Filled:
    """Paragraphs with their numbers, and the facts that were missing for others."""

    paragraphs: tuple[str, ...]
    missing: tuple[str, ...]


class Filler:
    """Puts the numbers of one installation into texts."""

    def __init__(self, assessment: Assessment, facts: Mapping[str, Number]) -> None:
        """Keep what texts may name."""
        self._assessment = assessment
        self._facts = facts

    def fill(self, paragraphs: Iterable[str]) -> Filled:
        """Paragraphs with numbers in them; those that cannot be filled are left out."""
        done, missing = [], {}
        for paragraph in paragraphs:
            lacks = [name for name in places_in(paragraph) if self.value(name) is None]
            missing.update(dict.fromkeys(lacks))
            if not lacks:
                done.append(self.line(paragraph))
        return Filled(tuple(done), tuple(missing))

    def line(self, text: str) -> str:
        """One text with its numbers.

        Raises:
            CalculationError: it names what this installation does not have.
        """
        return _PLACE.sub(lambda found: self._written(found[1], found[2]), text)

    def _written(self, name: str, unit: str | None) -> str:
        value = self.value(name, unit or "")
        if value is None:
            raise CalculationError(f"a text names {name!r}, which this installation does not have")
        return value

    def value(self, name: str, unit: str = "") -> str | None:
        """What a name stands for, in print; None where there is no such thing here."""
        if name in self._facts:
            return in_words(self._facts[name], unit)
        if name.startswith("tightest_"):
            return self._tightest(name.removeprefix("tightest_"))
        identifier, _, what = name.rpartition(".")
        if what not in _OF_A_CHECK:
            return None
        found = next((c for c in self._assessment.checks if c.id == identifier), None)
        return None if found is None else _of_check(found, what, unit)

    def _tightest(self, what: str) -> str | None:
        """Title or reason of the check with the least margin."""
        judged = [c for c in self._assessment.checks if c.margin is not None]
        if not judged:
            return None
        least = min(judged, key=lambda check: check.margin or 0.0)
        said = least.question.title if what == "title" else least.reason
        return said[:1].upper() + said[1:]


def places_in(text: str) -> tuple[str, ...]:
    """The names a text holds in braces.

    Args:
        text: Any text.
    """
    return tuple(found[1] for found in _PLACE.finditer(text))


def in_words(number: Number, unit: str = "") -> str:
    """A number with its unit as print has it.

    Args:
        number: The number.
        unit: Unit to show it in; its own if empty.
    """
    unit = unit or number.step.label.unit
    name = unit_name(unit)
    return f"{shown(float(number), unit)}{SPACE}{name}" if name else shown(float(number), unit)


def _of_check(check: Check, what: str, unit: str) -> str | None:
    if what == "verdict":
        return word_of(check.verdict)
    if what == "reason":
        return check.reason
    if what == "margin":
        return None if check.margin is None else percent(check.margin)
    number = check.demand if what == "demand" else check.capability
    return None if number is None else in_words(number, unit or check.question.unit)
