"""Time the field of a 36 kV bushing, beside a plain finite-element script on the same problem.

Run by hand on a quiet machine: ``python bench/field_speed.py``. The plain script uses linear
triangles on uniformly refined meshes with SciPy's sparse solver, as one would write it first.
Times are of the processor, so that other work on the machine matters less. The last lines give
the ratios of the two, and what the goals ask.
"""

import math
import resource
import time
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import splu

import shedlight as sl
from shedlight.geometry.curves import Arc
from shedlight.geometry.section import build_section
from shedlight.given.bushing import Installation
from shedlight.physics.field import adapt, bounds, factors, meshing, solve
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import VACUUM_PERMITTIVITY, Problem
from shedlight.physics.field.meshing import Fineness, mesh_of
from shedlight.physics.field.profiles import profile
from shedlight.physics.field.solve import columns
from shedlight.physics.field.triangles import fill
from shedlight.workings.field import LIVE, field_of, fillings_of, problem_of, solved, wet

EXAMPLE = Path(__file__).parents[1] / "examples" / "quarry-36kv.toml"
REPEATS = 5
METAL = ("clamps", "cap", "shield")


def main() -> None:
    installation = sl.read(EXAMPLE)
    problem = lossless(installation)
    whole(installation)
    many_sheds(installation, 0)
    many_sheds(installation, 2)
    reference, peaks = accurate(problem)
    print(f"reference: C = {1e12 * reference:.6f} pF (order 7, elements halved)")
    best = ours(problem, reference, peaks)
    rough = plain(problem, reference)
    compared(best, rough)


@dataclass(frozen=True)
class Effort:
    """What a solution of the 36 kV bushing took [s], and how far its capacitance is off [1]."""

    seconds: float
    again: float
    error: float


def compared(ours: Effort, plain: list[Effort]) -> None:
    """The ratios of the two, all from this run."""
    print(
        f"ours: mesh, solution and proof {ours.seconds:.3f} s, on a mesh that is "
        f"kept {ours.again:.3f} s (goal 0.15 s) at {100 * ours.error:.4f} % of C (goal 0.01 %)"
    )
    for effort in plain[-3:]:
        print(
            f"plain: {effort.seconds:.2f} s at {100 * effort.error:.3f} %: "
            f"{effort.seconds / ours.seconds:.1f} times our time with mesh and proof, "
            f"{effort.seconds / ours.again:.1f} times that on a kept mesh, "
            f"{effort.error / ours.error:.0f} times our error"
        )
    # Its error falls with the number of unknowns to some power: what it would take to be as near.
    a, b = plain[-2:]
    rate = math.log(a.error / b.error) / math.log(b.seconds / a.seconds)
    needed = b.seconds * (b.error / 1e-4) ** (1 / rate)
    print(
        f"plain, carried on to 0.01 %: about {needed:.0f} s, {needed / ours.seconds:.0f} times ours"
    )


def lossless(installation: Installation) -> Problem:
    section = build_section(installation.bushing, installation.transformer)
    problem = problem_of(section, fillings_of(installation), installation.duty.frequency)
    media = {name: type(m)(m.permittivity) for name, m in problem.media.items()}
    return Problem(problem.shape, media, problem.potentials, (), problem.frequency)


def capacitance(unit: solve.Columns) -> float:
    return float(unit.admittances[0, 0].imag / (2 * math.pi * unit.frequency))


def metal_peaks(problem: Problem, mesh: meshing.FieldMesh, unit: solve.Columns) -> list[float]:
    """Peak field on every rounded metal part [V/m per V], 2 mm clear of singular corners."""
    blank = bounds.Bounds(0.0, math.inf, np.zeros(0))
    solution = Solution(problem, mesh, unit.order, unit, {LIVE: 1.0}, blank, 1, math.inf)
    found = []
    for edge in METAL:
        side = problem.shape.side(edge)
        seen = profile(solution, edge, side.left or side.right or "")
        sharp = [[c.at.r, c.at.z] for c in solution.singular_corners]
        away = np.hypot(*np.moveaxis(seen.points[:, None] - np.array(sharp), 2, 0)).min(axis=1)
        found.append(float(seen.strength[away > 2e-3].max()))
    return found


