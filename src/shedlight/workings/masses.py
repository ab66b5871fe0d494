"""The mass of every part that is a body of revolution, and of the palm."""

import math
from dataclasses import dataclass

from shedlight.geometry.measures import Measures
from shedlight.geometry.rings import rings_of
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.given.parts import Palm, ShieldRing, Tube
from shedlight.physics.strength.mass import mass
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import on_outline


@dataclass(frozen=True)
class PartMass:
    """One part with its mass [kg]; metal of unknown kind is taken as the conductor's."""

    part: str
    material: str
    mass: Number


def masses_of(
    installation: Installation, section: Section, measures: Measures
) -> tuple[PartMass, ...]:
    """The mass of each part, horns, bolts, ring holders and gasket left out."""
    metal = installation.bushing.conductor.metal
    porcelain = f"porcelain {installation.bushing.porcelain.material}"
    volumes: tuple[tuple[str, str, float], ...] = (
        ("porcelain body", porcelain, measures.porcelain_volume),
        ("conductor, cap, shield and studs", metal, _metal_volume(installation, section)),
        ("terminal", installation.bushing.terminal.metal, _terminal_volume(installation)),
        ("clamps or flange", "steel", section.outline("clamps").enclosed_volume),
        ("oil inside", "oil", measures.oil_volume),
    )
    rings = rings_of(installation.bushing, section.heights)
    volumes += tuple((name, ring.metal, _tube_volume(ring)) for name, ring, _ in rings)
    return tuple(PartMass(part, what, _mass(part, what, volume)) for part, what, volume in volumes)


def _tube_volume(ring: ShieldRing) -> float:
    """Metal of a ring: the tube's wall, once round."""
    section = math.pi * ring.wall * (ring.tube_diameter - ring.wall)
    return math.pi * ring.diameter * section


def _mass(part: str, material: str, volume: float) -> Number:
    name = "density_20" if material == "oil" else "density"
    size = on_outline(volume, f"Volume of {part}", "V", "l", "on the section")
    return calculate(mass, material_property(material, name), size)


def _metal_volume(installation: Installation, section: Section) -> float:
    """The live metal of the section, less the stem that stands for the terminal, less a bore."""
    heights, radii = section.heights, section.radii
    above = math.pi * radii.terminal**2 * (heights.top - heights.cap_top)
    whole = section.outline("conductor").enclosed_volume - above
    conductor = installation.bushing.conductor
    if isinstance(conductor, Tube):
        length = heights.cap_base - heights.oil_end
        whole -= math.pi * conductor.inner_diameter**2 / 4 * length
    return whole


def _terminal_volume(installation: Installation) -> float:
    terminal = installation.bushing.terminal
    if isinstance(terminal, Palm):
        holes = terminal.holes * math.pi * terminal.hole_diameter**2 / 4
        return (terminal.width * terminal.height - holes) * terminal.thickness
    return math.pi * terminal.diameter**2 / 4 * terminal.height
