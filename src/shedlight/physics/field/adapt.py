"""Solve until the bounds are as near as wanted; refine where their distance sits."""

import math
from dataclasses import dataclass, replace
from functools import cached_property, partial
from typing import Any

import numpy as np

from shedlight.errors import InputError
from shedlight.physics.domain import within
from shedlight.physics.field.bounds import Bounds, energy_bounds
from shedlight.physics.field.corners import Corner
from shedlight.physics.field.domain import FieldError, Medium, Problem, Shape
from shedlight.physics.field.engine import ng
from shedlight.physics.field.kept import kept
from shedlight.physics.field.meshing import FieldMesh, Fineness, mesh_of
from shedlight.physics.field.pieces import Array
from shedlight.physics.field.solve import Columns, columns, voltages
from shedlight.physics.field.watch import within_time

MOST_ROUNDS = 6
MOST_SECONDS = 120.0  # twenty times what the largest shapes take
HIGHEST_ORDER = 7
_SHARE = 0.85
_MOST_LAYERS = 8
_NEAR_CORNER = 0.5
_SLIGHT = 0.05  # loss factor up to which the lossy field serves the bounds
_MOST_KEPT = 60_000  # elements of their meshes
_WORTH = 8.0  # gap over tolerance up to which a flux function of higher degree may be enough


@dataclass(frozen=True, eq=False)
class Solution:
    """The field of a problem, with the bounds of its loss-free energy.

    Holds the solver's own objects; what is to be kept or written goes through `proof`, `profiles`
    and `readings`.
    """

    problem: Problem
    mesh: FieldMesh
    order: int
    unit: Columns
    voltages: dict[str, complex]
    bounds: Bounds
    rounds: int
    tolerance: float

    @cached_property
    def potential(self) -> Any:
        """Potential as a function on the mesh [V]."""
        return self.unit.column(self.voltages)

    @cached_property
    def real_and_imaginary(self) -> tuple[Any, ...]:
        """The potential as one real function, or two where it turns: for reading at points."""
        return self.unit.parts(self.voltages)

    @cached_property
    def everything(self) -> Any:
        """For every part of the potential itself and its slopes, then radius and height, as one."""
        parts = [(part, ng.grad(part)) for part in self.real_and_imaginary]
        values = [value for part, slope in parts for value in (part, slope[0], slope[1])]
        return ng.CF((*values, ng.x, ng.y))

    @cached_property
    def square(self) -> Any:
        """Square of the field as a function, |E|² [V²/m²]."""
        gradients = [ng.grad(part) for part in self.real_and_imaginary]
        return sum((gradient * gradient for gradient in gradients), ng.CF(0))

    @cached_property
    def squares(self) -> Array:
        """Square of the field over each element times radius, int |E|² r dr dz [V² m]."""
        density = (self.square * ng.x).Compile()
        order = 2 * self.order + 2
        return np.array(ng.Integrate(density, self.mesh.mesh, order=order, element_wise=True))

    @property
    def singular_corners(self) -> tuple[Corner, ...]:
        """Corners into which the field grows without limit."""
        return tuple(corner for corner in self.mesh.corners if corner.is_singular)


def solve(
    problem: Problem,
    tolerance: float = 1e-4,
    order: int = 4,
    fineness: Fineness | None = None,
    most_rounds: int = MOST_ROUNDS,
    most_seconds: float = MOST_SECONDS,
) -> Solution:
    """The field of a problem, to a tolerance that its two bounds prove.

    Args:
        problem: What is to be solved.
        tolerance: Largest relative distance of the two bounds of the energy [1]; infinite to
            accept any, where voltages jump and the energy has no bounds.
        order: Degree of the elements in the first round; it rises when refinement does not help.
        fineness: Of the first mesh.
        most_rounds: After so many rounds the solver gives up [1].
        most_seconds: After so long it is cancelled, wherever it is [s].

    Returns:
        The solution; its real bounds are those of the loss-free field with the same voltages.

    Raises:
        FieldError: the tolerance is not reached, the time is up, or no field comes out; never a
            wrong number.

    Source: W. Prager, J. L. Synge (1947) for the bounds; I. Babuska, B. Guo (1986) for graded
    meshes of high order — basis: memory.
    """
    if not tolerance > 0:
        raise InputError(f"tolerance: given {tolerance:g}; expected more than 0")
    within(1, HIGHEST_ORDER, order=order)
    within(1, 100, most_rounds=most_rounds)
    work = partial(_refined, problem, tolerance, order, fineness or Fineness(), most_rounds)
    return within_time(most_seconds, _finest(problem.shape), work)


