"""Glow at cap, terminal and horns: sharper, thinner air, rain; each place by itself."""

import shedlight as sl
from edits import EXAMPLES
from shedlight.checks.check import Verdict

PLACES = ("cap.corona", "terminal.corona", "horns.corona")


def assessed(**changes: object) -> sl.Assessment:
    return sl.assess(sl.changed(sl.read(EXAMPLES / "quarry-36kv.toml"), **changes))


def margin(found: sl.Assessment, place: str) -> float:
    value = found.check(place).margin
    assert value is not None
    return value


def test_all_roundings_are_dark_in_the_demonstration() -> None:
    for place in PLACES:
        assert assessed().check(place).verdict is Verdict.PASS


def test_a_sharp_edge_glows_where_it_is_sharp_and_only_there() -> None:
    sharp = assessed(bushing__cap__edge_radius=0.0005)
    thin = assessed(bushing__horns__rod_diameter=0.003)

    assert sharp.check("cap.corona").verdict is Verdict.CAUTION
    assert margin(sharp, "horns.corona") == margin(assessed(), "horns.corona")
    assert margin(thin, "horns.corona") < margin(assessed(), "horns.corona")
    assert margin(thin, "cap.corona") == margin(assessed(), "cap.corona")


def test_thin_air_glows_sooner_everywhere() -> None:
    low = assessed(site__altitude=0.0)
    for place in PLACES:
        assert margin(low, place) > margin(assessed(), place)


def test_rain_is_told_with_each() -> None:
    for place in PLACES:
        assert "Drops hanging on it glow from" in " ".join(assessed().check(place).notes)


def test_without_horns_their_glow_is_no_question() -> None:
    bare = assessed(bushing__horns=None)

    assert bare.check("horns.corona").verdict is Verdict.PASS
    assert margin(bare, "cap.corona") == margin(assessed(), "cap.corona")
