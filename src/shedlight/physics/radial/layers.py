"""Alternating field in concentric layers: where no end is near, this is exact.

Inside the hole of the cover the layers are the oil round the stem, the porcelain, and what fills
the clearance between porcelain and hole edge: oil, or trapped gas. Above the cover there is no
outer electrode, so none of this applies there.
Peak or rms: results are of the kind the voltage across is.
"""

import math
from collections.abc import Sequence

from shedlight.errors import InputError
from shedlight.physics.domain import finite, ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

VACUUM_PERMITTIVITY = 8.8541878128e-12  # [F/m], CODATA 2018

_EXACT = cite("first principles", "coaxial layers, Gauss's law", "exact")
_ACROSS = ("Voltage across the layers", "U", "kV")
_RADIUS = ("Radius", "r", "mm")
_INNER = ("Inner radius of the layer", "r_i", "mm")
_OUTER = ("Outer radius of the layer", "r_o", "mm")
_PERMITTIVITY = ("Relative permittivity", "epsilon_r", "1")
_SUM = ("Layer sum", "S", "1")
_PER_LENGTH = ("Capacitance per length", "C'", "pF/m")


def check_layers(radii: Sequence[float], properties: Sequence[complex], what: str) -> None:
    """The radii grow, and there is one property per layer between them.

    Args:
        radii: Boundaries of the layers, inner to outer [m].
        properties: One per layer; only their number is looked at.
        what: What the properties are called.

    Raises:
        InputError: fewer than two radii, not growing, or another number of properties.
    """
    if len(radii) < 2:
        raise InputError(f"radii: given {len(radii)}; expected at least 2, inner to outer")
    positive(**{f"radii[{place}]": radius for place, radius in enumerate(radii)})
    ordered(**{f"radii[{place}]": radius for place, radius in enumerate(radii)})
    if len(properties) != len(radii) - 1:
        raise InputError(
            f"{what}: given {len(properties)}; expected one per layer, {len(radii) - 1}"
        )


@formula(
    _SUM,
    "sum_i ln(r_i / r_(i-1)) / epsilon_i",
    {
        "radii": ("Radii of the layers, inner to outer", "r_i", "mm"),
        "permittivities": ("Relative permittivities, inner to outer", "epsilon_i", "1"),
    },
    _EXACT,
)
def layer_sum(radii: Sequence[float], permittivities: Sequence[float]) -> float:
    """How the voltage shares out: each layer takes its own term of this sum.

    S = sum over layers of ln(r_i/r_(i-1))/epsilon_i

    Args:
        radii: Boundaries of the layers, inner to outer; one more than layers [m].
        permittivities: Relative permittivity of each layer, inner to outer [1].

    Returns:
        Layer sum [1].

    Raises:
        InputError: radii not growing, another number of permittivities, one not above zero.

    Source: first principles, Gauss's law — basis: exact.
    Valid for: long concentric cylinders, no space charge, losses small against ω ε.
    """
    check_layers(radii, permittivities, "permittivities")
    positive(**{f"permittivities[{place}]": e for place, e in enumerate(permittivities)})
    return math.fsum(
        math.log(outer / inner) / permittivity
        for inner, outer, permittivity in zip(radii, radii[1:], permittivities, strict=False)
    )


@formula(
    ("Field strength", "E", "kV/mm"),
    "U / (epsilon_r r S)",
    {
        "voltage_across": _ACROSS,
        "permittivity": _PERMITTIVITY,
        "radius": _RADIUS,
        "layer_sum": _SUM,
    },
    _EXACT,
)
def layer_gradient(
    voltage_across: float, permittivity: float, radius: float, layer_sum: float
) -> float:
    """Field strength at one radius of concentric layers.

    E(r) = U/(epsilon_r r S)

    Args:
        voltage_across: Voltage between the innermost and the outermost electrode [V].
        permittivity: Relative permittivity of the layer that holds the radius [1].
        radius: Place asked for; the layer's inner radius gives its peak [m].
        layer_sum: From :func:`layer_sum` [1].

    Returns:
        Radial field strength, peak or rms as the voltage is [V/m].

    Raises:
        InputError: permittivity, radius or layer sum not above zero.

    Source: first principles, Gauss's law — basis: exact.
    Valid for: long concentric cylinders, no space charge, losses small against ω ε.
    """
    finite(voltage_across=voltage_across)
    positive(permittivity=permittivity, radius=radius, layer_sum=layer_sum)
    return voltage_across / (permittivity * radius * layer_sum)


