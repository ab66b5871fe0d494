"""How a stretch's conductance to its surroundings came about, step by step."""

from dataclasses import dataclass

from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.heat.air_properties import (
    AIR_SPECIFIC_HEAT,
    air_conductivity,
    air_density,
    air_pressure,
    air_viscosity,
)
from shedlight.physics.heat.convection import nusselt_vertical, nusselt_wind, rayleigh
from shedlight.physics.heat.films import Cooling, spread
from shedlight.physics.heat.from_nusselt import (
    air_conductance,
    film_of,
    gas_expansion,
    kinematic_viscosity,
    moving_conductivity,
    oil_expansion,
    outer_resistance,
    reynolds,
    sunlit_surroundings,
)
from shedlight.physics.heat.oil_properties import (
    FREEZING,
    oil_conductivity,
    oil_density,
    oil_specific_heat,
    oil_viscosity_cold,
    oil_viscosity_hot,
    prandtl,
)
from shedlight.physics.heat.radial import (
    cylinder_resistance,
    film_resistance_per_length,
    radiation_coefficient,
    side_conductance,
    solar_gain_per_length,
)
from shedlight.physics.heat.steady import SteadyState
from shedlight.physics.heat.steady_remarks import annulus_remarks
from shedlight.physics.heat.stretches import Across, CoverHole, OilBath, OpenAir
from shedlight.sources import cite
from shedlight.trace import Kind, Label, Number, Step, calculate
from shedlight.workings.heat.model import Model, Piece
from shedlight.workings.numbers import Description, assumption, from_table, on_outline

_ROUNDS = cite("first principles", "repeated until nothing changes", "exact")
_AIR = cite("US Standard Atmosphere", "specific heat of dry air")
_REST = cite("first principles", "a fluid at rest conducts; motion only adds", "exact")


@dataclass(frozen=True)
class Side:
    """Conductance of a stretch [W/mK], what is around it [K], and its layers [mK/W]."""

    conductance: Number
    surroundings: Number
    filling: Number | None
    wall: Number | None


@dataclass(frozen=True)
class _Fluid:
    conductivity: Number
    viscosity: Number
    prandtl: Number
    expansion: Number


