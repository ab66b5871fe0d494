"""The loading guide's constants of one bushing: a dozen settled states, computed when asked."""

from dataclasses import replace

from shedlight.errors import CalculationError, InputError
from shedlight.physics.heat.guide_fit import GuideConstants, fit_guide
from shedlight.physics.heat.steady import SteadyCase, steady_state
from shedlight.physics.heat.stretches import OilBath
from shedlight.workings.heat.settled import CLOSE

LOADS, RISES = (0.6, 0.8, 1.0, 1.2), (35.0, 45.0, 55.0)


def guide_constants(case: SteadyCase) -> GuideConstants | str:
    """K1, K2 and n of a bushing without sun; or in words why there are none.

    Args:
        case: The bushing at rated current.
    """
    air = case.upper.outside.temperature
    points = [(load, rise) for load in LOADS for rise in RISES]
    try:
        hot = [_hot(case, load * case.current, air + rise) - air for load, rise in points]
        loads, rises = zip(*points, strict=True)
        return fit_guide(loads, rises, tuple(hot))
    except (InputError, CalculationError) as error:
        return str(error)


def _hot(case: SteadyCase, current: float, oil: float) -> float:
    """Hottest place, the oil around the lower end counted [K]."""
    bath = OilBath(oil)
    stretches = tuple(
        replace(stretch, outside=bath) if isinstance(stretch.outside, OilBath) else stretch
        for stretch in case.stretches
    )
    lower = replace(case.lower, outside=bath)
    moved = replace(case, current=current, stretches=stretches, lower=lower)
    return max(oil, steady_state(moved, CLOSE).hot_spot[1])
