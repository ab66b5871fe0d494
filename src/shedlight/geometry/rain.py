"""Which parts of the surface rain reaches all round the bushing, at any mounting angle.

Rain falls in straight lines of one direction. A place is dry where its surface turns away from
the rain, or where the way back up the rain meets porcelain, cap, clamps or cover. Every chord of
the outline sweeps a cone; the straight way up meets it where a quadratic equation says, so there
is no marching and no step. What remains of error: chords stray from arcs by `SAGITTA` at most,
and stretches are told apart at the middle of places `STEP` long. Splash, run-off, drips, horns
and leads are left out; :mod:`shedlight.geometry.drips` follows the water that runs off.

``shadow`` has the same in closed form for the upright bushing's windward side.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.geometry.curves import Curve, chain
from shedlight.geometry.section import Section
from shedlight.geometry.shadow import Stretch

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

SAGITTA = 2e-5
STEP = 5e-4
MERIDIANS = 72
CLEAR_OF_START = 1e-7  # [m] along the rain: nearer, a chord is the place's own
FLAT = 1e-9
UPRIGHT, LYING = 0.0, math.pi / 2


@dataclass(frozen=True)
class RainDirection:
    """Where rain comes from, seen from the body.

    Attributes:
        off_axis: Angle between the axis, towards the cap, and the way the rain comes from [rad],
            0 to pi; above pi/2 it comes from behind the cover.
        side: Side of the body it comes from, round the axis from the side that hangs lowest [rad].
    """

    off_axis: float
    side: float


@dataclass(frozen=True)
class WetMap:
    """The unrolled surface: how squarely rain strikes, by creepage length and by angle round.

    Attributes:
        lengths: Middle of each place, by length from the earthed end [m].
        sizes: Length of each place along the path [m].
        radii: Radius of each place [m].
        around: Angle of each meridian from the side the rain comes from [rad], -pi to pi.
        factor: Cosine between surface normal and rain, 0 where dry [1]; places by meridians.
        direction: The rain.
    """

    lengths: Array
    sizes: Array
    radii: Array
    around: Array
    factor: Array
    direction: RainDirection

    @property
    def wet_share(self) -> float:
        """Share of the whole surface that rain strikes [1]."""
        area = self.sizes * self.radii
        return float(np.sum(area[:, None] * (self.factor > 0)) / (np.sum(area) * len(self.around)))

    @property
    def dry_creepage(self) -> Array:
        """Dry length of each meridian [m]."""
        return np.asarray(self.sizes @ (self.factor <= 0).astype(float), dtype=np.float64)

    @property
    def mean_factor(self) -> Array:
        """Mean over all meridians of the factor at each place [1]: water per ring."""
        return np.asarray(np.mean(self.factor, axis=1), dtype=np.float64)

    def dry_between(self, low: float, high: float) -> Array:
        """Dry length of each meridian within a part of the path, such as one shed's bay [m].

        Args:
            low: Length along the path where the part begins [m].
            high: Where it ends [m].
        """
        inside = self.sizes * ((self.lengths >= low) & (self.lengths < high))
        return np.asarray(inside @ (self.factor <= 0).astype(float), dtype=np.float64)

    def stretches(self, meridian: int) -> tuple[Stretch, ...]:
        """Wet and dry stretches of one meridian, from the earthed end.

        Args:
            meridian: Which meridian, counted as in ``around``.
        """
        wet = self.factor[:, meridian] > 0
        edges = np.concatenate([[0.0], np.cumsum(self.sizes)])
        turns = np.flatnonzero(np.diff(wet)) + 1
        bounds = [0, *turns.tolist(), len(wet)]
        return tuple(
            Stretch(float(edges[low]), float(edges[high]), bool(wet[low]))
            for low, high in pairwise(bounds)
        )


def rain_direction(angle: float, wind_side: float, mounting_angle: float) -> RainDirection:
    """Rain of a given slant on a body mounted at a given angle.

    Args:
        angle: Angle of the rain from the vertical [rad], 0 to pi/2.
        wind_side: Where the wind comes from, seen from above, counted from the side to which the
            body leans [rad].
        mounting_angle: Angle of the axis from upright [rad], 0 to pi/2.

    Raises:
        InputError: an angle outside its range.
    """
    for name, value in (("angle", angle), ("mounting_angle", mounting_angle)):
        if not UPRIGHT <= value <= LYING:
            raise InputError(f"{name}: given {value:g} rad; expected 0 (upright) to pi/2")
    towards = np.array(
        [
            math.sin(angle) * math.cos(wind_side),
            math.sin(angle) * math.sin(wind_side),
            math.cos(angle),
        ]
    )
    sine, cosine = math.sin(mounting_angle), math.cos(mounting_angle)
    low_side = float(towards @ np.array([cosine, 0.0, -sine]))
    along = float(towards @ np.array([sine, 0.0, cosine]))
    across = math.hypot(low_side, float(towards[1]))
    return RainDirection(math.atan2(across, along), math.atan2(float(towards[1]), low_side))


def wet_map(
    section: Section,
    creepage: Curve,
    direction: RainDirection,
    *,
    meridians: int = MERIDIANS,
    step: float = STEP,
    sagitta: float = SAGITTA,
) -> WetMap:
    """How squarely rain strikes every place of the creepage path, all round.

    Args:
        section: The section.
        creepage: The path, earthed end first.
        direction: The rain.
        meridians: How many meridians, evenly round.
        step: Longest place along the path [m].
        sagitta: Largest distance between chord and arc [m].

    Raises:
        InputError: fewer than two meridians.
    """
    if meridians < 2:
        raise InputError(f"meridians: given {meridians}; expected at least 2")
    around = (np.arange(meridians) + 0.5) * 2 * math.pi / meridians - math.pi
    half = around[around > 0]
    places, normals, sizes = _places(creepage, step, sagitta)
    chords = _surroundings(section, sagitta)
    one_side = np.stack(
        [_struck(places, normals, chords, direction.off_axis, float(turn)) for turn in half], axis=1
    )
    # The other side of the body mirrors this one.
    middle = one_side[:, :0]
    if meridians % 2:
        middle = _struck(places, normals, chords, direction.off_axis, 0.0)[:, None]
    factor = np.concatenate([one_side[:, ::-1], middle, one_side], axis=1)
    scale = creepage.length / float(np.sum(sizes))
    sizes = sizes * scale
    lengths = np.cumsum(sizes) - sizes / 2
    return WetMap(lengths, sizes, places[:, 0], around, factor, direction)


def wetted_meridian(
    section: Section,
    creepage: Curve,
    direction: RainDirection,
    around: float,
    *,
    step: float = STEP,
) -> tuple[Stretch, ...]:
    """Wet and dry stretches along one meridian.

    Args:
        section: The section.
        creepage: The path, earthed end first.
        direction: The rain.
        around: Angle of the meridian from the side the rain comes from [rad].
        step: Longest place along the path; the ends of a stretch are right within half of it [m].
    """
    places, normals, sizes = _places(creepage, step, SAGITTA)
    chords = _surroundings(section, SAGITTA)
    factor = _struck(places, normals, chords, direction.off_axis, around)[:, None]
    sizes = sizes * (creepage.length / float(np.sum(sizes)))
    lengths = np.cumsum(sizes) - sizes / 2
    turn = np.array([around])
    return WetMap(lengths, sizes, places[:, 0], turn, factor, direction).stretches(0)


def _places(creepage: Curve, step: float, sagitta: float) -> tuple[Array, Array, Array]:
    """Middles (r, z) of short pieces of the path's chords, their outward normals, their sizes."""
    corners = np.array(list(chain(creepage.points(sagitta))))
    ways = np.diff(corners, axis=0)
    sizes = np.hypot(*ways.T)
    kept = sizes > FLAT
    corners, ways, sizes = corners[:-1][kept], ways[kept], sizes[kept]
    counts = np.maximum(1, np.ceil(sizes / step)).astype(int)
    share = np.concatenate([(np.arange(count) + 0.5) / count for count in counts])
    places = np.repeat(corners, counts, axis=0)
    places = places + np.repeat(ways, counts, axis=0) * share[:, None]
    # Air lies to the right of the path as it climbs.
    normals = np.stack([ways[:, 1], -ways[:, 0]], axis=1) / sizes[:, None]
    return places, np.repeat(normals, counts, axis=0), np.repeat(sizes / counts, counts)


