"""Fields known exactly: bounds that bracket, refinement that converges."""

import math
from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest

from shedlight.physics.field.adapt import Solution, solve
from shedlight.physics.field.benchmarks import (
    EARTH,
    LIVE,
    Found,
    arc,
    ball_between_plates,
    coaxial,
    concentric_spheres,
    path,
    through,
)
from shedlight.physics.field.benchmarks_open import ball_over_plane, disc_in_can
from shedlight.physics.field.domain import VACUUM_PERMITTIVITY, Medium, Problem, Shape, Side
from shedlight.physics.field.meshing import Fineness, mesh_of
from shedlight.physics.field.profiles import profile
from shedlight.physics.field.proof import proof_of
from shedlight.physics.field.readings import read_at
from shedlight.physics.field.solve import columns

E0 = VACUUM_PERMITTIVITY
SLACK = 2e-6  # rounded sides stray from circles by so much, relative to the capacitance


def images(radius: float, gap: float) -> float:
    """Capacitance of a ball over a plane by image charges."""
    high = radius + gap
    charge, shift, total = 1.0, 0.0, 0.0
    for _ in range(400):
        total += charge
        distance = 2 * high - shift
        charge, shift = charge * radius / distance, radius**2 / distance
    return 4 * math.pi * E0 * radius * total


CASES: dict[str, tuple[Callable[[], Found], float]] = {
    "coaxial": (
        lambda: coaxial((0.01, 0.05), (1.0,)),
        2 * math.pi * E0 * 0.02 / math.log(5),
    ),
    "coaxial layers": (
        lambda: coaxial((0.012, 0.02, 0.04), (2.2, 6.0)),
        2 * math.pi * E0 * 0.02 / (math.log(2 / 1.2) / 2.2 + math.log(2) / 6),
    ),
    "spheres": (lambda: concentric_spheres(0.05, 0.15), 4 * math.pi * E0 * 0.075),
    "half filled spheres": (
        lambda: concentric_spheres(0.05, 0.15, 2.2),
        2 * math.pi * E0 * 3.2 * 0.075,
    ),
    "floating shell": (
        lambda: concentric_spheres(0.05, 0.15, shell=0.09),
        4 * math.pi * E0 * 0.075,
    ),
    "ball over plane": (lambda: ball_over_plane(1.0, 1.0), images(1.0, 1.0)),
    "ball far over plane": (lambda: ball_over_plane(1.0, 10.0), images(1.0, 10.0)),
    "ball near plane": (lambda: ball_over_plane(1.0, 0.1), images(1.0, 0.1)),
}


@pytest.mark.parametrize("case", CASES)
def test_bounds_bracket_the_exact_capacitance(case: str) -> None:
    make, exact = CASES[case]
    found = make()
    assert found.proof
    assert found.proof.capacitance_low <= exact * (1 + SLACK)
    assert found.proof.capacitance_high >= exact * (1 - SLACK)
    assert found.proof.gap <= found.proof.tolerance


@pytest.mark.parametrize("losses", [(0.0, 0.0), (0.02, 0.0), (0.05, 0.01), (0.0, 0.3)])
def test_bounds_bracket_the_loss_free_capacitance_however_large_the_losses(
    losses: tuple[float, float],
) -> None:
    """Two coaxial layers: unequal losses raise what a bridge reads beyond the bounds."""
    radii, permittivities = (0.01, 0.02, 0.04), (2.2, 6.0)
    proof = coaxial(radii, permittivities, loss_factors=losses).proof
    assert proof

    def exact(loss: tuple[float, float]) -> complex:
        layers = zip(radii[:-1], radii[1:], permittivities, loss, strict=True)
        total = sum(math.log(b / a) / (e * (1 - 1j * tan)) for a, b, e, tan in layers)
        return 2 * math.pi * E0 * 0.02 / total

    still, lossy = exact((0.0, 0.0)).real, exact(losses)
    assert proof.capacitance_low <= still * (1 + SLACK)
    assert proof.capacitance_high >= still * (1 - SLACK)
    assert proof.capacitance_low <= proof.capacitance_loss_free <= proof.capacitance_high
    assert proof.capacitance_loss_free == pytest.approx(still, rel=proof.gap / 2 + SLACK)
    assert proof.capacitance == pytest.approx(lossy.real, rel=1e-6)
    assert proof.losses_add == pytest.approx(lossy.real / still - 1, rel=1e-2, abs=1e-7)
    assert proof.loss_by_admittance == pytest.approx(-lossy.imag / lossy.real, rel=1e-6)
    if losses != (0.0, 0.0):
        assert proof.capacitance > proof.capacitance_high  # the bounds are not of this number


