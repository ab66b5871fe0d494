"""The list of sources of a document: each once, the places cited, how far each may be trusted."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from shedlight.sources import Basis, Citation, Source

KINDS = ("standard", "book", "paper", "exact", "practice")
CONFIRMED = (Basis.EXACT, Basis.CONFIRMED, Basis.PUBLISHED)


@dataclass(frozen=True)
class Cited:
    """A source as a step or a verdict cites it; `number` counts in the list of sources."""

    number: int
    short: str
    title: str
    where: str
    trust: str
    confirmed: bool


@dataclass(frozen=True)
class Place:
    """One place of a source: what it is trusted for, and the checks that use it."""

    where: str
    trust: str
    confirmed: bool
    used_by: tuple[str, ...]


@dataclass(frozen=True)
class SourceRow:
    """One source with every place cited in it."""

    number: int
    title: str
    places: tuple[Place, ...]


def confirmed(citation: Citation) -> bool:
    """Whether a figure was seen on a page that prints it, or needs no page."""
    return citation.basis in CONFIRMED


def number_sources(citations: Iterable[Citation]) -> dict[Citation, Cited]:
    """Number the sources of some citations: standards first, then books, then papers."""
    listed = list(dict.fromkeys(citations))
    sources = sorted({citation.source for citation in listed}, key=_order)
    numbers = {source.key: number for number, source in enumerate(sources, start=1)}
    return {
        citation: Cited(
            numbers[citation.key],
            citation.key,
            citation.source.title,
            citation.where,
            citation.trust,
            confirmed(citation),
        )
        for citation in listed
    }


def source_rows(
    cited: Mapping[Citation, Cited], users: Mapping[Citation, Sequence[str]]
) -> tuple[SourceRow, ...]:
    """The list of sources.

    Args:
        cited: Every citation of the document, numbered.
        users: The checks that use each.
    """
    rows: dict[int, dict[tuple[str, str], Place]] = {}
    titles: dict[int, str] = {}
    for citation, mark in sorted(cited.items(), key=lambda pair: (pair[1].number, pair[0].where)):
        titles[mark.number] = mark.title
        places = rows.setdefault(mark.number, {})
        # Table rows cited alike, from one place and trusted the same, are one line of the list.
        alike = places.get((mark.where, mark.trust))
        before = alike.used_by if alike else ()
        used_by = tuple(dict.fromkeys((*before, *users.get(citation, ()))))
        places[mark.where, mark.trust] = Place(mark.where, mark.trust, mark.confirmed, used_by)
    return tuple(
        SourceRow(number, titles[number], tuple(places.values())) for number, places in rows.items()
    )


def _order(source: Source) -> tuple[int, str]:
    kind = KINDS.index(source.kind) if source.kind in KINDS else len(KINDS)
    return kind, source.title
