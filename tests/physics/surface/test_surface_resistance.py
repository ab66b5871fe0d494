"""Resistance along the path: against exact integrals, Ohm's law, and where heat goes."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies import built
from shedlight.errors import InputError
from shedlight.geometry.paths import air_creepage
from shedlight.physics.surface import layer, resistance
from shedlight.physics.surface.resistance import SurfacePath, surface_path

CURVE = air_creepage(built())
PATH = surface_path(CURVE)

radii = st.lists(st.floats(0.02, 0.3), min_size=2, max_size=12)
voltages = st.floats(1e3, 1e5)


def path_of(places: list[float]) -> SurfacePath:
    return SurfacePath(np.linspace(0.0, 1.0, len(places)), np.array(places))


@pytest.mark.parametrize(("cells", "within"), [(75, 8e-3), (150, 2e-3), (300, 5e-4)])
def test_form_factor_converges_to_the_exact_integral(cells: int, within: float) -> None:
    found = float(np.sum(surface_path(CURVE, cells).form_factors))
    assert found == pytest.approx(CURVE.form_factor, rel=within)


def test_areas_add_up_to_the_swept_surface() -> None:
    assert float(np.sum(PATH.areas)) == pytest.approx(CURVE.swept_area, rel=1e-5)


@given(radii)
def test_cells_are_cones(places: list[float]) -> None:
    path = path_of(places)
    cones = [
        layer.form_factor_cone(float(size), a, b)
        for size, a, b in zip(path.sizes, places[:-1], places[1:], strict=True)
    ]
    assert path.form_factors == pytest.approx(cones)
    whole = resistance.form_factor_between(path, 0.0, 1.0)
    assert whole == pytest.approx(math.fsum(cones))


@given(radii, voltages, st.floats(1e-6, 1e-4))
def test_voltage_and_heat_add_up(places: list[float], voltage: float, kappa: float) -> None:
    path = path_of(places)
    found = resistance.wet_layer(path, np.full(len(path.sizes), kappa), voltage)
    assert float(np.sum(found.voltages)) == pytest.approx(voltage)
    assert float(np.sum(found.heat * path.areas)) == pytest.approx(voltage * found.current)
    film = layer.film_resistance(float(np.sum(path.form_factors)), kappa)
    assert found.current == pytest.approx(layer.wet_current(voltage, film))


def test_heat_goes_with_the_square_of_the_current_density() -> None:
    """p = (I/2πr)²/κ: the trunk heats as the square of tip over trunk radius."""
    found = resistance.wet_layer(PATH, np.full(len(PATH.sizes), 2e-5), 13.9e3)
    middle = (PATH.radii[1:] + PATH.radii[:-1]) / 2
    density = found.current / (2 * math.pi * middle)
    assert found.heat == pytest.approx(density**2 / 2e-5, rel=0.01)


def test_necks_lie_on_the_trunk_between_sheds() -> None:
    found = resistance.wet_layer(PATH, np.full(len(PATH.sizes), 2e-5), 13.9e3)
    necks = resistance.necks(PATH, found)
    assert len(necks) == 6
    for neck in necks:
        assert CURVE.at((neck.start + neck.end) / 2).r < 0.04


def test_a_badly_wetted_stretch_dries_first_although_it_is_wide() -> None:
    tip = int(np.argmax(PATH.radii))
    poor = PATH.spread([(PATH.ends[tip] - 0.01, PATH.ends[tip] + 0.01, 1e-6)], 2e-5)
    found = resistance.wet_layer(PATH, poor, 13.9e3)
    assert resistance.necks(PATH, found)[0].start == pytest.approx(PATH.ends[tip], abs=0.012)


def test_drying_takes_seconds_at_the_power_of_practice() -> None:
    """0.1 W/cm² on a film of 50 µm: about two minutes."""
    assert resistance.time_to_dry(1000.0, 0.05) == pytest.approx(122.5)


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="ends"):
        SurfacePath(np.array([0.0]), np.array([0.1]))
    with pytest.raises(InputError, match="radii above 0"):
        SurfacePath(np.array([0.0, 1.0]), np.array([0.1, 0.0]))
    with pytest.raises(InputError, match="conductivities"):
        resistance.resistances(PATH, np.ones(3))
    with pytest.raises(InputError, match="share"):
        resistance.necks(PATH, resistance.wet_layer(PATH, np.ones(300), 1.0), 0.0)
    with pytest.raises(InputError, match="cells"):
        surface_path(CURVE, 0)
    with pytest.raises(InputError, match="length"):
        resistance.form_factor_between(PATH, 0.2, 0.1)
