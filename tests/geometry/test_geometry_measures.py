"""The record of measures: cross-checks on the three dimension sets, laws, and volumes."""

import math
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.bodies import SHEDS, SMOOTH, built, sections
from shedlight.geometry.measures import Measures, measure
from shedlight.geometry.paths import air_creepage, arcing_path
from shedlight.geometry.section import Section, build_section
from shedlight.given.bushing import Installation
from shedlight.given.reading import read
from strategies import installations

EXAMPLES = Path(__file__).parents[2] / "examples"
SETS = ("inland-12kv", "quay-24kv", "quarry-36kv")
MANY = 60


@cache
def section_of(name: str) -> Section:
    installation = read(EXAMPLES / f"{name}.toml")
    return build_section(installation.bushing, installation.transformer)


@cache
def measures_of(name: str) -> Measures:
    return measure(section_of(name))


# --- three dimension sets ------------------------------------------------------------------
# Provenance: derived independently of this code from a filleted outline of the same dimensions
# (practice); roundings of that outline differ a little, hence the tolerances.


@pytest.mark.parametrize(("name", "millimetres"), tuple(zip(SETS, (403, 607, 914), strict=True)))
def test_creepage_as_derived_independently(name: str, millimetres: float) -> None:
    assert 1e3 * measures_of(name).creepage_length == pytest.approx(millimetres, rel=0.005)


@pytest.mark.parametrize(("name", "millimetres"), tuple(zip(SETS, (203, 303, 334), strict=True)))
def test_arcing_distance_as_derived_independently(name: str, millimetres: float) -> None:
    assert 1e3 * measures_of(name).arcing.length == pytest.approx(millimetres, rel=0.005)


@pytest.mark.parametrize(("name", "expected"), tuple(zip(SETS, (1.79, 2.15, 2.25), strict=True)))
def test_form_factor_as_derived_independently(name: str, expected: float) -> None:
    assert measures_of(name).form_factor == pytest.approx(expected, rel=0.03)


@pytest.mark.parametrize(("name", "expected"), tuple(zip(SETS, (2.0, 2.0, 2.7), strict=True)))
def test_creepage_factor_as_derived_independently(name: str, expected: float) -> None:
    found = measures_of(name).creepage_length / measures_of(name).arcing.length
    assert found == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize(("name", "millimetres"), tuple(zip(SETS, (85, 106, 145), strict=True)))
def test_average_diameter_as_derived_independently(name: str, millimetres: float) -> None:
    """A quarter of two shed diameters and twice the trunk's, on the outline as it was built."""
    one, other = section_of(name).sheds[:2]
    found = (one.tip_radius + other.tip_radius + 2 * one.body_radius) / 2
    assert 1e3 * found == pytest.approx(millimetres, abs=0.51)


# --- volumes, areas ------------------------------------------------------------------------


def test_volumes_by_the_centroid() -> None:
    """Pappus: what an area sweeps round the axis is the area times the way of its centroid."""
    for seed, section in sections("volume", MANY):
        measures = measure(section)
        for region, found in (
            ("oil", measures.oil_volume),
            ("porcelain", measures.porcelain_volume),
        ):
            polygon = section.polygon(region, 1e-6)
            swept = 2 * math.pi * polygon.centroid.x * polygon.area
            assert found == pytest.approx(swept, rel=1e-4), seed
            assert found > 0, seed


def test_every_region_encloses_a_volume() -> None:
    for seed, section in sections("volume", MANY):
        volumes = {
            region.name: section.outline(region.name).enclosed_volume for region in section.regions
        }
        assert min(volumes.values()) > 0, seed
        far = section.curve("far air")
        height = far.start.z - section.curve("far oil").end.z
        whole = math.pi * far.end.r**2 * height
        assert math.fsum(volumes.values()) == pytest.approx(whole, rel=1e-10), seed


def test_the_air_surface_of_a_smooth_body() -> None:
    measures = measure(built(**SMOOTH))
    assert measures.air_surface == pytest.approx(math.pi * 68e-3 * 290e-3, rel=1e-12)
    assert measures.form_factor == pytest.approx(290 / (math.pi * 68), rel=1e-12)
    assert measures.smallest_clearance == math.inf
    assert measures.largest_creepage_over_air == 1.0
    assert measures.creepage_per_repeat is None


# --- laws ----------------------------------------------------------------------------------


@given(st.integers(1, 11), st.floats(25e-3, 60e-3), st.floats(0.0, 0.5), st.booleans())
def test_at_fixed_diameters_and_pitch_more_sheds_never_shorten_the_creepage(
    count: int, overhang: float, slope: float, alternating: bool
) -> None:
    sheds: dict[str, Any] = SHEDS | {
        "overhang": overhang,
        "top_slope": slope,
        "under_slope": slope / 2,
        "first_tip": 50e-3,
    }
    if alternating:
        sheds |= {"form": "alternating", "short_overhang": 0.6 * overhang}
    less, more = (
        air_creepage(built(sheds=sheds | {"count": n}, porcelain__air_length=0.7)).length
        for n in (count, count + 1)
    )
    assert more > less


@given(st.integers(0, 5), st.floats(280e-3, 600e-3), st.floats(0.0, 0.3), st.floats(68e-3, 0.3))
def test_a_longer_air_end_never_shortens_the_arcing_distance(
    count: int, length: float, more: float, cap: float
) -> None:
    sheds = SHEDS | {"count": count} if count else None
    short, long = (
        arcing_path(built(sheds=sheds, porcelain__air_length=each, cap__diameter=cap)).length
        for each in (length, length + more)
    )
    assert long >= short - 1e-9


@settings(max_examples=12)
@given(st.floats(0.0, 1.2), st.floats(0.0, 1.2))
def test_rain_changes_nothing_but_what_is_dry(one: float, other: float) -> None:
    first, second = (measure(section_of(SETS[0]), angle) for angle in (one, other))
    assert first.creepage_length == second.creepage_length
    assert first.arcing == second.arcing
    assert first.bays == second.bays
    assert first.protected_90 == second.protected_90


@settings(max_examples=25)
@given(installations())
def test_measures_of_the_whole_range(installation: Installation) -> None:
    section = build_section(installation.bushing, installation.transformer)
    measures = measure(section, installation.site.rain_angle)
    air = section.heights.cap_base - section.heights.clamp_top
    assert measures.creepage_length >= air * (1 - 1e-9)
    assert measures.arcing.length > 0
    assert measures.oil_path.length > 0
    assert 0 <= measures.dry_creepage <= measures.creepage_length * (1 + 1e-9)
    assert measures.oil_volume > 0
    assert measures.porcelain_volume > 0
    assert measures.largest_creepage_over_air >= 1.0
    assert len(measures.bays) == max(0, len(measures.sheds) - 1)
    inner, outer = section.radii.top_body, section.radii.body
    widest = max([inner, outer, *(shed.tip_radius for shed in section.sheds)])
    low = measures.creepage_length / (2 * math.pi * widest)
    high = measures.creepage_length / (2 * math.pi * min(inner, outer))
    assert low * (1 - 1e-9) <= measures.form_factor <= high * (1 + 1e-9)
