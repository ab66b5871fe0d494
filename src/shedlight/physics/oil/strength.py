"""Strength of oil gaps and of surfaces in oil: design curves, low trust, never a certain verdict.

All curves are read with the MEAN stress of a gap or path at one-minute alternating voltage, rms;
never with a computed peak. Which curve holds hangs on the state of the oil: see
:mod:`shedlight.physics.oil.curves`.
"""

import math

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula

_STRENGTH = ("Strength of the oil gap, mean rms", "E_d", "kV/mm")
_SHAPE = ("Weibull exponent", "m", "1")
_RATIO = ("Ratio of volumes", "v", "1")
_WEIBULL = cite("first principles", "weakest-link statistics, Weibull distribution", "exact")


@formula(
    _STRENGTH,
    'A (d / (1 "mm"))^(-n)',
    {
        "gap": ("Oil gap along the field line", "d", "mm"),
        "coefficient": ("Strength of a gap of 1 mm", "A", "kV/mm"),
        "exponent": ("Exponent", "n", "1"),
    },
    cite("Moser", "oil gap design curves", "memory", "medium"),
    ranges={"gap": (1e-3, 50e-3)},
    note="Mean stress at one-minute a.c. for partial discharge inception at low probability.",
)
def gap_strength(gap: float, coefficient: float, exponent: float) -> float:
    """Mean stress that an oil gap holds for one minute of alternating voltage.

    E = A (d/1 mm)^-n

    Args:
        gap: Length of the oil along the field line, between solids or metals [m].
        coefficient: Of a row of :func:`shedlight.physics.oil.curves.gap_curves`, rms [V/m].
        exponent: Of the same row [1].

    Returns:
        Mean field strength at inception of discharges, rms [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: Moser, Dahinden, Transformerboard; Kulkarni, Khaparde, Transformer Engineering —
    basis: memory, medium confidence.
    Valid for: gaps of 1 to 50 mm in clean dry mineral oil.
    """
    positive(gap=gap, coefficient=coefficient, exponent=exponent)
    return float(coefficient * (gap * 1e3) ** -exponent)


@formula(
    ("Strength of the surface in oil, mean rms", "E_c", "kV/mm"),
    '16.6 "kV/mm" (l / (1 "mm"))^(-0.46)',
    {"path": ("Path along the surface", "l", "mm")},
    cite("Moser", "creep along the oil–solid interface", "memory", "medium"),
    ranges={"path": (5e-3, 200e-3)},
    note="Mean stress cumulated outward from the most stressed point, one-minute a.c.",
)
def creep_strength(path: float) -> float:
    """Mean stress that a clean surface in oil holds along a path from its most stressed point.

    E = 16.6 kV/mm (l/1 mm)^-0.46

    Args:
        path: Length along the surface [m].

    Returns:
        Mean stress along the path, rms [V/m].

    Raises:
        InputError: path not above zero.

    Source: Moser, Dahinden, Transformerboard — basis: memory, medium confidence.
    Valid for: paths of 5 to 200 mm on clean solids in clean dry mineral oil.
    """
    positive(path=path)
    return float(16.6e6 * (path * 1e3) ** -0.46)


@formula(
    ("Strength of the stressed oil volume, rms", "E_v", "kV/mm"),
    '17.9 "kV/mm" (V / (1 "cm³"))^(-0.137)',
    {"volume": ("Oil stressed above 90 % of the peak", "V", "cm³")},
    cite("Kulkarni", "stressed oil volume", "memory", "medium"),
    ranges={"volume": (1e-6, 0.1)},
)
def stressed_volume_strength(volume: float) -> float:
    """Peak stress that oil holds, by how much of it is highly stressed.

    E = 17.9 kV/mm (V/1 cm³)^-0.137

    Args:
        volume: Oil stressed above 90 % of the peak stress [m³].

    Returns:
        Field strength, rms [V/m].

    Raises:
        InputError: volume not above zero.

    Source: Kulkarni, Khaparde, Transformer Engineering — basis: memory, medium confidence.
    Valid for: 1 to 100 000 cm³.
    """
    positive(volume=volume)
    return float(17.9e6 * (volume * 1e6) ** -0.137)


@formula(
    ("One-minute a.c. voltage of the same severity, rms", 'U_"eq"', "kV"),
    'U_"LI" / k',
    {
        "lightning_impulse": ("Lightning impulse level, peak", 'U_"LI"', "kV"),
        "ratio": ("Impulse over one-minute a.c.", "k", "1"),
    },
    cite("Kulkarni", "conversion of test voltages to one-minute a.c.", "practice", "low"),
    ranges={"ratio": (2.5, 3.0)},
)
def impulse_equivalent(lightning_impulse: float, ratio: float = 2.6) -> float:
    """Alternating voltage that stresses oil insulation as hard as a lightning impulse.

    U_eq = U_LI/k

    Args:
        lightning_impulse: Lightning impulse level, peak [V].
        ratio: Impulse peak over one-minute a.c. rms; see
            :func:`shedlight.physics.oil.curves.conversion` [1].

    Returns:
        Equivalent one-minute alternating voltage, rms [V].

    Raises:
        InputError: an argument not above zero.

    Source: design habit, Kulkarni, Khaparde — basis: practice, low confidence.
    Valid for: oil gaps and oil–solid systems, ratio 2.5 to 3.
    """
    positive(lightning_impulse=lightning_impulse, ratio=ratio)
    return lightning_impulse / ratio


@formula(
    ("Probability of breakdown", "P", "%"),
    "1 - exp(-(E / E_63)^m v)",
    {
        "gradient": ("Field strength", "E", "kV/mm"),
        "scale": ("Field strength at 63 % probability", "E_63", "kV/mm"),
        "shape": _SHAPE,
        "volume_ratio": _RATIO,
    },
    _WEIBULL,
)
def weibull_probability(gradient: float, scale: float, shape: float, volume_ratio: float) -> float:
    """How likely oil breaks down where its weakest spot decides.

    P = 1 - exp(-(E/E_63)^m V/V_0)

    Args:
        gradient: Field strength [V/m].
        scale: Field strength that breaks the reference volume with 63 % probability [V/m].
        shape: Weibull exponent m [1].
        volume_ratio: Stressed volume over the reference volume [1].

    Returns:
        Probability, 0 to 1 [1].

    Raises:
        InputError: an argument not above zero.

    Source: Weibull's weakest-link distribution — basis: exact once its constants are given.
    Valid for: evenly stressed volumes.
    """
    positive(gradient=gradient, scale=scale, shape=shape, volume_ratio=volume_ratio)
    return -math.expm1(-((gradient / scale) ** shape) * volume_ratio)


@formula(
    ("Size factor on the strength", "k_V", "1"),
    "v^(-1 / m)",
    {"volume_ratio": _RATIO, "shape": _SHAPE},
    _WEIBULL,
)
def volume_factor(volume_ratio: float, shape: float) -> float:
    """By how much the strength falls as more oil is stressed, at the same probability.

    k = (V/V_0)^(-1/m)

    Args:
        volume_ratio: Stressed volume over the reference volume [1].
        shape: Weibull exponent m [1].

    Returns:
        Factor on the field strength [1].

    Raises:
        InputError: an argument not above zero.

    Source: Weibull's weakest-link distribution — basis: exact once m is given.
    Valid for: evenly stressed volumes.
    """
    positive(volume_ratio=volume_ratio, shape=shape)
    return float(volume_ratio ** (-1 / shape))
