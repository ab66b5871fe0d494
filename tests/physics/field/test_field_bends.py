"""Elements beside arcs stay elements when their sides are rounded."""

import math
from pathlib import Path

import numpy as np
import pytest

from shedlight.geometry.section import build_section
from shedlight.given.reading import read
from shedlight.physics.field.benchmarks import arc, path
from shedlight.physics.field.domain import Medium, Problem, Shape, Side
from shedlight.physics.field.engine import ng
from shedlight.physics.field.location import place_in
from shedlight.physics.field.meshing import FieldMesh, Fineness, mesh_of
from shedlight.workings.field import EARTH, LIVE, fillings_of, problem_of

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.toml"))
SPOTS = np.array([[1, 0], [0, 1], [0, 0], [0.5, 0.5], [0, 0.5], [0.5, 0], [1 / 3, 1 / 3]])
HEALTHY = 0.04  # smallest over largest stretch of area in an element


def squeezed(mesh: FieldMesh) -> float:
    """Smallest over largest determinant of the map of an element, of the worst triangle."""
    triangles = np.flatnonzero(mesh.corners_of_elements[:, 3] < 0)
    rows = []
    for spot in SPOTS:
        places = place_in(mesh, triangles, np.tile(spot, (len(triangles), 1)))
        rows.append(np.asarray(ng.Det(ng.specialcf.JacobianMatrix(2))(places)).ravel())
    stretch = np.array(rows) * np.sign(np.median(rows))
    return float((stretch.min(axis=0) / stretch.max(axis=0)).min())


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_no_element_of_an_example_folds(example: Path) -> None:
    installation = read(example)
    section = build_section(installation.bushing, installation.transformer)
    problem = problem_of(section, fillings_of(installation), 50.0)
    assert squeezed(mesh_of(problem.shape, problem.media, Fineness())) > HEALTHY


@pytest.mark.parametrize("gap", [0.001, 0.003, 0.01, 0.03])
def test_a_ring_close_to_a_wall_is_not_folded(gap: float) -> None:
    """Both sides of the arc: a dielectric ring of round rod, coarse against its own bend."""
    ring = arc((0.05, 0.0), 0.01, 0.0, 2 * math.pi)
    wall = 0.06 + gap
    sides = (
        Side("rod", ring, "ring", "air"),
        Side("wall", path((wall, -0.03), (wall, 0.03)), "air", None, LIVE),
        Side("top", path((wall, 0.03), (0.02, 0.03)), "air", None),
        Side("core", path((0.02, 0.03), (0.02, -0.03)), "air", None, EARTH),
        Side("base", path((0.02, -0.03), (wall, -0.03)), "air", None),
    )
    media = {"ring": Medium(4.0), "air": Medium(1.0)}
    problem = Problem(Shape(sides), media, {LIVE: 1.0, EARTH: 0.0})
    for across in (0.4, 0.7, 1.5):
        mesh = mesh_of(problem.shape, problem.media, Fineness(across))
        assert squeezed(mesh) > HEALTHY
        volume = 2 * math.pi * mesh.volumes[problem.shape.regions.index("ring")]
        assert volume == pytest.approx(2 * math.pi**2 * 0.05 * 0.01**2, rel=1e-6)
