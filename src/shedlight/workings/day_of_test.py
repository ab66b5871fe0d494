"""Dry and wet tests in the weather of the day: what to apply, and what a reading is worth."""

from dataclasses import dataclass

from shedlight.errors import InputError
from shedlight.physics.air.atmosphere import (
    absolute_humidity,
    humidity_ratio_ac,
    humidity_ratio_impulse,
    relative_air_density,
)
from shedlight.physics.air.weather_of_the_day import (
    alternating_voltage_to_apply,
    correction_for_standard,
    factor_of_the_day,
    to_standard,
    to_the_day,
    voltage_to_apply,
)
from shedlight.trace import Label, Number, calculate, given
from shedlight.workings import Workings

PRESSURES = (50e3, 110e3)  # [Pa]
TEMPERATURES = (253.15, 323.15)  # [K]
ITERATE_BELOW = 0.95
NOTES = (
    "The length is the arcing distance, not the creepage; alternating voltage counts by its peak.",
    "Wet tests are corrected for density only.",
    "A factor below 1 tests what lies inside too mildly, one above 1 too hard: oil side and wall "
    "do not know the weather. Agree beforehand which insulation the test is to prove.",
    "The current edition of the test standard decides whether and how a test is corrected.",
)


@dataclass(frozen=True)
class DayTest:
    """One withstand test in the weather of the day [V], on the level's own basis.

    Attributes:
        name: The test, with peak or rms.
        level: Asked at standard atmosphere.
        apply: To apply today.
        factor: The correction they stand for [1].
        rounds: How often it was repeated until it stood still.
    """

    name: str
    level: Number
    apply: Number
    factor: Number
    rounds: int


@dataclass(frozen=True)
class Reading:
    """A 50 % sparkover voltage read today, and the same at standard atmosphere, peak [V]."""

    today: Number
    standard: Number


@dataclass(frozen=True)
class DayOfTest:
    """The weather of a day and what it does to the tests of one bushing.

    Attributes:
        density: Relative air density [1].
        humidity: Absolute humidity [kg/m³].
        tests: The withstand tests.
        expected: Mean lightning sparkover of the air end to expect today, peak [V].
        reading: A measured sparkover carried to standard atmosphere, if one was given.
        notes: What to keep in mind.
    """

    density: Number
    humidity: Number
    tests: tuple[DayTest, ...]
    expected: Number
    reading: Reading | None
    notes: tuple[str, ...]


def day_of_test(
    work: Workings,
    pressure: float,
    temperature: float,
    relative_humidity: float,
    measured: float | None = None,
) -> DayOfTest:
    """What to apply in each test today, and what a reading of today is worth.

    Args:
        work: What was computed for the bushing.
        pressure: Air pressure in the test hall, not reduced to sea level [Pa].
        temperature: Air temperature [K].
        relative_humidity: 0 to 1 [1].
        measured: 50 % lightning sparkover voltage read today, peak [V].

    Raises:
        InputError: weather that no hall has.
    """
    _refuse_impossible(pressure, temperature, relative_humidity)
    told = "read in the hall"
    hot = given(temperature, Label("Air temperature", "t", "°C"), told)
    barometer = given(pressure, Label("Air pressure", "p", "kPa"), told)
    damp = given(relative_humidity, Label("Relative humidity", "R", "%"), told)
    density = calculate(relative_air_density, barometer, hot)
    humidity = calculate(absolute_humidity, hot, damp)
    impulse = calculate(humidity_ratio_impulse, humidity, density)
    alternating = calculate(humidity_ratio_ac, humidity, density)
    path, volts = work.air.arcing, work.voltages
    tests = [
        _peak("lightning impulse, dry, peak", volts.lightning, path, density, impulse),
        _rms("power frequency, dry, rms", volts.dry, path, density, alternating),
        _rms("power frequency, wet, rms", volts.wet, path, density, _no_humidity()),
    ]
    if work.installation.duty.switching_impulse is not None:
        switching = work.number("duty.switching_impulse")
        tests.append(_peak("switching impulse, dry, peak", switching, path, density, impulse))
    reading = None
    if measured is not None:
        today = given(measured, Label("Sparkover read today, peak", "U_50", "kV"), told)
        reading = Reading(today, calculate(to_standard, today, path, density, impulse))
    expected = calculate(to_the_day, work.air.lightning_mean, path, density, impulse)
    return DayOfTest(density, humidity, tuple(tests), expected, reading, _notes(work))


def _notes(work: Workings) -> tuple[str, ...]:
    volts = work.voltages
    if volts.altitude_factor <= 1:
        return NOTES
    raised = (
        f"The site's height asks for {volts.required_lightning / 1e3:.1f} kV of lightning at "
        "standard atmosphere; whether the tests are raised by that is agreed with the buyer, apart "
        "from the weather of the day.",
    )
    return (*NOTES, *raised)


def _no_humidity() -> Number:
    return given(1.0, Label("Humidity correction", "k", "1"), "1 in rain")


def _peak(name: str, level: Number, path: Number, density: Number, ratio: Number) -> DayTest:
    applied = calculate(voltage_to_apply, level, path, density, ratio)
    rounds = correction_for_standard(1.1 * level, path, density, ratio).rounds
    return DayTest(name, level, applied, calculate(factor_of_the_day, applied, level), rounds)


def _rms(name: str, level: Number, path: Number, density: Number, ratio: Number) -> DayTest:
    applied = calculate(alternating_voltage_to_apply, level, path, density, ratio)
    rounds = correction_for_standard(1.1 * 2**0.5 * level, path, density, ratio).rounds
    return DayTest(name, level, applied, calculate(factor_of_the_day, applied, level), rounds)


def _refuse_impossible(pressure: float, temperature: float, relative_humidity: float) -> None:
    if not PRESSURES[0] <= pressure <= PRESSURES[1]:
        raise InputError(
            f"pressure: given {pressure / 1e3:g} kPa; expected 50 to 110 kPa. Give the pressure of "
            "the place, not the one reduced to sea level."
        )
    if not TEMPERATURES[0] <= temperature <= TEMPERATURES[1]:
        raise InputError(f"temperature: given {temperature - 273.15:g} °C; expected -20 to 50 °C")
    if not 0 <= relative_humidity <= 1:
        raise InputError(f"humidity: given {100 * relative_humidity:g} %; expected 0 to 100 %")
