"""Plain ratios of lengths and currents that checks compare."""

import math

from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

_DEFINITION = cite("first principles", "definition", "exact")


@formula(
    ("Spacing over overhang", "s / p", "1"),
    "s / p",
    {
        "pitch": ("Spacing of like sheds", "s", "mm"),
        "overhang": ("Overhang of the (long) sheds", "p", "mm"),
    },
    cite("IEC 60815-2", "spacing versus shed overhang"),
)
def pitch_over_overhang(pitch: float, overhang: float) -> float:
    """How far sheds stand apart for their depth.

    s/p

    Args:
        pitch: From a shed to the next like it: long to next long [m].
        overhang: Overhang of the long sheds [m].

    Returns:
        Ratio [1].

    Raises:
        InputError: an argument not above zero.

    Source: IEC TS 60815-2 — basis: memory, high confidence.
    Valid for: any sheds.
    """
    positive(pitch=pitch, overhang=overhang)
    return pitch / overhang


@formula(
    ("Share of the path", "s", "%"),
    "l / L",
    {
        "part": ("Part of the path", "l", "mm"),
        "path": ("Whole path", "L", "mm"),
    },
    _DEFINITION,
)
def share_of_path(part: float, path: float) -> float:
    """Part of a path over the whole.

    l/L

    Args:
        part: Length of the part [m].
        path: Length of the path [m].

    Returns:
        Share [1].

    Raises:
        InputError: path not above zero, part negative.

    Source: definition — basis: exact.
    Valid for: any.
    """
    not_negative(part=part)
    positive(path=path)
    return part / path


@formula(
    ("Creepage per voltage across", "S", "mm/kV"),
    "L / U",
    {
        "creepage": ("Creepage", "L", "mm"),
        "voltage_across": ("Voltage across the insulator, rms", "U", "kV"),
    },
    cite("IEC 60815-1", "unified specific creepage distance"),
)
def specific_creepage_given(creepage: float, voltage_across: float) -> float:
    """Creepage there is, per rms voltage across the insulator.

    S = L/U

    Args:
        creepage: Creepage [m].
        voltage_across: Voltage across the insulator, rms [V].

    Returns:
        Specific creepage [m/V].

    Raises:
        InputError: an argument not above zero.

    Source: IEC TS 60815-1 — basis: memory, high confidence.
    Valid for: any.
    """
    positive(creepage=creepage, voltage_across=voltage_across)
    return creepage / voltage_across


@formula(
    ("Current of the wet layer, peak", "I", "mA"),
    "sqrt(2) I",
    {"current": ("Current of the wet layer, rms", "I", "mA")},
    _DEFINITION,
)
def peak_of_wet_current(current: float) -> float:
    """Peak of a sinusoidal current.

    √2 I

    Args:
        current: Current, rms [A].

    Returns:
        Current, peak [A].

    Raises:
        InputError: current negative.

    Source: definition — basis: exact.
    Valid for: before dry bands distort the wave.
    """
    not_negative(current=current)
    return math.sqrt(2) * current


@formula(
    ("Critical voltage, rms", "U_c", "kV"),
    "hat(U)_c / sqrt(2)",
    {"critical": ("Critical voltage, peak", "hat(U)_c", "kV")},
    _DEFINITION,
)
def rms_of_critical(critical: float) -> float:
    """A critical voltage, peak, as the rms voltage that reaches it.

    U_c = Û_c/√2

    Args:
        critical: Critical voltage, peak [V].

    Returns:
        Critical voltage, rms [V].

    Raises:
        InputError: not above zero.

    Source: definition — basis: exact.
    Valid for: a sinusoidal voltage.
    """
    positive(critical=critical)
    return critical / math.sqrt(2)
