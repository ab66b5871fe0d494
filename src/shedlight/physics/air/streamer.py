"""Corona inception by the streamer integral along a field line: sphere, rod, ring, any profile.

A streamer starts where the avalanche grows large enough before the field gets too weak: the
integral of the effective ionisation over the stretch where it is positive reaches a constant.
Inception is needed for flashover, not enough: streamers must also cross the gap. Fields are PEAK.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.sources import Citation, cite
from shedlight.trace import formula

Array = NDArray[np.float64]

BAR_AT_STANDARD = 1.013  # [bar] at relative density 1
STREAMER_CONSTANT = 9.15
WEAKEST = 2.165 + math.sqrt(0.2873 / 1.6053)  # [kV/(mm bar)]: no net ionisation below
JOIN = 7.943  # [kV/(mm bar)]
BETWEEN = 16  # points between two places of a profile
REACH = 2000

_RADIUS = ("Radius of curvature", "rho", "mm")
_DENSITY = ("Relative air density at site", "delta", "1")
_INCEPTION = ("Inception field, peak", 'E_"i"', "kV/mm")
_PETCHARAKS = cite("Petcharaks", "effective ionisation of air and streamer criterion")


@dataclass(frozen=True)
class CoronaSurface:
    """By how much a state of the metal's surface lowers the inception field."""

    state: str
    factor: float
    low: float
    high: float
    what: str
    citation: Citation


@dataclass(frozen=True)
class Inception:
    """At which multiple of a field streamers start.

    Attributes:
        scale: Multiple of the field given [1]; infinite if the field falls off too fast.
        field: Greatest field then, peak [V/m].
        length: Length over which the avalanche grows [m].
    """

    scale: float
    field: float
    length: float


@tables.cached
def corona_surfaces() -> tuple[CoronaSurface, ...]:
    """States of the metal's surface, the best first, read once."""
    return tuple(
        CoronaSurface(
            row["state"],
            float(row["factor"]),
            float(row["low"]),
            float(row["high"]),
            row["what"],
            tables.citation(row),
        )
        for row in tables.read("air/corona_surfaces")
    )


def corona_surface(state: str) -> CoronaSurface:
    """One state of the metal's surface.

    Args:
        state: As the table writes it.

    Raises:
        InputError: no such state.
    """
    for row in corona_surfaces():
        if row.state == state:
            return row
    known = ", ".join(row.state for row in corona_surfaces())
    raise InputError(f"state: given {state!r}; expected one of {known}")


@formula(
    ("Effective ionisation", "alpha", "1/m"),
    "p dot cases(1.6053 (E / p - 2.165)^2 - 0.2873 & quad E slash p < 7.943,"
    ' 16.7766 E / p - 80.0006 & quad "above")',
    {"gradient": ("Field, peak", "E", "kV/mm"), "density": _DENSITY},
    _PETCHARAKS,
    note="p = 1.013 bar · delta; E/p in kV/(mm bar), alpha/p in 1/(mm bar). 0 below 2.588.",
)
def effective_ionisation(gradient: float, density: float) -> float:
    """Net ionisations of one electron per length, in air.

    alpha/p = 1.6053 (E/p - 2.165)² - 0.2873, from E/p = 7.943 on 16.7766 E/p - 80.0006

    Args:
        gradient: Field, peak [V/m].
        density: Relative air density at site [1].

    Returns:
        Effective ionisation coefficient, 0 where attachment wins [1/m].

    Raises:
        InputError: gradient negative, density not above zero.

    Source: K. Petcharaks, thesis (1995) — basis: memory, high confidence.
    Valid for: 2.588 to 14 kV/(mm bar).
    """
    not_negative(gradient=gradient)
    positive(density=density)
    return float(_ionisation(np.array([gradient]), density)[0])


def _ionisation(gradients: Array, density: float) -> Array:
    bar = BAR_AT_STANDARD * density
    reduced = gradients * 1e-6 / bar
    low = 1.6053 * (reduced - 2.165) ** 2 - 0.2873
    high = 16.7766 * reduced - 80.0006
    found = np.where(reduced < JOIN, low, high)
    return np.asarray(np.where(reduced > WEAKEST, found, 0.0) * bar * 1e3, dtype=np.float64)


def streamer_integral(places: Array, gradients: Array, density: float = 1.0) -> float:
    """Growth of an avalanche along a field line, from the metal to where the field is too weak.

    K = integral of alpha ds up to the first place where alpha is 0

    Args:
        places: Distance from the metal along the line, growing [m].
        gradients: Field there, peak [V/m].
        density: Relative air density at site [1].

    Returns:
        Logarithm of the avalanche's size [1].

    Raises:
        InputError: fewer than two places, not growing, another number of gradients.

    Source: K. Petcharaks, thesis (1995) — basis: memory, high confidence.
    Valid for: fields falling away from the metal; straight between the places.
    """
    positive(density=density)
    places, gradients = _finer(places, gradients)
    return _growth(places, gradients, density)[0]


