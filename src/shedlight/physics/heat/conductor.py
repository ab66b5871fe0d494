"""Current in a rod or tube: resistance, skin effect, loss.

The skin effect is exact (Bessel functions) for a single conductor whose return is far away;
functions scaled by their exponential growth keep it good for any thickness.
"""

import math

import numpy as np
from scipy.special import ive, jve, kve

from shedlight.physics.domain import not_negative, ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

VACUUM_PERMEABILITY = 4e-7 * math.pi  # [H/m]
REFERENCE_TEMPERATURE = 293.15  # [K], 20 °C

_RESISTIVITY = ("Resistivity", "rho", "nΩm")
_DEPTH = ("Skin depth", "delta", "mm")
_CURRENT = ("Current, rms", "I", "A")
_PER_LENGTH = ("Resistance per length", "R'", "µΩ/m")
_BESSEL = cite("Rosa & Grover", "skin effect of round wires, Bessel functions", "exact")
_RATIO = ("Skin effect ratio", 'R_"ac" slash R_"dc"', "1")


@formula(
    _RESISTIVITY,
    "rho_20 (1 + alpha (t - 20 °C))",
    {
        "resistivity_20": ("Resistivity at 20 °C", "rho_20", "nΩm"),
        "coefficient": ("Temperature coefficient at 20 °C", "alpha", "1/K"),
        "temperature": ("Conductor temperature", "t", "°C"),
    },
    cite("IEC 60028", "linear change of resistance with temperature"),
    ranges={"temperature": (233.15, 473.15)},
)
def resistivity(resistivity_20: float, coefficient: float, temperature: float) -> float:
    """Resistivity of a metal at its temperature.

    rho = rho_20 (1 + alpha (t - 20 °C))

    Args:
        resistivity_20: Resistivity at 20 °C [Ωm].
        coefficient: Temperature coefficient at 20 °C [1/K].
        temperature: Conductor temperature [K].

    Returns:
        Resistivity [Ωm].

    Raises:
        InputError: resistivity or temperature not above zero, coefficient negative.

    Source: IEC 60028 — basis: memory, high confidence.
    Valid for: -40 to 200 °C.
    """
    positive(resistivity_20=resistivity_20, temperature=temperature)
    not_negative(coefficient=coefficient)
    return resistivity_20 * (1 + coefficient * (temperature - REFERENCE_TEMPERATURE))


@formula(
    ("Cross-section", "A", "mm²"),
    "pi / 4 D^2",
    {"diameter": ("Rod diameter", "D", "mm")},
    cite("first principles", "area of a circle", "exact"),
)
def circle_area(diameter: float) -> float:
    """Cross-section of a round rod.

    A = pi D²/4

    Args:
        diameter: Diameter [m].

    Returns:
        Area [m²].

    Raises:
        InputError: diameter not above zero.

    Source: geometry — basis: exact.
    Valid for: any diameter.
    """
    positive(diameter=diameter)
    return math.pi / 4 * diameter**2


@formula(
    ("Cross-section", "A", "mm²"),
    "pi / 4 (D^2 - d^2)",
    {
        "outer_diameter": ("Outer diameter", "D", "mm"),
        "inner_diameter": ("Inner diameter", "d", "mm"),
    },
    cite("first principles", "area of a ring", "exact"),
)
def tube_area(outer_diameter: float, inner_diameter: float) -> float:
    """Cross-section of a tube.

    A = pi (D² - d²)/4

    Args:
        outer_diameter: Outer diameter [m].
        inner_diameter: Inner diameter [m].

    Returns:
        Area [m²].

    Raises:
        InputError: inner diameter negative or not below the outer one.

    Source: geometry — basis: exact.
    Valid for: any tube.
    """
    not_negative(inner_diameter=inner_diameter)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)
    return math.pi / 4 * (outer_diameter**2 - inner_diameter**2)


