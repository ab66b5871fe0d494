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
    bad = np.zeros(len(bends.chords), dtype=bool)
    bad[_too_sharp(bends, nodes, triangles)] = True
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


def _too_sharp(bends: Bends, nodes: Array, triangles: Codes) -> Codes:
    """Chords that, rounded, leave too sharp a corner in the triangle beside them."""
    rows = np.flatnonzero(bends.pieces.are_arcs[bends.owner])
    codes = _sides(triangles).ravel()
    order = np.argsort(codes)
    ordered = codes[order]
    found = []
    for start, end in (bends.chords[rows].T, bends.chords[rows][:, ::-1].T):
        wanted = start * _WIDE + end
        at = np.minimum(np.searchsorted(ordered, wanted), len(codes) - 1)
        there = ordered[at] == wanted
        side, mine = order[at[there]], rows[there]
        tip = nodes[triangles[side // 3, (side + 2) % 3]]
        a, b = start[there], end[there]
        for here, other, turn in ((a, b, 1.0), (b, a, -1.0)):
            way, up = bends.ways(mine, here, other), tip - nodes[here]
            high = turn * (way[:, 0] * up[:, 1] - way[:, 1] * up[:, 0])
            found.append(mine[high < _SHARP * np.hypot(*up.T)])
    return np.asarray(np.concatenate(found), dtype=np.int64)


def _parted(
    nodes: Array, triangles: Codes, origin: Codes, folded: Codes, turn: Codes
) -> tuple[Array, Codes, Codes]:
    """Part the third side of folded triangles in its middle, and what lies across it."""
    codes = _sides(triangles).ravel()
    order = np.argsort(codes)
    b, c, a = (triangles[folded, (turn + step) % 3] for step in range(3))
    at = np.minimum(np.searchsorted(codes, a * _WIDE + c, sorter=order), len(codes) - 1)
    across = order[at] // 3
    joined = codes[order[at]] == a * _WIDE + c
    # Every triangle is parted once in a round.
    pair = np.stack([folded, np.where(joined, across, folded)], axis=1)
    first = np.full(len(triangles), len(folded))
    np.minimum.at(first, pair.ravel(), np.repeat(np.arange(len(folded)), 2))
    free = (first[pair] == np.arange(len(folded))[:, None]).all(axis=1) & joined
    a, b, c, pair = a[free], b[free], c[free], pair[free]
    d = triangles[pair[:, 1]].sum(axis=1) - a - c
    middle = len(nodes) + np.arange(len(a))
    new = np.concatenate([np.stack(t, axis=1) for t in ((middle, b, c), (middle, c, d))])
    triangles = triangles.copy()
    triangles[pair[:, 0]] = np.stack([a, b, middle], axis=1)
    triangles[pair[:, 1]] = np.stack([d, a, middle], axis=1)
    return (
        np.concatenate([nodes, (nodes[a] + nodes[c]) / 2]),
        np.concatenate([triangles, new]),
        np.concatenate([origin, origin[pair.T.ravel()]]),
    )
