"""Rain on the bushing at any mounting angle, all round.

:mod:`shedlight.geometry.wetting` says how; ``shadow`` has the same in closed form for the upright
bushing's windward side.
"""

import math

import numpy as np

from shedlight.errors import InputError
from shedlight.geometry.curves import Curve
from shedlight.geometry.section import Section
from shedlight.geometry.wetting import (
    LYING,
    MERIDIANS,
    SAGITTA,
    STEP,
    RainDirection,
    Stretch,
    WetMap,
    mapped,
    wet_map_under,
)

UPRIGHT = 0.0


def rain_direction(angle: float, wind_side: float, mounting_angle: float) -> RainDirection:
    """Rain of a given slant on a body mounted at a given angle.

    Args:
        angle: Angle of the rain from the vertical [rad], 0 to pi/2.
        wind_side: Where the wind comes from, seen from above, counted from the side to which the
            body leans [rad].
        mounting_angle: Angle of the axis from upright [rad], 0 to pi/2.

    Raises:
        InputError: an angle outside its range.
    """
    for name, value in (("angle", angle), ("mounting_angle", mounting_angle)):
        if not UPRIGHT <= value <= LYING:
            raise InputError(f"{name}: given {value:g} rad; expected 0 (upright) to pi/2")
    towards = np.array(
        [
            math.sin(angle) * math.cos(wind_side),
            math.sin(angle) * math.sin(wind_side),
            math.cos(angle),
        ]
    )
    sine, cosine = math.sin(mounting_angle), math.cos(mounting_angle)
    low_side = float(towards @ np.array([cosine, 0.0, -sine]))
    along = float(towards @ np.array([sine, 0.0, cosine]))
    across = math.hypot(low_side, float(towards[1]))
    return RainDirection(math.atan2(across, along), math.atan2(float(towards[1]), low_side))


def wet_map(
    section: Section,
    creepage: Curve,
    direction: RainDirection,
    *,
    meridians: int = MERIDIANS,
    step: float = STEP,
    sagitta: float = SAGITTA,
) -> WetMap:
    """How squarely rain strikes every place of the creepage path, all round.

    Args:
        section: The section.
        creepage: The path, earthed end first.
        direction: The rain.
        meridians: How many meridians, evenly round.
        step: Longest place along the path [m].
        sagitta: Largest distance between chord and arc [m].

    Raises:
        InputError: fewer than two meridians.
    """
    return wet_map_under(
        section.curve("cap"), creepage, direction, meridians=meridians, step=step, sagitta=sagitta
    )


def wetted_meridian(
    section: Section,
    creepage: Curve,
    direction: RainDirection,
    around: float,
    *,
    step: float = STEP,
) -> tuple[Stretch, ...]:
    """Wet and dry stretches along one meridian.

    Args:
        section: The section.
        creepage: The path, earthed end first.
        direction: The rain.
        around: Angle of the meridian from the side the rain comes from [rad].
        step: Longest place along the path; the ends of a stretch are right within half of it [m].
    """
    turn = np.array([around])
    return mapped(section.curve("cap"), creepage, direction, turn, step, SAGITTA).stretches(0)
