"""Earthquakes: the required spectrum, equal static forces, modes put together."""

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive, within
from shedlight.sources import Citation, cite
from shedlight.trace import formula

if TYPE_CHECKING:
    from shedlight.physics.strength.stepped import Mode


@dataclass(frozen=True)
class SeismicLevel:
    """Ground acceleration of one class, and what a transformer's cover makes of it."""

    code: str
    level: str
    ground: float  # zero-period acceleration at the ground [m/s²]
    amplification: float  # flange over ground [1]
    rigid_frequency: float  # above which a body moves with its base [Hz]
    citation: Citation


@tables.cached
def seismic_levels() -> tuple[SeismicLevel, ...]:
    """Every class held."""
    return tuple(
        SeismicLevel(
            row["code"],
            row["level"],
            float(row["ground_m_s2"]),
            float(row["amplification"]),
            float(row["rigid_hz"]),
            tables.citation(row),
        )
        for row in tables.read("strength/seismic")
    )


def seismic_level(code: str, level: str) -> SeismicLevel:
    """One class of earthquakes.

    Args:
        code: ``IEC`` or ``IEEE``.
        level: Such as ``AG3`` or ``high``.

    Raises:
        InputError: no such class is held.
    """
    for row in seismic_levels():
        if (row.code, row.level) == (code, level):
            return row
    known = ", ".join(f"{row.code} {row.level}" for row in seismic_levels())
    raise InputError(f"code, level: given {code!r}, {level!r}; expected one of {known}")


@dataclass(frozen=True)
class SeismicFigure:
    """A published figure about bushings in earthquakes, as a range."""

    figure: str
    low: float
    high: float
    citation: Citation


@tables.cached
def seismic_figures() -> tuple[SeismicFigure, ...]:
    """Every figure held."""
    return tuple(
        SeismicFigure(row["figure"], float(row["low"]), float(row["high"]), tables.citation(row))
        for row in tables.read("strength/seismic_figures")
    )


def seismic_figure(figure: str) -> SeismicFigure:
    """One figure.

    Args:
        figure: ``damping``, ``exempt voltage kv`` or ``exempt frequency hz``.

    Raises:
        InputError: no such figure is held.
    """
    for row in seismic_figures():
        if row.figure == figure:
            return row
    known = ", ".join(row.figure for row in seismic_figures())
    raise InputError(f"figure: given {figure!r}; expected one of {known}")


@formula(
    ("Spectral acceleration required", "S_a", "m/s²"),
    'a_0 cases(2.288 beta f & quad f <= 1.1 "Hz",'
    ' 2.5 beta & quad f <= 8 "Hz",'
    ' (26.4 beta - 10.56) / f - 0.8 beta + 1.32 & quad f <= 33 "Hz",'
    ' 1 & quad f > 33 "Hz"), quad beta = (3.21 - 0.68 ln zeta_%) / 2.1156',
    {
        "frequency": ("Natural frequency", "f", "Hz"),
        "damping": ("Damping ratio", "zeta", "%"),
        "zero_period": ("Zero-period acceleration", "a_0", "m/s²"),
    },
    cite("IEEE 693", "required response spectrum, equations", "memory", "medium"),
    # Above 33 Hz a body moves with its base, however stiff: the spectrum has no upper end.
    ranges={"damping": (0.005, 0.2), "frequency": (0.1, 1e6)},
    note="f in Hz, damping in percent; of the ground.",
)
def required_spectrum(frequency: float, damping: float, zero_period: float) -> float:
    """Largest acceleration that an earthquake gives a body of one natural frequency.

    S_a = a_0 · (2.288 beta f | 2.5 beta | (26.4 beta - 10.56)/f - 0.8 beta + 1.32 | 1),
    beta = (3.21 - 0.68 ln(damping in percent))/2.1156

    Args:
        frequency: Natural frequency [Hz].
        damping: Damping ratio, 0.02 for porcelain bushings [1].
        zero_period: Zero-period acceleration, 0.5 g for the high level [m/s²].

    Returns:
        Spectral acceleration [m/s²].

    Raises:
        InputError: damping outside 0.5 to 20 %, another argument not above zero.

    Source: IEEE Std 693-2005 — basis: memory, medium confidence.
    Valid for: damping of 0.5 to 20 %.
    """
    positive(frequency=frequency, zero_period=zero_period)
    within(0.005, 0.2, damping=damping)
    beta = (3.21 - 0.68 * math.log(100 * damping)) / 2.1156
    if frequency <= 1.1:
        return zero_period * 2.288 * beta * frequency
    if frequency <= 8:
        return zero_period * 2.5 * beta
    if frequency <= 33:
        return zero_period * ((26.4 * beta - 10.56) / frequency - 0.8 * beta + 1.32)
    return zero_period


