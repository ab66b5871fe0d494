"""The wet layer as a resistance: form factor, layer conductivity, leakage current.

Two rules here lead from deposit to layer conductivity and differ fourfold, because they do not mean
the same layer: one is measured in the field, the other holds for full wetting in the solid-layer
test. :mod:`shedlight.physics.surface.layer_rules` has the rule taken, and says why.
"""

import cmath
import math
from collections.abc import Sequence

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

_DEPOSIT = ("Equivalent salt deposit", 'S_"DD"', "mg/cm²")
_LAYER = ("Layer conductivity", "kappa", "µS")
_FACTOR = ("Form factor", "F", "1")
_RESISTANCE = ("Resistance of the wet layer", "R", "kΩ")
_ACROSS = ("Voltage across the insulator, rms", "U", "kV")
_EXACT = cite("IEC 60507", "form factor and layer conductivity, definitions", "exact")


@formula(
    _LAYER,
    '100 "µS" dot S_"DD" / (1 "mg/cm²")',
    {"deposit": _DEPOSIT},
    cite("IEEE 1243", "layer conductivity from deposit", "published"),
)
def layer_conductivity_field_rule(deposit: float) -> float:
    """Layer conductivity as field measurements find it.

    kappa [µS] = 100 ESDD [mg/cm²]

    Args:
        deposit: Equivalent salt deposit density [kg/m²].

    Returns:
        Layer conductivity [S].

    Raises:
        InputError: deposit negative.

    Source: IEEE Std 1243, CIGRE TB 63 — basis: published (quoted by third parties).
    Valid for: layers in service; about a fourth of the other rule.
    """
    not_negative(deposit=deposit)
    return 100e-6 * deposit / 0.01


@formula(
    _LAYER,
    '(369.05 dot S_"DD" / (1 "mg/cm²") + 0.42) thin "µS"',
    {"deposit": _DEPOSIT},
    cite("Topalis", "layer conductivity from deposit", "memory", "high"),
)
def layer_conductivity_wetted_rule(deposit: float) -> float:
    """Layer conductivity of a fully wetted layer: the cautious rule for flashover.

    kappa [µS] = 369.05 ESDD [mg/cm²] + 0.42

    Args:
        deposit: Equivalent salt deposit density [kg/m²].

    Returns:
        Layer conductivity [S].

    Raises:
        InputError: deposit negative.

    Source: Topalis, Gonos, Stathopulos — basis: memory, high confidence; near the equivalence
    of the light level of IEC 815:1986, above those of its heavier levels.
    Valid for: full wetting as in the solid-layer test.
    """
    not_negative(deposit=deposit)
    return (369.05 * deposit / 0.01 + 0.42) * 1e-6


@formula(
    ("Salt-fog salinity of the same severity", "S_a", "kg/m³"),
    '140 "kg/m³" dot S_"DD" / (1 "mg/cm²")',
    {"deposit": _DEPOSIT},
    cite("IEEE 1243", "salt-fog salinity from deposit", "published"),
)
def fog_salinity(deposit: float) -> float:
    """Salinity of the salt fog that is as severe as a deposit.

    S_a [kg/m³] = 140 ESDD [mg/cm²]

    Args:
        deposit: Equivalent salt deposit density [kg/m²].

    Returns:
        Salinity [kg/m³].

    Raises:
        InputError: deposit negative.

    Source: IEEE Std 1243, CIGRE TB 63 — basis: published (quoted by third parties).
    Valid for: a first guess.
    """
    not_negative(deposit=deposit)
    return 140 * deposit / 0.01


@formula(
    _FACTOR,
    "l / (2 pi) dot ln(r_2 / r_1) / (r_2 - r_1)",
    {
        "length": ("Length along the surface", "l", "mm"),
        "inner": ("Radius at one end", "r_1", "mm"),
        "outer": ("Radius at the other end", "r_2", "mm"),
    },
    _EXACT,
)
def form_factor_cone(length: float, inner: float, outer: float) -> float:
    """Form factor of a straight piece of the outline: cone, flat ring or cylinder.

    F = l/(2 pi) · ln(r_2/r_1)/(r_2 - r_1); for equal radii l/(2 pi r)

    Args:
        length: Length along the surface [m].
        inner: Radius at one end [m].
        outer: Radius at the other end, in either order [m].

    Returns:
        Form factor [1].

    Raises:
        InputError: length negative, a radius not above zero.

    Source: integral of dl/(2 pi r), IEC 60507 — basis: exact.
    Valid for: straight pieces.
    """
    not_negative(length=length)
    positive(inner=inner, outer=outer)
    # ln(1 + x)/x keeps its digits where the radii are nearly equal.
    excess = (outer - inner) / inner
    mean = math.log1p(excess) / excess if excess else 1.0
    return length * mean / (2 * math.pi * inner)


@formula(
    _FACTOR,
    "sum_i F_i",
    {"pieces": ("Form factors of the pieces", "F_i", "1")},
    _EXACT,
)
def form_factor(pieces: Sequence[float]) -> float:
    """Form factor of a whole outline from its pieces.

    F = sum of F_i

    Args:
        pieces: Form factors from end to end [1].

    Returns:
        Form factor [1].

    Raises:
        InputError: no pieces, or a negative one.

    Source: pieces lie in series — basis: exact.
    Valid for: always.
    """
    if not pieces:
        raise InputError("pieces: given none; expected at least one form factor")
    not_negative(**{f"pieces[{place}]": piece for place, piece in enumerate(pieces)})
    return math.fsum(pieces)


