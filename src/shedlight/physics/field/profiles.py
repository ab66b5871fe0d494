"""Field and potential along edges, on either side of them, against length."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from shedlight.errors import InputError
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import VACUUM_PERMITTIVITY
from shedlight.physics.field.location import on_side
from shedlight.physics.field.meshing import FieldMesh
from shedlight.physics.field.pieces import Array, Codes
from shedlight.physics.field.readings import Complex, strength, values_at

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
    tangent = mesh.pieces.tangents(samples.part, samples.along)
    low = np.array([part.low for part in mesh.parts])[samples.part]
    inward = np.column_stack([-tangent[:, 1], tangent[:, 0]]) * np.where(is_left, 1, -1)[:, None]
    walked = low + samples.along * mesh.pieces.lengths[samples.part]
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
    shares = mesh.pieces.shares(part, mesh.nodes[chords])
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
