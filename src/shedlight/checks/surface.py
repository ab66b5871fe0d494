"""The surface in air: creepage, profile, flashover, leakage, rain."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import (
    Check,
    Question,
    Rival,
    fact,
    held,
    not_assessed,
    ratio_margin,
    rival,
)
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.physics.surface.layer import film_resistance, highest_leakage_current, wet_current
from shedlight.physics.surface.ratios import (
    peak_of_wet_current,
    share_of_path,
    specific_creepage_given,
)
from shedlight.sources import cite
from shedlight.trace import calculate
from shedlight.workings import Workings
from shedlight.workings.surface import UNCORRECTED_TO

THIN_AIR = 1000.0
SALT_NOTE = (
    "Salt spray is liquid-type pollution: a dry deposit measurement misjudges it, and dry "
    "undersides do not help in salt fog."
)
DUST_NOTE = (
    "The measured non-soluble deposit is not in the formula: the class given has to cover it. Much "
    "dust holds more water and lowers the withstand."
)


@answers("surface.creepage")
def creepage(question: Question, case: Installation, work: Workings) -> Check:
    """Required creepage at the voltage to earth against the measured one."""
    surface = work.surface
    notes = [
        f"Class {item.letter} from {item.read_from}."
        for item in surface.severities
        if item is not surface.severity
    ]
    if case.site.salinity is not None:
        notes.append(SALT_NOTE)
    if case.site.insoluble_deposit is not None:
        notes.append(DUST_NOTE)
    rivals: tuple[Rival, ...] = ()
    if case.site.altitude > THIN_AIR:
        tentative = rival(
            question,
            "With the tentative altitude factor",
            surface.required_tentative,
            surface.creepage,
        )
        rivals = (tentative,)
        if case.site.altitude <= UNCORRECTED_TO:
            notes.append("Custom corrects creepage for altitude only above about 2000 m.")
    return held(
        question,
        surface.required,
        surface.creepage,
        place="air side",
        rivals=rivals,
        notes=tuple(notes),
    )


@answers("surface.creepage.earth-fault")
def creepage_in_fault(question: Question, case: Installation, work: Workings) -> Check:
    """Required creepage at the voltage of a standing earth fault, where one may stand."""
    surface, voltages = work.surface, work.voltages
    if not voltages.fault_is_sustained:
        margin = ratio_margin(surface.required_in_fault, surface.creepage)
        reason = (
            f"earth faults are cleared in {case.duty.earth_fault_duration:g} s, too soon for dirt "
            "and fog to build an arc"
        )
        what_if = (
            f"Were the fault left standing, {1e3 * surface.required_in_fault:.0f} mm would be "
            f"needed: a margin of {margin:.0%}.",
        )
        return fact(question, True, reason, place="air side", citation=_TRADE, notes=what_if)
    return held(question, surface.required_in_fault, surface.creepage, place="air side")


_TRADE = cite("trade", "faults cleared within 10 s count as not standing", "practice", "low")


@answers("surface.flashover")
def flashover(question: Question, case: Installation, work: Workings) -> Check:
    """Service voltage against the critical voltage of the fully wet, dirty surface."""
    surface = work.surface
    if surface.critical is None:
        return not_assessed(
            question,
            "the layer is not known: give the measured deposit; salt fog and class alone do not "
            "fix a layer conductivity",
            place="air side",
        )
    demand = work.voltages.phase
    rivals = tuple(
        rival(question, title, demand, capability) for title, capability in surface.other_criticals
    )
    notes = ("Closed form on the mean of the surface; a real profile may flash over lower.",)
    return held(question, demand, surface.critical, place="air side", rivals=rivals, notes=notes)


@answers("surface.leakage")
def leakage(question: Question, case: Installation, work: Workings) -> Check:
    """Current of the wet layer against the highest a surface carries without flashing over."""
    surface = work.surface
    if surface.layer is None:
        return not_assessed(question, "the layer is not known: give the measured deposit")
    resistance = calculate(film_resistance, surface.form_factor, surface.layer)
    current = calculate(
        peak_of_wet_current, calculate(wet_current, work.voltages.phase, resistance)
    )
    specific = calculate(specific_creepage_given, surface.creepage, work.voltages.phase)
    return held(question, current, calculate(highest_leakage_current, specific), place="air side")


@answers("surface.rain-dry")
def dry_in_rain(question: Question, case: Installation, work: Workings) -> Check:
    """Wanted dry share against the share the rain leaves dry, on the windward side."""
    if case.transformer.mounting_angle > 0:
        return not_assessed(question, "the rain shadow is worked out for upright mounting only")
    share = calculate(share_of_path, work.surface.dry_creepage, work.surface.creepage)
    note = "Splash, run-off and drips are left out. Counts in rain only: fog wets everything."
    return held(question, limit("dry share"), share, place="air side", notes=(note,))
