"""Benchmarks in open space, and with edges into which the field grows without limit."""

import math
from functools import cache

import numpy as np

from shedlight.geometry.curves import Curve
from shedlight.physics.domain import ordered, positive
from shedlight.physics.field.adapt import solve
from shedlight.physics.field.benchmarks import EARTH, LIVE, Found, arc, path
from shedlight.physics.field.domain import (
    VACUUM_PERMITTIVITY,
    Film,
    Medium,
    Problem,
    Shape,
    Side,
)
from shedlight.physics.field.meshing import Fineness
from shedlight.physics.field.profiles import profile
from shedlight.physics.field.proof import proof_of

_HALF = math.pi / 2


@cache
def ball_over_plane(radius: float, gap: float, far: float = 60.0) -> Found:
    """A live ball over a wide earthed plane.

    Args:
        radius: Of the ball [m].
        gap: Between ball and plane [m].
        far: Distance of open space, in radii of the ball plus gap [1].

    Returns:
        Capacitance with its bounds in open space; largest field for 1 V.

    Source: Image charges in a sphere and a plane (W. R. Smythe; J. D. Jackson) — basis: exact.
    """
    positive(radius=radius, gap=gap)
    high, reach = radius + gap, far * (radius + gap)
    sides = (
        Side("ball", arc((0, high), radius, -_HALF, math.pi), None, "air", LIVE),
        Side("gap axis", path((0, gap), (0, 0)), "air", None),
        Side("plane", path((0, 0), (reach, 0)), "air", None, EARTH),
        Side("far", arc((0, 0), reach, 0, _HALF), "air", None, None, True),
        Side("axis", path((0, reach), (0, high + radius)), "air", None),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    solution = solve(problem, 1e-4, order=6, fineness=Fineness(across=4.0))
    return Found(proof_of(solution), (), (float(profile(solution, "ball", "air").strength.max()),))


@cache
def torus(ring: float, radius: float, far: float = 60.0) -> float:
    """Capacitance of a ring of round rod, alone in space [F].

    Solved inside a wide earthed sphere; what the sphere adds, 1/(4 pi e0 R) in series, is taken
    off again.

    Args:
        ring: Radius of the ring's centre line [m].
        radius: Of the rod [m].
        far: Radius of the earthed sphere over that of the ring [1].

    Raises:
        InputError: the rod is thicker than the ring.

    Source: C. Snow / E. W. Hobson, toroidal functions, for the exact value — basis: exact.
    """
    ordered(zero=0.0, radius=radius, ring=ring)
    reach = far * ring
    sides = (
        Side("rod", Curve(arc((ring, 0), radius, 0, 2 * math.pi).pieces), None, "air", LIVE),
        Side("far", arc((0, 0), reach, -_HALF, math.pi), "air", None, EARTH),
        Side("axis", path((0, reach), (0, -reach)), "air", None),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    found = proof_of(solve(problem, 1e-5, order=5)).capacitance
    return 1 / (1 / found + 1 / (4 * math.pi * VACUUM_PERMITTIVITY * reach))


@cache
def disc_in_can(
    disc: float = 0.5, can: float = 1.0, half_height: float = 1.0, tolerance: float = 1e-5
) -> Found:
    """A thin live disc in the middle of an earthed can: one half, by symmetry.

    Args:
        disc: Radius of the disc [m].
        can: Radius of the can [m].
        half_height: From the disc to the lid [m].
        tolerance: Distance of the bounds [1].

    Source: Finite elements of another make, edge exponent 1/2 exact — basis: exact.
    """
    ordered(zero=0.0, disc=disc, can=can)
    sides = (
        Side("disc", path((0, 0), (disc, 0)), "air", None, LIVE),
        Side("middle", path((disc, 0), (can, 0)), "air", None),
        Side("wall", path((can, 0), (can, half_height)), "air", None, EARTH),
        Side("lid", path((can, half_height), (0, half_height)), "air", None, EARTH),
        Side("axis", path((0, half_height), (0, 0)), "air", None),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    return Found(proof_of(solve(problem, tolerance, order=5, fineness=Fineness(2.0, 6))))


@cache
def wet_insulator(
    sheet: float, inner: float = 0.02, outer: float = 0.04, permittivity: float = 6.0
) -> float:
    """Field along a wet surface at the flange, over a conductor that runs through, for 1 V.

    Args:
        sheet: Conductance of the film [S] (per square).
        inner: Radius of the conductor [m].
        outer: Radius of the film [m].
        permittivity: Between them [1].

    Returns:
        Field along the film, one wall thickness from the flange, carried back to it by the
        exponential law [V/m].

    Source: Telegraph equation of a film over a conductor: E_t = abs(g) U, g = sqrt(j w C'/(2 pi b
    s)) — basis: approximate.
    """
    ordered(zero=0.0, inner=inner, outer=outer)
    length, reach = 2.0, 1.0
    sides = (
        Side("rod", path((inner, 0), (inner, length)), None, "wall", LIVE),
        Side("base", path((inner, 0), (outer, 0)), "wall", None),
        Side("flange", path((outer, 0), (reach, 0)), "air", None, EARTH),
        Side("film", path((outer, 0), (outer, length)), "wall", "air"),
        Side("end", path((outer, length), (inner, length)), "wall", None),
        Side("top", path((reach, length), (outer, length)), "air", None),
        Side("far", path((reach, 0), (reach, length)), "air", None),
    )
    media = {"wall": Medium(permittivity), "air": Medium(1.0)}
    films = (Film("film", 0.0, length, sheet),)
    problem = Problem(Shape(sides), media, {LIVE: 1.0, EARTH: 0.0}, films)
    solution = solve(problem, 1e-2, order=4)
    seen = profile(solution, "film", "air")
    at = int(np.abs(seen.lengths - (outer - inner)).argmin())
    rate = abs(
        np.sqrt(
            1j
            * 2
            * math.pi
            * 50
            * _per_length(inner, outer, permittivity)
            / (2 * math.pi * outer * sheet)
        )
    )
    decay = rate / math.sqrt(2) * seen.lengths[at]
    return float(abs(seen.tangential[at]) * math.exp(decay))


def _per_length(inner: float, outer: float, permittivity: float) -> float:
    return 2 * math.pi * VACUUM_PERMITTIVITY * permittivity / math.log(outer / inner)
