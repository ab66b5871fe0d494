"""Extremes through the whole assessment: each finite or told, and heat accounted for in each."""

import math
from dataclasses import replace
from functools import cache
from itertools import product
from pathlib import Path

import pytest

import shedlight as sl
from shedlight.checks.catalogue import ANSWERS, questions
from shedlight.checks.check import Verdict
from shedlight.physics.heat.conduction import equal_section
from shedlight.physics.heat.heat_stores import Spell, after
from shedlight.physics.heat.network import Network
from shedlight.physics.heat.steady import steady_state
from shedlight.physics.heat.steady_stores import mean_conductor
from shedlight.trace import out_of_range
from shedlight.workings.heat import Steady
from shedlight.workings.heat.cold import Cold, ColdStart
from shedlight.workings.heat.section import SectionHeat, section_heat
from shedlight.workings.heat.settled import Settled

EXAMPLES = Path(__file__).parents[2] / "examples"
ZERO = 273.15
FROST = {
    "site__coldest_air": ZERO - 45,
    "site__hottest_air": ZERO - 40,
    "site__irradiance": 0.0,
    "transformer__top_oil_temperature": ZERO - 40,
}
EXTREMES = {
    "nothing": {},
    "next to no current": {"duty__rated_current": 1.0},
    "frost of 40 degrees": FROST,
    "frost without current": {**FROST, "duty__rated_current": 1.0},
    "oil below the cap": {"transformer__lowest_oil_level": 0.15},
    "oil below the cover": {
        "transformer__lowest_oil_level": -0.6,
        "transformer__highest_oil_level": -0.5,
    },
    "horizontal": {"transformer__mounting_angle": math.pi / 2},
    "horizontal in frost": {**FROST, "transformer__mounting_angle": math.pi / 2},
    "oil below the cap in frost": {**FROST, "transformer__lowest_oil_level": 0.15},
    "all at once": {
        **FROST,
        "duty__rated_current": 1.0,
        "transformer__mounting_angle": math.pi / 2,
        "transformer__lowest_oil_level": 0.0,
    },
}
CASES = tuple(product(("inland-12kv", "quay-24kv", "quarry-36kv"), EXTREMES))


@cache
def assessed(name: str, extreme: str) -> sl.Assessment:
    case = sl.read(EXAMPLES / f"{name}.toml")
    return sl.assess(sl.changed(case, **EXTREMES[extreme]))


def states(work: object) -> list[Settled]:
    heat = work.heat  # type: ignore[attr-defined]
    assert isinstance(heat.steady, Steady), heat.steady
    assert isinstance(heat.cold, Cold), heat.cold
    return [heat.steady.safe, heat.cold.loaded, heat.cold.idle]


@pytest.mark.parametrize(("name", "extreme"), CASES)
def test_every_number_is_finite_and_every_gap_is_told(name: str, extreme: str) -> None:
    for check in assessed(name, extreme).checks:
        for number in (check.demand, check.capability):
            assert number is None or math.isfinite(number), check.id
        for step in check.trace:
            assert math.isfinite(step.value), (check.id, step.label.name)
        if check.verdict is Verdict.NOT_ASSESSED:
            assert check.reason.strip(), check.id


@pytest.mark.parametrize(("name", "extreme"), CASES)
def test_heat_in_is_heat_out_within_a_thousandth(name: str, extreme: str) -> None:
    """Three states each: hottest day, coldest air at rated current, coldest air without any."""
    for state in states(assessed(name, extreme).workings):
        assert state.unaccounted < 1e-3
        turned_over = abs(state.generated) + abs(state.led_in)
        assert abs(state.generated - state.given_off) < 1e-3 * turned_over
        assert state.state.change < 1e-6
    check = assessed(name, extreme).check("heat.balance")
    assert check.margin is None
    assert "closes within one part in" in check.reason
    beyond = check.demand is not None and out_of_range(check.demand)
    assert check.verdict is (Verdict.CAUTION if beyond else Verdict.PASS)


