"""How flashover voltage and creepage follow the severity: power laws fitted to tests."""

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Flashover voltage over that at the reference", "k", "1"),
    "(S / S_0)^(-alpha)",
    {
        "exponent": ("Pollution exponent", "alpha", "1"),
        "severity": ("Severity", "S", "mg/cm²"),
        "reference_severity": ("Reference severity", "S_0", "mg/cm²"),
    },
    cite("CIGRE 158", "power laws of pollution flashover", "memory", "medium"),
    ranges={"exponent": (0.1, 0.36)},
)
def severity_factor(exponent: float, severity: float, reference_severity: float) -> float:
    """By how much the flashover voltage falls as the deposit grows.

    k = (S/S_0)^-alpha

    Args:
        exponent: Of a row of :func:`shedlight.physics.surface.constants.pollution_exponents` [1].
        severity: Deposit [kg/m²].
        reference_severity: Deposit at which the voltage is known [kg/m²].

    Returns:
        Factor on the flashover voltage [1].

    Raises:
        InputError: an argument not above zero.

    Source: CIGRE Technical Brochure 158 — basis: memory, medium confidence.
    Valid for: exponents 0.1 to 0.36; scaling by less than ten times.
    """
    positive(exponent=exponent, severity=severity, reference_severity=reference_severity)
    return float((severity / reference_severity) ** -exponent)


@formula(
    ("Specific creepage for the deposit", "S_u", "mm/kV"),
    'S_"u,0" (S / S_0)^alpha',
    {
        "reference_creepage": ("Specific creepage at the reference", 'S_"u,0"', "mm/kV"),
        "exponent": ("Pollution exponent", "alpha", "1"),
        "severity": ("Severity", "S", "mg/cm²"),
        "reference_severity": ("Reference severity", "S_0", "mg/cm²"),
    },
    cite("CIGRE 158", "power laws of pollution flashover", "memory", "medium"),
    ranges={"exponent": (0.1, 0.36)},
)
def scaled_specific_creepage(
    reference_creepage: float, exponent: float, severity: float, reference_severity: float
) -> float:
    """Specific creepage that holds a deposit, from one known to hold another.

    S_u = S_u0 (S/S_0)^alpha

    Args:
        reference_creepage: Specific creepage that holds the reference deposit [m/V].
        exponent: Pollution exponent [1].
        severity: Deposit [kg/m²].
        reference_severity: Reference deposit [kg/m²].

    Returns:
        Specific creepage per rms voltage across the insulator [m/V].

    Raises:
        InputError: an argument not above zero.

    Source: CIGRE Technical Brochure 158 — basis: memory, medium confidence.
    Valid for: exponents 0.1 to 0.36; scaling by less than ten times.
    """
    positive(reference_creepage=reference_creepage)
    return reference_creepage / severity_factor(exponent, severity, reference_severity)
