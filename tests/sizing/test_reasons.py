"""Reasons: the value that would just do is where the margin is gone, and slopes are slopes."""

from functools import cache
from pathlib import Path

import pytest

import shedlight as sl
from shedlight.sizing.bounds import SHAPE
from shedlight.sizing.comparison import air_against_oil
from shedlight.sizing.moving import Dimension, dimensions, margins_at
from shedlight.sizing.reasons import Reason, reason_of

QUARRY = sl.read(Path(__file__).parents[2] / "examples" / "quarry-36kv.toml")
BY_PATH = {dimension.path: dimension for dimension in dimensions()}
ASKED = ("bushing.porcelain.air_length", "bushing.oil_end.length", "bushing.conductor.diameter")


@cache
def reason(path: str) -> Reason:
    values = {
        "bushing.porcelain.air_length": QUARRY.bushing.porcelain.air_length,
        "bushing.oil_end.length": QUARRY.bushing.oil_end.length,
        "bushing.conductor.diameter": QUARRY.bushing.conductor.diameter,
    }
    return reason_of(QUARRY, BY_PATH[path], values[path])


@pytest.mark.parametrize("path", ASKED)
def test_the_governing_margin_is_gone_at_the_value_that_would_just_do(path: str) -> None:
    bound = reason(path).governing
    assert bound is not None
    assert bound.check != SHAPE
    there = margins_at(QUARRY, BY_PATH[path], bound.value, (bound.check,))
    assert there is not None
    assert there[bound.check] == pytest.approx(0.0, abs=2e-3)


def test_thin_air_governs_the_air_end_of_the_quarry() -> None:
    """The demonstration's lesson: only height buys air, and some 10 mm of it are missing."""
    found = reason("bushing.porcelain.air_length")
    assert found.governing is not None
    assert found.governing.check == "air.arcing-distance.lightning"
    assert found.slack is not None
    assert -0.02 < found.slack < -0.005


def test_a_slope_is_the_difference_of_margins() -> None:
    path = "bushing.oil_end.length"
    slope = next(slope for slope in reason(path).slopes if slope.check == "oil.creep")
    longer = margins_at(QUARRY, BY_PATH[path], reason(path).value + 1e-3, ("oil.creep",))
    assert longer is not None
    assert longer["oil.creep"] - slope.margin == pytest.approx(1e-3 * slope.per_step, rel=0.02)


def test_the_air_end_is_compared_with_the_oil_end_in_numbers() -> None:
    found = air_against_oil(QUARRY, tuple(reason(path) for path in ASKED))
    assert found is not None
    assert found.ratio == pytest.approx(300 / 190)
    assert f"{found.ratio:.1f} times" in found.sentence
    assert found.needed_ratio > 1
    assert found.oil_gradient > 3 * found.air_gradient


def test_every_dimension_of_the_table_is_a_field_of_some_description() -> None:
    known = {"hole_diameter", "count"}
    for dimension in dimensions():
        assert isinstance(dimension, Dimension)
        head = dimension.path.split(".")[0]
        assert head in ("bushing", "transformer")
    assert known <= {dimension.path.rpartition(".")[2] for dimension in dimensions()}
