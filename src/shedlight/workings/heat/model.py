"""From a description to the stretches of conductor that the heat room settles."""

import math
from dataclasses import dataclass, replace

from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.given.parts import Palm, Tube
from shedlight.physics.heat.air_properties import air_pressure
from shedlight.physics.heat.conduction import equal_section
from shedlight.physics.heat.from_nusselt import shed_area_factor
from shedlight.physics.heat.steady import EndBody, SteadyCase, Wire
from shedlight.physics.heat.stretches import CoverHole, Housing, OilBath, OpenAir, Outside, Stretch
from shedlight.trace import Number, calculate
from shedlight.workings.heat.joints import Joints
from shedlight.workings.numbers import Description, assumption, on_outline

LEVEL = math.pi / 4  # an axis closer to level than to upright counts as lying [rad]
SHORTEST = 1e-6  # shorter stretches are none [m]
NOTHING = on_outline(0.0, "Heat made besides that of the current", "p", "W/m", "outside the hole")


@dataclass(frozen=True)
class Surroundings:
    """What is around the bushing [K]."""

    oil: Number
    air: Number
    cover: Number
    current: Number
    wind: Number | None = None  # that cools [m/s]


@dataclass(frozen=True)
class Piece:
    """One stretch with the numbers that its trace starts from."""

    name: str
    stretch: Stretch
    length: Number
    power: Number
    metal: Number  # section of the metal [m²]
    area_factor: Number | None = None


@dataclass(frozen=True)
class Ends:
    """Areas of the metal at both ends [m²], and what the joints resist."""

    lower_area: Number
    upper_area: Number
    joints: Joints


@dataclass(frozen=True)
class Model:
    """A bushing as the heat room wants it, and the numbers behind it."""

    case: SteadyCase
    pieces: tuple[Piece, ...]
    ends: Ends
    around: Surroundings

    @property
    def names(self) -> tuple[str, ...]:
        """What each stretch is called, from the lower end up."""
        return tuple(piece.name for piece in self.pieces)


def model_of(
    installation: Installation,
    section: Section,
    measures: Measures,
    joints: Joints,
    around: Surroundings,
    dielectric: Number,
    number: Description,
) -> Model:
    """The stretches of a bushing at one current.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        joints: Its joints.
        around: Temperatures around it, and the current.
        dielectric: Heat that the voltage makes inside the hole, per length [W/m].
        number: Hands out the description's numbers.
    """
    pieces = _Maker(installation, section, measures, around).pieces(dielectric)
    ends = Ends(_lower_area(section), _upper_area(installation, section), joints)
    h = section.heights
    lower = EndBody(
        OilBath(float(around.oil)),
        float(ends.lower_area),
        h.oil_end - h.bottom,
        2 * section.radii.shield,
        float(joints.lower),
    )
    line = installation.duty.line_temperature
    upper = EndBody(
        weather(installation, around, metal=True),
        float(ends.upper_area),
        h.top - h.cap_base,
        2 * section.radii.cap,
        float(joints.upper),
        installation.duty.line_conductance or 0.0,
        None if line is None else line,
    )
    case = SteadyCase(
        wire_of(installation),
        tuple(piece.stretch for piece in pieces),
        lower,
        upper,
        float(around.current),
        lying=installation.transformer.mounting_angle > LEVEL,
    )
    return Model(case, pieces, ends, around)


def shaded(model: Model) -> Model:
    """The same bushing without sun, as the rise is tested.

    Args:
        model: The bushing.
    """
    pieces = tuple(
        replace(piece, stretch=replace(piece.stretch, outside=_dark(piece.stretch.outside)))
        for piece in model.pieces
    )
    upper = replace(model.case.upper, outside=_dark_end(model.case.upper.outside))
    stretches = tuple(piece.stretch for piece in pieces)
    return replace(model, case=replace(model.case, stretches=stretches, upper=upper), pieces=pieces)


def _dark(outside: Outside) -> Outside:
    return replace(outside, irradiance=0.0) if isinstance(outside, OpenAir) else outside


def _dark_end(outside: OilBath | OpenAir) -> OilBath | OpenAir:
    return replace(outside, irradiance=0.0) if isinstance(outside, OpenAir) else outside


