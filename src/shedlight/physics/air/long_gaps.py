"""Long gaps under positive switching impulse and under power-frequency voltage.

Four laws for the switching strength stand side by side in :data:`SWITCHING_MEANS`; near 4 m they
agree within 2 %. All count the critical wave front and multiply rod–plane by the gap factor K.
"""

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

_INPUTS = {"gap": ("Gap", "d", "m"), "gap_factor": ("Gap factor", "K", "1")}
_SWITCHING = ("Switching sparkover, positive, peak", "U_50", "kV")


def _checked(gap: float, gap_factor: float) -> None:
    not_negative(gap=gap)
    positive(gap_factor=gap_factor)


@formula(
    _SWITCHING,
    '500 "kV" K (d / "m")^0.6',
    _INPUTS,
    cite("Paris", "positive switching impulse strength of large gaps"),
    ranges={"gap": (1.0, 5.0), "gap_factor": (1.0, 1.9)},
)
def switching_mean_paris(gap: float, gap_factor: float) -> float:
    """Mean switching sparkover after Paris and Cortina.

    U50 = 500 kV · K (d/m)^0.6

    Args:
        gap: Shortest distance in air [m].
        gap_factor: K of the arrangement, 1 for rod–plane [1].

    Returns:
        50 % sparkover voltage, positive, peak [V].

    Raises:
        InputError: gap negative, gap factor not above zero.

    Source: Paris and Cortina, IEEE Trans. PAS 87 (1968) — basis: memory, high confidence.
    Valid for: 1 to 5 m.
    """
    _checked(gap, gap_factor)
    return float(500e3 * gap_factor * gap**0.6)


@formula(
    _SWITCHING,
    '(3400 "kV" K) / (1 + 8 "m" / d)',
    _INPUTS,
    cite("Gallet", "general expression, positive switching impulse", "published"),
    ranges={"gap": (2.0, 15.0), "gap_factor": (1.0, 1.9)},
)
def switching_mean_gallet(gap: float, gap_factor: float) -> float:
    """Mean switching sparkover after Gallet and others.

    U50 = 3400 kV · K/(1 + 8 m/d)

    Args:
        gap: Shortest distance in air [m].
        gap_factor: K of the arrangement, 1 for rod–plane [1].

    Returns:
        50 % sparkover voltage, positive, peak [V].

    Raises:
        InputError: gap or gap factor not above zero.

    Source: Gallet et al., IEEE Trans. PAS 94 (1975) — basis: published.
    Valid for: 2 to 15 m.
    """
    positive(gap=gap, gap_factor=gap_factor)
    return 3400e3 * gap_factor / (1 + 8 / gap)


@formula(
    _SWITCHING,
    '1080 "kV" K ln(0.46 d / "m" + 1)',
    _INPUTS,
    cite("CRIEPI", "switching strength of long rod–plane gaps"),
    ranges={"gap": (1.0, 25.0), "gap_factor": (1.0, 1.9)},
)
def switching_mean_criepi(gap: float, gap_factor: float) -> float:
    """Mean switching sparkover after Kishizima and others.

    U50 = 1080 kV · K ln(0.46 d/m + 1)

    Args:
        gap: Shortest distance in air [m].
        gap_factor: K of the arrangement, 1 for rod–plane [1].

    Returns:
        50 % sparkover voltage, positive, peak [V].

    Raises:
        InputError: gap negative, gap factor not above zero.

    Source: Kishizima et al., IEEE Trans. PAS 103 (1984) — basis: memory, high confidence.
    Valid for: 1 to 25 m.
    """
    _checked(gap, gap_factor)
    return 1080e3 * gap_factor * math.log(0.46 * gap + 1)


@formula(
    _SWITCHING,
    'K ((1830 + 59 d / "m") / (1 + 3.89 "m" / d) + 92) thin "kV"',
    _INPUTS,
    cite("Rizk 1989", "leader inception model, rod–plane"),
    ranges={"gap": (4.0, 25.0), "gap_factor": (1.0, 1.9)},
)
def switching_mean_rizk(gap: float, gap_factor: float) -> float:
    """Mean switching sparkover after Rizk.

    U50 = K ((1830 + 59 d/m)/(1 + 3.89 m/d) + 92) kV

    Args:
        gap: Shortest distance in air [m].
        gap_factor: K of the arrangement, 1 for rod–plane [1].

    Returns:
        50 % sparkover voltage, positive, peak [V].

    Raises:
        InputError: gap or gap factor not above zero.

    Source: Rizk, IEEE Trans. PWRD 4 (1989) — basis: memory, high confidence.
    Valid for: 4 to 25 m.
    """
    positive(gap=gap, gap_factor=gap_factor)
    return gap_factor * ((1830 + 59 * gap) / (1 + 3.89 / gap) + 92) * 1e3


