"""Rods, clearances, lightning and switching strength of gaps."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.air import gaps, long_gaps, tables
from shedlight.trace import calculate

short_gaps = st.floats(0.02, 2.0)
factors = st.floats(1.0, 1.9)


def test_table_points_come_back_exactly() -> None:
    for row in tables.rod_gaps():
        assert gaps.rod_gap_mean(row.gap) == pytest.approx(row.sparkover, rel=1e-12)
    for clearance in tables.minimum_clearances():
        found = gaps.clearance_for_lightning(clearance.lightning_impulse)
        assert found == pytest.approx(clearance.rod_structure, rel=1e-12)


@given(short_gaps, short_gaps)
def test_a_longer_rod_gap_holds_more(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert gaps.rod_gap_mean(low) <= gaps.rod_gap_mean(high)


@given(short_gaps)
def test_rms_is_peak_over_root_two(gap: float) -> None:
    assert gaps.rod_gap_mean_rms(gap) * math.sqrt(2) == pytest.approx(gaps.rod_gap_mean(gap))


def test_short_gaps_are_stronger_per_metre_than_the_long_law_says() -> None:
    """Trap: 530 kV/m at 86 mm says less than two thirds of what the gap holds."""
    assert gaps.lightning_mean(0.086, 1.3) < 0.67 * gaps.rod_gap_mean(0.086)
    flagged = calculate(gaps.lightning_mean, 0.086, 1.3)
    assert flagged.step.beyond == ("Gap lies outside the range of the source",)


def test_rod_table_and_clearance_table_agree_from_220_to_900_mm() -> None:
    """Two tables of different origin: the withstand of a rod gap exceeds what its length is for."""
    for row in tables.minimum_clearances():
        if 0.22 <= row.rod_structure <= 0.90:
            withstand = gaps.ten_percent(gaps.rod_gap_mean(row.rod_structure), 0.03)
            assert 1.02 <= withstand / row.lightning_impulse <= 1.045


@given(st.floats(0.05, 2.0))
def test_trade_rule_stays_within_a_fifth_of_the_table(gap: float) -> None:
    ratio = gaps.rod_gap_trade_rule(gap) / gaps.rod_gap_mean(gap)
    assert 0.98 < ratio < 1.2


@given(st.floats(1, 10), st.floats(1.0, 1.5))
def test_two_lightning_laws_agree_within_a_percent(gap: float, factor: float) -> None:
    one, other = gaps.lightning_mean(gap, factor), gaps.lightning_mean_cigre(gap, factor)
    assert one == pytest.approx(other, rel=0.012)


@given(st.floats(1, 10))
def test_negative_lightning_is_stronger_up_to_a_gap_of_ten_metres(gap: float) -> None:
    assert gaps.lightning_negative(gap, 1.0) > gaps.lightning_mean(gap, 1.0)


def test_negative_factor_has_its_step_at_1_44() -> None:
    before, after = gaps.lightning_negative(1, 1.4399), gaps.lightning_negative(1, 1.44)
    assert before == pytest.approx(950e3 * 0.78, rel=1e-4)
    assert after == pytest.approx(950e3 * 0.75)


@given(st.floats(1e3, 1e6), st.floats(0, 0.3))
def test_low_and_high_enclose_the_mean(mean: float, deviation: float) -> None:
    low, high = gaps.three_sigma_low(mean, deviation), gaps.three_sigma_high(mean, deviation)
    assert low <= gaps.ten_percent(mean, deviation) <= mean <= high
    assert (low + high) / 2 == pytest.approx(mean)


@given(short_gaps, st.floats(1e5, 4e5))
def test_wet_strength_is_proportional_to_distance(distance: float, gradient: float) -> None:
    once = gaps.wet_power_frequency(distance, gradient)
    assert gaps.wet_power_frequency(3 * distance, gradient) == pytest.approx(3 * once)


def test_wet_band_lies_below_the_dry_strength() -> None:
    low, high = (tables.wet_gradient(side).gradient for side in ("low", "high"))
    assert (low, high) == (2.3e5, 3.0e5)
    for distance in (0.2, 0.334, 1.0):
        assert gaps.wet_power_frequency(distance, high) < gaps.rod_gap_mean_rms(distance)


def test_four_switching_laws_agree_at_four_metres() -> None:
    means = [law(4.0, 1.0) for law in long_gaps.SWITCHING_MEANS.values()]
    assert len(means) == 4
    assert max(means) / min(means) < 1.02


@pytest.mark.parametrize("law", long_gaps.SWITCHING_MEANS.values(), ids=long_gaps.SWITCHING_MEANS)
@given(gap=st.floats(4.0, 5.0), factor=factors)
def test_switching_laws_grow_with_gap_and_scale_with_factor(
    law: Callable[[float, float], float], gap: float, factor: float
) -> None:
    assert law(gap * 1.01, factor) > law(gap, factor)
    assert law(gap, factor) == pytest.approx(factor * law(gap, 1.0))
    assert not calculate(law, gap, factor).step.beyond
    assert calculate(law, 0.5, factor).step.beyond


@given(st.floats(2, 15), factors)
def test_gap_for_switching_undoes_gallet(gap: float, factor: float) -> None:
    mean = long_gaps.switching_mean_gallet(gap, factor)
    assert long_gaps.gap_for_switching(mean, factor) == pytest.approx(gap)


def test_no_gap_holds_more_than_gallets_ceiling() -> None:
    with pytest.raises(InputError, match="held by no gap"):
        long_gaps.gap_for_switching(3400e3, 1.0)


def test_rod_plane_has_power_frequency_factor_one() -> None:
    assert long_gaps.power_frequency_factor(1.0) == pytest.approx(1)
    once = long_gaps.power_frequency_mean(2.0, 1.0)
    assert long_gaps.power_frequency_mean(2.0, 1.2) == pytest.approx(1.2 * once)


@given(st.floats(1.0, 3.0))
def test_power_frequency_is_stronger_than_switching(gap: float) -> None:
    """The critical switching front is the weakest stress of a long gap."""
    strongest = max(law(gap, 1.0) for law in long_gaps.SWITCHING_MEANS.values())
    assert long_gaps.power_frequency_mean(gap, 1.0) > 0.85 * strongest


@pytest.mark.parametrize(
    ("function", "inside", "outside"),
    [
        (gaps.rod_gap_mean, (0.02,), (0.019,)),
        (gaps.rod_gap_mean_rms, (2.0,), (2.01,)),
        (gaps.rod_gap_trade_rule, (0.06,), (0.04,)),
        (gaps.rod_gap_direct, (0.25,), (0.2,)),
        (gaps.lightning_mean, (1.0, 1.0), (0.9, 1.0)),
        (gaps.lightning_mean_cigre, (10.0, 1.0), (11.0, 1.0)),
        (gaps.lightning_negative, (1.0, 1.0), (0.3, 1.0)),
        (gaps.clearance_for_lightning, (20e3,), (2200e3,)),
        (long_gaps.power_frequency_mean, (1.0, 1.0), (0.5, 1.0)),
    ],
)
def test_beyond_the_source_is_flagged(
    function: Callable[..., float], inside: tuple[float, ...], outside: tuple[float, ...]
) -> None:
    assert not calculate(function, *inside).step.beyond
    assert calculate(function, *outside).step.beyond


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: gaps.rod_gap_mean(-0.1), "gap"),
        (lambda: gaps.rod_gap_mean(math.inf), "gap"),
        (lambda: gaps.lightning_mean(1.0, 0.0), "gap_factor"),
        (lambda: gaps.ten_percent(0.0, 0.03), "mean"),
        (lambda: gaps.three_sigma_low(1e5, 0.5), "deviation"),
        (lambda: gaps.clearance_for_lightning(0.0), "lightning_impulse"),
        (lambda: gaps.wet_power_frequency(0.3, 0.0), "gradient"),
        (lambda: long_gaps.switching_mean_gallet(0.0, 1.0), "gap"),
        (lambda: long_gaps.power_frequency_mean(1.0, -1.0), "power_frequency_factor"),
        (lambda: tables.wet_gradient("middle"), "side"),
        (lambda: tables.deviation("thunder"), "stress"),
    ],
)
def test_misuse_names_the_parameter(call: Callable[[], object], named: str) -> None:
    with pytest.raises(InputError, match=rf"^{named}: given .*; expected"):
        call()


def test_every_row_of_every_table_cites_a_source() -> None:
    citations = [
        *(row.citation for row in tables.rod_gaps()),
        *(row.citation for row in tables.minimum_clearances()),
        *(row.citation for row in tables.wet_gradients()),
        *(row.citation for row in tables.deviations()),
        *(row.citation for row in tables.gap_factors()),
    ]
    assert len(citations) > 60
    assert all(citation.source.title and citation.where for citation in citations)


def test_tables_grow() -> None:
    rods = [(row.gap, row.sparkover) for row in tables.rod_gaps()]
    assert rods == sorted(rods)
    levels = [(row.lightning_impulse, row.rod_structure) for row in tables.minimum_clearances()]
    assert levels == sorted(levels)
    assert all(row.low <= row.factor <= row.high for row in tables.gap_factors())


def test_lines_between_and_beyond_points() -> None:
    xs, ys = (0.0, 1.0, 3.0), (0.0, 10.0, 20.0)
    assert [tables.along(x, xs, ys) for x in (-1, 0.5, 1, 2, 5)] == [-10, 5, 10, 15, 30]
