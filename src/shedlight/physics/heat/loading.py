"""Loading guide: hot spot from test constants, its change in time, ageing as an indicator."""

import math

from shedlight.errors import InputError
from shedlight.physics.domain import finite, not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

_GUIDE = cite("IEEE C57.19.100", "loading above nameplate, hot-spot formula", "memory", "medium")
_INITIAL = ("Hot spot before", "T_0", "°C")
_ULTIMATE = ("Hot spot in the end", "T_infinity", "°C")
_CONSTANT = ("Thermal time constant", "tau", "h")


@formula(
    ("Hottest spot by the loading guide", "T_h", "°C"),
    "T_a + K_1 I^n + K_2 Delta T_o",
    {
        "air": ("Air temperature", "T_a", "°C"),
        "current_rise": ("Rise by rated current alone", "K_1", "K"),
        "load": ("Current over rated current", "I", "1"),
        "exponent": ("Load exponent", "n", "1"),
        "oil_share": ("Share of the oil rise", "K_2", "1"),
        "oil_rise": ("Top-oil rise over air", "Delta T_o", "K"),
    },
    _GUIDE,
    ranges={"current_rise": (15.0, 32.0), "exponent": (1.6, 2.0), "oil_share": (0.6, 0.8)},
    note="The constants come from the maker's temperature-rise test.",
)
def guide_hot_spot(
    air: float,
    current_rise: float,
    load: float,
    exponent: float,
    oil_share: float,
    oil_rise: float,
) -> float:
    """Hot spot of a bottom-connected bushing in steady state, from test constants.

    T_h = T_a + K1 I^n + K2 Delta T_o

    Args:
        air: Air temperature [K].
        current_rise: K1, rise by rated current alone [K].
        load: Current over the bushing's rated current [1].
        exponent: n, 1.6 to 2 [1].
        oil_share: K2, 0.6 to 0.8 [1].
        oil_rise: Top-oil rise over air [K].

    Returns:
        Hot-spot temperature [K].

    Raises:
        InputError: air temperature or exponent not above zero, another argument negative.

    Source: IEEE Std C57.19.100 — basis: memory, medium confidence.
    Valid for: constants measured on the bushing.
    """
    positive(air=air, exponent=exponent)
    not_negative(current_rise=current_rise, load=load, oil_share=oil_share, oil_rise=oil_rise)
    return float(air + current_rise * load**exponent + oil_share * oil_rise)


@formula(
    ("Hot spot after a step of load", "T(t)", "°C"),
    "T_infinity + (T_0 - T_infinity) exp(-t / tau)",
    {
        "initial": _INITIAL,
        "ultimate": _ULTIMATE,
        "time": ("Time since the step", "t", "h"),
        "time_constant": _CONSTANT,
    },
    cite("first principles", "one heat store with a steady outlet", "exact"),
)
def step_response(initial: float, ultimate: float, time: float, time_constant: float) -> float:
    """Temperature some time after the load changed.

    T(t) = T_inf + (T_0 - T_inf) exp(-t/tau)

    Args:
        initial: Temperature before the step [K].
        ultimate: Temperature in the end [K].
        time: Since the step [s].
        time_constant: Thermal time constant [s].

    Returns:
        Temperature [K].

    Raises:
        InputError: time negative, another argument not above zero.

    Source: one heat store — basis: exact.
    Valid for: bodies with one time constant.
    """
    positive(initial=initial, ultimate=ultimate, time_constant=time_constant)
    not_negative(time=time)
    return ultimate + (initial - ultimate) * math.exp(-time / time_constant)


@formula(
    ("Time to a temperature", "t", "h"),
    'tau ln((T_0 - T_infinity) / (T_"lim" - T_infinity))',
    {
        "initial": _INITIAL,
        "ultimate": _ULTIMATE,
        "limit": ("Temperature to reach", 'T_"lim"', "°C"),
        "time_constant": _CONSTANT,
    },
    cite("first principles", "one heat store with a steady outlet", "exact"),
)
def time_to_reach(initial: float, ultimate: float, limit: float, time_constant: float) -> float:
    """How long after a step of load a temperature is reached.

    t = tau ln((T_0 - T_inf)/(T_lim - T_inf))

    Args:
        initial: Temperature before the step [K].
        ultimate: Temperature in the end [K].
        limit: Temperature to reach, between the two [K].
        time_constant: Thermal time constant [s].

    Returns:
        Time [s].

    Raises:
        InputError: limit not between initial and ultimate, time constant not above zero.

    Source: one heat store — basis: exact.
    Valid for: bodies with one time constant.
    """
    finite(initial=initial, ultimate=ultimate)
    positive(time_constant=time_constant)
    if not min(initial, ultimate) <= limit <= max(initial, ultimate) or limit == ultimate:
        raise InputError(
            f"limit: given {limit:g} K; expected between initial ({initial:g} K) and "
            f"ultimate ({ultimate:g} K), which itself is never reached"
        )
    return time_constant * math.log((initial - ultimate) / (limit - ultimate))


@formula(
    ("Ageing rate against a reference temperature", "V", "1"),
    "exp(B (1 / T_r - 1 / T))",
    {
        "temperature": ("Hot spot", "T", "°C"),
        "reference": ("Reference temperature", "T_r", "°C"),
        "activation": ("Activation constant", "B", "K"),
    },
    cite("Arrhenius", "ageing of paper, B = 15000 K", "memory", "medium"),
    ranges={"temperature": (353.15, 453.15)},
    note="Absolute temperatures; an indicator only.",
)
def ageing_rate(temperature: float, reference: float, activation: float) -> float:
    """How much faster insulation ages than at a reference temperature.

    V = exp(B (1/T_r - 1/T))

    Args:
        temperature: Hot-spot temperature [K].
        reference: Reference temperature [K].
        activation: B; 15000 K for transformer paper [K].

    Returns:
        Ratio of ageing rates [1].

    Raises:
        InputError: an argument not above zero.

    Source: Arrhenius law, constant as in IEEE Std C57.91 — basis: memory, medium confidence.
    Valid for: 80 to 180 °C, paper; an indicator only.
    """
    positive(temperature=temperature, reference=reference, activation=activation)
    return math.exp(activation * (1 / reference - 1 / temperature))
