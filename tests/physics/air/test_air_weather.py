"""Weather of the day both ways, and gap bands."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.air import gap_bands, weather_of_the_day
from shedlight.physics.air.long_gaps import SWITCHING_MEANS
from shedlight.physics.air.tables import GapFactor, gap_factors

voltages = st.floats(5e4, 2e6)
paths = st.floats(0.1, 6.0)
densities = st.floats(0.65, 1.1)
moist = st.floats(0.9, 1.15)


@given(voltages, paths, densities, moist)
def test_there_and_back(voltage: float, path: float, density: float, humid: float) -> None:
    standard = weather_of_the_day.to_standard(voltage, path, density, humid)
    back = weather_of_the_day.to_the_day(standard, path, density, humid)
    again = weather_of_the_day.to_standard(back, path, density, humid)
    assert again == pytest.approx(standard, rel=1e-6)


@given(voltages, paths)
def test_standard_atmosphere_corrects_nothing(voltage: float, path: float) -> None:
    assert weather_of_the_day.to_standard(voltage, path, 1.0, 1.0) == pytest.approx(voltage)
    assert weather_of_the_day.to_the_day(voltage, path, 1.0, 1.0) == pytest.approx(voltage)


@given(voltages, paths, st.floats(0.65, 0.99))
def test_thin_air_lowers_what_is_applied(voltage: float, path: float, density: float) -> None:
    found = weather_of_the_day.voltage_to_apply(voltage, path, density, 1.0)
    assert density * voltage * (1 - 1e-9) <= found <= voltage * (1 + 1e-9)


def test_one_round_is_not_enough_far_from_standard() -> None:
    """At 0.7 the first guess of g is too high, and so is the correction."""
    once = weather_of_the_day.correction_factor(1.0e6, 3.0, 0.7, 0.95)
    found = weather_of_the_day.correction_for_standard(1.0e6, 3.0, 0.7, 0.95)
    assert found.rounds > 3
    assert found.parameter < once.parameter
    assert found.factor > 1.05 * once.factor


@pytest.mark.parametrize("stress", gap_bands.STRESSES)
@pytest.mark.parametrize("row", gap_factors(), ids=lambda row: row.configuration)
def test_bands_hold_their_mean(row: GapFactor, stress: str) -> None:
    found = gap_bands.sparkover_band(3.0, row.configuration, stress)
    assert found.low <= found.mean <= found.high
    assert found.high < 1.7 * found.low  # rod–rod: factors from 1.03 to 1.66


def test_rod_plane_band_is_the_spread_of_the_laws() -> None:
    found = gap_bands.sparkover_band(4.0, "rod–plane", "switching")
    means = [law(4.0, 1.0) for law in SWITCHING_MEANS.values()]
    assert (found.low, found.high) == (min(means), max(means))
    assert found.high < 1.03 * found.low


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="configuration"):
        gap_bands.gap_factor("needle–cushion")
    with pytest.raises(InputError, match="stress"):
        gap_bands.sparkover_band(2.0, "rod–plane", "thermal")
    with pytest.raises(InputError, match="path"):
        weather_of_the_day.to_standard(1e5, 0.0, 1.0, 1.0)
