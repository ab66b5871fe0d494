"""What if oil were lost: drained to a level in the tank, and to one inside the bushing."""

from shedlight.errors import RequestError
from shedlight.physics.field.domain import Problem, Side
from shedlight.physics.field.proof import proof_of
from shedlight.trace import Label, Number
from shedlight.workings import Workings
from shedlight.workings.field import fillings_of, solved
from shedlight.workings.field_numbers import SOLVED, Hangs, at_one_volt, derived
from shedlight.workings.numbers import assumption
from shedlight.workings.oil_levels import clear_level, extent_of, lowered
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

IN_CAVITY, IN_TANK = "cavity gas", "tank gas"
SUNK = 0.2  # of the oil end's length: how far below the cover a drained tank is taken to stand


def oil_drained(work: Workings, supposed: Supposed) -> WhatIf:
    """The bushing with oil drained to levels beside the bushing as it is.

    Args:
        work: What was computed for an installation, with its field.
        supposed: Levels, where others than the usual are wanted.
    """
    levels = drained_levels(work, supposed)
    after = problem_drained(work, levels)
    stem = _stem_in_gas(after)
    glow = None if stem is None else _glow(work, after, stem)
    return WhatIf(
        Supposition.OIL_DRAINED,
        "Oil drained to a level",
        (
            f"The tank's oil stands {1e3 * levels[0]:+.0f} mm from the top of the cover, the oil "
            f"inside the bushing {1e3 * levels[1]:+.0f} mm; above both is gas like air.",
            _hole_words(work, levels[0]),
        ),
        _numbers(work, after, stem, glow),
        _lesson(work, glow),
        as_it_is(work),
        after,
    )


def drained_levels(work: Workings, supposed: Supposed) -> tuple[float, float]:
    """Levels of the tank's oil and of that inside the bushing [m], clear of corners.

    Left out, the tank stands a fifth of the oil end's length below the cover, and the bushing is
    drained to the same level, as both communicate.

    Args:
        work: What was computed for an installation.
        supposed: Levels, where others are wanted.

    Raises:
        RequestError: a level below the lower terminal, where the section knows no oil.
    """
    heights, shape = work.section.heights, as_it_is(work).shape
    under = heights.cover_underside
    usual = under - SUNK * (under - heights.oil_end)
    tank = usual if supposed.tank_level is None else supposed.tank_level
    cavity = tank if supposed.cavity_level is None else supposed.cavity_level
    if tank < heights.bottom:
        raise RequestError(
            f"tank level: given {1e3 * tank:.0f} mm over the top of the cover; expected "
            f"{1e3 * heights.bottom:.0f} mm, the lower terminal's end, or more"
        )
    return clear_level(shape, "tank oil", tank), clear_level(shape, "oil", cavity)


def problem_drained(work: Workings, levels: tuple[float, float]) -> Problem:
    """The bushing with the tank's oil and its own drained to levels; gas above.

    Args:
        work: What was computed for an installation.
        levels: Of the tank's oil and of that inside the bushing [m].
    """
    before = as_it_is(work)
    shape, media = before.shape, dict(before.media)
    for region, level, gas in zip(("tank oil", "oil"), levels, (IN_TANK, IN_CAVITY), strict=True):
        low, high = extent_of(shape, region)
        if level >= high:
            continue
        if level <= low:
            media[region] = media["air"]
            continue
        shape = lowered(shape, region, level, gas)
        media[gas] = media["air"]
    if levels[0] < work.section.heights.cover_underside:
        media["clearance"] = media["air"]
    return Problem(shape, media, before.potentials, (), before.frequency)


def _numbers(
    work: Workings, after: Problem, stem: Side | None, glow: Number | None
) -> tuple[Compared, ...]:
    solution = solved(after)
    held = at_one_volt(
        proof_of(solution).capacitance,
        "Capacitance of the bushing, drained",
        "C",
        "pF",
        Hangs(fillings_of(work.installation)),
    )
    before, with_gas = None, None
    if stem is not None:
        with_gas = peak(work, solution, stem.name, _gas_beside(stem), "the conductor in gas")
        plain, words = solved(as_it_is(work)), "the same stretch in oil"
        before = peak(work, plain, "stem", "oil", words, above=stem.curve.start.z)
    return (
        Compared("Largest field at the conductor inside the bushing", before, with_gas),
        Compared("Voltage at which the space round it discharges, rms", _oil_space(work), glow),
        Compared("Capacitance", discharges_in(work).field.capacitance, held),
    )


def _glow(work: Workings, after: Problem, stem: Side) -> Number:
    """Streamer inception in the gas round the conductor."""
    hangs, metal = Hangs(fillings_of(work.installation)), assumption("surface factor")
    solution, density = solved(after), work.voltages.density
    return streamer(hangs, solution, stem.name, _gas_beside(stem), density, metal).inception


def _stem_in_gas(problem: Problem) -> Side | None:
    """The stretch of the conductor inside the bushing that stands in gas; none if none does."""
    gas = problem.media["air"]
    for side in problem.shape.sides:
        if side.name.startswith("stem") and problem.media[_gas_beside(side)] == gas:
            return side
    return None


def _gas_beside(stem: Side) -> str:
    """The one region beside a conductor's edge."""
    return stem.left or stem.right or ""


def _oil_space(work: Workings) -> Number:
    """Voltage at which the oil space would stand on its design curve."""
    mean, test = discharges_in(work).oil_mean, work.voltages.dry
    label = Label("Voltage at which the oil space stands on its curve, rms", "U_d", "kV")
    value = float(test * work.oil.space_strength / mean)
    return derived(value, label, "U E_d / E", SOLVED, "", (test, work.oil.space_strength, mean))


def _hole_words(work: Workings, level: float) -> str:
    if level < work.section.heights.cover_underside:
        return "The gap in the hole stands above the tank's oil and is filled with gas."
    return "The gap in the hole is filled as described."


def _lesson(work: Workings, glow: Number | None) -> str:
    if glow is None:
        return "At these levels the conductor inside the bushing still stands in oil."
    times = glow / work.voltages.phase
    when = "in service already" if times < 1 else f"at {times:.2g} times the voltage to earth"
    return (
        f"Gas in place of oil round the conductor discharges from {glow / 1e3:.3g} kV on, {when}; "
        f"the oil would stand on its design curve at {_oil_space(work) / 1e3:.3g} kV."
    )
