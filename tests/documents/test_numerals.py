"""Numbers in print: how many digits, which signs, and that nothing is lost but digits."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from shedlight import units
from shedlight.documents.numerals import in_print, percent, shown, unit_name
from shedlight.units import amount, digits


def number_of(text: str) -> float:
    """Read a printed number back."""
    factor, _, exponent = text.replace("−", "-").partition("·10")
    raised = exponent.translate(str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789"))
    return float(f"{factor}e{raised or 0}")


@pytest.mark.parametrize(
    ("number", "text"),
    [
        (0.0, "0"),
        (-0.0, "0"),
        (24.0, "24"),
        (24.000000000000004, "24"),
        (744.09, "744.1"),
        (0.98765, "0.9877"),
        (0.99999, "1"),
        (-1.5, "−1.5"),
        (12345.6, "12346"),
        (999999.7, "1000000"),
        (1234567.0, "1.235·10⁶"),
        (1.724e-8, "1.724·10⁻⁸"),
        (-2e-12, "−2·10⁻¹²"),
        (math.inf, "∞"),
        (-math.inf, "−∞"),
    ],
)
def test_digits(number: float, text: str) -> None:
    assert digits(number) == text


@given(st.floats(-1e30, 1e30))
def test_four_digits_are_kept(number: float) -> None:
    assume(abs(number) > 1e-30)
    assert number_of(digits(number)) == pytest.approx(number, rel=5.01e-4)


@given(st.floats(1, 999999))
def test_digits_before_the_point_are_never_dropped(number: float) -> None:
    assert abs(number_of(digits(number)) - number) <= 0.5


@pytest.mark.parametrize(
    ("margin", "text"),
    [
        (0.0, "+0.0 %"),
        (-0.00001, "+0.0 %"),
        (-0.1847, "−18.5 %"),
        (0.3336, "+33.4 %"),
        (0.99949, "+99.9 %"),
        (0.9996, "+100 %"),
        (12.3456, "+1235 %"),
        (math.inf, "∞"),
    ],
)
def test_margins(margin: float, text: str) -> None:
    assert percent(margin).replace("\N{NO-BREAK SPACE}", " ") == text


def test_a_margin_beyond_all_need_is_not_told_to_the_last_digit() -> None:
    assert percent(2185274.8) == "> 10000\N{NO-BREAK SPACE}%"
    assert percent(99.0) == "+9900\N{NO-BREAK SPACE}%"


@pytest.mark.parametrize("unit", ["mm", "kV", "°C", "kV/mm", "1", "mm/kV", "°"])
def test_values_are_shown_in_their_unit(unit: str) -> None:
    value = units.si(12.34, unit)
    assert float(shown(value, unit)) == pytest.approx(units.shown_in(value, unit), rel=5e-4)


def test_several_values_stand_in_one_line() -> None:
    assert shown((0.01, 0.018), "mm") == "10; 18"


def test_a_ratio_has_no_unit() -> None:
    assert unit_name("1") == ""
    assert unit_name("mm") == "mm"


def test_quantities_as_descriptions_write_them() -> None:
    assert in_print("-5 °C") == "−5 °C"
    assert in_print("45 °") == "45°"
    assert in_print("0.2 mg/cm²") == "0.2 mg/cm²"


def test_an_amount_is_told_as_it_is_printed() -> None:
    assert amount(0.0123456, "mm") == f"{shown(0.0123456, 'mm')} mm"
    assert amount(368.15, "°C") == "95 °C"
    assert amount(0.5, "1") == "0.5"
    assert amount(math.radians(30.0), "°") == "30°"
    assert amount(-860.0, "kPa") == "−0.86 kPa"
