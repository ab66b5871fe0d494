"""Fill a shape with triangles: nodes on its edges, points inside, Delaunay, names of regions.

Our own filling because it takes a fixed number of array operations: it cannot hang, its time
grows with the number of triangles, and the same shape always gives the same mesh.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import Delaunay, QhullError, cKDTree

from shedlight.physics.field.bends import Bends, unfolded
from shedlight.physics.field.domain import GRID, OFF_GRID, FieldError, Part
from shedlight.physics.field.pieces import Array, Codes, Pieces
from shedlight.physics.field.sizes import (
    Quadtree,
    Wish,
    distinct,
    edge_wishes,
    first_spans,
    found_in,
    least_chords,
    quadtree,
)

_ROUNDS = 12
_CLEAR = 0.62
_JITTER = 0.06
_SHORTER = 0.2  # of a chord by which chords may be longer together than asked


@dataclass(frozen=True)
class Chords:
    """The edges cut into chords: two node numbers each, the part, and its shares at both ends."""

    nodes: Codes  # n x 2
    part: Codes
    shares: Array  # n x 2


@dataclass(frozen=True)
class Filling:
    """Nodes [m], triangles by region number, and the chords along the edges."""

    nodes: Array
    triangles: Codes
    regions: Codes
    chords: Chords
    tree: Quadtree


def fill(
    parts: tuple[Part, ...], regions: tuple[str, ...], fineness: float, wishes: tuple[Wish, ...]
) -> Filling:
    """Triangles that follow the parts of a shape; every region is filled by itself.

    Args:
        parts: The parts of the shape; together they close every region.
        regions: Names of the regions to be filled; what is not named is left empty.
        fineness: Elements across the narrowest gaps [1].
        wishes: Further points with sizes [m].

    Raises:
        FieldError: the parts cross, or do not close their regions.

    Source: J. Ruppert, A Delaunay refinement algorithm for 2-D mesh generation — basis: memory.
    """
    pieces = Pieces(parts)
    asked = edge_wishes(pieces, fineness)
    low, high = asked.points.min(axis=0), asked.points.max(axis=0)
    tree = quadtree((asked, *wishes), low, high)
    marks = _marks(pieces, tree)
    places, sides = tree.centres
    places = _shaken(places, sides)
    for _ in range(_ROUNDS):
        border, chords = _chords(pieces, marks)
        flat = chords.nodes[:, 0] == chords.nodes[:, 1]
        if flat.any():
            _refuse(parts[chords.part[flat][0]], border[chords.nodes[flat][0, 0]])
        beside = _beside(parts, regions, chords)
        kept = places[_clear(places, sides, border, chords)]
        home = _home(kept, border, chords, beside)
        nodes = np.concatenate([border, kept])
        home = np.concatenate([np.full(len(border), -1), home])
        patches, missing = _patches(nodes, chords, beside, home, len(regions))
        if missing.any():
            marks = _split(marks, chords, missing)
            continue
        found = _joined(parts, nodes, patches, chords, beside, tree)
        bends = Bends(pieces, found.nodes, found.chords.nodes, found.chords.part)
        more, triangles, origin, bad = unfolded(bends, found.triangles)
        if not bad.any():
            nodes = np.concatenate([found.nodes, more])
            return replace(found, nodes=nodes, triangles=triangles, regions=found.regions[origin])
        chords, missing, border = found.chords, bad, found.nodes
        marks = _split(marks, chords, missing)
    _refuse(parts[chords.part[missing][0]], border[chords.nodes[missing][0, 0]])
    raise AssertionError  # not reached: the line above raises


def _patches(
    nodes: Array, chords: Chords, beside: Codes, home: Codes, regions: int
) -> tuple[list[Codes], NDArray[np.bool_]]:
    """Triangles over the nodes of every region, and which of its chords are no sides of them."""
    patches, missing = [], np.zeros(len(chords.part), dtype=bool)
    for region in range(regions):
        mine = (beside == region).any(axis=1)
        used = distinct(
            np.concatenate([chords.nodes[mine].ravel(), np.flatnonzero(home == region)])
        )
        patches.append(used[_delaunay(nodes[used])])
        missing[mine] |= _missing(patches[-1], chords.nodes[mine], len(nodes))
    return patches, missing


def _beside(parts: tuple[Part, ...], regions: tuple[str, ...], chords: Chords) -> Codes:
    """Number of the region left and right of every chord, -1 for none."""
    known = {name: number for number, name in enumerate(regions)}
    table = [(known.get(part.left or "", -1), known.get(part.right or "", -1)) for part in parts]
    return np.asarray(np.array(table, dtype=np.int64)[chords.part], dtype=np.int64)


def _home(points: Array, border: Array, chords: Chords, beside: Codes) -> Codes:
    """The region a point lies in, told by the side of the chord nearest to it."""
    ends = border[chords.nodes]
    _, index = cKDTree(ends.mean(axis=1)).query(points, k=min(8, len(ends)))
    index = index.reshape(len(points), min(8, len(ends)))
    start, along_it = ends[index, 0], ends[index, 1] - ends[index, 0]
    away = points[:, None] - start
    length = (along_it**2).sum(axis=2)
    share = np.clip((away * along_it).sum(axis=2) / length, 0.0, 1.0)
    distance = np.hypot(*np.moveaxis(away - share[..., None] * along_it, 2, 0))
    turn = along_it[..., 0] * away[..., 1] - along_it[..., 1] * away[..., 0]
    # At a shared end both chords are equally near: the one seen more squarely tells the side.
    rank = distance * (1 + 1e-6) - 1e-7 * np.abs(turn) / np.sqrt(length)
    best = np.arange(len(points)), rank.argmin(axis=1)
    chosen = beside[index[best]]
    return np.asarray(np.where(turn[best] > 0, chosen[:, 0], chosen[:, 1]), dtype=np.int64)


def _marks(pieces: Pieces, tree: Quadtree) -> list[Array]:
    """Shares at which every part is cut into chords, as fine as the tree asks."""
    spans = first_spans(len(pieces.parts), 2)
    while True:
        size = tree.sizes(pieces.at(spans.part, spans.middle))
        coarse = spans.lengths(pieces) > size
        if not coarse.any():
            break
        spans = spans.halved(coarse)
    load = spans.lengths(pieces) / size
    whole = np.bincount(spans.part, load)
    count = np.maximum(np.ceil(whole - _SHORTER).astype(int), least_chords(pieces))
    # Part n runs from n to n + 1, in load as in shares, so that all are cut in one go.
    reached = np.cumsum(load) - np.repeat(np.cumsum(whole) - whole, np.bincount(spans.part))
    grown = np.concatenate([[0.0], spans.part + reached / whole[spans.part]])
    shares = np.concatenate([[0.0], spans.part + spans.high])
    own = np.repeat(np.arange(len(count)), count + 1)
    step = np.concatenate([np.arange(n + 1) / n for n in count.tolist()])
    marks = np.clip(np.interp(own + step, grown, shares) - own, 0.0, 1.0)
    marks[step == 0], marks[step == 1] = 0.0, 1.0
    return np.split(marks, np.cumsum(count + 1)[:-1])


def _chords(pieces: Pieces, marks: list[Array]) -> tuple[Array, Chords]:
    """Nodes on the edges, ends shared, and the chords between them."""
    counts = np.array([len(mark) for mark in marks])
    own = np.repeat(np.arange(len(counts)), counts)
    shares = np.concatenate(marks)
    points = pieces.at(own, shares)
    rounded = np.floor(points * GRID + OFF_GRID).astype(np.int64)
    order = np.lexsort(rounded.T)
    fresh = np.ones(len(order), dtype=bool)
    fresh[1:] = (rounded[order[1:]] != rounded[order[:-1]]).any(axis=1)
    number = np.empty(len(order), dtype=np.int64)
    number[order] = np.cumsum(fresh) - 1
    first = order[fresh]
    step = np.ones(len(own), dtype=bool)
    step[np.cumsum(counts) - 1] = False
    start = np.flatnonzero(step)
    nodes = np.stack([number[start], number[start + 1]], axis=1)
    return points[first], Chords(nodes, own[start], np.stack([shares[start], shares[start + 1]], 1))


def _shaken(points: Array, sides: Array) -> Array:
    """Moved a little, always the same way, so that no four points lie on one circle."""
    number = np.arange(len(points), dtype=float)[:, None]
    noise = np.mod(number * np.array([[0.6180339887, 0.7548776662]]), 1.0) - 0.5
    return np.asarray(points + 2 * _JITTER * noise * sides[:, None], dtype=float)


def _clear(points: Array, sides: Array, border: Array, chords: Chords) -> NDArray[np.bool_]:
    """Which points stand clear of the edges: outside every chord's circle, not too near nodes."""
    ends = border[chords.nodes]
    middle, radius = ends.mean(axis=1), np.hypot(*(ends[:, 1] - ends[:, 0]).T) / 2
    near, _ = cKDTree(border).query(points)
    keep = np.asarray(near > _CLEAR * sides)
    count = min(6, len(middle))
    distance, index = cKDTree(middle).query(points, k=count)
    reach = radius[index] * 1.12
    clear = np.reshape(distance > reach, (len(points), count)).all(axis=1)
    return np.asarray(keep & clear)


