"""What the joints at both ends resist: clamp force, touching spots, bent lines of current."""

import math
from dataclasses import dataclass

from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.given.parts import Palm
from shedlight.physics.heat.bolts import total_clamp_force
from shedlight.physics.heat.conductor import resistivity
from shedlight.physics.heat.contact_metals import clamp_scatter, contact_metal
from shedlight.physics.heat.contacts import clamp_force, constriction_resistance_spots
from shedlight.physics.heat.joints import (
    contact_times_area,
    film_resistance,
    joint_contact_resistance,
    lap_resistance,
)
from shedlight.physics.heat.preload import least_clamp_force
from shedlight.physics.heat.terminal import joint_resistance
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption, from_table, on_outline

PLATINGS = {"tinned": "tin", "silvered": "silver"}
TOUCHING = ("copper", "aluminium")  # bare metals whose hardness is held
TIGHTENING = "torque wrench"


@dataclass(frozen=True)
class Joints:
    """Resistance of lower and upper joint [Ω], and the clamp force where it is known [N]."""

    lower: Number
    upper: Number
    clamp: Number | None
    contact: Number | None


def joints_of(installation: Installation, number: Description) -> Joints:
    """The joints of a bushing, taken as warm as the top oil.

    Args:
        installation: What was described.
        number: Hands out the description's numbers.
    """
    terminal = installation.bushing.terminal
    end = installation.bushing.oil_end
    stud = on_outline(
        math.pi * end.stud_diameter**2 / 4, "Section of the lower stud", "A", "mm²", "across"
    )
    lower = calculate(
        joint_resistance,
        assumption("joint ratio"),
        _warm(installation.bushing.conductor.metal, number),
        number("bushing.oil_end.stud_length"),
        stud,
    )
    rho = _warm(terminal.metal, number)
    touching = _touching(installation)
    if isinstance(terminal, Palm) and terminal.bolt_diameter and terminal.bolt_torque and touching:
        clamp, contact = _bolted(touching, rho, number)
        return Joints(lower, _lap(rho, contact, number), clamp, contact)
    return Joints(lower, _by_ratio(installation, rho, number), None, None)


def _warm(metal: str, number: Description) -> Number:
    return calculate(
        resistivity,
        material_property(metal, "resistivity_20"),
        material_property(metal, "temperature_coefficient"),
        number("transformer.top_oil_temperature"),
    )


def _touching(installation: Installation) -> str | None:
    """The harder of the two faces' metals, on the safe side; none if one of them is not held."""
    terminal = installation.bushing.terminal
    faces = ((terminal.finish, terminal.metal), (terminal.lug_finish, terminal.lug_metal))
    found = [PLATINGS.get(finish, metal) for finish, metal in faces]
    held = [metal for metal in found if metal in (*TOUCHING, *PLATINGS.values())]
    return max(held, key=lambda m: contact_metal(m).hardness[1]) if len(held) == 2 else None


def _bolted(touching: str, rho: Number, number: Description) -> tuple[Number, Number]:
    """Clamp force of all bolts at its least, and the resistance of the faces."""
    row, way = contact_metal(touching), clamp_scatter(TIGHTENING)
    aimed = calculate(
        clamp_force,
        number("bushing.terminal.bolt_torque"),
        assumption("nut factor"),
        number("bushing.terminal.bolt_diameter"),
    )
    scatter = from_table(way.scatter, "Scatter", "s", "%", way.citation, way.way)
    holes = number("bushing.terminal.holes")
    force = calculate(total_clamp_force, holes, calculate(least_clamp_force, aimed, scatter))
    hardness = from_table(
        row.hardness[1], "Contact hardness", "H", "MPa", row.citation, f"{row.metal}, hard"
    )
    # One place of contact under each bolt, the fewest there can be: safe side.
    constriction = calculate(constriction_resistance_spots, rho, hardness, force, holes)
    film = calculate(film_resistance, assumption("contact film"), hardness, force)
    return force, calculate(joint_contact_resistance, constriction, film)


def _lap(rho: Number, contact: Number, number: Description) -> Number:
    width, overlap = number("bushing.terminal.width"), number("bushing.terminal.height")
    return calculate(
        lap_resistance,
        rho,
        overlap,
        width,
        number("bushing.terminal.thickness"),
        assumption("streamline factor"),
        calculate(contact_times_area, contact, width, overlap),
    )


def _by_ratio(installation: Installation, rho: Number, number: Description) -> Number:
    """Where the bolts are not described: a sound joint, as long as its lap."""
    terminal = installation.bushing.terminal
    section = (
        terminal.width * terminal.thickness
        if isinstance(terminal, Palm)
        else math.pi * terminal.diameter**2 / 4
    )
    area = on_outline(section, "Section of the terminal", "A", "mm²", "across the current")
    height = number("bushing.terminal.height")
    return calculate(joint_resistance, assumption("joint ratio"), rho, height, area)
