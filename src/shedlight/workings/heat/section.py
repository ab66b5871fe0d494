"""The settled bushing once more as a field of heat on its own section, by finite elements.

Films, fillings and losses are those that the stretches settled to; what differs is the shape: heat
may go any way through conductor, oil, porcelain, gasket and cover.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from shedlight.errors import CalculationError, InputError
from shedlight.geometry.curves import Curve, Point, line
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.heat.air_properties import air_conductivity
from shedlight.physics.heat.cover_heating import cover_material
from shedlight.physics.heat.oil_properties import oil_conductivity
from shedlight.physics.heat.section_field import (
    HeatField,
    HeatProblem,
    HeatSide,
    Matter,
    Skin,
    heat_field,
)
from shedlight.physics.heat.stretches import Across
from shedlight.sources import cite
from shedlight.trace import Input, Kind, Label, Number, Step
from shedlight.workings.heat.cover import MATERIALS, Cover, reach_of
from shedlight.workings.heat.model import Piece
from shedlight.workings.heat.settled import Settled
from shedlight.workings.numbers import assumption

STEM, LOWER, UPPER = "stem metal", "lower end", "upper end"
SOLID = ("porcelain", "gasket", "clamps", "cover", "oil", "clearance", STEM, LOWER, UPPER)
SIZE = 8e-3  # of the elements where nothing asks for smaller ones [m]
IN_CONDUCTOR = {"stem": STEM, "cap": UPPER, "cap seat": UPPER, "cavity top": UPPER}
_CITATION = cite("first principles", "heat conduction, solved by finite elements", "exact")


@dataclass(frozen=True, eq=False)
class SectionHeat:
    """Temperatures by finite elements [K], and what they rest on."""

    field: HeatField
    hot_spot: Number
    terminal: Number
    gasket: Number
    oil: Number
    cover_edge: Number


def section_heat(
    installation: Installation, section: Section, measures: Measures, safe: Settled, cover: Cover
) -> SectionHeat | str:
    """The field of heat of a settled bushing; or in words why there is none.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        safe: What its stretches settled to.
        cover: Its cover.
    """
    try:
        problem = section_problem(installation, section, measures, safe, cover)
        return _read(heat_field(problem), section, safe)
    except (InputError, CalculationError) as error:
        return f"no field of heat: {error}"


def section_problem(
    installation: Installation, section: Section, measures: Measures, safe: Settled, cover: Cover
) -> HeatProblem:
    """A settled bushing as the heat room's finite elements want it.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        safe: What its stretches settled to.
        cover: Its cover.

    Raises:
        InputError: the oil does not fill the space inside.
    """
    if safe.part("air end without oil") is not None:
        raise InputError("lowest_oil_level: the oil does not fill the space up to the cap")
    maker = _Maker(installation, section, measures, safe, cover)
    h, r = section.heights, section.radii
    fine = {
        "oil": (r.bore - r.conductor) / 2,
        "clearance": (r.hole - r.body) / 1.5,
        "gasket": h.seat / 1.5,
        "cover": -h.cover_underside / 1.5,
        STEM: r.conductor,
    }
    return HeatProblem(maker.sides(), maker.matters(), SIZE, fine)


class _Maker:
    """Turns edges into sides and settled stretches into skins and sources."""

    def __init__(
        self,
        installation: Installation,
        section: Section,
        measures: Measures,
        safe: Settled,
        cover: Cover,
    ) -> None:
        self.installation, self.section, self.cover = installation, section, cover
        self.measures, self.safe = measures, safe
        found = zip(safe.model.pieces, safe.state.across, safe.state.chain.means, strict=True)
        self.across = {piece.name: (piece, side, mean) for piece, side, mean in found}

    # --- geometry ---

    def sides(self) -> tuple[HeatSide, ...]:
        skins = self.skins()
        found = []
        for edge in self.section.edges.values():
            left, right = self._region(edge.left, edge.name), self._region(edge.right, edge.name)
            if left is None and right is None:
                continue
            for name, curve, inner in self._cut(edge.name, edge.curve, left, right):
                found.append(HeatSide(name, curve, *inner, skins.get(name)))
        return (*found, *self._cuts())

    def _region(self, name: str, edge: str) -> str | None:
        if name == "conductor":
            return IN_CONDUCTOR.get(edge, LOWER)
        return name if name in SOLID else None

    def _cut(
        self, name: str, curve: Curve, left: str | None, right: str | None
    ) -> list[tuple[str, Curve, tuple[str | None, str | None]]]:
        """Far edges cut to where the cover ends; the axis cut where the conductor changes."""
        end = reach_of(self.installation, self.section)
        h = self.section.heights
        if name == "cover top":
            cut = line(curve.start, Point(end, 0.0))
            return [(name, cut, (left, right))]
        if name == "cover underside":
            cut = line(curve.start, Point(end, h.cover_underside))
            return [(name, cut, (left, right))]
        if name == "far cover":
            rim = line(Point(end, 0.0), Point(end, h.cover_underside))
            return [(name, rim, (left, right))]
        if name == "axis in metal":
            heights = (h.bottom, h.oil_end, h.cap_base, h.top)
            parts = zip(heights[:-1], heights[1:], (LOWER, STEM, UPPER), strict=True)
            return [
                (name, line(Point(0.0, low), Point(0.0, high)), (None, part))
                for low, high, part in parts
            ]
        return [(name, curve, (left, right))]

    def _cuts(self) -> tuple[HeatSide, ...]:
        """Where stem and ends of the conductor meet."""
        h, r = self.section.heights, self.section.radii.conductor
        low = line(Point(0.0, h.oil_end), Point(r, h.oil_end))
        high = line(Point(0.0, h.cap_base), Point(r, h.cap_base))
        return HeatSide("lower cut", low, STEM, LOWER), HeatSide("upper cut", high, UPPER, STEM)

    # --- films ---

    def skins(self) -> Mapping[str, Skin]:
        around, section = self.safe.model.around, self.section
        area = self.measures.air_surface
        air_end, collar = self._film("air end", area), self._film("collar", None)
        oil, air = float(around.oil), float(around.air)
        bath = self._film("oil end", section.curve("oil side").swept_area)
        lower = self._end(0, section.curve("shield").swept_area, "lower stem")
        upper = self._end(-1, section.curve("cap").swept_area, "cap")
        return {
            "air side": air_end,
            "collar side": collar,
            "gasket outer": collar,
            "clamps": collar,
            "oil side": bath,
            "hole mouth": bath,
            "shield": lower,
            "cap": upper,
            "cover top": Skin(float(assumption("cover air film")), air),
            "cover underside": Skin(float(assumption("cover oil film")), oil),
        }

    def _film(self, name: str, area: float | None) -> Skin:
        """What a stretch gives off outside, spread over its area on the section."""
        if name not in self.across:
            return Skin(0.0, float(self.safe.model.around.air))
        piece, side, mean = self.across[name]
        outside = _outer_conductance(piece, side, mean) * piece.stretch.length
        if area is None:
            housing = piece.stretch.housing
            radius = housing.body_radius if housing else self.section.radii.body
            area = 2 * math.pi * radius * piece.stretch.length
        return Skin(outside / area, side.surroundings)

    def _end(self, index: int, area: float, name: str) -> Skin:
        """An end's own conductance and that of the bare stretch beside it."""
        chain = self.safe.state.chain
        node = chain.nodes[index]
        piece, side, _ = self.across[name]
        total = node.conductance + side.side_conductance * piece.stretch.length
        warm = node.conductance * node.ambient
        warm += side.side_conductance * piece.stretch.length * side.surroundings
        return Skin(total / area, warm / total)

    # --- what fills the regions ---

    def matters(self) -> Mapping[str, Matter]:
        bushing = self.installation.bushing
        porcelain = f"porcelain {bushing.porcelain.material}"
        plate = cover_material(MATERIALS[self.installation.transformer.cover_metal])
        return {
            "oil": Matter(self._filling()),
            "porcelain": _matter(porcelain),
            "gasket": Matter(
                float(material_property(bushing.gasket.material, "thermal_conductivity"))
            ),
            "clamps": _matter("steel"),
            "clearance": Matter(self._clearance()),
            "cover": self._cover(plate.conductivity),
            STEM: self._stem(),
            LOWER: self._metal(0, "lower stem", LOWER),
            UPPER: self._metal(-1, "cap", UPPER),
        }

    def _filling(self) -> float:
        """Of the oil inside, motion included: mean over the stretches by their length."""
        total, length = 0.0, 0.0
        for piece, side, mean in self.across.values():
            if piece.stretch.housing is not None:
                k = oil_conductivity((mean + side.bore) / 2) * side.nusselt
                total, length = total + k * piece.stretch.length, length + piece.stretch.length
        return total / length

    def _clearance(self) -> float:
        middle = float(self.safe.model.around.cover)
        bled = self.installation.transformer.hole_bled
        return oil_conductivity(middle) if bled else air_conductivity(middle)

    def _cover(self, conductivity: float) -> Matter:
        """The cover's loss, falling outward as its idealisation says."""
        fall, thick = self.cover.fall, self.installation.transformer.cover_thickness
        a, b = self.section.radii.hole, reach_of(self.installation, self.section)
        power = 2 - fall
        integral = math.log(b / a) if abs(power) < 1e-9 else (b**power - a**power) / power
        source = float(self.cover.loss) / (2 * math.pi * thick * integral)
        return Matter(conductivity, source, fall=fall)

    def _stem(self) -> Matter:
        wire, chain = self.safe.model.case.wire, self.safe.state.chain
        area = math.pi * wire.outer_radius**2
        zones = [
            zone
            for piece, zone in zip(self.safe.model.pieces, chain.zones, strict=True)
            if piece.stretch.housing is not None
        ]
        length = sum(zone.length for zone in zones)
        resistance = sum(zone.resistance_20 * zone.length for zone in zones) / length
        # The wall's own loss is small: it is counted in the stem, as the stretches do.
        other = sum(zone.other_power * zone.length for zone in zones) / length
        return Matter(
            wire.conductivity * wire.area / area,
            (chain.current**2 * resistance + other) / area,
            wire.temperature_coefficient,
        )

    def _metal(self, index: int, name: str, region: str) -> Matter:
        """Joint, sun and the bare stretch's loss, spread over the metal of an end."""
        wire, chain = self.safe.model.case.wire, self.safe.state.chain
        number = self.safe.model.names.index(name)
        power = chain.nodes[index].power + chain.generated[number]
        volume = self._volume(region)
        return Matter(wire.conductivity, max(0.0, power) / volume)

    def _volume(self, region: str) -> float:
        h, r = self.section.heights, self.section.radii
        if region == LOWER:
            height = h.oil_end - h.shield_bottom
            stud = math.pi * r.stud**2 * (h.shield_bottom - h.bottom)
            return stud + math.pi * r.shield**2 * height
        rod = math.pi * r.terminal**2 * (h.top - h.cap_top)
        return rod + math.pi * r.cap**2 * (h.cap_top - h.cap_base)


