"""The cover round the hole: heated by the current's field, between hot oil and air."""

from dataclasses import dataclass

from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.physics.heat.conductor import skin_depth
from shedlight.physics.heat.cover import edge_field
from shedlight.physics.heat.cover_heating import (
    CoverMaterial,
    cover_material,
    idle_cover,
    plate_conduction,
    plate_edge_rise,
)
from shedlight.physics.heat.cover_loss import radius_of_field, ring_loss, saturated_ring_loss
from shedlight.physics.heat.terminal import combined_coefficient, warmed
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption, from_table, on_outline

MATERIALS = {
    "steel": "mild steel",
    "non-magnetic steel": "stainless steel",
    "aluminium": "aluminium alloy",
}
INSERT = "stainless steel"
STEEL = "mild steel"
LEAST_RING = 1.5  # the cover is counted at least this far, over the radius of the hole [1]
LINEAR_FALL, SATURATED_FALL = 2.0, 1.5


@dataclass(frozen=True)
class Insert:
    """What a non-magnetic insert would do: how far it reaches [m], what is lost then [W], [K]."""

    radius: Number
    loss_in_insert: Number
    loss_beyond: Number
    edge: Number


@dataclass(frozen=True)
class Cover:
    """The cover round the hole [A/m, W, K]; losses from the lowest to the highest idealisation."""

    edge_field: Number
    losses: tuple[Number, ...]
    loss: Number
    fall: float
    idle: Number
    edge: Number
    insert: Insert | None


def reach_of(installation: Installation, section: Section) -> float:
    """How far out the cover belongs to this bushing: half the distance of the phases [m].

    Args:
        installation: What was described.
        section: Its section.
    """
    radii = section.radii
    least = max(LEAST_RING * radii.hole, 1.05 * radii.ring_outer)
    return max(installation.transformer.phase_spacing / 2, least)


def cover_of(
    installation: Installation,
    section: Section,
    current: Number,
    oil: Number,
    air: Number,
    permitted: Number,
    number: Description,
) -> Cover:
    """Field, loss and temperature of the cover, and what an insert would do.

    Args:
        installation: What was described.
        section: Its section.
        current: Current, rms [A].
        oil: Temperature of the top oil [K].
        air: Air temperature [K].
        permitted: Field permitted in steel, rms [A/m].
        number: Hands out the description's numbers.
    """
    hole = on_outline(section.radii.hole, "Radius of the hole", "a", "mm", "half the diameter")
    outer = on_outline(
        reach_of(installation, section),
        "Radius to which the cover counts",
        "b",
        "mm",
        "half the spacing",
    )
    ring = _Ring(current, hole, outer, number)
    what = MATERIALS[installation.transformer.cover_metal]
    films = assumption("cover oil film"), assumption("cover air film")
    idle = calculate(idle_cover, films[0], oil, films[1], air)
    losses = ring.losses(cover_material(what))
    loss, fall = losses[len(losses) // 2]
    return Cover(
        edge_field=calculate(edge_field, current, hole),
        losses=tuple(number for number, _ in losses),
        loss=loss,
        fall=fall,
        idle=idle,
        edge=calculate(warmed, idle, ring.rise(what, loss, fall)),
        insert=_insert(ring, what, permitted, idle),
    )


@dataclass(frozen=True)
class _Ring:
    """A ring of cover round the conductor."""

    current: Number
    inner: Number
    outer: Number
    number: Description

    def losses(self, material: CoverMaterial) -> list[tuple[Number, float]]:
        """Losses by every idealisation, least first, each with how it falls outward."""
        row = material.material
        rho = from_table(
            material.resistivity, "Resistivity of the plate", "rho", "nΩm", material.citation, row
        )
        frequency = self.number("duty.frequency")
        found = []
        for permeability in sorted(set(material.permeability)):
            mu = from_table(
                permeability, "Relative permeability", "mu_r", "1", material.citation, row
            )
            depth = calculate(skin_depth, rho, frequency, mu)
            thickness = self.number("transformer.cover_thickness")
            loss = calculate(ring_loss, self.current, self.inner, self.outer, rho, depth, thickness)
            found.append((loss, LINEAR_FALL))
        if material.saturation > 0 and self.current > 0:
            flux = from_table(
                material.saturation, "Saturation", 'B_"s"', "T", material.citation, row
            )
            loss = calculate(
                saturated_ring_loss, self.current, self.inner, self.outer, rho, frequency, flux
            )
            found.append((loss, SATURATED_FALL))
        return sorted(found, key=lambda item: float(item[0]))

    def rise(self, what: str, loss: Number, fall: float) -> Number:
        """Rise at the edge of the hole by the ring's own loss."""
        row = cover_material(what)
        k = from_table(
            row.conductivity, "Thermal conductivity", "k", "W/mK", row.citation, row.material
        )
        carried = calculate(plate_conduction, k, self.number("transformer.cover_thickness"))
        film = calculate(
            combined_coefficient, assumption("cover oil film"), assumption("cover air film")
        )
        return calculate(plate_edge_rise, loss, fall, self.inner, self.outer, carried, film)


def _insert(ring: _Ring, what: str, permitted: Number, idle: Number) -> Insert | None:
    """A non-magnetic ring out to where the field in the steel beyond is what custom permits."""
    if what != STEEL:
        return None
    radius = calculate(radius_of_field, ring.current, permitted)
    if radius <= ring.inner:
        return None
    within = _Ring(ring.current, ring.inner, radius, ring.number)
    inside, _ = within.losses(cover_material(INSERT))[-1]
    beyond = inside
    if radius < ring.outer:
        found = _Ring(ring.current, radius, ring.outer, ring.number).losses(cover_material(what))
        beyond = found[len(found) // 2][0]
    edge = calculate(warmed, idle, within.rise(INSERT, inside, LINEAR_FALL))
    return Insert(radius, inside, beyond, edge)
