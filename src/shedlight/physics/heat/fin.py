"""A conductor between hot oil and cool air, as a heated fin.

Along the axis, from the oil end (x = 0) to the terminal (x = L),

    T'' - b (T - T_s) + s = 0,
    b = (G - I² r alpha)/(k A),   s = I² r (1 + alpha (T_s - 20 °C))/(k A),

with r the resistance per length at 20 °C (skin effect included), G the conductance to the
surroundings per length, k A the conductor's own. With b > 0 the shape is built of hyperbolic
functions; with b <= 0 the loss grows with temperature faster than the sides carry it off, and
only the ends keep a short conductor steady. Where nothing does, no temperature is returned.
"""

import math

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.heat.conductor import REFERENCE_TEMPERATURE
from shedlight.physics.heat.fin_state import RUNAWAY, FinState, share_slope
from shedlight.sources import cite
from shedlight.trace import formula

_FIN = cite("Carslaw", "steady temperature in a thin rod heated by a current", "exact")
_COEFFICIENT = ("Fin coefficient", "b", "1/m²")
_SOURCE = ("Fin source", "s", "K/m²")
_SURROUNDINGS = ("Temperature around the conductor", "T_s", "°C")
_OIL_END = ("Temperature at the oil end", "T_0", "°C")
_TERMINAL = ("Temperature at the terminal", "T_L", "°C")
_LENGTH = ("Length between oil and terminal", "L", "m")
_CONDUCTION = ("Conductor's conductivity times area", "k A", "Wm/K")


@formula(
    _COEFFICIENT,
    "(G - I^2 r_20 alpha) / (k A)",
    {
        "side_conductance": ("Conductance to the surroundings per length", "G", "W/mK"),
        "current": ("Current, rms", "I", "A"),
        "resistance_per_length_20": ("Resistance per length at 20 °C", "r_20", "µΩ/m"),
        "temperature_coefficient": ("Temperature coefficient at 20 °C", "alpha", "1/K"),
        "conduction": _CONDUCTION,
    },
    _FIN,
)
def fin_coefficient(
    side_conductance: float,
    current: float,
    resistance_per_length_20: float,
    temperature_coefficient: float,
    conduction: float,
) -> float:
    """How strongly the sides hold the conductor to its surroundings; negative: they do not.

    b = (G - I² r_20 alpha)/(k A)

    Args:
        side_conductance: Conductance from conductor to surroundings per length [W/mK].
        current: Current, rms [A].
        resistance_per_length_20: Resistance per length at 20 °C, skin effect included [Ω/m].
        temperature_coefficient: Of the resistance, at 20 °C [1/K].
        conduction: Thermal conductivity times cross-section of the conductor [Wm/K].

    Returns:
        Fin coefficient b [1/m²].

    Raises:
        InputError: an argument negative, resistance or conduction not above zero.

    Source: Carslaw and Jaeger, rod heated by a current — basis: exact.
    Valid for: one temperature over the cross-section, even conductance along the side.
    """
    not_negative(
        side_conductance=side_conductance,
        current=current,
        temperature_coefficient=temperature_coefficient,
    )
    positive(resistance_per_length_20=resistance_per_length_20, conduction=conduction)
    growth = current**2 * resistance_per_length_20 * temperature_coefficient
    return (side_conductance - growth) / conduction


