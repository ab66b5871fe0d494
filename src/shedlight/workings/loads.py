"""Loads on the outer end, together as they may come, and the stress they bring at every height.

Which loads come together follows IEC 61936-1 (from memory): in the normal case dead load, pull,
ice and wind; in rare cases dead load and pull with the greatest of short circuit or earthquake.
"""

from collections.abc import Callable
from dataclasses import dataclass

from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.heat.bolts import total_clamp_force
from shedlight.physics.heat.contacts import clamp_force
from shedlight.physics.strength.allowable import allowable_stress
from shedlight.physics.strength.bending import (
    axial_pressure_stress,
    bending_stress,
    section_modulus_tube,
    wind_pressure_force,
)
from shedlight.physics.strength.clamping import clamp_force_when_warm
from shedlight.physics.strength.combined import (
    Load,
    SectionStress,
    largest_tension,
    stresses_along,
    weight_across,
)
from shedlight.physics.strength.growth import warming
from shedlight.physics.strength.joint import ring_area
from shedlight.physics.strength.load_sums import (
    greatest_tension,
    scaled_force,
    spread_force,
    total_force,
    total_moment,
)
from shedlight.physics.strength.loads import ice_weight, three_phase_force, wind_pressure
from shedlight.physics.strength.short_circuit import three_phase_peak
from shedlight.trace import Number, calculate
from shedlight.workings.body import Body, body_of
from shedlight.workings.earthquake import Shaking, shaking_of
from shedlight.workings.numbers import Description, assumption, on_outline

NO_SPAN = "the length of the connected bar or line is not given (duty.connection_span)"
PARTS = 6


@dataclass(frozen=True)
class Force:
    """One force across the axis and the height above the seat at which it acts [N, m]."""

    name: str
    force: Number
    height: float


@dataclass(frozen=True)
class Combination:
    """Loads that come together, and the hardest pulled section under them."""

    name: str
    forces: tuple[Force, ...]
    pressure: Number
    safety: Number
    moment_at_seat: Number
    shear: Number
    worst: SectionStress
    tension: Number
    allowed: Number
    along: tuple[SectionStress, ...]  # of the porcelain, from the seat up


@dataclass(frozen=True)
class Loads:
    """The outer end with everything that pulls at it; texts say why something is missing."""

    body: Body
    test: Combination
    service: Combination
    lasting: Combination
    short_circuit: Combination | str
    shaking: Shaking | str
    earthquake: Combination | str
    earthquake_static: Combination | str
    tie_warm: Number | None
    bolts: Number | None  # force of all bolts of the fixing [N]

    @property
    def combinations(self) -> tuple[Combination, ...]:
        """Every combination that could be computed."""
        found = (self.test, self.service, self.lasting, self.short_circuit, self.earthquake)
        return tuple(one for one in found if not isinstance(one, str))


def loads_of(
    installation: Installation,
    shape: tuple[Section, Measures],
    pressures: tuple[Number, Number],
    warm: tuple[Number, Number],
    number: Description,
) -> Loads:
    """All combinations of loads on the outer end.

    Args:
        installation: What was described.
        shape: Its section, and what was measured on it.
        pressures: Gauge pressure of the oil, highest in service and in the test [Pa].
        warm: Mean temperature of conductor and porcelain between shield and cap, hottest [K].
        number: Hands out the numbers of the description.
    """
    (section, measures), (service, test) = shape, pressures
    body = body_of(installation, section, measures, number)
    tie = _tie(installation, section, warm, number)
    maker = _Maker(installation, section, body, tie)
    pull = Force("pull of the conductor", number("duty.terminal_pull"), body.terminal)
    wind, ice = _wind(body, number), _ice(installation, body, number)
    weight = _weight(body, number)
    shaking = shaking_of(installation, body, number)
    usual, rare = assumption("safety"), assumption("safety exceptional")
    bending = Force("load of the bending test", number("duty.terminal_load"), body.terminal)
    surge = _surge(installation, body, number)
    rest = (pull, *weight)

    def quake(force: Callable[[Shaking], Number]) -> Combination | str:
        if isinstance(shaking, str):
            return shaking
        shake = Force("shaking", force(shaking), shaking.height)
        return maker.combination("earthquake", (*rest, shake, _tenth(wind)), service, rare)

    return Loads(
        body=body,
        test=maker.combination("bending test", (bending,), test, usual),
        service=maker.combination("service in wind and ice", (*rest, *ice, wind), service, usual),
        lasting=maker.combination("lasting loads", rest, service, usual),
        short_circuit=surge
        if isinstance(surge, str)
        else maker.combination("short circuit", (*rest, surge), service, rare),
        shaking=shaking,
        earthquake=quake(lambda one: one.force),
        earthquake_static=quake(lambda one: one.static_force),
        tie_warm=tie,
        bolts=_bolts(installation, number),
    )


