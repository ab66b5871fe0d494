"""The bushing's heat through all floors: balance, extremes, what is fed back, what is assumed."""

import dataclasses
import math
from functools import cache
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import shedlight as sl
from shedlight.checks.check import Verdict
from shedlight.physics.heat import balance, chain
from shedlight.trace import derivation
from shedlight.workings import NO_FIELD, work_out
from shedlight.workings.heat import Heat, Steady
from shedlight.workings.heat.guide import guide_constants
from shedlight.workings.heat.loading import Loading
from shedlight.workings.heat.model import shaded
from shedlight.workings.heat.section import SectionHeat, section_heat
from strategies import installations

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("inland-12kv", "quay-24kv", "quarry-36kv", "quay-24kv-cured", "quarry-36kv-cured")
ZERO = 273.15


@cache
def described(name: str) -> sl.Installation:
    return sl.read(EXAMPLES / f"{name}.toml")


def heat(name: str = "quarry-36kv", /, **changes: object) -> Heat:
    case = described(name)
    return work_out(sl.changed(case, **changes) if changes else case).heat


def steady(name: str = "quarry-36kv", /, **changes: object) -> Steady:
    found = heat(name, **changes).steady
    assert isinstance(found, Steady)
    return found


def loading(name: str = "quarry-36kv", /, **changes: object) -> Loading:
    found = heat(name, **changes).loading
    assert isinstance(found, Loading)
    return found


# --- the trace is the calculation -----------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_the_trace_gives_what_the_rounds_settled_to(name: str) -> None:
    """Every conductance is worked out again step by step; the chain then lies where it lay."""
    safe = steady(name).safe
    state = safe.state
    assert safe.hot_spot == pytest.approx(state.hot_spot[1], abs=1e-5)
    assert safe.terminal == pytest.approx(state.upper_terminal, abs=1e-5)
    assert safe.lower_terminal == pytest.approx(state.lower_terminal, abs=1e-5)
    for part, side, mean in zip(safe.parts, state.across, state.chain.means, strict=True):
        assert part.conductor == pytest.approx(mean, abs=1e-5)
        if part.bore is not None and part.surface is not None:
            assert part.bore == pytest.approx(side.bore, abs=1e-5)
            assert part.surface == pytest.approx(side.surface, abs=1e-5)


@pytest.mark.parametrize("name", NAMES)
def test_heat_is_balanced_far_within_a_thousandth(name: str) -> None:
    safe = steady(name).safe
    assert safe.unaccounted < 1e-7
    assert safe.state.change < 1e-6
    assert safe.generated == pytest.approx(safe.given_off, rel=1e-6)


def test_a_chain_that_has_not_settled_does_not_balance() -> None:
    """The balance uses films renewed once more: what would change them, it finds."""
    numbers = ((0.5,), (0.27,), (1.0,), (313.15,), (2.5e-5,), 0.00393, (0.0,))
    ends = ((0.5, 0.2), (368.15, 313.15), (2.0, 3.0))
    rod = chain.Chain(*numbers, *ends, 1000.0)
    made, led = balance.chain_generated(rod), balance.chain_led_in(rod)
    settled = balance.chain_given_off(rod, (1.0,), (313.15,))
    moved = balance.chain_given_off(rod, (1.02,), (313.15,))
    assert balance.unaccounted(made, settled, led) < 1e-12
    assert balance.unaccounted(made, moved, led) > 1e-3
    state = chain.chain_of(rod)
    assert abs(state.imbalance) < 1e-12


def test_the_hot_spot_knows_all_it_rests_on() -> None:
    names = {step.label.name for step in derivation(steady().safe.hottest)}
    for wanted in (
        "Skin effect ratio",
        "Film coefficient",
        "Oil thermal conductivity",
        "Radiation as a film coefficient",
        "Solar absorptivity of brown glaze",
        "Dielectric loss per length",
        "Resistance of the bolted joint",
        "Rise of the cover at the hole's edge",
        "Convecting over plain area",
    ):
        assert any(wanted in name for name in names), wanted


def test_rounds_are_told_in_the_trace() -> None:
    notes = " ".join(step.note for step in derivation(steady().safe.hottest))
    assert "rounds, properties and losses renewed in each" in notes


# --- extremes -------------------------------------------------------------------------------


def test_without_load_it_lies_between_oil_and_sunlit_air() -> None:
    idle = steady(duty__rated_current=1.0)
    oil = 95.0 + ZERO
    assert idle.safe.hottest == pytest.approx(oil, abs=0.05)
    assert idle.safe.terminal < oil
    assert idle.safe.led_in > 0


def test_frost_of_forty_degrees_and_no_sun() -> None:
    cold = steady(
        site__coldest_air=233.15 - 5,
        site__hottest_air=274.15,
        site__irradiance=0.0,
        transformer__top_oil_temperature=274.15,
        duty__rated_current=100.0,
    )
    assert cold.safe.hottest == pytest.approx(274.15, abs=3)
    assert cold.safe.unaccounted < 1e-6


