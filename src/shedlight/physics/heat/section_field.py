"""Steady temperatures of a half-section: axisymmetric conduction by finite elements.

    div(k grad T) + q (1 + alpha (T - T_ref)) = 0  in every region,
    -k dT/dn = h (T - T_a)  on every skin,  no heat across the axis and bare cuts

Regions are closed loops of named edges, as the section has them. The library is opened at first
use; it has no type hints, so what comes from it is :data:`typing.Any`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from importlib import import_module
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import CalculationError, InputError
from shedlight.geometry.curves import Curve, Point
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.heat.conductor import REFERENCE_TEMPERATURE

Array = NDArray[np.float64]

MILLI = 1e-3  # the mesher works in millimetres: it takes lengths of 1e-9 for none [m]
SAGITTA = 5e-5  # how far a chord may stray from an arc [m]
ON_AXIS = 1e-9
MOST_ELEMENTS = 60_000


@dataclass(frozen=True)
class Matter:
    """What fills a region: heat conductivity [W/mK] and heat made in it.

    The source is ``source · r^-fall`` [W/m³ with r in m]; ``growth`` is the share by which it
    grows for every kelvin above 20 °C [1/K].
    """

    conductivity: float
    source: float = 0.0
    growth: float = 0.0
    fall: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what conducts nothing or makes less than nothing."""
        positive(conductivity=self.conductivity)
        not_negative(source=self.source, growth=self.growth, fall=self.fall)


@dataclass(frozen=True)
class Skin:
    """A surface that gives heat to its surroundings: film [W/m²K], temperature there [K]."""

    film: float
    ambient: float

    def __post_init__(self) -> None:
        """Refuse what is no film."""
        not_negative(film=self.film)
        positive(ambient=self.ambient)


@dataclass(frozen=True)
class HeatSide:
    """An edge with the regions on its left and right as walked; outside of all is None."""

    name: str
    curve: Curve
    left: str | None
    right: str | None
    skin: Skin | None = None


@dataclass(frozen=True)
class HeatProblem:
    """A half-section for the heat: its sides, what fills its regions, how fine it is meshed [m]."""

    sides: tuple[HeatSide, ...]
    matters: Mapping[str, Matter]
    size: float
    fine: Mapping[str, float]

    def __post_init__(self) -> None:
        """Refuse regions of nothing, and a section that gives its heat to nobody."""
        positive(size=self.size)
        missing = set(self.regions) - set(self.matters)
        if missing:
            raise InputError(f"matters: given {sorted(self.matters)}; missing {sorted(missing)}")
        if not any(side.skin and side.skin.film > 0 for side in self.sides):
            raise InputError("skin: given none; expected a side that gives heat to something")

    @property
    def regions(self) -> tuple[str, ...]:
        """Names of the regions."""
        return tuple(sorted({n for s in self.sides for n in (s.left, s.right) if n is not None}))


@dataclass(frozen=True, eq=False)
class HeatField:
    """Temperatures of a half-section, with the heat made in its regions and given off by skins."""

    problem: HeatProblem
    mesh: Any
    solution: Any
    made: Mapping[str, float]  # [W]
    given_off: Mapping[str, float]  # [W]
    doubt: float  # largest change of a region's extreme by one order more [K]

    @cached_property
    def extremes(self) -> Mapping[str, tuple[float, float]]:
        """Lowest and highest temperature of every region [K]."""
        return _extremes(self.mesh, self.solution, self.problem.regions)

    @property
    def unaccounted(self) -> float:
        """Heat that is neither given off nor made, over all that is turned over [1]."""
        out = sum(self.given_off.values())
        turned = sum(abs(q) for q in (*self.made.values(), *self.given_off.values()))
        return abs(sum(self.made.values()) - out) / turned if turned else 0.0

    def at(self, r: Array, z: Array) -> Array:
        """Temperatures at radii and heights [m]; not a number outside the section [K].

        Args:
            r: Radii [m].
            z: Heights [m].
        """
        points = self.mesh(np.ascontiguousarray(r), np.ascontiguousarray(z))
        found = np.full(np.shape(r), np.nan)
        there = points["nr"] >= 0
        if there.any():
            found[there] = np.asarray(self.solution(points[there])).reshape(-1)
        return found


def heat_field(problem: HeatProblem, order: int = 3) -> HeatField:
    """Temperatures of a half-section in steady state.

    integral r (k grad T grad v - q alpha T v) + boundary r h T v
        = integral r q (1 - alpha T_ref) v + boundary r h T_a v

    Args:
        problem: Sides, what fills the regions, sizes of the mesh.
        order: Polynomial order; solved once more with one more, for the doubt.

    Returns:
        Temperatures, balance and doubt.

    Raises:
        InputError: sources grow faster than the skins carry off ("runaway").
        CalculationError: no mesh comes out.

    Source: Galerkin's method on the heat equation — basis: exact for the finest mesh.
    Valid for: steady states; films as they are given.
    """
    mesh = _meshed(problem)
    coarse = _solved(problem, mesh, order)
    fine = _solved(problem, mesh, order + 1)
    one, other = (_extremes(mesh, found, problem.regions) for found in (coarse, fine))
    doubt = max(abs(a - b) for name in one for a, b in zip(one[name], other[name], strict=True))
    return HeatField(problem, mesh, fine, *_balance(problem, mesh, fine), doubt)


