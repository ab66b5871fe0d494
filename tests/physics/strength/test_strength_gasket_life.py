"""Gaskets that have set, swollen, or stiffened."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.strength import gasket, gasket_life

shares = st.floats(0.01, 0.6)


@pytest.mark.parametrize("row", gasket_life.gasket_materials(), ids=lambda row: row.material)
def test_every_material_keeps_some_compression_when_it_has_set(
    row: gasket_life.GasketMaterial,
) -> None:
    assert gasket_life.gasket_material(row.material) == row
    low, high = row.compressions
    assert 0 < low < high
    assert row.temperatures[0] < row.temperatures[1]
    assert 0 < gasket_life.compression_left(low, row.set_when_hot) < low


def test_an_unknown_material_is_refused() -> None:
    with pytest.raises(InputError, match="expected one of"):
        gasket_life.gasket_material("leather")


@given(shares, st.floats(0, 1))
def test_compression_left_follows_from_the_thicknesses(compression: float, c: float) -> None:
    """Free 1, pressed 1 - e: released it springs back to 1 - C e."""
    pressed, recovered = 1 - compression, 1 - c * compression
    assert gasket_life.compression_set(1.0, recovered, pressed) == pytest.approx(c, abs=1e-9)
    left = gasket_life.compression_left(compression, c)
    assert left == pytest.approx(gasket.compression(recovered, pressed), abs=1e-9)


@given(st.floats(0.5, 1), st.floats(0, 100), st.floats(0, 0.2))
def test_hot_and_swollen_gaskets_fill_more(fill: float, warming: float, swelling: float) -> None:
    hot = gasket_life.groove_fill_when_hot(fill, 6.6e-4, 12e-6, warming, swelling)
    assert hot >= fill * (1 - 1e-12)


@given(st.floats(1e6, 1e7), st.floats(1e-3, 5e-2), st.floats(1e-3, 1e-2))
def test_thin_rings_are_stiffer(modulus: float, width: float, thickness: float) -> None:
    thin = gasket_life.apparent_modulus(modulus, width, thickness / 2)
    assert thin > gasket_life.apparent_modulus(modulus, width, thickness) > modulus


@given(st.floats(0, 2e5), st.floats(1, 5))
def test_the_stress_needed_leaves_what_was_asked(pressure: float, m: float) -> None:
    needed = gasket_life.seating_stress_needed(m, pressure, pressure, 0.107, 0.116, 0.098)
    force = gasket.seating_force(needed, 0.116, 0.098) - gasket.pressure_end_load(pressure, 0.107)
    left = gasket.seating_stress(max(force, 0.0), 0.116, 0.098)
    assert left == pytest.approx(m * pressure, rel=1e-9, abs=1e-3)


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="recovered_thickness"):
        gasket_life.compression_set(8e-3, 5e-3, 5.6e-3)
    with pytest.raises(InputError, match="tightness"):
        gasket_life.seating_stress_needed(0.5, 1e5, 1e5, 0.107, 0.116, 0.098)


@given(st.floats(0.05, 0.9), st.floats(-60, 30))
def test_set_at_its_highest_temperature_is_that_of_the_table(share: float, below: float) -> None:
    year = 365 * 86400.0
    assert gasket_life.set_at(share, 373.15, 373.15, year) == pytest.approx(share)
    cooler = gasket_life.set_at(share, 373.15, 373.15 + below, year)
    assert (cooler > share) == (below > 1e-9) or cooler == pytest.approx(share)
    # Ten kelvin less for twice the time is the same.
    twice = gasket_life.set_at(share, 373.15, 373.15 + below - 10, 2 * year)
    assert twice == pytest.approx(cooler)
    assert gasket_life.set_at(share, 373.15, 373.15 + below, 0.0) == 0.0


@given(shares, st.floats(0, 80))
def test_a_gasket_that_shrinks_presses_less(compression: float, cooling: float) -> None:
    cold = gasket_life.compression_when_cold(compression, 6.6e-4, cooling)
    assert cold <= compression + 1e-15
    free = 1 - 6.6e-4 * cooling
    assert cold == pytest.approx(gasket.compression(free, 1 - compression), abs=1e-12) or cold < 0


def test_a_gasket_colder_than_at_assembly_fills_its_groove_less() -> None:
    same = gasket_life.groove_fill_when_hot(0.9, 6.6e-4, 12e-6, 0.0, 0.0)
    assert same == 0.9
    assert gasket_life.groove_fill_when_hot(0.9, 6.6e-4, 12e-6, -20.0, 0.0) < same
