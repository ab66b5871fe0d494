"""Porcelain as a brittle body: pressure, lasting load, glaze, heat and cold; metal beside it."""

from dataclasses import dataclass

from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.oil.immersion import temperature_range
from shedlight.physics.strength.allowable import allowable_stress, tensile_strength
from shedlight.physics.strength.bending import lame_hoop_at_bore
from shedlight.physics.strength.brittle import (
    glaze_compression,
    static_fatigue_factor,
    thermal_hoop_outside,
)
from shedlight.physics.strength.glaze import glaze_pull, glazed_strength
from shedlight.physics.strength.growth import differential_growth, growth_apart, warming
from shedlight.physics.strength.joint import loosening_deflection
from shedlight.physics.strength.load_sums import added_stress
from shedlight.physics.strength.size_effect import (
    body_strength,
    effective_surface,
    size_ratio,
    time_ratio,
)
from shedlight.physics.strength.stepped import deflection
from shedlight.physics.strength.survival import fracture_probability, unit_strength
from shedlight.physics.strength.thermal_shock import (
    biot,
    critical_step,
    rain_step,
    shock_severity,
    wall_difference,
)
from shedlight.sources import cite
from shedlight.trace import Label, Number, calculate
from shedlight.workings.body import Body
from shedlight.workings.loads import Combination, Loads, bending_strength
from shedlight.workings.numbers import Description, assumption, modelled, on_outline
from shedlight.workings.warmth import Warmth

_BEAM = cite("Timoshenko", "stepped cantilever", "exact")
_LINK = cite("Weibull", "weakest link over the whole surface", "exact")
NO_GLAZE = "the porcelain has no glaze"


@dataclass(frozen=True)
class Survival:
    """Lasting tension, what the body bears for a lifetime [Pa], and the share that breaks [1]."""

    tension: Number
    allowed: Number
    fracture: Number


@dataclass(frozen=True)
class Deflection:
    """How far the terminal gives way in the bending test [m]."""

    stiff_base: Number
    rocking: Number
    loosening: Number


@dataclass(frozen=True)
class Glaze:
    """Compression left by firing, pull of the worst load [Pa], strength it explains [Pa]."""

    compression: Number
    pull: Number
    strength: Number
    bare: Number


@dataclass(frozen=True)
class Thermal:
    """Cold rain on hot porcelain [K]; heat behind a cold wall [Pa], settled and coming on.

    The first estimate has the hottest top oil at the bore in the coldest air.
    """

    step: Number
    step_allowed: Number
    step_of_test: Number
    gradient: Number
    hoop: Number
    first_estimate: Number
    hoop_at_start: Number | str


@dataclass(frozen=True)
class Strength:
    """The porcelain as a brittle body [Pa]; growth of the metal in it [m].

    The first estimate of the growth has both as hot as the top oil.
    """

    test_pressure: Number
    hoop: Number
    tension_allowed: Number
    survival: Survival
    deflection: Deflection
    glaze: Glaze | str
    thermal: Thermal
    growth: Number
    growth_first: Number


def strength_of(
    installation: Installation,
    section: Section,
    found: tuple[Loads, Warmth],
    number: Description,
) -> Strength:
    """What pressure, time, heat and cold ask of the porcelain."""
    (loads, warmth), radii = found, section.radii
    body = on_outline(2 * radii.body, "Body diameter", "D", "mm", "on the section")
    bore = number("bushing.porcelain.bore")
    tension = calculate(
        tensile_strength, bending_strength(installation), assumption("tension share")
    )
    allowed = calculate(allowable_stress, tension, assumption("safety"))
    hoop = calculate(lame_hoop_at_bore, loads.test.pressure, body, bore)
    return Strength(
        test_pressure=loads.test.pressure,
        hoop=hoop,
        tension_allowed=allowed,
        survival=_survival(installation, loads),
        deflection=_deflection(installation, loads, number),
        glaze=_glaze(installation, loads),
        thermal=_thermal(installation, section, allowed, loads.service.pressure, (warmth, number)),
        growth=_growth(installation, section, warmth, number),
        growth_first=_growth_first(installation, section, number),
    )


