"""The wall inside the hole: oil, porcelain, the gap to the hole's edge, the earthed edge."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, Rival, held, not_assessed, rival
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.given.parts import Flange
from shedlight.physics.radial.gas import breakdown_gradient, cavity_gradient
from shedlight.physics.radial.layers import mean_gradient
from shedlight.physics.radial.puncture import puncture_voltage
from shedlight.physics.voltages import with_factor
from shedlight.trace import Label, Number, calculate, measured
from shedlight.workings import Workings
from shedlight.workings.oil import OilStrength
from shedlight.workings.radial import INSIDE_HOLE

EDGE_CAP = "the edge law is a rule for thin walls; ask for a discharge measurement"
_OF_THE_OIL = {
    "Dry power-frequency test": "oil_mean",
    "Lightning impulse taken as a.c.": "oil_mean_impulse",
}


@answers("wall.radial.oil")
def oil_stress(question: Question, case: Installation, work: Workings) -> Check:
    """Mean stress of the oil space at the dry test against the design curve."""
    stress = work.radial.stress("oil", "oil", "dry test")
    impulse = work.radial.stress("oil", "oil", "lightning")
    radii = work.section.radii
    width = measured(
        radii.bore - radii.conductor, Label("Width of the oil space", "d", "mm"), INSIDE_HOLE
    )
    ratio = work.voltages.lightning_as_ac / work.voltages.lightning
    as_ac = calculate(mean_gradient, calculate(with_factor, impulse.voltage, ratio), width)
    strength = work.oil.space_strength
    both = {"Dry power-frequency test": stress.mean, "Lightning impulse taken as a.c.": as_ac}
    governing, other = sorted(both, key=lambda name: both[name], reverse=True)
    return held(
        question,
        both[governing],
        strength,
        place="stem",
        rivals=(
            rival(question, other, both[other], strength),
            rival(question, in_state(work.oil.other), both[governing], work.oil.other.space),
            *_solved(question, work, _OF_THE_OIL[governing], strength),
        ),
        notes=(
            f"Holds only {INSIDE_HOLE}.",
            f"Curve for {work.oil.state} oil on bare metal.",
        ),
    )


@answers("wall.radial.porcelain")
def porcelain_stress(question: Question, case: Installation, work: Workings) -> Check:
    """Largest stress of the porcelain at the dry test against the design stress."""
    stress = work.radial.stress("porcelain", "oil", "dry test")
    return held(
        question,
        stress.inner,
        limit("porcelain stress"),
        place="bore",
        rivals=_solved(question, work, "porcelain_largest", limit("porcelain stress")),
        notes=(f"Holds only {INSIDE_HOLE}.",),
    )


def in_state(other: OilStrength) -> str:
    """How a rival is called that rests on the other state of the oil."""
    return f"If the oil were {other.state}"


def _solved(question: Question, work: Workings, name: str, capability: Number) -> tuple[Rival, ...]:
    """The same stress from the field solution, if there is one."""
    if isinstance(work.discharges, str):
        return ()
    return (rival(question, "Field solution", getattr(work.discharges, name), capability),)


@answers("wall.hole-gap")
def hole_gap(question: Question, case: Installation, work: Workings) -> Check:
    """Field in the gap at the hole, in what fills it, against inception in it."""
    radial = work.radial
    gas = radial.stress("gap", "gas", "service").inner
    gas_inception = calculate(breakdown_gradient, radial.gas_inception, radial.gap_width)
    oil = radial.stress("gap", "oil", "service").inner
    curve = work.oil.hole_gap_strength
    if case.transformer.hole_bled:
        demand, capability = oil, curve
        others = [
            rival(question, "If gas stays in the gap", gas, gas_inception),
            rival(question, in_state(work.oil.other), oil, work.oil.other.hole),
        ]
    else:
        demand, capability = gas, gas_inception
        others = [rival(question, "If oil fills the gap", oil, curve)]
    notes = ["By coaxial layers; a thin cover draws more flux into the gap: solve the field."]
    if not isinstance(work.discharges, str):
        others.append(rival(question, "Coaxial layers", demand, capability))
        demand = work.discharges.hole_gap
        notes = ["By the solved field in the middle of the hole; nearer its rim the field is more."]
    return held(
        question,
        demand,
        capability,
        place="hole wall",
        rivals=tuple(others),
        notes=tuple(notes),
    )


@answers("wall.bubble")
def bubble(question: Question, case: Installation, work: Workings) -> Check:
    """Field in a bubble (or a gas layer, if the level may fall below the top) in service."""
    radial = work.radial
    at_stem = radial.stress("oil", "oil", "service").inner
    head = work.oil.head_at_vent
    falls_short = head is not None and head < 0
    factor = radial.film_factor if falls_short else radial.bubble_factor
    inception = calculate(breakdown_gradient, radial.bubble_inception, radial.bubble_size)
    what = "a gas layer: the oil may sink below the top" if falls_short else "a round bubble"
    return held(
        question,
        calculate(cavity_gradient, at_stem, factor),
        inception,
        place="cavity top",
        notes=(f"Taken as {what}.", "Larger bubbles begin to discharge at a lower field."),
    )


@answers("wall.puncture")
def puncture(question: Question, case: Installation, work: Workings) -> Check:
    """Dry flashover with its factor against an estimate of the wall's puncture voltage."""
    porcelain = case.bushing.porcelain
    thinnest = min(porcelain.wall, porcelain.top_wall)
    wall = measured(thinnest, Label("Thinnest wall", "t_w", "mm"), "as described")
    return held(
        question,
        calculate(with_factor, work.air.dry_mean, limit("puncture ratio")),
        calculate(puncture_voltage, limit("puncture stress"), wall),
        place="bore",
        notes=("An estimate for the wall alone, after the oil has given way; a test decides.",),
    )


