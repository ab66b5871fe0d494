"""Shield rings: fitted or not, thick or thin, near or far; what they take from the air."""

import pytest

import shedlight as sl
from edits import EXAMPLES
from shedlight.checks.check import Verdict
from shedlight.trace import Label, measured, out_of_range
from shedlight.workings.rings import reckoned

LIVE = {"diameter": "260 mm", "tube_diameter": "40 mm", "offset": "0 mm"}
EARTH = {"diameter": "260 mm", "tube_diameter": "25 mm", "offset": "0 mm"}
# Far enough from its neighbours for a ring, at sea level and tall enough for its air.
ROOMY = {"transformer__phase_spacing": "900 mm"}


def assessed(**changes: object) -> sl.Assessment:
    return sl.assess(sl.changed(sl.read(EXAMPLES / "quay-24kv.toml"), **(ROOMY | changes)))


def margin(found: sl.Assessment, place: str) -> float:
    value = found.check(place).margin
    assert value is not None
    return value


def test_without_rings_there_is_no_question() -> None:
    for name in ("rings.corona", "rings.clearance"):
        check = assessed().check(name)
        assert check.verdict is Verdict.PASS
        assert check.margin is None


def test_good_rings_pass_and_are_told_apart() -> None:
    found = assessed(bushing__live_ring=LIVE, bushing__earth_ring=EARTH)

    assert found.check("rings.corona").verdict is Verdict.PASS
    assert found.check("rings.corona").place == "earth ring"
    assert [rival.title for rival in found.check("rings.corona").rivals] == ["At the other ring"]
    assert found.check("rings.clearance").verdict is Verdict.PASS


def test_a_wire_for_a_ring_glows() -> None:
    wire = LIVE | {"tube_diameter": "4 mm", "wall": "1 mm", "offset": "120 mm"}
    fog_lit = assessed(
        bushing__live_ring=wire, duty__highest_voltage="52 kV", site__altitude="3000 m"
    )

    assert margin(fog_lit, "rings.corona") < margin(
        assessed(bushing__live_ring=LIVE), "rings.corona"
    )
    assert fog_lit.check("rings.corona").verdict is Verdict.CAUTION


def test_a_ring_hung_low_leaves_too_little_air() -> None:
    low = assessed(bushing__live_ring=LIVE | {"offset": "120 mm"})

    assert margin(low, "rings.clearance") < 0
    assert low.check("rings.clearance").verdict in (Verdict.FAIL, Verdict.CAUTION)
    for check in ("air.arcing-distance.lightning", "air.arcing-distance.wet-ac"):
        assert margin(low, check) < margin(assessed(), check)


def test_a_ring_reaches_towards_the_neighbour() -> None:
    before, after = assessed(), assessed(bushing__live_ring=LIVE)
    free = "clearance.phase-phase"
    one, other = after.check(free).capability, before.check(free).capability
    assert one is not None
    assert other is not None
    # 300 mm across instead of the palm's 80 mm.
    assert other - one == pytest.approx(0.300 - 0.080)


def test_rings_weigh_their_tube() -> None:
    """By hand: 3 mm of wall, 37 mm mean, 817 mm round, 2700 kg/m³."""
    found = assessed(bushing__live_ring=LIVE).workings
    (ring,) = [part for part in found.masses if part.part == "live ring"]
    assert float(ring.mass) == pytest.approx(0.003 * 0.037 * 3.1416 * 0.8168 * 2700, rel=5e-3)


def test_the_solved_field_shields_the_cap_and_knows_the_ring() -> None:
    case = sl.changed(
        sl.read(EXAMPLES / "quay-24kv.toml"), bushing__live_ring=LIVE, bushing__horns=None
    )
    bare = sl.changed(case, bushing__live_ring=None)
    ringed, plain = (sl.assess(each, with_field=True).workings.discharges for each in (case, bare))

    assert not isinstance(ringed, str)
    assert not isinstance(plain, str)
    assert ringed.cap.inception > 1.3 * plain.cap.inception
    glow = sl.assess(case).workings.rings[0].glow
    closed = sl.assess(case).workings.voltages.glow_free * glow.inception / glow.gradient
    # The closed form is the safe side, and not by far.
    assert closed < ringed.ring("live ring").inception < 1.6 * closed


@pytest.mark.parametrize(("tube", "verdict"), [("86 mm", Verdict.PASS), ("90 mm", Verdict.CAUTION)])
def test_a_tube_too_thick_for_its_ring_never_passes_in_silence(tube: str, verdict: Verdict) -> None:
    """A third of 260 mm is 86.7 mm; the earthed ring beside it is nearer to glowing."""
    fat = LIVE | {"tube_diameter": tube}
    check = assessed(bushing__live_ring=fat, bushing__earth_ring=EARTH).check("rings.corona")

    assert check.margin is not None
    assert check.margin > 0
    assert check.verdict is verdict
    assert ("thicker than a third" in check.reason) is (verdict is Verdict.CAUTION)


def test_a_third_is_still_thin_and_a_radius_still_far() -> None:
    voltage = measured(1e4, Label("Voltage", "U", "kV"), "made up")

    def remarks(ring: float, tube: float, clearance: float) -> tuple[str, ...]:
        made = [measured(x, Label("Length", "L", "mm"), "") for x in (ring, tube, clearance)]
        return out_of_range(reckoned(voltage, *made))

    assert remarks(0.3, 0.1, 0.05) == ()
    assert len(remarks(0.3, 0.101, 0.3)) == 1
    assert "nearer than its tube's radius" in remarks(0.3, 0.1, 0.049)[0]
