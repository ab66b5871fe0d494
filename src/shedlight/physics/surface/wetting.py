"""How well a layer conducts that is only partly wet, or warm."""

import numpy as np
from numpy.typing import NDArray

from shedlight.physics.domain import not_negative, positive, within
from shedlight.physics.surface.solution import COEFFICIENTS, conductivity_of_salinity
from shedlight.sources import cite
from shedlight.trace import formula

Array = NDArray[np.float64]

_ZERO_CELSIUS = 273.15  # [K]
STANDARD_UP_TO = _ZERO_CELSIUS + 30  # [K]
SLOPE_WHEN_HOT = 0.028  # [1/K] of the conductivity at 20 °C
WATER = 1000.0  # [kg/m³]

_FULL = ("Layer conductivity, fully wet, at 20 °C", "kappa_20", "µS")


@formula(
    ("Conductivity over that at 20 °C", "f_theta", "1"),
    'cases(1 / (1 - b (theta - 20 "°C")) & quad theta <= 30 "°C",'
    ' f_(30) + 0.028 thin "K"^(-1) (theta - 30 "°C") & quad "above")',
    {"temperature": ("Temperature of the layer", "theta", "°C")},
    cite(
        "Kaye & Laby",
        "limiting conductivity of sodium chloride to 100 °C; below 30 °C IEC 60507",
        "memory",
        "medium",
    ),
    ranges={"temperature": (278.15, 373.15)},
)
def warm_layer_factor(temperature: float) -> float:
    """By how much a salt layer conducts better when warm.

    f = 1/(1 - b (theta - 20)) up to 30 °C, then + 0.028 per kelvin

    The coefficient b of the washing-water standard is fitted to 5–30 °C and runs wild above
    50 °C; layers that dry under current get hotter.

    Args:
        temperature: Temperature of the layer [K].

    Returns:
        Factor on the conductivity at 20 °C [1].

    Raises:
        InputError: temperature outside 0 to 110 °C.

    Source: IEC 60507 below 30 °C; above, limiting conductivity of NaCl (114 at 20 °C, 203 at
    50 °C, 362 S cm²/mol at 100 °C) — basis: memory, medium confidence.
    Valid for: 5 to 100 °C, no crystals yet.
    """
    within(_ZERO_CELSIUS, _ZERO_CELSIUS + 110, temperature=temperature)
    return float(warm_layer_factors(np.array([temperature]))[0])


def warm_layer_factors(temperatures: Array) -> Array:
    """The same for many places at once.

    Args:
        temperatures: Temperatures of the layer, 0 to 110 °C [K].

    Returns:
        Factors on the conductivity at 20 °C [1].

    Source: as :func:`warm_layer_factor` — basis: memory, medium confidence.
    """
    celsius = np.minimum(temperatures, STANDARD_UP_TO) - _ZERO_CELSIUS
    coefficient = np.polyval(COEFFICIENTS, celsius)
    hot = np.maximum(temperatures - STANDARD_UP_TO, 0.0)
    factors: Array = 1 / (1 - coefficient * (celsius - 20)) + SLOPE_WHEN_HOT * hot
    return factors


@formula(
    ("Layer conductivity in fog", "kappa", "µS"),
    "kappa_20 f_theta",
    {
        "fully_wet": _FULL,
        "warm_factor": ("Conductivity over that at 20 °C", "f_theta", "1"),
    },
    cite("first principles", "definition of the factor", "exact"),
)
def conductivity_in_fog(fully_wet: float, warm_factor: float) -> float:
    """Conductivity of a fully wet layer at its own temperature.

    kappa = kappa_20 f

    Args:
        fully_wet: Layer conductivity when fully wet, at 20 °C [S].
        warm_factor: From :func:`warm_layer_factor` [1].

    Returns:
        Layer conductivity [S].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact; as good as the factor.
    Valid for: layers that fog or drizzle has wetted through.
    """
    positive(fully_wet=fully_wet, warm_factor=warm_factor)
    return fully_wet * warm_factor


