"""Lengths under oil, and the mean field along the surface and at the lower shield."""

from shedlight.errors import InputError
from shedlight.physics.domain import positive
from shedlight.sources import cite
from shedlight.trace import formula

_DEFINITION = cite("first principles", "definition", "exact")


@formula(
    ("Depth below the level", "t", "mm"),
    "h - z",
    {
        "level": ("Oil level above the cover", "h", "mm"),
        "place": ("Height of the place above the cover", "z", "mm"),
    },
    _DEFINITION,
)
def depth_below(level: float, place: float) -> float:
    """How far a place lies below an oil level; negative if it stands out of the oil.

    t = h - z

    Args:
        level: Oil level above the cover [m].
        place: Height of the place above the cover [m].

    Returns:
        Depth [m].

    Source: definition — basis: exact.
    Valid for: any.
    """
    return level - place


@formula(
    ("Mean field along the surface in oil, rms", "E_t", "kV/mm"),
    "U / L",
    {
        "voltage_across": ("Voltage along the surface, rms", "U", "kV"),
        "path": ("Length of the surface in oil", "L", "mm"),
    },
    _DEFINITION,
)
def mean_surface_gradient(voltage_across: float, path: float) -> float:
    """Mean field along a surface in oil, rms.

    E_t = U/L

    Args:
        voltage_across: Voltage from end to end, rms [V].
        path: Length of the surface [m].

    Returns:
        Mean tangential field, rms [V/m].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: a mean; the field peaks at both metal ends.
    """
    positive(voltage_across=voltage_across, path=path)
    return voltage_across / path


@formula(
    ("Field factor of a rounded end", "k", "1"),
    "0.9 (1 + d / R)",
    {
        "gap": ("Oil gap", "d", "mm"),
        "radius": ("Radius of the shield", "R", "mm"),
    },
    cite(
        "Kuffel", "sphere against plane, largest over mean field, approximate", "memory", "medium"
    ),
    ranges={"gap": (1e-4, 1.0)},
)
def rounded_end_factor(gap: float, radius: float) -> float:
    """Largest over mean field between a rounded end and a wall, as a sphere against a plane.

    k = 0.9 (1 + d/R); within 10 % of the image series for d/R from 0.5 to 10

    Args:
        gap: Distance to the wall [m].
        radius: Radius of the rounded end [m].

    Returns:
        Field factor [1]; never below 1.

    Raises:
        InputError: an argument not above zero.

    Source: textbooks, e.g. Kuffel, Zaengl, Kuffel — basis: memory, medium confidence.
    Valid for: gaps from half to ten times the radius.
    """
    positive(gap=gap, radius=radius)
    return max(1.0, 0.9 * (1 + gap / radius))


@formula(
    ("Largest field in the oil gap, rms", "E", "kV/mm"),
    "k U / d",
    {
        "voltage_across": ("Voltage across the gap, rms", "U", "kV"),
        "gap": ("Oil gap", "d", "mm"),
        "field_factor": ("Field factor", "k", "1"),
    },
    _DEFINITION,
)
def largest_gap_gradient(voltage_across: float, gap: float, field_factor: float) -> float:
    """Largest field in an oil gap, rms.

    E = k U/d

    Args:
        voltage_across: Voltage across the gap, rms [V].
        gap: Length of the gap [m].
        field_factor: Largest over mean field, at least 1 [1].

    Returns:
        Largest field, rms [V/m].

    Raises:
        InputError: an argument not above zero, or a factor below 1.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(voltage_across=voltage_across, gap=gap)
    if field_factor < 1:
        raise InputError(f"field_factor: given {field_factor:g}; expected at least 1")
    return field_factor * voltage_across / gap


@formula(
    ("Range of oil temperature", "Delta theta", "K"),
    "theta_1 - theta_0",
    {
        "hottest": ("Hottest oil", "theta_1", "°C"),
        "coldest": ("Coldest oil", "theta_0", "°C"),
    },
    _DEFINITION,
)
def temperature_range(hottest: float, coldest: float) -> float:
    """Range the oil's temperature goes through.

    Delta theta = theta_1 - theta_0

    Args:
        hottest: Hottest oil [K].
        coldest: Coldest oil [K].

    Returns:
        Difference [K].

    Raises:
        InputError: a temperature not above absolute zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(hottest=hottest, coldest=coldest)
    return hottest - coldest


@formula(
    ("Pressure at the place", "p", "kPa"),
    "p_h + p_0",
    {
        "head": ("Pressure of the head", "p_h", "kPa"),
        "above": ("Gauge pressure above the oil", "p_0", "kPa"),
    },
    _DEFINITION,
)
def pressure_with_cushion(head: float, above: float) -> float:
    """Gauge pressure at a place under an oil level that itself is under pressure.

    p = p_h + p_0

    Args:
        head: Pressure of the oil above the place; negative above the level [Pa].
        above: Gauge pressure on the oil's surface [Pa].

    Returns:
        Gauge pressure [Pa].

    Source: hydrostatics — basis: exact.
    Valid for: oil at rest.
    """
    return head + above


@formula(
    ("Voltage the surface in oil holds, rms", "U", "kV"),
    "E L",
    {
        "strength": ("Mean field the surface holds, rms", "E", "kV/mm"),
        "path": ("Length of the surface in oil", "L", "mm"),
    },
    _DEFINITION,
)
def creep_voltage(strength: float, path: float) -> float:
    """Voltage that a surface in oil holds from end to end, rms.

    U = E L

    Args:
        strength: Mean field the surface holds, rms [V/m].
        path: Length of the surface [m].

    Returns:
        Voltage, rms [V].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(strength=strength, path=path)
    return strength * path
