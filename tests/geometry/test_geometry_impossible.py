"""Impossible shapes: refused by name, with what was given, what was expected and the cure."""

import math
import random
from collections.abc import Iterator
from typing import Any

import pytest
from pydantic import BaseModel, ValidationError

from geometry.bodies import FLANGE, SHEDS, Data, built, random_body
from shedlight.errors import ImpossibleShapeError, Problem
from shedlight.geometry.measures import Measures, measure
from shedlight.geometry.section import build_section
from shedlight.given.bushing import AlternatingSheds, BulkBushing
from shedlight.given.parts import Clamps, Flange, Rod, Stud, Tube
from shedlight.given.transformer import Transformer

SPOILED = 450


def named_fields() -> set[str]:
    """Dotted names of everything that can be described and shapes a body."""
    tables: dict[str, tuple[type[BaseModel], ...]] = {
        "conductor": (Rod, Tube),
        "sheds": (AlternatingSheds,),
        "fixing": (Clamps, Flange),
        "terminal": (Stud,),
    }
    names = {f"transformer.{name}" for name in Transformer.model_fields}
    for table, info in BulkBushing.model_fields.items():
        names.add(f"bushing.{table}")
        record = info.annotation
        options = (record,) if isinstance(record, type) else tables.get(table, ())
        for option in options:
            if issubclass(option, BaseModel):
                names |= {f"bushing.{table}.{name}" for name in option.model_fields}
    return names


FIELDS = named_fields()


def refusal(**changes: Any) -> ImpossibleShapeError:
    with pytest.raises(ImpossibleShapeError) as caught:
        built(**changes)
    return caught.value


CASES: list[tuple[str, dict[str, Any]]] = [
    ("bushing.conductor.diameter", {"conductor__diameter": 36e-3}),
    ("bushing.conductor.diameter", {"conductor__diameter": 40e-3}),
    ("bushing.oil_end.end_diameter", {"oil_end__end_diameter": 36e-3}),
    ("bushing.oil_end.end_diameter", {"oil_end__end_diameter": 70e-3}),
    ("bushing.oil_end.shield_diameter", {"oil_end__shield_diameter": 30e-3}),
    ("bushing.oil_end.shield_diameter", {"oil_end__stud_diameter": 60e-3}),
    ("bushing.oil_end.shield_edge_radius", {"oil_end__shield_edge_radius": 20e-3}),
    ("bushing.oil_end.taper_length", {"oil_end__taper_length": 140e-3}),
    ("bushing.oil_end.length", {"oil_end__length": 12e-3, "oil_end__taper_length": 1e-3}),
    ("transformer.hole_diameter", {"hole_diameter": 68e-3}),
    ("bushing.gasket.inner_diameter", {"hole_diameter": 79e-3}),
    ("bushing.gasket.outer_diameter", {"gasket__outer_diameter": 78.01e-3}),
    ("bushing.porcelain.collar_diameter", {"porcelain__collar_diameter": 116e-3}),
    ("bushing.fixing.stand_off", {"fixing__stand_off": 26e-3}),
    ("bushing.fixing.outer_diameter", {"fixing__outer_diameter": 119e-3}),
    ("bushing.fixing.edge_radius", {"fixing__edge_radius": 20e-3}),
    ("bushing.cap.diameter", {"cap__diameter": 60e-3}),
    ("bushing.cap.diameter", {"terminal__diameter": 80e-3}),
    ("bushing.cap.edge_radius", {"cap__edge_radius": 25e-3}),
    ("bushing.sheds.first_tip", {"sheds": SHEDS | {"first_tip": 5e-3}}),
    ("bushing.sheds.pitch", {"sheds": SHEDS | {"pitch": 10e-3}}),
    ("bushing.sheds.root_radius", {"sheds": SHEDS | {"root_radius": 30e-3}}),
    ("bushing.sheds.tip_radius", {"sheds": SHEDS | {"tip_radius": 6e-3}}),
    ("bushing.sheds.under_slope", {"sheds": SHEDS | {"under_slope": 0.6, "top_slope": 0.1}}),
    ("bushing.sheds.rib_depth", {"sheds": SHEDS | {"ribs": 1, "rib_depth": 45e-3}}),
    ("bushing.porcelain.air_length", {"porcelain__air_length": 200e-3}),
    ("bushing.porcelain.air_length", {"sheds": SHEDS | {"count": 50}}),
]


@pytest.mark.parametrize(("field", "changes"), CASES, ids=lambda value: str(value)[:60])
def test_each_impossibility_names_its_field(field: str, changes: dict[str, Any]) -> None:
    error = refusal(**changes)
    assert error.problem.field == field
    assert str(error).startswith(f"{field}: given ")
    for text in (error.problem.given, error.problem.expected, error.problem.cure):
        assert text.strip()
    assert "outline" not in error.problem.field


def test_a_body_that_widens_into_its_clamps() -> None:
    error = refusal(
        porcelain__top_wall=90e-3,
        porcelain__air_length=60e-3,
        cap__diameter=300e-3,
        sheds=None,
        fixing__stand_off=1e-3,
    )
    assert error.problem.field == "bushing.fixing.stand_off"


