"""Every citation leads to a listed source and says how far it may be trusted."""

import itertools

import pytest

from shedlight.errors import CalculationError
from shedlight.sources import Basis, Confidence, bibliography, cite, weakest

CITATIONS = [
    cite("IEC 60071-1", "Table 2", str(basis), str(confidence))
    for basis, confidence in itertools.product(Basis, Confidence)
]


def test_unlisted_source_is_refused() -> None:
    with pytest.raises(CalculationError, match="not in bibliography"):
        cite("Nobody 1900")


def test_every_source_has_a_title_and_a_kind() -> None:
    for key, source in bibliography().items():
        assert source.key == key
        assert source.title.strip()
        assert source.kind.strip()


def test_only_firm_sources_may_fail_a_check() -> None:
    assert cite("IEC 60071-1", basis="exact").may_fail
    assert cite("IEC 60071-1", basis="confirmed").may_fail
    assert cite("IEC 60071-1", basis="published").may_fail
    assert cite("IEC 60071-1", basis="memory", confidence="high").may_fail
    assert not cite("IEC 60071-1", basis="memory", confidence="medium").may_fail
    assert not cite("IEC 60071-1", basis="memory", confidence="low").may_fail
    assert not cite("IEC 60071-1", basis="practice").may_fail


def test_what_may_fail_ranks_before_what_may_not() -> None:
    firm = [citation.rank for citation in CITATIONS if citation.may_fail]
    weak = [citation.rank for citation in CITATIONS if not citation.may_fail]

    assert max(firm) < min(weak)


@pytest.mark.parametrize("one", CITATIONS)
def test_weakest_is_the_last_in_rank_whatever_the_order(one: object) -> None:
    for other in CITATIONS:
        assert weakest((one, other)).rank == weakest((other, one)).rank  # type: ignore[arg-type]
        assert weakest((one, other)).rank == max(one.rank, other.rank)  # type: ignore[attr-defined, arg-type]


def test_words_of_a_citation() -> None:
    citation = cite("IEC 60071-1", "Table 2", "memory", "medium")

    assert str(citation).endswith("Table 2")
    assert citation.trust == "memory, medium confidence"
    assert cite("IEC 60071-1", basis="exact").trust == "exact"
