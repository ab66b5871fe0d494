"""How dirty the surface is: by class or as measured, upper against lower side, over a season.

Two kinds of pollution are kept apart. Dust with salt in it lies on the surface (a deposit, per
area) and conducts once fog wets it; spray and salt fog bring their own salt water (a salinity).
A salt quay is of the second kind: its deposit alone says too little.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.surface.severity import pollution_class, severity_bands
from shedlight.physics.surface.solution import salinity_at, salinity_from_conductivity
from shedlight.sources import Citation, cite
from shedlight.trace import formula
from shedlight.units import si

Array = NDArray[np.float64]

FORMULA_UP_TO = 0.4  # [S/m]
TABLE_FROM = 0.43  # [S/m]

_TOP = ("Deposit on the upper side", 'S_"T"', "mg/cm²")
_BOTTOM = ("Deposit on the lower side", 'S_"B"', "mg/cm²")
_DEPOSIT = ("Equivalent salt deposit", 'S_"DD"', "mg/cm²")


@dataclass(frozen=True)
class ClassSeverity:
    """What a site class stands for, as a band; the middle is the geometric mean."""

    kind: str  # "deposit" or "salinity"
    lowest: float  # [kg/m²] or [kg/m³]
    middle: float
    highest: float
    citation: Citation


@dataclass(frozen=True)
class Equivalence:
    """Severities of three artificial tests that count as equal."""

    level: str
    salinity: tuple[float, float]  # salt fog [kg/m³]
    deposit: tuple[float, float]  # solid layer [kg/m²]
    layer: tuple[float, float | None]  # layer conductivity of the solid layer [S]
    citation: Citation


@dataclass(frozen=True)
class WashingValue:
    """One constant of the season model."""

    name: str
    value: float  # SI
    what: str
    citation: Citation


@dataclass(frozen=True)
class Season:
    """Deposit day by day, at the end of each day, on surfaces rain strikes and on those it spares.

    Attributes:
        exposed: Where rain strikes [kg/m²].
        sheltered: Where it does not [kg/m²].
    """

    exposed: Array
    sheltered: Array

    @property
    def top_to_bottom(self) -> float:
        """Ratio of the two at the season's end [1]."""
        return float(self.exposed[-1] / self.sheltered[-1])


def severity_of_class(letter: str, kind: str) -> ClassSeverity:
    """The deposit or salinity that a class stands for.

    The open ends are closed by half the lightest and twice the heaviest bound.

    Args:
        letter: "a" (very light) to "e" (very heavy).
        kind: "deposit" or "salinity".

    Raises:
        InputError: no such class or kind.
    """
    place = "abcde".index(pollution_class(letter).letter)
    bands = severity_bands(kind)
    if not bands:
        raise InputError(f"kind: given {kind!r}; expected deposit or salinity")
    bounds = [band.lowest for band in bands]
    low = bounds[place] or bounds[1] / 2
    high = bounds[place + 1] if place + 1 < len(bounds) else 2 * bounds[place]
    return ClassSeverity(kind, low, float(np.sqrt(low * high)), high, bands[place].citation)


@tables.cached
def equivalences() -> tuple[Equivalence, ...]:
    """The equivalence of the artificial tests, lightest level first, read once."""
    return tuple(
        Equivalence(
            row["level"],
            (float(row["salinity_from"]), float(row["salinity_to"])),
            (
                si(float(row["deposit_from_mg_cm2"]), "mg/cm²"),
                si(float(row["deposit_to_mg_cm2"]), "mg/cm²"),
            ),
            (
                si(float(row["layer_from_us"]), "µS"),
                si(float(row["layer_to_us"]), "µS") if row["layer_to_us"] else None,
            ),
            tables.citation(row),
        )
        for row in tables.read("surface/equivalences")
    )


@tables.cached
def washing_values() -> tuple[WashingValue, ...]:
    """The constants of the season model, read once."""
    return tuple(
        WashingValue(
            row["name"], si(float(row["value"]), row["unit"]), row["what"], tables.citation(row)
        )
        for row in tables.read("surface/washing")
    )


def washing_value(name: str) -> WashingValue:
    """One constant of the season model.

    Args:
        name: As the table writes it.

    Raises:
        InputError: no such constant.
    """
    for row in washing_values():
        if row.name == name:
            return row
    known = ", ".join(row.name for row in washing_values())
    raise InputError(f"name: given {name!r}; expected one of {known}")