@formula(
    ("Seismic force at the centre of gravity", "F", "N"),
    'm a_"g" K R thin c',
    {
        "mass": ("Mass above the flange", "m", "kg"),
        "ground_acceleration": ("Acceleration of the ground", 'a_"g"', "m/s²"),
        "superelevation": ("Amplification by the structure", "K", "1"),
        "response": ("Response over zero-period acceleration", "R", "1"),
        "coefficient": ("Static coefficient for several modes", "c", "1"),
    },
    cite("IEC 61463", "static calculation", "memory", "medium"),
    note="Up to 52 kV bushings count as stiff (above 25 Hz) and need no qualification there.",
)
def static_seismic_force(
    mass: float,
    ground_acceleration: float,
    superelevation: float,
    response: float,
    coefficient: float = 1.0,
) -> float:
    """Steady force that stands for an earthquake, at the centre of gravity.

    F = m a_g K R c

    Args:
        mass: Mass above the flange [kg].
        ground_acceleration: Of the class [m/s²].
        superelevation: Of the transformer's cover, 1.5 usually [1].
        response: Spectral over zero-period acceleration; 1 if stiff [1].
        coefficient: 1.5 where several modes may take part, 1 if response covers them [1].

    Returns:
        Force [N].

    Raises:
        InputError: an argument negative.

    Source: IEC TS 61463 — basis: memory, medium confidence.
    Valid for: bodies with one mode that rules.
    """
    not_negative(
        mass=mass,
        ground_acceleration=ground_acceleration,
        superelevation=superelevation,
        response=response,
        coefficient=coefficient,
    )
    return mass * ground_acceleration * superelevation * response * coefficient


@dataclass(frozen=True)
class SeismicResponse:
    """What a shaken base does to the body."""

    base_shear: float  # [N]
    base_moment: float  # [Nm]
    top_swing: float  # of the top against the base [m]
    counted_mass: float  # of the modes [kg]
    rest_mass: float  # moving with the base [kg]


def modal_response(
    modes: "tuple[Mode, ...]",
    accelerations: tuple[float, ...],
    total_mass: float,
    first_moment: float,
    zero_period: float,
) -> SeismicResponse:
    """Modes put together as root of the sum of squares, the rest of the mass as stiff.

    V² = sum (m_i S_i)² + (m_rest a_0)²; M alike with the levers

    Args:
        modes: Of the body on its base.
        accelerations: Spectral acceleration of each mode, at the flange [m/s²].
        total_mass: Of the body [kg].
        first_moment: Mass times height, of the body [kgm].
        zero_period: Zero-period acceleration at the flange [m/s²].

    Returns:
        Shear and moment at the base, swing of the top.

    Raises:
        InputError: as many accelerations as modes are wanted; an argument negative.

    Source: Chopra, Dynamics of Structures, modes and static correction — basis: exact as a rule.
    Valid for: frequencies that lie apart by more than a tenth.
    """
    if len(modes) != len(accelerations) or not modes:
        raise InputError(
            f"accelerations: given {len(accelerations)} for {len(modes)} modes; expected one each"
        )
    not_negative(total_mass=total_mass, first_moment=first_moment, zero_period=zero_period)
    counted = sum(mode.mass for mode in modes)
    turned = sum(mode.mass * mode.lever for mode in modes)
    rest = max(0.0, total_mass - counted)
    rest_moment = abs(first_moment - turned)
    pairs = list(zip(modes, accelerations, strict=True))
    shear = math.hypot(rest * zero_period, *(m.mass * a for m, a in pairs))
    moment = math.hypot(rest_moment * zero_period, *(m.mass * m.lever * a for m, a in pairs))
    swing = math.hypot(
        *(m.participation * m.shape[-1] * a / (2 * math.pi * m.frequency) ** 2 for m, a in pairs)
    )
    return SeismicResponse(shear, moment, swing, counted, rest)
