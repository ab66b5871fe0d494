"""How fine the mesh has to be, and where: distances between edges, gathered in a quadtree."""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from shedlight.geometry.curves import Arc
from shedlight.physics.field.corners import direction
from shedlight.physics.field.domain import ON_AXIS, FieldError, Part, place_key
from shedlight.physics.field.pieces import Array, Codes, Pieces

_NEIGHBOURS = (6, 24)
_ROUNDS = 20
_WIDE = 1 << 31
MOST_CELLS = 400_000
_ROUND_UP = 0.35
_SPACING = 0.7  # of samples, in units of what is asked there
_TIMES_RADIUS = 0.8  # size of elements over their distance from the axis, at one across a gap
_FINEST = 1e-8  # of the width of all
_METAL_ARC = math.pi / 8  # largest angle of an arc along one element, on metal
_OTHER_ARC = math.pi / 3  # and between dielectrics
_AXIS_ROWS = 3.0  # rows of elements from the axis to what faces it
_SMOOTH = 0.1  # rad; pieces that meet with less of a turn make one smooth edge


@dataclass(frozen=True)
class Wish:
    """Points [m] at which elements are to be no larger than a size [m]."""

    points: Array
    sizes: Array


def edge_wishes(pieces: Pieces, fineness: float) -> Wish:
    """Sizes that the parts of a shape ask for: their distance from one another, their bending.

    Args:
        pieces: The parts of the shape.
        fineness: Elements across a gap [1].

    Source: Derived here (a mesh follows the local width of the shape) — basis: practice.
    """
    parts = pieces.parts
    spans = first_spans(len(parts), 3)
    beside, sides = _neighbours(parts), _sides(parts)
    width = np.full(len(spans.part), np.inf)
    fresh = np.ones(len(width), dtype=bool)
    for remaining in reversed(range(_ROUNDS)):
        points = pieces.at(spans.part, spans.middle)
        width[fresh] = _widths(points, spans.part, beside, sides, np.flatnonzero(fresh))
        coarse = spans.lengths(pieces) > _SPACING * width
        if not remaining or not coarse.any() or len(points) > MOST_CELLS:
            break
        spans, width = spans.halved(coarse), np.repeat(width, 1 + coarse)
        fresh = np.repeat(coarse, 1 + coarse)
    bend = np.where(pieces.are_arcs, pieces.table[:, 0] * _chord_angles(pieces), np.inf)
    rows = np.array([_AXIS_ROWS if on_axis(part) else 1.0 for part in parts])
    off_axis = np.array([min(part.piece.start.r, part.piece.end.r) > ON_AXIS for part in parts])
    size = np.minimum(width / fineness / rows[spans.part], bend[spans.part])
    while True:
        points = pieces.at(spans.part, spans.middle)
        # A field that falls as 1/r needs elements that grow with r.
        near = np.where(off_axis[spans.part], _TIMES_RADIUS * points[:, 0] / fineness, np.inf)
        size = np.minimum(size, near)
        coarse = spans.lengths(pieces) > 2 * size
        if not coarse.any() or len(size) > MOST_CELLS:
            return Wish(points, size)
        spans, size = spans.halved(coarse), np.repeat(size, 1 + coarse)


def _chord_angles(pieces: Pieces) -> Array:
    """How large an angle of its arc a chord may stand for [rad]."""
    metal = np.array([part.electrode is not None for part in pieces.parts])
    return np.where(metal, _METAL_ARC, _OTHER_ARC)


def least_chords(pieces: Pieces) -> Codes:
    """How many chords every part has at least.

    Args:
        pieces: The parts.

    Source: Derived here (high-order elements follow an arc of 20 to 60 degrees) — basis: practice.
    """
    share = np.abs(pieces.table[:, 4]) / _chord_angles(pieces)
    return np.where(pieces.are_arcs, np.ceil(share - 1e-6), 1).astype(np.int64)


def on_axis(part: Part) -> bool:
    """Whether a part lies on the axis.

    Args:
        part: The part.

    Source: Geometry — basis: exact.
    """
    return max(part.piece.start.r, part.piece.end.r) <= ON_AXIS and not isinstance(part.piece, Arc)


