"""Flashover on the real outline: the arc's way along a profile that widens and narrows."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive, within
from shedlight.physics.surface.flashover import arc_voltage
from shedlight.sources import cite
from shedlight.trace import formula

_CRITICAL = ("Critical voltage, rms", "U_c", "kV")


@dataclass(frozen=True)
class CriticalState:
    """The arc at the moment from which on it runs across by itself."""

    voltage: float  # peak [V]
    current: float  # peak [A]
    arc_length: float  # creepage bridged [m]
    residual_resistance: float  # of the layer not bridged [Ω]


def profile_critical_state(
    creepages: Sequence[float],
    form_factors: Sequence[float],
    layer_conductivity: float,
    arc_constant: float,
    arc_exponent: float,
) -> CriticalState:
    """Where the arc becomes critical on a profile whose width changes along the creepage.

    U_c = max over x of min over I of (A x I^-n + (F(L) - F(x))/kappa · I)

    Searched at the points given and, between them, where F is a straight line.

    Args:
        creepages: Creepage from the end where the arc starts to points of the outline; from 0,
            growing [m].
        form_factors: Form factor from the same end to the same points; from 0, not falling [1].
        layer_conductivity: Of an even layer [S].
        arc_constant: Gradient A of the arc at 1 A [V/m].
        arc_exponent: n of the arc's gradient A I^-n [1].

    Returns:
        The critical state; its voltage again from :func:`arc_voltage`.

    Raises:
        InputError: fewer than two points, another number of form factors, wrong order, a
            constant not above zero.

    Source: Obenaus's model with the residual resistance of the real outline — basis: memory,
    high confidence for the model.
    Valid for: even layers; the arc keeps to the surface and does not leap from shed to shed.
    """
    positive(
        layer_conductivity=layer_conductivity, arc_constant=arc_constant, arc_exponent=arc_exponent
    )
    path, factor = _profile(creepages, form_factors)
    share = 1 / (arc_exponent + 1)
    slope = np.diff(factor) / np.diff(path)
    left = factor[-1] - factor[:-1]
    # x^share · rest^(1 - share) peaks inside a straight piece where both its factors balance.
    with np.errstate(divide="ignore", invalid="ignore"):
        inside = share * (left + slope * path[:-1]) / slope
    balanced = np.clip(np.where(slope > 0, inside, path[1:]), path[:-1], path[1:])
    places = np.concatenate([path, balanced])
    rest = factor[-1] - np.interp(places, path, factor)
    best = int(np.argmax(places**share * np.maximum(rest, 0.0) ** (1 - share)))
    arc_length = float(places[best])
    resistance = float(rest[best]) / layer_conductivity
    return CriticalState(
        arc_voltage(arc_length, resistance, arc_constant, arc_exponent),
        float((arc_exponent * arc_constant * arc_length / resistance) ** share),
        arc_length,
        resistance,
    )


def _profile(
    creepages: Sequence[float], form_factors: Sequence[float]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    path, factor = np.asarray(creepages, float), np.asarray(form_factors, float)
    if len(path) < 2 or path.shape != factor.shape:
        raise InputError(
            f"creepages, form_factors: given {len(path)} and {len(factor)} points; expected the "
            "same number, at least 2"
        )
    rising = bool(np.all(np.diff(path) > 0) and np.all(np.diff(factor) >= 0))
    if not rising or path[0] != 0 or factor[0] != 0 or factor[-1] <= 0:
        raise InputError("creepages, form_factors: expected to begin at 0 and to grow")
    return path, factor


@formula(
    ("Critical voltage on the true profile, rms", 'U_"c,true"', "kV"),
    'U_c dot hat(U)_"true" / hat(U)_"even"',
    {
        "critical": ("Critical voltage by the mean resistance, rms", "U_c", "kV"),
        "followed": ("Arc followed over the true profile, peak", 'hat(U)_"true"', "kV"),
        "even": ("Arc over an even strip of the same whole, peak", 'hat(U)_"even"', "kV"),
    },
    cite("first principles", "ratio of two results of one arc model", "exact"),
    note="A closed form fitted to tests gives the level, the arc followed on the outline what its "
    "distribution of resistance and its short cuts through air do to it.",
)
def critical_on_profile(critical: float, followed: float, even: float) -> float:
    """Critical voltage of a closed form that knows the mean only, carried to the true profile.

    U_true = U_c · Û_true/Û_even

    Args:
        critical: By a closed form on the mean resistance, rms [V].
        followed: Arc followed over the true profile, peak [V].
        even: The same arc over an even strip of equal length and resistance, peak [V].

    Returns:
        Critical voltage on the true profile, rms [V].

    Raises:
        InputError: an argument not above zero.

    Source: first principles — basis: exact as a ratio; as good as the arc model and closed form.
    Valid for: as they.
    """
    positive(critical=critical, followed=followed, even=even)
    return critical * followed / even


@formula(
    ("Voltage held in nine cases of ten, rms", 'U_"10"', "kV"),
    "U_c (1 - 1.2816 s)",
    {"critical": _CRITICAL, "deviation": ("Scatter of pollution flashover", "s", "%")},
    cite("CIGRE 158", "Gaussian scatter of pollution flashover", "memory", "medium"),
)
def held_in_nine_of_ten(critical: float, deviation: float) -> float:
    """Voltage that a wet, dirty surface holds in nine trials of ten.

    U_10 = U_c (1 - 1.2816 s)

    Args:
        critical: Voltage that flashes it over in half the trials, rms [V].
        deviation: Standard deviation over the mean [1].

    Returns:
        Voltage, rms [V].

    Raises:
        InputError: critical not above zero, deviation outside 0 to 0.3.

    Source: Gaussian scatter, CIGRE TB 158 — basis: memory, medium confidence.
    Valid for: deviations of 6 to 10 %.
    """
    positive(critical=critical)
    within(0.0, 0.3, deviation=deviation)
    return critical * (1 - 1.2816 * deviation)


@formula(
    ("Creepage that would just hold", 'L_"arc"', "mm"),
    "L U / U_c",
    {
        "creepage": ("Creepage", "L", "mm"),
        "voltage_across": ("Voltage across the insulator, rms", "U", "kV"),
        "held": ("Voltage held, rms", "U_c", "kV"),
    },
    cite("first principles", "voltage in proportion to length on one profile", "exact"),
)
def creepage_that_holds(creepage: float, voltage_across: float, held: float) -> float:
    """Creepage of the same profile, longer or shorter, that would just hold a voltage.

    L_arc = L U/U_c

    Args:
        creepage: There is [m].
        voltage_across: Voltage to hold, rms [V].
        held: Voltage held now, rms [V].

    Returns:
        Creepage [m].

    Raises:
        InputError: creepage or voltage held not above zero, voltage negative.

    Source: first principles — basis: exact for a profile that repeats.
    Valid for: more or fewer sheds of one kind.
    """
    positive(creepage=creepage, held=held)
    not_negative(voltage_across=voltage_across)
    return creepage * voltage_across / held


@formula(
    ("Critical voltage in the air of the site, rms", 'U_"c,site"', "kV"),
    "U_c k_p",
    {
        "critical": _CRITICAL,
        "thin_air": ("Flashover voltage in thin air over that at sea level", "k_p", "1"),
    },
    cite("first principles", "definition of the factor", "exact"),
)
def critical_in_thin_air(critical: float, thin_air: float) -> float:
    """Critical voltage of a surface at the height of the site.

    U = U_c k_p

    Args:
        critical: At sea level, rms [V].
        thin_air: Factor from :func:`shedlight.physics.surface.flashover.thin_air_factor` [1].

    Returns:
        Critical voltage, rms [V].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact; as good as the factor.
    Valid for: as the factor.
    """
    positive(critical=critical, thin_air=thin_air)
    return critical * thin_air


@formula(
    ("Critical voltage under the dust of the site, rms", 'U_"c,dust"', "kV"),
    "U_c k",
    {
        "critical": _CRITICAL,
        "dust": ("Flashover voltage over that at the reference", "k", "1"),
    },
    cite("first principles", "definition of the factor", "exact"),
)
def critical_under_dust(critical: float, dust: float) -> float:
    """Critical voltage of a surface with more dust than the reference counts on.

    U = U_c k

    Args:
        critical: With the dust of the reference, rms [V].
        dust: Factor from :func:`shedlight.physics.surface.trends.severity_factor` [1].

    Returns:
        Critical voltage, rms [V].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact; as good as the factor.
    Valid for: as the factor.
    """
    positive(critical=critical, dust=dust)
    return critical * dust
