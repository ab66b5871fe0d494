"""Whether a joint stays pressed: scatter of tightening, warming of unlike metals, disc springs."""

import math

from shedlight.physics.domain import finite, not_negative, ordered, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

_FORCE = ("Clamp force aimed at", "F", "kN")
_SCATTER = ("Scatter", "s", "%")
_STIFFNESS = ("Stiffness", "k", "kN/mm")


@formula(
    ("Least clamp force", 'F_"low"', "kN"),
    "F (1 - s)",
    {"force": _FORCE, "scatter": _SCATTER},
    cite("trade", "scatter of clamp force at equal torque", "practice", "medium"),
)
def least_clamp_force(force: float, scatter: float) -> float:
    """Clamp force of the worst bolt, for resistance and tightness.

    F_low = F (1 - s)

    Args:
        force: Clamp force aimed at [N].
        scatter: By the way of tightening, see ``clamp_scatter.csv``, 0 to 1 [1].

    Returns:
        Force [N].

    Raises:
        InputError: force negative, scatter outside 0 to 1.

    Source: habit of the trade — basis: practice.
    Valid for: bolts tightened alike.
    """
    not_negative(force=force)
    within(0.0, 1.0, scatter=scatter)
    return force * (1 - scatter)


@formula(
    ("Greatest clamp force", 'F_"high"', "kN"),
    "F (1 + s)",
    {"force": _FORCE, "scatter": _SCATTER},
    cite("trade", "scatter of clamp force at equal torque", "practice", "medium"),
)
def greatest_clamp_force(force: float, scatter: float) -> float:
    """Clamp force of the tightest bolt, for the bolt and the gasket.

    F_high = F (1 + s)

    Args:
        force: Clamp force aimed at [N].
        scatter: By the way of tightening, see ``clamp_scatter.csv``, 0 to 1 [1].

    Returns:
        Force [N].

    Raises:
        InputError: force negative, scatter outside 0 to 1.

    Source: habit of the trade — basis: practice.
    Valid for: bolts tightened alike.
    """
    not_negative(force=force)
    within(0.0, 1.0, scatter=scatter)
    return force * (1 + scatter)


@formula(
    _STIFFNESS,
    "(E A) / l",
    {
        "elastic_modulus": ("Elastic modulus", "E", "GPa"),
        "area": ("Area under stress", "A", "mm²"),
        "length": ("Length under stress", "l", "mm"),
    },
    cite("first principles", "Hooke's law", "exact"),
)
def axial_stiffness(elastic_modulus: float, area: float, length: float) -> float:
    """Force per elongation of a bolt, a tie or a pressed sleeve.

    k = E A/l

    Args:
        elastic_modulus: Elastic modulus [Pa].
        area: Area under stress [m²].
        length: Length under stress [m].

    Returns:
        Stiffness [N/m].

    Raises:
        InputError: an argument not above zero.

    Source: Hooke's law — basis: exact.
    Valid for: even stress.
    """
    positive(elastic_modulus=elastic_modulus, area=area, length=length)
    return elastic_modulus * area / length


