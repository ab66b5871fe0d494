"""Forces, moments and stresses of several loads, put together at one section."""

import math
from collections.abc import Sequence

from shedlight.errors import InputError
from shedlight.physics.domain import finite, not_negative, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

_STATICS = cite("first principles", "statics", "exact")
_MOMENT = ("Bending moment", "M", "Nm")


@formula(
    ("Force", "F", "N"),
    "w L",
    {
        "per_length": ("Force per length", "w", "N/m"),
        "length": ("Length", "L", "m"),
    },
    _STATICS,
)
def spread_force(per_length: float, length: float) -> float:
    """Force of a load that is spread evenly.

    F = w L

    Args:
        per_length: Force per length [N/m].
        length: Length [m].

    Returns:
        Force [N].

    Raises:
        InputError: an argument negative.

    Source: statics — basis: exact.
    Valid for: any.
    """
    not_negative(per_length=per_length, length=length)
    return per_length * length


@formula(
    ("Force", "F", "N"),
    "k F_0",
    {
        "force": ("Force by itself", "F_0", "N"),
        "factor": ("Factor", "k", "1"),
    },
    _STATICS,
)
def scaled_force(force: float, factor: float) -> float:
    """A force raised for its sudden coming, or lessened beside a rarer load.

    F = k F_0

    Args:
        force: By itself [N].
        factor: On it [1].

    Returns:
        Force [N].

    Raises:
        InputError: an argument negative.

    Source: statics — basis: exact.
    Valid for: any; the factor has a source of its own.
    """
    not_negative(force=force, factor=factor)
    return factor * force


@formula(
    _MOMENT,
    "sum_i F_i a_i",
    {
        "forces": ("Forces across the axis", "F_i", "N"),
        "levers": ("Their levers", "a_i", "mm"),
    },
    _STATICS,
    note="All taken in one plane and one direction: the worst case.",
)
def total_moment(forces: Sequence[float], levers: Sequence[float]) -> float:
    """Moment of several forces about one section, all pulling the same way.

    M = sum F_i a_i

    Args:
        forces: Across the axis [N].
        levers: From the section to each [m].

    Returns:
        Moment [Nm].

    Raises:
        InputError: not as many of each, or one negative.

    Source: statics — basis: exact.
    Valid for: the worst direction of every load.
    """
    if len(forces) != len(levers):
        raise InputError(f"levers: given {len(levers)}; expected {len(forces)}, one for each force")
    for force, lever in zip(forces, levers, strict=True):
        not_negative(forces=force, levers=lever)
    return math.fsum(force * lever for force, lever in zip(forces, levers, strict=True))


@formula(
    ("Force across the axis", "Q", "N"),
    "sum_i F_i",
    {"forces": ("Forces across the axis", "F_i", "N")},
    _STATICS,
)
def total_force(forces: Sequence[float]) -> float:
    """Sum of several forces that pull the same way.

    Q = sum F_i

    Args:
        forces: Across the axis [N].

    Returns:
        Force [N].

    Raises:
        InputError: one negative.

    Source: statics — basis: exact.
    Valid for: the worst direction of every load.
    """
    for force in forces:
        not_negative(forces=force)
    return math.fsum(forces)


@formula(
    ("Greatest tension along the axis", "sigma_z", "MPa"),
    'sigma_"b" + sigma_"p" + N / A',
    {
        "bending": ("Bending stress", 'sigma_"b"', "MPa"),
        "pressure_stress": ("Axial stress from pressure", 'sigma_"p"', "MPa"),
        "axial_force": ("Force along the axis, pull positive", "N", "N"),
        "area": ("Area of the section", "A", "cm²"),
    },
    cite("Timoshenko", "bending with axial force", "exact"),
)
def greatest_tension(
    bending: float, pressure_stress: float, axial_force: float, area: float
) -> float:
    """Greatest tension in a section that is bent, pulled and under pressure.

    sigma = sigma_b + sigma_p + N/A

    Args:
        bending: Bending stress [Pa].
        pressure_stress: Along the axis, of the pressure inside [Pa].
        axial_force: Along the axis, pull positive [N].
        area: Of the section [m²].

    Returns:
        Stress, tension positive [Pa].

    Raises:
        InputError: bending negative, another not finite, area not above zero.

    Source: Timoshenko and Goodier — basis: exact.
    Valid for: slender bodies away from steps and clamps.
    """
    not_negative(bending=bending)
    finite(pressure_stress=pressure_stress, axial_force=axial_force)
    positive(area=area)
    return bending + pressure_stress + axial_force / area