@dataclass(frozen=True)
class Spans:
    """Stretches of parts between two shares, in order along every part."""

    part: Codes
    low: Array
    high: Array

    @property
    def middle(self) -> Array:
        """Share in the middle of every stretch."""
        return np.asarray((self.low + self.high) / 2)

    def lengths(self, pieces: Pieces) -> Array:
        """Length of every stretch [m]."""
        return np.asarray(pieces.lengths[self.part] * (self.high - self.low))

    def halved(self, chosen: NDArray[np.bool_]) -> "Spans":
        """The same with the chosen stretches halved."""
        count = 1 + chosen.astype(np.int64)
        own = np.repeat(np.arange(len(chosen)), count)
        second = np.zeros(len(own), dtype=bool)
        second[1:] = own[1:] == own[:-1]
        split = chosen[own]
        middle = self.middle[own]
        low = np.where(split & second, middle, self.low[own])
        high = np.where(split & ~second, middle, self.high[own])
        return Spans(self.part[own], low, high)


def first_spans(parts: int, count: int) -> Spans:
    """Every part in a few equal stretches.

    Args:
        parts: How many parts [1].
        count: Stretches for each [1].

    Source: Geometry — basis: exact.
    """
    step = np.tile(np.arange(count), parts)
    return Spans(np.repeat(np.arange(parts), count), step / count, (step + 1) / count)


def _neighbours(parts: tuple[Part, ...]) -> Codes:
    """Sorted codes a * n + b of parts that touch, or follow one another round a smooth bend."""
    ends: dict[tuple[int, int], list[tuple[int, float]]] = {}
    for number, part in enumerate(parts):
        for piece in (part.piece, part.piece.reversed()):
            at = ends.setdefault(place_key(piece.start), [])
            at.append((number, direction(piece)))
    touching: list[set[int]] = [{number} for number in range(len(parts))]
    smooth: list[set[int]] = [set() for _ in parts]
    for at in ends.values():
        for a, way in at:
            touching[a].update(b for b, _ in at)
            turns = ((b, math.remainder(other - way - math.pi, 2 * math.pi)) for b, other in at)
            smooth[a].update(b for b, turn in turns if b != a and abs(turn) < _SMOOTH)
    pairs = {a * len(parts) + b for a, near in enumerate(touching) for b in near}
    for a, near in enumerate(smooth):
        pairs.update(a * len(parts) + c for b in near for c in smooth[b])
    return np.array(sorted(pairs), dtype=np.int64)


def _sides(parts: tuple[Part, ...]) -> Codes:
    """The regions beside every part as bits: parts that share none do not face each other."""
    names = sorted({name for part in parts for name in (part.left, part.right) if name})
    bit = {name: 1 << number for number, name in enumerate(names)}
    return np.array([bit.get(p.left or "", 0) | bit.get(p.right or "", 0) for p in parts])


def _widths(points: Array, own: Codes, beside: Codes, sides: Codes, rows: Codes) -> Array:
    """Distance from some samples to the nearest part that faces their own and does not touch it."""
    tree = cKDTree(points)
    width = np.full(len(points), np.inf)
    open_ = rows
    for count in _NEIGHBOURS:
        distance, index = tree.query(points[open_], k=min(count, len(points)))
        code = own[open_][:, None] * len(sides) + own[index]
        blind = (sides[own[open_]][:, None] & sides[own[index]]) == 0
        width[open_] = np.where(blind | found_in(code, beside), np.inf, distance).min(axis=1)
        open_ = open_[np.isinf(width[open_])]
        if not len(open_):
            break
    return np.asarray(width[rows], dtype=float)


