"""Shield rings in the section: holes in the air, metal for the taut string, clear of the rest."""

import math
from pathlib import Path

import pytest
import shapely

import shedlight as sl
from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.paths import air_creepage, arcing_path
from shedlight.geometry.rings import clear_way
from shedlight.geometry.section import Section, build_section

QUAY = sl.read(Path(__file__).parents[2] / "examples" / "quay-24kv.toml")
LIVE = {"diameter": "260 mm", "tube_diameter": "40 mm", "offset": "20 mm"}
EARTH = {"diameter": "220 mm", "tube_diameter": "24 mm", "offset": "10 mm"}


def built(**changes: object) -> Section:
    case = sl.changed(QUAY, **changes)
    return build_section(case.bushing, case.transformer)


RINGED = built(bushing__live_ring=LIVE, bushing__earth_ring=EARTH)


def test_rings_are_holes_in_the_air_and_regions_of_their_own() -> None:
    bare = built()
    air, tubes = RINGED.polygon("air"), [RINGED.polygon(name) for name in RINGED.rings]

    assert RINGED.rings == ("live ring", "earth ring")
    assert bare.rings == ()
    assert len(air.interiors) == 2
    assert all(tube.is_valid for tube in tubes)
    assert not any(shapely.overlaps(air, tube) for tube in tubes)
    whole = shapely.Polygon(air.exterior)
    assert air.area + sum(tube.area for tube in tubes) == pytest.approx(whole.area, rel=1e-9)
    volume = RINGED.outline("live ring").enclosed_volume
    assert volume == pytest.approx(2 * math.pi * 0.13 * math.pi * 0.02**2, rel=1e-9)


def test_rings_stand_where_they_are_said_to() -> None:
    live, earth = RINGED.curve("live ring"), RINGED.curve("earth ring")

    assert live.start.r == pytest.approx(0.15)
    assert live.start.z == pytest.approx(RINGED.heights.cap_base - 0.02)
    assert earth.start.z == pytest.approx(RINGED.heights.clamp_top + 0.01)


def test_a_ring_takes_air_and_leaves_creepage() -> None:
    bare = built()
    ringed, plain = arcing_path(RINGED), arcing_path(bare)

    assert ringed.length < plain.length
    assert air_creepage(RINGED).length == air_creepage(bare).length
    # From tube to tube: by hand, centres 70 mm nearer together than cap and clamps, less radii.
    apart = math.hypot(0.13 - 0.11, 0.29 - 0.02 - 0.01) - 0.02 - 0.012
    assert ringed.length == pytest.approx(apart, rel=1e-3)
    assert clear_way(RINGED.curve("live ring"), [RINGED.curve("earth ring")]) == pytest.approx(
        apart, rel=1e-3
    )


@pytest.mark.parametrize(
    "changes",
    [
        {"bushing__live_ring": LIVE | {"diameter": "150 mm", "offset": "60 mm"}},
        {"bushing__live_ring": LIVE | {"diameter": "100 mm"}},
        {"bushing__earth_ring": EARTH | {"offset": "-40 mm"}},
        {"bushing__live_ring": LIVE | {"offset": "280 mm"}, "bushing__earth_ring": EARTH},
    ],
)
def test_rings_that_touch_are_refused(changes: dict[str, object]) -> None:
    with pytest.raises(ImpossibleShapeError, match=r"bushing\.(live|earth)_ring\.diameter"):
        built(**changes)


@pytest.mark.parametrize(
    ("field", "value"), [("tube_diameter", "260 mm"), ("wall", "25 mm"), ("offset", "2 m")]
)
def test_rings_that_are_none_are_refused(field: str, value: str) -> None:
    with pytest.raises(sl.InputError, match=field):
        built(bushing__live_ring=LIVE | {field: value})
