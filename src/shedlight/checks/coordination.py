"""What compares rooms: which part of the bushing gives way first."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, fact, held
from shedlight.checks.horns import NO_HORNS
from shedlight.given.bushing import Installation
from shedlight.physics.air.weather_of_the_day import sparkover_at_site
from shedlight.physics.oil.immersion import creep_voltage
from shedlight.trace import calculate
from shedlight.workings import Workings


@answers("coordination.air-oil")
def air_before_oil(question: Question, case: Installation, work: Workings) -> Check:
    """Dry flashover of the air end against what the oil end's surface holds."""
    oil_end = calculate(creep_voltage, work.oil.creep_strength, work.oil.creepage)
    note = "Both at power frequency; the wall is compared under wall.puncture."
    return held(
        question,
        work.air.dry_mean,
        oil_end,
        place="oil side",
        notes=(note,),
        cap="the creep curve is held from memory only",
    )


@answers("coordination.horns-bushing")
def horns_before_bushing(question: Question, case: Installation, work: Workings) -> Check:
    """Lightning: the horns have sparked over before the way along the bushing may."""
    horns = work.air.horns
    if horns is None:
        return fact(question, True, NO_HORNS)
    along = calculate(sparkover_at_site, work.air.lightning_withstand, work.voltages.density)
    note = "Both in the mean air of the site, which lowers them alike."
    return held(question, horns.high, along, place="horns", notes=(note,))
