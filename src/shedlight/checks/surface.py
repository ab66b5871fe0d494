"""The surface in air: creepage for the dirt of the site, and what stays dry in rain."""

import math
from collections.abc import Iterator

from shedlight.checks.catalogue import answers
from shedlight.checks.check import (
    Check,
    Question,
    Rival,
    fact,
    held,
    ratio_margin,
    rival,
)
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.physics.surface.ratios import share_of_path
from shedlight.sources import cite
from shedlight.trace import calculate
from shedlight.units import amount, digits
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
    # What is too short without a factor for thin air is too short by every rule, and firmly so.
    short = surface.creepage < surface.required_uncorrected
    return held(
        question,
        surface.required_uncorrected if short else surface.required,
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
            f"earth faults are cleared in {amount(case.duty.earth_fault_duration, 's')}, too "
            "soon for dirt and fog to build an arc"
        )
        what_if = (
            f"Were the fault left standing, {amount(surface.required_in_fault, 'mm')} would be "
            f"needed: a margin of {amount(margin, '%')}.",
        )
        return fact(question, True, reason, place="air side", citation=_TRADE, notes=what_if)
    return held(question, surface.required_in_fault, surface.creepage, place="air side")


_TRADE = cite("trade", "faults cleared within 10 s count as not standing", "practice", "low")


@answers("surface.rain-dry")
def dry_in_rain(question: Question, case: Installation, work: Workings) -> Check:
    """Wanted dry share against the share that rain leaves dry on the side it strikes most."""
    rain, creepage = work.rain, work.surface.creepage
    share = calculate(share_of_path, rain.stated.dry, creepage)
    rivals: tuple[Rival, ...] = ()
    if rain.worst_natural is not None:
        natural = calculate(share_of_path, rain.worst_natural.dry, creepage)
        rivals = (rival(question, "Natural rain of the site", limit("dry share"), natural),)
    return held(
        question,
        limit("dry share"),
        share,
        place="air side",
        rivals=rivals,
        notes=tuple(_rain_notes(case, work)),
    )


def _rain_notes(case: Installation, work: Workings) -> Iterator[str]:
    rain = work.rain
    yield (
        "Counts in rain only: fog wets everything, dry undersides too, and what rain does not "
        "strike it does not wash. Splash and run-off are left out."
    )
    if case.transformer.mounting_angle > 0:
        yield (
            f"Mounted {amount(case.transformer.mounting_angle, '°')} from upright, it may turn to "
            f"the rain at {amount(rain.stated.off_axis, '°')} off its axis: the side that rain "
            "strikes most counts, the other side stays drier."
        )
    if rain.natural:
        slants = [math.degrees(one.slant) for one in rain.natural]
        yield (
            "In the natural rain described each fifth of the water comes at "
            f"{digits(slants[0])}° to {digits(slants[-1])}° from the vertical, the small drops "
            "flattest."
        )
    if rain.bridged:
        narrow = min(gap.fall for gap in rain.bridged)
        yield (
            f"Drops fall {amount(narrow, 'mm')} through the narrowest gap: strings of them may "
            f"close {len(rain.bridged)} of {len(rain.gaps)} gaps in heavy rain and leave "
            f"{amount(rain.left_when_bridged, 'mm')} of creepage."
        )
