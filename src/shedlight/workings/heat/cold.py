"""The coldest day: without current, at rated current in cold wind, and as the load comes on."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from shedlight.errors import CalculationError, InputError
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.heat.cold_start import across_wall, cold_start_heat, cold_start_lead
from shedlight.physics.heat.ends import rise_over
from shedlight.physics.heat.films import Cooling
from shedlight.physics.heat.radial import cylinder_resistance
from shedlight.physics.heat.steady import steady_state
from shedlight.physics.heat.terminal import warmed
from shedlight.trace import Number, calculate
from shedlight.workings.heat.cover import cover_of
from shedlight.workings.heat.joints import Joints
from shedlight.workings.heat.loading import network_between, top_oil_of
from shedlight.workings.heat.model import Surroundings, model_of, shaded
from shedlight.workings.heat.settled import CLOSE, Settled, settled, with_films
from shedlight.workings.numbers import Description, assumption, figure, on_outline


@dataclass(frozen=True, eq=False)
class ColdStart:
    """Load that comes on in the cold: lead of conductor over porcelain, drop across the wall."""

    lead: Number  # [K]
    heat: Number  # from the oil into the porcelain at most [W]
    drop: Number  # [K]


@dataclass(frozen=True, eq=False)
class Cold:
    """The coldest day: states without and with current, and the way from one to the other.

    The oil rests in both: motion only carries heat off, so the conductor is at its hottest.
    """

    idle: Settled
    loaded: Settled
    start: ColdStart | str


def cold_of(
    installation: Installation,
    shape: tuple[Section, Measures],
    joints: Joints,
    dielectric: Number,
    number: Description,
) -> Cold | str:
    """What the bushing settles to in the coldest air, and how it gets there; or why it does not.

    Args:
        installation: What was described.
        shape: Its section, and what was measured on it.
        joints: Its joints.
        dielectric: Heat that the voltage makes inside the hole, per length [W/m].
        number: Hands out the description's numbers.
    """
    section, measures = shape
    coldest = number("site.coldest_air")
    rise = calculate(
        rise_over, number("transformer.top_oil_temperature"), number("site.hottest_air")
    )
    oil, current = calculate(warmed, coldest, rise), number("duty.rated_current")
    none = on_outline(0.0, "Current", "I", "A", "none: the load is off")
    permitted = figure("checks/limits", "edge field steel")
    cover = cover_of(installation, section, current, oil, coldest, permitted, number)

    def state(around: Surroundings) -> Settled:
        model = model_of(installation, section, measures, joints, around, dielectric, number)
        return settled(installation, with_films(shaded(model), Cooling.LOW), number)

    try:
        idle = state(Surroundings(coldest, coldest, coldest, none))
        loaded = state(Surroundings(oil, coldest, cover.edge, current, assumption("cold wind")))
    except (InputError, CalculationError) as error:
        return f"no steady temperature in the coldest air: {error}"
    try:
        start: ColdStart | str = _start(installation, section, loaded, number)
    except (InputError, CalculationError) as error:
        start = f"no course in time: {error}"
    return Cold(idle, loaded, start)


def _start(
    installation: Installation, section: Section, loaded: Settled, number: Description
) -> ColdStart:
    """The way to the loaded state; its heat stores settle there, in the same cold and wind.

    What they settle to without current is taken beside the tank as hot as under load: beside a
    tank as cold as the air nothing would tell the way to the oil from the way to the air.
    """
    coming = (number("duty.rated_current"), number("site.coldest_air"))
    case, oil = loaded.model.case, top_oil_of(installation, number)
    idle = steady_state(replace(case, current=0.0), CLOSE)
    network = network_between(installation, case, loaded, idle)

    def found(of: Callable[..., float]) -> Number:
        return calculate(of, network, *coming, oil)

    heat = found(cold_start_heat)
    h, r = section.heights, section.radii
    bore = on_outline(r.bore, "Radius of the bore", "r_1", "mm", "on the section")
    body = on_outline(r.body, "Radius of the body", "r_2", "mm", "on the section")
    length = on_outline(
        h.cap_base - h.seat, "Length of the wall in air", "L", "mm", "seat to cap, on the section"
    )
    porcelain = f"porcelain {installation.bushing.porcelain.material}"
    wall = calculate(
        cylinder_resistance, bore, body, material_property(porcelain, "thermal_conductivity")
    )
    return ColdStart(found(cold_start_lead), heat, calculate(across_wall, heat, wall, length))
