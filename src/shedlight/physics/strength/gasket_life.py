"""What heat and time take from a gasket: set, swelling in its groove, stiffness when pressed."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import finite, not_negative, ordered, positive, within
from shedlight.sources import Citation, cite
from shedlight.trace import formula

YEAR = 365 * 86400.0  # [s]


@dataclass(frozen=True)
class GasketMaterial:
    """What one gasket material bears."""

    material: str
    temperatures: tuple[float, float]  # lowest and highest [K]
    compressions: tuple[float, float]  # least and most [1]
    expansion: float  # of volume [1/K]
    set_when_hot: float  # compression set after a year near the highest temperature [1]
    citation: Citation


@tables.cached
def gasket_materials() -> tuple[GasketMaterial, ...]:
    """Every gasket material held."""
    return tuple(
        GasketMaterial(
            row["material"],
            (float(row["low_celsius"]) + 273.15, float(row["high_celsius"]) + 273.15),
            (float(row["compression_low"]), float(row["compression_high"])),
            float(row["expansion_per_k"]),
            float(row["set_at_high"]),
            tables.citation(row),
        )
        for row in tables.read("strength/gaskets")
    )


def gasket_material(material: str) -> GasketMaterial:
    """One gasket material.

    Args:
        material: Such as ``nitrile-cork``.

    Raises:
        InputError: no such material is held.
    """
    for row in gasket_materials():
        if row.material == material:
            return row
    known = ", ".join(row.material for row in gasket_materials())
    raise InputError(f"material: given {material!r}; expected one of {known}")


@formula(
    ("Compression set", "C", "%"),
    "(h_0 - h_1) / (h_0 - h)",
    {
        "free_thickness": ("Thickness before", "h_0", "mm"),
        "recovered_thickness": ("Thickness after release", "h_1", "mm"),
        "compressed_thickness": ("Thickness pressed", "h", "mm"),
    },
    cite("ISO 815-1", "definition of compression set", "memory", "high"),
)
def compression_set(
    free_thickness: float, recovered_thickness: float, compressed_thickness: float
) -> float:
    """Share of its compression that a gasket does not give back.

    C = (h_0 - h_1)/(h_0 - h)

    Args:
        free_thickness: Before [m].
        recovered_thickness: After release [m].
        compressed_thickness: While pressed [m].

    Returns:
        Set: 0 springs back fully, 1 not at all [1].

    Raises:
        InputError: thicknesses out of order or not above zero.

    Source: ISO 815-1 — basis: memory, high confidence.
    Valid for: any.
    """
    positive(compressed_thickness=compressed_thickness)
    ordered(compressed_thickness=compressed_thickness, free_thickness=free_thickness)
    within(compressed_thickness, free_thickness, recovered_thickness=recovered_thickness)
    return (free_thickness - recovered_thickness) / (free_thickness - compressed_thickness)


@formula(
    ("Compression left", 'epsilon_"left"', "%"),
    "(epsilon (1 - C)) / (1 - epsilon C)",
    {
        "compression": ("Compression when new", "epsilon", "%"),
        "set_share": ("Compression set", "C", "%"),
    },
    cite("first principles", "compression counted from the thickness that is left", "exact"),
)
def compression_left(compression: float, set_share: float) -> float:
    """Compression that a gasket still has after it has set, its joint unchanged.

    epsilon' = epsilon (1 - C)/(1 - epsilon C)

    Args:
        compression: When new [1].
        set_share: Compression set, 0 to 1 [1].

    Returns:
        Compression against the thickness it would spring back to [1].

    Raises:
        InputError: compression outside 0 to below 1, set outside 0 to 1.

    Source: definitions of compression and set — basis: exact.
    Valid for: joints held at a stop.
    """
    not_negative(compression=compression)
    ordered(compression=compression, one=1.0)
    within(0.0, 1.0, set_share=set_share)
    return compression * (1 - set_share) / (1 - compression * set_share)


@formula(
    ("Compression set at its temperature", "C", "%"),
    '1 - (1 - C_h)^(t slash 365 "d" dot 2^((theta - theta_h) slash 10 "K"))',
    {
        "set_when_hot": ("Set after a year at the highest temperature", "C_h", "%"),
        "highest": ("Highest temperature of the material", "theta_h", "°C"),
        "temperature": ("Temperature of the gasket", "theta", "°C"),
        "time": ("Time near that temperature", "t", "d"),
    },
    cite("trade", "10 K more age rubber twice as fast", "practice", "low"),
    ranges={"temperature": (253.15, 473.15)},
)
def set_at(set_when_hot: float, highest: float, temperature: float, time: float) -> float:
    """Compression set of a gasket that is not at the highest temperature of its material.

    C = 1 - (1 - C_h)^(t/365 d · 2^((theta - theta_h)/10 K)): what has not set yet decays evenly in
    time, twice as fast for every 10 K

    Args:
        set_when_hot: After a year near the highest temperature of the material [1].
        highest: That temperature [K].
        temperature: Of the gasket [K].
        time: Spent near its temperature [s].

    Returns:
        Set: 0 springs back fully, 1 not at all [1].

    Raises:
        InputError: set outside 0 to 1, time negative, a temperature not above zero.

    Source: practice, as Montsinger's rule for paper — basis: practice, low confidence.
    Valid for: an estimate between two tests of the same compound.
    """
    within(0.0, 1.0, set_when_hot=set_when_hot)
    positive(highest=highest, temperature=temperature)
    not_negative(time=time)
    faster = 2.0 ** ((temperature - highest) / 10)
    return float(1 - (1 - set_when_hot) ** (time / YEAR * faster))


@formula(
    ("Compression left in the cold", 'epsilon_"cold"', "%"),
    "1 - (1 - epsilon) / (1 - beta_g Delta T)",
    {
        "compression": ("Compression at assembly's temperature", "epsilon", "%"),
        "gasket_expansion": ("Volume expansion of the gasket", "beta_g", "1/K"),
        "cooling": ("Cooling since assembly", "Delta T", "K"),
    },
    cite("first principles", "thickness that shrinks in a joint that does not follow", "exact"),
    note="Held sideways by its faces, the gasket shrinks in thickness alone: safe side.",
)
def compression_when_cold(compression: float, gasket_expansion: float, cooling: float) -> float:
    """Compression that is left when the gasket shrinks in the cold and its joint does not follow.

    epsilon' = 1 - (1 - epsilon)/(1 - beta Delta T)

    Args:
        compression: At the temperature of assembly [1].
        gasket_expansion: Volume expansion of the gasket [1/K].
        cooling: Since assembly; negative if it is warmer [K].

    Returns:
        Compression; negative where a gap opens [1].

    Raises:
        InputError: compression outside 0 to below 1, expansion negative, cooling not finite.

    Source: definitions of compression and expansion — basis: exact.
    Valid for: joints held at a stop; rubber still soft enough to spring back.
    """
    not_negative(compression=compression, gasket_expansion=gasket_expansion)
    finite(cooling=cooling)
    ordered(compression=compression, one=1.0)
    return 1 - (1 - compression) / (1 - gasket_expansion * cooling)


@formula(
    ("Groove fill when hot", "phi", "%"),
    "phi_0 (1 + beta_g Delta T + s) / (1 + 3 alpha_m Delta T)",
    {
        "fill": ("Groove fill when cold", "phi_0", "%"),
        "gasket_expansion": ("Volume expansion of the gasket", "beta_g", "1/K"),
        "metal_expansion": ("Expansion of the metal", "alpha_m", "µ/K"),
        "warming": ("Warming", "Delta T", "K"),
        "swelling": ("Swelling in oil, by volume", "s", "%"),
    },
    cite("first principles", "volumes of gasket and groove", "exact"),
    note="At 100 % the groove is full and the lid is lifted.",
)
def groove_fill_when_hot(
    fill: float,
    gasket_expansion: float,
    metal_expansion: float,
    warming: float,
    swelling: float,
) -> float:
    """How full a groove becomes when its gasket is hot and swollen with oil.

    phi = phi_0 (1 + beta_g Delta T + s)/(1 + 3 alpha_m Delta T)

    Args:
        fill: When cold and dry [1].
        gasket_expansion: Volume expansion of the gasket [1/K].
        metal_expansion: Linear expansion of the metal [1/K].
        warming: From assembly; negative if it has cooled [K].
        swelling: In oil, by volume [1].

    Returns:
        Fill [1].

    Raises:
        InputError: fill not above zero, an expansion or the swelling negative, warming not finite.

    Source: volumes of gasket and groove — basis: exact.
    Valid for: rubber, which keeps its volume; cork gives way.
    """
    positive(fill=fill)
    finite(warming=warming)
    not_negative(
        gasket_expansion=gasket_expansion,
        metal_expansion=metal_expansion,
        swelling=swelling,
    )
    grown = 1 + gasket_expansion * warming + swelling
    return fill * grown / (1 + 3 * metal_expansion * warming)


@formula(
    ("Apparent modulus of the ring", 'E_"c"', "MPa"),
    "4 / 3 E_0 (1 + (b / (2 h))^2)",
    {
        "rubber_modulus": ("Modulus of the rubber", "E_0", "MPa"),
        "width": ("Width of the ring", "b", "mm"),
        "thickness": ("Thickness of the ring", "h", "mm"),
    },
    cite("Gent", "long bonded strips in compression", "memory", "medium"),
    note="Shape factor b/(2 h); faces that do not slip.",
)
def apparent_modulus(rubber_modulus: float, width: float, thickness: float) -> float:
    """How stiff a flat rubber ring becomes because its faces cannot spread.

    E_c = 4/3 E_0 (1 + S²), S = b/(2 h)

    Args:
        rubber_modulus: Modulus of the rubber at small strain [Pa].
        width: Width of the ring [m].
        thickness: Thickness of the ring [m].

    Returns:
        Stress over strain when pressed a little [Pa].

    Raises:
        InputError: an argument not above zero.

    Source: Gent and Lindley (1959) — basis: memory, medium confidence.
    Valid for: rubber, small strain, faces that do not slip.
    """
    positive(rubber_modulus=rubber_modulus, width=width, thickness=thickness)
    return 4 / 3 * rubber_modulus * (1 + (width / (2 * thickness)) ** 2)


@formula(
    ("Least seating stress that stays tight", 'q_"min"', "MPa"),
    "m p + p_0 D^2 / (D_o^2 - D_i^2)",
    {
        "tightness": ("Seating stress over the pressure held", "m", "1"),
        "pressure": ("Gauge pressure of the oil", "p", "kPa"),
        "lifting_pressure": ("Pressure that lifts the lid", "p_0", "kPa"),
        "seal_diameter": ("Mean diameter of the seal", "D", "mm"),
        "outer_diameter": ("Outer diameter of the gasket", "D_o", "mm"),
        "inner_diameter": ("Inner diameter of the gasket", "D_i", "mm"),
    },
    cite("first principles", "gasket stress left under pressure, factor m by choice", "exact"),
)
def seating_stress_needed(
    tightness: float,
    pressure: float,
    lifting_pressure: float,
    seal_diameter: float,
    outer_diameter: float,
    inner_diameter: float,
) -> float:
    """Seating stress as assembled that leaves enough once the oil pressure lifts the lid.

    q = m p + p_0 D²/(D_o² - D_i²)

    Args:
        tightness: Stress left over the pressure held, at least 1 [1].
        pressure: Gauge pressure of the oil [Pa].
        lifting_pressure: That acts on the lid, the same unless a tie carries it [Pa].
        seal_diameter: Mean diameter of the seal [m].
        outer_diameter: Outer diameter of the gasket [m].
        inner_diameter: Inner diameter of the gasket [m].

    Returns:
        Stress [Pa].

    Raises:
        InputError: a value negative, diameters out of order, tightness below 1.

    Source: balance of the lid — basis: exact.
    Valid for: gaskets without a metal stop.
    """
    within(1.0, 1e3, tightness=tightness)
    not_negative(pressure=pressure, lifting_pressure=lifting_pressure)
    positive(inner_diameter=inner_diameter, seal_diameter=seal_diameter)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)
    lifted = lifting_pressure * seal_diameter**2 / (outer_diameter**2 - inner_diameter**2)
    return tightness * pressure + lifted
