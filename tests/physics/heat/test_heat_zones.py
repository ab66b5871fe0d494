"""Several fins in a row, and the whole bushing with films that depend on temperature."""

import math
from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from shedlight.errors import InputError
from shedlight.physics.heat import air_properties, films, steady, stretches, zones
from shedlight.physics.heat.films import Cooling
from shedlight.physics.heat.fin_state import FinState, bulge_area, share_area
from shedlight.physics.heat.zones import ChainState, Node, Zone

AREA = math.pi / 4 * 0.03**2
WIRE = steady.Wire(0.015, 0.0, 1.7241e-8, 0.00393, 385.0, 50.0)
HOUSING = stretches.Housing(0.025, 0.043, 0.070, 1.6, 1.0)
TANK = stretches.OilBath(368.15)
STILL = stretches.OpenAir(313.15)


def bushing(current: float, weather: stretches.OpenAir = STILL) -> steady.SteadyCase:
    """A 36 kV bushing of 30 mm copper: oil end, hole, housing in air, bare cap."""
    return steady.SteadyCase(
        WIRE,
        (
            stretches.Stretch(0.19, TANK, HOUSING),
            stretches.Stretch(0.012, stretches.CoverHole(360.0, 0.048), HOUSING),
            stretches.Stretch(0.30, weather, HOUSING),
            stretches.Stretch(0.06, weather),
        ),
        steady.EndBody(TANK, 0.006, 0.05, 0.04, 2e-6),
        steady.EndBody(weather, 0.02, 0.1, 0.1, 3e-6),
        current,
    )


@st.composite
def chains(draw: st.DrawFn) -> ChainState:
    count = draw(st.integers(1, 4))
    current = draw(st.floats(0, 2000))
    made = tuple(
        Zone(
            draw(st.floats(0.02, 0.8)),
            draw(st.floats(0.05, 1.0)),
            draw(st.floats(0.0, 8.0)),
            draw(st.floats(250, 380)),
            draw(st.floats(5e-6, 4e-5)),
            draw(st.floats(0, 0.004)),
            draw(st.floats(0, 5)),
        )
        for _ in range(count)
    )
    nodes = tuple(
        Node(draw(st.floats(0.5, 5)), draw(st.floats(250, 380)), draw(st.floats(0, 20)))
        for _ in range(count + 1)
    )
    return zones.solve_chain(made, (Node(held=360.0), *nodes[1:]), current)


@given(chains())
def test_heat_of_the_whole_chain_is_balanced(chain: ChainState) -> None:
    assert abs(chain.imbalance) < 1e-9


@given(chains())
def test_nodes_give_off_what_their_conductance_says(chain: ChainState) -> None:
    scale = sum(abs(flow) for flow in (*chain.node_inflows, *chain.generated)) + 1
    for node, temperature, inflow in zip(
        chain.nodes[1:], chain.temperatures[1:], chain.node_inflows[1:], strict=True
    ):
        given_off = node.conductance * (temperature - node.ambient)
        assert inflow == pytest.approx(node.power - given_off, abs=1e-8 * scale)


@given(chains())
def test_temperature_is_one_at_every_node(chain: ChainState) -> None:
    for index, place in enumerate(chain.places[1:-1], start=1):
        below, above = chain.fins[index - 1], chain.fins[index]
        assert below.temperature(below.length) == pytest.approx(above.temperature(0.0), rel=1e-12)
        assert chain.temperature(place) == pytest.approx(chain.temperatures[index], rel=1e-12)
    highest = max(chain.temperature(x) for x in np.linspace(0, chain.places[-1], 41))
    assert chain.hot_spot[1] >= highest - 1e-9


@given(st.floats(-3, 200), st.floats(0.1, 1.5))
def test_integrals_along_a_fin_are_the_integrals(b: float, length: float) -> None:
    state = FinState(b, 1.0, 300.0, 300.0, 301.0, length)
    area, _ = quad(lambda x: state.temperature(x) - 300.0, 0.0, length, epsabs=1e-13)
    assert share_area(b, length) + bulge_area(b, length) == pytest.approx(area, rel=1e-8)


@given(st.floats(1e-6, 0.3), st.floats(0.1, 2))
def test_the_series_meets_the_closed_form(square: float, length: float) -> None:
    """Either side of b = 0 and of the switch, the integral has no step."""
    inside, outside = 0.00499999 * 4 / length**2, 0.00500001 * 4 / length**2
    for sign in (1, -1):
        step = bulge_area(sign * inside, length) / bulge_area(sign * outside, length) - 1
        assert abs(step) < 1e-7
    assert bulge_area(0.0, length) == pytest.approx(length**3 / 12)
    assert bulge_area(square, length) < bulge_area(0.0, length) < bulge_area(-square, length)


