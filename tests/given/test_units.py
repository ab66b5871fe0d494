"""Everyday units to SI and back: exact, complete, and in step with an independent library."""

import math
from decimal import Decimal
from typing import Any

import pint
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from shedlight import units
from shedlight.errors import UnitError

ALL = tuple(units.units())
REGISTRY: Any = pint.UnitRegistry()

# How the other library spells what it does not understand as we write it.
SPELLED = {
    "A√s/mm²": "A * s**0.5 / mm**2",
    "1/K": "1 / K",
    "µ/K": "1e-6 / K",
    "Ωm²": "ohm * m ** 2",
    "Ωm": "ohm * m",
    "nΩm": "nohm * m",
    "Ω": "ohm",
    "kΩ": "kohm",
    "MΩ": "Mohm",
    "µΩ": "uohm",
    "Ω/m": "ohm / m",
    "µΩ/m": "uohm / m",
    "Ω/cm": "ohm / cm",
    "W/mK": "W / (m * K)",
    "W/m²K": "W / (m**2 * K)",
    "mK/W": "m * K / W",
    "J/kgK": "J / (kg * K)",
    "J/m³K": "J / (m**3 * K)",
    "J/mK": "J / (m * K)",
    "Wm/K": "W * m / K",
    "1/m": "1 / m",
    "1/m²": "1 / m**2",
    "K/m²": "K / m**2",
    "Kcm⁴/kA²s": "K * cm**4 / (kA**2 * s)",
    "mPas": "mPa * s",
    "°": "degree",
    "1": "dimensionless",
    "%": "percent",
    "d": "day",
}


def independent(text: str) -> Any:
    """One of a unit, in SI base units, as the other library has it."""
    spelled = SPELLED.get(text, text).replace("Nm", "N * m")
    for power, number in (("²", "**2"), ("³", "**3"), ("⁴", "**4")):
        spelled = spelled.replace(power, number)
    return REGISTRY.Quantity(spelled)


@pytest.mark.parametrize("text", [text for text in ALL if text != "°C"])
def test_factor_agrees_with_independent_library(text: str) -> None:
    unit = units.units()[text]
    base = independent(text).to_base_units()

    assert unit.offset == 0
    assert float(unit.factor) == pytest.approx(base.magnitude, rel=1e-14)


@pytest.mark.parametrize("dimension", sorted({unit.dimension for unit in units.units().values()}))
def test_units_of_a_dimension_measure_the_same(dimension: str) -> None:
    found = {
        str(independent(text).dimensionality) for text in units.accepted(dimension) if text != "°C"
    }

    assert len(found) == (0 if dimension == "temperature" else 1)


def test_celsius_agrees_with_independent_library() -> None:
    for number in (-60.0, 0.0, 25.0, 140.0):
        kelvin = REGISTRY.Quantity(number, "degC").to("kelvin").magnitude
        assert units.si(number, "°C") == pytest.approx(kelvin, rel=1e-15)


def test_nothing_is_listed_twice() -> None:
    lines = (text for text in ALL)

    assert len(set(lines)) == len(ALL)
    for unit in units.units().values():
        assert unit.factor > 0
        assert unit.dimension.strip() == unit.dimension != ""


def smallest(text: str) -> float:
    """Below this a temperature cannot be told from absolute zero by digits that anyone writes."""
    return 1e-12 if units.units()[text].offset else 0.0


@given(
    st.sampled_from(ALL),
    st.floats(allow_nan=False, allow_infinity=False, min_value=-1e250, max_value=1e250),
)
@example("mm", 0.1 + 0.2)
@example("°C", 273.15)
@example("°C", 248.15)
@example("°", math.pi / 4)
@example("mm/h", 1e-7)
@example("mm", 5e-324)
@example("mm", -0.0)
def test_every_float_reads_back_as_it_was_written(text: str, value: float) -> None:
    if 0 < abs(value) < smallest(text):
        value = smallest(text)
    written = units.write(value, text)

    assert units.parse(written, text) == value
    assert len(written) <= units.LONGEST_TEXT
    # And no shorter number would do: what people wrote is what they get back.
    assert units.write(units.parse(written, text), text) == written


@given(st.sampled_from(ALL), st.decimals(-99999, 99999, places=3, allow_nan=False))
def test_what_people_write_comes_back_unchanged(text: str, number: Decimal) -> None:
    plain = f"{number.normalize() + 0:f}"
    written = plain if text == "1" else f"{plain} {text}"

    assert units.write(units.parse(written, text), text) == written


@given(st.sampled_from(ALL), st.floats(-1e9, 1e9))
def test_shown_number_is_the_written_one(text: str, number: float) -> None:
    shown = units.shown_in(units.si(number, text), text)

    assert shown == pytest.approx(number, rel=1e-12, abs=1e-9)


