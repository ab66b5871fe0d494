"""Mechanics, first closed forms: bending at the seat, pressure, gasket."""

from dataclasses import dataclass

from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.heat.bolts import total_clamp_force
from shedlight.physics.heat.contacts import clamp_force
from shedlight.physics.oil.immersion import pressure_with_cushion, temperature_range
from shedlight.physics.strength.allowable import allowable_stress, tensile_strength
from shedlight.physics.strength.bending import (
    bending_moment,
    bending_stress,
    lame_hoop_at_bore,
    section_modulus_tube,
)
from shedlight.physics.strength.gasket import compression, seating_stress
from shedlight.physics.strength.growth import differential_growth
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption, on_outline


@dataclass(frozen=True)
class Strength:
    """Stresses and what they may be [Pa]; gasket compression [1]."""

    bending: Number
    bending_allowed: Number
    hoop: Number
    hoop_allowed: Number
    compression: Number
    test_pressure: Number
    seating: Number | None
    growth: Number


def strength_of(
    installation: Installation, section: Section, head_highest: Number, number: Description
) -> Strength:
    """Everything that follows from loads on the porcelain and the gasket."""
    heights, radii = section.heights, section.radii
    how = "on the section"
    lever = on_outline(
        (heights.cap_top + heights.top) / 2 - heights.seat,
        "Lever, seat to middle of terminal",
        "a",
        "mm",
        how,
    )
    body = on_outline(2 * radii.body, "Body diameter", "D", "mm", how)
    bore = number("bushing.porcelain.bore")
    moment = calculate(bending_moment, number("duty.terminal_load"), lever)
    modulus = calculate(section_modulus_tube, body, bore)
    allowed = _bending_strength(installation)
    safety = assumption("safety")
    pressure = calculate(pressure_with_cushion, head_highest, assumption("test pressure"))
    tension = calculate(tensile_strength, allowed, assumption("tension share"))
    return Strength(
        bending=calculate(bending_stress, moment, modulus),
        bending_allowed=calculate(allowable_stress, allowed, safety),
        hoop=calculate(lame_hoop_at_bore, pressure, body, bore),
        hoop_allowed=calculate(allowable_stress, tension, safety),
        compression=calculate(
            compression,
            number("bushing.gasket.thickness"),
            number("bushing.gasket.compressed_thickness"),
        ),
        test_pressure=pressure,
        seating=_seating(installation, number),
        growth=_growth(installation, section, number),
    )


def _seating(installation: Installation, number: Description) -> Number | None:
    """Seating stress of the gasket where the bolts of the fixing are described."""
    fixing = installation.bushing.fixing
    if not fixing.bolt_diameter or not fixing.bolt_torque:
        return None
    one = calculate(
        clamp_force,
        number("bushing.fixing.bolt_torque"),
        assumption("nut factor"),
        number("bushing.fixing.bolt_diameter"),
    )
    return calculate(
        seating_stress,
        calculate(total_clamp_force, number("bushing.fixing.bolts"), one),
        number("bushing.gasket.outer_diameter"),
        number("bushing.gasket.inner_diameter"),
    )


def _growth(installation: Installation, section: Section, number: Description) -> Number:
    """Growth of the conductor against the porcelain between shield and cap."""
    bushing, heights = installation.bushing, section.heights
    length = on_outline(
        heights.cap_base - heights.oil_end, "Clamped length", "L", "mm", "shield to cap"
    )
    span = calculate(
        temperature_range,
        number("transformer.top_oil_temperature"),
        number("site.coldest_air"),
    )
    return calculate(
        differential_growth,
        material_property(bushing.conductor.metal, "expansion"),
        material_property(f"porcelain {bushing.porcelain.material}", "expansion"),
        length,
        span,
    )


def _bending_strength(installation: Installation) -> Number:
    porcelain = installation.bushing.porcelain
    surface = "unglazed" if porcelain.glaze == "none" else "glazed"
    return material_property(f"porcelain {porcelain.material}", f"bending_strength_{surface}")
