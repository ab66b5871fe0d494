"""The solved section against tubes whose stress is known exactly, and against finer meshes."""

import math

import numpy as np
import pytest

from shedlight.errors import InputError
from shedlight.geometry.curves import Arc, Curve, Line, Point, line
from shedlight.physics.strength.bending import second_moment_tube
from shedlight.physics.strength.section_mesh import Outline, mesh_of
from shedlight.physics.strength.section_skin import skin_of
from shedlight.physics.strength.section_stress import (
    Bed,
    BendingLoad,
    EvenLoad,
    Solid,
    solve_in_orders,
    solve_section,
)

INNER, OUTER, HEIGHT = 0.018, 0.034, 0.4
E, NU = 70e9, 0.22
NOTHING = BendingLoad("top", 0.0, 0.0)
HAIR = 1e-7


def tube(inner: float = INNER, outer: float = OUTER, height: float = HEIGHT) -> Outline:
    low, high = Point(inner, 0.0), Point(outer, 0.0)
    above, back = Point(outer, height), Point(inner, height)
    return Outline(
        (
            ("bottom", line(low, high)),
            ("outside", line(high, above)),
            ("top", line(above, back)),
            ("bore", line(back, low)),
        )
    )


def solid(outline: Outline | None = None, stiffness: float = 1e13) -> Solid:
    return Solid(outline or tube(), E, NU, (Bed("bottom", stiffness),))


WALL = np.array([INNER + HAIR, 0.025, OUTER - HAIR])


def test_thick_tube_under_pressure() -> None:
    pressure = 1e6
    found = solve_section(solid(), EvenLoad((("bore", pressure),)), NOTHING, 0.008, order=5)

    stress = found.at(WALL, np.full(3, HEIGHT / 2))
    scale = pressure * INNER**2 / (OUTER**2 - INNER**2)
    assert stress.round == pytest.approx(scale * (1 + (OUTER / WALL) ** 2), rel=2e-4)
    assert stress.radial == pytest.approx(scale * (1 - (OUTER / WALL) ** 2), abs=3e-4 * pressure)
    assert stress.along == pytest.approx(0.0, abs=1e-3 * pressure)
    assert stress.greatest[0] == pytest.approx(stress.round[0])


def test_pulled_tube_has_force_over_area_everywhere() -> None:
    found = solve_section(solid(), EvenLoad((), (("top", 5e3),)), NOTHING, 0.016)

    area = math.pi * (OUTER**2 - INNER**2)
    for height in (0.2, 0.3, 0.39):
        assert found.at(WALL, np.full(3, height)).along == pytest.approx(5e3 / area, rel=1e-3)


@pytest.mark.parametrize("height", [0.16, 0.2, 0.24])
def test_cantilever_tube_bends_as_a_beam(height: float) -> None:
    force = 1000.0
    found = solve_section(solid(), EvenLoad(), BendingLoad("top", force, 0.0), 0.008, order=5)

    stress = found.at(WALL, np.full(3, height))
    second = second_moment_tube(2 * OUTER, 2 * INNER)
    assert stress.along == pytest.approx(force * (HEIGHT - height) * WALL / second, rel=1e-4)
    peak = force * (HEIGHT - height) * OUTER / second
    assert stress.radial == pytest.approx(0.0, abs=1e-3 * peak)
    assert stress.round == pytest.approx(0.0, abs=1e-3 * peak)


def test_a_pure_moment_is_the_same_at_every_height() -> None:
    moment = 200.0
    found = solve_section(solid(), EvenLoad(), BendingLoad("top", 0.0, moment), 0.008)

    wanted = moment * OUTER / second_moment_tube(2 * OUTER, 2 * INNER)
    for height in (0.15, 0.25, 0.38):
        seen = found.bending_alone(WALL[2:], np.array([height])).along[0]
        assert seen == pytest.approx(wanted, rel=2e-4)


def test_bending_energy_is_that_of_a_beam_on_its_bed() -> None:
    # w = F L³/3EJ + F L/(k' A G) + F L²/(bed J) + F/(sliding bed A); energy = F w/2.
    force, stiffness = 1000.0, 1e12
    found = solve_section(
        solid(tube(height=0.8), stiffness), EvenLoad(), BendingLoad("top", force, 0.0), 0.016
    )
    second = second_moment_tube(2 * OUTER, 2 * INNER)
    area = math.pi * (OUTER**2 - INNER**2)
    shear = 1 / (0.55 * E / (2 * (1 + NU)) * area)
    give = 0.8**3 / (3 * E * second) + 0.8 * shear + 0.8**2 / (stiffness * second)
    give += 1 / (stiffness / 3 * area)
    assert 2 * found.energies[1] / force**2 == pytest.approx(give, rel=2e-3)


def rounded(radius: float) -> Outline:
    """A shaft of 30 mm that widens to 60 mm by a quarter circle, bored through by 1 mm."""
    centre = Point(0.030 / 2 + radius, 0.05 + radius)
    foot = Arc(centre, radius, 1.5 * math.pi, -math.pi / 2)
    inner = 0.0005
    wide = line(Point(0.030, 0.0), Point(0.030, 0.05), foot.start)
    side = Curve((*wide.pieces, foot, Line(foot.end, Point(0.015, 0.15))))
    return Outline(
        (
            ("bottom", line(Point(inner, 0.0), Point(0.030, 0.0))),
            ("outside", side),
            ("top", line(Point(0.015, 0.15), Point(inner, 0.15))),
            ("bore", line(Point(inner, 0.15), Point(inner, 0.0))),
        )
    )


