"""Field lines, and what gathers along them: streamers in air, mean stress of oil gaps.

A streamer starts where an avalanche grows to its critical size along the field line on which
ionisation wins over attachment: int alpha ds = K.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import FieldError
from shedlight.physics.field.pieces import Array, Codes
from shedlight.physics.field.readings import found_at, strength

STREAMER_CONSTANT = 9.15
STANDARD_PRESSURE = 1.01325  # bar, at which relative air density is 1 (20 °C)
_ZERO = 2.165 + math.sqrt(0.2873 / 1.6053)  # kV/(mm bar), where alpha changes sign
_KNEE = 7.943
_MOST_STEPS = 4000
_STRIDE = 0.12
_SHORTEST = 0.01
_NO_REGION = -2


@dataclass(frozen=True, eq=False)
class FieldLine:
    """A field line from its start until it leaves its region: lengths, points, field, region.

    One that runs through every region has none of its own.
    """

    region: str | None
    lengths: Array
    points: Array
    strength: Array

    @property
    def voltage(self) -> float:
        """Integral of the field along the line [V]."""
        return float(np.trapezoid(self.strength, self.lengths))


def ionisation(field: Array, density: float = 1.0) -> Array:
    """Effective ionisation coefficient of air.

    a/p = 1.6053 (E/p - 2.165)² - 0.2873 up to 7.943 kV/(mm bar), above it 16.7766 E/p - 80.0006,
    in 1/(mm bar); 0 where attachment wins.

    Args:
        field: Field strength, peak [V/m].
        density: Relative air density, 1 at 1013.25 hPa and 20 °C [1].

    Returns:
        Ionisations per length [1/m].

    Raises:
        InputError: density not above zero.

    Source: K. Petcharaks, ETH Zürich thesis 11192, 1995 — basis: memory, high confidence.
    Valid for: E/p up to 14 kV/(mm bar), dry air.
    """
    positive(density=density)
    pressure = density * STANDARD_PRESSURE
    ratio = np.asarray(field, float) * 1e-6 / pressure
    low = 1.6053 * (ratio - 2.165) ** 2 - 0.2873
    high = 16.7766 * ratio - 80.0006
    growing = np.where(ratio < _KNEE, low, high)
    return np.asarray(np.where(ratio > _ZERO, growing, 0.0) * pressure * 1e3, dtype=float)


def critical_field(density: float = 1.0) -> float:
    """Field above which ionisation wins over attachment.

    Args:
        density: Relative air density [1].

    Returns:
        Field strength, peak [V/m].

    Raises:
        InputError: density not above zero.

    Source: zero of the coefficient of K. Petcharaks (1995) — basis: memory, high confidence.
    """
    positive(density=density)
    return _ZERO * density * STANDARD_PRESSURE * 1e6


def streamer_integral(lengths: Array, field: Array, density: float = 1.0) -> float:
    """Size of an avalanche along a line, up to where ionisation first fails.

    K = int alpha ds, from the start of the line

    Args:
        lengths: Along the line, rising from its start [m].
        field: Field strength there, peak [V/m].
        density: Relative air density [1].

    Returns:
        Natural logarithm of the number of electrons [1].

    Source: K. Petcharaks, ETH Zürich thesis 11192, 1995 — basis: memory, high confidence.
    """
    lengths, field = np.asarray(lengths, float), np.asarray(field, float)
    critical = critical_field(density)
    weak = np.flatnonzero(field <= critical)
    if len(weak):
        last = int(weak[0])
        if last == 0:
            return 0.0
        drop = (field[last - 1] - critical) / (field[last - 1] - field[last])
        end = lengths[last - 1] + drop * (lengths[last] - lengths[last - 1])
        lengths = np.append(lengths[:last], end)
        field = np.append(field[:last], critical)
    return float(np.trapezoid(ionisation(field, density), lengths))


def inception_scale(
    lengths: Array, field: Array, density: float = 1.0, constant: float = STREAMER_CONSTANT
) -> float:
    """How many times its field a line needs for a streamer to start.

    Args:
        lengths: Along the line, rising from its start [m].
        field: Field strength there for a voltage of 1 [V/m].
        density: Relative air density [1].
        constant: Critical value of the integral [1].

    Returns:
        The voltage, peak, at which the integral reaches the constant [V].

    Raises:
        InputError: constant not above zero.
        FieldError: no voltage up to a gigavolt starts a streamer there.

    Source: streamer criterion of K. Petcharaks (1995), K = 9.15 — basis: memory, high confidence.
    Valid for: stems of streamers in air; the start of discharge, not of flashover.
    """
    positive(constant=constant)
    lengths, field = np.asarray(lengths, float), np.asarray(field, float)
    low = critical_field(density) / float(field.max())
    high = low
    while streamer_integral(lengths, high * field, density) < constant:
        high *= 1.3
        if high > 1e9:
            raise FieldError("field line", "no streamer starts on it at any voltage")
    return float(
        brentq(
            lambda scale: streamer_integral(lengths, scale * field, density) - constant,
            low,
            high,
            rtol=1e-10,
        )
    )


def coaxial_inception_field(radius: float, density: float = 1.0) -> float:
    """Field at the surface of a round wire at which a streamer starts in air.

    The streamer integral along E(r) = E a/r.

    Args:
        radius: Of the wire, much less than the distance to the other electrode [m].
        density: Relative air density [1].

    Returns:
        Field strength at the surface, peak [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: K. Petcharaks (1995) for alpha and K; compared with F. W. Peek (1929) — basis: memory.
    """
    positive(radius=radius, density=density)
    lengths = radius * np.concatenate([[0.0], np.geomspace(1e-6, 50, 6000)])
    return inception_scale(lengths, radius / (radius + lengths), density)


def uniform_inception_voltage(gap: float, density: float = 1.0) -> float:
    """Voltage at which a streamer starts in a uniform field in air.

    Args:
        gap: Between the plates [m].
        density: Relative air density [1].

    Returns:
        Voltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: K. Petcharaks (1995) for alpha and K — basis: memory, high confidence.
    """
    positive(gap=gap, density=density)
    lengths = np.linspace(0.0, gap, 3)
    return inception_scale(lengths, np.full(3, 1 / gap), density)


def field_lines(
    solution: Solution,
    starts: Array,
    region: str | Sequence[str] | None,
    longest: float = 1.0,
) -> tuple[FieldLine, ...]:
    """Field lines from points into a region, until they leave it; all lines at once.

    d(r, z)/ds = ± E/|E|, walked away from where the line starts, by Runge and Kutta's fourth order.

    Args:
        solution: A solved field.
        starts: Rows of r and z on the edge of the region or in it [m].
        region: The lines stay in it, or each in its own; None lets them run through every region
            to the next metal.
        longest: Where a line ends at the latest [m].

    Raises:
        InputError: longest not above zero, or regions that are not as many as lines.

    Source: definition of a field line — basis: exact. Where the field turns in time, its real part
    at the instant of the largest field at the start is followed.
    """
    positive(longest=longest)
    starts = np.atleast_2d(np.asarray(starts, float))
    own = (region,) * len(starts) if region is None or isinstance(region, str) else tuple(region)
    if len(own) != len(starts):
        raise InputError(f"region: given {len(own)}; expected one, or one for each of {starts}")
    tracks = _Tracks(solution, starts, own)
    for _ in range(_MOST_STEPS):
        if not tracks.step(longest):
            break
    return tracks.lines()


class _Tracks:
    """Lines on their way."""

    def __init__(self, solution: Solution, starts: Array, regions: tuple[str | None, ...]) -> None:
        self.solution, self.regions = solution, regions
        known = {name: n for n, name in enumerate(solution.problem.shape.regions)}
        unknown = set(regions) - set(known) - {None}
        if unknown:
            raise InputError(f"region: given {unknown}; expected of {tuple(known)}")
        self.own = np.array([_NO_REGION if n is None else known[n] for n in regions])
        self.points = [starts]
        self.alive = np.ones(len(starts), dtype=bool)
        self.scale = np.ones(len(starts))
        self.lengths = [np.zeros(len(starts))]
        self.way = np.zeros((len(starts), 2))
        self.turn = np.ones(len(starts), dtype=complex)
        self._set_out(starts)

    def _set_out(self, starts: Array) -> None:
        """Into the region: the way along the field that has the region before it."""
        size = self._sizes(starts)
        best = np.zeros(len(starts))
        angles = np.linspace(0, 2 * np.pi, 16, endpoint=False)
        ways = np.column_stack([np.cos(angles), np.sin(angles)])
        probes = starts + 0.05 * size[:, None] * ways[:, None, :]
        own = np.tile(self.own, len(ways))
        around = self._field(probes.reshape(-1, 2), own).reshape(probes.shape)
        for way, there in zip(ways, around, strict=True):
            self.turn = np.where(best == 0, self._phase(there), self.turn)
            along = np.real(there / self.turn[:, None])
            length = np.hypot(*along.T)
            score = np.where(np.isfinite(length), np.abs(along @ way), 0.0)
            sign = np.sign(along @ way)
            better = score > best
            self.way[better] = (sign[:, None] * along / length[:, None])[better]
            best = np.maximum(best, score)
        self.alive &= best > 0

    def _phase(self, field: NDArray[np.complex128]) -> NDArray[np.complex128]:
        squares = (field**2).sum(axis=1)
        turned = np.sqrt(squares / np.where(np.abs(squares) > 0, np.abs(squares), 1.0))
        return np.where(np.isfinite(turned) & (np.abs(turned) > 0), turned, 1.0)

    def _sizes(self, points: Array) -> Array:
        mesh = self.solution.mesh
        return mesh.sizes_near(points)

    def _field(self, points: Array, own: Codes) -> NDArray[np.complex128]:
        _, field, regions = found_at(self.solution, points)
        field[(regions != own) & (own != _NO_REGION)] = np.nan
        return field

    def _heading(self, points: Array, before: Array) -> Array:
        along = np.real(self._field(points, self.own) / self.turn[:, None])
        unit = along / np.hypot(*along.T)[:, None]
        return np.asarray(unit * np.sign((unit * before).sum(axis=1))[:, None])

    def step(self, longest: float) -> bool:
        """One step of every line still alive; false when none is."""
        at, size = self.points[-1], self._sizes(self.points[-1])
        stride = (self.scale * np.minimum(_STRIDE * size, longest / 20))[:, None]
        with np.errstate(invalid="ignore"):
            one = self.way
            going = np.where(self.alive[:, None], at, np.nan)  # those at their end cost nothing
            two = self._heading(going + stride / 2 * one, one)
            three = self._heading(going + stride / 2 * two, one)
            four = self._heading(going + stride * three, one)
            move = stride * (one + 2 * two + 2 * three + four) / 6
            way = self._heading(going + move, one)
        inside = np.isfinite(move).all(axis=1) & np.isfinite(way).all(axis=1)
        fine = self.alive & inside
        # A line about to leave its region comes up to the edge in ever smaller steps.
        self.scale = np.where(self.alive & ~inside, self.scale / 2, self.scale)
        self.alive &= self.scale > _SHORTEST
        move = np.where(fine[:, None], move, 0.0)
        self.points.append(at + move)
        self.lengths.append(self.lengths[-1] + np.hypot(*move.T))
        self.way = np.where(fine[:, None], way, self.way)
        self.alive &= self.lengths[-1] < longest
        return bool(self.alive.any())

    def lines(self) -> tuple[FieldLine, ...]:
        """The lines as they were walked, each with the field on it."""
        points, lengths = np.array(self.points), np.array(self.lengths)
        found = []
        for number in range(points.shape[1]):
            rising = np.concatenate([[True], np.diff(lengths[:, number]) > 0])
            track = points[rising, number]
            size = strength(found_at(self.solution, track)[1])
            size[0] = size[0] if np.isfinite(size[0]) else size[min(1, len(size) - 1)]
            good = np.isfinite(size)
            found.append(
                FieldLine(
                    self.regions[number], lengths[rising, number][good], track[good], size[good]
                )
            )
        return tuple(found)


def cumulative_means(lengths: Array, field: Array) -> tuple[Array, Array]:
    """Mean stress of ever longer stretches, each the most stressed of its length there is.

    Starting from the most stressed point, the stretch grows at the end where the field is larger.

    Args:
        lengths: Along a line or a surface, rising [m].
        field: Stress along it, absolute [V/m].

    Returns:
        Lengths of the stretches [m], and the mean stress of each [V/m].

    Raises:
        InputError: lengths negative.

    Source: H. P. Moser, V. Dahinden, Transformerboard: cumulated stress against the design curve —
    basis: memory, medium confidence.
    """
    lengths, field = np.asarray(lengths, float), np.abs(np.asarray(field, float))
    not_negative(start=float(lengths[0]))
    gathered = np.concatenate([[0.0], np.cumsum(np.diff(lengths) * (field[1:] + field[:-1]) / 2)])
    low = high = int(field.argmax())
    sizes, means = [], []
    while low > 0 or high < len(field) - 1:
        before = field[low - 1] if low > 0 else -1.0
        after = field[high + 1] if high < len(field) - 1 else -1.0
        low, high = (low - 1, high) if before > after else (low, high + 1)
        size = lengths[high] - lengths[low]
        if size > 0:
            sizes.append(size)
            means.append((gathered[high] - gathered[low]) / size)
    return np.array(sizes), np.array(means)
