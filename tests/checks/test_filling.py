"""Oil that fills, vents and stays: levels, heads, tilt, closed spaces, tests of tightness."""

import math
from pathlib import Path
from typing import Any

import pytest

import shedlight as sl
from shedlight.checks.check import Verdict
from shedlight.documents.measured import measured_groups
from shedlight.units import amount

EXAMPLES = Path(__file__).parents[2] / "examples"


def assessed(name: str = "quay-24kv", **changes: Any) -> sl.Assessment:
    return sl.assess(sl.changed(sl.read(EXAMPLES / f"{name}.toml"), **changes))


def test_the_safe_level_is_the_cap_s_seat_and_a_reserve_upright() -> None:
    work = assessed().workings
    safe = work.filling.safe_level

    assert not isinstance(safe, str)
    # 1 kPa of oil of 895 kg/m³ at 20 °C, denser at -5 °C: 895/(1 - 0.00075 · 25) = 912.1.
    reserve = 1000 / (912.1 * 9.80665)
    assert safe == pytest.approx(work.section.heights.cap_base + reserve, rel=1e-4)


def test_oil_below_the_cap_is_told_in_level_and_head() -> None:
    low = assessed(transformer__lowest_oil_level=0.300)

    assert low.check("oil.head.top").verdict is Verdict.FAIL
    level = low.check("oil.level")
    assert level.verdict is Verdict.CAUTION
    assert level.margin is not None
    assert level.margin < 0
    top = low.workings.filling.heads[0]
    assert top.least is not None
    assert top.least < 0


def test_heads_grow_downwards_by_the_weight_of_the_oil() -> None:
    heads = assessed().workings.filling.heads

    least = [float(head.least or 0.0) for head in heads]
    assert least == sorted(least)
    down = heads[0].along - heads[-1].along
    assert least[-1] - least[0] == pytest.approx(912.1 * 9.80665 * down, rel=1e-4)
    for head in heads:
        assert head.greatest > (head.least or 0.0)


def test_leaning_lowers_the_top_and_leaves_gas_over_a_vent_turned_down() -> None:
    upright, leaning = assessed(), assessed(transformer__mounting_angle=math.radians(60))
    filling = leaning.workings.filling

    assert filling.highest_place < upright.workings.filling.highest_place
    radii = leaning.workings.section.radii
    wanted = (radii.bore + radii.conductor) * math.sin(math.radians(60))
    assert filling.trapped == pytest.approx(wanted, rel=1e-9)
    assert amount(wanted, "mm") in leaning.check("oil.vent").reason
    assert float(upright.workings.filling.trapped) == 0.0
    assert len(filling.steps) == len(upright.workings.filling.steps) + 1


def test_lying_level_gas_stays_wherever_the_vent_is() -> None:
    level = assessed(transformer__mounting_angle=math.pi / 2)

    assert level.check("oil.vent").verdict is Verdict.CAUTION
    assert level.workings.filling.highest_place == pytest.approx(
        level.workings.section.radii.bore, rel=1e-9
    )
    assert level.check("oil.level").verdict is Verdict.PASS


def test_a_cushion_carries_its_part_and_is_asked_for() -> None:
    sealed = {"transformer__breathing": "sealed cushion"}
    unknown = assessed(**sealed)
    assert unknown.check("oil.level").verdict is Verdict.NOT_ASSESSED
    assert "lowest_cushion_pressure" in unknown.check("oil.level").reason
    assert all(head.least is None for head in unknown.workings.filling.heads)

    pressed = assessed(**sealed, transformer__lowest_cushion_pressure=5e3).workings.filling
    free = assessed().workings.filling
    assert not isinstance(pressed.safe_level, str)
    assert not isinstance(free.safe_level, str)
    assert pressed.safe_level < free.safe_level


def test_a_closed_space_without_gas_would_burst() -> None:
    closed = assessed(bushing__oil_space__opening="closed")
    locked = closed.workings.filling.locked

    assert locked is not None
    # (7.5e-4 - 1.5e-5) per K over 0.8 per GPa, from -5 °C to the settled oil inside.
    settled = closed.workings.heat.steady
    assert not isinstance(settled, str)
    assert locked == pytest.approx(7.35e-4 * (settled.oil - 268.15) / 0.8e-9, rel=1e-9)
    assert "MPa" in closed.check("oil.expansion").reason
    assert assessed().workings.filling.locked is None


def test_the_test_sheet_has_every_test_with_its_pressure() -> None:
    work = assessed().workings
    tests = {one.test.test: one for one in work.filling.tests}

    oil = tests["routine oil"].pressure
    assert oil == pytest.approx(work.oil.head_highest + 1e5, rel=1e-12)
    gas = tests["routine flange gas"]
    assert gas.pressure == 150e3
    assert gas.drift == pytest.approx(-251325 / 293.15, rel=1e-9)


def test_heads_steps_and_tests_stand_in_the_calculation() -> None:
    groups = {group.title: group for group in measured_groups(assessed().workings)}

    steps = [row.sentence for row in groups["Filling and venting, in order"].rows]
    assert steps[0].startswith("1. De-energise, earth and prove dead")
    assert [step.partition(".")[0] for step in steps] == [str(n + 1) for n in range(len(steps))]
    assert any(row.text.startswith("446") for row in groups["Filling and venting, in order"].rows)
    assert len(groups["Tests of tightness"].rows) == 4