def _survival(installation: Installation, loads: Loads) -> Survival:
    """The lasting loads against small flaws that grow for a lifetime."""
    modulus, growth = assumption("weibull modulus"), assumption("crack growth")
    lasting = loads.lasting
    outer = on_outline(
        lasting.worst.outer_diameter, "Outer diameter", "D", "mm", "where pulled hardest"
    )
    lever = on_outline(
        max(loads.body.terminal - lasting.worst.force.height, 1e-3),
        "Length under load",
        "L",
        "mm",
        "from there to the terminal",
    )
    bar = calculate(effective_surface, assumption("bar diameter"), assumption("bar span"), modulus)
    times = calculate(time_ratio, assumption("lifetime"), assumption("bar test time"))
    strength = bending_strength(installation)
    allowed = calculate(
        body_strength,
        strength,
        calculate(size_ratio, calculate(effective_surface, outer, lever, modulus), bar),
        times,
        assumption("share that breaks"),
        modulus,
        growth,
    )
    unit = calculate(unit_strength, strength, bar, modulus)
    tired = calculate(static_fatigue_factor, times, growth)
    share = fracture_probability(lasting.along, float(unit) * float(tired), float(modulus))
    label = Label("Share that breaks under the lasting loads", "P", "%")
    how = "tension summed over the whole surface of the body"
    fracture = modelled(share, label, _LINK, how, (unit, tired, modulus))
    return Survival(lasting.tension, allowed, fracture)


def _deflection(installation: Installation, loads: Loads, number: Description) -> Deflection:
    test, body = loads.test, loads.body
    pushed = tuple((force.height, float(force.force)) for force in test.forces)
    origins = tuple(force.force for force in test.forces)
    material = f"porcelain {installation.bushing.porcelain.material}"
    modulus = material_property(material, "elastic_modulus")
    label = Label("Deflection of the terminal", "w", "mm")
    stiff = modelled(
        deflection(body.beam, pushed, body.terminal),
        label,
        _BEAM,
        "stepped beam on a stiff cover",
        (*origins, modulus),
    )
    rocking = modelled(
        deflection(body.rocking, pushed, body.terminal),
        label,
        _BEAM,
        "stepped beam held by its gasket alone",
        (*origins, modulus, body.base_stiffness),
    )
    return Deflection(stiff, rocking, _loosening(installation, body, number))


def _loosening(installation: Installation, body: Body, number: Description) -> Number:
    """Where the pulled side of the gasket is no longer pressed."""
    radius = on_outline(
        installation.bushing.gasket.outer_diameter / 2,
        "Outer radius of the gasket",
        "R",
        "mm",
        "half the diameter",
    )
    height = on_outline(body.terminal, "Height of the terminal", "a", "mm", "above the seat")
    return calculate(
        loosening_deflection,
        number("bushing.gasket.thickness"),
        number("bushing.gasket.compressed_thickness"),
        height,
        radius,
    )


def _hardest(loads: Loads) -> Combination:
    return max(loads.combinations, key=lambda one: float(one.tension))


def _glaze(installation: Installation, loads: Loads) -> Glaze | str:
    porcelain = installation.bushing.porcelain
    if porcelain.glaze == "none":
        return NO_GLAZE
    material = f"porcelain {porcelain.material}"
    body, glassy = material_property(material, "elastic_modulus"), assumption("glaze modulus")
    thinnest = min(porcelain.wall, porcelain.top_wall)
    wall = on_outline(
        thinnest, "Thickness of the body", "t_b", "mm", "thinnest wall of the air end"
    )
    compression = calculate(
        glaze_compression,
        assumption("glaze difference"),
        assumption("glaze cooling"),
        glassy,
        body,
        material_property(material, "poisson"),
        assumption("glaze thickness"),
        wall,
    )
    bare = material_property(material, "bending_strength_unglazed")
    return Glaze(
        compression=compression,
        pull=calculate(glaze_pull, _hardest(loads).tension, glassy, body),
        strength=calculate(glazed_strength, bare, compression, assumption("glaze share")),
        bare=bare,
    )


