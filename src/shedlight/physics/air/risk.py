"""Risk that overvoltages spark an air gap over: the integral over both spreads."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from shedlight.physics.domain import positive
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
    standing = ndtr((strength_mean - np.minimum(voltages, highest)) / strength_deviation)
    strength = -np.expm1(gaps * np.log(np.maximum(standing, 1e-300)))
    product = density * strength
    return Risk(voltages, density, strength, product, float(np.trapezoid(product, voltages)))


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
