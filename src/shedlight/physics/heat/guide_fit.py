"""Constants of the loading guide's hot-spot formula, fitted to temperatures of one bushing."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import positive

Array = NDArray[np.float64]


@dataclass(frozen=True)
class GuideConstants:
    """K1, K2 and n of T_h = T_a + K1 I^n + K2 · top-oil rise, and how well they fit."""

    current_rise: float  # K1 [K]
    oil_share: float  # K2 [1]
    exponent: float  # n [1]
    mean_miss: float  # root of the mean square of what is missed [K]
    worst_miss: float  # largest miss, either way [K]

    def rise(self, load: float, oil_rise: float) -> float:
        """Hot spot over the air at a load [1] and top-oil rise [K], [K]."""
        return float(self.current_rise * load**self.exponent + self.oil_share * oil_rise)


def fit_guide(
    loads: tuple[float, ...], oil_rises: tuple[float, ...], rises: tuple[float, ...]
) -> GuideConstants:
    """K1, K2 and n that come closest to known hot-spot rises of a bushing.

    Least squares of K1 I^n + K2 Delta T_o - rise; for each n linear in K1 and K2

    Args:
        loads: Current over rated current [1].
        oil_rises: Top-oil rise over the air at each [K].
        rises: Hot-spot rise over the air at each, measured or computed [K].

    Returns:
        The constants and their misfit.

    Raises:
        InputError: fewer than four points, tuples of different lengths, or points that cannot
            tell current from oil.

    Source: least squares; form of IEEE Std C57.19.100 — basis: exact.
    Valid for: the range of the points; not beyond it.
    """
    if not len(loads) == len(oil_rises) == len(rises) or len(loads) < 4:
        raise InputError(
            f"loads, oil_rises, rises: given {len(loads)}, {len(oil_rises)}, {len(rises)}; "
            "expected as many of each, at least four"
        )
    for one in loads:
        positive(loads=one)
    load, oil, wanted = np.array(loads), np.array(oil_rises), np.array(rises)

    def solved(exponent: float) -> tuple[Array, Array]:
        columns = np.column_stack([load**exponent, oil])
        constants, _, rank, _ = np.linalg.lstsq(columns, wanted, rcond=1e-9)
        if rank < 2:
            raise InputError(
                "loads, oil_rises: given points in which both rise together; expected points "
                "that vary current and oil on their own"
            )
        return constants, columns @ constants - wanted

    low, high = 0.5, 4.0
    while high - low > 1e-10:  # the misfit has one valley; each round narrows it tenfold
        tries = np.linspace(low, high, 21)
        best = int(np.argmin([np.sum(solved(float(one))[1] ** 2) for one in tries]))
        low, high = float(tries[max(best - 1, 0)]), float(tries[min(best + 1, 20)])
    exponent = (low + high) / 2
    constants, missed = solved(exponent)
    return GuideConstants(
        float(constants[0]),
        float(constants[1]),
        exponent,
        float(np.sqrt(np.mean(missed**2))),
        float(np.abs(missed).max()),
    )
