"""Shield rings: how far they stand from the other end, and whether they glow."""

import math
from dataclasses import dataclass, replace

from shedlight.geometry.rings import LIVE_RING, clear_way
from shedlight.geometry.section import Section
from shedlight.physics.air.rings import NEAREST, THICKEST, ring_gradient, ring_inception
from shedlight.physics.air.streamer import corona_surface
from shedlight.trace import Number, calculate
from shedlight.workings.glow import Glow
from shedlight.workings.numbers import Description, assumption, from_table, on_outline
from shedlight.workings.voltages import Voltages

EARTHED = ("clamps", "cover top", "earth ring")
LIVE = ("cap", "live ring")


@dataclass(frozen=True)
class Ring:
    """One shield ring.

    Attributes:
        name: As the section calls its edge.
        clearance: Straight way from its tube to the nearest metal of the other end [m].
        glow: Field at its tube and inception there; reckoned over a plane that near.
    """

    name: str
    clearance: Number
    glow: Glow


def rings_of(section: Section, voltages: Voltages, number: Description) -> tuple[Ring, ...]:
    """Every shield ring of a section.

    Args:
        section: The section.
        voltages: Its voltages.
        number: The numbers of the description.
    """
    return tuple(_ring(name, section, voltages, number) for name in section.rings)


def _ring(name: str, section: Section, voltages: Voltages, number: Description) -> Ring:
    field = f"bushing.{name.replace(' ', '_')}"
    ring, tube = number(f"{field}.diameter"), number(f"{field}.tube_diameter")
    others = [
        section.curve(n) for n in (EARTHED if name == LIVE_RING else LIVE) if n in section.edges
    ]
    across = clear_way(section.curve(name), others)
    clearance = on_outline(
        across, f"Clearance of the {name}", 'd_"ri"', "mm", "straight to the other end's metal"
    )
    return Ring(name, clearance, _glow(name, ring, tube, clearance, voltages))


def _glow(name: str, ring: Number, tube: Number, clearance: Number, voltages: Voltages) -> Glow:
    rain = corona_surface("raining")
    drops = from_table(rain.factor, "Surface factor in rain", "m", "1", rain.citation, rain.what)
    weathered = assumption("surface factor")
    return Glow(
        f"the {name}'s tube",
        reckoned(voltages.glow_free, ring, tube, clearance),
        calculate(ring_inception, ring, tube, voltages.density, weathered),
        calculate(ring_inception, ring, tube, voltages.density, drops),
    )


def reckoned(across: Number, ring: Number, tube: Number, clearance: Number) -> Number:
    """Largest field at a ring's tube, with a remark where a thin ring over a plane says too little.

    Args:
        across: Voltage across the gap, rms [V].
        ring: Diameter of the ring [m].
        tube: Diameter of its tube [m].
        clearance: Between tube and plane [m].
    """
    found = calculate(ring_gradient, across, ring, tube, clearance)
    remarks = []
    if _exceeds(tube / ring, THICKEST):
        remarks.append("the tube is thicker than a third of its ring, for which the field is made")
    if _exceeds(NEAREST, clearance / tube):
        remarks.append("the ring is nearer than its tube's radius, for which the field is made")
    if not remarks:
        return found
    return Number(float(found), replace(found.step, beyond=(*found.step.beyond, *remarks)))


def _exceeds(ratio: float, bound: float) -> bool:
    """Whether a ratio of described lengths lies over a bound by more than their binary digits."""
    return ratio > bound and not math.isclose(ratio, bound, rel_tol=1e-9)