def _surroundings(section: Section, sagitta: float) -> Array:
    """Chords (r1, z1, dr, dz, length) of everything that may keep rain off, unit directions."""
    names = ("air side", "cap", "clamps", "cover top")
    lines = [np.array(list(chain(section.curve(name).points(sagitta)))) for name in names]
    starts = np.concatenate([line[:-1] for line in lines])
    ways = np.concatenate([np.diff(line, axis=0) for line in lines])
    sizes = np.hypot(*ways.T)
    kept = sizes > FLAT
    return np.column_stack([starts[kept], ways[kept] / sizes[kept, None], sizes[kept]])


def _struck(places: Array, normals: Array, chords: Array, off_axis: float, around: float) -> Array:
    """Cosine between normal and rain at each place of a meridian, 0 where dry."""
    sine, cosine = math.sin(off_axis), math.cos(off_axis)
    factor = normals[:, 0] * math.cos(around) * sine + normals[:, 1] * cosine
    facing = np.flatnonzero(factor > FLAT)
    seen = np.zeros(len(places))
    open_to = ~_hidden(places[facing], chords, off_axis, around)
    seen[facing[open_to]] = factor[facing[open_to]]
    return seen


def _hidden(places: Array, chords: Array, off_axis: float, around: float) -> Flags:
    """Whether the straight way up the rain meets any of the cones the chords sweep."""
    sine, cosine = math.sin(off_axis), math.cos(off_axis)
    radius, height = places[:, :1], places[:, 1:]
    ahead = radius * math.cos(around) * sine
    r1, z1, dr, dz, size = chords.T
    hidden = np.zeros(len(places), dtype=np.bool_)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        # Flat rings: one height, one crossing.
        flat = np.abs(dz) < FLAT
        away = [(z1[flat] - height) / cosine] if abs(cosine) > FLAT else []
        groups = [(flat, away)]
        steep = ~flat
        w = r1[steep] * dz[steep] + dr[steep] * (height - z1[steep])
        a = (dz[steep] * sine) ** 2 - (dr[steep] * cosine) ** 2
        b = dz[steep] ** 2 * ahead - w * dr[steep] * cosine
        c = (dz[steep] * radius) ** 2 - w**2
        root = np.sqrt(b**2 - a * c)
        q = -(b + np.copysign(root, b))
        groups.append((steep, [q / a, c / q]))
        for kind, crossings in groups:
            for t in crossings:
                r = np.sqrt(radius**2 + 2 * ahead * t + (sine * t) ** 2)
                z = height + cosine * t
                along = (r - r1[kind]) * dr[kind] + (z - z1[kind]) * dz[kind]
                off = (r - r1[kind]) * dz[kind] - (z - z1[kind]) * dr[kind]
                met = (t > CLEAR_OF_START) & (along >= 0) & (along <= size[kind])
                hidden |= np.any(met & (np.abs(off) < FLAT + 1e-9 * r), axis=1)
    return hidden
