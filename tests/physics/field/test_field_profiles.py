"""Charges read along metal edges, against Gauss's law in concentric layers."""

import math

import pytest

from shedlight.errors import InputError
from shedlight.physics.field.adapt import solve
from shedlight.physics.field.benchmarks import EARTH, LIVE, path
from shedlight.physics.field.domain import VACUUM_PERMITTIVITY, Medium, Problem, Shape, Side
from shedlight.physics.field.profiles import Profile, capacitance_between, profile


def rod_in_tube() -> Profile:
    """A rod of 10 mm in a tube of 50 mm, 100 mm long, filled with a permittivity of 2.2."""
    sides = (
        Side("rod", path((0.01, 0.0), (0.01, 0.1)), None, "oil", LIVE),
        Side("tube", path((0.05, 0.0), (0.05, 0.1)), "oil", None, EARTH),
        Side("floor", path((0.01, 0.0), (0.05, 0.0)), "oil", None),
        Side("roof", path((0.01, 0.1), (0.05, 0.1)), None, "oil"),
    )
    problem = Problem(Shape(sides), {"oil": Medium(2.2)}, {LIVE: 1.0, EARTH: 0.0})
    return profile(solve(problem, 1e-8, order=5), "rod", "oil")


def test_a_piece_of_a_rod_holds_its_share() -> None:
    seen = rod_in_tube()
    per_length = 2 * math.pi * VACUUM_PERMITTIVITY * 2.2 / math.log(5)

    for low, high in ((0.02, 0.05), (0.01, 0.09)):
        held = capacitance_between(seen, low, high, 2.2)
        assert held == pytest.approx(per_length * (high - low), rel=1e-5)


@pytest.mark.parametrize(("low", "high"), [(-0.1, 0.05), (0.05, 0.2), (0.06, 0.05)])
def test_a_piece_beyond_the_edge_is_refused(low: float, high: float) -> None:
    with pytest.raises(InputError, match="expected within"):
        capacitance_between(rod_in_tube(), low, high, 2.2)
