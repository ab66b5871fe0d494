"""Creepage demand and profile numbers: limits, true monotonicity, tables, misuse."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.surface import creepage, profile_limits, severity
from shedlight.physics.surface.profile_limits import Deviation
from shedlight.trace import calculate
from shedlight.units import si

sizes = st.floats(0.01, 2.0)


@given(sizes, sizes)
def test_diameter_factor_never_falls_and_has_no_step(one: float, two: float) -> None:
    less, more = sorted((one, two))
    lower, upper = creepage.diameter_factor(less), creepage.diameter_factor(more)
    assert 1 <= lower <= upper
    assert upper - lower <= 0.5 * (more - less) + 1e-12


@given(sizes)
def test_the_two_editions_differ_by_less_than_the_old_step(diameter: float) -> None:
    if diameter <= 0.7:
        new, old = creepage.diameter_factor(diameter), creepage.diameter_factor_1986(diameter)
        assert abs(new - old) <= 0.1 + 1e-12


@given(sizes, sizes)
def test_average_diameter_of_equal_sheds_is_the_middle(trunk: float, shed: float) -> None:
    assert creepage.average_diameter(trunk, shed, shed) == pytest.approx((trunk + shed) / 2)


@given(st.floats(0.0, 1.0), st.floats(-100.0, 5000.0), st.floats(0.0, 2000.0))
def test_altitude_never_lowers_the_demand(m: float, altitude: float, more: float) -> None:
    low = creepage.altitude_creepage_factor(m, altitude)
    assert 1 <= low <= creepage.altitude_creepage_factor(m, altitude + more)


def test_altitude_factor_begins_at_a_thousand_metres() -> None:
    assert creepage.altitude_creepage_factor(0.5, 999.0) == 1
    assert creepage.altitude_creepage_factor(1.0, 9150.0) == pytest.approx(math.e)


def test_altitude_factor_flags_its_range() -> None:
    assert not calculate(creepage.altitude_creepage_factor, 0.5, 1800.0).step.beyond
    assert calculate(creepage.altitude_creepage_factor, 1.0, 1800.0).step.beyond
    assert calculate(creepage.altitude_creepage_factor, 0.5, 4500.0).step.beyond


@given(st.floats(1e-6, 1e-4), st.floats(1e3, 1e5))
def test_an_isolated_network_asks_for_root_three_more(specific: float, highest: float) -> None:
    service = creepage.minimum_creepage(specific, highest / math.sqrt(3), 1.0, 1.0)
    fault = creepage.minimum_creepage(specific, highest, 1.0, 1.0)
    assert fault / service == pytest.approx(math.sqrt(3))


@given(st.floats(0.01, 0.2), st.floats(0.01, 0.2))
def test_alternating_profile_of_equal_sheds_is_the_plain_one(overhang: float, pitch: float) -> None:
    per_pitch = 2 * overhang + pitch
    plain = creepage.profile_factor_plain(overhang, pitch, per_pitch)
    both = creepage.profile_factor_alternating(overhang, overhang, 2 * pitch, 2 * per_pitch)
    assert plain == pytest.approx(both) == pytest.approx(1.0)


def test_classes_grow_heavier() -> None:
    found = severity.pollution_classes()
    assert [row.letter for row in found] == list("abcde")
    assert [row.specific_creepage for row in found] == sorted(
        row.specific_creepage for row in found
    )
    assert severity.pollution_class("d").specific_creepage == pytest.approx(43.3e-6)
    assert all(row.citation.may_fail for row in found)
    with pytest.raises(InputError, match="letter"):
        severity.pollution_class("f")


@pytest.mark.parametrize(
    ("deposit", "letter"),
    [(0, "a"), (0.0249, "a"), (0.025, "b"), (0.06, "c"), (0.1, "d"), (0.2499, "d"), (9, "e")],
)
def test_class_for_deposit(deposit: float, letter: str) -> None:
    band = severity.class_for_deposit(si(deposit, "mg/cm²"))
    assert band.letter == letter
    assert not band.citation.may_fail


@pytest.mark.parametrize(
    ("salinity", "letter"), [(0, "a"), (2.4, "a"), (7, "c"), (19.9, "c"), (20, "d"), (224, "e")]
)
def test_class_for_salinity(salinity: float, letter: str) -> None:
    assert severity.class_for_salinity(salinity).letter == letter


@given(st.floats(0, 0.1), st.floats(0, 0.1))
def test_more_salt_is_never_a_lighter_class(one: float, two: float) -> None:
    light, heavy = sorted((one, two))
    assert severity.class_for_deposit(light).letter <= severity.class_for_deposit(heavy).letter


def limit(edition: str, parameter: str, **shape: bool) -> profile_limits.ProfileLimit:
    found = profile_limits.applicable_limits(edition, "c", 0.06, 1.0, **shape)
    (row,) = [row for row in found if row.parameter == parameter]
    return row


@pytest.mark.parametrize(
    ("parameter", "value", "expected"),
    [
        ("clearance", 0.030, Deviation.NONE),
        ("clearance", 0.027, Deviation.MINOR),
        ("clearance", 0.020, Deviation.MAJOR),
        ("pitch over overhang", 0.6, Deviation.MINOR),
        ("creepage over clearance", 5.0, Deviation.NONE),
        ("creepage over clearance", 5.4, Deviation.MINOR),
        ("creepage over clearance", 5.6, Deviation.MAJOR),
        ("shed angle", math.radians(15), Deviation.NONE),
        ("shed angle", math.radians(3), Deviation.MINOR),
        ("shed angle", math.radians(30), Deviation.MINOR),
        ("shed angle", math.radians(40), Deviation.MAJOR),
        ("creepage factor", 3.5, Deviation.NONE),
        ("creepage factor", 3.6, Deviation.MINOR),
        ("creepage factor", 3.8, Deviation.MAJOR),
        ("overhang difference", 0.010, Deviation.UNGRADED),
    ],
)
def test_newer_limits_are_graded(parameter: str, value: float, expected: Deviation) -> None:
    assert limit("IEC 60815-2", parameter, alternating=True).deviation(value) is expected


def test_older_limits_know_no_grades() -> None:
    assert limit("IEC 815", "clearance").deviation(0.030) is Deviation.NONE
    assert limit("IEC 815", "clearance").deviation(0.029) is Deviation.UNGRADED


def test_special_limits_go_before_general_ones() -> None:
    small = profile_limits.applicable_limits("IEC 815", "c", 0.035, 1.0)
    short = profile_limits.applicable_limits("IEC 815", "c", 0.06, 0.3)
    for found in (small, short):
        (row,) = [row for row in found if row.parameter == "clearance"]
        assert row.no_deviation.lowest == pytest.approx(0.020)
    assert limit("IEC 815", "clearance").no_deviation.lowest == pytest.approx(0.030)


def test_limits_follow_the_kind_of_sheds() -> None:
    assert limit("IEC 815", "pitch over overhang").no_deviation.lowest == 0.65
    assert limit("IEC 815", "pitch over overhang", ribbed=True).no_deviation.lowest == 0.8
    plain = profile_limits.applicable_limits("IEC 815", "c", 0.06, 1.0)
    assert "overhang difference" not in [row.parameter for row in plain]


@pytest.mark.parametrize("edition", profile_limits.EDITIONS)
@pytest.mark.parametrize("letter", "abcde")
def test_every_parameter_has_one_limit_in_every_class(edition: str, letter: str) -> None:
    found = profile_limits.applicable_limits(edition, letter, 0.06, 1.0, alternating=True)
    parameters = [row.parameter for row in found]
    assert len(parameters) == len(set(parameters))
    assert {"clearance", "pitch over overhang", "creepage factor", "shed angle"} <= set(parameters)
    assert ("profile factor" in parameters) is (edition == "IEC 815")


def test_unknown_editions_are_refused() -> None:
    with pytest.raises(InputError, match="edition"):
        profile_limits.profile_limits("IEC 1815")


MISUSE: list[tuple[Callable[..., object], tuple[float, ...], str]] = [
    (creepage.minimum_creepage, (0.0, 1.0, 1.0, 1.0), "specific_creepage"),
    (creepage.minimum_creepage, (4e-5, -1.0, 1.0, 1.0), "voltage_across"),
    (creepage.average_diameter, (0.1, 0.0, 0.2), "shed_one"),
    (creepage.diameter_factor, (0.0,), "average_diameter"),
    (creepage.diameter_factor_1986, (math.inf,), "average_diameter"),
    (creepage.altitude_creepage_factor, (-0.1, 0.0), "exponent"),
    (creepage.altitude_creepage_factor, (0.5, math.nan), "altitude"),
    (creepage.creepage_factor, (1.0, 0.0), "arcing_distance"),
    (creepage.profile_factor_plain, (0.05, 0.0, 0.2), "pitch"),
    (creepage.profile_factor_alternating, (0.05, -0.05, 0.1, 0.2), "small_overhang"),
    (severity.class_for_deposit, (-1.0,), "esdd"),
    (severity.class_for_salinity, (math.nan,), "salinity"),
]


@pytest.mark.parametrize(("function", "arguments", "word"), MISUSE)
def test_creepage_misuse_names_the_argument(
    function: Callable[..., object], arguments: tuple[float, ...], word: str
) -> None:
    with pytest.raises(InputError, match=word):
        function(*arguments)
