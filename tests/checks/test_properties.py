"""What must hold for every bushing, not only for three."""

import math
from functools import partial

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import shedlight as sl
from shedlight.checks.check import Check, Verdict
from strategies import installations

AIR_WITHSTAND = (
    "air.arcing-distance.lightning",
    "air.arcing-distance.wet-ac",
    "air.arcing-distance.dry-ac",
    "clearance.phase-earth",
)
FEW = settings(max_examples=12, deadline=None)


def assessed(case: sl.Installation) -> sl.Assessment:
    try:
        return sl.assess(case)
    except sl.InputError:
        assume(False)
        raise


def margin(assessment: sl.Assessment, identifier: str) -> float:
    found = assessment.check(identifier).margin
    return math.nan if found is None else found


@FEW
@given(installations())
def test_no_answer_is_nan_or_infinite_and_none_passes_silently_out_of_range(
    case: sl.Installation,
) -> None:
    for check in assessed(case).checks:
        for number in (check.demand, check.capability):
            assert number is None or math.isfinite(number), check.id
        assert check.margin is None or not math.isnan(check.margin), check.id
        if any(step.beyond for step in check.trace):
            assert check.verdict is not Verdict.PASS, check.id
        assert check.reason


@FEW
@given(installations(), st.floats(0.0, 4000.0), st.floats(0.0, 4000.0))
def test_thin_air_never_helps_a_withstand_and_never_hurts_the_protection_of_horns(
    case: sl.Installation, one: float, other: float
) -> None:
    low, high = sorted((one, other))
    below = assessed(sl.changed(case, site__altitude=low))
    above = assessed(sl.changed(case, site__altitude=high))

    for identifier in AIR_WITHSTAND:
        assert margin(above, identifier) <= margin(below, identifier) * (1 + 1e-12) + 1e-12
    if case.bushing.horns is not None:
        assert margin(above, "horns.protection") >= margin(below, "horns.protection") - 1e-12
        assert margin(above, "horns.ride-through") <= margin(below, "horns.ride-through") + 1e-12


@FEW
@given(installations())
def test_more_sheds_at_one_pitch_never_lower_the_creepage_margin(case: sl.Installation) -> None:
    assume(case.bushing.sheds is not None and case.bushing.sheds.count > 2)
    assert case.bushing.sheds is not None
    # Two fewer keeps an alternating body alternating and the average diameter as it was.
    fewer = sl.changed(case, bushing__sheds__count=case.bushing.sheds.count - 2)
    assume(case.bushing.porcelain.top_wall == case.bushing.porcelain.wall)
    assume(fewer.bushing.sheds is not None and fewer.bushing.sheds.count > 1)

    assert margin(assessed(fewer), "surface.creepage") < margin(assessed(case), "surface.creepage")


@FEW
@given(installations(), st.sampled_from("abcd"))
def test_a_dirtier_class_never_asks_for_less(case: sl.Installation, letter: str) -> None:
    """In thin air a surface long enough by the class is judged by a rule that asks for more.

    So the margin falls within a verdict, and a milder verdict never comes of more dirt.
    """
    worse = chr(ord(letter) + 1)
    cleaner = partial(
        sl.changed, case, site__deposit=None, site__deposit_below=None, site__salinity=None
    )

    dirty, clean = (
        assessed(cleaner(site__pollution_class=one)).check("surface.creepage")
        for one in (worse, letter)
    )
    assert dirty.margin is not None
    assert clean.margin is not None
    severity = [Verdict.PASS, Verdict.CAUTION, Verdict.FAIL].index
    if dirty.verdict is clean.verdict:
        assert dirty.margin < clean.margin
    else:
        assert severity(dirty.verdict) > severity(clean.verdict)


@FEW
@given(installations(), st.floats(1.05, 3.0))
def test_more_current_never_cools(case: sl.Installation, factor: float) -> None:
    current = case.duty.rated_current
    assume(current * factor < 40000)
    cool = assessed(case)
    warm = assessed(sl.changed(case, duty__rated_current=current * factor))

    for identifier in ("conductor.current-density", "terminal.contact"):
        assert margin(warm, identifier) < margin(cool, identifier)
    hot, before = warm.workings.heat.hot_spot, cool.workings.heat.hot_spot
    assert hot is None or (before is not None and hot >= before - 1e-9)


@FEW
@given(installations())
def test_stress_is_proportional_to_voltage(case: sl.Installation) -> None:
    # Raised levels have to stay within what a description may hold.
    assume(case.duty.power_frequency_dry <= 180e3 and case.duty.lightning_impulse <= 360e3)
    at = assessed(case).workings.radial
    double = assessed(
        sl.changed(
            case,
            duty__power_frequency_dry=case.duty.power_frequency_dry * 1.1,
            duty__lightning_impulse=case.duty.lightning_impulse * 1.1,
        )
    ).workings.radial

    for layer in ("oil", "porcelain", "gap"):
        one, other = (r.stress(layer, "oil", "dry test").inner for r in (at, double))
        assert other == pytest.approx(1.1 * one, rel=1e-12)


def _numbers(check: Check) -> tuple[float | None, float | None]:
    return (
        None if check.demand is None else float(check.demand),
        None if check.capability is None else float(check.capability),
    )


@FEW
@given(installations())
def test_assessing_twice_and_after_a_round_trip_gives_the_same(case: sl.Installation) -> None:
    first, again = assessed(case), assessed(sl.parse(sl.to_toml(case)))

    for one, other in zip(first.checks, again.checks, strict=True):
        assert (one.id, one.verdict, one.reason, one.margin) == (
            other.id,
            other.verdict,
            other.reason,
            other.margin,
        )
        assert _numbers(one) == _numbers(other)