@pytest.mark.parametrize(("name", "extreme"), CASES)
def test_without_load_everything_is_as_cold_as_the_air(name: str, extreme: str) -> None:
    work = assessed(name, extreme).workings
    *_, idle = states(work)
    coldest = work.installation.site.coldest_air
    for part in idle.parts:
        for value in (part.conductor, part.bore, part.surface):
            assert value is None or value == pytest.approx(coldest, abs=0.05)


@pytest.mark.parametrize("name", ["inland-12kv", "quay-24kv", "quarry-36kv"])
def test_air_of_forty_degrees_below_zero_is_computed_and_cautioned(name: str) -> None:
    """Oil properties end at 0 °C: what hangs on them may not pass silently."""
    assessment = assessed(name, "frost of 40 degrees")
    hot = assessment.workings.heat.steady
    assert isinstance(hot, Steady)
    assert ZERO - 40 < hot.safe.hot_spot < ZERO
    assert ZERO - 40 < hot.safe.terminal < ZERO
    for identifier in ("conductor.hot-spot", "terminal.rise", "oil.temperature"):
        check = assessment.check(identifier)
        assert check.demand is not None
        assert out_of_range(check.demand)
        assert check.verdict is Verdict.CAUTION
    assert any("colder than the fits" in remark for remark in hot.remarks)


def test_thick_oil_keeps_more_heat_in_the_lower_end() -> None:
    """The same bushing and losses, 40 K colder: poorer films, a larger rise of the end in oil."""
    cold = assessed("quarry-36kv", "frost of 40 degrees").workings.heat.steady
    cool = sl.changed(
        sl.read(EXAMPLES / "quarry-36kv.toml"),
        **{
            **FROST,
            "site__hottest_air": ZERO + 1,
            "transformer__top_oil_temperature": ZERO + 1,
        },
    )
    mild = sl.assess(cool).workings.heat.steady
    assert isinstance(cold, Steady)
    assert isinstance(mild, Steady)
    resistance = 1 + 0.00393 * -60, 1 + 0.00393 * -19  # losses follow the metal's resistance
    per_watt = [
        (state.safe.lower_terminal - oil) / loss
        for state, oil, loss in zip((cold, mild), (ZERO - 40, ZERO + 1), resistance, strict=True)
    ]
    assert per_watt[0] > 1.1 * per_watt[1]


def test_load_that_comes_on_in_frost_is_judged() -> None:
    case = sl.changed(sl.read(EXAMPLES / "quarry-36kv.toml"), site__coldest_air=ZERO - 40)
    assessment = sl.assess(case)
    start = assessment.workings.warmth.start
    assert isinstance(start, ColdStart)
    assert 10 < start.lead < 100
    assert 0 < start.drop < 40
    check = assessment.check("body.cold-start")
    # The oil beside the cap stays below 0 °C, where its properties end: enough, but not surely.
    assert check.verdict is Verdict.CAUTION
    assert "to spare, but Oil temperature lies outside" in check.reason
    mild = sl.assess(sl.read(EXAMPLES / "quay-24kv.toml")).check("body.cold-start")
    assert mild.verdict is Verdict.PASS
    assert check.demand is not None
    assert any("Greatest heat from the oil" in step.label.name for step in check.trace)
    harder = sl.assess(sl.changed(case, duty__rated_current=1200.0))
    hoop = harder.check("body.cold-start").demand
    assert hoop is not None
    assert hoop > check.demand


