"""How hot a cover becomes round a hole: bands of loss, and the plate as a ring-shaped fin."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import solve_banded

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, ordered, positive
from shedlight.physics.heat.conductor import skin_depth
from shedlight.physics.heat.cover_loss import ring_loss, saturated_ring_loss
from shedlight.sources import Citation

Array = NDArray[np.float64]


@dataclass(frozen=True)
class CoverMaterial:
    """What a cover or an insert is made of."""

    material: str
    resistivity: float  # [Ωm]
    permeability: tuple[float, float]  # relative, lowest and highest in use [1]
    saturation: float  # flux density; 0 for what does not saturate [T]
    citation: Citation


@tables.cached
def cover_materials() -> tuple[CoverMaterial, ...]:
    """Every material of covers and inserts held."""
    return tuple(
        CoverMaterial(
            row["material"],
            float(row["resistivity_nohm_m"]) * 1e-9,
            (float(row["permeability_low"]), float(row["permeability_high"])),
            float(row["saturation_t"]),
            tables.citation(row),
        )
        for row in tables.read("heat/cover_materials")
    )


def cover_material(material: str) -> CoverMaterial:
    """One material of covers and inserts.

    Args:
        material: Such as ``mild steel``.

    Raises:
        InputError: no such material is held.
    """
    for row in cover_materials():
        if row.material == material:
            return row
    known = ", ".join(row.material for row in cover_materials())
    raise InputError(f"material: given {material!r}; expected one of {known}")


def ring_loss_band(
    material: CoverMaterial,
    current: float,
    inner_radius: float,
    outer_radius: float,
    thickness: float,
    frequency: float,
) -> tuple[float, float, float]:
    """Loss of a ring of cover: lowest, middle and highest of the idealisations.

    Constant permeability at both ends of its range, and saturated steel

    Args:
        material: What the ring is made of.
        current: Current, rms [A].
        inner_radius: Inner radius of the ring [m].
        outer_radius: Outer radius of the ring [m].
        thickness: Thickness of the plate [m].
        frequency: Frequency [Hz].

    Returns:
        Lowest, middle and highest loss; equal to one another without current [W].

    Raises:
        InputError: current negative, radii out of order, another argument not above zero.

    Source: Kulkarni et al. (2004); MacLean, Agarwal — basis: memory, medium confidence.
    Valid for: an estimate; measured hot spots also depend on welds and neighbours.
    """
    found = [
        ring_loss(
            current,
            inner_radius,
            outer_radius,
            material.resistivity,
            skin_depth(material.resistivity, frequency, permeability),
            thickness,
        )
        for permeability in material.permeability
    ]
    if material.saturation > 0 and current > 0:
        steep = (material.resistivity, frequency, material.saturation)
        found.append(saturated_ring_loss(current, inner_radius, outer_radius, *steep))
    low, high = min(found), max(found)
    middle = sorted(found)[1] if len(found) == 3 else (low + high) / 2
    return low, middle, high


@dataclass(frozen=True)
class PlateRise:
    """Rise of a plate over its surroundings along the radius."""

    radii: tuple[float, ...]  # middles of the rings [m]
    rises: tuple[float, ...]  # [K]
    edge: float  # at the hole's edge [K]
    given_off: float  # heat carried off by the films, for the balance [W]


def plate_rise(
    loss: float,
    fall: float,
    inner_radius: float,
    outer_radius: float,
    conduction: float,
    film: float,
    rings: int = 400,
) -> PlateRise:
    """Rise of a cover round its hole: loss that falls outward, conduction along, films off.

    k t (1/r) d/dr(r dT/dr) - U T + q(r) = 0, q(r) proportional to r^-fall, no heat past the ends

    Args:
        loss: Loss of the whole ring [W].
        fall: Exponent with which it falls outward: 2 linear metal, 1.5 saturated steel [1].
        inner_radius: Radius of the hole [m].
        outer_radius: Radius to which the cover is counted [m].
        conduction: Thermal conductivity times thickness of the plate [W/K].
        film: Film coefficients of both faces together [W/m²K].
        rings: Number of rings the plate is cut into, with equal steps of ln r.

    Returns:
        Rise over the surroundings, along the radius and at the edge.

    Raises:
        InputError: loss or fall negative, radii out of order, fewer than 8 rings, another
            argument not above zero.

    Source: Fourier's law and Newton's law of cooling in finite volumes — basis: exact.
    Valid for: a plate thin against its films' length; both faces' surroundings alike.
    """
    not_negative(loss=loss, fall=fall)
    positive(inner_radius=inner_radius, conduction=conduction, film=film)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    if rings < 8:
        raise InputError(f"rings: given {rings}; expected at least 8")
    borders = np.geomspace(inner_radius, outer_radius, rings + 1)
    step = np.log(outer_radius / inner_radius) / rings
    areas = np.pi * np.diff(borders**2)
    middles = np.sqrt(borders[1:] * borders[:-1])
    source = _ring_shares(borders, fall) * loss
    link = 2 * np.pi * conduction / step
    diagonal = film * areas + 2 * link
    diagonal[[0, -1]] -= link
    bands = np.zeros((3, rings))
    bands[0, 1:], bands[1], bands[2, :-1] = -link, diagonal, -link
    rises = solve_banded((1, 1), bands, source)
    # No heat passes the edge: a parabola in ln r through the first two rings.
    edge = float(rises[0] + (rises[0] - rises[1]) / 8)
    given_off = float(film * np.sum(areas * rises))
    return PlateRise(
        tuple(float(r) for r in middles), tuple(float(t) for t in rises), edge, given_off
    )


def _ring_shares(borders: Array, fall: float) -> Array:
    """Share of the loss in every ring: r^(1 - fall) integrated."""
    power = 2 - fall
    integral = np.log(borders) if abs(power) < 1e-9 else borders**power / power
    shares: Array = np.diff(integral) / (integral[-1] - integral[0])
    return shares
