"""Fracture summed over a body, against the closed form of an even cantilever."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.strength import brittle, combined, size_effect, survival
from shedlight.physics.strength.combined import Load
from shedlight.physics.strength.stepped import Segment, SteppedBeam

BEAM = SteppedBeam((Segment(0.5, 0.09, 0.05, 75e9, 12.0),))


@given(st.floats(200, 3000), st.floats(5, 20))
def test_an_even_cantilever_is_its_effective_surface(force: float, m: float) -> None:
    stresses = combined.stresses_along(BEAM, (Load(0.5, force),), parts=400)
    found = survival.fracture_probability(stresses, 30e6, m)
    surface = size_effect.effective_surface(0.09, 0.5, m)
    closed = -math.expm1(-surface * (stresses[0].bending / 30e6) ** m)
    assert found == pytest.approx(closed, rel=2e-3)


@given(st.floats(30e6, 150e6), st.floats(5, 20))
def test_half_the_bars_break_at_their_median(median: float, m: float) -> None:
    bar = size_effect.effective_surface(0.01, 0.1, m)
    unit = survival.unit_strength(median, bar, m)
    whole = unit * bar ** (-1 / m)
    assert brittle.weibull_probability(median, whole, m) == pytest.approx(0.5)


def test_a_tie_that_presses_everything_makes_it_safe() -> None:
    load = (Load(0.5, 800.0),)
    loose = survival.fracture_probability(combined.stresses_along(BEAM, load), 30e6, 10)
    tied = survival.fracture_probability(
        combined.stresses_along(BEAM, load, (), 0.0, 60e3), 30e6, 10
    )
    assert tied == 0.0 < loose


def test_sections_have_to_be_in_order() -> None:
    stresses = combined.stresses_along(BEAM, (Load(0.5, 1.0),))
    with pytest.raises(InputError, match="from the base up"):
        survival.fracture_probability(stresses[::-1], 30e6, 10)
    with pytest.raises(InputError, match="at least two"):
        survival.fracture_probability(stresses[:1], 30e6, 10)