def _refined(
    problem: Problem, tolerance: float, order: int, fineness: Fineness, most_rounds: int
) -> Solution:
    gap = np.inf
    for number in range(1, most_rounds + 1):
        mesh = mesh_of(problem.shape, problem.media, fineness)
        bounds = _bounds(problem, mesh, order, tolerance)
        if bounds.gap <= tolerance:
            unit = columns(mesh, problem, order)
            found = voltages(unit, problem)
            return Solution(problem, mesh, order, unit, found, bounds, number, tolerance)
        if number > 1 and bounds.gap > gap / 4 and order < HIGHEST_ORDER:
            order += 1
        gap = bounds.gap
        fineness = _finer(mesh, bounds, fineness)
    worst = int(bounds.by_element.argmax())
    at = mesh.nodes[mesh.corners_of_elements[worst][:3]].mean(axis=0)
    raise FieldError(
        f"{problem.shape.regions[mesh.regions[worst]]} at r {1e3 * at[0]:.4g}, "
        f"z {1e3 * at[1]:.4g} mm",
        f"bounds still {gap:.2g} apart after {most_rounds} rounds, {tolerance:.2g} wanted",
    )


def _finest(shape: Shape) -> str:
    """The shortest part, where a mesh is finest."""
    part = min(shape.parts, key=lambda part: part.piece.length)
    at = part.piece.start
    return f"mesh, finest at {part.edge}, r {1e3 * at.r:.4g}, z {1e3 * at.z:.4g} mm"


def _bounds(problem: Problem, mesh: FieldMesh, order: int, tolerance: float) -> Bounds:
    """Bounds of the loss-free field with the same voltages, when the largest is at its peak.

    The flux function is of a lower degree where that is enough.
    """
    if not math.isfinite(tolerance):
        return Bounds(0.0, math.inf, np.zeros(mesh.elements))
    most = max((complex(v) for v in problem.potentials.values()), key=abs)
    if most == 0:
        raise FieldError("potentials", "no electrode is driven")
    unit = {name: (complex(v) / most).real for name, v in problem.potentials.items()}
    dry = replace(problem, potentials=unit, films=())
    bounds = _unit_bounds(mesh, dry, order, max(1, order - 1))
    if tolerance < bounds.gap < _WORTH * tolerance:
        bounds = _unit_bounds(mesh, dry, order, order)
    return bounds.scaled(abs(most))


@kept(lambda bounds: len(bounds.by_element), _MOST_KEPT)
def _unit_bounds(mesh: FieldMesh, problem: Problem, order: int, flux_order: int) -> Bounds:
    """Bounds of a problem without films. Any potential that meets the voltages will do.

    The real part of a slightly lossy field is the loss-free one but for the square of its losses,
    and is needed anyway.
    """
    media = [problem.media[name] for name in problem.shape.regions]
    epsilons = [medium.complex_permittivity(problem.frequency) for medium in media]
    if max(-e.imag / e.real for e in epsilons) > _SLIGHT:
        still = {name: Medium(m.permittivity) for name, m in problem.media.items()}
        problem = replace(problem, media=still)
    unit = columns(mesh, problem, order)
    found = voltages(unit, problem)
    real = {name: value.real for name, value in found.items()}
    permittivities = tuple(medium.permittivity for medium in media)
    potential = unit.parts(found)[0]
    return energy_bounds(mesh, permittivities, potential, real, problem.floating, flux_order)


def _finer(mesh: FieldMesh, bounds: Bounds, fineness: Fineness) -> Fineness:
    """Halve the elements that hold most of the gap; more layers where that is in a corner."""
    share = np.cumsum(np.sort(bounds.by_element)[::-1]) / bounds.by_element.sum()
    least = np.sort(bounds.by_element)[::-1][int(np.searchsorted(share, _SHARE))]
    marked = np.flatnonzero(bounds.by_element >= least)
    nodes = mesh.nodes[mesh.corners_of_elements[marked]]
    nodes[mesh.corners_of_elements[marked, 3] < 0, 3] = nodes[
        mesh.corners_of_elements[marked, 3] < 0, 2
    ]
    middle = nodes.mean(axis=1)
    size = np.hypot(*(nodes.max(axis=1) - nodes.min(axis=1)).T) / 1.5
    sharp = np.array([[c.at.r, c.at.z] for c in mesh.corners if c.is_singular]).reshape(-1, 2)
    away = np.full(len(middle), np.inf)
    if len(sharp):
        away = np.hypot(*np.moveaxis(middle[:, None] - sharp, 2, 0)).min(axis=1)
    inside = size < _NEAR_CORNER * away
    deep = bounds.by_element[marked][~inside].sum() > 0.2 * bounds.by_element.sum()
    layers = min(_MOST_LAYERS, fineness.layers + (1 if deep else 0))
    wishes = tuple(
        (float(r), float(z), float(s) / 2)
        for (r, z), s in zip(middle[inside], size[inside], strict=True)
    )
    return replace(fineness, layers=layers, wishes=(*fineness.wishes, *wishes))