@formula(
    _SOURCE,
    "(I^2 r_20 (1 + alpha (T_s - 20 °C))) / (k A)",
    {
        "current": ("Current, rms", "I", "A"),
        "resistance_per_length_20": ("Resistance per length at 20 °C", "r_20", "µΩ/m"),
        "temperature_coefficient": ("Temperature coefficient at 20 °C", "alpha", "1/K"),
        "surroundings": _SURROUNDINGS,
        "conduction": _CONDUCTION,
    },
    _FIN,
)
def fin_source(
    current: float,
    resistance_per_length_20: float,
    temperature_coefficient: float,
    surroundings: float,
    conduction: float,
) -> float:
    """Heat made in the conductor at the temperature of its surroundings, over k A.

    s = I² r_20 (1 + alpha (T_s - 20 °C))/(k A)

    Args:
        current: Current, rms [A].
        resistance_per_length_20: Resistance per length at 20 °C, skin effect included [Ω/m].
        temperature_coefficient: Of the resistance, at 20 °C [1/K].
        surroundings: Temperature around the conductor [K].
        conduction: Thermal conductivity times cross-section of the conductor [Wm/K].

    Returns:
        Fin source s [K/m²].

    Raises:
        InputError: an argument negative, resistance, temperature or conduction not above zero.

    Source: Carslaw and Jaeger, rod heated by a current — basis: exact.
    Valid for: one temperature over the cross-section.
    """
    not_negative(current=current, temperature_coefficient=temperature_coefficient)
    positive(
        resistance_per_length_20=resistance_per_length_20,
        surroundings=surroundings,
        conduction=conduction,
    )
    growth = 1 + temperature_coefficient * (surroundings - REFERENCE_TEMPERATURE)
    return current**2 * resistance_per_length_20 * growth / conduction


def _held(coefficient: float) -> None:
    if not coefficient > 0:
        raise InputError(
            f"coefficient: given {coefficient:g} 1/m²; expected above 0, otherwise {RUNAWAY} "
            "along the sides"
        )


@formula(
    ("Fin parameter", "m", "1/m"),
    "sqrt(b)",
    {"coefficient": _COEFFICIENT},
    _FIN,
)
def fin_parameter(coefficient: float) -> float:
    """One over the length along which the influence of an end dies away.

    m = sqrt(b)

    Args:
        coefficient: Fin coefficient b [1/m²].

    Returns:
        Fin parameter m [1/m].

    Raises:
        InputError: coefficient not above zero ("runaway").

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: b above 0.
    """
    _held(coefficient)
    return math.sqrt(coefficient)


@formula(
    ("Ultimate rise of a long conductor", "Delta T_infinity", "K"),
    "s / b",
    {"source": _SOURCE, "coefficient": _COEFFICIENT},
    _FIN,
)
def fin_ultimate_rise(source: float, coefficient: float) -> float:
    """Rise over the surroundings of a conductor so long that its ends do not matter.

    Delta T = s/b

    Args:
        source: Fin source s [K/m²].
        coefficient: Fin coefficient b [1/m²].

    Returns:
        Temperature rise [K].

    Raises:
        InputError: source negative, coefficient not above zero ("runaway").

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: b above 0.
    """
    not_negative(source=source)
    _held(coefficient)
    return source / coefficient


@formula(
    _TERMINAL,
    "T_s + (k A (theta_0 g'(0) - s h'(L)) + U_A (T_a - T_s) + P_\"c\") / (U_A + k A g'(L)),"
    " quad g = sinh(m x) / sinh(m L), quad h = (1 - g(x) - g(L - x)) / b",
    {
        "coefficient": _COEFFICIENT,
        "source": _SOURCE,
        "surroundings": _SURROUNDINGS,
        "oil_end": _OIL_END,
        "length": _LENGTH,
        "conduction": _CONDUCTION,
        "terminal_conductance": ("Conductance of the terminal to air", "U_A", "W/K"),
        "air": ("Air temperature", "T_a", "°C"),
        "contact_power": ("Loss in the terminal's contact", 'P_"c"', "W"),
    },
    _FIN,
    note="theta_0 is the oil end's rise over the surroundings, m = sqrt(b).",
)
def fin_end_temperature(
    coefficient: float,
    source: float,
    surroundings: float,
    oil_end: float,
    length: float,
    conduction: float,
    terminal_conductance: float,
    air: float,
    contact_power: float,
) -> float:
    """Temperature a terminal takes when it gives its heat to the air.

    -k A T'(L) = U_A (T_L - T_a) - P_c, with the fin's T(x) put in

    Args:
        coefficient: Fin coefficient b [1/m²].
        source: Fin source s [K/m²].
        surroundings: Temperature around the conductor [K].
        oil_end: Temperature at the oil end [K].
        length: From oil end to terminal [m].
        conduction: Thermal conductivity times cross-section of the conductor [Wm/K].
        terminal_conductance: From terminal (and its cable) to air [W/K].
        air: Air temperature [K].
        contact_power: Loss in the terminal's contact [W].

    Returns:
        Terminal temperature [K].

    Raises:
        InputError: lengths, conductances or temperatures out of their domain, or "runaway".

    Source: Carslaw and Jaeger; balance at the end — basis: exact.
    Valid for: one temperature over the cross-section.
    """
    positive(length=length, conduction=conduction, air=air)
    not_negative(terminal_conductance=terminal_conductance, contact_power=contact_power)
    # With the terminal at the temperature of the surroundings the shape needs no end term.
    held = FinState(coefficient, source, surroundings, oil_end, surroundings, length)
    stiffness = terminal_conductance + conduction * share_slope(coefficient, length, length)
    if stiffness <= 0:
        raise InputError(f"terminal_conductance: given {terminal_conductance:g} W/K; {RUNAWAY}")
    heat = held.terminal_flow(conduction) + contact_power
    return surroundings + (heat + terminal_conductance * (air - surroundings)) / stiffness


