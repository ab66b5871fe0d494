"""The stress in the true section of the porcelain, under the bending test with its pressure."""

import math
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.given.parts import Flange
from shedlight.physics.strength.allowable import allowable_stress
from shedlight.physics.strength.load_sums import times_beam
from shedlight.physics.strength.section_mesh import Outline
from shedlight.physics.strength.section_skin import Skin, skin_of
from shedlight.physics.strength.section_stress import (
    ORDER,
    Array,
    Bed,
    BendingLoad,
    EvenLoad,
    SectionSolution,
    Solid,
    Tension,
    solve_in_orders,
)
from shedlight.sources import cite
from shedlight.trace import Label, Number, calculate
from shedlight.workings.loads import Loads, bending_strength
from shedlight.workings.numbers import assumption, modelled

SKINS = ("air side", "hole side", "oil side")
STEP = 2e-4
TIE = EvenLoad(pulls=(("cap seat", -1.0), ("shield seat", 1.0)))  # of one newton
ACROSS = 1.0  # size of elements over the thinnest wall
TRUSTED = 0.02  # what two orders may differ by
_ELASTIC = cite("Wilson", "solids of revolution under harmonic loads, solved here", "exact")


@dataclass(frozen=True)
class Problem:
    """What is solved: the porcelain on its beds, its loads, and the size of elements [m]."""

    solid: Solid
    resting: EvenLoad  # all even loads but the tie's
    bending: BendingLoad
    size: float
    tie: float = 0.0  # force with which the conductor presses cap and shield on [N]

    @property
    def even(self) -> EvenLoad:
        """Every even load."""
        tied = tuple((edge, self.tie * pull) for edge, pull in TIE.pulls)
        return EvenLoad(self.resting.pressures, self.resting.pulls + tied)


@dataclass(frozen=True, eq=False)
class SkinRead:
    """Stresses read along one edge [Pa], rows as of a tension: of the loads, and of a unit tie."""

    name: str
    skin: Skin
    fine: tuple[Array, Array]
    coarse: tuple[Array, Array]

    def tensions(self, tie: float) -> tuple[Array, Array]:
        """Greatest tension by the finer and by the coarser elements [Pa].

        Args:
            tie: Force of the tie [N].
        """
        fine, coarse = (
            Tension(*(loads + tie * unit)).greatest for loads, unit in (self.fine, self.coarse)
        )
        return fine, coarse


@dataclass(frozen=True, eq=False)
class Untied:
    """A section solved before the tie is known: how hard that presses hangs on the heat."""

    problem: Problem  # without its tie
    reads: tuple[SkinRead, ...]
    notches: int
    unknowns: int


@dataclass(frozen=True, eq=False)
class SkinStress:
    """Greatest tension along one edge [Pa], with heights above the cover [m]."""

    edge: str
    lengths: Array
    heights: Array
    tension: Array


@dataclass(frozen=True, eq=False)
class SectionStress:
    """Where the porcelain is pulled hardest [Pa], beside beam theory."""

    peak: Number
    allowed: Number
    place: tuple[float, float]  # radius, height above the cover [m]
    edge: str
    rounding: float  # of the outline there; endless where it is straight [m]
    factor: Number  # peak over beam theory [1]
    doubt: float  # what the peaks of two orders of elements differ by, over the peak [1]
    notches: int  # inward corners without rounding, left out
    skins: tuple[SkinStress, ...]
    unknowns: int


def section_stress_of(
    installation: Installation, section: Section, loads: Loads, untied: Untied | None = None
) -> SectionStress:
    """Solve the porcelain in the bending test and find its hardest pulled place.

    Args:
        installation: What was described.
        section: Its section.
        loads: The loads on its outer end.
        untied: What was solved before, if it was.
    """
    problem = problem_of(installation, section, loads)
    if untied is None or untied.problem != replace(problem, tie=0.0):
        untied = untied_of(replace(problem, tie=0.0))
    read = [one.tensions(problem.tie) for one in untied.reads]
    number = int(np.argmax([np.nanmax(fine) for fine, _ in read]))
    (fine, coarse), worst_read = read[number], untied.reads[number]
    at = int(np.nanargmax(fine))
    worst, skin = float(fine[at]), worst_read.skin
    doubt = abs(float(np.nanmax(coarse)) / worst - 1)
    peak = _peak(worst, doubt, loads)
    return SectionStress(
        peak=peak,
        allowed=calculate(
            allowable_stress, bending_strength(installation), assumption("safety exceptional")
        ),
        place=(float(skin.r[at]), float(skin.z[at])),
        edge=worst_read.name,
        rounding=float(skin.rounding[at]),
        factor=calculate(times_beam, peak, loads.test.tension),
        doubt=doubt,
        notches=untied.notches,
        skins=tuple(
            SkinStress(one.name, one.skin.lengths, one.skin.z, tension)
            for one, (tension, _) in zip(untied.reads, read, strict=True)
        ),
        unknowns=untied.unknowns,
    )


