"""When nothing fits: which demands stand against each other, and what relaxing each would give."""

import csv
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from functools import cache
from importlib import resources

from shedlight import units
from shedlight.errors import InputError
from shedlight.given.bushing import Installation
from shedlight.given.fields import facts_of
from shedlight.sizing.request import Request
from shedlight.sizing.sized import Sized, forms, least_shortfall, propose
from shedlight.sizing.start import closed_form

CLASSES = "abcde"
WHOLLY = -1.0  # what a fact that does not hold is short by: it has no margin
CHOOSING = ("duty.rated_current", "duty.short_time_current", "transformer.hole_diameter")


@dataclass(frozen=True)
class Relaxation:
    """One thing that could be asked less of, and how the worst shortfall then stands."""

    path: str
    what: str
    worst: str
    shortfall: float
    fits: bool


@dataclass(frozen=True)
class Conflict:
    """Demands that no shape meets together.

    Attributes:
        demands: Id of each that stays short in the best compromise, and by how much.
        relaxations: What relaxing gives, the best first.
    """

    demands: tuple[tuple[str, float], ...]
    relaxations: tuple[Relaxation, ...]


@cache
def _rows() -> tuple[dict[str, str], ...]:
    text = resources.files("shedlight.sizing").joinpath("relaxing.csv").read_text("utf-8")
    return tuple(csv.DictReader(text.splitlines()))


def conflict_of(
    request: Request, sized: Sized, among: Collection[str] | None = None
) -> Conflict | None:
    """Which demands conflict, and what relaxing gives; None where the sized bushing holds.

    Args:
        request: What was asked.
        sized: What came of it.
        among: Paths of the demands that may be relaxed; all of the table if left out.
    """
    short = _shortfalls(sized)
    if not short:
        return None
    found = []
    for path, what, other in relaxed(request, sized.case):
        left = None
        if among is None or path in among:
            left = _again(other, sized, chooses=path in CHOOSING)
        if left is None:
            continue
        worst = min(left, key=lambda name: left[name], default="")
        found.append(Relaxation(path, what, worst, left.get(worst, 0.0), not left))
    now = least_shortfall(request, replace(sized.draft, horn_gap=None)) or short
    before = min(now.values())
    better = [item for item in found if item.fits or item.shortfall > before + 0.005]
    better.sort(key=lambda item: (not item.fits, -item.shortfall))
    ordered = sorted(short.items(), key=lambda item: item[1])
    return Conflict(tuple(ordered), tuple(better))


def _shortfalls(sized: Sized) -> dict[str, float]:
    short = dict(sized.short)
    for check in sized.failed:
        short.setdefault(check.id, WHOLLY if check.margin is None else check.margin)
    return short


def _again(request: Request, sized: Sized, *, chooses: bool) -> dict[str, float] | None:
    """What stays short under a relaxed demand.

    Sought from the bushing as it was sized; where that stays short, also from what the closed
    form now proposes: less may be asked for than these sheds were chosen for.
    """
    found = None if chooses else least_shortfall(request, replace(sized.draft, horn_gap=None))
    for form in forms(request):
        if found is not None and not found:
            break
        try:
            start = propose(request, form) if chooses else closed_form(request, form)
            anew = least_shortfall(request, start if chooses else start.chosen_as(sized.draft))
        except InputError:
            continue
        found = _better(found, anew)
    return found


def _better(
    one: dict[str, float] | None, other: dict[str, float] | None
) -> dict[str, float] | None:
    """That of two which stays short by less; none counts as short of everything."""
    known = [short for short in (one, other) if short is not None]
    return max(known, key=lambda short: min(short.values(), default=0.0), default=None)


def relaxed(request: Request, case: Installation) -> Iterator[tuple[str, str, Request]]:
    """Every relaxation that makes sense for a request: its path, its words, the request then.

    Args:
        request: What was asked.
        case: The installation that came of it, for values left to defaults.
    """
    for row in _rows():
        path, kind, step = row["path"], row["kind"], row["step"]
        table, _, name = path.partition(".")
        if table == "sizing":
            wish = getattr(request.wishes, name)
            if wish:
                value = None if kind == "free" else units.parse(step, "%")
                yield path, row["what"], request.wishing(**{name: value})
            continue
        if kind == "class":
            letter = case.site.pollution_class
            if letter is not None and letter != "a":
                lower = CLASSES[CLASSES.index(letter) - 1]
                yield path, row["what"], request.setting(path, lower)
            continue
        if path == "transformer.hole_diameter" and request.hole_is_free:
            continue
        record = getattr(case, table)
        unit = facts_of(type(record), name).unit
        here = getattr(record, name)
        more = here * float(step) if kind == "share" else here + _difference(step, unit)
        yield path, row["what"], request.setting(path, units.write(more, unit))


def _difference(step: str, unit: str) -> float:
    """A difference, in SI; of temperatures in kelvin."""
    return float(step.split(maxsplit=1)[0]) if unit == "°C" else units.parse(step, unit)
