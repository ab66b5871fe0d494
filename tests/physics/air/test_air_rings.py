"""Field of a ring over a plane: the solved field, the long line; its inception."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.air.rings import ring_gradient, ring_inception
from shedlight.physics.air.streamer import curved_inception
from shedlight.physics.field.benchmarks_open import ring_over_plane

ONE_VOLT = 1 / math.sqrt(2)  # rms of one volt peak


@pytest.mark.parametrize(
    ("ring", "tube", "height"),
    [(0.11, 0.015, 0.25), (0.3, 0.03, 0.6), (0.11, 0.015, 0.06), (0.3, 0.1, 0.5)],
)
def test_the_closed_form_is_on_the_safe_side_of_the_solved_field(
    ring: float, tube: float, height: float
) -> None:
    found = ring_gradient(ONE_VOLT, 2 * ring, 2 * tube, height - tube)
    solved = ring_over_plane(ring, tube, height)

    assert solved < found < 1.22 * solved


def test_a_wide_ring_is_a_long_line_over_the_plane() -> None:
    """Cylinder over a plane, exact: E = U √((h + r)/(h - r))/(r arcosh(h/r))."""
    tube, height = 0.01, 0.5
    line = math.sqrt((height + tube) / (height - tube)) / (tube * math.acosh(height / tube))
    found = ring_gradient(ONE_VOLT, 200.0, 2 * tube, height - tube)
    assert found == pytest.approx(line, rel=2e-3)


@given(st.floats(0.002, 0.09), st.floats(0.2, 2.0), st.floats(0.6, 1.05))
def test_inception_lies_between_rod_and_ball(tube: float, ring: float, density: float) -> None:
    found = ring_inception(2 * ring, 2 * tube, density, 1.0)
    rod, ball = (curved_inception(tube, other, density) for other in (math.inf, tube))
    assert rod <= found * (1 + 1e-6)
    assert found <= ball * (1 + 1e-6)


@given(st.floats(0.01, 0.05), st.floats(0.1, 1.0))
def test_a_thicker_tube_and_a_wider_gap_ease_the_field(tube: float, clearance: float) -> None:
    here = ring_gradient(1e4, 0.5, tube, clearance)
    assert ring_gradient(1e4, 0.5, 1.2 * tube, clearance) < here
    assert ring_gradient(1e4, 0.5, tube, 1.2 * clearance) < here


def test_misuse_is_refused() -> None:
    with pytest.raises(InputError, match="ring_diameter"):
        ring_gradient(1e4, 0.1, 0.2, 0.1)
    with pytest.raises(InputError, match="clearance"):
        ring_gradient(1e4, 0.1, 0.02, 0.0)
    with pytest.raises(InputError, match="surface"):
        ring_inception(0.1, 0.02, 1.0, 0.0)
