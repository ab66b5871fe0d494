"""Mechanics of the porcelain: bending, earthquake, pressure, lasting load, glaze, heat and cold."""

import math

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, Rival, held, not_assessed, rival
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.given.terminal_loads import standard_load
from shedlight.physics.strength.earthquake import seismic_figure
from shedlight.physics.strength.thermal_shock import rain_step
from shedlight.trace import Label, Number, calculate, measured, out_of_range
from shedlight.units import amount, digits
from shedlight.workings import Workings
from shedlight.workings.loads import Combination
from shedlight.workings.numbers import Description, assumption, from_table

FIRST_ESTIMATE, SETTLED_BORE = (
    "Hottest top oil at the bore",
    "Bore as hot as the settled conductor",
)
IN_OIL = ("lower stem", "oil end", "hole")  # stretches on which no rain falls


@answers("duty.terminal-load")
def terminal_load(question: Question, case: Installation, work: Workings) -> Check:
    """The standard's least load for voltage and current against the load of the bending test."""
    row = standard_load(case.duty.highest_voltage, case.duty.rated_current)
    which = f"up to {amount(row.highest_voltage, 'kV')} and {amount(row.rated_current, 'A')}"
    normal, heavy = (
        from_table(load, name, 'F_"min"', "N", row.citation, which)
        for load, name in ((row.normal, "Normal load"), (row.heavy, "Heavy load"))
    )
    asked = Description(case)("duty.terminal_load")
    other = rival(question, "Heavy load of the table", heavy, asked)
    return held(question, normal, asked, place="terminal", rivals=(other,))


@answers("body.bending")
def bending(question: Question, case: Installation, work: Workings) -> Check:
    """Greatest tension under the bending test or in service against strength with safety."""
    named = {
        "Bending test": work.loads.test,
        "Service in wind and ice": work.loads.service,
    }
    title, worst = max(named.items(), key=lambda item: float(item[1].tension))
    rivals = tuple(
        rival(question, other, one.tension, one.allowed)
        for other, one in named.items()
        if other != title
    )
    return _bent(question, worst, rivals)


@answers("body.bending.short-circuit")
def short_circuit(question: Question, case: Installation, work: Workings) -> Check:
    """Greatest tension when a short circuit pushes the connected bars apart."""
    worst = work.loads.short_circuit
    if isinstance(worst, str):
        return not_assessed(question, worst, place="terminal")
    return _bent(question, worst)


@answers("body.earthquake")
def earthquake(question: Question, case: Installation, work: Workings) -> Check:
    """Greatest tension under the earthquake of the site, by modes; by the static rule beside it."""
    worst, static = work.loads.earthquake, work.loads.earthquake_static
    exempt = seismic_figure("exempt voltage kv")
    spared = (
        f"{exempt.citation}: up to {digits(exempt.high)} kV bushings of sound construction need no "
        "seismic qualification."
    )
    if isinstance(worst, str) or isinstance(static, str) or isinstance(work.loads.shaking, str):
        return not_assessed(question, str(worst), place="collar side")
    other = rival(question, "Static rule", static.tension, static.allowed)
    shaking = work.loads.shaking
    swing = (
        f"Lowest natural frequency {amount(shaking.frequency, 'Hz')}; the top swings "
        f"{amount(shaking.swing, 'mm')}."
    )
    return _bent(question, worst, (other,), (swing, spared))


def _bent(
    question: Question,
    worst: Combination,
    rivals: tuple[Rival, ...] = (),
    notes: tuple[str, ...] = (),
) -> Check:
    """A combination's hardest pulled section, with the loads in it said aloud."""
    loads = ", ".join(f"{force.name} {amount(force.force, 'N')}" for force in worst.forces)
    where = f"Hardest pulled {amount(worst.worst.force.height, 'mm')} above the seat."
    said = (f"{worst.name.capitalize()}: {loads}; all in one plane.", where, *notes)
    return held(
        question, worst.tension, worst.allowed, place="collar side", rivals=rivals, notes=said
    )


@answers("body.stress-peak")
def stress_peak(question: Question, case: Installation, work: Workings) -> Check:
    """Greatest tension of the solved section against strength; beam theory beside it."""
    found = work.section_stress
    if isinstance(found, str):
        return not_assessed(question, found, place="air side")
    test, known = work.loads.test, case.bushing.porcelain.collar_rounding is not None
    beam = rival(question, "Beam theory", test.tension, test.allowed)
    radius, height = (1e3 * length for length in found.place)
    rounded = "on a straight stretch, at least 1 mm from where clamps, cement or cap end"
    if math.isfinite(found.rounding):
        how = "described" if known else "drawn"
        rounded = f"on a rounding of {amount(found.rounding, 'mm')}, as {how}"
    notes = (
        f"On the {found.edge} {digits(radius)} mm from the axis, {digits(height)} mm above the "
        f"cover, {rounded}: {amount(found.factor, '1')} times beam theory.",
        f"Two orders of elements differ by {amount(found.doubt, '%')} in the peak.",
        *(
            (f"{found.notches} inward corners without rounding are left out.",)
            * bool(found.notches)
        ),
    )
    return held(
        question,
        found.peak,
        found.allowed,
        place=found.edge,
        rivals=(beam,),
        notes=notes,
        cap="" if known else "the rounding of the root is drawn by habit and not described",
    )


