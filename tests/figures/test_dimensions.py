import math

import pytest

from shedlight.figures.dimensions import Upright, across, columns, half, upright
from shedlight.figures.drafting import ARROW, arrow
from shedlight.figures.scene import Drawn, Item, Spot, Text


def _number(items: tuple[Item, ...]) -> Text:
    return next(item for item in items if isinstance(item, Text))


def _tips(items: tuple[Item, ...]) -> list[Spot]:
    """Where the arrows point: the first place of every filled head."""
    return [
        path.start for item in items if isinstance(item, Drawn) and item.fill for path in item.paths
    ]


def test_arrow_is_slender_and_as_long_as_said() -> None:
    head = arrow(Spot(10, 10), Spot(3, 4))
    tip, left, right = head.spots
    back = Spot((left.x + right.x) / 2, (left.y + right.y) / 2)

    assert math.dist(tip, back) == pytest.approx(ARROW)
    opening = 2 * math.degrees(math.atan(math.dist(left, right) / 2 / ARROW))
    assert 14 < opening < 17
    assert (tip.x - back.x, tip.y - back.y) == pytest.approx((0.6 * ARROW, 0.8 * ARROW))


def test_upright_arrows_touch_both_ends_and_the_number_stands_left_of_the_line() -> None:
    items = upright(Upright("190", Spot(20, 10), Spot(25, 90)), 50)

    assert _tips(items) == [Spot(50, 10), Spot(50, 90)]
    box = _number(items).box
    assert box.right < 50
    assert (box.top + box.bottom) / 2 == pytest.approx(50)


def test_a_short_height_has_its_arrows_and_number_outside() -> None:
    dimension = Upright("5", Spot(20, 10), Spot(20, 13))
    items = upright(dimension, 50)

    assert dimension.tight
    assert _number(items).box.bottom < 10
    assert _tips(items) == [Spot(50, 10), Spot(50, 13)]


def test_a_number_not_to_scale_is_underlined() -> None:
    true = upright(Upright("560", Spot(20, 10), Spot(20, 90)), 50)
    false = upright(Upright("560", Spot(20, 10), Spot(20, 90), to_scale=False), 50)
    box = _number(false).box

    def under(items: tuple[Item, ...]) -> bool:
        return any(
            path.spots[0].x == path.spots[-1].x == pytest.approx(box.right, abs=1.0)
            and path.spots[0].y == pytest.approx(box.top)
            for item in items
            if isinstance(item, Drawn)
            for path in item.paths
        )

    assert under(false)
    assert not under(true)


def test_columns_never_let_two_heights_overlap() -> None:
    spans = [(0, 30), (30, 60), (0, 60), (20, 80), (61, 90)]
    found = columns([Upright("40", Spot(0, top), Spot(0, bottom)) for top, bottom in spans])

    assert found == (0, 0, 1, 2, 0)


def test_width_stands_between_its_arrows_or_outside_and_clear() -> None:
    wide = across("Ø 86", Spot(10, 5), Spot(40, 5), 15)
    narrow = across("Ø 86", Spot(10, 5), Spot(14, 5), 15, clear=2)

    assert 10 < _number(wide).box.left < _number(wide).box.right < 40
    assert _number(narrow).box.right <= 2


def test_half_puts_its_number_inside_where_it_fits_else_outside() -> None:
    inside = _number(half("Ø 86", Spot(60, 5), 50, inside=20, outside=25)).box
    outside = _number(half("Ø 86", Spot(60, 5), 50, inside=6, outside=9)).box

    assert 30 < inside.left < inside.right < 50
    assert outside.right < 41