def _matter(material: str) -> Matter:
    return Matter(float(material_property(material, "thermal_conductivity")))


def _outer_conductance(piece: Piece, side: Across, mean: float) -> float:
    """From the outer surface alone to the surroundings, per length [W/mK]."""
    drop = side.surface - side.surroundings
    heat = side.side_conductance * (mean - side.surroundings)
    if abs(drop) < 1e-9 or heat / drop <= 0:
        return side.side_conductance
    return heat / drop


def _read(field: HeatField, section: Section, safe: Settled) -> SectionHeat:
    origins = (safe.hot_spot,)
    used = tuple(Input(n.step.label, float(n), (n.step,)) for n in origins)

    def number(value: float, name: str, symbol: str) -> Number:
        note = f"finite elements on the section; one order more changes it by {field.doubt:.1e} K"
        label = Label(name, symbol, "°C")
        step = Step(Kind.FORMULA, label, value, _CITATION, '"field of heat"', used, note)
        return Number(value, step)

    hot = max(field.extremes[name][1] for name in (STEM, LOWER, UPPER))
    return SectionHeat(
        field,
        number(hot, "Hottest place of the conductor, by finite elements", 'T_"h"'),
        number(field.extremes[UPPER][1], "Cap and terminal, by finite elements", "T_L"),
        number(field.extremes["gasket"][1], "Gasket, by finite elements", 'T_"g"'),
        number(field.extremes["oil"][1], "Oil inside, by finite elements", 'T_"o"'),
        number(field.extremes["cover"][1], "Cover, by finite elements", 'T_"c"'),
    )
