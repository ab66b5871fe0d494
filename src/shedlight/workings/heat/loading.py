"""Emergency, day and time constants of one bushing."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.heat.day import (
    DayCourse,
    course_of_day,
    day_hot_spot,
    loads_of_day,
)
from shedlight.physics.heat.emergency import (
    emergency_conductor,
    emergency_oil_rise,
    hot_spot_over_mean,
)
from shedlight.physics.heat.ends import hottest_of_both, load_of, rise_over
from shedlight.physics.heat.heat_stores import time_constants
from shedlight.physics.heat.network import Network, TopOil
from shedlight.physics.heat.steady import SteadyCase, SteadyState
from shedlight.physics.heat.steady_stores import BushingStores, mean_conductor, stores_between
from shedlight.physics.heat.stretches import OpenAir
from shedlight.physics.heat.terminal import warmed
from shedlight.physics.heat.top_oil import oil_cooling
from shedlight.sources import cite
from shedlight.trace import Input, Kind, Label, Number, Step, calculate
from shedlight.workings.heat.settled import Settled
from shedlight.workings.numbers import Description, from_table, on_outline

_LUMPED = cite("first principles", "lumped heat stores that settle where the bushing does", "exact")


@dataclass(frozen=True)
class Stores:
    """The bushing as three heat stores, its hot spot over their mean [K], sun [W], time [s]."""

    network: Network
    excess: Number
    sun: Number
    slowest: Number


@dataclass(frozen=True, eq=False)
class Loading:
    """What changes with time [K]."""

    stores: Stores
    top_oil: TopOil
    emergency_oil: Number
    emergency: Number
    day: Number
    course: DayCourse


def loading_of(
    installation: Installation,
    case: SteadyCase,
    states: tuple[Settled, Settled, SteadyState],
    number: Description,
) -> Loading:
    """Heat stores of a bushing, its emergency and its day.

    Args:
        installation: What was described.
        case: The bushing at rated current, without sun.
        states: What it settles to at rated current with and without sun, and without both.
        number: Hands out the description's numbers.

    Raises:
        InputError: no current, a tank no hotter than the air, or nothing settles ("runaway").
    """
    sunny, dark, idle = states
    made = stores_between(case, dark.state, idle, *_heats(installation))
    # Sun warms the cool end more than the hot one: the excess belongs to the day, as does the sun.
    made = replace(made, excess=sunny.state.hot_spot[1] - mean_conductor(sunny.state))
    stores = _traced(made, installation, case, dark.hot_spot)
    oil = top_oil_of(installation, number)
    emergency_oil, emergency = _emergency(stores, oil, number)
    return Loading(
        stores=stores,
        top_oil=oil,
        emergency_oil=emergency_oil,
        emergency=emergency,
        day=_day(stores, oil, number),
        course=_course(installation, made, stores, oil),
    )


def _sun(installation: Installation, case: SteadyCase) -> Number:
    """Sun at noon on everything in air [W]."""
    total = 0.0
    for stretch in case.stretches:
        outside, housing = stretch.outside, stretch.housing
        if isinstance(outside, OpenAir):
            radius = housing.envelope_radius if housing else case.wire.outer_radius
            total += outside.absorptivity * 2 * radius * stretch.length
    upper = case.upper
    if isinstance(upper.outside, OpenAir):
        total += upper.outside.absorptivity * upper.width * upper.height
    power = total * installation.site.irradiance
    return on_outline(power, "Sun at noon on the bushing", 'P_"s"', "W", "envelope and upper end")


def _heats(installation: Installation) -> tuple[float, float]:
    """Heat per volume and kelvin of conductor and porcelain [J/m³K]."""
    metal, body = (
        float(material_property(what, "density")) * float(material_property(what, "specific_heat"))
        for what in (
            installation.bushing.conductor.metal,
            f"porcelain {installation.bushing.porcelain.material}",
        )
    )
    return metal, body


def network_between(
    installation: Installation, case: SteadyCase, loaded: Settled, idle: SteadyState
) -> Network:
    """The bushing as heat stores that settle where it does with and without its current.

    Args:
        installation: What was described.
        case: The bushing at its current, without sun.
        loaded: What it settles to.
        idle: What it settles to without current, beside the same tank and in the same air.

    Raises:
        InputError: no current, no housing in air, or the tank not hotter than the air.
    """
    made = stores_between(case, loaded.state, idle, *_heats(installation))
    return _network(made, installation, _lumped_from(loaded.hot_spot))


def _lumped_from(origin: Number) -> Callable[[float, str, str, str], Number]:
    """Makes traced numbers of what was lumped from a settled bushing."""
    used = (Input(origin.step.label, float(origin), (origin.step,)),)

    def lumped(value: float, name: str, symbol: str, unit: str) -> Number:
        note = "lumped so that the bushing settles at its temperatures with and without current"
        label = Label(name, symbol, unit)
        typeset = '"balance of the settled states"'
        return Number(value, Step(Kind.FORMULA, label, value, _LUMPED, typeset, used, note))

    return lumped


def _network(
    made: BushingStores,
    installation: Installation,
    lumped: Callable[[float, str, str, str], Number],
) -> Network:
    stores = made.stores
    return Network(
        (
            lumped(stores.conductor, "Heat of the conductor", "C_1", "J/K"),
            lumped(stores.oil, "Heat of the oil inside", "C_2", "J/K"),
            lumped(stores.porcelain, "Heat of the porcelain", "C_3", "J/K"),
        ),
        (
            lumped(stores.conductor_to_tank, "Conductor to the tank's oil", "G_0", "W/K"),
            lumped(stores.conductor_to_oil, "Conductor to its oil", "G_1", "W/K"),
            lumped(stores.oil_to_porcelain, "Oil to porcelain", "G_2", "W/K"),
            lumped(stores.porcelain_to_air, "Porcelain to air", "G_3", "W/K"),
        ),
        lumped(stores.resistance_20, "Resistance at 20 °C, joints included", "R_20", "µΩ"),
        material_property(installation.bushing.conductor.metal, "temperature_coefficient"),
    )


def _traced(
    made: BushingStores, installation: Installation, case: SteadyCase, origin: Number
) -> Stores:
    lumped, slowest = _lumped_from(origin), time_constants(made.stores, case.current)[0]
    return Stores(
        _network(made, installation, lumped),
        lumped(made.excess, "Hot spot over the conductor's mean", "Delta T_e", "K"),
        _sun(installation, case),
        lumped(slowest, "Slowest time constant", "tau_1", "h"),
    )


def top_oil_of(installation: Installation, number: Description) -> TopOil:
    """Rated rise, the transformer's current, ratio of losses, exponent and time constant.

    Args:
        installation: What was described.
        number: Hands out the description's numbers.
    """
    row = oil_cooling(installation.transformer.cooling)
    rise = calculate(
        rise_over, number("transformer.top_oil_temperature"), number("site.hottest_air")
    )
    if installation.transformer.rated_current is None:
        current = number("duty.rated_current")
    else:
        current = number("transformer.rated_current")
    return TopOil(
        rise,
        current,
        number("transformer.loss_ratio"),
        from_table(row.exponent, "Oil exponent", "x", "1", row.citation, row.cooling),
        from_table(
            row.time_constant,
            "Time constant of the top oil",
            "tau_o",
            "h",
            row.citation,
            row.cooling,
        ),
    )


def _emergency(stores: Stores, oil: TopOil, number: Description) -> tuple[Number, Number]:
    """Top oil and hottest place when the emergency ends."""
    rated, current = number("duty.rated_current"), number("duty.emergency_current")
    duration, air = number("duty.emergency_duration"), number("site.hottest_air")
    # The top oil of the description is the oil at rated load, whatever the bushing carries then.
    rise = calculate(emergency_oil_rise, rated, current, duration, oil)
    last = calculate(warmed, air, rise)
    conductor = calculate(
        emergency_conductor,
        stores.network,
        rated,
        number("transformer.top_oil_temperature"),
        current,
        last,
        air,
        stores.sun,
        duration,
    )
    hot = calculate(
        hot_spot_over_mean, conductor, stores.excess, calculate(load_of, current, rated)
    )
    return last, calculate(hottest_of_both, hot, last)


def _day(stores: Stores, oil: TopOil, number: Description) -> Number:
    return calculate(
        day_hot_spot,
        stores.network,
        stores.excess,
        number("duty.rated_current"),
        number("site.hottest_air"),
        stores.sun,
        oil,
        number("duty.off_peak_load"),
        number("duty.peak_load"),
        number("duty.peak_duration"),
        number("site.daily_swing"),
    )


def _course(
    installation: Installation, made: BushingStores, stores: Stores, oil: TopOil
) -> DayCourse:
    duty, site = installation.duty, installation.site
    return course_of_day(
        made.stores,
        made.excess,
        duty.rated_current,
        site.hottest_air,
        float(stores.sun),
        oil,
        loads_of_day(duty.off_peak_load, duty.peak_load, duty.peak_duration),
        site.daily_swing,
    )
