"""The conductor as the closed formulas want it."""

from dataclasses import dataclass

from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.given.parts import Tube
from shedlight.physics.heat.conduction import axial_conduction
from shedlight.physics.heat.conductor import (
    alternating_resistance,
    circle_area,
    loss_per_length,
    resistance_per_length,
    resistivity,
    skin_depth,
    skin_ratio_rod,
    skin_ratio_tube,
    tube_area,
)
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, on_outline


@dataclass(frozen=True)
class RoundRod:
    """Section, resistance and loss of a rod or tube as warm as the top oil."""

    area: Number
    skin_depth: Number
    resistance_20: Number
    coefficient: Number
    conduction: Number
    loss: Number


def rod_of(installation: Installation, current: Number, number: Description) -> RoundRod:
    """The conductor of a bushing.

    Args:
        installation: What was described.
        current: Current, rms [A].
        number: Hands out the description's numbers.
    """
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
    return RoundRod(area, depth, cold, alpha, conduction, loss)
