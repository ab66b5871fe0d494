"""Tolerances and doubt: the odds that each check holds, and what dominates them.

Dimensions scatter within their tolerances, strengths and formulas by their usual spread. All are
drawn together on quasi-random points; every point is a bushing that is checked as a whole.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq
from scipy.stats import norm, qmc, rankdata

from shedlight import tables
from shedlight.checks.assessment import assess
from shedlight.errors import InputError
from shedlight.given.bushing import Installation
from shedlight.given.changing import changed
from shedlight.sizing.bench import quick_questions
from shedlight.sizing.moving import value_at
from shedlight.sources import Citation

Array = NDArray[np.float64]

DEVIATIONS_IN_TOLERANCE = 3.0  # a tolerance is taken as three standard deviations (practice)
REPLICAS = 4
LEAST_SHARE = 0.08
NO_SPREAD = 1e-6
LEAST_MARGIN = -0.999
SURE = 1e-6


@dataclass(frozen=True)
class Doubt:
    """One thing that is not exactly known: a dimension [SI], or a family of strengths [1]."""

    key: str
    name: str
    deviation: float
    citation: Citation
    is_dimension: bool


@dataclass(frozen=True)
class Odds:
    """How surely one check holds.

    Attributes:
        check: Its id.
        nominal: Its margin as described.
        holds: Share of the drawn bushings in which it holds.
        error: Standard error of that share, from independent scrambles.
        low: Margin that nineteen in twenty exceed.
        dominant: What its margin hangs on most: name and share of the squared rank correlation.
    """

    check: str
    nominal: float
    holds: float
    error: float
    low: float
    dominant: tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class Doubts:
    """The odds of every check, the least sure first."""

    odds: tuple[Odds, ...]
    all_hold: float
    drawn: int
    impossible: int
    considered: tuple[Doubt, ...]


def _dimensions(case: Installation) -> Iterator[Doubt]:
    for row in tables.read("sizing/tolerances"):
        value = value_at(case, row["path"])
        if value is None:
            continue
        tolerance = float(row["share"]) * value + 1e-3 * float(row["plus_mm"])
        deviation = tolerance / DEVIATIONS_IN_TOLERANCE
        yield Doubt(row["path"], row["name"], deviation, tables.citation(row), is_dimension=True)


def _families() -> Iterator[Doubt]:
    for row in tables.read("sizing/scatter"):
        citation = tables.citation(row)
        yield Doubt(row["family"], row["name"], float(row["deviation"]), citation, False)


def doubts_of(case: Installation, drawn: int = 128, seed: int = 1) -> Doubts:
    """The odds that each check holds.

    Dimensions are drawn; the scatter of strengths, which multiplies them, is then summed exactly
    over its normal distribution: P = mean of Phi(ln(1 + margin) / deviation).

    Args:
        case: The installation.
        drawn: How many bushings are drawn; rounded up to a power of two in each scramble.
        seed: Of the scrambles.

    Raises:
        InputError: the bushing as described makes no body.
    """
    lengths, families = tuple(_dimensions(case)), tuple(_families())
    nominal = _margins(case)
    points = _points(len(lengths), max(8, drawn // REPLICAS), seed)
    found = [_drawn_margins(case, lengths, point) for point in points]
    kept = np.array([margins is not None for margins in found])
    names = [name for name in nominal if all(m is None or name in m for m in found)]
    margins = np.array([[m[name] for name in names] for m in found if m is not None])
    strengths = np.log1p(np.maximum(margins.reshape(-1, len(names)), LEAST_MARGIN))
    replica = np.repeat(np.arange(REPLICAS), len(points) // REPLICAS)[kept]
    odds: list[Odds] = []
    sure: dict[str, Array] = {}
    for place, name in enumerate(names):
        family = family_of(name, families)
        spread = NO_SPREAD if family is None else max(NO_SPREAD, family.deviation)
        holds = norm.cdf(strengths[:, place] / spread)
        own = name if family is None else family.key
        sure[own] = np.minimum(sure[own], holds) if own in sure else holds
        shares = [float(np.mean(holds[replica == number])) for number in range(REPLICAS)]
        error = float(np.std(shares, ddof=1)) / math.sqrt(REPLICAS)
        low = _exceeded(strengths[:, place], spread)
        dominant = _dominant(strengths[:, place], points[kept], lengths, family)
        odds.append(Odds(name, nominal[name], float(np.mean(holds)), error, low, dominant))
    odds.sort(key=lambda item: (item.holds, item.low))
    together = np.prod(np.array(list(sure.values())), axis=0)
    impossible = int(np.sum(~kept))
    return Doubts(
        tuple(odds), float(np.mean(together)), len(points), impossible, (*lengths, *families)
    )


def _exceeded(strengths: Array, spread: float) -> float:
    """The margin that nineteen in twenty exceed."""
    around = 8 * spread

    def below(at: float) -> float:
        return float(np.mean(norm.cdf((at - strengths) / spread))) - 0.05

    low, high = float(np.min(strengths)) - around, float(np.max(strengths)) + around
    return math.expm1(brentq(below, low, high, xtol=1e-6))


def _margins(case: Installation) -> dict[str, float]:
    found = assess(case, only=quick_questions(with_heat=True))
    return {
        c.id: c.margin
        for c in found.checks
        if c.margin is not None and math.isfinite(c.margin) and c.margin > -1
    }


def _points(size: int, count: int, seed: int) -> Array:
    """Standard normal quasi-random points, in scrambles that are independent of each other."""
    power = math.ceil(math.log2(count))
    scrambles = [
        qmc.Sobol(size, scramble=True, seed=seed + number).random_base2(power)
        for number in range(REPLICAS)
    ]
    points: Array = norm.ppf(np.clip(np.concatenate(scrambles), SURE, 1 - SURE))
    return points


def _drawn_margins(
    case: Installation, lengths: tuple[Doubt, ...], point: Array
) -> dict[str, float] | None:
    """Every margin of one drawn bushing; None where it cannot be drawn."""
    edits: dict[str, Any] = {}
    for doubt, z in zip(lengths, point.tolist(), strict=True):
        here = value_at(case, doubt.key)
        assert here is not None
        edits[doubt.key.replace(".", "__")] = here + z * doubt.deviation
    try:
        return _margins(changed(case, **_following(case, edits)))
    except InputError:
        return None


def _following(case: Installation, edits: dict[str, Any]) -> dict[str, Any]:
    """A cap that sits flush grows with its porcelain."""
    bore, wall = edits["bushing__porcelain__bore"], edits["bushing__porcelain__wall"]
    grown = bore + 2 * wall - case.bushing.porcelain.body_diameter
    end = case.bushing.oil_end
    return {
        **edits,
        "bushing__cap__diameter": case.bushing.cap.diameter + grown,
        "bushing__oil_end__end_diameter": end.end_diameter + grown,
        "bushing__oil_end__shield_diameter": end.shield_diameter + grown,
    }


def family_of(check: str, families: tuple[Doubt, ...]) -> Doubt | None:
    """The family whose scatter a check shares: the longest that names it.

    Args:
        check: Id of the check.
        families: All families.
    """
    named = [family for family in families if check.startswith(family.key)]
    return max(named, key=lambda family: len(family.key), default=None)


def _regressed(strengths: Array, points: Array) -> Array:
    """Squared coefficients of the ranks on the ranks, all dimensions taken together."""
    columns = [_standardised(rankdata(points[:, n])) for n in range(points.shape[1])]
    found, *_ = np.linalg.lstsq(
        np.stack(columns, axis=1), _standardised(rankdata(strengths)), rcond=None
    )
    squared: Array = np.asarray(found**2, dtype=np.float64)
    return squared


def _standardised(values: Array) -> Array:
    centred: Array = (values - np.mean(values)) / (np.std(values) or 1.0)
    return centred


def _dominant(
    strengths: Array, points: Array, lengths: tuple[Doubt, ...], family: Doubt | None
) -> tuple[tuple[str, float], ...]:
    """Shares of the variance, the largest first.

    The family's share is exact, as it is drawn apart from the rest; that of the dimensions is
    divided by squared coefficients of a rank regression, a measure of first order.
    """
    variance = float(np.var(strengths))
    spread = 0.0 if family is None else family.deviation**2
    if variance + spread < SURE**2:
        return ()
    squared: Array = np.zeros(points.shape[1], dtype=np.float64)
    if variance > SURE**2:
        squared = _regressed(strengths, points)
    squared /= float(np.sum(squared)) or 1.0
    shares = [
        (doubt.name, float(part) * variance / (variance + spread))
        for doubt, part in zip(lengths, squared, strict=True)
    ]
    if family is not None:
        shares.append((family.name, spread / (variance + spread)))
    shares.sort(key=lambda item: -item[1])
    return tuple(item for item in shares if item[1] >= LEAST_SHARE)[:3]
