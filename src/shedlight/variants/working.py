"""One task: some cases of a plan, each assessed and written down as one row."""

import gc
import math
from collections.abc import Iterator, Mapping
from typing import Any

from shedlight.checks.assessment import Assessment, assess
from shedlight.checks.catalogue import questions
from shedlight.checks.check import Verdict
from shedlight.errors import ShedlightError
from shedlight.given.changing import changed
from shedlight.sizing.bench import apart_from_heat
from shedlight.sizing.start import arcing_distance
from shedlight.variants.plan import Plan
from shedlight.workings import Workings

Row = dict[str, Any]
MARGIN = "margin "


def rows_of_chunk(plan: Plan, chunk: int) -> list[Row]:
    """The results of one task, a row for each case.

    Args:
        plan: The plan.
        chunk: Number of the task.
    """
    # Steps of a calculation hold no circles: looking for them costs a seventh of the time.
    gc.disable()
    try:
        return [row_of(plan, number) for number in plan.cases_of(chunk)]
    finally:
        gc.enable()
        gc.collect()


def row_of(plan: Plan, number: int) -> Row:
    """The result of one case; what goes wrong is written down, not raised.

    Args:
        plan: The plan.
        number: Number of the case.
    """
    places = plan.places(number)
    labels = {axis.name: axis.labels[place] for axis, place in zip(plan.axes, places, strict=True)}
    try:
        assessment = _assessed(plan, places)
    except ShedlightError as error:
        return {"case": number, **labels, "trouble": f"{error}".split("\n")[-1].strip()}
    except Exception as error:  # one odd case must not lose ten thousand others
        return {"case": number, **labels, "trouble": f"{type(error).__name__}: {error}"}
    return {"case": number, **labels, "trouble": "", **_found(assessment)}


def _assessed(plan: Plan, places: tuple[int, ...]) -> Assessment:
    edits: dict[str, Any] = {}
    for axis, place in zip(plan.axes, places, strict=True):
        edits |= axis.changes[place]
    case = changed(plan.case, **edits)
    with_field = plan.depth == "field"
    only = asked(plan)
    return assess(case, with_field=with_field, with_sections=plan.sections, only=only)


def asked(plan: Plan) -> frozenset[str]:
    """The questions that each case of a plan is asked.

    Args:
        plan: The plan.
    """
    return apart_from_heat() if plan.depth == "quick" else frozenset(questions())


def _found(assessment: Assessment) -> Row:
    """Verdicts, the tightest check, what the site needs and the bushing has, every margin."""
    counts = assessment.counts
    margins = {
        check.id: float(check.margin)
        for check in assessment.checks
        if check.margin is not None and math.isfinite(check.margin)
    }
    tightest = min(margins, key=lambda name: margins[name], default="")
    return {
        "verdict": str(assessment.verdict),
        "fails": counts[Verdict.FAIL],
        "cautions": counts[Verdict.CAUTION],
        "not_assessed": counts[Verdict.NOT_ASSESSED],
        "not_asked": len(questions()) - len(assessment.checks),
        "failing": "; ".join(c.id for c in assessment.checks if c.verdict is Verdict.FAIL),
        "tightest": tightest,
        "least_margin": margins.get(tightest, math.nan),
        **_lengths(assessment.workings),
        **{MARGIN + name: value for name, value in margins.items()},
    }


def _lengths(work: Workings) -> Mapping[str, float]:
    """The lengths that a summary shows [m, kg]."""
    return {
        "creepage_needed": float(work.surface.required),
        "creepage": float(work.surface.creepage),
        "arcing_needed": arcing_distance(work, 1.0),
        "arcing": float(work.air.arcing),
        "height": work.section.heights.top,
        "mass": math.fsum(part.mass for part in work.masses),
    }


def columns(rows: list[Row]) -> Iterator[str]:
    """Every column of some rows, in the order they first come."""
    yield from dict.fromkeys(name for row in rows for name in row)