def _ng() -> Any:
    return import_module("ngsolve")


def _meshed(problem: HeatProblem) -> Any:
    geometry = import_module("netgen.geom2d").SplineGeometry()
    known: dict[tuple[int, int], int] = {}
    numbers = {name: n for n, name in enumerate(problem.regions, start=1)}

    def vertex(point: Point) -> int:
        key = round(point.r * 1e9), round(point.z * 1e9)
        if key not in known:
            known[key] = geometry.AppendPoint(key[0] * 1e-6, key[1] * 1e-6)
        return known[key]

    for side in problem.sides:
        places = [vertex(point) for point in side.curve.points(SAGITTA)]
        for a, b in pairwise(places):
            if a != b:
                left, right = (numbers.get(n or "", 0) for n in (side.left, side.right))
                geometry.Append(["line", a, b], leftdomain=left, rightdomain=right, bc=side.name)
    for name, number in numbers.items():
        geometry.SetMaterial(number, name)
        geometry.SetDomainMaxH(
            number, min(problem.size, problem.fine.get(name, problem.size)) / MILLI
        )
    try:
        raw = geometry.GenerateMesh(maxh=problem.size / MILLI, grading=0.3, quad_dominated=False)
    except Exception as wrong:  # the library raises its own kinds
        raise CalculationError(f"heat_field: no mesh of the section: {wrong}") from None
    raw.Scale(MILLI)
    mesh = _ng().Mesh(raw)
    if not 0 < mesh.ne <= MOST_ELEMENTS:
        raise CalculationError(f"heat_field: {mesh.ne} elements; expected at most {MOST_ELEMENTS}")
    return mesh


def _sources(problem: HeatProblem, mesh: Any) -> tuple[Any, Any]:
    """Heat made at 20 °C, and by how much it grows for every kelvin."""
    ng = _ng()
    made = {
        name: matter.source * (ng.x ** (-matter.fall) if matter.fall else 1.0)
        for name, matter in problem.matters.items()
    }
    growth = {name: matter.growth for name, matter in problem.matters.items()}
    return mesh.MaterialCF(made, default=0.0), mesh.MaterialCF(growth, default=0.0)


def _solved(problem: HeatProblem, mesh: Any, order: int) -> Any:
    ng = _ng()
    space = ng.H1(mesh, order=order)
    u, v = space.TnT()
    k = mesh.MaterialCF({name: m.conductivity for name, m in problem.matters.items()})
    made, growth = _sources(problem, mesh)
    skins = {side.name: side.skin for side in problem.sides if side.skin and side.skin.film > 0}
    film = mesh.BoundaryCF({name: skin.film for name, skin in skins.items()}, default=0.0)
    ambient = mesh.BoundaryCF({name: s.ambient for name, s in skins.items()}, default=0.0)
    radius = ng.x
    a = ng.BilinearForm(space, symmetric=True)
    a += (k * ng.grad(u) * ng.grad(v) - made * growth * u * v) * radius * ng.dx(bonus_intorder=2)
    a += film * u * v * radius * ng.ds
    f = ng.LinearForm(space)
    f += made * (1 - growth * REFERENCE_TEMPERATURE) * v * radius * ng.dx(bonus_intorder=2)
    f += film * ambient * v * radius * ng.ds
    a.Assemble()
    f.Assemble()
    solution = ng.GridFunction(space)
    solution.vec.data = a.mat.Inverse(space.FreeDofs(), "sparsecholesky") * f.vec
    values = solution.vec.FV().NumPy()
    energy = ng.InnerProduct(solution.vec, f.vec)
    if not np.isfinite(values).all() or not energy > 0:
        raise InputError("problem: the sources grow faster than the skins carry off (runaway)")
    return solution


def _balance(
    problem: HeatProblem, mesh: Any, solution: Any
) -> tuple[Mapping[str, float], Mapping[str, float]]:
    ng = _ng()
    made, growth = _sources(problem, mesh)
    density = made * (1 + growth * (solution - REFERENCE_TEMPERATURE)) * 2 * np.pi * ng.x
    inside = {
        name: float(ng.Integrate(density, mesh, definedon=mesh.Materials(name), order=10))
        for name in problem.regions
    }
    outside = {
        side.name: float(
            ng.Integrate(
                side.skin.film * (solution - side.skin.ambient) * 2 * np.pi * ng.x,
                mesh,
                definedon=mesh.Boundaries(side.name),
                order=10,
            )
        )
        for side in problem.sides
        if side.skin and side.skin.film > 0
    }
    return inside, outside


def _extremes(
    mesh: Any, solution: Any, regions: tuple[str, ...]
) -> Mapping[str, tuple[float, float]]:
    """By the values at the vertices and middles of the elements' sides."""
    ng = _ng()
    rule = ng.IntegrationRule([(0, 0), (1, 0), (0, 1), (0.5, 0), (0, 0.5), (0.5, 0.5)], [0] * 6)
    found = {}
    for name in regions:
        points = mesh.MapToAllElements({ng.TRIG: rule}, mesh.Materials(name))
        values = np.asarray(solution(points))
        found[name] = float(values.min()), float(values.max())
    return found
