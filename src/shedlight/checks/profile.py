"""The shape of the sheds against the limits of the pollution guides."""

from collections.abc import Callable
from dataclasses import dataclass

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, Rival, fact, held, rival
from shedlight.given.bushing import AlternatingSheds, Installation, PlainSheds, Sheds
from shedlight.physics.surface.creepage import profile_factor_alternating, profile_factor_plain
from shedlight.physics.surface.profile_limits import Deviation, ProfileLimit, applicable_limits
from shedlight.physics.surface.ratios import pitch_over_overhang
from shedlight.trace import Label, Number, calculate, looked_up, measured
from shedlight.workings import Workings
from shedlight.workings.numbers import Description

DECIDING, NEWER = "IEC 815", "IEC 60815-2"


@dataclass(frozen=True)
class _Rule:
    """One rule: its name in the limit tables, and how the value is measured."""

    parameter: str
    symbol: str
    measure: Callable[[Installation, Workings, Sheds], Number | None]


def _limit_number(row: ProfileLimit, value: float, symbol: str) -> Number:
    label = Label(row.what[0].upper() + row.what[1:], symbol, row.unit)
    return looked_up(value, label, row.citation, f"{row.citation.where}, class {row.letters}")


def _pair(row: ProfileLimit, value: Number, symbol: str) -> tuple[Number, Number]:
    """(demand, capability) of a value against the nearer bound of a limit row."""
    low, high = row.no_deviation.lowest, row.no_deviation.highest
    if high is None or (low is not None and value - low < high - value):
        assert low is not None
        return _limit_number(row, low, symbol), value
    return value, _limit_number(row, high, symbol)


def _limits(case: Installation, work: Workings, edition: str) -> dict[str, ProfileLimit]:
    sheds = case.bushing.sheds
    assert sheds is not None
    rows = applicable_limits(
        edition,
        work.surface.severity.letter,
        sheds.overhang,
        case.bushing.porcelain.air_length,
        ribbed=sheds.ribs > 0,
        alternating=isinstance(sheds, AlternatingSheds),
    )
    return {row.parameter: row for row in rows}


def _answer(rule: _Rule, question: Question, case: Installation, work: Workings) -> Check:
    sheds = case.bushing.sheds
    value = rule.measure(case, work, sheds) if sheds is not None else None
    if value is None:
        return fact(question, True, "the profile has nothing this rule could limit")
    row = _limits(case, work, DECIDING)[rule.parameter]
    demand, capability = _pair(row, value, rule.symbol)
    rivals, notes = _newer(rule, question, case, work, value)
    return held(question, demand, capability, place="air side", rivals=rivals, notes=notes)


def _newer(
    rule: _Rule, question: Question, case: Installation, work: Workings, value: Number
) -> tuple[tuple[Rival, ...], tuple[str, ...]]:
    newer = _limits(case, work, NEWER).get(rule.parameter)
    if newer is None:
        return (), ()
    demand, capability = _pair(newer, value, rule.symbol)
    beside = rival(question, NEWER, demand, capability)
    grade = newer.deviation(value)
    if grade is Deviation.NONE:
        return (beside,), ()
    return (beside,), (f"A {grade} deviation by {newer.citation.source.key}, as remembered.",)


def _clearance(case: Installation, work: Workings, sheds: Sheds) -> Number | None:
    if len(work.measures.sheds) < 2:
        return None
    label = Label("Smallest clearance between sheds", "c", "mm")
    return measured(work.measures.smallest_clearance, label, "lowest point to the shed below")


def _spacing(case: Installation, work: Workings, sheds: Sheds) -> Number | None:
    if sheds.count < 2:
        return None
    number = Description(case)
    repeat = 2 if isinstance(sheds, AlternatingSheds) else 1
    pitch = measured(
        repeat * sheds.pitch, Label("Spacing of like sheds", "s", "mm"), "long to next long"
    )
    return calculate(pitch_over_overhang, pitch, number("bushing.sheds.overhang"))


def _steepest(case: Installation, work: Workings, sheds: Sheds) -> Number | None:
    label = Label("Largest creepage over air distance", "l/d", "1")
    how = "any two points of the porcelain that see each other"
    return measured(work.measures.largest_creepage_over_air, label, how)


def _slope(case: Installation, work: Workings, sheds: Sheds) -> Number | None:
    return Description(case)("bushing.sheds.top_slope")


def _step(case: Installation, work: Workings, sheds: Sheds) -> Number | None:
    if not isinstance(sheds, AlternatingSheds):
        return None
    label = Label("Long less short overhang", "p_1 - p_2", "mm")
    return measured(sheds.overhang - sheds.short_overhang, label, "as described")


def _crowding(case: Installation, work: Workings, sheds: Sheds) -> Number | None:
    return work.surface.creepage_factor


def _profile_factor(case: Installation, work: Workings, sheds: Sheds) -> Number | None:
    repeat = work.measures.creepage_per_repeat
    if repeat is None:
        return None
    number = Description(case)
    creepage = measured(repeat, Label("Creepage per repeat", 'l_"d"', "mm"), "tip to like tip")
    overhang = number("bushing.sheds.overhang")
    if isinstance(sheds, PlainSheds):
        return calculate(profile_factor_plain, overhang, number("bushing.sheds.pitch"), creepage)
    pitch = measured(2 * sheds.pitch, Label("Spacing of like sheds", "s", "mm"), "long to long")
    short = number("bushing.sheds.short_overhang")
    return calculate(profile_factor_alternating, overhang, short, pitch, creepage)


RULES = {
    "surface.profile.c": _Rule("clearance", "c", _clearance),
    "surface.profile.s-p": _Rule("pitch over overhang", "s/p", _spacing),
    "surface.profile.l-d": _Rule("creepage over clearance", "l/d", _steepest),
    "surface.profile.slope": _Rule("shed angle", "alpha", _slope),
    "surface.profile.overhang-step": _Rule("overhang difference", "p_1 - p_2", _step),
    "surface.profile.cf": _Rule("creepage factor", 'C_"f"', _crowding),
    "surface.profile.pf": _Rule("profile factor", 'P_"f"', _profile_factor),
}


def _register(identifier: str, rule: _Rule) -> None:
    @answers(identifier)
    def answer(question: Question, case: Installation, work: Workings) -> Check:
        return _answer(rule, question, case, work)


for _identifier, _rule in RULES.items():
    _register(_identifier, _rule)
