"""What the solved field says: its own proof, streamers in air, creep and gaps in oil."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, held, not_assessed
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.workings import Workings

CRITERION = "a streamer can start is not yet a flashover; a discharge measurement decides"
CURVES = "the design curves and the oil's state are held from memory only"


@answers("field.proof")
def proof(question: Question, case: Installation, work: Workings) -> Check:
    """Distance of the proved bounds of the capacitance against what a proof may leave open."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges)
    field = work.discharges.field
    low, high = 1e12 * field.capacitance_low, 1e12 * field.capacitance_high
    note = f"The capacitance lies between {low:.4f} and {high:.4f} pF; order {field.proof.order}."
    return held(question, field.doubt, limit("field doubt"), notes=(note,))


@answers("cap.streamer")
def at_cap(question: Question, case: Installation, work: Workings) -> Check:
    """Raised service voltage against streamer inception at cap and terminal."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges, place="cap")
    inception = work.discharges.cap.inception
    note = "Terminal as a round stem; a palm's corners and the connector are not in the section."
    return held(
        question, work.voltages.glow_free, inception, place="cap", notes=(note,), cap=CRITERION
    )


@answers("flange.streamer")
def at_clamps(question: Question, case: Installation, work: Workings) -> Check:
    """Raised service voltage against streamer inception at the earthed edge in air."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges, place="clamps")
    inception = work.discharges.clamps.inception
    return held(question, work.voltages.discharge_free, inception, place="clamps", cap=CRITERION)


@answers("oil.creep.cumulative")
def creep(question: Question, case: Installation, work: Workings) -> Check:
    """Cumulated mean stress along the oil-side surface against the creep curve."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges, place="oil side")
    worst = work.discharges.creep
    note = f"Nearest to the curve over {1e3 * worst.length:.1f} mm."
    return held(question, worst.mean, worst.strength, place="oil side", notes=(note,), cap=CURVES)


@answers("oil.gap.field-line")
def gap(question: Question, case: Installation, work: Workings) -> Check:
    """Mean stress along the worst field line from the shield against the gap curve."""
    if isinstance(work.discharges, str):
        return not_assessed(question, work.discharges, place="shield")
    worst = work.discharges.gap
    note = f"Nearest to the curve over the first {1e3 * worst.length:.1f} mm from the shield."
    return held(question, worst.mean, worst.strength, place="shield", notes=(note,), cap=CURVES)
