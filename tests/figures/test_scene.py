import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.figures.scene import (
    Box,
    Drawn,
    Pen,
    Placement,
    Round,
    Spot,
    Text,
    arc_middle,
    circle,
    extent,
)


@given(st.floats(0.1, 50), st.floats(-3, 3), st.floats(0.05, 6.0), st.booleans())
def test_arc_middle_lies_half_way_on_the_circle(
    radius: float, start: float, sweep: float, clockwise: bool
) -> None:
    """On paper y points down: a growing angle turns clockwise."""
    turn = sweep if clockwise else -sweep
    at = [
        Spot(radius * math.cos(start + share * turn), radius * math.sin(start + share * turn))
        for share in (0.0, 0.5, 1.0)
    ]
    step = Round(at[2], radius, clockwise, large=sweep > math.pi)

    middle = arc_middle(at[0], step)

    assert math.dist(middle, at[1]) < 1e-3 * radius


def test_extent_of_a_circle_reaches_round_it() -> None:
    box = extent([Drawn((circle(Spot(10, 20), 3),), Pen(0.5))])

    assert (box.left, box.right) == pytest.approx((6.75, 13.25))
    assert (box.top, box.bottom) == pytest.approx((16.75, 23.25))


def test_turned_text_stands_left_of_its_line_and_grows_upwards() -> None:
    text = Text("190", 50, 80, 2.5, "start", turned=True)

    assert text.box.bottom == pytest.approx(80)
    assert text.box.top == pytest.approx(80 - text.width)
    assert text.box.right == pytest.approx(50)
    assert text.box.left < 47.5


@given(*[st.floats(-10, 10)] * 4)
def test_boxes_meet_both_ways(a: float, b: float, c: float, d: float) -> None:
    first, second = Box(a, b, a + 2, b + 1), Box(c, d, c + 1, d + 3)

    assert first.meets(second) == second.meets(first)
    assert first.meets(first)
    assert not first.meets(Box(a + 2.5, b, a + 3, b + 1))
    assert first.meets(Box(a + 2.5, b, a + 3, b + 1), gap=0.6)


def test_placement_puts_heights_up_and_the_left_half_left() -> None:
    place = Placement(100.0, 200.0, 500.0)

    assert place.spot(0.02, 0.1) == pytest.approx((110.0, 150.0))
    assert place.spot(-0.02, -0.1) == pytest.approx((90.0, 250.0))
