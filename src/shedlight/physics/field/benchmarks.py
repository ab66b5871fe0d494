"""Arrangements whose field is known exactly, solved by this room: what the room is tested with.

They run with the reference rows on every machine that asks for the proof of the numbers.
"""

import math
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

import numpy as np

from shedlight.geometry.curves import Arc, Curve, Line, Point
from shedlight.physics.domain import ordered, positive
from shedlight.physics.field.adapt import solve
from shedlight.physics.field.domain import Film, Medium, Problem, Shape, Side
from shedlight.physics.field.engine import ng
from shedlight.physics.field.meshing import Fineness, mesh_of
from shedlight.physics.field.pieces import Array
from shedlight.physics.field.profiles import profile
from shedlight.physics.field.proof import Proof, proof_of
from shedlight.physics.field.readings import read_at
from shedlight.physics.field.solve import potential_with

LIVE, EARTH, FLOATING = "live", "earth", "floating"
_TIGHT = 1e-6
_UNPROVED = math.inf  # where voltages jump the energy is infinite and has no bounds


@dataclass(frozen=True)
class Found:
    """What a benchmark gives: proof, readings of potential [V] and field [V/m] at its points."""

    proof: Proof | None
    potentials: tuple[complex, ...] = ()
    fields: tuple[float, ...] = ()
    floating: float = math.nan


def path(*places: tuple[float, float]) -> Curve:
    """Straight lines through places.

    Args:
        places: Radius and height of each [m].

    Source: Geometry — basis: exact.
    """
    points = [Point(*place) for place in places]
    return Curve(tuple(Line(a, b) for a, b in pairwise(points)))


def arc(centre: tuple[float, float], radius: float, start: float, sweep: float) -> Curve:
    """A circular arc.

    Args:
        centre: Radius and height of its centre [m].
        radius: Of the arc [m].
        start: Angle at its start [rad].
        sweep: Angle to its end, counter-clockwise positive [rad].

    Source: Geometry — basis: exact.
    """
    return Curve((Arc(Point(*centre), radius, start, sweep),))


def through(places: list[tuple[float, float]]) -> Curve:
    """Arcs through every second place by way of the one between.

    Args:
        places: Radius and height of each [m]; an odd number of them, no three on a line.

    Source: Geometry — basis: exact.
    """
    points = np.array(places)
    return Curve(tuple(_arc_through(*points[n : n + 3]) for n in range(0, len(points) - 2, 2)))


def _arc_through(a: Array, b: Array, c: Array) -> Arc:
    matrix = 2 * np.array([b - a, c - a])
    centre = a + np.linalg.solve(matrix, np.array([(b - a) @ (b - a), (c - a) @ (c - a)]))
    start, end = (math.atan2(*(p - centre)[::-1]) for p in (a, c))
    sweep = math.remainder(end - start, 2 * math.pi)
    return Arc(Point(*centre.tolist()), float(np.hypot(*(a - centre))), start, sweep)


