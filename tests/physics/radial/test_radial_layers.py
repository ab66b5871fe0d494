"""Concentric layers: closed-form limits, conservation, scaling, misuse."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from shedlight.errors import InputError
from shedlight.physics.radial import cavities, direct, layers, losses
from shedlight.trace import calculate, derivation

lengths = st.floats(1e-3, 1.0)
factors = st.floats(1.01, 5.0)
permittivities = st.floats(1.0, 10.0)
volts = st.floats(1.0, 1e6)


@st.composite
def stacks(draw: st.DrawFn) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Radii and permittivities of one to four layers."""
    radii = [draw(lengths)]
    for _ in range(draw(st.integers(1, 4))):
        radii.append(radii[-1] * draw(factors))
    return tuple(radii), tuple(draw(permittivities) for _ in radii[1:])


@given(stacks(), volts)
def test_layer_voltages_add_up(
    stack: tuple[tuple[float, ...], tuple[float, ...]], across: float
) -> None:
    radii, eps = stack
    total = layers.layer_sum(radii, eps)
    parts = [
        layers.layer_voltage(across, inner, outer, e, total)
        for inner, outer, e in zip(radii, radii[1:], eps, strict=False)
    ]
    assert math.fsum(parts) == pytest.approx(across, rel=1e-12)


@given(stacks(), volts)
def test_displacement_is_continuous_at_every_interface(
    stack: tuple[tuple[float, ...], tuple[float, ...]], across: float
) -> None:
    radii, eps = stack
    total = layers.layer_sum(radii, eps)
    for radius, inside, outside in zip(radii[1:], eps, eps[1:], strict=False):
        assert inside * layers.layer_gradient(across, inside, radius, total) == pytest.approx(
            outside * layers.layer_gradient(across, outside, radius, total), rel=1e-12
        )


def test_voltage_is_the_integral_of_the_field() -> None:
    total = layers.layer_sum((0.012, 0.02, 0.04), (2.2, 6.0))
    for inner, outer, eps in ((0.012, 0.02, 2.2), (0.02, 0.04, 6.0)):
        integral, _ = quad(lambda r, e=eps: layers.layer_gradient(1.0, e, r, total), inner, outer)
        assert layers.layer_voltage(1.0, inner, outer, eps, total) == pytest.approx(integral)


def test_stored_energy_gives_the_capacitance() -> None:
    """Half C' U² equals the field energy, integrated layer by layer."""
    total = layers.layer_sum((0.012, 0.02, 0.04), (2.2, 6.0))
    energy = 0.0
    for inner, outer, eps in ((0.012, 0.02, 2.2), (0.02, 0.04, 6.0)):
        part, _ = quad(
            lambda r, e=eps: (
                math.pi
                * layers.VACUUM_PERMITTIVITY
                * e
                * r
                * layers.layer_gradient(1.0, e, r, total) ** 2
            ),
            inner,
            outer,
        )
        energy += part
    assert layers.capacitance_per_length(total) == pytest.approx(2 * energy, rel=1e-9)


@given(lengths, st.floats(1e-7, 1e-5), permittivities)
def test_thin_layer_is_a_plane_capacitor(radius: float, relative: float, eps: float) -> None:
    total = layers.layer_sum((radius, radius * (1 + relative)), (eps,))
    per_area = layers.capacitance_per_area(layers.capacitance_per_length(total), radius)
    plane = layers.VACUUM_PERMITTIVITY * eps / (radius * relative)
    assert per_area == pytest.approx(plane, rel=relative + 1e-8)


@given(stacks(), st.floats(1.0, 100.0))
def test_scaling_all_radii_changes_no_share(
    stack: tuple[tuple[float, ...], tuple[float, ...]], scale: float
) -> None:
    radii, eps = stack
    larger = tuple(radius * scale for radius in radii)
    assert layers.layer_sum(larger, eps) == pytest.approx(layers.layer_sum(radii, eps), rel=1e-12)


@given(factors)
def test_the_best_ratio_is_e(ratio: float) -> None:
    """For a given outer radius no ratio stresses the inner one less than e does."""
    peak = layers.layer_gradient(1.0, 1.0, 1 / ratio, layers.layer_sum((1 / ratio, 1.0), (1.0,)))
    assert peak >= math.e * (1 - 1e-12)


@given(permittivities)
def test_a_bubble_lies_between_no_change_and_a_film(eps: float) -> None:
    assert 1 <= cavities.bubble_factor(eps) <= min(1.5, cavities.film_factor(eps)) + 1e-15


@given(lengths, factors)
def test_utilisation_is_mean_over_peak(inner: float, ratio: float) -> None:
    outer = inner * ratio
    peak = layers.layer_gradient(1.0, 1.0, inner, layers.layer_sum((inner, outer), (1.0,)))
    mean = layers.mean_gradient(1.0, outer - inner)
    assert cavities.utilisation(inner, outer) == pytest.approx(mean / peak, rel=1e-9)


def test_layers_without_loss_behave_as_real_ones() -> None:
    radii, eps = (0.012, 0.02, 0.04), (2.2, 6.0)
    assert losses.complex_layer_sum(radii, eps) == layers.layer_sum(radii, eps)
    still = losses.conducting_layers(radii, eps, (0.0, 0.0), 50.0)
    assert still.loss_factor == 0
    assert still.capacitance_per_length == pytest.approx(
        layers.capacitance_per_length(layers.layer_sum(radii, eps))
    )


