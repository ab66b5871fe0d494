"""The cheapest bushing: what a table counts, and that no other shape on its grid costs less."""

from dataclasses import replace
from itertools import product
from pathlib import Path

import pytest

from shedlight.errors import DescriptionError, UnitError
from shedlight.sizing.bench import quantity_of, tried
from shedlight.sizing.prices import cost, price_in, prices_of, unpriced
from shedlight.sizing.request import Price, Request
from shedlight.sizing.search import LEVERS, Search, in_whole
from shedlight.sizing.sized import propose, size
from sizing.requests import asked

PRICES = Path(__file__).parents[2] / "examples" / "sizing" / "prices.csv"


def fixed_but_for_wall_and_bore(request: Request) -> Request:
    """The same with all else fixed as the closed form proposes it."""
    draft = propose(request)
    parts = {
        "conductor": {"metal": "copper", "diameter": f"{1e3 * draft.conductor:.1f} mm"},
        "porcelain": {"air_length": "380 mm"},
        "oil_end": {"length": f"{1e3 * draft.oil:.0f} mm"},
        "sheds": {"form": "plain", "count": 7, "overhang": "50 mm"},
    }
    return replace(request, tables={**request.tables, "bushing": parts})


@pytest.mark.parametrize("dear", ["oil", "porcelain"])
def test_no_wall_and_bore_on_the_grid_cost_less(dear: str) -> None:
    usual = (Price("porcelain", "kg", 6.0), Price("oil", "l", 3.0), Price("copper", "kg", 14.0))
    prices = tuple(replace(p, price=20 * p.price) if p.item == dear else p for p in usual)
    request = replace(fixed_but_for_wall_and_bore(asked()), prices=prices)
    request = request.wishing(objective="cheapest")
    search = Search(request, replace(propose(request), count=7))
    search.set_targets(tried(request, search.start))
    best = in_whole(search, search.best()[0])

    def costs(gap: int, wall: int) -> float | None:
        """What a neighbour costs, if it holds no less than the best does."""
        steps = {"gap": 0.0005 * gap, "wall": 0.0005 * wall}
        here = best.tried.draft
        other = {name: round(getattr(here, name) + step, 6) for name, step in steps.items()}
        inside = all(LEVERS[name][1] <= value <= LEVERS[name][2] for name, value in other.items())
        seen = search.look(replace(here, **other), whole=True) if inside else None
        if seen is None:
            return None
        short = {name: value for name, value in seen[1].items() if value < 0}
        worse = any(value < best.short.get(name, 0.0) - 1e-9 for name, value in short.items())
        return None if worse else quantity_of(request, seen[0])

    around = [costs(gap, wall) for gap, wall in product(range(-4, 5), repeat=2)]
    holding = [value for value in around if value is not None]
    assert len(holding) >= 5
    assert quantity_of(request, best.tried) <= min(holding) * 1.001


def test_the_cheapest_costs_no_more_than_the_shortest_and_says_what_it_costs() -> None:
    request = replace(asked(), prices=prices_of(PRICES))
    short = size(request, thorough=False)
    cheap = size(request.wishing(objective="cheapest"), thorough=False)
    costs = [cost(request.prices, found.assessment.workings) for found in (short, cheap)]
    assert costs[1] <= costs[0] * 1.001
    assert not cheap.failed
    assert f"Costs {costs[1]:.2f} by the table of prices." in cheap.remarks


def test_each_item_is_counted_by_its_unit_and_what_has_no_price_is_told() -> None:
    work = tried(asked(), propose(asked())).work
    oil = next(float(part.mass) for part in work.masses if part.part == "oil inside")
    litres = 1e3 * work.measures.oil_volume
    assert cost((Price("oil", "l", 2.0),), work) == pytest.approx(2 * litres)
    assert cost((Price("oil", "kg", 2.0),), work) == pytest.approx(2 * oil)
    assert cost((Price("shed", "piece", 3.0),), work) == 3 * len(work.section.sheds)
    copper = sum(float(part.mass) for part in work.masses if part.material == "copper")
    assert cost((Price("copper", "kg", 1.0),), work) == pytest.approx(copper)
    assert [said.split(" ")[0] for said in unpriced((Price("oil", "l", 2.0),), work)] == [
        "porcelain",
        "copper",
        "steel",
    ]


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ("porcelian,kg,6", "porcelian"),
        ("shed,kg,6", "shed by the kg"),
        ("copper,kg,-1", "-1"),
        ("copper,kg,", "copper"),
        ("copper,kg,nan", "nan"),
        ("copper,kg,6\ncopper,kg,7", "twice"),
        ("copper,kg,6 EUR", "without a currency"),
        ('copper,kg,"1,250"', "thousands or decimals"),
        ("copper,kg,1 600", "one number"),
    ],
)
def test_a_price_that_cannot_count_is_refused_by_name(tmp_path: Path, rows: str, said: str) -> None:
    (tmp_path / "prices.csv").write_text(f"item,unit,price\n{rows}\n")
    with pytest.raises(DescriptionError, match=said):
        prices_of(tmp_path / "prices.csv")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("9.5", 9.5),
        ("9,50", 9.5),
        ("0.125", 0.125),
        (".5", 0.5),
        ("1250", 1250.0),
        ("1250.125", 1250.125),
        ("EUR 1600", 1600.0),
        ("€450", 450.0),
        ("450.-", 450.0),
        ("1.6e3 EUR", 1600.0),
        ("on request", None),
        ("", None),
    ],
)
def test_a_price_is_the_one_number_of_its_text(text: str, value: float | None) -> None:
    assert price_in(text) == value


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("1,250", "comma may mean thousands or decimals. Write 1250 or 1.2500"),
        ("EUR 1,250", "comma may mean"),
        ("1.250", "point may mean"),
        ("1 600", "one number"),
        ("1\N{NARROW NO-BREAK SPACE}600", "one number"),
        ("1'600", "one number"),
        ("1,250.00", "one number"),
        ("1.250,00", "one number"),
        ("2 x 300", "one number"),
        ("300-400", "one number"),
        ("Fr.450", "one number"),
        ("on request, Q3", "one number"),
        ("12½", "one number"),
        ("-5", "below zero"),
        ("\N{MINUS SIGN}5", "below zero"),
        ("1e999", "finite"),
    ],
)
def test_a_price_that_may_mean_another_is_refused(text: str, said: str) -> None:
    with pytest.raises(UnitError, match=said):
        price_in(text)


def test_cheapest_without_prices_is_refused() -> None:
    with pytest.raises(DescriptionError, match="--prices"):
        size(asked(sizing__objective="cheapest"), thorough=False)