def _delaunay(nodes: Array) -> Codes:
    try:
        found = Delaunay(nodes).simplices.astype(np.int64)
    except QhullError as wrong:
        raise FieldError("mesh", f"no triangles: {str(wrong).splitlines()[0]}") from None
    a, b, c = nodes[found[:, 0]], nodes[found[:, 1]], nodes[found[:, 2]]
    area = _cross(b - a, c - a)
    found[area < 0] = found[area < 0][:, [0, 2, 1]]
    longest = np.maximum(np.maximum(_square(b - a), _square(c - b)), _square(a - c))
    return np.asarray(found[np.abs(area) > 1e-9 * longest], dtype=np.int64)


def _cross(a: Array, b: Array) -> Array:
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])


def _square(a: Array) -> Array:
    return np.asarray((a * a).sum(axis=1))


def _edge_codes(triangles: Codes, count: int) -> Codes:
    """Codes of directed edges, triangle by triangle: start * count + end."""
    ends = np.roll(triangles, -1, axis=1)
    return np.asarray(triangles * count + ends, dtype=np.int64)


def _missing(triangles: Codes, chords: Codes, count: int) -> NDArray[np.bool_]:
    codes = np.sort(_edge_codes(triangles, count), axis=None)
    there = found_in(chords[:, 0] * count + chords[:, 1], codes)
    return np.asarray(~there & ~found_in(chords[:, 1] * count + chords[:, 0], codes))


