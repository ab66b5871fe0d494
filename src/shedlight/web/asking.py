"""What the room of decisions asks: the request of sizing that its form and the values mean."""

from base64 import b64decode
from binascii import Error as NotBase64
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, get_args

from shedlight.errors import InputError
from shedlight.given.bushing import Installation
from shedlight.given.fields import facts_of
from shedlight.sizing.prices import prices_of
from shedlight.sizing.request import Objective, Request, Wishes, request_from
from shedlight.sizing.rows import KINDS, conductors_of
from shedlight.units import digits, shown_in
from shedlight.web.form import FormField, fields_of
from shedlight.web.values import tables_of, values_of

Answer = Mapping[str, Any]
Tables = dict[str, Any]

OBJECTIVES: tuple[Objective, ...] = get_args(Objective)
STOCK = ("rods", "bodies", "prices")


@dataclass(frozen=True)
class Kept:
    """Something of the description that can be kept: where it stands, and whether it usually is."""

    path: str
    words: str
    usual: bool = False


KEPT = (
    Kept("transformer.hole_diameter", "Hole in the cover", usual=True),
    Kept("bushing.conductor.metal", "Metal of the conductor", usual=True),
    Kept("bushing.conductor.diameter", "Conductor"),
    Kept("bushing.porcelain.bore", "Bore"),
    Kept("bushing.porcelain.wall", "Wall"),
    Kept("bushing.porcelain.air_length", "Air end"),
    Kept("bushing.sheds.count", "Number of sheds"),
    Kept("bushing.sheds.overhang", "Overhang"),
    Kept("bushing.oil_end.length", "Oil end"),
    Kept("bushing.gasket.material", "Gasket material"),
)


@cache
def wishes_offered() -> tuple[FormField, ...]:
    """The wishes as fields of a form."""
    return fields_of(Wishes)


def usual_margin() -> str:
    """The margin that is held where none is wished for, as a number of its field's unit."""
    unit = facts_of(Wishes, "margin").unit
    return digits(shown_in(request_from({}).wishes.margin, unit))


@contextmanager
def asked_of(request: Answer) -> Iterator[tuple[Request, Path | None]]:
    """The request of sizing, and the table of bodies in stock, if one was sent.

    Args:
        request: `values`; the paths to `keep`; the `wishes` as texts; `stock` files by what they
            hold, each with its name and content.

    Raises:
        InputError: something of it cannot be used.
    """
    tables = _fixed(tables_of(request["values"]), request.get("keep", ()))
    wished = tables_of(request.get("wishes", {}), Wishes)
    asked = request_from(tables | {"sizing": wished}, "the form")
    with TemporaryDirectory(prefix="shedlight-") as place:
        files = {name: _file(Path(place), name, request.get("stock", {})) for name in STOCK}
        prices, rods = files["prices"], files["rods"]
        if prices is not None:
            asked = replace(asked, prices=prices_of(prices))
        if rods is not None:
            asked = replace(asked, conductors=conductors_of(rods))
        yield asked, files["bodies"]


def _fixed(tables: Tables, keep: Any) -> Tables:
    """Duty, site and transformer, and of the bushing only what is to be kept."""
    wanted = {str(path) for path in keep}
    found = {name: dict(t) if isinstance(t, dict) else t for name, t in tables.items()}
    given, found["bushing"] = found.get("bushing", {}), {}
    for kept in KEPT:
        table, *way = kept.path.split(".")
        if table == "transformer" and kept.path not in wanted:
            found.get("transformer", {}).pop(way[0], None)
        if table == "bushing" and kept.path in wanted:
            part, name = way
            if name in given.get(part, {}):
                found["bushing"].setdefault(part, {})[name] = given[part][name]
    return found


def _file(place: Path, name: str, stock: Any) -> Path | None:
    """A file that was sent, laid where it can be read as any other."""
    sent = stock.get(name) if isinstance(stock, dict) else None
    if not isinstance(sent, dict) or not sent.get("content"):
        return None
    ending = Path(str(sent.get("name", ""))).suffix.lower()
    path = place / f"{name}{ending if ending in KINDS else '.unknown'}"
    try:
        path.write_bytes(b64decode(str(sent["content"]), validate=True))
    except (NotBase64, ValueError):
        raise InputError(f"the table of {name} did not arrive whole") from None
    return path


def taken_over(case: Installation, values: Mapping[str, str]) -> dict[str, str]:
    """What has to be set so that values describe another bushing of the same installation.

    Args:
        case: The installation with that bushing.
        values: The values as they are.
    """
    new = values_of(case)
    paths = [path for path in (*new, *values) if path.startswith("bushing")]
    paths.append("transformer.hole_diameter")
    return {path: new.get(path, "") for path in paths if new.get(path, "") != values.get(path, "")}
