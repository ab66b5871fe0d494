"""What the loads ask of porcelain and joints, from descriptions that deserve each verdict."""

import math
from pathlib import Path
from typing import Any

import pytest

import shedlight as sl
from shedlight.checks.check import Verdict

EXAMPLES = Path(__file__).parents[2] / "examples"
INLAND, QUARRY = "inland-12kv", "quarry-36kv"
LEVEL = math.pi / 2


def assessed(name: str = INLAND, **changes: Any) -> sl.Assessment:
    return sl.assess(sl.changed(sl.read(EXAMPLES / f"{name}.toml"), **changes))


def margin(assessment: sl.Assessment, identifier: str) -> float:
    found = assessment.check(identifier).margin
    assert found is not None
    return found


def verdict(assessment: sl.Assessment, identifier: str) -> Verdict:
    return assessment.check(identifier).verdict


@pytest.mark.parametrize(
    ("identifier", "changes"),
    [
        ("body.bending", {"duty__terminal_load": 6000.0}),
        ("body.bending.short-circuit", {"duty__connection_span": 20.0}),
        ("body.earthquake", {"site__earthquake": "high", "duty__terminal_pull": 5000.0}),
        ("body.survival", {"duty__terminal_pull": 3000.0}),
        ("body.glaze", {"duty__terminal_load": 6000.0}),
        ("body.deflection", {"duty__terminal_load": 6000.0}),
        ("body.clamping", {"duty__terminal_load": 700.0}),
        ("cap.clamping", {"bushing__cap__clamp_force": 4000.0}),
        ("gasket.groove-fill", {"bushing__gasket__groove_width": 0.016}),
        ("gasket.set", {"bushing__gasket__compressed_thickness": 0.0052}),
        ("gasket.cold", {"site__coldest_air": 233.15}),
        ("duty.terminal-load", {"duty__terminal_load": 400.0}),
    ],
)
def test_too_much_is_a_caution_and_the_demonstration_holds(
    identifier: str, changes: dict[str, Any]
) -> None:
    asked_too_much = assessed(**changes)

    assert margin(asked_too_much, identifier) < 0
    assert verdict(asked_too_much, identifier) is Verdict.CAUTION
    if identifier != "gasket.groove-fill":  # the demonstration has no groove
        assert margin(assessed(), identifier) >= 0


def test_a_thick_cold_wall_is_strained_more_than_a_thin_one() -> None:
    thin = assessed(bushing__porcelain__wall=0.010, bushing__oil_end__end_diameter=0.037)
    cold = assessed(site__coldest_air=233.15)

    for identifier in ("body.thermal-gradient", "body.thermal-shock"):
        assert margin(thin, identifier) > margin(assessed(), identifier)
    assert margin(cold, "body.thermal-gradient") < margin(assessed(), "body.thermal-gradient")
    assert margin(thin, "body.bending") < margin(assessed(), "body.bending")


def test_what_nobody_described_is_not_assessed_and_says_which_field() -> None:
    bare = assessed(
        QUARRY, bushing__fixing__bolt_torque=None, site__earthquake=None, duty__connection_span=None
    )

    for identifier, field in (
        ("body.bending.short-circuit", "duty.connection_span"),
        ("body.earthquake", "site.earthquake"),
        ("body.clamping", "bolt"),
        ("cap.clamping", "springs"),
        ("body.cement", "clamps"),
    ):
        assert verdict(bare, identifier) is Verdict.NOT_ASSESSED
        assert field in bare.check(identifier).reason


def test_no_wind_no_ice_and_upright_leave_the_pull_alone() -> None:
    still = assessed(site__wind_speed=0.0, site__ice_thickness=0.0)
    service = still.workings.loads.service

    wanted = service.forces[0].force * still.workings.loads.body.terminal
    assert service.moment_at_seat == pytest.approx(wanted, rel=1e-12)
    assert [force.name for force in service.forces] == ["pull of the conductor", "wind"]