def _split(marks: list[Array], chords: Chords, missing: NDArray[np.bool_]) -> list[Array]:
    marks = list(marks)
    for part in np.unique(chords.part[missing]):
        middle = chords.shares[missing & (chords.part == part)].mean(axis=1)
        marks[part] = np.sort(np.concatenate([marks[part], middle]))
    return marks


def _joined(
    parts: tuple[Part, ...],
    nodes: Array,
    patches: list[Codes],
    chords: Chords,
    beside: Codes,
    tree: Quadtree,
) -> Filling:
    """The triangles of all regions, without those that lie outside their region."""
    kept, names = [], []
    for number, triangles in enumerate(patches):
        inside = triangles[_inside(parts, nodes, triangles, chords, beside, number)]
        kept.append(inside)
        names.append(np.full(len(inside), number))
    triangles = np.concatenate(kept)
    used = np.zeros(len(nodes), dtype=bool)
    used[triangles] = True
    new = np.cumsum(used) - 1
    there = used[chords.nodes].all(axis=1) & (beside >= 0).any(axis=1)
    left = Chords(new[chords.nodes[there]], chords.part[there], chords.shares[there])
    return Filling(nodes[used], new[triangles], np.concatenate(names), left, tree)


def _inside(
    parts: tuple[Part, ...],
    nodes: Array,
    triangles: Codes,
    chords: Chords,
    beside: Codes,
    number: int,
) -> NDArray[np.bool_]:
    """Which triangles lie in a region: those joined, not across chords, to its side of a chord."""
    count = len(nodes)
    codes = _edge_codes(triangles, count).ravel()
    order = np.argsort(codes)
    directed, owner = codes[order], order // 3
    back = directed % count * count + directed // count
    start, end = chords.nodes.T
    fence = np.sort(np.concatenate([start * count + end, end * count + start]))
    joined = found_in(back, directed) & ~found_in(directed, fence)
    other = owner[np.searchsorted(directed, back[joined])]
    links = coo_matrix((np.ones(len(other)), (owner[joined], other)), shape=(len(triangles),) * 2)
    _, group = connected_components(links, directed=False)
    on_left, on_right = beside[:, 0] == number, beside[:, 1] == number
    wanted = np.concatenate([(start * count + end)[on_left], (end * count + start)[on_right]])
    unwanted = np.concatenate([(end * count + start)[on_left], (start * count + end)[on_right]])
    lost = ~found_in(wanted, directed)
    good = group[owner[np.searchsorted(directed, wanted[~lost])]]
    outer = unwanted[found_in(unwanted, directed) & ~found_in(unwanted, np.sort(wanted))]
    bad = np.isin(good, group[owner[np.searchsorted(directed, outer)]])
    if lost.any() or bad.any():
        which = np.concatenate([np.flatnonzero(on_left), np.flatnonzero(on_right)])
        chord = which[lost][0] if lost.any() else which[~lost][bad][0]
        _refuse(parts[chords.part[chord]], nodes[chords.nodes[chord, 0]])
    return np.asarray(np.isin(group, good))


def _refuse(part: Part, at: Array) -> None:
    raise FieldError(
        f"{part.edge} at r {1e3 * at[0]:.4g}, z {1e3 * at[1]:.4g} mm",
        f"the mesh of {part.left} and {part.right} does not close there; "
        "edges may cross, touch or end in the open",
    )
