"""Cap-and-pin discs: a closed form fitted to them; for housings only if fully wetted."""

import math

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula

_CONDUCTIVITY = ("Layer conductivity", "kappa", "µS")
_DIAMETER = ("Disc diameter", "D", "mm")
_CREEPAGE = ("Creepage", "L", "mm")
_FACTOR = ("Form factor", "F", "1")
_CONSTANT = ("Arc gradient at 1 A", "A", "V/cm")
_EXPONENT = ("Arc exponent", "n", "1")
_CURRENT = ("Critical current, peak", "I_c", "A")
_TOPALIS = cite("Topalis", "closed form for cap-and-pin insulators", "memory", "high")
_ARC_RADIUS = 0.469e-2  # [m] at 1 A: 1.45 A/cm² of arc foot, Wilkins


@formula(
    _CURRENT,
    "(pi A D kappa)^(1 / (n + 1))",
    {
        "layer_conductivity": _CONDUCTIVITY,
        "diameter": _DIAMETER,
        "arc_constant": _CONSTANT,
        "arc_exponent": _EXPONENT,
    },
    _TOPALIS,
)
def disc_critical_current(
    layer_conductivity: float, diameter: float, arc_constant: float, arc_exponent: float
) -> float:
    """Current at which the arc runs on by itself across a disc.

    I_c = (pi A D kappa)^(1/(n+1))

    Args:
        layer_conductivity: Of the fully wetted layer [S].
        diameter: Largest diameter of the disc [m].
        arc_constant: Gradient A of the arc at 1 A [V/m].
        arc_exponent: n of the arc's gradient A I^-n [1].

    Returns:
        Critical current, peak [A].

    Raises:
        InputError: an argument not above zero.

    Source: Topalis, Gonos, Stathopulos — basis: memory, high confidence.
    Valid for: cap-and-pin discs.
    """
    positive(
        layer_conductivity=layer_conductivity,
        diameter=diameter,
        arc_constant=arc_constant,
        arc_exponent=arc_exponent,
    )
    product = math.pi * arc_constant * diameter * layer_conductivity
    return float(product ** (1 / (arc_exponent + 1)))


@formula(
    ("Crowding of the current at the arc's foot", "K", "1"),
    '1 + (n + 1) / (2 pi F n) ln(L / (2 pi R F)), quad R = 0.469 sqrt(I_c) thin "cm"',
    {
        "creepage": _CREEPAGE,
        "form_factor": _FACTOR,
        "arc_exponent": _EXPONENT,
        "critical_current": _CURRENT,
    },
    _TOPALIS,
)
def disc_crowding_factor(
    creepage: float, form_factor: float, arc_exponent: float, critical_current: float
) -> float:
    """By how much crowding at the arc's foot raises the resistance of the layer.

    K = 1 + (n+1)/(2 pi F n) ln(L/(2 pi R F)), R = 0.469 sqrt(I_c) cm

    Args:
        creepage: Of the disc [m].
        form_factor: Of the disc [1].
        arc_exponent: n of the arc's gradient A I^-n [1].
        critical_current: From :func:`disc_critical_current`, peak [A].

    Returns:
        Factor K [1].

    Raises:
        InputError: an argument not above zero.

    Source: Topalis, Gonos, Stathopulos; arc radius after Wilkins — basis: memory, high confidence.
    Valid for: cap-and-pin discs.
    """
    positive(
        creepage=creepage,
        form_factor=form_factor,
        arc_exponent=arc_exponent,
        critical_current=critical_current,
    )
    radius = _ARC_RADIUS * math.sqrt(critical_current)
    spread = math.log(creepage / (2 * math.pi * radius * form_factor))
    return 1 + (arc_exponent + 1) / (2 * math.pi * form_factor * arc_exponent) * spread


@formula(
    ("Critical voltage, peak", "U_c", "kV"),
    "A / (n + 1) (L + pi n D F K) I_c^(-n)",
    {
        "creepage": _CREEPAGE,
        "diameter": _DIAMETER,
        "form_factor": _FACTOR,
        "crowding_factor": ("Crowding of the current at the arc's foot", "K", "1"),
        "critical_current": _CURRENT,
        "arc_constant": _CONSTANT,
        "arc_exponent": _EXPONENT,
    },
    _TOPALIS,
    note="Some 3 to 20 % above the tests it is compared with: trust the trend, not the level.",
)
def disc_critical_voltage(
    creepage: float,
    diameter: float,
    form_factor: float,
    crowding_factor: float,
    critical_current: float,
    arc_constant: float,
    arc_exponent: float,
) -> float:
    """Voltage that flashes over one polluted disc.

    U_c = A/(n+1) (L + pi n D F K) I_c^-n

    Args:
        creepage: Of the disc [m].
        diameter: Largest diameter of the disc [m].
        form_factor: Of the disc [1].
        crowding_factor: From :func:`disc_crowding_factor` [1].
        critical_current: From :func:`disc_critical_current`, peak [A].
        arc_constant: Gradient A of the arc at 1 A [V/m].
        arc_exponent: n of the arc's gradient A I^-n [1].

    Returns:
        Critical voltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: Topalis, Gonos, Stathopulos — basis: memory, high confidence.
    Valid for: cap-and-pin discs.
    """
    positive(
        creepage=creepage,
        diameter=diameter,
        form_factor=form_factor,
        crowding_factor=crowding_factor,
        critical_current=critical_current,
        arc_constant=arc_constant,
        arc_exponent=arc_exponent,
    )
    path = creepage + math.pi * arc_exponent * diameter * form_factor * crowding_factor
    return float(arc_constant / (arc_exponent + 1) * path * critical_current**-arc_exponent)


def cap_and_pin_voltage(
    layer_conductivity: float,
    creepage: float,
    diameter: float,
    form_factor: float,
    arc_constant: float,
    arc_exponent: float,
) -> float:
    """The three formulas of this file in one: voltage that flashes over one polluted disc.

    Args:
        layer_conductivity: Of the fully wetted layer [S].
        creepage: Of the disc [m].
        diameter: Largest diameter of the disc [m].
        form_factor: Of the disc [1].
        arc_constant: Gradient A of the arc at 1 A [V/m].
        arc_exponent: n of the arc's gradient A I^-n [1].

    Returns:
        Critical voltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: Topalis, Gonos, Stathopulos — basis: memory, high confidence.
    Valid for: cap-and-pin discs.
    """
    current = disc_critical_current(layer_conductivity, diameter, arc_constant, arc_exponent)
    crowding = disc_crowding_factor(creepage, form_factor, arc_exponent, current)
    return disc_critical_voltage(
        creepage, diameter, form_factor, crowding, current, arc_constant, arc_exponent
    )
