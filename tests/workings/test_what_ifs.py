"""What-ifs: what must hold of each, beside the field as it is."""

import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest

import shedlight as sl
from shedlight.errors import RequestError
from shedlight.physics.field.profiles import profile
from shedlight.physics.field.readings import read_at
from shedlight.workings import Workings
from shedlight.workings.field import solved
from shedlight.workings.field_reading import reading_at
from shedlight.workings.what_ifs import Compared, Supposed, Supposition, WhatIf, what_if
from shedlight.workings.what_ifs.record import as_it_is

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("inland-12kv", "quay-24kv", "quarry-36kv")


@cache
def work(name: str = "quay-24kv") -> Workings:
    return Workings(sl.read(EXAMPLES / f"{name}.toml"), with_field=True)


@cache
def answer(supposition: str, name: str = "quay-24kv") -> WhatIf:
    return what_if(work(name), supposition)


def number(found: WhatIf, begins: str) -> Compared:
    return next(item for item in found.numbers if item.words.startswith(begins))


def both(found: WhatIf, begins: str) -> tuple[float, float]:
    item = number(found, begins)
    assert item.before is not None
    assert item.after is not None
    return float(item.before), float(item.after)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("supposition", list(Supposition))
def test_every_supposition_has_numbers_with_traces_and_a_lesson(
    supposition: str, name: str
) -> None:
    found = answer(supposition, name)

    assert found.supposition == supposition
    assert found.stated
    assert found.lesson.endswith(".")
    assert len(found.numbers) >= 2
    for item in found.numbers:
        for value in (item.before, item.after):
            assert value is None or (math.isfinite(value) and value.step.label.name)
        if item.before is not None and item.after is not None:
            assert item.before.step.label.unit == item.after.step.label.unit


def test_without_a_bushing_only_the_gap_in_the_hole_is_left() -> None:
    found, section = answer("no-bushing"), work().section

    way = both(found, "Shortest way")
    assert way[1] == pytest.approx(section.radii.hole - section.radii.conductor)
    assert way[0] == pytest.approx(float(work().air.arcing))


def test_without_a_bushing_the_middle_of_a_thick_hole_is_a_coaxial_tube() -> None:
    """In a hole far deeper than wide, the field is U/(r ln(b/a)) away from its rims and oil."""
    deep = sl.changed(work().installation, transformer__cover_thickness="80 mm")
    found = what_if(Workings(deep, with_field=True), "no-bushing")
    assert found.after is not None
    solution, radii = solved(found.after, 1e-5), work().section.radii
    expected = 1 / (radii.conductor * math.log(radii.hole / radii.conductor))
    seen = profile(solution, "conductor in oil", "tank oil")
    middle = abs(seen.points[:, 1] + 0.04 + 0.004).argmin()

    assert seen.strength[middle] == pytest.approx(expected, rel=0.03)


def test_sheds_are_creepage_and_little_else() -> None:
    found = answer("no-sheds")
    creepage = both(found, "Creepage")

    assert creepage[1] == pytest.approx(0.290, rel=1e-3)
    assert creepage[1] < 0.6 * creepage[0]
    for begins in ("Capacitance", "Streamer inception at the clamps", "Streamer inception at the"):
        now, then = both(found, begins)
        assert then == pytest.approx(now, rel=0.06)
    assert f"{100 * (1 - creepage[1] / creepage[0]):.0f} %" in found.lesson


def test_gas_round_the_conductor_bears_less_than_oil() -> None:
    found = answer("oil-drained")

    oil, gas = both(found, "Voltage at which")
    assert gas < oil / 2
    full, drained = both(found, "Capacitance")
    assert drained < full
    field = both(found, "Largest field at the conductor")
    assert field[1] > field[0]


def test_levels_are_told_apart_for_tank_and_bushing() -> None:
    found = what_if(work(), "oil-drained", Supposed(tank_level=-0.06, cavity_level=0.1))

    assert "-60 mm" in found.stated[0]
    assert "+100 mm" in found.stated[0]


def test_oil_above_everything_leaves_the_conductor_in_oil() -> None:
    found = what_if(work(), "oil-drained", Supposed(tank_level=3.0, cavity_level=3.0))

    assert number(found, "Largest field at the conductor").after is None
    assert "still stands in oil" in found.lesson
    full, same = both(found, "Capacitance")
    assert same == pytest.approx(full, rel=1e-9)


def test_a_conductor_off_the_middle_has_bounds_and_no_field() -> None:
    found = answer("off-centre")

    assert found.after is None
    hole, bore = (
        both(found, f"Largest field at the conductor, tube at the {w}") for w in ("hole", "bore")
    )
    assert (
        hole[0]
        == bore[0]
        == pytest.approx(float(work().radial.stress("oil", "oil", "service").inner))
    )
    assert hole[0] < hole[1] < bore[1]
    centred = what_if(work(), "off-centre", Supposed(offset=0.0))
    assert [item.ratio for item in centred.numbers] == [1.0, 1.0]


@pytest.mark.parametrize("offset", [0.008, 0.5, -0.001])
def test_a_conductor_that_touches_the_bore_is_refused(offset: float) -> None:
    with pytest.raises(RequestError, match="offset"):
        what_if(work(), "off-centre", Supposed(offset=offset))


def test_what_is_not_known_or_has_no_field_is_refused() -> None:
    with pytest.raises(RequestError, match="no-bushing"):
        what_if(work(), "no-gravity")
    with pytest.raises(RequestError, match="not solved"):
        what_if(Workings(work().installation), "no-bushing")


@pytest.mark.parametrize(
    ("radius", "height", "region", "material"),
    [
        (0.045, 0.120, "air", "air"),
        (0.015, 0.100, "oil", "oil"),
        (0.025, 0.100, "porcelain", "porcelain C-120"),
        (0.100, -0.100, "tank oil", "oil"),
    ],
)
def test_a_reading_is_the_solution_at_that_place(
    radius: float, height: float, region: str, material: str
) -> None:
    found, voltage = reading_at(work(), radius, height), float(work().voltages.phase)
    read = read_at(solved(as_it_is(work())), np.array([radius]), np.array([height]))

    assert (found.region, found.material) == (region, material)
    assert found.potential == pytest.approx(abs(read.potential[0]) * voltage)
    assert found.field == pytest.approx(float(read.strength[0]) * voltage)
    assert found.field.step.inputs


def test_between_conductor_and_hole_the_field_points_outwards() -> None:
    found = reading_at(work(), 0.015, -0.005)

    assert found.direction == pytest.approx(0.0, abs=5.0)


def test_metal_stands_at_its_own_potential_without_field() -> None:
    live, earth = reading_at(work(), 0.005, 0.1), reading_at(work(), 0.3, -0.005)

    assert (live.region, earth.region) == ("conductor", "cover")
    assert live.potential == pytest.approx(float(work().voltages.phase))
    assert (earth.potential, live.field, earth.field) == (0.0, 0.0, 0.0)
    assert live.direction is None


@pytest.mark.parametrize(("radius", "height"), [(-0.01, 0.1), (1e3, 0.0), (0.1, 1e4)])
def test_places_beyond_the_section_are_refused(radius: float, height: float) -> None:
    with pytest.raises(RequestError, match="place"):
        reading_at(work(), radius, height)
