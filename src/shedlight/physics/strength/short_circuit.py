"""Forces of a short circuit on terminals: which phase, which fault, how long the conductors."""

import math

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.strength.loads import pair_force
from shedlight.sources import cite
from shedlight.trace import formula

_FORCE = ("Force", "F", "N")
_PEAK = {"peak_current": ("Peak of the three-phase short-circuit current", "i_3", "kA")}
_LENGTH = ("Length of conductor", "l", "m")
_SPACING = ("Distance between neighbours", "a", "mm")


@formula(
    _FORCE,
    "mu_0 / (2 pi) (3 + 2 sqrt(3)) / 8 i_3^2 l / a",
    {**_PEAK, "length": _LENGTH, "spacing": _SPACING},
    cite("IEC 60865-1", "force on an outer main conductor, three-phase", "exact"),
)
def outer_phase_force(peak_current: float, length: float, spacing: float) -> float:
    """Peak force on an outer one of three conductors in a row, three-phase short circuit.

    F = mu_0/(2 pi) · (3 + 2 sqrt(3))/8 · i² l/a, 7 % below that on the middle one

    Args:
        peak_current: Peak of the three-phase short-circuit current [A].
        length: Length that acts on the terminal [m].
        spacing: Distance between neighbours [m].

    Returns:
        Force, outward [N].

    Raises:
        InputError: current or length negative, spacing not above zero.

    Source: Ampère's law, largest over time of three sine currents — basis: exact.
    Valid for: lengths well above the spacing.
    """
    return (3 + 2 * math.sqrt(3)) / 8 * pair_force(peak_current, length, spacing)


@formula(
    ("Peak of the three-phase short-circuit current", "i_3", "kA"),
    "k I",
    {
        "rms_current": ("Short-circuit current, rms", "I", "kA"),
        "peak_factor": ("Peak over rms", "k", "1"),
    },
    cite("IEC 62271-1", "rated peak withstand current"),
)
def three_phase_peak(rms_current: float, peak_factor: float) -> float:
    """Largest instantaneous current of a three-phase short circuit.

    i_3 = k I

    Args:
        rms_current: Short-circuit current, rms [A].
        peak_factor: 2.5 at 50 Hz, 2.6 at 60 Hz [1].

    Returns:
        Peak current [A].

    Raises:
        InputError: an argument negative.

    Source: IEC 62271-1 — basis: memory, high confidence.
    Valid for: networks with a time constant of 45 ms.
    """
    not_negative(rms_current=rms_current, peak_factor=peak_factor)
    return peak_factor * rms_current


@formula(
    ("Peak of the two-phase short-circuit current", "i_2", "kA"),
    "sqrt(3) / 2 i_3",
    _PEAK,
    cite("IEC 60909", "line-to-line short circuit far from generators"),
)
def two_phase_peak(peak_current: float) -> float:
    """Peak current of a short circuit between two phases.

    i_2 = sqrt(3)/2 · i_3

    Args:
        peak_current: Peak of the three-phase short-circuit current [A].

    Returns:
        Peak current [A].

    Raises:
        InputError: current negative.

    Source: IEC 60909 — basis: memory, high confidence.
    Valid for: short circuits far from generators.
    """
    not_negative(peak_current=peak_current)
    return math.sqrt(3) / 2 * peak_current


@formula(
    ("Factor of finite length", "k_l", "1"),
    "sqrt(1 + (a / l)^2) - a / l",
    {"length": _LENGTH, "spacing": _SPACING},
    cite("Grover", "mutual inductance of two equal parallel filaments, differentiated", "exact"),
)
def finite_length_factor(length: float, spacing: float) -> float:
    """By how much short conductors push less than an equal length of long ones.

    k = sqrt(1 + (a/l)²) - a/l

    Args:
        length: Length of both, side by side [m].
        spacing: Distance between them [m].

    Returns:
        Factor on the force of long conductors, below 1 [1].

    Raises:
        InputError: an argument not above zero.

    Source: Biot and Savart; Grover's mutual inductance — basis: exact.
    Valid for: straight thin conductors; what leads the current on is left out.
    """
    positive(length=length, spacing=spacing)
    ratio = spacing / length
    return 1 / (math.hypot(1.0, ratio) + ratio)


@formula(
    ("Dynamic magnification", "D", "1"),
    "1 / sqrt((1 - r^2)^2 + (2 zeta r)^2), quad r = f / f_1",
    {
        "frequency": ("Frequency of the force", "f", "Hz"),
        "natural_frequency": ("Natural frequency", "f_1", "Hz"),
        "damping": ("Damping ratio", "zeta", "%"),
    },
    cite("Chopra", "steady response of one mass to a harmonic force", "exact"),
    note="Short-circuit forces pulse at the frequency of the system and at twice it.",
)
def magnification(frequency: float, natural_frequency: float, damping: float) -> float:
    """By how much a bushing bends more under a pulsing force than under an equal steady one.

    D = 1/sqrt((1 - r²)² + (2 zeta r)²), r = f/f_1

    Args:
        frequency: Of the force; once and twice the system's [Hz].
        natural_frequency: Lowest of the bushing [Hz].
        damping: Damping ratio, above 0 where both frequencies agree [1].

    Returns:
        Magnification [1].

    Raises:
        InputError: natural frequency not above zero, another argument negative, or resonance
            without damping.

    Source: Chopra, Dynamics of Structures — basis: exact.
    Valid for: the steady pulse; the start of a short circuit can double it.
    """
    not_negative(frequency=frequency, damping=damping)
    positive(natural_frequency=natural_frequency)
    ratio = frequency / natural_frequency
    stiffness = math.hypot(1 - ratio**2, 2 * damping * ratio)
    if stiffness == 0:
        raise InputError("damping: given 0 at resonance; expected above 0")
    return 1 / stiffness
