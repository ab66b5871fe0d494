"""A bushing as a stepped beam on its cover: deflection, modes, shares of mass.

Beam elements after Euler and Bernoulli with cubic shapes and consistent masses: for point loads
and steps of section the deflection at the nodes is exact; frequencies converge from above.
"""

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import accumulate, pairwise

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive, within
from shedlight.physics.strength.bending import second_moment_tube

Array = NDArray[np.float64]

PARTS = 8  # elements per segment
KEPT = 16  # beams


@dataclass(frozen=True)
class Segment:
    """A length of beam with one ring section.

    Raises:
        InputError: a field outside its domain.
    """

    length: float  # [m]
    outer_diameter: float  # [m]
    inner_diameter: float  # [m]
    elastic_modulus: float  # [Pa]
    mass_per_length: float  # with oil, sheds, conductor [kg/m]

    def __post_init__(self) -> None:
        """Refuse what is no beam."""
        positive(length=self.length, elastic_modulus=self.elastic_modulus)
        not_negative(mass_per_length=self.mass_per_length)
        second_moment_tube(self.outer_diameter, self.inner_diameter)

    @property
    def bending_stiffness(self) -> float:
        """Elastic modulus times second moment [Nm²]."""
        return self.elastic_modulus * second_moment_tube(self.outer_diameter, self.inner_diameter)


@dataclass(frozen=True)
class PointMass:
    """A mass at a height, as cap and terminal at the top."""

    height: float  # above the base [m]
    mass: float  # [kg]


@dataclass(frozen=True)
class SteppedBeam:
    """Segments from the base up, masses on them, and how the base gives.

    Raises:
        InputError: no segment, or a mass beside the beam.
    """

    segments: tuple[Segment, ...]
    masses: tuple[PointMass, ...] = ()
    base_stiffness: float = math.inf  # against rocking [Nm/rad]

    def __post_init__(self) -> None:
        """Refuse what is no beam."""
        if not self.segments:
            raise InputError("segments: given none; expected at least one")
        if not self.base_stiffness > 0:
            raise InputError(f"base_stiffness: given {self.base_stiffness:g}; expected above 0")
        for point in self.masses:
            within(0.0, self.height, height=point.height)
            not_negative(mass=point.mass)

    @cached_property
    def borders(self) -> tuple[float, ...]:
        """Heights of the ends of the segments, from 0 [m]."""
        return (0.0, *accumulate(segment.length for segment in self.segments))

    @property
    def height(self) -> float:
        """Height of the top [m]."""
        return self.borders[-1]

    def segment_at(self, height: float) -> Segment:
        """The segment at a height; at a border the one above it."""
        within(0.0, self.height, height=height)
        place = bisect_right(self.borders, height) - 1
        return self.segments[min(place, len(self.segments) - 1)]


@dataclass(frozen=True)
class Mode:
    """One way of swinging; the shape's largest swing is 1."""

    frequency: float  # [Hz]
    heights: tuple[float, ...]  # of the nodes [m]
    shape: tuple[float, ...]  # swing at the nodes [1]
    participation: float  # factor on the shape under a shaken base [1]
    mass: float  # share of the mass that takes part [kg]
    lever: float  # height at which that share pushes [m]


def tapered(
    length: float,
    lower: tuple[float, float],
    upper: tuple[float, float],
    elastic_modulus: float,
    mass_per_length: float,
    parts: int = 8,
) -> tuple[Segment, ...]:
    """A conical length of beam as short even segments.

    Each has the mean diameters of its part

    Args:
        length: Length of the cone [m].
        lower: Outer and inner diameter at its lower end [m].
        upper: Outer and inner diameter at its upper end [m].
        elastic_modulus: Elastic modulus [Pa].
        mass_per_length: Mean mass per length [kg/m].
        parts: Number of segments.

    Returns:
        Segments from below.

    Raises:
        InputError: an argument not above zero, or diameters out of order.

    Source: a cone cut into steps, converging with their number — basis: exact.
    Valid for: slender cones.
    """
    positive(parts=parts)
    places = [(part + 0.5) / parts for part in range(parts)]
    return tuple(
        Segment(
            length / parts,
            lower[0] + (upper[0] - lower[0]) * place,
            lower[1] + (upper[1] - lower[1]) * place,
            elastic_modulus,
            mass_per_length,
        )
        for place in places
    )