def test_three_zones_agree_with_finite_differences() -> None:
    """A rival: 2700 balances along a rod through oil, a hole and air."""
    lengths, sides, around = (0.2, 0.1, 0.6), (4.0, 0.5, 2.0), (368.15, 355.0, 313.15)
    conduction, r20, alpha, current = 385 * AREA, 1.7241e-8 / AREA * 1.08, 0.00393, 1500.0
    chain = zones.even_chain(
        lengths, conduction, sides, around, r20, alpha, current, 370.0, 1.5, 313.15, 8.0
    )
    count = 2700  # every border of a zone is a border of a cell
    step = sum(lengths) / count
    middle = (np.arange(count) + 0.5) * step
    which = np.searchsorted(np.cumsum(lengths), middle)
    side, ambient = np.array(sides)[which], np.array(around)[which]
    growth = current**2 * r20 * alpha
    matrix = np.zeros((count, count))
    index = np.arange(count)
    link = conduction / step
    matrix[index, index] = 2 * link + (side - growth) * step
    matrix[index[:-1], index[1:]] = matrix[index[1:], index[:-1]] = -link
    load = (side * ambient + current**2 * r20 - growth * 293.15) * step
    matrix[0, 0] += link
    load[0] += 2 * link * 370.0
    out = 1 / (1 / 1.5 + step / 2 / conduction)
    matrix[-1, -1] += out - link
    load[-1] += out * 313.15 + 8.0 * out / 1.5
    found = np.linalg.solve(matrix, load)
    exact = np.array([chain.temperature(place) for place in middle])
    assert np.abs(found - exact).max() < 2e-5


def test_runaway_is_refused_not_returned() -> None:
    zone = Zone(1.0, 0.27, 0.2, 313.15, 2.5e-5, 0.00393)
    with pytest.raises(InputError, match="runaway"):
        zones.solve_chain((zone, zone), (Node(), Node(), Node(0.01, 313.15)), 2500.0)


def test_nodes_and_zones_have_to_fit() -> None:
    zone = Zone(1.0, 0.27, 0.2, 313.15, 2.5e-5, 0.00393)
    with pytest.raises(InputError, match="one more than zones"):
        zones.solve_chain((zone,), (Node(),), 100.0)
    with pytest.raises(InputError, match="as many of each"):
        zones.even_chain((1.0, 2.0), 0.27, (1.0,), (300.0,), 2e-5, 0.004, 1.0, 300.0, 1, 300, 0)
    with pytest.raises(InputError, match="place"):
        zones.solve_chain((zone,), (Node(held=300.0), Node()), 1.0).temperature(2.0)


# --- films --------------------------------------------------------------------------------


def test_air_is_the_air_of_the_tables() -> None:
    """Incropera and DeWitt, table of air at 1 atm, 300 K."""
    air = films.air_at(300.0)
    assert air.conductivity == pytest.approx(26.3e-3, rel=0.01)
    assert air.kinematic_viscosity == pytest.approx(15.89e-6, rel=0.015)
    assert air.prandtl == pytest.approx(0.707, abs=0.01)


@given(st.floats(0, 3000))
def test_thin_air_cools_less(altitude: float) -> None:
    low = films.still_film(films.air_at(320.0), 20.0, 0.4, "still air", Cooling.MEAN)
    thin = films.air_at(320.0, air_properties.air_pressure(altitude))
    high = films.still_film(thin, 20.0, 0.4, "still air", Cooling.MEAN)
    assert high <= low * (1 + 1e-9)


@given(st.floats(0.1, 60), st.floats(0.005, 0.03), st.floats(0.1, 1.5), st.booleans())
def test_the_annulus_band_is_in_order(
    difference: float, gap: float, height: float, lying: bool
) -> None:
    oil = films.oil_at(353.15)
    low, mean, high = (
        films.annulus_nusselt(oil, difference, 0.015, 0.015 + gap, height, lying, cooling)
        for cooling in Cooling
    )
    assert 1 <= low <= mean <= high


def test_an_unknown_film_is_refused() -> None:
    with pytest.raises(InputError, match="expected one of"):
        films.spread("rain")


# --- the whole bushing --------------------------------------------------------------------


@pytest.mark.parametrize("current", [0.0, 630.0, 1500.0])
def test_the_bushing_settles_and_balances(current: float) -> None:
    state = steady.steady_state(bushing(current))
    assert state.change < 1e-9
    assert abs(state.chain.imbalance) < 1e-9
    assert len(state.across) == 4


def test_without_current_it_lies_between_oil_and_air() -> None:
    state = steady.steady_state(bushing(0.0))
    assert all(313.15 < t < 368.15 for t in state.chain.temperatures)
    assert list(state.chain.temperatures) == sorted(state.chain.temperatures, reverse=True)


