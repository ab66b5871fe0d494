"""The arc's way across: closed forms, two zones, leaps, re-ignition, both ends."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from geometry.bodies import built
from shedlight.errors import InputError
from shedlight.geometry.paths import air_creepage
from shedlight.physics.surface import arc_way, flashover
from shedlight.physics.surface.arc_way import Leap, arc_flashover
from shedlight.physics.surface.constants import Reignition, arc_constants_of, reignitions
from shedlight.physics.surface.deposit import severity_of_class
from shedlight.physics.surface.layer import layer_conductivity_wetted_rule
from shedlight.physics.surface.profile_flashover import profile_critical_state
from shedlight.physics.surface.resistance import resistances, surface_path
from shedlight.physics.surface.severity import pollution_class

ALSTON = arc_constants_of("Alston & Zoledziowski")
RIZK, CLAVERIE = reignitions()
EVEN = np.linspace(0.0, 1.0, 201)
STRIP = np.full(200, 1e5 / 200)  # 1000 Ω/cm over 100 cm


def zones(near: float, far: float) -> NDArray[np.float64]:
    """Two halves of unlike resistance, together 100 kΩ over 1 m."""
    share = near / (near + far)
    return np.repeat([share, 1 - share], 100) * 1e5 / 100


@settings(max_examples=25, deadline=None)
@given(st.floats(1e3, 1e6))
def test_an_even_strip_gives_the_closed_form(total: float) -> None:
    found = arc_flashover(EVEN, STRIP * total / 1e5, ALSTON)
    gradient = flashover.critical_gradient(ALSTON.constant, ALSTON.exponent, total)
    assert found.voltage == pytest.approx(gradient, rel=1e-4)
    current = flashover.critical_current(ALSTON.constant, ALSTON.exponent, total)
    assert found.current == pytest.approx(current, rel=0.01)
    assert found.foot == pytest.approx(1 / (1 + ALSTON.exponent), abs=0.005)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.floats(0.1, 10.0), min_size=2, max_size=8))
def test_without_leaps_it_is_the_profile_search_from_the_easier_end(parts: list[float]) -> None:
    each = np.repeat(parts, 40)
    each *= 1e5 / float(np.sum(each))
    ends = np.linspace(0.0, 1.0, len(each) + 1)
    found = arc_flashover(ends, each, ALSTON)
    factors = np.concatenate([[0.0], np.cumsum(each)])
    both = [
        profile_critical_state(ends.tolist(), table.tolist(), 1.0, ALSTON.constant, ALSTON.exponent)
        for table in (factors, factors[-1] - factors[::-1])
    ]
    assert found.voltage == pytest.approx(min(state.voltage for state in both), rel=2e-3)


def test_two_zones_average_is_unsafe() -> None:
    """By hand: from the resistive end the arc is critical within the resistive half.

    That is an even strip of 0.5 m with the whole resistance: E_c(2 r) · 0.5 m, which is
    0.5 · 2^(n/(n+1)) = 0.67 of what the mean resistance says.
    """
    mean = arc_flashover(EVEN, STRIP, ALSTON).voltage
    found = arc_flashover(EVEN, zones(1.0, 1e-9), ALSTON)
    share = 0.5 * 2 ** (ALSTON.exponent / (ALSTON.exponent + 1))
    assert found.voltage == pytest.approx(share * mean, rel=1e-3)
    assert found.voltage < 0.7 * mean
    assert not found.from_far_end
    assert arc_flashover(EVEN, zones(1e-9, 1.0), ALSTON).from_far_end


@pytest.mark.parametrize("ratio", [2.0, 5.0, 20.0])
def test_the_more_uneven_the_weaker(ratio: float) -> None:
    milder = arc_flashover(EVEN, zones(ratio / 2, 1.0), ALSTON).voltage
    assert arc_flashover(EVEN, zones(ratio, 1.0), ALSTON).voltage < milder


@settings(max_examples=15, deadline=None)
@given(st.floats(0.1, 10.0), st.sampled_from([None, RIZK, CLAVERIE]))
def test_the_far_end_mirrors(ratio: float, relit: Reignition | None) -> None:
    one = arc_flashover(EVEN, zones(ratio, 1.0), ALSTON, relit)
    other = arc_flashover(EVEN, zones(1.0, ratio), ALSTON, relit)
    assert one.voltage == pytest.approx(other.voltage)


def test_reignition_without_arc_drop_has_a_closed_form() -> None:
    """U^(1+m) = N x (r (L - x))^m, greatest at x = L/(1+m), when the arc itself takes nothing."""
    weak = replace(ALSTON, constant=1e-3)
    found = arc_flashover(EVEN, STRIP, weak, RIZK)
    m = RIZK.exponent
    x = 1 / (1 + m)
    expected = (RIZK.coefficient * x * (1e5 * (1 - x)) ** m) ** (1 / (1 + m))
    assert found.voltage == pytest.approx(expected, rel=1e-3)
    assert found.foot == pytest.approx(x, abs=0.006)


def test_reignition_asks_for_more_than_burning() -> None:
    sets = arc_way.flashover_by_constants(EVEN, STRIP)
    assert len(sets) == 4
    direct = sets["Alston & Zoledziowski"].voltage
    closed = flashover.rizk_gradient(1e5)
    first = next(iter(sets.values())).voltage
    assert direct < closed < first
    assert first == pytest.approx(closed, rel=0.25)


def test_leaps_that_air_forbids_change_nothing() -> None:
    ways = [Leap(0.2, 0.4, 0.05)]
    plain = arc_flashover(EVEN, STRIP, ALSTON)
    assert arc_flashover(EVEN, STRIP, ALSTON, None, ways, math.inf) == plain
    assert arc_flashover(EVEN, STRIP, ALSTON, None, ways, 1e8).voltage == plain.voltage


def test_free_leaps_shorten_arc_and_way() -> None:
    """Air that breaks down for nothing: 0.5 m of surface left, and half its resistance skipped."""
    ways = [Leap(0.25 * k, 0.25 * k + 0.2, 0.01) for k in range(4)]
    plain = arc_flashover(EVEN, STRIP, ALSTON)
    found = arc_flashover(EVEN, STRIP, ALSTON, None, ways, 1e-3)
    assert found.leaps >= 3
    assert found.voltage < 0.5 * plain.voltage
    assert found.arc_length < plain.arc_length


@settings(max_examples=15, deadline=None)
@given(st.floats(1e3, 1e7), st.floats(1e3, 1e7))
def test_stronger_air_is_never_worse(one: float, other: float) -> None:
    low, high = sorted((one, other))
    ways = [Leap(0.2, 0.4, 0.05), Leap(0.4, 0.6, 0.05)]
    weak, strong = (arc_flashover(EVEN, STRIP, ALSTON, RIZK, ways, at) for at in (low, high))
    assert weak.voltage <= strong.voltage * (1 + 1e-9)


def test_electrode_drops_add() -> None:
    plain = arc_flashover(EVEN, STRIP, ALSTON)
    dropped = arc_flashover(EVEN, STRIP, ALSTON, electrode_drop=840.0)
    assert dropped.voltage - plain.voltage == pytest.approx(840.0)


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="resistances"):
        arc_flashover(EVEN, STRIP[:-1], ALSTON)
    with pytest.raises(InputError, match="creepages"):
        arc_flashover(EVEN[::-1], STRIP, ALSTON)
    with pytest.raises(InputError, match="together"):
        arc_flashover(EVEN, 0 * STRIP, ALSTON)
    with pytest.raises(InputError, match="leaps"):
        arc_flashover(EVEN, STRIP, ALSTON, None, [Leap(0.5, 1.5, 0.1)])
    with pytest.raises(InputError, match="leap_gradient"):
        arc_flashover(EVEN, STRIP, ALSTON, None, (), 0.0)


def test_the_model_falls_more_steeply_with_deposit_than_tests_do() -> None:
    """CIGRE TB 158 gives U ∝ S^-0.2…-0.36; the model's exponent with re-ignition is m/(1+m)."""
    weak, strong = (arc_flashover(EVEN, STRIP / kappa, ALSTON, RIZK) for kappa in (1.0, 4.0))
    slope = math.log(weak.voltage / strong.voltage) / math.log(4.0)
    assert slope == pytest.approx(RIZK.exponent / (1 + RIZK.exponent), abs=0.04)
    assert slope > 0.3


