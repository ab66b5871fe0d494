"""The metal at both ends of a conductor: what it gives off, what is made in it."""

from collections.abc import Sequence

from shedlight.errors import InputError
from shedlight.physics.domain import finite, not_negative, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

_BALANCE = cite("first principles", "parallel paths of heat", "exact")
_LINE = ("Conductance of what is connected", 'G_"line"', "W/K")


@formula(
    ("Conductance of an end", "U", "W/K"),
    '(h_"c" + h_"r") A + G_"line"',
    {
        "convection": ("Film coefficient of the fluid", 'h_"c"', "W/m²K"),
        "radiation": ("Radiation as a film coefficient", 'h_"r"', "W/m²K"),
        "area": ("Metal of the end", "A", "cm²"),
        "line": _LINE,
    },
    _BALANCE,
)
def end_conductance(convection: float, radiation: float, area: float, line: float) -> float:
    """What an end gives to its surroundings per kelvin.

    U = (h_c + h_r) A + G_line

    Args:
        convection: Film coefficient of air or oil [W/m²K].
        radiation: Film coefficient of radiation [W/m²K].
        area: Of the metal [m²].
        line: Conductance of what is connected [W/K].

    Returns:
        Conductance [W/K].

    Raises:
        InputError: area not above zero, another argument negative.

    Source: parallel paths — basis: exact.
    Valid for: an end of one temperature.
    """
    not_negative(convection=convection, radiation=radiation, line=line)
    positive(area=area)
    return (convection + radiation) * area + line


@formula(
    ("Heat made in an end", "P", "W"),
    'P_"c" + P_"s" + G_"line" (T_"line" - T_a)',
    {
        "contact": ("Loss in the joint", 'P_"c"', "W"),
        "sun": ("Sun on the end", 'P_"s"', "W"),
        "line": _LINE,
        "line_temperature": ("Temperature of what is connected", 'T_"line"', "°C"),
        "ambient": ("Temperature around the end", "T_a", "°C"),
    },
    _BALANCE,
)
def end_power(
    contact: float, sun: float, line: float, line_temperature: float, ambient: float
) -> float:
    """Heat that enters an end besides that of the conductor.

    P = P_c + P_s + G_line (T_line - T_a)

    Args:
        contact: Loss in the joint [W].
        sun: Heat of the sun [W].
        line: Conductance of what is connected [W/K].
        line_temperature: Its temperature [K].
        ambient: Around the end [K].

    Returns:
        Heat; negative if the line cools below the air [W].

    Raises:
        InputError: a power or conductance negative, a temperature not finite.

    Source: parallel paths — basis: exact.
    Valid for: an end of one temperature.
    """
    not_negative(contact=contact, sun=sun, line=line)
    finite(line_temperature=line_temperature, ambient=ambient)
    return contact + sun + line * (line_temperature - ambient)


@formula(
    ("Sun on the end", 'P_"s"', "W"),
    'alpha_"s" E D H',
    {
        "absorptivity": ("Solar absorptivity", 'alpha_"s"', "1"),
        "irradiance": ("Solar irradiance", "E", "W/m²"),
        "width": ("Width of the body", "D", "mm"),
        "height": ("Height of the body", "H", "mm"),
    },
    cite("first principles", "projected area", "exact"),
)
def sun_on_body(absorptivity: float, irradiance: float, width: float, height: float) -> float:
    """Heat that a body takes from the sun.

    P = alpha_s E D H

    Args:
        absorptivity: Of its surface [1].
        irradiance: Of the sun, across the body [W/m²].
        width: Of the body [m].
        height: Of the body [m].

    Returns:
        Heat [W].

    Raises:
        InputError: absorptivity outside 0 to 1, another argument negative.

    Source: projected area — basis: exact.
    Valid for: any.
    """
    within(0.0, 1.0, absorptivity=absorptivity)
    not_negative(irradiance=irradiance, width=width, height=height)
    return absorptivity * irradiance * width * height


