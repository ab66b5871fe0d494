"""How much creepage a site asks for, and the numbers that describe a shed profile.

Specific creepage counts per kilovolt ACROSS the insulator (rms, to earth in normal service), never
per kilovolt phase to phase: mixing the two is wrong by the root of three.
"""

import math

from shedlight.physics.domain import finite, not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

_COVERED_ALTITUDE = 1000.0  # [m]
_SCALE_HEIGHT = 8150.0  # [m]
_AVERAGE = ("Average diameter", "D_a", "mm")
_DIAMETER_FACTOR = ("Diameter factor", 'K_"ad"', "1")
_ALTITUDE_FACTOR = ("Altitude factor on creepage", "K_a", "1")
_PROFILE_FACTOR = ("Profile factor", "P_f", "1")
_PITCH = ("Shed pitch", "s", "mm")
_PER_PITCH = ("Creepage per pitch", "l_d", "mm")


@formula(
    ("Least creepage", 'L_"min"', "mm"),
    'S_u U K_"ad" K_a',
    {
        "specific_creepage": ("Specific creepage asked for", "S_u", "mm/kV"),
        "voltage_across": ("Voltage across the insulator, rms", "U", "kV"),
        "diameter_factor": _DIAMETER_FACTOR,
        "altitude_factor": _ALTITUDE_FACTOR,
    },
    cite("IEC 60815-1", "unified specific creepage distance", "published"),
)
def minimum_creepage(
    specific_creepage: float,
    voltage_across: float,
    diameter_factor: float,
    altitude_factor: float,
) -> float:
    """Creepage that a site asks for.

    L = S_u U K_ad K_a

    Args:
        specific_creepage: Of the site's class, per rms voltage across the insulator [m/V].
        voltage_across: Highest lasting voltage across the insulator, rms: Um/√3, or Um where an
            earth fault may stand for hours [V].
        diameter_factor: From :func:`diameter_factor` [1].
        altitude_factor: From :func:`altitude_creepage_factor` [1].

    Returns:
        Least creepage [m].

    Raises:
        InputError: an argument not above zero.

    Source: IEC TS 60815-1:2008 and -2:2008 — basis: published (quoted by third parties).
    Valid for: porcelain and glass on alternating voltage.
    """
    positive(
        specific_creepage=specific_creepage,
        voltage_across=voltage_across,
        diameter_factor=diameter_factor,
        altitude_factor=altitude_factor,
    )
    return specific_creepage * voltage_across * diameter_factor * altitude_factor


@formula(
    _AVERAGE,
    '(2 D_t + D_"s1" + D_"s2") / 4',
    {
        "trunk": ("Trunk diameter", "D_t", "mm"),
        "shed_one": ("Diameter of a shed", 'D_"s1"', "mm"),
        "shed_two": ("Diameter of the next shed", 'D_"s2"', "mm"),
    },
    cite("IEC 60815-1", "average diameter"),
)
def average_diameter(trunk: float, shed_one: float, shed_two: float) -> float:
    """Average diameter of a shedded body.

    D_a = (2 D_t + D_s1 + D_s2)/4

    Args:
        trunk: Diameter between the sheds [m].
        shed_one: Diameter of one shed [m].
        shed_two: Diameter of the next one; the same for plain sheds [m].

    Returns:
        Average diameter [m].

    Raises:
        InputError: an argument not above zero.

    Source: IEC TS 60815-1:2008 — basis: memory, high confidence.
    Valid for: cylindrical bodies; of tapered ones take the mean along the length.
    """
    positive(trunk=trunk, shed_one=shed_one, shed_two=shed_two)
    return (2 * trunk + shed_one + shed_two) / 4


@formula(
    _DIAMETER_FACTOR,
    'max(1, 0.85 + (0.0005 D_a) / (1 "mm"))',
    {"average_diameter": _AVERAGE},
    cite("IEC 60815-2", "correction for large diameters", "published"),
)
def diameter_factor(average_diameter: float) -> float:
    """How much more creepage a wide porcelain needs.

    K_ad = 1 below 300 mm, 0.0005 D_a + 0.85 from there on (D_a in mm)

    Args:
        average_diameter: From :func:`average_diameter` [m].

    Returns:
        Factor on the creepage, at least 1 [1].

    Raises:
        InputError: average diameter not above zero.

    Source: IEC TS 60815-2:2008 — basis: published (quoted by third parties).
    Valid for: porcelain and glass.
    """
    positive(average_diameter=average_diameter)
    return max(1.0, 0.85 + 0.5 * average_diameter)


@formula(
    _DIAMETER_FACTOR,
    'cases(1 & "for" D_a < 300 "mm", 1.1 & "for" D_a <= 500 "mm", 1.2 & "for" D_a > 500 "mm")',
    {"average_diameter": _AVERAGE},
    cite("IEC 815", "influence of the diameter"),
)
def diameter_factor_1986(average_diameter: float) -> float:
    """How much more creepage a wide porcelain needs, by the rule of 1986: a rival in steps.

    K_ad = 1 below 300 mm, 1.1 from 300 to 500 mm, 1.2 above

    Args:
        average_diameter: From :func:`average_diameter` [m].

    Returns:
        Factor on the creepage [1].

    Raises:
        InputError: average diameter not above zero.

    Source: IEC 815:1986 — basis: memory, high confidence.
    Valid for: porcelain and glass.
    """
    positive(average_diameter=average_diameter)
    if average_diameter < 0.3:
        return 1.0
    return 1.1 if average_diameter <= 0.5 else 1.2


