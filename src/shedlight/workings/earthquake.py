"""Earthquakes: from the class of the site to one force on the body, two ways."""

from dataclasses import dataclass

from shedlight.given.bushing import Installation
from shedlight.physics.strength.earthquake import (
    SeismicLevel,
    SeismicResponse,
    modal_response,
    required_spectrum,
    seismic_level,
    static_seismic_force,
)
from shedlight.physics.strength.load_sums import (
    equal_force,
    moment_of_all_directions,
    total_moment,
)
from shedlight.physics.strength.stepped import Mode, natural_modes
from shedlight.sources import cite
from shedlight.trace import Label, Number, calculate
from shedlight.workings.body import Body
from shedlight.workings.numbers import Description, assumption, from_table, modelled, on_outline

UNSAID = 'whether the site has earthquakes is not said (site.earthquake; "none" if it has none)'
QUIET = "the site has no earthquakes to reckon with"
MODES = 3
_BEAM = cite("Chopra", "modes of a stepped beam, root of the sum of squares", "exact")
IEEE_LEVELS = ("moderate", "high")
_MOMENT = Label("Moment of shaking in one direction", "M_1", "Nm")
_SWING = Label("Swing of the top", "w", "mm")


@dataclass(frozen=True)
class Shaking:
    """What the earthquake of the site's class does to the body."""

    level: SeismicLevel
    frequency: Number
    acceleration: Number  # spectral, at the flange, of the first mode [m/s²]
    moment: Number  # at the seat, all directions [Nm]
    force: Number  # one that gives the moment [N]
    height: float  # at which it acts [m]
    static_force: Number  # by the static rule, at the same height [N]
    swing: Number  # of the top [m]
    modes: tuple[Mode, ...]


def shaking_of(installation: Installation, body: Body, number: Description) -> Shaking | str:
    """How the body on its gasket answers the earthquakes of the site; or why it does not."""
    named = installation.site.earthquake
    if named is None:
        return UNSAID
    if named == "none":
        return QUIET
    level = seismic_level("IEEE" if named in IEEE_LEVELS else "IEC", named)
    modes = natural_modes(body.rocking, MODES)
    origins = (body.body_mass, body.top_mass, body.base_stiffness)
    frequency = _frequency(modes[0], origins)
    zero, damping = _at_flange(level), assumption("damping")
    frequencies = (frequency, *(mode.frequency for mode in modes[1:]))
    spectral = tuple(calculate(required_spectrum, f, damping, zero) for f in frequencies)
    found = _response(body, modes, spectral, zero)
    ways = number("transformer.mounting_angle"), assumption("earthquake vertical")
    one = _solved(found.base_moment, _MOMENT, (*origins, *spectral))
    moment = calculate(moment_of_all_directions, one, *ways)
    lever = on_outline(
        found.base_moment / found.base_shear, "Height at which it acts", "h", "mm", "of the modes"
    )
    static = calculate(moment_of_all_directions, _static(body, level), *ways)
    return Shaking(
        level=level,
        frequency=frequency,
        acceleration=spectral[0],
        moment=moment,
        force=calculate(equal_force, moment, lever),
        height=float(lever),
        static_force=calculate(equal_force, static, lever),
        swing=_solved(found.top_swing, _SWING, (*origins, *spectral)),
        modes=modes,
    )


def _response(
    body: Body, modes: tuple[Mode, ...], spectral: tuple[Number, ...], zero: Number
) -> SeismicResponse:
    whole = float(body.body_mass) + float(body.top_mass)
    turned = float(body.body_mass) * body.porcelain_top / 2 + sum(
        point.mass * point.height for point in body.beam.masses
    )
    return modal_response(modes, tuple(float(a) for a in spectral), whole, turned, float(zero))


def _solved(value: float, label: Label, origins: tuple[Number, ...]) -> Number:
    how = f"first {MODES} modes of the stepped beam, the rest of its mass as stiff"
    return modelled(value, label, _BEAM, how, origins)


def _frequency(mode: Mode, origins: tuple[Number, ...]) -> Number:
    label = Label("Lowest natural frequency", "f_1", "Hz")
    return modelled(mode.frequency, label, _BEAM, "stepped beam that rocks on its gasket", origins)


def _at_flange(level: SeismicLevel) -> Number:
    return from_table(
        level.ground * level.amplification,
        "Zero-period acceleration at the flange",
        "a_0",
        "m/s²",
        level.citation,
        f"{level.code} {level.level}: {level.ground:g} m/s² at the ground, "
        f"times {level.amplification:g} for the cover",
    )


def _static(body: Body, level: SeismicLevel) -> Number:
    """Moment at the seat by the static rule, as if the whole spectrum's plateau were felt."""
    ground = from_table(
        level.ground, "Acceleration of the ground", 'a_"g"', "m/s²", level.citation, level.level
    )
    raised = from_table(
        level.amplification, "Amplification by the structure", "K", "1", level.citation, level.level
    )
    plateau = calculate(required_spectrum, 8.0, assumption("damping"), 1.0)
    parts = ((body.body_mass, body.porcelain_top / 2), (body.top_mass, body.beam.masses[0].height))
    forces = tuple(
        calculate(
            static_seismic_force, mass, ground, raised, plateau, assumption("static coefficient")
        )
        for mass, _ in parts
    )
    levers = tuple(
        on_outline(height, "Height of its centre", "a", "mm", "above the seat")
        for _, height in parts
    )
    return calculate(total_moment, forces, levers)
