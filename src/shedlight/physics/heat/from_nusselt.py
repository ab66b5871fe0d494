"""From properties and Nusselt numbers to films, gaps and the air's side of a stretch."""

import math

from shedlight.physics.domain import not_negative, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

_VISCOSITY = ("Dynamic viscosity", "mu", "mPas")
_DENSITY = ("Density", "rho", "kg/m³")
_NUSSELT = ("Nusselt number", '"Nu"', "1")
_CONDUCTIVITY = ("Thermal conductivity of the fluid", "k", "W/mK")
_FILM = ("Film coefficient", "h", "W/m²K")
_DEFINITION = cite("first principles", "definition", "exact")
_SPREAD = ("Factor of the correlation's spread", "f", "1")
_OIL_SLOPE = 0.6376  # [kg/m³K], of the fit of the oil's density


@formula(
    ("Kinematic viscosity", "nu", "mm²/s"),
    "mu / rho",
    {"viscosity": _VISCOSITY, "density": _DENSITY},
    _DEFINITION,
)
def kinematic_viscosity(viscosity: float, density: float) -> float:
    """Viscosity per density.

    nu = mu/rho

    Args:
        viscosity: Dynamic viscosity [Pa s].
        density: Density [kg/m³].

    Returns:
        Kinematic viscosity [m²/s].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any fluid.
    """
    positive(viscosity=viscosity, density=density)
    return viscosity / density


@formula(
    ("Volume expansion of air", "beta", "1/K"),
    "1 / T",
    {"temperature": ("Air temperature", "T", "°C")},
    cite("first principles", "ideal gas", "exact"),
    note="Absolute temperature.",
)
def gas_expansion(temperature: float) -> float:
    """Volume expansion of an ideal gas.

    beta = 1/T

    Args:
        temperature: Temperature [K].

    Returns:
        Volume expansion [1/K].

    Raises:
        InputError: temperature not above zero.

    Source: ideal gas — basis: exact.
    Valid for: air at ordinary pressure.
    """
    positive(temperature=temperature)
    return 1 / temperature


@formula(
    ("Volume expansion of oil", "beta", "1/K"),
    '0.6376 thin "kg/m³K" slash rho',
    {"density": ("Oil density", "rho", "kg/m³")},
    cite("Oil fits", "slope of the fit of the density", "memory", "medium"),
)
def oil_expansion(density: float) -> float:
    """Volume expansion of transformer oil, the slope of its density.

    beta = 0.6376/rho

    Args:
        density: Oil density [kg/m³].

    Returns:
        Volume expansion [1/K].

    Raises:
        InputError: density not above zero.

    Source: fit of the density in published transformer simulations — basis: memory, medium.
    Valid for: 0 to 100 °C.
    """
    positive(density=density)
    return _OIL_SLOPE / density


@formula(
    _FILM,
    'f "Nu" k / L',
    {
        "spread": _SPREAD,
        "nusselt": _NUSSELT,
        "conductivity": _CONDUCTIVITY,
        "length": ("Height, or diameter across the wind", "L", "mm"),
    },
    cite("first principles", "definition of the Nusselt number", "exact"),
)
def film_of(spread: float, nusselt: float, conductivity: float, length: float) -> float:
    """Film coefficient from a Nusselt number.

    h = f Nu k/L

    Args:
        spread: Factor between the ends of the correlation's spread [1].
        nusselt: Nusselt number [1].
        conductivity: Of the fluid [W/mK].
        length: The length that the Nusselt number is made with [m].

    Returns:
        Film coefficient [W/m²K].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(spread=spread, nusselt=nusselt, conductivity=conductivity, length=length)
    return spread * nusselt * conductivity / length


@formula(
    ("Conductivity of the filling, motion included", 'k_"eff"', "W/mK"),
    '"Nu" k',
    {"nusselt": _NUSSELT, "conductivity": _CONDUCTIVITY},
    cite("first principles", "definition of the Nusselt number of a gap", "exact"),
)
def moving_conductivity(nusselt: float, conductivity: float) -> float:
    """Conductivity that a moving filling seems to have across its gap.

    k_eff = Nu k

    Args:
        nusselt: Of the gap; 1 at rest [1].
        conductivity: Of the fluid at rest [W/mK].

    Returns:
        Effective conductivity [W/mK].

    Raises:
        InputError: Nusselt number below 1, conductivity not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    within(1.0, math.inf, nusselt=nusselt)
    positive(conductivity=conductivity)
    return nusselt * conductivity


