"""The porcelain of a section as a mesh of curved triangles, finer where it is rounded.

The library is opened at first use and has no type hints: it comes as :data:`typing.Any`.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from importlib import import_module
from itertools import pairwise
from typing import Any

from shedlight.errors import InputError
from shedlight.geometry.curves import Arc, Curve, Line, Point
from shedlight.physics.domain import positive

CURVED = 4  # degree of the curved sides
_QUARTER = math.pi / 2
_SMOOTH = math.radians(3.0)  # less of a turn is no corner
_ROUND = 0.3  # size of elements over the radius of a rounding
_SMALLEST = 2e-4  # [m]
_END = 5e-4  # size of elements where a bed ends [m]
_GROWTH = 0.35


@dataclass(frozen=True)
class Outline:
    """A closed outline, counter-clockwise: named curves, each beginning where the last ended."""

    edges: tuple[tuple[str, Curve], ...]

    def __post_init__(self) -> None:
        """Refuse what is not closed."""
        curves = [curve for _, curve in self.edges]
        for one, other in pairwise([*curves, curves[0]]):
            if one.end.to(other.start) > 1e-8:
                raise InputError("edges: given an open outline; expected each to begin at the last")

    def curve(self, name: str) -> Curve:
        """The curve of a name."""
        return next(curve for edge, curve in self.edges if edge == name)

    @property
    def pieces(self) -> Iterator[tuple[str, Line | Arc]]:
        """Every straight or circular piece with the name of its edge."""
        for name, curve in self.edges:
            for piece in curve.pieces:
                yield name, piece

    @cached_property
    def notches(self) -> tuple[Point, ...]:
        """Inward corners that are not rounded: there the stress has no bound."""
        pieces = [piece for _, piece in self.pieces]
        return tuple(
            one.end for one, other in pairwise([*pieces, pieces[0]]) if _turn(one, other) < -_SMOOTH
        )


def _turn(one: Line | Arc, other: Line | Arc) -> float:
    """Angle by which the outline turns left between two pieces [rad]."""
    before, after = one.at(1 - 1e-4), other.at(1e-4)
    corner = one.end
    a = math.atan2(corner.z - before.z, corner.r - before.r)
    b = math.atan2(after.z - corner.z, after.r - corner.r)
    return math.remainder(b - a, 2 * math.pi)


def mesh_of(outline: Outline, size: float, ending: tuple[str, ...] = ()) -> Any:
    """Triangles that fill an outline, their sides bent with it.

    Args:
        outline: What is to be filled.
        size: Largest side [m].
        ending: Edges at whose ends the stress changes fast: there the mesh is finer.

    Returns:
        The library's mesh; its boundaries carry the names of the edges.

    Raises:
        InputError: size not above zero.

    Source: advancing front, J. Schöberl, Comput. Visual. Sci. 1 (1997) 41 — basis: memory.
    """
    positive(size=size)
    shape = import_module("netgen.geom2d").SplineGeometry()
    steps = [step for name, piece in outline.pieces for step in _steps(name, piece)]
    quick = _ends(outline, ending)
    corners = [
        shape.AppendPoint(
            step.start.r, step.start.z, maxh=min(size, _END) if step.start in quick else size
        )
        for step in steps
    ]
    for number, step in enumerate(steps):
        ends = corners[number], corners[(number + 1) % len(corners)]
        fine = {"maxh": max(_SMALLEST, min(size, step.size))}
        if step.knee is None:
            shape.Append(["line", *ends], bc=step.name, leftdomain=1, rightdomain=0, **fine)
        else:
            knee = shape.AppendPoint(step.knee.r, step.knee.z)
            way = ["spline3", ends[0], knee, ends[1]]
            shape.Append(way, bc=step.name, leftdomain=1, rightdomain=0, **fine)
    mesh = import_module("ngsolve").Mesh(shape.GenerateMesh(maxh=size, grading=_GROWTH))
    mesh.Curve(CURVED)
    return mesh


def _ends(outline: Outline, names: tuple[str, ...]) -> set[Point]:
    """Where named edges begin, and where the edges after them do."""
    edges = [*outline.edges, outline.edges[0]]
    return {
        curve.start
        for (one, first), (_, second) in pairwise(edges)
        for curve in (first, second)
        if one in names
    }


@dataclass(frozen=True)
class _Step:
    """A straight step, or an arc of a quarter turn at most with the knee of its tangents."""

    name: str
    start: Point
    knee: Point | None
    size: float


def _steps(name: str, piece: Line | Arc) -> Iterator[_Step]:
    if isinstance(piece, Line):
        yield _Step(name, piece.start, None, math.inf)
        return
    count = math.ceil(abs(piece.sweep) / _QUARTER + 1e-9)
    for number in range(count):
        part = piece.cut(number / count, (number + 1) / count)
        middle = part.start_angle + part.sweep / 2
        reach = part.radius / math.cos(part.sweep / 2)
        knee = Point(
            part.centre.r + reach * math.cos(middle), part.centre.z + reach * math.sin(middle)
        )
        yield _Step(name, part.start, knee, _ROUND * part.radius)
