"""Shield rings in air: the field at a ring's tube, and the field at which it glows."""

import math

from scipy.special import ellipe, ellipk

from shedlight.physics.air.streamer import curved_inception
from shedlight.physics.domain import ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

_RING = ("Diameter of the ring, over the middle of its tube", 'D_"ri"', "mm")
_TUBE = ("Diameter of its tube", 'd_"ri"', "mm")
THICKEST, NEAREST = 1 / 3, 1 / 2  # tube over ring, clearance over tube: still a thin ring
_RADII = 'R = D_"ri" / 2, quad rho = d_"ri" / 2'


@formula(
    ("Largest field at the ring, peak", 'E_"ri"', "kV/mm"),
    "frac(sqrt(2) U, rho (L - k K)) (1 + rho / R (L - 3 / 2) + frac(2 rho, D) e),"
    " quad L = ln (8 R) / rho,"
    " quad e = sqrt((frac(R, h) E)^2 + (K - E)^2), quad k = frac(2 R, D),"
    f" quad D = 2 sqrt(R^2 + h^2), quad h = d + rho, quad {_RADII}",
    {
        "voltage_across": ("Voltage across the gap, rms", "U", "kV"),
        "ring_diameter": _RING,
        "tube_diameter": _TUBE,
        "clearance": ("Clearance between tube and plane", "d", "mm"),
    },
    cite("first principles", "thin charged ring over a plane, by its mirror image", "exact"),
    ranges={"tube_diameter": (1e-3, 0.6)},
    note="K, E: complete elliptic integrals of modulus k. Made for a tube of a third of the ring "
    "or less and a clearance of a tube's radius or more.",
)
def ring_gradient(
    voltage_across: float, ring_diameter: float, tube_diameter: float, clearance: float
) -> float:
    """Largest field at the tube of a ring that lies over a plane, peak.

    E = √2 U/(rho (L - k K)) · (1 + (rho/R)(L - 3/2) + (2 rho/D) e), L = ln(8R/rho)

    The first factor is the mean round the tube, from the potential of a thin ring and of its
    mirror image; the ring's own curvature raises one side of the tube and the field e of the image
    another. Both are added as if on the same side.

    Args:
        voltage_across: Voltage between ring and plane, rms [V].
        ring_diameter: Diameter of the ring, over the middle of its tube [m].
        tube_diameter: Diameter of the tube [m].
        clearance: Between tube and plane [m].

    Returns:
        Field at the surface, peak [V/m].

    Raises:
        InputError: an argument not above zero, the tube no thinner than the ring.

    Source: potential of a thin charged ring with elliptic integrals, expanded near the ring
    — basis: exact for a thin tube; the sum of the two additions is on the safe side.
    Valid for: a tube of a third of the ring or less, a clearance of a tube's radius or more;
    nothing but the plane near. Against a solved field 3 to 21 % high.
    """
    positive(voltage_across=voltage_across, clearance=clearance)
    ordered(tube_diameter=tube_diameter, ring_diameter=ring_diameter)
    ring, tube = ring_diameter / 2, tube_diameter / 2
    height = clearance + tube
    across = 2 * math.hypot(ring, height)
    modulus = 2 * ring / across
    first, second = float(ellipk(modulus**2)), float(ellipe(modulus**2))
    near = math.log(8 * ring / tube)
    mean = voltage_across / (tube * (near - modulus * first))
    image = 2 * tube / across * math.hypot(ring / height * second, first - second)
    return math.sqrt(2) * mean * (1 + tube / ring * (near - 1.5) + image)


@formula(
    ("Glow inception field of a ring, peak", 'E_"i"', "kV/mm"),
    "m E, quad integral alpha (frac(E, (1 + s slash rho) (1 + s slash (R + rho)))) dif s = 9.15,"
    f" quad {_RADII}",
    {
        "ring_diameter": _RING,
        "tube_diameter": _TUBE,
        "density": ("Relative air density at site", "delta", "1"),
        "surface": ("Surface factor", "m", "1"),
    },
    cite("Petcharaks", "streamer criterion at a surface of two curvatures", "memory", "high"),
    ranges={"tube_diameter": (1e-3, 0.2)},
)
def ring_inception(
    ring_diameter: float, tube_diameter: float, density: float, surface: float
) -> float:
    """Field at which the outer side of a ring begins to glow, peak.

    E_i = m E, E such that the ionisation over the spread of a flux tube of two curvatures is 9.15

    Args:
        ring_diameter: Diameter of the ring, over the middle of its tube [m].
        tube_diameter: Diameter of the tube [m].
        density: Relative air density at site [1].
        surface: 1 polished, 0.93 to 0.98 weathered [1].

    Returns:
        Inception field, peak [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: K. Petcharaks, thesis (1995) — basis: memory, high confidence.
    Valid for: tubes of 1 to 200 mm.
    """
    positive(ring_diameter=ring_diameter, tube_diameter=tube_diameter, surface=surface)
    outer = (ring_diameter + tube_diameter) / 2
    return surface * curved_inception(tube_diameter / 2, outer, density)
