"""What a what-if holds: the field as it is and as it would be, and the numbers of both."""

import math
from dataclasses import dataclass
from enum import StrEnum

from shedlight.errors import RequestError
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import FieldError, Problem
from shedlight.physics.field.profiles import profile
from shedlight.physics.field.summary import CLEAR, distance_to_corners
from shedlight.trace import Number
from shedlight.workings import Workings
from shedlight.workings.discharge import Discharges
from shedlight.workings.field import fillings_of, problem_of
from shedlight.workings.field_numbers import Hangs, stress


class Supposition(StrEnum):
    """What is supposed."""

    NO_BUSHING = "no-bushing"
    NO_SHEDS = "no-sheds"
    OIL_DRAINED = "oil-drained"
    OFF_CENTRE = "off-centre"


@dataclass(frozen=True)
class Supposed:
    """What may be said about a supposition; left out, the usual is taken.

    Oil levels are heights over the top of the cover [m], of the tank's oil and of that inside the
    bushing; the offset is the conductor's, from the middle of its bore [m].
    """

    tank_level: float | None = None
    cavity_level: float | None = None
    offset: float | None = None


@dataclass(frozen=True)
class Compared:
    """One number as it is and as it would be; none where there is nothing to compare."""

    words: str
    before: Number | None
    after: Number | None

    @property
    def ratio(self) -> float | None:
        """The second over the first [1]."""
        if self.before is None or self.after is None or not self.before:
            return None
        return float(self.after) / float(self.before)


@dataclass(frozen=True, eq=False)
class WhatIf:
    """A field as it is and as it would be.

    Attributes:
        supposition: What is supposed.
        title: The same in words.
        stated: What was taken and what is left out.
        numbers: What changes, and what does not.
        lesson: What it teaches, in one sentence made from the numbers.
        before: The problem as it is; solve it for its picture.
        after: The problem as it would be; none where it is not axisymmetric.
    """

    supposition: Supposition
    title: str
    stated: tuple[str, ...]
    numbers: tuple[Compared, ...]
    lesson: str
    before: Problem
    after: Problem | None


def as_it_is(work: Workings) -> Problem:
    """The field of the bushing as described.

    Args:
        work: What was computed for an installation.
    """
    case = work.installation
    return problem_of(work.section, fillings_of(case), case.duty.frequency)


def discharges_in(work: Workings) -> Discharges:
    """What follows from the field of the bushing as described.

    Args:
        work: What was computed for an installation.

    Raises:
        RequestError: it has no field.
    """
    found = work.discharges
    if isinstance(found, str):
        raise RequestError(f"what-if: {found}")
    return found


def peak(
    work: Workings,
    solution: Solution,
    edge: str,
    region: str,
    words: str,
    *,
    above: float = -math.inf,
) -> Number:
    """Largest field on an edge, clear of corners without bound, in service.

    Args:
        work: What was computed for an installation.
        solution: A field, as it is or as it would be.
        edge: Name of the edge.
        region: What lies beside it.
        words: Where that is, for the reader.
        above: Height above which it is wanted [m].

    Raises:
        FieldError: every place lies at a corner.
    """
    seen = profile(solution, edge, region)
    clear = distance_to_corners(solution, seen.points) >= CLEAR
    clear &= seen.points[:, 1] > above
    if not clear.any():
        raise FieldError(edge, "every place lies at a corner where the field has no bound")
    largest = float(seen.strength[clear].max())
    hangs = Hangs(fillings_of(work.installation))
    return stress(largest, f"Largest field at {words}, rms", hangs, work.voltages.phase)
