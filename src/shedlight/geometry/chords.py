"""Curves as arrays of short chords, for everything that is measured by comparing many places."""

import numpy as np
from numpy.typing import NDArray

from shedlight.geometry.curves import Arc, Curve

Array = NDArray[np.float64]

STEP = 0.05  # what a chord turns by [rad]: it is short of its arc by 1e-4 of the arc's length


def corners(curve: Curve, step: float = STEP) -> Array:
    """Corners of a polyline on a curve, as rows of radius and height [m].

    Args:
        curve: The curve.
        step: Largest angle of an arc that one chord spans [rad].
    """
    # A straight piece is written as an arc without radius round its end.
    arcs = np.array(
        [
            (piece.centre.r, piece.centre.z, piece.radius, piece.start_angle, piece.sweep)
            if isinstance(piece, Arc)
            else (piece.end.r, piece.end.z, 0.0, 0.0, 0.0)
            for piece in curve.pieces
        ]
    )
    counts = np.maximum(1, np.ceil(np.abs(arcs[:, 4]) / step)).astype(int)
    r, z, radius, start, sweep = np.repeat(arcs, counts, axis=0).T
    number = np.arange(1, len(r) + 1) - np.repeat(np.cumsum(counts) - counts, counts)
    angle = start + sweep * number / np.repeat(counts, counts)
    found = np.stack([r + radius * np.cos(angle), z + radius * np.sin(angle)], axis=1)
    return np.concatenate([[[curve.start.r, curve.start.z]], found])
