"""How likely pollution flashover is: the spread of the site against the spread of the bushing.

Severity (deposit or salinity) is log-normal from event to event; the severity that flashes a
bushing over at its voltage is log-normal from trial to trial. One event that meets several
bushings meets them with the same severity: they do not fail independently of the weather.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from shedlight.physics.domain import not_negative, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

Array = NDArray[np.float64]

TWO_PERCENT = 2.0537  # Gaussian quantile exceeded by 2 %
SPREADS = 8.0
POINTS = 2001

_MEDIAN = ("Median severity of an event", "S_50", "mg/cm²")
_LOG_SITE = ("Standard deviation of its logarithm", "sigma_S", "1")
_CRITICAL = ("Severity that flashes over in half the trials", "S_c", "mg/cm²")
_LOG_CRITICAL = ("Standard deviation of its logarithm", "sigma_c", "1")
_PROBABILITY = ("Probability of flashover in one event", "P", "1")


@dataclass(frozen=True)
class Overlap:
    """Two curves and what they have in common, over severity.

    Attributes:
        severities: Severity [kg/m²] or [kg/m³].
        density: Of the site's severity per logarithm of severity [1].
        strength: Probability that at least one bushing flashes over at that severity [1].
        product: Their product; its integral over the logarithm is `probability` [1].
        probability: Of at least one flashover in one event [1].
    """

    severities: Array
    density: Array
    strength: Array
    product: Array
    probability: float


@formula(
    _LOG_SITE,
    "ln(S_2 / S_50) / 2.054",
    {
        "statistical": ("Severity exceeded by 2 % of events", "S_2", "mg/cm²"),
        "median": _MEDIAN,
    },
    cite("first principles", "log-normal distribution, 2 % quantile", "exact"),
)
def severity_log_deviation(statistical: float, median: float) -> float:
    """Spread of the site's severity from its median and its 2 % value.

    sigma_S = ln(S_2/S_50)/2.054

    Args:
        statistical: Severity exceeded by 2 % of the events [kg/m²].
        median: Severity exceeded by half of them [kg/m²].

    Returns:
        Standard deviation of the logarithm [1].

    Raises:
        InputError: median not above zero, statistical below the median.

    Source: log-normal distribution — basis: exact; that severity is log-normal is usual (CIGRE
    TB 158).
    Valid for: log-normal severity.
    """
    positive(median=median)
    within(median, math.inf, statistical=statistical)
    return math.log(statistical / median) / TWO_PERCENT


@formula(
    _CRITICAL,
    "S_0 (U_0 / U)^(1 / alpha)",
    {
        "reference_voltage": ("Flashover voltage at the reference", "U_0", "kV"),
        "reference_severity": ("Reference severity", "S_0", "mg/cm²"),
        "exponent": ("Pollution exponent", "alpha", "1"),
        "voltage_across": ("Voltage across the insulator", "U", "kV"),
    },
    cite("CIGRE 158", "power laws of pollution flashover, solved for severity", "memory", "medium"),
    ranges={"exponent": (0.1, 0.36)},
)
def critical_severity(
    reference_voltage: float, reference_severity: float, exponent: float, voltage_across: float
) -> float:
    """Severity that flashes a bushing over, in half the trials, at the voltage it carries.

    S_c = S_0 (U_0/U)^(1/alpha)

    Args:
        reference_voltage: 50 % flashover voltage at the reference severity [V].
        reference_severity: That severity [kg/m²].
        exponent: Pollution exponent [1].
        voltage_across: Voltage across the insulator, of the reference's kind [V].

    Returns:
        Critical severity [kg/m²].

    Raises:
        InputError: an argument not above zero.

    Source: CIGRE TB 158 — basis: memory, medium confidence.
    Valid for: scaling by less than ten times in severity.
    """
    positive(
        reference_voltage=reference_voltage,
        reference_severity=reference_severity,
        exponent=exponent,
        voltage_across=voltage_across,
    )
    return float(reference_severity * (reference_voltage / voltage_across) ** (1 / exponent))


@formula(
    _LOG_CRITICAL,
    "s / alpha",
    {
        "deviation": ("Relative standard deviation of the flashover voltage", "s", "%"),
        "exponent": ("Pollution exponent", "alpha", "1"),
    },
    cite("first principles", "scatter of voltage read as scatter of severity", "exact"),
    ranges={"deviation": (0.0, 0.15)},
)
def critical_log_deviation(deviation: float, exponent: float) -> float:
    """Spread of the critical severity, from the spread of the flashover voltage.

    sigma_c = s/alpha

    Args:
        deviation: Standard deviation of the flashover voltage over its mean, 6 to 10 % [1].
        exponent: Pollution exponent [1].

    Returns:
        Standard deviation of the logarithm [1].

    Raises:
        InputError: deviation negative, exponent not above zero.

    Source: first principles — basis: exact to first order in the deviation.
    Valid for: small deviations.
    """
    not_negative(deviation=deviation)
    positive(exponent=exponent)
    return deviation / exponent


@formula(
    _PROBABILITY,
    "Phi(ln(S_50 / S_c) / sqrt(sigma_S^2 + sigma_c^2))",
    {
        "median": _MEDIAN,
        "log_deviation": _LOG_SITE,
        "critical": _CRITICAL,
        "critical_log_deviation": _LOG_CRITICAL,
    },
    cite("first principles", "quotient of two log-normal quantities", "exact"),
)
def event_probability(
    median: float, log_deviation: float, critical: float, critical_log_deviation: float
) -> float:
    """Chance that one bushing flashes over in one wetting event.

    P = Phi(ln(S_50/S_c)/√(sigma_S² + sigma_c²))

    Args:
        median: Median severity of an event [kg/m²].
        log_deviation: Standard deviation of its logarithm [1].
        critical: Severity that flashes over in half the trials [kg/m²].
        critical_log_deviation: Standard deviation of its logarithm [1].

    Returns:
        Probability, 0 to 1 [1].

    Raises:
        InputError: a severity not above zero, deviations negative or both zero.

    Source: quotient of two log-normal quantities — basis: exact.
    Valid for: untruncated distributions; one bushing.
    """
    positive(median=median, critical=critical)
    not_negative(log_deviation=log_deviation, critical_log_deviation=critical_log_deviation)
    spread = math.hypot(log_deviation, critical_log_deviation)
    positive(log_deviation_with_critical_log_deviation=spread)
    return math.erfc(math.log(critical / median) / spread / math.sqrt(2)) / 2


def event_overlap(
    median: float,
    log_deviation: float,
    critical: float,
    critical_log_deviation: float,
    bushings: int = 1,
) -> Overlap:
    """Chance that at least one of some bushings flashes over in an event that meets them all.

    P_n = integral of f(ln S) (1 - (1 - Phi(ln(S/S_c)/sigma_c))^n) d ln S

    Args:
        median: Median severity of an event [kg/m²].
        log_deviation: Standard deviation of its logarithm [1].
        critical: Severity that flashes one over in half the trials [kg/m²].
        critical_log_deviation: Standard deviation of its logarithm [1].
        bushings: How many alike bushings the event meets.

    Returns:
        The two curves, their product and its integral.

    Raises:
        InputError: an argument not above zero.

    Source: first principles; CIGRE TB 158 for the method — basis: exact for what goes in.
    Valid for: bushings of independent scatter under one severity.
    """
    positive(
        median=median,
        log_deviation=log_deviation,
        critical=critical,
        critical_log_deviation=critical_log_deviation,
        bushings=bushings,
    )
    steps = np.linspace(-SPREADS, SPREADS, POINTS)
    severities = median * np.exp(log_deviation * steps)
    density = np.exp(-(steps**2) / 2) / (math.sqrt(2 * math.pi) * log_deviation)
    strength = flashover_curve(severities, critical, critical_log_deviation, bushings)
    product = density * strength
    probability = float(np.trapezoid(product, log_deviation * steps))
    return Overlap(severities, density, strength, product, probability)


def flashover_curve(
    severities: Array, critical: float, critical_log_deviation: float, bushings: int = 1
) -> Array:
    """How likely at least one of some bushings flashes over at each severity.

    1 - (1 - Phi(ln(S/S_c)/sigma_c))^n

    Args:
        severities: Severities [kg/m²] or [kg/m³].
        critical: Severity that flashes one over in half the trials [kg/m²].
        critical_log_deviation: Standard deviation of its logarithm [1].
        bushings: How many alike bushings.

    Returns:
        Probabilities [1].

    Source: independent log-normal scatter — basis: exact.
    """
    standing = ndtr(-np.log(severities / critical) / critical_log_deviation)
    found: Array = -np.expm1(bushings * np.log(np.maximum(standing, 1e-300)))
    return found


@formula(
    ("Probability of flashover in a year", 'P_"a"', "1"),
    "1 - (1 - P)^N",
    {
        "probability": _PROBABILITY,
        "events": ("Wetting events a year", "N", "1"),
    },
    cite("first principles", "independent events", "exact"),
)
def yearly_probability(probability: float, events: float) -> float:
    """Chance of at least one flashover in a year of independent events.

    P_a = 1 - (1 - P)^N

    Args:
        probability: Of flashover in one event [1].
        events: Wetting events a year [1].

    Returns:
        Probability, 0 to 1 [1].

    Raises:
        InputError: probability outside 0 to 1, events negative.

    Source: independent events — basis: exact.
    Valid for: events with new severity each.
    """
    within(0.0, 1.0, probability=probability)
    not_negative(events=events)
    if probability == 1.0:
        return 1.0 if events else 0.0
    return -math.expm1(events * math.log1p(-probability))


@formula(
    ("Probability that one of n flashes over in one event", "P_n", "1"),
    "integral f(ln S) (1 - (1 - Phi(ln(S / S_c) / sigma_c))^n) thin d ln S",
    {
        "median": _MEDIAN,
        "log_deviation": _LOG_SITE,
        "critical": _CRITICAL,
        "critical_log_deviation": _LOG_CRITICAL,
        "bushings": ("Bushings that one event meets", "n", "1"),
    },
    cite("first principles", "one severity for all, each bushing with its own scatter", "exact"),
)
def event_probability_of_some(
    median: float,
    log_deviation: float,
    critical: float,
    critical_log_deviation: float,
    bushings: float,
) -> float:
    """Chance that at least one of some bushings flashes over in an event that meets them all.

    P_n = integral of f(ln S) (1 - (1 - Phi(ln(S/S_c)/sigma_c))^n) d ln S

    Args:
        median: Median severity of an event [kg/m²].
        log_deviation: Standard deviation of its logarithm [1].
        critical: Severity that flashes one over in half the trials [kg/m²].
        critical_log_deviation: Standard deviation of its logarithm [1].
        bushings: How many alike bushings the event meets [1].

    Returns:
        Probability, 0 to 1 [1].

    Raises:
        InputError: an argument not above zero.

    Source: as :func:`event_overlap` — basis: exact for what goes in.
    Valid for: bushings of independent scatter under one severity.
    """
    count = round(bushings)
    overlap = event_overlap(median, log_deviation, critical, critical_log_deviation, count)
    return min(1.0, overlap.probability)
