"""Loss in the plate round a conductor's hole: linear metal, saturated steel, an insert.

The conductor's field runs round the hole, H = I/(2 pi r), alike on both faces of the plate; eddy
currents flow along the bore of the hole, out on one face and back on the other. Two exact
idealisations bracket real steel: constant permeability, and an infinitely steep magnetization
curve. Both are estimates for a cover: neighbours, welds and the cover's edge are left out.
"""

import math

from shedlight.physics.domain import not_negative, ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

_CURRENT = ("Current, rms", "I", "A")
_RESISTIVITY = ("Resistivity of the plate", "rho", "nΩm")
_DEPTH = ("Skin depth in the plate", "delta", "mm")
_THICKNESS = ("Thickness of the plate", "t", "mm")
_INNER = ("Inner radius of the ring", "a", "mm")
_OUTER = ("Outer radius of the ring", "b", "mm")
_FREQUENCY = ("Frequency", "f", "Hz")
_SATURATION = ("Saturation flux density", 'B_"s"', "T")
_LINEAR = cite("Bushing plates", "plate in the field of a current, constant permeability", "exact")
_STEEP = cite("MacLean", "loss of saturated iron, step magnetization curve", "exact")


def _both_faces(depth: float, thickness: float) -> float:
    """Share of two thick faces' loss that a plate of this thickness has."""
    x = thickness / depth
    if x > 40:
        return 1.0
    if x < 0.05:  # the difference below would lose its digits
        return x**3 / 6
    return (math.sinh(x) - math.sin(x)) / (math.cosh(x) + math.cos(x))


@formula(
    ("Loss per area of the plate, both faces", "q", "W/m²"),
    "2 H^2 rho / delta (sinh xi - sin xi) / (cosh xi + cos xi), quad xi = t / delta",
    {
        "field": ("Field on both faces, rms", "H", "kA/m"),
        "resistivity": _RESISTIVITY,
        "skin_depth": _DEPTH,
        "thickness": _THICKNESS,
    },
    _LINEAR,
)
def plate_loss(field: float, resistivity: float, skin_depth: float, thickness: float) -> float:
    """Eddy-current loss of a plate with the same field along both faces.

    q = 2 H² rho/delta · (sinh xi - sin xi)/(cosh xi + cos xi), xi = t/delta

    Args:
        field: Field along the faces, rms [A/m].
        resistivity: Of the plate at its temperature [Ωm].
        skin_depth: In the plate, with its permeability [m].
        thickness: Of the plate [m].

    Returns:
        Loss per area of the plate, both faces together [W/m²].

    Raises:
        InputError: field negative, another argument not above zero.

    Source: Maxwell's equations; used for bushing plates by Kulkarni et al. (2004) — basis: exact.
    Valid for: constant permeability; hysteresis and saturation are left out.
    """
    not_negative(field=field)
    positive(resistivity=resistivity, skin_depth=skin_depth, thickness=thickness)
    return 2 * field**2 * resistivity / skin_depth * _both_faces(skin_depth, thickness)


@formula(
    ("Loss in a ring of the cover", "P", "W"),
    "(I^2 rho) / (pi delta) (sinh xi - sin xi) / (cosh xi + cos xi) ln(b / a), quad xi = t / delta",
    {
        "current": _CURRENT,
        "inner_radius": _INNER,
        "outer_radius": _OUTER,
        "resistivity": _RESISTIVITY,
        "skin_depth": _DEPTH,
        "thickness": _THICKNESS,
    },
    _LINEAR,
    note="Constant permeability; one bushing, the others far away.",
)
def ring_loss(
    current: float,
    inner_radius: float,
    outer_radius: float,
    resistivity: float,
    skin_depth: float,
    thickness: float,
) -> float:
    """Loss of a ring of plate round the conductor: of the cover, or of an insert in it.

    P = I² rho/(pi delta) · (sinh xi - sin xi)/(cosh xi + cos xi) · ln(b/a)

    Args:
        current: Current, rms [A].
        inner_radius: Inner radius of the ring, the hole's or the insert's [m].
        outer_radius: How far out the ring is counted [m].
        resistivity: Of the ring [Ωm].
        skin_depth: In the ring, with its permeability [m].
        thickness: Of the plate [m].

    Returns:
        Loss [W].

    Raises:
        InputError: current negative, radii out of order, another argument not above zero.

    Source: plate loss integrated over H = I/(2 pi r); Kulkarni et al. (2004) — basis: exact.
    Valid for: constant permeability, one conductor in the middle.
    """
    not_negative(current=current)
    positive(inner_radius=inner_radius)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    field = current / (2 * math.pi * inner_radius)
    edge = plate_loss(field, resistivity, skin_depth, thickness)
    return edge * 2 * math.pi * inner_radius**2 * math.log(outer_radius / inner_radius)