@formula(
    _ALTITUDE_FACTOR,
    'max(1, exp(m (H - 1000 "m") / (8150 "m")))',
    {"exponent": ("Altitude exponent", "m", "1"), "altitude": ("Altitude", "H", "m")},
    cite("IEC 60071-2", "polluted insulators, exponent marked tentative", "memory", "medium"),
    ranges={"exponent": (0.3, 0.8), "altitude": (0.0, 4000.0)},
    note="About 0.5 for plain, 0.8 for anti-fog profiles; many users correct only above 1500 m.",
)
def altitude_creepage_factor(exponent: float, altitude: float) -> float:
    """How much more creepage thin air asks for.

    K_a = exp(m (H - 1000 m)/8150 m), and 1 up to 1000 m

    Args:
        exponent: About 0.5 for plain sheds, 0.8 for anti-fog profiles [1].
        altitude: Height above sea level [m].

    Returns:
        Factor on the creepage, at least 1 [1].

    Raises:
        InputError: exponent negative, altitude not a finite number.

    Source: IEC 60071-2, exponent tentative — basis: memory, medium confidence.
    Valid for: 0 to 4000 m, exponent 0.3 to 0.8.
    """
    not_negative(exponent=exponent)
    finite(altitude=altitude)
    return math.exp(exponent * max(0.0, altitude - _COVERED_ALTITUDE) / _SCALE_HEIGHT)


@formula(
    ("Creepage factor", "C_f", "1"),
    "L / A",
    {
        "creepage": ("Creepage", "L", "mm"),
        "arcing_distance": ("Arcing distance", "A", "mm"),
    },
    cite("IEC 60815-2", "creepage factor"),
)
def creepage_factor(creepage: float, arcing_distance: float) -> float:
    """How densely creepage is packed.

    C_f = L/A

    Args:
        creepage: Total creepage [m].
        arcing_distance: Shortest distance in air outside the body between its metal ends, without
            horns; not the insulating height [m].

    Returns:
        Creepage factor [1].

    Raises:
        InputError: an argument not above zero.

    Source: IEC TS 60815-2:2008, IEC 815:1986 — basis: memory, high confidence.
    Valid for: whole insulators.
    """
    positive(creepage=creepage, arcing_distance=arcing_distance)
    return creepage / arcing_distance


@formula(
    _PROFILE_FACTOR,
    "(2 p + s) / l_d",
    {"overhang": ("Shed overhang", "p", "mm"), "pitch": _PITCH, "creepage_per_pitch": _PER_PITCH},
    cite("IEC 815", "profile factor, plain sheds"),
)
def profile_factor_plain(overhang: float, pitch: float, creepage_per_pitch: float) -> float:
    """How simply the surface follows the sheds: equal sheds.

    P_f = (2 p + s)/l_d

    Args:
        overhang: Shed overhang over the trunk [m].
        pitch: From shed to next shed [m].
        creepage_per_pitch: Creepage along one pitch [m].

    Returns:
        Profile factor [1].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 815:1986 — basis: memory, high confidence.
    Valid for: equal sheds.
    """
    positive(overhang=overhang, pitch=pitch, creepage_per_pitch=creepage_per_pitch)
    return (2 * overhang + pitch) / creepage_per_pitch


@formula(
    _PROFILE_FACTOR,
    "(2 p_1 + 2 p_2 + s) / l_d",
    {
        "large_overhang": ("Overhang of the large sheds", "p_1", "mm"),
        "small_overhang": ("Overhang of the small sheds", "p_2", "mm"),
        "pitch": ("Shed pitch, large to next large", "s", "mm"),
        "creepage_per_pitch": _PER_PITCH,
    },
    cite("IEC 815", "profile factor, alternating sheds"),
)
def profile_factor_alternating(
    large_overhang: float, small_overhang: float, pitch: float, creepage_per_pitch: float
) -> float:
    """How simply the surface follows the sheds: large and small ones in turn.

    P_f = (2 p_1 + 2 p_2 + s)/l_d over one full repeat

    Args:
        large_overhang: Overhang of the large sheds [m].
        small_overhang: Overhang of the small sheds [m].
        pitch: From large shed to next large shed [m].
        creepage_per_pitch: Creepage along that pitch [m].

    Returns:
        Profile factor [1].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 815:1986 — basis: memory, high confidence.
    Valid for: sheds that alternate between two sizes.
    """
    positive(
        large_overhang=large_overhang,
        small_overhang=small_overhang,
        pitch=pitch,
        creepage_per_pitch=creepage_per_pitch,
    )
    return (2 * large_overhang + 2 * small_overhang + pitch) / creepage_per_pitch