@given(st.floats(1e-12, 1e-6), st.floats(1e-12, 1e-6))
def test_at_low_frequency_conduction_shares_the_voltage(inner: float, outer: float) -> None:
    radii = (0.012, 0.02, 0.04)
    slow = losses.conducting_layers(radii, (2.2, 6.0), (inner, outer), 1e-9)
    total = direct.layer_sum_dc(radii, (inner, outer))
    expected = direct.layer_voltage_dc(1.0, radii[0], radii[1], inner, total)
    assert slow.shares[0].real == pytest.approx(expected, rel=1e-4)
    assert sum(slow.shares) == pytest.approx(1.0)


def test_dc_voltage_is_the_integral_of_the_field() -> None:
    total = direct.layer_sum_dc((0.012, 0.02, 0.04), (1e-13, 1e-12))
    integral, _ = quad(lambda r: direct.layer_gradient_dc(1.0, 1e-13, r, total), 0.012, 0.02)
    assert direct.layer_voltage_dc(1.0, 0.012, 0.02, 1e-13, total) == pytest.approx(integral)


def test_time_constant_of_one_medium_cut_in_two_is_its_own() -> None:
    tau = losses.interfacial_time_constant((0.01, 0.02, 0.05), (2.2, 2.2), (1e-12, 1e-12))
    assert tau == pytest.approx(2.2 * layers.VACUUM_PERMITTIVITY / 1e-12)


@given(st.floats(0.0, 0.1), st.floats(0.0, 0.1))
def test_the_whole_loses_no_less_and_no_more_than_its_layers(one: float, two: float) -> None:
    whole = losses.loss_factor((0.012, 0.02, 0.04), (2.2, 6.0), (one, two))
    assert min(one, two) - 1e-12 <= whole <= max(one, two) + 1e-12


def test_conduction_loss_agrees_with_the_complex_permittivity() -> None:
    eps = losses.complex_permittivity(2.2, 0.0, 3e-11, 50.0)
    assert losses.conduction_loss_factor(3e-11, 2.2, 50.0) == pytest.approx(-eps.imag / eps.real)


def test_a_calculation_remembers_its_layer_sum() -> None:
    total = calculate(layers.layer_sum, (0.012, 0.02, 0.04), (2.2, 6.0))
    peak = calculate(layers.layer_gradient, 36e3 / math.sqrt(3), 2.2, 0.012, total)
    assert [step.label.symbol for step in derivation(peak)] == ["S", "E"]


MISUSE: list[tuple[Callable[..., object], tuple[object, ...], str]] = [
    (layers.layer_sum, ((0.01,), ()), "radii"),
    (layers.layer_sum, ((0.02, 0.01), (1.0,)), r"radii\[1\]"),
    (layers.layer_sum, ((0.01, 0.02), (1.0, 2.0)), "one per layer"),
    (layers.layer_sum, ((0.01, 0.02), (0.0,)), r"permittivities\[0\]"),
    (layers.layer_gradient, (1.0, 1.0, -0.01, 1.0), "radius"),
    (layers.layer_gradient, (math.nan, 1.0, 0.01, 1.0), "voltage_across"),
    (layers.layer_voltage, (1.0, 0.02, 0.01, 1.0, 1.0), "outer_radius"),
    (layers.mean_gradient, (1.0, 0.0), "thickness"),
    (layers.capacitance_per_length, (0.0,), "layer_sum"),
    (layers.capacitance_per_area, (1e-10, 0.0), "radius"),
    (cavities.bubble_factor, (0.0,), "permittivity"),
    (cavities.film_factor, (-1.0,), "permittivity"),
    (cavities.utilisation, (0.02, 0.02), "outer_radius"),
    (losses.complex_permittivity, (2.2, -0.1, 0.0, 50.0), "loss_factor"),
    (losses.complex_layer_sum, ((0.01, 0.02), (0j,)), r"permittivities\[0\]"),
    (losses.loss_factor, ((0.01, 0.02), (2.2,), (-0.1,)), r"loss_factors\[0\]"),
    (losses.conduction_loss_factor, (1e-12, 2.2, 0.0), "frequency"),
    (losses.conducting_layers, ((0.01, 0.02), (2.2,), (), 50.0), "conductivities"),
    (losses.interfacial_time_constant, ((0.01, 0.02), (2.2,), (1e-12,)), "two layers"),
    (losses.interfacial_time_constant, ((1.0, 2.0, 3.0), (1, 1), (0.0, 1)), "conductivities"),
    (direct.layer_sum_dc, ((0.01, 0.02), (0.0,)), r"conductivities\[0\]"),
    (direct.layer_gradient_dc, (1.0, 0.0, 0.01, 1.0), "conductivity"),
    (direct.layer_voltage_dc, (1.0, 0.01, 0.02, 1e-12, 0.0), "layer_sum"),
]


@pytest.mark.parametrize(("function", "arguments", "word"), MISUSE)
def test_misuse_names_the_argument(
    function: Callable[..., object], arguments: tuple[object, ...], word: str
) -> None:
    with pytest.raises(InputError, match=word):
        function(*arguments)
