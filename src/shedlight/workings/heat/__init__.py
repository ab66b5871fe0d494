"""Current and heat of one bushing: settled, in an emergency, through a day, in a short circuit."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from shedlight.errors import CalculationError, InputError
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.given.parts import Palm
from shedlight.physics.heat.conductor import current_density
from shedlight.physics.heat.contacts import lapped_current_density
from shedlight.physics.heat.dielectric import (
    dielectric_loss_per_length,
    field_loss_per_length,
    layered_loss_factor,
)
from shedlight.physics.heat.ends import hottest_of_both, rise_over
from shedlight.physics.heat.films import Cooling
from shedlight.physics.heat.steady import SteadyState, steady_state
from shedlight.physics.heat.steady_remarks import range_remarks
from shedlight.physics.heat.terminal import palm_face, stud_face
from shedlight.trace import Number, calculate
from shedlight.workings.heat.cold import Cold, cold_of
from shedlight.workings.heat.cover import Cover, cover_of
from shedlight.workings.heat.first_model import FirstModel, first_model_of
from shedlight.workings.heat.joints import Joints, joints_of
from shedlight.workings.heat.loading import Loading, loading_of
from shedlight.workings.heat.model import Model, Surroundings, model_of, shaded
from shedlight.workings.heat.rod import rod_of
from shedlight.workings.heat.settled import CLOSE, Settled, settled, with_films
from shedlight.workings.heat.short_time import ShortTime, short_time_of
from shedlight.workings.numbers import Description, figure, on_outline
from shedlight.workings.radial import Radial
from shedlight.workings.voltages import Voltages

if TYPE_CHECKING:
    from shedlight.workings.field import Field


@dataclass(frozen=True, eq=False)
class Steady:
    """The bushing at rated current: on the safe side, by the middle of the films, without sun."""

    safe: Settled
    mean: SteadyState
    hot_spot_rise: Number
    terminal_rise: Number
    gasket: Number
    oil: Number
    remarks: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Heat:
    """Currents and temperatures [A/m², K, W/m]; in words why there is none."""

    density: Number
    loss: Number
    lapped_face: Number
    lapped_density: Number
    dielectric: Number
    joints: Joints
    cover: Cover
    first: FirstModel
    steady: Steady | str
    loading: Loading | str
    cold: Cold | str
    short_time: ShortTime | None

    @property
    def hot_spot(self) -> Number | None:
        """The hottest place, the oil around the lower end counted [K]."""
        return None if isinstance(self.steady, str) else self.steady.safe.hottest

    @property
    def terminal(self) -> Number | None:
        """The outer terminal [K]."""
        return None if isinstance(self.steady, str) else self.steady.safe.terminal

    @property
    def runaway(self) -> str:
        """Why there is no steady temperature; empty if there is one."""
        return self.steady if isinstance(self.steady, str) else ""


def heat_of(
    installation: Installation,
    section: Section,
    measures: Measures,
    radial: Radial,
    voltages: Voltages,
    number: Description,
    field: "Field | None" = None,
) -> Heat:
    """Everything that follows from the current.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        radial: Its wall inside the hole, for the heat that the voltage makes.
        voltages: Its voltages.
        number: Hands out the description's numbers.
        field: Its solved field, if there is one: then the loss is taken from it.
    """
    current = number("duty.rated_current")
    oil, air = number("transformer.top_oil_temperature"), number("site.hottest_air")
    rod = rod_of(installation, current, number)
    lapped, terminal_area = _face(installation, number)
    permitted = figure("checks/limits", "edge field steel")
    cover = cover_of(installation, section, current, oil, air, permitted, number)
    joints = joints_of(installation, number)
    dielectric = _dielectric(installation, section, radial, voltages, number, field)
    windy = installation.site.cooling_wind is not None
    wind = number("site.cooling_wind") if windy else None
    around = Surroundings(oil, air, cover.edge, current, wind)
    model = model_of(installation, section, measures, joints, around, dielectric, number)
    steady, loading = _states(installation, model, number)
    hot = None if isinstance(steady, str) else steady.safe.hottest
    return Heat(
        density=calculate(current_density, current, rod.area),
        loss=rod.loss,
        lapped_face=lapped,
        lapped_density=calculate(lapped_current_density, current, lapped),
        dielectric=dielectric,
        joints=joints,
        cover=cover,
        first=first_model_of(installation, section, rod, terminal_area, number),
        steady=steady,
        loading=loading,
        cold=cold_of(installation, (section, measures), joints, dielectric, number),
        short_time=None if hot is None else short_time_of(installation, rod, hot, number),
    )


def _states(
    installation: Installation, model: Model, number: Description
) -> tuple[Steady | str, Loading | str]:
    """What the bushing settles to, and what follows in time; or in words why it does not."""
    careful = with_films(model, Cooling.LOW)
    without_sun = shaded(careful)
    try:
        safe = settled(installation, careful, number)
        sunny = installation.site.irradiance > 0
        dark = settled(installation, without_sun, number) if sunny else safe
        mean = steady_state(model.case, CLOSE)
    except (InputError, CalculationError) as error:
        reason = f"no steady temperature: {error}"
        return reason, reason
    steady = _steady(safe, dark, mean)
    try:
        idle = steady_state(replace(without_sun.case, current=0.0), CLOSE)
        loading: Loading | str = loading_of(
            installation, without_sun.case, (safe, dark, idle), number
        )
    except (InputError, CalculationError) as error:
        loading = f"no course in time: {error}"
    return steady, loading


def _steady(safe: Settled, dark: Settled, mean: SteadyState) -> Steady:
    air, cover = safe.model.around.air, safe.model.around.cover
    collar = safe.part("collar")
    gasket = cover
    if collar is not None and collar.surface is not None:
        gasket = calculate(hottest_of_both, cover, collar.surface)
    fillings = [part.filling for part in safe.parts if part.filling is not None]
    return Steady(
        safe=safe,
        mean=mean,
        hot_spot_rise=calculate(rise_over, dark.hottest, air),
        terminal_rise=calculate(rise_over, dark.terminal, air),
        gasket=gasket,
        oil=max(fillings),
        remarks=range_remarks(safe.model.case, safe.state),
    )


def _dielectric(
    installation: Installation,
    section: Section,
    radial: Radial,
    voltages: Voltages,
    number: Description,
    field: "Field | None",
) -> Number:
    """Heat that the voltage makes inside the hole, per length."""
    frequency = number("duty.frequency")
    if field is not None:
        h = section.heights
        hole = on_outline(
            h.seat - max(h.oil_end, h.cover_underside), "Length of the hole", "L", "mm", "section"
        )
        return calculate(
            field_loss_per_length,
            voltages.phase,
            frequency,
            field.capacitance,
            field.loss_factor,
            hole,
        )
    porcelain = f"porcelain {installation.bushing.porcelain.material}"
    factors = [material_property(what, "loss_factor") for what in ("oil", porcelain, "oil")]
    shares = [
        radial.stress(layer, "oil", "service").voltage for layer in ("oil", "porcelain", "gap")
    ]
    factor = calculate(layered_loss_factor, tuple(shares), tuple(factors))
    capacitance = radial.capacitance_per_length
    return calculate(dielectric_loss_per_length, voltages.phase, frequency, capacitance, factor)


def _face(installation: Installation, number: Description) -> tuple[Number, Number]:
    """The lapped face, and the terminal's area in air."""
    terminal = installation.bushing.terminal
    if isinstance(terminal, Palm):
        width, height = number("bushing.terminal.width"), number("bushing.terminal.height")
        holes, hole = number("bushing.terminal.holes"), number("bushing.terminal.hole_diameter")
        face = calculate(palm_face, width, height, holes, hole)
        area = on_outline(2 * width * height, "Terminal area in air", "A", "mm²", "both faces")
        return face, area
    diameter, height = number("bushing.terminal.diameter"), number("bushing.terminal.height")
    face = calculate(stud_face, diameter, height)
    return face, on_outline(float(face), "Terminal area in air", "A", "mm²", "its mantle")