@formula(
    ("Moment of shaking in all directions", "M", "Nm"),
    "M_1 sqrt(1 + cos^2 theta + (c_v sin theta)^2)",
    {
        "moment": ("Moment of shaking in one direction", "M_1", "Nm"),
        "tilt": ("Tilt of the axis from upright", "theta", "°"),
        "vertical_share": ("Vertical over horizontal acceleration", "c_v", "1"),
    },
    cite("IEEE 693", "three directions as root of the sum of squares", "memory", "medium"),
)
def moment_of_all_directions(moment: float, tilt: float, vertical_share: float) -> float:
    """Bending moment when the ground shakes in two level directions and up and down at once.

    M = M_1 sqrt(1 + cos² theta + (c_v sin theta)²)

    Args:
        moment: Of shaking in one level direction across the axis [Nm].
        tilt: Of the axis from upright, 0 to 180° [rad].
        vertical_share: Vertical over horizontal acceleration [1].

    Returns:
        Moment [Nm].

    Raises:
        InputError: moment or share negative, tilt outside its range.

    Source: IEEE Std 693-2005 — basis: memory, medium confidence.
    Valid for: bodies as stiff one way across the axis as the other.
    """
    not_negative(moment=moment, vertical_share=vertical_share)
    within(0.0, math.pi, tilt=tilt)
    level, upright = math.cos(tilt), vertical_share * math.sin(tilt)
    return moment * math.sqrt(1 + level**2 + upright**2)


@formula(
    ("Force that gives the same moment", "F", "N"),
    "M / h",
    {"moment": _MOMENT, "lever": ("Height at which it acts", "h", "mm")},
    _STATICS,
)
def equal_force(moment: float, lever: float) -> float:
    """One force that stands for a moment at the base.

    F = M/h

    Args:
        moment: At the base [Nm].
        lever: Height at which the force acts [m].

    Returns:
        Force [N].

    Raises:
        InputError: moment negative, lever not above zero.

    Source: statics — basis: exact.
    Valid for: any.
    """
    not_negative(moment=moment)
    positive(lever=lever)
    return moment / lever


@formula(
    ("Stress of both", "sigma", "MPa"),
    "sigma_1 + sigma_2",
    {
        "one": ("Stress of one cause", "sigma_1", "MPa"),
        "other": ("Stress of the other", "sigma_2", "MPa"),
    },
    _STATICS,
)
def added_stress(one: float, other: float) -> float:
    """Two stresses of one direction at one place.

    sigma = sigma_1 + sigma_2

    Args:
        one: Of one cause [Pa].
        other: Of the other [Pa].

    Returns:
        Stress [Pa].

    Raises:
        InputError: one of them not finite.

    Source: superposition — basis: exact.
    Valid for: elastic bodies.
    """
    finite(one=one, other=other)
    return one + other


@formula(
    ("Peak over beam theory", "K", "1"),
    "sigma_1 / sigma_z",
    {
        "peak": ("Greatest tension at the surface", "sigma_1", "MPa"),
        "beam": ("Greatest tension by beam theory", "sigma_z", "MPa"),
    },
    cite("first principles", "definition", "exact"),
)
def times_beam(peak: float, beam: float) -> float:
    """How much more the hardest pulled place bears than beam theory says.

    K = sigma_1/sigma_z

    Args:
        peak: Greatest tension at the surface [Pa].
        beam: Greatest tension by beam theory [Pa].

    Returns:
        Ratio [1].

    Raises:
        InputError: beam stress not above zero, peak not finite.

    Source: definition — basis: exact.
    Valid for: any.
    """
    finite(peak=peak)
    positive(beam=beam)
    return peak / beam
