"""Drying: books that close, limits by hand, published behaviour of dry bands, speed of the step."""

import math
import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.bodies import built
from shedlight.errors import InputError
from shedlight.geometry.paths import air_creepage
from shedlight.physics.surface import dry_bands, evaporation, resistance
from shedlight.physics.surface.dry_bands import banded_network, default_arcs
from shedlight.physics.surface.drying import DryingRun, FogOrRain, WetSurface, dry_out
from shedlight.physics.surface.resistance import SurfacePath, surface_path
from shedlight.physics.surface.wetting import uneven_layer

VOLTAGE = 13.86e3
PATH = surface_path(air_creepage(built()))
CYLINDER = SurfacePath(np.linspace(0.0, 0.6, 121), np.full(121, 0.05))
ARCS = default_arcs()


def fogged(layer: float, duration: float, step: float = 0.5) -> DryingRun:
    rough = uneven_layer(layer, len(PATH.sizes), 0.1, 7)
    return dry_out(WetSurface(PATH, rough), FogOrRain(), VOLTAGE, duration, step=step)


RUN = fogged(2e-5, 600.0)


def test_energy_book_closes() -> None:
    assert RUN.ledger.error < 1e-2
    assert RUN.ledger.error < 1e-9  # and far better, as every flux is booked as it moves
    assert RUN.ledger.water_error < 1e-9
    assert RUN.ledger.electrical > 1e4
    assert RUN.ledger.stored > 0


def test_energy_of_the_kept_moments_is_the_book_s() -> None:
    """A book kept apart: voltage times current, summed over the moments kept."""
    powers = VOLTAGE * RUN.currents
    moments = np.append(np.diff(RUN.times), 600.0 - RUN.times[-1])
    assert float(np.sum(powers * moments)) == pytest.approx(RUN.ledger.electrical, rel=0.1)


def test_voltage_is_shared_out_completely() -> None:
    assert np.sum(RUN.voltages, axis=1) == pytest.approx(VOLTAGE, rel=1e-6)


def test_current_rises_with_wetting_and_falls_when_bands_form() -> None:
    """Salthouse (1968): current climbs while the layer wets, then drops sharply."""
    peak = int(np.argmax(RUN.currents))
    assert 60 < RUN.times[peak] < 300
    assert RUN.currents[:peak].min() < 0.1 * RUN.currents[peak]
    assert float(np.median(RUN.currents[peak + 40 :])) < 0.2 * RUN.currents[peak]
    assert not RUN.burning[:peak].any()


def test_bands_form_on_the_trunk_and_take_the_voltage() -> None:
    """Löberg and Salthouse (1971): bands begin where current is densest and take all voltage."""
    dry = np.flatnonzero(RUN.waters[-1] < 2.5e-3)
    assert 0 < len(dry) < 0.5 * len(PATH.sizes)
    middles = (PATH.radii[1:] + PATH.radii[:-1]) / 2
    assert middles[dry].max() < 0.75 * middles.max()
    assert float(np.sum(RUN.voltages[-1][dry])) > 0.8 * VOLTAGE


def test_sparks_come_and_go() -> None:
    lit = RUN.burning.any(axis=1)
    assert 0.1 < np.mean(lit) < 1.0
    later = RUN.currents[lit]
    assert later.max() > 3 * float(np.median(later))


def test_statistics_hold_when_the_step_is_halved() -> None:
    """Sparking is chaotic: single sparks differ, the rise does not and means hardly do."""
    finer = fogged(2e-5, 600.0, 0.25)
    early = RUN.times < 100
    assert finer.currents[early] == pytest.approx(RUN.currents[early], rel=0.03, abs=2e-4)
    assert finer.ledger.electrical == pytest.approx(RUN.ledger.electrical, rel=0.35)


def test_heavy_pollution_threatens_flashover_and_light_does_not() -> None:
    assert fogged(8e-5, 120.0).spreading.max() > 1
    assert fogged(1e-6, 120.0).spreading.max() == 0


def test_minutes_of_fog_run_in_about_a_second() -> None:
    start = time.process_time()
    fogged(2e-5, 300.0)
    assert time.process_time() - start < 3.0


def test_an_unheated_wet_surface_takes_the_wet_bulb_temperature() -> None:
    """Psychrometric chart: 20 °C at half humidity has its wet bulb at 13.8 °C."""
    surface = WetSurface(CYLINDER, np.full(120, 1e-5), most_water=20.0)
    weather = FogOrRain(293.15, 0.5, 0.0, 12.0)
    run = dry_out(surface, weather, 0.0, 8000.0, step=10.0, start_water=10.0)
    assert run.temperatures[-1] - 273.15 == pytest.approx(13.8, abs=0.4)
    assert run.currents == pytest.approx(0.0)


def test_water_only_arrives_when_nothing_heats() -> None:
    surface = WetSurface(CYLINDER, np.full(120, 1e-5), most_water=1.0)
    run = dry_out(surface, FogOrRain(arriving=3e-4), 0.0, 100.0)
    moments = run.times.copy()
    assert run.waters[:, 0] == pytest.approx(3e-4 * moments, rel=1e-9)


