"""Rain in wind: water on upright faces, the spread of slants, the wetting rate of any place."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.air.rain import MM_PER_HOUR, Spectrum
from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

Array = NDArray[np.float64]

_RATE = ("Rain rate on level ground", "R", "mm/h")
_WIND = ("Wind speed at the bushing", "u", "m/s")


@dataclass(frozen=True)
class SlantedRain:
    """Rain sorted by slant.

    Attributes:
        slants: Angle from the vertical of each part [rad].
        shares: Share of the water reaching level ground that each brings [1]; together 1.
    """

    slants: Array
    shares: Array


@formula(
    ("Rain on an upright face", "R_v", "mm/h"),
    '0.222 thin u / (1 "m/s") (R / (1 "mm/h"))^0.88 thin "mm/h"',
    {"rate": _RATE, "wind": _WIND},
    cite("Lacy", "driving rain on an upright face"),
    ranges={"rate": (0.1 * MM_PER_HOUR, 100 * MM_PER_HOUR)},
)
def upright_face_lacy(rate: float, wind: float) -> float:
    """Water that wind drives onto an upright face, after Lacy.

    R_v = 0.222 u R^0.88, u in m/s, R in mm/h

    Args:
        rate: Rain rate on level ground [m/s].
        wind: Wind speed square to the face [m/s].

    Returns:
        Rate through an upright surface in the open [m/s].

    Raises:
        InputError: rate not above zero, wind negative.

    Source: Lacy (1965) — basis: memory, high confidence.
    Valid for: rain undisturbed by the body it falls on.
    """
    positive(rate=rate)
    not_negative(wind=wind)
    return float(0.222 * wind * (rate / MM_PER_HOUR) ** 0.88 * MM_PER_HOUR)


def upright_face(rate: float, wind: float, spectrum: Spectrum) -> float:
    """Water that wind drives onto an upright face, summed over the drop sizes.

    R_v = R sum of s_i u/v_i

    Args:
        rate: Rain rate on level ground [m/s].
        wind: Wind speed square to the face [m/s].
        spectrum: Drop sizes, from :func:`shedlight.physics.air.rain.spectrum`.

    Returns:
        Rate through an upright surface in the open [m/s].

    Raises:
        InputError: rate not above zero, wind negative.

    Source: first principles — basis: exact for the spectrum given.
    Valid for: drops that have taken the wind's speed.
    """
    positive(rate=rate)
    not_negative(wind=wind)
    return rate * wind * float(np.sum(spectrum.shares / spectrum.speeds))


def slanted_rain(spectrum: Spectrum, wind: float, parts: int = 5) -> SlantedRain:
    """Rain in wind sorted into a few slants that each bring as much water.

    tan theta of a part is the mean of u/v over its drops, so that both level and upright
    surfaces receive exactly what the whole spectrum brings.

    Args:
        spectrum: Drop sizes.
        wind: Wind speed at the bushing [m/s].
        parts: How many slants, the flattest (smallest drops) first.

    Returns:
        Slants and shares.

    Raises:
        InputError: wind negative, fewer than one part.

    Source: first principles — basis: exact for the spectrum given.
    Valid for: level wind.
    """
    not_negative(wind=wind)
    if parts < 1:
        raise InputError(f"parts: given {parts}; expected at least 1")
    reached = np.concatenate([[0.0], np.cumsum(spectrum.shares)])
    drift = np.concatenate([[0.0], np.cumsum(spectrum.shares * wind / spectrum.speeds)])
    bounds = np.linspace(0.0, reached[-1], parts + 1)
    shares = np.diff(bounds)
    tangents = np.diff(np.interp(bounds, reached, drift)) / shares
    return SlantedRain(np.arctan(tangents), shares)


def slant_quantile(spectrum: Spectrum, wind: float, share: float) -> float:
    """Slant that a share of the water does not exceed.

    Args:
        spectrum: Drop sizes.
        wind: Wind speed at the bushing [m/s].
        share: Share of the water that falls this steeply or more steeply, 0 to 1 [1].

    Returns:
        Angle from the vertical [rad].

    Raises:
        InputError: wind negative, share outside 0 to 1.

    Source: first principles — basis: exact for the spectrum given.
    Valid for: level wind.
    """
    not_negative(wind=wind)
    if not 0 <= share <= 1:
        raise InputError(f"share: given {share:g}; expected 0 to 1")
    reached = np.cumsum(spectrum.shares[::-1])
    speed = float(np.interp(share * reached[-1], reached, spectrum.speeds[::-1]))
    return math.atan2(wind, speed)


def wetting_rate(rate: float, rain: SlantedRain, factors: Array) -> Array:
    """Water that strikes each place of a surface, from how squarely each slant strikes it.

    w = R sum of s_i f_i/cos theta_i

    Args:
        rate: Rain rate on level ground [m/s].
        rain: The rain sorted by slant.
        factors: Cosine between surface normal and rain, 0 in shadow; last axis by slant [1].

    Returns:
        Wetting rate of each place [m/s].

    Raises:
        InputError: rate not above zero, or another number of slants.

    Source: first principles — basis: exact; splash and run-off left out.
    Valid for: slants below 90°.
    """
    positive(rate=rate)
    if factors.shape[-1] != len(rain.slants):
        raise InputError(f"factors: given {factors.shape[-1]} slants; expected {len(rain.slants)}")
    found: Array = rate * factors @ (rain.shares / np.cos(rain.slants))
    return found


@formula(
    ("Slant of the test rain", "theta", "°"),
    "arctan(R_h / R_v)",
    {
        "vertical": ("Vertical component", "R_v", "mm/min"),
        "horizontal": ("Horizontal component", "R_h", "mm/min"),
    },
    cite("IEC 60060-1", "standard wet test, components of the precipitation", "exact"),
)
def slant_of_test_rain(vertical: float, horizontal: float) -> float:
    """Angle from the vertical of artificial rain, from what two gauges catch.

    theta = arctan(R_h/R_v)

    Args:
        vertical: Caught by a level opening [m/s].
        horizontal: Caught by an upright opening [m/s].

    Returns:
        Angle from the vertical [rad].

    Raises:
        InputError: vertical not above zero, horizontal negative.

    Source: IEC 60060-1; geometry — basis: exact.
    Valid for: even rain.
    """
    positive(vertical=vertical)
    not_negative(horizontal=horizontal)
    return math.atan2(horizontal, vertical)
