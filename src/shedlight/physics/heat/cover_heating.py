"""How hot a cover becomes round a hole: bands of loss, and the plate as a ring-shaped fin."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, ordered, positive
from shedlight.physics.heat.conductor import skin_depth
from shedlight.physics.heat.cover_loss import ring_loss, saturated_ring_loss
from shedlight.sources import Citation, cite
from shedlight.trace import formula

Array = NDArray[np.float64]


@dataclass(frozen=True)
class CoverMaterial:
    """What a cover or an insert is made of."""

    material: str
    resistivity: float  # [Ωm]
    permeability: tuple[float, float]  # relative, lowest and highest in use [1]
    saturation: float  # flux density; 0 for what does not saturate [T]
    conductivity: float  # of heat [W/mK]
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
            float(row["conductivity_w_mk"]),
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
    link = float(2 * np.pi * conduction / step)
    diagonal = film * areas + 2 * link
    diagonal[[0, -1]] -= link
    rises = _banded(diagonal, link, source)
    # No heat passes the edge: a parabola in ln r through the first two rings.
    edge = float(rises[0] + (rises[0] - rises[1]) / 8)
    given_off = float(film * np.sum(areas * rises))
    return PlateRise(
        tuple(float(r) for r in middles), tuple(float(t) for t in rises), edge, given_off
    )


def _banded(diagonal: Array, link: float, source: Array) -> Array:
    """Solve diagonal T_i - link (T_(i-1) + T_(i+1)) = source, by elimination.

    A few hundred rings take less time than loading a library's solver for bands.
    """
    ratios, values = [], []
    ratio = value = 0.0
    for own, made in zip(diagonal.tolist(), source.tolist(), strict=True):
        pivot = own - link * ratio
        ratio, value = link / pivot, (made + link * value) / pivot
        ratios.append(ratio)
        values.append(value)
    found, above = [], 0.0
    for ratio, value in zip(reversed(ratios), reversed(values), strict=True):
        above = value + ratio * above
        found.append(above)
    return np.array(found[::-1])


def _ring_shares(borders: Array, fall: float) -> Array:
    """Share of the loss in every ring: r^(1 - fall) integrated."""
    power = 2 - fall
    integral = np.log(borders) if abs(power) < 1e-9 else borders**power / power
    shares: Array = np.diff(integral) / (integral[-1] - integral[0])
    return shares


@formula(
    ("Rise of the cover at the hole's edge", "Delta T_e", "K"),
    "T(a) - T_0, quad k t 1 / r (r T')' - U (T - T_0) + q(r) = 0, quad q tilde r^(-n),"
    " quad integral q dif A = P",
    {
        "loss": ("Loss in the cover", "P", "W"),
        "fall": ("Exponent with which it falls outward", "n", "1"),
        "inner_radius": ("Radius of the hole", "a", "mm"),
        "outer_radius": ("Radius to which the cover is counted", "b", "mm"),
        "conduction": ("Thermal conductivity times thickness", "k t", "W/K"),
        "film": ("Film coefficients of both faces", "U", "W/m²K"),
    },
    cite("first principles", "a plate as a ring-shaped fin, finite volumes", "exact"),
)
def plate_edge_rise(
    loss: float,
    fall: float,
    inner_radius: float,
    outer_radius: float,
    conduction: float,
    film: float,
) -> float:
    """Rise of the cover at the edge of its hole, from its own loss.

    T(a) of :func:`plate_rise`

    Args:
        loss: Loss of the whole ring [W].
        fall: Exponent with which it falls outward: 2 linear metal, 1.5 saturated steel [1].
        inner_radius: Radius of the hole [m].
        outer_radius: Radius to which the cover is counted [m].
        conduction: Thermal conductivity times thickness of the plate [W/K].
        film: Film coefficients of both faces together [W/m²K].

    Returns:
        Rise over what the films alone would give [K].

    Raises:
        InputError: as :func:`plate_rise`.

    Source: Fourier's law and Newton's law of cooling in finite volumes — basis: exact.
    Valid for: a plate thin against its films' length; both faces' surroundings alike.
    """
    return plate_rise(loss, fall, inner_radius, outer_radius, conduction, film, rings=100).edge


@formula(
    ("Thermal conductivity times thickness", "k t", "W/K"),
    "k t",
    {
        "conductivity": ("Thermal conductivity", "k", "W/mK"),
        "thickness": ("Thickness of the plate", "t", "mm"),
    },
    cite("first principles", "Fourier's law along a plate", "exact"),
)
def plate_conduction(conductivity: float, thickness: float) -> float:
    """How well a plate carries heat along itself.

    k t

    Args:
        conductivity: Thermal conductivity [W/mK].
        thickness: Of the plate [m].

    Returns:
        Conductivity times thickness [W/K].

    Raises:
        InputError: an argument not above zero.

    Source: Fourier's law — basis: exact.
    Valid for: any plate.
    """
    positive(conductivity=conductivity, thickness=thickness)
    return conductivity * thickness


@formula(
    ("Cover without loss of its own", "T_0", "°C"),
    '(h_"o" T_"oil" + h_"a" T_"a") / (h_"o" + h_"a")',
    {
        "oil_film": ("Film coefficient under the cover", 'h_"o"', "W/m²K"),
        "oil": ("Temperature of the top oil", 'T_"oil"', "°C"),
        "air_film": ("Film coefficient over the cover", 'h_"a"', "W/m²K"),
        "air": ("Air temperature", "T_a", "°C"),
    },
    cite("first principles", "two films on a thin plate", "exact"),
)
def idle_cover(oil_film: float, oil: float, air_film: float, air: float) -> float:
    """Temperature of the cover far from any hole: between the oil below and the air above.

    T_0 = (h_o T_oil + h_a T_a)/(h_o + h_a)

    Args:
        oil_film: Film coefficient under the cover [W/m²K].
        oil: Temperature of the top oil [K].
        air_film: Film coefficient over the cover, radiation included [W/m²K].
        air: Air temperature [K].

    Returns:
        Temperature [K].

    Raises:
        InputError: an argument not above zero.

    Source: balance of two films — basis: exact.
    Valid for: a thin metal plate.
    """
    positive(oil_film=oil_film, oil=oil, air_film=air_film, air=air)
    return (oil_film * oil + air_film * air) / (oil_film + air_film)