@formula(
    ("Change of the clamp force", "Delta F", "kN"),
    '((alpha_"c" - alpha_"b") Delta T thin l) / (sum 1 slash k)',
    {
        "clamped_expansion": ("Expansion of what is clamped", 'alpha_"c"', "µ/K"),
        "bolt_expansion": ("Expansion of the bolt", 'alpha_"b"', "µ/K"),
        "warming": ("Warming since tightening", "Delta T", "K"),
        "length": ("Clamped length", "l", "mm"),
        "stiffnesses": ("Stiffness of bolt, parts and springs, in series", "k", "kN/mm"),
    },
    cite("first principles", "springs in series, thermal expansion", "exact"),
    note="Above what soft metal bears it flows, and the force is lost on cooling.",
)
def thermal_clamp_change(
    clamped_expansion: float,
    bolt_expansion: float,
    warming: float,
    length: float,
    stiffnesses: tuple[float, ...],
) -> float:
    """By how much warming tightens a joint of unlike metals; soft springs keep it even.

    Delta F = (alpha_c - alpha_b) Delta T l/sum(1/k)

    Args:
        clamped_expansion: Of the clamped parts [1/K].
        bolt_expansion: Of the bolt or tie [1/K].
        warming: Since tightening; negative on cooling [K].
        length: Clamped length [m].
        stiffnesses: Of bolt, clamped parts and disc springs, in series [N/m].

    Returns:
        Change of force; positive tightens [N].

    Raises:
        InputError: an expansion or warming not finite, another argument not above zero.

    Source: springs in series — basis: exact.
    Valid for: elastic parts at one temperature.
    """
    finite(clamped_expansion=clamped_expansion, bolt_expansion=bolt_expansion, warming=warming)
    positive(length=length)
    for stiffness in stiffnesses:
        positive(stiffnesses=stiffness)
    give = sum(1 / stiffness for stiffness in stiffnesses)
    positive(give=give)
    return (clamped_expansion - bolt_expansion) * warming * length / give


@formula(
    ("Force of the disc spring", "F", "kN"),
    "(4 E) / (1 - nu^2) t^4 / (K_1 D^2) s / t"
    " [(h / t - s / t) (h / t - s / (2 t)) + 1],"
    " quad K_1 = 1 / pi ((delta - 1) / delta)^2 / ((delta + 1) / (delta - 1) - 2 / (ln delta)),"
    " quad delta = D / d",
    {
        "deflection": ("Deflection", "s", "mm"),
        "thickness": ("Thickness", "t", "mm"),
        "cone_height": ("Height of the free cone", "h", "mm"),
        "outer_diameter": ("Outer diameter", "D", "mm"),
        "inner_diameter": ("Inner diameter", "d", "mm"),
        "elastic_modulus": ("Elastic modulus", "E", "GPa"),
        "poisson": ("Poisson's ratio", "nu", "1"),
    },
    cite("Almen & Laszlo", "load of a conical disc spring"),
    note="Flat at s = h; use up to 0.75 h.",
)
def disc_spring_force(
    deflection: float,
    thickness: float,
    cone_height: float,
    outer_diameter: float,
    inner_diameter: float,
    elastic_modulus: float = 206e9,
    poisson: float = 0.3,
) -> float:
    """Force of a conical disc spring (Belleville washer) pressed by a deflection.

    F = 4 E/(1 - nu²) · t⁴/(K1 D²) · s/t · [(h/t - s/t)(h/t - s/(2 t)) + 1]

    Args:
        deflection: From free, at most the cone's height [m].
        thickness: Thickness of the disc [m].
        cone_height: Height of the free cone, without the thickness [m].
        outer_diameter: Outer diameter [m].
        inner_diameter: Inner diameter [m].
        elastic_modulus: 206 GPa for spring steel [Pa].
        poisson: 0.3 for steel, 0 to 0.5 [1].

    Returns:
        Force [N].

    Raises:
        InputError: deflection outside 0 to the cone's height, diameters out of order, another
            argument not above zero.

    Source: Almen and Laszlo (1936), DIN 2092 — basis: memory, high confidence.
    Valid for: discs without contact flats, ratio of diameters 1.75 to 2.5.
    """
    positive(thickness=thickness, cone_height=cone_height, elastic_modulus=elastic_modulus)
    positive(inner_diameter=inner_diameter)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)
    within(0.0, cone_height, deflection=deflection)
    within(0.0, 0.5, poisson=poisson)
    ratio = outer_diameter / inner_diameter
    shape = ((ratio - 1) / ratio) ** 2 / math.pi
    shape /= (ratio + 1) / (ratio - 1) - 2 / math.log(ratio)
    scale = 4 * elastic_modulus / (1 - poisson**2) * thickness**4 / (shape * outer_diameter**2)
    cone, pressed = cone_height / thickness, deflection / thickness
    return scale * pressed * ((cone - pressed) * (cone - pressed / 2) + 1)
