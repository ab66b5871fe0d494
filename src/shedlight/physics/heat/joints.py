"""Joints as a whole: film and constriction, hottest spot, rise, what a finish permits."""

import math

from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

LORENZ = 2.44e-8  # Wiedemann–Franz–Lorenz constant [V²/K²]

_CURRENT = ("Current, rms", "I", "A")
_RESISTANCE = ("Resistance of the joint", 'R_"j"', "µΩ")
_CONDUCTANCE = ("Conductance to the surroundings", "U_A", "W/K")
_VOLTAGE = ("Voltage across the contact", "U", "mV")


@formula(
    ("Resistance of the film", 'R_"f"', "µΩ"),
    "(sigma H) / F",
    {
        "film": ("Film resistance times area", "sigma", "Ωm²"),
        "hardness": ("Contact hardness", "H", "MPa"),
        "force": ("Contact force", "F", "kN"),
    },
    cite("Holm", "film resistance over the load-bearing area F/H"),
)
def film_resistance(film: float, hardness: float, force: float) -> float:
    """Resistance of the tarnish film on the area that really bears.

    R_f = sigma H/F

    Args:
        film: Film resistance times area; about 1e-12 on clean metal [Ωm²].
        hardness: Contact hardness [Pa].
        force: Contact force [N].

    Returns:
        Film resistance [Ω].

    Raises:
        InputError: film negative, another argument not above zero.

    Source: Holm, Electric Contacts — basis: memory, high confidence.
    Valid for: spots that bear plastically; a film that breaks counts for less.
    """
    not_negative(film=film)
    positive(hardness=hardness, force=force)
    return film * hardness / force


@formula(
    _RESISTANCE,
    'R_"c" + R_"f"',
    {
        "constriction": ("Constriction resistance", 'R_"c"', "µΩ"),
        "film": ("Resistance of the film", 'R_"f"', "µΩ"),
    },
    cite("first principles", "resistances in series", "exact"),
)
def joint_contact_resistance(constriction: float, film: float) -> float:
    """Constriction and film together.

    R = R_c + R_f

    Args:
        constriction: Constriction resistance [Ω].
        film: Film resistance [Ω].

    Returns:
        Contact resistance [Ω].

    Raises:
        InputError: an argument negative.

    Source: resistances in series — basis: exact.
    Valid for: any.
    """
    not_negative(constriction=constriction, film=film)
    return constriction + film


@formula(
    ("Temperature of the touching spots", 'T_"s"', "°C"),
    "sqrt(T_0^2 + U^2 / (4 L))",
    {
        "contact_voltage": _VOLTAGE,
        "temperature": ("Temperature of the metal", "T_0", "°C"),
    },
    cite("Holm", "voltage–temperature relation of symmetric contacts", "exact"),
    note="Absolute temperatures; L = 2.44e-8 V²/K².",
)
def spot_temperature(contact_voltage: float, temperature: float) -> float:
    """How hot the touching spots are inside, which no thermometer sees.

    T_s = sqrt(T_0² + U²/(4 L))

    Args:
        contact_voltage: Voltage across the contact, rms [V].
        temperature: Temperature of the metal around [K].

    Returns:
        Temperature of the hottest spot [K].

    Raises:
        InputError: voltage negative, temperature not above zero.

    Source: Holm, Electric Contacts, after Kohlrausch — basis: exact for metals.
    Valid for: one metal on both sides, heat only through the metal.
    """
    not_negative(contact_voltage=contact_voltage)
    positive(temperature=temperature)
    return math.sqrt(temperature**2 + contact_voltage**2 / (4 * LORENZ))


@formula(
    ("Current that brings a contact to a voltage", "I", "A"),
    'U / R_"j"',
    {"contact_voltage": _VOLTAGE, "resistance": _RESISTANCE},
    cite("first principles", "Ohm's law", "exact"),
)
def contact_current(contact_voltage: float, resistance: float) -> float:
    """Current at which the spots soften or melt, from the voltage at which they do.

    I = U/R

    Args:
        contact_voltage: Softening or melting voltage [V].
        resistance: Contact resistance [Ω].

    Returns:
        Current, of the same kind as the voltage [A].

    Raises:
        InputError: voltage negative, resistance not above zero.

    Source: Ohm's law; voltages after Holm — basis: exact.
    Valid for: a resistance that does not change until then.
    """
    not_negative(contact_voltage=contact_voltage)
    positive(resistance=resistance)
    return contact_voltage / resistance