@cache
def coaxial(
    radii: tuple[float, ...],
    permittivities: tuple[float, ...],
    conductivities: tuple[float, ...] = (),
    loss_factors: tuple[float, ...] = (),
    length: float = 0.02,
    frequency: float = 50.0,
) -> Found:
    """Concentric layers between a live rod and an earthed tube, without end effects.

    Args:
        radii: From the rod to the tube [m].
        permittivities: Of the layers [1].
        conductivities: Of the layers [S/m]; none means perfect insulation.
        loss_factors: Of the layers [1]; none means no loss.
        length: Cut out of the endless arrangement [m].
        frequency: Of the voltage [Hz].

    Returns:
        Capacitance of the length; field at the inner face of every layer, for 1 V; potential at
        every inner interface.

    Raises:
        InputError: radii that do not rise.

    Source: Kuffel, Zaengl, Kuffel, ch. 4: layers; here solved as a field — basis: exact.
    """
    ordered(**{f"radius_{n}": value for n, value in enumerate(radii)})
    count = len(permittivities)
    lost, leak = loss_factors or (0.0,) * count, conductivities or (0.0,) * count
    media = {f"layer {n}": Medium(permittivities[n], lost[n], leak[n]) for n in range(count)}
    sides = []
    for n, r in enumerate(radii):
        left = f"layer {n - 1}" if n else None
        right = f"layer {n}" if n < count else None
        electrode = LIVE if n == 0 else EARTH if n == count else None
        sides.append(Side(f"face {n}", path((r, 0.0), (r, length)), left, right, electrode))
    for n in range(count):
        ends = (radii[n], 0.0), (radii[n + 1], 0.0)
        sides.append(Side(f"base {n}", path(*ends), f"layer {n}", None))
        top = path(*((r, length) for r, _ in ends))
        sides.append(Side(f"top {n}", top, None, f"layer {n}"))
    problem = Problem(Shape(tuple(sides)), media, {LIVE: 1.0, EARTH: 0.0}, (), frequency)
    solution = solve(problem, _TIGHT, order=6, fineness=_FINE)
    inner = [profile(solution, f"face {n}", f"layer {n}") for n in range(count)]
    return Found(
        proof_of(solution),
        tuple(complex(seen.potential.mean()) for seen in inner),
        tuple(float(np.median(seen.strength)) for seen in inner),
    )


@cache
def concentric_spheres(
    inner: float, outer: float, lower_permittivity: float = 1.0, shell: float = 0.0
) -> Found:
    """A live ball in an earthed hollow ball, the lower half filled with a dielectric.

    Args:
        inner: Radius of the ball [m].
        outer: Radius of the hollow [m].
        lower_permittivity: Of the lower half [1].
        shell: Radius of a thin metal shell that floats between [m]; 0 for none.

    Returns:
        Capacitance; field at the ball in the upper and lower half and at the hollow, for 1 V;
        potential of the shell.

    Raises:
        InputError: radii that do not rise.

    Source: J. D. Jackson, boundary-value problems; C = 2 pi e0 (1 + e) a b/(b - a) — basis: exact.
    """
    ordered(zero=0.0, inner=inner, outer=outer)
    radii = [inner, *([shell] if shell else []), outer]
    names = ["in", "out"] if shell else ["in"]
    sides: list[Side] = []
    half = math.pi / 2
    for n, r in enumerate(radii):
        electrode = (LIVE, FLOATING, EARTH)[n if n + 1 < len(radii) else 2]
        for half_name, start in (("lower", -half), ("upper", 0.0)):
            left = f"{half_name} {names[n - 1]}" if n else None
            right = f"{half_name} {names[n]}" if n < len(names) else None
            ring = arc((0.0, 0.0), r, start, half)
            sides.append(Side(f"{half_name} ball {n}", ring, left, right, electrode))
    for n, name in enumerate(names):
        a, b = radii[n], radii[n + 1]
        low, high = f"lower {name}", f"upper {name}"
        sides.append(Side(f"flat {n}", path((a, 0.0), (b, 0.0)), high, low))
        sides.append(Side(f"axis below {n}", path((0.0, -a), (0.0, -b)), low, None))
        sides.append(Side(f"axis above {n}", path((0.0, a), (0.0, b)), None, high))
    media = {
        name: Medium(lower_permittivity if name.startswith("lower") else 1.0)
        for name in Shape(tuple(sides)).regions
    }
    problem = Problem(Shape(tuple(sides)), media, {LIVE: 1.0, EARTH: 0.0})
    solution = solve(problem, 1e-5, order=6, fineness=_FINE)
    faces = ("upper ball 0", "upper in"), ("lower ball 0", "lower in")
    fields = [float(np.median(profile(solution, *face).strength)) for face in faces]
    outside = profile(solution, f"upper ball {len(radii) - 1}", f"upper {names[-1]}")
    fields.append(float(np.median(outside.strength)))
    floating = solution.voltages.get(FLOATING, complex(math.nan)).real
    return Found(proof_of(solution), (), tuple(fields), floating)


