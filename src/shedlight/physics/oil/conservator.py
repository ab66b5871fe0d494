"""Levels of the conservator: what temperature, leaks and cold do to the head of the bushings."""

import math

from scipy.optimize import brentq

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, ordered, positive, within
from shedlight.physics.oil.head import GRAVITY
from shedlight.sources import cite
from shedlight.trace import formula

_RADIUS = ("Radius of the conservator", "R", "mm")
_LENGTH = ("Length of the conservator", "L", "m")


@formula(
    ("Oil in the conservator", "V", "l"),
    "L (R^2 arccos((R - h) / R) - (R - h) sqrt(2 R h - h^2))",
    {"radius": _RADIUS, "length": _LENGTH, "depth": ("Depth of oil in it", "h", "mm")},
    cite("first principles", "segment of a circle", "exact"),
)
def conservator_volume(radius: float, length: float, depth: float) -> float:
    """Oil in a round conservator lying on its side.

    V = L (R² arccos((R - h)/R) - (R - h) sqrt(2 R h - h²))

    Args:
        radius: Inner radius [m].
        length: Inner length [m].
        depth: Of the oil above its lowest line, 0 to twice the radius [m].

    Returns:
        Volume [m³].

    Raises:
        InputError: radius or length not above zero, depth outside the conservator.

    Source: segment of a circle — basis: exact.
    Valid for: flat ends.
    """
    positive(radius=radius, length=length)
    within(0.0, 2 * radius, depth=depth)
    # Half the angle of the segment from its depth: exact for a film of oil too, unlike arccos.
    angle = 2 * math.asin(math.sqrt(min(1.0, depth / (2 * radius))))
    segment = radius**2 * (angle - math.sin(angle) * math.cos(angle))
    return length * max(0.0, segment)


def conservator_depth(radius: float, length: float, volume: float) -> float:
    """Depth of oil in a round conservator that holds a volume.

    :func:`conservator_volume`, solved for h

    Args:
        radius: Inner radius [m].
        length: Inner length [m].
        volume: Oil in it, from none to full [m³].

    Returns:
        Depth above its lowest line [m].

    Raises:
        InputError: radius or length not above zero, volume negative or more than it holds.

    Source: segment of a circle — basis: exact.
    Valid for: flat ends.
    """
    positive(radius=radius, length=length)
    full = math.pi * radius**2 * length
    if not 0 <= volume <= full * (1 + 1e-12):
        raise InputError(f"volume: given {volume:g} m³; expected 0 to {full:g} m³")
    return float(
        brentq(
            lambda depth: conservator_volume(radius, length, depth) - min(volume, full),
            0.0,
            2 * radius,
            xtol=1e-13,
        )
    )


def depth_at_temperature(
    radius: float,
    length: float,
    depth: float,
    oil_volume: float,
    expansion: float,
    warming: float,
) -> float:
    """Depth in the conservator after all oil of the transformer has warmed or cooled.

    V(h) = V(h_0) + beta V_oil Delta theta

    Args:
        radius: Inner radius of the conservator [m].
        length: Its inner length [m].
        depth: Of the oil in it before [m].
        oil_volume: Of the whole transformer [m³].
        expansion: Volume expansion of the oil, less that of the tank [1/K].
        warming: Of the mean oil temperature; negative on cooling [K].

    Returns:
        Depth above its lowest line [m].

    Raises:
        InputError: the conservator runs empty or over, or a value outside its domain.

    Source: thermal expansion — basis: exact for a constant coefficient.
    Valid for: free-breathing conservators.
    """
    positive(oil_volume=oil_volume)
    not_negative(expansion=expansion)
    before = conservator_volume(radius, length, depth)
    return conservator_depth(radius, length, before + expansion * oil_volume * warming)


@formula(
    ("Fall of the level", "Delta h", "mm"),
    "(4 V) / (pi (D^2 - d^2))",
    {
        "lost_volume": ("Oil lost", "V", "l"),
        "outer_diameter": ("Outer diameter of the oil space", "D", "mm"),
        "inner_diameter": ("Inner diameter of the oil space", "d", "mm"),
    },
    cite("first principles", "volume over ring area", "exact"),
)
def level_drop(lost_volume: float, outer_diameter: float, inner_diameter: float) -> float:
    """How far the level in a bushing of its own oil falls by a leak.

    Delta h = 4 V/(pi (D² - d²))

    Args:
        lost_volume: Oil lost [m³].
        outer_diameter: Of the oil space at the level [m].
        inner_diameter: Of the oil space at the level, the conductor's; 0 is none [m].

    Returns:
        Fall [m].

    Raises:
        InputError: volume or inner diameter negative, diameters out of order.

    Source: volume over ring area — basis: exact.
    Valid for: an upright bushing, even section.
    """
    not_negative(lost_volume=lost_volume, inner_diameter=inner_diameter)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)
    return 4 * lost_volume / (math.pi * (outer_diameter**2 - inner_diameter**2))


@formula(
    ("Absolute pressure at the place", "p", "kPa"),
    "p_a + rho g (h - z)",
    {
        "air_pressure": ("Pressure on the oil's surface, absolute", "p_a", "kPa"),
        "density": ("Density of the oil", "rho", "kg/m³"),
        "level": ("Oil level", "h", "mm"),
        "place": ("Height of the place", "z", "mm"),
    },
    cite("first principles", "hydrostatics", "exact"),
    note="Above the level the oil hangs in partial vacuum: any leak there draws air in.",
)
def hanging_pressure(air_pressure: float, density: float, level: float, place: float) -> float:
    """Absolute pressure in a shut cavity that may stand above the oil level.

    p = p_a + rho g (h - z)

    Args:
        air_pressure: On the oil's surface, absolute [Pa].
        density: Of the oil [kg/m³].
        level: Oil level above any reference [m].
        place: Height of the place above the same reference [m].

    Returns:
        Absolute pressure [Pa].

    Raises:
        InputError: pressure or density not above zero, or the place so high that oil cannot hang.

    Source: hydrostatics — basis: exact.
    Valid for: a cavity without gas; real oil lets its gas go well above zero pressure.
    """
    positive(air_pressure=air_pressure, density=density)
    pressure = air_pressure + density * GRAVITY * (level - place)
    if not pressure > 0:
        raise InputError(
            f"place: given {place:g} m over a level at {level:g} m; oil does not hang that high"
        )
    return pressure
