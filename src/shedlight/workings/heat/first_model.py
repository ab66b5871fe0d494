"""Current and heat, first closed forms: a fin between hot oil and cool air, still air, no sun."""

import math
from dataclasses import dataclass

from shedlight.errors import InputError
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.given.parts import Palm
from shedlight.physics.heat.conductor import resistivity
from shedlight.physics.heat.contacts import contact_power
from shedlight.physics.heat.fin import (
    fin_coefficient,
    fin_end_temperature,
    fin_hot_spot,
    fin_source,
    parabola_rise,
)
from shedlight.physics.heat.radial import (
    air_film_coefficient_simple,
    cylinder_resistance,
    film_resistance_per_length,
    radiation_coefficient,
    side_conductance,
)
from shedlight.physics.heat.terminal import (
    combined_coefficient,
    joint_resistance,
    surface_conductance,
    warmed,
)
from shedlight.trace import Number, calculate
from shedlight.workings.heat.rod import RoundRod
from shedlight.workings.numbers import Description, assumption, on_outline


@dataclass(frozen=True)
class FirstModel:
    """Temperatures by the first model [K]; none where it finds no steady state."""

    oil_end: Number
    terminal: Number | None
    hot_spot: Number | None
    runaway: str


def first_model_of(
    installation: Installation,
    section: Section,
    rod: RoundRod,
    terminal_area: Number,
    number: Description,
) -> FirstModel:
    """A fin between hot oil and cool air: still air, no sun, resting oil, a body without sheds.

    Args:
        installation: What was described.
        section: Its section.
        rod: Its conductor.
        terminal_area: Of the outer terminal in air [m²].
        number: Hands out the description's numbers.
    """
    current = number("duty.rated_current")
    immersed = on_outline(
        -section.heights.shield_bottom, "Immersed length of the conductor", "L", "m", "below cover"
    )
    oil_end = calculate(
        warmed,
        number("transformer.top_oil_temperature"),
        calculate(parabola_rise, rod.loss, immersed, rod.conduction),
    )
    ends = current, oil_end, terminal_area
    terminal, hot_spot, runaway = _fin(
        installation, section, rod, _film(section, number), ends, number
    )
    return FirstModel(oil_end, terminal, hot_spot, runaway)


def _film(section: Section, number: Description) -> Number:
    """Film coefficient of the air end, for an assumed rise of its surface over still air."""
    rise = assumption("surface rise")
    height = section.heights.cap_base - section.heights.clamp_top
    length = on_outline(height, "Height of the air end", "L", "m", "clamp top to cap")
    convection = calculate(air_film_coefficient_simple, rise, length)
    air = number("site.hottest_air")
    surface = calculate(warmed, air, rise)
    radiation = calculate(radiation_coefficient, assumption("emissivity"), surface, air)
    return calculate(combined_coefficient, convection, radiation)


def _contact_power(
    installation: Installation, rod: RoundRod, current: Number, number: Description
) -> Number:
    terminal = installation.bushing.terminal
    metal = terminal.metal
    rho = calculate(
        resistivity,
        material_property(metal, "resistivity_20"),
        material_property(metal, "temperature_coefficient"),
        number("transformer.top_oil_temperature"),
    )
    section = (
        terminal.width * terminal.thickness
        if isinstance(terminal, Palm)
        else math.pi * terminal.diameter**2 / 4
    )
    area = on_outline(section, "Section of the terminal", "A", "mm²", "across the current")
    ratio = assumption("joint ratio")
    joint = calculate(joint_resistance, ratio, rho, number("bushing.terminal.height"), area)
    return calculate(contact_power, current, joint)


def _fin(
    installation: Installation,
    section: Section,
    rod: RoundRod,
    film: Number,
    ends: tuple[Number, Number, Number],
    number: Description,
) -> tuple[Number | None, Number | None, str]:
    """Temperature of terminal and hottest place; or why there is none."""
    current, oil_end, terminal_area = ends
    air = number("site.hottest_air")
    side = _side_conductance(installation, section, film)
    reach = on_outline(section.heights.cap_top, "Cover to terminal", "L", "m", "on the section")
    b = calculate(
        fin_coefficient, side, current, rod.resistance_20, rod.coefficient, rod.conduction
    )
    s = calculate(fin_source, current, rod.resistance_20, rod.coefficient, air, rod.conduction)
    power = _contact_power(installation, rod, current, number)
    to_air = calculate(surface_conductance, film, terminal_area)
    try:
        terminal = calculate(
            fin_end_temperature, b, s, air, oil_end, reach, rod.conduction, to_air, air, power
        )
        hot_spot = calculate(fin_hot_spot, b, s, air, oil_end, terminal, reach)
    except InputError as error:
        return None, None, f"no steady temperature: {error}"
    return terminal, hot_spot, ""


def _side_conductance(installation: Installation, section: Section, film: Number) -> Number:
    """From conductor to air per metre: oil at rest, porcelain, film on the plain body."""
    r = section.radii
    how = "on the section"
    radii = [
        on_outline(value, name, symbol, "mm", how)
        for value, name, symbol in (
            (r.conductor, "Conductor radius", "r_0"),
            (r.bore, "Bore radius", "r_1"),
            (r.body, "Body radius", "r_2"),
        )
    ]
    oil = material_property("oil", "thermal_conductivity")
    wall = material_property(
        f"porcelain {installation.bushing.porcelain.material}", "thermal_conductivity"
    )
    resistances = (
        calculate(cylinder_resistance, radii[0], radii[1], oil),
        calculate(cylinder_resistance, radii[1], radii[2], wall),
        calculate(film_resistance_per_length, film, radii[2]),
    )
    return calculate(side_conductance, resistances)
