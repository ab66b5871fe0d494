"""The standard insulation levels: usual rows, and in-between voltages rounded up out loud."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

import shedlight as sl
from edits import edited
from shedlight.given.levels import (
    dry_level,
    dry_levels,
    levels_at,
    listed_voltage,
    rounding_remark,
    standard_levels,
    usual_level,
)
from shedlight.trace import Kind
from shedlight.workings.numbers import Description

LISTED = (3.6, 7.2, 12.0, 17.5, 24.0, 36.0, 52.0)


# IEC 60071-1, Table 2 (range I), from memory: highest voltage, usual impulse, wet, dry [kV].
@pytest.mark.parametrize(
    ("highest", "impulse", "wet", "dry"),
    [
        (3.6, 40, 10, 11),
        (7.2, 60, 20, 22),
        (12, 75, 28, 30),
        (17.5, 95, 38, 42),
        (24, 125, 50, 55),
        (36, 170, 70, 77),
        (52, 250, 95, 105),
    ],
)
def test_usual_row(highest: float, impulse: float, wet: float, dry: float) -> None:
    row = usual_level(1e3 * highest)

    assert row.highest_voltage == 1e3 * highest
    assert (row.lightning_impulse, row.power_frequency_wet) == (1e3 * impulse, 1e3 * wet)
    assert dry_level(1e3 * highest).power_frequency_dry == 1e3 * dry
    assert rounding_remark(1e3 * highest) == ""


@pytest.mark.parametrize(
    ("nominal", "row"), [(11, 12), (15, 17.5), (33, 36), (1.1, 3.6), (6, 7.2), (22, 24), (45, 52)]
)
def test_voltage_in_between_takes_the_next_row_and_says_so(nominal: float, row: float) -> None:
    voltage = 1e3 * nominal
    remark = rounding_remark(voltage)

    assert listed_voltage(voltage) == 1e3 * row
    assert usual_level(voltage) == usual_level(1e3 * row)
    assert dry_level(voltage) == dry_level(1e3 * row)
    assert f"{nominal:g} kV is not a listed highest voltage" in remark
    assert f"{row:g} kV, the next higher" in remark
    assert "nominal voltage" in remark


@pytest.mark.parametrize("nominal", [11, 15, 33])
def test_rounding_is_told_in_the_check_and_in_the_trace(nominal: float) -> None:
    case = sl.parse(edited('highest_voltage = "12 kV"', f'highest_voltage = "{nominal} kV"'))
    number = Description(case)("duty.lightning_impulse")

    assert number.step.kind is Kind.DEFAULT
    assert "not a listed highest voltage" in number.step.note
    assert any("not a listed" in note for note in sl.assess(case).check("duty.levels").notes)


@given(st.floats(1.1, 52.0))
def test_levels_never_lie_below_what_the_voltage_needs(highest: float) -> None:
    voltage = 1e3 * highest

    assert listed_voltage(voltage) >= voltage * (1 - 1e-9)
    # What differs by less than a millionth is the listed voltage, not one between.
    apart = listed_voltage(voltage) - voltage > 1e-6 * voltage
    assert bool(rounding_remark(voltage)) == apart
    # A surge to earth, and a minute at power frequency, exceed the peak of service.
    assert usual_level(voltage).lightning_impulse > voltage * 2**0.5 / 3**0.5
    assert usual_level(voltage).power_frequency_wet > voltage / 3**0.5


def test_every_listed_voltage_has_one_usual_row_and_one_dry_level() -> None:
    assert tuple(sorted({1e-3 * row.highest_voltage for row in standard_levels()})) == LISTED
    for listed in LISTED:
        rows = levels_at(1e3 * listed)
        assert sum(row.usual for row in rows) == 1
        assert sum(row.highest_voltage == 1e3 * listed for row in dry_levels()) == 1


def test_levels_grow_with_the_voltage() -> None:
    for low, high in itertools.pairwise([usual_level(1e3 * listed) for listed in LISTED]):
        assert low.lightning_impulse < high.lightning_impulse
        assert low.power_frequency_wet < high.power_frequency_wet
    for lower, higher in itertools.pairwise(dry_levels()):
        assert lower.power_frequency_dry < higher.power_frequency_dry


def test_dry_is_never_below_wet_and_both_below_the_impulse() -> None:
    for row in standard_levels():
        dry = dry_level(row.highest_voltage).power_frequency_dry
        assert row.power_frequency_wet <= dry
        if row.usual:
            assert dry * 2**0.5 < row.lightning_impulse


def test_every_row_cites_its_source() -> None:
    cited = [row.citation for row in standard_levels()] + [row.citation for row in dry_levels()]
    for citation in cited:
        assert citation.source.title
        assert citation.where


def test_default_levels_are_those_of_the_usual_row() -> None:
    duty = sl.parse(edited("[duty]", "[duty]")).duty

    assert duty.lightning_impulse == 75e3
    assert duty.power_frequency_dry == 30e3
    assert duty.power_frequency_wet == 28e3
    assert duty.short_time_current == 25 * 250


def test_short_time_current_has_its_upper_end() -> None:
    case = sl.parse(edited('rated_current = "250 A"', 'rated_current = "8 kA"'))

    assert case.duty.short_time_current == 100e3
