"""Moving fluids: Rayleigh and Nusselt numbers outside the housing and in the oil annulus.

For the oil annulus four correlations stand side by side in :data:`ANNULUS`; they spread by 40 to
60 %, so a result is a band, never one number.
"""

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType

from shedlight.physics.domain import not_negative, ordered, positive
from shedlight.sources import cite
from shedlight.trace import formula

GRAVITY = 9.80665  # [m/s²]

_RAYLEIGH = ("Rayleigh number", '"Ra"', "1")
_PRANDTL = ("Prandtl number", '"Pr"', "1")
_SLENDERNESS = ("Height over gap width", "H slash b", "1")
_RADII = ("Outer over inner radius", "K", "1")
_NUSSELT = ("Nusselt number", '"Nu"', "1")
_ANNULUS_INPUTS = {
    "rayleigh": _RAYLEIGH,
    "prandtl": _PRANDTL,
    "slenderness": _SLENDERNESS,
    "radius_ratio": _RADII,
}


@formula(
    _RAYLEIGH,
    '(g beta Delta T L^3) / nu^2 "Pr"',
    {
        "temperature_difference": ("Temperature difference", "Delta T", "K"),
        "length": ("Height, or width of the gap", "L", "mm"),
        "expansion": ("Volume expansion of the fluid", "beta", "1/K"),
        "kinematic_viscosity": ("Kinematic viscosity", "nu", "mm²/s"),
        "prandtl": _PRANDTL,
    },
    cite("first principles", "definition", "exact"),
)
def rayleigh(
    temperature_difference: float,
    length: float,
    expansion: float,
    kinematic_viscosity: float,
    prandtl: float,
) -> float:
    """Buoyancy against viscosity and conduction.

    Ra = g beta Delta T L³ Pr/nu²

    Args:
        temperature_difference: Between the surfaces, or surface and fluid [K].
        length: Height of a surface, or width of a gap [m].
        expansion: Volume expansion of the fluid [1/K].
        kinematic_viscosity: Of the fluid [m²/s].
        prandtl: Prandtl number of the fluid [1].

    Returns:
        Rayleigh number [1].

    Raises:
        InputError: temperature difference negative, another argument not above zero.

    Source: definition — basis: exact.
    Valid for: any fluid.
    """
    not_negative(temperature_difference=temperature_difference)
    positive(
        length=length, expansion=expansion, kinematic_viscosity=kinematic_viscosity, prandtl=prandtl
    )
    drive = GRAVITY * expansion * temperature_difference * length**3
    return drive / kinematic_viscosity**2 * prandtl


@formula(
    _NUSSELT,
    '(0.825 + (0.387 "Ra"^(1/6)) / [1 + (0.492 slash "Pr")^(9/16)]^(8/27))^2',
    {"rayleigh": _RAYLEIGH, "prandtl": _PRANDTL},
    cite("Churchill & Chu", "vertical plate, all flows"),
    ranges={"rayleigh": (0.1, 1e12)},
)
def nusselt_vertical(rayleigh: float, prandtl: float) -> float:
    """Natural convection from a vertical surface, laminar and turbulent.

    Nu = (0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27))²

    Args:
        rayleigh: Rayleigh number with the height [1].
        prandtl: Prandtl number [1].

    Returns:
        Nusselt number with the height [1].

    Raises:
        InputError: Rayleigh number negative, Prandtl number not above zero.

    Source: Churchill and Chu (1975) — basis: memory, high confidence.
    Valid for: Rayleigh numbers 0.1 to 1e12.
    """
    not_negative(rayleigh=rayleigh)
    positive(prandtl=prandtl)
    fluid = (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)
    return float((0.825 + 0.387 * rayleigh ** (1 / 6) / fluid) ** 2)


@formula(
    _NUSSELT,
    'cases(0.59 "Ra"^(1 slash 4) & quad "Ra" < 10^9, 0.13 "Ra"^(1 slash 3) & quad "Ra" >= 10^9)',
    {"rayleigh": _RAYLEIGH},
    cite("Holman", "vertical surfaces after McAdams, Weise and Saunders"),
    ranges={"rayleigh": (1e4, 1e12)},
)
def nusselt_vertical_mcadams(rayleigh: float) -> float:
    """Natural convection from a vertical surface, the older rival.

    Nu = 0.59 Ra^(1/4) below Ra = 1e9, 0.13 Ra^(1/3) from there

    Args:
        rayleigh: Rayleigh number with the height [1].

    Returns:
        Nusselt number with the height [1].

    Raises:
        InputError: Rayleigh number negative.

    Source: McAdams, as in Holman, Heat Transfer — basis: memory, high confidence.
    Valid for: Rayleigh numbers 1e4 to 1e12.
    """
    not_negative(rayleigh=rayleigh)
    return float(0.59 * rayleigh**0.25 if rayleigh < 1e9 else 0.13 * rayleigh ** (1 / 3))


