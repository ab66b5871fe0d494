"""Rules by which standards raise what is asked for thin air; side by side, never multiplied.

They count from different heights and correct different things. Standard levels already cover the
first 1000 m: a rule that counts from sea level must not be used on them.
"""

import math
from dataclasses import dataclass

from shedlight import tables
from shedlight.physics.air.atmosphere import COVERED_ALTITUDE, SCALE_HEIGHT
from shedlight.physics.air.tables import along, deviation, rod_gaps
from shedlight.physics.domain import finite, not_negative, positive
from shedlight.sources import Citation, cite
from shedlight.trace import formula

_ALTITUDE = ("Height above sea level", "H", "m")
_FACTOR = ("Altitude factor", "K_a", "1")


@dataclass(frozen=True)
class AltitudeStrength:
    """Strength of external insulation at one height over that at 1000 m."""

    altitude: float  # [m]
    factor: float  # [1]
    citation: Citation


@tables.cached
def altitude_strengths() -> tuple[AltitudeStrength, ...]:
    """The table, lowest height first, read once."""
    return tuple(
        AltitudeStrength(float(row["altitude_m"]), float(row["factor"]), tables.citation(row))
        for row in tables.read("air/altitude_strength")
    )


@formula(
    _FACTOR,
    'exp(m H / (8150 "m"))',
    {"exponent": ("Altitude exponent", "m", "1"), "altitude": _ALTITUDE},
    cite("IEC 60071-2", "edition of 1996: altitude correction counted from sea level"),
    ranges={"exponent": (0.0, 1.0), "altitude": (0.0, 4000.0)},
    note="For a co-ordination voltage at the site. On a standard level it counts 1000 m twice.",
)
def altitude_factor_from_sea_level(exponent: float, altitude: float) -> float:
    """By how much a voltage wanted at the site grows to become one at standard atmosphere.

    K_a = exp(m H/8150 m)

    Args:
        exponent: m, 1 for lightning [1].
        altitude: Height above sea level [m].

    Returns:
        Factor [1].

    Raises:
        InputError: exponent negative, altitude not finite.

    Source: IEC 60071-2:1996 — basis: memory, high confidence.
    Valid for: 0 to 4000 m; not on standard levels.
    """
    not_negative(exponent=exponent)
    finite(altitude=altitude)
    return math.exp(exponent * altitude / SCALE_HEIGHT)


@formula(
    ("Factor on the clearance", "k_d", "1"),
    '1 + 0.01 max(0, H - 1000 "m") / (100 "m")',
    {"altitude": _ALTITUDE},
    cite("IEC 60076-3", "clearances in air, 1 % for every 100 m above 1000 m"),
    ranges={"altitude": (0.0, 4000.0)},
    note="On the distance, not on the voltage.",
)
def clearance_altitude_factor(altitude: float) -> float:
    """By how much an air clearance of a transformer grows with altitude.

    k = 1 + 1 % per 100 m above 1000 m

    Args:
        altitude: Height above sea level [m].

    Returns:
        Factor on the clearance [1].

    Raises:
        InputError: altitude not finite.

    Source: IEC 60076-3 — basis: memory, high confidence.
    Valid for: up to 4000 m.
    """
    finite(altitude=altitude)
    return 1 + 0.01 * max(0.0, altitude - COVERED_ALTITUDE) / 100


@formula(
    _FACTOR,
    '1 / (k_"table" (H))',
    {"altitude": _ALTITUDE},
    cite("IEEE C57.19.100", "dielectric strength against altitude, table of IEEE Std C57.12.00"),
    ranges={"altitude": (0.0, 4500.0)},
)
def altitude_factor_by_table(altitude: float) -> float:
    """By how much a level grows with altitude, by the table of dielectric strength.

    K_a = 1/k(H), straight lines between the rows; 1 up to 1000 m

    Args:
        altitude: Height above sea level [m].

    Returns:
        Factor on the level [1].

    Raises:
        InputError: altitude not finite.

    Source: IEEE Std C57.12.00, C57.19.100 — basis: memory, high confidence.
    Valid for: up to 4500 m.
    """
    finite(altitude=altitude)
    rows = altitude_strengths()
    if altitude <= rows[0].altitude:
        return 1.0
    return 1 / along(altitude, [r.altitude for r in rows], [r.factor for r in rows])


@formula(
    ("Arcing distance that holds a lightning level", "d", "mm"),
    'U_"table" (d) (1 - 1.2816 s) = U',
    {"required_lightning": ("Lightning withstand at standard atmosphere, peak", "U", "kV")},
    cite("IEEE 4", "rod–rod gap table, solved for the gap at 90 % withstand"),
    ranges={"required_lightning": (30e3, 1000e3)},
)
def distance_for_lightning(required_lightning: float) -> float:
    """Arcing distance that withstands a lightning voltage in nine cases of ten.

    U_table(d) (1 - 1.2816 s) = U, solved for d

    Args:
        required_lightning: Withstand asked at standard atmosphere, peak [V].

    Returns:
        Arcing distance [m].

    Raises:
        InputError: voltage not above zero.

    Source: IEEE Std 4 rod–rod table; IEC 60071-2 scatter — basis: memory, high confidence.
    Valid for: 20 mm to 2 m.
    """
    positive(required_lightning=required_lightning)
    mean = required_lightning / (1 - 1.2816 * deviation("lightning").deviation)
    rows = rod_gaps()
    return along(mean, [0.0, *(r.sparkover for r in rows)], [0.0, *(r.gap for r in rows)])


@formula(
    ("Distance with its altitude factor", "d'", "mm"),
    "k_d d",
    {
        "distance": ("Distance up to 1000 m", "d", "mm"),
        "factor": ("Factor on the distance", "k_d", "1"),
    },
    cite("first principles", "definition of a factor", "exact"),
)
def raised_distance(distance: float, factor: float) -> float:
    """A distance times its altitude factor.

    d' = k d

    Args:
        distance: Distance up to 1000 m [m].
        factor: Factor on the distance [1].

    Returns:
        Distance [m].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(distance=distance, factor=factor)
    return distance * factor
