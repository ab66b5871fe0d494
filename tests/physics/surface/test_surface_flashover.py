"""Flashover of wet layers: the critical state found another way, limits, trends, misuse."""

from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from shedlight.errors import InputError
from shedlight.physics.surface import constants, discs, flashover, layer, trends
from shedlight.physics.surface.profile_flashover import CriticalState, profile_critical_state
from shedlight.trace import calculate

arcs = st.tuples(st.floats(3e3, 3e4), st.floats(0.3, 0.9))
resistances = st.floats(1e3, 1e7)


@given(arcs, resistances)
def test_arc_and_layer_share_the_critical_gradient(arc: tuple[float, float], r: float) -> None:
    """E_c = A I_c^-n = r I_c: all three closed forms agree."""
    gradient = flashover.critical_gradient(*arc, r)
    current = flashover.critical_current(*arc, r)
    assert arc[0] * current ** -arc[1] == pytest.approx(gradient)
    assert r * current == pytest.approx(gradient)


@given(arcs, st.floats(0.01, 2.0), st.floats(1e2, 1e6))
def test_arc_voltage_is_the_least_over_the_current(
    arc: tuple[float, float], length: float, resistance: float
) -> None:
    constant, exponent = arc
    found = minimize_scalar(
        lambda log: constant * length * 2.0 ** (-exponent * log) + resistance * 2.0**log,
        bounds=(-40, 40),
        method="bounded",
        options={"xatol": 1e-9},
    )
    assert flashover.arc_voltage(length, resistance, *arc) == pytest.approx(found.fun, rel=1e-6)


@given(arcs, st.floats(0.1, 5.0), st.floats(0.1, 10.0), st.floats(1e-6, 1e-4))
def test_even_profile_gives_the_closed_form(
    arc: tuple[float, float], length: float, factor: float, kappa: float
) -> None:
    state = profile_critical_state((0.0, length), (0.0, factor), kappa, *arc)
    r = flashover.layer_resistance(factor, kappa, length)
    gradient = flashover.critical_gradient(*arc, r)
    assert state.voltage == pytest.approx(flashover.critical_voltage(gradient, length))
    assert state.current == pytest.approx(flashover.critical_current(*arc, r))
    assert state.arc_length == pytest.approx(length * flashover.critical_arc_fraction(arc[1]))


@given(arcs, st.lists(st.tuples(st.floats(0.01, 0.5), st.floats(0.0, 2.0)), min_size=1, max_size=8))
def test_profile_search_finds_the_largest_of_a_fine_grid(
    arc: tuple[float, float], pieces: list[tuple[float, float]]
) -> None:
    if sum(f for _, f in pieces) < 0.01:
        return
    path, factor = [0.0], [0.0]
    for length, piece in pieces:
        path.append(path[-1] + length)
        factor.append(factor[-1] + piece)
    state = profile_critical_state(path, factor, 1e-5, *arc)
    best = 0.0
    for (x0, x1), (f0, f1) in zip(pairwise(path), pairwise(factor), strict=True):
        for step in range(51):
            x, f = x0 + (x1 - x0) * step / 50, f0 + (f1 - f0) * step / 50
            rest = max(0.0, factor[-1] - f) / 1e-5
            best = max(best, flashover.arc_voltage(x, rest, *arc))
    assert best * (1 - 1e-9) <= state.voltage <= best * 1.01
    again = flashover.arc_voltage(state.arc_length, state.residual_resistance, *arc)
    assert state.voltage == pytest.approx(again)


@given(st.floats(1e-6, 1e-4), st.floats(1.1, 10.0))
def test_a_dirtier_layer_flashes_over_sooner(kappa: float, times: float) -> None:
    def state(k: float) -> CriticalState:
        return profile_critical_state((0.0, 0.2, 0.6), (0.0, 0.5, 0.9), k, 6300.0, 0.76)

    assert state(kappa * times).voltage < state(kappa).voltage
    assert state(kappa * times).current > state(kappa).current


def test_alternating_voltage_needs_more_than_direct() -> None:
    """Re-ignition raises what a layer of 1000 Ω/cm holds above the static arc's value."""
    assert flashover.rizk_gradient(1e5) > flashover.critical_gradient(6300.0, 0.76, 1e5)


@given(st.floats(1e3, 1e7), st.floats(1.1, 10.0))
def test_rizk_is_a_power_law(r: float, times: float) -> None:
    assert flashover.rizk_gradient(r * times) == pytest.approx(
        flashover.rizk_gradient(r) * times**0.4
    )


@given(st.floats(0.05, 5.0))
def test_verma_is_reignition_over_the_whole_creepage(current: float) -> None:
    specific = flashover.reignition_creepage(923.1e2, current)
    assert layer.highest_leakage_current(specific) == pytest.approx(current, rel=1e-4)
    peak = flashover.reignition_voltage(923.1e2, 0.5, 1.0, current)
    assert specific == pytest.approx(2**0.5 / peak)


