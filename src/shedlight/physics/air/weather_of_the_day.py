"""A voltage carried from the weather of the day to standard atmosphere, and back.

What was measured says by itself which discharge decides (g), so one step corrects it. The other
way the voltage sought is part of g: the correction is repeated until it stands still.
"""

import math
from dataclasses import dataclass

from shedlight.errors import CalculationError
from shedlight.physics.air.atmosphere import (
    STANDARD_PRESSURE,
    atmospheric_correction,
    discharge_parameter,
    m_of_g,
    relative_air_density,
    site_density,
    w_of_g,
)
from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula

FIFTY_OVER_WITHSTAND = 1.1
MOST_ROUNDS = 200
STANDS_STILL = 1e-10

_MEASURED = ("Mean sparkover voltage in the weather of the day, peak", "U_50", "kV")
_STANDARD = ("Mean sparkover voltage at standard atmosphere, peak", "U_0", "kV")
_PATH = ("Least discharge path", "L", "m")
_DENSITY = ("Relative air density", "delta", "1")
_HUMIDITY = ("Humidity correction", "k", "1")


@formula(
    ("Relative air density on the day", "delta", "1"),
    'exp(-H / (8150 "m")) dot (273 + 20) / (273 + t)',
    {
        "altitude": ("Height above sea level", "H", "m"),
        "temperature": ("Air temperature", "t", "°C"),
    },
    cite("IEC 60060-1", "air density, pressure from the altitude as in IEC 60071-2"),
    ranges={"altitude": (0.0, 4000.0)},
)
def density_on_a_day(altitude: float, temperature: float) -> float:
    """How dense the air is at a height on a day of mean pressure and given temperature.

    delta = exp(-H/8150 m) · (273 + 20)/(273 + t), t in °C

    Args:
        altitude: Height above sea level [m].
        temperature: Air temperature [K].

    Returns:
        Relative air density [1].

    Raises:
        InputError: temperature not above zero, altitude not finite.

    Source: IEC 60060-1 with the pressure of IEC 60071-2 — basis: memory, high confidence.
    Valid for: 0 to 4000 m; the barometer moves it by some 3 % either way.
    """
    return relative_air_density(STANDARD_PRESSURE * site_density(altitude), temperature)


@formula(
    ("Sparkover in the mean air at site", 'U_"site"', "kV"),
    "delta U",
    {
        "standard_voltage": ("Sparkover at standard atmosphere", "U", "kV"),
        "density": ("Relative air density at site", "delta", "1"),
    },
    cite("IEC 60060-1", "density correction with exponent 1", "memory", "high"),
    ranges={"density": (0.6, 1.1)},
    note="Peak or rms as the voltage is. Exponent 1: gaps bridged by positive streamers.",
)
def sparkover_at_site(standard_voltage: float, density: float) -> float:
    """What a gap holds in the mean air of its site; density from sea level.

    U = delta U_0

    Args:
        standard_voltage: At standard atmosphere, peak or rms [V].
        density: Relative air density at site, counted from sea level [1].

    Returns:
        Voltage at site, peak or rms as given [V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60060-1, exponent m = 1 — basis: memory, high confidence.
    Valid for: lightning and dry power frequency on short gaps.
    """
    positive(standard_voltage=standard_voltage, density=density)
    return density * standard_voltage


@dataclass(frozen=True)
class Correction:
    """How a voltage was carried over.

    Attributes:
        factor: K_t, day over standard [1].
        parameter: g [1].
        rounds: How often the correction was repeated.
    """

    factor: float
    parameter: float
    rounds: int


def correction_factor(
    fifty_percent_voltage: float, path: float, density: float, humidity_ratio: float
) -> Correction:
    """Correction factor of the day for a gap whose 50 % voltage on the day is known.

    K_t = delta^m(g) k^w(g), g = U_50/(500 kV/m · L delta k)

    Args:
        fifty_percent_voltage: In the weather of the day, peak; 1.1 times a withstand voltage [V].
        path: Least discharge path, not the creepage [m].
        density: Relative air density [1].
        humidity_ratio: Humidity correction k for the kind of voltage; 1 in wet tests [1].

    Returns:
        The correction, in one round.

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60060-1:2010 — basis: memory, high confidence.
    Valid for: external insulation whose strength depends on the weather.
    """
    parameter = discharge_parameter(fifty_percent_voltage, path, density, humidity_ratio)
    m, w = m_of_g(parameter), w_of_g(parameter)
    return Correction(atmospheric_correction(density, humidity_ratio, m, w), parameter, 1)


def correction_for_standard(
    standard_voltage: float, path: float, density: float, humidity_ratio: float
) -> Correction:
    """The same where the voltage at standard atmosphere is known and that on the day is sought.

    U = K_t(U) U_0, repeated until it stands still

    Args:
        standard_voltage: 50 % voltage at standard atmosphere, peak [V].
        path: Least discharge path, not the creepage [m].
        density: Relative air density [1].
        humidity_ratio: Humidity correction k; 1 in wet tests [1].

    Returns:
        The correction and how many rounds it took.

    Raises:
        InputError: an argument not above zero.
        CalculationError: it does not stand still.

    Source: IEC 60060-1:2010, iterative procedure — basis: memory, high confidence.
    Valid for: as :func:`correction_factor`; the standard asks for it where K_t is below 0.95.
    """
    positive(standard_voltage=standard_voltage)
    voltage = standard_voltage
    for rounds in range(1, MOST_ROUNDS + 1):
        found = correction_factor(voltage, path, density, humidity_ratio)
        # Half steps: the exponents change steeply near g = 1 and full ones could swing.
        better = 0.5 * (voltage + found.factor * standard_voltage)
        if abs(better - voltage) < STANDS_STILL * standard_voltage:
            return Correction(found.factor, found.parameter, rounds)
        voltage = better
    raise CalculationError(f"correction of {standard_voltage:g} V does not stand still")