SWITCHING_MEANS: Mapping[str, Callable[[float, float], float]] = MappingProxyType(
    {
        "Paris": switching_mean_paris,
        "Gallet": switching_mean_gallet,
        "CRIEPI": switching_mean_criepi,
        "Rizk": switching_mean_rizk,
    }
)


@formula(
    ("Gap for a switching sparkover", "d", "m"),
    '(8 "m") / ((3400 "kV" K) / U_50 - 1)',
    {
        "mean": ("Switching sparkover, positive, peak", "U_50", "kV"),
        "gap_factor": ("Gap factor", "K", "1"),
    },
    cite("Gallet", "general expression, solved for the gap", "published"),
)
def gap_for_switching(mean: float, gap_factor: float) -> float:
    """Gap whose mean switching sparkover is a given voltage, after Gallet and others.

    d = 8 m/(3400 kV · K/U50 - 1)

    Args:
        mean: 50 % sparkover voltage wanted, positive, peak [V].
        gap_factor: K of the arrangement, 1 for rod–plane [1].

    Returns:
        Shortest distance in air [m].

    Raises:
        InputError: an argument not above zero, or no gap holds the voltage.

    Source: Gallet et al., IEEE Trans. PAS 94 (1975) — basis: published.
    Valid for: results of 2 to 15 m.
    """
    positive(mean=mean, gap_factor=gap_factor)
    most = 3400e3 * gap_factor
    if mean >= most:
        raise InputError(f"mean: given {mean:g} V; expected less than {most:g} V, held by no gap")
    return 8 / (most / mean - 1)


@formula(
    ("Gap factor at power frequency", 'K_"AC"', "1"),
    "1.35 K - 0.35 K^2",
    {"gap_factor": ("Gap factor", "K", "1")},
    cite("IEC 60071-2", "power-frequency strength of gaps longer than 1 to 2 m"),
    ranges={"gap_factor": (1.0, 1.9)},
)
def power_frequency_factor(gap_factor: float) -> float:
    """Gap factor under power-frequency voltage, from the one under switching impulse.

    K_AC = 1.35 K - 0.35 K²

    Args:
        gap_factor: K of the arrangement under switching impulse [1].

    Returns:
        Factor on the rod–plane strength [1].

    Raises:
        InputError: gap factor not above zero.

    Source: IEC 60071-2 — basis: memory, high confidence.
    Valid for: gaps longer than 1 to 2 m.
    """
    positive(gap_factor=gap_factor)
    return 1.35 * gap_factor - 0.35 * gap_factor**2


@formula(
    ("Power-frequency sparkover, peak", "U_50", "kV"),
    'K_"AC" dot 750 "kV" sqrt(2) ln(1 + 0.55 (d / "m")^1.2)',
    {
        "gap": ("Gap", "d", "m"),
        "power_frequency_factor": ("Gap factor at power frequency", 'K_"AC"', "1"),
    },
    cite("IEC 60071-2", "power-frequency strength of rod–plane gaps"),
    ranges={"gap": (1.0, 3.0)},
)
def power_frequency_mean(gap: float, power_frequency_factor: float) -> float:
    """Mean power-frequency sparkover of a long gap, dry, peak.

    U50 = K_AC · 750 kV · sqrt(2) ln(1 + 0.55 (d/m)^1.2)

    Args:
        gap: Shortest distance in air [m].
        power_frequency_factor: K_AC, 1 for rod–plane [1].

    Returns:
        50 % sparkover voltage, peak [V].

    Raises:
        InputError: gap negative, factor not above zero.

    Source: IEC 60071-2 — basis: memory, high confidence.
    Valid for: 1 to 3 m.
    """
    not_negative(gap=gap)
    positive(power_frequency_factor=power_frequency_factor)
    return 750e3 * math.sqrt(2) * power_frequency_factor * math.log(1 + 0.55 * gap**1.2)
