"""The end in oil and the oil space: creep, gap, head, expansion."""

import math
from dataclasses import dataclass

from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.oil.curves import default_gap_curve, gap_curve, surface_limits
from shedlight.physics.oil.head import expanded_volume, head_pressure, oil_density
from shedlight.physics.oil.immersion import (
    depth_below,
    largest_gap_gradient,
    mean_surface_gradient,
    pressure_with_cushion,
    rounded_end_factor,
    temperature_range,
)
from shedlight.physics.oil.strength import creep_strength, gap_strength
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, from_table, on_outline
from shedlight.workings.voltages import Voltages


@dataclass(frozen=True)
class Oil:
    """Oil end [V/m, m] and oil space [Pa, m³]."""

    creepage: Number
    creep_gradient: Number
    creep_limits: tuple[Number, ...]
    creep_strength: Number
    space_strength: Number
    hole_gap_strength: Number
    gap_gradient: Number
    gap_strength: Number
    immersed: Number
    depth: Number
    head_at_vent: Number | None
    head_highest: Number
    expansion: Number
    volume: Number


def oil_of(
    installation: Installation,
    section: Section,
    measures: Measures,
    voltages: Voltages,
    number: Description,
) -> Oil:
    """Everything that follows from the oil around and inside the bushing."""
    heights, radii = section.heights, section.radii
    creepage = on_outline(
        measures.oil_creepage.length, "Creepage in oil", "L", "mm", "cover's underside to shield"
    )
    space = on_outline(radii.bore - radii.conductor, "Width of the oil space", "d", "mm", "radial")
    hole = on_outline(radii.hole - radii.body, "Gap between body and hole", "g", "mm", "radial")
    bottom = _place(heights.shield_bottom, installation, "Underside of the shield")
    top_of_end = _place(heights.cover_underside, installation, "Top of the porcelain in oil")
    at_vent, at_bottom = _heads(installation, section, bottom, number)
    volume = on_outline(measures.oil_volume, "Volume of the oil space", "V", "l", "on the section")
    return Oil(
        creepage=creepage,
        creep_gradient=calculate(mean_surface_gradient, voltages.dry, creepage),
        creep_limits=_creep_limits(),
        creep_strength=calculate(creep_strength, creepage),
        space_strength=_gap_strength(space),
        hole_gap_strength=_gap_strength(hole),
        gap_gradient=_gap_gradient(voltages, number),
        gap_strength=_gap_strength(
            number("transformer.tank_clearance"), installation.bushing.oil_end.shield_covered
        ),
        immersed=calculate(depth_below, top_of_end, bottom),
        depth=calculate(depth_below, number("transformer.lowest_oil_level"), bottom),
        head_at_vent=at_vent,
        head_highest=at_bottom,
        expansion=_expansion(volume, number),
        volume=volume,
    )


def _heads(
    installation: Installation, section: Section, bottom: Number, number: Description
) -> tuple[Number | None, Number]:
    """Least pressure at the vent (lowest level, coldest oil), greatest at the lower end."""
    dense = calculate(
        oil_density,
        material_property("oil", "density_20"),
        material_property("oil", "expansion"),
        number("site.coldest_air"),
    )
    vent = _place(section.heights.cap_base, installation, "Highest point of the oil space")
    over_vent = calculate(depth_below, number("transformer.lowest_oil_level"), vent)
    over_bottom = calculate(depth_below, number("transformer.highest_oil_level"), bottom)
    at_vent = _under_cushion(calculate(head_pressure, dense, over_vent), installation, number)
    return at_vent, calculate(head_pressure, dense, over_bottom)


def _expansion(volume: Number, number: Description) -> Number:
    span = calculate(
        temperature_range,
        number("transformer.top_oil_temperature"),
        number("site.coldest_air"),
    )
    return calculate(expanded_volume, volume, material_property("oil", "expansion"), span)


def _under_cushion(head: Number, installation: Installation, number: Description) -> Number | None:
    """Pressure where the oil breathes freely, or under a cushion; None if that is not known."""
    transformer = installation.transformer
    if transformer.breathing != "sealed cushion":
        return head
    if transformer.lowest_cushion_pressure is None:
        return None
    cushion = number("transformer.lowest_cushion_pressure")
    return calculate(pressure_with_cushion, head, cushion)


def _place(height: float, installation: Installation, name: str) -> Number:
    """A height above the cover, foreshortened by the mounting angle."""
    upright = math.cos(installation.transformer.mounting_angle)
    how = "on the section, above the cover" + ("" if upright == 1 else ", at the mounting angle")
    return on_outline(height * upright, name, "z", "mm", how)


def _creep_limits() -> tuple[Number, ...]:
    """Upper end of each accepted band, the most cautious first."""
    return tuple(
        from_table(
            row.highest,
            f"Limit along a surface in oil ({row.name})",
            "E_t",
            "kV/mm",
            row.citation,
            row.what,
        )
        for row in surface_limits()
    )


def _gap_strength(gap: Number, covered: bool = False) -> Number:
    """The weakest curve, for bare or covered metal in gas-saturated oil."""
    row = gap_curve("gas-saturated", "covered") if covered else default_gap_curve()
    which = f"{row.oil} oil, {row.electrodes} electrodes"
    a = from_table(row.coefficient, "Coefficient of the curve", "A", "kV/mm", row.citation, which)
    n = from_table(row.exponent, "Exponent of the curve", "n", "1", row.citation, which)
    return calculate(gap_strength, gap, a, n)


def _gap_gradient(voltages: Voltages, number: Description) -> Number:
    gap = number("transformer.tank_clearance")
    radius = on_outline(
        number("bushing.oil_end.shield_diameter") / 2, "Radius of the shield", "R", "mm", "half"
    )
    factor = calculate(rounded_end_factor, gap, radius)
    return calculate(largest_gap_gradient, voltages.dry, gap, factor)
