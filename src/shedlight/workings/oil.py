"""The end in oil and the oil space: creep, gap, head, expansion."""

import math
from dataclasses import dataclass

from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.oil.curves import GapCurve, gap_curve, gap_curves, surface_limits
from shedlight.physics.oil.head import head_pressure, oil_density
from shedlight.physics.oil.immersion import (
    depth_below,
    largest_gap_gradient,
    mean_surface_gradient,
    pressure_with_cushion,
    rounded_end_factor,
)
from shedlight.physics.oil.strength import creep_strength, gap_strength
from shedlight.physics.oil.tilt import height_when_tilted
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption, from_table, on_outline
from shedlight.workings.voltages import Voltages


@dataclass(frozen=True)
class OilStrength:
    """What the gaps of a bushing hold if its oil is in one state, mean rms [V/m]."""

    state: str
    space: Number
    hole: Number
    gap: Number


@dataclass(frozen=True)
class Oil:
    """Oil end [V/m, m] and oil space [Pa, m³].

    `space_strength`, `hole_gap_strength` and `gap_strength` are for the oil's state as described;
    `other` holds the same for the other state of the design curves.
    """

    creepage: Number
    creep_gradient: Number
    creep_limits: tuple[Number, ...]
    creep_strength: Number
    space_strength: Number
    hole_gap_strength: Number
    gap_gradient: Number
    gap_strength: Number
    state: str
    other: OilStrength
    immersed: Number
    depth: Number
    head_at_vent: Number | None
    head_highest: Number
    test_pressure: Number
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
    state, gap = installation.transformer.oil_state, number("transformer.tank_clearance")
    covered = installation.bushing.oil_end.shield_covered
    strength = _strengths(state, space, hole, gap, covered)
    volume = on_outline(measures.oil_volume, "Volume of the oil space", "V", "l", "on the section")
    return Oil(
        creepage=creepage,
        creep_gradient=calculate(mean_surface_gradient, voltages.dry, creepage),
        creep_limits=_creep_limits(),
        creep_strength=calculate(creep_strength, creepage),
        space_strength=strength.space,
        hole_gap_strength=strength.hole,
        gap_gradient=_gap_gradient(voltages, number),
        gap_strength=strength.gap,
        state=state,
        other=_strengths(other_state(state), space, hole, gap, covered),
        immersed=calculate(depth_below, top_of_end, bottom),
        depth=calculate(depth_below, number("transformer.lowest_oil_level"), bottom),
        head_at_vent=at_vent,
        head_highest=at_bottom,
        test_pressure=calculate(pressure_with_cushion, at_bottom, assumption("test pressure")),
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
    vent = calculate(
        height_when_tilted,
        on_outline(section.heights.cap_base, "Top of the oil space", "a", "mm", "above the cover"),
        on_outline(section.radii.bore, "Radius of its corner", "r", "mm", "the bore's"),
        number("transformer.mounting_angle"),
    )
    over_vent = calculate(depth_below, number("transformer.lowest_oil_level"), vent)
    over_bottom = calculate(depth_below, number("transformer.highest_oil_level"), bottom)
    at_vent = _under_cushion(calculate(head_pressure, dense, over_vent), installation, number)
    return at_vent, calculate(head_pressure, dense, over_bottom)


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


def _strengths(state: str, space: Number, hole: Number, gap: Number, covered: bool) -> OilStrength:
    bare = curve_for(state, covered=False)
    at_shield = strength_on(curve_for(state, covered), gap)
    return OilStrength(state, strength_on(bare, space), strength_on(bare, hole), at_shield)


def other_state(state: str) -> str:
    """The state of oil for which the design curves are also drawn.

    Args:
        state: "degassed" or "gas-saturated".
    """
    return next(row.oil for row in gap_curves() if row.oil != state)


def curve_for(state: str, covered: bool) -> GapCurve:
    """The gap curve of a state of the oil, for covered or bare metal.

    Args:
        state: "degassed" or "gas-saturated".
        covered: Whether the metal is covered.
    """
    return gap_curve(state, "covered" if covered else "bare")


def strength_on(curve: GapCurve, gap: Number) -> Number:
    """What a gap holds on a curve.

    Args:
        curve: The curve.
        gap: Length along the field line.
    """
    which = f"{curve.oil} oil, {curve.electrodes} electrodes"
    a = from_table(
        curve.coefficient, "Coefficient of the curve", "A", "kV/mm", curve.citation, which
    )
    n = from_table(curve.exponent, "Exponent of the curve", "n", "1", curve.citation, which)
    return calculate(gap_strength, gap, a, n)


def _gap_gradient(voltages: Voltages, number: Description) -> Number:
    gap = number("transformer.tank_clearance")
    radius = on_outline(
        number("bushing.oil_end.shield_diameter") / 2, "Radius of the shield", "R", "mm", "half"
    )
    factor = calculate(rounded_end_factor, gap, radius)
    return calculate(largest_gap_gradient, voltages.dry, gap, factor)
