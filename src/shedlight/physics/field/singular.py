"""How steeply the field rises into corners: exponents of wedges of metal and dielectrics."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq, minimize_scalar

from shedlight.errors import InputError
from shedlight.physics.domain import positive

_FULL = 2 * math.pi
_LARGEST = 8.0
_STEPS = 400


@dataclass(frozen=True)
class Sector:
    """A wedge of one medium at a corner: its angle [rad] and relative permittivity [1]."""

    angle: float
    permittivity: float


def metal_corner_exponent(
    angles: Sequence[float], permittivities: Sequence[float], *, symmetric: bool = False
) -> float:
    """Exponent of the potential at a corner between two faces of metal, dielectrics between.

    phi ~ r^L f(theta), f'' + L² f = 0 in every sector, f and e f' continuous, f = 0 on the metal.

    Args:
        angles: Of the dielectric sectors, from metal to metal [rad].
        permittivities: Of the same, relative [1].
        symmetric: The last face is no metal but a plane of symmetry: f' = 0 there.

    Returns:
        The smallest positive exponent L [1]; the field goes as r^(L-1), singular below 1.

    Raises:
        InputError: no sectors, or angles that do not fit round a corner.

    Source: Derived from first principles (Laplace's equation in wedges) — basis: exact.
    """
    sectors = _sectors(angles, permittivities)
    last = 1 if symmetric else 0
    return _smallest_root(lambda exponent: _march(sectors, exponent, 0.0, 1.0)[last])


def dielectric_corner_exponent(angles: Sequence[float], permittivities: Sequence[float]) -> float:
    """Exponent of the potential at a point where dielectrics meet, no metal there.

    As :func:`metal_corner_exponent`, with f and e f' periodic round the point.

    Args:
        angles: Of the sectors, all the way round [rad].
        permittivities: Of the same, relative [1].

    Returns:
        The smallest positive exponent L [1].

    Raises:
        InputError: no sectors, or angles that do not add up to a full turn.

    Source: Derived from first principles (Laplace's equation in wedges) — basis: exact.
    """
    sectors = _sectors(angles, permittivities)
    total = math.fsum(sector.angle for sector in sectors)
    if abs(total - _FULL) > 1e-6:
        raise InputError(f"angles: given {total:g} rad in all; expected a full turn")

    def closing(exponent: float) -> float:
        first, second = _march(sectors, exponent, 1.0, 0.0), _march(sectors, exponent, 0.0, 1.0)
        return 2 - first[0] - second[1]

    return _smallest_root(closing)


def flange_edge_exponent(ratio: float) -> float:
    """Exponent at a square metal edge that stands on a flat dielectric face.

    L = (2/pi) atan sqrt(1 + 2/k)

    Args:
        ratio: Permittivity of the solid over that of the fluid [1].

    Returns:
        Exponent of the potential [1]: between 1/2 and 2/3.

    Raises:
        InputError: ratio not above zero.

    Source: Derived from first principles (wedges of 180° and 90° on metal) — basis: exact.
    """
    positive(ratio=ratio)
    return 2 / math.pi * math.atan(math.sqrt(1 + 2 / ratio))


def _sectors(angles: Sequence[float], permittivities: Sequence[float]) -> tuple[Sector, ...]:
    if not angles or len(angles) != len(permittivities):
        raise InputError(
            f"angles: given {len(angles)} with {len(permittivities)} permittivities; "
            "expected as many of both, at least one"
        )
    for angle, permittivity in zip(angles, permittivities, strict=True):
        positive(angle=angle, permittivity=permittivity)
    if math.fsum(angles) > _FULL + 1e-6:
        raise InputError(f"angles: given {math.fsum(angles):g} rad in all; at most a full turn")
    return tuple(Sector(a, e) for a, e in zip(angles, permittivities, strict=True))


def _march(
    sectors: Sequence[Sector], exponent: float, value: float, flux: float
) -> tuple[float, float]:
    """Carry f and e f'/L through the sectors."""
    for sector in sectors:
        cos, sin = math.cos(exponent * sector.angle), math.sin(exponent * sector.angle)
        value, flux = (
            value * cos + flux / sector.permittivity * sin,
            flux * cos - sector.permittivity * value * sin,
        )
    return value, flux


def _smallest_root(function: Callable[[float], float]) -> float:
    """First zero above 0; where the function only touches zero, the place where it does."""
    grid = np.linspace(0.02, _LARGEST, _STEPS)
    values = np.array([function(float(x)) for x in grid])
    for k in range(1, len(grid)):
        if values[k - 1] * values[k] <= 0:
            return float(brentq(function, grid[k - 1], grid[k], xtol=1e-14, rtol=1e-13))
        after = values[min(k + 1, len(grid) - 1)]
        if values[k] * after > 0 and abs(values[k]) < min(abs(values[k - 1]), abs(after)):
            touch = minimize_scalar(
                lambda x: abs(function(float(x))),
                bounds=(grid[k - 1], grid[k + 1]),
                method="bounded",
                options={"xatol": 1e-12},
            )
            if touch.fun < 1e-9:
                return float(touch.x)
    return _LARGEST
