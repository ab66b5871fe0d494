"""The conductor between hot oil and cool air."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.integrate import quad, solve_bvp

from shedlight.errors import InputError
from shedlight.physics.heat import fin, fin_flow
from shedlight.physics.heat.fin_state import FinState

Array = NDArray[np.float64]

AREA = math.pi / 4 * 0.03**2
CONDUCTION = 385 * AREA
RESISTANCE = 1.7241e-8 / AREA
ALPHA = 0.00393
AIR = 313.15
OIL = 363.15

temperatures = st.floats(250, 400)
lengths = st.floats(0.1, 3)
coefficients = st.floats(-0.8, 200)  # -0.8 keeps a 3 m conductor below runaway
sources = st.floats(0, 2000)


def fin_at(current: float) -> tuple[float, float]:
    """Coefficient and source of a 30 mm copper rod with 2 W/mK to 40 °C."""
    return (
        fin.fin_coefficient(2.0, current, RESISTANCE, ALPHA, CONDUCTION),
        fin.fin_source(current, RESISTANCE, ALPHA, AIR, CONDUCTION),
    )


@st.composite
def states(draw: st.DrawFn) -> FinState:
    return FinState(
        draw(coefficients),
        draw(sources),
        draw(temperatures),
        draw(temperatures),
        draw(temperatures),
        draw(lengths),
    )


@given(states())
def test_ends_have_the_temperatures_given(state: FinState) -> None:
    assert state.temperature(0.0) == pytest.approx(state.oil_end)
    assert state.temperature(state.length) == pytest.approx(state.terminal)


@given(states())
def test_heat_is_balanced(state: FinState) -> None:
    """What flows in at the ends and is made equals what leaves through the side."""

    def leaving(place: float) -> float:
        rise = state.temperature(place) - state.surroundings
        return state.coefficient * rise - state.source

    side, _ = quad(leaving, 0.0, state.length, epsabs=1e-9, epsrel=1e-9)
    ends = state.oil_end_flow(1.0) - state.terminal_flow(1.0)
    scale = abs(state.oil_end_flow(1.0)) + abs(state.terminal_flow(1.0)) + abs(side) + 1
    assert ends - side == pytest.approx(0, abs=1e-7 * scale)


@given(states(), st.floats(0.02, 0.98))
def test_slope_is_the_slope(state: FinState, share: float) -> None:
    place, step = share * state.length, 1e-5 * state.length
    ahead, behind = state.temperature(place + step), state.temperature(place - step)
    numeric = (ahead - behind) / (2 * step)
    scale = abs(state.slope(0)) + abs(state.slope(state.length)) + 1
    assert state.slope(place) == pytest.approx(numeric, abs=1e-4 * scale)


@given(states())
def test_nothing_is_hotter_than_the_hot_spot(state: FinState) -> None:
    assert 0 <= state.hot_spot_place <= state.length
    for share in (0, 0.1, 0.25, 0.4, 0.5, 0.6, 0.75, 0.9, 1):
        assert state.temperature(share * state.length) <= state.hot_spot + 1e-9


@given(states())
def test_turned_round_it_is_the_same_fin(state: FinState) -> None:
    turned = FinState(
        state.coefficient,
        state.source,
        state.surroundings,
        state.terminal,
        state.oil_end,
        state.length,
    )
    assert turned.hot_spot == pytest.approx(state.hot_spot)
    for share in (0.2, 0.5, 0.7):
        there = state.temperature((1 - share) * state.length)
        assert turned.temperature(share * state.length) == pytest.approx(there)


@given(temperatures, temperatures, temperatures, sources, lengths, st.floats(0, 1))
def test_three_branches_meet_at_zero(
    around: float, oil: float, top: float, source: float, length: float, share: float
) -> None:
    near = [FinState(b, source, around, oil, top, length) for b in (-1e-7, 0.0, 1e-7)]
    values = [state.temperature(share * length) for state in near]
    assert max(values) - min(values) < 1e-6 * (1 + source * length**4 + abs(oil) + abs(top))
    slopes = [state.slope(share * length) for state in near]
    assert max(slopes) - min(slopes) < 1e-6 * (1 + source * length**3 + abs(oil) + abs(top))


@pytest.mark.parametrize("current", [1000.0, 2000.0, 4000.0, 4700.0])
def test_closed_form_agrees_with_a_collocation_solver(current: float) -> None:
    b, s = fin_at(current)
    state = FinState(b, s, AIR, OIL, 343.15, 1.5)

    def rates(_: Array, y: Array) -> Array:
        return np.vstack((y[1], b * (y[0] - AIR) - s))

    def ends(left: Array, right: Array) -> Array:
        return np.array((left[0] - OIL, right[0] - 343.15))

    start = np.linspace(0.0, 1.5, 200)
    solved = solve_bvp(rates, ends, start, np.full((2, 200), 350.0), tol=1e-8, max_nodes=20_000)
    assert solved.success
    for place in (0.2, 0.75, 1.3):
        assert state.temperature(place) == pytest.approx(solved.sol(place)[0], rel=1e-7)


def test_a_long_fin_reaches_its_ultimate_rise_and_never_overflows() -> None:
    b, s = fin_at(1000.0)
    state = FinState(b, s, AIR, OIL, 343.15, 5000.0)
    assert state.temperature(2500.0) - AIR == pytest.approx(fin.fin_ultimate_rise(s, b))
    assert state.slope(2500.0) == pytest.approx(0, abs=1e-12)
    assert state.hot_spot == OIL


def test_the_oil_end_is_hottest_until_the_conductor_heats_the_oil() -> None:
    for current in (0.0, 1000.0, 1600.0, 2000.0, 3000.0):
        b, s = fin_at(current)
        top = fin.fin_end_temperature(b, s, AIR, OIL, 1.5, CONDUCTION, 1.5, AIR, 0.0)
        flow = fin_flow.fin_oil_end_flow(b, s, AIR, OIL, top, 1.5, CONDUCTION)
        place = fin_flow.fin_hot_spot_place(b, s, AIR, OIL, top, 1.5)
        assert (flow < 0) == (place > 0)
        hot = fin.fin_hot_spot(b, s, AIR, OIL, top, 1.5)
        assert hot == fin_flow.fin_temperature(b, s, AIR, OIL, top, 1.5, place)


@given(st.floats(0, 4000), st.floats(0.1, 10), st.floats(0, 50), st.floats(280, 320))
def test_the_terminal_gives_off_what_reaches_it(
    current: float, conductance: float, contact: float, air: float
) -> None:
    b, s = fin_at(current)
    top = fin.fin_end_temperature(b, s, AIR, OIL, 1.5, CONDUCTION, conductance, air, contact)
    arriving = fin_flow.fin_terminal_flow(b, s, AIR, OIL, top, 1.5, CONDUCTION) + contact
    assert arriving == pytest.approx(conductance * (top - air), rel=1e-6, abs=1e-6)


@given(st.floats(0, 3900))
def test_more_current_is_never_cooler(current: float) -> None:
    tops = []
    for amperes in (current, current + 100):
        b, s = fin_at(amperes)
        tops.append(fin.fin_end_temperature(b, s, AIR, OIL, 1.5, CONDUCTION, 1.5, AIR, 0.0))
    assert tops[1] > tops[0]


def test_no_current_no_warm_ends_no_rise() -> None:
    b, s = fin_at(0.0)
    assert s == 0
    assert fin.fin_end_temperature(b, s, AIR, AIR, 1.5, CONDUCTION, 1.5, AIR, 0.0) == AIR


@given(sources, lengths)
def test_without_sides_the_shape_is_the_parabola(source: float, length: float) -> None:
    state = FinState(0.0, source, AIR, AIR, AIR, length)
    highest = fin.parabola_rise(source * CONDUCTION, length, CONDUCTION)
    assert state.temperature(length / 2) - AIR == pytest.approx(highest, abs=1e-9)


@given(st.floats(0.1, 200), sources, lengths)
def test_sides_only_cool(coefficient: float, source: float, length: float) -> None:
    bound = fin.parabola_rise(source, length, 1.0)
    state = FinState(coefficient, source, AIR, AIR, AIR, length)
    assert state.hot_spot - AIR <= bound + 1e-9


def test_runaway_is_refused_and_named() -> None:
    b, s = fin_at(6000.0)
    with pytest.raises(InputError, match="runaway"):
        FinState(b, s, AIR, OIL, AIR, 1.5)
    with pytest.raises(InputError, match="runaway"):
        fin.fin_hot_spot(b, s, AIR, OIL, AIR, 1.5)
    with pytest.raises(InputError, match="runaway"):
        fin.fin_parameter(b)
    with pytest.raises(InputError, match="runaway"):
        fin.fin_ultimate_rise(s, b)


def test_a_loose_terminal_runs_away_before_a_held_one() -> None:
    """Between a quarter and a half wave the two ends hold it, an end in mere air does not."""
    coefficient = -((0.6 * math.pi) ** 2)
    held = FinState(coefficient, 100.0, AIR, AIR, AIR, 1.0)
    assert held.hot_spot > AIR
    with pytest.raises(InputError, match=r"^terminal_conductance: given .*runaway"):
        fin.fin_end_temperature(coefficient, 100.0, AIR, AIR, 1.0, CONDUCTION, 0.0, AIR, 0.0)


@given(st.floats(1e-3, 0.499))
def test_up_to_a_quarter_wave_any_terminal_is_steady(share: float) -> None:
    coefficient = -((share * math.pi) ** 2)
    top = fin.fin_end_temperature(coefficient, 10.0, AIR, AIR, 1.0, CONDUCTION, 0.0, AIR, 0.0)
    assert top > AIR


@given(coefficients, lengths)
def test_only_a_positive_coefficient_has_a_parameter(coefficient: float, length: float) -> None:
    assume(coefficient > 0)
    assert fin.fin_parameter(coefficient) ** 2 == pytest.approx(coefficient)
    assert length > 0


def test_rise_of_the_terminal() -> None:
    assert fin.terminal_rise(350.0, 313.0) == 37.0


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: fin.fin_coefficient(-1, 100, 1e-5, 0.004, 0.3), "side_conductance"),
        (lambda: fin.fin_coefficient(1, 100, 0, 0.004, 0.3), "resistance_per_length_20"),
        (lambda: fin.fin_source(100, 1e-5, 0.004, 0, 0.3), "surroundings"),
        (lambda: fin.fin_parameter(-1), "coefficient"),
        (lambda: fin.fin_hot_spot(1, 1, 300, 300, 300, 0), "length"),
        (lambda: fin.fin_end_temperature(1, 1, 300, 300, 1, 0, 1, 300, 0), "conduction"),
        (lambda: fin.fin_end_temperature(1, 1, 300, 300, 1, 1, 1, 300, -1), "contact_power"),
        (lambda: fin_flow.fin_temperature(1, 1, 300, 300, 300, 1, 1.1), "place"),
        (lambda: fin_flow.fin_terminal_flow(1, 1, 300, 300, 300, 1, 0), "conduction"),
        (lambda: fin.terminal_rise(0, 300), "terminal"),
        (lambda: fin.parabola_rise(-1, 1, 1), "loss_per_length"),
    ],
)
def test_misuse_names_the_parameter(call: Callable[[], float], named: str) -> None:
    with pytest.raises(InputError, match=rf"^{named}: given .*; expected"):
        call()
