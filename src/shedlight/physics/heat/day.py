"""A day and an emergency on a bushing's heat stores: two-step load, sun, the air's swing.

The load follows the loading guide's two-step day. Air is hottest at three in the afternoon, the
sun stands highest at noon and shines for twelve hours; the peak of the load ends at four. The top
oil follows its own load and the air of the hour.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedlight.physics.domain import not_negative, positive, within
from shedlight.physics.heat.heat_stores import HeatStores, Spell, repeated
from shedlight.physics.heat.network import Network, TopOil
from shedlight.physics.heat.top_oil import oil_rises_of_day
from shedlight.sources import cite
from shedlight.trace import formula

Array = NDArray[np.float64]
HOURS, HOUR = 24, 3600.0
SPELLS = 96  # quarters of an hour: air, sun and load are even in each
SPELL = HOURS * HOUR / SPELLS  # [s]
SAMPLES = 3  # looked at in every spell
HOTTEST_HOUR, PEAK_ENDS = 15.0, 16.0  # [h]
_GUIDE = cite("IEC 60076-7", "two-step load diagram; exponential response of the top oil")
_SYSTEM = "C dot(T) = -G T + I^2 R_20 (1 + alpha (T_1 - 20 °C)) + ..."


@dataclass(frozen=True)
class DayCourse:
    """A day that repeats itself, ready to be drawn; times in hours, temperatures in kelvin."""

    times: Array
    loads: Array
    air: Array
    top_oil: Array
    conductor: Array
    oil: Array
    porcelain: Array
    hot_spot: Array

    @property
    def highest(self) -> float:
        """The hottest place of the conductor in the whole day [K]."""
        return float(self.hot_spot.max())


def loads_of_day(off_peak: float, peak: float, peak_duration: float) -> tuple[float, ...]:
    """Load of every quarter of an hour of a two-step day; quarters that are both by their squares.

    Args:
        off_peak: Load outside the peak, over the rated current [1].
        peak: Load of the peak [1].
        peak_duration: Of the peak, which ends at four in the afternoon [s].

    Returns:
        96 loads, midnight first [1].

    Raises:
        InputError: a load negative, a duration outside a day.

    Source: IEC 60076-7, two-step load diagram — basis: memory, high confidence.
    Valid for: days that repeat themselves.
    """
    not_negative(off_peak=off_peak, peak=peak)
    within(0.0, HOURS * HOUR, peak_duration=peak_duration)
    begin, part = PEAK_ENDS - peak_duration / HOUR, HOURS / SPELLS
    found = []
    for start in (part * n for n in range(SPELLS)):
        shares = [
            max(0.0, min(start + part, PEAK_ENDS + day) - max(start, begin + day)) / part
            for day in (0.0, float(HOURS))  # a long peak reaches back into the evening before
        ]
        share = min(1.0, sum(shares))
        found.append(math.sqrt(share * peak**2 + (1 - share) * off_peak**2))
    return tuple(found)


def air_at_hour(hottest_air: float, swing: float, hour: float) -> float:
    """Air temperature at an hour of the hottest day.

    T = T_max - swing/2 · (1 - cos(2 pi (t - 15 h)/24 h))

    Args:
        hottest_air: Highest temperature [K].
        swing: From the highest to the lowest [K].
        hour: Since midnight [h].

    Returns:
        Temperature [K].

    Source: cosine of the day, hottest at three — basis: practice.
    Valid for: clear days.
    """
    return hottest_air - swing / 2 * (1 - math.cos(2 * math.pi * (hour - HOTTEST_HOUR) / HOURS))


def sun_at_hour(hour: float) -> float:
    """Share of the noon sun at an hour.

    max(0, cos(2 pi (t - 12 h)/24 h))

    Args:
        hour: Since midnight [h].

    Returns:
        Share [1].

    Source: half sine from six to six — basis: practice.
    Valid for: clear days near the equinox; longer days are warmer in the morning and evening.
    """
    return max(0.0, math.cos(2 * math.pi * (hour - HOURS / 2) / HOURS))


@lru_cache(maxsize=4)
def course_of_day(
    stores: HeatStores,
    excess: float,
    rated_current: float,
    hottest_air: float,
    sun: float,
    top_oil: TopOil,
    loads: tuple[float, ...],
    swing: float,
) -> DayCourse:
    """Temperatures through a day that repeats itself; the last few are kept.

    Args:
        stores: Heat stores of the bushing.
        excess: Hot spot over the conductor's mean at rated current [K].
        rated_current: Rms [A].
        hottest_air: Highest air temperature [K].
        sun: At noon, taken up by the bushing [W].
        top_oil: How the top oil follows the load.
        loads: Of every quarter of an hour, over the rated current [1].
        swing: Of the air from highest to lowest [K].

    Returns:
        The day's course.

    Raises:
        InputError: a value outside its domain, or from day to day hotter ("runaway").

    Source: linear heat stores; IEC 60076-7 for the top oil — basis: memory, high confidence.
    Valid for: one temperature per store; steps of a quarter of an hour in air and sun.
    """
    positive(rated_current=rated_current, transformer_current=top_oil.transformer_current)
    scale = rated_current / top_oil.transformer_current
    rises = oil_rises_of_day(
        (SPELL,) * SPELLS,
        tuple(scale * load for load in loads),
        top_oil.rated_rise,
        top_oil.loss_ratio,
        top_oil.oil_exponent,
        top_oil.oil_time_constant,
    )
    hours = [(n + 0.5) * SPELL / HOUR for n in range(SPELLS)]
    air = [air_at_hour(hottest_air, swing, hour) for hour in hours]
    spells = tuple(
        Spell(SPELL, load * rated_current, warm + risen, warm, sun * sun_at_hour(hour))
        for hour, load, warm, risen in zip(hours, loads, air, rises, strict=True)
    )
    times, temperatures = repeated(stores, spells).course(SAMPLES)
    each = np.repeat(np.arange(SPELLS), SAMPLES)
    load, warm_air, oil = (np.array(values)[each] for values in (loads, air, rises))
    conductor, top = temperatures[:, 0], warm_air + oil
    return DayCourse(
        times / HOUR,
        load,
        warm_air,
        top,
        conductor,
        temperatures[:, 1],
        temperatures[:, 2],
        np.asarray(np.maximum(conductor + excess * load**2, top)),
    )


@formula(
    ("Hottest place of the conductor in the day", 'T_"day"', "°C"),
    "max_t [T_1 (t) + Delta T_e K(t)^2], quad " + _SYSTEM,
    {
        "network": Network,
        "excess": ("Hot spot over the conductor's mean at rated current", "Delta T_e", "K"),
        "rated_current": ("Rated current, rms", "I_r", "A"),
        "hottest_air": ("Highest air temperature", "T_a", "°C"),
        "sun": ("Sun at noon on the bushing", 'P_"s"', "W"),
        "top_oil": TopOil,
        "off_peak": ("Load outside the peak", "K_1", "1"),
        "peak": ("Load of the peak", "K_2", "1"),
        "peak_duration": ("Duration of the peak", 't_"peak"', "h"),
        "swing": ("Swing of the air", 'Delta theta_"d"', "K"),
    },
    _GUIDE,
    note="At least the top oil's temperature; air hottest at three, sun highest at noon.",
)
def day_hot_spot(
    network: Network,
    excess: float,
    rated_current: float,
    hottest_air: float,
    sun: float,
    top_oil: TopOil,
    off_peak: float,
    peak: float,
    peak_duration: float,
    swing: float,
) -> float:
    """How hot the hottest place becomes in a day of two loads that repeats itself.

    max over the day of :func:`course_of_day`

    Args:
        network: The bushing as heat stores.
        excess: Hot spot over the conductor's mean at rated current [K].
        rated_current: Rms [A].
        hottest_air: Highest air temperature [K].
        sun: At noon, taken up by the bushing [W].
        top_oil: How the top oil follows the load.
        off_peak: Load outside the peak, over the rated current [1].
        peak: Load of the peak, over the rated current [1].
        peak_duration: Of the peak [s].
        swing: Of the air from highest to lowest [K].

    Returns:
        Temperature [K].

    Raises:
        InputError: as :func:`course_of_day`.

    Source: linear heat stores; IEC 60076-7 — basis: memory, high confidence.
    Valid for: as :func:`course_of_day`.
    """
    loads = loads_of_day(off_peak, peak, peak_duration)
    return course_of_day(
        network.stores, excess, rated_current, hottest_air, sun, top_oil, loads, swing
    ).highest
