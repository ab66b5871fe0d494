"""What matters of a field: mean and largest per region, and what singular corners do.

A field that grows without limit into a corner has no largest value. So peaks are taken at a
stated distance from such corners and never nearer, and the corner itself is told by its exponent
and strength: E = K (d / 1 mm)^(L - 1).
"""

import math
from dataclasses import dataclass

import numpy as np

from shedlight.geometry.curves import Point
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.corners import Corner
from shedlight.physics.field.domain import FieldError
from shedlight.physics.field.engine import ng
from shedlight.physics.field.pieces import Array
from shedlight.physics.field.profiles import Profile, profiles_of

CLEAR = 1e-3  # peaks are taken no nearer to singular corners [m]
DISTANCES = (0.5e-3, 1e-3, 2e-3, 5e-3)
_UNIT = 1e-3


@dataclass(frozen=True)
class RegionField:
    """Mean field by volume and the largest, at least `CLEAR` from singular corners [V/m].

    A region that reaches to open space has no mean.
    """

    region: str
    mean: float | None
    largest: float
    place: Point
    edge: str
    clear: float


@dataclass(frozen=True)
class CornerField:
    """A singular corner: exponent [1], strength [V/m at 1 mm], field at stated distances [V/m]."""

    at: Point
    place: str
    edges: tuple[str, ...]
    exponent: float
    edge: str
    region: str
    strength: float
    distances: tuple[float, ...]
    fields: tuple[float, ...]


def regions_of(solution: Solution) -> tuple[RegionField, ...]:
    """Mean and largest field of every region.

    The largest stands on an edge of the region: the square of the field has no maximum inside a
    uniform medium.

    Args:
        solution: A solved field.

    Source: Mean value property of harmonic functions; peaks away from singular corners — basis:
    exact.
    """
    shape = solution.problem.shape
    mesh = solution.mesh
    density = (ng.sqrt(solution.square) * ng.x).Compile()
    order = 2 * solution.order  # the root of a square is no polynomial: enough for a mean
    total = np.array(ng.Integrate(density, mesh.mesh, order=order, region_wise=True))
    unbounded = {name for side in shape.sides if side.is_open for name in (side.left, side.right)}
    found = []
    for number, name in enumerate(shape.regions):
        seen = [item for (_, region), item in profiles_of(solution).items() if region == name]
        best = max(seen, key=lambda item: _clear_peak(solution, item)[0])
        peak, at = _clear_peak(solution, best)
        place = Point(*best.points[at].tolist())
        mean = None if name in unbounded else float(total[number] / mesh.volumes[number])
        found.append(RegionField(name, mean, peak, place, best.edge, CLEAR))
    return tuple(found)


def _clear_peak(solution: Solution, seen: Profile) -> tuple[float, int]:
    away = distance_to_corners(solution, seen.points)
    field = np.where(away >= CLEAR, seen.strength, -math.inf)
    at = int(field.argmax())
    return float(field[at]), at


def distance_to_corners(solution: Solution, points: Array) -> Array:
    """Distance of points from the nearest singular corner [m].

    Args:
        solution: A solved field.
        points: Rows of r and z [m].

    Source: Geometry — basis: exact.
    """
    sharp = np.array([[c.at.r, c.at.z] for c in solution.singular_corners]).reshape(-1, 2)
    if not len(sharp):
        return np.full(len(points), math.inf)
    return np.asarray(np.hypot(*np.moveaxis(points[:, None] - sharp, 2, 0)).min(axis=1))


def corners_of(
    solution: Solution, distances: tuple[float, ...] = DISTANCES
) -> tuple[CornerField, ...]:
    """Exponent, strength and field at stated distances of every singular corner.

    Read along the edges that leave the corner, on the side where the field is largest.

    Args:
        solution: A solved field.
        distances: From the corner, along the edges [m].

    Source: Expansion of the potential at a corner, phi ~ r^L — basis: exact.
    """
    return tuple(
        _corner(solution, corner, distances) for corner in solution.singular_corners if corner.edges
    )


def _corner(solution: Solution, corner: Corner, distances: tuple[float, ...]) -> CornerField:
    """The arm of the corner, and the side of it, on which the field is largest nearest to it."""
    arms = []
    for (edge, region), seen in profiles_of(solution).items():
        if edge not in corner.edges:
            continue
        away = np.hypot(*(seen.points - [corner.at.r, corner.at.z]).T)
        nearest = int(away.argmin())
        middle = seen.lengths[nearest]
        for chosen in (seen.lengths <= middle, seen.lengths >= middle):
            # One arm: as far as the distance from the corner grows with the length.
            near = chosen & (np.abs(seen.lengths - middle) < 1.01 * away + 2 * away[nearest])
            if near.sum() > 2:
                fields = _fields_at(away[near], seen.strength[near], distances)
                arms.append((fields[0], edge, region, away[near], seen.strength[near], fields))
    if not arms:
        raise FieldError(corner.place, "no element side leaves this corner")
    _, edge, region, away, field, fields = max(arms, key=lambda arm: arm[0])
    intensity = _intensity(away, field, corner.exponent, distances[0])
    return CornerField(
        corner.at,
        corner.place,
        corner.edges,
        corner.exponent,
        edge,
        region,
        intensity,
        distances,
        fields,
    )


def _fields_at(away: Array, field: Array, distances: tuple[float, ...]) -> tuple[float, ...]:
    order = np.argsort(away)
    logs = np.interp(np.log(distances), np.log(away[order]), np.log(field[order] + 1e-300))
    return tuple(np.exp(logs).tolist())


def _intensity(away: Array, field: Array, exponent: float, nearest: float) -> float:
    """K in E = K (d/1 mm)^(L-1), from samples so near that the corner alone decides."""
    low = max(float(away.min()) * 3, nearest / 500)
    near = (away > low) & (away < max(nearest / 10, 4 * low))
    if not near.any():
        near = away < np.partition(away, min(5, len(away) - 1))[min(5, len(away) - 1)]
    return float(np.median(field[near] * (away[near] / _UNIT) ** (1 - exponent)))
