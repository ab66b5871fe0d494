"""From a section to its electric field: which region is filled with what, which edge is metal.

Solved for one volt on the live metal; every voltage of the installation is that field, scaled.
"""

from contextlib import suppress
from dataclasses import dataclass, replace
from functools import partial

from shedlight.geometry.curves import Curve, Line, Point
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.field.adapt import Solution, solve
from shedlight.physics.field.domain import (
    CancelledError,
    FieldError,
    Film,
    Medium,
    Problem,
    Shape,
    Side,
)
from shedlight.physics.field.kept import kept
from shedlight.physics.field.meshing import Fineness
from shedlight.physics.field.profiles import Profile, profile
from shedlight.physics.field.proof import Proof, proof_of
from shedlight.physics.field.summary import CornerField, RegionField, corners_of, regions_of
from shedlight.sources import cite
from shedlight.trace import Input, Kind, Label, Number, Step
from shedlight.workings.numbers import from_table

LIVE, EARTH = "live", "earth"
METAL = {
    "conductor": LIVE,
    "clamps": EARTH,
    "cover": EARTH,
    "live ring": LIVE,
    "earth ring": EARTH,
}
OTHER_MESH = (
    "no field came of the usual mesh: open space ends elsewhere here than where it is proved"
)
FAR = 8.0  # how much farther than drawn open space reaches: takes less than 1e-5 of C
# Where no field comes out: how much nearer or farther open space ends, and elements across a gap.
# Its bounds hold for open space wherever that is.
SECOND_TRIES = ((0.6, 0.7), (1.3, 1.0), (0.5, 1.5))
TOLERANCE = 1e-4
MOST_KEPT = 30_000  # elements of the solutions kept for pictures and readings
AIR_SURFACES = ("collar side", "air side")
_GAS = cite("first principles", "permittivity of a dilute gas, 1.0006", "exact")
_FIELD = cite("first principles", "electro-quasi-static field, solved by finite elements", "exact")
_NAMES = {
    "C": "Capacitance of the bushing",
    "C_0": "Capacitance without losses, middle of its bounds",
    "add": "What losses add to the capacitance",
    "low": "Lower bound of the capacitance without losses",
    "high": "Upper bound of the capacitance without losses",
    "tan": "Loss factor of the bushing",
    "doubt": "Doubt about the capacitance",
}
_SURFACES = (
    ("air side", "air"),
    ("air side", "porcelain"),
    ("oil side", "tank oil"),
    ("oil side", "porcelain"),
    ("stem", "oil"),
    ("bore", "oil"),
    ("bore", "porcelain"),
    ("clamps", "air"),
    ("cap", "air"),
    ("live ring", "air"),
    ("earth ring", "air"),
    ("shield", "tank oil"),
    ("hole wall", "clearance"),
    ("hole side", "clearance"),
)


@dataclass(frozen=True)
class SurfaceState:
    """What lies on the surface in air: nothing, or conducting films on stretches of it."""

    name: str
    films: tuple[Film, ...] = ()


DRY = SurfaceState("dry")


@dataclass(frozen=True)
class Filling:
    """Material, permittivity and loss factor of one region, with where they come from."""

    region: str
    material: str
    permittivity: Number
    loss_factor: Number

    @property
    def medium(self) -> Medium:
        """The same for the solver."""
        return Medium(float(self.permittivity), float(self.loss_factor))


@dataclass(frozen=True, eq=False)
class Field:
    """The field at one volt (rms or peak, as it is scaled), in one state of the surface."""

    state: SurfaceState
    fillings: tuple[Filling, ...]
    capacitance: Number
    capacitance_loss_free: Number
    losses_add: Number
    capacitance_low: Number
    capacitance_high: Number
    loss_factor: Number
    doubt: Number
    proof: Proof
    regions: tuple[RegionField, ...]
    corners: tuple[CornerField, ...]
    surfaces: tuple[Profile, ...]

    def surface(self, edge: str, region: str) -> Profile:
        """What a region sees along an edge."""
        return next(s for s in self.surfaces if (s.edge, s.region) == (edge, region))

    def region(self, name: str) -> RegionField:
        """Mean and largest field of a region."""
        return next(r for r in self.regions if r.region == name)


