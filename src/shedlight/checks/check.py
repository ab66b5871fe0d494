"""One question a reviewer would ask, answered: demand against capability, verdict, and why."""

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib import resources
from types import MappingProxyType

from shedlight.sources import Basis, Citation, weakest
from shedlight.trace import Number, Step, behind, derivation

AMPLE = 100.0  # a margin beyond this is told as ample, not to the last digit


class Verdict(StrEnum):
    """What a check says; the order is from good to bad."""

    PASS = "pass"
    CAUTION = "caution"
    NOT_ASSESSED = "not-assessed"
    FAIL = "fail"


@dataclass(frozen=True)
class Question:
    """An entry of the catalogue: what is asked, of which part, and why it matters."""

    id: str
    part: str
    title: str
    demand: str
    capability: str
    unit: str
    why: str


@dataclass(frozen=True)
class Rival:
    """Another published or practised answer to the same question, shown beside the deciding one."""

    title: str
    demand: Number
    capability: Number
    margin: float
    why_not: str


@dataclass(frozen=True)
class Check:
    """One answered question.

    ``demand`` has to stay at or below ``capability``; both are SI and carry their trace. Facts and
    what was not assessed have neither.
    """

    question: Question
    verdict: Verdict
    reason: str
    demand: Number | None = None
    capability: Number | None = None
    margin: float | None = None
    place: str = ""
    rivals: tuple[Rival, ...] = ()
    notes: tuple[str, ...] = ()
    cited: tuple[Citation, ...] = ()

    @property
    def id(self) -> str:
        """Stable dotted id."""
        return self.question.id

    @property
    def trace(self) -> tuple[Step, ...]:
        """Every step of the calculation, inputs first."""
        numbers = [number for number in (self.demand, self.capability) if number is not None]
        return derivation(*numbers)

    @property
    def deciding_source(self) -> Citation | None:
        """The least trusted source the verdict rests on; None for a plain fact."""
        return weakest(self.cited) if self.cited else None

    @property
    def unconfirmed(self) -> tuple[str, ...]:
        """Table rows the verdict hangs on that nobody checked against their publication."""
        weak = (Basis.MEMORY, Basis.PRACTICE)
        cited = (step.citation for step in self.trace if step.citation is not None)
        return tuple(dict.fromkeys(c.row for c in cited if c.row and c.basis in weak))

    @property
    def urgency(self) -> tuple[int, float]:
        """Sorts checks: failed first, then cautions, not assessed, passes; least margin first."""
        order = (Verdict.FAIL, Verdict.CAUTION, Verdict.NOT_ASSESSED, Verdict.PASS)
        return order.index(self.verdict), math.inf if self.margin is None else self.margin


def ratio_margin(demand: float, capability: float) -> float:
    """Margin as one number: capability/demand - 1 (for an upper limit: limit/value - 1)."""
    return capability / demand - 1 if demand > 0 else math.inf


def rise_margin(temperature: float, limit: float, ambient: float) -> float:
    """Margin of a temperature by its rise over ambient, never by degrees [temperatures in K]."""
    return ratio_margin(temperature - ambient, limit - ambient)


def window_margin(value: float, low: float, high: float) -> float:
    """Margin inside a window: the smaller side."""
    return min(value / low - 1, high / value - 1)


def held(
    question: Question,
    demand: Number,
    capability: Number,
    *,
    place: str = "",
    margin: float | None = None,
    rivals: tuple[Rival, ...] = (),
    notes: tuple[str, ...] = (),
    cap: str = "",
) -> Check:
    """Answer a question whose demand must not exceed its capability.

    Args:
        question: What is asked.
        demand: What is needed, or the value that must stay below a limit.
        capability: What is there, or the limit.
        place: Named place on the section where it bites.
        margin: The margin, where it is not capability/demand - 1.
        rivals: Other answers to show beside this one.
        notes: Remarks for the reader.
        cap: Why the verdict may at most be `caution`, if so.
    """
    found = ratio_margin(demand, capability) if margin is None else margin
    rests = behind(demand, capability)
    cited = rests.citations
    verdict, reason = _judge(found, cited, rests.beyond, cap)
    return Check(question, verdict, reason, demand, capability, found, place, rivals, notes, cited)


