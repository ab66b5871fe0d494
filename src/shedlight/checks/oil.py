"""The end in oil and the oil space: gap, creep, immersion, head, vent, expansion."""

import math

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, fact, held, not_assessed, ratio_margin, rival
from shedlight.checks.limits import limit
from shedlight.checks.temperatures import celsius
from shedlight.given.bushing import Installation
from shedlight.sources import cite
from shedlight.trace import Label, looked_up
from shedlight.units import amount, digits
from shedlight.workings import Workings
from shedlight.workings.numbers import Description, assumption

_LEVEL = 80.0  # [°]: gas runs up a slope of ten degrees, and no longer surely up less
_VENTING = cite("trade", "bleeding spaces that fill from below", "practice", "low")
_EXACT = cite("first principles", "hydrostatics", "exact")
_CURVE_CAP = "the curve and the oil's state are held from memory only"


@answers("oil.gap")
def gap(question: Question, case: Installation, work: Workings) -> Check:
    """Largest field at the lower shield at the dry test against the design curve."""
    demand, other = work.oil.gap_gradient, work.oil.other
    rivals = [rival(question, f"If the oil were {other.state}", demand, other.gap)]
    if not isinstance(work.discharges, str):
        line = work.discharges.gap
        rivals.append(rival(question, "Worst line in the solved field", line.mean, line.strength))
    return held(
        question,
        demand,
        work.oil.gap_strength,
        place="shield",
        rivals=tuple(rivals),
        notes=(f"Shield taken as a sphere against a wall; {work.oil.state} oil.",),
        cap=_CURVE_CAP,
    )


@answers("oil.creep")
def creep(question: Question, case: Installation, work: Workings) -> Check:
    """Mean field along the oil-side surface against the lowest of three limits."""
    lowest, *others = sorted(work.oil.creep_limits)
    demand = work.oil.creep_gradient
    rivals = [rival(question, other.step.label.name, demand, other) for other in others]
    curve = rival(question, "Creep curve, cumulative mean", demand, work.oil.creep_strength)
    rivals.append(curve)
    if not isinstance(work.discharges, str):
        worst = work.discharges.creep
        title = "Worst stretch in the solved field"
        rivals.append(rival(question, title, worst.mean, worst.strength))
    return held(question, demand, lowest, place="oil side", rivals=tuple(rivals))


@answers("oil.immersion")
def immersion(question: Question, case: Installation, work: Workings) -> Check:
    """Length that has to lie in oil against the depth of its lower end."""
    if work.oil.depth <= 0:
        return fact(
            question,
            False,
            "the lowest oil level lies below the lower end",
            place="shield",
            citation=_EXACT,
        )
    return held(question, work.oil.immersed, work.oil.depth, place="shield")


@answers("oil.head.top")
def head_at_top(question: Question, case: Installation, work: Workings) -> Check:
    """Gauge pressure at the highest point of the oil space, lowest level and coldest oil."""
    head = work.oil.head_at_vent
    if head is None:
        return not_assessed(question, "give transformer.lowest_cushion_pressure")
    if head < 0 and case.transformer.breathing != "sealed cushion":
        missing = -head / 1e3
        reason = (
            "the lowest oil level lies below the top of the oil space: gas stands at the stem, "
            f"{digits(missing)} kPa of head are missing"
        )
        return fact(question, False, reason, place="cavity top", citation=_EXACT)
    label = Label("No pressure below that of the air", "p_0", "kPa")
    zero = looked_up(0.0, label, _EXACT, "the space must stay full of oil")
    reference = limit("pressure reference")
    note = f"The margin is counted against a reference of {amount(reference, 'kPa')}."
    return held(question, zero, head, place="cavity top", margin=head / reference, notes=(note,))