def test_load_that_comes_on_in_frost_leads_to_the_frosty_state() -> None:
    """The stores behind the lead settle at the mean conductor of the coldest day under load."""
    case = sl.changed(sl.read(EXAMPLES / "quarry-36kv.toml"), site__coldest_air=ZERO - 40)
    cold = sl.assess(case).workings.heat.cold
    assert isinstance(cold, Cold)
    assert isinstance(cold.start, ColdStart)
    for number in (cold.start.lead, cold.start.heat):
        shared = [used.value for used in number.step.inputs[:4]]
        stores = Network(*shared).stores  # type: ignore[arg-type]
        around = cold.loaded.model.around
        spell = Spell(1e8, around.current, around.oil, around.air)
        conductor, *_ = after(stores, (ZERO, ZERO, ZERO), spell)
        assert conductor == pytest.approx(mean_conductor(cold.loaded.state), abs=1e-3)


def test_a_cold_day_that_does_not_settle_is_said_beside_the_balance() -> None:
    work = sl.assess(sl.read(EXAMPLES / "inland-12kv.toml")).workings
    why = "no steady temperature in the coldest air: made up"
    work.__dict__["heat"] = replace(work.heat, cold=why)
    check = ANSWERS["heat.balance"](questions()["heat.balance"], work.installation, work)
    assert f"The coldest day is left out: {why}." in check.notes


@pytest.mark.parametrize(
    ("coldest", "lowest", "verdict"),
    [
        (ZERO - 40, ZERO - 30, Verdict.FAIL),
        (ZERO - 40, ZERO - 40, Verdict.PASS),
        (ZERO - 25, ZERO - 30, Verdict.PASS),
    ],
)
def test_oil_must_flow_when_switched_on_cold(
    coldest: float, lowest: float, verdict: Verdict
) -> None:
    case = sl.changed(
        sl.read(EXAMPLES / "quay-24kv.toml"),
        site__coldest_air=coldest,
        transformer__oil_cold_start=lowest,
    )
    assert sl.assess(case).check("oil.cold-start").verdict is verdict


def test_oil_that_shrinks_needs_a_way_in_and_a_level_above_it() -> None:
    case = sl.changed(sl.read(EXAMPLES / "quay-24kv.toml"), site__coldest_air=ZERO - 40)
    assert sl.assess(case).check("oil.contraction").verdict is Verdict.PASS
    filling = sl.assess(case).workings.filling
    assert filling.contraction == pytest.approx(
        7.5e-4 * 60 * sl.assess(case).workings.oil.volume, rel=1e-9
    )
    closed = sl.changed(case, bushing__oil_space__opening="closed")
    low = sl.changed(case, transformer__lowest_oil_level=0.1)
    assert sl.assess(closed).check("oil.contraction").verdict is Verdict.CAUTION
    assert sl.assess(low).check("oil.contraction").verdict is Verdict.FAIL


# --- what is settled is what other rooms take ------------------------------------------------


def test_the_tie_slackens_by_settled_temperatures() -> None:
    case = sl.read(EXAMPLES / "inland-12kv.toml")
    work = sl.assess(case).workings
    warmth, cap = work.warmth, case.bushing.cap
    assert cap.clamp_force is not None
    assert cap.spring_rate is not None
    length = work.section.heights.cap_base - work.section.heights.oil_end
    growth = 17e-6 * (warmth.conductor - 293.15) - 5e-6 * (warmth.porcelain - 293.15)
    assert work.loads.tie_warm == pytest.approx(
        cap.clamp_force - cap.spring_rate * growth * length, rel=1e-9
    )
    assert warmth.conductor > warmth.porcelain
    assert warmth.guessed == ""


def test_settled_temperatures_reach_gasket_oil_and_wall() -> None:
    work = sl.assess(sl.read(EXAMPLES / "quarry-36kv.toml")).workings
    steady, cold = work.heat.steady, work.heat.cold
    assert isinstance(steady, Steady)
    assert isinstance(cold, Cold)
    assert work.warmth.gasket == steady.gasket
    assert work.filling.expansion == pytest.approx(
        7.5e-4 * (steady.oil - work.installation.site.coldest_air) * work.oil.volume, rel=1e-9
    )
    share = 1 - 0.5 ** (2 ** ((steady.gasket - 373.15) / 10))
    assert work.sealing.set_share == pytest.approx(share, rel=1e-9)
    behind = {float(p.conductor) for p in cold.loaded.parts if p.name in ("collar", "air end")}
    assert float(work.warmth.behind_cold_wall) == max(behind)


