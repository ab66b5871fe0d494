"""Plausible installations at random, so that every pupil gets numbers of their own."""

import random
from collections.abc import Iterator

from shedlight.checks.assessment import Assessment, assess
from shedlight.errors import InputError
from shedlight.given.bushing import Installation
from shedlight.given.changing import changed

TRIES = 40
CURRENTS = (200, 250, 315, 400, 500, 630, 800, 1000, 1250)  # [A], R10 series (ISO 3, from memory)
ALTITUDES = (0, 200, 400, 800, 1200, 1500, 1800, 2200)  # [m]


def plausible(start: Installation, seed: int) -> Iterator[Assessment]:
    """Assessments of installations like a given one, without end.

    Duty, site and dimensions are varied round those of the start; what makes no bushing is left
    out.

    Args:
        start: What to vary.
        seed: The same seed gives the same installations.

    Raises:
        InputError: nothing like it makes a bushing.
    """
    dice = random.Random(seed)
    failed = 0
    while True:
        try:
            yield assess(_varied(start, dice))
            failed = 0
        except InputError as error:
            failed += 1
            if failed == TRIES:
                raise InputError(f"no bushing like {start.name!r} could be made: {error}") from None


def _varied(start: Installation, dice: random.Random) -> Installation:
    bushing, duty = start.bushing, start.duty

    def near(value: float, spread: float, step: float) -> float:
        return step * max(1, round(value * dice.uniform(1 - spread, 1 + spread) / step))

    paths: dict[str, object] = {
        "duty__rated_current": float(dice.choice(_near_currents(duty.rated_current))),
        "site__altitude": float(dice.choice(ALTITUDES)),
        "bushing__porcelain__air_length": near(bushing.porcelain.air_length, 0.2, 5e-3),
        "bushing__porcelain__wall": near(bushing.porcelain.wall, 0.1, 1e-3),
        "transformer__lowest_oil_level": near(start.transformer.lowest_oil_level, 0.15, 1e-2),
    }
    if bushing.sheds is not None:
        paths["bushing__sheds__overhang"] = near(bushing.sheds.overhang, 0.15, 1e-3)
    return changed(start, **paths)


def _near_currents(current: float) -> tuple[int, ...]:
    return tuple(c for c in CURRENTS if 0.6 * current <= c <= 1.3 * current) or (round(current),)
