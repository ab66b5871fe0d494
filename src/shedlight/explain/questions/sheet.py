"""Question sheets: which questions, in which order, with which options; and their answers."""

import random
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources

from shedlight.checks.assessment import Assessment, assess
from shedlight.documents.numerals import shown, unit_name
from shedlight.errors import InputError
from shedlight.explain.facts import facts_of
from shedlight.explain.questions.asking import TOPICS, Asked, asked_of
from shedlight.explain.questions.plausible import plausible
from shedlight.explain.words import SPACE, Filler
from shedlight.given.bushing import Installation
from shedlight.trace import Input, Kind, Step, derivation

LEVELS = (1, 2, 3)
OPTIONS = 4
APART = 0.02  # options nearer to one another than this share are no choice
MOST = 200


@dataclass(frozen=True)
class SheetWords:
    """The texts of questions, slips and topics."""

    chrome: Mapping[str, str]
    question: Mapping[str, str]
    slip: Mapping[str, str]
    topic: Mapping[str, str]


@dataclass(frozen=True)
class Quantity:
    """A named value as printed; `symbol` is Typst mathematics."""

    name: str
    symbol: str
    value: str
    unit: str

    @property
    def text(self) -> str:
        """Value and unit."""
        return f"{self.value}{SPACE}{self.unit}" if self.unit else self.value


@dataclass(frozen=True)
class WorkedStep:
    """One step of the answer: the formula, what went in, what comes out, where it stands."""

    result: Quantity
    formula: str
    inputs: tuple[Quantity, ...]
    source: str


@dataclass(frozen=True)
class Option:
    """One answer to choose from; `why_not` is empty for the right one."""

    text: str
    why_not: str


@dataclass(frozen=True)
class Item:
    """One question with all that belongs to it."""

    number: int
    topic: str
    level: int
    about: str
    text: str
    given: tuple[Quantity, ...]
    options: tuple[Option, ...]
    right: int
    steps: tuple[WorkedStep, ...]
    answer: Quantity


@dataclass(frozen=True)
class Sheet:
    """A sheet of questions, to be printed without and with its answers."""

    title: str
    seed: int
    items: tuple[Item, ...]


@dataclass(frozen=True)
class Wish:
    """What a sheet should hold: topics and levels (all if empty), how many, from which seed."""

    topics: tuple[str, ...] = ()
    levels: tuple[int, ...] = ()
    count: int = 10
    seed: int = 1
    random_installations: bool = False


@cache
def sheet_words() -> SheetWords:
    """The texts, read once."""
    text = resources.files("shedlight.explain.questions").joinpath("words.toml").read_text("utf-8")
    return SheetWords(**tomllib.loads(text))


def sheet(installation: Installation, wish: Wish) -> Sheet:
    """A sheet of questions.

    Args:
        installation: What is asked about, or what the random ones are made like.
        wish: What the sheet should hold.

    Raises:
        InputError: an unknown topic or level, too many, or no question fits the wish.
    """
    refuse_unknown(wish)
    dice = random.Random(wish.seed)
    items: list[Item] = []
    for assessment in _subjects(installation, wish):
        fitting = [asked for asked in asked_of(assessment) if _fits(asked, wish)]
        if not fitting:
            raise InputError("question sheet: no question of these topics and levels fits here")
        dice.shuffle(fitting)
        wanted = 1 if wish.random_installations else wish.count
        for asked in fitting[:wanted]:
            items.append(_item(len(items) + 1, asked, assessment, dice))
        if len(items) >= wish.count or not wish.random_installations:
            break
    return Sheet(installation.name, wish.seed, tuple(items))


def refuse_unknown(wish: Wish) -> None:
    """Refuse a wish that names what there is not.

    Args:
        wish: What a sheet should hold.

    Raises:
        InputError: an unknown topic or level, or too many questions.
    """
    for what, found, known in (("topic", wish.topics, TOPICS), ("level", wish.levels, LEVELS)):
        for item in found:
            if item not in known:
                expected = ", ".join(str(k) for k in known)
                raise InputError(f"{what}: given {item!r}; expected one of {expected}")
    if not 1 <= wish.count <= MOST:
        raise InputError(f"number: given {wish.count}; expected 1 to {MOST}")


def _subjects(installation: Installation, wish: Wish) -> Iterator[Assessment]:
    if wish.random_installations:
        yield from plausible(installation, wish.seed)
    else:
        yield assess(installation)


def _fits(asked: Asked, wish: Wish) -> bool:
    return (not wish.topics or asked.topic in wish.topics) and (
        not wish.levels or asked.level in wish.levels
    )


def _item(number: int, asked: Asked, assessment: Assessment, dice: random.Random) -> Item:
    spoken = sheet_words()
    filler = Filler(assessment, facts_of(assessment))
    options, right = _options(asked, dice)
    steps = derivation(asked.answer)
    return Item(
        number=number,
        topic=spoken.topic[asked.topic],
        level=asked.level,
        about=assessment.installation.name,
        text=filler.line(spoken.question[asked.key]),
        given=tuple(_quantity(step) for step in steps if step.kind is not Kind.FORMULA),
        options=options,
        right=right,
        steps=tuple(_worked(step) for step in steps if step.kind is Kind.FORMULA),
        answer=_quantity(asked.answer.step),
    )


def _options(asked: Asked, dice: random.Random) -> tuple[tuple[Option, ...], int]:
    """The right answer among wrong ones that can be told from it and from one another."""
    unit, words = asked.answer.step.label.unit, sheet_words().slip
    taken = [float(asked.answer)]
    wrong: list[Option] = []
    for slip, value in asked.slips.items():
        apart = all(abs(value - other) > APART * max(abs(value), abs(other)) for other in taken)
        if apart and len(wrong) < OPTIONS - 1:
            taken.append(value)
            wrong.append(Option(_printed(value, unit), words[slip]))
    place = dice.randrange(len(wrong) + 1)
    dice.shuffle(wrong)
    right = Option(_printed(float(asked.answer), unit), "")
    return (*wrong[:place], right, *wrong[place:]), place


def _printed(value: float, unit: str) -> str:
    name = unit_name(unit)
    return f"{shown(value, unit)}{SPACE}{name}" if name else shown(value, unit)


def _quantity(step: Step) -> Quantity:
    label = step.label
    return Quantity(label.name, label.symbol, shown(step.value, label.unit), unit_name(label.unit))


def _of_input(item: Input) -> Quantity:
    label = item.label
    return Quantity(label.name, label.symbol, shown(item.value, label.unit), unit_name(label.unit))


def _worked(step: Step) -> WorkedStep:
    source = f"{step.citation} ({step.citation.trust})" if step.citation else ""
    inputs = tuple(_of_input(item) for item in step.inputs)
    return WorkedStep(_quantity(step), step.typeset, inputs, source)
