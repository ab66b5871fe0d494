"""The air end: lightning, rain, dry test, switching, glow."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, Rival, fact, held, rival
from shedlight.given.bushing import Installation
from shedlight.workings import Workings


@answers("cap.corona")
def glow(question: Question, case: Installation, work: Workings) -> Check:
    """Largest field at the smallest live rounding in service against glow inception."""
    others: tuple[Rival, ...] = ()
    notes = ["Reckoned at the cap's edge, taken as a tip."]
    if case.bushing.horns:
        notes = ["Reckoned at the horn's tip, which is not round and not in the solved section."]
    elif not isinstance(work.discharges, str):
        inception = work.discharges.cap.inception
        others = (
            rival(question, "Streamer in the solved field", work.voltages.glow_free, inception),
        )
    return held(
        question,
        work.air.tip_gradient,
        work.air.tip_inception,
        place="cap",
        rivals=others,
        notes=tuple(notes),
    )


@answers("air.arcing-distance.lightning")
def lightning(question: Question, case: Installation, work: Workings) -> Check:
    """Required lightning withstand against that of the arcing distance, and the table beside it."""
    air = work.air
    table = rival(question, "Clearance table", air.clearance, air.arcing)
    notes = (
        f"Sparkover scatters: mean {air.lightning_mean / 1e3:.0f} kV; the withstand is the value "
        "that one impulse in ten exceeds.",
    )
    return held(
        question,
        work.voltages.required_lightning,
        air.lightning_withstand,
        place="arcing path",
        rivals=(table,),
        notes=notes,
    )


@answers("air.arcing-distance.wet-ac")
def wet(question: Question, case: Installation, work: Workings) -> Check:
    """Required wet withstand against the low side of what the arcing distance holds in rain."""
    air = work.air
    high = rival(question, "High side of the band", work.voltages.required_wet, air.wet_high)
    return held(
        question, work.voltages.required_wet, air.wet_low, place="arcing path", rivals=(high,)
    )


@answers("air.arcing-distance.dry-ac")
def dry(question: Question, case: Installation, work: Workings) -> Check:
    """Required dry withstand against that of the arcing distance."""
    demand = work.voltages.required_dry
    return held(question, demand, work.air.dry_withstand, place="arcing path")


@answers("air.switching")
def switching(question: Question, case: Installation, work: Workings) -> Check:
    """Required switching withstand against that of the arcing distance, where a level is asked."""
    demand, capability = work.voltages.required_switching, work.air.switching_withstand
    if demand is None or capability is None:
        return fact(question, True, "no switching level is asked of this bushing")
    note = "Positive polarity, dry; rain takes a few per cent more."
    return held(question, demand, capability, place="arcing path", notes=(note,))