def test_first_warming_is_heat_over_capacity() -> None:
    """At first only the outermost porcelain and its water warm: slope within a fifth."""
    surface = WetSurface(CYLINDER, np.full(120, 1e-5))
    run = dry_out(surface, FogOrRain(arriving=0.0), 3e3, 0.2, step=0.02, start_water=0.05)
    layer = resistance.wet_layer(CYLINDER, np.full(120, 0.78e-5), 3e3)
    rise = run.temperatures[-1][60] - 283.15
    capacity = 2.2e6 * 0.4e-3 + 4186 * 0.05
    assert rise == pytest.approx(layer.heat[60] * run.times[-1] / capacity, rel=0.25)


def test_more_water_than_it_holds_runs_off() -> None:
    surface = WetSurface(CYLINDER, np.full(120, 1e-5), most_water=0.06)
    run = dry_out(surface, FogOrRain(arriving=2e-3), 1e3, 60.0)
    assert run.waters.max() == pytest.approx(0.06)
    assert run.ledger.error < 1e-9


@settings(max_examples=20, deadline=None)
@given(st.floats(1e2, 5e4), st.integers(1, 20), st.integers(30, 80))
def test_power_of_a_banded_network_adds_up(voltage: float, width: int, at: int) -> None:
    dry = np.zeros(120, dtype=np.bool_)
    dry[at : at + width] = True
    each = CYLINDER.form_factors / np.where(dry, 1e-10, 2e-5)
    found = banded_network(CYLINDER, each, dry, voltage, ARCS)
    assert float(np.sum(found.voltages)) == pytest.approx(voltage, rel=1e-6)
    if found.burning.any():
        held = ARCS.breakdown(np.array([width * 0.005]))[0]
        assert math.sqrt(2) * voltage >= held
        assert found.burning.sum() == width


def test_a_band_that_holds_stays_dark() -> None:
    """60 mm hold 840 V + 5 kV/cm · 6 cm = 30.8 kV peak, 21.8 kV rms."""
    dry = np.zeros(120, dtype=np.bool_)
    dry[50:62] = True
    each = CYLINDER.form_factors / np.where(dry, 1e-10, 2e-5)
    below, above = (banded_network(CYLINDER, each, dry, at, ARCS) for at in (21.5e3, 22.2e3))
    assert not below.burning.any()
    assert above.burning.any()
    assert above.current > 100 * below.current


def test_arc_and_layer_carry_the_same_current() -> None:
    """√2 U = R I + U_e + A d I^-n at the peak, by insertion."""
    dry = np.zeros(120, dtype=np.bool_)
    dry[50:54] = True
    each = CYLINDER.form_factors / np.where(dry, 1e-10, 2e-5)
    found = banded_network(CYLINDER, each, dry, 14e3, ARCS)
    peak = math.sqrt(2) * found.current
    rest = float(np.sum(each[~dry]))
    arc = ARCS.electrode_drop + ARCS.arc.constant * 0.02 * peak**-ARCS.arc.exponent
    assert rest * peak + arc == pytest.approx(math.sqrt(2) * 14e3, rel=1e-9)
    wet = peak / (2 * math.pi * 0.05 * 2e-5)
    assert found.spreading == pytest.approx(wet / ARCS.gradient(peak))


def test_heat_of_arcs_is_shared_with_the_air() -> None:
    dry = np.zeros(120, dtype=np.bool_)
    dry[50:54] = True
    each = CYLINDER.form_factors / np.where(dry, 1e-10, 2e-5)
    found = banded_network(CYLINDER, each, dry, 14e3, ARCS)
    kept = dry_bands.arc_heat_on_surface(found, 0.25)
    assert kept[dry] == pytest.approx(0.25 * found.voltages[dry] * found.current)
    assert kept[~dry] == pytest.approx(found.voltages[~dry] * found.current)


@given(st.floats(274, 375))
def test_vapour_slope_is_the_derivative(temperature: float) -> None:
    around = np.array([temperature - 0.01, temperature + 0.01])
    rise = float(np.diff(evaporation.vapour_densities(around))[0]) / 0.02
    slope = float(evaporation.vapour_slopes(np.array([temperature]))[0])
    assert slope == pytest.approx(rise, rel=1e-4)


def test_an_even_layer_dries_whole_necks() -> None:
    """Every neck alike: none takes the voltage, and nothing sparks."""
    even = dry_out(WetSurface(PATH, np.full(len(PATH.sizes), 2e-5)), FogOrRain(), VOLTAGE, 300.0)
    assert not even.burning[even.times < 150].any()
    peak, last = float(np.max(even.currents)), float(even.currents[-1])
    assert last < 0.4 * peak


@given(st.floats(1e-6, 1e-4), st.floats(0, 0.4), st.integers(0, 99))
def test_uneven_layers_repeat_and_keep_their_mean(mean: float, spread: float, seed: int) -> None:
    layer = uneven_layer(mean, 400, spread, seed)
    assert np.array_equal(layer, uneven_layer(mean, 400, spread, seed))
    assert np.mean(np.log(layer)) == pytest.approx(math.log(mean), abs=0.25 * spread + 1e-9)


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="fully_wet"):
        WetSurface(CYLINDER, np.ones(3))
    with pytest.raises(InputError, match="arc_share"):
        WetSurface(CYLINDER, np.ones(120), arc_share=2.0)
    with pytest.raises(InputError, match="humidity"):
        FogOrRain(humidity=1.2)
    with pytest.raises(InputError, match="duration"):
        dry_out(WetSurface(CYLINDER, np.ones(120)), FogOrRain(), 1e3, 0.0)
    with pytest.raises(InputError, match="dry"):
        banded_network(CYLINDER, np.ones(3), np.zeros(3, dtype=np.bool_), 1e3, ARCS)
