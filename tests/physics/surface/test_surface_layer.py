"""Washing water, wet layers, form factors: limits, conservation, tables, misuse."""

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.surface import layer, layer_rules, solution
from shedlight.physics.surface.deposit import equivalences
from shedlight.physics.surface.flashover import rizk_gradient
from shedlight.trace import calculate

lengths = st.floats(1e-3, 1.0)
deposits = st.floats(0.0, 0.05)


def test_nothing_is_corrected_at_twenty_degrees() -> None:
    assert solution.conductivity_at_20(0.03, 293.15) == 0.03


@given(st.floats(278.15, 303.0), st.floats(0.01, 10.0))
def test_warmer_water_conducts_better(temperature: float, warmer: float) -> None:
    """The same reading at a higher temperature means less salt."""
    if temperature + warmer <= 303.15:
        cool = solution.conductivity_at_20(0.03, temperature)
        assert solution.conductivity_at_20(0.03, temperature + warmer) < cool


def test_solution_formulas_flag_their_ranges() -> None:
    assert not calculate(solution.temperature_coefficient, 293.15).step.beyond
    assert calculate(solution.temperature_coefficient, 310.0).step.beyond
    assert not calculate(solution.salinity_from_conductivity, 0.4).step.beyond
    assert calculate(solution.salinity_from_conductivity, 0.41).step.beyond
    assert calculate(solution.salinity_at, 0.1).step.beyond
    assert calculate(solution.conductivity_of_salinity, 250.0).step.beyond


@given(st.floats(1.0, 300.0))
def test_reading_the_salt_table_back_and_forth(salinity: float) -> None:
    conductivity = solution.conductivity_of_salinity(salinity)
    assert solution.salinity_at(conductivity) == pytest.approx(salinity, rel=1e-9)


def test_every_row_of_the_salt_table_is_met() -> None:
    for water in solution.saline_waters():
        read = solution.salinity_at(water.conductivity_at_20)
        assert read == pytest.approx(water.salinity, rel=1e-12)


@given(st.floats(0.01, 10.0), st.floats(1e-5, 1e-2), st.floats(1e-3, 1.0))
def test_salt_is_conserved(salinity: float, volume: float, area: float) -> None:
    deposit = solution.deposit_density(salinity, volume, area)
    assert deposit * area == pytest.approx(salinity * volume)
    assert solution.deposit_blank_corrected(salinity, 0.0, volume, area) == pytest.approx(deposit)
    assert solution.deposit_blank_corrected(salinity, salinity, volume, area) == 0


@given(deposits)
def test_the_rival_rules_differ_about_fourfold(deposit: float) -> None:
    if deposit > 1e-3:
        field, wetted = (
            layer_rules.LAYER_CONDUCTIVITY_RULES[name](deposit) for name in ("field", "wetted")
        )
        assert 3.6 < wetted / field < 3.8


@pytest.mark.parametrize(
    "rule", [layer.layer_conductivity_wetted_rule, layer.layer_conductivity_field_rule]
)
def test_both_linear_rules_grow_in_a_straight_line(rule: Callable[[float], float]) -> None:
    none, some, twice = (rule(deposit) for deposit in (0.0, 0.001, 0.002))
    assert twice - some == pytest.approx(some - none)
    with pytest.raises(InputError, match="deposit"):
        rule(-0.001)


def test_the_default_rule_stays_with_the_table_it_comes_from() -> None:
    """IEC 815:1986, artificial tests of equal severity, levels I and II."""
    for row in equivalences()[:2]:
        assert row.layer[1] is not None
        for lying, salt, film in zip(row.deposit, row.salinity, row.layer, strict=True):
            assert layer_rules.layer_conductivity_equal_deposit(lying) == pytest.approx(
                film, rel=0.08
            )
            assert layer_rules.layer_conductivity_equal_salinity(salt) == pytest.approx(
                film, rel=0.15
            )
    heaviest = equivalences()[2]
    assert layer_rules.layer_conductivity_equal_deposit(heaviest.deposit[0]) > heaviest.layer[0]
    assert calculate(layer_rules.layer_conductivity_equal_deposit, 0.9e-4).step.beyond


def test_the_default_rule_falls_with_the_deposit_as_housings_do_and_the_linear_one_does_not() -> (
    None
):
    """CIGRE TB 158: exponents 0.20 to 0.25 on housings; Rizk's law has 0.40 on the layer."""
    for rule, slope in (("equal severity", 0.18), ("wetted", 0.40)):
        low, high = (
            rizk_gradient(1 / layer_rules.LAYER_CONDUCTIVITY_RULES[rule](lying))
            for lying in (0.05e-2, 0.2e-2)
        )
        assert math.log(low / high) / math.log(4) == pytest.approx(slope, abs=0.01)


@given(lengths, lengths, lengths)
def test_a_cone_is_the_same_both_ways(length: float, one: float, two: float) -> None:
    assert layer.form_factor_cone(length, one, two) == pytest.approx(
        layer.form_factor_cone(length, two, one), rel=1e-9
    )