@pytest.mark.parametrize(
    ("value", "unit", "told"),
    [
        (273.15, "°C", "0 °C"),
        (293.15, "°C", "20 °C"),
        (248.15, "°C", "−25 °C"),
        (0.0, "mm", "0 mm"),
    ],
)
def test_no_binary_digit_is_told(value: float, unit: str, told: str) -> None:
    assert units.amount(value, unit).replace(units.SPACE, " ") == told
    assert units.shown_in(value, unit) == float(told.replace("−", "-").split()[0])


@given(st.sampled_from(ALL), st.sampled_from(ALL))
def test_only_units_of_one_dimension_stand_for_each_other(one: str, other: str) -> None:
    known = units.units()
    text = "1" if one == "1" else f"1 {one}"
    if known[one].dimension == known[other].dimension:
        assert math.isfinite(units.parse(text, other))
    else:
        with pytest.raises(UnitError):
            units.parse(text, other)


@pytest.mark.parametrize(
    ("text", "like", "value"),
    [
        ("25 mm", "mm", 0.025),
        ("25mm", "mm", 0.025),
        ("  25   mm  ", "mm", 0.025),
        ("25\u00a0mm", "mm", 0.025),
        ("2.5 cm", "mm", 0.025),
        ("1 in", "mm", 0.0254),
        ("0,035 mg/cm²", "mg/cm²", 0.00035),
        ("0.035 mg/cm^2", "mg/cm²", 0.00035),
        (".5 kV", "kV", 500.0),
        ("5. kV", "kV", 5000.0),
        ("+1e3 V", "kV", 1000.0),
        ("\u221225 °C", "°C", 248.15),
        ("-25 degC", "°C", 248.15),
        ("5 \u03bcm", "µm", 5e-6),
        ("6,25 kA", "kA", 6250.0),
        ("0,125 m", "m", 0.125),
        ("1,25 m", "m", 1.25),
        ("1,2500 m", "m", 1.25),
        ("3", "1", 3.0),
        ("50 %", "1", 0.5),
        ("5 1/K", "1/K", 5.0),
        ("8 h", "s", 28800.0),
    ],
)
def test_reads(text: str, like: str, value: float) -> None:
    assert units.parse(text, like) == value


@pytest.mark.parametrize(
    ("text", "like", "cure"),
    [
        ("24 KV", "kV", "Did you mean kV?"),
        ("24 Kv", "kV", "Did you mean kV?"),
        ("25 MM", "mm", "Did you mean mm?"),
        ("25 millimetres", "mm", "is not known"),
        ("5 kA", "kV", "one of current"),
        ("25", "mm", 'Add the unit: "25 mm"'),
        ("1,600 A", "A", "Write 1600 or 1.600"),
        ("-1,600 A", "A", "Write -1600 or -1.600"),
        ("1 600 A", "A", "one number, then its unit"),
        ("", "mm", "one number, then its unit"),
        ("mm", "mm", "one number, then its unit"),
        ("25 25 mm", "mm", "one number, then its unit"),
        ("nan mm", "mm", "one number, then its unit"),
        ("inf mm", "mm", "one number, then its unit"),
        ("1e999 mm", "mm", "too large"),
        ("1e99999999999999999999 mm", "mm", "too large"),
        ("0x10 mm", "mm", "is not known"),
        ("25 mm" + " " * 60, "mm", "one number, then its unit"),
        ("9" * 5000, "mm", "one number, then its unit"),
        ("٢٥ mm", "mm", "one number, then its unit"),
        ("1..2 mm", "mm", "is not known"),
        ("5 V", "1", "one of voltage"),
        ("25 \x1b[31m", "mm", "is not known"),
    ],
)
def test_refuses_with_given_expected_and_cure(text: str, like: str, cure: str) -> None:
    with pytest.raises(UnitError) as refused:
        units.parse(text, like)

    assert cure in refused.value.cure
    assert refused.value.expected == units.asked_for(like)
    assert len(refused.value.given) <= 3 * units.LONGEST_TEXT
    assert str(refused.value).isprintable()


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_only_finite_numbers_are_written(value: float) -> None:
    with pytest.raises(UnitError, match="finite"):
        units.write(value, "mm")


def test_unknown_unit_in_a_program_is_refused() -> None:
    with pytest.raises(UnitError, match="known unit"):
        units.si(1.0, "furlong")
    with pytest.raises(UnitError, match="Did you mean mm"):
        units.dimension_of("MM")


def test_temperature_too_near_absolute_zero_to_be_written() -> None:
    with pytest.raises(UnitError, match="can be written"):
        units.write(1e-60, "°C")