def _thermal(
    installation: Installation,
    section: Section,
    allowed: Number,
    pressure: Number,
    given: tuple[Warmth, Description],
) -> Thermal:
    (warmth, number), porcelain = given, installation.bushing.porcelain
    material = f"porcelain {porcelain.material}"
    modulus, expansion, poisson, conductivity = (
        material_property(material, name)
        for name in ("elastic_modulus", "expansion", "poisson", "thermal_conductivity")
    )
    wall = _Wall(installation, section, pressure, number)
    severity = calculate(
        shock_severity, calculate(biot, assumption("rain film"), wall.thickness, conductivity)
    )
    gradient = wall.gradient(warmth.behind_cold_wall)
    start = warmth.start
    return Thermal(
        step=_rain_step(number),
        step_allowed=calculate(critical_step, allowed, modulus, expansion, poisson, severity),
        step_of_test=assumption("shock test"),
        gradient=gradient,
        hoop=wall.hoop(gradient),
        first_estimate=wall.hoop(wall.gradient(number("transformer.top_oil_temperature"))),
        hoop_at_start=start if isinstance(start, str) else wall.hoop(start.drop),
    )


class _Wall:
    """The thickest wall of the air end, warm inside and cold outside."""

    def __init__(
        self, installation: Installation, section: Section, pressure: Number, number: Description
    ) -> None:
        porcelain = installation.bushing.porcelain
        thick = max(porcelain.wall, porcelain.top_wall)
        where = "thickest of the air end"
        self.material = f"porcelain {porcelain.material}"
        self.pressure, self.number = pressure, number
        self.thickness = on_outline(thick, "Wall cooled from outside", "s", "mm", where)
        self.bore = on_outline(section.radii.bore, "Inner radius", "r_i", "mm", "on the section")
        outer = section.radii.bore + thick
        self.outer = on_outline(outer, "Outer radius", "r_o", "mm", "thickest wall")

    def gradient(self, inside: Number) -> Number:
        """How much warmer its bore is than its outside in a cold gale [K]."""
        return calculate(
            wall_difference,
            inside,
            self.number("site.coldest_air"),
            assumption("wind film"),
            material_property(self.material, "thermal_conductivity"),
            self.outer,
            self.bore,
        )

    def hoop(self, gradient: Number) -> Number:
        """Hoop tension outside, oil pressure counted as at the bore [Pa]."""
        modulus, expansion, poisson = (
            material_property(self.material, name)
            for name in ("elastic_modulus", "expansion", "poisson")
        )
        hot = calculate(
            thermal_hoop_outside, self.outer, self.bore, gradient, modulus, expansion, poisson
        )
        body = on_outline(2 * float(self.outer), "Outer diameter", "D", "mm", "thickest wall")
        bore = self.number("bushing.porcelain.bore")
        return calculate(added_stress, hot, calculate(lame_hoop_at_bore, self.pressure, body, bore))


def _rain_step(number: Description) -> Number:
    return calculate(
        rain_step,
        number("site.hottest_air"),
        assumption("surface rise"),
        assumption("rain temperature"),
    )


def _clamped_length(section: Section) -> Number:
    heights = section.heights
    length = heights.cap_base - heights.oil_end
    return on_outline(length, "Clamped length", "L", "mm", "shield to cap")


def _growth(
    installation: Installation, section: Section, warmth: Warmth, number: Description
) -> Number:
    """Growth of the conductor against the porcelain, from the coldest air to rated current."""
    coldest = number("site.coldest_air")
    return calculate(
        growth_apart,
        material_property(installation.bushing.conductor.metal, "expansion"),
        calculate(warming, warmth.conductor, coldest),
        material_property(f"porcelain {installation.bushing.porcelain.material}", "expansion"),
        calculate(warming, warmth.porcelain, coldest),
        _clamped_length(section),
    )


def _growth_first(installation: Installation, section: Section, number: Description) -> Number:
    """The same with both as hot as the top oil."""
    span = calculate(
        temperature_range,
        number("transformer.top_oil_temperature"),
        number("site.coldest_air"),
    )
    return calculate(
        differential_growth,
        material_property(installation.bushing.conductor.metal, "expansion"),
        material_property(f"porcelain {installation.bushing.porcelain.material}", "expansion"),
        _clamped_length(section),
        span,
    )