def wire_of(installation: Installation) -> Wire:
    """The conductor of a bushing.

    Args:
        installation: What was described.
    """
    conductor = installation.bushing.conductor
    inner = conductor.inner_diameter / 2 if isinstance(conductor, Tube) else 0.0
    metal = conductor.metal
    return Wire(
        conductor.diameter / 2,
        inner,
        float(material_property(metal, "resistivity_20")),
        float(material_property(metal, "temperature_coefficient")),
        float(material_property(metal, "thermal_conductivity")),
        installation.duty.frequency,
    )


def weather(installation: Installation, around: Surroundings, *, metal: bool) -> OpenAir:
    """Air, sun and wind on porcelain or on metal.

    Args:
        installation: What was described.
        around: Temperatures around it, and the wind.
        metal: Whether the surface is metal.
    """
    site = installation.site
    glaze = "metal" if metal else installation.bushing.porcelain.glaze
    emissivity = assumption("metal emissivity" if metal else "emissivity")
    return OpenAir(
        float(around.air),
        float(around.wind or 0.0),
        site.irradiance,
        float(assumption(f"sun {glaze}")),
        float(emissivity),
        air_pressure(site.altitude),
    )


class _Maker:
    """Cuts a section into stretches."""

    def __init__(
        self,
        installation: Installation,
        section: Section,
        measures: Measures,
        around: Surroundings,
    ) -> None:
        self.installation, self.section, self.measures = installation, section, measures
        self.around = around
        angle = installation.transformer.mounting_angle
        # Along a tilted axis the same oil level reaches farther up.
        self.level = installation.transformer.lowest_oil_level / max(math.cos(angle), 1e-6)
        self.rod = on_outline(
            wire_of(installation).area,
            "Cross-section of the conductor",
            "A",
            "mm²",
            "from its sizes",
        )
        porcelain = f"porcelain {installation.bushing.porcelain.material}"
        self.wall = float(material_property(porcelain, "thermal_conductivity"))

    def pieces(self, dielectric: Number) -> tuple[Piece, ...]:
        h, r = self.section.heights, self.section.radii
        bath = OilBath(float(self.around.oil))
        foot = max(h.oil_end, h.cover_underside)
        hole = CoverHole(float(self.around.cover), r.hole, self.installation.transformer.hole_bled)
        side = self.section.curve("oil side")
        mean = side.swept_area / (2 * math.pi * side.length)
        stem = h.oil_end - h.bottom - self.installation.bushing.oil_end.stud_length / 2
        tail = h.cap_top - h.cap_base + self.installation.bushing.terminal.height / 2
        bare = weather(self.installation, self.around, metal=True)
        found = [
            self._piece("lower stem", stem, bath, None, metal=self._lower_metal(stem)),
            self._piece("oil end", foot - h.oil_end, bath, self._housing(mean, h.oil_end, foot)),
            self._piece("hole", h.seat - foot, hole, self._housing(r.body, foot, h.seat)),
            *self._in_air(),
            self._piece("cap", tail, bare, None, metal=self._upper_metal()),
        ]
        kept = [piece for piece in found if piece is not None]
        return tuple(
            replace(
                piece,
                power=dielectric,
                stretch=replace(
                    piece.stretch,
                    field_loss=float(dielectric),
                    loss_doubling=float(assumption("loss doubling")),
                ),
            )
            if piece.name == "hole"
            else piece
            for piece in kept
        )

    def _in_air(self) -> list[Piece | None]:
        h, r = self.section.heights, self.section.radii
        air = weather(self.installation, self.around, metal=False)
        collar = self._housing(r.body, h.seat, h.clamp_top)
        level = min(max(self.level, h.clamp_top), h.cap_base)
        mean = (r.body + r.top_body) / 2
        factor = self._area_factor(mean)
        envelope = self._envelope(mean)
        low = self._housing(mean, h.clamp_top, level, envelope, factor)
        high = self._housing(mean, level, h.cap_base, envelope, factor)
        return [
            self._piece("collar", h.clamp_top - h.seat, air, collar),
            self._piece("air end", level - h.clamp_top, air, low, factor),
            self._piece("air end without oil", h.cap_base - level, air, high, factor),
        ]

    def _piece(
        self,
        name: str,
        length: float,
        outside: OilBath | CoverHole | OpenAir,
        housing: Housing | None,
        factor: Number | None = None,
        metal: Number | None = None,
    ) -> Piece | None:
        if length < SHORTEST:
            return None
        measured = on_outline(length, f"Length of the stretch {name!r}", "L", "mm", "along axis")
        area = self.rod if metal is None else metal
        stretch = Stretch(length, outside, housing, area_ratio=area / self.rod)
        return Piece(name, stretch, measured, NOTHING, area, factor)

    def _lower_metal(self, stem: float) -> Number:
        """Conductor or stud, whichever is wider, through the shield; then half the stud."""
        h, r = self.section.heights, self.section.radii
        inside = h.oil_end - h.shield_bottom
        stud = math.pi * r.stud**2
        return _in_series((inside, max(stud, self.rod)), (stem - inside, stud))

    def _upper_metal(self) -> Number:
        """Conductor or stud, whichever is wider, through the cap; then half the terminal."""
        h, terminal = self.section.heights, self.installation.bushing.terminal
        if isinstance(terminal, Palm):
            above, inside = terminal.width * terminal.thickness, float(self.rod)
        else:
            above = math.pi * terminal.diameter**2 / 4
            inside = max(above, self.rod)
        return _in_series((h.cap_top - h.cap_base, inside), (terminal.height / 2, above))

    def _housing(
        self,
        radius: float,
        low: float,
        high: float,
        envelope: float | None = None,
        factor: Number | None = None,
    ) -> Housing:
        h, bore = self.section.heights, self.section.radii.bore
        oil_filled = self.level >= high - SHORTEST
        top = min(max(self.level, h.oil_end + SHORTEST), h.cap_base)
        height = top - h.oil_end if oil_filled else h.cap_base - max(top, low)
        body = max(radius, bore + 1e-4)
        return Housing(
            bore,
            body,
            max(body, envelope or body),
            1.0 if factor is None else float(factor),
            self.wall,
            oil_filled,
            max(height, SHORTEST),
        )

    def _area_factor(self, mean: float) -> Number:
        h = self.section.heights
        plain = 2 * math.pi * mean * (h.cap_base - h.clamp_top)
        return calculate(
            shed_area_factor,
            on_outline(self.measures.air_surface, "Surface in air", "A", "cm²", "on the section"),
            on_outline(plain, "Surface of the plain body", "A_0", "cm²", "without sheds"),
            assumption("shed efficiency"),
        )

    def _envelope(self, mean: float) -> float:
        """Mean over the tips of the sheds: what is seen of the body from afar."""
        tips = [shed.tip_radius for shed in self.section.sheds]
        return sum(tips) / len(tips) if tips else mean


