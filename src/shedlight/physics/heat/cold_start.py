"""Load that comes on in deep frost: conductor and oil warm at once, the porcelain behind them."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shedlight.physics.domain import not_negative, positive
from shedlight.physics.heat.heat_stores import HeatStores, Spell, after
from shedlight.physics.heat.network import Network, TopOil
from shedlight.physics.heat.top_oil import top_oil_rise
from shedlight.sources import cite
from shedlight.trace import Shared, formula

Array = NDArray[np.float64]
FIRST, LAST, SPELLS = 60.0, 86400.0, 96  # spells grow evenly in ratio [s, s, 1]
_SYSTEM = "C dot(T) = -G T + I^2 R_20 (1 + alpha (T_1 - 20 °C)) + ..., quad T(0) = T_a"
_START: dict[str, tuple[str, str, str] | type[Shared]] = {
    "network": Network,
    "current": ("Current that comes on, rms", "I", "A"),
    "coldest_air": ("Lowest air temperature", "T_a", "°C"),
    "top_oil": TopOil,
}
_STORES = cite("first principles", "linear heat stores, exact in time", "exact")
_NOTE = (
    "A day from the moment the load comes on, everything as cold as the air before; the top oil "
    "taken in each spell as warm as at its end."
)


@dataclass(frozen=True)
class ColdStart:
    """The day after load came on in the cold: times [s], temperatures and top oil [K]."""

    times: Array
    stores: Array  # columns: conductor, oil, porcelain
    top_oil: Array


@lru_cache(8)
def course_of_cold_start(
    stores: HeatStores,
    current: float,
    coldest_air: float,
    top_oil: TopOil,
) -> ColdStart:
    """Conductor, oil and porcelain from the moment the load comes on.

    Linear heat stores, all at the air's temperature before; top oil rising exponentially

    Args:
        stores: The bushing's heat stores.
        current: That comes on, rms [A].
        coldest_air: Air temperature, and that of everything before [K].
        top_oil: How the top oil follows the load.

    Returns:
        The course.

    Raises:
        InputError: a value outside its domain.

    Source: linear heat stores; IEC 60076-7 for the top oil — basis: exact, memory.
    Valid for: one temperature per store; no wind that changes.
    """
    rated, constant = top_oil.transformer_current, top_oil.oil_time_constant
    not_negative(current=current)
    positive(coldest_air=coldest_air, transformer_current=rated, oil_time_constant=constant)
    last = top_oil_rise(
        top_oil.rated_rise, current / rated, top_oil.loss_ratio, top_oil.oil_exponent
    )
    times = np.geomspace(FIRST, LAST, SPELLS)
    tanks = coldest_air - last * np.expm1(-times / constant)
    temperatures = (coldest_air, coldest_air, coldest_air)
    found = []
    for (begin, end), tank in zip(pairwise((0.0, *times.tolist())), tanks.tolist(), strict=True):
        temperatures = after(stores, temperatures, Spell(end - begin, current, tank, coldest_air))
        found.append(temperatures)
    return ColdStart(times, np.array(found), tanks)


@formula(
    ("Greatest lead of the conductor over the porcelain", "Delta T_13", "K"),
    f"max_t (T_1 - T_3), quad {_SYSTEM}",
    _START,
    _STORES,
    note=_NOTE,
)
def cold_start_lead(
    network: Network,
    current: float,
    coldest_air: float,
    top_oil: TopOil,
) -> float:
    """How far the conductor runs ahead of the porcelain when load comes on in the cold.

    Greatest T_1 - T_3 on the day after

    Args:
        network: The bushing as heat stores.
        current: That comes on, rms [A].
        coldest_air: Air temperature, and that of everything before [K].
        top_oil: How the top oil follows the load.

    Returns:
        Difference [K].

    Raises:
        InputError: a value outside its domain.

    Source: linear heat stores — basis: exact.
    Valid for: one temperature per store.
    """
    stores = network.stores
    found = course_of_cold_start(stores, current, coldest_air, top_oil).stores
    return max(0.0, float(np.max(found[:, 0] - found[:, 2])))


@formula(
    ("Greatest heat from the oil into the porcelain", 'P_"23"', "W"),
    f"max_t G_2 (T_2 - T_3), quad {_SYSTEM}",
    _START,
    _STORES,
    note=_NOTE,
)
def cold_start_heat(
    network: Network,
    current: float,
    coldest_air: float,
    top_oil: TopOil,
) -> float:
    """Heat that enters the cold porcelain at most when load comes on in the cold.

    Greatest G_2 (T_2 - T_3) on the day after

    Args:
        network: The bushing as heat stores.
        current: That comes on, rms [A].
        coldest_air: Air temperature, and that of everything before [K].
        top_oil: How the top oil follows the load.

    Returns:
        Heat [W].

    Raises:
        InputError: a value outside its domain.

    Source: linear heat stores — basis: exact.
    Valid for: one temperature per store.
    """
    stores = network.stores
    found = course_of_cold_start(stores, current, coldest_air, top_oil).stores
    return max(0.0, stores.oil_to_porcelain * float(np.max(found[:, 1] - found[:, 2])))


@formula(
    ("Temperature difference across the wall", 'Delta T_"w"', "K"),
    "P R / L",
    {
        "heat": ("Heat through the wall", "P", "W"),
        "resistance": ("Resistance of the wall times length", "R", "mK/W"),
        "length": ("Length through which it passes", "L", "mm"),
    },
    cite("first principles", "heat through a resistance", "exact"),
    note="All the heat that enters the bore counted as if it passed the whole wall: safe side.",
)
def across_wall(heat: float, resistance: float, length: float) -> float:
    """How much warmer the bore of a wall is than its outside, from the heat that passes.

    Delta T = P R/L

    Args:
        heat: That passes the wall [W].
        resistance: Of the wall, times length [mK/W].
        length: Of the wall along its axis [m].

    Returns:
        Difference [K].

    Raises:
        InputError: heat or resistance negative, length not above zero.

    Source: Fourier's law — basis: exact.
    Valid for: heat that flows radially and evenly along.
    """
    not_negative(heat=heat, resistance=resistance)
    positive(length=length)
    return heat * resistance / length
