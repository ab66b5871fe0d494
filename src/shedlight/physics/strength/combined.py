"""Loads together: vectors along the body, moment and stress at every height.

The axis of the bushing is ``along`` (up, tension positive); ``across`` and ``sideways`` are at
right angles to it and to each other. A tilted bushing leans toward ``across``: that is where its
weight pulls.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

from shedlight.errors import InputError
from shedlight.physics.domain import finite, not_negative, positive, within
from shedlight.physics.strength.bending import (
    axial_pressure_stress,
    section_modulus_tube,
)
from shedlight.physics.strength.stepped import SteppedBeam
from shedlight.sources import cite
from shedlight.trace import formula

GRAVITY = 9.80665  # [m/s²]

_MASS = ("Mass", "m", "kg")
_TILT = ("Tilt of the axis from upright", "theta", "°")


@dataclass(frozen=True)
class Load:
    """A force on the body at one height."""

    height: float  # above the base [m]
    across: float = 0.0  # [N]
    sideways: float = 0.0  # [N]
    along: float = 0.0  # up, pulling [N]


@dataclass(frozen=True)
class SpreadLoad:
    """A force spread evenly between two heights, as weight, wind or ice."""

    low: float  # [m]
    high: float  # [m]
    across: float = 0.0  # per length [N/m]
    sideways: float = 0.0  # per length [N/m]
    along: float = 0.0  # per length, up [N/m]

    def above(self, height: float) -> Load:
        """Its part above a height, put together at its middle."""
        low = min(max(self.low, height), self.high)
        length = self.high - low
        return Load(
            (low + self.high) / 2,
            self.across * length,
            self.sideways * length,
            self.along * length,
        )


@dataclass(frozen=True)
class SectionForce:
    """What one section has to carry."""

    height: float  # [m]
    axial: float  # pull positive [N]
    shear: float  # [N]
    moment: float  # [Nm]
    direction: float  # of the moment's pull, from across toward sideways [rad]


@dataclass(frozen=True)
class SectionStress:
    """Stresses of one section, pull positive [Pa]."""

    force: SectionForce
    outer_diameter: float  # [m]
    inner_diameter: float  # [m]
    bending: float
    axial: float  # of axial force, clamping and pressure

    @property
    def highest(self) -> float:
        """Greatest tension [Pa]; negative if all is pressed."""
        return self.axial + self.bending

    @property
    def lowest(self) -> float:
        """Greatest pressure, as a negative stress [Pa]."""
        return self.axial - self.bending


@formula(
    ("Weight across the axis", "F", "N"),
    "m g sin(theta)",
    {"mass": _MASS, "tilt": _TILT},
    cite("first principles", "weight resolved", "exact"),
)
def weight_across(mass: float, tilt: float) -> float:
    """What of its weight bends a tilted bushing.

    F = m g sin(theta)

    Args:
        mass: Mass [kg].
        tilt: Of the axis from upright, 0 to a right angle and beyond for hanging ones [rad].

    Returns:
        Force across the axis [N].

    Raises:
        InputError: mass negative, tilt outside 0 to 180°.

    Source: statics — basis: exact.
    Valid for: any.
    """
    not_negative(mass=mass)
    within(0.0, math.pi, tilt=tilt)
    return mass * GRAVITY * math.sin(tilt)


@formula(
    ("Weight along the axis, pull positive", "N", "N"),
    "-m g cos(theta)",
    {"mass": _MASS, "tilt": _TILT},
    cite("first principles", "weight resolved", "exact"),
)
def weight_along(mass: float, tilt: float) -> float:
    """What of its weight presses a bushing on its base, or pulls if it hangs.

    N = -m g cos(theta)

    Args:
        mass: Mass [kg].
        tilt: Of the axis from upright, 0 to 180° [rad].

    Returns:
        Force along the axis, pull positive [N].

    Raises:
        InputError: mass negative, tilt outside 0 to 180°.

    Source: statics — basis: exact.
    Valid for: any.
    """
    not_negative(mass=mass)
    within(0.0, math.pi, tilt=tilt)
    return -mass * GRAVITY * math.cos(tilt)


def conductor_pull(height: float, tension: float, off_axis: float, azimuth: float) -> Load:
    """The pull of a line or bar on the terminal.

    across = T sin(a) cos(b), sideways = T sin(a) sin(b), along = T cos(a)

    Args:
        height: Of the terminal above the base [m].
        tension: Of the conductor [N].
        off_axis: Angle between the pull and the axis pointing outward, 0 to 180° [rad].
        azimuth: Direction of the pull about the axis, from across toward sideways [rad].

    Returns:
        The load.

    Raises:
        InputError: tension negative, angles out of range.

    Source: statics — basis: exact.
    Valid for: any.
    """
    not_negative(tension=tension)
    within(0.0, math.pi, off_axis=off_axis)
    finite(azimuth=azimuth)
    level = tension * math.sin(off_axis)
    return Load(
        height, level * math.cos(azimuth), level * math.sin(azimuth), tension * math.cos(off_axis)
    )


def section_force(
    height: float, loads: tuple[Load, ...], spread_loads: tuple[SpreadLoad, ...] = ()
) -> SectionForce:
    """Forces and moment that everything above a section puts on it, added as vectors.

    M = |sum F_i (z_i - z)|, N = sum of forces along

    Args:
        height: Of the section above the base [m].
        loads: Point loads.
        spread_loads: Loads spread over a length.

    Returns:
        Axial force, shear, moment and its direction.

    Raises:
        InputError: height negative.

    Source: statics — basis: exact.
    Valid for: small deflections; pulls along the axis are taken through its middle.
    """
    not_negative(height=height)
    above = [load for load in loads if load.height > height]
    above += [spread.above(height) for spread in spread_loads if spread.high > height]
    across = sum(load.across * (load.height - height) for load in above)
    sideways = sum(load.sideways * (load.height - height) for load in above)
    shear = math.hypot(sum(load.across for load in above), sum(load.sideways for load in above))
    return SectionForce(
        height,
        sum((load.along for load in above), 0.0),
        shear,
        math.hypot(across, sideways),
        math.atan2(sideways, across),
    )


def section_stress(
    outer_diameter: float,
    inner_diameter: float,
    force: SectionForce,
    pressure: float = 0.0,
    clamp_force: float = 0.0,
) -> SectionStress:
    """Stresses along the axis in a ring section.

    sigma = (N - F_c)/A + p d²/(D² - d²) ± M/Z

    Args:
        outer_diameter: Outer diameter [m].
        inner_diameter: Inner diameter [m].
        force: What the section carries.
        pressure: Gauge pressure inside, whose end load the wall carries [Pa].
        clamp_force: Of a tie or conductor that presses the body together [N].

    Returns:
        Bending and axial stress.

    Raises:
        InputError: diameters out of order, clamp force negative, pressure not finite.

    Source: Timoshenko and Goodier — basis: exact.
    Valid for: slender bodies away from steps and clamps, where stress peaks come on top.
    """
    not_negative(clamp_force=clamp_force)
    modulus = section_modulus_tube(outer_diameter, inner_diameter)
    area = math.pi / 4 * (outer_diameter**2 - inner_diameter**2)
    axial = (force.axial - clamp_force) / area
    if inner_diameter > 0:
        axial += axial_pressure_stress(pressure, outer_diameter, inner_diameter)
    return SectionStress(force, outer_diameter, inner_diameter, force.moment / modulus, axial)


def stresses_along(
    beam: SteppedBeam,
    loads: tuple[Load, ...],
    spread_loads: tuple[SpreadLoad, ...] = (),
    pressure: float = 0.0,
    clamp_force: float = 0.0,
    parts: int = 10,
) -> tuple[SectionStress, ...]:
    """Stress at many heights of a stepped body, each step looked at from both sides.

    As :func:`section_stress` with the section of every height

    Args:
        beam: The body.
        loads: Point loads.
        spread_loads: Loads spread over a length.
        pressure: Gauge pressure inside [Pa].
        clamp_force: Of a tie or conductor that presses the body together [N].
        parts: Parts per segment.

    Returns:
        Stresses from the base up.

    Raises:
        InputError: a load above the top, or a value outside its domain.

    Source: Timoshenko and Goodier — basis: exact.
    Valid for: as :func:`section_stress`.
    """
    positive(parts=parts)
    highest = max([*(load.height for load in loads), *(s.high for s in spread_loads), 0.0])
    if highest > beam.height * (1 + 1e-9):
        raise InputError(f"loads: given a load at {highest:g} m; expected at most {beam.height:g}")
    found = []
    for (low, high), segment in zip(pairwise(beam.borders), beam.segments, strict=True):
        for part in range(parts + 1):
            # Sums may differ in the last digit: borders come out the same from both sides.
            height = high if part == parts else low + (high - low) * part / parts
            force = section_force(height, loads, spread_loads)
            found.append(
                section_stress(
                    segment.outer_diameter, segment.inner_diameter, force, pressure, clamp_force
                )
            )
    return tuple(found)


def largest_tension(stresses: tuple[SectionStress, ...]) -> SectionStress:
    """The section that is pulled hardest: where porcelain breaks.

    Args:
        stresses: Of many sections, at least one.

    Returns:
        The worst of them.

    Raises:
        InputError: none given.

    Source: brittle bodies break in tension, W. Weibull — basis: exact.
    """
    if not stresses:
        raise InputError("stresses: given none; expected at least one")
    return max(stresses, key=lambda stress: stress.highest)