@formula(
    ("Reynolds number", '"Re"', "1"),
    "v D / nu",
    {
        "speed": ("Wind speed", "v", "m/s"),
        "diameter": ("Diameter across the wind", "D", "mm"),
        "kinematic_viscosity": ("Kinematic viscosity", "nu", "mm²/s"),
    },
    _DEFINITION,
)
def reynolds(speed: float, diameter: float, kinematic_viscosity: float) -> float:
    """Inertia against viscosity.

    Re = v D/nu

    Args:
        speed: Wind speed [m/s].
        diameter: Across the wind [m].
        kinematic_viscosity: Of the air [m²/s].

    Returns:
        Reynolds number [1].

    Raises:
        InputError: speed negative, another argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    not_negative(speed=speed)
    positive(diameter=diameter, kinematic_viscosity=kinematic_viscosity)
    return speed * diameter / kinematic_viscosity


@formula(
    ("Conductance to the air per length", "G'", "W/mK"),
    '2 pi (r f_A h_"c" + r_"env" h_"r")',
    {
        "radius": ("Radius of the plain body", "r", "mm"),
        "area_factor": ("Convecting over plain area", "f_A", "1"),
        "convection": ("Film coefficient of the air", 'h_"c"', "W/m²K"),
        "envelope": ("Radius of the envelope", 'r_"env"', "mm"),
        "radiation": ("Radiation as a film coefficient", 'h_"r"', "W/m²K"),
    },
    cite("first principles", "parallel paths of heat", "exact"),
    note="All faces convect as far as air reaches them; only the envelope radiates.",
)
def air_conductance(
    radius: float, area_factor: float, convection: float, envelope: float, radiation: float
) -> float:
    """Conductance of a stretch's outside to the air, per length.

    G' = 2 pi (r f_A h_c + r_env h_r)

    Args:
        radius: Of the plain body [m].
        area_factor: Convecting area over the plain body's [1].
        convection: Film coefficient [W/m²K].
        envelope: Radius over the sheds [m].
        radiation: Film coefficient of radiation [W/m²K].

    Returns:
        Conductance per length [W/mK].

    Raises:
        InputError: a film negative, another argument not above zero.

    Source: parallel paths — basis: exact.
    Valid for: air and surroundings at one temperature.
    """
    positive(radius=radius, area_factor=area_factor, envelope=envelope)
    not_negative(convection=convection, radiation=radiation)
    return 2 * math.pi * (radius * area_factor * convection + envelope * radiation)


@formula(
    ("Surroundings, raised by the sun", "T_s", "°C"),
    "T_a + P' / G'",
    {
        "air": ("Air temperature", "T_a", "°C"),
        "sun": ("Heat of the sun per length", "P'", "W/m"),
        "conductance": ("Conductance to the air per length", "G'", "W/mK"),
    },
    cite("first principles", "sun and films on one surface", "exact"),
)
def sunlit_surroundings(air: float, sun: float, conductance: float) -> float:
    """Temperature that a surface without other heat would have in the sun.

    T_s = T_a + P'/G'

    Args:
        air: Air temperature [K].
        sun: Heat of the sun per length [W/m].
        conductance: From the surface to the air per length [W/mK].

    Returns:
        Temperature [K].

    Raises:
        InputError: sun negative, another argument not above zero.

    Source: balance of a surface — basis: exact.
    Valid for: steady sun.
    """
    positive(air=air, conductance=conductance)
    not_negative(sun=sun)
    return air + sun / conductance


@formula(
    ("Convecting over plain area", "f_A", "1"),
    "1 + e (A / A_0 - 1)",
    {
        "surface": ("Surface with sheds", "A", "cm²"),
        "plain": ("Surface of the plain body", "A_0", "cm²"),
        "efficiency": ("Share of the sheds' area that convects", "e", "1"),
    },
    cite("trade", "sheds shade each other: 0.5 to 0.8 of their area counts", "practice", "low"),
)
def shed_area_factor(surface: float, plain: float, efficiency: float) -> float:
    """By how much sheds enlarge the area that gives heat to the air.

    f_A = 1 + e (A/A_0 - 1), at least 1

    Args:
        surface: Of the body with its sheds [m²].
        plain: Of the body without [m²].
        efficiency: Share of the additional area that counts [1].

    Returns:
        Factor [1].

    Raises:
        InputError: an area not above zero, efficiency outside 0 to 1.

    Source: habit of the trade — basis: practice.
    Valid for: sheds at usual pitches.
    """
    positive(surface=surface, plain=plain)
    within(0.0, 1.0, efficiency=efficiency)
    return max(1.0, 1 + efficiency * (surface / plain - 1))


@formula(
    ("Thermal resistance to the air", "R'", "mK/W"),
    "1 / G'",
    {"conductance": ("Conductance to the air per length", "G'", "W/mK")},
    _DEFINITION,
)
def outer_resistance(conductance: float) -> float:
    """Resistance of a conductance per length, times length.

    R' = 1/G'

    Args:
        conductance: Per length [W/mK].

    Returns:
        Resistance times length [mK/W].

    Raises:
        InputError: conductance not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(conductance=conductance)
    return 1 / conductance
