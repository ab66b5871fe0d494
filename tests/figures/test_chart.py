"""Charts: round axes that hold their values, lines that stay put, texts on the sheet."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.figures.chart import (
    Axis,
    Chart,
    Curve,
    Limit,
    LogAxis,
    chart_scene,
    fitted,
    round_step,
    thinned,
)
from shedlight.figures.scene import Spot

XS = tuple(0.5 * n for n in range(200))


def example() -> Chart:
    waves = tuple(
        Curve(f"wave {k}", XS, tuple(1 + math.sin(k * x / 20) for x in XS)) for k in (1, 2, 3, 4)
    )
    y = fitted("height, m", [0.0, 2.0])
    return Chart(
        "t", "Waves", "Four waves", Axis("way, m", 0, 99.5), y, waves, (Limit("cap", 1.5),), (10.0,)
    )


@given(st.floats(1e-6, 1e6))
def test_round_steps_are_one_two_or_five_and_just_large_enough(size: float) -> None:
    step = round_step(size)
    mantissa = step / 10 ** math.floor(math.log10(step) + 1e-9)

    assert size * (1 - 1e-9) <= step <= 2.5 * size * (1 + 1e-9)
    assert min(abs(mantissa - m) for m in (1, 2, 5, 10)) < 1e-6


@given(st.lists(st.floats(-1e5, 1e5), min_size=1, max_size=20))
def test_a_fitted_axis_holds_its_values_and_zero(values: list[float]) -> None:
    axis = fitted("q", values)
    room = 1e-9 * (axis.high - axis.low)

    assert axis.low - room <= min(0.0, *values)
    assert max(0.0, *values) <= axis.high + room
    assert axis.low < axis.high
    ticks = axis.ticks()
    assert all(axis.low - room <= tick <= axis.high + room for tick in ticks)


def test_thinning_keeps_ends_and_strays_less_than_a_hair() -> None:
    spots = [Spot(10 * math.cos(a / 100), 10 * math.sin(a / 100)) for a in range(157)]
    kept = thinned(spots, stray=0.03)

    assert (kept[0], kept[-1]) == (spots[0], spots[-1])
    assert len(kept) < len(spots) / 3
    # A chord of a circle of radius 10 strays by its sagitta.
    for a, b in pairwise(kept):
        half = math.dist(a, b) / 2
        assert 10 - math.sqrt(100 - half**2) < 0.031


def test_every_text_stays_on_the_sheet_and_apart() -> None:
    scene = chart_scene(example())
    texts = list(scene.texts)

    for text in texts:
        assert text.box.left >= 0, text.text
        assert text.box.right <= scene.width, text.text
        assert text.box.top >= 0, text.text
        assert text.box.bottom <= scene.height, text.text
    for n, one in enumerate(texts):
        for other in texts[n + 1 :]:
            assert not one.box.meets(other.box), (one.text, other.text)


def test_curves_are_told_apart_by_dash_as_well_as_colour() -> None:
    drawn = chart_scene(example()).layer("curves").items[:4]
    pens = [item.pen for item in drawn if hasattr(item, "pen") and item.pen is not None]

    assert len({pen.dashes for pen in pens}) == len(pens) == 4
    assert len({pen.colour for pen in pens}) == 4


def test_a_curve_is_cut_where_it_leaves_the_frame() -> None:
    spike = Curve("spike", (0.0, 1.0, 2.0, 3.0, 4.0), (0.1, 0.2, 9.0, 0.2, 0.1))
    chart = Chart("s", "Spike", "", Axis("x", 0, 4), Axis("y", 0, 1), (spike,))
    item = chart_scene(chart).layer("curves").items[0]

    assert hasattr(item, "paths")
    assert len(item.paths) == 2


@pytest.mark.parametrize("low", [0.0, 250.0])
def test_shares_run_from_zero_to_one(low: float) -> None:
    axis = Axis("x", low, low + 50)

    assert (axis.share(low), axis.share(low + 50)) == (0.0, 1.0)


@given(st.floats(1e-6, 1e3), st.floats(1.5, 1e6))
def test_a_logarithmic_axis_spaces_factors_evenly(low: float, span: float) -> None:
    axis = LogAxis("q", low, low * span)

    assert axis.share(low) == pytest.approx(0.0, abs=1e-9)
    assert axis.share(low * span) == pytest.approx(1.0)
    assert axis.share(low * math.sqrt(span)) == pytest.approx(0.5)
    assert all(low * 0.999 <= tick <= low * span * 1.001 for tick in axis.ticks())
    assert list(axis.ticks()) == sorted(axis.ticks())
