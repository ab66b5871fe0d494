"""Field lines, streamers and cumulated stress."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.field.adapt import solve
from shedlight.physics.field.benchmarks import EARTH, LIVE, arc, path
from shedlight.physics.field.domain import FieldError, Medium, Problem, Shape, Side
from shedlight.physics.field.lines import (
    critical_field,
    cumulative_means,
    field_lines,
    inception_scale,
    ionisation,
    streamer_integral,
    uniform_inception_voltage,
)
from shedlight.physics.field.meshing import Fineness


def test_lines_between_spheres_are_radii() -> None:
    sides = (
        Side("ball", arc((0, 0), 0.05, -math.pi / 2, math.pi), None, "air", LIVE),
        Side("hollow", arc((0, 0), 0.15, -math.pi / 2, math.pi), "air", None, EARTH),
        Side("axis below", path((0, -0.05), (0, -0.15)), "air", None),
        Side("axis above", path((0, 0.05), (0, 0.15)), None, "air"),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    solution = solve(problem, 1e-6, order=6, fineness=Fineness(5.0))
    angles = np.array([-1.2, -0.3, 0.4, 1.1])
    starts = 0.05 * np.column_stack([np.cos(angles), np.sin(angles)])
    for angle, line in zip(angles, field_lines(solution, starts, "air"), strict=True):
        assert line.lengths[-1] == pytest.approx(0.1, rel=0.01)
        assert line.voltage == pytest.approx(1.0, rel=5e-3)
        turned = np.arctan2(line.points[:, 1], line.points[:, 0])
        assert turned == pytest.approx(angle, abs=1e-4)


def test_ionisation_has_its_zero_and_joins_at_the_knee() -> None:
    pressure = 1.01325
    assert ionisation(np.array([critical_field()]))[0] == 0
    assert ionisation(np.array([1.001 * critical_field()]))[0] > 0
    below, above = ionisation(np.array([7.9429e6, 7.9431e6]) * pressure) / pressure / 1e3
    assert below == pytest.approx(53.27, abs=0.05)
    assert above == pytest.approx(below, rel=2e-3)


@given(st.floats(0.001, 0.1), st.floats(0.5, 1.2))
def test_thin_air_needs_less_voltage(gap: float, density: float) -> None:
    assert uniform_inception_voltage(gap, density) < uniform_inception_voltage(gap, 1.1 * density)


@given(st.floats(0.5, 50), st.floats(0.6, 1.1))
def test_inception_scales_with_the_field(factor: float, density: float) -> None:
    lengths = np.linspace(0, 0.02, 400)
    field = 1e3 / (1 + 300 * lengths)
    once = inception_scale(lengths, field, density)
    assert inception_scale(lengths, factor * field, density) == pytest.approx(once / factor)
    assert streamer_integral(lengths, once * field, density) == pytest.approx(9.15, rel=1e-6)


def test_no_field_starts_no_streamer() -> None:
    assert streamer_integral(np.array([0.0, 1.0]), np.array([1.0, 1.0])) == 0
    with pytest.raises(InputError, match="constant"):
        inception_scale(np.array([0.0, 1.0]), np.array([1.0, 1.0]), constant=0)
    with pytest.raises(FieldError, match="streamer"):
        inception_scale(np.array([0.0, 1e-9]), np.array([1.0, 1e-12]))


def test_cumulated_stress_starts_at_the_peak_and_falls() -> None:
    lengths = np.linspace(0, 0.05, 501)
    field = 1e6 * np.exp(-(((lengths - 0.02) / 0.01) ** 2))
    sizes, means = cumulative_means(lengths, field)
    assert means[0] == pytest.approx(1e6, rel=1e-3)
    assert (np.diff(means) <= 1e-6).all()
    assert sizes[-1] == pytest.approx(0.05)
    whole = 1e6 * 0.01 * math.sqrt(math.pi) / 2 * (math.erf(3) + math.erf(2)) / 0.05
    assert means[-1] == pytest.approx(whole, rel=1e-4)


@given(st.lists(st.floats(1.0, 100.0), min_size=3, max_size=30))
def test_a_stretch_is_never_less_stressed_than_the_whole(values: list[float]) -> None:
    lengths = np.linspace(0, 1, len(values))
    _, means = cumulative_means(lengths, np.array(values))
    assert (means >= means[-1] * (1 - 1e-12)).all() or means.max() <= max(values)
    assert means.max() <= max(values) * (1 + 1e-12)


def test_lines_of_several_regions_walk_together_as_they_would_alone() -> None:
    """A rod in two insulations: lines from it inward and outward, each kept to its own region."""
    sides = (
        Side("rod", path((0.01, 0), (0.01, 0.1)), None, "inner", LIVE),
        Side("joint", path((0.02, 0), (0.02, 0.1)), "inner", "outer"),
        Side("wall", path((0.04, 0), (0.04, 0.1)), "outer", None, EARTH),
        Side("inner top", path((0.01, 0.1), (0.02, 0.1)), None, "inner"),
        Side("outer top", path((0.02, 0.1), (0.04, 0.1)), None, "outer"),
        Side("inner base", path((0.01, 0), (0.02, 0)), "inner", None),
        Side("outer base", path((0.02, 0), (0.04, 0)), "outer", None),
    )
    media = {"inner": Medium(4.0), "outer": Medium(1.0)}
    solution = solve(Problem(Shape(sides), media, {LIVE: 1.0, EARTH: 0.0}), 1e-6)
    starts = np.array([[0.01, 0.03], [0.04, 0.05], [0.02, 0.06]])
    own = ("inner", "outer", "outer")
    together = field_lines(solution, starts, own)

    assert [line.region for line in together] == list(own)
    assert [line.lengths[-1] for line in together] == pytest.approx([0.01, 0.02, 0.02], rel=1e-2)
    for start, region, line in zip(starts, own, together, strict=True):
        (alone,) = field_lines(solution, start, region)
        assert line.points == pytest.approx(alone.points, rel=1e-9)
        assert line.strength == pytest.approx(alone.strength, rel=1e-9)
    whole = math.log(2) / 4 + math.log(2)
    assert together[0].voltage == pytest.approx(math.log(2) / 4 / whole, rel=5e-3)
    with pytest.raises(InputError, match="expected one, or one for each"):
        field_lines(solution, starts, ("inner",))
    with pytest.raises(InputError, match="region: given"):
        field_lines(solution, starts, "nowhere")
