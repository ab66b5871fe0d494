"""The air end: lightning, rain, dry test, switching, glow."""

from dataclasses import replace

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, Rival, fact, held, rival
from shedlight.checks.horns import NO_HORNS
from shedlight.given.bushing import Installation
from shedlight.units import amount
from shedlight.workings import Workings
from shedlight.workings.glow import Glow

SHIELDED = "The live ring shields the cap, which this does not count: the solved field does."


@answers("cap.corona")
def glow(question: Question, case: Installation, work: Workings) -> Check:
    """Largest field at the cap's edge in service against glow inception."""
    others: tuple[Rival, ...] = ()
    if not isinstance(work.discharges, str):
        inception = work.discharges.cap.inception
        others = (
            rival(question, "Streamer in the solved field", work.voltages.glow_free, inception),
        )
    found = _glowing(question, work.air.glows.cap, "cap", others)
    return replace(found, notes=(*found.notes, SHIELDED)) if case.bushing.live_ring else found


@answers("terminal.corona")
def glow_of_terminal(question: Question, case: Installation, work: Workings) -> Check:
    """Largest field at the terminal's edge in service against glow inception."""
    return _glowing(question, work.air.glows.terminal, "terminal")


@answers("horns.corona")
def glow_of_horns(question: Question, case: Installation, work: Workings) -> Check:
    """Largest field at the horns' tips in service against glow inception."""
    if work.air.glows.horns is None:
        return fact(question, True, NO_HORNS)
    return _glowing(question, work.air.glows.horns, "horns")


def _glowing(question: Question, found: Glow, place: str, others: tuple[Rival, ...] = ()) -> Check:
    wet = "glow in rain too" if found.gradient > found.in_rain else "stay dark in rain"
    notes = (
        f"Reckoned at {found.place}, as the tip of a rod before a plane: the safe side.",
        f"Drops hanging on it glow from {amount(found.in_rain, 'kV/mm')} on; they {wet}.",
    )
    return held(question, found.gradient, found.inception, place=place, rivals=others, notes=notes)


@answers("air.arcing-distance.lightning")
def lightning(question: Question, case: Installation, work: Workings) -> Check:
    """Required lightning withstand against that of the arcing distance, and the table beside it."""
    air = work.air
    table = rival(question, "Clearance table", air.clearance, air.arcing)
    notes = (
        f"Sparkover scatters: mean {amount(air.lightning_mean, 'kV')}; the withstand is the value "
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
    notes = ["Positive polarity, dry; rain takes a few per cent more."]
    if case.bushing.live_ring or case.bushing.earth_ring:
        notes.append("The gap factor is that of a bushing without rings: the safe side with them.")
    return held(question, demand, capability, place="arcing path", notes=tuple(notes))
