"""The horns: whether they protect, ride through, stay clear, and what their sparkover means."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, fact, held, not_assessed
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.sources import cite
from shedlight.trace import Label, measured
from shedlight.units import amount
from shedlight.workings import Workings
from shedlight.workings.horns import HornWindow, day_densities, window_of
from shedlight.workings.numbers import Description

HOUR = 3600.0
NO_HORNS = "no horns are fitted"
_SHAPE = cite("first principles", "geometry", "exact")
ARRESTER = (
    "An arrester limits the voltage without an arc, follows steep waves within tens of per cent "
    "and lets go by itself: it protects. Horns are a back-up."
)


def horn_window(work: Workings) -> HornWindow:
    """Which gaps suit the duty, by the limits of the trade.

    Args:
        work: What was computed.
    """
    factors = (limit("horn ride-through"), limit("horn margin"), limit("chopped wave"))
    return window_of(work.voltages, *factors)


@answers("horns.protection")
def protection(question: Question, case: Installation, work: Workings) -> Check:
    """High side of the horns' sparkover in the site's air against the level with its margin."""
    horns = work.air.horns
    if horns is None:
        reason = f"{NO_HORNS}; what protects the transformer against lightning is not described"
        return not_assessed(question, reason)
    days = day_densities(work.number)
    cold = horns.high * days.coldest / work.voltages.density
    hot = horns.low * days.hottest / work.voltages.density
    notes = (
        f"Sparkover between {amount(horns.low, 'kV')} (positive) and {amount(horns.high, 'kV')} "
        f"(negative) in mean air; {amount(hot, 'kV')} on the hottest day, {amount(cold, 'kV')} on "
        "the coldest.",
        ARRESTER,
    )
    return held(question, horns.high, horn_window(work).to_stay_below, place="horns", notes=notes)


@answers("horns.ride-through")
def ride_through(question: Question, case: Installation, work: Workings) -> Check:
    """Temporary overvoltage with its margin against the wet low side of the horns."""
    horns = work.air.horns
    if horns is None:
        return fact(question, True, NO_HORNS)
    return held(question, horn_window(work).to_stand, horns.wet_low, place="horns")


@answers("horns.window")
def window(question: Question, case: Installation, work: Workings) -> Check:
    """Narrowest gap that rides through against the widest that protects."""
    found = horn_window(work)
    notes = [_conflict(found) if found.is_empty else _place(found, case)]
    if case.bushing.horns is None:
        notes.append(f"{NO_HORNS[0].upper()}{NO_HORNS[1:]}: this is what they would have to be.")
    return held(question, found.narrowest, found.widest, place="horns", notes=tuple(notes))


def _conflict(found: HornWindow) -> str:
    return (
        f"No gap does both: standing {amount(found.to_stand, 'kV')} rms in rain asks for "
        f"{amount(found.narrowest, 'mm')} and more, letting no more than "
        f"{amount(found.to_stay_below, 'kV')} through for {amount(found.widest, 'mm')} and less. A "
        "lower overvoltage (better earthing), a higher lightning level, or an arrester instead."
    )


def _place(found: HornWindow, case: Installation) -> str:
    told = f"Gaps of {amount(found.narrowest, 'mm')} to {amount(found.widest, 'mm')} do both."
    if case.bushing.horns is None:
        return told
    gap = case.bushing.horns.gap
    if gap > found.widest:
        return f"{told} The one described, {amount(gap, 'mm')}, is too wide to protect."
    if gap < found.narrowest:
        return f"{told} The one described, {amount(gap, 'mm')}, is too narrow to ride through."
    return f"{told} The one described, {amount(gap, 'mm')}, lies among them."


@answers("horns.chopped-wave")
def chopped_wave(question: Question, case: Installation, work: Workings) -> Check:
    """What a steep wave reaches before the horns chop it against what windings are proved for."""
    horns = work.air.horns
    if horns is None:
        return fact(question, True, NO_HORNS)
    seconds = case.duty.earth_fault_duration
    clearing = f"{amount(seconds, 's')}" if seconds < HOUR else f"{amount(seconds, 'h')}"
    notes = (
        f"Every sparkover is an earth fault: the arc burns until the fault is cleared "
        f"({clearing} described) or goes out by itself in a resonant network.",
        "It also chops the wave: the winding sees the collapse, steeper than any front, and its "
        "first turns carry it. The level assumed here is that of the chopped-wave test; ask "
        "whether the transformer was tested so.",
        ARRESTER,
    )
    level = horn_window(work).chopped_level
    return held(question, horns.chopped, level, place="horns", notes=notes)


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
