import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shedlight.figures.spreading import STEP, Wish, spread

heights = st.floats(5, 60)


def test_notes_with_room_stay_where_they_want() -> None:
    wishes = [Wish(10, 2, 1), Wish(20, 2, 1), Wish(40, 3, 3)]

    assert spread(wishes, 0, 50) == pytest.approx((10, 20, 40), abs=STEP / 2)


@given(st.lists(heights, min_size=1, max_size=9), st.lists(heights, max_size=4))
def test_notes_never_touch_each_other_nor_a_line(wanted: list[float], walls: list[float]) -> None:
    wishes = [Wish(at, 2.6, 1.1) for at in sorted(wanted)]

    found = spread(wishes, 0, 70, walls)

    for upper, lower in itertools.pairwise(found):
        assert lower - upper >= 2.6 + 1.1 - 1e-9
    assert all(place - 2.6 >= 0 for place in found)
    assert not any(place - 2.6 < wall < place + 1.1 for place in found for wall in walls)


@settings(max_examples=20)
@given(st.lists(st.integers(2, 9), min_size=2, max_size=3))
def test_shift_is_the_least_possible(wanted: list[int]) -> None:
    """Against every arrangement on the same grid."""
    wishes = [Wish(at, 1.0, 1.0) for at in sorted(wanted)]
    grid = [STEP * index for index in range(49)]
    arrangements = (
        places
        for places in itertools.combinations(grid, len(wishes))
        if places[0] >= 1.0 and all(b - a >= 2.0 for a, b in itertools.pairwise(places))
    )

    def shift(places: tuple[float, ...]) -> float:
        return sum((place - wish.at) ** 2 for place, wish in zip(places, wishes, strict=True))

    assert shift(spread(wishes, 0, 12)) == pytest.approx(min(map(shift, arrangements)))


def test_a_crowd_is_given_more_room_rather_than_left_touching() -> None:
    found = spread([Wish(5, 3, 3)] * 20, 0, 10)

    assert all(b - a >= 6 - 1e-9 for a, b in itertools.pairwise(found))
