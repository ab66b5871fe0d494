"""From a shape to a mesh of curved elements, graded into singular corners, kept for its shape."""

import weakref
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from shedlight.geometry.curves import Arc
from shedlight.physics.field.corners import Corner, corners_of
from shedlight.physics.field.domain import FieldError, Medium, Part, Shape
from shedlight.physics.field.engine import netgen, ng
from shedlight.physics.field.kept import kept
from shedlight.physics.field.pieces import Array, Codes, Pieces
from shedlight.physics.field.sizes import Wish
from shedlight.physics.field.triangles import Filling, fill

MOST_ELEMENTS = 100_000
GRADING = 0.15
BENT = 5  # degree of the curved element sides
_NEARLY_SMOOTH = 0.97
_MOST_KEPT = 60_000  # elements, some 8 kB each


@dataclass(frozen=True)
class Fineness:
    """How a shape is meshed: elements across gaps, layers into corners, further wishes."""

    across: float = 0.7
    layers: int = 3
    wishes: tuple[tuple[float, float, float], ...] = ()  # r, z, size [m]


@dataclass(frozen=True, eq=False)
class FieldMesh:
    """A mesh with what it was made from; `bend` is the shift that rounds its sides."""

    shape: Shape
    parts: tuple[Part, ...]
    corners: tuple[Corner, ...]
    fineness: Fineness
    mesh: Any
    bend: Any

    def __post_init__(self) -> None:
        """Part the mesh from its shift when nobody needs them: they hold each other in memory."""
        weakref.finalize(self, self.mesh.UnsetDeformation).atexit = False

    @cached_property
    def pieces(self) -> Pieces:
        """The lines and arcs of the parts."""
        return Pieces(self.parts)

    @property
    def elements(self) -> int:
        """How many elements."""
        return int(self.mesh.ne)

    @cached_property
    def nodes(self) -> Array:
        """Vertices [m], as they lie before sides are rounded."""
        return np.array(self.mesh.ngmesh.Coordinates())[:, :2]

    @cached_property
    def corners_of_elements(self) -> Codes:
        """Vertices of every element, counter-clockwise; -1 in fourth place for triangles."""
        found = np.array(self.mesh.ngmesh.Elements2D().NumPy()["nodes"], dtype=np.int64) - 1
        four = np.full((len(found), 4), -1, dtype=np.int64)
        four[:, : found.shape[1]] = found[:, :4]
        return four

    @cached_property
    def regions(self) -> Codes:
        """Region number of every element."""
        return np.array(self.mesh.ngmesh.Elements2D().NumPy()["index"], dtype=np.int64) - 1

    @cached_property
    def volumes(self) -> Array:
        """Volume of every region over 2 pi [m³]."""
        return np.array(ng.Integrate(ng.x, self.mesh, order=3 * BENT, region_wise=True))

    @cached_property
    def border(self) -> tuple[Codes, Codes]:
        """Vertices (two each) and part number of every chord along the edges."""
        found = self.mesh.ngmesh.Elements1D().NumPy()
        return found["nodes"][:, :2].astype(np.int64) - 1, found["index"].astype(np.int64) - 1

    @cached_property
    def _middles(self) -> tuple[cKDTree, Array]:
        nodes = self.nodes[self.corners_of_elements[:, :3]]
        size = np.hypot(*(nodes.max(axis=1) - nodes.min(axis=1)).T) / 1.5
        return cKDTree(nodes.mean(axis=1)), size

    def sizes_near(self, points: Array) -> Array:
        """Size of the element nearest to every point [m]."""
        tree, size = self._middles
        _, index = tree.query(np.nan_to_num(points))
        return np.asarray(size[index], dtype=float)

    def chosen(self, wanted: Callable[[Part], bool]) -> list[int]:
        """Numbers of the parts that a condition picks."""
        return [number for number, part in enumerate(self.parts) if wanted(part)]

    def boundary(self, wanted: Callable[[Part], bool]) -> Any:
        """The mesh's boundary region made of the parts that a condition picks."""
        return boundary_of(self.mesh, self.chosen(wanted))

    def vertices(self, wanted: Callable[[Part], bool]) -> Codes:
        """Vertices on the parts that a condition picks."""
        nodes, part = self.border
        return np.unique(nodes[np.isin(part, self.chosen(wanted))])


def mesh_of(shape: Shape, media: Mapping[str, Medium], fineness: Fineness) -> FieldMesh:
    """The mesh of a shape; the last few are kept.

    Args:
        shape: What is to be meshed.
        media: What fills it; decides which corners are singular.
        fineness: How fine.

    Raises:
        FieldError: edges cross or regions are open; or the mesh would be too large.

    Source: I. Babuska, B. Guo (1986): geometric layers into corners — basis: memory.
    """
    permittivities = tuple((name, media[name].permittivity) for name in shape.regions)
    return _kept(shape, permittivities, fineness)


