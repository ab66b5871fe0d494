"""The same conductor through the same hole with no bushing."""

import math
from pathlib import Path

import pytest

from shedlight.geometry.section import build_section
from shedlight.given.reading import read
from shedlight.physics.field.adapt import solve
from shedlight.physics.field.summary import regions_of
from shedlight.workings.bare_conductor import bare_conductor
from shedlight.workings.field import fillings_of

EXAMPLE = Path(__file__).parents[2] / "examples" / "quarry-36kv.toml"


def test_without_a_bushing_the_rim_of_the_hole_is_stressed_as_a_coaxial_tube_and_more() -> None:
    installation = read(EXAMPLE)
    section = build_section(installation.bushing, installation.transformer)
    problem = bare_conductor(section, fillings_of(installation), 50.0)
    solution = solve(problem, 1e-3)
    rod, hole = section.radii.conductor, section.radii.hole
    tube = 1 / (hole * math.log(hole / rod))
    air = next(region for region in regions_of(solution) if region.region == "air")
    assert tube < air.largest < 8 * tube
    assert air.edge in ("cover in air", "conductor in air")
    assert air.place.r == pytest.approx(hole, rel=0.1) or air.place.r == pytest.approx(rod)
