"""Why a dimension is what it is, in the words of the page."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from shedlight.checks.catalogue import questions
from shedlight.documents.numerals import percent
from shedlight.figures.why import shown
from shedlight.sizing.bounds import SHAPE, Bound
from shedlight.sizing.reasons import Reason

MOST_SLOPES = 6
SHAPE_WORDS = "the shape that can be drawn"


@dataclass(frozen=True)
class Moved:
    """How a margin moves with the dimension."""

    title: str
    check: str
    margin: str
    per_step: str


@dataclass(frozen=True)
class Reasoned:
    """One dimension with its reason, in words.

    Attributes:
        path: Where it stands in the description.
        name: What it is called.
        value: What it is.
        summary: What governs it and how much is to spare, in one line.
        rows: What was asked, and the answer.
        step: What the slopes are counted by.
        slopes: Every margin that it soonest brings to zero.
        check: Id of the check that governs it; empty if none does.
    """

    path: str
    name: str
    value: str
    summary: str
    rows: tuple[tuple[str, str], ...]
    step: str
    slopes: tuple[Moved, ...]
    check: str

    @property
    def key(self) -> str:
        """Its id on the page."""
        return "reason-" + self.path.replace(".", "-").replace("_", "-")


def title_of(check: str) -> str:
    """What a check asks, in the words of the catalogue; wishes and shapes in their own.

    Args:
        check: Its id.
    """
    known = questions().get(check)
    if known is not None:
        return known.title
    if check == SHAPE:
        return SHAPE_WORDS
    return check.partition(".")[2].replace("_", " ") or check


def reasoned(reason: Reason) -> Reasoned:
    """A reason in words.

    Args:
        reason: Why one dimension is what it is.
    """
    first = reason.governing
    is_check = first is not None and first.check != SHAPE
    step, per = _step(reason)
    return Reasoned(
        reason.path,
        reason.name,
        shown(reason.path, reason.value),
        "no check limits it near its value" if first is None else _summary(reason, first),
        tuple(_rows(reason)),
        step,
        tuple(
            Moved(title_of(s.check), s.check, percent(s.margin), percent(s.per_step * per))
            for s in reason.closest(MOST_SLOPES)
        ),
        first.check if first is not None and is_check else "",
    )


def _summary(reason: Reason, first: Bound) -> str:
    return f"{title_of(first.check)}, {_slack(reason)}"


def _slack(reason: Reason) -> str:
    slack = reason.slack or 0.0
    return f"{shown(reason.path, abs(slack))} {'to spare' if slack >= 0 else 'missing'}"


def _rows(reason: Reason) -> Iterator[tuple[str, str]]:
    first = reason.governing
    if first is None:
        yield "Governed by", "nothing between a third and three times of its value"
        return
    yield "Governed by", title_of(first.check)
    yield "Would just do with", _side(reason, first)
    yield "Slack", _slack(reason)
    if reason.next is not None:
        yield "Gives way next", f"{title_of(reason.next.check)}: {_side(reason, reason.next)}"
    if reason.ceiling is not None:
        ceiling = reason.ceiling
        yield "On the other side", f"{title_of(ceiling.check)}: {_side(reason, ceiling)}"
    for bound in reason.out_of_reach:
        yield "Short too, but not to be mended by this", title_of(bound.check)


def _side(reason: Reason, bound: Bound) -> str:
    return f"{'at least' if bound.lower else 'at most'} {shown(reason.path, bound.value)}"


def _step(reason: Reason) -> tuple[str, float]:
    """What the slopes are counted by, in words and in SI."""
    if reason.path.endswith("count"):
        return "one shed more", 1.0
    if reason.path.endswith("slope"):
        return "one degree more", math.radians(1)
    return "one millimetre more", 1e-3
