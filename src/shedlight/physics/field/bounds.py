"""Bounds of the energy from both sides, and where in the mesh the error sits.

From above: any potential that meets the voltages has at least the energy of the true one
(Dirichlet, Thomson). From below: any flux without sources. In the half plane a flux without
sources is the curl of a flux function, D_r = -(1/r) d psi/dz, D_z = (1/r) d psi/dr, and

    W >= max over psi of   l(psi) - 1/2 int 1/(e r) |grad psi|² dr dz,

where l adds up voltage times flux of every electrode. In the elements beside the axis psi is a
constant plus w chi with w and chi 0 on the axis, so that the energy of the flux is finite. The
difference of the two bounds is exactly the energy of D + e grad u (Prager, Synge), element by
element. The bounds are proved but for rounding, and for the rounding of curved sides (1e-6).

Open edges are earthed for the bound from above and let no flux through for the one from below:
so both hold for open space, and their distance contains what the far boundary takes away.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shedlight.physics.field.domain import VACUUM_PERMITTIVITY, FieldError
from shedlight.physics.field.engine import ng
from shedlight.physics.field.factors import flux_factors
from shedlight.physics.field.kept import kept
from shedlight.physics.field.meshing import FieldMesh
from shedlight.physics.field.pieces import Array
from shedlight.physics.field.sizes import on_axis
from shedlight.physics.field.topology import Topology

_MOST_KEPT = 60_000  # elements of their meshes
_SHARPER = 6  # of quadrature where 1/r or a step varies within an element


@dataclass(frozen=True, eq=False)
class Bounds:
    """Energy [J at the voltages' amplitude] from both sides, and the gap by element [J]."""

    low: float
    high: float
    by_element: Array

    @property
    def gap(self) -> float:
        """Relative distance of the two bounds [1]."""
        return (self.high - self.low) / self.high if math.isfinite(self.high) else math.inf

    def scaled(self, factor: float) -> "Bounds":
        """The same for all voltages times a factor [1]."""
        square = factor**2
        return Bounds(self.low * square, self.high * square, self.by_element * square)


def energy_bounds(
    mesh: FieldMesh,
    permittivities: tuple[float, ...],
    potential: Any,
    voltages: Mapping[str, float],
    floating: tuple[str, ...],
    order: int,
) -> Bounds:
    """Both bounds of the energy of a loss-free field.

    Args:
        mesh: The mesh.
        permittivities: Of its regions, relative [1].
        potential: A real potential that meets the voltages.
        voltages: Of every electrode [V].
        floating: Electrodes without net charge.
        order: Degree of the flux function [1].

    Returns:
        The bounds, guaranteed but for rounding and for the rounding of curved sides.

    Raises:
        FieldError: no flux can be found.

    Source: W. Prager, J. L. Synge, Approximations in elasticity based on the concept of function
    space (1947); R. Courant, D. Hilbert, Methods of Mathematical Physics I, IV.9 — basis: memory.
    """
    unit = flux_columns(mesh, permittivities, floating, order)
    load = unit.loads(voltages)
    if not len(load) or not np.isfinite(load).all():
        raise FieldError("bounds", "no flux leaves the electrodes")
    try:
        weights = np.asarray(np.linalg.solve(unit.stiffness, load), dtype=float)
    except np.linalg.LinAlgError:
        raise FieldError("bounds", "the mesh is too coarse beside the axis") from None
    scale = math.pi * VACUUM_PERMITTIVITY  # 2 pi from the turn, 1/2 from the energy
    r, e = ng.x, ng.CF(list(permittivities))
    flux, field = unit.gradient(weights), ng.grad(potential)
    # The flux is -e grad u; its components are (-psi_z, psi_r)/r, psi rising where it enters.
    wrong = (flux[1] / r - e * field[0]) ** 2 + (flux[0] / r + e * field[1]) ** 2
    density = e * r * (field * field)
    energy = ng.Integrate(density.Compile(), mesh.mesh, order=2 * order + 2)
    gaps = ng.Integrate(
        (r / e * wrong).Compile(), mesh.mesh, order=2 * order + 2, element_wise=True
    )
    by_element, high = scale * np.array(gaps), scale * float(energy)
    return Bounds(high - float(by_element.sum()), high, by_element)


@dataclass(frozen=True, eq=False)
class FluxColumns:
    """Best flux functions for a unit of every free constant and jump: a step and a rest each."""

    topology: Topology
    traces: tuple[Array, ...]  # rise along every rim side, per column
    stiffness: NDArray[np.float64]
    steps: tuple[Any, ...]
    rests: tuple[Any, ...]
    near: Any

    def loads(self, voltages: Mapping[str, float]) -> NDArray[np.float64]:
        """Voltage times flux of every column [V]."""
        by_part = np.array(
            [voltages.get(name or "", 0.0) for name in self.topology.electrode_of_part]
        )
        side = by_part[self.topology.rim.part]
        return np.array([float(side @ trace) for trace in self.traces])

    def gradient(self, weights: NDArray[np.float64]) -> Any:
        """Gradient of the flux function that is a sum of the columns."""
        step, rest = (_summed(weights, functions) for functions in (self.steps, self.rests))
        return ng.grad(step) + _rise(self.near, rest)


def _summed(weights: NDArray[np.float64], functions: tuple[Any, ...]) -> Any:
    total = ng.GridFunction(functions[0].space)
    for weight, function in zip(weights.tolist(), functions, strict=True):
        total.vec.data += weight * function.vec
    return total


def _rise(near: Any, function: Any) -> Any:
    """Gradient of a function times the ramp beside the axis."""
    return function * ng.grad(near) + near * ng.grad(function)


@kept(lambda unit: unit.near.space.mesh.ne, _MOST_KEPT)
def flux_columns(
    mesh: FieldMesh, permittivities: tuple[float, ...], floating: tuple[str, ...], order: int
) -> FluxColumns:
    """Factorise once, solve for every free constant and jump of the flux function.

    Args:
        mesh: The mesh.
        permittivities: Of its regions, relative [1].
        floating: Electrodes without net charge.
        order: Degree [1].

    Source: as :func:`energy_bounds` — basis: exact.
    """
    topology = Topology(mesh, floating)
    corners = [*_constants(topology), *_jumps(topology)]
    steps = tuple(_stepped(topology, values) for values in corners)
    varies = sum(np.ptp(values, axis=1) > 0 for values in corners)
    factors = flux_factors(mesh, order)
    space = factors.space
    near, weight = _rising_from_axis(topology), 1 / (ng.CF(list(permittivities)) * ng.x)
    form = _form(space, weight, near, _marked((varies > 0) | topology.near_axis))
    inverse = factors.of(form.mat)
    where = ng.dx(bonus_intorder=_SHARPER, definedonelements=_marked(varies))
    eta, rests, pulls = space.TestFunction(), [], []
    for step in steps:
        load = ng.LinearForm(space)
        load += -weight * (ng.grad(step) * _rise(near, eta)) * where
        load.Assemble()
        pulls.append(np.array(load.vec.FV().NumPy()))
        rests.append(_solved(space, form, inverse, load.vec))
    where = ng.dx(bonus_intorder=2 * order + _SHARPER, definedonelements=_marked(varies))
    stiffness = np.zeros((len(steps), len(steps)))
    for i, one in enumerate(steps):
        for j, other in enumerate(steps):
            own = ng.Integrate(weight * (ng.grad(one) * ng.grad(other)) * where, mesh.mesh)
            stiffness[i, j] = float(own) - pulls[i] @ rests[j].vec.FV().NumPy()
    traces = tuple(_trace(topology, values) for values in corners)
    return FluxColumns(topology, traces, stiffness, steps, tuple(rests), near)


def _form(space: Any, weight: Any, near: Any, special: Any) -> Any:
    """Energy of the rest: beside the axis and where steps vary with the ramp, elsewhere plain."""
    chi, eta = space.TnT()
    sharper = ng.dx(bonus_intorder=_SHARPER, definedonelements=special)
    plain = ng.dx(bonus_intorder=2, definedonelements=~special)
    form = ng.BilinearForm(space, symmetric=True, condense=True)
    form += weight * (_rise(near, chi) * _rise(near, eta)) * sharper
    form += weight * (ng.grad(chi) * ng.grad(eta)) * plain
    form.Assemble()
    return form


def _marked(chosen: Any) -> Any:
    return ng.BitArray((np.asarray(chosen) > 0).tolist())


def _solved(space: Any, form: Any, inverse: Any, right: Any) -> Any:
    found = ng.GridFunction(space)
    right.data += form.harmonic_extension_trans * right
    found.vec.data = inverse * right
    found.vec.data += form.harmonic_extension * found.vec
    found.vec.data += form.inner_solve * right
    return found


def _rising_from_axis(topology: Topology) -> Any:
    """0 on the axis, 1 from the first row of vertices on."""
    near = ng.GridFunction(ng.H1(topology.mesh.mesh, order=1))
    values = near.vec.FV().NumPy()
    values[:] = 1.0
    values[topology.mesh.vertices(on_axis)] = 0.0
    return near


def _constants(topology: Topology) -> list[Array]:
    """For every insulating stretch but one: 1 on it and in the elements beside its axis."""
    nodes = topology.mesh.corners_of_elements
    found = []
    for stretch in topology.insulating[1:]:
        lifted = np.zeros(len(topology.mesh.nodes) + 1)
        lifted[stretch] = 1.0
        beside = topology.near_axis & (lifted[nodes] > 0).any(axis=1)
        lifted[nodes[beside].ravel()] = 1.0
        lifted[-1] = 0.0
        found.append(lifted[nodes])
    return found


def _jumps(topology: Topology) -> list[Array]:
    """For every cut: 1 on its left side, 0 on its right."""
    nodes = topology.mesh.corners_of_elements
    found = []
    for path in topology.cuts:
        values = np.zeros(nodes.shape)
        for element, vertex in topology.left_of(path):
            values[element, nodes[element].tolist().index(vertex)] = 1.0
        found.append(values)
    return found


def _stepped(topology: Topology, values: Array) -> Any:
    """The function that has given values at the vertices of every element."""
    nodes = topology.mesh.corners_of_elements
    function = ng.GridFunction(ng.Discontinuous(ng.H1(topology.mesh.mesh, order=1)))
    # Its unknowns stand element by element, vertex by vertex.
    function.vec.FV().NumPy()[:] = values[nodes >= 0]
    return function


def _trace(topology: Topology, values: Array) -> Array:
    """How much a function rises along every side of the rim."""
    rim, nodes = topology.rim, topology.mesh.corners_of_elements
    ring = nodes[rim.element]
    start = (ring == rim.start[:, None]).argmax(axis=1)
    end = (ring == rim.end[:, None]).argmax(axis=1)
    return np.asarray(values[rim.element, end] - values[rim.element, start])