@answers("oil.vent")
def vent(question: Question, case: Installation, work: Workings) -> Check:
    """A vent at the highest point, also at the mounting angle."""
    if case.bushing.oil_space.vent == "none":
        reason = "there is no vent: gas stays at the top, where the stress is highest"
        return fact(question, False, reason, place="cavity top", citation=_VENTING)
    angle = math.degrees(case.transformer.mounting_angle)
    if angle > _LEVEL:
        reason = (
            f"at {digits(angle)}° the upper side of the oil space lies nearly level: gas stays "
            "along it wherever the vent is"
        )
        return fact(question, False, reason, place="cavity top", citation=_VENTING)
    reason = "a bleed screw at the top of the oil space"
    if angle > 0:
        trapped = 1e3 * work.filling.trapped
        reason += (
            f"; at {digits(angle)}° turn it to the upper side: turned down it leaves "
            f"{digits(trapped)} mm of gas above it"
        )
    return fact(question, True, reason, place="cavity top", citation=_VENTING)


@answers("oil.level")
def level(question: Question, case: Installation, work: Workings) -> Check:
    """Lowest safe level against the lowest in service, by what the difference weighs."""
    safe = work.filling.safe_level
    if isinstance(safe, str):
        return not_assessed(question, safe, place="cavity top")
    lowest = Description(case)("transformer.lowest_oil_level")
    reference = limit("level reference")
    margin = (lowest - safe) / reference
    note = f"The margin is counted against {amount(reference, 'mm')} of oil."
    return held(question, safe, lowest, place="cavity top", margin=margin, notes=(note,))


@answers("oil.expansion")
def expansion(question: Question, case: Installation, work: Workings) -> Check:
    """A free way to the tank for what the oil grows."""
    litres = 1e3 * work.filling.expansion
    if case.bushing.oil_space.opening == "closed":
        reason = f"closed: the oil's growth of {digits(litres)} l has nowhere to go"
        if work.filling.locked is not None:
            reason += f"; without gas it would press {amount(work.filling.locked, 'MPa')}"
        return fact(question, False, reason, place="cavity floor", citation=_VENTING)
    reason = (
        f"{case.bushing.oil_space.opening}: the oil's growth of {digits(litres)} l goes to the tank"
    )
    return fact(question, True, reason, place="cavity floor", citation=_VENTING)


@answers("oil.contraction")
def contraction(question: Question, case: Installation, work: Workings) -> Check:
    """Whether what the oil shrinks by in the coldest air can flow in from the tank."""
    litres = 1e3 * work.filling.contraction
    opening = case.bushing.oil_space.opening
    if opening == "closed":
        workshop = celsius(assumption("assembly temperature"))
        reason = (
            f"closed: filled at {workshop} and cooled to the coldest air the oil shrinks by "
            f"{digits(litres)} l, which gas drawn in or a vacuum fills at the stem"
        )
        return fact(question, litres <= 0, reason, place="cavity top", citation=_VENTING)
    head = work.oil.head_at_vent
    if head is None:
        return not_assessed(question, "give transformer.lowest_cushion_pressure")
    if head < 0:
        reason = (
            f"{opening}: {digits(litres)} l would flow in, but the lowest level with the "
            "coldest oil does not reach the top of the oil space"
        )
        return fact(question, False, reason, place="cavity top", citation=_EXACT)
    reason = f"{opening}: the {digits(litres)} l that the oil shrinks by flow in from the tank"
    return fact(question, True, reason, place="cavity top", citation=_VENTING)


@answers("oil.cold-start")
def cold_start(question: Question, case: Installation, work: Workings) -> Check:
    """Coldest air against the lowest temperature at which the oil may be switched on cold."""
    number, workshop = Description(case), assumption("assembly temperature")
    coldest, lowest = number("site.coldest_air"), number("transformer.oil_cold_start")
    note = (
        f"The margin counts degrees below {celsius(workshop)}. Colder oil hardly moves: it neither "
        "cools nor follows what it should fill; near its pour point it stands still."
    )
    margin = ratio_margin(workshop - coldest, workshop - lowest)
    return held(question, coldest, lowest, place="cavity top", margin=margin, notes=(note,))
