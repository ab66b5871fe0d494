"""The closed form: each demand turned round into the dimension that would just meet it."""

import math
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

from scipy.optimize import brentq

from shedlight.errors import InputError
from shedlight.physics.air.gaps import (
    rod_gap_mean,
    rod_gap_mean_rms,
    ten_percent,
    wet_power_frequency,
)
from shedlight.physics.air.tables import deviation, wet_gradient
from shedlight.sizing.bench import margins_of, possible, tried
from shedlight.sizing.draft import TOP_SLOPE, Draft, Form, complete, custom, taking_fixed
from shedlight.sizing.request import Request
from shedlight.workings import Workings

SHORTEST, LONGEST = 0.02, 3.0
TO_SPARE = 1e-4  # so that what is measured is not short by the last digit [m]
CREEP_PER_OVERHANG = 1.85  # what a rounded shed adds to the creepage, in overhangs (own geometry)


def closed_form(request: Request, form: Form) -> Draft:
    """A first draft from the demands alone, not yet proved.

    Args:
        request: What is asked.
        form: Kind of sheds.
    """
    nominal = taking_fixed(request, _nominal(request, form))
    work = Workings(complete(request, possible(request, nominal)))
    more = 1 + request.wishes.margin
    arcing = arcing_distance(work, more)
    oil = _oil_length(request, work, more)
    draft = replace(nominal, air=max(0.1, 0.92 * arcing), oil=oil)
    draft = _with_sheds(request, draft, more)
    return _long_enough(request, possible(request, taking_fixed(request, draft)), more)


def _long_enough(request: Request, draft: Draft, more: float) -> Draft:
    """The same, its air end longer by what the drawn outline is short of the creepage."""
    here = draft
    for _ in range(0 if request.fixes("porcelain.air_length") else 8):
        try:
            measures = Workings(complete(request, here)).measures
        except InputError:
            return draft
        short = _creepage_needed(request, here, more) - measures.creepage_length
        if short <= 0 or here.air + short > LONGEST * 0.9:
            break
        here = replace(here, air=here.air + short + TO_SPARE)
    return here


def _nominal(request: Request, form: Form) -> Draft:
    """A small bushing of the usual proportions, to read demands from."""
    return Draft(form, 4, 0.012, 0.007, 0.012, 0.25, 0.03, 0.12)


def arcing_distance(work: Workings, more: float) -> float:
    """The arcing distance that just holds lightning, dry test and rain [m].

    Args:
        work: Any workings of the same duty and site.
        more: What the demands are multiplied by [1].
    """
    volts = work.voltages
    required = (volts.required_lightning, volts.required_dry, volts.required_wet)
    spread = tuple(float(deviation(f).deviation) for f in ("lightning", "power-frequency"))
    gradient = float(wet_gradient("low").gradient)
    return _just_holding(tuple(more * float(demand) for demand in required), spread, gradient)


@lru_cache(maxsize=256)
def _just_holding(demands: tuple[float, ...], spread: tuple[float, ...], wet: float) -> float:
    """The same for three demands [V]: many cases of one duty ask the same."""
    strengths: list[Callable[[float], float]] = [
        lambda d: ten_percent(rod_gap_mean(d), spread[0]),
        lambda d: ten_percent(rod_gap_mean_rms(d), spread[1]),
        lambda d: wet_power_frequency(d, wet),
    ]
    return max(_inverted(*pair) for pair in zip(strengths, demands, strict=True))


def _inverted(strength: Callable[[float], float], demand: float) -> float:
    if strength(LONGEST) <= demand:
        return LONGEST
    if strength(SHORTEST) >= demand:
        return SHORTEST
    return float(brentq(lambda d: strength(d) - demand, SHORTEST, LONGEST, xtol=1e-4))


def _oil_length(request: Request, work: Workings, more: float) -> float:
    """Porcelain below the seat: the creep limit turned round, and the cover."""
    creepage = work.voltages.dry * more / min(work.oil.creep_limits)
    heights = work.section.heights
    return max(0.05, creepage - heights.cover_underside + heights.seat)


def _with_sheds(request: Request, draft: Draft, more: float) -> Draft:
    """Number and overhang for the creepage that the site asks for at this body."""
    for _ in range(40):
        needed = _creepage_needed(request, draft, more)
        overhang = min(0.065, max(0.03, 0.14 * needed**0.5 * 0.35))
        mean = overhang - (custom("step") / 2 if draft.form == "alternating" else 0.0)
        count = _count_that_fits(draft, overhang)
        if draft.air + count * CREEP_PER_OVERHANG * mean >= needed or draft.air >= LONGEST * 0.9:
            break
        draft = replace(draft, air=draft.air * 1.06)
    return replace(draft, overhang=overhang, count=count)


def _creepage_needed(request: Request, draft: Draft, more: float) -> float:
    try:
        surface = Workings(complete(request, possible(request, draft))).surface
    except InputError:
        return 0.3
    return more * max(
        float(surface.required), _in_fault(request, draft, float(surface.required_in_fault))
    )


def _in_fault(request: Request, draft: Draft, required: float) -> float:
    """The demand during an earth fault, where one may stand long enough to count."""
    margin = margins_of(request, draft, ("surface.creepage.earth-fault",))
    return required if margin["surface.creepage.earth-fault"] < 1.5 else 0.0


def _count_that_fits(draft: Draft, overhang: float) -> int:
    """Sheds at a customary pitch: the overhang and the clearance between sheds."""
    pitch = overhang + 0.008 if draft.form == "plain" else 0.74 * overhang
    pitch = max(pitch, 0.038)
    ends = custom("first tip") + custom("last tip") + overhang * math.tan(TOP_SLOPE)
    return max(1, 1 + int((draft.air - ends) / pitch))


def proved(request: Request, draft: Draft) -> dict[str, float]:
    """Every margin of a draft as the checks see it."""
    return dict(tried(request, draft).margins)
