"""The air end and the horns: lightning, rain, dry test, glow, protection."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, Rival, fact, held, not_assessed, rival
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.physics.voltages import with_factor
from shedlight.sources import cite
from shedlight.trace import Label, calculate, measured
from shedlight.workings import Workings
from shedlight.workings.numbers import Description

NO_HORNS = "no horns are fitted"
_SHAPE = cite("first principles", "geometry", "exact")


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


@answers("horns.protection")
def protection(question: Question, case: Installation, work: Workings) -> Check:
    """High side of the horns' sparkover in the site's air against the level with its margin."""
    horns = work.air.horns
    if horns is None:
        reason = f"{NO_HORNS}; what protects the transformer against lightning is not described"
        return not_assessed(question, reason)
    notes = (
        f"Sparkover between {horns.low / 1e3:.0f} and {horns.high / 1e3:.0f} kV; a steep wave "
        "goes higher. Horns are a back-up: an arrester protects.",
    )
    bound = calculate(with_factor, work.voltages.lightning, limit("horn margin"))
    return held(question, horns.high, bound, place="horns", notes=notes)


@answers("horns.ride-through")
def ride_through(question: Question, case: Installation, work: Workings) -> Check:
    """Temporary overvoltage with its margin against the wet low side of the horns."""
    horns = work.air.horns
    if horns is None:
        return fact(question, True, NO_HORNS)
    demand = calculate(with_factor, work.voltages.temporary, limit("horn ride-through"))
    return held(question, demand, horns.wet_low, place="horns")


@answers("horns.standoff")
def standoff(question: Question, case: Installation, work: Workings) -> Check:
    """Horn gap against the way round by the porcelain: out to the sheds and back."""
    horns = case.bushing.horns
    if horns is None:
        return fact(question, True, NO_HORNS)
    widest = max([s.tip_radius for s in work.section.sheds] or [work.section.radii.body])
    clear = horns.reach - horns.rod_diameter / 2 - widest
    if clear <= 0:
        return fact(question, False, "the horns touch the sheds", place="horns", citation=_SHAPE)
    way = measured(
        2 * clear, Label("From horn to sheds and back", "2 a", "mm"), "reach less sheds, twice"
    )
    number = Description(case)
    return held(question, number("bushing.horns.gap"), way, place="horns", cap="practice")
