"""What cannot be solved says so, with the place and the reason."""

import contextlib
import gc
import math
import subprocess
import sys
import threading
import time
import weakref

import pytest

from shedlight.errors import InputError
from shedlight.physics.field import adapt, meshing, sizes
from shedlight.physics.field.adapt import solve
from shedlight.physics.field.benchmarks import EARTH, LIVE, path
from shedlight.physics.field.domain import FieldError, Film, Medium, Problem, Shape, Side
from shedlight.physics.field.meshing import Fineness
from shedlight.physics.field.watch import within_time

AIR = {"air": Medium(1.0)}
VOLT = {LIVE: 1.0, EARTH: 0.0}


def tube(**changed: Side) -> Shape:
    sides = {
        "rod": Side("rod", path((0.01, 0), (0.01, 0.1)), None, "air", LIVE),
        "top": Side("top", path((0.01, 0.1), (0.05, 0.1)), None, "air"),
        "wall": Side("wall", path((0.05, 0), (0.05, 0.1)), "air", None, EARTH),
        "base": Side("base", path((0.01, 0), (0.05, 0)), "air", None),
    }
    return Shape(tuple({**sides, **changed}.values()))


def test_the_sound_tube_is_solved() -> None:
    assert solve(Problem(tube(), AIR, VOLT)).bounds.gap < 1e-4


def test_an_open_region_is_refused_with_its_place() -> None:
    short = Side("top", path((0.01, 0.1), (0.04, 0.1)), None, "air")
    with pytest.raises(FieldError, match=r"top|wall") as caught:
        solve(Problem(tube(top=short), AIR, VOLT))
    assert "open" in caught.value.reason


def test_crossing_edges_are_refused() -> None:
    crossing = Side("top", path((0.01, 0.1), (0.03, -0.02), (0.05, 0.1)), None, "air")
    with pytest.raises(FieldError):
        solve(Problem(tube(top=crossing), AIR, VOLT))


def test_a_tolerance_out_of_reach_is_told_never_passed() -> None:
    start = time.monotonic()
    with pytest.raises(FieldError, match="bounds still"):
        solve(Problem(tube(), AIR, VOLT), 1e-15, order=2, most_rounds=2)
    assert time.monotonic() - start < 20


def test_memory_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(meshing, "MOST_ELEMENTS", 10)
    with pytest.raises(FieldError, match="elements, more than 10"):
        solve(Problem(tube(), AIR, VOLT), fineness=Fineness(3.01))
    monkeypatch.setattr(sizes, "MOST_CELLS", 10)
    with pytest.raises(FieldError, match="more than 10 cells"):
        solve(Problem(tube(), AIR, VOLT), fineness=Fineness(3.02))


def test_too_fine_a_wish_is_refused() -> None:
    with pytest.raises(FieldError, match="cells"):
        solve(Problem(tube(), AIR, VOLT), fineness=Fineness(1e6))


def test_misuse_names_what_is_wrong() -> None:
    with pytest.raises(InputError, match="media"):
        Problem(tube(), {}, VOLT)
    with pytest.raises(InputError, match="potentials"):
        Problem(tube(), AIR, {"dead": 1.0})
    with pytest.raises(InputError, match="potentials"):
        Problem(tube(), AIR, {})
    with pytest.raises(InputError, match="permittivity"):
        Medium(-1.0)
    with pytest.raises(InputError, match="film"):
        Film("wall", 0.2, 0.1, 1e-9)
    with pytest.raises(InputError, match="edges"):
        Shape((tube().sides[0], tube().sides[0]))
    with pytest.raises(InputError, match="axis"):
        Shape((Side("rod", path((-0.01, 0), (0.01, 0.1)), None, "air", LIVE),))
    with pytest.raises(InputError, match="tolerance"):
        solve(Problem(tube(), AIR, VOLT), math.nan)
    with pytest.raises(InputError, match="order"):
        solve(Problem(tube(), AIR, VOLT), order=0)


def test_a_film_has_to_end_where_its_edge_is_parted() -> None:
    film = Film("wall", 0.0, 0.05, 1e-9)
    with pytest.raises(InputError, match="cuts"):
        solve(Problem(tube(), AIR, VOLT, (film,)))
    parted = Shape(tube().sides, (("wall", 0.05),))
    assert solve(Problem(parted, AIR, VOLT, (film,))).unit.space.is_complex


