"""Random and broken descriptions, by the thousand, each repeatable from its seed and number."""

import random
import re
from collections.abc import Callable
from copy import deepcopy
from pathlib import Path
from typing import Any

import tomli_w

from shedlight.given.bushing import Installation
from shedlight.given.fields import facts_of, limits_of, records_in
from shedlight.units import units, write
from strategies import SeededDice, described

Data = dict[str, Any]
Dice = random.Random
EXAMPLES = Path(__file__).parents[2] / "examples"
NUMBERS = ("0", "-1", "1e-300", "1e308", "1e999", "-0.0", "nan", "inf", "9" * 70, "1,000", "٣", "½")
LETTERS = "aZ0 .,=[]{}\"'#\\\n\t\r\0\x1b\u00e9\u05d0\u202e\u2028\ufeff\ufffe🙂°µ²₂"
VALUES: tuple[Any, ...] = (
    *(0, -1, 1, 4.5, 10**40, float("nan"), float("inf"), True, False),
    *("", " ", "yes", "none", "25", "25 mm", "25 kV", "mm", "x" * 500, "\x1b[31m", "שלום", "🙂"),
    *([], [1, 2], {}, {"form": "rod"}, [{}], [[[[]]]]),
)


def broken_description(seed: int, number: int) -> bytes:
    """One description as the bytes of a file; most are broken, some only extreme."""
    dice = random.Random(f"{seed}:{number}")
    make = dice.choices((_text, _data, _extreme, _odd), weights=(40, 40, 12, 8))[0]
    return make(dice)


def _start(dice: Dice) -> str:
    """A sound description to begin with: an example, or one made up."""
    examples = sorted(EXAMPLES.glob("*.toml"))
    if dice.random() < 0.5:
        return dice.choice(examples).read_text(encoding="utf-8")
    return tomli_w.dumps(described(SeededDice(dice)))


# --- breaking text --------------------------------------------------------------------------


def _text(dice: Dice) -> bytes:
    text = _start(dice)
    for _ in range(dice.choice((1, 1, 1, 2, 5))):
        text = dice.choice(BREAK_TEXT)(dice, text)
    return text.encode("utf-8", "surrogatepass")


def _cut(dice: Dice, text: str) -> str:
    return text[: dice.randrange(len(text) + 1)]


def _drop(dice: Dice, text: str) -> str:
    start = dice.randrange(len(text) + 1)
    return text[:start] + text[start + dice.choice((1, 2, 10, 200)) :]


def _insert(dice: Dice, text: str) -> str:
    start = dice.randrange(len(text) + 1)
    return text[:start] + "".join(dice.choices(LETTERS, k=dice.choice((1, 1, 3)))) + text[start:]


def _lines(dice: Dice, text: str) -> str:
    lines = text.split("\n")
    here, there = dice.randrange(len(lines)), dice.randrange(len(lines))
    if dice.random() < 0.4:
        del lines[here]
    elif dice.random() < 0.5:
        lines.insert(there, lines[here])
    else:
        lines[here], lines[there] = lines[there], lines[here]
    return "\n".join(lines)


def _join(dice: Dice, text: str) -> str:
    return text + dice.choice(("", "\n")) + _start(dice)


def _requote(dice: Dice, text: str) -> str:
    """Another quoted value of the file, a number or nothing in place of a quoted value."""
    quoted = re.findall(r'"[^"\n]*"', text)
    if not quoted:
        return text
    old = dice.choice(quoted)
    number = dice.choice(NUMBERS)
    new = dice.choice((dice.choice(quoted), old.strip('"'), number, f'"{number} mm"', f'"{old}"'))
    return text.replace(old, new, dice.choice((1, -1)))


def _reunit(dice: Dice, text: str) -> str:
    return re.sub(
        r' ([^" \n]+)"',
        lambda _: f' {dice.choice(tuple(units()))}"',
        text,
        count=dice.choice((1, 2)),
    )


def _endings(dice: Dice, text: str) -> str:
    return dice.choice(("", "\ufeff")) + text.replace("\n", dice.choice(("\r\n", "\r", "\n\n")))


BREAK_TEXT: tuple[Callable[[Dice, str], str], ...] = (
    *(_cut, _drop, _insert, _lines, _join, _requote, _requote, _reunit, _endings),
)

# --- breaking data --------------------------------------------------------------------------


