"""Sized bushings hold what they were sized for; the optimum is no worse than any neighbour."""

import random
from dataclasses import replace

import pytest

import shedlight as sl
from shedlight.checks.check import Verdict
from shedlight.errors import DescriptionError
from shedlight.given.reading import parse
from shedlight.sizing.bench import tried
from shedlight.sizing.conflict import conflict_of
from shedlight.sizing.sized import propose, size
from shedlight.sizing.start import arcing_distance
from sizing.requests import asked

DRAW = random.Random(8)
CASES = [
    {
        "duty__highest_voltage": f"{DRAW.choice((7.2, 12.0, 17.5, 24.0, 36.0))} kV",
        "duty__rated_current": f"{DRAW.choice((100, 250, 630, 1000, 2000, 3150))} A",
        "duty__earth_fault_duration": DRAW.choice(("1 s", "2 h")),
        "site__altitude": f"{DRAW.choice((0, 1000, 2500))} m",
        "site__pollution_class": DRAW.choice("abcde"),
        "site__salinity": None,
        "transformer__lowest_oil_level": "1500 mm",
        "transformer__highest_oil_level": "1800 mm",
        "transformer__phase_spacing": "900 mm",
        "transformer__earth_distance": "700 mm",
        "transformer__tank_clearance": "200 mm",
        "transformer__cover_metal": "non-magnetic steel",
    }
    for _ in range(2)
]


@pytest.mark.parametrize("changes", CASES, ids=lambda c: c["duty__highest_voltage"])
def test_what_is_sized_holds_when_it_is_read_back_and_checked(changes: dict[str, str]) -> None:
    request = asked(**changes)
    sized = size(request, thorough=False)

    again = sl.assess(parse(sl.to_toml(sized.case)))
    assert not [c.id for c in again.checks if c.verdict is Verdict.FAIL]
    assert sized.holds
    firm = {c.id: c.margin for c in again.checks if c.margin is not None}
    for name in ("surface.creepage", "air.arcing-distance.lightning", "host.fit"):
        assert firm[name] >= request.wishes.margin - 1e-9, name


def test_more_dirt_never_shortens_the_creepage() -> None:
    """Of the closed form, which the search only trims: a search for each class takes long."""
    lengths = []
    for letter in "abcde":
        request = asked(site__pollution_class=letter, site__salinity=None)
        work = tried(request, propose(request)).work
        assert work.measures.creepage_length >= (1 + request.wishes.margin) * work.surface.required
        lengths.append(work.measures.creepage_length)
    assert lengths == sorted(lengths)


def test_more_current_never_thins_the_conductor() -> None:
    rods = [
        propose(asked(duty__rated_current=f"{amperes} A")).conductor
        for amperes in (100, 250, 400, 630, 1000, 1600, 2500)
    ]
    assert rods == sorted(rods)
    assert rods[0] < rods[-1]


@pytest.mark.parametrize(
    ("path", "values"),
    [
        ("site__altitude", ("0 m", "1500 m", "3000 m")),
        ("duty__highest_voltage", ("12 kV", "24 kV", "36 kV")),
    ],
)
def test_thin_air_and_voltage_never_shorten_the_air_end(path: str, values: tuple[str, ...]) -> None:
    """Of the closed form, with the dirt held at its mildest so that the air decides."""
    lengths = []
    for value in values:
        request = asked(site__pollution_class="a", site__salinity=None, **{path: value})
        lengths.append(tried(request, propose(request)).work.air.arcing)
    assert lengths == sorted(lengths)
    assert lengths[0] < lengths[-1]


def test_thinner_air_asks_for_a_longer_arcing_distance() -> None:
    distances = []
    for height in (0, 1500, 3000):
        request = asked(site__altitude=f"{height} m")
        work = tried(request, propose(request)).work
        distances.append(arcing_distance(work, 1.0))
    assert distances[0] < distances[1] < distances[2]


def test_what_is_fixed_stays() -> None:
    sized = size(
        asked(bushing__porcelain={"wall": "21 mm"}, bushing__sheds={"form": "plain", "count": 6}),
        thorough=False,
    )
    assert sized.case.bushing.porcelain.wall == pytest.approx(0.021)
    assert sized.case.bushing.sheds is not None
    assert (sized.case.bushing.sheds.form, sized.case.bushing.sheds.count) == ("plain", 6)


def test_the_shortest_air_end_is_the_shortest_of_all_whole_millimetres() -> None:
    """All but the air end fixed: every length below is tried and must be short of something."""
    first = size(asked(), thorough=False)
    bushing = first.case.bushing
    assert bushing.sheds is not None
    request = asked(
        bushing__conductor={"diameter": "20 mm"},
        bushing__porcelain={
            "bore": f"{1e3 * bushing.porcelain.bore:.1f} mm",
            "wall": f"{1e3 * bushing.porcelain.wall:.1f} mm",
        },
        bushing__oil_end={"length": f"{1e3 * bushing.oil_end.length:.0f} mm"},
        bushing__sheds={
            "form": "plain",
            "count": bushing.sheds.count,
            "overhang": f"{1e3 * bushing.sheds.overhang:.0f} mm",
        },
    )
    sized = size(request, thorough=False)
    assert not sized.short
    best = sized.draft.air
    targets = request.wishes.margin
    apart = ("conductor.", "terminal.", "gasket.", "horns.", "cover.", "cap.corona")
    for steps in range(1, 25):
        shorter = replace(sized.draft, air=best - 1e-3 * steps, horn_gap=None)
        margins = tried(request, shorter, whole=True, full=True).margins
        shaped = [m for name, m in margins.items() if not name.startswith(apart)]
        assert min(shaped) < targets, f"{steps} mm shorter would do"


def test_demands_that_contradict_are_named_with_what_would_help() -> None:
    request = asked(transformer__hole_diameter="44 mm")
    sized = size(request, thorough=False)
    hole = "transformer.hole_diameter"
    conflict = conflict_of(request, sized, among=(hole,))

    assert conflict is not None
    assert "wall.puncture" in dict(conflict.demands)
    assert any(item.path == hole for item in conflict.relaxations)


def test_a_wish_that_means_nothing_is_refused_by_name() -> None:
    with pytest.raises(DescriptionError, match=r"sizing\.objective"):
        asked(sizing__objective="prettiest")
    with pytest.raises(DescriptionError, match=r"sizing\.margin"):
        asked(sizing__margin="5 mm")
    with pytest.raises(DescriptionError, match=r"bushing\.porcelain\.bore"):
        size(asked(bushing__porcelain={"bore": "5 kV"}))
