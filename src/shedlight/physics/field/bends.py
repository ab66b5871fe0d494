"""No triangle that rounding would fold: none with two sides on one bend, none too sharp beside one.

In a flat or folded corner the map from the reference triangle is no map any more, and the slopes
of every polynomial grow without limit. A triangle with two sides on one bend is parted from their
common corner to the middle of its third side; chords that bulge too far are to be halved.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from shedlight.physics.field.pieces import Array, Codes, Pieces
from shedlight.physics.field.sizes import found_in

_FLAT = np.cos(np.radians(135.0))
_SHARP = np.sin(np.radians(8.0))
_ROUNDS = 4
_LEAST = 0.1  # of a new triangle's area to the pair's
_WIDE = 1 << 31


@dataclass(frozen=True)
class Bends:
    """Nodes [m] and chords (two nodes each) with the piece that each stands for."""

    pieces: Pieces
    nodes: Array
    chords: Codes
    owner: Codes

    @cached_property
    def fence(self) -> tuple[Codes, Codes]:
        """Sorted codes of the chords, both ways, and the number of each one's chord."""
        both = np.concatenate(
            [self.chords @ np.array([_WIDE, 1]), self.chords @ np.array([1, _WIDE])]
        )
        order = np.argsort(both)
        return both[order], order % len(self.chords)

    def ways(self, chord: Codes, here: Codes, there: Codes) -> Array:
        """Unit directions in which the parts of chords leave one end toward the other."""
        at = self.nodes[here]
        way = self.nodes[there] - at
        table = self.pieces.table[self.owner[chord]]
        out = at - table[:, 1:3]
        around = np.stack([-out[:, 1], out[:, 0]], axis=1)
        around *= np.sign((around * way).sum(axis=1))[:, None]
        way = np.where(table[:, :1] > 0, around, way)
        return np.asarray(way / np.hypot(*way.T)[:, None])


def unfolded(bends: Bends, triangles: Codes) -> tuple[Array, Codes, Codes, NDArray[np.bool_]]:
    """Triangles that stand being rounded, and which chords have to be halved for the rest.

    Args:
        bends: The chords and the arcs they stand for.
        triangles: Rows of three node numbers, counter-clockwise.

    Returns:
        New nodes [m]; triangles; for each the old one it lies in; chords that are too long.

    Source: Geometry — basis: exact.
    """
    nodes, origin = bends.nodes, np.arange(len(triangles))
    for _ in range(_ROUNDS):
        folded, turn = _folded(bends, triangles)
        if not len(folded):
            break
        nodes, triangles, origin = _parted(nodes, triangles, origin, folded, turn)
    for _ in range(_ROUNDS):
        chord, triangle, side = _too_sharp(bends, nodes, triangles)
        if not len(chord):
            break
        triangles = _turned(nodes, triangles, triangle, side)
    bad = np.zeros(len(bends.chords), dtype=bool)
    bad[chord] = True
    return nodes[len(bends.nodes) :], triangles, origin, bad


def _sides(triangles: Codes) -> Codes:
    return np.asarray(triangles * _WIDE + np.roll(triangles, -1, axis=1))


def _folded(bends: Bends, triangles: Codes) -> tuple[Codes, Codes]:
    """Triangles with two sides on one bend, and which vertex stands between the two."""
    fence, chord = bends.fence
    codes = _sides(triangles)
    on_chord = found_in(codes.ravel(), fence).reshape(codes.shape)
    pairs = np.flatnonzero(on_chord.sum(axis=1) == 2)
    inner = on_chord[pairs].argmin(axis=1)  # the side that is no chord
    turn = (inner + 2) % 3
    vertex = triangles[pairs, turn]
    ways = []
    for step, away in ((2, 1), (1, 2)):
        side = chord[np.searchsorted(fence, codes[pairs, (inner + step) % 3])]
        ways.append(bends.ways(side, vertex, triangles[pairs, (turn + away) % 3]))
    flat = (ways[0] * ways[1]).sum(axis=1) < _FLAT
    return pairs[flat], turn[flat]