@formula(
    _NUSSELT,
    '0.3 + (0.62 "Re"^(1/2) "Pr"^(1/3)) / [1 + (0.4 slash "Pr")^(2/3)]^(1/4)'
    ' [1 + ("Re" / 282000)^(5/8)]^(4/5)',
    {"reynolds": ("Reynolds number", '"Re"', "1"), "prandtl": _PRANDTL},
    cite("Churchill & Bernstein", "cylinder in cross-flow"),
    ranges={"reynolds": (1.0, 4e5)},
)
def nusselt_wind(reynolds: float, prandtl: float) -> float:
    """Forced convection from a cylinder in a wind across its axis.

    Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3)/[1 + (0.4/Pr)^(2/3)]^(1/4) · [1 + (Re/282000)^(5/8)]^(4/5)

    Args:
        reynolds: Reynolds number with the diameter [1].
        prandtl: Prandtl number [1].

    Returns:
        Nusselt number with the diameter [1].

    Raises:
        InputError: Reynolds number negative, Prandtl number not above zero.

    Source: Churchill and Bernstein, J. Heat Transfer 99 (1977) — basis: memory, high confidence.
    Valid for: Re Pr above 0.2.
    """
    not_negative(reynolds=reynolds)
    positive(prandtl=prandtl)
    laminar = 0.62 * math.sqrt(reynolds) * prandtl ** (1 / 3)
    laminar /= (1 + (0.4 / prandtl) ** (2 / 3)) ** 0.25
    return float(0.3 + laminar * (1 + (reynolds / 282000) ** (5 / 8)) ** 0.8)


def _checked(rayleigh: float, prandtl: float, slenderness: float, radius_ratio: float) -> None:
    not_negative(rayleigh=rayleigh)
    positive(prandtl=prandtl, slenderness=slenderness)
    ordered(one=1.0, radius_ratio=radius_ratio)


@formula(
    _NUSSELT,
    'max(1, 0.42 "Ra"^0.25 "Pr"^0.012 (H / b)^(-0.3))',
    _ANNULUS_INPUTS,
    cite("MacGregor & Emery", "vertical enclosure, moderate and large Prandtl numbers"),
    ranges={"rayleigh": (1e4, 1e7), "prandtl": (1.0, 2e4), "slenderness": (10.0, 40.0)},
    note="The best match of ranges for oil; the curvature is left out.",
)
def annulus_macgregor_emery(
    rayleigh: float, prandtl: float, slenderness: float, radius_ratio: float
) -> float:
    """Convection across a tall narrow gap of oil.

    Nu = 0.42 Ra^0.25 Pr^0.012 (H/b)^-0.3, at least 1

    Args:
        rayleigh: Rayleigh number with the gap width [1].
        prandtl: Prandtl number [1].
        slenderness: Height over gap width [1].
        radius_ratio: Outer over inner radius; does not enter [1].

    Returns:
        Factor on the conductivity of the resting fluid [1].

    Raises:
        InputError: an argument out of its domain, radius ratio not above 1.

    Source: MacGregor and Emery, J. Heat Transfer 91 (1969) — basis: memory, high confidence.
    Valid for: Pr 1 to 2e4, H/b 10 to 40, Ra 1e4 to 1e7.
    """
    _checked(rayleigh, prandtl, slenderness, radius_ratio)
    return float(max(1.0, 0.42 * rayleigh**0.25 * prandtl**0.012 * slenderness**-0.3))


@formula(
    _NUSSELT,
    'max(1, 0.0605 "Ra"^(1/3),'
    ' root(3, 1 + ((0.104 "Ra"^0.293) / (1 + (6310 slash "Ra")^1.36))^3),'
    ' 0.242 ("Ra" b / H)^0.272)',
    _ANNULUS_INPUTS,
    cite("Elsherbiny", "vertical air layers"),
    ranges={"rayleigh": (1e2, 2e7), "slenderness": (5.0, 110.0)},
    note="Measured with air; for oil an upper-middle estimate. The curvature is left out.",
)
def annulus_elsherbiny(
    rayleigh: float, prandtl: float, slenderness: float, radius_ratio: float
) -> float:
    """Convection across a tall narrow gap, from measurements with air.

    Nu = max of 0.0605 Ra^(1/3), [1 + (0.104 Ra^0.293/(1 + (6310/Ra)^1.36))³]^(1/3),
    0.242 (Ra b/H)^0.272

    Args:
        rayleigh: Rayleigh number with the gap width [1].
        prandtl: Prandtl number; does not enter [1].
        slenderness: Height over gap width [1].
        radius_ratio: Outer over inner radius; does not enter [1].

    Returns:
        Factor on the conductivity of the resting fluid [1].

    Raises:
        InputError: an argument out of its domain, radius ratio not above 1.

    Source: Elsherbiny, Raithby, Hollands, J. Heat Transfer 104 (1982) — basis: memory, high.
    Valid for: H/b 5 to 110, air.
    """
    _checked(rayleigh, prandtl, slenderness, radius_ratio)
    if rayleigh == 0:
        return 1.0
    middle = 0.104 * rayleigh**0.293 / (1 + (6310 / rayleigh) ** 1.36)
    return float(
        max(
            1.0,
            0.0605 * rayleigh ** (1 / 3),
            (1 + middle**3) ** (1 / 3),
            0.242 * (rayleigh / slenderness) ** 0.272,
        )
    )


