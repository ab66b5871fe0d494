"""Heat on its way out across the layers: conduction, films, radiation, one metre of length."""

import math

from shedlight.physics.domain import finite, not_negative, ordered, positive, within
from shedlight.physics.heat.convection import nusselt_vertical, rayleigh
from shedlight.sources import cite
from shedlight.trace import formula

STEFAN_BOLTZMANN = 5.670374419e-8  # [W/m²K⁴]

_FILM = ("Film coefficient", "h", "W/m²K")


@formula(
    ("Thermal resistance of a layer", "R'", "mK/W"),
    "ln(r_o / r_i) / (2 pi k)",
    {
        "inner_radius": ("Inner radius", "r_i", "mm"),
        "outer_radius": ("Outer radius", "r_o", "mm"),
        "conductivity": ("Thermal conductivity", "k", "W/mK"),
    },
    cite("Carslaw", "radial conduction in a hollow cylinder", "exact"),
)
def cylinder_resistance(inner_radius: float, outer_radius: float, conductivity: float) -> float:
    """Thermal resistance across a hollow cylinder, times its length.

    R' = ln(r_o/r_i)/(2 pi k)

    Args:
        inner_radius: Inner radius [m].
        outer_radius: Outer radius [m].
        conductivity: Thermal conductivity; Nu times that of the fluid if it moves [W/mK].

    Returns:
        Resistance times length [mK/W].

    Raises:
        InputError: an argument not above zero, radii out of order.

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: long cylinders.
    """
    positive(inner_radius=inner_radius, conductivity=conductivity)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    return math.log(outer_radius / inner_radius) / (2 * math.pi * conductivity)