def _in_series(*parts: tuple[float, float]) -> Number:
    """Section that conducts as some lengths [m] of some sections [m²] do together."""
    kept = [(length, area) for length, area in parts if length > SHORTEST]
    how = "on the section, from the lower end up"
    return calculate(
        equal_section,
        tuple(on_outline(length, "Length", "l", "mm", how) for length, _ in kept),
        tuple(on_outline(area, "Cross-section", "A", "mm²", how) for _, area in kept),
    )


def _lower_area(section: Section) -> Number:
    h, r = section.heights, section.radii
    shield = 2 * math.pi * r.shield * (h.oil_end - h.shield_bottom) + math.pi * r.shield**2
    stud = 2 * math.pi * r.stud * (h.shield_bottom - h.bottom)
    return on_outline(shield + stud, "Metal of the lower end in oil", "A", "cm²", "shield and stud")


def _upper_area(installation: Installation, section: Section) -> Number:
    h, r, terminal = section.heights, section.radii, installation.bushing.terminal
    cap = 2 * math.pi * r.cap * (h.cap_top - h.cap_base) + math.pi * r.cap**2
    if isinstance(terminal, Palm):
        end, how = 2 * terminal.width * terminal.height, "cap and both faces of the palm"
    else:
        end, how = math.pi * terminal.diameter * terminal.height, "cap and mantle of the stud"
    return on_outline(cap + end, "Metal of the upper end in air", "A", "cm²", how)
