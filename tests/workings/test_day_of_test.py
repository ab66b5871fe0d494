"""Tests in the weather of the day: standard weather changes nothing, both ways agree, bounds."""

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import shedlight as sl
from edits import EXAMPLES
from shedlight.errors import InputError
from shedlight.exchange.record import day_record
from shedlight.physics.air.weather_of_the_day import correction_factor
from shedlight.workings import Workings
from shedlight.workings.day_of_test import DayOfTest, day_of_test

STANDARD_PRESSURE, STANDARD_TEMPERATURE = 101.3e3, 293.15
STANDARD_HUMIDITY = 0.6385  # 11 g/m³ at 20 °C: 6.11 R 3.8129/(0.4615 · 293), R in %


@cache
def quay() -> Workings:
    return Workings(sl.read(EXAMPLES / "quay-24kv.toml"))


def day(pressure: float, temperature: float, humidity: float, **more: float) -> DayOfTest:
    return day_of_test(quay(), pressure, temperature, humidity, **more)


def test_the_standard_atmosphere_changes_nothing() -> None:
    found = day(STANDARD_PRESSURE, STANDARD_TEMPERATURE, STANDARD_HUMIDITY, measured=170e3)

    assert found.density == pytest.approx(1.0, rel=1e-3)
    assert 1e3 * found.humidity == pytest.approx(11.0, rel=2e-3)
    for test in found.tests:
        assert test.factor == pytest.approx(1.0, abs=2e-3)
    assert found.reading is not None
    assert found.reading.standard == pytest.approx(170e3, rel=2e-3)
    assert found.expected == pytest.approx(quay().air.lightning_mean, rel=2e-3)


def test_what_is_applied_is_corrected_back_to_the_level() -> None:
    """The single step from the day to standard undoes the repeated one from standard to the day."""
    found = day(82e3, 298.15, 0.6)
    lightning, dry, wet = found.tests
    path, density = float(quay().air.arcing), float(found.density)
    ratio = 1 + 0.010 * (1e3 * found.humidity / density - 11)
    for test, k, root in ((lightning, ratio, 1.0), (wet, 1.0, 2**0.5)):
        back = correction_factor(1.1 * root * test.apply, path, density, k).factor
        assert test.apply / back == pytest.approx(test.level, rel=1e-8)
    assert dry.apply < dry.level


def test_a_reading_is_worth_more_in_thin_air() -> None:
    assert day(82e3, 298.15, 0.6, measured=150e3).reading.standard > 150e3  # type: ignore[union-attr]


@settings(max_examples=40, deadline=None)
@given(st.floats(60e3, 108e3), st.floats(260.0, 318.0), st.floats(0.05, 0.95))
def test_every_weather_gives_a_factor_between_density_and_one_in_rain(
    pressure: float, temperature: float, humidity: float
) -> None:
    found = day(pressure, temperature, humidity)
    wet = found.tests[2]
    low, high = sorted((1.0, float(found.density)))

    assert low - 1e-9 <= wet.factor <= high + 1e-9
    assert all(test.rounds < 200 for test in found.tests)


def test_a_switching_level_is_corrected_where_one_is_asked() -> None:
    asked = sl.changed(sl.read(EXAMPLES / "quay-24kv.toml"), duty__switching_impulse=100e3)
    names = [test.name for test in day_of_test(Workings(asked), 95e3, 293.15, 0.5).tests]

    assert "switching impulse, dry, peak" in names
    assert len(day(95e3, 293.15, 0.5).tests) == 3


def test_height_is_told_apart_from_the_weather() -> None:
    quarry = Workings(sl.read(EXAMPLES / "quarry-36kv.toml"))
    notes = " ".join(day_of_test(quarry, 101.3e3, 293.15, 0.5).notes)

    assert "187.5 kV" in notes
    assert "187.5 kV" not in " ".join(day(101.3e3, 293.15, 0.5).notes)


@pytest.mark.parametrize(
    ("weather", "part"),
    [
        ((820e3, 293.15, 0.5), "pressure: given 820 kPa; expected 50 to 110 kPa"),
        ((95e3, 400.0, 0.5), "temperature: given 126.85 °C; expected -20 to 50 °C"),
        ((95e3, 293.15, 60.0), "humidity: given 6000 %; expected 0 to 100 %"),
    ],
)
def test_weather_that_no_hall_has_is_refused(
    weather: tuple[float, float, float], part: str
) -> None:
    with pytest.raises(InputError, match=part):
        day(*weather)


def test_the_record_holds_every_number_and_its_steps() -> None:
    found = day(82e3, 298.15, 0.6, measured=150e3)
    record = day_record(found)

    assert [t["test"] for t in record["tests"]] == [t.name for t in found.tests]
    assert record["tests"][0]["apply"]["value"] == pytest.approx(found.tests[0].apply / 1e3)
    assert record["reading"]["today"] == {"value": 150.0, "unit": "kV"}
    names = [step["name"] for step in record["trace"]]
    for name in ("Relative air density", "Absolute humidity", "Arcing distance"):
        assert name in names
