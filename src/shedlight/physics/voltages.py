"""What the voltages of a duty mean for one bushing: to earth, in service, in a fault, at height."""

import math

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula

_HIGHEST = ("Highest voltage, rms between phases", "U_m", "kV")


@formula(
    ("Highest voltage to earth, rms", "U_0", "kV"),
    "U_m / sqrt(3)",
    {"highest_voltage": _HIGHEST},
    cite("first principles", "symmetrical three-phase system", "exact"),
)
def phase_voltage(highest_voltage: float) -> float:
    """Voltage to earth of one phase of a sound network, rms.

    U_0 = U_m/√3

    Args:
        highest_voltage: Highest voltage, rms between phases [V].

    Returns:
        Voltage to earth, rms [V].

    Raises:
        InputError: not above zero.

    Source: symmetrical three-phase system — basis: exact.
    Valid for: any.
    """
    positive(highest_voltage=highest_voltage)
    return highest_voltage / math.sqrt(3)


@formula(
    ("Voltage to be free of discharges, rms", "U_d", "kV"),
    "k U_0",
    {
        "phase_voltage": ("Highest voltage to earth, rms", "U_0", "kV"),
        "factor": ("Factor on the service voltage", "k", "1"),
    },
    cite("IEC 60137", "partial-discharge and visible-glow voltages as multiples of U_m/√3"),
)
def stressed_service_voltage(phase_voltage: float, factor: float) -> float:
    """Service voltage raised by a factor, rms: where inception must not yet happen.

    U_d = k U_0

    Args:
        phase_voltage: Highest voltage to earth, rms [V].
        factor: Factor on it [1].

    Returns:
        Voltage to earth, rms [V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60137, multiples of U_m/√3 — basis: memory, high confidence.
    Valid for: factors from 1 to 1.5.
    """
    positive(phase_voltage=phase_voltage, factor=factor)
    return factor * phase_voltage


@formula(
    ("Temporary overvoltage to earth, rms", 'U_"TOV"', "kV"),
    "k U_0",
    {
        "phase_voltage": ("Highest voltage to earth, rms", "U_0", "kV"),
        "earth_fault_factor": ("Earth-fault factor", "k", "1"),
    },
    cite("IEC 60071-2", "temporary overvoltages, earth faults"),
)
def temporary_overvoltage(phase_voltage: float, earth_fault_factor: float) -> float:
    """Voltage to earth of the healthy phases during an earth fault, rms.

    U_TOV = k U_0

    Args:
        phase_voltage: Highest voltage to earth, rms [V].
        earth_fault_factor: At most 1.4 with effective earthing, 1.73 otherwise [1].

    Returns:
        Voltage to earth, rms [V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60071-2, earth faults — basis: memory, high confidence.
    Valid for: one phase faulted.
    """
    positive(phase_voltage=phase_voltage, earth_fault_factor=earth_fault_factor)
    return earth_fault_factor * phase_voltage


@formula(
    ("Required withstand at standard atmosphere", 'U_"req"', "kV"),
    "U K_a",
    {
        "level": ("Rated withstand level", "U", "kV"),
        "altitude_factor": ("Altitude factor, from 1000 m", "K_a", "1"),
    },
    cite("IEC 60137", "altitude correction of external insulation"),
    note="Peak or rms as the level is. Only the air end is corrected, never oil or wall.",
)
def required_withstand(level: float, altitude_factor: float) -> float:
    """What the air end must hold at standard atmosphere to hold its level at the site.

    U_req = U K_a

    Args:
        level: Rated withstand level, peak or rms to earth [V].
        altitude_factor: From 1000 m up; standard levels already cover 1000 m [1].

    Returns:
        Required withstand, peak or rms as the level [V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60137, altitude clause — basis: memory, high confidence.
    Valid for: external insulation in air.
    """
    positive(level=level, altitude_factor=altitude_factor)
    return level * altitude_factor


@formula(
    ("Voltage with its margin", "U'", "kV"),
    "c U",
    {
        "voltage_to_stand": ("Voltage to stand or to stay below", "U", "kV"),
        "factor": ("Margin factor", "c", "1"),
    },
    cite("first principles", "definition of a margin factor", "exact"),
)
def with_factor(voltage_to_stand: float, factor: float) -> float:
    """A voltage times a margin factor (or divided by one: factor below 1).

    U' = c U

    Args:
        voltage_to_stand: The voltage, peak or rms [V].
        factor: Margin factor [1].

    Returns:
        The voltage with its margin, peak or rms as given [V].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(voltage_to_stand=voltage_to_stand, factor=factor)
    return factor * voltage_to_stand
