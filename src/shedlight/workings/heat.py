"""Current and heat, first closed forms: a fin between hot oil and cool air, still air, no sun."""

import math
from dataclasses import dataclass

from shedlight.errors import InputError
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.given.parts import Palm, Tube
from shedlight.physics.heat.conduction import axial_conduction
from shedlight.physics.heat.conductor import (
    alternating_resistance,
    circle_area,
    current_density,
    loss_per_length,
    resistance_per_length,
    resistivity,
    skin_depth,
    skin_ratio_rod,
    skin_ratio_tube,
    tube_area,
)
from shedlight.physics.heat.contacts import contact_power, lapped_current_density
from shedlight.physics.heat.cover import edge_field
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
from shedlight.physics.heat.short_time import effective_section_round, iec60137_short_time_rise
from shedlight.physics.heat.tables import short_time_metal
from shedlight.physics.heat.terminal import (
    combined_coefficient,
    joint_resistance,
    palm_face,
    stud_face,
    surface_conductance,
    warmed,
)
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption, from_table, on_outline

SHORT_TIME_METALS = ("copper", "aluminium")


@dataclass(frozen=True)
class ShortTime:
    """The conductor after the short-time current [K]."""

    rise: Number
    final: Number


@dataclass(frozen=True)
class Heat:
    """Currents and temperatures [A/m², K, W/m]."""

    density: Number
    loss: Number
    lapped_face: Number
    lapped_density: Number
    edge_field: Number
    oil_end: Number
    terminal: Number | None
    hot_spot: Number | None
    runaway: str
    short_time: ShortTime | None


@dataclass(frozen=True)
class _Rod:
    """The conductor as the formulas want it."""

    area: Number
    skin_depth: Number
    resistance_20: Number
    coefficient: Number
    conduction: Number
    loss: Number
    resistivity_hot: Number


def heat_of(installation: Installation, section: Section, number: Description) -> Heat:
    """Everything that follows from the current."""
    current = number("duty.rated_current")
    rod = _rod(installation, current, number)
    film = _film(section, number)
    lapped, terminal_area = _face(installation, number)
    immersed = on_outline(
        -section.heights.shield_bottom, "Immersed length of the conductor", "L", "m", "below cover"
    )
    oil_end = calculate(
        warmed,
        number("transformer.top_oil_temperature"),
        calculate(parabola_rise, rod.loss, immersed, rod.conduction),
    )
    hole = on_outline(section.radii.hole, "Radius of the hole", "r", "mm", "half the diameter")
    terminal, hot_spot, runaway = _fin(
        installation, section, rod, film, (current, oil_end, terminal_area), number
    )
    return Heat(
        density=calculate(current_density, current, rod.area),
        loss=rod.loss,
        lapped_face=lapped,
        lapped_density=calculate(lapped_current_density, current, lapped),
        edge_field=calculate(edge_field, current, hole),
        oil_end=oil_end,
        terminal=terminal,
        hot_spot=hot_spot,
        runaway=runaway,
        short_time=_short_time(installation, rod, hot_spot, number) if hot_spot else None,
    )


def _rod(installation: Installation, current: Number, number: Description) -> _Rod:
    conductor = installation.bushing.conductor
    diameter = number("bushing.conductor.diameter")
    rho_20 = material_property(conductor.metal, "resistivity_20")
    alpha = material_property(conductor.metal, "temperature_coefficient")
    hot = calculate(resistivity, rho_20, alpha, number("transformer.top_oil_temperature"))
    depth = calculate(skin_depth, hot, number("duty.frequency"))
    outer = on_outline(diameter / 2, "Radius of the conductor", "a", "mm", "half the diameter")
    if isinstance(conductor, Tube):
        inner_diameter = number("bushing.conductor.inner_diameter")
        area = calculate(tube_area, diameter, inner_diameter)
        inner = on_outline(inner_diameter / 2, "Inner radius", "a_i", "mm", "half the diameter")
        skin = calculate(skin_ratio_tube, outer, inner, depth)
    else:
        area = calculate(circle_area, diameter)
        skin = calculate(skin_ratio_rod, outer, depth)
    cold = calculate(alternating_resistance, calculate(resistance_per_length, rho_20, area), skin)
    warm = calculate(alternating_resistance, calculate(resistance_per_length, hot, area), skin)
    conductivity = material_property(conductor.metal, "thermal_conductivity")
    conduction = calculate(axial_conduction, conductivity, area)
    loss = calculate(loss_per_length, current, warm)
    return _Rod(area, depth, cold, alpha, conduction, loss, hot)


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


def _face(installation: Installation, number: Description) -> tuple[Number, Number]:
    """The lapped face, and the terminal's area in air."""
    terminal = installation.bushing.terminal
    if isinstance(terminal, Palm):
        width, height = number("bushing.terminal.width"), number("bushing.terminal.height")
        holes, hole = number("bushing.terminal.holes"), number("bushing.terminal.hole_diameter")
        face = calculate(palm_face, width, height, holes, hole)
        area = on_outline(2 * width * height, "Terminal area in air", "A", "mm²", "both faces")
        return face, area
    diameter, height = number("bushing.terminal.diameter"), number("bushing.terminal.height")
    face = calculate(stud_face, diameter, height)
    return face, on_outline(float(face), "Terminal area in air", "A", "mm²", "its mantle")


def _contact_power(
    installation: Installation, rod: _Rod, current: Number, number: Description
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
    rod: _Rod,
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


def _short_time(
    installation: Installation, rod: _Rod, hot_spot: Number, number: Description
) -> ShortTime | None:
    conductor = installation.bushing.conductor
    if conductor.metal not in SHORT_TIME_METALS:
        return None
    row = short_time_metal(conductor.metal)
    coefficient = from_table(
        row.coefficient, "Coefficient of the metal", "a", "Kcm⁴/kA²s", row.citation, row.metal
    )
    effective = rod.area
    if not isinstance(conductor, Tube):
        effective = calculate(
            effective_section_round, number("bushing.conductor.diameter"), rod.skin_depth
        )
    rise = calculate(
        iec60137_short_time_rise,
        coefficient,
        number("duty.short_time_current"),
        rod.area,
        effective,
        number("duty.short_time_duration"),
    )
    return ShortTime(rise, calculate(warmed, hot_spot, rise))
