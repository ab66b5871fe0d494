"""Ways through air between sheds: seen, shorter, and over short sheds."""

import pytest

from geometry.bodies import SHEDS, SMOOTH, built
from shedlight.geometry.leaps import air_ways
from shedlight.geometry.paths import air_creepage

BODY = built()
PATH = air_creepage(BODY)


def test_from_tip_to_tip_it_is_the_pitch() -> None:
    ways = air_ways(PATH, BODY.sheds)
    between = [way for way in ways if way.start > 0 and way.end < PATH.length]
    assert len(between) == SHEDS["count"] - 1
    for way in between:
        assert way.way == pytest.approx(SHEDS["pitch"], rel=1e-6)
        assert way.saved == pytest.approx(way.end - way.start - SHEDS["pitch"])
        assert way.saved > 0


def test_both_ends_are_reached_from_the_next_shed() -> None:
    first, *_, last = air_ways(PATH, BODY.sheds)
    assert first.start == 0
    assert last.end == pytest.approx(PATH.length)
    assert len(air_ways(PATH, BODY.sheds)) == SHEDS["count"] + 1
    assert min(first.saved, last.saved) > 0


def test_a_short_shed_between_is_leapt_over() -> None:
    sheds = SHEDS | {"form": "alternating", "short_overhang": 18e-3, "count": 5}
    body = built(sheds=sheds)
    path = air_creepage(body)
    ways = air_ways(path, body.sheds)
    over = [way for way in ways if way.way == pytest.approx(2 * SHEDS["pitch"], rel=1e-3)]
    assert over


def test_without_sheds_there_is_none() -> None:
    smooth = built(**SMOOTH)
    assert not air_ways(air_creepage(smooth), smooth.sheds)