@given(st.floats(0.1, 0.36), st.floats(1e-4, 1e-2), st.floats(1e-4, 1e-2))
def test_severity_laws_are_each_others_inverse(alpha: float, one: float, two: float) -> None:
    factor = trends.severity_factor(alpha, one, two)
    assert factor * trends.severity_factor(alpha, two, one) == pytest.approx(1.0)
    assert trends.scaled_specific_creepage(4e-5, alpha, one, two) == pytest.approx(4e-5 / factor)
    assert trends.severity_factor(alpha, one, one) == 1


def test_trends_flag_steep_exponents() -> None:
    assert not calculate(trends.severity_factor, 0.22, 1e-3, 5e-4).step.beyond
    assert calculate(trends.severity_factor, 0.5, 1e-3, 5e-4).step.beyond


@given(st.floats(5e-6, 3e-4), st.floats(1.1, 4.0))
def test_a_dirtier_disc_flashes_over_sooner(kappa: float, times: float) -> None:
    disc = (0.33, 0.268, 0.79, 124.8e2, 0.409)
    assert discs.cap_and_pin_voltage(kappa * times, *disc) < discs.cap_and_pin_voltage(kappa, *disc)


def test_disc_currents_agree_with_the_strip_of_equal_resistance() -> None:
    """I_c = (A/r)^(1/(n+1)) with r = 1/(pi D kappa)."""
    kappa, diameter = 2e-5, 0.268
    r = 1 / (3.141592653589793 * diameter * kappa)
    assert discs.disc_critical_current(kappa, diameter, 124.8e2, 0.409) == pytest.approx(
        flashover.critical_current(124.8e2, 0.409, r)
    )


def test_tables_of_constants() -> None:
    assert constants.arc_constants_of("Alston & Zoledziowski").constant == pytest.approx(6300)
    assert {row.for_pollution for row in constants.arc_constants()} == {True, False}
    assert all("ice" in r.regime for r in constants.arc_constants() if not r.for_pollution)
    assert constants.reignitions()[0].coefficient == pytest.approx(71600)
    for row in constants.pollution_exponents():
        assert row.lowest <= row.exponent <= row.highest
        assert not row.citation.may_fail
    with pytest.raises(InputError, match="author"):
        constants.arc_constants_of("Nobody")


MISUSE: list[tuple[Callable[..., object], tuple[object, ...], str]] = [
    (flashover.layer_resistance, (1.0, 1e-6, 0.0), "creepage"),
    (flashover.critical_gradient, (0.0, 0.5, 1e5), "arc_constant"),
    (flashover.critical_current, (6300.0, 0.76, -1.0), "layer_resistance"),
    (flashover.critical_arc_fraction, (0.0,), "arc_exponent"),
    (flashover.critical_voltage, (1.0, 0.0), "creepage"),
    (flashover.arc_voltage, (-1.0, 1.0, 6300.0, 0.76), "arc_length"),
    (flashover.rizk_gradient, (0.0,), "layer_resistance"),
    (flashover.reignition_voltage, (7e4, 0.5, 0.1, 0.0), "current"),
    (flashover.reignition_creepage, (0.0, 1.0), "coefficient"),
    (profile_critical_state, ((0.0,), (0.0,), 1e-6, 6300.0, 0.76), "points"),
    (profile_critical_state, ((0.0, 1.0), (0.0, 1.0, 2.0), 1e-6, 6300.0, 0.76), "points"),
    (profile_critical_state, ((0.1, 1.0), (0.0, 1.0), 1e-6, 6300.0, 0.76), "begin at 0"),
    (profile_critical_state, ((0.0, 1.0), (0.0, -1.0), 1e-6, 6300.0, 0.76), "begin at 0"),
    (profile_critical_state, ((0.0, 1.0), (0.0, 0.0), 1e-6, 6300.0, 0.76), "begin at 0"),
    (profile_critical_state, ((0.0, 1.0), (0.0, 1.0), 0.0, 6300.0, 0.76), "layer_conductivity"),
    (trends.severity_factor, (0.2, 0.0, 1e-3), "severity"),
    (trends.scaled_specific_creepage, (0.0, 0.2, 1e-3, 1e-3), "reference_creepage"),
    (discs.disc_critical_current, (0.0, 0.3, 1e4, 0.4), "layer_conductivity"),
    (discs.disc_crowding_factor, (0.3, 0.8, 0.4, 0.0), "critical_current"),
    (discs.disc_critical_voltage, (0.3, 0.3, 0.8, 0.0, 0.3, 1e4, 0.4), "crowding_factor"),
]


@pytest.mark.parametrize(("function", "arguments", "word"), MISUSE)
def test_flashover_misuse_names_the_argument(
    function: Callable[..., object], arguments: tuple[object, ...], word: str
) -> None:
    with pytest.raises(InputError, match=word):
        function(*arguments)
