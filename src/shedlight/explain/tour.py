"""The guided tour: views with one idea each, their computed pictures, predictions, what-ifs."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from shedlight.checks.assessment import Assessment
from shedlight.explain.facts import facts_of
from shedlight.explain.pictures import PICTURES, Sight
from shedlight.explain.what_ifs import CHANGES, WhatIf, what_if
from shedlight.explain.words import DEPTHS, Filled, Filler, PredictionText, Words, words
from shedlight.figures.scene import Scene


@dataclass(frozen=True)
class Prediction:
    """A question put before the answer is shown."""

    key: str
    question: str
    options: tuple[str, ...]
    right: int
    answer: tuple[str, ...]


@dataclass(frozen=True)
class View:
    """One view: an idea, its picture, its text in three depths, and what belongs to it."""

    key: str
    minutes: float
    title: str
    idea: str
    caption: str
    depths: Mapping[str, tuple[str, ...]]
    missing: tuple[str, ...]
    notes: tuple[str, ...]
    picture: Scene
    predictions: tuple[Prediction, ...]
    what_ifs: tuple[WhatIf, ...]


@dataclass(frozen=True)
class Tour:
    """The whole tour of one installation in one language."""

    assessment: Assessment
    words: Words
    views: tuple[View, ...]

    @cached_property
    def minutes(self) -> float:
        """How long it takes at the planned pace."""
        return sum(view.minutes for view in self.views)


def tour(assessment: Assessment, language: str = "en", *, with_what_ifs: bool = True) -> Tour:
    """The tour of an installation.

    Args:
        assessment: What was computed and judged.
        language: Of the texts.
        with_what_ifs: Whether to compute the what-ifs too; each is an assessment of its own.

    Raises:
        InputError: there are no texts in that language.
    """
    spoken = words(language)
    builder = _Builder(assessment, spoken, with_what_ifs)
    return Tour(assessment, spoken, tuple(builder.view(text.key) for text in spoken.views))


class _Builder:
    """Makes the views of one tour."""

    def __init__(self, assessment: Assessment, spoken: Words, with_what_ifs: bool) -> None:
        self._assessment = assessment
        self._words = spoken
        self._facts = facts_of(assessment)
        self._filler = Filler(assessment, self._facts)
        self._with_what_ifs = with_what_ifs

    def view(self, key: str) -> View:
        text = self._words.view(key)
        filled = {depth: self._filler.fill(getattr(text, depth)) for depth in DEPTHS}
        idea = self._filler.fill((text.idea,))
        sight = Sight(self._assessment, self._facts, self._words.pictures[key], f"view-{key}")
        return View(
            key=key,
            minutes=text.minutes,
            title=text.title,
            idea=" ".join(idea.paragraphs),
            caption=text.caption,
            depths={depth: found.paragraphs for depth, found in filled.items()},
            missing=self._missing(idea, *filled.values()),
            notes=self._filler.fill(text.notes).paragraphs,
            picture=PICTURES[key](sight),
            predictions=tuple(self._predictions(key)),
            what_ifs=tuple(self._what_ifs(key)) if self._with_what_ifs else (),
        )

    def _missing(self, *filled: Filled) -> tuple[str, ...]:
        names = dict.fromkeys(name for found in filled for name in found.missing)
        return tuple(dict.fromkeys(self._words.facts.get(name, name) for name in names))

    def _predictions(self, key: str) -> list[Prediction]:
        found = []
        for text in self._words.predictions:
            asked = self._filler.fill((text.question, *text.answer))
            if text.view == key and not asked.missing and self._holds(text):
                found.append(_prediction(text, asked))
        return found

    def _holds(self, text: PredictionText) -> bool:
        """Whether the answer in the text is the computed one; else the question is not put."""
        if text.key != "better-insulator":
            return True
        others = self._facts["porcelain_share"], self._facts["gap_share"]
        return self._facts["oil_share"] > max(others)

    def _what_ifs(self, key: str) -> list[WhatIf]:
        wanted = (text for text in self._words.what_ifs if text.view == key)
        words = self._words.pictures[key]
        tried = (
            what_if(self._assessment, self._facts, text, CHANGES[text.key], words)
            for text in wanted
        )
        return [found for found in tried if found is not None]


def _prediction(text: PredictionText, asked: Filled) -> Prediction:
    question, *answer = asked.paragraphs
    return Prediction(text.key, question, text.options, text.right, tuple(answer))
