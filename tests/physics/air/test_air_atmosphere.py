"""Air density, humidity and the two altitude references."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.air import atmosphere as air
from shedlight.trace import calculate

altitudes = st.floats(0, 4000)
pressures = st.floats(50e3, 110e3)
temperatures = st.floats(233.15, 323.15)
densities = st.floats(0.6, 1.1)


def test_reference_atmosphere_has_density_one() -> None:
    assert air.relative_air_density(101.3e3, 293.15) == pytest.approx(1, abs=1e-15)
    assert air.site_density(0) == 1


@given(pressures, temperatures)
def test_density_is_proportional_to_pressure_and_falls_with_heat(p: float, t: float) -> None:
    density = air.relative_air_density(p, t)
    assert air.relative_air_density(2 * p, t) == pytest.approx(2 * density)
    assert air.relative_air_density(p, t + 1) < density


@given(altitudes, altitudes)
def test_density_of_stacked_heights_multiplies(low: float, high: float) -> None:
    together = air.site_density(low) * air.site_density(high)
    assert air.site_density(low + high) == pytest.approx(together)


@given(st.floats(0, 1), st.floats(-100, 1000))
def test_the_first_kilometre_costs_nothing(exponent: float, altitude: float) -> None:
    assert air.altitude_factor(exponent, altitude) == 1


@given(st.floats(1000, 4000))
def test_factor_counts_from_1000_m_and_density_from_sea_level(altitude: float) -> None:
    """Swapping the two references is wrong by exp(1000/8150), 13 %, everywhere above 1000 m."""
    product = air.altitude_factor(1, altitude) * air.site_density(altitude)
    assert product == pytest.approx(math.exp(-1000 / 8150))


@given(st.floats(0.1, 1), altitudes, altitudes)
def test_higher_never_demands_less(exponent: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert air.altitude_factor(exponent, high) >= air.altitude_factor(exponent, low)


@given(temperatures, st.floats(0.01, 1))
def test_absolute_humidity_is_proportional_to_relative(t: float, share: float) -> None:
    full = air.absolute_humidity(t, 1)
    assert air.absolute_humidity(t, share) == pytest.approx(share * full)


@pytest.mark.parametrize(
    "ratio", [air.humidity_ratio_ac, air.humidity_ratio_dc, air.humidity_ratio_impulse]
)
def test_no_correction_at_11_grams_over_density(ratio: Callable[[float, float], float]) -> None:
    for density in (0.8, 0.9, 1.0):
        assert ratio(0.011 * density, density) == pytest.approx(1)


def test_exponents_are_continuous_and_reach_their_corners() -> None:
    near = 1e-9
    for corner in (0.2, 1.0):
        assert air.m_of_g(corner - near) == pytest.approx(air.m_of_g(corner + near), abs=1e-7)
    for corner in (0.2, 1.0, 1.2, 2.0):
        assert air.w_of_g(corner - near) == pytest.approx(air.w_of_g(corner + near), abs=1e-7)
    assert (air.m_of_g(0.1), air.m_of_g(1.0), air.m_of_g(3.0)) == (0.0, 1.0, 1.0)
    assert (air.w_of_g(0.1), air.w_of_g(1.1), air.w_of_g(3.0)) == (0.0, 1.0, 0.0)


@given(st.floats(0, 5))
def test_exponents_stay_between_zero_and_one(parameter: float) -> None:
    assert 0 <= air.w_of_g(parameter) <= air.m_of_g(parameter) + 1e-12
    assert air.m_of_g(parameter) <= 1


@given(densities, st.floats(0.9, 1.1), st.floats(0, 1))
def test_no_weather_no_correction(density: float, ratio: float, exponent: float) -> None:
    assert air.atmospheric_correction(1, 1, exponent, exponent) == 1
    assert air.atmospheric_correction(density, ratio, 0, 0) == 1
    assert air.atmospheric_correction(density, ratio, 1, 0) == pytest.approx(density)


@given(st.floats(10e3, 2e6), st.floats(0.1, 5), densities)
def test_parameter_g_is_a_gradient_over_500_kv_per_metre(u: float, path: float, d: float) -> None:
    g = air.discharge_parameter(u, path, d, 1.0)
    assert g * 500e3 * path * d == pytest.approx(u)


def test_beyond_the_source_is_flagged() -> None:
    assert not calculate(air.altitude_factor, 1.0, 1800.0).step.beyond
    assert calculate(air.altitude_factor, 1.0, 4001.0).step.beyond
    assert calculate(air.site_density, 5000.0).step.beyond
    assert calculate(air.humidity_ratio_ac, 0.020, 1.0).step.beyond
    assert not calculate(air.humidity_ratio_impulse, 0.020, 1.0).step.beyond


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: air.relative_air_density(0, 293), "pressure"),
        (lambda: air.relative_air_density(1e5, -1), "temperature"),
        (lambda: air.site_density(math.nan), "altitude"),
        (lambda: air.altitude_factor(-1, 2000), "exponent"),
        (lambda: air.absolute_humidity(293, 1.1), "relative_humidity"),
        (lambda: air.humidity_ratio_ac(-0.001, 1), "humidity"),
        (lambda: air.humidity_ratio_ac(0.011, 0), "density"),
        (lambda: air.discharge_parameter(1e6, 0, 1, 1), "path"),
        (lambda: air.m_of_g(-0.1), "parameter"),
        (lambda: air.atmospheric_correction(1, 1, 2, 1), "density_exponent"),
    ],
)
def test_misuse_names_the_parameter(call: Callable[[], float], named: str) -> None:
    with pytest.raises(InputError, match=rf"^{named}: given .*; expected"):
        call()
