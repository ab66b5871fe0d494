"""What the checks say of horns: a window, an empty one, steep waves, the bushing beside them."""

import pytest

import shedlight as sl
from edits import EXAMPLES
from shedlight.checks.check import Verdict
from shedlight.checks.horns import horn_window


def assessed(name: str, **changes: object) -> sl.Assessment:
    return sl.assess(sl.changed(sl.read(EXAMPLES / f"{name}.toml"), **changes))


def told(check: sl.Check) -> str:
    return " ".join(check.notes)


def test_a_gap_in_the_window_passes_both_other_questions() -> None:
    quay = assessed("quay-24kv")
    window = horn_window(quay.workings)
    inside = assessed("quay-24kv", bushing__horns__gap=float(window.narrowest + window.widest) / 2)

    assert quay.check("horns.window").verdict is Verdict.PASS
    assert "too wide to protect" in told(quay.check("horns.window"))
    assert "lies among them" in told(inside.check("horns.window"))
    assert inside.check("horns.protection").verdict is Verdict.PASS
    assert inside.check("horns.ride-through").verdict is Verdict.PASS


@pytest.mark.parametrize(
    ("edge", "identifier"), [("widest", "protection"), ("narrowest", "ride-through")]
)
def test_at_an_edge_of_the_window_a_margin_is_zero(edge: str, identifier: str) -> None:
    window = horn_window(assessed("quay-24kv").workings)
    at_edge = assessed("quay-24kv", bushing__horns__gap=float(getattr(window, edge)))

    assert at_edge.check(f"horns.{identifier}").margin == pytest.approx(0.0, abs=1e-9)


def test_an_empty_window_says_what_conflicts_and_what_helps() -> None:
    # A low lightning level under a voltage that an earth fault lifts to its full value.
    low = {"duty__lightning_impulse": 95e3, "duty__power_frequency_dry": 55e3}
    check = assessed("quay-24kv", duty__highest_voltage=36e3, **low).check("horns.window")

    assert check.verdict is Verdict.CAUTION
    assert check.margin is not None
    assert check.margin < 0
    for words in ("No gap does both", "better earthing", "arrester"):
        assert words in told(check)


def test_a_gap_outside_the_rules_is_never_a_silent_pass() -> None:
    check = assessed("inland-12kv").check("horns.window")

    assert check.verdict is Verdict.CAUTION
    assert "outside the 50 mm to 2 m" in check.reason


def test_steep_waves_pass_over_horns_that_protect_against_full_ones() -> None:
    cured = assessed("quay-24kv-cured")

    assert cured.check("horns.protection").verdict is Verdict.PASS
    check = cured.check("horns.chopped-wave")
    assert check.verdict is Verdict.CAUTION
    assert "earth fault" in told(check)
    assert "arrester" in told(check)


def test_horns_wider_than_the_bushing_do_not_take_the_arc() -> None:
    wide = assessed("quay-24kv", bushing__horns__gap=0.28)

    assert wide.check("coordination.horns-bushing").verdict is Verdict.CAUTION
    assert assessed("quay-24kv").check("coordination.horns-bushing").verdict is Verdict.PASS


def test_thin_air_narrows_nothing_between_horns_and_bushing() -> None:
    low, high = (
        assessed("quay-24kv", site__altitude=height).check("coordination.horns-bushing").margin
        for height in (0.0, 1800.0)
    )
    assert low == pytest.approx(high)


def test_the_note_tells_the_weather_s_swing() -> None:
    check = assessed("quay-24kv").check("horns.protection")

    assert "on the hottest day" in told(check)
    assert "the coldest" in told(check)


def test_without_horns_the_window_tells_what_they_would_have_to_be() -> None:
    bare = assessed("quay-24kv", bushing__horns=None)

    assert "would have to be" in told(bare.check("horns.window"))
    assert bare.check("horns.chopped-wave").verdict is Verdict.PASS
    assert bare.check("coordination.horns-bushing").verdict is Verdict.PASS
