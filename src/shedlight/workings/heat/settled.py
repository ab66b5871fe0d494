"""The settled bushing as traced numbers: temperatures of every part, and where the heat goes."""

from dataclasses import dataclass, replace

from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.given.parts import Tube
from shedlight.physics.heat.balance import (
    chain_generated,
    chain_given_off,
    chain_led_in,
    unaccounted,
)
from shedlight.physics.heat.chain import Chain, chain_hot_spot, chain_mean, chain_temperature
from shedlight.physics.heat.conduction import axial_conduction
from shedlight.physics.heat.conductor import (
    alternating_resistance,
    circle_area,
    resistance_per_length,
    resistivity,
    skin_depth,
    skin_ratio_rod,
    skin_ratio_tube,
    tube_area,
)
from shedlight.physics.heat.contacts import contact_power
from shedlight.physics.heat.dielectric import loss_when_warm
from shedlight.physics.heat.ends import (
    end_conductance,
    end_power,
    hottest_of_both,
    middle_temperature,
    sun_on_body,
)
from shedlight.physics.heat.films import Cooling
from shedlight.physics.heat.radial import behind_layer
from shedlight.physics.heat.steady import SteadyState, steady_state
from shedlight.physics.heat.stretches import Across, OilBath, across
from shedlight.trace import Number, calculate
from shedlight.workings.heat.across import Side, Tracer
from shedlight.workings.heat.model import Model, Piece
from shedlight.workings.numbers import Description, assumption, on_outline

CLOSE = 1e-6  # what a round may still change; no thermometer reads a thousand times as much [K]


@dataclass(frozen=True)
class Part:
    """Temperatures of one stretch [K]: conductor, oil inside, bore and surface of the porcelain."""

    name: str
    conductor: Number
    filling: Number | None
    bore: Number | None
    surface: Number | None


@dataclass(frozen=True, eq=False)
class Settled:
    """What a bushing settles to at one current."""

    model: Model
    state: SteadyState
    hot_spot: Number
    hottest: Number
    lower_terminal: Number
    terminal: Number
    parts: tuple[Part, ...]
    generated: Number
    given_off: Number
    led_in: Number
    unaccounted: Number

    def part(self, name: str) -> Part | None:
        """One stretch by its name; none if the bushing has no such stretch."""
        return next((part for part in self.parts if part.name == name), None)


def with_films(model: Model, cooling: Cooling) -> Model:
    """The same bushing with one end of the films' spread.

    Args:
        model: The bushing.
        cooling: Which end.
    """
    return replace(model, case=replace(model.case, air_films=cooling, oil_films=cooling))


def settled(installation: Installation, model: Model, number: Description) -> Settled:
    """Settle a bushing, and tell how every temperature came about.

    Args:
        installation: What was described.
        model: The bushing at its current.
        number: Hands out the description's numbers.

    Raises:
        InputError: no steady state ("runaway").
        CalculationError: the rounds do not settle.
    """
    state = steady_state(model.case, CLOSE)
    tracer = Tracer(installation, model, state, number)
    found = list(zip(model.pieces, state.across, state.chain.means, strict=True))
    sides = [tracer.side(piece, side, mean) for piece, side, mean in found]
    chain = _chain(installation, tracer, sides, number)
    whole = sum(float(piece.length) for piece in model.pieces)
    low, high = (
        on_outline(place, "Distance from the lower end", "x", "mm", "along the conductor")
        for place in (0.0, whole)
    )
    hot_spot = calculate(chain_hot_spot, chain)
    means = [calculate(chain_mean, chain, float(n)) for n in range(1, len(sides) + 1)]
    parts = tuple(
        _part(name, mean, side) for name, mean, side in zip(model.names, means, sides, strict=True)
    )
    made = calculate(chain_generated, chain)
    lost = calculate(chain_given_off, chain, *_renewed(tracer, parts))
    led = calculate(chain_led_in, chain)
    return Settled(
        model=model,
        state=state,
        hot_spot=hot_spot,
        hottest=calculate(hottest_of_both, hot_spot, model.around.oil),
        lower_terminal=calculate(chain_temperature, chain, low),
        terminal=calculate(chain_temperature, chain, high),
        parts=parts,
        generated=made,
        given_off=lost,
        led_in=led,
        unaccounted=calculate(unaccounted, made, lost, led),
    )


def _chain(
    installation: Installation, tracer: Tracer, sides: list[Side], number: Description
) -> Chain:
    """What the formulas of the chain start from."""
    model = tracer.model
    conductions, coefficient, resistances = _wire(installation, tracer, number)
    return Chain(
        tuple(piece.length for piece in model.pieces),
        conductions,
        tuple(side.conductance for side in sides),
        tuple(side.surroundings for side in sides),
        resistances,
        coefficient,
        tuple(
            _power(tracer, piece, across)
            for piece, across in zip(model.pieces, tracer.state.across, strict=True)
        ),
        *_ends(tracer),
        model.around.current,
    )


def _power(tracer: Tracer, piece: Piece, across: Across) -> Number:
    """Heat that the voltage makes in a stretch, its wall as warm as the last round found it."""
    if not piece.power:
        return piece.power
    wall = tracer.found(across.wall, f"Wall, mean of the stretch {piece.name!r}", "T_w")
    return calculate(loss_when_warm, piece.power, wall, assumption("loss doubling"))