@formula(
    ("Layer conductivity", "kappa", "µS"),
    "kappa_20 f_theta min(1, w / w_1)",
    {
        "fully_wet": _FULL,
        "warm_factor": ("Conductivity over that at 20 °C", "f_theta", "1"),
        "water": ("Water in the layer", "w", "kg/m²"),
        "full_wetting": ("Water of a fully wet layer", "w_1", "kg/m²"),
    },
    cite("trade", "conductivity in proportion to the water until fully wet", "practice", "low"),
)
def wetted_conductivity(
    fully_wet: float, warm_factor: float, water: float, full_wetting: float
) -> float:
    """Conductivity of a layer that is still wetting, or drying.

    kappa = kappa_20 f min(1, w/w_1)

    Args:
        fully_wet: Layer conductivity when fully wet, at 20 °C [S].
        warm_factor: From :func:`warm_layer_factor` [1].
        water: Water in the layer [kg/m²].
        full_wetting: Water with which it conducts fully [kg/m²].

    Returns:
        Layer conductivity [S].

    Raises:
        InputError: water negative, another argument not above zero.

    Source: a simple stated model — basis: practice, low confidence.
    Valid for: fog; heavy rain washes salt away, which this leaves out.
    """
    positive(fully_wet=fully_wet, warm_factor=warm_factor, full_wetting=full_wetting)
    not_negative(water=water)
    return fully_wet * warm_factor * min(1.0, water / full_wetting)


@formula(
    ("Layer conductivity of a salt-fog film", "kappa", "µS"),
    "sigma_20 (S_a) t",
    {
        "salinity": ("Salinity", "S_a", "kg/m³"),
        "film": ("Thickness of the film", "t", "µm"),
    },
    cite("first principles", "a film of salt water; its conductivity as in IEC 60507", "exact"),
    ranges={"salinity": (2.5, 224.0)},
)
def fog_film_conductivity(salinity: float, film: float) -> float:
    """Layer conductivity that salt fog or spray makes on a clean surface.

    kappa = sigma_20(S_a) · t

    Args:
        salinity: Of the fog [kg/m³].
        film: Thickness of the film it keeps up [m].

    Returns:
        Layer conductivity at 20 °C [S].

    Raises:
        InputError: an argument not above zero.

    Source: definition, conductivity from IEC 60507 — basis: exact; film thickness is the
    user's (10 to 20 µm match the equivalence of IEC 815:1986, level I).
    Valid for: 2.5 to 224 kg/m³.
    """
    positive(salinity=salinity, film=film)
    return conductivity_of_salinity(salinity) * film


@formula(
    ("Salinity of the water in a layer", "S_a", "kg/m³"),
    'S_"DD" rho / w',
    {
        "deposit": ("Equivalent salt deposit", 'S_"DD"', "mg/cm²"),
        "water": ("Water in the layer", "w", "kg/m²"),
    },
    cite("first principles", "salt over water", "exact"),
    note="rho = 1000 kg/m³.",
)
def layer_salinity(deposit: float, water: float) -> float:
    """Salinity of the water that a layer has taken up.

    S_a = S_DD rho/w

    Args:
        deposit: Equivalent salt deposit density [kg/m²].
        water: Water in the layer [kg/m²].

    Returns:
        Salinity [kg/m³].

    Raises:
        InputError: deposit negative, water not above zero.

    Source: conservation of mass — basis: exact.
    Valid for: all salt dissolved.
    """
    not_negative(deposit=deposit)
    positive(water=water)
    return deposit * WATER / water


def uneven_layer(mean: float, cells: int, spread: float = 0.1, seed: int = 0) -> Array:
    """Layer conductivity as nature scatters it from place to place, the same for the same seed.

    A perfectly even layer dries over a whole neck at once; real layers dry in narrow bands,
    because the worst place heats most.

    Args:
        mean: Layer conductivity when fully wet, at 20 °C, geometric mean [S].
        cells: How many places.
        spread: Standard deviation of its logarithm [1].
        seed: Which of the possible layers.

    Returns:
        Conductivity of each place [S].

    Raises:
        InputError: mean or number of places not above zero, spread negative.

    Source: log-normal scatter, a stated assumption — basis: practice, low confidence.
    Valid for: spreads up to about 0.5.
    """
    positive(mean=mean, cells=cells)
    not_negative(spread=spread)
    scatter = np.random.default_rng(seed).standard_normal(cells)
    return np.asarray(mean * np.exp(spread * scatter), dtype=np.float64)