def field_of(
    installation: Installation,
    section: Section,
    state: SurfaceState = DRY,
    tolerance: float = TOLERANCE,
) -> Field:
    """The field of a bushing on its transformer, at one volt.

    Args:
        installation: What was described.
        section: Its section.
        state: What lies on the surface in air.
        tolerance: Largest relative distance of the two bounds of the capacitance [1].

    Raises:
        FieldError: the field cannot be found to the tolerance; says where and why.
    """
    fillings = fillings_of(installation)
    asked = problem_of(section, fillings, installation.duty.frequency, state)
    solution = solved(asked, tolerance)
    beyond = () if solution.problem == asked else (OTHER_MESH,)
    return _record(solution, state, fillings, beyond)


@kept(lambda solution: solution.mesh.elements, MOST_KEPT)
def solved(problem: Problem, tolerance: float = TOLERANCE) -> Solution:
    """The solution of a problem; the last few are kept, for pictures and readings.

    Where a mesh does not do, others are tried before it is given up: by chance, an edge of a few
    micrometres may stand so that the cells round it come out badly.

    Args:
        problem: What is to be solved.
        tolerance: Largest relative distance of the two bounds of the capacitance [1].

    Raises:
        FieldError: the field cannot be found to the tolerance.
    """
    try:
        return solve(problem, tolerance)
    except CancelledError:
        raise
    except FieldError as failed:
        for times, across in SECOND_TRIES:
            with suppress(FieldError):
                return solve(_with_far_moved(problem, times), tolerance, fineness=Fineness(across))
        raise failed from None


def problem_of(
    section: Section,
    fillings: tuple[Filling, ...],
    frequency: float,
    state: SurfaceState = DRY,
    far: float = FAR,
) -> Problem:
    """A section as the field room wants it, one volt on its live metal.

    Args:
        section: The section.
        fillings: What fills its regions.
        frequency: Of the voltage [Hz].
        state: What lies on the surface in air.
        far: How much farther than drawn open space reaches [1].
    """
    media = {filling.region: filling.medium for filling in fillings}
    ends = dict.fromkeys((f.edge, end) for f in state.films for end in (f.low, f.high))
    whole = {edge: section.curve(edge).length for edge, _ in ends}
    cuts = tuple((edge, end) for edge, end in ends if 0 < end < whole[edge] * (1 - 1e-9))
    shape = Shape(_sides(section, far), cuts)
    return Problem(shape, media, {LIVE: 1.0, EARTH: 0.0}, state.films, frequency)


def wet(section: Section, conductance: float, name: str = "wet") -> SurfaceState:
    """The whole surface in air covered with one film.

    Args:
        section: The section.
        conductance: Of the film [S] (per square).
        name: Of the state.
    """
    edges = [(edge, section.curve(edge).length) for edge in AIR_SURFACES]
    return SurfaceState(name, tuple(Film(edge, 0.0, end, conductance) for edge, end in edges))


def wet_on(
    stretches: tuple[tuple[str, float, float], ...], conductance: float, name: str = "partly wet"
) -> SurfaceState:
    """Only some stretches covered.

    Args:
        stretches: Edge, and lengths along it from which to which it is wet [m].
        conductance: Of the film [S] (per square).
        name: Of the state.
    """
    films = tuple(Film(edge, low, high, conductance) for edge, low, high in stretches)
    return SurfaceState(name, films)


def fillings_of(installation: Installation) -> tuple[Filling, ...]:
    """What fills every region of a section.

    Args:
        installation: What was described.
    """
    bushing = installation.bushing
    porcelain = f"porcelain {bushing.porcelain.material}"
    gas = from_table(1.0, "Permittivity of air", 'epsilon_"a"', "1", _GAS, "air")
    none = from_table(0.0, "Loss factor of air", "tan delta", "1", _GAS, "air")
    in_hole = "oil" if installation.transformer.hole_bled else "air"
    fills = {"oil": "oil", "tank oil": "oil", "clearance": in_hole, "air": "air"}
    found = []
    for region, what in fills.items():
        if what == "air":
            found.append(Filling(region, "air", gas, none))
        else:
            found.append(_filling(region, "oil"))
    found.append(_filling("porcelain", porcelain))
    rubber = material_property(bushing.gasket.material, "permittivity")
    return (*found, Filling("gasket", bushing.gasket.material, rubber, none))