def test_images_agree_with_the_printed_value() -> None:
    assert images(1.0, 1.0) / (4 * math.pi * E0) == pytest.approx(1.3410598, rel=1e-7)


def test_a_thin_disc_lies_between_its_bounds() -> None:
    found = disc_in_can().proof
    assert found
    known = 11.41238 * E0 * 0.5 / 2
    assert found.capacitance_low < known * (1 + 2e-6) < found.capacitance_high * (1 + 4e-6)
    assert found.gap < 2e-5


def test_a_floating_ball_holds_no_charge_and_the_potential_of_its_centre() -> None:
    found = ball_between_plates(metal=True)
    assert found.proof
    assert found.proof.floating_charge < 1e-10
    assert found.floating == pytest.approx(0.5, abs=1e-9)


# --- a needle: hyperboloid over a plane, cut off along an ellipse, which is a field line -----


def needle(tip: float, gap: float) -> tuple[Problem, float]:
    """A hyperboloid at 1 V over an earthed plane, and its exact capacitance."""
    cos_live = math.sqrt(gap / (gap + tip))
    focus = math.sqrt(gap * (gap + tip))
    outer = 2.0  # of the ellipse, in units of the focus

    def at(xi: float, cos: float) -> tuple[float, float]:
        return focus * math.sqrt((xi**2 - 1) * (1 - cos**2)), focus * xi * cos

    live = [at(xi, cos_live) for xi in 1 + (outer - 1) * np.linspace(0, 1, 121) ** 4]
    rim = [at(outer, cos) for cos in np.linspace(0, cos_live, 41)]
    sides = (
        Side("needle", through(live), None, "air", LIVE),
        Side("ellipse", through(rim), "air", None),
        Side("axis", path((0.0, gap), (0.0, 0.0)), "air", None),
        Side("plane", path((0.0, 0.0), rim[0]), "air", None, EARTH),
    )
    flux = 2 * math.pi * focus * (outer - 1) / math.atanh(cos_live)
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    return problem, E0 * flux


@pytest.mark.parametrize(
    ("tip", "gap", "peak", "foot"), [(1.0, 10.0, 0.561295, 0.0510268), (0.5, 25.0, 0.761043, 0)]
)
def test_a_needle_over_a_plane(tip: float, gap: float, peak: float, foot: float) -> None:
    problem, exact = needle(tip, gap)
    solution = solve(problem, 1e-4, order=5, fineness=Fineness(3.0))
    assert proof_of(solution).capacitance == pytest.approx(exact, rel=5e-5)
    assert profile(solution, "needle", "air").strength.max() == pytest.approx(peak, rel=2e-3)
    if foot:
        assert profile(solution, "plane", "air").strength.max() == pytest.approx(foot, rel=1e-3)


# --- convergence -----------------------------------------------------------------------------


