"""From a small test bar to a large body: the stressed volume and surface of what is bent.

Weakest link: a body in which the stress varies breaks like an evenly pulled one of the effective
volume V_e = ∫ (sigma/sigma_max)^m dV over its pulled half, or likewise of its surface.
"""

import math

from scipy.special import gammaln

from shedlight.physics.domain import not_negative, ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

_MODULUS = ("Weibull modulus", "m", "1")
_INPUTS = {
    "outer_diameter": ("Outer diameter", "D", "mm"),
    "inner_diameter": ("Inner diameter", "d", "mm"),
    "length": ("Length under load", "L", "mm"),
    "modulus": _MODULUS,
}
_EFFECTIVE = cite("Davidge", "effective volume of bent bodies, weakest link", "exact")


def _half_turn(modulus: float) -> float:
    """∫ cos^m over the pulled half of the circumference."""
    logarithm = gammaln((modulus + 1) / 2) - gammaln(modulus / 2 + 1)
    return math.sqrt(math.pi) * math.exp(float(logarithm))


@formula(
    ("Effective volume", "V_e", "cm³"),
    "D^2 / 4 (1 - (d / D)^(m + 2)) / (m + 2) thin c_m L / (m + 1),"
    " quad c_m = integral_(-pi slash 2)^(pi slash 2) cos^m phi thin upright(d) phi",
    _INPUTS,
    _EFFECTIVE,
)
def effective_volume(
    outer_diameter: float, inner_diameter: float, length: float, modulus: float
) -> float:
    """Evenly pulled volume as likely to break as a tube or rod whose moment grows from nothing.

    V_e = D²/4 · (1 - (d/D)^(m + 2))/(m + 2) · ∫cos^m · L/(m + 1)

    Args:
        outer_diameter: Outer diameter [m].
        inner_diameter: Inner diameter; 0 is a rod [m].
        length: From the load to the clamp, or the span of a bar bent in its middle [m].
        modulus: Weibull modulus [1].

    Returns:
        Effective volume, against the largest stress [m³].

    Raises:
        InputError: diameters out of order, another argument not above zero.

    Source: Davidge, Mechanical Behaviour of Ceramics; Weibull — basis: exact.
    Valid for: flaws spread through the volume.
    """
    not_negative(inner_diameter=inner_diameter)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)
    positive(length=length, modulus=modulus)
    ring = 1 - (inner_diameter / outer_diameter) ** (modulus + 2)
    across = outer_diameter**2 / 4 * ring / (modulus + 2) * _half_turn(modulus)
    return float(across * length / (modulus + 1))


@formula(
    ("Effective surface", "S_e", "cm²"),
    "D / 2 thin c_m L / (m + 1),"
    " quad c_m = integral_(-pi slash 2)^(pi slash 2) cos^m phi thin upright(d) phi",
    {name: _INPUTS[name] for name in ("outer_diameter", "length", "modulus")},
    _EFFECTIVE,
)
def effective_surface(outer_diameter: float, length: float, modulus: float) -> float:
    """Evenly pulled surface as likely to break as that of a body whose moment grows from nothing.

    S_e = D/2 · ∫cos^m · L/(m + 1)

    Args:
        outer_diameter: Outer diameter [m].
        length: From the load to the clamp, or the span of a bar bent in its middle [m].
        modulus: Weibull modulus [1].

    Returns:
        Effective surface, against the largest stress [m²].

    Raises:
        InputError: an argument not above zero.

    Source: Davidge, Mechanical Behaviour of Ceramics; Weibull — basis: exact.
    Valid for: flaws on the outer surface, as in glazed bodies.
    """
    positive(outer_diameter=outer_diameter, length=length, modulus=modulus)
    return outer_diameter / 2 * _half_turn(modulus) * length / (modulus + 1)


@formula(
    ("Strength of the body", "sigma", "MPa"),
    "sigma_0 (x)^(-1 / m) (t)^(-1 / n) (ln(1 / (1 - P)) / ln 2)^(1 / m)",
    {
        "test_strength": ("Median strength of test bars", "sigma_0", "MPa"),
        "size_ratio": ("Effective size over that of the bars", "x", "1"),
        "time_ratio": ("Time under load over that of the test", "t", "1"),
        "probability": ("Share that may break", "P", "%"),
        "modulus": _MODULUS,
        "growth_exponent": ("Slow crack growth exponent", "n", "1"),
    },
    cite("Davidge", "strength, probability and time put together", "exact"),
    ranges={"modulus": (5.0, 25.0), "growth_exponent": (15.0, 60.0)},
)
def body_strength(
    test_strength: float,
    size_ratio: float,
    time_ratio: float,
    probability: float,
    modulus: float,
    growth_exponent: float,
) -> float:
    """Stress that a large body bears for long, with a small share that breaks.

    sigma = sigma_0 · x^(-1/m) · t^(-1/n) · (ln(1/(1 - P))/ln 2)^(1/m)

    Args:
        test_strength: Median strength of test bars [Pa].
        size_ratio: Effective volume or surface over that of the bars [1].
        time_ratio: Time under load over that of the test [1].
        probability: Share that may break, above 0 and below 1 [1].
        modulus: Weibull modulus [1].
        growth_exponent: 25 to 30 for porcelain in moist air [1].

    Returns:
        Stress [Pa].

    Raises:
        InputError: probability outside its range, another argument not above zero.

    Source: Weibull; Davidge — basis: exact once its constants are measured.
    Valid for: one kind of flaw in bars and body.
    """
    positive(
        test_strength=test_strength,
        size_ratio=size_ratio,
        time_ratio=time_ratio,
        modulus=modulus,
        growth_exponent=growth_exponent,
    )
    ordered(nothing=0.0, probability=probability, one=1.0)
    odds = (-math.log1p(-probability) / math.log(2)) ** (1 / modulus)
    size = size_ratio ** (-1 / modulus)
    return float(test_strength * size * time_ratio ** (-1 / growth_exponent) * odds)


@formula(
    ("Size of the body over that of the bars", "x", "1"),
    "S_e / S_0",
    {
        "body": ("Effective surface of the body", "S_e", "cm²"),
        "bar": ("Effective surface of a bar", "S_0", "cm²"),
    },
    cite("first principles", "definition", "exact"),
)
def size_ratio(body: float, bar: float) -> float:
    """How much more surface a body puts under tension than a test bar.

    x = S_e/S_0

    Args:
        body: Effective surface of the body [m²].
        bar: Effective surface of a bar [m²].

    Returns:
        Ratio [1].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(body=body, bar=bar)
    return body / bar


@formula(
    ("Time under load over that of the test", "t", "1"),
    "t_1 / t_0",
    {
        "loaded": ("Time under load", "t_1", "s"),
        "tested": ("Time of the test", "t_0", "s"),
    },
    cite("first principles", "definition", "exact"),
)
def time_ratio(loaded: float, tested: float) -> float:
    """How much longer a body is loaded than a test bar.

    t = t_1/t_0

    Args:
        loaded: Time under load [s].
        tested: Time of the test [s].

    Returns:
        Ratio [1].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(loaded=loaded, tested=tested)
    return loaded / tested