@cache
def ball_between_plates(
    permittivity: float = 1.0, outside: float = 1.0, *, metal: bool = False, room: float = 30.0
) -> Found:
    """A ball of 1 m radius, dielectric or of floating metal, in the uniform field of wide plates.

    Args:
        permittivity: Of the ball [1].
        outside: Permittivity round it [1].
        metal: The ball is of metal and floats.
        room: Distance of the plates and of the wall from its centre [m].

    Returns:
        Fields over the undisturbed one: inside at the centre, outside at the pole, outside at
        the equator; potential of the ball where 1 V lies across the plates.

    Source: J. D. Jackson, boundary-value problems with dielectrics; basis: exact. The plates
    disturb by about (1/room)³.
    """
    positive(permittivity=permittivity, outside=outside)
    inner = None if metal else "ball"
    surface = Side("ball", arc((0, 0), 1, -math.pi / 2, math.pi), inner, "round", _floats(metal))
    sides = [
        surface,
        Side("axis below", path((0, -1), (0, -room)), "round", None),
        Side("base", path((0, -room), (room, -room)), "round", None, EARTH),
        Side("wall", path((room, -room), (room, room)), "round", None),
        Side("lid", path((room, room), (0, room)), "round", None, LIVE),
        Side("axis above", path((0, room), (0, 1)), "round", None),
    ]
    if not metal:
        sides.append(Side("axis in ball", path((0, 1), (0, -1)), "ball", None))
    media = {"ball": Medium(permittivity), "round": Medium(outside)}
    problem = Problem(Shape(tuple(sides)), media, {LIVE: 1.0, EARTH: 0.0})
    angles = np.linspace(-math.pi / 2, math.pi / 2, 41).tolist()
    wishes = tuple((math.cos(angle), math.sin(angle), 0.2) for angle in angles)
    solution = solve(problem, 1e-4, order=6, fineness=Fineness(wishes=wishes))
    even = 1 / (2 * room)
    seen = profile(solution, "ball", "round")
    # The normal field goes as the cosine of the angle from the pole, the tangential as its sine.
    r, z = seen.points.T
    pole = abs(float((seen.normal.real * z).sum() / (z * z).sum())) / even
    equator = abs(float((seen.tangential.real * r).sum() / (r * r).sum())) / even
    if metal:
        return Found(proof_of(solution), (), (pole,), solution.voltages[FLOATING].real)
    centre = float(read_at(solution, np.array([0.3]), np.array([0.2])).strength[0]) / even
    return Found(proof_of(solution), (), (centre, pole, equator))


def _floats(metal: bool) -> str | None:
    return FLOATING if metal else None


@cache
def can_with_live_lid(
    radius: float, height: float, places: tuple[tuple[float, float], ...]
) -> Found:
    """Potential in an earthed can whose whole lid is at 1 V.

    Args:
        radius: Of the can [m].
        height: Of the can [m].
        places: Radius and height of every reading [m].

    Source: J. D. Jackson, Bessel series in a cylinder — basis: exact.
    """
    solution = solve(_can(radius, height, None, ()), _UNPROVED, order=6, fineness=_CAN)
    r, z = np.array(places, float).T
    return Found(None, tuple(read_at(solution, r, z).potential.tolist()))


_CAN = Fineness(across=4.0, layers=9)
_FINE = Fineness(across=4.0)


@cache
def filmed_rod(
    sheet: float,
    places: tuple[tuple[float, float], ...],
    radius: float = 0.03,
    wall: float = 0.06,
    height: float = 0.1,
    permittivity: float = 6.0,
    frequency: float = 50.0,
) -> Found:
    """A dielectric rod with a conducting film, in an earthed can whose lid is at 1 V.

    Args:
        sheet: Conductance of the film [S] (per square).
        places: Radius and height of every reading [m].
        radius: Of the rod [m].
        wall: Radius of the can [m].
        height: Of the can [m].
        permittivity: Of the rod [1].
        frequency: Of the voltage [Hz].

    Source: Derived from first principles (Bessel series, jump of the radial current at the film)
    — basis: exact.
    """
    films = (Film("face", 0.0, height, sheet),) if sheet > 0 else ()
    problem = _can(wall, height, (radius, permittivity), films, frequency)
    solution = solve(problem, _UNPROVED, order=6, fineness=_CAN)
    r, z = np.array(places, float).T
    return Found(None, tuple(read_at(solution, r, z).potential.tolist()))


