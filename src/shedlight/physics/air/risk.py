"""Risk that overvoltages spark an air gap over: the integral over both spreads."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from shedlight.physics.domain import positive, within
from shedlight.sources import cite
from shedlight.trace import formula

Array = NDArray[np.float64]

SPREADS = 8.0
POINTS = 2001
TWO_PERCENT = 2.0537  # Gaussian quantile exceeded by 2 %
TEN_PERCENT = 1.2816  # Gaussian quantile exceeded by 10 %


@dataclass(frozen=True)
class Risk:
    """Two curves over the overvoltage and what they have in common.

    Attributes:
        voltages: Overvoltage, peak [V].
        density: Of the overvoltage [1/V].
        strength: Probability that at least one gap sparks over at that voltage [1].
        product: Their product; its integral is the risk [1/V].
        risk: Of a sparkover per event [1].
    """

    voltages: Array
    density: Array
    strength: Array
    product: Array
    risk: float


def risk_integral(
    stress_mean: float,
    stress_deviation: float,
    strength_mean: float,
    strength_deviation: float,
    gaps: int = 1,
    highest: float = math.inf,
) -> Risk:
    """Risk of a sparkover per event, for some gaps stressed together.

    R = integral of f(U) (1 - (1 - P(U))^n) dU

    Args:
        stress_mean: Mean of the overvoltages, peak [V].
        stress_deviation: Their standard deviation [V].
        strength_mean: 50 % sparkover voltage of one gap, peak [V].
        strength_deviation: Its standard deviation [V].
        gaps: How many alike gaps the overvoltage stresses.
        highest: Overvoltage that an arrester cuts off; what would exceed it has this value, peak
            [V].

    Returns:
        The curves and the risk.

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60071-2, risk of failure — basis: memory, high confidence; exact for Gaussian
    spreads.
    Valid for: independent gaps.
    """
    positive(
        stress_mean=stress_mean,
        stress_deviation=stress_deviation,
        strength_mean=strength_mean,
        strength_deviation=strength_deviation,
        gaps=gaps,
    )
    steps = np.linspace(-SPREADS, SPREADS, POINTS)
    voltages = stress_mean + stress_deviation * steps
    density = np.exp(-(steps**2) / 2) / (math.sqrt(2 * math.pi) * stress_deviation)
    reached = np.minimum(voltages, highest)
    strength = sparkover_curve(reached, strength_mean, strength_deviation, gaps)
    product = density * strength
    return Risk(voltages, density, strength, product, float(np.trapezoid(product, voltages)))


def sparkover_curve(
    voltages: Array, strength_mean: float, strength_deviation: float, gaps: int = 1
) -> Array:
    """How likely at least one of some gaps sparks over at each voltage.

    1 - (1 - Phi((U - U50)/sigma_w))^n

    Args:
        voltages: Voltages, peak [V].
        strength_mean: 50 % sparkover voltage of one gap, peak [V].
        strength_deviation: Its standard deviation [V].
        gaps: How many alike gaps.

    Returns:
        Probabilities [1].

    Source: independent Gaussian gaps — basis: exact.
    """
    standing = ndtr((strength_mean - voltages) / strength_deviation)
    found: Array = -np.expm1(gaps * np.log(np.maximum(standing, 1e-300)))
    return found


@formula(
    ("Statistical safety factor", 'K_"cs"', "1"),
    '(U_50 - 1.2816 sigma_"w") / (mu_"s" + 2.0537 sigma_"s")',
    {
        "stress_mean": ("Mean overvoltage, peak", 'mu_"s"', "kV"),
        "stress_deviation": ("Standard deviation of the overvoltage", 'sigma_"s"', "kV"),
        "strength_mean": ("Mean sparkover voltage, peak", "U_50", "kV"),
        "strength_deviation": ("Standard deviation of the sparkover", 'sigma_"w"', "kV"),
    },
    cite("IEC 60071-2", "statistical withstand over statistical overvoltage"),
)
def statistical_safety_factor(
    stress_mean: float, stress_deviation: float, strength_mean: float, strength_deviation: float
) -> float:
    """Voltage held in nine cases of ten over the overvoltage exceeded by two in a hundred.

    K_cs = U_10/U_2

    Args:
        stress_mean: Mean of the overvoltages, peak [V].
        stress_deviation: Their standard deviation [V].
        strength_mean: 50 % sparkover voltage, peak [V].
        strength_deviation: Its standard deviation [V].

    Returns:
        Statistical safety factor [1].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60071-2 — basis: memory, high confidence.
    Valid for: Gaussian spreads.
    """
    positive(
        stress_mean=stress_mean,
        stress_deviation=stress_deviation,
        strength_mean=strength_mean,
        strength_deviation=strength_deviation,
    )
    held = strength_mean - TEN_PERCENT * strength_deviation
    return held / (stress_mean + TWO_PERCENT * stress_deviation)


@formula(
    ("Risk of a flashover per event", "R", "1"),
    'Phi((1 - u) / sqrt(s_"s"^2 + u^2 s_"w"^2)),'
    ' quad u = K_"cs" (1 + 2.0537 s_"s") / (1 - 1.2816 s_"w")',
    {
        "safety_factor": ("Statistical safety factor", 'K_"cs"', "1"),
        "stress_spread": ("Deviation over mean of the overvoltage", 's_"s"', "%"),
        "strength_spread": ("Deviation over mean of the sparkover", 's_"w"', "%"),
    },
    cite("IEC 60071-2", "risk of failure against the statistical safety factor"),
)
def risk_for_safety_factor(
    safety_factor: float, stress_spread: float, strength_spread: float
) -> float:
    """Risk that goes with a statistical safety factor.

    R = Phi((1 - u)/√(s_s² + (u s_w)²)), u = K_cs (1 + 2.0537 s_s)/(1 - 1.2816 s_w)

    Args:
        safety_factor: K_cs [1].
        stress_spread: Standard deviation of the overvoltage over its mean [1].
        strength_spread: Standard deviation of the sparkover over its mean [1].

    Returns:
        Risk per event [1].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60071-2 — basis: memory, high confidence; exact for Gaussian spreads.
    Valid for: Gaussian spreads.
    """
    positive(
        safety_factor=safety_factor, stress_spread=stress_spread, strength_spread=strength_spread
    )
    mean = safety_factor * (1 + TWO_PERCENT * stress_spread) / (1 - TEN_PERCENT * strength_spread)
    spread = math.hypot(stress_spread, mean * strength_spread)
    return math.erfc((mean - 1) / spread / math.sqrt(2)) / 2


@formula(
    ("Mean overvoltage, peak", 'mu_"s"', "kV"),
    'U_2 / (1 + 2.0537 s_"s")',
    {
        "two_percent": ("Overvoltage that 2 % exceed, peak", "U_2", "kV"),
        "spread": ("Deviation over mean of the overvoltage", 's_"s"', "%"),
    },
    cite("first principles", "Gaussian 2 % quantile", "exact"),
)
def mean_overvoltage(two_percent: float, spread: float) -> float:
    """Mean of the overvoltages from what two in a hundred exceed.

    mu = U_2/(1 + 2.0537 s)

    Args:
        two_percent: Overvoltage that 2 % exceed, peak [V].
        spread: Standard deviation over the mean [1].

    Returns:
        Mean overvoltage, peak [V].

    Raises:
        InputError: voltage or spread not above zero.

    Source: Gaussian distribution — basis: exact.
    Valid for: Gaussian spreads.
    """
    positive(two_percent=two_percent, spread=spread)
    return two_percent / (1 + TWO_PERCENT * spread)


@formula(
    ("Switching overvoltage that 2 % exceed, peak", "U_2", "kV"),
    "u_2 sqrt(2) U_0",
    {
        "per_unit": ("The same over the peak of the voltage to earth", "u_2", "1"),
        "phase_voltage": ("Highest voltage to earth, rms", "U_0", "kV"),
    },
    cite("IEC 60071-2", "per unit of slow-front overvoltages", "exact"),
)
def switching_overvoltage(per_unit: float, phase_voltage: float) -> float:
    """Switching overvoltage from its multiple of the service peak.

    U_2 = u_2 √2 U_0

    Args:
        per_unit: Multiple that 2 % exceed [1].
        phase_voltage: Highest voltage to earth, rms [V].

    Returns:
        Overvoltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60071-2, definition of per unit — basis: exact.
    Valid for: to earth.
    """
    positive(per_unit=per_unit, phase_voltage=phase_voltage)
    return math.sqrt(2) * per_unit * phase_voltage


@formula(
    ("Deviation over mean of the overvoltage", 's_"s"', "%"),
    "sigma / (u_2 - 2.0537 sigma), quad sigma = 0.25 (u_2 - 1)",
    {"per_unit": ("Multiple of the service peak that 2 % exceed", "u_2", "1")},
    cite("IEC 60071-2", "spread of switching overvoltages, phase-peak method"),
    ranges={"per_unit": (1.2, 4.0)},
)
def switching_spread(per_unit: float) -> float:
    """How far switching overvoltages scatter, from what 2 % of them exceed.

    sigma = 0.25 (u_2 - 1) in per unit; over the mean u_2 - 2.0537 sigma

    Args:
        per_unit: Multiple of the service peak that 2 % exceed, above 1 [1].

    Returns:
        Standard deviation over the mean [1].

    Raises:
        InputError: per unit not above 1.

    Source: IEC 60071-2, phase-peak method — basis: memory, high confidence.
    Valid for: energising and re-energising lines.
    """
    positive(per_unit_above_one=per_unit - 1)
    sigma = 0.25 * (per_unit - 1)
    return sigma / (per_unit - TWO_PERCENT * sigma)


@formula(
    ("Voltage spread", "sigma", "kV"),
    "s U",
    {
        "mean": ("Mean", "U", "kV"),
        "spread": ("Deviation over mean", "s", "%"),
    },
    cite("first principles", "definition of a relative deviation", "exact"),
)
def absolute_deviation(mean: float, spread: float) -> float:
    """A standard deviation from its share of the mean.

    sigma = s U

    Args:
        mean: Mean, peak [V].
        spread: Standard deviation over the mean [1].

    Returns:
        Standard deviation [V].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(mean=mean, spread=spread)
    return mean * spread