@formula(
    _STANDARD,
    'U_50 / (K_t (g)), quad g = U_50 / (500 thin "kV/m" dot L delta k)',
    {
        "fifty_percent_voltage": _MEASURED,
        "path": _PATH,
        "density": _DENSITY,
        "humidity_ratio": _HUMIDITY,
    },
    cite("IEC 60060-1", "atmospheric correction of a measured voltage"),
)
def to_standard(
    fifty_percent_voltage: float, path: float, density: float, humidity_ratio: float
) -> float:
    """A sparkover voltage measured today, as at standard atmosphere.

    U_0 = U_50/K_t

    Args:
        fifty_percent_voltage: Measured in the weather of the day, peak [V].
        path: Least discharge path [m].
        density: Relative air density [1].
        humidity_ratio: Humidity correction k; 1 in wet tests [1].

    Returns:
        50 % voltage at standard atmosphere, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60060-1:2010 — basis: memory, high confidence.
    Valid for: external insulation.
    """
    found = correction_factor(fifty_percent_voltage, path, density, humidity_ratio)
    return fifty_percent_voltage / found.factor


@formula(
    _MEASURED,
    'K_t (g) U_0, quad "repeated until" U_50 "stands still"',
    {
        "standard_voltage": _STANDARD,
        "path": _PATH,
        "density": _DENSITY,
        "humidity_ratio": _HUMIDITY,
    },
    cite("IEC 60060-1", "atmospheric correction, iterative procedure"),
)
def to_the_day(
    standard_voltage: float, path: float, density: float, humidity_ratio: float
) -> float:
    """A sparkover voltage known at standard atmosphere, as it will be in today's weather.

    U_50 = K_t(U_50) U_0

    Args:
        standard_voltage: 50 % voltage at standard atmosphere, peak [V].
        path: Least discharge path [m].
        density: Relative air density [1].
        humidity_ratio: Humidity correction k; 1 in wet tests [1].

    Returns:
        50 % voltage in the weather of the day, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60060-1:2010 — basis: memory, high confidence.
    Valid for: external insulation.
    """
    found = correction_for_standard(standard_voltage, path, density, humidity_ratio)
    return found.factor * standard_voltage


@formula(
    ("Test voltage to apply today, peak", "U", "kV"),
    'K_t (1.1 U) U_"w", quad "repeated until" U "stands still"',
    {
        "withstand_voltage": ("Withstand voltage at standard atmosphere, peak", 'U_"w"', "kV"),
        "path": _PATH,
        "density": _DENSITY,
        "humidity_ratio": _HUMIDITY,
    },
    cite("IEC 60060-1", "atmospheric correction in withstand tests, iterative procedure"),
)
def voltage_to_apply(
    withstand_voltage: float, path: float, density: float, humidity_ratio: float
) -> float:
    """Voltage to apply in today's weather so that a withstand test is as hard as at standard.

    U = K_t U_w, with 1.1 U as the 50 % voltage in g

    Args:
        withstand_voltage: Asked for at standard atmosphere, peak [V].
        path: Least discharge path [m].
        density: Relative air density [1].
        humidity_ratio: Humidity correction k; 1 in wet tests [1].

    Returns:
        Test voltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60060-1:2010 — basis: memory, high confidence.
    Valid for: external insulation; never below what internal insulation is tested with.
    """
    fifty = FIFTY_OVER_WITHSTAND * withstand_voltage
    return correction_for_standard(fifty, path, density, humidity_ratio).factor * withstand_voltage


@formula(
    ("Test voltage to apply today, rms", "U", "kV"),
    '(K_t (1.1 sqrt(2) U)) U_"w", quad "repeated until" U "stands still"',
    {
        "withstand_voltage": ("Withstand voltage at standard atmosphere, rms", 'U_"w"', "kV"),
        "path": _PATH,
        "density": _DENSITY,
        "humidity_ratio": _HUMIDITY,
    },
    cite("IEC 60060-1", "atmospheric correction in withstand tests; g counts the peak"),
)
def alternating_voltage_to_apply(
    withstand_voltage: float, path: float, density: float, humidity_ratio: float
) -> float:
    """The same for alternating voltage, given and found as rms; g counts the peak.

    U = K_t U_w, with 1.1 √2 U as the 50 % voltage in g

    Args:
        withstand_voltage: Asked for at standard atmosphere, rms [V].
        path: Least discharge path [m].
        density: Relative air density [1].
        humidity_ratio: Humidity correction k; 1 in wet tests [1].

    Returns:
        Test voltage, rms [V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60060-1:2010 — basis: memory, high confidence.
    Valid for: external insulation.
    """
    peak = math.sqrt(2) * withstand_voltage
    return voltage_to_apply(peak, path, density, humidity_ratio) / math.sqrt(2)


@formula(
    ("Atmospheric correction of the day", "K_t", "1"),
    'U / U_"w"',
    {
        "on_the_day": ("Voltage on the day", "U", "kV"),
        "at_standard": ("The same at standard atmosphere", 'U_"w"', "kV"),
    },
    cite("IEC 60060-1", "atmospheric correction factor, definition", "exact"),
)
def factor_of_the_day(on_the_day: float, at_standard: float) -> float:
    """Which correction a pair of voltages stands for.

    K_t = U/U_w

    Args:
        on_the_day: Voltage in the weather of the day [V].
        at_standard: The same at standard atmosphere, peak or rms alike [V].

    Returns:
        Correction factor [1].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60060-1 — basis: exact by definition.
    Valid for: any.
    """
    positive(on_the_day=on_the_day, at_standard=at_standard)
    return on_the_day / at_standard
