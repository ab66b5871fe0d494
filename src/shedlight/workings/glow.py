"""Glow at the live roundings in air: the cap's edge, the terminal, the horns' tips."""

from dataclasses import dataclass

from shedlight.given.bushing import Installation
from shedlight.given.parts import Palm
from shedlight.physics.air.corona import sphere_inception, tip_gradient
from shedlight.physics.air.streamer import corona_surface
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption, from_table, on_outline
from shedlight.workings.voltages import Voltages


@dataclass(frozen=True)
class Glow:
    """Field at one rounding in service and the field at which it begins to glow [V/m], peak.

    Attributes:
        place: The rounding in words.
        gradient: Largest field, the rounding taken as the tip of a rod before a plane.
        inception: At which weathered metal glows in the mean air of the site.
        in_rain: At which hanging drops glow.
    """

    place: str
    gradient: Number
    inception: Number
    in_rain: Number


@dataclass(frozen=True)
class Glows:
    """The live roundings in air; horns where they are fitted."""

    cap: Glow
    terminal: Glow
    horns: Glow | None


def glows_of(
    installation: Installation, arcing: Number, voltages: Voltages, number: Description
) -> Glows:
    """Every live rounding of the air end that the description knows.

    Args:
        installation: What was described.
        arcing: Arcing distance [m]: the gap before cap and terminal.
        voltages: Its voltages.
        number: Its numbers.
    """
    return Glows(
        cap=_glow("the cap's edge", number("bushing.cap.edge_radius"), arcing, voltages),
        terminal=_terminal(installation, arcing, voltages),
        horns=_horns(installation, voltages, number),
    )


def _terminal(installation: Installation, arcing: Number, voltages: Voltages) -> Glow:
    terminal = installation.bushing.terminal
    if isinstance(terminal, Palm):
        half, how = terminal.thickness / 2, "half the palm's thickness, its edge taken as rounded"
        place = "the palm's edge, taken as round"
    else:
        half, how = terminal.diameter / 2, "half the stud's diameter"
        place = "the stud's end, taken as round"
    radius = on_outline(half, "Radius of the terminal's edge", "rho", "mm", how)
    return _glow(place, radius, arcing, voltages)


def _horns(installation: Installation, voltages: Voltages, number: Description) -> Glow | None:
    if installation.bushing.horns is None:
        return None
    half = number("bushing.horns.rod_diameter") / 2
    radius = on_outline(half, "Radius of the horn's tip", "rho", "mm", "half the rod's diameter")
    return _glow("the horn's tip", radius, number("bushing.horns.gap"), voltages)


def _glow(place: str, radius: Number, gap: Number, voltages: Voltages) -> Glow:
    rain = corona_surface("raining")
    drops = from_table(rain.factor, "Surface factor in rain", "m", "1", rain.citation, rain.what)
    weathered = assumption("surface factor")
    return Glow(
        place,
        calculate(tip_gradient, voltages.glow_free, radius, gap),
        calculate(sphere_inception, radius, voltages.density, weathered),
        calculate(sphere_inception, radius, voltages.density, drops),
    )
