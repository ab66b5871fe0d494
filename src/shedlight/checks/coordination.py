"""What compares rooms: which part of the bushing gives way first."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, held
from shedlight.given.bushing import Installation
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
