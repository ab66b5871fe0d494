"""Field and potential along edges, on either side of them, against length."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.geometry.curves import Arc
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import VACUUM_PERMITTIVITY, Part
from shedlight.physics.field.location import on_side
from shedlight.physics.field.meshing import FieldMesh
from shedlight.physics.field.readings import Complex, strength, values_at
from shedlight.physics.field.sizes import Array, Codes

# Where samples stand on the side of an element: next to its ends, but not on a corner.
_SHARES = np.array([0.004, 0.26, 0.5, 0.74, 0.996])
_PER_SIDE = len(_SHARES)


@dataclass(frozen=True, eq=False)
class Profile:
    """What one side of an edge sees, in order along it.

    Lengths along the edge [m], points [m], potential [V], field along the edge and into the
    region [V/m]. Samples never stand on a corner, and no value is averaged across materials.
    """

    edge: str
    region: str
    lengths: Array
    points: Array
    potential: Complex
    tangential: Complex
    normal: Complex

    @property
    def strength(self) -> Array:
        """Amplitude of the whole field [V/m]."""
        return strength(np.stack([self.tangential, self.normal], axis=1))


class _Samples(NamedTuple):
    element: Codes
    first: Codes
    second: Codes
    share: Array
    part: Codes
    along: Array  # share of the part


def profile(solution: Solution, edge: str, region: str) -> Profile:
    """Potential and field along an edge, as the region on one side of it sees them.

    Args:
        solution: A solved field.
        edge: Name of the edge.
        region: Name of the region.

    Raises:
        InputError: no such edge, or the region does not lie beside it.

    Source: The solution, evaluated on the elements of that side — basis: exact.
    """
    side = solution.problem.shape.side(edge)
    try:
        return profiles_of(solution)[edge, region]
    except KeyError:
        raise InputError(
            f"edge {edge}: given {region}; expected {side.left} or {side.right}"
        ) from None


@lru_cache(maxsize=2)
def profiles_of(solution: Solution) -> Mapping[tuple[str, str], Profile]:
    """Every edge as every region beside it sees it, by edge and region.

    Args:
        solution: A solved field.

    Source: The solution, evaluated on the elements of each side — basis: exact.
    """
    mesh = solution.mesh
    left = _samples(mesh, mesh.chosen(lambda part: part.left is not None), is_left=True)
    right = _samples(mesh, mesh.chosen(lambda part: part.right is not None), is_left=False)
    samples = _Samples(*(np.concatenate(pair) for pair in zip(left, right, strict=True)))
    is_left = np.arange(len(samples.element)) < len(left.element)
    places = on_side(mesh, samples.element, samples.first, samples.second, samples.share)
    potential, field, where = values_at(solution, places)
    tangent, low, length = _frame(mesh.parts, samples)
    inward = np.column_stack([-tangent[:, 1], tangent[:, 0]]) * np.where(is_left, 1, -1)[:, None]
    walked = low + samples.along * length
    along, across = (field * tangent).sum(axis=1), (field * inward).sum(axis=1)
    found = {}
    for side in solution.problem.shape.sides:
        on_edge = np.isin(samples.part, mesh.chosen(lambda part, n=side.name: part.edge == n))  # type: ignore[misc]
        for region, chosen in ((side.left, on_edge & is_left), (side.right, on_edge & ~is_left)):
            if region is not None:
                rows = np.flatnonzero(chosen)[np.argsort(walked[chosen], kind="stable")]
                found[side.name, region] = Profile(
                    side.name,
                    region,
                    walked[rows],
                    where[rows],
                    potential[rows],
                    along[rows],
                    across[rows],
                )
    return MappingProxyType(found)


def capacitance_between(seen: Profile, low: float, high: float, permittivity: float) -> float:
    """Charge at one volt on the part of a metal edge between two heights.

    C = e0 e int |E_n| 2 pi r dl

    Args:
        seen: What the medium beside the metal sees, at one volt on it.
        low: Height where the part begins [m].
        high: Height where it ends [m].
        permittivity: Relative permittivity of the medium [1].

    Returns:
        Capacitance of that part [F].

    Raises:
        InputError: the edge does not reach over both heights.

    Source: Gauss's law — basis: exact.
    """
    r, z = seen.points.T
    if not (z.min() <= low < high <= z.max()):
        raise InputError(
            f"low, high: given {low:g} and {high:g} m; expected within {z.min():g} to {z.max():g}"
        )
    inside = np.unique(np.concatenate([[low, high], z[(z > low) & (z < high)]]))
    order = np.argsort(z, kind="stable")
    density = np.interp(inside, z[order], (np.abs(seen.normal) * 2 * np.pi * r)[order])
    return float(VACUUM_PERMITTIVITY * permittivity * np.trapezoid(density, inside))


def _samples(mesh: FieldMesh, parts: list[int], *, is_left: bool) -> _Samples:
    """Points on every element side that lies on some parts, on their left or right."""
    chords, part = mesh.border
    mine = np.isin(part, parts)
    chords, part = chords[mine], part[mine]
    shares = shares_of(mesh.parts, part, mesh.nodes[chords])
    backward = shares[:, 0] > shares[:, 1]
    chords = np.where(backward[:, None], chords[:, ::-1], chords)
    shares = np.where(backward[:, None], shares[:, ::-1], shares)
    if not is_left:
        chords, shares = chords[:, ::-1], shares[:, ::-1]
    element = elements_beside(mesh, chords)
    ring = mesh.corners_of_elements[element]
    first = (ring == chords[:, :1]).argmax(axis=1)
    second = (ring == chords[:, 1:]).argmax(axis=1)
    at = np.tile(_SHARES, len(element))
    along = np.repeat(shares[:, 0], _PER_SIDE) * (1 - at) + np.repeat(shares[:, 1], _PER_SIDE) * at
    return _Samples(
        np.repeat(element, _PER_SIDE),
        np.repeat(first, _PER_SIDE),
        np.repeat(second, _PER_SIDE),
        at,
        np.repeat(part, _PER_SIDE),
        along,
    )


def elements_beside(mesh: FieldMesh, chords: Codes) -> Codes:
    """The element that has every directed chord as a side, walked counter-clockwise.

    Args:
        mesh: The mesh.
        chords: Two vertices each.

    Source: Bookkeeping of the mesh — basis: exact.
    """
    nodes, count = mesh.corners_of_elements, len(mesh.nodes)
    last = np.where(nodes[:, 3] >= 0, nodes[:, 3], nodes[:, 2])
    after = np.stack(
        [nodes[:, 1], nodes[:, 2], np.where(nodes[:, 3] >= 0, nodes[:, 3], nodes[:, 0])]
    )
    codes = np.concatenate([nodes[:, k] * count + after[k] for k in range(3)])
    codes = np.concatenate([codes, np.where(nodes[:, 3] >= 0, last * count + nodes[:, 0], -1)])
    owner = np.tile(np.arange(len(nodes)), 4)
    order = np.argsort(codes)
    at = np.searchsorted(codes[order], chords @ np.array([count, 1]))
    return np.asarray(owner[order][at], dtype=np.int64)


def shares_of(parts: tuple[Part, ...], part: Codes, points: Array) -> Array:
    """Where on its part every point lies, 0 at the start and 1 at the end.

    Args:
        parts: The parts.
        part: Number of the part, per row of points.
        points: Rows of points on that part [m].

    Source: Geometry of lines and circles — basis: exact.
    """
    found = np.empty(points.shape[:2])
    for number in np.unique(part):
        rows, piece = part == number, parts[number].piece
        if isinstance(piece, Arc):
            away = points[rows] - [piece.centre.r, piece.centre.z]
            turned = np.arctan2(away[..., 1], away[..., 0]) - piece.start_angle
            middle = piece.sweep / 2
            turned = middle + np.remainder(turned - middle + np.pi, 2 * np.pi) - np.pi
            found[rows] = turned / piece.sweep
        else:
            a, b = piece.start, piece.end
            way = np.array([b.r - a.r, b.z - a.z])
            found[rows] = (points[rows] - [a.r, a.z]) @ way / (way @ way)
    return found


def _frame(parts: tuple[Part, ...], samples: _Samples) -> tuple[Array, NDArray[np.float64], Array]:
    """Unit tangent, length at the part's start, and the part's length, for every sample."""
    tangent = np.empty((len(samples.part), 2))
    for number in np.unique(samples.part):
        rows, piece = samples.part == number, parts[number].piece
        if isinstance(piece, Arc):
            angle = piece.start_angle + samples.along[rows] * piece.sweep
            turn = np.sign(piece.sweep)
            tangent[rows] = turn * np.column_stack([-np.sin(angle), np.cos(angle)])
        else:
            a, b = piece.start, piece.end
            tangent[rows] = np.array([b.r - a.r, b.z - a.z]) / piece.length
    low = np.array([part.low for part in parts])[samples.part]
    length = np.array([part.piece.length for part in parts])[samples.part]
    return tangent, low, length