def _can(
    radius: float,
    height: float,
    rod: tuple[float, float] | None,
    films: tuple[Film, ...],
    frequency: float = 50.0,
) -> Problem:
    inner = rod[0] if rod else radius / 2
    sides = (
        Side("axis", path((0, height), (0, 0)), "rod", None),
        Side("base in", path((0, 0), (inner, 0)), "rod", None, EARTH),
        Side("base out", path((inner, 0), (radius, 0)), "round", None, EARTH),
        Side("wall", path((radius, 0), (radius, height)), "round", None, EARTH),
        Side("lid out", path((radius, height), (inner, height)), "round", None, LIVE),
        Side("lid in", path((inner, height), (0, height)), "rod", None, LIVE),
        Side("face", path((inner, 0), (inner, height)), "rod", "round"),
    )
    media = {"rod": Medium(rod[1] if rod else 1.0), "round": Medium(1.0)}
    return Problem(Shape(sides), media, {LIVE: 1.0, EARTH: 0.0}, films, frequency)


@cache
def rod_in_sine(
    sheet: float,
    radius: float = 0.03,
    wall: float = 0.06,
    height: float = 0.1,
    permittivity: float = 6.0,
    frequency: float = 50.0,
) -> Found:
    """A dielectric rod with a conducting film, in a tube at sin(pi z/L), both ends earthed.

    Args:
        sheet: Conductance of the film [S] (per square).
        radius: Of the rod [m].
        wall: Radius of the tube [m].
        height: Of the tube [m].
        permittivity: Of the rod [1].
        frequency: Of the voltage [Hz].

    Returns:
        Half-way up: potential on the film, on the axis, and its slope outside the film [V/m].

    Source: Derived from first principles: A I0(kr) inside, B I0(kr) + C K0(kr) outside, k = pi/L,
    y2 R'(a+) - y1 R'(a-) = s k² R(a) — basis: exact.
    """
    films = (Film("face", 0.0, height, sheet),) if sheet > 0 else ()
    problem = _can(wall, height, (radius, permittivity), films, frequency)
    mesh = mesh_of(problem.shape, problem.media, Fineness(across=8.0))
    given = ng.sin(math.pi * ng.y / height)
    potential = potential_with(mesh, problem, 6, {"wall": given})
    on_film, on_axis = (complex(potential(mesh.mesh(r, height / 2))) for r in (radius, 0.0))
    # Read a little outside and carried to the film: there, both sides claim the point.
    near = [mesh.mesh(radius * (1 + 1e-3 * step), height / 2) for step in (1, 2, 3)]
    slopes = [complex(ng.grad(potential)(place)[0]) for place in near]
    return Found(None, (on_film, on_axis, 3 * slopes[0] - 3 * slopes[1] + slopes[2]))


@cache
def filmed_rod_between_plates(
    sheet: float, radius: float = 0.03, height: float = 0.1, permittivity: float = 6.0
) -> Found:
    """A dielectric rod with a conducting film between plates, nothing outside: a uniform field.

    Args:
        sheet: Conductance of the film [S] (per square).
        radius: Of the rod [m].
        height: Between the plates [m].
        permittivity: Of the rod [1].

    Source: Y = j w e0 e pi a²/L + 2 pi a s/L — basis: exact.
    """
    sides = (
        Side("axis", path((0, height), (0, 0)), "rod", None),
        Side("base", path((0, 0), (radius, 0)), "rod", None, EARTH),
        Side("face", path((radius, 0), (radius, height)), "rod", None),
        Side("lid", path((radius, height), (0, height)), "rod", None, LIVE),
    )
    films = (Film("face", 0.0, height, sheet),) if sheet > 0 else ()
    media = {"rod": Medium(permittivity)}
    return Found(proof_of(solve(Problem(Shape(sides), media, {LIVE: 1.0, EARTH: 0.0}, films))))