def accurate(problem: Problem) -> tuple[float, list[float]]:
    coarse = mesh_of(problem.shape, problem.media, Fineness(layers=6))
    nodes = coarse.nodes[coarse.corners_of_elements[:, :3]]
    size = np.hypot(*(nodes.max(axis=1) - nodes.min(axis=1)).T) / 3
    wishes = tuple(
        (float(r), float(z), float(max(s, 2e-4)))
        for (r, z), s in zip(nodes.mean(axis=1), size, strict=True)
    )
    mesh = mesh_of(problem.shape, problem.media, Fineness(1.0, 6, wishes))
    unit = columns(mesh, problem, 7)
    return capacitance(unit), metal_peaks(problem, mesh, unit)


def ours(problem: Problem, reference: float, peaks: list[float]) -> Effort:
    relative = tuple(problem.media[name].permittivity for name in problem.shape.regions)
    for order in (3, 4):
        times: dict[str, list[float]] = {"mesh": [], "solve": [], "bounds": []}
        for _ in range(REPEATS):
            forget()
            mesh = timed(times["mesh"], lambda: mesh_of(problem.shape, problem.media, Fineness()))
            unit = timed(times["solve"], partial(columns, mesh, problem, order))
            potential = unit.column({LIVE: 1.0})
            prove = partial(
                bounds.energy_bounds, mesh, relative, potential, {LIVE: 1.0}, (), order - 1
            )
            timed(times["bounds"], prove)
        error = capacitance(unit) / reference - 1
        off = max(
            abs(a / b - 1) for a, b in zip(metal_peaks(problem, mesh, unit), peaks, strict=True)
        )
        spent = ", ".join(f"{name} {1e3 * min(t):.0f} ms" for name, t in times.items())
        print(
            f"ours, order {order}: {mesh.elements} elements, {unit.unknowns} unknowns: {spent}; "
            f"C off by {100 * error:.4f} %, peaks on metal by {100 * off:.2f} %"
        )
    again = min(times["solve"]) + min(times["bounds"])
    return Effort(min(times["mesh"]) + again, again, abs(error))


def timed(record: list[float], act):  # type: ignore[no-untyped-def]
    start = time.process_time()
    found = act()
    record.append(time.process_time() - start)
    return found


def forget() -> None:
    kept = meshing._kept, factors._factors, solve._columns, bounds.flux_columns
    for cache in (*kept, adapt._unit_bounds, solved):
        cache.cache_clear()


def plain(problem: Problem, reference: float) -> list[Effort]:
    """Linear triangles, uniformly refined, new nodes on arcs moved onto them."""
    parts = problem.shape.parts
    filling = fill(parts, problem.shape.regions, 0.7, ())
    nodes, triangles, regions = filling.nodes, filling.triangles, filling.regions
    chords, owner = filling.chords.nodes, filling.chords.part
    efforts = []
    for _ in range(5):
        fixed, live = np.zeros(len(nodes), bool), np.zeros(len(nodes))
        for number, part in enumerate(parts):
            if part.electrode or part.is_open:
                fixed[chords[owner == number]] = True
            if part.electrode == LIVE:
                live[chords[owner == number]] = 1.0
        start = time.process_time()
        found = linear(problem, nodes, triangles, regions, fixed, live)
        spent = time.process_time() - start
        print(
            f"plain linear triangles: {len(nodes)} unknowns: {1e3 * spent:.0f} ms; "
            f"C off by {100 * (found / reference - 1):.3f} %"
        )
        efforts.append(Effort(spent, spent, abs(found / reference - 1)))
        count = len(nodes)
        nodes, triangles, regions, middle = quartered(nodes, triangles, regions)
        between = middle(chords)
        chords = np.concatenate(
            [np.stack([chords[:, 0], between], 1), np.stack([between, chords[:, 1]], 1)]
        )
        for number, part in enumerate(parts):
            if isinstance(part.piece, Arc):
                centre = np.array([part.piece.centre.r, part.piece.centre.z])
                new = between[(owner == number) & (between >= count)]
                away = nodes[new] - centre
                nodes[new] = centre + part.piece.radius * away / np.hypot(*away.T)[:, None]
        owner = np.tile(owner, 2)
    return efforts


