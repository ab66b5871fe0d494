"""Flashover on the real outline: the arc's way along a profile that widens and narrows."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import positive
from shedlight.physics.surface.flashover import arc_voltage


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