def test_a_shed_that_never_meets_a_steep_cone() -> None:
    steep = SHEDS | {"count": 1, "top_slope": math.radians(60), "first_tip": 20e-3}
    error = refusal(
        porcelain__wall=90e-3,
        porcelain__top_wall=10e-3,
        porcelain__air_length=80e-3,
        porcelain__collar_diameter=300e-3,
        hole_diameter=230e-3,
        gasket__inner_diameter=240e-3,
        gasket__outer_diameter=280e-3,
        fixing__outer_diameter=320e-3,
        sheds=steep,
    )
    assert error.problem.field == "bushing.sheds.top_slope"


DROOPING = SHEDS | {
    "count": 1,
    "overhang": 60e-3,
    "under_slope": math.radians(45),
    "top_slope": math.radians(46),
    "first_tip": 5e-3,
    "tip_radius": 1.5e-3,
}


def test_sheds_that_droop_through_the_clamps() -> None:
    wide = DROOPING | {"tip_thickness": 20e-3}
    error = refusal(fixing=FLANGE["fixing"] | {"outer_diameter": 400e-3}, sheds=wide)
    assert error.problem.field == "bushing.sheds.first_tip"
    assert "crosses itself" in error.problem.given


def test_sheds_that_droop_past_the_clamps_are_possible() -> None:
    section = built(sheds=DROOPING)
    assert section.sheds[0].tip_height - 4.5e-3 < section.heights.clamp_top + 1e-3
    assert math.isfinite(measure(section).arcing.length)


def test_lengths_in_messages_are_readable() -> None:
    error = refusal(porcelain__bore=0.1 / 3, conductor__diameter=0.05)
    assert error.problem.given == "conductor diameter 50 mm"
    assert error.problem.expected == "less than bore diameter 33.3333 mm"


# --- whatever is described, a measured body or a refusal comes out, and nothing else -------


def numbers(data: Data) -> Iterator[tuple[Data, str]]:
    """Every length or angle of some data, as the table it stands in and its name."""
    for name, value in data.items():
        if isinstance(value, dict):
            yield from numbers(value)
        elif isinstance(value, float):
            yield data, name


def spoiled(seed: str) -> tuple[Data, Data]:
    """A random body with one to three numbers changed: wildly, or to all but equal another."""
    bushing, transformer = random_body(seed)
    dice = random.Random(f"spoil {seed}")
    tables = {name: dict(v) if isinstance(v, dict) else v for name, v in bushing.items()}
    places = [*numbers(tables), *numbers(transformer)]
    for _ in range(dice.choice([1, 1, 2, 3])):
        table, name = dice.choice(places)
        other, source = dice.choice(places)
        sliver = dice.choice([0.0, 1e-12, 1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4]) * dice.choice(
            [1, -1]
        )
        table[name] = dice.choice(
            [
                table[name] * math.exp(dice.uniform(-3, 3)),
                table[name] * dice.uniform(0.5, 2.0),
                other[source] * dice.choice([0.5, 1.0, 1.0, 2.0]) + sliver,
            ]
        )
    if isinstance(tables["sheds"], dict) and dice.random() < 0.1:
        tables["sheds"]["count"] = dice.randint(1, 200)
    return tables, transformer


def finite(measures: Measures) -> bool:
    values = [
        measures.creepage_length,
        measures.form_factor,
        measures.arcing.length,
        measures.oil_path.length,
        measures.oil_creepage.length,
        measures.dry_creepage,
        measures.protected_90,
        measures.protected_45,
        measures.oil_volume,
        measures.porcelain_volume,
        measures.air_surface,
        measures.largest_creepage_over_air,
        *(bay.clearance for bay in measures.bays),
    ]
    return all(math.isfinite(value) for value in values)


def outcome(seed: str) -> Measures | Problem | None:
    """What comes of one spoiled description; none where its own bounds refuse it."""
    tables, transformer = spoiled(seed)
    try:
        given = BulkBushing.model_validate(tables), Transformer.model_validate(transformer)
    except ValidationError:
        return None
    try:
        return measure(build_section(*given))
    except ImpossibleShapeError as error:
        return error.problem
    except Exception as failure:
        raise AssertionError(f"body of seed {seed!r}") from failure


def test_any_description_is_measured_or_refused_by_name() -> None:
    found = {f"impossible {number}": outcome(f"impossible {number}") for number in range(SPOILED)}
    problems = {seed: item for seed, item in found.items() if isinstance(item, Problem)}
    measured = {seed: item for seed, item in found.items() if isinstance(item, Measures)}
    assert len(problems) > SPOILED / 8
    assert len(measured) > SPOILED / 8
    for seed, problem in problems.items():
        assert problem.field in FIELDS, (seed, str(problem))
        assert problem.given, seed
        assert problem.expected, seed
        assert problem.cure, seed
        assert problem.cure != "Report this shape.", seed
    for seed, measures in measured.items():
        assert finite(measures), seed