@formula(
    ("Salinity", "S_a", "kg/m³"),
    'cases((5.7 sigma_20)^1.03 & quad sigma_20 <= 0.4 "S/m", S_"a,table" & quad "above")',
    {"conductivity_at_20": ("Conductivity at 20 °C", "sigma_20", "S/m")},
    cite("IEC 60507", "salinity of the washing water, and table of the salt-fog test"),
    ranges={"conductivity_at_20": (0.004, 20.0)},
)
def salinity_of_water(conductivity_at_20: float) -> float:
    """Salt in water of any strength: the formula for weak water, the salt-fog table for strong.

    Between 0.4 and 0.43 S/m, where neither is at home, a straight line joins the two.

    Args:
        conductivity_at_20: Conductivity at 20 °C [S/m].

    Returns:
        Salinity [kg/m³].

    Raises:
        InputError: conductivity not above zero.

    Source: IEC 60507, IEC TS 60815-1:2008 — basis: memory, high confidence.
    Valid for: 0.004 to 20 S/m.
    """
    positive(conductivity_at_20=conductivity_at_20)
    if conductivity_at_20 <= FORMULA_UP_TO:
        return salinity_from_conductivity(conductivity_at_20)
    if conductivity_at_20 >= TABLE_FROM:
        return salinity_at(conductivity_at_20)
    share = (conductivity_at_20 - FORMULA_UP_TO) / (TABLE_FROM - FORMULA_UP_TO)
    weak, strong = salinity_from_conductivity(FORMULA_UP_TO), salinity_at(TABLE_FROM)
    return weak + share * (strong - weak)


@formula(
    _DEPOSIT,
    '(S_"T" A_"T" + S_"B" A_"B") / (A_"T" + A_"B")',
    {
        "top": _TOP,
        "bottom": _BOTTOM,
        "top_area": ("Area of the upper sides", 'A_"T"', "cm²"),
        "bottom_area": ("Area of the lower sides", 'A_"B"', "cm²"),
    },
    cite("IEC 60815-1", "annex on measuring deposits, both sides washed apart", "exact"),
)
def mean_deposit(top: float, bottom: float, top_area: float, bottom_area: float) -> float:
    """Deposit of the whole surface from upper and lower sides washed apart.

    S = (S_T A_T + S_B A_B)/(A_T + A_B)

    Args:
        top: Deposit on the upper sides [kg/m²].
        bottom: Deposit on the lower sides [kg/m²].
        top_area: Area of the upper sides [m²].
        bottom_area: Area of the lower sides [m²].

    Returns:
        Mean deposit by area [kg/m²].

    Raises:
        InputError: a deposit negative, an area not above zero.

    Source: conservation of mass — basis: exact.
    Valid for: always.
    """
    not_negative(top=top, bottom=bottom)
    positive(top_area=top_area, bottom_area=bottom_area)
    return (top * top_area + bottom * bottom_area) / (top_area + bottom_area)


@formula(
    ("Flashover voltage over that with even deposit", 'k_"TB"', "1"),
    '1 - N ln(S_"T" / S_"B")',
    {"top": _TOP, "bottom": _BOTTOM, "slope": ("Slope", "N", "1")},
    cite("CIGRE 158", "uneven deposit on upper and lower sides", "memory", "medium"),
    ranges={"slope": (0.05, 0.15)},
    note="At the same mean deposit. Fog wets both sides; in rain the upper side is clean anyway.",
)
def uneven_factor(top: float, bottom: float, slope: float) -> float:
    """By how much an insulator dirtier below than above is stronger than one evenly dirty.

    k = 1 - N ln(S_T/S_B)

    Args:
        top: Deposit on the upper sides [kg/m²].
        bottom: Deposit on the lower sides [kg/m²].
        slope: N, 0.05 to 0.15 [1].

    Returns:
        Factor on the flashover voltage at the same mean deposit [1].

    Raises:
        InputError: an argument not above zero.

    Source: laboratory work gathered in CIGRE TB 158 and later — basis: memory, medium
    confidence.
    Valid for: ratios from 1/15 to 1.
    """
    positive(top=top, bottom=bottom, slope=slope)
    return float(1 - slope * np.log(top / bottom))


