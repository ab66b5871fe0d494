"""The wet, dirty surface under voltage: flashover in service, in overvoltage, leakage current."""

from collections.abc import Iterator

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, held, rival
from shedlight.checks.surface import DUST_NOTE, SALT_NOTE
from shedlight.given.bushing import Installation
from shedlight.physics.surface.layer_rules import LAYER_CONDUCTIVITY_RULES
from shedlight.units import amount, digits
from shedlight.workings import Workings
from shedlight.workings.flashover import Flashover
from shedlight.workings.voltages import SUSTAINED
from shedlight.workings.wet_layer import MEASURED, SALTED

OF_CLASS = "Reference creepage of the class"
DERIVED = "the layer is derived from the class, not measured"


LEANING_NOTE = (
    "Upper and lower sides are those of the sheds of an upright bushing; on a leaning one the dirt "
    "lies on the upper half round the body instead."
)


@answers("surface.flashover")
def flashover(question: Question, case: Installation, work: Workings) -> Check:
    """Service voltage against what the fully wet, dirty surface holds."""
    found, demand = work.flashover, work.voltages.phase
    of_class = rival(question, OF_CLASS, work.surface.required, work.surface.creepage)
    rivals = (rival(question, title, demand, other) for title, other in found.rivals)
    return held(
        question,
        demand,
        found.held,
        place="air side",
        rivals=(of_class, *rivals),
        notes=tuple(_flashover_notes(case, work)),
        cap=_cap(work),
    )


@answers("surface.flashover.overvoltage")
def flashover_in_overvoltage(question: Question, case: Installation, work: Workings) -> Check:
    """Temporary overvoltage against what the fully wet, dirty surface holds."""
    lasting = case.duty.earth_fault_duration
    brief = lasting <= SUSTAINED
    note = (
        f"The fault is cleared in {amount(lasting, 's')}: fault, full dirt and fog have to meet. "
        "Too short to build up an arc from nothing, it is long enough for one that burns already."
        if brief
        else f"The overvoltage stands for {amount(lasting, 's')}: long enough for any fog."
    )
    return held(
        question,
        work.voltages.temporary,
        work.flashover.held,
        place="air side",
        notes=(note,),
        cap="fault, full dirt and fog have to meet" if brief else _cap(work),
    )


@answers("surface.leakage")
def leakage(question: Question, case: Installation, work: Workings) -> Check:
    """Current of the wet layer against the highest a surface carries without flashing over."""
    found = work.leakage
    hottest = found.necks[0]
    where = ", ".join(
        f"{digits(1e3 * neck.start)} to {digits(1e3 * neck.end)}" for neck in found.necks[:4]
    )
    more = f" and {len(found.necks) - 4} more" if len(found.necks) > 4 else ""
    notes = (
        f"The heat gathers where the surface is narrow: up to {digits(hottest.heat / 1e3)} kW/m² "
        f"at creepage {where} mm{more}, counted from the clamps. There it dries first, in no less "
        f"than {amount(found.dries_in, 's')}, and dry bands begin.",
        f"Before dry bands {amount(found.current, 'mA')} rms flow; they lower the mean and leave "
        "short surges.",
    )
    custom = rival(question, "Highest current by specific creepage", found.peak, found.highest)
    return held(
        question,
        found.peak,
        work.flashover.current,
        place="air side",
        rivals=(custom,),
        notes=notes,
        cap=_cap(work),
    )


def _cap(work: Workings) -> str:
    return DERIVED if work.dirt.layer.derived_from_class else ""


def _flashover_notes(case: Installation, work: Workings) -> Iterator[str]:
    dirt, found = work.dirt, work.flashover
    layer = dirt.layer
    if layer.read_from == SALTED:
        yield f"{SALT_NOTE} The layer is that of the salt-fog test of this salinity."
    else:
        derived = " (derived from the class, not measured)" if layer.derived_from_class else ""
        by_rule = (
            f"{digits(1e6 * rule(float(layer.severity)))} µS ({name})"
            for name, rule in LAYER_CONDUCTIVITY_RULES.items()
        )
        yield (
            f"A deposit of {amount(layer.severity, 'mg/cm²')}{derived} makes at 20 °C by the rival "
            f"rules {', '.join(by_rule)}: the choice decides more than anything else here."
        )
    if case.site.insoluble_deposit is not None and layer.read_from != MEASURED:
        yield DUST_NOTE
    if case.site.deposit_below is not None and case.transformer.mounting_angle > 0:
        yield LEANING_NOTE
    yield _class_or_arc(work)
    yield _profile_note(found.profile_costs[0], found.arc.leaps)
    yield "Fog wets everything: undersides that stay dry in rain do not help here."
    if dirt.washed is not None and found.after_rain is not None:
        yield (
            f"A shower of {amount(dirt.washed.rain, 'mm')} leaves "
            f"{amount(dirt.washed.left / layer.severity, '%')} of the salt where it strikes "
            f"and all of it "
            f"on the {amount(work.rain.stated.dry / work.surface.creepage, '%')} of the creepage "
            f"it spares: in the next fog {amount(found.after_rain, 'kV')} are held instead of "
            f"{amount(found.held, 'kV')}. What rain cannot wash stays dirty.{_mean_then(found)}"
        )


def _mean_then(found: Flashover) -> str:
    cost = found.profile_costs[1]
    if cost is None or cost >= 1:
        return ""
    return (
        f" Judged by the mean resistance alone that would come out {amount(1 / cost - 1, '%')} "
        f"too high."
    )


def _profile_note(cost: float, leaps: int) -> str:
    through = f" {leaps} shed gaps are leapt through the air on the way." if leaps else ""
    if cost < 1:
        return (
            f"The arc crosses this profile at {amount(1 - cost, '%')} less than an even strip "
            f"of the same resistance: the mean alone would be unsafe by that.{through}"
        )
    return (
        f"The arc crosses this profile at {amount(cost - 1, '%')} more than an even strip of "
        f"the same resistance: with an even layer the mean is safe.{through}"
    )


def _class_or_arc(work: Workings) -> str:
    """Which of the two rules asks for more creepage, and which counts why."""
    asked, enough = 1e3 * work.surface.required, 1e3 * work.flashover.enough
    both = (
        f"The arc followed on this profile asks for {digits(enough)} mm, the class for "
        f"{digits(asked)} mm"
    )
    if enough <= asked:
        return (
            f"{both}: the class decides, in surface.creepage. It stands on the service of whole "
            "networks and covers events and profiles that one layer on one outline does not."
        )
    return (
        f"{both}. The class rule does not count the scatter of flashover, nor thin air from sea "
        "level on: heed this caution, and let a measured deposit or a test decide."
    )
