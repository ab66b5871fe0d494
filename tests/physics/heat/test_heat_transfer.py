"""Conduction, films, radiation, convection, oil properties."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.heat import convection, oil_properties, radial
from shedlight.trace import calculate

radii = st.floats(0.005, 0.2)
rayleighs = st.floats(0, 1e9)
prandtls = st.floats(0.7, 500)


@given(radii, st.floats(1.01, 5), st.floats(1.01, 5), st.floats(0.1, 400))
def test_layers_of_one_material_add_up(r: float, a: float, b: float, k: float) -> None:
    first = radial.cylinder_resistance(r, a * r, k)
    second = radial.cylinder_resistance(a * r, a * b * r, k)
    assert first + second == pytest.approx(radial.cylinder_resistance(r, a * b * r, k))


def test_conductances_in_series() -> None:
    assert radial.side_conductance((0.25, 0.25)) == pytest.approx(2.0)
    assert radial.side_conductance((0.5,)) == pytest.approx(2.0)


@given(st.floats(0.1, 1), st.floats(250, 400), st.floats(0.01, 80))
def test_radiation_coefficient_times_difference_is_the_flux(e: float, t: float, dt: float) -> None:
    flux = radial.radiation_flux(e, t + dt, t)
    assert radial.radiation_coefficient(e, t + dt, t) * dt == pytest.approx(flux, rel=1e-9)


@given(st.floats(250, 400), st.floats(250, 400))
def test_radiation_goes_from_hot_to_cold(one: float, other: float) -> None:
    assert radial.radiation_flux(0.9, one, other) == -radial.radiation_flux(0.9, other, one)
    assert (radial.radiation_flux(0.9, one, other) > 0) == (one > other)


@given(st.floats(1, 60), st.floats(0.05, 1))
def test_simple_air_form_follows_the_full_one_in_laminar_flow(dt: float, height: float) -> None:
    """Churchill and Chu, with air at 50 °C, lies up to a fifth above McAdams' short form."""
    full = radial.air_film_coefficient(dt, height, 323.15, 0.0279, 1.807e-5, 0.7056)
    simple = radial.air_film_coefficient_simple(dt, height)
    assert 0.75 < simple / full < 1.10


@given(rayleighs, prandtls)
def test_more_buoyancy_more_heat(ra: float, pr: float) -> None:
    assert convection.nusselt_vertical(1.1 * ra + 1, pr) > convection.nusselt_vertical(ra, pr)
    assert convection.nusselt_vertical(0, pr) == pytest.approx(0.825**2)


@given(st.floats(0, 4e5), prandtls)
def test_more_wind_more_heat(re: float, pr: float) -> None:
    assert convection.nusselt_wind(1.1 * re + 1, pr) > convection.nusselt_wind(re, pr)
    assert convection.nusselt_wind(0, pr) == pytest.approx(0.3)


@pytest.mark.parametrize("law", convection.ANNULUS.values(), ids=convection.ANNULUS)
@given(ra=rayleighs, pr=prandtls, tall=st.floats(5, 100), ratio=st.floats(1.05, 10))
def test_annuli_conduct_at_least_and_never_lose_by_buoyancy(
    law: Callable[[float, float, float, float], float],
    ra: float,
    pr: float,
    tall: float,
    ratio: float,
) -> None:
    assert law(0, pr, tall, ratio) == 1
    assert 1 <= law(ra, pr, tall, ratio) <= law(1.2 * ra, pr, tall, ratio)


def test_annulus_laws_are_a_band() -> None:
    """60 mm of oil gap, 1 m tall: the four laws differ by 40 to 60 %."""
    found = [law(6.01e6, 93.3, 33.3, 2.5) for law in convection.ANNULUS.values()]
    assert len(found) == 4
    assert 1.4 < max(found) / min(found) < 1.7


@given(st.floats(0, 50), st.floats(0.001, 1))
def test_rayleigh_grows_with_the_cube_of_length(dt: float, length: float) -> None:
    once = convection.rayleigh(dt, length, 7.5e-4, 6.8e-6, 93.3)
    twice = convection.rayleigh(dt, 2 * length, 7.5e-4, 6.8e-6, 93.3)
    assert twice == pytest.approx(8 * once)


def test_a_thin_heated_wall_is_a_slab_insulated_on_one_side() -> None:
    rise = radial.heated_cylinder_rise(1000.0, 10.0, 10.01, 0.2)
    assert rise == pytest.approx(1000.0 * 0.01**2 / (2 * 0.2), rel=1e-3)


@given(st.floats(273.15, 353))
def test_hot_oil_is_lighter_thinner_and_holds_more_heat(t: float) -> None:
    assert oil_properties.oil_density(t + 1) < oil_properties.oil_density(t)
    assert oil_properties.oil_viscosity(t + 1) < oil_properties.oil_viscosity(t)
    assert oil_properties.oil_conductivity(t + 1) < oil_properties.oil_conductivity(t)
    assert oil_properties.oil_specific_heat(t + 1) > oil_properties.oil_specific_heat(t)


def test_beyond_the_source_is_flagged() -> None:
    laminar = calculate(radial.air_film_coefficient_simple, 20.0, 0.5)
    assert not laminar.step.beyond
    assert calculate(radial.air_film_coefficient_simple, 20.0, 2.0).step.beyond
    assert calculate(oil_properties.oil_viscosity, 370.0).step.beyond
    assert calculate(convection.annulus_de_vahl_davis, 6e6, 93.0, 33.0, 2.5).step.beyond
    assert not calculate(convection.annulus_macgregor_emery, 6e6, 93.0, 33.0, 2.5).step.beyond
    assert calculate(convection.nusselt_vertical, 1e13, 0.7).step.beyond


def test_a_sequence_keeps_its_origins() -> None:
    layers = tuple(calculate(radial.cylinder_resistance, 0.02, r, 0.127) for r in (0.03, 0.05))
    conductance = calculate(radial.side_conductance, layers)
    (used,) = conductance.step.inputs
    assert used.origins == tuple(layer.step for layer in layers)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: radial.cylinder_resistance(0.03, 0.02, 1), "outer_radius"),
        (lambda: radial.film_resistance_per_length(0, 1), "coefficient"),
        (lambda: radial.side_conductance(()), "resistances"),
        (lambda: radial.side_conductance((1.0, -1.0)), "resistances"),
        (lambda: radial.air_film_coefficient(-1, 1, 300, 0.03, 2e-5, 0.7), "temperature_differenc"),
        (lambda: radial.air_film_coefficient_simple(1, 0), "length"),
        (lambda: radial.radiation_flux(1.1, 300, 300), "emissivity"),
        (lambda: radial.radiation_coefficient(0.9, 0, 300), "surface"),
        (lambda: radial.solar_gain_per_length(0.7, -1, 0.1), "irradiance"),
        (lambda: radial.heated_cylinder_rise(math.nan, 0.1, 0.2, 1), "heat_density"),
        (lambda: convection.nusselt_vertical(-1, 0.7), "rayleigh"),
        (lambda: convection.nusselt_vertical_mcadams(-1), "rayleigh"),
        (lambda: convection.nusselt_wind(1, 0), "prandtl"),
        (lambda: convection.annulus_elsherbiny(1e4, 0.7, 10, 1.0), "radius_ratio"),
        (lambda: oil_properties.oil_density(0), "temperature"),
        (lambda: oil_properties.prandtl(0.01, 2000, 0), "conductivity"),
    ],
)
def test_misuse_names_the_parameter(call: Callable[[], float], named: str) -> None:
    with pytest.raises(InputError, match=rf"^{named}\w*: given .*; expected"):
        call()
