"""What rain (or light) coming from one direction reaches of the outline."""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shedlight.geometry.curves import TOUCH, Curve, Point, chain
from shedlight.geometry.section import Section

SAGITTA = 2e-5


@dataclass(frozen=True)
class Stretch:
    """A stretch of the creepage path, by length from its earthed end [m], wet or dry."""

    start: float
    end: float
    wet: bool

    @property
    def length(self) -> float:
        """Length of the stretch [m]."""
        return self.end - self.start


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
    shade = float(np.max(_across(section.curve("cap").points(SAGITTA), angle)))
    points = creepage.reversed().points(SAGITTA)
    across = _across(points, angle)
    furthest = np.maximum.accumulate(np.concatenate([[shade], across]))
    sizes = np.array([a.to(b) for a, b in pairwise(points)])
    # A chord is dry as far as it lies behind what stands above it, and wet beyond.
    before, first, last = furthest[1:-1] + TOUCH, across[:-1], across[1:]
    gain = np.where(last > before, last - first, 1.0)
    dry = np.where(last > before, np.clip((before - first) / gain, 0.0, 1.0), 1.0) * sizes
    return _stretches(sizes, dry, creepage.length)


def dry_length(stretches: tuple[Stretch, ...]) -> float:
    """Length of all dry stretches together [m].

    Args:
        stretches: Wet and dry stretches of one path.
    """
    return math.fsum(stretch.length for stretch in stretches if not stretch.wet)


def _across(points: list[Point], angle: float) -> NDArray[np.float64]:
    """How far points lie across the rain [m]."""
    r, z = np.array(list(chain(points))).T
    across: NDArray[np.float64] = r * math.cos(angle) - z * math.sin(angle)
    return across


def _stretches(
    sizes: NDArray[np.float64], dry: NDArray[np.float64], total: float
) -> tuple[Stretch, ...]:
    """Chords from the top down, each dry and then wet, as stretches from the earthed end up."""
    scale = total / float(np.sum(sizes))
    found: list[Stretch] = []
    start = 0.0
    for size, first in zip(sizes[::-1].tolist(), dry[::-1].tolist(), strict=True):
        for length, wet in ((size - first, True), (first, False)):
            if length <= 0:
                continue
            end = start + scale * length
            if found and found[-1].wet == wet:
                found[-1] = Stretch(found[-1].start, end, wet)
            else:
                found.append(Stretch(start, end, wet))
            start = end
    return tuple(found)
