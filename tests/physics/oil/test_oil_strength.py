"""Oil gaps, surfaces and volumes: scaling laws, tables, ranges, misuse."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.oil import curves, strength
from shedlight.trace import calculate


@given(st.floats(1e-3, 0.05), st.floats(1.01, 10.0))
def test_a_wider_gap_holds_more_voltage_at_less_field(gap: float, times: float) -> None:
    for row in curves.gap_curves():
        narrow, wide = (
            strength.gap_strength(d, row.coefficient, row.exponent) for d in (gap, gap * times)
        )
        assert wide == pytest.approx(narrow * times**-row.exponent)
        assert wide < narrow < wide * times


def test_a_millimetre_gives_the_coefficient() -> None:
    assert strength.gap_strength(1e-3, 14.2e6, 0.36) == pytest.approx(14.2e6)
    assert strength.creep_strength(1e-3) == pytest.approx(16.6e6)
    assert strength.stressed_volume_strength(1e-6) == pytest.approx(17.9e6)


@given(st.floats(1e-3, 0.05))
def test_the_default_curve_is_the_weakest(gap: float) -> None:
    default = curves.default_gap_curve()
    assert (default.oil, default.electrodes) == ("gas-saturated", "bare")
    weakest = min(
        strength.gap_strength(gap, row.coefficient, row.exponent) for row in curves.gap_curves()
    )
    assert strength.gap_strength(gap, default.coefficient, default.exponent) == weakest


@given(st.floats(5e-3, 0.05))
def test_a_surface_holds_less_than_degassed_oil(length: float) -> None:
    oil = curves.gap_curve("degassed", "covered")
    assert strength.creep_strength(length) < strength.gap_strength(
        length, oil.coefficient, oil.exponent
    )


def test_oil_figures_never_fail_a_verdict() -> None:
    citations = [row.citation for row in curves.gap_curves()]
    citations += [row.citation for row in curves.surface_limits()]
    citations += [curves.conversion("lightning impulse").citation]
    assert not any(citation.may_fail for citation in citations)


def test_surface_limits_default_to_the_most_cautious() -> None:
    default, *others = sorted(curves.surface_limits(), key=lambda row: row.lowest)
    assert default.is_default
    assert not any(row.is_default for row in others)
    assert all(row.lowest < row.highest for row in curves.surface_limits())


def test_conversions_lie_in_their_ranges() -> None:
    for stress in ("lightning impulse", "switching impulse", "one hour"):
        found = curves.conversion(stress)
        assert found.lowest <= found.ratio <= found.highest
    assert curves.conversion("lightning impulse").ratio == 2.6
    with pytest.raises(InputError, match="thunder"):
        curves.conversion("thunder")


def test_unknown_curves_are_refused() -> None:
    with pytest.raises(InputError, match="wet bare"):
        curves.gap_curve("wet", "bare")


def test_ranges_are_flagged() -> None:
    assert not calculate(strength.gap_strength, 0.008, 14.2e6, 0.36).step.beyond
    assert calculate(strength.gap_strength, 0.08, 14.2e6, 0.36).step.beyond
    assert calculate(strength.creep_strength, 0.001).step.beyond
    assert calculate(strength.creep_strength, 0.25).step.beyond
    assert calculate(strength.stressed_volume_strength, 0.2).step.beyond
    assert not calculate(strength.impulse_equivalent, 125e3).step.beyond
    assert calculate(strength.impulse_equivalent, 125e3, 2.0).step.beyond


@given(st.floats(0.1, 2.0), st.floats(2.0, 20.0), st.floats(0.1, 1e3))
def test_size_and_probability_say_the_same(gradient: float, shape: float, volume: float) -> None:
    """Lowering the field by the size factor keeps the probability."""
    scaled = gradient * strength.volume_factor(volume, shape)
    assert strength.weibull_probability(scaled, 1.0, shape, volume) == pytest.approx(
        strength.weibull_probability(gradient, 1.0, shape, 1.0), rel=1e-9
    )


@given(st.floats(0.1, 1.0), st.floats(2.0, 20.0), st.floats(0.1, 10.0))
def test_parts_survive_together(gradient: float, shape: float, volume: float) -> None:
    one = 1 - strength.weibull_probability(gradient, 1.0, shape, volume)
    both = 1 - strength.weibull_probability(gradient, 1.0, shape, 2 * volume)
    assert both == pytest.approx(one**2, abs=1e-12)


MISUSE: list[tuple[Callable[..., object], tuple[float, ...], str]] = [
    (strength.gap_strength, (0.0, 14.2e6, 0.36), "gap"),
    (strength.gap_strength, (0.01, 14.2e6, -0.36), "exponent"),
    (strength.creep_strength, (-0.01,), "path"),
    (strength.stressed_volume_strength, (0.0,), "volume"),
    (strength.impulse_equivalent, (125e3, 0.0), "ratio"),
    (strength.weibull_probability, (1.0, 0.0, 5.0, 1.0), "scale"),
    (strength.volume_factor, (math.nan, 5.0), "volume_ratio"),
]


@pytest.mark.parametrize(("function", "arguments", "word"), MISUSE)
def test_oil_strength_misuse_names_the_argument(
    function: Callable[..., object], arguments: tuple[float, ...], word: str
) -> None:
    with pytest.raises(InputError, match=word):
        function(*arguments)