@given(lengths, lengths, st.floats(1e-12, 1e-3))
def test_a_slight_cone_is_nearly_a_cylinder(length: float, radius: float, taper: float) -> None:
    cylinder = length / (2 * math.pi * radius)
    cone = layer.form_factor_cone(length, radius, radius * (1 + taper))
    assert cone == pytest.approx(cylinder, rel=taper)
    assert cone <= cylinder


@given(lengths, lengths, lengths, st.floats(0.1, 0.9))
def test_cutting_a_cone_changes_nothing(length: float, one: float, two: float, cut: float) -> None:
    middle = one + cut * (two - one)
    pieces = (
        layer.form_factor_cone(length * cut, one, middle),
        layer.form_factor_cone(length * (1 - cut), middle, two),
    )
    assert layer.form_factor(pieces) == pytest.approx(layer.form_factor_cone(length, one, two))


def test_a_sphere_of_many_cones_converges_quadratically() -> None:
    """Between 30° and 90° from the axis F is ln(tan 45°/tan 15°)/(2 pi), whatever the radius."""
    exact = math.log(1 / math.tan(math.radians(15))) / (2 * math.pi)

    def chained(number: int) -> float:
        angles = [math.radians(30 + 60 * step / number) for step in range(number + 1)]
        chord = 2 * math.sin(math.radians(60 / number) / 2)
        return layer.form_factor(
            [layer.form_factor_cone(chord, math.sin(a), math.sin(b)) for a, b in pairwise(angles)]
        )

    coarse, fine = (abs(chained(number) - exact) for number in (20, 40))
    assert fine / exact < 1e-3
    assert coarse / fine == pytest.approx(4.0, rel=0.05)


@given(st.floats(0.1, 10.0), st.floats(1e-7, 1e-4), st.floats(1e2, 1e5))
def test_measuring_the_current_finds_the_layer(factor: float, kappa: float, across: float) -> None:
    current = layer.wet_current(across, layer.film_resistance(factor, kappa))
    assert layer.layer_conductivity(factor, current, across) == pytest.approx(kappa)


@given(st.floats(1e-5, 1e-4), st.floats(1.1, 3.0))
def test_highest_leakage_grows_with_the_square(specific: float, times: float) -> None:
    assert layer.highest_leakage_current(specific * times) == pytest.approx(
        layer.highest_leakage_current(specific) * times**2
    )


@given(st.floats(1e-9, 1e-5))
def test_a_better_film_flattens_the_field_at_the_flange(kappa: float) -> None:
    sharp = layer.wet_edge_gradient(20e3, 50.0, 5e-10, 0.04, kappa)
    assert layer.wet_edge_gradient(20e3, 50.0, 5e-10, 0.04, 4 * kappa) == pytest.approx(sharp / 2)


def test_fog_salinity_is_a_straight_line() -> None:
    assert layer.fog_salinity(0.0) == 0
    assert layer.fog_salinity(0.01) == pytest.approx(140)


MISUSE: list[tuple[Callable[..., object], tuple[object, ...], str]] = [
    (solution.temperature_coefficient, (200.0,), "temperature"),
    (solution.conductivity_at_20, (-0.1, 293.15), "conductivity"),
    (solution.salinity_from_conductivity, (-0.1,), "conductivity_at_20"),
    (solution.salinity_at, (0.0,), "conductivity_at_20"),
    (solution.conductivity_of_salinity, (0.0,), "salinity"),
    (solution.deposit_density, (1.0, 0.0, 1.0), "volume"),
    (solution.deposit_blank_corrected, (0.1, 0.2, 1e-3, 1.0), "salinity"),
    (solution.nsdd, (1e-3, 2e-3, 0.1), "mass_after"),
    (solution.nsdd, (2e-3, 1e-3, 0.0), "area"),
    (layer.fog_salinity, (-1.0,), "deposit"),
    (layer.form_factor_cone, (1.0, 0.0, 0.1), "inner"),
    (layer.form_factor_cone, (-1.0, 0.1, 0.1), "length"),
    (layer.form_factor, ((),), "pieces"),
    (layer.form_factor, ((0.1, -0.1),), r"pieces\[1\]"),
    (layer.layer_conductivity, (1.0, 1e-3, 0.0), "voltage_across"),
    (layer.film_resistance, (1.0, 0.0), "layer_conductivity"),
    (layer.wet_current, (1.0, 0.0), "film_resistance"),
    (layer.highest_leakage_current, (0.0,), "specific_creepage"),
    (layer.wet_edge_gradient, (1.0, 50.0, 1e-10, 0.0, 1e-6), "radius"),
]


@pytest.mark.parametrize(("function", "arguments", "word"), MISUSE)
def test_layer_misuse_names_the_argument(
    function: Callable[..., object], arguments: tuple[object, ...], word: str
) -> None:
    with pytest.raises(InputError, match=word):
        function(*arguments)
