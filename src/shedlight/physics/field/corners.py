"""Where edges of a shape meet, and how singular the field is there."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from shedlight.geometry.curves import Arc, Piece, Point
from shedlight.physics.field.domain import (
    ON_AXIS,
    FieldError,
    Key,
    Medium,
    Part,
    Shape,
    place_key,
)
from shedlight.physics.field.singular import (
    dielectric_corner_exponent,
    metal_corner_exponent,
)

_FULL = 2 * math.pi
_FLAT = 1e-6
Run = tuple[tuple[tuple[float, float], ...], bool]  # sectors; ends on a symmetry plane


@dataclass(frozen=True)
class Ray:
    """One edge leaving a corner: direction [rad], what lies left and right looking outward."""

    direction: float
    left: str | None
    right: str | None
    electrode: str | None
    edge: str

    @property
    def on_metal(self) -> bool:
        """Whether the edge is the face of an electrode."""
        return self.electrode is not None


@dataclass(frozen=True)
class Corner:
    """A point where edges meet, with the exponent of the potential there (singular below 1)."""

    at: Point
    exponent: float
    edges: tuple[str, ...]
    touches_metal: bool

    @property
    def is_singular(self) -> bool:
        """Whether the field grows without limit into this corner."""
        return self.exponent < 1 - 1e-3

    @property
    def place(self) -> str:
        """The corner in words."""
        return f"{' / '.join(self.edges)} at r {1e3 * self.at.r:.4g}, z {1e3 * self.at.z:.4g} mm"


def rays_of(parts: tuple[Part, ...]) -> dict[Key, list[tuple[Point, Ray]]]:
    """What leaves every point at which a part begins or ends.

    Args:
        parts: The parts of a shape.

    Source: Geometry — basis: exact.
    """
    found: dict[Key, list[tuple[Point, Ray]]] = {}
    for part in parts:
        for forward in (True, False):
            piece = part.piece if forward else part.piece.reversed()
            left, right = (part.left, part.right) if forward else (part.right, part.left)
            ray = Ray(direction(piece), left, right, part.electrode, part.edge)
            found.setdefault(place_key(piece.start), []).append((piece.start, ray))
    return found


def corners_of(shape: Shape, media: Mapping[str, Medium]) -> tuple[Corner, ...]:
    """Every corner of a shape off the axis, with its exponent.

    Args:
        shape: The shape.
        media: What fills its regions.

    Raises:
        FieldError: an edge ends in the open, or two leave a point in one direction.

    Source: Wedges of metal and dielectrics, see :mod:`shedlight.physics.field.singular` — basis:
    exact.
    """
    found = []
    for at_point in rays_of(shape.parts).values():
        point = at_point[0][0]
        rays = sorted((ray for _, ray in at_point), key=lambda ray: ray.direction)
        if point.r <= ON_AXIS:
            continue
        if len(rays) < 2 and not (rays[0].on_metal and rays[0].left and rays[0].right):
            raise FieldError(rays[0].edge, "the edge ends in the open; regions must be closed")
        edges = tuple(dict.fromkeys(ray.edge for ray in rays))
        if any(b.direction - a.direction < _FLAT for a, b in pairwise(rays)):
            at = f"{' / '.join(edges)} at r {1e3 * point.r:.4g}, z {1e3 * point.z:.4g} mm"
            raise FieldError(at, "two edges leave this point in one direction: a cusp")
        metal = any(ray.on_metal for ray in rays)
        found.append(Corner(point, _exponent(rays, media), edges, metal))
    return tuple(found)


def direction(piece: Piece) -> float:
    """Direction in which a piece leaves its start [rad, 0 to 2 pi].

    Args:
        piece: A line or an arc.

    Source: Geometry — basis: exact.
    """
    if isinstance(piece, Arc):
        return (piece.start_angle + math.copysign(math.pi / 2, piece.sweep)) % _FULL
    away = math.atan2(piece.end.z - piece.start.z, piece.end.r - piece.start.r)
    return away % _FULL


def _exponent(rays: list[Ray], media: Mapping[str, Medium]) -> float:
    sectors = [
        ((after.direction - before.direction) % _FULL or _FULL, before.left, before.on_metal)
        for before, after in zip(rays, [*rays[1:], rays[0]], strict=True)
    ]
    if not any(ray.on_metal for ray in rays):
        if any(name is None for _, name, _ in sectors):
            return math.inf  # the rim of what is solved for: no flux, no metal
        return _dielectric(
            tuple((angle, media[name].permittivity) for angle, name, _ in sectors if name)
        )
    if len({ray.electrode for ray in rays if ray.on_metal}) > 1:
        return 0.0  # the potential jumps from one electrode to the other
    start = next(k for k, ray in enumerate(rays) if ray.on_metal)
    return min((_run(run) for run in _runs(sectors, start, media)), default=math.inf)


def _runs(
    sectors: list[tuple[float, str | None, bool]], start: int, media: Mapping[str, Medium]
) -> list[Run]:
    """The stretches of dielectric between metal faces, or between metal and symmetry planes."""
    found: list[Run] = []
    run: list[tuple[float, float]] = []
    first_is_metal = True
    for angle, name, on_metal in [*sectors[start:], *sectors[:start], (0.0, None, True)]:
        if on_metal and run:
            found.append((tuple(run if first_is_metal else run[::-1]), not first_is_metal))
            run = []
        if on_metal:
            first_is_metal = True
        if name is not None:
            run.append((angle, media[name].permittivity))
        elif run:
            if first_is_metal:
                found.append((tuple(run), True))
            run = []
        if name is None:
            first_is_metal = False
    return found


@cache
def _run(run: Run) -> float:
    sectors, symmetric = run
    total = math.fsum(angle for angle, _ in sectors)
    if total <= _FLAT:
        return math.inf
    if len({permittivity for _, permittivity in sectors}) == 1:
        return math.pi / total / (2 if symmetric else 1)
    angles, permittivities = zip(*sectors, strict=True)
    return metal_corner_exponent(angles, permittivities, symmetric=symmetric)


@cache
def _dielectric(sectors: tuple[tuple[float, float], ...]) -> float:
    if len({permittivity for _, permittivity in sectors}) == 1:
        return 1.0
    flat = all(abs(angle - math.pi) < _FLAT for angle, _ in sectors)
    if flat and len(sectors) == 2:
        return 1.0
    return dielectric_corner_exponent([a for a, _ in sectors], [e for _, e in sectors])
