"""Published sources, and how far a figure taken from one may be trusted.

Every source is listed once in ``bibliography.csv``; everything else cites it by key.
A citation says where in the source, on what basis we hold the figure, and how sure we are.
"""

import csv
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache
from importlib import resources
from types import MappingProxyType

from shedlight.errors import CalculationError


class Basis(StrEnum):
    """How a figure came to us, from the surest to the weakest."""

    EXACT = "exact"  # follows from first principles
    CONFIRMED = "confirmed"  # a user checked the row against the publication
    PUBLISHED = "published"  # read on a page that quotes the publication
    MEMORY = "memory"  # recalled; the publication is named
    PRACTICE = "practice"  # habit of the trade, no source


class Confidence(StrEnum):
    """How sure we are that a remembered figure is what the publication prints."""

    HIGH = "high"
    MEDIUM = "medium"
    LOW = "low"


@dataclass(frozen=True)
class Source:
    """One entry of the bibliography."""

    key: str
    title: str
    kind: str


@dataclass(frozen=True)
class Citation:
    """A place in a source, with the trust that a figure from it deserves."""

    key: str
    where: str
    basis: Basis
    confidence: Confidence
    row: str = field(default="", compare=False)  # the table row it came with, if any

    @property
    def source(self) -> Source:
        """The bibliography entry cited."""
        return bibliography()[self.key]

    @property
    def may_fail(self) -> bool:
        """Whether a verdict resting on this figure may be `fail`, not only `caution`."""
        if self.basis in (Basis.EXACT, Basis.CONFIRMED, Basis.PUBLISHED):
            return True
        return self.basis is Basis.MEMORY and self.confidence is Confidence.HIGH

    @property
    def rank(self) -> int:
        """Order of trust: 0 is surest; used to find the weakest link of a calculation."""
        if self.basis is Basis.MEMORY:
            return 3 + list(Confidence).index(self.confidence)
        if self.basis is Basis.PRACTICE:
            return 6
        return list(Basis).index(self.basis)

    @property
    def trust(self) -> str:
        """The trust mark in words, as documents print it."""
        if self.basis is Basis.MEMORY:
            return f"memory, {self.confidence} confidence"
        return str(self.basis)

    def __str__(self) -> str:
        """Source and place, as documents print it."""
        return f"{self.source.title}, {self.where}" if self.where else self.source.title


@cache
def bibliography() -> Mapping[str, Source]:
    """All sources by key, read once."""
    text = resources.files("shedlight").joinpath("bibliography.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    return MappingProxyType({row["key"]: Source(**row) for row in rows})


def cite(
    key: str,
    where: str = "",
    basis: str = "memory",
    confidence: str = "high",
    *,
    row: str = "",
) -> Citation:
    """Cite one place of a listed source.

    Args:
        key: Key in bibliography.csv.
        where: Clause, table, page or equation.
        basis: One of :class:`Basis`.
        confidence: One of :class:`Confidence`; only weighs for basis ``memory``.
        row: Name of the table row it came with.

    Raises:
        CalculationError: the key is not in the bibliography.
    """
    if key not in bibliography():
        raise CalculationError(f"source {key!r} is not in bibliography.csv; add it there first")
    return Citation(key, where, Basis(basis), Confidence(confidence), row)


@dataclass(frozen=True)
class Backing:
    """Every source that some numbers rest on, in order of first use; why they may be in doubt."""

    citations: tuple[Citation, ...]
    beyond: tuple[str, ...]


def weakest(citations: tuple[Citation, ...]) -> Citation:
    """The least trusted of several citations: it decides what a verdict may say."""
    return max(citations, key=lambda citation: citation.rank)
