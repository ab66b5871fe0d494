"""Every step of a calculation once: collected, placed and numbered for print.

A step that several checks rest on is printed once, before them, and referred to by its number.
What a calculation starts from (given, default, measured) comes first of all.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from shedlight.documents.citing import Cited
from shedlight.documents.numerals import shown, unit_name
from shedlight.sources import Citation
from shedlight.trace import Input, Kind, Number, Step

WHERE_FROM = {
    Kind.GIVEN: "given",
    Kind.DEFAULT: "default",
    Kind.MEASURED: "outline",
    Kind.TABLE: "table",
    Kind.FORMULA: "computed",
}
CHOSEN = "chosen here"  # a plain number handed to a formula
STARTS = (Kind.GIVEN, Kind.DEFAULT, Kind.MEASURED)


@dataclass(frozen=True)
class InputLine:
    """One quantity that went into a step: its value, and the steps it came from."""

    name: str
    symbol: str
    value: str
    unit: str
    origin: str
    steps: tuple[int, ...]


@dataclass(frozen=True)
class StepLine:
    """One step as printed; `formula` and `symbol` are Typst mathematics."""

    number: int
    origin: str
    name: str
    symbol: str
    formula: str
    inputs: tuple[InputLine, ...]
    value: str
    unit: str
    source: Cited | None
    note: str
    remarks: tuple[str, ...]
    used_by: tuple[str, ...]


class Ledger:
    """The steps behind some checks: equal ones are one, each knows which checks use it.

    Steps compare by all that lies behind them. To keep a long calculation quick they are told
    apart here by the places of their origins in the ledger instead.
    """

    def __init__(self) -> None:
        """Start with no step."""
        self._steps: list[Step] = []
        self._origins: list[tuple[tuple[int, ...], ...]] = []
        self._places: dict[object, int] = {}
        self._known: dict[int, tuple[int, Step]] = {}
        self._users: list[dict[str, None]] = []

    def enter(self, user: str, numbers: Iterable[Number | None]) -> tuple[int, ...]:
        """Take in what lies behind some numbers; gives the places used, origins first."""
        used: dict[int, None] = {}
        for number in numbers:
            if number is not None:
                self._mark(self._place(number.step), user, used)
        return tuple(used)

    def place_of(self, number: Number) -> int:
        """Where a number's own step stands."""
        return self._place(number.step)

    def users(self, place: int) -> tuple[str, ...]:
        """The checks that use a step."""
        return tuple(self._users[place])

    def step(self, place: int) -> Step:
        """The step at a place."""
        return self._steps[place]

    def origins(self, place: int) -> tuple[tuple[int, ...], ...]:
        """For each input of the step at a place, the places it came from."""
        return self._origins[place]

    @property
    def places(self) -> range:
        """All places, origins before what uses them."""
        return range(len(self._steps))

    def _place(self, step: Step) -> int:
        if id(step) in self._known:
            return self._known[id(step)][0]
        origins = tuple(
            tuple(self._place(origin) for origin in used.origins) for used in step.inputs
        )
        inputs = tuple((used.label, used.value) for used in step.inputs)
        own = (step.kind, step.label, step.value, step.citation, step.typeset)
        key = (*own, step.note, step.beyond, inputs, origins)
        if key not in self._places:
            self._places[key] = len(self._steps)
            self._steps.append(step)
            self._origins.append(origins)
            self._users.append({})
        # The step is kept too: an id is only unique while its owner lives.
        self._known[id(step)] = (self._places[key], step)
        return self._places[key]

    def _mark(self, place: int, user: str, used: dict[int, None]) -> None:
        if place in used:
            return
        for origins in self._origins[place]:
            for origin in origins:
                self._mark(origin, user, used)
        self._users[place][user] = None
        used[place] = None


@dataclass(frozen=True)
class Layout:
    """Where each step is printed: at the start, among the shared ones, or with its only check."""

    starts: tuple[int, ...]
    shared: tuple[int, ...]
    own: Mapping[str, tuple[int, ...]]

    @property
    def numbers(self) -> dict[int, int]:
        """The printed number of each place."""
        ordered = [*self.starts, *self.shared]
        for places in self.own.values():
            ordered += places
        return {place: number for number, place in enumerate(ordered, start=1)}


def lay_out(ledger: Ledger, users: Sequence[str]) -> Layout:
    """Decide where each step is printed.

    Args:
        ledger: All steps.
        users: The checks in the order they are printed.
    """
    kinds = list(WHERE_FROM)
    starts = [place for place in ledger.places if ledger.step(place).kind in STARTS]
    starts.sort(key=lambda place: kinds.index(ledger.step(place).kind))
    rest = [place for place in ledger.places if ledger.step(place).kind not in STARTS]
    shared = tuple(place for place in rest if len(ledger.users(place)) > 1)
    own = {user: tuple(place for place in rest if ledger.users(place) == (user,)) for user in users}
    return Layout(tuple(starts), shared, own)


def runs(numbers: Iterable[int]) -> tuple[tuple[int, int], ...]:
    """First and last of each unbroken run in some rising numbers."""
    found: list[tuple[int, int]] = []
    for number in numbers:
        if found and number == found[-1][1] + 1:
            found[-1] = (found[-1][0], number)
        else:
            found.append((number, number))
    return tuple(found)


def step_lines(
    ledger: Ledger,
    places: Sequence[int],
    numbers: Mapping[int, int],
    cited: Mapping[Citation, Cited],
) -> tuple[StepLine, ...]:
    """Some steps as printed.

    Args:
        ledger: All steps.
        places: Which ones.
        numbers: Printed number of each place.
        cited: Each citation as printed.
    """
    lines = []
    for place in places:
        step = ledger.step(place)
        lines.append(
            StepLine(
                numbers[place],
                WHERE_FROM[step.kind],
                step.label.name,
                step.label.symbol,
                step.typeset,
                tuple(_input_lines(ledger, place, numbers)),
                shown(step.value, step.label.unit),
                unit_name(step.label.unit),
                cited[step.citation] if step.citation else None,
                step.note,
                step.beyond,
                ledger.users(place),
            )
        )
    return tuple(lines)


def _input_lines(ledger: Ledger, place: int, numbers: Mapping[int, int]) -> Iterator[InputLine]:
    used: Input
    for used, origins in zip(ledger.step(place).inputs, ledger.origins(place), strict=True):
        kinds = dict.fromkeys(ledger.step(origin).kind for origin in origins)
        yield InputLine(
            used.label.name,
            used.label.symbol,
            shown(used.value, used.label.unit),
            unit_name(used.label.unit),
            ", ".join(WHERE_FROM[kind] for kind in kinds) or CHOSEN,
            tuple(dict.fromkeys(numbers[origin] for origin in origins)),
        )