@formula(
    ("Thermal resistance of a surface", "R'", "mK/W"),
    "1 / (2 pi r h)",
    {"coefficient": _FILM, "radius": ("Surface radius", "r", "mm")},
    cite("first principles", "definition of the film coefficient", "exact"),
)
def film_resistance_per_length(coefficient: float, radius: float) -> float:
    """Thermal resistance from a cylinder's surface to the fluid around it, times its length.

    R' = 1/(2 pi r h)

    Args:
        coefficient: Film coefficient, convection and radiation together [W/m²K].
        radius: Radius of the surface [m].

    Returns:
        Resistance times length [mK/W].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(coefficient=coefficient, radius=radius)
    return 1 / (2 * math.pi * radius * coefficient)


@formula(
    ("Conductance to the surroundings per length", "G", "W/mK"),
    "1 / (sum R')",
    {"resistances": ("Thermal resistances in series", "R'", "mK/W")},
    cite("first principles", "resistances in series", "exact"),
)
def side_conductance(resistances: tuple[float, ...]) -> float:
    """Conductance of several layers and films in series, per length.

    G = 1/sum R'

    Args:
        resistances: Thermal resistances times length, each above zero [mK/W].

    Returns:
        Conductance per length [W/mK].

    Raises:
        InputError: no resistance, or one not above zero.

    Source: resistances in series — basis: exact.
    Valid for: heat that flows radially.
    """
    for resistance in resistances:
        positive(resistances=resistance)
    total = sum(resistances)
    positive(resistances=total)
    return 1 / total


@formula(
    ("Film coefficient of still air", 'h_"c"', "W/m²K"),
    '"Nu" k / L, quad "Ra" = (g Delta T L^3) / (T_"f" nu^2) "Pr"',
    {
        "temperature_difference": ("Surface over air", "Delta T", "K"),
        "length": ("Height of the surface", "L", "m"),
        "film_temperature": ("Mean of surface and air", 'T_"f"', "°C"),
        "conductivity": ("Thermal conductivity of air", "k", "W/mK"),
        "kinematic_viscosity": ("Kinematic viscosity of air", "nu", "mm²/s"),
        "prandtl": ("Prandtl number of air", '"Pr"', "1"),
    },
    cite("Churchill & Chu", "vertical plate, all flows"),
    note="A vertical cylinder counts as a plate if its diameter is at least 35 L/Gr^0.25.",
)
def air_film_coefficient(
    temperature_difference: float,
    length: float,
    film_temperature: float,
    conductivity: float,
    kinematic_viscosity: float,
    prandtl: float,
) -> float:
    """Natural convection from a vertical surface to still air, with the air's own properties.

    h = Nu k/L, Nu after Churchill and Chu, expansion 1/T_f of an ideal gas

    Args:
        temperature_difference: Surface over air [K].
        length: Height of the surface [m].
        film_temperature: Mean of surface and air temperature [K].
        conductivity: Thermal conductivity of air [W/mK].
        kinematic_viscosity: Of air [m²/s].
        prandtl: Prandtl number of air [1].

    Returns:
        Film coefficient, without radiation [W/m²K].

    Raises:
        InputError: temperature difference negative, another argument not above zero.

    Source: Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) — basis: memory, high.
    Valid for: Rayleigh numbers 0.1 to 1e12.
    """
    positive(film_temperature=film_temperature)
    number = rayleigh(
        temperature_difference, length, 1 / film_temperature, kinematic_viscosity, prandtl
    )
    return nusselt_vertical(number, prandtl) * conductivity / length


@formula(
    ("Film coefficient of still air", 'h_"c"', "W/m²K"),
    "1.42 thin ((Delta T) / L)^(1 / 4)",
    {
        "temperature_difference": ("Surface over air", "Delta T", "K"),
        "length": ("Height of the surface", "L", "m"),
    },
    cite("Holman", "simplified equations for free convection in air, vertical, laminar"),
    ranges={"length": (0.05, 1.0)},
    note="Air at ordinary temperatures and sea-level pressure; W/m²K with K and m put in.",
)
def air_film_coefficient_simple(temperature_difference: float, length: float) -> float:
    """Natural convection from a vertical surface to still air, a short form.

    h = 1.42 (Delta T/L)^(1/4) W/m²K

    Args:
        temperature_difference: Surface over air [K].
        length: Height of the surface [m].

    Returns:
        Film coefficient, without radiation [W/m²K].

    Raises:
        InputError: temperature difference negative, length not above zero.

    Source: Holman, Heat Transfer, after McAdams — basis: memory, high confidence.
    Valid for: laminar flow, up to about 1 m height at 20 K.
    """
    not_negative(temperature_difference=temperature_difference)
    positive(length=length)
    return float(1.42 * (temperature_difference / length) ** 0.25)


@formula(
    ("Radiated heat flux", "q", "W/m²"),
    "epsilon sigma (T_1^4 - T_2^4)",
    {
        "emissivity": ("Emissivity", "epsilon", "1"),
        "surface": ("Surface temperature", "T_1", "°C"),
        "surroundings": ("Temperature of the surroundings", "T_2", "°C"),
    },
    cite("first principles", "Stefan–Boltzmann law, large surroundings", "exact"),
    note="Absolute temperatures; sheds see each other, so the envelope radiates, not every shed.",
)
def radiation_flux(emissivity: float, surface: float, surroundings: float) -> float:
    """Heat a surface radiates to large surroundings, net.

    q = epsilon sigma (T1⁴ - T2⁴)

    Args:
        emissivity: 0.90 to 0.93 for glazed porcelain [1].
        surface: Surface temperature [K].
        surroundings: Temperature of the surroundings [K].

    Returns:
        Heat flux, positive outward [W/m²].

    Raises:
        InputError: emissivity outside 0 to 1, a temperature not above zero.

    Source: Stefan–Boltzmann law — basis: exact.
    Valid for: a convex body in large surroundings.
    """
    within(0.0, 1.0, emissivity=emissivity)
    positive(surface=surface, surroundings=surroundings)
    return emissivity * STEFAN_BOLTZMANN * (surface**4 - surroundings**4)


@formula(
    ("Film coefficient of radiation", 'h_"r"', "W/m²K"),
    "epsilon sigma (T_1^2 + T_2^2) (T_1 + T_2)",
    {
        "emissivity": ("Emissivity", "epsilon", "1"),
        "surface": ("Surface temperature", "T_1", "°C"),
        "surroundings": ("Temperature of the surroundings", "T_2", "°C"),
    },
    cite("first principles", "Stefan–Boltzmann law, large surroundings", "exact"),
    note="Absolute temperatures; sheds see each other, so the envelope radiates, not every shed.",
)
def radiation_coefficient(emissivity: float, surface: float, surroundings: float) -> float:
    """Radiation of a surface to large surroundings, as a film coefficient.

    h = epsilon sigma (T1² + T2²)(T1 + T2)

    Args:
        emissivity: 0.90 to 0.93 for glazed porcelain [1].
        surface: Surface temperature [K].
        surroundings: Temperature of the surroundings [K].

    Returns:
        Film coefficient [W/m²K].

    Raises:
        InputError: emissivity outside 0 to 1, a temperature not above zero.

    Source: Stefan–Boltzmann law — basis: exact.
    Valid for: a convex body in large surroundings.
    """
    within(0.0, 1.0, emissivity=emissivity)
    positive(surface=surface, surroundings=surroundings)
    squares = surface**2 + surroundings**2
    return emissivity * STEFAN_BOLTZMANN * squares * (surface + surroundings)


@formula(
    ("Heat of the sun per length", "P'", "W/m"),
    'alpha_"s" E D',
    {
        "absorptivity": ("Solar absorptivity", 'alpha_"s"', "1"),
        "irradiance": ("Solar irradiance", "E", "W/m²"),
        "diameter": ("Diameter of the envelope", "D", "mm"),
    },
    cite("first principles", "projected area of a cylinder", "exact"),
)
def solar_gain_per_length(absorptivity: float, irradiance: float, diameter: float) -> float:
    """Heat a metre of housing takes from the sun.

    P' = alpha_s E D

    Args:
        absorptivity: About 0.75 for brown glaze, 0.3 to 0.6 for grey [1].
        irradiance: At right angles to the axis; 1000 W/m² is the usual highest [W/m²].
        diameter: Diameter of the envelope [m].

    Returns:
        Heat per length [W/m].

    Raises:
        InputError: absorptivity outside 0 to 1, irradiance negative, diameter not above zero.

    Source: projected area of a cylinder — basis: exact.
    Valid for: any.
    """
    within(0.0, 1.0, absorptivity=absorptivity)
    not_negative(irradiance=irradiance)
    positive(diameter=diameter)
    return absorptivity * irradiance * diameter


@formula(
    ("Rise across a heated hollow cylinder", "Delta T", "K"),
    "q / (4 k) (r_o^2 - r_i^2 - 2 r_i^2 ln(r_o / r_i))",
    {
        "heat_density": ("Heat made per volume", "q", "W/m³"),
        "inner_radius": ("Inner radius, no heat through it", "r_i", "mm"),
        "outer_radius": ("Outer radius", "r_o", "mm"),
        "conductivity": ("Thermal conductivity", "k", "W/mK"),
    },
    cite("Carslaw", "hollow cylinder with a uniform source", "exact"),
)
def heated_cylinder_rise(
    heat_density: float, inner_radius: float, outer_radius: float, conductivity: float
) -> float:
    """Rise of the bore over the outside in a wall that makes heat evenly.

    Delta T = q/(4 k) · (r_o² - r_i² - 2 r_i² ln(r_o/r_i))

    Args:
        heat_density: Heat made per volume [W/m³].
        inner_radius: Inner radius, through which no heat flows [m].
        outer_radius: Outer radius [m].
        conductivity: Thermal conductivity [W/mK].

    Returns:
        Temperature difference [K].

    Raises:
        InputError: heat density not finite, radii out of order, conductivity not above zero.

    Source: Carslaw and Jaeger — basis: exact.
    Valid for: long cylinders.
    """
    finite(heat_density=heat_density)
    positive(inner_radius=inner_radius, conductivity=conductivity)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    inner, outer = inner_radius**2, outer_radius**2
    shape = outer - inner - 2 * inner * math.log(outer_radius / inner_radius)
    return heat_density / (4 * conductivity) * shape


@formula(
    ("Temperature behind a layer", "T", "°C"),
    "T_i - G (T_m - T_s) R'",
    {
        "inner": ("Temperature before the layer", "T_i", "°C"),
        "mean": ("Mean temperature of the conductor", "T_m", "°C"),
        "side_conductance": ("Conductance to the surroundings per length", "G", "W/mK"),
        "surroundings": ("Temperature around", "T_s", "°C"),
        "resistance": ("Thermal resistance of the layer", "R'", "mK/W"),
    },
    cite("first principles", "resistances in series", "exact"),
)
def behind_layer(
    inner: float, mean: float, side_conductance: float, surroundings: float, resistance: float
) -> float:
    """Temperature on the far side of a layer that heat passes.

    T = T_i - G (T_m - T_s) R'

    Args:
        inner: Temperature before the layer [K].
        mean: Mean temperature of the conductor [K].
        side_conductance: From conductor to surroundings per length [W/mK].
        surroundings: Temperature around [K].
        resistance: Of the layer, times length [mK/W].

    Returns:
        Temperature [K].

    Raises:
        InputError: an argument not above zero.

    Source: resistances in series — basis: exact.
    Valid for: heat that flows radially.
    """
    positive(inner=inner, mean=mean, side_conductance=side_conductance, surroundings=surroundings)
    return inner - side_conductance * (mean - surroundings) * resistance
