"""What a bushing costs by a table of prices that a person gives."""

import math
import re
from collections.abc import Sequence
from pathlib import Path

from shedlight.errors import DescriptionError, Problem, UnitError
from shedlight.sizing.request import Price
from shedlight.sizing.rows import Row, refused, rows_of
from shedlight.workings import Workings
from shedlight.workings.masses import PartMass

SHED, OIL = "shed", "oil"
MATERIALS = ("porcelain", "copper", "aluminium", "bronze", "brass", "steel")
ONE_NUMBER = "one number, not below zero"
# Apart from letters and from what may divide thousands: "Fr.450" is no 0.45, "1'250" no 250.
_NUMBER = re.compile(
    r"(?<![\w.,'’])[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?(?![\w.,'’])"
)
_THOUSANDS = re.compile(r"\+?[1-9][0-9]{0,2}[.,][0-9]{3}")
UNITS = {SHED: ("piece",), OIL: ("l", "kg"), **dict.fromkeys(MATERIALS, ("kg",))}


def prices_of(path: Path) -> tuple[Price, ...]:
    """A table of prices: columns item, unit and price; an item may stand once.

    Items are materials by the kg, oil by the l or kg, and sheds by the piece.

    Args:
        path: The table.

    Raises:
        DescriptionError: it cannot be used.
    """
    found: dict[str, Price] = {}
    for row in rows_of(path):
        price = _price(path, row)
        if price.item in found:
            raise refused(path, f"{price.item} twice", "one price for each item", "Correct it.")
        found[price.item] = price
    return tuple(found.values())


def _price(path: Path, row: Row) -> Price:
    item = row.get("item", "").lower()
    if item not in UNITS:
        raise refused(path, f"the item {item!r}", f"one of {', '.join(UNITS)}", "Correct it.")
    unit = row.get("unit") or UNITS[item][0]
    if unit not in UNITS[item]:
        raise refused(path, f"{item} by the {unit}", f"by the {' or '.join(UNITS[item])}", "")
    text = row.get("price", "").strip()
    given = f"the price {text!r} of {item}"
    try:
        value = price_in(text)
    except UnitError as error:
        raise refused(path, given, error.expected, error.cure) from None
    if value is None or not _NUMBER.fullmatch(_with_minus(text)):
        raise refused(path, given, ONE_NUMBER, "Give it without a currency.")
    return Price(item, unit, value)


def price_in(text: str) -> float | None:
    """The number of a price, a currency may stand beside it; None where there is no number.

    A decimal comma is read as a point. What may mean thousands or decimals is refused, and so
    is more than one number, "1 600" and "2 x 300" among them.

    Args:
        text: The price as a table has it.

    Raises:
        UnitError: it cannot be told which number is meant, or it is below zero or not finite.
    """
    text = _with_minus(text)
    if not any(sign.isnumeric() for sign in text):
        return None
    found: list[str] = _NUMBER.findall(text)
    if len(found) != 1 or sum(map(str.isnumeric, text)) != sum(map(str.isnumeric, found[0])):
        raise UnitError(repr(text), ONE_NUMBER, "Write it plainly, as 1600 or 1600.50.")
    (number,) = found
    if _THOUSANDS.fullmatch(number):
        either = f"Write {re.sub('[.,]', '', number)} or {number.replace(',', '.')}0"
        sign = "comma" if "," in number else "point"
        cure = f"The {sign} may mean thousands or decimals. {either}, whichever it is."
        raise UnitError(repr(text), ONE_NUMBER, cure)
    value = float(number.replace(",", "."))
    if not 0 <= value < math.inf:
        raise UnitError(repr(text), ONE_NUMBER, "A price is finite and not below zero.")
    return value


def _with_minus(text: str) -> str:
    return text.replace("\u2212", "-")


def need_prices(prices: Sequence[Price]) -> None:
    """Refuse to count what costs the least without prices.

    Args:
        prices: The table.

    Raises:
        DescriptionError: there is no table.
    """
    if not prices:
        problem = Problem("prices", "none", "a table of prices", "Give one with --prices.")
        raise DescriptionError("prices", (problem,))


def cost(prices: Sequence[Price], work: Workings) -> float:
    """What a bushing costs: per kg of a material, per l or kg of oil, per shed.

    Args:
        prices: The table.
        work: What was computed.

    Raises:
        DescriptionError: there is no table.
    """
    need_prices(prices)
    return math.fsum(price.price * _amount(price, work) for price in prices)


def _amount(price: Price, work: Workings) -> float:
    if price.item == SHED:
        return len(work.section.sheds)
    if price.unit == "l":
        return 1e3 * work.measures.oil_volume
    return math.fsum(float(part.mass) for part in work.masses if _item(part) == price.item)


def _item(part: PartMass) -> str:
    """The item of the table that a part is: porcelain of any kind is porcelain."""
    return part.material.split(" ")[0]


def unpriced(prices: Sequence[Price], work: Workings) -> tuple[str, ...]:
    """Materials of a bushing that a table gives no price for, with their mass.

    Args:
        prices: The table.
        work: What was computed.
    """
    known = {price.item for price in prices}
    missing: dict[str, float] = {}
    for part in work.masses:
        if _item(part) not in known:
            missing[_item(part)] = missing.get(_item(part), 0.0) + float(part.mass)
    return tuple(f"{item} ({mass:.1f} kg)" for item, mass in missing.items())