def test_without_current_and_at_one_temperature_nothing_flows() -> None:
    case = replace(bushing(0.0, stretches.OpenAir(368.15)))
    hole = stretches.Stretch(0.012, stretches.CoverHole(368.15, 0.048), HOUSING)
    case = replace(case, stretches=(case.stretches[0], hole, *case.stretches[2:]))
    state = steady.steady_state(case)
    assert state.chain.temperatures == pytest.approx([368.15] * 5, abs=1e-8)


@settings(max_examples=10, deadline=None)
@given(st.floats(0, 1300), st.floats(50, 300))
def test_more_current_is_hotter_everywhere(current: float, more: float) -> None:
    less = steady.steady_state(bushing(current))
    hotter = steady.steady_state(bushing(current + more))
    pairs = zip(less.chain.temperatures, hotter.chain.temperatures, strict=True)
    assert all(one < other + 1e-6 for one, other in pairs)


def test_sun_heats_wind_and_sheds_cool() -> None:
    calm = steady.steady_state(bushing(1000.0))
    sunny = steady.steady_state(bushing(1000.0, replace(STILL, irradiance=1000.0)))
    windy = steady.steady_state(bushing(1000.0, replace(STILL, wind_speed=2.0)))
    bright = steady.steady_state(bushing(1000.0, replace(STILL, emissivity=0.3)))
    assert windy.upper_terminal < calm.upper_terminal < sunny.upper_terminal
    assert bright.upper_terminal > calm.upper_terminal
    assert sunny.across[2].surface > calm.across[2].surface


def test_air_instead_of_oil_in_the_bore_is_hotter() -> None:
    """An oil level that has sunk below the cap takes the housing's cooling away."""
    full = bushing(1200.0)
    dry = replace(full.stretches[2], housing=replace(HOUSING, oil_filled=False))
    sunk = replace(full, stretches=(*full.stretches[:2], dry, full.stretches[3]))
    assert steady.steady_state(sunk).upper_terminal > steady.steady_state(full).upper_terminal + 1


def test_the_loss_of_the_field_heats_and_is_balanced() -> None:
    case = bushing(1000.0)
    lossy = replace(case, stretches=tuple(replace(s, field_loss=5.0) for s in case.stretches))
    plain, heated = steady.steady_state(case), steady.steady_state(lossy)
    assert heated.upper_terminal > plain.upper_terminal
    assert abs(heated.chain.imbalance) < 1e-9
    more = sum(heated.chain.generated) - sum(plain.chain.generated)
    assert more > 5.0 * sum(s.length for s in case.stretches)  # and the copper's, being warmer


def test_the_band_holds_the_middle() -> None:
    band = steady.steady_band(bushing(1250.0))
    for (low, high), middle in (
        (band.hot_spot, band.mean.hot_spot[1]),
        (band.upper_terminal, band.mean.upper_terminal),
        (band.lower_terminal, band.mean.lower_terminal),
    ):
        assert low <= middle <= high
    assert band.upper_terminal[1] - band.upper_terminal[0] > 0.5


def test_extremes_settle_or_are_refused() -> None:
    """Oil and air from -40 to 100 °C, storm, sun, no and too much current, lying, sunk oil."""
    refused: list[tuple[float, str]] = []
    for tank, air, wind, current, lying, full in product(
        (243.15, 373.15),
        (233.15, 318.15),
        (0.0, 10.0),
        (0.0, 1e-3, 5e3),
        (False, True),
        (False, True),
    ):
        weather = stretches.OpenAir(air, wind, 1100.0)
        oil, housing = stretches.OilBath(tank), replace(HOUSING, oil_filled=full)
        case = bushing(current, weather)
        case = replace(
            case,
            stretches=(
                stretches.Stretch(0.19, oil, housing),
                stretches.Stretch(0.30, weather, housing),
            ),
            lower=replace(case.lower, outside=oil),
            lying=lying,
        )
        try:
            state = steady.steady_state(case)
        except InputError as refusal:
            refused.append((current, str(refusal)))
            continue
        assert abs(state.chain.imbalance) < 1e-9
        assert state.change < 1e-9
    assert refused
    assert all(current > 1000 and "runaway" in said for current, said in refused)


def test_far_too_much_current_runs_away() -> None:
    with pytest.raises(InputError, match="runaway"):
        steady.steady_state(bushing(20000.0))


def test_a_conductor_that_fills_its_bore_is_refused() -> None:
    with pytest.raises(InputError, match="bore_radius"):
        steady.steady_state(replace(bushing(100.0), wire=replace(WIRE, outer_radius=0.03)))
