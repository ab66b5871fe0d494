"""Benchmarks in open space, and with edges into which the field grows without limit."""

import math
from functools import cache

import numpy as np

from shedlight.geometry.curves import Curve
from shedlight.physics.domain import ordered, positive
from shedlight.physics.field.adapt import solve
from shedlight.physics.field.benchmarks import EARTH, LIVE, Found, arc, path, through
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
from shedlight.physics.field.readings import read_at

_HALF = math.pi / 2
_ARCS = 24  # for half an ellipse
_AXIS_AWAY = 1e5


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
def disc_in_plane(places: tuple[float, ...], radius: float = 1.0, far: float = 150.0) -> Found:
    """Potential on the axis of a live disc that lies flush in a wide earthed plane.

    Args:
        places: Heights over the disc [m].
        radius: Of the disc [m].
        far: Distance of open space, in radii of the disc [1]; takes about 1/(2 far³).

    Returns:
        Potentials for 1 V on the disc; it jumps at the rim, so the energy has no bounds.

    Source: phi = U (1 - z/sqrt(z² + a²)): J. D. Jackson, Green's function of the half space —
    basis: exact.
    """
    positive(radius=radius, far=far)
    reach = far * radius
    sides = (
        Side("disc", path((0, 0), (radius, 0)), "air", None, LIVE),
        Side("plane", path((radius, 0), (reach, 0)), "air", None, EARTH),
        Side("far", arc((0, 0), reach, 0, _HALF), "air", None, None, True),
        Side("axis", path((0, reach), (0, 0)), "air", None),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    solution = solve(problem, math.inf, order=6, fineness=Fineness(across=3.0, layers=9))
    z = np.array(places, float)
    return Found(None, tuple(read_at(solution, np.zeros(len(z)), z).potential.tolist()))


@cache
def disc_pair(spacing: float, radius: float = 1.0, far: float = 200.0) -> float:
    """Capacitance between two equal thin discs face to face, alone in space [F].

    Solved as one disc over the earthed plane between them, whose capacitance is twice that.

    Args:
        spacing: Between the discs [m].
        radius: Of the discs [m].
        far: Distance of open space, in radii of the disc [1].

    Source: A. E. H. Love, The electrostatic field of two equal circular co-axial conducting disks
    (1949), integral equation — basis: exact.
    """
    positive(spacing=spacing, radius=radius, far=far)
    high, reach = spacing / 2, far * radius
    sides = (
        Side("disc", path((0, high), (radius, high)), "air", "air", LIVE),
        Side("axis below", path((0, high), (0, 0)), "air", None),
        Side("plane", path((0, 0), (reach, 0)), "air", None, EARTH),
        Side("far", arc((0, 0), reach, 0, _HALF), "air", None, None, True),
        Side("axis above", path((0, reach), (0, high)), "air", None),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    wishes = tuple((radius * share, high, radius / 10) for share in (0.0, 0.25, 0.5, 0.75, 1.0))
    solution = solve(problem, math.inf, order=6, fineness=Fineness(2.0, 8, wishes))
    return proof_of(solution).capacitance / 2


@cache
def boss(height: float, base: float, room: float = 30.0) -> Found:
    """A half spheroid that stands on a wide earthed plate, opposite another one far away.

    Args:
        height: Of the boss [m].
        base: Radius of its base [m].
        room: Distance of the other plate and of the wall, in heights [1].

    Returns:
        Field at its tip over the undisturbed one.

    Source: W. R. Smythe, prolate spheroid in a uniform field: 1/N, N = (1 - e²)/e² (atanh(e)/e -
    1) — basis: exact. Plates and wall disturb by about base² height/(room height)³.
    """
    ordered(zero=0.0, base=base)
    positive(height=height, room=room)
    wide = room * max(height, base)
    turned = _HALF * np.linspace(0, 1, 2 * _ARCS + 1) ** 2  # from the tip, crowded there
    angles = (_HALF - turned).tolist()
    outline = [(base * math.cos(a), height * math.sin(a)) for a in angles]
    outline[0], outline[-1] = (0.0, height), (base, 0.0)
    sides = (
        Side("boss", through(outline), "air", None, EARTH),
        Side("plate", path((base, 0), (wide, 0)), "air", None, EARTH),
        Side("wall", path((wide, 0), (wide, wide)), "air", None),
        Side("lid", path((wide, wide), (0, wide)), "air", None, LIVE),
        Side("axis", path((0, wide), (0, height)), "air", None),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    solution = solve(problem, 1e-4, order=6, fineness=Fineness(across=2.0))
    peak = float(profile(solution, "boss", "air").strength.max())
    return Found(proof_of(solution), (), (peak * wide,))


@cache
def rogowski(angle: float, places: tuple[float, ...] = (-2.0, 0.0, 1.0)) -> Found:
    """Field on an electrode shaped like an equipotential at the rim of a plate capacitor.

    x = (s/pi)(u + e^u cos v), y = (s/pi)(v + e^u sin v): v is the potential, lines of constant u
    are field lines, at which the section is cut off. The plane problem is turned about an axis so
    far away that its radius changes by a hundred-thousandth over the section.

    Args:
        angle: v of the electrode [rad].
        places: u of every reading on it [1].

    Returns:
        Field over that deep between the plates: at the places, and the largest; its proof.

    Source: W. Rogowski (1923); J. C. Maxwell, A Treatise on Electricity and Magnetism, art. 202 —
    basis: exact.
    """
    positive(angle=angle)
    low, high = -4.0, 2.0
    mean = _AXIS_AWAY

    def at(u: float, v: float) -> tuple[float, float]:
        return mean + u + math.exp(u) * math.cos(v), v + math.exp(u) * math.sin(v)

    u, v = np.linspace(low, high, 4 * _ARCS + 1).tolist(), np.linspace(0, angle, 2 * _ARCS + 1)
    sides = (
        Side("plane", path(at(low, 0), at(high, 0)), "gap", None, EARTH),
        Side("outer", through([at(high, t) for t in v.tolist()]), "gap", None),
        Side("electrode", through([at(t, angle) for t in u]), None, "gap", LIVE),
        Side("inner", through([at(low, t) for t in v.tolist()]), None, "gap"),
    )
    problem = Problem(Shape(sides), {"gap": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    solution = solve(problem, 1e-5, order=6, fineness=Fineness(across=1.5))
    seen = profile(solution, "electrode", "gap")
    reached = [at(t, angle)[0] for t in places]
    order = np.argsort(seen.points[:, 0])
    field = np.interp(reached, seen.points[order, 0], seen.strength[order]) * angle
    return Found(proof_of(solution), (), (*field.tolist(), float(seen.strength.max()) * angle))


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


@cache
def ring_over_plane(ring: float, radius: float, height: float, far: float = 40.0) -> float:
    """Largest field at a live ring of round rod over a wide earthed plane, at one volt [1/m].

    Args:
        ring: Radius of the ring's centre line [m].
        radius: Of the rod [m].
        height: Of the centre line above the plane [m].
        far: Distance of open space over ring plus height [1].

    Raises:
        InputError: the rod is thicker than the ring or touches the plane.

    Source: the field room's own solution, for closed forms to be held against — basis: exact but
    for its proved doubt.
    """
    ordered(zero=0.0, radius=radius, ring=ring)
    ordered(radius=radius, height=height)
    reach = far * (ring + height)
    sides = (
        Side("rod", Curve(arc((ring, height), radius, 0, 2 * math.pi).pieces), None, "air", LIVE),
        Side("plane", path((0, 0), (reach, 0)), "air", None, EARTH),
        Side("far", arc((0, 0), reach, 0, _HALF), "air", None, None, True),
        Side("axis", path((0, reach), (0, 0)), "air", None),
    )
    problem = Problem(Shape(sides), {"air": Medium(1.0)}, {LIVE: 1.0, EARTH: 0.0})
    solution = solve(problem, 1e-4, order=5)
    return float(profile(solution, "rod", "air").strength.max())
