"""The gasket and what presses it: compression, seating, groove, set, and the joint when bent."""

from dataclasses import dataclass

from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.parts import Flange
from shedlight.physics.heat.preload import least_clamp_force
from shedlight.physics.strength.bending import bending_moment, section_modulus_tube
from shedlight.physics.strength.clamping import clamp_force_needed
from shedlight.physics.strength.gasket import compression, groove_fill, seating_stress
from shedlight.physics.strength.gasket_life import (
    GasketMaterial,
    compression_left,
    compression_when_cold,
    gasket_material,
    groove_fill_when_hot,
    seating_stress_needed,
    set_at,
)
from shedlight.physics.strength.growth import warming
from shedlight.physics.strength.joint import cement_pressure, ring_area
from shedlight.trace import Number, calculate
from shedlight.workings.loads import Combination, Loads
from shedlight.workings.numbers import Description, assumption, from_table, on_outline
from shedlight.workings.warmth import Warmth

NO_BOLTS = "bolt diameter and torque of the fixing are not given"
NO_GROOVE = "the gasket lies flat, or the width of its groove is not given"
NO_CEMENT = "clamps hold the collar: there is no cement"
NO_TIE = "clamping force and springs of the cap are not given"
_SET = ("Set after a year at the highest temperature", "C_h", "%")
_EXPANSION = ("Volume expansion of the gasket", "beta_g", "1/K")
_LOWEST = ("Lowest temperature of the gasket", 'theta_"g"', "°C")
_HIGHEST = ("Highest temperature of the gasket", "theta_h", "°C")


@dataclass(frozen=True)
class Joint:
    """A joint that the bending tries to open: force needed and force there [N]."""

    needed: Number
    held: Number


@dataclass(frozen=True)
class Bolted:
    """What the bolts of the fixing do: force of all, seating of the gasket, joint when bent."""

    force: Number
    seating: Number
    seating_needed: Number
    seat: Joint


@dataclass(frozen=True)
class Sealing:
    """The joints; texts say why something is missing."""

    material: GasketMaterial
    compression: Number
    set_share: Number
    compression_left: Number  # set, and as cold as the coldest air
    compression_left_by_table: Number  # set as near the highest temperature of its material
    coldest: Number
    material_coldest: Number
    fill: Number | str
    fill_hot: Number | str
    bolted: Bolted | str
    tie: Joint | str
    cement: Number | str


def sealing_of(
    installation: Installation,
    section: Section,
    found: tuple[Loads, Warmth],
    number: Description,
) -> Sealing:
    """What seals the bushing, cold and hot, new and old, at rest and bent."""
    loads, warmth = found
    material = gasket_material(installation.bushing.gasket.material)
    pressed = calculate(
        compression,
        number("bushing.gasket.thickness"),
        number("bushing.gasket.compressed_thickness"),
    )
    table = _figure(material, material.set_when_hot, _SET)
    expansion = _figure(material, material.expansion, _EXPANSION)
    aged = calculate(
        set_at,
        table,
        _figure(material, material.temperatures[1], _HIGHEST),
        warmth.gasket,
        assumption("gasket hot time"),
    )

    def left(set_share: Number) -> Number:
        cooling = calculate(warming, assumption("assembly temperature"), number("site.coldest_air"))
        sprung = calculate(compression_left, pressed, set_share)
        return calculate(compression_when_cold, sprung, expansion, cooling)

    fill = _fill(installation, number)
    return Sealing(
        material=material,
        compression=pressed,
        set_share=aged,
        compression_left=left(aged),
        compression_left_by_table=left(table),
        coldest=number("site.coldest_air"),
        material_coldest=_figure(material, material.temperatures[0], _LOWEST),
        fill=fill,
        fill_hot=fill if isinstance(fill, str) else _fill_hot(fill, expansion, warmth.gasket),
        bolted=_bolted(loads, number),
        tie=_tie(section, loads, number),
        cement=_cement(installation, section, loads),
    )


