"""Current and heat: density, temperatures, terminal, short time, cover."""

from dataclasses import replace

from shedlight.checks.catalogue import answers
from shedlight.checks.check import (
    Check,
    Question,
    Rival,
    fact,
    held,
    not_assessed,
    proved,
    rise_margin,
    rival,
)
from shedlight.checks.limits import limit
from shedlight.checks.temperatures import (
    FIN,
    by_elements,
    by_rise,
    celsius,
    first_model,
    limit_of,
    told_of,
)
from shedlight.given.bushing import Installation
from shedlight.physics.heat.tables import temperature_limit
from shedlight.trace import out_of_range
from shedlight.units import amount
from shedlight.workings import Workings
from shedlight.workings.heat.settled import Settled
from shedlight.workings.numbers import Description

GASKETS = {"nitrile-cork": "cork-nitrile", "nitrile": "nitrile", "fluorocarbon": "fluorocarbon"}
MEAN_OF_SECTION = "Mean of the section with skin effect"
MAGNETIC = "steel"


@answers("conductor.current-density")
def density(question: Question, case: Installation, work: Workings) -> Check:
    """Current density against custom for the metal."""
    customary = limit(f"density {case.bushing.conductor.metal}")
    return held(question, work.heat.density, customary, place="stem")


@answers("conductor.hot-spot")
def hot_spot(question: Question, case: Installation, work: Workings) -> Check:
    """Hottest place of the conductor against the limit for metal in oil."""
    steady = work.heat.steady
    if isinstance(steady, str):
        return fact(question, False, steady, place="stem", citation=FIN)
    row = temperature_limit("part in contact with oil", "any", "oil")
    return by_rise(
        question,
        steady.safe.hottest,
        row,
        case,
        "stem",
        steady.hot_spot_rise,
        (
            *first_model(question, work.heat.first.hot_spot, row, case),
            *by_elements(question, work.heat_field, "hot_spot", row, case),
        ),
        told_of(steady, steady.safe.hot_spot, steady.mean.hot_spot[1]),
    )


@answers("conductor.hot-spot.emergency")
def emergency(question: Question, case: Installation, work: Workings) -> Check:
    """Hottest place when an emergency ends against what oil beside metal bears for hours."""
    loading = work.heat.loading
    if isinstance(loading, str):
        return not_assessed(question, loading, place="stem")
    duty = case.duty
    notes = (
        f"{amount(duty.emergency_current / duty.rated_current, '1')} times the rated current for "
        f"{amount(duty.emergency_duration, 'h')} from rated temperatures on, in the noon sun; the "
        f"top oil is then at {celsius(loading.emergency_oil)}.",
        f"Slowest time constant {amount(loading.stores.slowest, 'min')}.",
        *_guide(work),
        "A bushing rated at least 1.2 times the transformer's current is by custom taken to bear "
        "what its loading guide allows (IEC 60137, memory).",
    )
    row = temperature_limit("metal in oil in an emergency", "any", "oil")
    return by_rise(question, loading.emergency, row, case, "stem", notes=notes)


def _guide(work: Workings) -> tuple[str, ...]:
    """The constants of the loading guide's formula, where they were asked for."""
    found = work.heat_guide
    if isinstance(found, str):
        return ()
    return (
        f"Constants of the loading guide's formula for this bushing, without sun: K1 "
        f"{amount(found.current_rise, 'K')}, K2 {amount(found.oil_share, '1')}, n "
        f"{amount(found.exponent, '1')}; they miss the settled states by at most "
        f"{amount(found.worst_miss, 'K')}.",
    )


@answers("conductor.hot-spot.day")
def day(question: Question, case: Installation, work: Workings) -> Check:
    """Hottest place in a day of two loads that repeats itself."""
    loading = work.heat.loading
    if isinstance(loading, str):
        return not_assessed(question, loading, place="stem")
    duty = case.duty
    notes = (
        f"{amount(duty.peak_load, '1')} times the rated current for "
        f"{amount(duty.peak_duration, 'h')} up to four in the afternoon, else "
        f"{amount(duty.off_peak_load, '1')} times, day after day.",
    )
    row = temperature_limit("part in contact with oil", "any", "oil")
    return by_rise(question, loading.day, row, case, "stem", notes=notes)


@answers("heat.balance")
def balance(question: Question, case: Installation, work: Workings) -> Check:
    """Heat made and led in against heat given off, hot and cold; the worst state decides."""
    steady, cold = work.heat.steady, work.heat.cold
    if isinstance(steady, str):
        return not_assessed(question, steady)
    states = {"on the hottest day": steady.safe}
    if not isinstance(cold, str):
        states |= {"in the coldest air": cold.loaded, "cold and without load": cold.idle}
    allowed, missed = limit("heat unaccounted"), [one.unaccounted for one in states.values()]
    # A balance in the range of all sources decides, as long as the others close too.
    sound = [share for share in missed if not out_of_range(share)]
    worst = max(missed) if max(missed) > allowed or not sound else max(sound)
    left_out = (f"The coldest day is left out: {cold}.",) if isinstance(cold, str) else ()
    told = (_balanced(when, state) for when, state in states.items())
    notes = (*told, *left_out, *_solved(work))
    return proved(question, worst, allowed, place="stem", notes=notes)