@dataclass(frozen=True)
class Quadtree:
    """Square cells, halved until they obey every wish; neighbours differ by one halving."""

    corner: tuple[float, float]
    width: float
    leaves: tuple[Codes, ...]  # per level, sorted codes i * _WIDE + j

    def sizes(self, points: Array) -> Array:
        """Side of the cell that holds each point [m]."""
        found = np.full(len(points), self.width)
        place = (points - np.array(self.corner)) / self.width
        for level, codes in enumerate(self.leaves):
            if len(codes):
                code = _code(place, level)
                at = np.minimum(np.searchsorted(codes, code), len(codes) - 1)
                found[codes[at] == code] = self.width / 2**level
        return found

    @cached_property
    def centres(self) -> tuple[Array, Array]:
        """Centre and side of every cell [m]."""
        places, sides = [], []
        for level, codes in enumerate(self.leaves):
            side = self.width / 2**level
            ij = np.stack([codes // _WIDE, codes % _WIDE], axis=1)
            places.append(np.array(self.corner) + (ij + 0.5) * side)
            sides.append(np.full(len(codes), side))
        return np.concatenate(places), np.concatenate(sides)


def quadtree(wishes: tuple[Wish, ...], low: Array, high: Array) -> Quadtree:
    """The coarsest balanced quadtree that obeys wishes.

    Args:
        wishes: Points and sizes.
        low: Lower left corner of what is to be covered [m].
        high: Upper right corner [m].

    Raises:
        FieldError: it would need more cells than memory is granted for.

    Source: M. Bern, D. Eppstein, J. Gilbert, Provably good mesh generation — basis: memory.
    """
    width = float(np.max(high - low)) * 1.0001
    corner = (low + high) / 2 - width / 2
    needed: dict[int, list[Codes]] = {}
    for wish in wishes:
        sizes = np.clip(wish.sizes, _FINEST * width, width)
        levels = np.clip(np.floor(np.log2(width / sizes) + _ROUND_UP), 0, 30).astype(int)
        place = (wish.points - corner) / width
        for level in np.unique(levels):
            chosen = levels == level
            needed.setdefault(int(level), []).append(_code(place[chosen], int(level)))
    leaves = _balanced(needed, max(needed, default=0))
    return Quadtree((float(corner[0]), float(corner[1])), width, leaves)


def _balanced(needed: dict[int, list[Codes]], deepest: int) -> tuple[Codes, ...]:
    halved = np.empty(0, dtype=np.int64)
    leaves: list[Codes] = []
    total = 0
    for level in range(deepest, 0, -1):
        wanted = needed.get(level, [])
        if len(halved):
            wanted = [*wanted, *_around(halved, level)]
        parents = distinct(_parents(np.concatenate(wanted))) if wanted else halved[:0]
        children = _children(parents)
        leaves.append(children[~found_in(children, halved)] if len(halved) else children)
        total += len(children)
        if total > MOST_CELLS:
            raise FieldError("mesh", f"more than {MOST_CELLS} cells; the shape has too fine parts")
        halved = parents
    root = np.zeros(0 if len(halved) else 1, dtype=np.int64)
    leaves.append(root)
    return tuple(reversed(leaves))


def distinct(codes: Codes) -> Codes:
    """Sorted codes, each once (faster than the hashing of numpy.unique).

    Args:
        codes: Whole numbers.

    Source: Sorting — basis: exact.
    """
    ordered = np.sort(codes, axis=None)
    fresh = np.ones(len(ordered), dtype=bool)
    fresh[1:] = ordered[1:] != ordered[:-1]
    return np.asarray(ordered[fresh], dtype=np.int64)


def found_in(codes: Codes, ordered: Codes) -> NDArray[np.bool_]:
    """Which codes stand in a sorted list.

    Args:
        codes: Whole numbers.
        ordered: Sorted whole numbers, at least one.

    Source: Binary search — basis: exact.
    """
    at = np.minimum(np.searchsorted(ordered, codes), len(ordered) - 1)
    return np.asarray(ordered[at] == codes)


def _code(place: Array, level: int) -> Codes:
    ij = np.clip(np.floor(place * 2**level), 0, 2**level - 1).astype(np.int64)
    return np.asarray(ij[:, 0] * _WIDE + ij[:, 1], dtype=np.int64)


def _parents(codes: Codes) -> Codes:
    return np.asarray((codes // _WIDE // 2) * _WIDE + codes % _WIDE // 2, dtype=np.int64)


def _children(codes: Codes) -> Codes:
    i, j = 2 * (codes // _WIDE), 2 * (codes % _WIDE)
    return np.sort(np.concatenate([(i + a) * _WIDE + j + b for a in (0, 1) for b in (0, 1)]))


def _around(codes: Codes, level: int) -> list[Codes]:
    """Cells of the same level beside some cells, and these themselves."""
    i, j = codes // _WIDE, codes % _WIDE
    most = 2**level - 1
    return [
        np.clip(i + a, 0, most) * _WIDE + np.clip(j + b, 0, most)
        for a in (-1, 0, 1)
        for b in (-1, 0, 1)
    ]