def _too_sharp(bends: Bends, nodes: Array, triangles: Codes) -> tuple[Codes, Codes, Codes]:
    """Chords that, rounded, leave too sharp a corner; the triangle, and its other side there."""
    rows = np.flatnonzero(bends.pieces.are_arcs[bends.owner])
    codes = _sides(triangles).ravel()
    order = np.argsort(codes)
    ordered = codes[order]
    found = [(rows[:0],) * 3]
    for start, end in (bends.chords[rows].T, bends.chords[rows][:, ::-1].T):
        wanted = start * _WIDE + end
        at = np.minimum(np.searchsorted(ordered, wanted), len(codes) - 1)
        there = ordered[at] == wanted
        side, mine = order[at[there]], rows[there]
        tip = nodes[triangles[side // 3, (side + 2) % 3]]
        a, b = start[there], end[there]
        for here, other, turn, step in ((a, b, 1.0, 2), (b, a, -1.0, 1)):
            way, up = bends.ways(mine, here, other), tip - nodes[here]
            high = turn * (way[:, 0] * up[:, 1] - way[:, 1] * up[:, 0])
            sharp = high < _SHARP * np.hypot(*up.T)
            found.append((mine[sharp], side[sharp] // 3, (side[sharp] % 3 + step) % 3))
    chord, triangle, beside = (np.concatenate(column) for column in zip(*found, strict=True))
    return chord, triangle, beside


def _across(triangles: Codes, own: Codes, side: Codes) -> tuple[Codes, NDArray[np.bool_]]:
    """The triangle across a side of each, and where each of the two is free to be changed."""
    codes = _sides(triangles).ravel()
    order = np.argsort(codes)
    u, w = triangles[own, side], triangles[own, (side + 1) % 3]
    at = np.minimum(np.searchsorted(codes, w * _WIDE + u, sorter=order), len(codes) - 1)
    joined = codes[order[at]] == w * _WIDE + u
    pair = np.stack([own, np.where(joined, order[at] // 3, own)], axis=1)
    # Every triangle is changed once in a round.
    first = np.full(len(triangles), len(own))
    np.minimum.at(first, pair.ravel(), np.repeat(np.arange(len(own)), 2))
    free = (first[pair] == np.arange(len(own))[:, None]).all(axis=1) & joined
    return pair[:, 1], np.asarray(free)


def _turned(nodes: Array, triangles: Codes, own: Codes, side: Codes) -> Codes:
    """Turn a side between two triangles so that it joins their other two corners."""
    across, free = _across(triangles, own, side)
    u, w, p = (triangles[own, (side + step) % 3] for step in range(3))
    d = triangles[across].sum(axis=1) - u - w
    one, other = np.stack([p, u, d], axis=1), np.stack([d, w, p], axis=1)
    areas = np.stack([_areas(nodes[one]), _areas(nodes[other])], axis=1)
    good = free & (areas.min(axis=1) > _LEAST * areas.sum(axis=1))
    triangles = triangles.copy()
    triangles[own[good]], triangles[across[good]] = one[good], other[good]
    return triangles


def _areas(corners: Array) -> Array:
    a, b = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])


def _parted(
    nodes: Array, triangles: Codes, origin: Codes, folded: Codes, turn: Codes
) -> tuple[Array, Codes, Codes]:
    """Part the third side of folded triangles in its middle, and what lies across it."""
    across, free = _across(triangles, folded, (turn + 1) % 3)
    own, across = folded[free], across[free]
    b, c, a = (triangles[own, (turn[free] + step) % 3] for step in range(3))
    d = triangles[across].sum(axis=1) - a - c
    middle = len(nodes) + np.arange(len(a))
    new = np.concatenate([np.stack(t, axis=1) for t in ((middle, b, c), (middle, c, d))])
    triangles = triangles.copy()
    triangles[own] = np.stack([a, b, middle], axis=1)
    triangles[across] = np.stack([d, a, middle], axis=1)
    return (
        np.concatenate([nodes, (nodes[a] + nodes[c]) / 2]),
        np.concatenate([triangles, new]),
        np.concatenate([origin, origin[own], origin[across]]),
    )
