"""The transformer's top oil: how its rise follows the load."""

import math
from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.sources import Citation, cite
from shedlight.trace import formula


@dataclass(frozen=True)
class OilCooling:
    """Exponent and time constant of one kind of cooling."""

    cooling: str
    exponent: float  # [1]
    time_constant: float  # [s]
    citation: Citation


@tables.cached
def oil_coolings() -> tuple[OilCooling, ...]:
    """Every kind of cooling held."""
    return tuple(
        OilCooling(
            row["cooling"],
            float(row["exponent"]),
            float(row["time_constant_min"]) * 60,
            tables.citation(row),
        )
        for row in tables.read("heat/top_oil")
    )


def oil_cooling(cooling: str) -> OilCooling:
    """Exponent and time constant of a kind of cooling.

    Args:
        cooling: Such as ``ONAN``.

    Raises:
        InputError: no such kind is held.
    """
    for row in oil_coolings():
        if row.cooling == cooling:
            return row
    known = ", ".join(row.cooling for row in oil_coolings())
    raise InputError(f"cooling: given {cooling!r}; expected one of {known}")


@formula(
    ("Top-oil rise at the load", "Delta T_o", "K"),
    'Delta T_"or" ((1 + R K^2) / (1 + R))^x',
    {
        "rated_rise": ("Top-oil rise at rated load", 'Delta T_"or"', "K"),
        "load": ("Load over rated load", "K", "1"),
        "loss_ratio": ("Load loss over no-load loss", "R", "1"),
        "exponent": ("Oil exponent", "x", "1"),
    },
    cite("IEC 60076-7", "steady top-oil temperature rise"),
    ranges={"load": (0.0, 2.0), "exponent": (0.7, 1.0)},
)
def top_oil_rise(rated_rise: float, load: float, loss_ratio: float, exponent: float) -> float:
    """Rise of the top oil over the air that a load settles to.

    Delta T_o = Delta T_or ((1 + R K²)/(1 + R))^x

    Args:
        rated_rise: Top-oil rise at rated load [K].
        load: Load over the transformer's rated load [1].
        loss_ratio: Load loss at rated load over no-load loss [1].
        exponent: 0.8 natural oil flow, 1.0 pumped [1].

    Returns:
        Rise over the air [K].

    Raises:
        InputError: rise or load negative, another argument not above zero.

    Source: IEC 60076-7 — basis: memory, high confidence.
    Valid for: loads up to twice the rated one, one kind of cooling throughout.
    """
    not_negative(rated_rise=rated_rise, load=load)
    positive(loss_ratio=loss_ratio, exponent=exponent)
    return float(rated_rise * ((1 + loss_ratio * load**2) / (1 + loss_ratio)) ** exponent)


def oil_rises_of_day(
    durations: tuple[float, ...],
    loads: tuple[float, ...],
    rated_rise: float,
    loss_ratio: float,
    exponent: float,
    time_constant: float,
) -> tuple[float, ...]:
    """Mean top-oil rise in every spell of a day that repeats itself.

    In each spell Delta T(t) = U + (Delta T_0 - U) exp(-t/tau), U by :func:`top_oil_rise`

    Args:
        durations: Of the spells [s].
        loads: Load over the transformer's rated load in each [1].
        rated_rise: Top-oil rise at rated load [K].
        loss_ratio: Load loss at rated load over no-load loss [1].
        exponent: Oil exponent [1].
        time_constant: Of the top oil [s].

    Returns:
        Mean rise over the air in each spell [K].

    Raises:
        InputError: no spell, tuples of different lengths, or a value outside its domain.

    Source: IEC 60076-7, exponential response — basis: memory, high confidence.
    Valid for: one kind of cooling throughout.
    """
    if not durations or len(durations) != len(loads):
        raise InputError(
            f"durations, loads: given {len(durations)}, {len(loads)}; expected as many, at least 1"
        )
    positive(time_constant=time_constant)
    for duration in durations:
        positive(durations=duration)
    ends = [top_oil_rise(rated_rise, load, loss_ratio, exponent) for load in loads]
    falls = [math.exp(-duration / time_constant) for duration in durations]
    # One round is start -> product of falls · start + rest; the day begins where it ends.
    start, kept = 0.0, 1.0
    for end, fall in zip(ends, falls, strict=True):
        start, kept = end + (start - end) * fall, kept * fall
    start /= 1 - kept
    means = []
    for end, fall, duration in zip(ends, falls, durations, strict=True):
        means.append(end + (start - end) * (1 - fall) * time_constant / duration)
        start = end + (start - end) * fall
    return tuple(means)
