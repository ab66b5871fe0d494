"""Sudden cooling: stress of the skin, and the step of temperature that a wall survives."""

import math

from shedlight.physics.domain import finite, ordered, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

_MODULUS = ("Elastic modulus", "E", "GPa")
_EXPANSION = ("Thermal expansion", "alpha", "µ/K")
_POISSON = ("Poisson's ratio", "nu", "1")
_SHOCK = cite("Kingery", "thermal stress of a suddenly cooled surface", "exact")


@formula(
    ("Stress of the skin", "sigma", "MPa"),
    "psi (E alpha Delta T) / (1 - nu)",
    {
        "elastic_modulus": _MODULUS,
        "expansion": _EXPANSION,
        "cooling": ("Step of temperature", "Delta T", "K"),
        "poisson": _POISSON,
        "severity": ("Share of the full shock", "psi", "1"),
    },
    _SHOCK,
)
def shock_stress(
    elastic_modulus: float,
    expansion: float,
    cooling: float,
    poisson: float,
    severity: float = 1.0,
) -> float:
    """Tension in the skin of a body that is suddenly cooled, as by rain on a hot porcelain.

    sigma = psi E alpha Delta T/(1 - nu)

    Args:
        elastic_modulus: Elastic modulus [Pa].
        expansion: Thermal expansion [1/K].
        cooling: Body less coolant; negative on heating [K].
        poisson: Poisson's ratio, 0 to 0.5 [1].
        severity: 1 for an infinitely good coolant, else :func:`shock_severity` [1].

    Returns:
        Stress, tension positive [Pa].

    Raises:
        InputError: an argument out of its domain.

    Source: Kingery (1955) — basis: exact.
    Valid for: away from edges.
    """
    positive(elastic_modulus=elastic_modulus, expansion=expansion)
    finite(cooling=cooling)
    within(0.0, 0.5, poisson=poisson)
    within(0.0, 1.0, severity=severity)
    return severity * elastic_modulus * expansion * cooling / (1 - poisson)


