"""Lines and arcs of a shape as one table, so that points on all of them are found at once."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from shedlight.geometry.curves import Arc
from shedlight.physics.field.domain import Part

Array = NDArray[np.float64]
Codes = NDArray[np.int64]


@dataclass(frozen=True)
class Pieces:
    """The pieces of parts. Shares run from 0 at the start of a piece to 1 at its end."""

    parts: tuple[Part, ...]

    @cached_property
    def table(self) -> Array:
        """Radius (0 for a line), start or centre, and way to the end or start angle and sweep."""
        rows = []
        for part in self.parts:
            piece = part.piece
            if isinstance(piece, Arc):
                c = piece.centre
                rows.append((piece.radius, c.r, c.z, piece.start_angle, piece.sweep))
            else:
                a, b = piece.start, piece.end
                rows.append((0.0, a.r, a.z, b.r - a.r, b.z - a.z))
        return np.array(rows, dtype=float).reshape(-1, 5)

    @cached_property
    def lengths(self) -> Array:
        """Length of every piece [m]."""
        radius, _, _, a, b = self.table.T
        return np.asarray(np.where(radius > 0, radius * np.abs(b), np.hypot(a, b)))

    @cached_property
    def are_arcs(self) -> NDArray[np.bool_]:
        """Which pieces are arcs."""
        return np.asarray(self.table[:, 0] > 0)

    def at(self, own: Codes, shares: Array) -> Array:
        """Points at shares of pieces [m]."""
        table = self.table[own]
        angle = table[:, 3] + shares * table[:, 4]
        arc = table[:, 1:3] + table[:, :1] * np.stack([np.cos(angle), np.sin(angle)], axis=1)
        line = table[:, 1:3] + shares[:, None] * table[:, 3:5]
        return np.where(table[:, :1] > 0, arc, line)

    def tangents(self, own: Codes, shares: Array) -> Array:
        """Unit tangents at shares of pieces."""
        table = self.table[own]
        angle, turn = table[:, 3] + shares * table[:, 4], np.sign(table[:, 4:])
        arc = turn * np.stack([-np.sin(angle), np.cos(angle)], axis=1)
        return np.where(table[:, :1] > 0, arc, table[:, 3:5] / self.lengths[own][:, None])

    def shares(self, own: Codes, points: Array) -> Array:
        """Where on their pieces points lie; any number of points in the last axis but one."""
        table = self.table[own]
        away = points - table[:, None, 1:3]
        way, sweep = table[:, None, 3:5], table[:, 4, None]
        middle = sweep / 2
        turned = np.arctan2(away[..., 1], away[..., 0]) - table[:, 3, None]
        turned = middle + np.remainder(turned - middle + np.pi, 2 * np.pi) - np.pi
        along = (away * way).sum(axis=2) / (way**2).sum(axis=2)
        safe = np.where(sweep == 0, 1.0, sweep)
        return np.where(table[:, :1] > 0, turned / safe, along)