def _filling(region: str, material: str) -> Filling:
    return Filling(
        region,
        material,
        material_property(material, "permittivity"),
        material_property(material, "loss_factor"),
    )


def _sides(section: Section, far: float) -> tuple[Side, ...]:
    reach = max(point.r for point in section.curve("far air").points())
    found = []
    for edge in section.edges.values():
        left, right = (_meshed(name, section) for name in (edge.left, edge.right))
        if left is None and right is None:
            continue
        electrode = next((METAL[n] for n in (edge.left, edge.right) if n in METAL), None)
        curve = _moved(edge.curve, reach, far) if _is_far(edge.curve, reach) else edge.curve
        is_open = edge.name.startswith("far") and electrode is None
        found.append(Side(edge.name, curve, left, right, electrode, is_open))
    return tuple(found)


def _meshed(name: str, section: Section) -> str | None:
    return name if name in {region.name for region in section.regions} - set(METAL) else None


def _is_far(curve: Curve, reach: float) -> bool:
    return any(max(p.r, abs(p.z)) >= reach * (1 - 1e-9) for p in curve.points())


def _moved(curve: Curve, reach: float, far: float) -> Curve:
    """The same lines with what is far away moved farther."""

    def move(p: Point) -> Point:
        r = p.r * far if p.r >= reach * (1 - 1e-9) else p.r
        z = p.z * far if abs(p.z) >= reach * (1 - 1e-9) else p.z
        return Point(r, z)

    return Curve(tuple(Line(move(piece.start), move(piece.end)) for piece in curve.pieces))


def _with_far_moved(problem: Problem, times: float) -> Problem:
    """The same with open space ending nearer or farther."""
    sides = problem.shape.sides
    points = [point for side in sides for point in side.curve.points()]
    reach = max(max(point.r, abs(point.z)) for point in points)
    moved = tuple(
        replace(side, curve=_moved(side.curve, reach, times))
        if _is_far(side.curve, reach)
        else side
        for side in sides
    )
    return replace(problem, shape=Shape(moved, problem.shape.cuts))


def _record(
    solution: Solution,
    state: SurfaceState,
    fillings: tuple[Filling, ...],
    beyond: tuple[str, ...],
) -> Field:
    proof = proof_of(solution)
    edges = {side.name: (side.left, side.right) for side in solution.problem.shape.sides}
    return Field(
        state=state,
        fillings=fillings,
        **_numbers(proof, fillings, beyond),
        proof=proof,
        regions=regions_of(solution),
        corners=corners_of(solution),
        surfaces=tuple(
            profile(solution, edge, region)
            for edge, region in _SURFACES
            if region in edges.get(edge, ())
        ),
    )


def _numbers(
    proof: Proof, fillings: tuple[Filling, ...], beyond: tuple[str, ...]
) -> dict[str, Number]:
    """The whole as a capacitor, with what each number hangs on."""
    still = tuple(filling.permittivity for filling in fillings)
    lossy = (*still, *(filling.loss_factor for filling in fillings))
    low, high = proof.capacitance_low, proof.capacitance_high
    made = partial(_solved_number, beyond)
    return {
        "capacitance": made(proof.capacitance, _NAMES["C"], "C", "pF", lossy),
        "capacitance_loss_free": made(
            proof.capacitance_loss_free, _NAMES["C_0"], "C_0", "pF", still
        ),
        "losses_add": made(proof.losses_add, _NAMES["add"], "delta_C", "%", lossy),
        "capacitance_low": made(low, _NAMES["low"], 'C_"low"', "pF", still),
        "capacitance_high": made(high, _NAMES["high"], 'C_"high"', "pF", still),
        "loss_factor": made(proof.loss_by_admittance, _NAMES["tan"], "tan delta", "1", lossy),
        "doubt": made(proof.gap, _NAMES["doubt"], "delta", "%", still),
    }


def _solved_number(
    beyond: tuple[str, ...],
    value: float,
    name: str,
    symbol: str,
    unit: str,
    origins: tuple[Number, ...],
) -> Number:
    used = tuple(Input(origin.step.label, float(origin), (origin.step,)) for origin in origins)
    label = Label(name, symbol, unit)
    note = "field of the whole section, solved by finite elements with proved bounds"
    step = Step(Kind.FORMULA, label, value, _FIELD, '"field solution"', used, note, beyond)
    return Number(value, step)
