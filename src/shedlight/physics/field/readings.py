"""Readings anywhere: potential, field and material at points, all points at once."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.engine import ng
from shedlight.physics.field.sizes import Array, Codes

Complex = NDArray[np.complex128]
_CORNERS = np.array([[1.0, 0.0], [0.0, 1.0], [0.0, 0.0]])
_SQUARE = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
OUTSIDE = ""


@dataclass(frozen=True, eq=False)
class Readings:
    """Potential [V], field [V/m] in r and z, and region at points; not a number outside."""

    points: Array
    potential: Complex
    field: Complex
    regions: tuple[str, ...]

    @property
    def strength(self) -> Array:
        """Amplitude of the field along its largest axis [V/m]."""
        return strength(self.field)


def strength(field: Complex) -> Array:
    """Largest value that a turning field vector takes in a period.

    |E|² = (|E_r|² + |E_z|² + |E_r² + E_z²|)/2; the plain length where the field does not turn.

    Args:
        field: Complex amplitudes in r and z, in the last axis [V/m].

    Returns:
        Half the long axis of the ellipse that the vector draws [V/m].

    Source: Derived from first principles (ellipse of two phasors) — basis: exact.
    """
    squares = (np.abs(field) ** 2).sum(axis=-1)
    turning = np.abs((field**2).sum(axis=-1))
    return np.asarray(np.sqrt((squares + turning) / 2), dtype=float)


def read_at(solution: Solution, r: Array, z: Array) -> Readings:
    """Potential, field and material at points.

    Args:
        solution: A solved field.
        r: Radii [m].
        z: Heights [m].

    Raises:
        InputError: r and z differ in length.

    Source: The solution, evaluated; E = -grad phi — basis: exact.
    """
    r, z = np.atleast_1d(np.asarray(r, float)), np.atleast_1d(np.asarray(z, float))
    if r.shape != z.shape or r.ndim != 1:
        raise InputError(f"points: given {r.shape} radii and {z.shape} heights; expected as many")
    places = _located(solution, r, z)
    inside = places["nr"] >= 0
    potential = np.full(len(r), np.nan, dtype=complex)
    field = np.full((len(r), 2), np.nan, dtype=complex)
    if inside.any():
        potential[inside], field[inside], _ = values_at(solution, places[inside])
    names = solution.problem.shape.regions
    numbers = solution.mesh.regions[places["nr"]]
    regions = tuple(
        names[n] if there else OUTSIDE for n, there in zip(numbers, inside, strict=True)
    )
    return Readings(np.column_stack([r, z]), potential, field, regions)


def _located(solution: Solution, r: Array, z: Array) -> Any:
    return solution.mesh.mesh(r, z)


def values_at(solution: Solution, places: Any) -> tuple[Complex, Complex, Array]:
    """Potential, field and position at places of the mesh.

    Args:
        solution: A solved field.
        places: Mesh points of the library.

    Source: The solution, evaluated; E = -grad phi — basis: exact.
    """
    u = solution.potential
    potential = np.asarray(u(places), dtype=complex).reshape(-1)
    field = -np.asarray(ng.grad(u)(places), dtype=complex).reshape(-1, 2)
    where = np.asarray(ng.CF((ng.x, ng.y))(places), dtype=float).reshape(-1, 2)
    return potential, field, where


def places_on_sides(
    solution: Solution, element: Codes, first: Codes, second: Codes, share: Array
) -> Any:
    """Mesh points on sides of elements.

    Args:
        solution: A solved field.
        element: Number of the element of every point.
        first: Local number of the vertex at which the side starts.
        second: Local number of the vertex at which it ends.
        share: Where between them, 0 to 1 [1].

    Source: Reference elements of the library — basis: exact.
    """
    mesh = solution.mesh
    is_quad = mesh.corners_of_elements[element, 3] >= 0
    table = np.where(is_quad[:, None], _SQUARE[first], _CORNERS[np.minimum(first, 2)])
    other = np.where(is_quad[:, None], _SQUARE[second], _CORNERS[np.minimum(second, 2)])
    at = table + share[:, None] * (other - table)
    start = mesh.nodes[mesh.corners_of_elements[0, :3]].mean(axis=0)
    template = mesh.mesh(np.array([start[0]]), np.array([start[1]]))
    places = np.repeat(template, len(element))
    places["x"], places["y"], places["nr"] = at[:, 0], at[:, 1], element
    return places