@kept(lambda mesh: mesh.elements, _MOST_KEPT)
def _kept(
    shape: Shape, permittivities: tuple[tuple[str, float], ...], fineness: Fineness
) -> FieldMesh:
    parts = shape.parts
    corners = corners_of(shape, {name: Medium(value) for name, value in permittivities})
    wishes = np.array(fineness.wishes).reshape(-1, 3)
    filling = fill(parts, shape.regions, fineness.across, (Wish(wishes[:, :2], wishes[:, 2]),))
    if len(filling.triangles) > MOST_ELEMENTS:
        crowded = shape.regions[int(np.bincount(filling.regions).argmax())]
        count = len(filling.triangles)
        raise FieldError(f"mesh of {crowded}", f"{count} elements, more than {MOST_ELEMENTS}")
    raw = _assembled(shape, parts, filling)
    singular = [corner for corner in corners if corner.exponent < _NEARLY_SMOOTH]
    _mark_corners(raw, filling, singular)
    mesh = ng.Mesh(raw)
    if singular:
        mesh.RefineHP(fineness.layers, GRADING)
    bend = _rounded(mesh, parts)
    mesh.SetDeformation(bend)
    return FieldMesh(shape, parts, corners, fineness, mesh, bend)


def _assembled(shape: Shape, parts: tuple[Part, ...], filling: Filling) -> Any:
    raw = netgen.Mesh(2)
    raw.AddPoints(np.column_stack([filling.nodes, np.zeros(len(filling.nodes))]))
    for number, name in enumerate(shape.regions, start=1):
        raw.Add(netgen.FaceDescriptor(surfnr=number, domin=number, bc=number))
        chosen = filling.triangles[filling.regions == number - 1]
        raw.AddElements(dim=2, index=number, data=_whole(chosen), base=0)
        raw.SetMaterial(number, name)
    for number, part in enumerate(parts):
        chords = filling.chords.nodes[filling.chords.part == number]
        if len(chords):
            raw.AddElements(dim=1, index=number + 1, data=_whole(chords), base=0)
        raw.SetBCName(number, part.label)
    return raw


def _whole(numbers: Codes) -> NDArray[np.int32]:
    return np.ascontiguousarray(numbers, dtype=np.int32)


def _mark_corners(raw: Any, filling: Filling, corners: list[Corner]) -> None:
    for corner in corners:
        away = np.hypot(*(filling.nodes - [corner.at.r, corner.at.z]).T)
        raw.AddSingularity(netgen.PointId(int(away.argmin()) + 1), 1.0)


def _rounded(mesh: Any, parts: tuple[Part, ...]) -> Any:
    """The shift that carries every chord of an arc onto the arc, radially."""
    bend = ng.GridFunction(ng.VectorH1(mesh, order=BENT))
    table = [
        (p.piece.centre.r, p.piece.centre.z, p.piece.radius) if isinstance(p.piece, Arc) else None
        for p in parts
    ]
    arcs = [number for number, row in enumerate(table) if row]
    if arcs:
        values = np.array([row or (0.0, 0.0, 1.0) for row in table])
        r, z, radius = (by_part(mesh, values[:, k]) for k in range(3))
        away = ng.sqrt((ng.x - r) ** 2 + (ng.y - z) ** 2)
        out = radius / away - 1
        shift = ng.CF(((ng.x - r) * out, (ng.y - z) * out))
        bend.Set(shift, definedon=boundary_of(mesh, arcs), dual=True)
    return bend


def by_part(mesh: Any, values: Array) -> Any:
    """A function on the edges that is constant on every part.

    Args:
        mesh: The mesh of the library.
        values: For every part [as given].

    Source: Bookkeeping of the mesh — basis: exact.
    """
    part = mesh.ngmesh.Elements1D().NumPy()["index"].astype(np.int64) - 1
    function = ng.GridFunction(ng.SurfaceL2(mesh, order=0))
    function.vec.FV().NumPy()[:] = values[part]
    return function


def boundary_of(mesh: Any, numbers: list[int]) -> Any:
    """The boundary region made of the parts of some numbers.

    Args:
        mesh: The mesh of the library.
        numbers: Of the parts.

    Source: Bookkeeping of the mesh — basis: exact.
    """
    mask = ng.BitArray(len(mesh.GetBoundaries()))
    mask.Clear()
    for number in numbers:
        mask.Set(number)
    return ng.Region(mesh, ng.BND, mask)
