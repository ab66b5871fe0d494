"""Trying drafts against the checks: margins, size, mass, cost of each."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from shedlight.checks.assessment import Assessment, assess
from shedlight.checks.catalogue import questions
from shedlight.checks.check import Check, Verdict
from shedlight.errors import InputError
from shedlight.given.bushing import Installation
from shedlight.sizing.draft import LEAST_BAY, Draft, complete, custom, hole_for
from shedlight.sizing.prices import cost
from shedlight.sizing.request import Request
from shedlight.workings import Workings

# Questions by the beginning of their ids that take longer than all others together: the surface
# in rain and fog, the odds that follow from it, and the heat. They are looked at once a draft is
# whole.
SLOW_SURFACE = (
    "surface.profile.l-d",
    "surface.flashover",
    "surface.leakage",
    "surface.rain-dry",
    "odds.",
)
SLOW_HEAT = (
    "conductor.current-density",
    "conductor.hot-spot",
    "conductor.short-time",
    "heat.",
    "oil.temperature",
    "terminal.contact",
    "terminal.rise",
    "terminal.bolts",
    "cover.heating",
    "cover.temperature",
    "body.thermal-shock",
    "gasket.temperature",
)
# Answered quickly for drafts taken as warm as the top oil; finally only with the heat.
WARM = ("body.", "cap.clamping", "gasket.", "oil.contraction", "oil.expansion", "oil.level")
# Decided apart from the shape: by the list of conductors, of palms, of gaskets, by the horns' gap.
APART = (
    "conductor.",
    "terminal.",
    "gasket.",
    "horns.",
    "cover.",
    "heat.",
    "oil.temp",
    "test.",
    "duty.",
    "cap.corona",
)
SOFT = ("custom.overhang", "horns.standoff", "oil.gap")
MOST = 1.5  # margins above this are equally comfortable


@dataclass(frozen=True)
class Tried:
    """One draft with what the checks said of it."""

    draft: Draft
    case: Installation
    assessment: Assessment

    @property
    def work(self) -> Workings:
        """What was computed."""
        return self.assessment.workings

    @cached_property
    def margins(self) -> Mapping[str, float]:
        """The margin of each check that has one."""
        return {c.id: c.margin for c in self.assessment.checks if c.margin is not None}

    @cached_property
    def soft(self) -> frozenset[str]:
        """The checks that can at most give a caution: practice, or figures weakly held."""
        weak = (c.id for c in self.assessment.checks if not all(s.may_fail for s in c.cited))
        return frozenset((*weak, *SOFT))

    @property
    def failed(self) -> tuple[Check, ...]:
        """The checks that fail."""
        return tuple(c for c in self.assessment.checks if c.verdict is Verdict.FAIL)


def quick_questions(*, with_heat: bool = False) -> frozenset[str]:
    """The questions answered while drafts are searched, and in many cases.

    Args:
        with_heat: Whether the questions about heat are among them.
    """
    slow = SLOW_SURFACE if with_heat else SLOW_SURFACE + SLOW_HEAT
    return frozenset(name for name in questions() if not name.startswith(slow))


def apart_from_heat() -> frozenset[str]:
    """The quick questions that no temperature enters: their answers are final."""
    return frozenset(name for name in quick_questions() if not name.startswith(WARM))


def tried(request: Request, draft: Draft, *, whole: bool = False, full: bool = False) -> Tried:
    """A draft, completed and assessed.

    Args:
        request: What is asked.
        draft: The free dimensions.
        whole: Whether all that follows is brought to whole millimetres.
        full: Whether the slow questions are answered too.

    Raises:
        InputError: the dimensions make no body.
    """
    case = complete(request, draft, whole=whole)
    only = None if full else quick_questions() | request.also
    return Tried(draft, case, assess(case, only=only, settled=full))


def margins_of(request: Request, draft: Draft, only: tuple[str, ...]) -> Mapping[str, float]:
    """Margins of some checks alone; an impossible shape gives minus one for each.

    Args:
        request: What is asked.
        draft: The free dimensions.
        only: Ids of the checks.
    """
    try:
        found = assess(complete(request, draft), only=only)
    except InputError:
        return dict.fromkeys(only, -1.0)
    return {c.id: MOST if c.margin is None else c.margin for c in found.checks}


def possible(request: Request, draft: Draft) -> Draft:
    """The nearest draft that can be drawn: through the hole, with sheds clear of each other."""
    hole = hole_for(request, draft)
    most = hole * (1 - 1e-4) - 1e-4
    if draft.body > most:
        radial = draft.body - draft.conductor
        share = max(0.05, (most - draft.conductor) / radial)
        draft = replace(draft, gap=draft.gap * share, wall=draft.wall * share)
    if not request.fixes("sheds.overhang"):
        for _ in range(40):
            if draft.bay >= LEAST_BAY or draft.overhang <= 0.004:
                break
            draft = replace(draft, overhang=0.95 * draft.overhang)
    elif draft.bay < LEAST_BAY and not request.fixes("porcelain.air_length"):
        missing = LEAST_BAY - draft.bay
        draft = replace(draft, air=draft.air + missing * max(1, draft.count - 1))
    return draft


def shape_margins(request: Request, draft: Draft, height: float) -> dict[str, float]:
    """How far a draft keeps clear of what cannot be drawn, and within the person's limits [1].

    Args:
        request: What is asked.
        draft: The free dimensions.
        height: Height above the cover [m].
    """
    wishes = request.wishes
    most = min(float(custom("overhang most")), custom("overhang share") * draft.body)
    found = {
        "shape.bay": (draft.bay - 2 * LEAST_BAY) / 0.02,
        "custom.overhang": most / draft.overhang - 1,
    }
    if not request.hole_is_free:
        found["host.fit"] = hole_for(request, draft) / draft.body - 1 - wishes.margin
    if wishes.largest_height is not None:
        found["wish.largest_height"] = wishes.largest_height / height - 1
    if wishes.largest_diameter is not None:
        found["wish.largest_diameter"] = (
            wishes.largest_diameter / (draft.body + 2 * draft.overhang) - 1
        )
    return found


def _mass(work: Workings) -> float:
    return math.fsum(part.mass for part in work.masses)


QUANTITIES: Mapping[str, tuple[str, str, Callable[[Workings], float]]] = {
    "shortest": (
        "Length overall",
        "mm",
        lambda work: work.section.heights.top - work.section.heights.bottom,
    ),
    "lightest": ("Mass", "kg", _mass),
    "least oil": ("Oil inside", "l", lambda work: work.measures.oil_volume),
}


def quantity_of(request: Request, tried_: Tried) -> float:
    """What the chosen objective makes small, in SI; the widest margin is counted negative.

    Args:
        request: What is asked.
        tried_: The draft.
    """
    objective = request.wishes.objective
    if objective == "widest margin":
        return -least_margin(request, tried_)
    if objective == "cheapest":
        return cost(request.prices, tried_.work)
    return QUANTITIES[objective][2](tried_.work)


def least_margin(request: Request, tried_: Tried) -> float:
    """The least margin among the checks that the shape decides."""
    shaped = (m for name, m in tried_.margins.items() if not name.startswith(APART))
    return min(shaped, default=MOST)
