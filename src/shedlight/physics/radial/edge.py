"""What starts at a metal edge on the insulation, and the strength of the gas beside it.

An edge on a face has a field without limit, so no computed peak is ever compared with a strength
there: these laws stand in its place. Which coefficient holds is decided by the medium that
touches the edge.
"""

import math
from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import positive
from shedlight.physics.radial.layers import VACUUM_PERMITTIVITY
from shedlight.sources import Citation, cite
from shedlight.trace import formula

PASCHEN_MINIMUM = 327.0  # [V] peak; no gas gap of air breaks down below it
_STANDARD_PRESSURE = 1.013  # [bar] at relative density 1
_CAPACITANCE = ("Surface capacitance", "C_0", "pF/cm²")
_GAP = ("Gap", "d", "mm")
_DENSITY = ("Relative air density", "delta", "1")
_GAS = ("Breakdown voltage of the gas, peak", "U_b", "kV")


@dataclass(frozen=True)
class EdgeCoefficient:
    """Inception voltage, rms, of an edge on a solid that is 1 cm of vacuum thick."""

    edge: str  # "metal" or "semiconducting"
    medium: str  # "air", "oil" or "sf6"
    coefficient: float  # [V] rms
    what: str
    citation: Citation


@tables.cached
def edge_coefficients() -> tuple[EdgeCoefficient, ...]:
    """The coefficients of the edge law, read once."""
    return tuple(
        EdgeCoefficient(
            row["edge"],
            row["medium"],
            float(row["kv_rms"]) * 1e3,
            row["what"],
            tables.citation(row),
        )
        for row in tables.read("radial/edge_coefficients")
    )


def edge_coefficient(edge: str, medium: str) -> EdgeCoefficient:
    """The coefficient for an edge and the medium that touches it.

    Args:
        edge: "metal" or "semiconducting".
        medium: "air", "oil" or "sf6".

    Raises:
        InputError: the table has no such pair.
    """
    for row in edge_coefficients():
        if (row.edge, row.medium) == (edge, medium):
            return row
    known = ", ".join(f"{row.edge} in {row.medium}" for row in edge_coefficients())
    raise InputError(f"edge, medium: given {edge} in {medium}; expected one of {known}")


@formula(
    ("Inception voltage of the edge, rms", "U_i", "kV"),
    'K (epsilon_0 / (C_0 dot 1 "cm"))^0.45',
    {
        "coefficient": ("Edge coefficient", "K", "kV"),
        "capacitance_per_area": _CAPACITANCE,
    },
    cite("Kind & Karner", "inception at an edge on a solid", "memory", "medium"),
    note="Other authors print exponents from 0.44 to 0.46.",
)
def edge_inception(coefficient: float, capacitance_per_area: float) -> float:
    """Alternating voltage at which a metal edge on the insulation begins to glow.

    U = K (epsilon_0/(C_0 · 1 cm))^0.45; for a plane wall epsilon_0/C_0 = s/epsilon_r

    Args:
        coefficient: From :func:`edge_coefficient`, rms [V].
        capacitance_per_area: Capacitance of the surface at the edge [F/m²].

    Returns:
        Inception voltage across the insulation, rms [V].

    Raises:
        InputError: an argument not above zero.

    Source: Kind, Kärner, High-Voltage Insulation Technology — basis: memory, medium confidence.
    Valid for: sharp edges on solids thin against the edge's length; wide walls by extension.
    """
    positive(coefficient=coefficient, capacitance_per_area=capacitance_per_area)
    return float(coefficient * (VACUUM_PERMITTIVITY / capacitance_per_area / 0.01) ** 0.45)


@formula(
    ("Inception voltage of gliding discharges, rms", "U_g", "kV"),
    '(1.36 dot 10^(-4)) / C_0^0.44 thin "kV", quad C_0 "in F/cm²"',
    {"capacitance_per_area": _CAPACITANCE},
    cite("Kind & Karner", "gliding discharges, Toepler's form", "memory", "medium"),
    ranges={"capacitance_per_area": (0.25e-8, math.inf)},
    note="Below 0.25 pF/cm² plain flashover governs, not gliding discharges.",
)
def gliding_inception(capacitance_per_area: float) -> float:
    """Alternating voltage at which gliding discharges set in along the surface.

    U [kV] = 1.36e-4/C_0^0.44, C_0 in F/cm²

    Args:
        capacitance_per_area: Capacitance of the surface at the edge [F/m²].

    Returns:
        Inception voltage, rms [V].

    Raises:
        InputError: capacitance per area not above zero.

    Source: Toepler's form in Kind, Kärner — basis: memory, medium confidence.
    Valid for: surface capacitance above 0.25 pF/cm².
    """
    positive(capacitance_per_area=capacitance_per_area)
    return float(1.36e-4 / (capacitance_per_area * 1e-4) ** 0.44 * 1e3)


@formula(
    _GAS,
    '24.22 delta d + 6.08 sqrt(delta d) thin "kV", quad d "in cm"',
    {"gap": _GAP, "relative_density": _DENSITY},
    cite("Naidu", "breakdown of air in a uniform field"),
    ranges={"gap": (0.001, 0.2)},
)
def uniform_air_gap_breakdown(gap: float, relative_density: float) -> float:
    """Breakdown voltage of air between parallel faces.

    U [kV] = 24.22 delta d + 6.08 sqrt(delta d), d in cm

    Args:
        gap: Distance of the faces [m].
        relative_density: Relative air density [1].

    Returns:
        Breakdown voltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: M. S. Naidu, V. Kamaraju, High Voltage Engineering — basis: memory, high confidence.
    Valid for: 1 mm to 200 mm.
    """
    positive(gap=gap, relative_density=relative_density)
    product = relative_density * gap * 100
    return (24.22 * product + 6.08 * math.sqrt(product)) * 1e3


@formula(
    _GAS,
    'max(327 "V", (24.36 p d + 6.72 sqrt(p d)) thin "kV"), quad p = 1.013 delta "bar", d "in cm"',
    {"gap": _GAP, "relative_density": _DENSITY},
    cite("Kuffel", "Paschen's law of air, streamer constants", "memory", "medium"),
    ranges={"gap": (10e-6, 10e-3)},
)
def paschen_breakdown(gap: float, relative_density: float) -> float:
    """Breakdown voltage of a small gas gap: trapped gas, a bubble, a dry clearance.

    U [kV] = 24.36 p d + 6.72 sqrt(p d), p in bar at 20 °C, d in cm; never below 327 V,
    the Paschen minimum of air

    Args:
        gap: Length of the gas along the field [m].
        relative_density: Density of the gas over that of air at 20 °C and 101.3 kPa [1].

    Returns:
        Breakdown voltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: Kuffel, Zaengl, Kuffel, High Voltage Engineering, breakdown in uniform fields — basis:
    memory, medium confidence; the minimum of 327 V is printed by many.
    Valid for: 0.01 mm to 10 mm near standard density.
    """
    positive(gap=gap, relative_density=relative_density)
    product = _STANDARD_PRESSURE * relative_density * gap * 100
    return max(PASCHEN_MINIMUM, (24.36 * product + 6.72 * math.sqrt(product)) * 1e3)
