"""Current and heat: density, temperatures, terminal, short time, cover."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import (
    Check,
    Question,
    fact,
    held,
    not_assessed,
    ratio_margin,
    rise_margin,
    window_margin,
)
from shedlight.checks.limits import limit
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
from shedlight.physics.heat.tables import TemperatureLimit, temperature_limit
from shedlight.sources import cite
from shedlight.trace import Label, Number, calculate, looked_up
from shedlight.workings import Workings
from shedlight.workings.numbers import Description, assumption

FINISHES = {"bare": "bare", "tinned": "tin", "silvered": "silver or nickel"}
GASKETS = {"nitrile-cork": "cork-nitrile", "nitrile": "nitrile", "fluorocarbon": "fluorocarbon"}
FIRST_MODEL = (
    "First model: still air, no sun, oil at rest in the oil space, plain body without sheds, "
    "nothing from the connected cable."
)
MAGNETIC = "steel"


def _limit_of(row: TemperatureLimit) -> Number:
    label = Label(f"Limit for {row.part} ({row.finish}, {row.medium})", 'theta_"all"', "°C")
    return looked_up(row.temperature, label, row.citation, row.citation.where)


def _by_rise(
    question: Question, value: Number, row: TemperatureLimit, case: Installation, place: str
) -> Check:
    """Judge a temperature by its rise over air; the limits of both must hold."""
    air = case.site.hottest_air
    margin = rise_margin(value, row.temperature, air)
    notes = [FIRST_MODEL, "The margin counts the rise over the hottest air."]
    if row.rise is not None:
        notes.append(f"Rise {value - air:.1f} K; limit of the rise {row.rise:g} K.")
        margin = min(margin, ratio_margin(value - air, row.rise))
    return held(question, value, _limit_of(row), place=place, margin=margin, notes=tuple(notes))


@answers("conductor.current-density")
def density(question: Question, case: Installation, work: Workings) -> Check:
    """Current density against custom for the metal."""
    customary = limit(f"density {case.bushing.conductor.metal}")
    return held(question, work.heat.density, customary, place="stem")


@answers("conductor.hot-spot")
def hot_spot(question: Question, case: Installation, work: Workings) -> Check:
    """Hottest place of the conductor against the limit for metal in oil."""
    heat = work.heat
    if heat.hot_spot is None:
        return fact(question, False, heat.runaway, place="stem", citation=_FIN)
    row = temperature_limit("part in contact with oil", "any", "oil")
    return _by_rise(question, heat.hot_spot, row, case, "stem")


_FIN = cite("Carslaw", "steady temperature in a thin rod heated by a current", "exact")


@answers("terminal.contact")
def contact(question: Question, case: Installation, work: Workings) -> Check:
    """Current density in the lapped face against custom."""
    return held(question, work.heat.lapped_density, limit("lapped density"), place="terminal")


@answers("terminal.rise")
def terminal(question: Question, case: Installation, work: Workings) -> Check:
    """Temperature of the terminal against the limit for its finish."""
    heat = work.heat
    if heat.terminal is None:
        return fact(question, False, heat.runaway, place="terminal", citation=_FIN)
    finish = FINISHES[case.bushing.terminal.finish]
    row = temperature_limit("terminal for external conductor", finish, "air")
    return _by_rise(question, heat.terminal, row, case, "terminal")


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
    note = f"Window {least / 1e3:.1f} to {most / 1e3:.1f} kN for each bolt; torque scatters widely."
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


@answers("conductor.short-time")
def short_time(question: Question, case: Installation, work: Workings) -> Check:
    """Final temperature after the short-time current against the short-time limit."""
    if work.heat.short_time is None:
        metal = case.bushing.conductor.metal
        reason = f"no short-time constants of {metal} are held, or no steady start is known"
        return not_assessed(question, reason, place="stem")
    final = work.heat.short_time.final
    row = temperature_limit("conductor after short circuit", "any", "any")
    start = final - work.heat.short_time.rise
    margin = rise_margin(final, row.temperature, start)
    note = "The margin counts the rise over the starting temperature."
    return held(question, final, _limit_of(row), place="stem", margin=margin, notes=(note,))


@answers("conductor.expansion")
def growth(question: Question, case: Installation, work: Workings) -> Check:
    """What the conductor outgrows the porcelain by, against the travel of the springs."""
    if case.bushing.cap.spring_travel is None:
        return not_assessed(question, "the travel of the springs under the cap is not given")
    travel = Description(case)("bushing.cap.spring_travel")
    return held(question, work.strength.growth, travel, place="cap")


@answers("cover.heating")
def cover(question: Question, case: Installation, work: Workings) -> Check:
    """Field at the hole's edge against custom for steel; other metals do not heat so."""
    metal = case.transformer.cover_metal
    if metal != MAGNETIC:
        return fact(question, True, f"a cover of {metal} carries no magnetic flux round the hole")
    return held(question, work.heat.edge_field, limit("edge field steel"), place="hole wall")


@answers("gasket.temperature")
def gasket(question: Question, case: Installation, work: Workings) -> Check:
    """Top-oil temperature, taken for the gasket's, against the limit of its material."""
    local = Description(case)("transformer.top_oil_temperature")
    row = temperature_limit("gasket", GASKETS[case.bushing.gasket.material], "oil")
    margin = rise_margin(local, row.temperature, case.site.hottest_air)
    note = "The gasket is taken as warm as the top oil; beside the cover it is cooler."
    return held(question, local, _limit_of(row), place="gasket top", margin=margin, notes=(note,))
