"""Water across shed gaps: the states in order, and what a thread costs."""

import math
from itertools import pairwise

import pytest

from shedlight.errors import InputError
from shedlight.physics.surface import bridging
from shedlight.sources import Basis


def test_states_follow_one_another_with_distance() -> None:
    states = [bridging.gap_in_rain(at)[0] for at in (2e-3, 15e-3, 28e-3, 40e-3, math.inf)]
    assert states == ["bridged", "bridges in heavy rain", "may bridge", "clear", "clear"]
    assert all(a.up_to < b.up_to for a, b in pairwise(bridging.shed_gaps()))


def test_the_narrowest_row_is_two_capillary_lengths_of_water() -> None:
    length = bridging.capillary_length(0.0728, 998)
    assert bridging.shed_gaps()[0].up_to == pytest.approx(2 * length, rel=0.12)


def test_no_row_may_fail_a_check_but_the_one_of_the_old_guide() -> None:
    firm = [row.state for row in bridging.shed_gaps() if row.citation.may_fail]
    assert firm == ["may bridge"]
    assert bridging.shed_gaps()[0].citation.basis is Basis.PRACTICE


def test_threads_shorten_the_way() -> None:
    assert bridging.creepage_left(0.6, 0.1, 0.04, 0) == 0.6
    assert bridging.creepage_left(0.6, 0.1, 0.04, 5) == pytest.approx(0.3)


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="distance"):
        bridging.gap_in_rain(-1.0)
    with pytest.raises(InputError, match="bridged"):
        bridging.creepage_left(0.6, 0.1, 0.04, 7)
