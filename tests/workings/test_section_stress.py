"""The solved stress of whole bushings, beside beam theory."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest

import shedlight as sl
from shedlight.checks.check import Verdict
from shedlight.physics.strength.section_stress import solve_section
from shedlight.workings import Workings
from shedlight.workings.section_stress import SectionStress, problem_of, section_stress_of

EXAMPLES = Path(__file__).parents[2] / "examples"


def worked(name: str, **changes: Any) -> Workings:
    case = sl.changed(sl.read(EXAMPLES / f"{name}.toml"), **changes)
    return Workings(case, with_field=True)


def stress(work: Workings) -> SectionStress:
    found = work.section_stress
    assert not isinstance(found, str)
    return found


@pytest.mark.parametrize("name", ["inland-12kv", "quay-24kv", "quarry-36kv"])
def test_the_root_of_the_collar_is_pulled_some_three_times_beam_theory(name: str) -> None:
    work = worked(name)
    found = stress(work)

    heights = work.section.heights
    assert heights.shoulder <= found.place[1] <= heights.clamp_top
    assert found.rounding < 0.0035
    assert 2.0 < found.factor < 4.0
    assert found.doubt < 0.015


def test_between_the_sheds_and_the_root_it_is_beam_theory() -> None:
    work = worked("quay-24kv", bushing__sheds=None, bushing__horns=None)
    body, test = work.loads.body, work.loads.test
    posed = problem_of(work.installation, work.section, work.loads)
    solution = solve_section(posed.solid, posed.even, posed.bending, posed.size, 5)

    for height in (0.17, 0.20, 0.23):
        above = height - work.section.heights.seat
        beam = [s for s in test.along if s.force.height <= above][-1]
        moment = test.shear * (body.terminal - above)
        wanted = beam.bending / beam.force.moment * moment
        r, z = np.array([work.section.radii.body - 1e-7]), np.array([height])
        assert solution.bending_alone(r, z).along[0] == pytest.approx(wanted, rel=2e-3)
        # Pressure lifts the cap, and the wall carries that round and along.
        assert solution.at(r, z).along[0] - wanted == pytest.approx(beam.axial, rel=0.02)


def test_more_load_and_a_thinner_wall_pull_harder() -> None:
    usual = stress(worked("quay-24kv")).peak

    assert stress(worked("quay-24kv", duty__terminal_load=2000.0)).peak > 1.9 * usual
    thin = worked("quay-24kv", bushing__porcelain__wall=0.008, bushing__oil_end__end_diameter=0.046)
    assert stress(thin).peak > 1.5 * usual


def test_a_tie_added_afterwards_is_a_tie_solved_with_the_rest() -> None:
    tied = worked("quay-24kv", bushing__cap__clamp_force=20e3, bushing__cap__spring_rate=1.2e6)
    posed = problem_of(tied.installation, tied.section, tied.loads)
    assert posed.tie > 5e3

    found = stress(tied)
    whole = solve_section(posed.solid, posed.even, posed.bending, posed.size)
    r, z = (np.array([place]) for place in found.place)
    assert whole.at(r, z).greatest[0] == pytest.approx(float(found.peak), rel=1e-6)
    untied = solve_section(posed.solid, posed.resting, posed.bending, posed.size)
    assert untied.at(r, z).greatest[0] > 1.01 * found.peak


def test_what_was_solved_for_other_loads_is_solved_anew() -> None:
    work, other = worked("quay-24kv"), worked("quay-24kv", duty__terminal_load=2000.0)
    assert not isinstance(other.section_untied, str)
    found = section_stress_of(work.installation, work.section, work.loads, other.section_untied)
    assert found.peak == pytest.approx(float(stress(work).peak), rel=1e-9)


def test_it_is_asked_for_and_checked() -> None:
    case = sl.read(EXAMPLES / "quay-24kv.toml")
    plain = sl.assess(case).check("body.stress-peak")
    assert plain.verdict is Verdict.NOT_ASSESSED
    assert "ask for it" in plain.reason

    heavy = sl.changed(case, duty__terminal_load=2000.0)
    asked = sl.assess(heavy, with_field=True).check("body.stress-peak")
    assert asked.verdict is Verdict.CAUTION
    assert asked.margin is not None
    assert asked.margin < 0 < asked.rivals[0].margin


def test_a_sharper_collar_is_pulled_harder_and_may_fail_once_it_is_described() -> None:
    sharp = stress(worked("quay-24kv", bushing__porcelain__collar_rounding=0.001))
    round_ = stress(worked("quay-24kv", bushing__porcelain__collar_rounding=0.005))
    assert sharp.factor > 1.3 * round_.factor
    assert sharp.rounding == pytest.approx(0.001, abs=2e-4)
    case = sl.changed(
        sl.read(EXAMPLES / "quay-24kv.toml"),
        duty__terminal_load=4000.0,
        bushing__porcelain__collar_rounding=0.001,
    )
    found = sl.assess(case, with_field=True).check("body.stress-peak")
    assert found.margin is not None
    assert found.margin < 0
    assert "drawn by habit" not in found.reason
    assert any("as described" in note for note in found.notes)