@formula(
    _DEPOSIT,
    "S_oo - (S_oo - S_0) upright(e)^(-a t slash S_oo)",
    {
        "before": ("Deposit before", "S_0", "mg/cm²"),
        "rate": ("Catch of a clean surface per day", "a", "mg/cm²"),
        "days": ("Dry days", "t", "1"),
        "saturated": ("Deposit at which wind takes as much as it brings", "S_oo", "mg/cm²"),
    },
    cite("CIGRE 158", "natural build-up, exponential approach to a limit", "practice", "low"),
)
def accumulated_deposit(before: float, rate: float, days: float, saturated: float) -> float:
    """Deposit after some dry days: quick on a clean surface, slower near its limit.

    S = S_∞ - (S_∞ - S_0) exp(-a t/S_∞)

    Args:
        before: Deposit before [kg/m²].
        rate: What a clean surface catches per day [kg/m²].
        days: Number of dry days [1].
        saturated: Deposit at which wind takes away as much as it brings [kg/m²].

    Returns:
        Deposit [kg/m²].

    Raises:
        InputError: rate or limit not above zero, another argument negative.

    Source: a simple stated model of natural build-up — basis: practice, low confidence.
    Valid for: steady weather without storms.
    """
    not_negative(before=before, days=days)
    positive(rate=rate, saturated=saturated)
    return float(saturated - (saturated - before) * np.exp(-rate * days / saturated))


@formula(
    _DEPOSIT,
    "S_0 upright(e)^(-e h slash h_w)",
    {
        "before": ("Deposit before", "S_0", "mg/cm²"),
        "rain": ("Depth of rain", "h", "mm"),
        "exposure": ("Share of the rain's washing that arrives", "e", "1"),
        "washing_rain": ("Rain that leaves 1/e", "h_w", "mm"),
    },
    cite(
        "ISH 247", "what is left falls exponentially with the time of rain", "published", "medium"
    ),
    note="The depth that leaves 1/e is a working value.",
)
def washed_deposit(before: float, rain: float, exposure: float, washing_rain: float) -> float:
    """Soluble deposit left after rain.

    S = S_0 exp(-e h/h_w)

    Args:
        before: Deposit before [kg/m²].
        rain: Depth of rain on level ground [m].
        exposure: How much of the washing arrives: about the wetting factor over its value on
            level ground; a small share where rain does not strike [1].
        washing_rain: Depth that leaves 1/e where it strikes squarely [m].

    Returns:
        Deposit left [kg/m²].

    Raises:
        InputError: washing rain not above zero, another argument negative.

    Source: the exponential after tests told in the summary of ISH (2015) no. 247 — basis:
    published, medium confidence; its depth is practice.
    Valid for: soluble deposits on glazed porcelain; greases and cement stay.
    """
    not_negative(before=before, rain=rain, exposure=exposure)
    positive(washing_rain=washing_rain)
    return float(before * np.exp(-exposure * rain / washing_rain))


def season(daily_rate: float, saturated: float, daily_rain: Array, exposure: float = 1.0) -> Season:
    """Deposit over a season of daily rain, where rain strikes and where it does not.

    Each day first gathers dirt, then is washed by its rain; sheltered surfaces get only the share
    of washing that the table gives to splash.

    Args:
        daily_rate: What a clean surface catches per day [kg/m²].
        saturated: Deposit at which build-up ends [kg/m²].
        daily_rain: Depth of rain of each day [m].
        exposure: How much of the washing the exposed surface gets [1].

    Returns:
        Both deposits day by day, from a clean start.

    Raises:
        InputError: rate or limit not above zero, a rain or exposure negative, no day.

    Source: :func:`accumulated_deposit`, :func:`washed_deposit` — basis: practice, low confidence.
    Valid for: comparing sheltered with exposed stretches; not for levels without measurement.
    """
    if not len(daily_rain):
        raise InputError("daily_rain: given no day; expected at least one")
    depth = washing_value("washing rain").value
    splash = washing_value("wash of the wet underside").value
    days = np.zeros((2, len(daily_rain)))
    now = [0.0, 0.0]
    for day, rain in enumerate(daily_rain.tolist()):
        for side, share in enumerate((exposure, splash)):
            gathered = accumulated_deposit(now[side], daily_rate, 1.0, saturated)
            now[side] = washed_deposit(gathered, rain, share, depth)
        days[:, day] = now
    return Season(days[0], days[1])
