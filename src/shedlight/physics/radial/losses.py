"""Layers that conduct or lose under alternating voltage: complex permittivities."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.radial.layers import VACUUM_PERMITTIVITY, check_layers
from shedlight.sources import cite
from shedlight.trace import formula

_EXACT = cite("first principles", "coaxial layers, continuity of the total current", "exact")
_RADII = ("Radii of the layers, inner to outer", "r_i", "mm")
_PERMITTIVITIES = ("Relative permittivities, inner to outer", "epsilon_i", "1")
_CONDUCTIVITIES = ("Conductivities, inner to outer", "sigma_i", "S/m")
_FREQUENCY = ("Frequency", "f", "Hz")
_CONDUCTIVITY = ("Conductivity", "sigma", "S/m")


def complex_permittivity(
    permittivity: float, loss_factor: float, conductivity: float, frequency: float
) -> complex:
    """Permittivity that carries polarisation loss and conduction in its imaginary part.

    epsilon = epsilon_r (1 - j tan delta) - j sigma/(omega epsilon_0)

    Args:
        permittivity: Relative permittivity [1].
        loss_factor: tan delta without conduction [1].
        conductivity: Volume conductivity [S/m].
        frequency: Frequency [Hz].

    Returns:
        Complex relative permittivity [1].

    Raises:
        InputError: permittivity or frequency not above zero, a loss below zero.

    Source: first principles — basis: exact.
    Valid for: linear media in steady alternation.
    """
    positive(permittivity=permittivity, frequency=frequency)
    not_negative(loss_factor=loss_factor, conductivity=conductivity)
    conducted = conductivity / (2 * math.pi * frequency * VACUUM_PERMITTIVITY)
    return complex(permittivity, -permittivity * loss_factor - conducted)


def complex_layer_sum(radii: Sequence[float], permittivities: Sequence[complex]) -> complex:
    """Layer sum of lossy layers.

    S = sum over layers of ln(r_i/r_(i-1))/epsilon_i

    Args:
        radii: Boundaries of the layers, inner to outer; one more than layers [m].
        permittivities: Complex relative permittivity of each layer, inner to outer [1].

    Returns:
        Complex layer sum [1].

    Raises:
        InputError: radii not growing, another number of permittivities, one of them zero.

    Source: first principles — basis: exact.
    Valid for: long concentric cylinders in steady alternation.
    """
    return sum(_terms(radii, permittivities), 0j)


def complex_layer_shares(
    radii: Sequence[float], permittivities: Sequence[complex]
) -> tuple[complex, ...]:
    """What each of several lossy layers takes of the voltage; the shares add up to 1.

    U_i/U = ln(r_i/r_(i-1))/(epsilon_i S)

    Args:
        radii: Boundaries of the layers, inner to outer; one more than layers [m].
        permittivities: Complex relative permittivity of each layer, inner to outer [1].

    Returns:
        Complex share per layer, inner to outer [1].

    Raises:
        InputError: radii not growing, another number of permittivities, one of them zero.

    Source: first principles — basis: exact.
    Valid for: long concentric cylinders in steady alternation.
    """
    terms = _terms(radii, permittivities)
    total = sum(terms, 0j)
    return tuple(term / total for term in terms)


@dataclass(frozen=True)
class ConductingLayers:
    """Layers of which some conduct, in steady alternation."""

    shares: tuple[complex, ...]  # of the voltage, inner to outer [1]
    capacitance_per_length: float  # [F/m]
    loss_factor: float  # tan delta of the whole [1]


def conducting_layers(
    radii: Sequence[float],
    permittivities: Sequence[float],
    conductivities: Sequence[float],
    frequency: float,
) -> ConductingLayers:
    """How layers share the voltage when one of them conducts, such as wet or dirty oil.

    Y' = j omega 2 pi epsilon_0/S with epsilon_i - j sigma_i/(omega epsilon_0) in the layer sum

    Args:
        radii: Boundaries of the layers, inner to outer; one more than layers [m].
        permittivities: Relative permittivity of each layer, inner to outer [1].
        conductivities: Conductivity of each layer, inner to outer [S/m].
        frequency: Frequency [Hz].

    Returns:
        Shares of the voltage, capacitance per length and loss factor.

    Raises:
        InputError: radii not growing, another number of properties, one out of bounds.

    Source: first principles — basis: exact.
    Valid for: long concentric cylinders in steady alternation.
    """
    check_layers(radii, conductivities, "conductivities")
    check_layers(radii, permittivities, "permittivities")
    lossy = [
        complex_permittivity(permittivity, 0.0, conductivity, frequency)
        for permittivity, conductivity in zip(permittivities, conductivities, strict=True)
    ]
    # Time runs as exp(j omega t): a lossy capacitance is C (1 - j tan delta).
    capacitance = 2 * math.pi * VACUUM_PERMITTIVITY / complex_layer_sum(radii, lossy)
    return ConductingLayers(
        complex_layer_shares(radii, lossy),
        capacitance.real,
        -capacitance.imag / capacitance.real,
    )


def _terms(radii: Sequence[float], permittivities: Sequence[complex]) -> tuple[complex, ...]:
    check_layers(radii, permittivities, "permittivities")
    for place, permittivity in enumerate(permittivities):
        if permittivity == 0 or not cmath.isfinite(permittivity):
            raise InputError(f"permittivities[{place}]: given {permittivity}; expected not 0")
    return tuple(
        math.log(outer / inner) / permittivity
        for inner, outer, permittivity in zip(radii, radii[1:], permittivities, strict=False)
    )


@formula(
    ("Loss factor of the layers", "tan delta", "%"),
    '("Im" thin S) / ("Re" thin S), quad '
    "S = sum_i ln(r_i / r_(i-1)) / (epsilon_i (1 - upright(j) tan delta_i))",
    {
        "radii": _RADII,
        "permittivities": _PERMITTIVITIES,
        "loss_factors": ("Loss factors, inner to outer", "tan delta_i", "%"),
    },
    _EXACT,
)
def loss_factor(
    radii: Sequence[float], permittivities: Sequence[float], loss_factors: Sequence[float]
) -> float:
    """Loss factor of concentric layers in series.

    tan delta = Im S/Re S with complex permittivities epsilon_i (1 - j tan delta_i)

    Args:
        radii: Boundaries of the layers, inner to outer; one more than layers [m].
        permittivities: Relative permittivity of each layer, inner to outer [1].
        loss_factors: tan delta of each layer, inner to outer [1].

    Returns:
        tan delta of the whole [1].

    Raises:
        InputError: radii not growing, another number of properties, one out of bounds.

    Source: first principles — basis: exact.
    Valid for: long concentric cylinders in steady alternation.
    """
    check_layers(radii, permittivities, "permittivities")
    check_layers(radii, loss_factors, "loss_factors")
    positive(**{f"permittivities[{place}]": e for place, e in enumerate(permittivities)})
    not_negative(**{f"loss_factors[{place}]": t for place, t in enumerate(loss_factors)})
    lossy = [e * complex(1, -t) for e, t in zip(permittivities, loss_factors, strict=True)]
    total = complex_layer_sum(radii, lossy)
    return total.imag / total.real


@formula(
    ("Loss factor by conduction", "tan delta", "%"),
    "sigma / (2 pi f epsilon_0 epsilon_r)",
    {
        "conductivity": _CONDUCTIVITY,
        "permittivity": ("Relative permittivity", "epsilon_r", "1"),
        "frequency": _FREQUENCY,
    },
    cite("first principles", "conduction over displacement current", "exact"),
)
def conduction_loss_factor(conductivity: float, permittivity: float, frequency: float) -> float:
    """Loss factor of a medium whose only loss is conduction.

    tan delta = sigma/(2 pi f epsilon_0 epsilon_r)

    Args:
        conductivity: Volume conductivity [S/m].
        permittivity: Relative permittivity [1].
        frequency: Frequency [Hz].

    Returns:
        tan delta [1].

    Raises:
        InputError: conductivity negative, permittivity or frequency not above zero.

    Source: first principles — basis: exact.
    Valid for: one medium.
    """
    not_negative(conductivity=conductivity)
    positive(permittivity=permittivity, frequency=frequency)
    return conductivity / (2 * math.pi * frequency * VACUUM_PERMITTIVITY * permittivity)


@formula(
    ("Interfacial time constant", "tau", "s"),
    "(epsilon_0 (epsilon_1 ln(r_2 / r_1) + epsilon_2 ln(r_1 / r_0)))"
    " / (sigma_1 ln(r_2 / r_1) + sigma_2 ln(r_1 / r_0))",
    {"radii": _RADII, "permittivities": _PERMITTIVITIES, "conductivities": _CONDUCTIVITIES},
    cite("first principles", "Maxwell–Wagner charging of two coaxial layers", "exact"),
)
def interfacial_time_constant(
    radii: Sequence[float], permittivities: Sequence[float], conductivities: Sequence[float]
) -> float:
    """How fast charge gathers between two layers after a direct voltage is put on.

    tau = epsilon_0 (epsilon_1 l_2 + epsilon_2 l_1)/(sigma_1 l_2 + sigma_2 l_1),
    l_1 = ln(r_1/r_0), l_2 = ln(r_2/r_1)

    Args:
        radii: The three boundaries of two layers, inner to outer [m].
        permittivities: Relative permittivity of each layer, inner to outer [1].
        conductivities: Conductivity of each layer, inner to outer [S/m].

    Returns:
        Time constant [s].

    Raises:
        InputError: not two layers, radii not growing, a property not above zero.

    Source: first principles, Maxwell–Wagner — basis: exact.
    Valid for: two long concentric layers.
    """
    if len(radii) != 3:
        raise InputError(f"radii: given {len(radii)}; expected 3, the boundaries of two layers")
    check_layers(radii, permittivities, "permittivities")
    check_layers(radii, conductivities, "conductivities")
    positive(**{f"permittivities[{place}]": e for place, e in enumerate(permittivities)})
    positive(**{f"conductivities[{place}]": s for place, s in enumerate(conductivities)})
    inner, outer = math.log(radii[1] / radii[0]), math.log(radii[2] / radii[1])
    charge = permittivities[0] * outer + permittivities[1] * inner
    flow = conductivities[0] * outer + conductivities[1] * inner
    return VACUUM_PERMITTIVITY * charge / flow