def _data(dice: Dice) -> bytes:
    data = described(SeededDice(dice))
    for _ in range(dice.choice((1, 1, 2, 6))):
        _break_data(dice, data)
    return tomli_w.dumps(data).encode("utf-8", "surrogatepass")


def _break_data(dice: Dice, data: Data) -> None:
    table = dice.choice(_tables(data))
    name = dice.choice(tuple(table) or ("x",))
    kind = dice.randrange(6)
    if kind == 0:
        table.pop(name, None)
    elif kind == 1:
        table[_misspelt(dice, name)] = table.pop(name, 1)
    elif kind == 2:
        table[name] = deepcopy(dice.choice(VALUES))
    elif kind == 3:
        table[name] = _rescaled(dice, table.get(name))
    elif kind == 4:
        other = dice.choice(_tables(data))
        table[name] = deepcopy(other.get(dice.choice(tuple(other) or ("x",)), 0))
    else:
        table[dice.choice(("x", "form", "kind", "\x1b", "a.b", "", "ß", *BOUNDS))] = "5 mm"


def _tables(data: Data) -> list[Data]:
    return [data, *(t for v in data.values() if isinstance(v, dict) for t in _tables(v))][:40]


def _misspelt(dice: Dice, name: str) -> str:
    place = dice.randrange(len(name) + 1)
    return name[:place] + dice.choice(("", "x", "_", "ö")) + name[place + dice.randrange(2) :]


def _rescaled(dice: Dice, value: Any) -> Any:
    """The quantity a thousandfold, negative, bare or in another unit; any count changed."""
    if isinstance(value, str) and " " in value:
        number, unit = value.rsplit(" ", 1)
        if re.fullmatch(r"-?[\d.]+(e-?\d+)?", number):
            factor = dice.choice((-1.0, 0.0, 1e-3, 0.1, 0.5, 2.0, 10.0, 1e3))
            changed = f"{float(number) * factor!r} {unit}"
            other = dice.choice(tuple(units()))
            return dice.choice((changed, changed, float(number), number, f"{number} {other}"))
    if isinstance(value, int):
        return value * dice.choice((-1, 0, 2, 100)) + dice.choice((0, 1))
    return deepcopy(dice.choice(VALUES))


# --- sound, but at the edge of what is allowed ----------------------------------------------


def _bounds() -> dict[str, tuple[float, float, str]]:
    found = {}
    for table, record in records_in(Installation):
        for name in record.model_fields:
            facts, limits = facts_of(record, name), limits_of(record, name)
            if facts.unit:
                found[f"{table}.{name}"] = facts.low, facts.high, facts.unit
            elif "ge" in limits:
                found[f"{table}.{name}"] = float(limits["ge"]), float(limits["le"]), ""
    return found


BOUNDS = _bounds()


def _extreme(dice: Dice) -> bytes:
    """Every field acceptable by itself, some at their bounds: this gets as far as the formulas."""
    data = described(SeededDice(dice))
    for _ in range(dice.choice((1, 2, 5, 15))):
        path = dice.choice(tuple(BOUNDS))
        low, high, unit = BOUNDS[path]
        table, _, name = path.rpartition(".")
        place = data
        for step in filter(None, table.split(".")):
            place = place.get(step, {})
        if place and (name in place or dice.random() < 0.3):
            value = dice.choice((low, high, low, high, low + (high - low) * dice.random() ** 3))
            place[name] = write(value, unit) if unit else round(value)
    return tomli_w.dumps(data).encode()


# --- no description at all ------------------------------------------------------------------


def _odd(dice: Dice) -> bytes:
    length = dice.choice((0, 1, 10, 1000, 70_000))
    return dice.choice(
        (
            dice.randbytes(length),
            bytes(length),
            b"\xff\xfe" + _start(dice).encode("utf-16-le"),
            "".join(dice.choices(LETTERS, k=length)).encode(),
            b"a = " + b"[" * length,
            b"a = " + b"9" * length,
            b"a = 0x" + b"f" * length,
            b"a." * (length // 2) + b"a = 1",
            b"\n".join(b"a%d = 1" % n for n in range(length // 8)),
            ("name = " + repr("x" * length) + "\n" + _start(dice)).encode(),
            _start(dice).encode("utf-16"),
            _start(dice).replace("mm", "µm").encode("latin-1", "replace"),
        )
    )
