"""Stress across the wall inside the hole, where there is an outer electrode."""

from dataclasses import dataclass

from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.radial.cavities import bubble_factor, film_factor
from shedlight.physics.radial.edge import (
    edge_coefficient,
    edge_inception,
    gliding_inception,
    paschen_breakdown,
)
from shedlight.physics.radial.layers import (
    capacitance_of_length,
    capacitance_per_area,
    capacitance_per_length,
    layer_gradient,
    layer_sum,
    layer_voltage,
    mean_gradient,
)
from shedlight.physics.radial.losses import loss_factor
from shedlight.sources import cite
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import assumption, from_table, on_outline
from shedlight.workings.voltages import Voltages

FILLS = ("oil", "gas")
INSIDE_HOLE = "inside the hole; above the cover there is no outer electrode"
_EXACT = cite("first principles", "permittivity of a dilute gas, 1.0006", "exact")


@dataclass(frozen=True)
class LayerStress:
    """Stress in one layer: r.m.s. for power frequency, peak for impulse [V/m], share [V]."""

    layer: str
    fill: str
    at: str
    inner: Number
    outer: Number
    mean: Number
    voltage: Number


@dataclass(frozen=True)
class Radial:
    """Stresses across oil, porcelain and the gap in the hole, with oil or gas in that gap."""

    stresses: tuple[LayerStress, ...]
    capacitance_per_length: Number
    capacitance_per_area: Number
    gap_width: Number
    gas_inception: Number
    bubble_size: Number
    bubble_inception: Number
    bubble_factor: Number
    film_factor: Number
    edge_in_oil: Number
    edge_in_air: Number
    gliding: Number
    hole_capacitance: Number
    loss_factor: Number

    def stress(self, layer: str, fill: str, at: str) -> LayerStress:
        """Stress of a layer (oil, porcelain, gap) with oil or gas in the gap, in a case."""
        return next(s for s in self.stresses if (s.layer, s.fill, s.at) == (layer, fill, at))


def radial_of(installation: Installation, section: Section, voltages: Voltages) -> Radial:
    """Everything that follows from the coaxial layers inside the hole."""
    radii = _radii(section)
    oil = material_property("oil", "permittivity")
    porcelain = material_property(
        f"porcelain {installation.bushing.porcelain.material}", "permittivity"
    )
    gas = from_table(1.0, "Permittivity of trapped gas", 'epsilon_"g"', "1", _EXACT, "gas")
    at = {
        "service": voltages.phase,
        "dry test": voltages.dry,
        "lightning": voltages.lightning,
    }
    stresses: list[LayerStress] = []
    sums = {}
    for fill, inside_gap in zip(FILLS, (oil, gas), strict=True):
        permittivities = (oil, porcelain, inside_gap)
        sums[fill] = calculate(layer_sum, radii, permittivities)
        for name, voltage in at.items():
            stresses += _stresses(fill, name, voltage, radii, permittivities, sums[fill])
    per_length = calculate(capacitance_per_length, sums["oil"])
    fill = "oil" if installation.transformer.hole_bled else "gas"
    held = _hole_capacitance(section, sums[fill])
    lost = _loss_factor(installation, radii, (oil, porcelain, gas), fill)
    return _radial(tuple(stresses), per_length, radii, oil, voltages, held, lost)


def _hole_capacitance(section: Section, total: Number) -> Number:
    height = -section.heights.cover_underside
    length = on_outline(height, "Length of the layers", "l", "mm", "thickness of the cover")
    return calculate(capacitance_of_length, calculate(capacitance_per_length, total), length)


def _loss_factor(
    installation: Installation, radii: tuple[Number, ...], epsilons: tuple[Number, ...], fill: str
) -> Number:
    oil, porcelain, gas = epsilons
    lossy = material_property("oil", "loss_factor")
    wall = material_property(f"porcelain {installation.bushing.porcelain.material}", "loss_factor")
    none = from_table(0.0, "Loss factor of air", "tan delta", "1", _EXACT, "gas")
    gap, lost = (oil, lossy) if fill == "oil" else (gas, none)
    return calculate(loss_factor, radii, (oil, porcelain, gap), (lossy, wall, lost))


def _radii(section: Section) -> tuple[Number, ...]:
    r = section.radii
    named = (
        (r.conductor, "Conductor radius", "r_0"),
        (r.bore, "Bore radius", "r_1"),
        (r.body, "Body radius", "r_2"),
        (r.hole, "Hole radius", "r_3"),
    )
    return tuple(on_outline(v, name, symbol, "mm", INSIDE_HOLE) for v, name, symbol in named)


def _stresses(
    fill: str,
    name: str,
    voltage: Number,
    radii: tuple[Number, ...],
    permittivities: tuple[Number, ...],
    total: Number,
) -> list[LayerStress]:
    found = []
    for index, layer in enumerate(("oil", "porcelain", "gap")):
        inner, outer = radii[index], radii[index + 1]
        epsilon = permittivities[index]
        share = calculate(layer_voltage, voltage, inner, outer, epsilon, total)
        thickness = on_outline(outer - inner, f"Thickness of the {layer}", "t", "mm", INSIDE_HOLE)
        found.append(
            LayerStress(
                layer,
                fill,
                name,
                calculate(layer_gradient, voltage, epsilon, inner, total),
                calculate(layer_gradient, voltage, epsilon, outer, total),
                calculate(mean_gradient, share, thickness),
                share,
            )
        )
    return found


def _radial(
    stresses: tuple[LayerStress, ...],
    per_length: Number,
    radii: tuple[Number, ...],
    oil: Number,
    voltages: Voltages,
    hole_capacitance: Number,
    lost: Number,
) -> Radial:
    per_area = calculate(capacitance_per_area, per_length, radii[2])
    width = on_outline(radii[3] - radii[2], "Gap between body and hole edge", "g", "mm", "radial")
    bubble = assumption("gas bubble")
    return Radial(
        stresses=stresses,
        capacitance_per_length=per_length,
        capacitance_per_area=per_area,
        gap_width=width,
        gas_inception=calculate(paschen_breakdown, width, voltages.density),
        bubble_size=bubble,
        bubble_inception=calculate(paschen_breakdown, bubble, voltages.density),
        bubble_factor=calculate(bubble_factor, oil),
        film_factor=calculate(film_factor, oil),
        edge_in_oil=calculate(edge_inception, _edge("oil"), per_area),
        edge_in_air=calculate(edge_inception, _edge("air"), per_area),
        gliding=calculate(gliding_inception, per_area),
        hole_capacitance=hole_capacitance,
        loss_factor=lost,
    )


def _edge(medium: str) -> Number:
    row = edge_coefficient("metal", medium)
    return from_table(row.coefficient, "Edge coefficient", "K", "kV", row.citation, row.what)