def test_lying_level_adds_the_weight_and_the_ice() -> None:
    level = assessed(transformer__mounting_angle=LEVEL)
    half = assessed(transformer__mounting_angle=LEVEL / 3)
    loads = level.workings.loads

    weights = [f for f in loads.service.forces if f.name.startswith("weight")]
    expected = 9.80665 * (loads.body.body_mass + loads.body.top_mass)
    assert sum(float(f.force) for f in weights) == pytest.approx(expected, rel=1e-12)
    assert (
        assessed().workings.loads.service.tension
        < half.workings.loads.service.tension
        < loads.service.tension
    )
    # A level direction of shaking is lost, the weaker upright one comes instead.
    assert loads.earthquake_static != level.workings.loads.earthquake


def test_the_weight_above_the_seat_is_less_than_that_of_all_parts() -> None:
    work = assessed().workings
    whole = sum(float(part.mass) for part in work.masses)

    assert 0.4 * whole < work.loads.body.body_mass + work.loads.body.top_mass < whole


def test_stress_falls_to_nothing_at_the_load_and_stands_highest_at_the_foot() -> None:
    along = assessed("quay-24kv").workings.loads.test.along

    heights = [stress.force.height for stress in along]
    assert heights == sorted(heights)
    assert along[0].highest == max(stress.highest for stress in along)
    assert along[-1].bending < 0.25 * along[0].bending


def test_a_body_that_thins_upwards_breaks_higher_up() -> None:
    thin = {"bushing__porcelain__top_wall": 0.004, "duty__terminal_load": 1000.0}
    tapered = assessed("quay-24kv", **thin).workings.loads.test

    assert tapered.worst.force.height > 0
    assert tapered.tension == pytest.approx(tapered.worst.highest, rel=1e-9)


def test_the_traced_tension_is_the_one_found_along_the_body() -> None:
    for name in (INLAND, "quay-24kv", QUARRY):
        for one in assessed(name, transformer__mounting_angle=0.5).workings.loads.combinations:
            assert one.tension == pytest.approx(one.worst.highest, rel=1e-9), one.name


def test_a_stronger_earthquake_asks_for_more_and_the_static_rule_for_most() -> None:
    demands = []
    for level in ("AG2", "AG3", "AG5", "high"):
        check = assessed(site__earthquake=level).check("body.earthquake")
        assert check.demand is not None
        demands.append(float(check.demand))
        assert check.rivals[0].margin < (check.margin or 0.0)
    assert demands == sorted(demands)
    quiet = assessed(site__earthquake="none").check("body.earthquake")
    assert "no earthquakes" in quiet.reason


def test_a_cemented_flange_is_judged_by_its_cement() -> None:
    def flange(depth: float) -> sl.Assessment:
        data = sl.to_toml(sl.read(EXAMPLES / f"{INLAND}.toml"))
        start, end = data.index("[bushing.fixing]"), data.index("[bushing.gasket]")
        fixing = (
            '[bushing.fixing]\nform = "flange"\nouter_diameter = "120 mm"\n'
            f'thickness = "{1e3 * depth} mm"\n\n'
        )
        return sl.assess(sl.parse(data[:start] + fixing + data[end:]))

    assert verdict(flange(0.045), "body.cement") is Verdict.PASS
    assert verdict(flange(0.020), "body.cement") is Verdict.CAUTION


def test_the_tie_helps_the_wall_and_loses_by_heat() -> None:
    tied, free = assessed(), assessed(bushing__cap__clamp_force=None)

    assert tied.workings.loads.test.tension < free.workings.loads.test.tension
    hot = assessed(transformer__top_oil_temperature=393.15)
    assert margin(hot, "cap.clamping") < margin(tied, "cap.clamping")


def test_rain_falls_on_the_surface_that_heat_settled() -> None:
    check = assessed().check("body.thermal-shock")
    steady = assessed().workings.heat.steady

    assert not isinstance(steady, str)
    surfaces = [p.surface for p in steady.safe.parts if p.name in ("collar", "air end")]
    assert check.demand == pytest.approx(max(s for s in surfaces if s is not None) - 283.15)
    first = next(r for r in check.rivals if r.title == "First estimate of the surface")
    assert first.margin > (check.margin or 0.0)
