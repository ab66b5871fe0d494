"""Odds: without doubt they are all or nothing; with it they follow the normal law."""

import math
from pathlib import Path

import pytest
from scipy.stats import norm

import shedlight as sl
from shedlight.sizing.doubt import doubts_of

QUAY = sl.read(Path(__file__).parents[2] / "examples" / "quay-24kv.toml")
FOUND = doubts_of(QUAY, drawn=32)
ODDS = {odds.check: odds for odds in FOUND.odds}


def test_a_check_that_no_dimension_moves_follows_the_normal_law_of_its_family() -> None:
    """The cover's field hangs on the hole alone, cut to half a millimetre in 76."""
    odds = ODDS["cover.heating"]
    expected = norm.cdf(math.log1p(odds.nominal) / 0.2)
    assert odds.holds == pytest.approx(expected, abs=0.01)
    assert odds.dominant[0][0] == "Heating of the cover"


def test_more_margin_is_more_surely_held_within_one_family() -> None:
    family = [o for name, o in ODDS.items() if name.startswith("air.arcing-distance")]
    ordered = sorted(family, key=lambda odds: odds.nominal)
    assert [o.holds for o in ordered] == sorted(o.holds for o in ordered)


def test_the_body_fits_by_its_wall_and_bore_alone() -> None:
    assert {name for name, _ in ODDS["host.fit"].dominant} == {"Wall", "Bore"}
    assert ODDS["host.fit"].holds > 0.99


def test_all_together_hold_no_more_often_than_the_least_sure() -> None:
    assert 0 <= FOUND.all_hold <= FOUND.odds[0].holds + 1e-9
    assert all(0 <= odds.holds <= 1 for odds in FOUND.odds)


def test_odds_settle_as_more_bushings_are_drawn() -> None:
    """Four times as many, scrambled anew: the same odds within what scrambles differ by."""
    more = doubts_of(QUAY, drawn=128, seed=100)
    assert more.drawn == 4 * FOUND.drawn
    for odds in more.odds:
        few = ODDS[odds.check]
        assert abs(odds.holds - few.holds) <= 0.01 + 5 * math.hypot(odds.error, few.error)
    errors = [sum(odds.error for odds in found.odds) for found in (FOUND, more)]
    assert errors[1] < 0.7 * errors[0]
