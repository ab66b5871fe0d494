"""Flashover of a polluted surface: an arc in series with the wet layer it has not yet bridged.

Everything counts PEAK values. The arc takes A I^-n per length, the rest of the path its resistance;
the voltage that just carries the arc across is the largest, over the arc's length, of the least,
over the current. Lengths are creepage.
"""

import math

from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

_CONSTANT = ("Arc gradient at 1 A", "A", "V/cm")
_EXPONENT = ("Arc exponent", "n", "1")
_PER_LENGTH = ("Layer resistance per creepage", "r", "Ω/cm")
_CURRENT = ("Critical current, peak", "I_c", "A")
_GRADIENT = ("Critical gradient, peak", "E_c", "V/cm")
_VOLTAGE = ("Critical voltage, peak", "U_c", "kV")
_CREEPAGE = ("Creepage", "L", "mm")
_OBENAUS = cite("Alston", "arc in series with an even layer, critical condition", "memory", "high")


@formula(
    _PER_LENGTH,
    "F / (kappa L)",
    {
        "form_factor": ("Form factor", "F", "1"),
        "layer_conductivity": ("Layer conductivity", "kappa", "µS"),
        "creepage": _CREEPAGE,
    },
    cite("IEC 60507", "form factor and layer conductivity, definitions", "exact"),
)
def layer_resistance(form_factor: float, layer_conductivity: float, creepage: float) -> float:
    """Resistance of the wet layer per length of creepage, as a mean over the insulator.

    r = F/(kappa L)

    Args:
        form_factor: Of the whole outline [1].
        layer_conductivity: Of an even layer [S].
        creepage: Total creepage [m].

    Returns:
        Resistance per length [Ω/m].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60507 — basis: exact by definition.
    Valid for: even layers; the mean hides that narrow trunks resist more than sheds.
    """
    positive(form_factor=form_factor, layer_conductivity=layer_conductivity, creepage=creepage)
    return form_factor / (layer_conductivity * creepage)


@formula(
    _GRADIENT,
    "A^(1 / (n + 1)) r^(n / (n + 1))",
    {
        "arc_constant": _CONSTANT,
        "arc_exponent": _EXPONENT,
        "layer_resistance": _PER_LENGTH,
    },
    _OBENAUS,
)
def critical_gradient(arc_constant: float, arc_exponent: float, layer_resistance: float) -> float:
    """Mean gradient at which an even strip flashes over.

    E_c = A^(1/(n+1)) r^(n/(n+1))

    Args:
        arc_constant: Gradient A of the arc at 1 A [V/m].
        arc_exponent: n of the arc's gradient A I^-n [1].
        layer_resistance: Of the wet layer per creepage [Ω/m].

    Returns:
        Critical mean gradient along the creepage, peak [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: Obenaus's model; Alston, Zoledziowski, Proc. IEE 110 (1963) — basis: memory, high
    confidence.
    Valid for: even layers on strips of even width; direct voltage or re-igniting arcs.
    """
    positive(
        arc_constant=arc_constant, arc_exponent=arc_exponent, layer_resistance=layer_resistance
    )
    share = 1 / (arc_exponent + 1)
    return float(arc_constant**share * layer_resistance ** (1 - share))


@formula(
    _CURRENT,
    "(A / r)^(1 / (n + 1))",
    {
        "arc_constant": _CONSTANT,
        "arc_exponent": _EXPONENT,
        "layer_resistance": _PER_LENGTH,
    },
    _OBENAUS,
)
def critical_current(arc_constant: float, arc_exponent: float, layer_resistance: float) -> float:
    """Current at which the arc runs on by itself across an even strip.

    I_c = (A/r)^(1/(n+1))

    Args:
        arc_constant: Gradient A of the arc at 1 A [V/m].
        arc_exponent: n of the arc's gradient A I^-n [1].
        layer_resistance: Of the wet layer per creepage [Ω/m].

    Returns:
        Critical current, peak [A].

    Raises:
        InputError: an argument not above zero.

    Source: Obenaus's model; Alston, Zoledziowski, Proc. IEE 110 (1963) — basis: memory, high
    confidence.
    Valid for: even layers on strips of even width.
    """
    positive(
        arc_constant=arc_constant, arc_exponent=arc_exponent, layer_resistance=layer_resistance
    )
    return float((arc_constant / layer_resistance) ** (1 / (arc_exponent + 1)))