@formula(
    _LAYER,
    "(F I) / U",
    {"form_factor": _FACTOR, "current": ("Current", "I", "mA"), "voltage_across": _ACROSS},
    _EXACT,
)
def layer_conductivity(form_factor: float, current: float, voltage_across: float) -> float:
    """Layer conductivity from a measurement on the wet insulator.

    kappa = F I/U

    Args:
        form_factor: From :func:`form_factor` [1].
        current: Current along the surface [A].
        voltage_across: Voltage across the insulator, of the same kind as the current [V].

    Returns:
        Layer conductivity at the layer's temperature [S].

    Raises:
        InputError: current negative, form factor or voltage not above zero.

    Source: IEC 60507 — basis: exact by definition.
    Valid for: even layers without dry bands.
    """
    not_negative(current=current)
    positive(form_factor=form_factor, voltage_across=voltage_across)
    return form_factor * current / voltage_across


@formula(
    _RESISTANCE,
    "F / kappa",
    {"form_factor": _FACTOR, "layer_conductivity": _LAYER},
    _EXACT,
)
def film_resistance(form_factor: float, layer_conductivity: float) -> float:
    """Resistance of the wet layer from end to end.

    R = F/kappa

    Args:
        form_factor: From :func:`form_factor` [1].
        layer_conductivity: Of an even layer [S].

    Returns:
        Resistance [Ω].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60507 — basis: exact by definition.
    Valid for: even layers without dry bands.
    """
    positive(form_factor=form_factor, layer_conductivity=layer_conductivity)
    return form_factor / layer_conductivity


@formula(
    ("Leakage current before dry bands, rms", "I", "mA"),
    "U / R",
    {"voltage_across": _ACROSS, "film_resistance": _RESISTANCE},
    cite("first principles", "Ohm's law on an even layer", "exact"),
    note="Upper bound: dry bands form soon and lower the current.",
)
def wet_current(voltage_across: float, film_resistance: float) -> float:
    """Current along the evenly wet surface, before dry bands form.

    I = U/R

    Args:
        voltage_across: Voltage across the insulator, rms [V].
        film_resistance: From :func:`film_resistance` [Ω].

    Returns:
        Leakage current, rms; an upper bound [A].

    Raises:
        InputError: voltage negative, resistance not above zero.

    Source: Ohm's law — basis: exact.
    Valid for: even layers without dry bands.
    """
    not_negative(voltage_across=voltage_across)
    positive(film_resistance=film_resistance)
    return voltage_across / film_resistance


@formula(
    ("Highest leakage current before flashover, peak", 'I_"max"', "A"),
    '(S_u / (15.32 "mm/kV"))^2 thin "A"',
    {"specific_creepage": ("Specific creepage", "S_u", "mm/kV")},
    cite("Verma", "highest leakage current against specific creepage", "memory", "medium"),
    note="Specific creepage per rms voltage ACROSS the insulator, not phase to phase.",
)
def highest_leakage_current(specific_creepage: float) -> float:
    """Current of the last half-wave that the insulator survives.

    I_max [A] = (S_u/15.32)², S_u in mm/kV

    Args:
        specific_creepage: Creepage over the rms voltage across the insulator [m/V].

    Returns:
        Highest leakage current, peak [A].

    Raises:
        InputError: specific creepage not above zero.

    Source: Verma and others, CIGRE 1978 — basis: memory, medium confidence; the constant agrees
    with re-ignition of arcs at 923 V/cm.
    Valid for: porcelain under alternating voltage.
    """
    positive(specific_creepage=specific_creepage)
    return (specific_creepage * 1e6 / 15.32) ** 2


@formula(
    ("Field along the wet surface at the earthed edge", "E_t", "kV/mm"),
    "U sqrt((2 pi f C') / (2 pi r kappa))",
    {
        "voltage_across": ("Voltage of the conductor against the edge", "U", "kV"),
        "frequency": ("Frequency", "f", "Hz"),
        "capacitance_per_length": ("Capacitance per length", "C'", "pF/m"),
        "radius": ("Surface radius", "r", "mm"),
        "layer_conductivity": _LAYER,
    },
    cite("first principles", "wet surface over a through-conductor as an RC ladder", "exact"),
    note="Field outside the film neglected; the film must reach far from the edge.",
)
def wet_edge_gradient(
    voltage_across: float,
    frequency: float,
    capacitance_per_length: float,
    radius: float,
    layer_conductivity: float,
) -> float:
    """Field along an evenly wet surface where it meets the earthed flange.

    E_t = U |g|, g² = j omega C'/(2 pi r kappa); phi(z) = U (1 - exp(-g z))

    Args:
        voltage_across: Voltage of the conductor against the flange [V].
        frequency: Frequency [Hz].
        capacitance_per_length: Of the wall under the film [F/m].
        radius: Radius of the wet surface [m].
        layer_conductivity: Of the film [S].

    Returns:
        Tangential field at the flange, peak or rms as the voltage is [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: first principles, a model — basis: exact as a model; a few per cent from the field.
    Valid for: films that conduct so well that 1/|g| exceeds the wall thickness.
    """
    positive(
        voltage_across=voltage_across,
        frequency=frequency,
        capacitance_per_length=capacitance_per_length,
        radius=radius,
        layer_conductivity=layer_conductivity,
    )
    charging = 2j * math.pi * frequency * capacitance_per_length
    return voltage_across * abs(cmath.sqrt(charging / (2 * math.pi * radius * layer_conductivity)))
