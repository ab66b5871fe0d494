"""What rain (or light) coming from one direction reaches of the outline."""

import math
from itertools import pairwise

import numpy as np

from shedlight.geometry.chords import Array, corners
from shedlight.geometry.curves import TOUCH, Arc, Curve, Piece
from shedlight.geometry.section import Section
from shedlight.geometry.wetting import Stretch


def wetted(section: Section, creepage: Curve, angle: float) -> tuple[Stretch, ...]:
    """Wet and dry stretches of the creepage path on the side the rain comes from.

    Walking down from the top, a place is wet where it reaches further across the rain than
    everything above it does. Holds for an upright bushing, in the plane of rain and axis; the lee
    side is dry. Splash, run-off and drips are left out.

    Args:
        section: The section.
        creepage: The path whose stretches are wanted, earthed end first.
        angle: Angle of the rain from the vertical [rad], 0 to pi/2.
    """
    shade = np.max(_across(corners(_cut_where_grazed(section.curve("cap"), angle)), angle))
    places = corners(_cut_where_grazed(creepage.reversed(), angle))
    across = _across(places, angle)
    furthest = np.maximum.accumulate(np.concatenate([[shade], across]))
    sizes = np.hypot(*np.diff(places, axis=0).T)
    # A chord is dry as far as it lies behind what stands above it, and wet beyond.
    before, first, last = furthest[1:-1], across[:-1], across[1:]
    reached = last > before + TOUCH
    gain = np.where(reached, last - first, 1.0)
    dry = np.where(reached, np.clip((before - first) / gain, 0.0, 1.0), 1.0) * sizes
    return _stretches(sizes, dry, creepage.length)


def dry_length(stretches: tuple[Stretch, ...]) -> float:
    """Length of all dry stretches together [m].

    Args:
        stretches: Wet and dry stretches of one path.
    """
    return math.fsum(stretch.length for stretch in stretches if not stretch.wet)


def _cut_where_grazed(curve: Curve, angle: float) -> Curve:
    """The same curve, its arcs cut where the rain grazes them: there shadows begin."""
    pieces: list[Piece] = []
    for piece in curve.pieces:
        cuts = [0.0, 1.0]
        if isinstance(piece, Arc):
            low, high = sorted((piece.start_angle, piece.start_angle + piece.sweep))
            first, last = math.ceil((low + angle) / math.pi), math.floor((high + angle) / math.pi)
            grazed = (turn * math.pi - angle for turn in range(first, last + 1))
            cuts += [(place - piece.start_angle) / piece.sweep for place in grazed]
        pieces += [piece.cut(a, b) for a, b in pairwise(sorted(cuts)) if b > a]
    return Curve(tuple(pieces))


def _across(places: Array, angle: float) -> Array:
    """How far places lie across the rain [m]."""
    across: Array = places @ (math.cos(angle), -math.sin(angle))
    return across


def _stretches(sizes: Array, dry: Array, total: float) -> tuple[Stretch, ...]:
    """Chords from the top down, each dry and then wet, as stretches from the earthed end up."""
    lengths = np.column_stack([sizes - dry, dry])[::-1].ravel()
    wet = np.tile([True, False], len(sizes))
    there = lengths > 0
    lengths, wet = lengths[there], wet[there]
    last = np.append(np.flatnonzero(wet[1:] != wet[:-1]), len(wet) - 1)
    ends = total / float(np.sum(sizes)) * np.cumsum(lengths)[last]
    starts = np.concatenate([[0.0], ends[:-1]])
    found = zip(starts.tolist(), ends.tolist(), wet[last].tolist(), strict=True)
    return tuple(Stretch(start, end, is_wet) for start, end, is_wet in found)
