"""Head, expansion, viscosity and gas cushion of the oil: conservation, limits, misuse."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.oil import head
from shedlight.trace import calculate

temperatures = st.floats(243.15, 393.15)
WALTHER = (9.5e-6, 313.15, 2.4e-6, 373.15)


@given(temperatures)
def test_mass_is_conserved(temperature: float) -> None:
    density = head.oil_density(880.0, 7.5e-4, temperature)
    growth = head.expanded_volume(1.0, 7.5e-4, temperature - 293.15)
    assert density * (1 + growth) == pytest.approx(880.0)


@given(temperatures, st.floats(0.1, 50.0))
def test_cold_oil_is_heavier_and_thicker(temperature: float, warmer: float) -> None:
    assert head.oil_density(880.0, 7.5e-4, temperature) > head.oil_density(
        880.0, 7.5e-4, temperature + warmer
    )
    assert head.walther_viscosity(temperature, *WALTHER) > head.walther_viscosity(
        temperature + warmer, *WALTHER
    )


@given(st.floats(-2.0, 2.0), st.floats(-2.0, 2.0))
def test_heads_add_up(one: float, two: float) -> None:
    total = head.head_pressure(870.0, one) + head.head_pressure(870.0, two)
    assert head.head_pressure(870.0, one + two) == pytest.approx(total, abs=1e-6)


@given(temperatures, temperatures, temperatures)
def test_any_two_points_of_a_walther_line_give_the_line(
    asked: float, one: float, two: float
) -> None:
    cold, warm = sorted((one, two))
    if warm - cold < 1:
        return
    thick, thin = (head.walther_viscosity(t, *WALTHER) for t in (cold, warm))
    again = head.walther_viscosity(asked, thick, cold, thin, warm)
    assert again == pytest.approx(head.walther_viscosity(asked, *WALTHER), rel=1e-6)


def test_walther_flags_its_range() -> None:
    assert not calculate(head.walther_viscosity, 293.15, *WALTHER).step.beyond
    assert calculate(head.walther_viscosity, 403.15, *WALTHER).step.beyond


@given(st.floats(0.0, 0.15), temperatures)
def test_the_cushion_keeps_the_gas_law(growth: float, temperature: float) -> None:
    pressure = head.sealed_gas_pressure(1e5, 0.2, 293.15, temperature, growth)
    assert pressure * (0.2 - growth) / temperature == pytest.approx(1e5 * 0.2 / 293.15)


def test_a_cooling_cushion_falls_below_the_air() -> None:
    shrunk = head.expanded_volume(1.0, 7.5e-4, -40.0)
    assert head.sealed_gas_pressure(1.013e5, 0.2, 293.15, 253.15, shrunk) < 0.8e5


MISUSE: list[tuple[Callable[..., object], tuple[float, ...], str]] = [
    (head.oil_density, (0.0, 7.5e-4, 293.15), "density_at_20"),
    (head.oil_density, (880.0, -1e-4, 293.15), "expansion"),
    (head.oil_density, (880.0, 0.01, 150.0), "volume above 0"),
    (head.head_pressure, (880.0, math.inf), "height"),
    (head.expanded_volume, (-1.0, 7.5e-4, 10.0), "volume"),
    (head.walther_viscosity, (293.15, 9.5e-6, 373.15, 2.4e-6, 313.15), "temperature_two"),
    (head.walther_viscosity, (293.15, 2.4e-6, 313.15, 9.5e-6, 373.15), "viscosity_one"),
    (head.walther_viscosity, (293.15, 2.4e-6, 313.15, 0.3e-6, 373.15), "viscosity_two"),
    (head.sealed_gas_pressure, (1e5, 0.2, 293.15, 333.15, 0.2), "oil_growth"),
    (head.sealed_gas_pressure, (0.0, 0.2, 293.15, 333.15, 0.1), "filling_pressure"),
]


@pytest.mark.parametrize(("function", "arguments", "word"), MISUSE)
def test_head_misuse_names_the_argument(
    function: Callable[..., object], arguments: tuple[float, ...], word: str
) -> None:
    with pytest.raises(InputError, match=word):
        function(*arguments)
