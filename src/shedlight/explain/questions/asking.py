"""Every question that can be asked of an installation, and what the usual mistakes would give.

The answer is a traced number of the computation; a wrong answer is the same computation with one
slip in it, so that it can be explained.
"""

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from shedlight.checks.assessment import Assessment
from shedlight.explain.facts import facts_of
from shedlight.physics.radial.layers import layer_gradient
from shedlight.trace import Kind, Number, derivation

ROOT_3, ROOT_2 = math.sqrt(3), math.sqrt(2)
WATER = 1000.0  # [kg/m³], for those who forget that oil is lighter
Slips = Mapping[str, float]


@dataclass(frozen=True)
class Asked:
    """One question: its key in the texts, its topic, the answer, and what slips would give."""

    key: str
    topic: str
    answer: Number
    slips: Slips

    @property
    def level(self) -> int:
        """1 for one formula, 2 for two or three on the way, 3 for more."""
        formulas = sum(step.kind is Kind.FORMULA for step in derivation(self.answer))
        return 1 if formulas <= 1 else 2 if formulas <= 3 else 3


Asking = Callable[[Assessment, Mapping[str, Number]], tuple[Number | None, Slips]]


def asked_of(assessment: Assessment) -> tuple[Asked, ...]:
    """Every question that an installation can answer.

    Args:
        assessment: What was computed.
    """
    return tuple(_asked(assessment))


def _asked(assessment: Assessment) -> Iterator[Asked]:
    facts = facts_of(assessment)
    for key, (topic, asking) in QUESTIONS.items():
        answer, slips = asking(assessment, facts)
        if answer is not None and answer > 0:
            yield Asked(key, topic, answer, slips)


def used(number: Number, place: int) -> float:
    """One input of the formula behind a number, by its place [SI].

    Args:
        number: A computed number.
        place: Which input, counted from 0.
    """
    value = number.step.inputs[place].value
    return value[0] if isinstance(value, tuple) else value


# --- voltages -------------------------------------------------------------------------------


