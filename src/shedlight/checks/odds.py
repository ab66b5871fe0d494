"""Odds of a year: dirt, lightning and switching against what an owner bears."""

from dataclasses import replace

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, held, rival
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.units import amount
from shedlight.workings import Workings
from shedlight.workings.odds import SurgeOdds

ROUGH = "odds rest on spreads that are assumed"
COUNTED = 1e-6
AS_CHOSEN = (
    "The surge is not described: the level is taken to stand 1.15 times above what 2 % of surges "
    "reach, as where arresters were chosen for it."
)
RE_ENERGISED = "The surge is not described: that of a re-energised line is taken."
SHORT_GAPS = (
    "Short gaps are taken to hold switching surges as they hold the peak of alternating voltage, "
    "dry; rain takes a few per cent."
)


@answers("odds.pollution")
def pollution(question: Question, case: Installation, work: Workings) -> Check:
    """Odds that dirt and fog flash at least one bushing over in a year."""
    odds = work.odds
    borne = limit("odds pollution")
    other = rival(question, odds.other_dirt.by, odds.other_dirt.per_year, borne)
    notes = (
        f"For {amount(odds.bushings, '1')} bushings that meet the same fog; strength by: "
        f"{odds.dirt.by[0].lower()}{odds.dirt.by[1:]}.",
        "What is described counts as the severity that 2 % of the wetting events exceed.",
        *_floor(odds.dirt.per_year),
    )
    return held(
        question,
        odds.dirt.per_year,
        borne,
        place="air side",
        rivals=(other,),
        notes=notes,
        cap=ROUGH,
    )


@answers("odds.lightning")
def lightning(question: Question, case: Installation, work: Workings) -> Check:
    """Odds that lightning sparks the air end over in a year."""
    return _surge(question, work, work.odds.lightning, AS_CHOSEN)


@answers("odds.switching")
def switching(question: Question, case: Installation, work: Workings) -> Check:
    """Odds that switching sparks the air end over in a year."""
    check = _surge(question, work, work.odds.switching, RE_ENERGISED)
    return replace(check, notes=(*check.notes, SHORT_GAPS))


def _surge(question: Question, work: Workings, found: SurgeOdds, taken: str) -> Check:
    horns = "Horns, where fitted, spark over first: these are the odds of the bushing itself."
    notes = (
        *(() if found.is_given else (taken,)),
        f"For {amount(work.odds.bushings, '1')} bushings that the surge meets; statistical "
        f"safety factor {amount(found.safety, '1')}.",
        *((horns,) if work.air.horns is not None else ()),
        *_floor(found.per_year),
    )
    borne = limit("odds overvoltage")
    return held(question, found.per_year, borne, place="arcing path", notes=notes, cap=ROUGH)


def _floor(per_year: float) -> tuple[str, ...]:
    if per_year > COUNTED:
        return ()
    return ("One in a million stands for anything rarer: nobody knows tails so far out.",)