@answers("body.survival")
def survival(question: Question, case: Installation, work: Workings) -> Check:
    """Lasting tension against what a body of this size bears for a lifetime."""
    found = work.strength.survival
    note = (
        f"By the weakest link over the whole surface {amount(found.fracture, '1')} of such "
        "bodies break in a lifetime."
    )
    return held(question, found.tension, found.allowed, place="collar side", notes=(note,))


@answers("body.glaze")
def glaze(question: Question, case: Installation, work: Workings) -> Check:
    """Pull of the worst load in the glaze against the compression that firing left."""
    found = work.strength.glaze
    if isinstance(found, str):
        return not_assessed(question, found, place="air side")
    note = (
        f"This compression explains a strength of {amount(found.strength, 'MPa')} where the bare "
        f"body has {amount(found.bare, 'MPa')}."
    )
    return held(question, found.pull, found.compression, place="air side", notes=(note,))


@answers("body.thermal-shock")
def thermal_shock(question: Question, case: Installation, work: Workings) -> Check:
    """Cold rain on the hottest porcelain against the step that its skin bears."""
    thermal, allowed = work.strength.thermal, work.strength.thermal.step_allowed
    rivals = [rival(question, "Temperature cycle test", thermal.step_of_test, allowed)]
    settled = _settled_step(work)
    if settled is None:
        return held(question, thermal.step, allowed, place="air side", rivals=tuple(rivals))
    rivals.append(rival(question, "First estimate of the surface", thermal.step, allowed))
    return held(question, settled, allowed, place="air side", rivals=tuple(rivals))


def _settled_step(work: Workings) -> Number | None:
    """The step from the hottest porcelain in air to the rain; None if no heat has settled."""
    steady = work.heat.steady
    if isinstance(steady, str):
        return None
    surfaces = [part.surface for part in steady.safe.parts if part.name not in IN_OIL]
    known = [surface for surface in surfaces if surface is not None]
    if not known:
        return None
    return calculate(rain_step, max(known), 0.0, assumption("rain temperature"))


@answers("body.thermal-gradient")
def thermal_gradient(question: Question, case: Installation, work: Workings) -> Check:
    """Hoop tension outside, hot oil within and a gale without, against tension with safety."""
    thermal, allowed = work.strength.thermal, work.strength.tension_allowed
    settled, first = thermal.hoop, thermal.first_estimate
    notes = [
        f"{amount(thermal.gradient, 'K')} across the wall with the bore as hot as the "
        "conductor beside it in the coldest air; oil pressure counted as at the bore."
    ]
    deciding, title, beside = settled, FIRST_ESTIMATE, first
    if out_of_range(settled) and first >= settled:
        notes.append(
            "The oil is colder than its fits reach: the first estimate decides, on the safe side."
        )
        deciding, title, beside = first, SETTLED_BORE, settled
    other = rival(question, title, beside, allowed)
    return held(question, deciding, allowed, place="air side", rivals=(other,), notes=tuple(notes))


@answers("body.cold-start")
def cold_start(question: Question, case: Installation, work: Workings) -> Check:
    """Hoop tension outside as rated load comes on in the coldest air, against tension borne."""
    hoop, start = work.strength.thermal.hoop_at_start, work.warmth.start
    if isinstance(hoop, str) or isinstance(start, str):
        return not_assessed(question, str(hoop), place="air side")
    note = (
        f"Rated current from one moment to the next, all as cold as the coldest air: at most "
        f"{amount(start.heat, 'W')} into the porcelain, {amount(start.drop, 'K')} across its "
        f"wall; the conductor runs up to {amount(start.lead, 'K')} ahead of the porcelain."
    )
    return held(question, hoop, work.strength.tension_allowed, place="air side", notes=(note,))


@answers("body.deflection")
def deflection(question: Question, case: Installation, work: Workings) -> Check:
    """Deflection in the bending test on the gasket alone against where the gasket loosens."""
    found = work.strength.deflection
    stiff = rival(question, "On a stiff cover", found.stiff_base, found.loosening)
    return held(question, found.rocking, found.loosening, place="terminal", rivals=(stiff,))


@answers("body.pressure")
def pressure(question: Question, case: Installation, work: Workings) -> Check:
    """Hoop stress at test pressure against tensile strength with safety."""
    return held(question, work.strength.hoop, work.strength.tension_allowed, place="bore")


@answers("body.wall-thickness")
def wall(question: Question, case: Installation, work: Workings) -> Check:
    """Wall of the body against firing custom."""
    porcelain = case.bushing.porcelain
    thickest: Number = measured(
        max(porcelain.wall, porcelain.top_wall), Label("Thickest wall", "t_w", "mm"), "the body"
    )
    return held(question, thickest, limit("wall thickness"), place="bore")
