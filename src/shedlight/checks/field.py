"""What the solved field says: its own proof, streamers in air, creep and gaps in oil."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, Rival, held, not_assessed, rival
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.given.parts import Flange
from shedlight.units import amount, digits
from shedlight.workings import Workings

CRITERION = "a streamer can start is not yet a flashover; a discharge measurement decides"
CURVES = "the design curves and the oil's state are held from memory only"
HUMIDITY = (
    "Altitude is counted, humidity is not: publications find that water vapour may raise or lower "
    "inception with the geometry, and none is held here that fits the ionisation used. Drops on "
    "the metal lower inception far more."
)


@answers("field.proof")
def proof(question: Question, case: Installation, work: Workings) -> Check:
    """Distance of the proved bounds of the capacitance against what a proof may leave open."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges)
    field = work.discharges.field
    low, high = 1e12 * field.capacitance_low, 1e12 * field.capacitance_high
    note = (
        f"Without losses the capacitance lies at most {digits(1e6 * (high / low - 1))} parts per "
        f"million above {digits(low)} pF; losses add {digits(1e6 * field.losses_add)} parts per "
        f"million; order {field.proof.order}."
    )
    return held(question, field.doubt, limit("field doubt"), notes=(note,))


@answers("field.capacitance")
def capacitance(question: Question, case: Installation, work: Workings) -> Check:
    """The coaxial piece in the hole against the whole that holds it."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges)
    whole, piece = work.discharges.field.capacitance_low, work.discharges.hole_capacitance
    other = rival(question, "Charge on the conductor in the hole, solved field", piece, whole)
    share = piece / whole
    note = f"The conductor inside the hole holds {amount(share, '%')} of the whole."
    return held(
        question, work.radial.hole_capacitance, whole, place="stem", rivals=(other,), notes=(note,)
    )


@answers("field.loss-factor")
def loss_factor(question: Question, case: Installation, work: Workings) -> Check:
    """Loss factor of the whole against that of the worst material in it."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges)
    field = work.discharges.field
    worst = max(filling.loss_factor for filling in field.fillings)
    others = (
        rival(question, "By energy instead of admittance", work.discharges.loss_by_energy, worst),
        rival(question, "Coaxial layers in the hole", work.radial.loss_factor, worst),
    )
    note = "Surface dry and clean; a wet or dirty surface, or a grounded tap, reads otherwise."
    return held(question, field.loss_factor, worst, rivals=others, notes=(note,))


@answers("cap.streamer")
def at_cap(question: Question, case: Installation, work: Workings) -> Check:
    """Raised service voltage against streamer inception at cap and terminal."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges, place="cap")
    air, inception = work.air, work.discharges.cap.inception
    peek = rival(
        question,
        "Peek's law at the cap's rounding",
        air.glows.cap.gradient,
        air.glows.cap.inception,
    )
    note = "Terminal as a round stem; a palm's corners and the connector are not in the section."
    return held(
        question,
        work.voltages.glow_free,
        inception,
        place="cap",
        rivals=(peek,),
        notes=(note, HUMIDITY),
        cap=CRITERION,
    )


@answers("flange.streamer")
def at_clamps(question: Question, case: Installation, work: Workings) -> Check:
    """Raised service voltage against streamer inception at the earthed edge in air."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges, place="clamps")
    demand, inception = work.voltages.discharge_free, work.discharges.clamps.inception
    others: tuple[Rival, ...] = ()
    notes = [HUMIDITY]
    if isinstance(case.bushing.fixing, Flange):
        others = (rival(question, "Law of the touching edge", demand, work.radial.edge_in_air),)
    else:
        notes.append("The law of the touching edge belongs to the hole's edge: see its own check.")
    return held(
        question,
        demand,
        inception,
        place="clamps",
        rivals=others,
        notes=tuple(notes),
        cap=CRITERION,
    )


@answers("oil.creep.cumulative")
def creep(question: Question, case: Installation, work: Workings) -> Check:
    """Cumulated mean stress along the oil-side surface against the creep curve."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges, place="oil side")
    worst, oil = work.discharges.creep, work.oil
    whole = rival(question, "Mean of the whole surface", oil.creep_gradient, oil.creep_strength)
    notes = (
        f"Nearest to the curve over {amount(worst.length, 'mm')}.",
        f"The creep curve knows one state of the oil, clean and dry; described: {oil.state}.",
    )
    return held(
        question,
        worst.mean,
        worst.strength,
        place="oil side",
        rivals=(whole,),
        notes=notes,
        cap=CURVES,
    )


@answers("oil.gap.field-line")
def gap(question: Question, case: Installation, work: Workings) -> Check:
    """Mean stress along the worst field line from the shield against the gap curve."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges, place="shield")
    worst, other, oil = work.discharges.gap, work.discharges.gap_other, work.oil
    others = (
        rival(question, f"If the oil were {oil.other.state}", other.mean, other.strength),
        rival(question, "Sphere against a wall", oil.gap_gradient, oil.gap_strength),
    )
    notes = (
        f"Nearest to the curve over the first {amount(worst.length, 'mm')} from the shield.",
        f"Curve for {oil.state} oil; the tank's walls and leads are not in the section.",
    )
    return held(
        question,
        worst.mean,
        worst.strength,
        place="shield",
        rivals=others,
        notes=notes,
        cap=CURVES,
    )