def linear(problem, nodes, triangles, regions, fixed, live):  # type: ignore[no-untyped-def]
    a, b, c = (nodes[triangles[:, k]] for k in range(3))
    area = ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) / 2
    slopes = (
        np.stack([c - b, a - c, b - a], axis=1)[:, :, ::-1] * [-1, 1] / (2 * area[:, None, None])
    )
    table = [problem.media[name].permittivity for name in problem.shape.regions]
    weight = np.array(table)[regions] * area * (a + b + c)[:, 0] / 3
    local = weight[:, None, None] * np.einsum("tid,tjd->tij", slopes, slopes)
    rows, cols = np.repeat(triangles, 3, axis=1), np.tile(triangles, (1, 3))
    matrix = coo_matrix(
        (local.ravel(), (rows.ravel(), cols.ravel())), shape=(len(nodes),) * 2
    ).tocsc()
    free = ~fixed
    right = -(matrix @ live)[free]
    live[free] = splu(matrix[free][:, free]).solve(right)
    return 2 * math.pi * VACUUM_PERMITTIVITY * live @ (matrix @ live)


def quartered(nodes, triangles, regions):  # type: ignore[no-untyped-def]
    """Every triangle in four; and a function that gives the node in the middle of an edge."""
    count = len(nodes)
    edges = np.sort(np.concatenate([triangles[:, p] for p in ([0, 1], [1, 2], [2, 0])]), axis=1)
    codes, inverse = np.unique(edges @ np.array([count, 1]), return_inverse=True)
    a, b, c = triangles.T
    ab, bc, ca = count + inverse.reshape(3, -1)
    corners = ((a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca))
    ends = np.stack([codes // count, codes % count], axis=1)
    fine = np.concatenate([np.stack(three, axis=1) for three in corners])

    def middle(pairs):  # type: ignore[no-untyped-def]
        return count + np.searchsorted(codes, np.sort(pairs, axis=1) @ np.array([count, 1]))

    return np.vstack([nodes, nodes[ends].mean(axis=1)]), fine, np.tile(regions, 4), middle


def many_sheds(installation: Installation, ribs: int) -> None:
    """A hundred sheds, plain or ribbed: mesh, solution with losses, proof; time and memory."""
    bushing = installation.bushing
    sheds = bushing.sheds
    if sheds is None:
        return
    longer = bushing.porcelain.air_length + (100 - sheds.count) * sheds.pitch
    shape = {"count": 100, "ribs": ribs, "rib_depth": 0.01}
    many = bushing.model_copy(
        update={
            "sheds": sheds.model_copy(update=shape),
            "porcelain": bushing.porcelain.model_copy(update={"air_length": longer}),
        }
    )
    changed = installation.model_copy(update={"bushing": many})
    section = build_section(changed.bushing, changed.transformer)
    problem = problem_of(section, fillings_of(changed), installation.duty.frequency)
    forget()
    times: list[float] = []
    mesh = timed(times, lambda: mesh_of(problem.shape, problem.media, Fineness()))
    solution = timed(times, lambda: adapt.solve(problem, 1e-4))
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"100 sheds, {ribs} ribs each: {mesh.elements} elements, "
        f"{solution.unit.unknowns} unknowns: mesh {times[0]:.2f} s, "
        f"solution and proof {times[1]:.2f} s (goal 1 s in all), bounds "
        f"{solution.bounds.gap:.1e} apart, memory so far {memory:.0f} MB (goal 400 MB)"
    )


def whole(installation: Installation) -> None:
    section = build_section(installation.bushing, installation.transformer)
    forget()
    for what, state in (("cold dry", None), ("warm dry", None), ("wet, same mesh", 1e-8)):
        times: list[float] = []
        if state is None:
            found = timed(times, lambda: field_of(installation, section))
        else:
            found = timed(times, lambda s=state: field_of(installation, section, wet(section, s)))
        print(f"field with losses, bounds and profiles, {what}: {1e3 * times[0]:.0f} ms")
    print(f"bounds {1e12 * found.capacitance_low:.5f} to {1e12 * found.capacitance_high:.5f} pF")


if __name__ == "__main__":
    main()
