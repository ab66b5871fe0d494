"""Heat by finite elements against exact bodies, refinement and its own balance."""

import math
from itertools import pairwise

import numpy as np
import pytest

from shedlight.errors import InputError
from shedlight.geometry.curves import Point, line
from shedlight.physics.heat import radial
from shedlight.physics.heat.fin import fin_end_temperature
from shedlight.physics.heat.fin_flow import fin_temperature
from shedlight.physics.heat.section_field import (
    HeatProblem,
    HeatSide,
    Matter,
    Skin,
    heat_field,
)

AIR = 313.15


def ring(
    radii: tuple[float, ...],
    height: float,
    skins: dict[str, Skin],
    matters: tuple[Matter, ...],
    size: float = 0.01,
) -> HeatProblem:
    """Concentric layers between two levels; sides "inner", "outer", "bottom", "top"."""
    names = [f"layer {n}" for n in range(len(matters))]
    sides = []
    for n, (low, high) in enumerate(pairwise(radii)):
        down, up = (line(Point(low, z), Point(high, z)) for z in (0.0, height))
        sides.append(HeatSide("bottom", down, names[n], None, skins.get("bottom")))
        sides.append(HeatSide("top", up, None, names[n], skins.get("top")))
    for n, radius in enumerate(radii):
        wall = line(Point(radius, 0.0), Point(radius, height))
        name = "inner" if n == 0 else "outer" if n == len(radii) - 1 else f"wall {n}"
        inside, outside = (names[k] if 0 <= k < len(names) else None for k in (n - 1, n))
        sides.append(HeatSide(name, wall, inside, outside, skins.get(name)))
    return HeatProblem(tuple(sides), dict(zip(names, matters, strict=True)), size, {})


# --- exact bodies ---------------------------------------------------------------------------


def test_a_heated_hollow_cylinder() -> None:
    """Carslaw and Jaeger: even source, no heat through the bore, film outside."""
    k, q, inner, outer, film = 1.5, 2e4, 0.02, 0.05, 10.0
    skins = {"outer": Skin(film, AIR)}
    found = heat_field(ring((inner, outer), 0.05, skins, (Matter(k, q),)))
    surface = AIR + q * (outer**2 - inner**2) / (2 * outer * film)
    bore = surface + radial.heated_cylinder_rise(q, inner, outer, k)
    assert found.extremes["layer 0"] == pytest.approx((surface, bore), abs=1e-3)
    assert found.made["layer 0"] == pytest.approx(q * math.pi * (outer**2 - inner**2) * 0.05)


def test_conduction_through_three_concentric_layers() -> None:
    """Films inside and out, three layers in series: every wall's temperature."""
    radii, conductivities = (0.015, 0.025, 0.043, 0.048), (0.12, 1.2, 0.03)
    hot, cold = Skin(500.0, 373.15), Skin(20.0, AIR)
    skins = {"inner": hot, "outer": cold}
    matters = tuple(Matter(k) for k in conductivities)
    found = heat_field(ring(radii, 0.03, skins, matters, size=0.004))
    resistances = [1 / (2 * math.pi * radii[0] * hot.film)]
    resistances += [
        radial.cylinder_resistance(a, b, k)
        for a, b, k in zip(radii, radii[1:], conductivities, strict=False)
    ]
    resistances.append(1 / (2 * math.pi * radii[-1] * cold.film))
    flow = (hot.ambient - cold.ambient) / sum(resistances)
    walls = hot.ambient - flow * np.cumsum(resistances[:-1])
    seen = found.at(np.array(radii) - np.array([-1e-8, 0, 0, 1e-8]), np.full(4, 0.015))
    assert seen == pytest.approx(walls, abs=2e-3)
    assert found.given_off["outer"] == pytest.approx(flow * 0.03, rel=1e-5)
    assert found.given_off["inner"] == pytest.approx(-flow * 0.03, rel=1e-5)