@formula(
    _NUSSELT,
    'max(1, 0.286 "Ra"^0.258 "Pr"^0.006 (H / b)^(-0.238) K^0.442)',
    _ANNULUS_INPUTS,
    cite("de Vahl Davis & Thomas", "vertical annulus"),
    ranges={"rayleigh": (1e3, 2e5), "slenderness": (1.0, 33.0), "radius_ratio": (1.0, 10.0)},
)
def annulus_de_vahl_davis(
    rayleigh: float, prandtl: float, slenderness: float, radius_ratio: float
) -> float:
    """Convection across a vertical annulus, heat counted at the inner wall.

    Nu = 0.286 Ra^0.258 Pr^0.006 (H/b)^-0.238 K^0.442, at least 1

    Args:
        rayleigh: Rayleigh number with the gap width [1].
        prandtl: Prandtl number [1].
        slenderness: Height over gap width [1].
        radius_ratio: Outer over inner radius [1].

    Returns:
        Nusselt number at the inner wall with the gap width [1].

    Raises:
        InputError: an argument out of its domain, radius ratio not above 1.

    Source: de Vahl Davis and Thomas, Phys. Fluids Suppl. II (1969) — basis: memory, high.
    Valid for: H/b 1 to 33, Ra below 2e5, K 1 to 10.
    """
    _checked(rayleigh, prandtl, slenderness, radius_ratio)
    flow = 0.286 * rayleigh**0.258 * prandtl**0.006
    return float(max(1.0, flow * slenderness**-0.238 * radius_ratio**0.442))


@formula(
    _NUSSELT,
    'max(1, 0.386 ("Pr" / (0.861 + "Pr"))^(1/4) "Ra"_"c"^(1/4)),'
    ' quad "Ra"_"c" = (ln K)^4 "Ra" / (b^3 (D_i^(-3/5) + D_o^(-3/5))^5)',
    _ANNULUS_INPUTS,
    cite("Raithby & Hollands", "concentric horizontal cylinders"),
    note="For horizontal or inclined annuli; the height does not enter.",
)
def annulus_raithby_hollands(
    rayleigh: float, prandtl: float, slenderness: float, radius_ratio: float
) -> float:
    """Convection between concentric horizontal cylinders.

    Nu = 0.386 (Pr/(0.861 + Pr))^0.25 Ra_c^0.25, at least 1,
    Ra_c = ln(K)⁴ Ra/(b³ (D_i^-0.6 + D_o^-0.6)⁵)

    Args:
        rayleigh: Rayleigh number with the gap width [1].
        prandtl: Prandtl number [1].
        slenderness: Height over gap width; does not enter [1].
        radius_ratio: Outer over inner radius [1].

    Returns:
        Factor on the conductivity of the resting fluid [1].

    Raises:
        InputError: an argument out of its domain, radius ratio not above 1.

    Source: Raithby and Hollands, Adv. Heat Transfer 11 (1975) — basis: memory, high.
    Valid for: Ra_c 100 to 1e7.
    """
    _checked(rayleigh, prandtl, slenderness, radius_ratio)
    # With the gap as the unit of length only the ratio of the radii is left.
    inner = 2 / (radius_ratio - 1)
    outer = inner * radius_ratio
    effective = math.log(radius_ratio) ** 4 * rayleigh / (inner**-0.6 + outer**-0.6) ** 5
    return float(max(1.0, 0.386 * (prandtl / (0.861 + prandtl)) ** 0.25 * effective**0.25))


ANNULUS: Mapping[str, Callable[[float, float, float, float], float]] = MappingProxyType(
    {
        "MacGregor & Emery": annulus_macgregor_emery,
        "Elsherbiny": annulus_elsherbiny,
        "de Vahl Davis & Thomas": annulus_de_vahl_davis,
        "Raithby & Hollands": annulus_raithby_hollands,
    }
)