def streamer_inception(
    places: Array,
    gradients: Array,
    density: float = 1.0,
    surface: float = 1.0,
    constant: float = STREAMER_CONSTANT,
) -> Inception:
    """At which multiple of a field, along one of its lines, streamers start.

    integral of alpha(m x E) ds = 9.15

    Args:
        places: Distance from the metal along the line, growing [m].
        gradients: Field there, peak, at any voltage [V/m].
        density: Relative air density at site [1].
        surface: Factor of the metal's surface on the inception field [1].
        constant: Logarithm of the critical size; belongs to the ionisation used [1].

    Returns:
        The multiple, the greatest field then, and the length of growth.

    Raises:
        InputError: an argument out of range, a field that is nowhere above zero.

    Source: K. Petcharaks, thesis (1995) — basis: memory, high confidence; within 6 % of Peek's
    coaxial cylinders from 1 to 50 mm.
    Valid for: smooth metal of 0.5 to 100 mm radius; profiles that reach to where the field is
    weak.
    """
    positive(density=density, surface=surface, constant=constant)
    places, gradients = _finer(places, gradients)
    greatest = float(np.max(gradients))
    positive(greatest_gradient=greatest)
    low = WEAKEST * 1e6 * BAR_AT_STANDARD * density / greatest
    high = 1000 * low
    if _growth(places, gradients * high, density)[0] < constant:
        return Inception(math.inf, math.inf, 0.0)
    for _ in range(60):
        middle = math.sqrt(low * high)
        if _growth(places, gradients * middle, density)[0] < constant:
            low = middle
        else:
            high = middle
    length = _growth(places, gradients * high, density)[1]
    return Inception(high * surface, high * surface * greatest, length)


def _finer(places: Array, gradients: Array) -> tuple[Array, Array]:
    if len(places) < 2 or places.shape != gradients.shape or np.any(np.diff(places) <= 0):
        raise InputError(
            f"places, gradients: given {len(places)} and {len(gradients)}; expected the same "
            "number, at least 2, places growing"
        )
    not_negative(gradients=float(np.min(gradients)))
    number = np.arange(len(places))
    between = np.linspace(0, len(places) - 1, (len(places) - 1) * BETWEEN + 1)
    return np.interp(between, number, places), np.interp(between, number, gradients)


def _growth(places: Array, gradients: Array, density: float) -> tuple[float, float]:
    """Integral of the ionisation up to its first zero, and where that is."""
    alpha = _ionisation(gradients, density)
    ended = np.flatnonzero(alpha <= 0)
    stop = int(ended[0]) + 1 if len(ended) else len(alpha)
    return float(np.trapezoid(alpha[:stop], places[:stop])), float(places[stop - 1])


def curved_inception(radius: float, other_radius: float, density: float) -> float:
    """Field at which a convex metal surface of two curvatures begins to glow.

    E(s) = E_0/((1 + s/rho_1)(1 + s/rho_2)): exact for a coaxial cylinder (rho_2 infinite) and a
    sphere (both equal); for the outer edge of a ring rho_1 is that of the rod, rho_2 of the ring.

    Args:
        radius: Smaller radius of curvature [m].
        other_radius: Other radius of curvature; infinite for a cylinder [m].
        density: Relative air density at site [1].

    Returns:
        Inception field at the surface, peak, polished [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: K. Petcharaks, thesis (1995); spread of a flux tube — basis: memory, high confidence.
    Valid for: 0.5 to 100 mm, gaps several times the radius.
    """
    positive(radius=radius, density=density)
    if not math.isinf(other_radius):
        positive(other_radius=other_radius)
    places = radius * np.expm1(np.linspace(0.0, math.log(100.0), REACH // BETWEEN))
    gradients = 1e6 / ((1 + places / radius) * (1 + places / other_radius))
    return streamer_inception(places, gradients, density).field


@formula(
    _INCEPTION,
    'E_"i": quad integral alpha (E_"i" / (1 + s slash rho)) dif s = 9.15',
    {"radius": _RADIUS, "density": _DENSITY},
    _PETCHARAKS,
    ranges={"radius": (0.5e-3, 0.1)},
)
def cylinder_streamer_inception(radius: float, density: float) -> float:
    """Inception field of a rod or tube inside a far wider cylinder.

    Args:
        radius: Radius of the rod [m].
        density: Relative air density at site [1].

    Returns:
        Inception field at its surface, peak, polished [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: K. Petcharaks, thesis (1995) — basis: memory, high confidence.
    Valid for: 0.5 to 100 mm.
    """
    return curved_inception(radius, math.inf, density)


@formula(
    _INCEPTION,
    'E_"i": quad integral alpha (E_"i" / (1 + s slash rho)^2) dif s = 9.15',
    {"radius": _RADIUS, "density": _DENSITY},
    _PETCHARAKS,
    ranges={"radius": (0.5e-3, 0.1)},
)
def sphere_streamer_inception(radius: float, density: float) -> float:
    """Inception field of a sphere or rounded rod tip far from everything.

    Args:
        radius: Radius of the sphere or tip [m].
        density: Relative air density at site [1].

    Returns:
        Inception field at its surface, peak, polished [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: K. Petcharaks, thesis (1995) — basis: memory, high confidence.
    Valid for: 0.5 to 100 mm.
    """
    return curved_inception(radius, radius, density)


@formula(
    ("Breakdown of a uniform field, peak", "U", "kV"),
    "U: quad alpha (U / d) d = 9.15",
    {"gap": ("Gap", "d", "mm"), "density": _DENSITY},
    _PETCHARAKS,
    ranges={"gap": (1e-3, 0.2)},
)
def uniform_breakdown(gap: float, density: float) -> float:
    """Breakdown voltage of a uniform field: the criterion against the surest measurements.

    alpha(U/d) d = 9.15

    Args:
        gap: Distance of the plates [m].
        density: Relative air density at site [1].

    Returns:
        Breakdown voltage, peak [V].

    Raises:
        InputError: an argument not above zero.

    Source: K. Petcharaks, thesis (1995) — basis: memory, high confidence.
    Valid for: 1 to 200 mm.
    """
    positive(gap=gap, density=density)
    even = streamer_inception(np.array([0.0, gap]), np.array([1e6, 1e6]), density)
    return even.field * gap
