"""Readings anywhere: potential, field and material at points, all points at once."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.location import located
from shedlight.physics.field.pieces import Array, Codes

Complex = NDArray[np.complex128]
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
    points = np.column_stack([r, z])
    potential, field, numbers = found_at(solution, points)
    names = (*solution.problem.shape.regions, OUTSIDE)
    return Readings(points, potential, field, tuple(names[number] for number in numbers.tolist()))


def found_at(solution: Solution, points: Array) -> tuple[Complex, Complex, Codes]:
    """Potential, field and number of the region at points, -1 outside: bare, for who asks often.

    Args:
        solution: A solved field.
        points: Rows of r and z [m].

    Source: The solution, evaluated; E = -grad phi — basis: exact.
    """
    places = located(solution.mesh, points[:, 0], points[:, 1])
    inside = places["nr"] >= 0
    potential = np.full(len(points), np.nan, dtype=complex)
    field = np.full((len(points), 2), np.nan, dtype=complex)
    if inside.any():
        potential[inside], field[inside], _ = values_at(solution, places[inside])
    return potential, field, np.where(inside, solution.mesh.regions[places["nr"]], -1)


def values_at(solution: Solution, places: Any) -> tuple[Complex, Complex, Array]:
    """Potential, field and position at places of the mesh.

    Args:
        solution: A solved field.
        places: Mesh points of the library.

    Source: The solution, evaluated; E = -grad phi — basis: exact.
    """
    found = np.asarray(solution.everything(places), dtype=float).reshape(len(places), -1)
    parts = found[:, :-2].reshape(len(places), -1, 3)
    turns = np.array([1.0, 1j])[: parts.shape[1], None]
    whole = (parts * turns).sum(axis=1)
    return whole[:, 0], -whole[:, 1:], found[:, -2:]