def proved(
    question: Question,
    missed: Number,
    allowed: Number,
    *,
    place: str = "",
    notes: tuple[str, ...] = (),
) -> Check:
    """Answer whether a calculation agrees with itself, by the share that it misses.

    A proof has no margin: ten times better closed is not ten times safer.

    Args:
        question: What is asked.
        missed: Share that is missed [1].
        allowed: Share that may be missed [1].
        place: Named place on the section.
        notes: Remarks for the reader.
    """
    rests = behind(missed, allowed)
    reason, verdict = "nothing missed", Verdict.PASS
    if missed > 0:
        parts = 10 ** math.floor(-math.log10(missed))
        reason = f"closes within one part in {parts:,}".replace(",", " ")
    if rests.beyond:
        reason, verdict = f"{reason}, but {rests.beyond[0]}", Verdict.CAUTION
    if missed > allowed:
        reason, verdict = "does not close: the calculation is not to be trusted", Verdict.FAIL
    return Check(
        question, verdict, reason, missed, allowed, None, place, (), notes, rests.citations
    )


def _judge(
    margin: float, cited: tuple[Citation, ...], beyond: tuple[str, ...], cap: str
) -> tuple[Verdict, str]:
    if margin < 0:
        weak = [citation for citation in cited if not citation.may_fail]
        if cap:
            return Verdict.CAUTION, f"short by {-margin:.1%}; {cap}"
        if weak:
            source = weakest(tuple(weak))
            return Verdict.CAUTION, f"short by {-margin:.1%}; rests on {source} ({source.trust})"
        if beyond:
            return Verdict.CAUTION, f"short by {-margin:.1%}; {beyond[0]}"
        return Verdict.FAIL, f"short by {-margin:.1%}"
    if beyond:
        return Verdict.CAUTION, f"{_to_spare(margin)}, but {beyond[0]}"
    return Verdict.PASS, _to_spare(margin)


def _to_spare(margin: float) -> str:
    """A margin in words; a demand next to nothing leaves more than a percentage can tell."""
    if math.isinf(margin):
        return "nothing demanded"
    if margin > AMPLE:
        return f"more than {AMPLE:.0f} times over"
    return f"{margin:.1%} to spare"


def fact(
    question: Question,
    holds: bool,
    reason: str,
    *,
    place: str = "",
    citation: Citation | None = None,
    notes: tuple[str, ...] = (),
) -> Check:
    """Answer a question of yes or no; a weak source turns `fail` into `caution`."""
    cited = (citation,) if citation else ()
    verdict = Verdict.PASS
    if not holds:
        firm = citation is not None and citation.may_fail
        verdict = Verdict.FAIL if firm else Verdict.CAUTION
    return Check(question, verdict, reason, place=place, notes=notes, cited=cited)


def not_assessed(question: Question, reason: str, *, place: str = "") -> Check:
    """Leave a question open, saying what is missing."""
    return Check(question, Verdict.NOT_ASSESSED, reason, place=place)


def rival(question: Question, title: str, demand: Number, capability: Number) -> Rival:
    """Another answer to a question, with its own margin; ``deciding.csv`` says why it is not it.

    Args:
        question: What is asked.
        title: The rival's name in the table.
        demand: By the rival's rule.
        capability: By the rival's rule.

    Raises:
        KeyError: the table does not know the rival.
    """
    margin = ratio_margin(demand, capability)
    return Rival(title, demand, capability, margin, deciding()[question.id, title].why)


def disagreement(check: Check, other: Rival) -> float | None:
    """How much more of the capability a rival says is used than the deciding rule does.

    (demand/capability of the rival) / (demand/capability that decides) - 1, so that rules in
    different units compare. None where one of them uses nothing, or is not compared by a ratio.

    Args:
        check: The check, with the rule that decides.
        other: One of its rivals.
    """
    demand, capability = check.demand, check.capability
    if demand is None or capability is None or check.margin is None:
        return None
    by_ratio = math.isclose(check.margin, ratio_margin(demand, capability), abs_tol=1e-12)
    if not by_ratio or min(demand, capability, other.demand, other.capability) <= 0:
        return None
    return (other.demand / other.capability) / (demand / capability) - 1


@dataclass(frozen=True)
class Deciding:
    """Which of several rules decides a question, and why not its rival."""

    check: str
    rival: str
    decides: str
    why: str


@cache
def deciding() -> Mapping[tuple[str, str], Deciding]:
    """The one table that says which rule decides where the trade disagrees."""
    text = resources.files("shedlight.checks").joinpath("deciding.csv").read_text("utf-8")
    rows = (Deciding(**row) for row in csv.DictReader(text.splitlines()))
    return MappingProxyType({(row.check, row.rival): row for row in rows})
