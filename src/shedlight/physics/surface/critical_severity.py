"""Severities that odds of pollution flashover rest on: of the site, and of the bushing."""

import math

from shedlight.physics.domain import not_negative, positive
from shedlight.physics.surface.odds import TWO_PERCENT, critical_severity
from shedlight.sources import cite
from shedlight.trace import formula

_LOG_SITE = ("Standard deviation of its logarithm", "sigma_S", "1")
_CRITICAL = ("Severity that flashes over in half the trials", "S_c", "mg/cm²")
_LOG_CRITICAL = ("Standard deviation of its logarithm", "sigma_c", "1")


@formula(
    ("Median severity of an event", "S_50", "mg/cm²"),
    "S_2 upright(e)^(-2.054 sigma_S)",
    {
        "statistical": ("Severity exceeded by 2 % of events", "S_2", "mg/cm²"),
        "log_deviation": _LOG_SITE,
    },
    cite("first principles", "log-normal distribution, 2 % quantile", "exact"),
)
def median_severity(statistical: float, log_deviation: float) -> float:
    """Median of the events from what few of them exceed, which is what is measured or classed.

    S_50 = S_2 exp(-2.054 sigma_S)

    Args:
        statistical: Severity exceeded by 2 % of the events [kg/m²].
        log_deviation: Standard deviation of its logarithm [1].

    Returns:
        Severity exceeded by half of the events [kg/m²].

    Raises:
        InputError: statistical not above zero, deviation negative.

    Source: log-normal distribution — basis: exact.
    Valid for: log-normal severity; salinity likewise.
    """
    positive(statistical=statistical)
    not_negative(log_deviation=log_deviation)
    return statistical * math.exp(-TWO_PERCENT * log_deviation)


@formula(
    _CRITICAL,
    "min(10, (U_0 / U)^(1 / alpha)) S_0",
    {
        "reference_voltage": ("Flashover voltage at the reference", "U_0", "kV"),
        "reference_severity": ("Reference severity", "S_0", "mg/cm²"),
        "exponent": ("Pollution exponent", "alpha", "1"),
        "voltage_across": ("Voltage across the insulator", "U", "kV"),
    },
    cite("CIGRE 158", "power laws of pollution flashover, solved for severity", "memory", "medium"),
    ranges={"exponent": (0.1, 0.36)},
    note="The power law is trusted over one tenfold of severity; beyond, the tenfold is taken.",
)
def cautious_critical_severity(
    reference_voltage: float, reference_severity: float, exponent: float, voltage_across: float
) -> float:
    """As :func:`critical_severity`, never more than ten times the reference: the safe side.

    S_c = min(10, (U_0/U)^(1/alpha)) S_0

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
    Valid for: down to a tenth of the reference.
    """
    found = critical_severity(reference_voltage, reference_severity, exponent, voltage_across)
    return min(10 * reference_severity, found)


@formula(
    _CRITICAL,
    'min(10, (L / L_"req")^(1 / alpha) upright(e)^(3 sigma_c)) S_0',
    {
        "creepage": ("Creepage", "L", "mm"),
        "required": ("Creepage asked for the class", 'L_"req"', "mm"),
        "reference_severity": ("Severity the class stands for", "S_0", "mg/cm²"),
        "exponent": ("Pollution exponent", "alpha", "1"),
        "critical_log_deviation": _LOG_CRITICAL,
    },
    cite("CIGRE 158", "power law on the creepage asked, three deviations to the 50 %", "practice"),
    ranges={"exponent": (0.1, 0.36)},
    note="What just meets its class is taken to hold it but for three deviations.",
)
def critical_severity_by_creepage(
    creepage: float,
    required: float,
    reference_severity: float,
    exponent: float,
    critical_log_deviation: float,
) -> float:
    """Severity that flashes a bushing over in half the trials, by the creepage its class asks for.

    S_c = min(10, (L/L_req)^(1/alpha) exp(3 sigma_c)) S_0

    Args:
        creepage: Of the bushing [m].
        required: Asked for the class [m].
        reference_severity: Upper edge of the class [kg/m²].
        exponent: Pollution exponent [1].
        critical_log_deviation: Spread of the critical severity [1].

    Returns:
        Critical severity [kg/m²].

    Raises:
        InputError: an argument not above zero.

    Source: creepage rule of IEC TS 60815-1 with the power law of CIGRE TB 158 — basis: practice,
    low confidence.
    Valid for: profiles that the creepage rule is made for.
    """
    positive(
        creepage=creepage,
        required=required,
        reference_severity=reference_severity,
        exponent=exponent,
        critical_log_deviation=critical_log_deviation,
    )
    share = (creepage / required) ** (1 / exponent) * math.exp(3 * critical_log_deviation)
    return float(min(10.0, share) * reference_severity)