def untied_of(problem: Problem) -> Untied:
    """Solve a section without its tie, and with the tie's unit force beside.

    Args:
        problem: What is to be solved.
    """
    coarse, fine = in_two_orders(replace(problem, tie=0.0))
    outline, clear = problem.solid.outline, float(assumption("root clearance"))
    reads = []
    for edge in SKINS:
        skin = skin_of(outline, edge, STEP, clear)
        reads.append(SkinRead(edge, skin, _read(fine, skin), _read(coarse, skin)))
    return Untied(replace(problem, tie=0.0), tuple(reads), len(outline.notches), fine.unknowns)


def _read(solution: SectionSolution, skin: Skin) -> tuple[Array, Array]:
    both = solution.at(skin.r, skin.z), solution.of_beside(skin.r, skin.z)
    loads, unit = (np.array([t.radial, t.round, t.along, t.shear]) for t in both)
    return loads, unit


def _peak(worst: float, doubt: float, loads: Loads) -> Number:
    far = f"two orders of elements differ by {doubt:.1%}"
    return modelled(
        worst,
        Label("Greatest tension at the surface", "sigma_1", "MPa"),
        _ELASTIC,
        "section of the porcelain, solved by finite elements",
        (
            *(force.force for force in loads.test.forces),
            loads.test.pressure,
            loads.body.seat_bed,
            assumption("clamp bed"),
        ),
        () if doubt <= TRUSTED else (far,),
    )


def problem_of(installation: Installation, section: Section, loads: Loads) -> Problem:
    """The porcelain of a section in the bending test.

    Args:
        installation: What was described.
        section: Its section.
        loads: The loads on its outer end.
    """
    bushing = installation.bushing
    material = f"porcelain {bushing.porcelain.material}"
    region = next(region for region in section.regions if region.name == "porcelain")
    edges = tuple(
        (name, section.curve(name) if forward else section.curve(name).reversed())
        for name, forward in region.boundary
    )
    held = "cement bed" if isinstance(bushing.fixing, Flange) else "clamp bed"
    beds = (
        Bed("gasket top", float(loads.body.seat_bed)),
        Bed("clamp joint", float(assumption(held))),
    )
    solid = Solid(
        Outline(edges),
        float(material_property(material, "elastic_modulus")),
        float(material_property(material, "poisson")),
        beds,
    )
    test, body = loads.test, loads.body
    force, pressure = float(test.shear), float(test.pressure)
    lift = pressure * math.pi * section.radii.bore**2
    tie = max(0.0, float(loads.tie_warm)) if loads.tie_warm is not None else 0.0
    # A flange passes the force of its bolts on through the cement, which is a bed here.
    clamped = loads.bolts is not None and not isinstance(bushing.fixing, Flange)
    bolts = float(loads.bolts or 0.0) if clamped else 0.0
    pulls = (("cap seat", lift), ("shield seat", -lift), ("clamp joint", -bolts))
    even = EvenLoad((("bore", pressure),), pulls)
    bending = BendingLoad("cap seat", force, force * (body.terminal - body.porcelain_top))
    thinnest = min(section.radii.body, section.radii.top_body, section.radii.oil_end)
    return Problem(solid, even, bending, ACROSS * (thinnest - section.radii.bore), tie)


def solved(problem: Problem) -> SectionSolution:
    """The finer solution of a problem, for pictures and readings.

    Args:
        problem: What is to be solved.
    """
    return in_two_orders(problem)[-1]


@lru_cache(maxsize=2)
def in_two_orders(problem: Problem) -> tuple[SectionSolution, SectionSolution]:
    """The solution in elements of two degrees, the finer last; the last few are kept.

    Args:
        problem: What is to be solved.
    """
    coarse, fine = solve_in_orders(
        problem.solid, problem.even, problem.bending, problem.size, (ORDER - 1, ORDER), TIE
    )
    return coarse, fine
