"""The outer terminal: lapped face, temperature, bolts, metals that meet."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, fact, held, not_assessed, window_margin
from shedlight.checks.limits import limit
from shedlight.checks.temperatures import FIN, by_elements, by_rise, first_model, told_of
from shedlight.given.bushing import Installation
from shedlight.given.parts import Palm
from shedlight.physics.heat.bolts import (
    Thread,
    bolt_class,
    needed_clamp_force,
    thread_for,
    tightening_limit,
)
from shedlight.physics.heat.contacts import clamp_force
from shedlight.physics.heat.tables import temperature_limit
from shedlight.sources import cite
from shedlight.trace import Label, Number, calculate, looked_up
from shedlight.units import amount
from shedlight.workings import Workings
from shedlight.workings.numbers import Description, assumption

FINISHES = {"bare": "bare", "tinned": "tin", "silvered": "silver or nickel"}


@answers("terminal.contact")
def contact(question: Question, case: Installation, work: Workings) -> Check:
    """Current density in the lapped face against custom."""
    return held(question, work.heat.lapped_density, limit("lapped density"), place="terminal")


@answers("terminal.rise")
def terminal(question: Question, case: Installation, work: Workings) -> Check:
    """Temperature of the terminal against the limit for its finish."""
    steady = work.heat.steady
    if isinstance(steady, str):
        return fact(question, False, steady, place="terminal", citation=FIN)
    row = temperature_limit(
        "terminal for external conductor", FINISHES[case.bushing.terminal.finish], "air"
    )
    return by_rise(
        question,
        steady.safe.terminal,
        row,
        case,
        "terminal",
        steady.terminal_rise,
        (
            *first_model(question, work.heat.first.terminal, row, case),
            *by_elements(question, work.heat_field, "terminal", row, case),
        ),
        (*told_of(steady, steady.safe.terminal, steady.mean.upper_terminal), _joint(work)),
    )


def _joint(work: Workings) -> str:
    joints = work.heat.joints
    told = f"Joint {amount(joints.upper, 'µΩ')}"
    if joints.clamp is None or joints.contact is None:
        return f"{told}, by custom as a sound joint: bolts, torque or faces are not described."
    share = joints.contact / joints.upper
    return (
        f"{told}, {amount(share, '%')} of it between the faces, pressed with "
        f"{amount(joints.clamp, 'kN')}."
    )


@answers("terminal.bolts")
def bolts(question: Question, case: Installation, work: Workings) -> Check:
    """Clamp force of each bolt inside its window: enough for the face, not too much for it."""
    terminal = case.bushing.terminal
    if not isinstance(terminal, Palm) or not terminal.bolt_diameter or not terminal.bolt_torque:
        return not_assessed(question, "bolt diameter and torque are not given", place="terminal")
    thread = thread_for(terminal.bolt_diameter)
    if thread is None:
        return not_assessed(question, "no coarse thread of this diameter is held")
    number = Description(case)
    force = calculate(
        clamp_force,
        number("bushing.terminal.bolt_torque"),
        assumption("nut factor"),
        number("bushing.terminal.bolt_diameter"),
    )
    least = calculate(
        needed_clamp_force,
        limit("contact pressure"),
        work.heat.lapped_face,
        number("bushing.terminal.holes"),
    )
    most = _most(terminal, thread)
    margin = window_margin(force, least, most)
    demand, capability = (least, force) if force / least < most / force else (force, most)
    note = (
        f"Window {amount(least, 'kN')} to {amount(most, 'kN')} for each bolt; torque scatters "
        f"widely."
    )
    return held(question, demand, capability, place="terminal", margin=margin, notes=(note,))


def _most(terminal: Palm, thread: Thread) -> Number:
    strength = bolt_class(terminal.bolt_class)
    proof = Label("Proof stress of the bolt", 'sigma_"p"', "MPa")
    area = Label("Stress area of the thread", "A_s", "mm²")
    return calculate(
        tightening_limit,
        looked_up(strength.proof_stress, proof, strength.citation, f"class {strength.name}"),
        looked_up(thread.stress_area, area, thread.citation, "coarse thread"),
        limit("proof share"),
    )


@answers("terminal.bimetal")
def bimetal(question: Question, case: Installation, work: Workings) -> Check:
    """Which metals meet at the terminal, and whether they last outdoors."""
    terminal = case.bushing.terminal
    pair = f"{terminal.lug_finish} {terminal.lug_metal} on {terminal.finish} {terminal.metal}"
    citation = cite("trade", "aluminium against copper outdoors", "practice", "medium")
    unlike = (terminal.lug_metal == "aluminium") != (terminal.metal == "aluminium")
    aluminium_finish = terminal.lug_finish if terminal.lug_metal == "aluminium" else terminal.finish
    if not unlike or terminal.transition_plate:
        return fact(question, True, f"{pair}: no bare joint of unlike metals", citation=citation)
    if aluminium_finish != "bare" and case.site.salinity is None:
        reason = f"{pair}: the aluminium is plated; keep the plating whole"
        return fact(question, True, reason, place="terminal", citation=citation)
    where = " in salt air" if case.site.salinity is not None else ""
    reason = f"{pair}{where}: fit a transition plate or a lug of the terminal's metal"
    return fact(question, False, reason, place="terminal", citation=citation)
