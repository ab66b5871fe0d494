"""Porcelain as a brittle solid: scatter of strength, size, time, glaze, temperature steps."""

import math

from shedlight.physics.domain import finite, not_negative, ordered, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

_STRESS = ("Stress", "sigma", "MPa")
_CHARACTERISTIC = ("Stress that breaks 63 %", "sigma_0", "MPa")
_MODULUS = ("Weibull modulus", "m", "1")
_WEIBULL = cite("Weibull", "two-parameter distribution of strength", "exact")


@formula(
    ("Probability of fracture", 'P_"f"', "1"),
    "1 - exp(-(sigma / sigma_0)^m)",
    {"stress": _STRESS, "characteristic_stress": _CHARACTERISTIC, "modulus": _MODULUS},
    _WEIBULL,
)
def weibull_probability(stress: float, characteristic_stress: float, modulus: float) -> float:
    """Share of bodies that break at a stress.

    P = 1 - exp(-(sigma/sigma_0)^m)

    Args:
        stress: Tensile stress [Pa].
        characteristic_stress: Stress that breaks 63 % of the bodies [Pa].
        modulus: Weibull modulus, 8 to 15 for electrical porcelain [1].

    Returns:
        Probability, 0 to 1 [1].

    Raises:
        InputError: stress negative, another argument not above zero.

    Source: Weibull — basis: exact (the distribution; its parameters are measured).
    Valid for: bodies of the size the characteristic stress was measured on.
    """
    not_negative(stress=stress)
    positive(characteristic_stress=characteristic_stress, modulus=modulus)
    return -math.expm1(-((stress / characteristic_stress) ** modulus))


@formula(
    _STRESS,
    'sigma_0 (-ln(1 - P_"f"))^(1 / m)',
    {
        "probability": ("Probability of fracture", 'P_"f"', "1"),
        "characteristic_stress": _CHARACTERISTIC,
        "modulus": _MODULUS,
    },
    _WEIBULL,
)
def weibull_stress(probability: float, characteristic_stress: float, modulus: float) -> float:
    """Stress that breaks a given share of bodies.

    sigma = sigma_0 (-ln(1 - P))^(1/m)

    Args:
        probability: Share that breaks, 0 to below 1 [1].
        characteristic_stress: Stress that breaks 63 % of the bodies [Pa].
        modulus: Weibull modulus [1].

    Returns:
        Stress [Pa].

    Raises:
        InputError: probability outside 0 to 1, another argument not above zero.

    Source: Weibull — basis: exact.
    Valid for: bodies of the size the characteristic stress was measured on.
    """
    within(0.0, math.nextafter(1.0, 0.0), probability=probability)
    positive(characteristic_stress=characteristic_stress, modulus=modulus)
    return float(characteristic_stress * (-math.log1p(-probability)) ** (1 / modulus))


@formula(
    ("Size factor of strength", 'k_"V"', "1"),
    "(V_0 / V)^(1 / m)",
    {"volume_ratio": ("Stressed volume over that tested", "V slash V_0", "1"), "modulus": _MODULUS},
    _WEIBULL,
)
def weibull_size_factor(volume_ratio: float, modulus: float) -> float:
    """By how much a larger body is weaker.

    k = (V0/V)^(1/m)

    Args:
        volume_ratio: Stressed volume over that of the bodies tested [1].
        modulus: Weibull modulus [1].

    Returns:
        Factor on the characteristic stress [1].

    Raises:
        InputError: an argument not above zero.

    Source: Weibull, weakest link — basis: exact.
    Valid for: the same kind of flaw everywhere.
    """
    positive(volume_ratio=volume_ratio, modulus=modulus)
    return float(volume_ratio ** (-1 / modulus))


@formula(
    ("Time factor of strength", 'k_"t"', "1"),
    "(t_0 / t)^(1 / n)",
    {
        "time_ratio": ("Time under load over that tested", "t slash t_0", "1"),
        "growth_exponent": ("Slow crack growth exponent", "n", "1"),
    },
    cite("Ceramics", "static fatigue, exponent 25 to 30 in moist air", "memory", "medium"),
    ranges={"growth_exponent": (20.0, 40.0)},
)
def static_fatigue_factor(time_ratio: float, growth_exponent: float) -> float:
    """By how much a load that stays is borne less than one of a short test.

    k = (t0/t)^(1/n)

    Args:
        time_ratio: Time under load over that in the test [1].
        growth_exponent: 25 to 30 for porcelain in moist air [1].

    Returns:
        Factor on the strength [1].

    Raises:
        InputError: an argument not above zero.

    Source: literature on ceramics — basis: memory, medium confidence.
    Valid for: moist air.
    """
    positive(time_ratio=time_ratio, growth_exponent=growth_exponent)
    return float(time_ratio ** (-1 / growth_exponent))