def test_penalty_is_one_for_even_strips_and_less_for_zones() -> None:
    assert arc_way.profile_penalty(EVEN, STRIP, ALSTON, RIZK) == pytest.approx(1.0)
    steps = [arc_way.profile_penalty(EVEN, zones(ratio, 1.0), ALSTON) for ratio in (1, 3, 9, 81)]
    assert steps == sorted(steps, reverse=True)
    assert steps[-1] == pytest.approx(0.5 * 2 ** (0.76 / 1.76), rel=0.02)


@pytest.mark.parametrize("letter", ["b", "c", "d"])
def test_rizk_s_closed_form_asks_for_the_creepage_of_the_class(letter: str) -> None:
    """Two unrelated roads: tests on wet layers, and the standard's ladder, within 15 %."""
    path = surface_path(air_creepage(built()))
    lying = severity_of_class(letter, "deposit").middle
    kappa = layer_conductivity_wetted_rule(lying)
    each = resistances(path, np.full(len(path.sizes), kappa))
    penalty = arc_way.profile_penalty(path.ends, each, ALSTON, RIZK)
    gradient = flashover.rizk_gradient(float(np.sum(each) / path.ends[-1])) / math.sqrt(2)
    asked = pollution_class(letter).specific_creepage
    assert 1 / gradient == pytest.approx(asked, rel=0.15)
    assert 1 / (gradient * penalty) == pytest.approx(asked, rel=0.2)