@formula(
    ("Direct-current resistance per length", 'R\'_"dc"', "µΩ/m"),
    "rho / A",
    {"resistivity": _RESISTIVITY, "area": ("Cross-section", "A", "mm²")},
    cite("first principles", "uniform current density", "exact"),
)
def resistance_per_length(resistivity: float, area: float) -> float:
    """Resistance of a metre of conductor under direct current.

    R' = rho/A

    Args:
        resistivity: Resistivity at the conductor's temperature [Ωm].
        area: Cross-section [m²].

    Returns:
        Resistance per length [Ω/m].

    Raises:
        InputError: resistivity or area not above zero.

    Source: Ohm's law — basis: exact.
    Valid for: uniform current density.
    """
    positive(resistivity=resistivity, area=area)
    return resistivity / area


@formula(
    _DEPTH,
    "sqrt(rho / (pi f mu_0 mu_r))",
    {
        "resistivity": _RESISTIVITY,
        "frequency": ("Frequency", "f", "Hz"),
        "relative_permeability": ("Relative permeability", "mu_r", "1"),
    },
    cite("first principles", "plane wave in a good conductor", "exact"),
)
def skin_depth(resistivity: float, frequency: float, relative_permeability: float = 1.0) -> float:
    """How deep alternating current goes below a metal surface.

    delta = sqrt(rho/(pi f mu_0 mu_r))

    Args:
        resistivity: Resistivity at the conductor's temperature [Ωm].
        frequency: Frequency [Hz].
        relative_permeability: 1 for copper, aluminium, brass and bronze [1].

    Returns:
        Depth at which the density has fallen to 1/e [m].

    Raises:
        InputError: an argument not above zero.

    Source: Maxwell's equations — basis: exact.
    Valid for: good conductors.
    """
    positive(
        resistivity=resistivity, frequency=frequency, relative_permeability=relative_permeability
    )
    return math.sqrt(
        resistivity / (math.pi * frequency * VACUUM_PERMEABILITY * relative_permeability)
    )


@formula(
    _RATIO,
    'op("Re") [(k a) / 2 dot (J_0 (k a)) / (J_1 (k a))], quad k = (1 - j) / delta',
    {"radius": ("Rod radius", "a", "mm"), "skin_depth": _DEPTH},
    _BESSEL,
    note="Exact for a single rod with its return far away.",
)
def skin_ratio_rod(radius: float, skin_depth: float) -> float:
    """By how much alternating current finds more resistance in a rod than direct current.

    R_ac/R_dc = Re[k a/2 · J0(k a)/J1(k a)], k = (1 - j)/delta

    Args:
        radius: Rod radius [m].
        skin_depth: Skin depth at the conductor's temperature [m].

    Returns:
        Ratio, at least 1 [1].

    Raises:
        InputError: an argument not above zero.

    Source: Rosa and Grover, Bull. Bureau of Standards 8 — basis: exact.
    Valid for: any thickness, return conductor far away.
    """
    positive(radius=radius, skin_depth=skin_depth)
    argument = np.complex128((1 - 1j) * radius / skin_depth)
    ratio = argument / 2 * jve(0, argument) / jve(1, argument)
    return max(1.0, float(ratio.real))


@formula(
    _RATIO,
    'op("Re") [m (b^2 - a^2) / (2 b) dot'
    " (I_0 (m b) + C K_0 (m b)) / (I_1 (m b) - C K_1 (m b))],"
    " quad C = (I_1 (m a)) / (K_1 (m a)), quad m = (1 + j) / delta",
    {
        "outer_radius": ("Outer radius", "b", "mm"),
        "inner_radius": ("Inner radius", "a", "mm"),
        "skin_depth": _DEPTH,
    },
    cite("Rosa & Grover", "skin effect of tubes, Bessel functions", "exact"),
    note="Exact for a single tube with its return far away.",
)
def skin_ratio_tube(outer_radius: float, inner_radius: float, skin_depth: float) -> float:
    """By how much alternating current finds more resistance in a tube than direct current.

    R_ac/R_dc = Re[m (b² - a²)/(2 b) · (I0(mb) + C K0(mb))/(I1(mb) - C K1(mb))],
    C = I1(ma)/K1(ma), m = (1 + j)/delta

    Args:
        outer_radius: Outer radius b [m].
        inner_radius: Inner radius a; 0 is a rod [m].
        skin_depth: Skin depth at the conductor's temperature [m].

    Returns:
        Ratio, at least 1 [1].

    Raises:
        InputError: inner radius negative or not below the outer one, skin depth not above zero.

    Source: Rosa and Grover; no magnetic field inside the bore — basis: exact.
    Valid for: walls down to a hundred-thousandth of the radius, return conductor far away.
    """
    not_negative(inner_radius=inner_radius)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    positive(skin_depth=skin_depth)
    if inner_radius == 0:
        return skin_ratio_rod(outer_radius, skin_depth)
    growth = np.complex128((1 + 1j) / skin_depth)
    inner, outer = growth * inner_radius, growth * outer_radius
    # The scaled functions leave out exp(Re z) of I and exp(-z) of K; both come back here.
    fall = np.exp(inner + inner.real - outer - outer.real)
    share = ive(1, inner) / kve(1, inner) * fall
    field = ive(0, outer) + share * kve(0, outer)
    current = ive(1, outer) - share * kve(1, outer)
    span = (outer_radius**2 - inner_radius**2) / (2 * outer_radius)
    return max(1.0, float((growth * span * field / current).real))


