"""A conductor off the middle of its tube, against the two line charges it comes from."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.radial.eccentric import eccentric_factor, offset_of_width

Array = NDArray[np.float64]


@pytest.mark.parametrize(("b", "e"), [(0.02, 0.003), (0.03, 0.015), (0.014, 0.0035)])
def test_both_circles_are_equipotentials_and_the_field_is_that_of_the_charges(
    b: float, e: float
) -> None:
    """Charges at +-c; potential ln of the two distances; field by a difference quotient."""
    a = 0.01
    x = (b * b - a * a - e * e) / (2 * e)
    c = math.sqrt(x * x - a * a)

    def potential(at: Array, up: Array) -> Array:
        return np.asarray(np.log(np.hypot(at + c, up) / np.hypot(at - c, up)), dtype=float)

    turn = np.linspace(0, 2 * np.pi, 60)
    inner = potential(x + a * np.cos(turn), a * np.sin(turn))
    outer = potential(x + e + b * np.cos(turn), b * np.sin(turn))
    assert np.ptp(inner) < 1e-9
    assert np.ptp(outer) < 1e-9

    step = 1e-8
    near = np.array([x - a, x - a - step])  # the outer circle is nearest on this side
    field = abs(np.diff(potential(near, np.zeros(2)))[0]) / step
    across = abs(float(inner[0] - outer[0]))
    centred = across / (a * math.log(b / a))
    assert eccentric_factor(a, b, e) == pytest.approx(field / centred, rel=1e-5)


@given(st.floats(1.05, 20), st.floats(0, 0.98), st.floats(1e-4, 1))
def test_further_off_is_never_milder_and_size_does_not_matter(
    ratio: float, share: float, size: float
) -> None:
    gap = ratio - 1
    here, further = (eccentric_factor(1.0, ratio, s * gap) for s in (share, share + 0.01))

    assert 1 <= here <= further * (1 + 1e-12)
    scaled = eccentric_factor(size, ratio * size, share * gap * size)
    assert scaled == pytest.approx(here, rel=1e-6)


def test_a_conductor_that_touches_is_refused() -> None:
    with pytest.raises(InputError, match="the gap"):
        eccentric_factor(0.01, 0.018, 0.008)
    with pytest.raises(InputError):
        offset_of_width(0.008, 1.0)