def _fill(installation: Installation, number: Description) -> Number | str:
    gasket = installation.bushing.gasket
    if gasket.groove_width is None:
        return NO_GROOVE
    width = on_outline(
        (gasket.outer_diameter - gasket.inner_diameter) / 2,
        "Width of the gasket",
        "b",
        "mm",
        "half",
    )
    return calculate(
        groove_fill,
        width,
        number("bushing.gasket.thickness"),
        number("bushing.gasket.groove_width"),
        number("bushing.gasket.compressed_thickness"),
    )


def _figure(material: GasketMaterial, value: float, label: tuple[str, str, str]) -> Number:
    return from_table(value, *label, material.citation, material.material)


def _fill_hot(fill: Number, expansion: Number, gasket: Number) -> Number:
    return calculate(
        groove_fill_when_hot,
        fill,
        expansion,
        assumption("fixing steel expansion"),
        calculate(warming, gasket, assumption("assembly temperature")),
        assumption("gasket swelling"),
    )


def _hardest(loads: Loads) -> Combination:
    """The combination that bends the seat hardest for what it may."""
    return max(loads.combinations, key=lambda one: float(one.moment_at_seat))


def _bolted(loads: Loads, number: Description) -> Bolted | str:
    force = loads.bolts
    if force is None:
        return NO_BOLTS
    outer, inner = (number(f"bushing.gasket.{side}_diameter") for side in ("outer", "inner"))
    seal = on_outline((outer + inner) / 2, "Mean diameter of the seal", "D", "mm", "of the gasket")
    hardest, pressure = _hardest(loads), loads.test.pressure
    needed = calculate(
        clamp_force_needed,
        hardest.moment_at_seat,
        calculate(section_modulus_tube, outer, inner),
        calculate(ring_area, outer, inner),
        hardest.pressure,
        seal,
        assumption("joint safety"),
    )
    return Bolted(
        force=force,
        seating=calculate(seating_stress, force, outer, inner),
        seating_needed=calculate(
            seating_stress_needed, assumption("tightness"), pressure, pressure, seal, outer, inner
        ),
        seat=Joint(needed, calculate(least_clamp_force, force, assumption("clamp scatter"))),
    )


def _tie(section: Section, loads: Loads, number: Description) -> Joint | str:
    """The joint under the cap, kept shut by the conductor's springs when all is hot."""
    if loads.tie_warm is None:
        return NO_TIE
    heights, radii = section.heights, section.radii
    test = loads.test
    outer = on_outline(
        2 * radii.top_body, "Outer diameter of the cap's seat", "D", "mm", "porcelain"
    )
    bore = number("bushing.porcelain.bore")
    lever = on_outline(
        max(loads.body.terminal - (heights.cap_base - heights.seat), 0.0),
        "Lever",
        "a",
        "mm",
        "cap's seat to middle of the terminal",
    )
    seal = on_outline((outer + bore) / 2, "Mean diameter of the seal", "d", "mm", "under the cap")
    needed = calculate(
        clamp_force_needed,
        calculate(bending_moment, test.shear, lever),
        calculate(section_modulus_tube, outer, bore),
        calculate(ring_area, outer, bore),
        test.pressure,
        seal,
        assumption("joint safety"),
    )
    return Joint(needed, loads.tie_warm)


def _cement(installation: Installation, section: Section, loads: Loads) -> Number | str:
    if not isinstance(installation.bushing.fixing, Flange):
        return NO_CEMENT
    heights = section.heights
    hardest = _hardest(loads)
    depth = on_outline(
        heights.clamp_top - heights.shoulder, "Depth of the cement", "t", "mm", "above the collar"
    )
    body = on_outline(2 * section.radii.body, "Diameter in the cement", "D", "mm", "of the body")
    return calculate(cement_pressure, hardest.moment_at_seat, hardest.shear, body, depth)