@answers("flange.inception")
def earthed_edge(question: Question, case: Installation, work: Workings) -> Check:
    """Service voltage against inception at the earthed edge that touches porcelain or oil."""
    radial, demand = work.radial, work.voltages.discharge_free
    if isinstance(case.bushing.fixing, Flange):
        place, edge = "clamps", radial.edge_in_air
        note = "The flange's edge touches the porcelain in air."
    elif case.transformer.hole_bled:
        place, edge = "hole wall", radial.edge_in_oil
        note = "The clamps stand off; the earthed edge is the hole's, under oil."
    else:
        place, edge = "hole wall", radial.edge_in_air
        note = "The hole's edge stands in trapped gas: the cover is not said to be bled."
    others = _at_edge(question, case, work, place)
    return held(question, demand, edge, place=place, rivals=others, notes=(note,), cap=EDGE_CAP)


def _at_edge(
    question: Question, case: Installation, work: Workings, place: str
) -> tuple[Rival, ...]:
    """Inception at the same edge by the field solution, if there is one."""
    found = work.discharges
    if isinstance(found, str):
        return ()
    of_field = found.clamps if place == "clamps" else found.hole
    if of_field is None:
        return ()
    in_oil = place == "hole wall" and case.transformer.hole_bled
    title = "Gap curve in the solved field" if in_oil else "Streamer in the solved field"
    return (rival(question, title, work.voltages.discharge_free, of_field.inception),)


@answers("flange.gliding")
def gliding(question: Question, case: Installation, work: Workings) -> Check:
    """Dry test level against gliding inception, where the law holds at all."""
    if work.radial.gliding.step.beyond:
        return not_assessed(
            question,
            "the wall is thick for its voltage: below 0.25 pF/cm² the gliding law does not hold, "
            "and plain flashover of the air end governs",
            place="clamps",
        )
    return held(question, work.voltages.dry, work.radial.gliding, place="clamps", cap=EDGE_CAP)
