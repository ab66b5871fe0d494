"""Several alike gaps stressed together: the voltage at which one of them sparks over."""

from scipy.special import ndtri

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula

_MEAN = ("Sparkover voltage of one gap in half the cases, peak", "U_50", "kV")
_DEVIATION = ("Its standard deviation", "sigma", "kV")
_GAPS = ("Alike gaps stressed together", "n", "1")
_TOGETHER = ("Voltage that sparks one of them over in half the cases, peak", "U_(50,n)", "kV")
_INPUTS = {"strength_mean": _MEAN, "strength_deviation": _DEVIATION, "gaps": _GAPS}


@formula(
    _TOGETHER,
    "U_50 + sigma Phi^(-1)(1 - 0.5^(1 slash n))",
    _INPUTS,
    cite("first principles", "independent Gaussian gaps", "exact"),
)
def strength_of_some(strength_mean: float, strength_deviation: float, gaps: float) -> float:
    """Voltage at which one of several alike gaps sparks over in half the cases, Gaussian spread.

    U_50,n = U_50 + sigma Phi^-1(1 - 0.5^(1/n))

    Args:
        strength_mean: 50 % sparkover voltage of one gap, peak [V].
        strength_deviation: Its standard deviation [V].
        gaps: How many [1].

    Returns:
        Voltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: independent Gaussian gaps — basis: exact.
    Valid for: independent gaps; beyond some hundred the tail of one gap is a guess.
    """
    positive(strength_mean=strength_mean, strength_deviation=strength_deviation, gaps=gaps)
    return float(strength_mean + strength_deviation * ndtri(1 - 0.5 ** (1 / gaps)))


@formula(
    _TOGETHER,
    "U_50 - 4 sigma (1 - n^(-1 slash 5))",
    _INPUTS,
    cite("IEC 60071-2", "annex on parallel insulations, modified Weibull spread"),
    ranges={"gaps": (1.0, 200.0)},
)
def strength_of_some_truncated(
    strength_mean: float, strength_deviation: float, gaps: float
) -> float:
    """The same with a spread that ends four standard deviations below the mean.

    U_50,n = U_50 - 4 sigma (1 - n^(-1/5))

    Args:
        strength_mean: 50 % sparkover voltage of one gap, peak [V].
        strength_deviation: Its standard deviation [V].
        gaps: How many [1].

    Returns:
        Voltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60071-2, annex on parallel insulations — basis: memory, high confidence.
    Valid for: up to 200 gaps.
    """
    positive(strength_mean=strength_mean, strength_deviation=strength_deviation, gaps=gaps)
    return float(strength_mean - 4 * strength_deviation * (1 - gaps**-0.2))
