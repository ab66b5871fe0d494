"""Find the element, and the place in it, where a point lies, curved sides taken into account.

The library finds points in the mesh as it was before sides were rounded. Beside arcs that answer
is put right: the neighbouring elements are tried, with a few steps of Newton's method in each.
"""

from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from shedlight.physics.field.engine import ng
from shedlight.physics.field.meshing import FieldMesh
from shedlight.physics.field.pieces import Array, Codes

_CLOSE = 1e-9  # of a place to its point [m]
_SLACK = 1e-6  # of a place outside its element, in units of the element
_STEPS = 15
_NOWHERE = -1.0  # a radius at which nothing is
_TRIED = 10
_TRIANGLE = np.array([[1.0, 0.0], [0.0, 1.0], [0.0, 0.0]])
_SQUARE = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])


def located(mesh: FieldMesh, r: Array, z: Array) -> Any:
    """Mesh points of the library for points; number -1 where a point lies outside.

    Args:
        mesh: The mesh.
        r: Radii [m].
        z: Heights [m].

    Source: Newton's method on the element's map — basis: exact.
    """
    known = np.isfinite(r) & np.isfinite(z)
    r, z = np.where(known, r, _NOWHERE), np.where(known, z, 0.0)
    places = mesh.mesh(r, z)
    target = np.column_stack([r, z])
    near = _beside_arcs(mesh)
    if near is None:
        return places
    tree, elements, bent = near
    # Only elements with a rounded side are not where the library thinks.
    doubtful = np.flatnonzero(bent[places["nr"]] & (places["nr"] >= 0))
    off = np.where(places["nr"] >= 0, 0.0, np.inf)
    if len(doubtful):
        off[doubtful] = np.hypot(*(_where(places[doubtful]) - target[doubtful]).T)
    wrong = np.flatnonzero((off > _CLOSE) & (r >= 0))
    if not len(wrong):
        return places
    _, index = tree.query(target[wrong], k=min(_TRIED, len(elements)))
    tried = elements[index.reshape(len(wrong), -1)].reshape(len(wrong), -1)
    tried = np.column_stack([places["nr"][wrong], tried])
    places["meshptr"] = _template(mesh)["meshptr"]
    _settle(mesh, places, target, wrong, tried)
    return places


def place_in(mesh: FieldMesh, element: Codes, at: Array) -> Any:
    """Mesh points of the library for places in elements.

    Args:
        mesh: The mesh.
        element: Number of the element of every place.
        at: Rows of the two coordinates in the reference element [1].

    Source: Reference elements of the library — basis: exact.
    """
    places = np.repeat(_template(mesh), len(element))
    places["x"], places["y"], places["nr"] = at[:, 0], at[:, 1], element
    return places


def on_side(mesh: FieldMesh, element: Codes, first: Codes, second: Codes, share: Array) -> Any:
    """Mesh points of the library on sides of elements.

    Args:
        mesh: The mesh.
        element: Number of the element of every point.
        first: Local number of the vertex at which the side starts.
        second: Local number of the vertex at which it ends.
        share: Where between them, 0 to 1 [1].

    Source: Reference elements of the library — basis: exact.
    """
    is_quad = (mesh.corners_of_elements[element, 3] >= 0)[:, None]
    start = np.where(is_quad, _SQUARE[first], _TRIANGLE[np.minimum(first, 2)])
    end = np.where(is_quad, _SQUARE[second], _TRIANGLE[np.minimum(second, 2)])
    return place_in(mesh, element, start + share[:, None] * (end - start))


@lru_cache(maxsize=2)
def _template(mesh: FieldMesh) -> Any:
    middle = mesh.nodes[mesh.corners_of_elements[0, :3]].mean(axis=0)
    return mesh.mesh(np.array([middle[0]]), np.array([middle[1]]))


def _where(places: Any) -> Array:
    return np.asarray(ng.CF((ng.x, ng.y))(places), dtype=float).reshape(-1, 2)


@lru_cache(maxsize=2)
def _beside_arcs(mesh: FieldMesh) -> tuple[cKDTree, Codes, NDArray[np.bool_]] | None:
    """Elements that touch an arc, found by their middle; and for every element whether it does."""
    chords, part = mesh.border
    curved = mesh.pieces.are_arcs[part]
    if not curved.any():
        return None
    on_arc = np.zeros(len(mesh.nodes) + 1, dtype=bool)
    on_arc[chords[curved]] = True
    nodes = mesh.corners_of_elements
    bent = np.asarray(on_arc[nodes].any(axis=1))
    elements = np.flatnonzero(bent)
    return cKDTree(mesh.nodes[nodes[elements, :3]].mean(axis=1)), elements, bent


def _settle(mesh: FieldMesh, places: Any, target: Array, wrong: Codes, tried: Codes) -> None:
    """Try elements in turn until the point lies inside one of them."""
    open_ = np.ones(len(wrong), dtype=bool)
    for column in range(tried.shape[1]):
        rows = np.flatnonzero(open_ & (tried[:, column] >= 0))
        if not len(rows):
            continue
        element = tried[rows, column]
        at, near = _newton(mesh, element, target[wrong[rows]])
        inside = near & _is_inside(mesh, element, at)
        done = wrong[rows[inside]]
        places["x"][done], places["y"][done] = at[inside].T
        places["nr"][done] = element[inside]
        open_[rows[inside]] = False
    places["nr"][wrong[open_]] = -1


def _newton(mesh: FieldMesh, element: Codes, target: Array) -> tuple[Array, NDArray[np.bool_]]:
    is_quad = mesh.corners_of_elements[element, 3] >= 0
    at = np.where(is_quad[:, None], 0.5, 1 / 3) + np.zeros((len(element), 2))
    off = np.full(len(element), np.inf)
    for _ in range(_STEPS):
        places = place_in(mesh, element, at)
        rest = target - _where(places)
        off = np.hypot(*rest.T)
        if (off < 0.1 * _CLOSE).all():
            break
        slope = np.asarray(ng.specialcf.JacobianMatrix(2)(places), float).reshape(-1, 2, 2)
        step = np.linalg.solve(slope, rest[:, :, None])[:, :, 0]
        at = np.clip(at + step, -0.5, 1.5)
    return at, np.asarray(off < _CLOSE)


def _is_inside(mesh: FieldMesh, element: Codes, at: Array) -> NDArray[np.bool_]:
    is_quad = mesh.corners_of_elements[element, 3] >= 0
    low = at.min(axis=1) > -_SLACK
    high = np.where(is_quad, at.max(axis=1), at.sum(axis=1)) < 1 + _SLACK
    return np.asarray(low & high)
