"""How likely a body breaks whose stress is known along its height: the weakest link, summed up."""

import math

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import positive
from shedlight.physics.strength.combined import SectionStress
from shedlight.sources import cite
from shedlight.trace import formula

Array = NDArray[np.float64]

_ROUND = 360  # places around a section


@formula(
    ("Stress that breaks 63 % of a square metre", "sigma_0", "MPa"),
    'sigma_"med" (S_e / ("1 m²" ln 2))^(1 / m)',
    {
        "test_strength": ("Median strength of test bars", 'sigma_"med"', "MPa"),
        "effective_surface": ("Effective surface of a bar", "S_e", "cm²"),
        "modulus": ("Weibull modulus", "m", "1"),
    },
    cite("Weibull", "weakest link, flaws on the surface", "exact"),
)
def unit_strength(test_strength: float, effective_surface: float, modulus: float) -> float:
    """Weibull's constant for one square metre, from bars that were broken.

    sigma_0 = sigma_med (S_e/(1 m² · ln 2))^(1/m)

    Args:
        test_strength: Median strength of the bars, at their largest stress [Pa].
        effective_surface: Of a bar, see :func:`size_effect.effective_surface` [m²].
        modulus: Weibull modulus [1].

    Returns:
        Stress that breaks 63 % of evenly pulled square metres [Pa].

    Raises:
        InputError: an argument not above zero.

    Source: Weibull — basis: exact.
    Valid for: flaws on the outer surface.
    """
    positive(test_strength=test_strength, effective_surface=effective_surface, modulus=modulus)
    return float(test_strength * (effective_surface / math.log(2)) ** (1 / modulus))


def fracture_probability(
    stresses: tuple[SectionStress, ...], unit_strength: float, modulus: float
) -> float:
    """Probability that a body breaks, from the tension on its whole outer surface.

    P = 1 - exp(-∫ (sigma/sigma_0)^m dS), sigma = axial + bending cos(phi), only where pulled

    Args:
        stresses: Of sections from the base up, as :func:`combined.stresses_along` gives them;
            close enough that the stress is nearly straight between two of them.
        unit_strength: Stress that breaks 63 % of a square metre [Pa].
        modulus: Weibull modulus [1].

    Returns:
        Probability, 0 to 1 [1].

    Raises:
        InputError: fewer than two sections, heights that fall, another argument not above zero.

    Source: Weibull — basis: exact for the sections given.
    Valid for: flaws on the outer surface; stress peaks at steps and clamps are left out.
    """
    positive(unit_strength=unit_strength, modulus=modulus)
    heights = np.array([stress.force.height for stress in stresses])
    if len(heights) < 2 or np.any(np.diff(heights) < 0):
        raise InputError("stresses: expected at least two sections, from the base up")
    angles = (np.arange(_ROUND) + 0.5) * 2 * np.pi / _ROUND
    axial = np.array([stress.axial for stress in stresses])
    bending = np.array([stress.bending for stress in stresses])
    pulled = np.maximum(axial[:, None] + bending[:, None] * np.cos(angles), 0.0)
    around = np.mean((pulled / unit_strength) ** modulus, axis=1)
    width = np.pi * np.array([stress.outer_diameter for stress in stresses])
    risk = float(np.trapezoid(around * width, heights))
    return -math.expm1(-risk)
