"""The part above the seat as a beam: what stands where, how heavy, how stiff, how it rocks."""

import math
from dataclasses import dataclass, replace

from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.given.parts import Palm, Tube
from shedlight.physics.strength.gasket_life import apparent_modulus
from shedlight.physics.strength.joint import bed_stiffness, rocking_stiffness
from shedlight.physics.strength.mass import mass
from shedlight.physics.strength.stepped import PointMass, Segment, SteppedBeam, tapered
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, on_outline


@dataclass(frozen=True)
class Body:
    """The bushing above its seat; heights count from the seat [m].

    The collar counts with the section of the body: what it adds is taken up by the clamps.
    """

    beam: SteppedBeam  # on a stiff cover
    terminal: float  # middle of the terminal
    porcelain_top: float
    envelope: float  # widest diameter in the wind [m]
    body_mass: Number  # porcelain, conductor and oil above the seat
    top_mass: Number  # cap and terminal
    base_stiffness: Number  # of the gasket by itself, against rocking [Nm/rad]
    seat_bed: Number  # of the gasket, pressure per depth [N/m³]

    @property
    def rocking(self) -> SteppedBeam:
        """The same beam held by nothing but its gasket."""
        return replace(self.beam, base_stiffness=float(self.base_stiffness))


def body_of(
    installation: Installation, section: Section, measures: Measures, number: Description
) -> Body:
    """The beam that loads at the terminal, wind and earthquakes bend."""
    heights, radii = section.heights, section.radii
    body_mass = _mass(
        installation,
        "porcelain, conductor and oil above the seat",
        *_parts(installation, section, measures),
    )
    top = _mass(installation, "cap and terminal", *_head(installation, section))
    length = heights.cap_base - heights.seat
    terminal = (heights.cap_top + heights.top) / 2 - heights.seat
    metal = float(material_property(installation.bushing.conductor.metal, "elastic_modulus"))
    segments = (
        *_porcelain(installation, section, float(body_mass) / length),
        Segment(heights.cap_top - heights.cap_base, 2 * radii.cap, 0.0, metal, 0.0),
        Segment(heights.top - heights.cap_top, 2 * radii.terminal, 0.0, metal, 0.0),
    )
    bare = SteppedBeam(segments)
    at = min((heights.cap_base + heights.cap_top) / 2 - heights.seat, bare.height)
    beam = SteppedBeam(segments, (PointMass(at, float(top)),))
    rocking, bed = _base(installation, number)
    widest = max(radii.body, radii.cap, *(shed.tip_radius for shed in section.sheds))
    return Body(
        beam=beam,
        terminal=min(terminal, beam.height),
        porcelain_top=length,
        envelope=2 * widest,
        body_mass=body_mass,
        top_mass=top,
        base_stiffness=rocking,
        seat_bed=bed,
    )


def _porcelain(
    installation: Installation, section: Section, per_length: float
) -> tuple[Segment, ...]:
    heights, radii = section.heights, section.radii
    material = f"porcelain {installation.bushing.porcelain.material}"
    modulus = float(material_property(material, "elastic_modulus"))
    foot = heights.shoulder - heights.seat
    below, above = (2 * radii.body, 2 * radii.bore), (2 * radii.top_body, 2 * radii.bore)
    first = Segment(foot, *below, modulus, per_length)
    rest = heights.cap_base - heights.shoulder
    if radii.body == radii.top_body:
        return first, Segment(rest, *below, modulus, per_length)
    return first, *tapered(rest, below, above, modulus, per_length)


def _parts(
    installation: Installation, section: Section, measures: Measures
) -> tuple[tuple[str, float], ...]:
    """Volumes above the seat, by material [m³]."""
    heights, radii = section.heights, section.radii
    length = heights.cap_base - heights.seat
    straight = heights.seat - heights.taper_start
    taper = heights.taper_start - heights.oil_end
    a, b = radii.body, radii.oil_end
    below = math.pi * (straight * a**2 + taper * (a**2 + a * b + b**2) / 3)
    below -= math.pi * radii.bore**2 * (straight + taper)
    conductor = installation.bushing.conductor
    bored = conductor.inner_diameter / 2 if isinstance(conductor, Tube) else 0.0
    metal = math.pi * (radii.conductor**2 - bored**2) * length
    oil = math.pi * (radii.bore**2 - radii.conductor**2) * length
    porcelain = f"porcelain {installation.bushing.porcelain.material}"
    solid = max(measures.porcelain_volume - below, 0.0)
    return (porcelain, solid), (conductor.metal, metal), ("oil", oil)


def _head(installation: Installation, section: Section) -> tuple[tuple[str, float], ...]:
    heights, terminal = section.heights, installation.bushing.terminal
    cap = math.pi * section.radii.cap**2 * (heights.cap_top - heights.cap_base)
    if isinstance(terminal, Palm):
        top = terminal.width * terminal.height * terminal.thickness
    else:
        top = math.pi * terminal.diameter**2 / 4 * terminal.height
    return (installation.bushing.conductor.metal, cap), (terminal.metal, top)


def _mass(installation: Installation, name: str, *volumes: tuple[str, float]) -> Number:
    """Mass of several parts together, as one of their mean density."""
    whole = sum(volume for _, volume in volumes)
    weighed = [
        float(material_property(m, "density_20" if m == "oil" else "density")) * v
        for m, v in volumes
    ]
    density = on_outline(
        sum(weighed) / whole, f"Mean density of {name}", "rho", "kg/m³", "by volume, from the table"
    )
    size = on_outline(whole, f"Volume of {name}", "V", "l", "on the section")
    return calculate(mass, density, size)


def _base(installation: Installation, number: Description) -> tuple[Number, Number]:
    """The gasket against rocking, and as a bed."""
    gasket = installation.bushing.gasket
    outer, inner = (number(f"bushing.gasket.{side}_diameter") for side in ("outer", "inner"))
    pressed = number("bushing.gasket.compressed_thickness")
    width = on_outline(
        (gasket.outer_diameter - gasket.inner_diameter) / 2, "Width of the ring", "b", "mm", "half"
    )
    modulus = calculate(
        apparent_modulus, material_property(gasket.material, "rubber_modulus"), width, pressed
    )
    rocking = calculate(rocking_stiffness, modulus, outer, inner, pressed)
    return rocking, calculate(bed_stiffness, modulus, pressed)
