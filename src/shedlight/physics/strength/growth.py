"""Metal that grows against porcelain."""

from shedlight.physics.domain import finite, not_negative, positive
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


@formula(
    ("Growth of the conductor against the porcelain", "Delta l", "mm"),
    '(alpha_"m" Delta theta_"m" - alpha_"p" Delta theta_"p") L',
    {
        "metal_expansion": ("Expansion of the metal", 'alpha_"m"', "µ/K"),
        "metal_warming": ("Warming of the metal", 'Delta theta_"m"', "K"),
        "porcelain_expansion": ("Expansion of the porcelain", 'alpha_"p"', "µ/K"),
        "porcelain_warming": ("Warming of the porcelain", 'Delta theta_"p"', "K"),
        "length": ("Clamped length", "L", "mm"),
    },
    cite("Timoshenko", "thermal expansion", "exact"),
)
def growth_apart(
    metal_expansion: float,
    metal_warming: float,
    porcelain_expansion: float,
    porcelain_warming: float,
    length: float,
) -> float:
    """By how much metal outgrows the porcelain it is clamped against, each as warm as it is.

    Δl = (α_m Δθ_m - α_p Δθ_p) L

    Args:
        metal_expansion: Expansion coefficient of the metal [1/K].
        metal_warming: Of the metal; negative on cooling [K].
        porcelain_expansion: Expansion coefficient of the porcelain [1/K].
        porcelain_warming: Of the porcelain; negative on cooling [K].
        length: Length clamped [m].

    Returns:
        Difference in growth [m]; positive where the metal grows more.

    Raises:
        InputError: length not above zero, an expansion negative, a warming not finite.

    Source: thermal expansion — basis: exact for constant coefficients.
    Valid for: the mean temperature of each along the clamped length.
    """
    not_negative(metal_expansion=metal_expansion, porcelain_expansion=porcelain_expansion)
    finite(metal_warming=metal_warming, porcelain_warming=porcelain_warming)
    positive(length=length)
    return (metal_expansion * metal_warming - porcelain_expansion * porcelain_warming) * length


@formula(
    ("Warming", "Delta theta", "K"),
    "theta_1 - theta_0",
    {
        "temperature": ("Temperature", "theta_1", "°C"),
        "before": ("Temperature before", "theta_0", "°C"),
    },
    cite("first principles", "definition", "exact"),
)
def warming(temperature: float, before: float) -> float:
    """How much warmer something is than before.

    Δθ = θ_1 - θ_0

    Args:
        temperature: Now [K].
        before: At assembly, or when coldest [K].

    Returns:
        Difference; negative if it has cooled [K].

    Raises:
        InputError: a temperature not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(temperature=temperature, before=before)
    return temperature - before