@formula(
    ("Critical arc length over creepage", "x_c slash L", "1"),
    "1 / (n + 1)",
    {"arc_exponent": _EXPONENT},
    _OBENAUS,
)
def critical_arc_fraction(arc_exponent: float) -> float:
    """How much of an even strip the arc has bridged when it runs on by itself.

    x_c/L = 1/(n+1)

    Args:
        arc_exponent: n of the arc's gradient A I^-n [1].

    Returns:
        Fraction of the creepage, 0 to 1 [1].

    Raises:
        InputError: exponent not above zero.

    Source: Obenaus's model; Alston, Zoledziowski, Proc. IEE 110 (1963) — basis: memory, high
    confidence.
    Valid for: even layers on strips of even width.
    """
    positive(arc_exponent=arc_exponent)
    return 1 / (arc_exponent + 1)


@formula(
    _VOLTAGE,
    "E_c L",
    {"critical_gradient": _GRADIENT, "creepage": _CREEPAGE},
    _OBENAUS,
)
def critical_voltage(critical_gradient: float, creepage: float) -> float:
    """Voltage that flashes over an even strip.

    U_c = E_c L

    Args:
        critical_gradient: From :func:`critical_gradient` or :func:`rizk_gradient` [V/m].
        creepage: Total creepage [m].

    Returns:
        Critical voltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: as the gradient's.
    Valid for: even layers; electrode drops of some 840 V not counted.
    """
    positive(critical_gradient=critical_gradient, creepage=creepage)
    return critical_gradient * creepage


@formula(
    ("Least voltage of arc and layer, peak", "U", "kV"),
    "(n + 1) n^(-n / (n + 1)) (A x)^(1 / (n + 1)) R^(n / (n + 1))",
    {
        "arc_length": ("Arc length", "x", "mm"),
        "residual_resistance": ("Resistance of the layer not bridged", "R", "kΩ"),
        "arc_constant": _CONSTANT,
        "arc_exponent": _EXPONENT,
    },
    _OBENAUS,
)
def arc_voltage(
    arc_length: float, residual_resistance: float, arc_constant: float, arc_exponent: float
) -> float:
    """Least voltage that keeps an arc of some length alight in series with the rest of the layer.

    U = min over I of (A x I^-n + R I) = (n+1) n^(-n/(n+1)) (A x)^(1/(n+1)) R^(n/(n+1))

    Args:
        arc_length: Creepage bridged by the arc [m].
        residual_resistance: Of the wet layer not bridged [Ω].
        arc_constant: Gradient A of the arc at 1 A [V/m].
        arc_exponent: n of the arc's gradient A I^-n [1].

    Returns:
        Voltage, peak [V].

    Raises:
        InputError: a length or resistance negative, an arc constant not above zero.

    Source: Obenaus's model; Alston, Zoledziowski, Proc. IEE 110 (1963) — basis: memory, high
    confidence.
    Valid for: any distribution of the resistance.
    """
    not_negative(arc_length=arc_length, residual_resistance=residual_resistance)
    positive(arc_constant=arc_constant, arc_exponent=arc_exponent)
    share = 1 / (arc_exponent + 1)
    front = (arc_exponent + 1) * arc_exponent ** (share - 1)
    return float(front * (arc_constant * arc_length) ** share * residual_resistance ** (1 - share))


@formula(
    ("Critical gradient with re-ignition, peak", "E_c", "V/cm"),
    '23 "V/cm" dot (r / (1 "Ω/cm"))^0.40',
    {"layer_resistance": _PER_LENGTH},
    cite("Rizk", "closed form for alternating voltage", "memory", "medium"),
)
def rizk_gradient(layer_resistance: float) -> float:
    """Mean gradient at which an even strip flashes over under alternating voltage.

    E_c [V/cm] = 23 r^0.40, r in Ω/cm

    Args:
        layer_resistance: Of the wet layer per creepage [Ω/m].

    Returns:
        Critical mean gradient along the creepage, peak [V/m].

    Raises:
        InputError: layer resistance not above zero.

    Source: F. A. M. Rizk, Electra 78 (1981) — basis: memory, medium confidence.
    Valid for: even layers on strips of even width, power frequency.
    """
    positive(layer_resistance=layer_resistance)
    return float(23 * (layer_resistance / 100) ** 0.40 * 100)