@formula(
    ("Voltage across one layer", "U_i", "kV"),
    "(U ln(r_o / r_i)) / (epsilon_r S)",
    {
        "voltage_across": _ACROSS,
        "inner_radius": _INNER,
        "outer_radius": _OUTER,
        "permittivity": _PERMITTIVITY,
        "layer_sum": _SUM,
    },
    _EXACT,
)
def layer_voltage(
    voltage_across: float,
    inner_radius: float,
    outer_radius: float,
    permittivity: float,
    layer_sum: float,
) -> float:
    """What one of several concentric layers takes of the voltage.

    U_i = U ln(r_o/r_i)/(epsilon_r S)

    Args:
        voltage_across: Voltage between the innermost and the outermost electrode [V].
        inner_radius: Inner radius of the layer [m].
        outer_radius: Outer radius of the layer [m].
        permittivity: Relative permittivity of the layer [1].
        layer_sum: From :func:`layer_sum` [1].

    Returns:
        Voltage across the layer, peak or rms as the voltage given [V].

    Raises:
        InputError: radii not growing, permittivity or layer sum not above zero.

    Source: first principles, Gauss's law — basis: exact.
    Valid for: long concentric cylinders, no space charge, losses small against ω ε.
    """
    finite(voltage_across=voltage_across)
    positive(inner_radius=inner_radius, permittivity=permittivity, layer_sum=layer_sum)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    return voltage_across * math.log(outer_radius / inner_radius) / (permittivity * layer_sum)


@formula(
    ("Mean field strength", 'E_"mean"', "kV/mm"),
    "U / d",
    {
        "voltage": ("Voltage across the gap or layer", "U", "kV"),
        "thickness": ("Thickness", "d", "mm"),
    },
    _EXACT,
)
def mean_gradient(voltage: float, thickness: float) -> float:
    """Mean field strength across a gap or layer: what the oil-gap curves are read with.

    E_mean = U/d

    Args:
        voltage: Voltage across this gap or layer alone [V].
        thickness: Its thickness along the field line [m].

    Returns:
        Mean field strength, peak or rms as the voltage is [V/m].

    Raises:
        InputError: thickness not above zero.

    Source: definition — basis: exact.
    Valid for: always.
    """
    finite(voltage=voltage)
    positive(thickness=thickness)
    return voltage / thickness


@formula(
    _PER_LENGTH,
    "(2 pi epsilon_0) / S",
    {"layer_sum": _SUM},
    _EXACT,
)
def capacitance_per_length(layer_sum: float) -> float:
    """Capacitance of one metre of concentric layers.

    C' = 2 pi epsilon_0/S

    Args:
        layer_sum: From :func:`layer_sum` [1].

    Returns:
        Capacitance per length [F/m].

    Raises:
        InputError: layer sum not above zero.

    Source: first principles, Gauss's law — basis: exact.
    Valid for: long concentric cylinders.
    """
    positive(layer_sum=layer_sum)
    return 2 * math.pi * VACUUM_PERMITTIVITY / layer_sum


@formula(
    ("Capacitance of the layers", "C", "pF"),
    "C' l",
    {"capacitance_per_length": _PER_LENGTH, "length": ("Length of the layers", "l", "mm")},
    _EXACT,
)
def capacitance_of_length(capacitance_per_length: float, length: float) -> float:
    """Capacitance of a piece of concentric layers, its ends left out.

    C = C' l

    Args:
        capacitance_per_length: From :func:`capacitance_per_length` [F/m].
        length: How long the piece is [m].

    Returns:
        Capacitance [F]; less than that of any arrangement which holds the piece, for taking
        dielectric away never raises a capacitance.

    Raises:
        InputError: an argument not above zero.

    Source: first principles; least energy (Dirichlet) — basis: exact.
    Valid for: concentric cylinders.
    """
    positive(capacitance_per_length=capacitance_per_length, length=length)
    return capacitance_per_length * length


@formula(
    ("Surface capacitance", "C_0", "pF/cm²"),
    "C' / (2 pi r)",
    {"capacitance_per_length": _PER_LENGTH, "radius": ("Surface radius", "r", "mm")},
    _EXACT,
)
def capacitance_per_area(capacitance_per_length: float, radius: float) -> float:
    """Capacitance of one unit of surface against the conductor: what feeds surface discharges.

    C_0 = C'/(2 pi r) = epsilon_0/(r S)

    Args:
        capacitance_per_length: From :func:`capacitance_per_length` [F/m].
        radius: Radius of the surface on which the edge stands [m].

    Returns:
        Capacitance per area [F/m²].

    Raises:
        InputError: an argument not above zero.

    Source: first principles — basis: exact.
    Valid for: long concentric cylinders.
    """
    positive(capacitance_per_length=capacitance_per_length, radius=radius)
    return capacitance_per_length / (2 * math.pi * radius)
