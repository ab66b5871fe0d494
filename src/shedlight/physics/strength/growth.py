"""Metal that grows against porcelain."""

from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Growth of the conductor against the porcelain", "Delta l", "mm"),
    '(alpha_"m" - alpha_"p") L Delta theta',
    {
        "metal_expansion": ("Expansion of the metal", 'alpha_"m"', "µ/K"),
        "porcelain_expansion": ("Expansion of the porcelain", 'alpha_"p"', "µ/K"),
        "length": ("Clamped length", "L", "mm"),
        "temperature_range": ("Range of temperature", "Delta theta", "K"),
    },
    cite("Timoshenko", "thermal expansion", "exact"),
    note="Both taken at one temperature; the metal is warmer in service, the porcelain cooler.",
)
def differential_growth(
    metal_expansion: float, porcelain_expansion: float, length: float, temperature_range: float
) -> float:
    """By how much metal outgrows the porcelain it is clamped against.

    Δl = (α_m - α_p) L Δθ

    Args:
        metal_expansion: Expansion coefficient of the metal [1/K].
        porcelain_expansion: Expansion coefficient of the porcelain [1/K].
        length: Length clamped [m].
        temperature_range: Range of temperature gone through [K].

    Returns:
        Difference in growth [m]; positive where the metal grows more.

    Raises:
        InputError: length not above zero, another argument negative.

    Source: thermal expansion — basis: exact for constant coefficients.
    Valid for: both at one temperature.
    """
    not_negative(
        metal_expansion=metal_expansion,
        porcelain_expansion=porcelain_expansion,
        temperature_range=temperature_range,
    )
    positive(length=length)
    return (metal_expansion - porcelain_expansion) * length * temperature_range
