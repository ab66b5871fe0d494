"""Mechanics: bending, pressure, wall, gasket."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, held, not_assessed, rival, window_margin
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.trace import Label, measured
from shedlight.workings import Workings


@answers("body.bending")
def bending(question: Question, case: Installation, work: Workings) -> Check:
    """Bending stress at the seat against strength with safety."""
    strength = work.strength
    note = "Terminal load only; wind, ice and short-circuit force are not counted yet."
    return held(
        question, strength.bending, strength.bending_allowed, place="collar side", notes=(note,)
    )


@answers("body.pressure")
def pressure(question: Question, case: Installation, work: Workings) -> Check:
    """Hoop stress at test pressure against tensile strength with safety."""
    return held(question, work.strength.hoop, work.strength.hoop_allowed, place="bore")


@answers("body.wall-thickness")
def wall(question: Question, case: Installation, work: Workings) -> Check:
    """Wall of the body against firing custom."""
    porcelain = case.bushing.porcelain
    thickest = measured(
        max(porcelain.wall, porcelain.top_wall), Label("Thickest wall", "t_w", "mm"), "the body"
    )
    return held(question, thickest, limit("wall thickness"), place="bore")


@answers("gasket.compression")
def compression(question: Question, case: Installation, work: Workings) -> Check:
    """Compression inside the window of the material."""
    material = case.bushing.gasket.material
    low, high = limit(f"gasket low {material}"), limit(f"gasket high {material}")
    value = work.strength.compression
    margin = window_margin(value, low, high)
    note = f"Window {low:.0%} to {high:.0%}; the margin is the smaller side."
    demand, capability = (low, value) if value / low - 1 < high / value - 1 else (value, high)
    return held(question, demand, capability, place="gasket top", margin=margin, notes=(note,))


@answers("gasket.seat")
def seat(question: Question, case: Installation, work: Workings) -> Check:
    """Least seating stress against what the bolts press, and the oil's pressure beside it."""
    if work.strength.seating is None:
        return not_assessed(question, "bolt diameter and torque of the fixing are not given")
    needed = limit("seating stress")
    pressure = work.strength.test_pressure
    oil = rival(question, "Highest oil pressure at test", pressure, work.strength.seating)
    return held(question, needed, work.strength.seating, place="gasket top", rivals=(oil,))
