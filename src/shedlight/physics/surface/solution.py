"""From washing water to deposit: conductivity, salinity, salt and non-soluble deposit."""

import math
from dataclasses import dataclass

import numpy as np

from shedlight import tables
from shedlight.physics.domain import not_negative, ordered, positive, within
from shedlight.sources import Citation, cite
from shedlight.trace import formula

_ZERO_CELSIUS = 273.15  # [K]
COEFFICIENTS = (-3.2e-8, 1.032e-5, -8.272e-4, 3.544e-2)  # of b by falling powers of °C
_COEFFICIENT = ("Temperature coefficient of the conductivity", "b", "1/K")
_TEMPERATURE = ("Temperature of the solution", "theta", "°C")
_AT_20 = ("Conductivity at 20 °C", "sigma_20", "S/m")
_SALINITY = ("Salinity", "S_a", "kg/m³")
_AREA = ("Area washed", "A", "cm²")
_VOLUME = ("Volume of washing water", "V", "cm³")
_SALT = ("Equivalent salt deposit", 'S_"DD"', "mg/cm²")


@dataclass(frozen=True)
class SalineWater:
    """Conductivity of salt water of one salinity."""

    salinity: float  # [kg/m³]
    conductivity_at_20: float  # [S/m]
    citation: Citation


@tables.cached
def saline_waters() -> tuple[SalineWater, ...]:
    """The salinities of the salt-fog test, weakest first, read once."""
    return tuple(
        SalineWater(
            float(row["salinity_kg_per_m3"]),
            float(row["conductivity_at_20_s_per_m"]),
            tables.citation(row),
        )
        for row in tables.read("surface/salinity")
    )


@formula(
    _COEFFICIENT,
    "(-3.200 dot 10^(-8) t^3 + 1.032 dot 10^(-5) t^2 - 8.272 dot 10^(-4) t"
    ' + 3.544 dot 10^(-2)) / (1 "K"), quad t = theta / (1 "°C")',
    {"temperature": _TEMPERATURE},
    cite("IEC 60815-1", "annex on measuring deposits; table in IEC 60507"),
    ranges={"temperature": (278.15, 303.15)},
)
def temperature_coefficient(temperature: float) -> float:
    """By how much the conductivity of washing water changes per kelvin.

    b = -3.200e-8 t³ + 1.032e-5 t² - 8.272e-4 t + 3.544e-2, t in °C

    Args:
        temperature: Temperature of the solution [K].

    Returns:
        Coefficient b [1/K].

    Raises:
        InputError: temperature outside 0 to 50 °C.

    Source: IEC TS 60815-1:2008 annex, IEC 60507 table — basis: memory, high confidence.
    Valid for: 5 to 30 °C.
    """
    within(_ZERO_CELSIUS, _ZERO_CELSIUS + 50, temperature=temperature)
    celsius = temperature - _ZERO_CELSIUS
    return float(np.polyval(COEFFICIENTS, celsius))


@formula(
    _AT_20,
    'sigma (1 - b (theta - 20 "°C"))',
    {
        "conductivity": ("Conductivity as measured", "sigma", "S/m"),
        "temperature": _TEMPERATURE,
    },
    cite("IEC 60507", "conductivity corrected to 20 °C", "published"),
    ranges={"temperature": (278.15, 303.15)},
)
def conductivity_at_20(conductivity: float, temperature: float) -> float:
    """Conductivity of a solution corrected to 20 °C.

    sigma_20 = sigma (1 - b (theta - 20 °C)), b from :func:`temperature_coefficient`

    Args:
        conductivity: Conductivity as measured [S/m]; of a wet layer equally [S].
        temperature: Temperature of the solution [K].

    Returns:
        Conductivity at 20 °C, in the unit given [S/m].

    Raises:
        InputError: conductivity negative, temperature outside 0 to 50 °C.

    Source: IEC 60507, IEC TS 60815-1:2008 — basis: published (form quoted by third parties).
    Valid for: 5 to 30 °C.
    """
    not_negative(conductivity=conductivity)
    return conductivity * (1 - temperature_coefficient(temperature) * (temperature - 293.15))


@formula(
    _SALINITY,
    '(5.7 dot sigma_20 / (1 "S/m"))^1.03 thin "kg/m³"',
    {"conductivity_at_20": _AT_20},
    cite("IEC 60507", "salinity of the washing water", "published"),
    ranges={"conductivity_at_20": (0.004, 0.4)},
)
def salinity_from_conductivity(conductivity_at_20: float) -> float:
    """Salt that gives water its conductivity.

    S_a [kg/m³] = (5.7 sigma_20)^1.03, sigma_20 in S/m

    Args:
        conductivity_at_20: Conductivity at 20 °C [S/m].

    Returns:
        Salinity [kg/m³].

    Raises:
        InputError: conductivity negative.

    Source: IEC 60507, IEC TS 60815-1:2008 — basis: published (quoted by third parties).
    Valid for: 0.004 to 0.4 S/m; above, read the salt-fog table (:func:`salinity_at`).
    """
    not_negative(conductivity_at_20=conductivity_at_20)
    return float((5.7 * conductivity_at_20) ** 1.03)


