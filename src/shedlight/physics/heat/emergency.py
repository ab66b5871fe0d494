"""Current above the rated one for some hours, from rated temperatures on."""

import math

from shedlight.physics.domain import positive
from shedlight.physics.heat.heat_stores import Spell, after, settled
from shedlight.physics.heat.network import Network, TopOil
from shedlight.physics.heat.top_oil import top_oil_rise
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Top-oil rise at the end of the emergency", "Delta T_o", "K"),
    "Delta T_(o 1) + (Delta T_(o 2) - Delta T_(o 1)) (1 - e^(-t slash tau_o)), quad"
    ' Delta T_(o i) = Delta T_"or" ((1 + R K_i^2) / (1 + R))^x, quad K_i = I_i slash I_"tr"',
    {
        "before": ("Current before, rms", "I_1", "A"),
        "current": ("Current of the emergency, rms", "I_2", "A"),
        "duration": ("How long it lasts", "t", "h"),
        "top_oil": TopOil,
    },
    cite("IEC 60076-7", "exponential response of the top oil"),
)
def emergency_oil_rise(
    before: float,
    current: float,
    duration: float,
    top_oil: TopOil,
) -> float:
    """Top-oil rise over the air when an emergency ends.

    T_1 + (T_2 - T_1)(1 - exp(-t/tau)), T_1 and T_2 the rises that both loads settle to

    Args:
        before: Current before, rms [A].
        current: Of the emergency, rms [A].
        duration: How long it lasts [s].
        top_oil: How the top oil follows the load.

    Returns:
        Rise [K].

    Raises:
        InputError: a value outside its domain.

    Source: IEC 60076-7 — basis: memory, high confidence.
    Valid for: loads up to twice the rated one.
    """
    rated, constant = top_oil.transformer_current, top_oil.oil_time_constant
    positive(duration=duration, transformer_current=rated, oil_time_constant=constant)
    first, last = (
        top_oil_rise(top_oil.rated_rise, amperes / rated, top_oil.loss_ratio, top_oil.oil_exponent)
        for amperes in (before, current)
    )
    return last + (first - last) * math.exp(-duration / constant)


@formula(
    ("Conductor at the end of the emergency, mean", "T_1 (t)", "°C"),
    'C dot(T) = -G T + I^2 R_20 (1 + alpha (T_1 - 20 °C)) + ..., quad T(0) "settled at" I_r',
    {
        "network": Network,
        "before": ("Current before, rms", "I_r", "A"),
        "oil_before": ("Top oil before", 'T_"oil,1"', "°C"),
        "current": ("Current of the emergency, rms", "I", "A"),
        "oil": ("Top oil at its end", 'T_"oil"', "°C"),
        "air": ("Air temperature", "T_a", "°C"),
        "sun": ("Sun on the bushing", 'P_"s"', "W"),
        "duration": ("How long it lasts", "t", "h"),
    },
    cite("first principles", "linear heat stores, exact in time", "exact"),
    note="The top oil is taken at its last temperature all the while: safe side.",
)
def emergency_conductor(
    network: Network,
    before: float,
    oil_before: float,
    current: float,
    oil: float,
    air: float,
    sun: float,
    duration: float,
) -> float:
    """Mean temperature of the conductor when an emergency ends.

    Response of three heat stores, settled at the current before

    Args:
        network: The bushing as heat stores.
        before: Current before, rms [A].
        oil_before: Top oil before [K].
        current: Of the emergency, rms [A].
        oil: Top oil at the end of the emergency [K].
        air: Air temperature [K].
        sun: Taken up by the bushing [W].
        duration: Of the emergency [s].

    Returns:
        Temperature [K].

    Raises:
        InputError: a value outside its domain, or nothing settles before ("runaway").

    Source: linear heat stores — basis: exact.
    Valid for: one temperature per store.
    """
    stores = network.stores
    start = settled(stores, Spell(1.0, before, oil_before, air, sun))
    return after(stores, start, Spell(duration, current, oil, air, sun))[0]


@formula(
    ("Hottest place of the conductor", 'T_"h"', "°C"),
    "T_1 + Delta T_e K^2",
    {
        "conductor": ("Mean temperature of the conductor", "T_1", "°C"),
        "excess": ("Hot spot over that mean at rated current", "Delta T_e", "K"),
        "load": ("Current over rated current", "K", "1"),
    },
    cite("first principles", "losses grow with the square of the current", "exact"),
)
def hot_spot_over_mean(conductor: float, excess: float, load: float) -> float:
    """Hottest place from the conductor's mean.

    T_h = T_1 + Delta T_e K²

    Args:
        conductor: Mean temperature of the conductor [K].
        excess: Hot spot over the mean at rated current [K].
        load: Current over rated current [1].

    Returns:
        Temperature [K].

    Raises:
        InputError: temperature not above zero.

    Source: losses grow with the square of the current — basis: exact for steady states.
    Valid for: slow changes.
    """
    positive(conductor=conductor)
    return conductor + excess * load**2
