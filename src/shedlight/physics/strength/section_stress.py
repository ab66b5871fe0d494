"""Stress in the true section of the porcelain: pulled and pressed evenly, and bent.

Elasticity of a body of revolution. Even loads move it by u(r, z); a force across the axis moves it
by the first harmonic of the angle about the axis,

    u_r = U cos phi, u_phi = V sin phi, u_z = W cos phi,

so that both are solved on the half-section, in finite elements of high order. The body lies on
elastic beds (gasket, clamps, cement): no edge is held stiffly, none grows a false corner stress.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from importlib import import_module
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import finite, not_negative, positive, within
from shedlight.physics.strength.section_mesh import Outline, mesh_of

Array = NDArray[np.float64]
ORDER = 3
SLIDING = 1 / 3  # stiffness of a bed along its face over that against it


@dataclass(frozen=True)
class Bed:
    """An elastic bed under one edge."""

    edge: str
    stiffness: float  # pressure per depth [N/m³]


@dataclass(frozen=True)
class Solid:
    """A body of revolution of one material on its beds.

    Raises:
        InputError: a value outside its domain, or no bed.
    """

    outline: Outline
    elastic_modulus: float  # [Pa]
    poisson: float  # [1]
    beds: tuple[Bed, ...]

    def __post_init__(self) -> None:
        """Refuse what is no body."""
        positive(elastic_modulus=self.elastic_modulus)
        within(0.0, 0.49, poisson=self.poisson)
        if not self.beds:
            raise InputError("beds: given none; expected at least one")
        for bed in self.beds:
            positive(stiffness=bed.stiffness)


@dataclass(frozen=True)
class EvenLoad:
    """What acts alike all round: pressure on edges, forces along the axis spread over edges."""

    pressures: tuple[tuple[str, float], ...] = ()  # into the body [Pa]
    pulls: tuple[tuple[str, float], ...] = ()  # upward [N]


@dataclass(frozen=True)
class BendingLoad:
    """A force across the axis and a moment, both on one flat edge."""

    edge: str
    force: float  # [N]
    moment: float  # about the middle of the edge, bending the way the force does [Nm]


@dataclass(frozen=True)
class Tension:
    """Stresses at places on the side that bending pulls [Pa]; not a number outside the body."""

    radial: Array
    round: Array
    along: Array
    shear: Array

    @property
    def greatest(self) -> Array:
        """Greatest principal stress, pull positive [Pa]."""
        middle = (self.radial + self.along) / 2
        circle = np.hypot((self.radial - self.along) / 2, self.shear)
        return np.maximum(middle + circle, self.round)


@dataclass(frozen=True, eq=False)
class SectionSolution:
    """A solved section: stresses anywhere in it, and how much of them is open to doubt."""

    solid: Solid
    mesh: Any
    even: Any
    bent: Any
    beside: Any  # of even loads that were solved beside, if any
    energies: tuple[float, float]  # of even and of bending loads [J]
    unknowns: int

    def at(self, r: Array, z: Array) -> Tension:
        """Stresses at radii and heights, even and bending loads together.

        Args:
            r: Radii [m].
            z: Heights [m].

        Returns:
            Stresses on the pulled side [Pa].
        """
        return Tension(*(self._read(self.even, r, z) + self._read(self.bent, r, z)))

    def bending_alone(self, r: Array, z: Array) -> Tension:
        """The same of the bending loads alone.

        Args:
            r: Radii [m].
            z: Heights [m].

        Returns:
            Stresses on the pulled side [Pa].
        """
        return Tension(*self._read(self.bent, r, z))

    def of_beside(self, r: Array, z: Array) -> Tension:
        """The same of the even loads solved beside, alone; they are added as stresses are.

        Args:
            r: Radii [m].
            z: Heights [m].

        Returns:
            Stresses [Pa].
        """
        return Tension(*self._read(self.beside, r, z))

    def _read(self, stress: Any, r: Array, z: Array) -> Array:
        places = self.mesh(np.ravel(r), np.ravel(z))
        inside = places["nr"] >= 0
        found = np.full((4, inside.size), np.nan)
        if inside.any():
            found[:, inside] = np.asarray(stress(places[inside])).T
        return found.reshape(4, *np.shape(r))


def solve_section(
    solid: Solid,
    even: EvenLoad,
    bending: BendingLoad,
    size: float,
    order: int = ORDER,
) -> SectionSolution:
    """Solve a section under even loads and under bending.

    div sigma = 0, sigma = lambda tr(eps) I + 2 mu eps, with eps of the harmonics 0 and 1

    Args:
        solid: The body on its beds.
        even: What acts alike all round.
        bending: What bends it.
        size: Largest element [m].
        order: Degree of the elements.

    Returns:
        The solution.

    Raises:
        InputError: a load or size outside its domain.

    Source: Timoshenko and Goodier, stresses symmetrical about an axis; first harmonic after
        E. L. Wilson, Structural analysis of axisymmetric solids (1965) — basis: exact.
    Valid for: elastic porcelain, beds that stay pressed.
    """
    return solve_in_orders(solid, even, bending, size, (order,))[0]


def solve_in_orders(
    solid: Solid,
    even: EvenLoad,
    bending: BendingLoad,
    size: float,
    orders: tuple[int, ...],
    beside: EvenLoad | None = None,
) -> tuple[SectionSolution, ...]:
    """The same section solved in elements of several degrees, for what they differ by.

    The shapes of a lower degree are among those of a higher one: its equations are some rows of
    the others', which are set up once.

    Args:
        solid: The body on its beds.
        even: What acts alike all round.
        bending: What bends it.
        size: Largest element [m].
        orders: Degrees of the elements.
        beside: Further even loads, whose stresses are kept apart.

    Returns:
        A solution for each degree.

    Raises:
        InputError: a load or size outside its domain.

    Source: as :func:`solve_section` — basis: exact.
    """
    for order in orders:
        positive(order=order)
    finite(force=bending.force, moment=bending.moment)
    for _, value in (*even.pressures, *even.pulls):
        finite(load=value)
    mesh = _mesh(solid, size)
    evens = (even, beside or EvenLoad())
    return tuple(
        SectionSolution(
            solid,
            mesh,
            rests.stress,
            bent.stress,
            further.stress,
            (rests.energy, bent.energy),
            rests.unknowns + bent.unknowns,
        )
        for (rests, further), bent in zip(
            _solved_evenly(solid, evens, mesh, orders),
            _solved_bent(solid, bending, mesh, orders),
            strict=True,
        )
    )


@dataclass(frozen=True, eq=False)
class _Part:
    """What loads of one harmonic do: stresses as a function, energy [J]."""

    stress: Any
    energy: float
    unknowns: int


def _mesh(solid: Solid, size: float) -> Any:
    return mesh_of(solid.outline, size, tuple(bed.edge for bed in solid.beds))


def _lame(solid: Solid) -> tuple[float, float]:
    e, nu = solid.elastic_modulus, solid.poisson
    return e * nu / ((1 + nu) * (1 - 2 * nu)), e / (2 * (1 + nu))


def _measures(solid: Solid, edge: str) -> tuple[float, float, float]:
    """Area of a flat ring [m²], its second moment [m⁴] and its mean radius [m]."""
    curve = solid.outline.curve(edge)
    low, high = sorted((curve.start.r, curve.end.r))
    not_negative(radius=low)
    area = np.pi * (high**2 - low**2)
    return float(area), float(np.pi / 4 * (high**4 - low**4)), (low + high) / 2


def _solved_evenly(
    solid: Solid, loads: tuple[EvenLoad, ...], mesh: Any, orders: tuple[int, ...]
) -> list[list[_Part]]:
    """What each even load does, for each degree."""
    ng = import_module("ngsolve")
    space = ng.VectorH1(mesh, order=max(orders))
    (u, v), r, (lam, mu) = space.TnT(), ng.x, _lame(solid)

    def strain(w: Any) -> tuple[Any, Any, Any, Any]:
        slope = ng.Grad(w)
        return slope[0, 0], w[0] / r, slope[1, 1], slope[0, 1] + slope[1, 0]

    a = ng.BilinearForm(space, symmetric=True)
    a += (_energy(strain(u), strain(v), lam, mu) * r).Compile() * ng.dx
    normal = ng.specialcf.normal(2)
    for bed in solid.beds:
        across, back = u * normal, v * normal
        along = u * v - across * back
        pushed = bed.stiffness * (across * back + SLIDING * along)
        a += pushed * r * ng.ds(definedon=mesh.Boundaries(bed.edge))
    pushed_by = [_pushed_evenly(solid, load, space, mesh) for load in loads]
    return [
        [
            _Part(_stresses(strain(moved), lam, mu), math.pi * energy, unknowns)
            for moved, energy, unknowns in of_order
        ]
        for of_order in _found(space, a, pushed_by, orders)
    ]


def _pushed_evenly(solid: Solid, load: EvenLoad, space: Any, mesh: Any) -> Any:
    ng = import_module("ngsolve")
    v, r, normal = space.TestFunction(), ng.x, ng.specialcf.normal(2)
    f = ng.LinearForm(space)
    for edge, pressure in load.pressures:
        f += -pressure * (v * normal) * r * ng.ds(definedon=mesh.Boundaries(edge))
    for edge, pull in load.pulls:
        area, _, _ = _measures(solid, edge)
        f += pull / area * v[1] * r * ng.ds(definedon=mesh.Boundaries(edge))
    return f


def _energy(e: tuple[Any, ...], d: tuple[Any, ...], lam: float, mu: float) -> Any:
    """Stress of one strain on another: three normal strains first, then shears."""
    straight = sum(one * other for one, other in zip(e[:3], d[:3], strict=True))
    sheared = sum(one * other for one, other in zip(e[3:], d[3:], strict=True))
    return lam * (e[0] + e[1] + e[2]) * (d[0] + d[1] + d[2]) + mu * (2 * straight + sheared)


def _stresses(e: tuple[Any, ...], lam: float, mu: float) -> Any:
    """Radial, round, along and shear, on the side that is pulled."""
    ng = import_module("ngsolve")
    trace = lam * (e[0] + e[1] + e[2])
    return ng.CF((trace + 2 * mu * e[0], trace + 2 * mu * e[1], trace + 2 * mu * e[2], mu * e[3]))


def _found(
    space: Any, a: Any, loads: Sequence[Any], orders: tuple[int, ...]
) -> Iterator[list[tuple[Any, float, int]]]:
    """Displacement, work of the load and unknowns of each load, for each degree."""
    ng = import_module("ngsolve")
    for form in (a, *loads):
        form.Assemble()
    for order in orders:
        used = ng.BitArray(_of_order(space, order).tolist())
        inverse = a.mat.Inverse(used, inverse="sparsecholesky")
        found = []
        for f in loads:
            moved = ng.GridFunction(space)
            moved.vec.data = inverse * f.vec
            found.append((moved, float(ng.InnerProduct(f.vec, moved.vec)), used.NumSet()))
        yield found


def _of_order(space: Any, order: int) -> NDArray[np.bool_]:
    """Which unknowns belong to shapes up to a degree: vertices, then edges, then insides."""
    mesh, parts = space.mesh, len(space.components)
    highest = space.components[0].globalorder
    vertex = np.ones((mesh.nv, 1), dtype=bool)
    edge = np.broadcast_to(np.arange(2, highest + 1) <= order, (mesh.nedge, highest - 1))
    # The shapes inside a triangle come in rows of falling degree.
    degrees = [i + j + 3 for i in range(highest - 2) for j in range(highest - 2 - i)]
    inside = np.broadcast_to(np.array(degrees) <= order, (mesh.ne, len(degrees)))
    return np.tile(np.concatenate([vertex.ravel(), edge.ravel(), inside.ravel()]), parts)


def _solved_bent(
    solid: Solid, load: BendingLoad, mesh: Any, orders: tuple[int, ...]
) -> list[_Part]:
    ng = import_module("ngsolve")
    one = ng.H1(mesh, order=max(orders))
    space = one * one * one
    u, v = space.TnT()
    r, (lam, mu) = ng.x, _lame(solid)

    def strain(parts: Any) -> tuple[Any, ...]:
        (big, turned, raised), slopes = parts, [ng.grad(part) for part in parts]
        return (
            slopes[0][0],
            (big + turned) / r,
            slopes[2][1],
            slopes[0][1] + slopes[2][0],
            slopes[1][0] - (big + turned) / r,
            slopes[1][1] - raised / r,
        )

    a = ng.BilinearForm(space, symmetric=True)
    a += (_energy(strain(u), strain(v), lam, mu) * r).Compile() * ng.dx
    normal = ng.specialcf.normal(2)
    for bed in solid.beds:
        across = u[0] * normal[0] + u[2] * normal[1]
        back = v[0] * normal[0] + v[2] * normal[1]
        whole = u[0] * v[0] + u[1] * v[1] + u[2] * v[2]
        pushed = bed.stiffness * (across * back + SLIDING * (whole - across * back))
        a += pushed * r * ng.ds(definedon=mesh.Boundaries(bed.edge))
    area, second, _ = _measures(solid, load.edge)
    sheared, turned = load.force / area, load.moment / second
    f = ng.LinearForm(space)
    # The pulled side lies where cos phi is 1: the force pushes the other way.
    pushing = -sheared * (v[0] - v[1]) + turned * r * v[2]
    f += pushing * r * ng.ds(definedon=mesh.Boundaries(load.edge))
    return [
        _Part(_stresses(strain(moved.components), lam, mu), math.pi / 2 * energy, unknowns)
        for ((moved, energy, unknowns),) in _found(space, a, [f], orders)
    ]
