"""Natural rain and test rain: drop sizes, fall speeds, slants in wind, water on a surface.

Wind carries small drops further than large ones, so rain has a spread of slants, not one. Rates
count depth of water per time through a level surface.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.air.rain_tables import drop_classes, fall_speeds
from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

Array = NDArray[np.float64]

MM_PER_HOUR = 1e-3 / 3600  # [m/s]
LARGEST_DROP = 7e-3  # [m]: larger ones burst
SIZES = 400
DROP_CLASS = 0.5e-3  # [m], width of the measured classes

_DROP = ("Drop diameter", "D", "mm")
_RATE = ("Rain rate on level ground", "R", "mm/h")
_SPEED = ("Fall speed", "v", "m/s")
_WIND = ("Wind speed at the bushing", "u", "m/s")
_MEDIAN = ("Drop diameter that halves the water", "D_50", "mm")


@formula(
    _SPEED,
    '(9.65 - 10.3 upright(e)^(-0.6 D slash "mm")) thin "m/s"',
    {"diameter": _DROP},
    cite("Atlas", "eq. 24, fit to Gunn and Kinzer", "published"),
    ranges={"diameter": (0.6e-3, 5.8e-3)},
    note="Below 0.11 mm the fit turns negative and 0 is returned.",
)
def fall_speed_fit(diameter: float) -> float:
    """Speed at which a raindrop falls in still air near sea level, by a fit.

    v = 9.65 - 10.3 exp(-0.6 D/mm) m/s, at least 0

    Args:
        diameter: Diameter of the drop [m].

    Returns:
        Fall speed [m/s].

    Raises:
        InputError: diameter not above zero.

    Source: Atlas, Srivastava, Sekhon (1973), eq. 24 — basis: published.
    Valid for: 0.6 to 5.8 mm; within 2 % of the measured speeds above 0.8 mm.
    """
    positive(diameter=diameter)
    return max(0.0, 9.65 - 10.3 * math.exp(-600 * diameter))


@formula(
    _SPEED,
    'v_"table" (D)',
    {"diameter": _DROP},
    cite("Gunn & Kinzer", "measured terminal speeds", "published"),
    ranges={"diameter": (0.078e-3, 5.8e-3)},
)
def fall_speed(diameter: float) -> float:
    """Speed at which a raindrop falls in still air near sea level, as measured.

    Straight lines between the rows of ``fall_speeds.csv``; beyond the last row its speed.

    Args:
        diameter: Diameter of the drop [m].

    Returns:
        Fall speed [m/s].

    Raises:
        InputError: diameter not above zero.

    Source: Gunn, Kinzer (1949) — basis: published.
    Valid for: 0.078 to 5.8 mm.
    """
    positive(diameter=diameter)
    return float(_measured_speeds(np.array([diameter]))[0])


def _measured_speeds(diameters: Array) -> Array:
    rows = fall_speeds()
    places, speeds = [row.diameter for row in rows], [row.speed for row in rows]
    found: Array = np.interp(diameters, [0.0, *places], [0.0, *speeds])
    return found


@formula(
    ("Fall speed over that at sea level", "f_v", "1"),
    "delta^(-0.4)",
    {"density": ("Relative air density at site", "delta", "1")},
    cite("Foote & du Toit", "fall speed aloft, exponent 0.4", "published"),
    ranges={"density": (0.5, 1.1)},
)
def fall_speed_factor(density: float) -> float:
    """By how much raindrops fall faster in thin air.

    f = delta^-0.4

    Args:
        density: Relative air density at site [1].

    Returns:
        Factor on the fall speed [1].

    Raises:
        InputError: density not above zero.

    Source: Foote, du Toit (1969) — basis: published (quoted by third parties).
    Valid for: 0.5 to 1.1.
    """
    positive(density=density)
    return float(density**-0.4)


@formula(
    _MEDIAN,
    '3.672 / Lambda, quad Lambda = 4.1 thin "mm"^(-1) (R / (1 "mm/h"))^(-0.21)',
    {"rate": _RATE},
    cite("Marshall & Palmer", "exponential spectrum", "published"),
    ranges={"rate": (1 * MM_PER_HOUR, 100 * MM_PER_HOUR)},
)
def median_marshall_palmer(rate: float) -> float:
    """Drop diameter that halves the water in the air, after Marshall and Palmer.

    D50 = 3.672/Lambda, Lambda = 4.1 R^-0.21 /mm, R in mm/h

    Args:
        rate: Rain rate on level ground [m/s].

    Returns:
        Median diameter by volume [m].

    Raises:
        InputError: rate not above zero.

    Source: Marshall, Palmer (1948) — basis: published.
    Valid for: 1 to 100 mm/h.
    """
    positive(rate=rate)
    return float(3.672e-3 / (4.1 * (rate / MM_PER_HOUR) ** -0.21))


@formula(
    _MEDIAN,
    '1.238 "mm" (R / (1 "mm/h"))^0.182',
    {"rate": _RATE},
    cite("Laws & Parsons", "median drop size against intensity"),
    ranges={"rate": (0.25 * MM_PER_HOUR, 150 * MM_PER_HOUR)},
)
def median_laws_parsons(rate: float) -> float:
    """Drop diameter that halves the water reaching the ground, after Laws and Parsons.

    D50 = 1.238 mm · R^0.182, R in mm/h

    Args:
        rate: Rain rate on level ground [m/s].

    Returns:
        Median diameter by volume [m].

    Raises:
        InputError: rate not above zero.

    Source: Laws, Parsons (1943) — basis: memory, high confidence.
    Valid for: 0.25 to 150 mm/h.
    """
    positive(rate=rate)
    return float(1.238e-3 * (rate / MM_PER_HOUR) ** 0.182)


@formula(
    _MEDIAN,
    '1.30 "mm" (R / (1 "mm/h"))^0.232 (ln 2)^(1 slash 2.25)',
    {"rate": _RATE},
    cite("Best", "size distribution of raindrops"),
    ranges={"rate": (0.5 * MM_PER_HOUR, 100 * MM_PER_HOUR)},
)
def median_best(rate: float) -> float:
    """Drop diameter that halves the water in the air, after Best.

    1 - F = exp(-(D/a)^2.25), a = 1.30 mm · R^0.232, R in mm/h; F = 1/2

    Args:
        rate: Rain rate on level ground [m/s].

    Returns:
        Median diameter by volume [m].

    Raises:
        InputError: rate not above zero.

    Source: Best (1950) — basis: memory, high confidence.
    Valid for: 0.5 to 100 mm/h.
    """
    positive(rate=rate)
    return float(1.30e-3 * (rate / MM_PER_HOUR) ** 0.232 * math.log(2) ** (1 / 2.25))


@dataclass(frozen=True)
class Spectrum:
    """Rain sorted by drop size.

    Attributes:
        diameters: Drop diameters [m].
        shares: Share of the water reaching level ground that each brings [1]; together 1.
        speeds: Fall speed of each [m/s].
    """

    diameters: Array
    shares: Array
    speeds: Array


def _exponential_water(diameters: Array, rate: float) -> Array:
    slope = 4.1e3 * (rate / MM_PER_HOUR) ** -0.21
    water: Array = diameters**3 * np.exp(-slope * diameters)
    return water


def _weibull_water(diameters: Array, scale: float) -> Array:
    part = diameters / scale
    water: Array = part**1.25 * np.exp(-(part**2.25))
    return water


def _best_water(diameters: Array, rate: float) -> Array:
    return _weibull_water(diameters, median_best(rate) / math.log(2) ** (1 / 2.25))


def _laws_parsons_water(diameters: Array, rate: float) -> Array:
    """Their measured classes, between the rates of the table by the logarithm of the rate."""
    rates = sorted({row.rate for row in drop_classes()})
    classes = np.rint(diameters / DROP_CLASS).astype(int)
    ground = np.zeros((len(rates), np.max(classes) + 1))
    for row in drop_classes():
        place = round(row.diameter / DROP_CLASS)
        if place < ground.shape[1]:
            ground[rates.index(row.rate), place] = row.share
    logs = np.log(rates)
    share = np.array([np.interp(math.log(rate), logs, column) for column in ground.T])
    water: Array = share[classes] / _measured_speeds(diameters)
    return water


SPECTRA: Mapping[str, Callable[[Array, float], Array]] = MappingProxyType(
    {
        "Marshall & Palmer": _exponential_water,
        "Best": _best_water,
        "Laws & Parsons": _laws_parsons_water,
    }
)
"""Water in the air per drop diameter, by the rival laws; the default first."""


def spectrum(rate: float, law: str = "Marshall & Palmer", density: float = 1.0) -> Spectrum:
    """Which drop sizes bring the water of a rain of some rate.

    Share of the ground's water ∝ (water in the air per diameter) · v(D)

    Args:
        rate: Rain rate on level ground [m/s].
        law: A name in :data:`SPECTRA`; "Laws & Parsons" is their table of measured drops.
        density: Relative air density at site [1].

    Returns:
        The spectrum.

    Raises:
        InputError: rate or density not above zero, or no such law.

    Source: Marshall, Palmer (1948), Best (1950), Laws, Parsons (1943) in Medhurst (1965); speeds
    Gunn, Kinzer (1949) — basis: published and memory, as the laws.
    Valid for: 1 to 100 mm/h; drops from 0.1 to 7 mm.
    """
    positive(rate=rate, density=density)
    if law not in SPECTRA:
        raise InputError(f"law: given {law!r}; expected one of {', '.join(SPECTRA)}")
    edges = np.linspace(1e-4, LARGEST_DROP, SIZES + 1)
    diameters = (edges[1:] + edges[:-1]) / 2
    speeds = _measured_speeds(diameters) * fall_speed_factor(density)
    flux = SPECTRA[law](diameters, rate) * speeds
    return Spectrum(diameters, flux / np.sum(flux), speeds)


@formula(
    ("Slant of the drops from the vertical", "theta", "°"),
    "arctan(u / v)",
    {"wind": _WIND, "fall_speed": _SPEED},
    cite("first principles", "a drop drifts with the wind as it falls", "exact"),
)
def slant(wind: float, fall_speed: float) -> float:
    """Angle from the vertical at which drops of one fall speed come.

    theta = arctan(u/v)

    Args:
        wind: Wind speed at the bushing [m/s].
        fall_speed: Fall speed of the drops [m/s].

    Returns:
        Angle from the vertical [rad].

    Raises:
        InputError: wind negative, fall speed not above zero.

    Source: first principles — basis: exact.
    Valid for: level wind, drops that have taken its speed.
    """
    not_negative(wind=wind)
    positive(fall_speed=fall_speed)
    return math.atan2(wind, fall_speed)
