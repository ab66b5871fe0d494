"""What rain (or light) coming from one direction reaches of the outline."""

import math
from dataclasses import dataclass

from shedlight.geometry.curves import Curve, Point
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
    furthest = max(_across(p, angle) for p in section.curve("cap").points(SAGITTA))
    points = creepage.reversed().points(SAGITTA)
    walked, total = 0.0, creepage.length
    marks: list[tuple[float, float, bool]] = []
    for a, b in zip(points[:-1], points[1:], strict=True):
        size, ua, ub = a.to(b), _across(a, angle), _across(b, angle)
        wet_from = size if ub <= furthest else size * _share_before(ua, ub, furthest)
        if wet_from > 0:
            marks.append((walked, walked + wet_from, False))
        if wet_from < size:
            marks.append((walked + wet_from, walked + size, True))
        furthest = max(furthest, ub)
        walked += size
    scale = total / walked
    return _merged([(total - scale * e, total - scale * s, wet) for s, e, wet in reversed(marks)])


def dry_length(stretches: tuple[Stretch, ...]) -> float:
    """Length of all dry stretches together [m].

    Args:
        stretches: Wet and dry stretches of one path.
    """
    return math.fsum(stretch.length for stretch in stretches if not stretch.wet)


def _across(point: Point, angle: float) -> float:
    return point.r * math.cos(angle) - point.z * math.sin(angle)


def _share_before(ua: float, ub: float, furthest: float) -> float:
    return 0.0 if ua >= furthest else (furthest - ua) / (ub - ua)


def _merged(marks: list[tuple[float, float, bool]]) -> tuple[Stretch, ...]:
    joined: list[Stretch] = []
    for start, end, wet in marks:
        if joined and joined[-1].wet == wet:
            joined[-1] = Stretch(joined[-1].start, end, wet)
        elif end - start > 1e-12:
            joined.append(Stretch(start, end, wet))
    return tuple(joined)
