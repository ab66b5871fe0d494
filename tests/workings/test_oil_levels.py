"""Oil drained to a level: the shape keeps its area, and a cut alone changes nothing."""

from functools import cache
from pathlib import Path

import pytest

import shedlight as sl
from shedlight.errors import RequestError
from shedlight.figures.field_layers import areas_of
from shedlight.physics.field.domain import Problem
from shedlight.physics.field.proof import proof_of
from shedlight.workings import Workings
from shedlight.workings.field import solved
from shedlight.workings.oil_levels import ASIDE, clear_level, extent_of, lowered
from shedlight.workings.what_ifs.oil_drained import drained_levels, problem_drained
from shedlight.workings.what_ifs.record import Supposed, as_it_is

EXAMPLES = Path(__file__).parents[2] / "examples"
LEVELS = [(-0.06, 0.1), (-0.2, -0.2), (-0.03, -0.03), (0.5, 0.12)]


@cache
def work() -> Workings:
    return Workings(sl.read(EXAMPLES / "quay-24kv.toml"), with_field=True)


@pytest.mark.parametrize("wanted", LEVELS)
def test_gas_and_oil_together_fill_what_oil_filled(wanted: tuple[float, float]) -> None:
    levels = drained_levels(work(), Supposed(*wanted))
    before = {name: area.area for name, area in areas_of(solved(as_it_is(work()))).items()}
    after = {n: a.area for n, a in areas_of(solved(problem_drained(work(), levels))).items()}

    for oil, gas in (("oil", "cavity gas"), ("tank oil", "tank gas")):
        together = after.get(oil, 0.0) + after.get(gas, 0.0)
        assert together == pytest.approx(before[oil], rel=1e-6)
    for name in ("air", "porcelain", "clearance"):
        assert after[name] == pytest.approx(before[name], rel=1e-9)


def test_a_level_lies_flat_between_oil_below_and_gas_above() -> None:
    levels = drained_levels(work(), Supposed(-0.06, 0.1))
    shape = problem_drained(work(), levels).shape

    for name, level, oil, gas in (
        ("tank oil level", levels[0], "tank oil", "tank gas"),
        ("oil level", levels[1], "oil", "cavity gas"),
    ):
        side = shape.side(name)
        assert (side.left, side.right) == (gas, oil)
        assert {p.z for p in side.curve.points()} == {level}
    radii = work().section.radii
    ends = shape.side("oil level").curve
    assert (ends.start.r, ends.end.r) == pytest.approx((radii.conductor, radii.bore))


@pytest.mark.parametrize("wanted", LEVELS[:3])
def test_gas_as_good_as_oil_changes_nothing(wanted: tuple[float, float]) -> None:
    """The cut alone, with the same medium on both sides of it, leaves the capacitance as it was."""
    levels = drained_levels(work(), Supposed(*wanted))
    plain, drained = as_it_is(work()), problem_drained(work(), levels)
    media = dict(drained.media) | {name: plain.media[name] for name in ("clearance", "oil")}
    media |= {name: plain.media["oil"] for name in media if name.endswith(" gas")}
    full = Problem(drained.shape, media, plain.potentials, (), plain.frequency)

    same, other = proof_of(solved(plain)), proof_of(solved(full))
    assert other.capacitance == pytest.approx(same.capacitance, rel=2e-4)
    assert other.capacitance_low <= same.capacitance_high
    assert same.capacitance_low <= other.capacitance_high


def test_lower_oil_holds_less() -> None:
    held = [
        proof_of(
            solved(problem_drained(work(), drained_levels(work(), Supposed(z, z))))
        ).capacitance
        for z in (0.2, 0.05, -0.05, -0.12)
    ]
    whole = proof_of(solved(as_it_is(work()))).capacitance

    assert whole > held[0] > held[1] > held[2] > held[3] > 0


def test_a_level_above_everything_drains_nothing() -> None:
    levels = drained_levels(work(), Supposed(2.0, 2.0))

    assert problem_drained(work(), levels).shape == as_it_is(work()).shape


def test_a_bushing_drained_to_its_bottom_holds_gas_and_no_level() -> None:
    problem = problem_drained(work(), drained_levels(work(), Supposed(-0.1, -1.0)))

    assert problem.media["oil"] == problem.media["air"]
    assert "oil level" not in {side.name for side in problem.shape.sides}


def test_levels_keep_clear_of_corners() -> None:
    shape = as_it_is(work()).shape
    for wanted in (-0.010, -0.07, work().section.heights.oil_end):
        found = clear_level(shape, "tank oil", wanted)
        corners = [
            point.z
            for side in shape.sides
            if "tank oil" in (side.left, side.right)
            for piece in side.curve.pieces
            for point in (piece.start, piece.end)
        ]
        assert min(abs(found - z) for z in corners) >= ASIDE
        assert found == pytest.approx(wanted, abs=2e-3)


def test_a_tank_without_oil_is_refused() -> None:
    with pytest.raises(RequestError, match="tank level"):
        drained_levels(work(), Supposed(tank_level=-2.0))


def test_a_level_below_the_terminal_meets_the_axis() -> None:
    plain = as_it_is(work()).shape
    low, _ = extent_of(plain, "tank oil")
    level = clear_level(plain, "tank oil", work().section.heights.bottom - 0.05)
    assert low < level
    side = lowered(plain, "tank oil", level, "tank gas").side("tank oil level")
    assert side.curve.start.r == 0.0
