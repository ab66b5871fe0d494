"""The words between the numbers, read once; every painter prints the same ones."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources


@dataclass(frozen=True)
class Wording:
    """Titles of chapters, opening sentences, column heads (``>`` sets one to the right)."""

    kind: str
    fails: str
    cautions: str
    note: str
    default: str
    rivals: str
    finding: str
    to_confirm: str
    out_of_range: str
    rows_to_confirm: str
    title: Mapping[str, str]
    intro: Mapping[str, str]
    heads: Mapping[str, list[str]]


@cache
def wording() -> Wording:
    """The words of the calculation."""
    text = resources.files("shedlight.documents").joinpath("wording.toml").read_text("utf-8")
    return Wording(**tomllib.loads(text))