def _to_earth(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["phase_voltage"]
    between = used(answer, 0)
    return answer, {
        "between phases": between,
        "divided by three": between / 3,
        "peak": ROOT_2 * answer,
        "multiplied": ROOT_3 * between,
    }


def _in_fault(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["fault_voltage"]
    factor = used(answer, 1)
    return answer, {
        "between phases": factor * ROOT_3 * facts["phase_voltage"],
        "service": float(facts["phase_voltage"]),
        "peak": ROOT_2 * answer,
    }


def _at_height(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["required_lightning"]
    level, factor = used(answer, 0), used(answer, 1)
    if factor <= 1:
        return None, {}
    return answer, {
        "not corrected": level,
        "divided": level / factor,
        "from sea level": level / float(case.workings.voltages.density),
    }


def _same_severity(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = case.workings.voltages.lightning_as_ac
    level, ratio = used(answer, 0), used(answer, 1)
    return answer, {"peak to rms": level / ROOT_2, "multiplied": level * ratio, "same": level}


# --- the wall ---------------------------------------------------------------------------------


def _oil_field(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["oil_field"]
    voltage, permittivity, radius, total = (used(answer, place) for place in range(4))
    mean = case.workings.radial.stress("oil", "oil", "service").mean
    return answer, {
        "diameter for radius": layer_gradient(voltage, permittivity, 2 * radius, total),
        "between phases": ROOT_3 * answer,
        "peak": ROOT_2 * answer,
        "mean": float(mean),
    }


def _oil_share(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    radii = case.workings.section.radii
    whole = radii.hole - radii.conductor
    return facts["oil_share"], {
        "by thickness": (radii.bore - radii.conductor) / whole,
        "better insulator": float(facts["porcelain_share"]),
        "equal shares": 1 / 3,
    }


def _per_length(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = case.workings.radial.capacitance_per_length
    return answer, {
        "common logarithm": math.log(10) * answer,
        "half a turn": answer / 2,
        "permittivity left out": answer / float(facts["oil_permittivity"]),
    }


# --- the surface ------------------------------------------------------------------------------


def _creepage(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["creepage_needed"]
    per_voltage, voltage, diameter = (used(answer, place) for place in range(3))
    return answer, {
        "between phases": ROOT_3 * answer,
        "diameter left out": per_voltage * voltage,
        "diameter divided": per_voltage * voltage / diameter,
        "peak": ROOT_2 * answer,
        "divided by three": answer / ROOT_3,
    }


def _creepage_factor(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["creepage_factor"]
    length = case.installation.bushing.porcelain.air_length
    return answer, {
        "upside down": 1 / answer,
        "height for string": used(answer, 0) / length,
        "surplus": answer - 1,
    }


def _dry_share(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    dry = facts["dry_share"]
    of_the_string = float(facts["arcing"] / facts["creepage"])
    return dry, {
        "wet for dry": 1 - dry,
        "string for dry": of_the_string,
        "both sides": dry / 2,
    }


# --- air ----------------------------------------------------------------------------------------


def _hole_in_air(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["hole_in_air"]
    diameter, clearance = used(answer, 0), used(answer, 1)
    return answer, {
        "one side": diameter + clearance,
        "conductor left out": 2 * clearance,
        "radius for diameter": diameter / 2 + clearance,
    }


def _wet_air(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["wet_withstand"]
    gradient = used(answer, 1)
    return answer, {
        "creepage for string": gradient * facts["creepage"],
        "peak": ROOT_2 * answer,
        "dry": float(facts["dry_flashover"]),
    }


def _lightning_air(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["air_withstand"]
    mean, scatter = used(answer, 0), used(answer, 1)
    return answer, {
        "mean for withstand": mean,
        "wrong side": mean * (1 + 1.2816 * scatter),
        "peak": answer / ROOT_2,
        "creepage for string": answer * facts["creepage"] / facts["arcing"],
    }


# --- oil, heat, seal ----------------------------------------------------------------------------


def _head(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts.get("oil_head")
    if answer is None or len(answer.step.inputs) != 2:
        return None, {}
    density, height = used(answer, 0), used(answer, 1)
    return answer, {
        "water for oil": answer * WATER / density,
        "from the cover": answer * float(facts["lowest_level"]) / height,
        "gravity left out": density * height,
    }


def _growth(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["oil_growth"]
    volume, expansion, change = (used(answer, place) for place in range(3))
    return answer, {
        "kelvin for difference": volume * expansion * (change + 273.15),
        "linear for cubic": 3 * answer,
        "whole volume": volume,
    }


def _loss(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["loss"]
    current = float(facts["rated_current"])
    return answer, {
        "not squared": answer / current,
        "peak": 2 * answer,
        "half": answer / 2,
        "three phases": 3 * answer,
    }


def _density(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = case.workings.heat.density
    return answer, {
        "diameter for radius": answer / 4,
        "circumference": answer * float(facts["conductor"]) / 4 * 1e3,
        "peak": ROOT_2 * answer,
        "square for circle": answer * math.pi / 4,
    }


def _compression(case: Assessment, facts: Mapping[str, Number]) -> tuple[Number | None, Slips]:
    answer = facts["compression"]
    free, pressed = float(facts["gasket_free"]), float(facts["gasket_pressed"])
    return answer, {
        "of the pressed": free / pressed - 1,
        "what is left": pressed / free,
        "millimetres": 1e3 * (free - pressed) / 100,
    }


QUESTIONS: Mapping[str, tuple[str, Asking]] = MappingProxyType(
    {
        "voltage to earth": ("voltage", _to_earth),
        "voltage in a fault": ("voltage", _in_fault),
        "level at height": ("voltage", _at_height),
        "impulse as a.c.": ("voltage", _same_severity),
        "field in the oil": ("wall", _oil_field),
        "share of the oil": ("wall", _oil_share),
        "capacitance per length": ("wall", _per_length),
        "creepage wanted": ("surface", _creepage),
        "creepage factor": ("surface", _creepage_factor),
        "dry share": ("surface", _dry_share),
        "hole in air": ("air", _hole_in_air),
        "rain along the air end": ("air", _wet_air),
        "lightning along the air end": ("air", _lightning_air),
        "head at the vent": ("oil", _head),
        "growth of the oil": ("oil", _growth),
        "loss per metre": ("heat", _loss),
        "current density": ("heat", _density),
        "compression of the gasket": ("seal", _compression),
    }
)
TOPICS = tuple(dict.fromkeys(topic for topic, _ in QUESTIONS.values()))
