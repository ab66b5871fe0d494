"""Changing an installation makes a new one, or says what is wrong with the change."""

import math
from typing import Any

import pytest

import shedlight as sl
from edits import example
from shedlight.errors import InputError
from shedlight.given.materials import material_property

CASE = sl.parse(example())


def test_change_leaves_the_old_one_alone() -> None:
    thin_air = sl.changed(CASE, site__altitude="1800 m", bushing__horns__gap=0.06)

    assert thin_air.site.altitude == 1800.0
    assert thin_air.bushing.horns is not None
    assert thin_air.bushing.horns.gap == 0.06
    assert CASE.site.altitude == 250.0
    assert sl.changed(thin_air, site__altitude=250.0, bushing__horns__gap="86 mm") == CASE


def test_defaults_follow_the_change() -> None:
    higher = sl.changed(CASE, duty__highest_voltage="24 kV")

    assert higher.duty.lightning_impulse == 125e3
    assert "lightning_impulse" not in higher.duty.model_fields_set


def test_whole_records_can_be_changed() -> None:
    tube = {"form": "tube", "metal": "brass", "diameter": "14 mm", "inner_diameter": 0.01}

    assert sl.changed(CASE, bushing__conductor=tube).bushing.conductor.form == "tube"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"site__altitude": 1e9}, "site.altitude"),
        ({"site__altitude": math.nan}, "site.altitude"),
        ({"site__altitude": math.inf}, "site.altitude"),
        ({"site__altitude": 10**400}, "site.altitude"),
        ({"site__altitude": True}, "site.altitude"),
        ({"site__altitude": "1800"}, "site.altitude"),
        ({"site__altitude__x": 1}, "site.altitude.x"),
        ({"site__altitud": 1}, "site.altitud"),
        ({"nowhere__x": 1}, "nowhere"),
        ({"site": None}, "site"),
        ({"bushing__sheds__count": 4.5}, "bushing.sheds.count"),
        ({"transformer__hole_bled": 1}, "transformer.hole_bled"),
        ({"name": ""}, "name"),
        ({"duty__neutral_earthing": "none"}, "duty.neutral_earthing"),
        ({"bushing__horns": {}}, "bushing.horns.gap"),
    ],
)
def test_change_that_cannot_be_is_refused(change: dict[str, Any], field: str) -> None:
    with pytest.raises(sl.DescriptionError) as refused:
        sl.changed(CASE, **change)

    assert refused.value.problems[0].field == field
    assert str(refused.value).startswith(f"{CASE.name}, changed, cannot be used:")


def test_material_that_is_not_listed_is_refused() -> None:
    with pytest.raises(InputError, match="no density of unobtainium"):
        material_property("unobtainium", "density")
    with pytest.raises(InputError, match="no colour of copper"):
        material_property("copper", "colour")


def test_material_property_cites_its_row() -> None:
    density = material_property("copper", "density")

    assert float(density) == 8890.0
    assert density.step.citation is not None
    assert density.step.label.unit == "kg/m³"