@formula(
    ("Biot number", '"Bi"', "1"),
    "(h s) / k",
    {
        "film": ("Film coefficient of the coolant", "h", "W/m²K"),
        "half_thickness": ("Half the wall, cooled from both sides", "s", "mm"),
        "conductivity": ("Thermal conductivity of the wall", "k", "W/mK"),
    },
    cite("first principles", "definition", "exact"),
)
def biot(film: float, half_thickness: float, conductivity: float) -> float:
    """How well a coolant takes heat, against how well the wall brings it.

    Bi = h s/k

    Args:
        film: Film coefficient of the coolant [W/m²K].
        half_thickness: Half the wall if cooled from both sides, all of it if from one [m].
        conductivity: Thermal conductivity of the wall [W/mK].

    Returns:
        Biot number [1].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(film=film, half_thickness=half_thickness, conductivity=conductivity)
    return film * half_thickness / conductivity


@formula(
    ("Share of the full shock", "psi", "1"),
    '1 / (1.5 + 3.25 / "Bi" - 0.5 e^(-16 slash "Bi"))',
    {"biot": ("Biot number", '"Bi"', "1")},
    cite("Kingery", "largest stress of a plate after Manson and Buessem", "memory", "medium"),
    ranges={"biot": (0.05, 1e6)},
)
def shock_severity(biot: float) -> float:
    """How much of the full shock a wall feels that is cooled less than infinitely well.

    psi = 1/(1.5 + 3.25/Bi - 0.5 exp(-16/Bi))

    Args:
        biot: Biot number [1].

    Returns:
        Share, below 1 [1].

    Raises:
        InputError: Biot number not above zero.

    Source: Manson, as in Kingery (1955) — basis: memory, medium confidence.
    Valid for: plates cooled from both sides, within some percent.
    """
    positive(biot=biot)
    return 1 / (1.5 + 3.25 / biot - 0.5 * math.exp(-16 / biot))


@formula(
    ("Step of temperature that breaks", 'Delta T_"c"', "K"),
    "(sigma (1 - nu)) / (psi E alpha)",
    {
        "strength": ("Tensile strength of the skin", "sigma", "MPa"),
        "elastic_modulus": _MODULUS,
        "expansion": _EXPANSION,
        "poisson": _POISSON,
        "severity": ("Share of the full shock", "psi", "1"),
    },
    _SHOCK,
)
def critical_step(
    strength: float,
    elastic_modulus: float,
    expansion: float,
    poisson: float,
    severity: float = 1.0,
) -> float:
    """Sudden cooling at which the skin reaches its strength.

    Delta T = sigma (1 - nu)/(psi E alpha)

    Args:
        strength: Tensile strength of the skin, glaze included [Pa].
        elastic_modulus: Elastic modulus [Pa].
        expansion: Thermal expansion [1/K].
        poisson: Poisson's ratio, 0 to 0.5 [1].
        severity: 1 for an infinitely good coolant [1].

    Returns:
        Step of temperature [K].

    Raises:
        InputError: an argument out of its domain.

    Source: Kingery (1955) — basis: exact.
    Valid for: away from edges.
    """
    positive(
        strength=strength, elastic_modulus=elastic_modulus, expansion=expansion, severity=severity
    )
    within(0.0, 0.5, poisson=poisson)
    return strength * (1 - poisson) / (severity * elastic_modulus * expansion)


@formula(
    ("Temperature difference across the wall", 'Delta T_"w"', "K"),
    "(theta_i - theta_o) / (1 + k / (h r_o ln(r_o / r_i)))",
    {
        "inside": ("Temperature at the bore", "theta_i", "°C"),
        "outside": ("Temperature of the air", "theta_o", "°C"),
        "film": ("Film coefficient outside", "h", "W/m²K"),
        "conductivity": ("Thermal conductivity of the wall", "k", "W/mK"),
        "outer_radius": ("Outer radius", "r_o", "mm"),
        "inner_radius": ("Inner radius", "r_i", "mm"),
    },
    cite("Carslaw", "hollow cylinder with surface transfer", "exact"),
)
def wall_difference(
    inside: float,
    outside: float,
    film: float,
    conductivity: float,
    outer_radius: float,
    inner_radius: float,
) -> float:
    """How much warmer the bore of a wall is than its outside, in a steady flow of heat.

    Delta T = (theta_i - theta_o)/(1 + k/(h r_o ln(r_o/r_i)))

    Args:
        inside: Temperature at the bore [K].
        outside: Temperature of the air [K].
        film: Film coefficient outside [W/m²K].
        conductivity: Of the wall [W/mK].
        outer_radius: Outer radius [m].
        inner_radius: Inner radius [m].

    Returns:
        Difference, bore warmer positive [K].

    Raises:
        InputError: an argument not above zero, radii out of order.

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: walls without sheds, heat flowing straight outward.
    """
    positive(inside=inside, outside=outside, film=film, conductivity=conductivity)
    positive(inner_radius=inner_radius)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    across = film * outer_radius * math.log(outer_radius / inner_radius)
    return (inside - outside) * across / (across + conductivity)


@formula(
    ("Step of temperature", "Delta T", "K"),
    'theta_"a" + Delta theta - theta_"r"',
    {
        "hottest_air": ("Highest air temperature", 'theta_"a"', "°C"),
        "surface_rise": ("Rise of the surface over it", "Delta theta", "K"),
        "rain": ("Temperature of the rain", 'theta_"r"', "°C"),
    },
    cite("first principles", "definition", "exact"),
)
def rain_step(hottest_air: float, surface_rise: float, rain: float) -> float:
    """By how much a cold rain is colder than the sun-warmed porcelain it falls on.

    Delta T = theta_a + Delta theta - theta_r, at least 0

    Args:
        hottest_air: Highest air temperature [K].
        surface_rise: Rise of the surface over it, by sun and current [K].
        rain: Temperature of the rain [K].

    Returns:
        Step; none where the rain is warmer [K].

    Raises:
        InputError: a temperature not above zero, rise not finite.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(hottest_air=hottest_air, rain=rain)
    finite(surface_rise=surface_rise)
    return max(0.0, hottest_air + surface_rise - rain)