@formula(
    ("Re-ignition voltage, peak", "U_r", "kV"),
    "(N x) / I^m",
    {
        "coefficient": ("Re-ignition gradient at 1 A", "N", "V/cm"),
        "exponent": ("Re-ignition exponent", "m", "1"),
        "arc_length": ("Arc length", "x", "mm"),
        "current": ("Current, peak", "I", "A"),
    },
    cite("Rizk", "re-ignition of a.c. arcs", "memory", "medium"),
)
def reignition_voltage(
    coefficient: float, exponent: float, arc_length: float, current: float
) -> float:
    """Voltage that lights an alternating arc again after each zero of the current.

    U = N x/I^m, I in A

    Args:
        coefficient: N of a row of :func:`shedlight.physics.surface.constants.reignitions` [V/m].
        exponent: m of the same row [1].
        arc_length: Creepage bridged by the arc [m].
        current: Current, peak [A].

    Returns:
        Voltage needed, peak [V].

    Raises:
        InputError: an argument not above zero, arc length negative.

    Source: F. A. M. Rizk, Electra 78 (1981); Claverie — basis: memory, medium confidence.
    Valid for: arcs on wet surfaces at power frequency.
    """
    positive(coefficient=coefficient, exponent=exponent, current=current)
    not_negative(arc_length=arc_length)
    return float(coefficient * arc_length / current**exponent)


@formula(
    ("Specific creepage at which arcs re-ignite", "S_u", "mm/kV"),
    "(sqrt(2) sqrt(I)) / N",
    {
        "coefficient": ("Re-ignition gradient at 1 A", "N", "V/cm"),
        "current": ("Current, peak", "I", "A"),
    },
    cite("first principles", "re-ignition with exponent one half over the whole creepage", "exact"),
)
def reignition_creepage(coefficient: float, current: float) -> float:
    """Specific creepage just bridged by arcs that re-ignite: the root of Verma's law.

    S_u = sqrt(2) sqrt(I)/N from sqrt(2) U = N L/sqrt(I)

    Args:
        coefficient: Re-ignition gradient at 1 A, exponent one half [V/m].
        current: Current, peak [A].

    Returns:
        Creepage per rms voltage across the insulator [m/V].

    Raises:
        InputError: an argument not above zero.

    Source: first principles — basis: exact once N is given.
    Valid for: arcs over the whole creepage.
    """
    positive(coefficient=coefficient, current=current)
    return math.sqrt(2 * current) / coefficient


@formula(
    ("Critical gradient by re-ignition alone, peak", "E_c", "V/cm"),
    "(N / (1 + m))^(1 / (1 + m)) ((m r) / (1 + m))^(m / (1 + m))",
    {
        "coefficient": ("Re-ignition gradient at 1 A", "N", "V/cm"),
        "exponent": ("Re-ignition exponent", "m", "1"),
        "layer_resistance": _PER_LENGTH,
    },
    cite("first principles", "re-ignition on an even strip, drop of the arc left out", "exact"),
)
def reignition_gradient(coefficient: float, exponent: float, layer_resistance: float) -> float:
    """Mean gradient that lights an arc on an even strip again at its hardest place.

    E_c = (N/(1+m))^(1/(1+m)) (m r/(1+m))^(m/(1+m)), from U = N x/I^m, I = U/(r (L - x))

    Args:
        coefficient: N of a row of :func:`shedlight.physics.surface.constants.reignitions` [V/m].
        exponent: m of the same row [1].
        layer_resistance: Of the wet layer per creepage [Ω/m].

    Returns:
        Critical mean gradient along the creepage, peak [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: first principles, constants of Rizk or Claverie — basis: exact once they are given.
    Valid for: even layers; the drop of the burning arc comes on top.
    """
    positive(coefficient=coefficient, exponent=exponent, layer_resistance=layer_resistance)
    share = 1 / (1 + exponent)
    lit = (coefficient * share) ** share
    return float(lit * (exponent * share * layer_resistance) ** (1 - share))


@formula(
    ("Flashover voltage in thin air over that at sea level", "k_p", "1"),
    "delta^m",
    {
        "exponent": ("Pressure exponent", "m", "1"),
        "density": ("Relative air density at site", "delta", "1"),
    },
    cite("CIGRE 158", "polluted insulators at low air pressure", "memory", "medium"),
    ranges={"exponent": (0.3, 0.8), "density": (0.5, 1.0)},
    note="Counts from sea level: scales what a surface really holds.",
)
def thin_air_factor(exponent: float, density: float) -> float:
    """By how much a polluted surface flashes over more easily in thin air.

    k = delta^m

    Args:
        exponent: About 0.5 for plain, 0.8 for anti-fog profiles [1].
        density: Relative air density at site, from sea level [1].

    Returns:
        Factor on the flashover voltage [1].

    Raises:
        InputError: exponent negative, density not above zero.

    Source: CIGRE TB 158, IEC 60071-2 (tentative) — basis: memory, medium confidence.
    Valid for: exponents 0.3 to 0.8.
    """
    not_negative(exponent=exponent)
    positive(density=density)
    return float(density**exponent)
