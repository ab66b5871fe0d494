"""The rim of what is solved for: electrodes, insulating stretches, islands, and cuts to islands.

Needed by the flux function of :mod:`shedlight.physics.field.bounds`, which is constant on every
insulating stretch and jumps across a cut that leads to an island of metal.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix, csr_matrix
from scipy.sparse.csgraph import connected_components, dijkstra

from shedlight.physics.field.domain import FieldError
from shedlight.physics.field.meshing import FieldMesh
from shedlight.physics.field.pieces import Codes
from shedlight.physics.field.sizes import distinct, found_in, on_axis


@dataclass(frozen=True)
class Rim:
    """Every element side on the rim: vertices, counter-clockwise round its element; the element."""

    start: Codes
    end: Codes
    element: Codes
    part: Codes


@dataclass(frozen=True, eq=False)
class Topology:
    """What the flux function has to know of a mesh. `floating` electrodes hold no net charge."""

    mesh: FieldMesh
    floating: tuple[str, ...]

    @cached_property
    def sides(self) -> tuple[Codes, Codes, Codes]:
        """Start, end and element of every side of every element."""
        nodes = self.mesh.corners_of_elements
        start, end, element = [], [], []
        for is_quad in (False, True):
            chosen = np.flatnonzero((nodes[:, 3] >= 0) == is_quad)
            ring = nodes[chosen, : 4 if is_quad else 3]
            start.append(ring.ravel())
            end.append(np.roll(ring, -1, axis=1).ravel())
            element.append(np.repeat(chosen, ring.shape[1]))
        return np.concatenate(start), np.concatenate(end), np.concatenate(element)

    @cached_property
    def rim(self) -> Rim:
        """The sides with an element on one side only."""
        start, end, element = self.sides
        count = len(self.mesh.nodes)
        code = start * count + end
        alone = ~found_in(end * count + start, np.sort(code))
        chords, part = self.mesh.border
        both = np.concatenate([chords @ np.array([count, 1]), chords @ np.array([1, count])])
        order = np.argsort(both)
        at = np.minimum(np.searchsorted(both[order], code[alone]), len(both) - 1)
        if (both[order][at] != code[alone]).any():
            raise FieldError("mesh", "an element side on the rim belongs to no edge")
        return Rim(start[alone], end[alone], element[alone], np.tile(part, 2)[order][at])

    @cached_property
    def electrode_of_part(self) -> tuple[str | None, ...]:
        """Electrode of every part."""
        return tuple(part.electrode for part in self.mesh.parts)

    @cached_property
    def _kind(self) -> NDArray[np.int64]:
        """Of every rim side: 0 insulating, 1 floating electrode, 2 other electrode."""
        kinds = [
            0 if name is None else 1 if name in self.floating else 2
            for name in self.electrode_of_part
        ]
        return np.array(kinds)[self.rim.part]

    @cached_property
    def insulating(self) -> tuple[Codes, ...]:
        """Vertices of every stretch that lets no flux through, the axis among them.

        Stretches joined by a floating electrode count as one: its net flux is nothing.
        """
        return self._groups(self._kind <= 1, holding=self._kind == 0)

    @cached_property
    def loops(self) -> tuple[Codes, ...]:
        """Vertices of every closed loop of the rim."""
        everything = np.ones(len(self.rim.start), dtype=bool)
        return self._groups(everything, holding=everything)

    def _groups(self, joining: NDArray[np.bool_], holding: NDArray[np.bool_]) -> tuple[Codes, ...]:
        rim, count = self.rim, len(self.mesh.nodes)
        links = coo_matrix(
            (np.ones(int(joining.sum())), (rim.start[joining], rim.end[joining])),
            shape=(count, count),
        )
        _, group = connected_components(links, directed=False)
        held = distinct(np.concatenate([rim.start[holding], rim.end[holding]]))
        if not len(held):
            return ()
        return tuple(held[group[held] == number] for number in np.unique(group[held]))

    @cached_property
    def cuts(self) -> tuple[list[int], ...]:
        """A path of vertices from every charged island to metal of the outer loop."""
        firm = self._vertices(self._kind == 2) - self._vertices(self._kind < 2)
        rim = set().union(*(set(loop.tolist()) for loop in self.loops))
        done: set[int] = set()
        waiting = []
        for loop in self.loops:
            vertices = set(loop.tolist())
            is_outer = any(vertices & set(stretch.tolist()) for stretch in self.insulating)
            if is_outer:
                done |= vertices
            elif vertices & firm:
                waiting.append(vertices)
        if not done and waiting:
            done |= waiting.pop()
        found = []
        for island in waiting:
            found.append(self._path(island & firm, done & firm, rim))
            done |= island
        return tuple(found)

    def _vertices(self, chosen: NDArray[np.bool_]) -> set[int]:
        return {*self.rim.start[chosen].tolist(), *self.rim.end[chosen].tolist()}

    @cached_property
    def _links(self) -> csr_matrix:
        """Element sides that lead from one vertex to another, without those between rim and rim."""
        start, end, _ = self.sides
        rim = np.zeros(len(self.mesh.nodes), dtype=bool)
        rim[self.rim.start] = True
        free = ~(rim[start] & rim[end])
        ones = np.ones(int(free.sum()))
        return coo_matrix((ones, (start[free], end[free])), shape=(len(rim),) * 2).tocsr()

    def _path(self, sources: set[int], goals: set[int], rim: set[int]) -> list[int]:
        """Shortest way over element sides, touching the rim only at its two ends."""
        links = self._links
        barred = np.zeros(links.shape[0], dtype=bool)
        barred[list(rim - sources - goals)] = True
        start, end = links.nonzero()
        keep = ~(barred[start] | barred[end])
        graph = coo_matrix((np.ones(int(keep.sum())), (start[keep], end[keep])), links.shape)
        far, came, _ = dijkstra(
            graph.tocsr(),
            directed=False,
            unweighted=True,
            indices=sorted(goals),
            min_only=True,
            return_predecessors=True,
        )
        path = [min(sources, key=lambda vertex: (far[vertex], vertex))]
        if not np.isfinite(far[path[0]]):
            raise FieldError("mesh", "an island of metal is not joined to the rest")
        while path[-1] not in goals:
            path.append(int(came[path[-1]]))
        return path

    @cached_property
    def near_axis(self) -> NDArray[np.bool_]:
        """Which elements touch the axis."""
        axis = np.zeros(len(self.mesh.nodes) + 1, dtype=bool)
        axis[self.mesh.vertices(on_axis)] = True
        return np.asarray(axis[self.mesh.corners_of_elements].any(axis=1))

    def left_of(self, path: list[int]) -> list[tuple[int, int]]:
        """Element and vertex pairs on the left of a path, at its vertices."""
        start, end, element = self.sides
        here = np.isin(start, path)
        around: dict[int, dict[int, int]] = {}
        for a, b, e in np.stack([start[here], end[here], element[here]], axis=1).tolist():
            around.setdefault(a, {})[b] = e
        found = []
        for number, vertex in enumerate(path):
            found += [(e, vertex) for e in self._fan(path, number, around[vertex])]
        return found

    def _fan(self, path: list[int], number: int, leaving: dict[int, int]) -> list[int]:
        """Elements round a path vertex from its way out, counter-clockwise, to its way in."""
        nodes = self.mesh.corners_of_elements
        vertex = path[number]
        if number + 1 < len(path):
            stop = path[number - 1] if number else None
            return self._turn(nodes, vertex, path[number + 1], stop, leaving)
        back = path[number - 1]
        every = self._turn(nodes, vertex, back, None, leaving)
        return [e for e in leaving.values() if e not in every]

    def _turn(
        self,
        nodes: Codes,
        vertex: int,
        first: int,
        stop: int | None,
        leaving: dict[int, int],
    ) -> list[int]:
        elements = []
        toward = first
        while toward in leaving and toward != stop:
            element = leaving[toward]
            if element in elements:
                break
            elements.append(element)
            ring = [n for n in nodes[element].tolist() if n >= 0]
            toward = ring[ring.index(vertex) - 1]
        return elements
