"""A conductor off the middle of its tube: exact for one dielectric between two cylinders."""

import math

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, ordered, positive, within
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Largest field over that of a centred conductor", 'k_"e"', "1"),
    'ln(b / a) / op("arcosh") ((a^2 + b^2 - e^2) / (2 a b)) dot sqrt((x + a) / (x - a)),'
    " quad x = (b^2 - a^2 - e^2) / (2 e)",
    {
        "inner_radius": ("Radius of the conductor", "a", "mm"),
        "outer_radius": ("Radius of the tube around it", "b", "mm"),
        "offset": ("Distance of the two axes", "e", "mm"),
    },
    cite("Smythe", "parallel cylinders, one inside the other, as two opposite line charges"),
    note="At the conductor, on the side where the tube is nearest.",
)
def eccentric_factor(inner_radius: float, outer_radius: float, offset: float) -> float:
    """By how much the largest field at a conductor grows when it lies off the middle of its tube.

    k = ln(b/a)/arcosh((a² + b² - e²)/(2ab)) · √((x + a)/(x - a)),  x = (b² - a² - e²)/(2e)

    The field outside two opposite line charges, whose equipotentials are eccentric circles; x is
    the distance of the conductor's axis from the plane between the charges.

    Args:
        inner_radius: Radius of the conductor [m].
        outer_radius: Inner radius of the tube, the other electrode [m].
        offset: Distance of the two axes [m]; 0 is centred.

    Returns:
        Factor on the largest field at the conductor [1].

    Raises:
        InputError: radii not growing, or an offset at which the two touch.

    Source: W. R. Smythe, Static and Dynamic Electricity, method of images — basis: exact.
    Valid for: long parallel cylinders with one dielectric between them.
    """
    positive(inner_radius=inner_radius)
    ordered(inner_radius=inner_radius, outer_radius=outer_radius)
    not_negative(offset=offset)
    a, b = inner_radius, outer_radius
    if offset >= b - a:
        raise InputError(f"offset: given {offset:g} m; expected less than {b - a:g} m, the gap")
    if offset < 1e-9 * a:
        return 1.0
    x = (b**2 - a**2 - offset**2) / (2 * offset)
    spread = math.acosh((a**2 + b**2 - offset**2) / (2 * a * b))
    return math.log(b / a) / spread * math.sqrt((x + a) / (x - a))


@formula(
    ("Largest field of the conductor off the middle", "E_e", "kV/mm"),
    'k_"e" E',
    {
        "gradient": ("Field at the centred conductor", "E", "kV/mm"),
        "factor": ("Largest field over that of a centred conductor", 'k_"e"', "1"),
    },
    cite("first principles", "definition of the factor", "exact"),
)
def eccentric_gradient(gradient: float, factor: float) -> float:
    """Largest field at a conductor off the middle.

    E_e = k_e E

    Args:
        gradient: Field at the conductor if it were centred [V/m].
        factor: From :func:`eccentric_factor` [1].

    Returns:
        Field, peak or rms as the one given [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: definition of the factor — basis: exact.
    Valid for: as the factor.
    """
    positive(gradient=gradient, factor=factor)
    return gradient * factor


@formula(
    ("Distance of the two axes", "e", "mm"),
    "s d",
    {
        "width": ("Width of the space around the conductor", "d", "mm"),
        "share": ("Share of it", "s", "%"),
    },
    cite("first principles", "definition of the share", "exact"),
)
def offset_of_width(width: float, share: float) -> float:
    """How far a conductor lies off the middle, as a share of the space it has.

    e = s d

    Args:
        width: Radial width of the space around the centred conductor [m].
        share: Share of it, 0 to less than 1 [1].

    Returns:
        Distance of the two axes [m].

    Raises:
        InputError: width not above zero, share outside its range.

    Source: definition — basis: exact.
    Valid for: always.
    """
    positive(width=width)
    within(0.0, 0.999, share=share)
    return width * share