def test_still_air_is_hotter_than_wind_and_shade_is_cooler_than_sun() -> None:
    still, windy = steady(), steady(site__cooling_wind=3.0)
    dark = steady(site__irradiance=0.0)
    assert windy.safe.terminal < still.safe.terminal - 5
    assert dark.safe.terminal < still.safe.terminal - 5
    assert dark.safe.terminal - 315.15 == pytest.approx(still.terminal_rise, abs=1e-4)


def test_oil_below_the_cap_makes_the_top_hotter() -> None:
    full = steady()
    low = steady(transformer__lowest_oil_level=0.200)
    names = [part.name for part in low.safe.parts]
    assert "air end without oil" in names
    assert full.safe.part("air end without oil") is None
    assert low.safe.hot_spot > full.safe.hot_spot
    dry = steady(transformer__lowest_oil_level=-0.5)
    assert dry.safe.hot_spot > low.safe.hot_spot


@pytest.mark.parametrize("angle", [0.0, 0.5, 1.0, 1.5707963])
def test_it_settles_at_every_mounting_angle(angle: float) -> None:
    found = steady(transformer__mounting_angle=angle)
    assert found.safe.unaccounted < 1e-6
    assert found.mean.hot_spot[1] <= found.safe.hot_spot + 1e-6


def test_a_runaway_is_told_and_judged() -> None:
    case = sl.changed(described("inland-12kv"), duty__rated_current=6000.0)
    assessment = sl.assess(case)
    assert assessment.workings.heat.hot_spot is None
    assert "steady" in assessment.workings.heat.runaway
    for identifier in ("conductor.hot-spot", "terminal.rise"):
        assert assessment.check(identifier).verdict is Verdict.FAIL
    for identifier in ("conductor.hot-spot.emergency", "heat.balance", "oil.temperature"):
        assert assessment.check(identifier).verdict is Verdict.NOT_ASSESSED


def test_a_tank_as_cool_as_the_air_has_no_course_in_time_and_says_so() -> None:
    cool = heat(transformer__top_oil_temperature=315.15)
    assert isinstance(cool.loading, str)
    assert "hotter" in cool.loading


# --- what is described changes what comes out ---------------------------------------------


def test_the_line_heats_or_cools_the_terminal() -> None:
    alone = steady().safe.terminal
    cooled = steady(duty__line_conductance=0.5).safe.terminal
    heated = steady(duty__line_conductance=0.5, duty__line_temperature=110 + ZERO).safe.terminal
    assert cooled < alone < heated


def test_bolts_decide_the_joint() -> None:
    """Four M12 at 50 Nm, the least of the scatter: 4 · 20.83 kN · 0.7 = 58.3 kN."""
    bolted = {
        "bushing__terminal__bolt_diameter": 0.012,
        "bushing__terminal__bolt_torque": 50.0,
    }
    tight = heat(**bolted).joints
    loose = heat(**{**bolted, "bushing__terminal__bolt_torque": 5.0}).joints
    assert tight.clamp == pytest.approx(58.3e3, rel=0.001)
    assert loose.upper > tight.upper
    assert heat().joints.clamp is None


def test_white_glaze_is_cooler_than_brown() -> None:
    white = steady(bushing__porcelain__glaze="white").safe.part("air end")
    brown = steady(bushing__porcelain__glaze="brown").safe.part("air end")
    assert white is not None
    assert brown is not None
    assert white.surface is not None
    assert brown.surface is not None
    assert white.surface < brown.surface - 3


def test_thin_air_cools_less() -> None:
    assert steady(site__altitude=4000.0).safe.terminal > steady(site__altitude=0.0).safe.terminal


def test_a_steel_cover_warms_its_gasket_and_an_insert_would_cure_it() -> None:
    steel, plain = heat(), heat(transformer__cover_metal="non-magnetic steel")
    assert steel.cover.edge > plain.cover.edge + 5
    assert steel.cover.insert is not None
    assert steel.cover.insert.loss_in_insert + steel.cover.insert.loss_beyond < steel.cover.loss
    assert steel.cover.insert.edge < steel.cover.edge
    assert plain.cover.insert is None
    assert plain.cover.loss < 0.05 * steel.cover.loss


def test_dielectric_loss_is_that_of_the_capacitance() -> None:
    """36 kV: U² 2 pi f C' tan delta with C' of the layers; a small heat beside the current's."""
    found = heat()
    assert 0.0 < found.dielectric < 1.0
    safe = steady().safe
    hole = next(piece for piece in safe.model.pieces if piece.name == "hole")
    assert hole.stretch.field_loss == pytest.approx(float(found.dielectric))


# --- time ---------------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_the_day_lies_between_its_oil_and_the_settled_peak(name: str) -> None:
    found = loading(name)
    course = found.course
    assert found.day == pytest.approx(course.highest)
    assert found.day <= steady(name).safe.hottest + 1.5
    assert course.hot_spot.min() >= course.top_oil.min() - 1e-9
    assert course.conductor[0] == pytest.approx(course.conductor[-1], abs=1.0)


