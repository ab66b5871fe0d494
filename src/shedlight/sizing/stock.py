"""Choosing from stock or offers: which fit this transformer, which hold, what deviates."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from shedlight import units
from shedlight.checks.assessment import Assessment, assess
from shedlight.checks.check import Check, Verdict
from shedlight.errors import DescriptionError, InputError, Problem, UnitError
from shedlight.given.bushing import Installation
from shedlight.given.reading import from_data
from shedlight.given.writing import Entry, entries
from shedlight.sizing.bench import Tried, quantity_of
from shedlight.sizing.prices import price_in
from shedlight.sizing.request import Request
from shedlight.sizing.rows import Row, nested, rows_of
from shedlight.sizing.sized import Sized, size

# Whether it can be mounted at all: the rest is whether it then holds.
FIT = (
    "host.fit",
    "clearance.phase-earth",
    "clearance.phase-phase",
    "oil.immersion",
    "oil.head.top",
    "oil.gap",
)
BESIDE = ("name", "price", "delivery", "remark")


@dataclass(frozen=True)
class Offer:
    """One row of stock or of an offer, judged.

    Attributes:
        name: Its name in the table.
        trouble: Why it cannot be judged; empty if it can.
        case: The installation with it.
        assessment: Every check.
        misfits: What keeps it from being mounted.
        short: What it does not hold, or holds only with a caution.
        deviations: Where it is other than what the description asks for.
        price: Its price, where the table has one.
    """

    name: str
    trouble: str
    case: Installation | None
    assessment: Assessment | None
    misfits: tuple[Check, ...]
    short: tuple[Check, ...]
    deviations: tuple[str, ...]
    price: float | None

    @property
    def fits(self) -> bool:
        """Whether it can be mounted."""
        return not self.trouble and not any(c.verdict is Verdict.FAIL for c in self.misfits)

    @property
    def holds(self) -> bool:
        """Whether it fits, and no check fails."""
        return self.fits and not any(c.verdict is Verdict.FAIL for c in self.short)

    @property
    def rank(self) -> tuple[float, ...]:
        """The best first: what holds, then what fits; fewer shortfalls, then the least margin."""
        if self.assessment is None:
            return (9.0, 0.0, 0.0, 0.0, 0.0)
        failed = sum(c.verdict is Verdict.FAIL for c in (*self.misfits, *self.short))
        margins = [c.margin for c in self.assessment.checks if c.margin is not None]
        cost = float("inf") if self.price is None else self.price
        doubtful = len(self.misfits) + len(self.short) - failed
        deviating = len(self.deviations)
        return (failed + 0.5 * (not self.fits), doubtful + deviating, cost, -min(margins), 0.0)


def choose(request: Request, rows: Sequence[Row]) -> tuple[Offer, ...]:
    """Every offer judged, the best first.

    Args:
        request: Duty, site and transformer; what it fixes of the bushing is what is asked for.
        rows: The offers: dotted fields of the bushing, and name, price, delivery, remark.
    """
    offers = [judged(request, row, number) for number, row in enumerate(rows, start=1)]
    return tuple(sorted(offers, key=lambda offer: offer.rank))


def judged(request: Request, row: Row, number: int = 1) -> Offer:
    """One offer in place of the bushing that is asked for.

    Args:
        request: Duty, site and transformer, and what is asked for.
        row: The offer.
        number: Its number in the table, for its name where it has none.
    """
    name = row.get("name") or f"row {number}"
    try:
        cells = ((head.removeprefix("bushing."), text) for head, text in row.items())
        fields = nested((head, text) for head, text in cells if head not in BESIDE)
        data = {**request.tables, "bushing": {"kind": "bulk", **fields}, "name": name}
        price = _price(row)
        case = from_data(data, name)
        assessment = assess(case)
    except (InputError, ValueError, AttributeError) as error:
        return Offer(name, _first_line(error), None, None, (), (), (), None)
    wrong = [c for c in assessment.by_urgency if c.verdict in (Verdict.FAIL, Verdict.CAUTION)]
    return Offer(
        name,
        "",
        case,
        assessment,
        tuple(c for c in wrong if c.id in FIT),
        tuple(c for c in wrong if c.id not in FIT),
        tuple(_deviations(request, case)),
        price,
    )


def _price(row: Row) -> float | None:
    try:
        return price_in(row.get("price", ""))
    except UnitError as error:
        raise InputError(f"price: {error}") from None


def _first_line(error: Exception) -> str:
    if isinstance(error, DescriptionError) and error.problems:
        return str(error.problems[0])
    return str(error).strip().split("\n")[0]


def _deviations(request: Request, case: Installation) -> list[str]:
    """Where an offer is other than what the description fixes of the bushing."""
    wanted = nested_texts(request)
    found = []
    for entry in entries(case.bushing):
        if entry.path in wanted and not _same(entry, wanted[entry.path]):
            found.append(f"{entry.path} {entry.text}, asked {wanted[entry.path]}")
    missing = set(wanted) - {entry.path for entry in entries(case.bushing)}
    return found + [f"{path} is not offered, asked {wanted[path]}" for path in sorted(missing)]


def nested_texts(request: Request) -> dict[str, str]:
    """What is fixed of the bushing, as text by dotted path."""
    found: dict[str, str] = {}

    def walk(table: object, path: str) -> None:
        if isinstance(table, dict):
            for name, value in table.items():
                walk(value, f"{path}.{name}" if path else name)
        else:
            found[path] = f"{table}"

    walk(request.fixed, "")
    return found


def _same(entry: Entry, wanted: str) -> bool:
    if not entry.facts.unit:
        return entry.text.lower() == wanted.lower()
    have, want = (units.parse(text, entry.facts.unit) for text in (entry.text, wanted))
    return abs(have - want) <= 1e-6 * max(abs(have), abs(want))


def size_from_bodies(request: Request, table: Path | None) -> tuple[Sized, str]:
    """The best bushing, its porcelain taken from a table of bodies if there is one.

    Args:
        request: What is asked.
        table: Bodies in stock: dotted fields of porcelain, sheds and oil end, and a name.

    Raises:
        DescriptionError: the table cannot be used, or no body of it can be drawn.
    """
    if table is None:
        return size(request), ""
    found: list[tuple[Sized, str]] = []
    troubles = []
    for number, row in enumerate(rows_of(table), start=1):
        name = row.get("name") or f"row {number}"
        fields = nested((head, text) for head, text in row.items() if head not in BESIDE)
        try:
            found.append((size(_with_body(request, fields)), name))
        except InputError as error:
            troubles.append(f"{name}: {_first_line(error)}")
    if not found:
        problem = Problem("table", "no body that can be used", "one at least", "; ".join(troubles))
        raise DescriptionError(str(table), (problem,))
    return min(found, key=lambda item: _standing(request, item[0]))


def _with_body(request: Request, fields: dict[str, object]) -> Request:
    fixed = dict(request.fixed)
    for part, values in fields.items():
        here = fixed.get(part, {})
        both = isinstance(values, dict) and isinstance(here, dict)
        fixed[part] = {**here, **values} if both else values  # type: ignore[dict-item]
    return replace(request, tables={**request.tables, "bushing": fixed})


def _standing(request: Request, sized: Sized) -> tuple[float, float]:
    """What holds first, then what is best by the objective."""
    short = len(sized.failed) - sum(min(0.0, value) for value in sized.short.values())
    return short, quantity_of(request, Tried(sized.draft, sized.case, sized.assessment))
