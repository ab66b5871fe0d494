"""What is asked of sizing: duty, site, transformer, wishes, and what of the bushing is fixed."""

import copy
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, ClassVar, Literal

from pydantic import ValidationError

from shedlight.errors import DescriptionError, Problem
from shedlight.given.fields import Record, choice, quantity
from shedlight.toml import tables_in, text_of

Data = Mapping[str, Any]
Objective = Literal["shortest", "lightest", "least oil", "widest margin", "cheapest"]
LEFT_OPEN = "left open: not limited"


class Wishes(Record):
    """What the person prefers; the table [sizing] of a description to be completed."""

    title: ClassVar[str] = "Sizing"

    margin: float = quantity(
        "Margin that every check is to have which a dimension can give.",
        symbol="m",
        unit="%",
        low="0 %",
        high="300 %",
        default=0.05,
        basis="5 %, for what a drawing rounds and a kiln bends (practice)",
    )
    objective: Objective = choice(
        "What is to be best once every demand holds.",
        default="shortest",
        basis="the height above the cover and the oil end together",
    )
    largest_height: float | None = quantity(
        "Largest height above the cover, terminal included.",
        symbol='H_"max"',
        unit="mm",
        low="50 mm",
        high="5 m",
        default=None,
        basis=LEFT_OPEN,
    )
    largest_diameter: float | None = quantity(
        "Largest diameter over the sheds.",
        symbol='D_"max"',
        unit="mm",
        low="30 mm",
        high="2 m",
        default=None,
        basis=LEFT_OPEN,
    )
    sheds: Literal["any", "plain", "alternating"] = choice(
        "Kind of sheds.", default="any", basis="both are tried, the better is kept"
    )
    horns: Literal["if they serve", "none"] = choice(
        "Whether arcing horns are fitted.",
        default="if they serve",
        basis="fitted where one gap both protects and rides through",
    )


@dataclass(frozen=True)
class Request:
    """A description to be completed: its tables as written, and the wishes.

    Attributes:
        tables: Tables as dicts, quantities as text.
        wishes: What the person prefers.
        origin: What to call it in messages.
        prices: What things cost.
        conductors: Diameters in stock [m].
        also: Slow questions that the search is to answer too.
    """

    tables: Data
    wishes: Wishes
    origin: str = "description"
    prices: tuple["Price", ...] = ()
    conductors: tuple[float, ...] = ()
    also: frozenset[str] = frozenset()

    @property
    def fixed(self) -> Data:
        """What of the bushing is fixed, as written."""
        found: Data = self.tables.get("bushing", {})
        return found

    @property
    def hole_is_free(self) -> bool:
        """Whether the hole is to follow the bushing."""
        return "hole_diameter" not in self.tables.get("transformer", {})

    def fixes(self, path: str) -> bool:
        """Whether a field of the bushing is fixed, by its dotted path below ``bushing``."""
        place: Any = self.fixed
        for step in path.split("."):
            if not isinstance(place, Mapping) or step not in place:
                return False
            place = place[step]
        return True

    def wishing(self, **wishes: Any) -> "Request":
        """The same request with other wishes."""
        return replace(self, wishes=self.wishes.model_copy(update=wishes))

    def setting(self, path: str, value: Any) -> "Request":
        """The same request with one value of its tables changed; None takes it out."""
        tables = copy.deepcopy(dict(self.tables))
        *way, last = path.split(".")
        place = tables
        for step in way:
            place = place.setdefault(step, {})
        place.pop(last, None)
        if value is not None:
            place[last] = value
        return replace(self, tables=tables)


@dataclass(frozen=True)
class Price:
    """What one unit of something costs: by mass, by volume of oil, or by the shed."""

    item: str
    unit: str
    price: float


def read_request(path: str | Path) -> Request:
    """Read a description to be completed from a TOML file.

    Args:
        path: The file; the bushing, or any of its fields, may be left out.

    Raises:
        DescriptionError: the file cannot be used.
    """
    return request_from(tables_in(text_of(Path(path)), str(path)), str(path))


def request_from(tables: Data, origin: str = "description") -> Request:
    """A request from tables already parsed.

    Args:
        tables: Tables as dicts, quantities as text; ``sizing`` holds the wishes.
        origin: What to call it in messages.

    Raises:
        DescriptionError: the wishes cannot be used.
    """
    rest = {name: value for name, value in tables.items() if name != "sizing"}
    try:
        wishes = Wishes.model_validate(tables.get("sizing", {}), context={"file": True})
    except ValidationError as error:
        found = tuple(_problem(detail) for detail in error.errors(include_url=False))
        raise DescriptionError(origin, found) from None
    return Request(rest, wishes, origin)


def _problem(detail: Any) -> Problem:
    place = ".".join(["sizing", *(str(step) for step in detail["loc"])])
    context = detail.get("ctx") or {}
    known = ", ".join(Wishes.model_fields)
    expected = str(context.get("expected", f"one of the wishes {known}"))
    cure = str(context.get("cure", "")) or "See docs/sizing.md."
    return Problem(place, repr(detail["input"]), expected, cure)
