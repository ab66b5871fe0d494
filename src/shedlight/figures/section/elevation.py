"""The left half: what is seen from outside.

A round body shows its silhouette, a wide line across wherever a face is seen edge-on, and a thin
line that stops short of the outline wherever an edge is rounded (ISO 128-3, from memory). What lies
behind something wider at the same height is hidden and left out.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shedlight.figures.drafting import EDGE, WIDE
from shedlight.figures.scene import Drawn, Item, Path, Spot, line
from shedlight.figures.section.view import View
from shedlight.geometry.curves import Arc, Curve, Piece, Point
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section

SHORT_OF_OUTLINE = 0.8  # [mm on paper]
NEAREST = 0.55  # thin lines nearer than this to another line are left out [mm on paper]
FLAT = 1e-6


@dataclass(frozen=True)
class _Across:
    """A line from the silhouette to the axis."""

    radius: float
    height: float
    wide: bool


def silhouettes(section: Section, measures: Measures, palm: bool) -> tuple[Curve, ...]:
    """The outlines of all that is seen from outside, above and below the cover.

    Args:
        section: The section.
        measures: What was measured on it; its creepage path is the visible surface in air.
        palm: Whether a palm stands in place of the round terminal.
    """
    below = section.curve("oil side").joined(section.curve("shield"))
    return (
        measures.creepage,
        cap_outline(section, palm),
        ring_outline(section),
        section.curve("collar side"),
        section.curve("gasket outer"),
        below,
    )


def cap_outline(section: Section, palm: bool) -> Curve:
    """The cap, with the round terminal unless a palm stands in its place."""
    whole = section.curve("cap")
    if not palm:
        return whole
    top, neck = section.heights.cap_top, section.radii.terminal
    kept = []
    for piece in whole.pieces:
        if piece.start.z >= top - FLAT and piece.start.r <= neck + FLAT:
            break
        kept.append(piece)
    return Curve(tuple(kept))


def ring_outline(section: Section) -> Curve:
    """The outer side of clamps or flange, from its upper face round to its lower one."""
    pieces = section.curve("clamps").pieces
    top = section.heights.clamp_top
    flat = [i for i, piece in enumerate(pieces) if _is_flat(piece) and piece.start.z > top - FLAT]
    return Curve(pieces[flat[-1] :] if flat else pieces)


def elevation(section: Section, measures: Measures, view: View, palm: bool) -> tuple[Item, ...]:
    """The lines of the left half, without cover and fittings.

    Args:
        section: The section.
        measures: What was measured on it.
        view: Where it lies on paper.
        palm: Whether a palm stands in place of the round terminal.
    """
    curves = silhouettes(section, measures, palm)
    profile = _Profile(curves, view.sagitta)
    across = [item for curve in curves for item in _across(curve, profile, view)]
    heights = section.heights
    across += [
        _Across(profile.radius(heights.cap_base), heights.cap_base, True),
        _Across(profile.radius(heights.oil_end), heights.oil_end, True),
        _Across(section.radii.collar, heights.seat, True),
    ]
    wide, thin = _sorted_out(across, view)
    outlines = tuple(view.path(curve, mirrored=True) for curve in curves)
    return Drawn(thin, EDGE), Drawn(outlines + wide, WIDE)


class _Profile:
    """The largest radius at each height."""

    def __init__(self, curves: Sequence[Curve], sagitta: float) -> None:
        chords = [
            (a.r, a.z, b.r, b.z)
            for curve in curves
            for points in (curve.points(sagitta),)
            for a, b in pairwise(points)
        ]
        self.chords: NDArray[np.float64] = np.array(chords)

    def radius(self, height: float) -> float:
        """Largest radius at a height [m]; 0 where nothing is."""
        r1, z1, r2, z2 = self.chords.T
        here = (np.minimum(z1, z2) - FLAT <= height) & (height <= np.maximum(z1, z2) + FLAT)
        rise = z2 - z1
        level = np.abs(rise) < FLAT
        share = np.clip((height - z1) / np.where(level, 1.0, rise), 0.0, 1.0)
        found = np.where(level, np.maximum(r1, r2), r1 + share * (r2 - r1))
        return float(found[here].max(initial=0.0))


def _across(curve: Curve, profile: _Profile, view: View) -> Iterator[_Across]:
    hair = view.metres(0.05)
    for piece in curve.pieces:
        if isinstance(piece, Arc):
            edge = _sharp_edge(piece)
            on_arc = piece.at(0.5)
            if edge and profile.radius(on_arc.z) <= on_arc.r + hair:
                yield _Across(profile.radius(edge.z), edge.z, False)
        elif _is_flat(piece):
            radius = max(piece.start.r, piece.end.r)
            if profile.radius(piece.start.z) <= radius + hair:
                yield _Across(radius, piece.start.z, True)


def _sharp_edge(arc: Arc) -> Point | None:
    """Where the faces beside a rounding would meet; None if they are nearly parallel."""
    if abs(arc.sweep) > math.radians(150):
        return None
    reach = arc.radius / math.cos(arc.sweep / 2)
    angle = arc.start_angle + arc.sweep / 2
    return Point(arc.centre.r + reach * math.cos(angle), arc.centre.z + reach * math.sin(angle))


def _is_flat(piece: Piece) -> bool:
    return not isinstance(piece, Arc) and abs(piece.end.z - piece.start.z) < FLAT


def _sorted_out(across: list[_Across], view: View) -> tuple[tuple[Path, ...], tuple[Path, ...]]:
    """Wide lines first; thin ones only where they do not crowd."""
    taken: list[float] = []
    wide: list[Path] = []
    thin: list[Path] = []
    for item in sorted(across, key=lambda item: (not item.wide, -item.height)):
        start, end = view.left(item.radius, item.height), view.left(0.0, item.height)
        near = min((abs(start.y - other) for other in taken), default=math.inf)
        short = Spot(start.x + SHORT_OF_OUTLINE, start.y)
        if near < (0.05 if item.wide else NEAREST) or short.x > end.x:
            continue
        taken.append(start.y)
        if item.wide:
            wide.append(line(start, end))
        else:
            thin.append(line(short, end))
    return tuple(wide), tuple(thin)