@formula(
    ("Compression in the glaze", 'sigma_"g"', "MPa"),
    "(Delta alpha Delta T) / ((1 - nu) / E_g + (1 - nu) / E_b dot t_g / t_b)",
    {
        "expansion_difference": ("Expansion of body less glaze", "Delta alpha", "µ/K"),
        "cooling": ("Cooling from where the glaze sets", "Delta T", "K"),
        "glaze_modulus": ("Elastic modulus of the glaze", "E_g", "GPa"),
        "body_modulus": ("Elastic modulus of the body", "E_b", "GPa"),
        "poisson": ("Poisson's ratio of both", "nu", "1"),
        "glaze_thickness": ("Thickness of the glaze", "t_g", "mm"),
        "body_thickness": ("Thickness of the body", "t_b", "mm"),
    },
    cite("Timoshenko", "two bonded layers, equal biaxial strain", "exact"),
)
def glaze_compression(
    expansion_difference: float,
    cooling: float,
    glaze_modulus: float,
    body_modulus: float,
    poisson: float,
    glaze_thickness: float,
    body_thickness: float,
) -> float:
    """Compression that a glaze keeps after firing because it shrinks less than its body.

    sigma = Delta alpha Delta T/((1 - nu)/E_g + (1 - nu)/E_b · t_g/t_b)

    Args:
        expansion_difference: Expansion of body less glaze; negative crazes [1/K].
        cooling: From where the glaze sets to ambient [K].
        glaze_modulus: Elastic modulus of the glaze [Pa].
        body_modulus: Elastic modulus of the body [Pa].
        poisson: Poisson's ratio of both, 0 to 0.5 [1].
        glaze_thickness: Thickness of the glaze [m].
        body_thickness: Thickness of the body [m].

    Returns:
        Compressive stress in the glaze, tension negative [Pa].

    Raises:
        InputError: an argument out of its domain.

    Source: two bonded layers — basis: exact.
    Valid for: walls that stay flat or round.
    """
    finite(expansion_difference=expansion_difference)
    not_negative(cooling=cooling, glaze_thickness=glaze_thickness)
    positive(glaze_modulus=glaze_modulus, body_modulus=body_modulus, body_thickness=body_thickness)
    within(0.0, 0.5, poisson=poisson)
    give = 1 / glaze_modulus + glaze_thickness / (body_modulus * body_thickness)
    return expansion_difference * cooling / ((1 - poisson) * give)


_THERMAL = {
    "outer_radius": ("Outer radius", "r_o", "mm"),
    "inner_radius": ("Inner radius", "r_i", "mm"),
    "difference": ("Bore warmer than outside", "Delta T", "K"),
    "elastic_modulus": ("Elastic modulus", "E", "GPa"),
    "expansion": ("Thermal expansion", "alpha", "µ/K"),
    "poisson": ("Poisson's ratio", "nu", "1"),
}


def _wall(
    outer_radius: float,
    inner_radius: float,
    difference: float,
    elastic_modulus: float,
    expansion: float,
    poisson: float,
) -> tuple[float, float]:
    """Stress per unit of the bracket, and the ratio of the radii."""
    positive(inner_radius=inner_radius, elastic_modulus=elastic_modulus, expansion=expansion)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    within(0.0, 0.5, poisson=poisson)
    finite(difference=difference)
    ratio = outer_radius / inner_radius
    return elastic_modulus * expansion * difference / (2 * (1 - poisson) * math.log(ratio)), ratio


@formula(
    ("Thermal hoop stress at the bore", 'sigma_"i"', "MPa"),
    "(E alpha Delta T) / (2 (1 - nu) ln k) (1 - (2 k^2) / (k^2 - 1) ln k), quad k = r_o / r_i",
    _THERMAL,
    cite("Timoshenko", "hollow cylinder with radial heat flow", "exact"),
)
def thermal_hoop_at_bore(
    outer_radius: float,
    inner_radius: float,
    difference: float,
    elastic_modulus: float,
    expansion: float,
    poisson: float,
) -> float:
    """Stress round the bore of a wall that is warmer inside: compression.

    sigma = E alpha Delta T/(2 (1 - nu) ln k) · (1 - 2 k²/(k² - 1) · ln k), k = r_o/r_i

    Args:
        outer_radius: Outer radius [m].
        inner_radius: Inner radius [m].
        difference: Bore temperature less outside temperature [K].
        elastic_modulus: Elastic modulus [Pa].
        expansion: Thermal expansion [1/K].
        poisson: Poisson's ratio, 0 to 0.5 [1].

    Returns:
        Hoop stress, tension positive [Pa].

    Raises:
        InputError: an argument out of its domain.

    Source: Timoshenko and Goodier — basis: exact.
    Valid for: steady heat flow, away from the ends.
    """
    scale, k = _wall(outer_radius, inner_radius, difference, elastic_modulus, expansion, poisson)
    return scale * (1 - 2 * k**2 / (k**2 - 1) * math.log(k))


@formula(
    ("Thermal hoop stress outside", 'sigma_"o"', "MPa"),
    "(E alpha Delta T) / (2 (1 - nu) ln k) (1 - 2 / (k^2 - 1) ln k), quad k = r_o / r_i",
    _THERMAL,
    cite("Timoshenko", "hollow cylinder with radial heat flow", "exact"),
)
def thermal_hoop_outside(
    outer_radius: float,
    inner_radius: float,
    difference: float,
    elastic_modulus: float,
    expansion: float,
    poisson: float,
) -> float:
    """Stress round the outside of a wall that is warmer inside: tension.

    sigma = E alpha Delta T/(2 (1 - nu) ln k) · (1 - 2/(k² - 1) · ln k), k = r_o/r_i

    Args:
        outer_radius: Outer radius [m].
        inner_radius: Inner radius [m].
        difference: Bore temperature less outside temperature [K].
        elastic_modulus: Elastic modulus [Pa].
        expansion: Thermal expansion [1/K].
        poisson: Poisson's ratio, 0 to 0.5 [1].

    Returns:
        Hoop stress, tension positive [Pa].

    Raises:
        InputError: an argument out of its domain.

    Source: Timoshenko and Goodier — basis: exact.
    Valid for: steady heat flow, away from the ends.
    """
    scale, k = _wall(outer_radius, inner_radius, difference, elastic_modulus, expansion, poisson)
    return scale * (1 - 2 / (k**2 - 1) * math.log(k))