class Tracer:
    """Recomputes what the last round used, from the temperatures that it found."""

    def __init__(
        self, installation: Installation, model: Model, state: SteadyState, number: Description
    ) -> None:
        """Keep the model, the state it settled to and the description."""
        self.installation, self.model, self.state, self.number = installation, model, state, number
        self.pressure = calculate(air_pressure, number("site.altitude"))
        porcelain = f"porcelain {installation.bushing.porcelain.material}"
        self.porcelain = material_property(porcelain, "thermal_conductivity")
        self.radius = on_outline(
            model.case.wire.outer_radius, "Radius of the conductor", "r_0", "mm", "half its width"
        )

    def found(self, value: float, name: str, symbol: str, unit: str = "") -> Number:
        """A temperature, difference or conductance of the last round."""
        note = (
            f"found in {self.state.rounds} rounds, properties and losses renewed in each; "
            f"largest change of any temperature in the last one {self.state.change:.1e} K"
        )
        unit = unit or ("K" if symbol.startswith("Delta") else "°C")
        label = Label(name, symbol, unit)
        step = Step(Kind.FORMULA, label, value, _ROUNDS, '"as the round before"', (), note)
        return Number(value, step)

    def side(self, piece: Piece, side: Across, mean: float) -> Side:
        """The way of the heat out of one stretch.

        Args:
            piece: The stretch.
            side: Its temperatures across in the last round.
            mean: Mean temperature of its conductor [K].
        """
        housing = piece.stretch.housing
        layers: list[Number] = []
        radius, surface = self.radius, mean if housing is None else side.surface
        if housing is not None:
            bore = on_outline(housing.bore_radius, "Radius of the bore", "r_1", "mm", "section")
            body = on_outline(housing.body_radius, "Radius of the body", "r_2", "mm", piece.name)
            layers.append(
                calculate(cylinder_resistance, self.radius, bore, self._filling(piece, side, mean))
            )
            layers.append(calculate(cylinder_resistance, bore, body, self.porcelain))
            radius = body
        outside, surroundings = self._outside(piece, radius, surface)
        resistances = (*layers, outside)
        return Side(
            calculate(side_conductance, resistances),
            surroundings,
            layers[0] if layers else None,
            layers[1] if layers else None,
        )

    def _filling(self, piece: Piece, side: Across, mean: float) -> Number:
        housing = piece.stretch.housing
        what = "oil" if housing is None or housing.oil_filled else "air"
        name = f"Mean temperature of the {what} inside, {piece.name}"
        middle = self.found((mean + side.bore) / 2, name, "T_f")
        k = calculate(oil_conductivity if what == "oil" else air_conductivity, middle)
        if self.model.case.films_of(piece.stretch.outside) is Cooling.LOW:
            still = from_table(1.0, "Nusselt number of a filling at rest", '"Nu"', "1", _REST, "1")
            return calculate(moving_conductivity, still, k)
        return calculate(moving_conductivity, self._moving(piece, side, mean), k)

    def _moving(self, piece: Piece, side: Across, mean: float) -> Number:
        """Nusselt number of a filling that moves, with every range that its correlations leave."""
        case = self.model.case
        end = "most" if case.films_of(piece.stretch.outside) is Cooling.HIGH else "middle"
        label = Label("Nusselt number of the filling", '"Nu"', "1")
        text = "of the correlations for annuli; they differ by 40 to 60 %"
        left = (
            ()
            if case.lying
            else tuple(annulus_remarks(piece.name, case, piece.stretch, side, mean))
        )
        typeset = f'"{end} of the correlations"'
        step = Step(Kind.FORMULA, label, side.nusselt, _SPREAD, typeset, (), f"{end} {text}", left)
        return Number(side.nusselt, step)

    def _outside(self, piece: Piece, radius: Number, surface: float) -> tuple[Number, Number]:
        outside = piece.stretch.outside
        around = self.model.around
        if isinstance(outside, CoverHole):
            what = "oil" if outside.oil_filled else "gas"
            middle = self.found(
                (surface + outside.temperature) / 2,
                f"Mean temperature of the {what} in the hole",
                "T_f",
            )
            k = calculate(oil_conductivity if outside.oil_filled else air_conductivity, middle)
            edge = on_outline(outside.radius, "Radius of the hole", "r_3", "mm", "half its width")
            return calculate(cylinder_resistance, radius, edge, k), around.cover
        if isinstance(outside, OilBath):
            film = self.oil_film(surface, piece.length, piece.name)
            return calculate(film_resistance_per_length, film, radius), around.oil
        return self._open_air(piece, outside, radius, surface)

    def _open_air(
        self, piece: Piece, outside: OpenAir, radius: Number, surface: float
    ) -> tuple[Number, Number]:
        housing = piece.stretch.housing
        envelope = on_outline(
            housing.envelope_radius if housing else float(radius),
            "Radius of the envelope", 'r_"env"', "mm", "mean over the shed tips",
        )  # fmt: skip
        wide = on_outline(2 * float(envelope), "Width of the envelope", "D", "mm", "on the section")
        convection, radiation = self.air_films(outside, surface, piece.length, wide, piece.name)
        factor = piece.area_factor or on_outline(1.0, "Convecting over plain area", "f_A", "1", "1")
        per_length = calculate(air_conductance, radius, factor, convection, envelope, radiation)
        air = self.model.around.air
        if outside.irradiance > 0:
            sun = calculate(
                solar_gain_per_length, self.absorptivity(housing is None),
                self.number("site.irradiance"), wide,
            )  # fmt: skip
            air = calculate(sunlit_surroundings, air, sun, per_length)
        return calculate(outer_resistance, per_length), air

    def absorptivity(self, metal: bool) -> Number:
        """Of metal or of the porcelain's glaze for the sun."""
        glaze = self.installation.bushing.porcelain.glaze
        return assumption("sun metal" if metal else f"sun {glaze}")

    def oil_film(self, surface: float, height: Number, where: str) -> Number:
        """Film coefficient of the tank's oil."""
        oil = self.model.around.oil
        middle = self.found((surface + oil) / 2, f"Oil film beside the {where}", "T_f")
        rise = self.found(abs(surface - oil), f"Between {where} and oil", "Delta T")
        fluid = _oil(middle)
        number = calculate(
            nusselt_vertical,
            calculate(rayleigh, rise, height, fluid.expansion, fluid.viscosity, fluid.prandtl),
            fluid.prandtl,
        )
        factor = self._factor("still oil", self.model.case.oil_films)
        return calculate(film_of, factor, number, fluid.conductivity, height)

    def air_films(
        self, outside: OpenAir, surface: float, height: Number, wide: Number, where: str
    ) -> tuple[Number, Number]:
        """Film coefficients of air and of radiation."""
        air = self.model.around.air
        cooling = self.model.case.air_films
        middle = self.found((surface + air) / 2, f"Air film beside the {where}", "T_f")
        rise = self.found(abs(surface - air), f"Between {where} and air", "Delta T")
        fluid = _air(middle, self.pressure)
        number = calculate(
            nusselt_vertical,
            calculate(rayleigh, rise, height, fluid.expansion, fluid.viscosity, fluid.prandtl),
            fluid.prandtl,
        )
        factor = self._factor("still air", cooling)
        convection = calculate(film_of, factor, number, fluid.conductivity, height)
        if outside.wind_speed > 0:
            speed = calculate(reynolds, self._wind(), wide, fluid.viscosity)
            blown = calculate(nusselt_wind, speed, fluid.prandtl)
            factor = self._factor("wind", cooling)
            convection = max(
                convection, calculate(film_of, factor, blown, fluid.conductivity, wide)
            )
        hot = self.found(surface, f"Surface of the {where}", "T_1")
        metal = outside.emissivity == float(assumption("metal emissivity"))
        emissivity = assumption("metal emissivity" if metal else "emissivity")
        return convection, calculate(radiation_coefficient, emissivity, hot, air)

    def _wind(self) -> Number:
        wind = self.model.around.wind
        return on_outline(0.0, "Wind", "v", "m/s", "still air") if wind is None else wind

    @staticmethod
    def _factor(film: str, cooling: Cooling) -> Number:
        row = spread(film)
        name = "Factor of the correlation's spread"
        return from_table(row.factors[cooling], name, "f", "1", row.citation, f"{film}, {cooling}")


_SPREAD = cite("MacGregor & Emery", "middle of three correlations for vertical annuli")


def _oil(temperature: Number) -> _Fluid:
    density, k = calculate(oil_density, temperature), calculate(oil_conductivity, temperature)
    if temperature < FREEZING:
        viscosity = calculate(oil_viscosity_cold, temperature, density)
    else:
        viscosity = calculate(oil_viscosity_hot, temperature)
    heat = calculate(oil_specific_heat, temperature)
    return _Fluid(
        k,
        calculate(kinematic_viscosity, viscosity, density),
        calculate(prandtl, viscosity, heat, k),
        calculate(oil_expansion, density),
    )


def _air(temperature: Number, pressure: Number) -> _Fluid:
    density, k = (
        calculate(air_density, temperature, pressure),
        calculate(air_conductivity, temperature),
    )
    viscosity = calculate(air_viscosity, temperature)
    heat = from_table(AIR_SPECIFIC_HEAT, "Specific heat of air", "c", "J/kgK", _AIR, "dry air")
    return _Fluid(
        k,
        calculate(kinematic_viscosity, viscosity, density),
        calculate(prandtl, viscosity, heat, k),
        calculate(gas_expansion, temperature),
    )
