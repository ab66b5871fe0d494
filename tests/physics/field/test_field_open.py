"""Discs, bosses, rims: bounds that bracket, far boundaries that do not matter, layers that win."""

import math
from itertools import pairwise

import numpy as np
import pytest
from scipy.special import roots_legendre

from shedlight.physics.field import benchmarks_open as open_space
from shedlight.physics.field.benchmarks import EARTH, LIVE, path
from shedlight.physics.field.benchmarks_open import (
    ball_over_plane,
    boss,
    disc_in_plane,
    disc_pair,
    rogowski,
)
from shedlight.physics.field.domain import VACUUM_PERMITTIVITY, Medium, Problem, Shape, Side
from shedlight.physics.field.meshing import Fineness, mesh_of
from shedlight.physics.field.solve import columns

E0 = VACUUM_PERMITTIVITY


def love(ratio: float, count: int = 400) -> float:
    """Capacitance of two equal coaxial discs over e0 a, from Love's integral equation.

    f(x) - (1/pi) int k f(t)/(k² + (x - t)²) dt = 1 on -1 to 1, C = 2 e0 a int f dx.
    """
    x, weight = roots_legendre(count)
    kernel = ratio / (ratio**2 + (x[:, None] - x) ** 2) / math.pi
    found = np.linalg.solve(np.eye(count) - kernel * weight, np.ones(count))
    return 2 * float(weight @ found)


@pytest.mark.parametrize(
    ("ratio", "printed"), [(0.1, 36.93232), (0.2, 20.70305), (1.0, 7.283140), (2.0, 5.552109)]
)
def test_two_discs_agree_with_the_integral_equation(ratio: float, printed: float) -> None:
    exact = love(ratio)
    assert exact == pytest.approx(printed, rel=2e-7)
    assert disc_pair(ratio) / E0 == pytest.approx(exact, rel=1e-5)


def test_discs_far_apart_are_two_discs_in_series() -> None:
    assert love(50.0) == pytest.approx(4.0, rel=0.02)  # 8 e0 a each, in series
    assert disc_pair(50.0, far=1000.0) / E0 == pytest.approx(love(50.0), rel=2e-5)


@pytest.mark.parametrize(("angle", "high"), [(90, 1.0), (120, 1.154701)])
def test_the_bounds_bracket_the_rim_of_a_plate_capacitor(angle: int, high: float) -> None:
    found = rogowski(math.radians(angle))
    assert found.proof
    # A rectangle of u and v: 6 by the angle; turned at a radius that varies by 1e-5.
    exact = 2 * math.pi * open_space._AXIS_AWAY * E0 * 6 / math.radians(angle)
    assert found.proof.capacitance_low <= exact * (1 + 1e-5)
    assert found.proof.capacitance_high >= exact * (1 - 1e-5)
    assert found.proof.capacitance == pytest.approx(exact, rel=1e-5)
    assert found.fields[-1] <= high * 1.0005


@pytest.mark.parametrize("height", [1.0, 10.0])
def test_room_round_a_boss_disturbs_by_its_third_power(height: float) -> None:
    eccentricity = math.sqrt(1 - 1 / height**2) if height > 1 else 0.0
    share = (1 - eccentricity**2) / eccentricity**2 if eccentricity else 0.0
    exact = 3.0
    if eccentricity:
        exact = 1 / (share * (math.atanh(eccentricity) / eccentricity - 1))
    errors = [abs(boss(height, 1.0, room).fields[0] / exact - 1) for room in (5.0, 10.0, 20.0)]
    assert errors[0] > errors[1] > errors[2]
    assert errors[1] < errors[0] / 4
    assert errors[2] < 2e-4


def test_moving_the_far_boundary_changes_nothing_that_matters() -> None:
    """Dipoles left beyond the boundary fall with its third power; bounds hold at any distance."""
    exact = 1 - 1 / math.sqrt(2)
    reaches = (10.0, 20.0, 40.0, 80.0)
    errors = [abs(disc_in_plane((1.0,), far=far).potentials[0].real - exact) for far in reaches]
    for near, far in pairwise(errors):
        assert near / far == pytest.approx(8.0, rel=0.2)
    balls = [ball_over_plane(1.0, 1.0, far).proof for far in (50.0, 100.0, 200.0)]
    exact = 4 * math.pi * E0 * 1.3410598
    for proof in balls:
        assert proof
        assert proof.capacitance_low <= exact * (1 + 2e-6)
        assert proof.capacitance_high >= exact * (1 - 2e-6)


def test_layers_into_an_edge_win_exponentially() -> None:
    """hp: degree and layers grow together, the error falls by a factor for every step."""
    sides = (
        Side("disc", path((0, 0), (0.5, 0)), "air", None, LIVE),
        Side("middle", path((0.5, 0), (1, 0)), "air", None),
        Side("wall", path((1, 0), (1, 1)), "air", None, EARTH),
        Side("lid", path((1, 1), (0, 1)), "air", None, EARTH),
        Side("axis", path((0, 1), (0, 0)), "air", None),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    errors, unknowns = [], []
    for step in range(1, 6):
        mesh = mesh_of(problem.shape, problem.media, Fineness(0.7, step))
        unit = columns(mesh, problem, step)
        found = unit.admittances[0, 0].imag / (100 * math.pi)
        errors.append(abs(found / (11.41238 * E0 * 0.25) - 1))
        unknowns.append(unit.unknowns)
    # The reference itself is known to 2e-6 of the whole.
    for before, after in pairwise(errors):
        assert after < before / 3 or after < 4e-6
    # exp(-b N^(1/3)): far steeper than the first order of plain refinement.
    fall = math.log(errors[0] / errors[3]) / (unknowns[3] ** (1 / 3) - unknowns[0] ** (1 / 3))
    assert fall > 0.5