def test_where_nothing_settles_the_top_oil_stands_in_and_no_check_passes_on_it() -> None:
    case = sl.changed(sl.read(EXAMPLES / "inland-12kv.toml"), duty__rated_current=6000.0)
    assessment = sl.assess(case)
    warmth = assessment.workings.warmth
    assert "no steady temperature" in warmth.guessed
    assert float(warmth.conductor) == case.transformer.top_oil_temperature
    for identifier in ("gasket.set", "conductor.expansion", "cap.clamping"):
        check = assessment.check(identifier)
        assert check.verdict in (Verdict.CAUTION, Verdict.FAIL), identifier
        numbers = [number for number in (check.demand, check.capability) if number is not None]
        assert any("no steady temperature" in why for why in out_of_range(*numbers)), identifier


def test_a_warm_wall_feeds_its_loss_back() -> None:
    """Loss of the voltage counted at the settled wall, not at 20 °C: twice per 40 K."""
    work = sl.assess(sl.read(EXAMPLES / "quarry-36kv.toml")).workings
    steady = work.heat.steady
    assert isinstance(steady, Steady)
    index = steady.safe.model.names.index("hole")
    zone, side = steady.safe.state.chain.zones[index], steady.safe.state.across[index]
    warm = float(work.heat.dielectric) * 2 ** ((side.wall - 293.15) / 40)
    assert zone.other_power == pytest.approx(warm, rel=1e-6)
    assert warm > 2 * work.heat.dielectric


# --- metal at the ends -----------------------------------------------------------------------


def test_a_wide_stud_on_a_thin_rod_is_no_hotter_than_its_own_metal_makes_it() -> None:
    """Rod of 8 mm: ends as thin as the rod would be some kelvin too hot, elements say which."""
    case = sl.changed(
        sl.read(EXAMPLES / "inland-12kv.toml"),
        bushing__conductor__diameter=0.008,
        bushing__oil_end__stud_diameter=0.020,
        duty__rated_current=250.0,
    )
    work = sl.assess(case).workings
    steady = work.heat.steady
    assert isinstance(steady, Steady)
    safe = steady.safe
    pieces = {piece.name: piece for piece in safe.model.pieces}
    assert pieces["lower stem"].stretch.area_ratio == pytest.approx((20 / 8) ** 2)
    assert pieces["cap"].stretch.area_ratio > 1.5
    thin = replace(
        safe.model.case,
        stretches=tuple(replace(one, area_ratio=1.0) for one in safe.model.case.stretches),
    )
    as_thin = steady_state(thin)
    assert as_thin.upper_terminal > safe.terminal + 1.0
    assert as_thin.lower_terminal > safe.lower_terminal + 0.3
    solved = section_heat(work.installation, work.section, work.measures, safe, work.heat.cover)
    assert isinstance(solved, SectionHeat)
    # Elements take cap and shield for solid metal: the stretches stay above, now half as far.
    assert (
        solved.terminal
        < safe.terminal
        < solved.terminal + 0.6 * (as_thin.upper_terminal - solved.terminal)
    )
    assert (
        solved.hot_spot
        < safe.hot_spot
        < solved.hot_spot + 0.5 * (as_thin.hot_spot[1] - solved.hot_spot)
    )


def test_sections_in_series_conduct_as_their_resistances_add() -> None:
    assert equal_section((1.0, 2.0), (2.0, 4.0)) == pytest.approx(3.0)
    assert equal_section((0.3,), (5.0,)) == pytest.approx(5.0)
    with pytest.raises(sl.InputError, match="as many"):
        equal_section((1.0,), ())
