"""Places along the skin of a section at which its stress is read."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight.geometry.curves import Arc
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.strength.section_mesh import Outline

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Skin:
    """Places along an edge, a hair inside the body, and the piece of outline each lies on."""

    lengths: Array  # along the edge [m]
    r: Array  # [m]
    z: Array  # [m]
    rounding: Array  # radius of the arc it lies on; endless on straight pieces [m]


def skin_of(outline: Outline, edge: str, step: float, clear: float) -> Skin:
    """Places along an edge at which its stress is read, away from where it has no bound.

    Left out are unrounded inward corners and the ends of the edge, where a bed or a load ends.

    Args:
        outline: The outline.
        edge: Name of one of its edges.
        step: Distance of the places [m].
        clear: What is left out round such corners and at both ends [m].

    Returns:
        The places, a millionth of a metre inside.

    Raises:
        InputError: step not above zero, clear negative.

    Source: geometry — basis: exact.
    """
    positive(step=step)
    not_negative(clear=clear)
    rows, begun, curve = [], 0.0, outline.curve(edge)
    for piece in curve.pieces:
        count = max(6, int(piece.length / step))
        for number in range(count):
            share = (number + 0.5) / count
            place, ahead = piece.at(share), piece.at(min(1.0, share + 0.01))
            size = place.to(ahead) or 1.0
            # The body lies on the left of its outline.
            r = place.r - 1e-6 * (ahead.z - place.z) / size
            z = place.z + 1e-6 * (ahead.r - place.r) / size
            length = begun + share * piece.length
            bounded = all(math.hypot(r - n.r, z - n.z) >= clear for n in outline.notches)
            if bounded and clear <= length <= curve.length - clear:
                rounding = piece.radius if isinstance(piece, Arc) else math.inf
                rows.append((length, r, z, rounding))
        begun += piece.length
    return Skin(*np.array(rows, dtype=float).reshape(-1, 4).T)
