"""Duty and fit: coherent levels, room for the body, room around it, proof by tests."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, fact, held, not_assessed
from shedlight.given.bushing import Installation
from shedlight.given.levels import levels_at, listed_voltage, rounding_remark
from shedlight.given.parts import Palm
from shedlight.sources import cite
from shedlight.trace import Label, Number, measured
from shedlight.units import amount, digits
from shedlight.workings import Workings
from shedlight.workings.numbers import Description

_SHAPE = cite("first principles", "geometry", "exact")


def _length(value: float, name: str, symbol: str, how: str) -> Number:
    return measured(value, Label(name, symbol, "mm"), how)


@answers("duty.levels")
def levels(question: Question, case: Installation, work: Workings) -> Check:
    """The levels given are those of one row of the standard table."""
    duty = case.duty
    rows = levels_at(duty.highest_voltage)
    listed = listed_voltage(duty.highest_voltage) / 1e3
    remark = rounding_remark(duty.highest_voltage)
    notes = (remark,) if remark else ()
    for row in rows:
        same = (row.lightning_impulse, row.power_frequency_wet) == (
            duty.lightning_impulse,
            duty.power_frequency_wet,
        )
        if same:
            reason = (
                f"lightning and wet power-frequency level stand in the row for {digits(listed)} kV"
            )
            return fact(question, True, reason, citation=row.citation, notes=notes)
    pairs = "; ".join(
        f"{amount(r.lightning_impulse, 'kV')} / {amount(r.power_frequency_wet, 'kV')}" for r in rows
    )
    reason = (
        f"{amount(duty.lightning_impulse, 'kV')} / {amount(duty.power_frequency_wet, 'kV')} is "
        f"no row for {digits(listed)} kV, which lists {pairs}"
    )
    return fact(question, False, reason, citation=rows[0].citation, notes=notes)


@answers("host.fit")
def fits(question: Question, case: Installation, work: Workings) -> Check:
    """The widest part below the seat passes through the hole."""
    radii = work.section.radii
    widest = max(radii.body, radii.shield)
    return held(
        question,
        _length(2 * widest, "Largest diameter below the seat", "D", "body or lower shield"),
        Description(case)("transformer.hole_diameter"),
        place="hole wall",
        notes=("The shield may also be fitted from inside, if the tank is open.",)
        if radii.shield > radii.body
        else (),
    )


@answers("clearance.phase-earth")
def clearance_to_earth(question: Question, case: Installation, work: Workings) -> Check:
    """Required clearance against the distance to earthed parts."""
    there = Description(case)("transformer.earth_distance")
    ringed = ("Taken as measured from the shield ring, if that reaches furthest.",)
    notes = ringed if case.bushing.live_ring else ()
    return held(question, work.air.clearance, there, place="cap", notes=notes)


@answers("clearance.phase-phase")
def clearance_between_phases(question: Question, case: Installation, work: Workings) -> Check:
    """Required clearance against what is left between live parts of two bushings."""
    reach = _live_reach(case)
    spacing = case.transformer.phase_spacing
    free = spacing - 2 * reach
    if free <= 0:
        reason = "live parts of neighbouring bushings overlap"
        return fact(question, False, reason, place="cap", citation=_SHAPE)
    how = f"spacing of the axes less twice the live reach of {amount(reach, 'mm')}"
    return held(
        question,
        work.air.clearance,
        _length(free, "Free distance between phases", 'd_"pp"', how),
        place="cap",
        notes=(
            "Taken for the level to earth; a level between phases was not given.",
            "Horns are taken to stand across the row of bushings, not along it.",
        ),
    )


def _live_reach(case: Installation) -> float:
    bushing = case.bushing
    terminal = bushing.terminal
    across = terminal.width if isinstance(terminal, Palm) else terminal.diameter
    ring = bushing.live_ring
    round_it = 0.0 if ring is None else ring.diameter + ring.tube_diameter
    return max(bushing.cap.diameter, across, round_it) / 2


PROOFS = (
    ("lightning impulse", "evidence.lightning_impulse", "duty.lightning_impulse"),
    ("dry power frequency", "evidence.power_frequency_dry", "duty.power_frequency_dry"),
    ("wet power frequency", "evidence.power_frequency_wet", "duty.power_frequency_wet"),
    ("temperature rise", "evidence.temperature_rise_current", "duty.rated_current"),
    ("short-time current", "evidence.short_time_current", "duty.short_time_current"),
    ("terminal load", "evidence.terminal_load", "duty.terminal_load"),
)


@answers("test.plan")
def tests_proved(question: Question, case: Installation, work: Workings) -> Check:
    """Each value that a type or routine test must prove against the certificates given."""
    number = Description(case)
    missing, short = [], []
    for name, tested, demanded in PROOFS:
        if getattr(case.evidence, tested.partition(".")[2]) is None:
            missing.append(name)
        elif number(tested) < number(demanded):
            short.append(name)
    if len(missing) == len(PROOFS):
        return not_assessed(question, "no certificates are given under [evidence]")
    citation = cite("IEC 60137", "type, routine and special tests")
    if short:
        reason = f"tested below the demand: {', '.join(short)}"
        return fact(question, False, reason, citation=citation)
    if missing:
        reason = f"no certificate for: {', '.join(missing)}"
        return fact(question, False, reason, citation=_PAPERS)
    reason = "every value demanded is proved by a certificate; read their dates and editions"
    return fact(question, True, reason, citation=citation)


_PAPERS = cite("trade", "certificates complete before acceptance", "practice")
