"""What if there were no bushing: the conductor alone in its hole."""

from contextlib import suppress

from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import FieldError, Problem
from shedlight.trace import Number
from shedlight.workings import Workings
from shedlight.workings.bare_conductor import bare_conductor
from shedlight.workings.field import TOLERANCE, fillings_of, solved
from shedlight.workings.field_numbers import Hangs
from shedlight.workings.numbers import assumption, on_outline
from shedlight.workings.streamers import streamer
from shedlight.workings.what_ifs.record import (
    Compared,
    Supposed,
    Supposition,
    WhatIf,
    as_it_is,
    discharges_in,
    peak,
)

# Of the energy, finest first: the wide space round a bare conductor is meshed coarsely, and its
# picture shows it; a slim conductor in a huge hole may not get there.
WANTED = (1e-5, TOLERANCE, 1e-3)


def problem_without_bushing(work: Workings) -> Problem:
    """The same conductor through the same hole, air above and oil below.

    Args:
        work: What was computed for an installation.
    """
    case = work.installation
    return bare_conductor(work.section, fillings_of(case), case.duty.frequency)


def solved_without_bushing(work: Workings) -> Solution:
    """Its field, as fine as can be had: finer than usual for the picture's sake, at worst coarser.

    Args:
        work: What was computed for an installation.

    Raises:
        FieldError: not even the last of these can be had.
    """
    problem = problem_without_bushing(work)
    for tolerance in WANTED[:-1]:
        with suppress(FieldError):
            return solved(problem, tolerance)
    return solved(problem, WANTED[-1])


def no_bushing(work: Workings, supposed: Supposed) -> WhatIf:
    """The bare conductor beside the bushing.

    Args:
        work: What was computed for an installation, with its field.
        supposed: Nothing of it matters here.
    """
    found, hangs = discharges_in(work), Hangs(fillings_of(work.installation))
    solution = solved_without_bushing(work)
    density, metal = work.voltages.density, assumption("surface factor")
    bare = min(
        streamer(hangs, solution, edge, "air", density, metal).inception
        for edge in ("conductor in air", "cover in air")
    )
    now = min(found.cap.inception, found.clamps.inception)
    rim = peak(work, solution, "cover in air", "air", "the rim of the hole")
    clamps = peak(work, solved(as_it_is(work)), "clamps", "air", "the clamps")
    gap = work.section.radii.hole - work.section.radii.conductor
    way = on_outline(gap, "Shortest way through the air", "d", "mm", "conductor to rim of the hole")
    return WhatIf(
        Supposition.NO_BUSHING,
        "The same conductor through the same hole with no bushing",
        (
            "Air above and oil below, their surface half-way up the hole; its rim is rounded by "
            "1 mm so that the field there has a largest value.",
            "The conductor is taken straight through, without cap, terminal and shield.",
            f"Solved to {solution.bounds.gap:.1g} of the energy.",
        ),
        (
            Compared("Shortest way through air", work.air.arcing, way),
            Compared("Largest field in air at earthed metal", clamps, rim),
            Compared("Lowest streamer inception in air, rms", now, bare),
        ),
        _lesson(work, bare, now, gap),
        as_it_is(work),
        solution.problem,
    )


def _lesson(work: Workings, bare: Number, now: Number, gap: float) -> str:
    test = work.voltages.dry
    side = "below" if bare < test else "above"
    return (
        f"Bare, what starts in the hole at {bare / 1e3:.3g} kV has {1e3 * gap:.0f} mm of air to "
        f"cross and is a flashover, {side} the dry test of {test / 1e3:.3g} kV. With the bushing "
        f"it starts at {now / 1e3:.3g} kV but ends on porcelain, and the way round through air is "
        f"{1e3 * work.air.arcing:.0f} mm."
    )
