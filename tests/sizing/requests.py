"""Requests for the tests of sizing: duty, site and transformer, the bushing left open."""

import copy
import tomllib
from pathlib import Path
from typing import Any

from shedlight.sizing.request import Request, request_from

OPEN = Path(__file__).parents[2] / "examples" / "sizing" / "quay-24kv-open.toml"
TABLES: dict[str, Any] = tomllib.loads(OPEN.read_text("utf-8"))


def asked(**changes: Any) -> Request:
    """The example's request with some values changed: ``site__altitude="1800 m"``; None drops."""
    tables = copy.deepcopy(TABLES)
    for path, value in changes.items():
        *way, last = path.split("__")
        place = tables
        for step in way:
            place = place.setdefault(step, {})
        place.pop(last, None)
        if value is not None:
            place[last] = value
    return request_from(tables)
