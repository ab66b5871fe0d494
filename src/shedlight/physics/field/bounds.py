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
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shedlight.physics.field.domain import VACUUM_PERMITTIVITY, FieldError, Part
from shedlight.physics.field.engine import ng
from shedlight.physics.field.meshing import FieldMesh
from shedlight.physics.field.sizes import Array, on_axis
from shedlight.physics.field.topology import Topology


@dataclass(frozen=True, eq=False)
class Bounds:
    """Energy [J at the voltages' amplitude] from both sides, and the gap by element [J]."""

    low: float
    high: float
    by_element: Array
    flux: Any

    @property
    def gap(self) -> float:
        """Relative distance of the two bounds [1]."""
        return (self.high - self.low) / self.high if math.isfinite(self.high) else math.inf


def energy_bounds(
    mesh: FieldMesh,
    permittivity: Any,
    potential: Any,
    voltages: Mapping[str, float],
    floating: tuple[str, ...],
    order: int,
) -> Bounds:
    """Both bounds of the energy of a loss-free field.

    Args:
        mesh: The mesh.
        permittivity: Relative permittivity on it.
        potential: A potential that meets the voltages.
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
    unit = flux_columns(mesh, permittivity, floating, order)
    load = unit.loads(voltages)
    if not len(load) or not np.isfinite(load).all():
        raise FieldError("bounds", "no flux leaves the electrodes")
    try:
        weights = np.linalg.solve(unit.stiffness, load)
    except np.linalg.LinAlgError:
        raise FieldError("bounds", "the mesh is too coarse beside the axis") from None
    scale = math.pi * VACUUM_PERMITTIVITY  # 2 pi from the turn, 1/2 from the energy
    r, e = ng.x, permittivity
    flux = sum((float(w) * g for w, g in zip(weights, unit.gradients, strict=True)), ng.CF((0, 0)))
    field = ng.grad(potential)
    precision = 2 * order + 2
    high = scale * float(
        ng.Integrate((e * r * (field * field)).Compile(), mesh.mesh, order=precision)
    )
    # The flux is -e grad u; its components are (-psi_z, psi_r)/r, psi rising where it enters.
    wrong = (flux[1] / r - e * field[0]) ** 2 + (flux[0] / r + e * field[1]) ** 2
    gaps = ng.Integrate(
        (scale * r / e * wrong).Compile(), mesh.mesh, order=precision, element_wise=True
    )
    return Bounds(scale * float(load @ weights), high, np.array(gaps), flux)


@dataclass(frozen=True, eq=False)
class FluxColumns:
    """Best flux functions for a unit of every free constant and jump."""

    topology: Topology
    traces: tuple[NDArray[np.float64], ...]  # rise along every rim side, per column
    stiffness: NDArray[np.float64]
    gradients: tuple[Any, ...]

    def loads(self, voltages: Mapping[str, float]) -> NDArray[np.float64]:
        """Voltage times flux of every column [V]."""
        by_part = np.array(
            [voltages.get(name or "", 0.0) for name in self.topology.electrode_of_part]
        )
        side = by_part[self.topology.rim.part]
        return np.array([float(side @ trace) for trace in self.traces])


@lru_cache(maxsize=2)
def flux_columns(
    mesh: FieldMesh, permittivity: Any, floating: tuple[str, ...], order: int
) -> FluxColumns:
    """Factorise once, solve for every free constant and jump of the flux function.

    Args:
        mesh: The mesh.
        permittivity: Relative permittivity on it.
        floating: Electrodes without net charge.
        order: Degree [1].

    Source: as :func:`energy_bounds` — basis: exact.
    """
    topology = Topology(mesh, floating)
    steps = [*_constants(topology), *_jumps(topology)]
    shapes = [_stepped(topology, step) for step in steps]
    rest = ng.H1(mesh.mesh, order=order, dirichlet=mesh.boundary(_is_still))
    near = _rising_from_axis(topology)
    chi, eta = rest.TnT()

    def rise(f: Any) -> Any:
        return f * ng.grad(near) + near * ng.grad(f)

    weight = 1 / (permittivity * ng.x)
    form = ng.BilinearForm(rest, symmetric=True, condense=True)
    form += weight * (rise(chi) * rise(eta)) * ng.dx(bonus_intorder=2)
    form.Assemble()
    inverse = form.mat.Inverse(rest.FreeDofs(True), inverse="sparsecholesky")
    gradients = []
    for shape in shapes:
        load = ng.LinearForm(rest)
        load += -weight * (ng.grad(shape) * rise(eta)) * ng.dx(bonus_intorder=2)
        load.Assemble()
        gradients.append(ng.grad(shape) + rise(_solved(rest, form, inverse, load.vec)))
    count = len(shapes)
    pairs = [(i, j) for i in range(count) for j in range(i, count)]
    energies = ng.CF(tuple(weight * (gradients[i] * gradients[j]) for i, j in pairs))
    values = np.atleast_1d(
        ng.Integrate(energies.Compile(), mesh.mesh, order=2 * order + 2) if pairs else []
    )
    stiffness = np.zeros((count, count))
    for (i, j), value in zip(pairs, np.asarray(values).ravel(), strict=True):
        stiffness[i, j] = stiffness[j, i] = value
    traces = tuple(_trace(topology, step) for step in steps)
    return FluxColumns(topology, traces, stiffness, tuple(gradients))


def _is_still(part: Part) -> bool:
    """No flux through: the axis, open space, the end of what is looked at."""
    return part.electrode is None and None in (part.left, part.right)


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