def test_meshes_nobody_needs_are_let_go() -> None:
    problem = Problem(tube(), AIR, VOLT)
    mesh = meshing.mesh_of(problem.shape, problem.media, Fineness(0.77))
    gone = weakref.ref(mesh.mesh)
    for number in range(12):
        meshing.mesh_of(problem.shape, problem.media, Fineness(0.5 + 0.01 * number))
    del mesh
    gc.collect()
    assert gone() is None


def test_ends_that_differ_in_the_last_digit_are_one_point() -> None:
    """Met in a random bushing: 13.855205 mm stood half-way between two grid points."""
    a, b = 0.013855205, 0.013855205000000002
    rod = Side("rod", path((a, 0), (a, 0.1)), None, "air", LIVE)
    top = Side("top", path((b, 0.1), (0.05, 0.1)), None, "air")
    base = Side("base", path((b, 0), (0.05, 0)), "air", None)
    assert solve(Problem(tube(rod=rod, top=top, base=base), AIR, VOLT)).bounds.gap < 1e-4


def stuck(*_: object, **__: object) -> None:
    while True:
        pass


@pytest.mark.parametrize("stage", ["mesh_of", "energy_bounds", "columns"])
def test_what_is_stuck_is_cancelled_with_place_and_reason(
    stage: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    problem = Problem(tube(), {"air": Medium(1.1)}, VOLT)
    monkeypatch.setattr(adapt, stage, stuck)
    adapt._unit_bounds.cache_clear()
    start = time.monotonic()
    with pytest.raises(FieldError, match="cancelled: took longer") as told:
        solve(problem, most_seconds=0.3)
    assert time.monotonic() - start < 5.0
    assert told.value.place == "mesh, finest at top, r 10, z 100 mm"


def test_a_stuck_solution_is_cancelled_where_errors_are_swallowed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def swallowing(*_: object, **__: object) -> None:
        while True:
            with contextlib.suppress(Exception):
                stuck()

    monkeypatch.setattr(adapt, "mesh_of", swallowing)
    with pytest.raises(FieldError, match="cancelled"):
        solve(Problem(tube(), AIR, VOLT), most_seconds=0.2)


def test_the_watch_leaves_alone_what_is_done_in_time() -> None:
    for _ in range(300):
        with contextlib.suppress(FieldError):
            within_time(0.002, "here", lambda: time.sleep(0.0019))
    time.sleep(0.05)  # nothing comes late
    assert within_time(10.0, "here", lambda: 5) == 5
    assert threading.active_count() < 20


def test_what_fails_by_itself_fails_as_it_would() -> None:
    with pytest.raises(ZeroDivisionError):
        within_time(10.0, "here", lambda: 1 // 0)


def test_only_the_thread_that_is_stuck_is_cancelled() -> None:
    told: list[str] = []

    def busy() -> None:
        end = time.monotonic() + 1.0
        while time.monotonic() < end:
            pass

    def work(seconds: float) -> None:
        try:
            within_time(seconds, f"thread of {seconds} s", busy)
        except FieldError as error:
            told.append(error.place)

    threads = [threading.Thread(target=work, args=(seconds,)) for seconds in (0.2, 30.0)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert told == ["thread of 0.2 s"]


def test_a_piece_too_short_to_see_is_left_out() -> None:
    """A step of two nanometres, as differences of dimensions leave it."""
    end = 0.1 + 2e-9
    rod = Side("rod", path((0.01, 0), (0.01, 0.1), (0.01, end)), None, "air", LIVE)
    shape = tube(rod=rod)
    assert sum(part.edge == "rod" for part in shape.parts) == 1
    assert solve(Problem(shape, AIR, VOLT)).bounds.gap < 1e-4


def test_work_under_a_watch_ends_under_a_profiler() -> None:
    """Taking back an exception that never came once left every later step of a profile hanging."""
    script = """
import cProfile
from shedlight.physics.field.watch import within_time
with cProfile.Profile() as profile:
    print(within_time(10.0, "here", lambda: 5))
    print(sum(map(abs, range(1000))))
print(len(profile.getstats()) > 5)
"""
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False, timeout=60
    )
    assert done.stdout.split() == ["5", "499500", "True"], done.stderr