def _nodes(beam: SteppedBeam, also: tuple[float, ...]) -> list[float]:
    heights = {0.0, beam.height, *also, *(point.height for point in beam.masses)}
    for low, high in pairwise(beam.borders):
        heights |= {low + (high - low) * part / PARTS for part in range(PARTS + 1)}
    ordered_heights = sorted(heights)
    kept = [ordered_heights[0]]
    for height in ordered_heights[1:]:
        if height - kept[-1] > 1e-9 * beam.height:
            kept.append(height)
    return kept


def _bend(h: float) -> Array:
    """Stiffness of an element of length h, over E J/h³."""
    return np.array(
        [
            [12, 6 * h, -12, 6 * h],
            [6 * h, 4 * h**2, -6 * h, 2 * h**2],
            [-12, -6 * h, 12, -6 * h],
            [6 * h, 2 * h**2, -6 * h, 4 * h**2],
        ]
    )


def _inertia(h: float) -> Array:
    """Mass of an element of length h, over m' h/420."""
    return np.array(
        [
            [156, 22 * h, 54, -13 * h],
            [22 * h, 4 * h**2, 13 * h, -3 * h**2],
            [54, 13 * h, 156, -22 * h],
            [-13 * h, -3 * h**2, -22 * h, 4 * h**2],
        ]
    )


@lru_cache(KEPT)
def _assembled(beam: SteppedBeam, nodes: tuple[float, ...]) -> tuple[Array, Array]:
    """Stiffness and mass of all nodes: swing and slope of each, the base's swing held.

    Many loads are tried on one beam.
    """
    size = 2 * len(nodes)
    stiffness, mass = np.zeros((size, size)), np.zeros((size, size))
    for index, (low, high) in enumerate(pairwise(nodes)):
        segment, h = beam.segment_at((low + high) / 2), high - low
        place = slice(2 * index, 2 * index + 4)
        stiffness[place, place] += segment.bending_stiffness / h**3 * _bend(h)
        mass[place, place] += segment.mass_per_length * h / 420 * _inertia(h)
    for point in beam.masses:
        node = min(range(len(nodes)), key=lambda i: abs(nodes[i] - point.height))
        mass[2 * node, 2 * node] += point.mass
    if math.isfinite(beam.base_stiffness):
        stiffness[1, 1] += beam.base_stiffness
    for matrix in (stiffness, mass):
        matrix.setflags(write=False)
    return stiffness, mass


def _free(beam: SteppedBeam, size: int) -> NDArray[np.int64]:
    held = 1 if math.isfinite(beam.base_stiffness) else 2
    return np.arange(held, size, dtype=np.int64)


def deflection(beam: SteppedBeam, loads: tuple[tuple[float, float], ...], height: float) -> float:
    """How far the beam gives way at a height under loads across its axis.

    E J w'''' = 0 between loads and steps, solved with cubic elements

    Args:
        beam: The beam.
        loads: Height [m] and force [N] of each load, all in one plane.
        height: Where the deflection is wanted [m].

    Returns:
        Deflection in the direction of the loads [m].

    Raises:
        InputError: a load or the height beside the beam.

    Source: Timoshenko, Euler and Bernoulli's beam — basis: exact.
    Valid for: slender beams; shear and the gasket's give are left out.
    """
    within(0.0, beam.height, height=height)
    for place, _ in loads:
        within(0.0, beam.height, loads=place)
    nodes = _nodes(beam, (height, *(place for place, _ in loads)))
    stiffness, _ = _assembled(beam, tuple(nodes))
    force = np.zeros(2 * len(nodes))
    for place, load in loads:
        force[2 * min(range(len(nodes)), key=lambda i: abs(nodes[i] - place))] += load
    free = _free(beam, len(force))
    moved = np.zeros(len(force))
    moved[free] = np.linalg.solve(stiffness[np.ix_(free, free)], force[free])
    return float(moved[2 * min(range(len(nodes)), key=lambda i: abs(nodes[i] - height))])


def _eigen(mass: Array, stiffness: Array) -> tuple[Array, Array]:
    """Solutions of M x = mu K x: masses may stand at few nodes only, stiffness is everywhere."""
    root = np.linalg.cholesky(stiffness)
    half = np.linalg.solve(root, mass)
    even = np.linalg.solve(root, half.T)
    values, vectors = np.linalg.eigh((even + even.T) / 2)
    return values, np.linalg.solve(root.T, vectors)


