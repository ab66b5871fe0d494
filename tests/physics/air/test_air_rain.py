"""Rain: published fall speeds, rival spectra, water on faces, slants that keep the water."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.air import driving_rain, rain
from shedlight.physics.air.rain import MM_PER_HOUR
from shedlight.physics.air.rain_tables import fall_speeds, wet_test, wet_tests

rates = st.floats(1, 100).map(lambda rate: rate * MM_PER_HOUR)
laws = st.sampled_from(sorted(rain.SPECTRA))
winds = st.floats(0, 30)


def test_the_fit_follows_the_published_curve_within_two_per_cent() -> None:
    for row in fall_speeds():
        fitted = rain.fall_speed_fit(row.diameter)
        if row.diameter > 0.8e-3:
            assert fitted == pytest.approx(row.speed, rel=0.02)
        assert rain.fall_speed(row.diameter) == pytest.approx(row.speed)
    assert rain.fall_speed_fit(0.05e-3) == 0.0


@given(st.floats(0.1e-3, 5.8e-3), st.floats(0.1e-3, 5.8e-3))
def test_larger_drops_fall_no_slower(one: float, other: float) -> None:
    small, large = sorted((one, other))
    assert rain.fall_speed(small) <= rain.fall_speed(large)


@given(rates, laws)
def test_spectrum_has_the_median_of_its_law(rate: float, law: str) -> None:
    """Water in the air halves at the law's median (on the ground for Laws and Parsons)."""
    found = rain.spectrum(rate, law)
    assert np.sum(found.shares) == pytest.approx(1.0)
    water = found.shares if law == "Laws & Parsons" else found.shares / found.speeds
    median = {
        "Marshall & Palmer": rain.median_marshall_palmer,
        "Best": rain.median_best,
        "Laws & Parsons": rain.median_laws_parsons,
    }[law](rate)
    reached = np.cumsum(water) / np.sum(water)
    if median < 2.5e-3:  # drops beyond the largest are cut off
        assert np.interp(0.5, reached, found.diameters) == pytest.approx(median, rel=0.02)


@pytest.mark.parametrize("rate", [5, 10, 25, 60])
def test_marshall_palmer_brings_the_rate_it_is_named_for(rate: float) -> None:
    """N0 = 8000 /m³mm and the measured speeds give back the rate within 20 %."""
    found = rain.spectrum(rate * MM_PER_HOUR)
    number = 8e6 * np.exp(-4.1e3 * rate**-0.21 * found.diameters)
    step = found.diameters[1] - found.diameters[0]
    brought = np.sum(number * found.speeds * math.pi / 6 * found.diameters**3) * step
    assert brought == pytest.approx(rate * MM_PER_HOUR, rel=0.20)


@pytest.mark.parametrize("law", sorted(rain.SPECTRA))
@pytest.mark.parametrize("rate", [5, 25, 60])
def test_upright_faces_agree_with_lacy(law: str, rate: float) -> None:
    found = driving_rain.upright_face(
        rate * MM_PER_HOUR, 8.0, rain.spectrum(rate * MM_PER_HOUR, law)
    )
    lacy = driving_rain.upright_face_lacy(rate * MM_PER_HOUR, 8.0)
    assert found == pytest.approx(lacy, rel=0.25)


@given(rates, laws, winds, st.integers(1, 9))
def test_slants_keep_the_water_on_level_and_upright_faces(
    rate: float, law: str, wind: float, parts: int
) -> None:
    found = rain.spectrum(rate, law)
    slanted = driving_rain.slanted_rain(found, wind, parts)
    level = np.cos(slanted.slants)
    upright = np.sin(slanted.slants)
    wetted = driving_rain.wetting_rate(rate, slanted, np.array([level, upright]))
    assert wetted[0] == pytest.approx(rate)
    assert wetted[1] == pytest.approx(driving_rain.upright_face(rate, wind, found), abs=1e-12)
    assert np.all(np.diff(slanted.slants) <= 1e-12)


@given(rates, winds)
def test_half_the_water_is_flatter_than_the_median_slant(rate: float, wind: float) -> None:
    found = rain.spectrum(rate)
    middle = driving_rain.slant_quantile(found, wind, 0.5)
    flatter = np.arctan2(wind, found.speeds) > middle
    assert float(np.sum(found.shares[flatter])) == pytest.approx(0.5, abs=0.02) or wind < 1e-3


def test_no_wind_rains_upright() -> None:
    found = rain.spectrum(10 * MM_PER_HOUR)
    assert driving_rain.slanted_rain(found, 0.0).slants == pytest.approx(np.zeros(5))


def test_test_rain_is_stronger_and_narrower_than_weather() -> None:
    standard = wet_test()
    assert standard.horizontal is not None
    slant = driving_rain.slant_of_test_rain(standard.vertical, standard.horizontal)
    assert math.degrees(slant) == pytest.approx(45)
    assert standard.vertical == pytest.approx(90 * MM_PER_HOUR)
    cloudburst = rain.spectrum(60 * MM_PER_HOUR)
    steep, flat = (driving_rain.slant_quantile(cloudburst, 6.76, share) for share in (0.1, 0.9))
    assert steep < math.radians(45) < flat
    assert [row.horizontal for row in wet_tests()[1:]] == [None, None]


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="law"):
        rain.spectrum(1e-6, "drizzle")
    with pytest.raises(InputError, match="parts"):
        driving_rain.slanted_rain(rain.spectrum(1e-6), 1.0, 0)
    slanted = driving_rain.slanted_rain(rain.spectrum(1e-6), 1.0)
    with pytest.raises(InputError, match="slants"):
        driving_rain.wetting_rate(1e-6, slanted, np.ones((2, 3)))
    with pytest.raises(InputError, match="share"):
        driving_rain.slant_quantile(rain.spectrum(1e-6), 1.0, 2.0)
    with pytest.raises(InputError, match="procedure"):
        wet_test("monsoon")