def _balanced(when: str, state: Settled) -> str:
    return (
        f"{when.capitalize()} {amount(state.generated, 'W')} made in conductor, joints and wall, "
        f"sun on the ends included; {amount(state.given_off, 'W')} given off through sides and "
        f"ends, net; {state.state.rounds} rounds, the last of which changed no temperature by more "
        f"than {amount(state.state.change, 'K')}."
    )


def _solved(work: Workings) -> tuple[str, ...]:
    found = work.heat_field
    if isinstance(found, str):
        return ()
    return (
        f"By finite elements {amount(sum(found.field.made.values()), 'W')} made and "
        f"{amount(sum(found.field.given_off.values()), 'W')} given off, the cover counted too; "
        "one order more changes no region's extreme by more than "
        f"{amount(found.field.doubt, 'K')}.",
    )


@answers("oil.temperature")
def cavity(question: Question, case: Installation, work: Workings) -> Check:
    """Mean temperature across the oil space where it is hottest."""
    steady = work.heat.steady
    if isinstance(steady, str):
        return not_assessed(question, steady, place="bore")
    row = temperature_limit("transformer oil", "any", "oil")
    return by_rise(question, steady.oil, row, case, "bore")


@answers("conductor.short-time")
def short_time(question: Question, case: Installation, work: Workings) -> Check:
    """Final temperature after the short-time current against the short-time limit."""
    found = work.heat.short_time
    if found is None:
        metal = case.bushing.conductor.metal
        reason = f"no short-time constants of {metal} are held, or no steady start is known"
        return not_assessed(question, reason, place="stem")
    row = temperature_limit("conductor after short circuit", "any", "any")
    start = found.final - found.rise
    capability = limit_of(row)
    rivals: tuple[Rival, ...] = ()
    if found.mean is not None:
        beside = rival(question, MEAN_OF_SECTION, found.mean, capability)
        rivals = (replace(beside, margin=rise_margin(found.mean, row.temperature, start)),)
    return held(
        question,
        found.final,
        capability,
        place="stem",
        margin=rise_margin(found.final, row.temperature, start),
        rivals=rivals,
        notes=(
            "The margin counts the rise over the starting temperature.",
            f"First peak of the current {amount(found.peak, 'kA')}; it decides the forces.",
        ),
    )


@answers("conductor.expansion")
def growth(question: Question, case: Installation, work: Workings) -> Check:
    """What the conductor outgrows the porcelain by, against the travel of the springs."""
    if case.bushing.cap.spring_travel is None:
        return not_assessed(question, "the travel of the springs under the cap is not given")
    travel = Description(case)("bushing.cap.spring_travel")
    first = rival(question, "Both as hot as the top oil", work.strength.growth_first, travel)
    return held(question, work.strength.growth, travel, place="cap", rivals=(first,))


@answers("cover.heating")
def cover(question: Question, case: Installation, work: Workings) -> Check:
    """Field at the hole's edge against custom for steel; other metals do not heat so."""
    metal = case.transformer.cover_metal
    if metal != MAGNETIC:
        return fact(question, True, f"a cover of {metal} carries no magnetic flux round the hole")
    found = work.heat.cover
    notes = [
        f"Loss of the cover {amount(found.losses[0], 'W')} to {amount(found.losses[-1], 'W')} "
        f"by the idealisations of steel, {amount(found.loss, 'W')} in the middle.",
    ]
    insert = found.insert
    if insert is not None:
        notes.append(
            f"A non-magnetic insert out to {amount(insert.radius, 'mm')} from the axis would bring "
            f"the field in the steel to what custom permits: "
            f"{amount(insert.loss_in_insert, 'W')} in the insert and "
            f"{amount(insert.loss_beyond, 'W')} beyond it, {celsius(insert.edge)} at its edge."
        )
    demand, permitted = found.edge_field, limit("edge field steel")
    return held(question, demand, permitted, place="hole wall", notes=tuple(notes))


@answers("cover.temperature")
def cover_edge(question: Question, case: Installation, work: Workings) -> Check:
    """Temperature of the cover at the hole's edge against what metal beside oil may have."""
    found = work.heat.cover
    row = temperature_limit("cover", "any", "oil")
    notes = (
        f"Without loss of its own {celsius(found.idle)}, between hot oil and air; "
        f"{amount(found.loss, 'W')} counted to half the distance of the phases.",
    )
    rivals = by_elements(question, work.heat_field, "cover_edge", row, case)
    return by_rise(question, found.edge, row, case, "hole wall", rivals=rivals, notes=notes)


@answers("gasket.temperature")
def gasket(question: Question, case: Installation, work: Workings) -> Check:
    """Temperature beside the gasket against the limit of its material."""
    steady = work.heat.steady
    if isinstance(steady, str):
        return not_assessed(question, steady, place="gasket top")
    row = temperature_limit("gasket", GASKETS[case.bushing.gasket.material], "oil")
    note = "The hotter of the cover at the hole's edge and of the collar's porcelain."
    rivals = by_elements(question, work.heat_field, "gasket", row, case)
    return by_rise(question, steady.gasket, row, case, "gasket top", rivals=rivals, notes=(note,))
