"""Whole bushings on finer and finer meshes: temperatures and stress peaks that settle."""

from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

import shedlight as sl
from shedlight.physics.heat.section_field import HeatField, heat_field
from shedlight.physics.strength.section_skin import skin_of
from shedlight.physics.strength.section_stress import solve_section
from shedlight.workings import Workings, work_out
from shedlight.workings.heat import Steady
from shedlight.workings.heat.section import section_problem
from shedlight.workings.section_stress import SKINS, STEP, problem_of

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("inland-12kv", "quay-24kv", "quarry-36kv")
FACTORS = (2.0, 1.0, 0.5)  # of the sizes of elements in use


@cache
def worked(name: str) -> Workings:
    return work_out(sl.read(EXAMPLES / f"{name}.toml"))


@cache
def field(name: str, factor: float, order: int) -> HeatField:
    work = worked(name)
    steady = work.heat.steady
    assert isinstance(steady, Steady)
    problem = section_problem(
        work.installation, work.section, work.measures, steady.safe, work.heat.cover
    )
    fine = {region: size * factor for region, size in problem.fine.items()}
    return heat_field(replace(problem, size=problem.size * factor, fine=fine), order)


def extremes(found: HeatField) -> np.ndarray:
    return np.array(
        [value for region in sorted(found.extremes) for value in found.extremes[region]]
    )


@pytest.mark.parametrize("name", NAMES)
def test_temperatures_of_the_section_settle_with_the_mesh(name: str) -> None:
    """Whatever the mesh and order, a finer one changes less than the doubt that is stated."""
    finest = extremes(field(name, 0.5, 3))
    for factor, order in ((2.0, 1), (1.0, 1), (0.5, 1), (1.0, 3)):
        found = field(name, factor, order)
        assert np.abs(extremes(found) - finest).max() < found.doubt
    # Elements of second degree on the finest mesh come as near as a thermometer reads.
    assert np.abs(extremes(field(name, 0.5, 1)) - finest).max() < 0.05


@pytest.mark.parametrize("name", NAMES)
def test_heat_is_accounted_for_on_every_mesh(name: str) -> None:
    for factor in FACTORS:
        assert field(name, factor, 1).unaccounted < 1e-6


@pytest.mark.parametrize("name", ["inland-12kv", "quarry-36kv"])
def test_the_stress_peak_settles_with_the_mesh(name: str) -> None:
    """The greatest tension at the root of the collar: each degree comes nearer, and halves too."""
    work = worked(name)
    problem = problem_of(work.installation, work.section, work.loads)
    outline = problem.solid.outline
    skins = [skin_of(outline, edge, STEP, 0.001) for edge in SKINS]

    def peak(factor: float, order: int) -> float:
        size = problem.size * factor
        solution = solve_section(problem.solid, problem.even, problem.bending, size, order)
        return max(float(np.nanmax(solution.at(skin.r, skin.z).greatest)) for skin in skins)

    finest = peak(0.5, 6)
    missed = [abs(peak(1.0, order) / finest - 1) for order in (1, 2, 3, 5)]
    assert all(after < before / 2 for before, after in pairwise(missed))
    assert missed[-1] < 1e-3
    for factor in FACTORS:
        assert peak(factor, 3) == pytest.approx(finest, rel=5e-3)
