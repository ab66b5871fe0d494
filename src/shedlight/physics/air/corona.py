"""Glow at rounded live parts in air: field at a rod's tip and the inception field of Peek."""

import math

from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula

_RADIUS = ("Tip radius", "rho", "mm")


@formula(
    ("Field at the tip, peak", 'E_"tip"', "kV/mm"),
    'sqrt(2) U / (f (1 - n^2) op("artanh") n),'
    " quad n = sqrt(d / (d + rho)), quad f = sqrt(d (d + rho))",
    {
        "voltage_across": ("Voltage across the gap, rms", "U", "kV"),
        "tip_radius": _RADIUS,
        "gap": ("Gap", "d", "mm"),
    },
    cite("first principles", "prolate-spheroidal coordinates, hyperboloid against plane", "exact"),
    note="A hyperboloid against a plane stands for the rod: its tip is the sharper of the two.",
)
def tip_gradient(voltage_across: float, tip_radius: float, gap: float) -> float:
    """Largest field at a rounded rod tip facing a plane, peak.

    E = √2 U/(f (1 - n²) artanh n), n = √(d/(d + rho)), f = √(d (d + rho))

    Args:
        voltage_across: Voltage across the gap, rms [V].
        tip_radius: Radius of curvature of the tip [m].
        gap: Distance from tip to plane [m].

    Returns:
        Field at the tip, peak [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: Laplace's equation in prolate-spheroidal coordinates — basis: exact.
    Valid for: a hyperboloid of revolution against a plane.
    """
    positive(voltage_across=voltage_across, tip_radius=tip_radius, gap=gap)
    n = math.sqrt(gap / (gap + tip_radius))
    f = math.sqrt(gap * (gap + tip_radius))
    return math.sqrt(2) * voltage_across / (f * (1 - n**2) * math.atanh(n))


@formula(
    ("Glow inception field of a sphere, peak", 'E_"i"', "kV/mm"),
    '2.72 thin "kV/mm" dot m delta (1 + 0.54 / sqrt(delta rho / "cm"))',
    {
        "tip_radius": _RADIUS,
        "density": ("Relative air density at site", "delta", "1"),
        "surface": ("Surface factor", "m", "1"),
    },
    cite("Peek", "visual corona of spheres", "memory", "medium"),
    ranges={"tip_radius": (0.5e-3, 0.1)},
)
def sphere_inception(tip_radius: float, density: float, surface: float) -> float:
    """Field at which a rounded tip begins to glow, peak.

    E = 27.2 kV/cm · m δ (1 + 0.54/√(δ rho)), rho in cm

    Args:
        tip_radius: Radius of curvature [m].
        density: Relative air density at site, from sea level [1].
        surface: 1 polished, 0.93 to 0.98 weathered [1].

    Returns:
        Inception field, peak [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: F. W. Peek, Dielectric Phenomena — basis: memory, medium confidence.
    Valid for: 0.5 to 100 mm.
    """
    positive(tip_radius=tip_radius, density=density, surface=surface)
    return 2.72e6 * surface * density * (1 + 0.54 / math.sqrt(density * tip_radius * 100))