@formula(
    ("Hottest spot of the conductor", 'T_"max"', "°C"),
    "max_(0 <= x <= L) T(x),"
    " quad T(x) = T_s + theta_0 g(L - x) + theta_L g(x) + s / b (1 - g(x) - g(L - x)),"
    " quad g(x) = sinh(sqrt(b) x) / sinh(sqrt(b) L)",
    {
        "coefficient": _COEFFICIENT,
        "source": _SOURCE,
        "surroundings": _SURROUNDINGS,
        "oil_end": _OIL_END,
        "terminal": _TERMINAL,
        "length": _LENGTH,
    },
    _FIN,
    note="theta_0 and theta_L are the rises of the two ends over the surroundings.",
)
def fin_hot_spot(
    coefficient: float,
    source: float,
    surroundings: float,
    oil_end: float,
    terminal: float,
    length: float,
) -> float:
    """Highest temperature anywhere along the conductor.

    max over x of T(x), the fin's shape between its two end temperatures

    Args:
        coefficient: Fin coefficient b [1/m²].
        source: Fin source s [K/m²].
        surroundings: Temperature around the conductor [K].
        oil_end: Temperature at the oil end [K].
        terminal: Temperature at the terminal [K].
        length: From oil end to terminal [m].

    Returns:
        Highest temperature [K].

    Raises:
        InputError: lengths or temperatures out of their domain, or "runaway".

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: one temperature over the cross-section.
    """
    return FinState(coefficient, source, surroundings, oil_end, terminal, length).hot_spot


@formula(
    ("Terminal rise over air", "Delta T_L", "K"),
    "T_L - T_a",
    {"terminal": _TERMINAL, "air": ("Air temperature", "T_a", "°C")},
    cite("first principles", "definition", "exact"),
)
def terminal_rise(terminal: float, air: float) -> float:
    """By how much the terminal is warmer than the air; limits are set on rise and on temperature.

    Delta T = T_L - T_a

    Args:
        terminal: Terminal temperature [K].
        air: Air temperature [K].

    Returns:
        Temperature rise [K].

    Raises:
        InputError: a temperature not above absolute zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(terminal=terminal, air=air)
    return terminal - air


@formula(
    ("Highest rise between two cool ends", "Delta T", "K"),
    "(P' L^2) / (8 k A)",
    {
        "loss_per_length": ("Loss per length", "P'", "W/m"),
        "length": _LENGTH,
        "conduction": _CONDUCTION,
    },
    cite("Carslaw", "rod with a uniform source between equal ends", "exact"),
)
def parabola_rise(loss_per_length: float, length: float, conduction: float) -> float:
    """Rise in the middle of a conductor that loses heat only through its two equal ends.

    Delta T = P' L²/(8 k A)

    Args:
        loss_per_length: Loss per length, taken as constant [W/m].
        length: Between the ends [m].
        conduction: Thermal conductivity times cross-section of the conductor [Wm/K].

    Returns:
        Rise of the middle over the ends [K].

    Raises:
        InputError: loss negative, length or conduction not above zero.

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: an upper bound for any conductor with sides cooler than itself.
    """
    not_negative(loss_per_length=loss_per_length)
    positive(length=length, conduction=conduction)
    return loss_per_length * length**2 / (8 * conduction)
