"""An assessment as plain data, for JSON."""

import math
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING, Any

from shedlight.checks.assessment import Assessment
from shedlight.checks.check import Check, disagreement
from shedlight.given.writing import to_data
from shedlight.trace import Number, Step, derivation, out_of_range
from shedlight.units import shown_in

if TYPE_CHECKING:  # their modules open the solver's libraries
    from shedlight.workings.field_reading import PlaceReading
    from shedlight.workings.what_ifs import WhatIf
from shedlight.workings import Workings, rooms
from shedlight.workings.day_of_test import DayOfTest


def assessment_record(assessment: Assessment) -> dict[str, Any]:
    """An assessment as numbers, texts, lists and dicts; quantities in the unit beside them.

    Args:
        assessment: What to write down.
    """
    return {
        "installation": to_data(assessment.installation),
        "verdict": str(assessment.verdict),
        "summary": assessment.verdict_sentence,
        "checks": [check_record(check) for check in assessment.by_urgency],
        "results": dict(_all_results(assessment.workings)),
    }


def check_record(check: Check) -> dict[str, Any]:
    """One check as plain data; `source` is the least trusted source the verdict rests on.

    Args:
        check: What to write down.
    """
    unit = check.question.unit or (check.demand.step.label.unit if check.demand else "")
    source = check.deciding_source
    return {
        "id": check.id,
        "part": check.question.part,
        "title": check.question.title,
        "demand": _in(check.demand, unit),
        "capability": _in(check.capability, unit),
        "unit": unit,
        "margin": _finite(check.margin),
        "verdict": str(check.verdict),
        "reason": check.reason,
        "source": str(source) if source else None,
        "basis": source.trust if source else None,
        "unconfirmed": list(check.unconfirmed),
        "place": check.place or None,
        "notes": list(check.notes),
        "rivals": [
            {
                "title": rival.title,
                "demand": _shown(rival.demand),
                "capability": _shown(rival.capability),
                "margin": _finite(rival.margin),
                "disagreement": _finite(disagreement(check, rival)),
                "why_not": rival.why_not,
            }
            for rival in check.rivals
        ],
        "trace": [_step(step) for step in check.trace],
    }


def day_record(day: DayOfTest) -> dict[str, Any]:
    """The tests of a day as plain data, every step with them.

    Args:
        day: What to write down.
    """
    numbers = [day.density, day.humidity, day.expected, *(test.apply for test in day.tests)]
    reading = None
    if day.reading is not None:
        numbers.append(day.reading.standard)
        reading = {
            "today": _shown(day.reading.today),
            "at_standard": _shown(day.reading.standard),
        }
    return {
        "density": _shown(day.density),
        "absolute_humidity": _shown(day.humidity),
        "tests": [
            {
                "test": test.name,
                "level": _shown(test.level),
                "apply": _shown(test.apply),
                "factor": float(test.factor),
                "rounds": test.rounds,
                "beyond": list(out_of_range(test.apply)),
            }
            for test in day.tests
        ],
        "expected_sparkover": _shown(day.expected),
        "reading": reading,
        "notes": list(day.notes),
        "trace": [_step(step) for step in derivation(*numbers)],
    }


def _in(number: Number | None, unit: str) -> float | None:
    return None if number is None else shown_in(number, unit or number.step.label.unit)


def _shown(number: Number) -> dict[str, Any]:
    unit = number.step.label.unit
    return {"value": shown_in(number, unit), "unit": unit}


def _finite(value: float | None) -> float | None:
    return value if value is not None and math.isfinite(value) else None


def _step(step: Step) -> dict[str, Any]:
    return {
        "kind": str(step.kind),
        "name": step.label.name,
        "value": shown_in(step.value, step.label.unit),
        "unit": step.label.unit,
        "formula": step.typeset or None,
        "source": str(step.citation) if step.citation else None,
        "basis": step.citation.trust if step.citation else None,
        "note": step.note or None,
        "beyond": list(step.beyond),
    }


def _all_results(work: Workings) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every traced number of every room."""
    for room in rooms():
        if room not in ("section", "measures"):
            yield from _results(getattr(work, room), room)


def _results(record: Any, path: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every traced number of a record, by the path it is found at."""
    if isinstance(record, Number):
        yield path, {"name": record.step.label.name, **_shown(record)}
    elif isinstance(record, tuple):
        for index, item in enumerate(record):
            yield from _results(item, f"{path}.{index}")
    elif is_dataclass(record):
        for field in fields(record):
            yield from _results(getattr(record, field.name), f"{path}.{field.name}")


def what_if_record(found: "WhatIf") -> dict[str, Any]:
    """A what-if as plain data: every number as it is and as it would be, with its unit.

    Args:
        found: What to write down.
    """
    return {
        "what_if": found.supposition.value,
        "title": found.title,
        "lesson": found.lesson,
        "stated": list(found.stated),
        "numbers": [
            {
                "name": item.words,
                "before": None if item.before is None else _shown(item.before),
                "after": None if item.after is None else _shown(item.after),
                "ratio": item.ratio,
            }
            for item in found.numbers
        ],
    }


def reading_record(found: "PlaceReading") -> dict[str, Any]:
    """A reading of the field at a place as plain data.

    Args:
        found: What to write down.
    """
    return {
        "radius": {"value": shown_in(found.radius, "mm"), "unit": "mm"},
        "height": {"value": shown_in(found.height, "mm"), "unit": "mm"},
        "region": found.region,
        "material": found.material,
        "potential": _shown(found.potential),
        "field": _shown(found.field),
        "direction": None
        if found.direction is None
        else {"value": found.direction, "unit": "°", "from": "outwards, positive upwards"},
    }