@formula(
    _SALINITY,
    'S_"a,table" (sigma_20)',
    {"conductivity_at_20": _AT_20},
    cite("IEC 60507", "salt-fog test, salinity against volume conductivity at 20 °C"),
    ranges={"conductivity_at_20": (0.43, 20.0)},
)
def salinity_at(conductivity_at_20: float) -> float:
    """Salinity of strong salt water, read from the table of the salt-fog test.

    Straight lines between the rows of ``salinity.csv`` in logarithms, carried on at the ends.

    Args:
        conductivity_at_20: Conductivity at 20 °C [S/m].

    Returns:
        Salinity [kg/m³].

    Raises:
        InputError: conductivity not above zero.

    Source: IEC 60507 — basis: memory, high confidence.
    Valid for: 0.43 to 20 S/m.
    """
    positive(conductivity_at_20=conductivity_at_20)
    return _log_interpolated(
        conductivity_at_20, [(w.conductivity_at_20, w.salinity) for w in saline_waters()]
    )


@formula(
    _AT_20,
    'sigma_"20,table" (S_a)',
    {"salinity": _SALINITY},
    cite("IEC 60507", "salt-fog test, salinity against volume conductivity at 20 °C"),
    ranges={"salinity": (2.5, 224.0)},
)
def conductivity_of_salinity(salinity: float) -> float:
    """Conductivity of strong salt water, read from the table of the salt-fog test.

    Straight lines between the rows of ``salinity.csv`` in logarithms, carried on at the ends.

    Args:
        salinity: Salinity [kg/m³].

    Returns:
        Conductivity at 20 °C [S/m].

    Raises:
        InputError: salinity not above zero.

    Source: IEC 60507 — basis: memory, high confidence.
    Valid for: 2.5 to 224 kg/m³.
    """
    positive(salinity=salinity)
    return _log_interpolated(
        salinity, [(w.salinity, w.conductivity_at_20) for w in saline_waters()]
    )


def _log_interpolated(place: float, points: list[tuple[float, float]]) -> float:
    known = np.log(np.array(points))
    at = np.log(place)
    left = int(np.clip(np.searchsorted(known[:, 0], at) - 1, 0, len(points) - 2))
    (x0, y0), (x1, y1) = known[left], known[left + 1]
    return math.exp(float(y0 + (y1 - y0) * (at - x0) / (x1 - x0)))


@formula(
    _SALT,
    "(S_a V) / A",
    {"salinity": _SALINITY, "volume": _VOLUME, "area": _AREA},
    cite("IEC 60507", "equivalent salt deposit density", "published"),
)
def deposit_density(salinity: float, volume: float, area: float) -> float:
    """Salt on the surface, from the water that washed it off.

    ESDD = S_a V/A

    Args:
        salinity: Of the washing water [kg/m³].
        volume: Volume of washing water [m³].
        area: Surface washed [m²].

    Returns:
        Equivalent salt deposit density [kg/m²].

    Raises:
        InputError: salinity negative, volume or area not above zero.

    Source: IEC 60507, IEC TS 60815-1:2008 — basis: published (quoted by third parties).
    Valid for: soluble deposits washed off completely.
    """
    not_negative(salinity=salinity)
    positive(volume=volume, area=area)
    return salinity * volume / area


@formula(
    _SALT,
    '((S_a - S_"a,0") V) / A',
    {
        "salinity": _SALINITY,
        "blank_salinity": ("Salinity of the clean water", 'S_"a,0"', "kg/m³"),
        "volume": _VOLUME,
        "area": _AREA,
    },
    cite("IEC 60815-1", "annex on measuring deposits, blank water"),
)
def deposit_blank_corrected(
    salinity: float, blank_salinity: float, volume: float, area: float
) -> float:
    """Salt on the surface, less what the clean water already held.

    ESDD = (S_a - S_a0) V/A

    Args:
        salinity: Of the water after washing [kg/m³].
        blank_salinity: Of the water before [kg/m³].
        volume: Volume of washing water [m³].
        area: Surface washed [m²].

    Returns:
        Equivalent salt deposit density [kg/m²].

    Raises:
        InputError: a salinity negative, less salt after than before, volume or area not above
            zero.

    Source: IEC TS 60815-1:2008 annex — basis: memory, high confidence.
    Valid for: soluble deposits washed off completely.
    """
    not_negative(salinity=salinity, blank_salinity=blank_salinity)
    within(blank_salinity, math.inf, salinity=salinity)
    positive(volume=volume, area=area)
    return (salinity - blank_salinity) * volume / area


@formula(
    ("Non-soluble deposit", 'N_"SDD"', "mg/cm²"),
    "(W_f - W_i) / A",
    {
        "mass_after": ("Dry filter with deposit", "W_f", "g"),
        "mass_before": ("Dry clean filter", "W_i", "g"),
        "area": _AREA,
    },
    cite("IEC 60815-1", "annex on measuring deposits"),
)
def nsdd(mass_after: float, mass_before: float, area: float) -> float:
    """Dirt on the surface that does not dissolve.

    NSDD = (W_f - W_i)/A

    Args:
        mass_after: Dry filter with what it caught [kg].
        mass_before: Dry clean filter [kg].
        area: Surface washed [m²].

    Returns:
        Non-soluble deposit density [kg/m²].

    Raises:
        InputError: masses not growing, mass before negative, area not above zero.

    Source: IEC TS 60815-1:2008 annex — basis: memory, high confidence.
    Valid for: deposits washed off completely.
    """
    not_negative(mass_before=mass_before)
    ordered(mass_before=mass_before, mass_after=mass_after)
    positive(area=area)
    return (mass_after - mass_before) / area