@formula(
    ("Depth that saturates", 'delta_"s"', "mm"),
    'sqrt((2 sqrt(2) H rho) / (2 pi f B_"s"))',
    {
        "field": ("Field at the surface, rms", "H", "kA/m"),
        "resistivity": _RESISTIVITY,
        "frequency": _FREQUENCY,
        "saturation": _SATURATION,
    },
    _STEEP,
)
def saturated_depth(field: float, resistivity: float, frequency: float, saturation: float) -> float:
    """How deep a strong field saturates steel in each half cycle.

    delta_s = sqrt(2 H_peak rho/(omega B_s))

    Args:
        field: Field at the surface, rms [A/m].
        resistivity: Of the steel [Ωm].
        frequency: Frequency [Hz].
        saturation: Saturation flux density [T].

    Returns:
        Depth [m].

    Raises:
        InputError: an argument not above zero.

    Source: MacLean (1954), Agarwal (1959) — basis: exact for a step magnetization curve.
    Valid for: fields far above the knee, plates thicker than twice the depth.
    """
    positive(field=field, resistivity=resistivity, frequency=frequency, saturation=saturation)
    swing = 2 * math.sqrt(2) * field * resistivity
    return math.sqrt(swing / (2 * math.pi * frequency * saturation))


@formula(
    ("Loss per area of one saturated face", "q", "W/m²"),
    '8 / (3 pi) (2 H^2 rho) / delta_"s"',
    {
        "field": ("Field at the surface, rms", "H", "kA/m"),
        "resistivity": _RESISTIVITY,
        "frequency": _FREQUENCY,
        "saturation": _SATURATION,
    },
    _STEEP,
)
def saturated_loss(field: float, resistivity: float, frequency: float, saturation: float) -> float:
    """Eddy-current loss of one face of steel that the field saturates.

    q = 8/(3 pi) · H_peak² rho/delta_s

    Args:
        field: Field at the surface, rms [A/m].
        resistivity: Of the steel [Ωm].
        frequency: Frequency [Hz].
        saturation: Saturation flux density [T].

    Returns:
        Loss per area of one face [W/m²].

    Raises:
        InputError: an argument not above zero.

    Source: MacLean (1954), Agarwal (1959) — basis: exact for a step magnetization curve.
    Valid for: fields far above the knee, plates thicker than twice the depth.
    """
    depth = saturated_depth(field, resistivity, frequency, saturation)
    return 8 / (3 * math.pi) * 2 * field**2 * resistivity / depth


@formula(
    ("Loss in a ring of saturated cover", "P", "W"),
    '8 pi a^(3 / 2) q_a (sqrt(b) - sqrt(a)), quad q_a = 8 / (3 pi) (2 H_a^2 rho) / delta_"s",'
    " quad H_a = I / (2 pi a)",
    {
        "current": _CURRENT,
        "inner_radius": _INNER,
        "outer_radius": _OUTER,
        "resistivity": _RESISTIVITY,
        "frequency": _FREQUENCY,
        "saturation": _SATURATION,
    },
    _STEEP,
    note="Grows with the square root of the outer radius: count only where the field saturates.",
)
def saturated_ring_loss(
    current: float,
    inner_radius: float,
    outer_radius: float,
    resistivity: float,
    frequency: float,
    saturation: float,
) -> float:
    """Loss of both faces of a ring of steel that the conductor's field saturates.

    P = 8 pi a^1.5 q_a (sqrt(b) - sqrt(a)), since q falls with r^-1.5

    Args:
        current: Current, rms [A].
        inner_radius: Inner radius of the ring [m].
        outer_radius: How far out the ring is counted [m].
        resistivity: Of the steel [Ωm].
        frequency: Frequency [Hz].
        saturation: Saturation flux density [T].

    Returns:
        Loss of both faces [W].

    Raises:
        InputError: radii out of order, another argument not above zero.

    Source: MacLean, Agarwal, integrated over H = I/(2 pi r) — basis: exact for a step curve.
    Valid for: fields far above the knee, plates thicker than twice the depth.
    """
    positive(current=current, inner_radius=inner_radius)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    field = current / (2 * math.pi * inner_radius)
    edge = saturated_loss(field, resistivity, frequency, saturation)
    reach = math.sqrt(outer_radius) - math.sqrt(inner_radius)
    return float(8 * math.pi * inner_radius**1.5 * edge * reach)


@formula(
    ("Radius at which the field has fallen", "r", "mm"),
    "I / (2 pi H)",
    {"current": _CURRENT, "field": ("Field wanted, rms", "H", "kA/m")},
    cite("first principles", "Ampère's law", "exact"),
)
def radius_of_field(current: float, field: float) -> float:
    """How far out an insert has to reach, so that the steel beyond sees at most a field.

    r = I/(2 pi H)

    Args:
        current: Current, rms [A].
        field: Field allowed in steel, rms [A/m].

    Returns:
        Radius [m].

    Raises:
        InputError: current negative, field not above zero.

    Source: Ampère's law — basis: exact.
    Valid for: one conductor, centred, the others far away.
    """
    not_negative(current=current)
    positive(field=field)
    return current / (2 * math.pi * field)