@pytest.mark.parametrize("current", [0.0, 1000.0, 2000.0])
def test_the_exact_fin(current: float) -> None:
    """A thin rod between a hot end and a film end: the fin's closed form along its axis.

    The rod conducts so well across that one temperature fills its section, as the fin asks.
    """
    radius, length, k, film, end_film = 0.015, 0.6, 385.0, 12.0, 40.0
    area, alpha = math.pi * radius**2, 0.00393
    per_length = 1.7241e-8 / area
    side = 2 * math.pi * radius * film
    b = (side - current**2 * per_length * alpha) / (k * area)
    s = current**2 * per_length * (1 + alpha * (AIR - 293.15)) / (k * area)
    skins = {
        "outer": Skin(film, AIR),
        "bottom": Skin(1e7, 368.15),
        "top": Skin(end_film, AIR),
    }
    matter = Matter(k, current**2 * per_length / area, alpha)
    problem = ring((0.0, radius), length, skins, (matter,), size=0.01)
    found = heat_field(problem)
    end = fin_end_temperature(b, s, AIR, 368.15, length, k * area, end_film * area, AIR, 0.0)
    places = np.linspace(0.02, 0.58, 8)
    seen = found.at(np.full(8, 0.0075), places)
    wanted = [fin_temperature(b, s, AIR, 368.15, end, length, float(z)) for z in places]
    assert seen == pytest.approx(wanted, abs=0.02)


def test_a_source_that_falls_outward_keeps_its_heat() -> None:
    skins = {"outer": Skin(10.0, AIR), "inner": Skin(10.0, AIR)}
    found = heat_field(ring((0.05, 0.5), 0.01, skins, (Matter(50.0, 100.0, fall=2.0),)))
    assert found.made["layer 0"] == pytest.approx(2 * math.pi * 0.01 * 100 * math.log(10), rel=1e-6)


# --- refinement, balance, refusal ----------------------------------------------------------


def test_refinement_converges_on_the_exact_bore() -> None:
    """Each order brings the bore nearer to Carslaw and Jaeger; the doubt covers what is left."""
    k, q, inner, outer = 1.5, 2e5, 0.005, 0.05
    skins = {"outer": Skin(10.0, AIR)}
    exact = AIR + q * (outer**2 - inner**2) / (2 * outer * 10.0)
    exact += radial.heated_cylinder_rise(q, inner, outer, k)
    misses, doubts = [], []
    for order in (1, 2, 3, 4):
        found = heat_field(ring((inner, outer), 0.05, skins, (Matter(k, q),), 0.02), order)
        misses.append(abs(found.extremes["layer 0"][1] - exact))
        doubts.append(found.doubt)
    assert misses[3] < misses[1] < misses[0]
    assert misses[3] < 0.05
    assert all(miss <= 3 * doubt for miss, doubt in zip(misses, doubts, strict=True))
    smaller = heat_field(ring((inner, outer), 0.05, skins, (Matter(k, q),), 0.005), 2)
    assert abs(smaller.extremes["layer 0"][1] - exact) < misses[1]


def test_heat_in_is_heat_out() -> None:
    skins = {"outer": Skin(15.0, AIR), "top": Skin(5.0, 300.0), "inner": Skin(30.0, 350.0)}
    matters = (Matter(0.12, 1e3), Matter(1.2, 5e2, 0.004))
    found = heat_field(ring((0.01, 0.02, 0.04), 0.1, skins, matters))
    assert found.unaccounted < 1e-10
    assert sum(found.made.values()) == pytest.approx(sum(found.given_off.values()), rel=1e-9)


def test_outside_the_section_there_is_no_temperature() -> None:
    found = heat_field(ring((0.01, 0.02), 0.1, {"outer": Skin(15.0, AIR)}, (Matter(1.0, 1e3),)))
    seen = found.at(np.array([0.015, 0.03, 0.005]), np.array([0.05, 0.05, 0.05]))
    assert np.isfinite(seen).tolist() == [True, False, False]


def test_a_runaway_and_an_unsealed_section_are_refused() -> None:
    with pytest.raises(InputError, match="runaway"):
        heat_field(ring((0.01, 0.02), 0.1, {"outer": Skin(1.0, AIR)}, (Matter(1.0, 1e6, 0.1),)))
    with pytest.raises(InputError, match="gives heat"):
        ring((0.01, 0.02), 0.1, {}, (Matter(1.0),))
    with pytest.raises(InputError, match="missing"):
        HeatProblem(
            ring((0.01, 0.02), 0.1, {"outer": Skin(1.0, AIR)}, (Matter(1.0),)).sides, {}, 1, {}
        )
