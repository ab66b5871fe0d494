"""What a fin in steady state looks like inside: temperature, hot spot's place, heat at its ends.

Every function takes the same first six arguments, the fin's coefficient and source, the
temperatures around it and at its two ends, and its length.
"""

from shedlight.physics.domain import positive, within
from shedlight.physics.heat.fin_state import FinState
from shedlight.sources import cite
from shedlight.trace import formula

_CITATION = cite("Carslaw", "steady temperature in a thin rod heated by a current", "exact")
_FIN = {
    "coefficient": ("Fin coefficient", "b", "1/m²"),
    "source": ("Fin source", "s", "K/m²"),
    "surroundings": ("Temperature around the conductor", "T_s", "°C"),
    "oil_end": ("Temperature at the oil end", "T_0", "°C"),
    "terminal": ("Temperature at the terminal", "T_L", "°C"),
    "length": ("Length between oil and terminal", "L", "m"),
}
_CONDUCTION = ("Conductor's conductivity times area", "k A", "Wm/K")
_SHAPE = " quad g(x) = sinh(sqrt(b) x) / sinh(sqrt(b) L)"


@formula(
    ("Conductor temperature", "T(x)", "°C"),
    "T_s + theta_0 g(L - x) + theta_L g(x) + s / b (1 - g(x) - g(L - x))," + _SHAPE,
    {**_FIN, "place": ("Distance from the oil end", "x", "m")},
    _CITATION,
    note="theta_0 and theta_L are the rises of the two ends over the surroundings.",
)
def fin_temperature(
    coefficient: float,
    source: float,
    surroundings: float,
    oil_end: float,
    terminal: float,
    length: float,
    place: float,
) -> float:
    """Temperature of the conductor at one place.

    T(x) = T_s + theta_0 g(L - x) + theta_L g(x) + s/b (1 - g(x) - g(L - x)),
    g(x) = sinh(sqrt(b) x)/sinh(sqrt(b) L)

    Args:
        coefficient: Fin coefficient b [1/m²].
        source: Fin source s [K/m²].
        surroundings: Temperature around the conductor [K].
        oil_end: Temperature at the oil end [K].
        terminal: Temperature at the terminal [K].
        length: From oil end to terminal [m].
        place: Distance from the oil end [m].

    Returns:
        Temperature [K].

    Raises:
        InputError: place outside the conductor, arguments out of their domain, or "runaway".

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: one temperature over the cross-section.
    """
    state = FinState(coefficient, source, surroundings, oil_end, terminal, length)
    within(0.0, length, place=place)
    return state.temperature(place)


@formula(
    ("Place of the hottest spot from the oil end", 'x_"max"', "m"),
    'op("arg max", limits: #true)_(0 <= x <= L) T(x)',
    _FIN,
    _CITATION,
)
def fin_hot_spot_place(
    coefficient: float,
    source: float,
    surroundings: float,
    oil_end: float,
    terminal: float,
    length: float,
) -> float:
    """Where the conductor is hottest.

    The place of the largest T(x)

    Args:
        coefficient: Fin coefficient b [1/m²].
        source: Fin source s [K/m²].
        surroundings: Temperature around the conductor [K].
        oil_end: Temperature at the oil end [K].
        terminal: Temperature at the terminal [K].
        length: From oil end to terminal [m].

    Returns:
        Distance from the oil end [m].

    Raises:
        InputError: arguments out of their domain, or "runaway".

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: one temperature over the cross-section.
    """
    state = FinState(coefficient, source, surroundings, oil_end, terminal, length)
    return state.hot_spot_place


@formula(
    ("Heat from the oil into the conductor", "q_0", "W"),
    "-k A thin T'(0)",
    {**_FIN, "conduction": _CONDUCTION},
    _CITATION,
    note="Negative: the conductor heats the oil.",
)
def fin_oil_end_flow(
    coefficient: float,
    source: float,
    surroundings: float,
    oil_end: float,
    terminal: float,
    length: float,
    conduction: float,
) -> float:
    """Heat that enters the conductor at its oil end.

    q_0 = -k A T'(0)

    Args:
        coefficient: Fin coefficient b [1/m²].
        source: Fin source s [K/m²].
        surroundings: Temperature around the conductor [K].
        oil_end: Temperature at the oil end [K].
        terminal: Temperature at the terminal [K].
        length: From oil end to terminal [m].
        conduction: Thermal conductivity times cross-section of the conductor [Wm/K].

    Returns:
        Heat flow; negative if the conductor heats the oil [W].

    Raises:
        InputError: arguments out of their domain, or "runaway".

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: one temperature over the cross-section.
    """
    positive(conduction=conduction)
    state = FinState(coefficient, source, surroundings, oil_end, terminal, length)
    return state.oil_end_flow(conduction)


@formula(
    ("Heat from the conductor into the terminal", "q_L", "W"),
    "-k A thin T'(L)",
    {**_FIN, "conduction": _CONDUCTION},
    _CITATION,
    note="Negative: the terminal heats the conductor.",
)
def fin_terminal_flow(
    coefficient: float,
    source: float,
    surroundings: float,
    oil_end: float,
    terminal: float,
    length: float,
    conduction: float,
) -> float:
    """Heat that leaves the conductor at its terminal.

    q_L = -k A T'(L)

    Args:
        coefficient: Fin coefficient b [1/m²].
        source: Fin source s [K/m²].
        surroundings: Temperature around the conductor [K].
        oil_end: Temperature at the oil end [K].
        terminal: Temperature at the terminal [K].
        length: From oil end to terminal [m].
        conduction: Thermal conductivity times cross-section of the conductor [Wm/K].

    Returns:
        Heat flow; negative if the terminal heats the conductor [W].

    Raises:
        InputError: arguments out of their domain, or "runaway".

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: one temperature over the cross-section.
    """
    positive(conduction=conduction)
    state = FinState(coefficient, source, surroundings, oil_end, terminal, length)
    return state.terminal_flow(conduction)