def _renewed(
    tracer: Tracer, parts: tuple[Part, ...]
) -> tuple[tuple[Number, ...], tuple[Number, ...]]:
    """Conductances and surroundings of one further round, at the temperatures just traced."""
    case = tracer.model.case
    conductances, surroundings = [], []
    for stretch, part, old in zip(case.stretches, parts, tracer.state.across, strict=True):
        films = case.films_of(stretch.outside)
        guess = old
        if part.bore is not None and part.surface is not None:
            guess = replace(old, bore=float(part.bore), surface=float(part.surface))
        mean = float(part.conductor)
        side = across(stretch, case.wire.outer_radius, mean, guess, case.lying, films)
        conductances.append(
            tracer.found(side.side_conductance, "Conductance, renewed once more", "G", "W/mK")
        )
        surroundings.append(
            tracer.found(side.surroundings, "Surroundings, renewed once more", "T_s")
        )
    return tuple(conductances), tuple(surroundings)


def _part(name: str, mean: Number, side: Side) -> Part:
    if side.filling is None or side.wall is None:
        return Part(name, mean, None, None, None)
    way = (mean, side.conductance, side.surroundings)
    bore = calculate(behind_layer, mean, *way, side.filling)
    surface = calculate(behind_layer, bore, *way, side.wall)
    return Part(name, mean, calculate(middle_temperature, mean, bore), bore, surface)


def _wire(
    installation: Installation, tracer: Tracer, number: Description
) -> tuple[tuple[Number, ...], Number, tuple[Number, ...]]:
    """Conduction along and resistance at 20 °C of every stretch, temperature coefficient."""
    wire, metal = tracer.model.case.wire, installation.bushing.conductor.metal
    rho, alpha, k = (
        material_property(metal, name)
        for name in ("resistivity_20", "temperature_coefficient", "thermal_conductivity")
    )
    inner = on_outline(wire.inner_radius, "Inner radius", "a_i", "mm", "half the inner diameter")
    conductions, resistances = [], []
    for piece, mean in zip(tracer.model.pieces, tracer.state.chain.means, strict=True):
        warm = tracer.found(mean, f"Conductor, mean of the stretch {piece.name!r}", "T_m")
        depth = calculate(
            skin_depth, calculate(resistivity, rho, alpha, warm), number("duty.frequency")
        )
        if wire.inner_radius:
            skin = calculate(skin_ratio_tube, tracer.radius, inner, depth)
        else:
            skin = calculate(skin_ratio_rod, tracer.radius, depth)
        area = _metal(installation, piece, number)
        direct = calculate(resistance_per_length, rho, area)
        resistances.append(calculate(alternating_resistance, direct, skin))
        conductions.append(calculate(axial_conduction, k, area))
    return tuple(conductions), alpha, tuple(resistances)


def _metal(installation: Installation, piece: Piece, number: Description) -> Number:
    """Section of the metal: of the conductor by its formula, at the ends as they are."""
    if piece.stretch.housing is None:
        return piece.metal
    diameter = number("bushing.conductor.diameter")
    if isinstance(installation.bushing.conductor, Tube):
        return calculate(tube_area, diameter, number("bushing.conductor.inner_diameter"))
    return calculate(circle_area, diameter)


def _ends(tracer: Tracer) -> tuple[tuple[Number, ...], tuple[Number, ...], tuple[Number, ...]]:
    """Conductances, ambients and powers of lower and upper end."""
    model, around = tracer.model, tracer.model.around
    low, high = tracer.state.lower_terminal, tracer.state.upper_terminal
    lower, upper = model.case.lower, model.case.upper
    tall = on_outline(lower.height, "Height of the lower end", "H", "mm", "shield and stud")
    film = tracer.oil_film(low, tall, "lower end")
    none = on_outline(0.0, "Conductance of what is connected", 'G_"line"', "W/K", "none counted")
    dark = on_outline(0.0, "Sun on the end", 'P_"s"', "W", "none in oil")
    oil = around.oil
    below = (
        calculate(end_conductance, film, dark_radiation(), model.ends.lower_area, none),
        calculate(end_power, contact(tracer, "lower"), dark, none, oil, oil),
    )
    outside = upper.outside
    if isinstance(outside, OilBath):  # never so: the upper end stands in air
        raise TypeError("the upper end stands in air")
    tall = on_outline(upper.height, "Height of cap and terminal", "H", "mm", "on the section")
    wide = on_outline(upper.width, "Width of the cap", "D", "mm", "on the section")
    convection, radiation = tracer.air_films(outside, high, tall, wide, "upper end")
    sun = dark
    if outside.irradiance > 0:
        sun = calculate(
            sun_on_body, tracer.absorptivity(True), tracer.number("site.irradiance"), wide, tall
        )
    line, there = none, around.air
    if upper.other_conductance > 0:
        line = tracer.number("duty.line_conductance")
    if upper.other_temperature is not None:
        there = tracer.number("duty.line_temperature")
    above = (
        calculate(end_conductance, convection, radiation, model.ends.upper_area, line),
        calculate(end_power, contact(tracer, "upper"), sun, line, there, around.air),
    )
    return (below[0], above[0]), (oil, around.air), (below[1], above[1])


def contact(tracer: Tracer, end: str) -> Number:
    """Heat made in the joint of one end."""
    joint = getattr(tracer.model.ends.joints, end)
    return calculate(contact_power, tracer.model.around.current, joint)


def dark_radiation() -> Number:
    """No radiation in oil."""
    return on_outline(0.0, "Radiation as a film coefficient", 'h_"r"', "W/m²K", "none in oil")