def test_a_day_at_rated_load_all_day_in_even_air_is_the_settled_state_without_sun() -> None:
    even = {
        "duty__off_peak_load": 1.0,
        "site__daily_swing": 0.0,
        "site__irradiance": 0.0,
    }
    found = loading(**even)
    settled = steady(**even)
    assert found.day == pytest.approx(settled.safe.hottest, abs=0.02)


def test_a_longer_emergency_is_hotter_and_ends_at_the_settled_one() -> None:
    short, long = (loading(duty__emergency_duration=t) for t in (600.0, 86400.0))
    assert short.emergency < loading().emergency < long.emergency
    assert loading(duty__emergency_current=1500.0).emergency > loading().emergency


def test_an_emergency_at_rated_current_changes_nothing() -> None:
    same = loading(duty__emergency_current=1000.0, site__irradiance=0.0)
    settled = steady(site__irradiance=0.0)
    assert same.emergency == pytest.approx(settled.safe.hottest, abs=0.02)
    assert same.emergency_oil == pytest.approx(95 + ZERO, abs=1e-9)


def test_a_transformer_rated_below_its_bushing_heats_its_oil_more_in_an_emergency() -> None:
    small = loading(transformer__rated_current=700.0)
    assert small.emergency_oil > loading().emergency_oil


def test_the_guide_constants_give_back_settled_states() -> None:
    case = shaded(steady().safe.model).case
    found = guide_constants(case)
    assert not isinstance(found, str)
    assert found.worst_miss < 3.0
    alone = found.rise(1.0, 55.0)
    settled = steady(site__hottest_air=313.15, transformer__top_oil_temperature=368.15)
    assert alone == pytest.approx(settled.hot_spot_rise, abs=found.worst_miss + 1.5)


def test_guide_constants_of_a_runaway_are_words() -> None:
    case = steady().safe.model.case
    wild = dataclasses.replace(case, current=50 * case.current)
    assert isinstance(guide_constants(wild), str)


# --- every bushing ------------------------------------------------------------------------


@settings(max_examples=15, deadline=None)
@given(installations(), st.floats(1.1, 2.0))
def test_balance_and_order_hold_for_every_bushing(case: sl.Installation, factor: float) -> None:
    found = work_out(case).heat
    assume(isinstance(found.steady, Steady))
    assert isinstance(found.steady, Steady)
    assert found.steady.safe.unaccounted < 1e-4
    current = case.duty.rated_current * factor
    assume(current < 40000)
    more = work_out(sl.changed(case, duty__rated_current=current)).heat
    if more.hot_spot is not None and found.hot_spot is not None:
        assert more.hot_spot >= found.hot_spot - 1e-5


# --- the same by finite elements ----------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_finite_elements_on_the_section_agree_with_the_stretches(name: str) -> None:
    """Cross-model: shape, gasket and metal ends are solved there, lumped here."""
    work = work_out(described(name))
    assert isinstance(work.heat.steady, Steady)
    safe = work.heat.steady.safe
    found = section_heat(work.installation, work.section, work.measures, safe, work.heat.cover)
    assert isinstance(found, SectionHeat)
    assert found.field.unaccounted < 1e-9
    assert found.field.doubt < 0.3
    assert found.hot_spot == pytest.approx(safe.hot_spot, abs=1.0)
    assert found.terminal == pytest.approx(safe.terminal, abs=1.0)
    assert found.gasket == pytest.approx(work.heat.steady.gasket, abs=1.0)
    assert found.cover_edge == pytest.approx(work.heat.cover.edge, abs=1.0)


def test_a_flange_and_a_tube_have_a_field_of_heat_too() -> None:
    text = (EXAMPLES / "quay-24kv.toml").read_text("utf-8")
    tube = text.replace('form = "rod"', 'form = "tube"\ninner_diameter = "8 mm"')
    for changed in (text.replace('form = "clamps"', 'form = "flange"'), tube):
        work = work_out(sl.parse(changed))
        assert isinstance(work.heat.steady, Steady)
        safe = work.heat.steady.safe
        found = section_heat(work.installation, work.section, work.measures, safe, work.heat.cover)
        assert isinstance(found, SectionHeat)
        assert found.hot_spot == pytest.approx(safe.hot_spot, abs=1.5)


def test_with_the_field_the_loss_of_the_voltage_comes_from_it() -> None:
    plain = work_out(described("quarry-36kv"))
    solved = work_out(described("quarry-36kv"), with_field=True)
    assert isinstance(solved.heat_field, SectionHeat)
    assert plain.heat_field == plain.heat_guide == NO_FIELD
    sources = {step.label.name for step in derivation(solved.heat.dielectric)}
    assert "Loss factor of the bushing" in sources
    assert not isinstance(solved.discharges, str)
    field = solved.discharges.field
    loss = solved.voltages.phase**2 * 2 * math.pi * 50.0 * field.capacitance * field.loss_factor
    hole = solved.section.heights.seat - solved.section.heights.cover_underside
    assert solved.heat.dielectric * hole == pytest.approx(loss)
    # The closed form knows only the wall inside the hole; the field knows all of it.
    assert solved.heat.dielectric > plain.heat.dielectric
