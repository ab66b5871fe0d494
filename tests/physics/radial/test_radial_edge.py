"""Edges on the insulation and gas gaps: scaling laws, ranges, tables, misuse."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.radial import cavities, edge, gas, puncture
from shedlight.sources import Basis
from shedlight.trace import calculate

capacitances = st.floats(1e-10, 1e-6)
gaps = st.floats(1e-5, 0.2)


@given(capacitances, st.floats(1.1, 10.0))
def test_edge_law_is_a_power_of_the_thickness(capacitance: float, times: float) -> None:
    thin = edge.edge_inception(8e3, capacitance)
    assert edge.edge_inception(8e3, capacitance / times) == pytest.approx(thin * times**0.45)


def test_one_centimetre_of_vacuum_gives_the_coefficient() -> None:
    assert edge.edge_inception(8e3, 8.8541878128e-12 / 0.01) == pytest.approx(8e3)


def test_the_medium_decides_the_coefficient() -> None:
    assert edge.edge_coefficient("metal", "air").coefficient == 8e3
    assert edge.edge_coefficient("metal", "oil").coefficient == 30e3
    assert edge.edge_coefficient("semiconducting", "air").coefficient == 12e3
    with pytest.raises(InputError, match="semiconducting in oil"):
        edge.edge_coefficient("semiconducting", "oil")


def test_edge_coefficients_never_fail_a_verdict() -> None:
    for row in edge.edge_coefficients():
        assert row.citation.basis is Basis.MEMORY
        assert not row.citation.may_fail
        assert row.citation.source.kind == "book"


def test_gliding_flags_small_capacitance() -> None:
    assert not calculate(edge.gliding_inception, 0.3e-8).step.beyond
    assert calculate(edge.gliding_inception, 0.2e-8).step.beyond


@given(capacitances, st.floats(1.1, 10.0))
def test_gliding_is_a_power_of_the_capacitance(capacitance: float, times: float) -> None:
    first = edge.gliding_inception(capacitance)
    assert edge.gliding_inception(capacitance * times) == pytest.approx(first * times**-0.44)


@given(gaps, st.floats(0.5, 1.2))
def test_only_density_times_gap_counts(gap: float, density: float) -> None:
    """Paschen's law."""
    for law in (edge.uniform_air_gap_breakdown, edge.paschen_breakdown):
        assert law(gap, density) == pytest.approx(law(gap * density, 1.0), rel=1e-12)


@given(gaps, st.floats(1.01, 10.0))
def test_longer_gaps_hold_more_but_less_per_length(gap: float, times: float) -> None:
    short, long = (edge.uniform_air_gap_breakdown(d, 1.0) for d in (gap, gap * times))
    assert short < long < short * times
    assert edge.paschen_breakdown(gap * times, 1.0) >= edge.paschen_breakdown(gap, 1.0)


def test_no_gas_gap_breaks_down_below_the_minimum() -> None:
    assert edge.paschen_breakdown(1e-6, 1.0) == edge.PASCHEN_MINIMUM


@pytest.mark.parametrize(
    ("law", "inside", "outside"),
    [
        (edge.uniform_air_gap_breakdown, 0.01, 0.0005),
        (edge.uniform_air_gap_breakdown, 0.2, 0.21),
        (edge.paschen_breakdown, 0.001, 0.02),
        (edge.paschen_breakdown, 10e-6, 5e-6),
    ],
)
def test_gas_laws_flag_their_range(
    law: Callable[[float, float], float], inside: float, outside: float
) -> None:
    assert not calculate(law, inside, 1.0).step.beyond
    assert calculate(law, outside, 1.0).step.beyond


@pytest.mark.parametrize("law", [edge.uniform_air_gap_breakdown, edge.paschen_breakdown])
@pytest.mark.parametrize(("gap", "density", "word"), [(0, 1, "gap"), (1e-3, 0, "density")])
def test_gas_laws_refuse_nonsense(
    law: Callable[[float, float], float], gap: float, density: float, word: str
) -> None:
    with pytest.raises(InputError, match=word):
        law(gap, density)


@given(st.floats(1e-5, 1e-2), st.floats(1.0, 5.0))
def test_a_gas_layer_in_oil_breaks_down_at_its_own_field(gap: float, eps: float) -> None:
    """Oil at the gas's field over the film factor puts just the breakdown voltage on the gas."""
    breakdown = edge.paschen_breakdown(gap, 1.0)
    limit = gas.breakdown_gradient(breakdown, gap)
    factor = cavities.film_factor(eps)
    assert gas.cavity_gradient(limit / factor, factor) * gap * 2**0.5 == pytest.approx(breakdown)


def test_puncture_grows_with_the_wall_and_flags_odd_walls() -> None:
    assert puncture.puncture_voltage(10e6, 0.016) == pytest.approx(160e3)
    assert not calculate(puncture.puncture_voltage, 10e6, 0.016).step.beyond
    assert calculate(puncture.puncture_voltage, 10e6, 0.002).step.beyond
    with pytest.raises(InputError, match="wall"):
        puncture.puncture_voltage(10e6, 0.0)
    with pytest.raises(InputError, match="gap"):
        gas.breakdown_gradient(1e3, 0.0)
    with pytest.raises(InputError, match="cavity_factor"):
        gas.cavity_gradient(1e3, 0.0)


def test_edge_laws_refuse_nonsense() -> None:
    with pytest.raises(InputError, match="coefficient"):
        edge.edge_inception(0.0, 1e-8)
    with pytest.raises(InputError, match="capacitance_per_area"):
        edge.edge_inception(8e3, -1e-8)
    with pytest.raises(InputError, match="capacitance_per_area"):
        edge.gliding_inception(0.0)