def smooth(size: int, order: int) -> float:
    """Error of the capacitance of concentric spheres, on elements of a given size."""
    sides = (
        Side("ball", arc((0, 0), 0.05, -math.pi / 2, math.pi), None, "air", LIVE),
        Side("hollow", arc((0, 0), 0.15, -math.pi / 2, math.pi), "air", None, EARTH),
        Side("axis below", path((0, -0.05), (0, -0.15)), "air", None),
        Side("axis above", path((0, 0.05), (0, 0.15)), None, "air"),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    unit = columns(mesh_of(problem.shape, problem.media, even(size, 0.15)), problem, order)
    found = unit.admittances[0, 0].imag / (100 * math.pi)
    return float(abs(found / (4 * math.pi * E0 * 0.075) - 1))


def sharp(size: int, order: int) -> float:
    """Error of the capacitance of a disc in a can, on elements of a given size, none graded."""
    sides = (
        Side("disc", path((0, 0), (0.5, 0)), "air", None, LIVE),
        Side("middle", path((0.5, 0), (1, 0)), "air", None),
        Side("wall", path((1, 0), (1, 1)), "air", None, EARTH),
        Side("lid", path((1, 1), (0, 1)), "air", None, EARTH),
        Side("axis", path((0, 1), (0, 0)), "air", None),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    fineness = even(size, 1.0, layers=0)
    unit = columns(mesh_of(problem.shape, problem.media, fineness), problem, order)
    found = unit.admittances[0, 0].imag / (100 * math.pi)
    return float(abs(found / (11.41238 * E0 * 0.25) - 1))


def even(size: int, width: float, layers: int = 3) -> Fineness:
    """Elements of one size everywhere."""
    places = (np.arange(size) + 0.5) / size * width
    step = 0.8 * width / size
    wishes = tuple((float(r), float(z), step) for r in places for z in (*-places, *places))
    return Fineness(0.7, layers, wishes)


@pytest.mark.parametrize("order", [1, 2])
def test_smooth_fields_converge_with_twice_the_order(order: int) -> None:
    sizes = (8, 16, 32)
    errors = [smooth(size, order) for size in sizes]
    rates = [math.log2(before / after) for before, after in pairwise(errors)]
    assert np.mean(rates) == pytest.approx(2 * order, abs=0.5)


@pytest.mark.parametrize("order", [1, 2, 3])
def test_an_ungraded_edge_holds_convergence_to_first_order_for_every_degree(order: int) -> None:
    errors = [sharp(size, order) for size in (8, 16, 32)]
    rates = [math.log2(before / after) for before, after in pairwise(errors)]
    assert np.mean(rates) == pytest.approx(1.0, abs=0.25)


def test_layers_into_the_edge_win_where_refinement_does_not() -> None:
    plain = sharp(16, 3)
    graded = disc_in_can().proof
    assert graded
    assert abs(graded.capacitance / (11.41238 * E0 * 0.25) - 1) < plain / 100


# --- readings --------------------------------------------------------------------------------


def spheres() -> Solution:
    sides = (
        Side("ball", arc((0, 0), 0.05, -math.pi / 2, math.pi), None, "air", LIVE),
        Side("hollow", arc((0, 0), 0.15, -math.pi / 2, math.pi), "air", None, EARTH),
        Side("axis below", path((0, -0.05), (0, -0.15)), "air", None),
        Side("axis above", path((0, 0.05), (0, 0.15)), None, "air"),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    return solve(problem, 1e-6, order=6, fineness=Fineness(5.0))


def test_readings_between_spheres_right_up_to_curved_sides() -> None:
    angle = np.linspace(-1.4, 1.4, 60)
    for radius in (0.05 + 1e-6, 0.0501, 0.07, 0.1, 0.1499, 0.15 - 1e-6):
        found = read_at(spheres(), radius * np.cos(angle), radius * np.sin(angle))
        assert set(found.regions) == {"air"}
        exact = (1 / radius - 1 / 0.15) / (1 / 0.05 - 1 / 0.15)
        assert found.potential.real == pytest.approx(exact, abs=2e-6)
        assert found.strength == pytest.approx(0.075 / radius**2, rel=2e-3)


def test_points_outside_read_as_outside() -> None:
    found = read_at(spheres(), np.array([0.01, 0.2]), np.array([0.0, 0.0]))
    assert found.regions == ("", "")
    assert np.isnan(found.potential).all()