@dataclass(frozen=True)
class _Maker:
    """Finds the hardest pulled section and computes it line by line."""

    installation: Installation
    section: Section
    body: Body
    tie: Number | None

    def combination(
        self, name: str, forces: tuple[Force, ...], pressure: Number, safety: Number
    ) -> Combination:
        loads = tuple(Load(force.height, float(force.force)) for force in forces)
        pressed = max(0.0, float(self.tie)) if self.tie is not None else 0.0
        whole = stresses_along(self.body.beam, loads, (), float(pressure), pressed, PARTS)
        edge = self.body.porcelain_top * (1 + 1e-9)
        along = tuple(s for s in whole if s.force.height <= edge and s.inner_diameter > 0)
        worst = largest_tension(along)
        return Combination(
            name=name,
            forces=forces,
            pressure=pressure,
            safety=safety,
            moment_at_seat=self._moment(forces, 0.0),
            shear=calculate(total_force, tuple(force.force for force in forces)),
            worst=worst,
            tension=self._tension(forces, worst, pressure),
            allowed=calculate(allowable_stress, bending_strength(self.installation), safety),
            along=along,
        )

    def _moment(self, forces: tuple[Force, ...], height: float) -> Number:
        above = [force for force in forces if force.height > height] or list(forces)
        levers = tuple(
            on_outline(
                max(force.height - height, 0.0),
                f"Lever of {force.name}",
                "a",
                "mm",
                f"to the section {1e3 * height:.4g} mm above the seat",
            )
            for force in above
        )
        return calculate(total_moment, tuple(force.force for force in above), levers)

    def _tension(self, forces: tuple[Force, ...], worst: SectionStress, pressure: Number) -> Number:
        how = f"{1e3 * worst.force.height:.4g} mm above the seat"
        outer = on_outline(worst.outer_diameter, "Outer diameter", "D", "mm", how)
        inner = on_outline(worst.inner_diameter, "Inner diameter", "d", "mm", how)
        moment = self._moment(forces, worst.force.height)
        bending = calculate(bending_stress, moment, calculate(section_modulus_tube, outer, inner))
        return calculate(
            greatest_tension,
            bending,
            calculate(axial_pressure_stress, pressure, outer, inner),
            _pressing(self.tie),
            calculate(ring_area, outer, inner),
        )


def bending_strength(installation: Installation) -> Number:
    """Strength of the porcelain in bending, glazed or not [Pa]."""
    porcelain = installation.bushing.porcelain
    surface = "unglazed" if porcelain.glaze == "none" else "glazed"
    return material_property(f"porcelain {porcelain.material}", f"bending_strength_{surface}")


def _pressing(tie: Number | None) -> Number:
    how = "nothing is known of a tie" if tie is None else "what is left of the tie when warm"
    force = 0.0 if tie is None else -max(0.0, float(tie))
    return on_outline(force, "Force along the axis, pull positive", "N", "N", how)


def _wind(body: Body, number: Description) -> Force:
    pressure = calculate(wind_pressure, number("site.wind_speed"), assumption("air density"))
    ice = number("site.ice_thickness")
    wide = on_outline(
        body.envelope + 2 * float(ice),
        "Diameter of the envelope",
        "D",
        "mm",
        "over the sheds, with ice on both sides",
    )
    long = on_outline(body.beam.height, "Length in the wind", "L", "m", "seat to top")
    force = calculate(wind_pressure_force, pressure, assumption("drag"), wide, long)
    return Force("wind", force, body.beam.height / 2)


def _tenth(wind: Force) -> Force:
    force = calculate(scaled_force, wind.force, assumption("earthquake wind"))
    return Force("a tenth of the wind", force, wind.height)


def _weight(body: Body, number: Description) -> tuple[Force, ...]:
    tilt = number("transformer.mounting_angle")
    if float(tilt) == 0.0:
        return ()
    head = body.beam.masses[0].height
    return (
        Force(
            "weight of the body",
            calculate(weight_across, body.body_mass, tilt),
            body.porcelain_top / 2,
        ),
        Force("weight of cap and terminal", calculate(weight_across, body.top_mass, tilt), head),
    )


def _ice(installation: Installation, body: Body, number: Description) -> tuple[Force, ...]:
    """Weight of the ice; upright it presses the body and does not bend it."""
    thickness = number("site.ice_thickness")
    if float(thickness) * installation.transformer.mounting_angle == 0.0:
        return ()
    wide = on_outline(body.envelope, "Diameter under the ice", "D", "mm", "over the sheds")
    long = on_outline(body.beam.height, "Length under ice", "L", "m", "seat to top")
    each = calculate(ice_weight, thickness, wide, assumption("ice density"))
    weight = calculate(spread_force, each, long)
    return (Force("ice, as if all its weight bent", weight, body.beam.height / 2),)


def _surge(installation: Installation, body: Body, number: Description) -> Force | str:
    if installation.duty.connection_span is None:
        return NO_SPAN
    peak = calculate(three_phase_peak, number("duty.short_time_current"), assumption("peak factor"))
    steady = calculate(
        three_phase_force,
        peak,
        number("duty.connection_span"),
        number("transformer.phase_spacing"),
    )
    force = calculate(scaled_force, steady, assumption("dynamic factor"))
    return Force("force of the short circuit", force, body.terminal)


def _bolts(installation: Installation, number: Description) -> Number | None:
    fixing = installation.bushing.fixing
    if not fixing.bolt_diameter or not fixing.bolt_torque:
        return None
    one = calculate(
        clamp_force,
        number("bushing.fixing.bolt_torque"),
        assumption("nut factor"),
        number("bushing.fixing.bolt_diameter"),
    )
    return calculate(total_clamp_force, number("bushing.fixing.bolts"), one)


def _tie(
    installation: Installation,
    section: Section,
    warm: tuple[Number, Number],
    number: Description,
) -> Number | None:
    """What is left of the central clamping when oil and conductor are hottest; None if unknown."""
    bushing = installation.bushing
    if bushing.cap.clamp_force is None or bushing.cap.spring_rate is None:
        return None
    heights = section.heights
    length = on_outline(
        heights.cap_base - heights.oil_end, "Clamped length", "L", "mm", "shield to cap"
    )
    assembly = assumption("assembly temperature")
    conductor, porcelain = (calculate(warming, hottest, assembly) for hottest in warm)
    return calculate(
        clamp_force_when_warm,
        number("bushing.cap.clamp_force"),
        number("bushing.cap.spring_rate"),
        material_property(bushing.conductor.metal, "expansion"),
        conductor,
        material_property(f"porcelain {bushing.porcelain.material}", "expansion"),
        porcelain,
        length,
    )