@formula(
    ("Hottest place, the oil around the lower end counted", "T", "°C"),
    "max(T_1, T_2)",
    {
        "one": ("Hottest place of the conductor", "T_1", "°C"),
        "other": ("Temperature of the oil", "T_2", "°C"),
    },
    cite("first principles", "the hotter of two", "exact"),
    note="Poor films keep hot oil's heat out too; the hotter of both is safe.",
)
def hottest_of_both(one: float, other: float) -> float:
    """The hotter of two places.

    max(T_1, T_2)

    Args:
        one: Temperature of one [K].
        other: Temperature of the other [K].

    Returns:
        Temperature [K].

    Raises:
        InputError: a temperature not above zero.

    Source: the hotter of two — basis: exact.
    Valid for: any.
    """
    positive(one=one, other=other)
    return max(one, other)


@formula(
    ("Mean temperature between two surfaces", "T_m", "°C"),
    "(T_1 + T_2) / 2",
    {
        "one": ("Temperature of one surface", "T_1", "°C"),
        "other": ("Temperature of the other", "T_2", "°C"),
    },
    cite("first principles", "mean of two surfaces", "exact"),
)
def middle_temperature(one: float, other: float) -> float:
    """Mean temperature of what lies between two surfaces.

    T_m = (T_1 + T_2)/2

    Args:
        one: Temperature of one surface [K].
        other: Temperature of the other [K].

    Returns:
        Temperature [K].

    Raises:
        InputError: a temperature not above zero.

    Source: mean of two surfaces — basis: exact.
    Valid for: a thin layer.
    """
    positive(one=one, other=other)
    return (one + other) / 2


@formula(
    ("Rise over the air", "Delta T", "K"),
    "T - T_a",
    {
        "temperature": ("Temperature", "T", "°C"),
        "air": ("Air temperature", "T_a", "°C"),
    },
    cite("first principles", "definition", "exact"),
)
def rise_over(temperature: float, air: float) -> float:
    """Rise over the air.

    Delta T = T - T_a

    Args:
        temperature: Temperature [K].
        air: Air temperature [K].

    Returns:
        Rise; negative if it is cooler [K].

    Raises:
        InputError: a temperature not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(temperature=temperature, air=air)
    return temperature - air


@formula(
    ("Current over rated current", "K", "1"),
    "I / I_r",
    {
        "current": ("Current, rms", "I", "A"),
        "rated": ("Rated current, rms", "I_r", "A"),
    },
    cite("first principles", "definition", "exact"),
)
def load_of(current: float, rated: float) -> float:
    """Current over the rated one.

    K = I/I_r

    Args:
        current: Rms [A].
        rated: Rms [A].

    Returns:
        Load [1].

    Raises:
        InputError: current negative, rated current not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    not_negative(current=current)
    positive(rated=rated)
    return current / rated


@formula(
    ("Mean temperature along several stretches", "T_m", "°C"),
    "(sum L_i T_i) / (sum L_i)",
    {
        "temperatures": ("Temperatures of the stretches", "T_i", "°C"),
        "lengths": ("Their lengths", "L_i", "mm"),
    },
    cite("first principles", "mean weighed by length", "exact"),
)
def mean_along(temperatures: Sequence[float], lengths: Sequence[float]) -> float:
    """Mean temperature of a body that passes through several stretches.

    T_m = sum L_i T_i/sum L_i

    Args:
        temperatures: Of the stretches [K].
        lengths: Of the stretches [m].

    Returns:
        Temperature [K].

    Raises:
        InputError: no stretch, another number of lengths, or a value not above zero.

    Source: mean weighed by length — basis: exact.
    Valid for: what depends on the mean alone, such as growth.
    """
    if not temperatures or len(temperatures) != len(lengths):
        raise InputError(
            f"lengths: given {len(lengths)} for {len(temperatures)} temperatures; "
            "expected as many, at least 1"
        )
    for temperature, length in zip(temperatures, lengths, strict=True):
        positive(temperatures=temperature, lengths=length)
    weighed = sum(t * length for t, length in zip(temperatures, lengths, strict=True))
    return weighed / sum(lengths)
