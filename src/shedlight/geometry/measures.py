"""Everything a bushing engineer measures on the outline, in one frozen record."""

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from shedlight.geometry.curves import Curve, Point, chain
from shedlight.geometry.outline import Shed
from shedlight.geometry.paths import Taut, air_creepage, arcing_path, oil_creepage, oil_path
from shedlight.geometry.section import Section
from shedlight.geometry.shadow import Stretch, dry_length, wetted

SAMPLES = 120
HAIR = 2e-5
CLEAR_OF_TRUNK = 0.25


@dataclass(frozen=True)
class Bay:
    """The space between one shed and the next above it [m]."""

    lower: int
    clearance: float
    creepage_over_air: float


@dataclass(frozen=True)
class Measures:
    """What was measured on a section; lengths in metres."""

    creepage: Curve
    arcing: Taut
    oil_creepage: Curve
    oil_path: Taut
    sheds: tuple[Shed, ...]
    bays: tuple[Bay, ...]
    rain: tuple[Stretch, ...]
    rain_angle: float
    protected_90: float
    protected_45: float
    oil_volume: float
    porcelain_volume: float
    air_surface: float
    creepage_per_repeat: float | None

    @property
    def creepage_length(self) -> float:
        """Creepage of the air end [m]."""
        return self.creepage.length

    @property
    def form_factor(self) -> float:
        """Form factor of the air end [1]."""
        return self.creepage.form_factor

    @property
    def dry_creepage(self) -> float:
        """Creepage that stays dry in the stated rain, on the windward side [m]."""
        return dry_length(self.rain)

    @property
    def smallest_clearance(self) -> float:
        """Smallest clearance between neighbouring sheds [m]; infinite without neighbours."""
        return min((bay.clearance for bay in self.bays), default=math.inf)

    @property
    def largest_creepage_over_air(self) -> float:
        """Largest ratio of creepage to air distance between two points [1]; 1 without sheds."""
        return max((bay.creepage_over_air for bay in self.bays), default=1.0)


def measure(section: Section, rain_angle: float = math.pi / 4) -> Measures:
    """Measure a section.

    Args:
        section: The section.
        rain_angle: Angle of the rain from the vertical [rad].
    """
    creepage = air_creepage(section)
    oil = section.outline("oil").enclosed_volume
    return Measures(
        creepage=creepage,
        arcing=arcing_path(section),
        oil_creepage=oil_creepage(section),
        oil_path=oil_path(section),
        sheds=section.sheds,
        bays=_bays(section, creepage),
        rain=wetted(section, creepage, rain_angle),
        rain_angle=rain_angle,
        protected_90=dry_length(wetted(section, creepage, math.pi / 2)),
        protected_45=dry_length(wetted(section, creepage, math.pi / 4)),
        oil_volume=oil,
        porcelain_volume=section.outline("porcelain").enclosed_volume,
        air_surface=creepage.swept_area,
        creepage_per_repeat=_per_repeat(creepage, section.sheds),
    )


def _bays(section: Section, creepage: Curve) -> tuple[Bay, ...]:
    sheds = section.sheds
    if len(sheds) < 2:
        return ()
    solid = section.polygon("porcelain", HAIR / 2).buffer(-HAIR, join_style="mitre")
    shapely.prepare(solid)
    tips = _tip_lengths(creepage, sheds)
    found = []
    for lower in range(len(sheds) - 1):
        middle = _root_length(creepage, tips[lower], tips[lower + 1])
        below = creepage.between(tips[lower], middle)
        above = creepage.between(middle, tips[lower + 1])
        clearance = _clearance(below, above)
        # A long shed's bay reaches to the next long shed, over the short one between.
        last = min(lower + (1 if sheds[lower].long == sheds[lower + 1].long else 2), len(sheds) - 1)
        window = creepage.between(tips[lower], tips[last])
        found.append(Bay(lower + 1, clearance, _steepest_ratio(window, solid)))
    return tuple(found)


def _per_repeat(creepage: Curve, sheds: tuple[Shed, ...]) -> float | None:
    """Creepage from the lowest shed's tip to the next like it; none without a next."""
    alike = [shed.number - 1 for shed in sheds if shed.long]
    if len(alike) < 2:
        return None
    tips = _tip_lengths(creepage, sheds)
    return tips[alike[1]] - tips[alike[0]]


def _tip_lengths(creepage: Curve, sheds: tuple[Shed, ...]) -> list[float]:
    """Length along the path at which each shed's tip stands."""
    lengths = []
    walked = 0.0
    waiting = list(sheds)
    for piece in creepage.pieces:
        if waiting and _near_tip(piece.start, waiting[0]) and piece.end.z >= waiting[0].tip_height:
            rise = piece.end.z - piece.start.z
            share = (waiting[0].tip_height - piece.start.z) / rise if rise else 0.0
            lengths.append(walked + min(1.0, max(0.0, share)) * piece.length)
            waiting.pop(0)
        walked += piece.length
    return lengths


def _near_tip(point: Point, shed: Shed) -> bool:
    return point.r > shed.body_radius + 0.5 * shed.overhang


def _root_length(creepage: Curve, low: float, high: float) -> float:
    """Length along the path, between two tips, at which it is nearest to the axis."""
    lengths = np.linspace(low, high, 4 * SAMPLES)
    radii = [creepage.at(float(length)).r for length in lengths]
    smallest = min(radii)
    at_root = [length for length, r in zip(lengths, radii, strict=True) if r < smallest + 1e-6]
    return float(np.mean(at_root))


def _clearance(below: Curve, above: Curve) -> float:
    """Distance from the upper shed's lowest point (drip edge or rib) to the shed below."""
    hanging = [
        point
        for point in above.points()
        if point.r > above.start.r + CLEAR_OF_TRUNK * (above.end.r - above.start.r)
    ]
    lowest = min(hanging, key=lambda point: point.z)
    face = shapely.LineString(list(chain(below.points())))
    return float(shapely.distance(face, shapely.Point(lowest.r, lowest.z)))


def _steepest_ratio(window: Curve, solid: shapely.Geometry) -> float:
    """Largest creepage over air distance between two points that see each other."""
    lengths = np.linspace(0.0, window.length, SAMPLES)
    places = [window.at(float(length)) for length in lengths]
    xy = np.array(list(chain(places)))
    along = np.abs(lengths[:, None] - lengths[None, :])
    straight = np.hypot(*(xy[:, None, :] - xy[None, :, :]).transpose(2, 0, 1))
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.where(straight > 0, along / straight, 1.0)
    return _largest_seen(ratio, xy, solid)


def _largest_seen(
    ratio: NDArray[np.float64], xy: NDArray[np.float64], solid: shapely.Geometry
) -> float:
    first, second = np.triu_indices(len(xy), k=1)
    order = np.argsort(-ratio[first, second])
    for batch in np.array_split(order, max(1, len(order) // 200)):
        ends = np.stack([xy[first[batch]], xy[second[batch]]], axis=1)
        seen = ~shapely.intersects(solid, shapely.linestrings(ends))
        if seen.any():
            best = batch[seen][0]
            return float(ratio[first[best], second[best]])
    return 1.0
