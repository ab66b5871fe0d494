"""Short circuits, contacts, cover heating, loading guide, the room's tables."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.heat import contacts, cover, loading, short_time, tables
from shedlight.trace import calculate

currents = st.floats(100, 1e5)


@given(currents, st.floats(0.1, 5), st.floats(1e-4, 5e-3), st.floats(290, 400))
def test_temperature_and_coefficient_undo_each_other(
    current: float, duration: float, section: float, initial: float
) -> None:
    copper = tables.short_time_metal("copper")
    section = max(section, current * math.sqrt(duration) / 200e6)  # stay below the melting point
    final = short_time.adiabatic_temperature(
        current, duration, section, copper.adiabatic, copper.beta, initial
    )
    if final > initial + 1e-3:
        k = short_time.adiabatic_coefficient(copper.adiabatic, copper.beta, initial, final)
        assert k * section == pytest.approx(current * math.sqrt(duration), rel=1e-6)


@given(currents, st.floats(0.1, 2.5))
def test_equal_heat_equal_temperature(current: float, duration: float) -> None:
    """Half the current for four times as long heats the same."""
    one = short_time.adiabatic_temperature(current, duration, 2e-3, 226e6, 234.5, 378.0)
    other = short_time.adiabatic_temperature(current / 2, 4 * duration, 2e-3, 226e6, 234.5, 378.0)
    assert one == pytest.approx(other)


@given(st.floats(80, 160))
def test_bushing_standard_is_on_the_safe_side_of_the_cable_standard(rise: float) -> None:
    """Rise from 105 °C without skin effect: a = 0.8 gives more than the adiabatic formula."""
    copper = tables.short_time_metal("copper")
    section = 1.2e-3
    current = math.sqrt(rise / copper.coefficient) * section
    final = short_time.adiabatic_temperature(
        current, 1.0, section, copper.adiabatic, copper.beta, 378.15
    )
    simple = short_time.iec60137_short_time_rise(copper.coefficient, current, section, section, 1.0)
    assert simple == pytest.approx(rise)
    assert final - 378.15 < 1.05 * rise


@given(st.floats(0.005, 0.1), st.floats(0.001, 0.2))
def test_effective_section_never_exceeds_the_rod(diameter: float, depth: float) -> None:
    whole = math.pi / 4 * diameter**2
    effective = short_time.effective_section_round(diameter, depth)
    assert 0 < effective <= whole * (1 + 1e-12)
    if depth >= diameter / 2:
        assert effective == pytest.approx(whole)


@given(st.floats(0.005, 1.2))
def test_peak_factor_falls_with_resistance(ratio: float) -> None:
    assert 1.02 < short_time.peak_factor(1.01 * ratio) < short_time.peak_factor(ratio) <= 2


@given(st.floats(1.05, 1.95), st.floats(0.01, 5))
def test_direct_component_counts_ever_less(kappa: float, duration: float) -> None:
    now = short_time.direct_component_heating(kappa, 50.0, duration)
    later = short_time.direct_component_heating(kappa, 50.0, 2 * duration)
    assert 0 < later < now <= 2


def test_demo_short_time_rises() -> None:
    """25 times rated current for 1 s in 12, 20, 30 mm copper: 24, 20, 10 K."""
    for current, diameter, rise in ((6.25e3, 0.012, 24), (15.75e3, 0.020, 20), (25e3, 0.030, 10)):
        section = math.pi / 4 * diameter**2
        found = short_time.iec60137_short_time_rise(0.8e-14, current, section, section, 1.0)
        assert found == pytest.approx(rise, abs=0.6)


@given(st.floats(1e-8, 1e-7), st.floats(1e8, 1e9), st.floats(100, 1e5), st.floats(1, 100))
def test_more_spots_less_resistance(rho: float, h: float, f: float, n: float) -> None:
    one = contacts.constriction_resistance(rho, h, f)
    assert contacts.constriction_resistance_spots(rho, h, f, n) == pytest.approx(one / math.sqrt(n))
    assert contacts.constriction_resistance(rho, h, 4 * f) == pytest.approx(one / 2)


@given(st.floats(1, 200), st.floats(0.1, 0.3), st.floats(0.006, 0.03))
def test_torque_is_force_times_nut_factor_times_diameter(t: float, k: float, d: float) -> None:
    assert contacts.clamp_force(t, k, d) * k * d == pytest.approx(t)


@given(st.floats(0, 5000), st.floats(0, 1e-3), st.floats(1e-4, 0.1))
def test_contact_loss_density_and_pressure(current: float, resistance: float, area: float) -> None:
    power = contacts.contact_power(current, resistance)
    assert power == pytest.approx(current * (current * resistance))
    assert contacts.lapped_current_density(current, area) * area == pytest.approx(current)
    assert contacts.contact_pressure(current, area) * area == pytest.approx(current)


@given(st.floats(0.1, 50), st.floats(1.6, 2))
def test_at_full_load_the_rise_is_what_it_is(rise: float, exponent: float) -> None:
    assert contacts.rise_at_full_load(rise, 1.0, exponent) == pytest.approx(rise)
    assert contacts.rise_at_full_load(rise, 0.5, exponent) > 3 * rise


@given(st.floats(1, 5000), st.floats(0.02, 0.5))
def test_field_round_the_hole_adds_up_to_the_current(current: float, radius: float) -> None:
    assert cover.edge_field(current, radius) * 2 * math.pi * radius == pytest.approx(current)


@given(st.floats(300, 400), st.floats(300, 400), st.floats(0, 1e5))
def test_a_step_response_lies_between_its_ends(start: float, end: float, time: float) -> None:
    now = loading.step_response(start, end, time, 5400.0)
    assert min(start, end) - 1e-9 <= now <= max(start, end) + 1e-9
    assert loading.step_response(start, end, 0.0, 5400.0) == pytest.approx(start)


@given(st.floats(300, 340), st.floats(10, 60), st.floats(0.05, 0.95))
def test_time_to_reach_undoes_the_step_response(start: float, span: float, share: float) -> None:
    limit = start + share * span
    time = loading.time_to_reach(start, start + span, limit, 5400.0)
    assert loading.step_response(start, start + span, time, 5400.0) == pytest.approx(limit)


@given(st.floats(0.2, 2), st.floats(0, 70))
def test_guide_at_no_load_is_oil_share_alone(load: float, oil: float) -> None:
    idle = loading.guide_hot_spot(313.15, 32.0, 0.0, 1.8, 0.6, oil)
    assert idle == pytest.approx(313.15 + 0.6 * oil)
    assert loading.guide_hot_spot(313.15, 32.0, load, 1.8, 0.6, oil) > idle


def test_ageing_at_the_reference_is_one() -> None:
    assert loading.ageing_rate(383.15, 383.15, 15000.0) == 1


def test_limits_read_as_published() -> None:
    bare = tables.temperature_limit("bolted connection", "bare", "air")
    assert (bare.temperature, bare.rise) == (363.15, 50.0)
    short = tables.temperature_limit("conductor after short circuit", "any", "any")
    assert (short.temperature, short.rise) == (453.15, None)
    assert all(row.citation.source.title for row in tables.temperature_limits())
    with pytest.raises(InputError, match="expected one of bolted connection, bare, air"):
        tables.temperature_limit("bolted connection", "gold", "air")


def test_metals_read_as_published() -> None:
    copper, aluminium = (tables.short_time_metal(name) for name in ("copper", "aluminium"))
    assert (copper.coefficient, copper.adiabatic, copper.beta) == (0.8e-14, 226e6, 234.5)
    assert (aluminium.coefficient, aluminium.adiabatic, aluminium.beta) == (1.8e-14, 148e6, 228.0)
    with pytest.raises(InputError, match="expected one of copper, aluminium"):
        tables.short_time_metal("gold")


def test_beyond_the_source_is_flagged() -> None:
    rise = short_time.iec60137_short_time_rise
    assert not calculate(rise, 0.8e-14, 25e3, 7e-4, 7e-4, 1.0).step.beyond
    assert calculate(rise, 0.8e-14, 25e3, 7e-4, 7e-4, 10.0).step.beyond
    assert calculate(short_time.peak_factor, 2.0).step.beyond
    assert calculate(contacts.clamp_force, 50.0, 0.5, 0.012).step.beyond
    assert calculate(contacts.rise_at_full_load, 8.0, 0.2, 1.8).step.beyond


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: short_time.adiabatic_constant(0, 234.5, 1.7e-8), "volumetric_heat"),
        (lambda: short_time.adiabatic_coefficient(226e6, 234.5, 400, 300), "final"),
        (lambda: short_time.adiabatic_temperature(-1, 1, 1e-3, 226e6, 234, 300), "short_time_curr"),
        (lambda: short_time.iec60137_short_time_rise(1e-14, 1e4, 1e-3, 2e-3, 1), "effective_sect"),
        (lambda: short_time.effective_section_round(0, 0.01), "diameter"),
        (lambda: short_time.onderdonk(300, 400, 0), "duration"),
        (lambda: short_time.onderdonk(400, 300, 1), "final"),
        (lambda: short_time.resistance_to_reactance(0, 50), "time_constant"),
        (lambda: short_time.peak_factor(0), "resistance_to_reactance"),
        (lambda: short_time.peak_over_rms(2.5), "peak_factor"),
        (lambda: short_time.direct_component_heating(2, 50, 1), "peak_factor"),
        (lambda: contacts.clamp_force(50, 0, 0.012), "nut_factor"),
        (lambda: contacts.constriction_resistance(1e-8, 1e9, 0), "force"),
        (lambda: contacts.constriction_resistance_spots(1e-8, 1e9, 1, 0), "spots"),
        (lambda: contacts.contact_power(1, -1), "resistance"),
        (lambda: contacts.rise_at_full_load(1, 0, 1.8), "load"),
        (lambda: cover.edge_field(1000, 0), "radius"),
        (lambda: loading.guide_hot_spot(313, -1, 1, 1.8, 0.6, 55), "current_rise"),
        (lambda: loading.step_response(300, 400, -1, 10), "time"),
        (lambda: loading.time_to_reach(300, 400, 400, 10), "limit"),
        (lambda: loading.time_to_reach(300, 400, 290, 10), "limit"),
        (lambda: loading.ageing_rate(0, 383, 15000), "temperature"),
    ],
)
def test_misuse_names_the_parameter(call: Callable[[], float], named: str) -> None:
    with pytest.raises(InputError, match=rf"^{named}\w*: given .*; expected"):
        call()