@formula(
    _RESISTANCE,
    "(e rho l) / (b t) + Y / (b l)",
    {
        "resistivity": ("Resistivity", "rho", "nΩm"),
        "overlap": ("Length of the overlap", "l", "mm"),
        "width": ("Width of the bars", "b", "mm"),
        "thickness": ("Thickness of one bar", "t", "mm"),
        "streamline": ("Streamline factor", "e", "1"),
        "film": ("Contact resistance times area", "Y", "Ωm²"),
    },
    cite("CDA busbars", "resistance of lapped joints", "memory", "medium"),
)
def lap_resistance(
    resistivity: float,
    overlap: float,
    width: float,
    thickness: float,
    streamline: float,
    film: float,
) -> float:
    """Resistance of two lapped bars: bent lines of current, and the faces between them.

    R = e rho l/(b t) + Y/(b l)

    Args:
        resistivity: Of the bars, at their temperature [Ωm].
        overlap: Length of the overlap along the current [m].
        width: Width of the bars [m].
        thickness: Thickness of one bar [m].
        streamline: Factor of the bent lines of current, about 0.5 to 1 [1].
        film: Contact resistance times area of the faces [Ωm²].

    Returns:
        Resistance [Ω].

    Raises:
        InputError: film negative, another argument not above zero.

    Source: Chapman, Norris, Copper for Busbars — basis: memory, medium confidence.
    Valid for: an overlap of at least two thicknesses.
    """
    not_negative(film=film)
    positive(
        resistivity=resistivity,
        overlap=overlap,
        width=width,
        thickness=thickness,
        streamline=streamline,
    )
    bent = streamline * resistivity * overlap / (width * thickness)
    return bent + film / (width * overlap)


@formula(
    ("Contact resistance times area", "Y", "Ωm²"),
    'R_"c" b l',
    {
        "contact": ("Contact resistance", 'R_"c"', "µΩ"),
        "width": ("Width of the bars", "b", "mm"),
        "overlap": ("Length of the overlap", "l", "mm"),
    },
    cite("first principles", "definition", "exact"),
)
def contact_times_area(contact: float, width: float, overlap: float) -> float:
    """Contact resistance of a lap, spread over its face.

    Y = R_c b l

    Args:
        contact: Contact resistance [Ω].
        width: Width of the bars [m].
        overlap: Length of the overlap [m].

    Returns:
        Resistance times area [Ωm²].

    Raises:
        InputError: resistance negative, another argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    not_negative(contact=contact)
    positive(width=width, overlap=overlap)
    return contact * width * overlap


@formula(
    ("Joint over equal length of bar", "k_j", "1"),
    'R_"j" A / (rho l)',
    {
        "resistance": _RESISTANCE,
        "resistivity": ("Resistivity of the bar", "rho", "nΩm"),
        "length": ("Length of the joint", "l", "mm"),
        "section": ("Section of the bar", "A", "mm²"),
    },
    cite("first principles", "definition of the joint ratio", "exact"),
    note="New 1.0 to 1.2; above 2 act (practice).",
)
def joint_ratio(resistance: float, resistivity: float, length: float, section: float) -> float:
    """How a joint compares with an equal length of unbroken bar.

    k_j = R A/(rho l)

    Args:
        resistance: Of the joint [Ω].
        resistivity: Of the bar at the same temperature [Ωm].
        length: Length of the joint [m].
        section: Section of the bar [m²].

    Returns:
        Ratio [1].

    Raises:
        InputError: resistance negative, another argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    not_negative(resistance=resistance)
    positive(resistivity=resistivity, length=length, section=section)
    return resistance * section / (resistivity * length)


@formula(
    ("Rise of the joint", "Delta T", "K"),
    '(I^2 R_"j") / U_A',
    {"current": _CURRENT, "resistance": _RESISTANCE, "conductance": _CONDUCTANCE},
    cite("first principles", "balance of loss and cooling", "exact"),
)
def joint_rise(current: float, resistance: float, conductance: float) -> float:
    """Rise of a joint that gives its own loss to its surroundings.

    Delta T = I² R/U_A

    Args:
        current: Current, rms [A].
        resistance: Of the joint [Ω].
        conductance: From the joint to air or oil [W/K].

    Returns:
        Rise over the surroundings [K].

    Raises:
        InputError: current or resistance negative, conductance not above zero.

    Source: balance of loss and cooling — basis: exact.
    Valid for: no heat from or into the conductor; with it, see the fin.
    """
    not_negative(current=current, resistance=resistance)
    positive(conductance=conductance)
    return current**2 * resistance / conductance


@formula(
    ("Largest resistance of the joint", 'R_"max"', "µΩ"),
    "(U_A Delta T) / I^2",
    {
        "permitted_rise": ("Rise permitted", "Delta T", "K"),
        "conductance": _CONDUCTANCE,
        "current": _CURRENT,
    },
    cite("first principles", "balance of loss and cooling", "exact"),
)
def permitted_resistance(permitted_rise: float, conductance: float, current: float) -> float:
    """Joint resistance at which the rise that its finish permits is just reached.

    R_max = U_A Delta T/I²

    Args:
        permitted_rise: Of the joint's finish, see ``temperature_limits.csv`` [K].
        conductance: From the joint to air or oil [W/K].
        current: Current, rms [A].

    Returns:
        Resistance [Ω].

    Raises:
        InputError: rise negative, another argument not above zero.

    Source: balance of loss and cooling — basis: exact.
    Valid for: no heat from or into the conductor.
    """
    not_negative(permitted_rise=permitted_rise)
    positive(conductance=conductance, current=current)
    return conductance * permitted_rise / current**2
