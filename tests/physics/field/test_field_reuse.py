"""What is kept between solutions: meshes by shape, factorisations by mesh, bounds by voltage."""

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from shedlight.geometry.section import Section, build_section
from shedlight.given.bushing import Installation
from shedlight.given.reading import read
from shedlight.physics.field import adapt, bounds, factors, meshing, triangles
from shedlight.physics.field import solve as solving
from shedlight.physics.field.adapt import solve
from shedlight.physics.field.domain import Film, Medium, Problem
from shedlight.physics.field.meshing import Fineness, mesh_of
from shedlight.physics.field.solve import columns
from shedlight.workings.field import (
    DRY,
    EARTH,
    LIVE,
    SurfaceState,
    fillings_of,
    problem_of,
    wet,
)

QUAY = Path(__file__).parents[3] / "examples" / "quay-24kv.toml"


def quay() -> tuple[Installation, Section]:
    installation = read(QUAY)
    return installation, build_section(installation.bushing, installation.transformer)


def problem(state: SurfaceState = DRY) -> Problem:
    installation, section = quay()
    return problem_of(section, fillings_of(installation), 50.0, state)


@pytest.fixture(autouse=True)
def nothing_kept() -> None:
    caches = (meshing._kept, factors._factors, solving._columns, bounds.flux_columns)
    for cache in (*caches, adapt._unit_bounds):
        cache.cache_clear()


class Counted:
    """Counts how often something is done, and does it."""

    def __init__(self, act: object) -> None:
        self.act, self.times = act, 0

    def __call__(self, *args: object, **named: object) -> object:
        self.times += 1
        return self.act(*args, **named)  # type: ignore[operator]


def test_a_second_state_meshes_and_proves_nothing_again(monkeypatch: pytest.MonkeyPatch) -> None:
    _, section = quay()
    filled = Counted(triangles.fill)
    proved = Counted(bounds.energy_bounds)
    monkeypatch.setattr(meshing, "fill", filled)
    monkeypatch.setattr(adapt, "energy_bounds", proved)
    dry = solve(problem())
    needed = proved.times
    wetted = [solve(problem(wet(section, conductance))) for conductance in (1e-9, 1e-8, 1e-7)]
    assert filled.times == 1
    assert proved.times == needed
    assert {item.mesh for item in wetted} == {dry.mesh}
    # One factorisation finds its order of elimination; the states only renew its numbers.
    assert factors._factors.misses == 1 + needed  # the potential and the flux


def test_a_renewed_factorisation_gives_what_a_fresh_one_gives() -> None:
    _, section = quay()
    solve(problem())
    renewed = solve(problem(wet(section, 1e-8))).unit.admittances
    nothing_kept.__wrapped__()  # type: ignore[attr-defined]
    fresh = solve(problem(wet(section, 1e-8))).unit.admittances
    assert renewed == pytest.approx(fresh, rel=1e-9)


def test_other_media_keep_the_mesh_where_corners_stay_as_they_are() -> None:
    first = problem()
    mesh = mesh_of(first.shape, first.media, Fineness())
    lossier = replace(
        first, media={n: replace(m, loss_factor=0.03) for n, m in first.media.items()}
    )
    assert mesh_of(lossier.shape, lossier.media, Fineness()) is mesh
    before = columns(mesh, first, 3).admittances[0, 0]
    after = columns(mesh, lossier, 3).admittances[0, 0]
    assert before.real / before.imag < 0.01
    assert after.real / after.imag == pytest.approx(0.03, rel=1e-6)


def test_other_voltages_cost_no_solution(monkeypatch: pytest.MonkeyPatch) -> None:
    one = solve(problem())
    for name in ("energy_bounds", "mesh_of"):
        monkeypatch.setattr(adapt, name, Counted(getattr(adapt, name)))
    louder = replace(problem(), potentials={LIVE: 20e3, EARTH: 0.0})
    turned = replace(problem(), potentials={LIVE: 20e3j, EARTH: 0.0})
    for other in (solve(louder), solve(turned)):
        assert other.unit is one.unit
        assert other.bounds.high == pytest.approx(one.bounds.high * 4e8, rel=1e-12)
        assert other.bounds.gap == pytest.approx(one.bounds.gap, rel=1e-9)
    assert adapt.energy_bounds.times == 0  # type: ignore[attr-defined]


def test_several_right_hand_sides_share_one_factorisation() -> None:
    """Earth and live metal both driven: two columns, and their sums are all fields."""
    both = replace(problem(), potentials={LIVE: 2.0, EARTH: 1.0})
    solution = solve(both, math.inf)
    y = solution.unit.admittances
    assert solution.unit.electrodes == (EARTH, LIVE)
    assert y[0, 1] == pytest.approx(y[1, 0], rel=1e-9)  # reciprocity
    assert factors._factors.misses == 1


def test_bounds_of_a_slightly_lossy_field_are_those_of_the_loss_free_one() -> None:
    lossy = problem()
    still = replace(lossy, media={n: Medium(m.permittivity) for n, m in lossy.media.items()})
    assert lossy.is_lossy
    assert not still.is_lossy
    one, other = solve(lossy).bounds, solve(still).bounds
    assert one.high == pytest.approx(other.high, rel=1e-7)
    assert one.low == pytest.approx(other.low, rel=1e-7)


def test_films_that_leak_much_leave_the_bounds_alone() -> None:
    state = SurfaceState("soaked", (Film("air side", 0.0, 1.0, 1e-3),))
    _, section = quay()
    length = section.curve("air side").length
    state = SurfaceState("soaked", (Film("air side", 0.0, length, 1e-3),))
    assert solve(problem(state)).bounds.high == pytest.approx(solve(problem()).bounds.high)
    assert np.isfinite(solve(problem(state)).bounds.gap)