@formula(
    ("Risk that one of n gaps sparks over in one event", "R_n", "1"),
    "integral f(U) (1 - (1 - P(U))^n) thin d U",
    {
        "stress_mean": ("Mean overvoltage, peak", 'mu_"s"', "kV"),
        "stress_deviation": ("Standard deviation of the overvoltage", 'sigma_"s"', "kV"),
        "strength_mean": ("Mean sparkover voltage, peak", "U_50", "kV"),
        "strength_deviation": ("Standard deviation of the sparkover", 'sigma_"w"', "kV"),
        "gaps": ("Gaps stressed together", "n", "1"),
    },
    cite("IEC 60071-2", "risk of failure"),
)
def risk_of_some(
    stress_mean: float,
    stress_deviation: float,
    strength_mean: float,
    strength_deviation: float,
    gaps: float,
) -> float:
    """Risk per event that at least one of some alike gaps sparks over.

    R = integral of f(U) (1 - (1 - P(U))^n) dU

    Args:
        stress_mean: Mean of the overvoltages, peak [V].
        stress_deviation: Their standard deviation [V].
        strength_mean: 50 % sparkover voltage of one gap, peak [V].
        strength_deviation: Its standard deviation [V].
        gaps: How many alike gaps the overvoltage stresses [1].

    Returns:
        Risk, 0 to 1 [1].

    Raises:
        InputError: an argument not above zero.

    Source: as :func:`risk_integral` — basis: memory, high confidence; exact for Gaussian spreads.
    Valid for: independent gaps.
    """
    found = risk_integral(
        stress_mean, stress_deviation, strength_mean, strength_deviation, round(gaps)
    )
    return min(1.0, found.risk)


@formula(
    ("Probability of at least one in a year", 'P_"a"', "%"),
    "max(10^(-6), 1 - (1 - P)^N)",
    {
        "probability": ("Probability in one event", "P", "1"),
        "events": ("Events a year", "N", "1"),
    },
    cite("first principles", "independent events", "exact"),
    note="Less than one in a million is not told: nobody knows the tails so far out.",
)
def told_yearly_probability(probability: float, events: float) -> float:
    """Chance of at least one in a year of independent events, not below what tails can tell.

    P_a = max(10^-6, 1 - (1 - P)^N)

    Args:
        probability: Of one event [1].
        events: How many a year [1].

    Returns:
        Probability, 1e-6 to 1 [1].

    Raises:
        InputError: probability outside 0 to 1, events not above zero.

    Source: independent events — basis: exact but for its floor.
    Valid for: events independent of one another.
    """
    within(0.0, 1.0, probability=probability)
    positive(events=events)
    if probability == 1.0:
        return 1.0
    return max(1e-6, -math.expm1(events * math.log1p(-probability)))