@formula(
    _RATIO,
    "1 + x^4 / (192 + 0.8 x^4), quad x = sqrt(2) a / delta",
    {"radius": ("Rod radius", "a", "mm"), "skin_depth": _DEPTH},
    cite("IEC 60287", "skin effect factor"),
    note="Close to the exact ratio up to x = 2.8.",
)
def skin_ratio_cable(radius: float, skin_depth: float) -> float:
    """Skin effect ratio by the cable standard's approximation, a check on the exact one.

    R_ac/R_dc = 1 + x⁴/(192 + 0.8 x⁴), x = sqrt(2) a/delta

    Args:
        radius: Rod radius [m].
        skin_depth: Skin depth at the conductor's temperature [m].

    Returns:
        Ratio, at least 1 [1].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60287-1-1 — basis: memory, high confidence.
    Valid for: x up to 2.8, that is radius up to 1.98 skin depths.
    """
    positive(radius=radius, skin_depth=skin_depth)
    fourth = (math.sqrt(2) * radius / skin_depth) ** 4
    return 1 + fourth / (192 + 0.8 * fourth)


@formula(
    ("Alternating-current resistance per length", 'R\'_"ac"', "µΩ/m"),
    'R\'_"dc" dot R_"ac" slash R_"dc"',
    {
        "resistance_per_length": ("Direct-current resistance per length", 'R\'_"dc"', "µΩ/m"),
        "skin_ratio": _RATIO,
    },
    cite("first principles", "definition of the skin effect ratio", "exact"),
)
def alternating_resistance(resistance_per_length: float, skin_ratio: float) -> float:
    """Resistance of a metre of conductor under alternating current.

    R'_ac = R'_dc · (R_ac/R_dc)

    Args:
        resistance_per_length: Direct-current resistance per length [Ω/m].
        skin_ratio: Skin effect ratio, at least 1 [1].

    Returns:
        Resistance per length [Ω/m].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(resistance_per_length=resistance_per_length, skin_ratio=skin_ratio)
    return resistance_per_length * skin_ratio


@formula(
    ("Loss per length", "P'", "W/m"),
    "I^2 R'",
    {"current": _CURRENT, "resistance_per_length": _PER_LENGTH},
    cite("first principles", "Joule's law", "exact"),
)
def loss_per_length(current: float, resistance_per_length: float) -> float:
    """Heat made in a metre of conductor.

    P' = I² R'

    Args:
        current: Current, rms [A].
        resistance_per_length: Resistance per length at its temperature and frequency [Ω/m].

    Returns:
        Loss per length [W/m].

    Raises:
        InputError: current negative, resistance not above zero.

    Source: Joule's law — basis: exact.
    Valid for: any.
    """
    not_negative(current=current)
    positive(resistance_per_length=resistance_per_length)
    return current**2 * resistance_per_length


@formula(
    ("Current density", "J", "A/mm²"),
    "I / A",
    {"current": _CURRENT, "area": ("Cross-section", "A", "mm²")},
    cite("first principles", "definition", "exact"),
)
def current_density(current: float, area: float) -> float:
    """Current per cross-section.

    J = I/A

    Args:
        current: Current, rms [A].
        area: Cross-section [m²].

    Returns:
        Mean current density, rms [A/m²].

    Raises:
        InputError: current negative, area not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    not_negative(current=current)
    positive(area=area)
    return current / area
