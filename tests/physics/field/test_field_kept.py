"""Results are kept by what they weigh."""

import pytest

from shedlight.physics.field.kept import kept


def test_the_oldest_go_first_when_all_weigh_too_much() -> None:
    found: list[float] = []

    @kept(abs, 10.0)
    def weighty(value: float, *, sign: int = 1) -> float:
        found.append(value)
        return sign * value

    assert [weighty(4.0), weighty(5.0), weighty(4.0)] == [4.0, 5.0, 4.0]
    assert found == [4.0, 5.0]
    weighty(3.0)  # 12 together: the 5 was asked for longest ago
    assert (weighty.weight, len(weighty)) == (7.0, 2)
    weighty(4.0)
    assert found == [4.0, 5.0, 3.0]
    weighty(5.0)
    assert found == [4.0, 5.0, 3.0, 5.0]
    assert weighty(5.0, sign=-1) == -5.0
    assert weighty.misses == 5
    weighty.cache_clear()
    assert (len(weighty), weighty.weight, weighty.misses) == (0, 0, 0)


@pytest.mark.parametrize(("newest", "left"), [(True, 1), (False, 0)])
def test_what_is_too_heavy_alone_is_kept_only_as_the_newest(newest: bool, left: int) -> None:
    weighty = kept(abs, 10.0, newest=newest)(lambda value: value)
    weighty(3.0)
    assert weighty(40.0) == 40.0
    assert len(weighty) == left


def test_light_results_are_kept_in_no_great_number() -> None:
    light = kept(lambda _: 0.0, 10.0)(lambda value: value)
    for number in range(100):
        light(number)
    assert len(light) == 8


def test_an_error_is_not_kept() -> None:
    tried: list[int] = []

    @kept(abs, 10.0)
    def fails(value: int) -> int:
        tried.append(value)
        raise ZeroDivisionError

    for _ in range(2):
        with pytest.raises(ZeroDivisionError):
            fails(1)
    assert (tried, len(fails)) == ([1, 1], 0)
