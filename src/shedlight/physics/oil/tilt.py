"""A bushing out of the upright: heights of its inside, where gas stays, how low the oil may stand.

Places of the cavity are given along the axis from the cover's seat, outward positive, and across
it toward the side that is uppermost when the bushing leans. Heights count from the seat's middle,
or from the middle of the cover's hole if distances along the axis do.
"""

import math

from shedlight.errors import InputError
from shedlight.physics.domain import finite, not_negative, positive, within
from shedlight.physics.oil.head import GRAVITY
from shedlight.sources import cite
from shedlight.trace import formula

_TILT = ("Tilt of the axis from upright", "theta", "°")
_GEOMETRY = cite("first principles", "geometry of a tilted body", "exact")
_DENSITY = ("Density of the oil", "rho", "kg/m³")

Place = tuple[float, float]  # along the axis, across toward the upper side [m]


@formula(
    ("Height of the place", "z", "mm"),
    "a cos(theta) + r sin(theta)",
    {
        "along": ("Distance along the axis", "a", "mm"),
        "across": ("Distance from the axis, toward the upper side", "r", "mm"),
        "tilt": _TILT,
    },
    _GEOMETRY,
)
def height_when_tilted(along: float, across: float, tilt: float) -> float:
    """How high a place of a tilted bushing lies above the middle of its seat.

    z = a cos(theta) + r sin(theta)

    Args:
        along: Distance from the seat along the axis, outward positive [m].
        across: Distance from the axis, positive on the upper side [m].
        tilt: Of the axis from upright, 0 to 180° [rad].

    Returns:
        Height [m].

    Raises:
        InputError: a distance not finite, tilt outside 0 to 180°.

    Source: geometry — basis: exact.
    Valid for: any.
    """
    finite(along=along, across=across)
    within(0.0, math.pi, tilt=tilt)
    return along * math.cos(tilt) + across * math.sin(tilt)


@formula(
    ("Tilt up to which the cavity vents", 'theta_"max"', "°"),
    "arctan((a_v - a_t) / (r_t - r_v))",
    {
        "vent_along": ("Vent along the axis", "a_v", "mm"),
        "vent_across": ("Vent toward the upper side", "r_v", "mm"),
        "top_along": ("Top corner of the cavity along the axis", "a_t", "mm"),
        "top_radius": ("Radius of the top corner", "r_t", "mm"),
    },
    _GEOMETRY,
)
def venting_tilt(
    vent_along: float, vent_across: float, top_along: float, top_radius: float
) -> float:
    """Largest tilt at which the vent is still the highest place of the cavity.

    tan(theta) = (a_v - a_t)/(r_t - r_v)

    Args:
        vent_along: Vent along the axis [m].
        vent_across: Vent from the axis, positive toward the upper side [m].
        top_along: Top corner of the cavity along the axis [m].
        top_radius: Radius of the top corner [m].

    Returns:
        Tilt; 90° if the vent lies as far out as the corner; 0 if it never is highest [rad].

    Raises:
        InputError: a place not finite, or the corner's radius not above zero.

    Source: geometry — basis: exact.
    Valid for: a cavity whose top is flat or falls toward the axis.
    """
    finite(vent_along=vent_along, vent_across=vent_across, top_along=top_along)
    positive(top_radius=top_radius)
    if vent_along < top_along:
        return 0.0
    return math.atan2(vent_along - top_along, max(0.0, top_radius - vent_across))


@formula(
    ("Lowest safe level", 'h_"min"', "mm"),
    'z_"top" + p_"res" / (rho g)',
    {
        "highest_place": ("Highest place of the cavity", 'z_"top"', "mm"),
        "reserve": ("Least gauge pressure wanted there", 'p_"res"', "kPa"),
        "density": _DENSITY,
    },
    cite("first principles", "hydrostatics", "exact"),
)
def lowest_safe_level(highest_place: float, reserve: float, density: float) -> float:
    """Oil level below which the top of the cavity loses its pressure.

    h = z_top + p_res/(rho g)

    Args:
        highest_place: Of the cavity above the seat, tilt counted [m].
        reserve: Least gauge pressure wanted there, for tightness against air and water [Pa].
        density: Of the oil when coldest [kg/m³].

    Returns:
        Level above the seat [m].

    Raises:
        InputError: height not finite, reserve negative, density not above zero.

    Source: hydrostatics — basis: exact.
    Valid for: a cavity open to the transformer's oil, free-breathing conservator.
    """
    finite(highest_place=highest_place)
    not_negative(reserve=reserve)
    positive(density=density)
    return highest_place + reserve / (density * GRAVITY)


def highest_place(cavity: tuple[Place, ...], tilt: float) -> tuple[int, float]:
    """Which place of the cavity is highest when the bushing leans: where gas gathers.

    max of a cos(theta) + |r| sin(theta): every place goes round the axis

    Args:
        cavity: Corners of the oil space: along the axis, radius [m].
        tilt: Of the axis from upright, 0 to 180° [rad].

    Returns:
        Position in the tuple, and height above the seat [m].

    Raises:
        InputError: no place, or one not finite.

    Source: geometry — basis: exact.
    Valid for: round cavities.
    """
    if not cavity:
        raise InputError("cavity: given no place; expected at least one")
    heights = [height_when_tilted(along, abs(radius), tilt) for along, radius in cavity]
    top = max(range(len(heights)), key=heights.__getitem__)
    return top, heights[top]


def trapped_height(cavity: tuple[Place, ...], vent: Place, tilt: float) -> float:
    """How far gas stands above the vent once no more of it escapes.

    highest place less height of the vent, at least 0

    Args:
        cavity: Corners of the oil space: along the axis, radius [m].
        vent: Along the axis, and from it toward the upper side [m].
        tilt: Of the axis from upright, 0 to 180° [rad].

    Returns:
        Height of the gas [m].

    Raises:
        InputError: no place, or one not finite.

    Source: geometry — basis: exact.
    Valid for: round cavities filled from below.
    """
    _, top = highest_place(cavity, tilt)
    return max(0.0, top - height_when_tilted(*vent, tilt))


def pressures_along(
    places: tuple[Place, ...], level: float, density: float, above: float, tilt: float
) -> tuple[float, ...]:
    """Gauge pressure at many places of a tilted bushing; below zero above the level.

    p = p_0 + rho g (h - z)

    Args:
        places: Along the axis, and from it toward the upper side [m].
        level: Oil level above the seat [m].
        density: Of the oil [kg/m³].
        above: Gauge pressure on the oil's surface [Pa].
        tilt: Of the axis from upright, 0 to 180° [rad].

    Returns:
        Pressures [Pa].

    Raises:
        InputError: density not above zero, a place or level not finite.

    Source: hydrostatics — basis: exact.
    Valid for: oil at rest that fills the cavity.
    """
    positive(density=density)
    finite(level=level, above=above)
    return tuple(
        above + density * GRAVITY * (level - height_when_tilted(along, across, tilt))
        for along, across in places
    )