def peterson(ratio: float, share: float) -> float:
    """Fit of the chart of shouldered shafts in bending, step over radius 2 to 20.

    W. D. Pilkey, Peterson's Stress Concentration Factors, chart of stepped round bars — from
    memory, the fit's own tolerance about 3 %.
    """
    root = math.sqrt(ratio)
    c1 = 1.232 + 0.832 * root - 0.008 * ratio
    c2 = -3.813 + 0.968 * root - 0.260 * ratio
    c3 = 7.423 - 4.868 * root + 0.869 * ratio
    c4 = -3.839 + 3.070 * root - 0.600 * ratio
    return c1 + c2 * share + c3 * share**2 + c4 * share**3


@pytest.mark.parametrize("radius", [0.0015, 0.003, 0.006])
def test_stepped_shaft_has_the_published_concentration(radius: float) -> None:
    published = peterson(0.015 / radius, 2 * 0.015 / 0.060)
    outline = rounded(radius)
    body = Solid(outline, E, 0.3, (Bed("bottom", 1e15),))
    found = solve_section(body, EvenLoad(), BendingLoad("top", 0.0, 100.0), 0.006, order=4)

    skin = skin_of(outline, "outside", 1e-4, 0.0)
    peak = float(np.nanmax(found.at(skin.r, skin.z).greatest))
    nominal = 32 * 100.0 / (math.pi * 0.030**3)
    assert peak / nominal == pytest.approx(published, rel=0.03)


def test_two_degrees_at_once_are_the_two_alone() -> None:
    body = Solid(rounded(0.003), E, NU, (Bed("bottom", 1e12),))
    even, bending = EvenLoad((("outside", 1e5),)), BendingLoad("top", 10.0, 1.0)
    together = solve_in_orders(body, even, bending, 0.006, (2, 3, 5))
    skin = skin_of(rounded(0.003), "outside", 1e-3, 0.002)

    for order, found in zip((2, 3, 5), together, strict=True):
        alone = solve_section(body, even, bending, 0.006, order)
        assert found.unknowns == alone.unknowns
        # Curved sides are integrated more sharply for the higher degree: 1e-4 is that.
        assert found.energies == pytest.approx(alone.energies, rel=1e-4)
        peak = alone.at(skin.r, skin.z).greatest
        assert found.at(skin.r, skin.z).greatest == pytest.approx(peak, abs=2e-3 * np.max(peak))


def test_peaks_settle_as_mesh_and_order_grow() -> None:
    outline = rounded(0.003)
    body = Solid(outline, E, NU, (Bed("bottom", 1e12),))
    skin = skin_of(outline, "outside", 1e-4, 0.0)
    peaks, energies = [], []
    for size, order in ((0.012, 2), (0.012, 3), (0.006, 4), (0.004, 5)):
        found = solve_section(body, EvenLoad(), BendingLoad("top", 10.0, 0.0), size, order)
        peaks.append(float(np.nanmax(found.at(skin.r, skin.z).greatest)))
        energies.append(found.energies[1])
    errors = [abs(peak / peaks[-1] - 1) for peak in peaks[:-1]]
    assert errors[0] > errors[1] > errors[2]
    assert errors[1] < 0.01
    # Held by its beds and pushed, the body gives way more and more: energy grows from below.
    assert energies == sorted(energies)
    assert energies[1] == pytest.approx(energies[-1], rel=1e-4)


def test_outside_the_body_there_is_no_stress() -> None:
    found = solve_section(solid(), EvenLoad((("bore", 1e5),)), NOTHING, 0.016)

    assert np.isnan(found.at(np.array([0.05]), np.array([0.2])).greatest).all()


def test_inward_corners_without_rounding_are_found_and_left_out() -> None:
    sharp = Outline(
        (
            ("bottom", line(Point(0.01, 0.0), Point(0.04, 0.0))),
            (
                "outside",
                line(Point(0.04, 0.0), Point(0.04, 0.02), Point(0.02, 0.02), Point(0.02, 0.1)),
            ),
            ("top", line(Point(0.02, 0.1), Point(0.01, 0.1))),
            ("bore", line(Point(0.01, 0.1), Point(0.01, 0.0))),
        )
    )
    assert [(notch.r, notch.z) for notch in sharp.notches] == [(0.02, 0.02)]
    assert rounded(0.003).notches == ()
    skin = skin_of(sharp, "outside", 2e-4, 1e-3)
    assert np.hypot(skin.r - 0.02, skin.z - 0.02).min() >= 1e-3


def test_what_is_no_body_is_refused() -> None:
    with pytest.raises(InputError, match="open outline"):
        Outline((("one", line(Point(0.1, 0.0), Point(0.2, 0.0))),))
    with pytest.raises(InputError, match="beds"):
        Solid(tube(), E, NU, ())
    with pytest.raises(InputError, match="poisson"):
        Solid(tube(), E, 0.5, (Bed("bottom", 1e10),))
    with pytest.raises(InputError, match="size"):
        mesh_of(tube(), 0.0)