def natural_modes(beam: SteppedBeam, count: int = 2) -> tuple[Mode, ...]:
    """The lowest ways of swinging, with the mass that a shaken base sets moving in each.

    K phi = omega² M phi; participation = phi'M1/phi'M phi

    Args:
        beam: The beam, with mass.
        count: How many modes.

    Returns:
        Modes, lowest first.

    Raises:
        InputError: a beam without mass, or more modes than it has.

    Source: Chopra, Dynamics of Structures; Euler and Bernoulli — basis: exact, from above.
    Valid for: slender beams, small swings.
    """
    nodes = _nodes(beam, ())
    stiffness, mass = _assembled(beam, tuple(nodes))
    free = _free(beam, 2 * len(nodes))
    if not 1 <= count <= len(free):
        raise InputError(f"count: given {count}; expected 1 to {len(free)}")
    positive(mass=float(np.trace(mass)))
    inner = np.ix_(free, free)
    swing, shapes = _eigen(mass[inner], stiffness[inner])
    uniform = np.zeros(2 * len(nodes))
    uniform[::2] = 1.0
    levers = np.zeros(2 * len(nodes))
    levers[::2], levers[1::2] = nodes, 1.0
    modes = []
    for index in range(1, count + 1):
        shape = np.zeros(2 * len(nodes))
        shape[free] = shapes[:, -index]
        shape /= shape[::2][np.argmax(np.abs(shape[::2]))]
        modal = shape @ mass @ shape
        pushed, turned = shape @ mass @ uniform, shape @ mass @ levers
        modes.append(
            Mode(
                float(1 / (2 * math.pi * math.sqrt(swing[-index]))),
                tuple(nodes),
                tuple(float(value) for value in shape[::2]),
                float(pushed / modal),
                float(pushed**2 / modal),
                float(turned / pushed),
            )
        )
    return tuple(modes)


def stepped_frequencies(
    lengths: tuple[float, ...],
    outer_diameters: tuple[float, ...],
    inner_diameters: tuple[float, ...],
    elastic_modulus: float,
    masses_per_length: tuple[float, ...],
    top_mass: float,
    base_stiffness: float | None,
) -> tuple[float, float]:
    """First two natural frequencies of a stepped body of one material.

    As :func:`natural_modes`, from plain numbers

    Args:
        lengths: Of the segments, from the base up [m].
        outer_diameters: Of the segments [m].
        inner_diameters: Of the segments [m].
        elastic_modulus: Of the body [Pa].
        masses_per_length: Of the segments [kg/m].
        top_mass: On top [kg].
        base_stiffness: Against rocking, none for a stiff base [Nm/rad].

    Returns:
        The two frequencies [Hz].

    Raises:
        InputError: tuples of different lengths, or a value outside its domain.

    Source: Euler and Bernoulli's beam — basis: exact, from above.
    Valid for: slender bodies.
    """
    if not len(lengths) == len(outer_diameters) == len(inner_diameters) == len(masses_per_length):
        raise InputError(
            "lengths, outer_diameters, inner_diameters, masses_per_length: expected as many of each"
        )
    segments = tuple(
        Segment(length, outer, inner, elastic_modulus, mass)
        for length, outer, inner, mass in zip(
            lengths, outer_diameters, inner_diameters, masses_per_length, strict=True
        )
    )
    top = PointMass(sum(lengths), top_mass)
    stiffness = math.inf if base_stiffness is None else base_stiffness
    # Sums of lengths may differ in the last digit by the order of summing.
    beam = SteppedBeam(segments, (), stiffness)
    beam = SteppedBeam(segments, (PointMass(min(top.height, beam.height), top_mass),), stiffness)
    first, second = natural_modes(beam, 2)
    return first.frequency, second.frequency


def stepped_deflection(
    lengths: tuple[float, ...],
    outer_diameters: tuple[float, ...],
    inner_diameters: tuple[float, ...],
    elastic_modulus: float,
    force: float,
) -> float:
    """How far the top of a stepped body of one material gives way under a force across it.

    As :func:`deflection`, from plain numbers

    Args:
        lengths: Of the segments, from the base up [m].
        outer_diameters: Of the segments [m].
        inner_diameters: Of the segments [m].
        elastic_modulus: Of the body [Pa].
        force: Across the top [N].

    Returns:
        Deflection of the top [m].

    Raises:
        InputError: tuples of different lengths, or a value outside its domain.

    Source: Euler and Bernoulli's beam — basis: exact.
    Valid for: slender bodies on a stiff base.
    """
    if not len(lengths) == len(outer_diameters) == len(inner_diameters):
        raise InputError("lengths, outer_diameters, inner_diameters: expected as many of each")
    segments = tuple(
        Segment(length, outer, inner, elastic_modulus, 0.0)
        for length, outer, inner in zip(lengths, outer_diameters, inner_diameters, strict=True)
    )
    beam = SteppedBeam(segments)
    return deflection(beam, ((beam.height, force),), beam.height)
