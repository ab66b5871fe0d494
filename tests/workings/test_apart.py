"""Finite elements solved in processes of their own: the same results, errors, and an end to hangs.

A test runs among threads of its own, where nothing is forked; so these look on from outside.
"""

import subprocess
import sys
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
LINUX = pytest.mark.skipif(sys.platform != "linux", reason="processes are forked on Linux only")
BEGIN = """
import ctypes, math, os, threading, time
import shedlight.workings as workings
from shedlight.checks.assessment import assess
from shedlight.exchange.record import assessment_record
from shedlight.given.reading import read
from shedlight.workings import apart, solvers
case = read({file!r})
"""


def run(script: str, name: str = "inland-12kv") -> str:
    whole = BEGIN.format(file=str(EXAMPLES / f"{name}.toml")) + script
    done = subprocess.run(
        [sys.executable, "-c", whole], capture_output=True, text=True, check=False, timeout=200
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


@LINUX
@pytest.mark.parametrize("name", ["inland-12kv", "quarry-36kv"])
def test_results_in_processes_are_those_in_place(name: str) -> None:
    told = run(
        """
forked = []
begin = apart.Apart.__init__
def counted(self, act, seconds):
    forked.append(seconds)
    begin(self, act, seconds)
apart.Apart.__init__ = counted
beside = assessment_record(assess(case, with_field=True, apart=True))
print(len(forked))
from shedlight.workings.field import solved
print(len(solved))  # what was solved, was solved elsewhere
def same(one, other):
    if isinstance(one, float) and isinstance(other, float):
        # The solver's sums differ in their last digits from run to run, in one process too.
        return math.isclose(one, other, rel_tol=1e-5, abs_tol=1e-9)
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list):
        return len(one) == len(other) and all(map(same, one, other))
    return one == other
print(same(beside, assessment_record(assess(case, with_field=True))))
""",
        name,
    )
    assert told.split() == ["3", "0", "True"]


@LINUX
def test_without_the_field_and_from_a_second_thread_nothing_is_forked() -> None:
    told = run("""
def never(self, act, seconds):
    raise AssertionError("forked")
apart.Apart.__init__ = never
assess(case, apart=True)
print(apart.can_part())
stop = threading.Event()
threading.Thread(target=stop.wait).start()
print(apart.can_part())
found = assess(case, with_field=True, apart=True)
stop.set()
print(found.check("field.capacitance").verdict)
""")
    assert told.split() == ["True", "False", "pass"]


@LINUX
def test_a_thread_that_only_waits_is_no_hindrance() -> None:
    told = run("""
from shedlight.cli.progress import working
stop = threading.Event()
watch = threading.Thread(target=stop.wait, daemon=True)
watch.start()
print(apart.can_part())
apart.let_wait(watch)
print(apart.can_part())
with working("turning a spinner"):
    print(threading.active_count(), apart.can_part())
    print(apart.Apart(lambda: iter([6 * 7]), 20.0).take())
other = threading.Thread(target=lambda: print(apart.can_part()))
other.start()
other.join()
""")
    assert told.split() == ["False", "True", "3", "True", "42", "False"]


@LINUX
@pytest.mark.parametrize("stage", ["mesh_of", "energy_bounds"])
def test_a_mesher_that_hangs_in_c_is_ended_with_place_and_reason(stage: str) -> None:
    """A call into C that keeps the interpreter locked: no exception and no watch can reach it."""
    told = run(f"""
import shedlight.physics.field.adapt as adapt
sleep = ctypes.PyDLL(None).sleep
adapt.{stage} = lambda *_: sleep(1000)
solvers.LONGEST = 1.5
start = time.monotonic()
found = assess(case, with_field=True, apart=True)
assert time.monotonic() - start < 30
check = found.check("field.capacitance")
print(check.verdict, "|", check.reason)
print(found.check("conductor.hot-spot").verdict)
""")
    first, second = told.splitlines()
    assert first.startswith("not-assessed | ")
    assert "field, mesh, finest at " in first
    assert "cancelled: took longer than 1.5 s" in first
    assert second in {"pass", "caution", "fail"}  # what needs no field is answered


@LINUX
@pytest.mark.parametrize(
    ("patched", "said"),
    [
        ("shedlight.workings.section_stress.untied_of", "section of the porcelain, mesh"),
        ("shedlight.workings.heat.section.section_heat", "field of heat, mesh"),
        ("shedlight.workings.discharge._discharges", "field lines"),
    ],
)
def test_every_solver_that_hangs_is_ended(patched: str, said: str) -> None:
    module, _, name = patched.rpartition(".")
    told = run(f"""
import importlib
sleep = ctypes.PyDLL(None).sleep
setattr(importlib.import_module({module!r}), {name!r}, lambda *_, **__: sleep(1000))
solvers.LONGEST = 6.0
work = workings.work_out(case, with_field=True, apart=True)
print([said for said in (work.discharges, work.section_stress, work.heat_field)
       if isinstance(said, str)])
""")
    assert said in told
    assert told.count("cancelled: took longer than 6 s") == 1


@LINUX
def test_an_error_comes_back_as_itself_and_a_lost_process_is_made_good() -> None:
    told = run("""
import shedlight.workings.section_stress as stress
parent, real = os.getpid(), stress.untied_of
def wrong(*_):
    raise ZeroDivisionError(f"as itself, in place: {os.getpid() == parent}")
stress.untied_of = wrong
try:
    assess(case, with_field=True, apart=True)
except ZeroDivisionError as error:
    print(error)
def dies(*arguments):
    if os.getpid() != parent:
        os.abort()
    return real(*arguments)
stress.untied_of = dies
print(workings.work_out(case, with_field=True, apart=True).section_stress.peak > 1e6)
""")
    assert told.splitlines() == ["as itself, in place: True", "True"]


@LINUX
def test_what_a_lost_process_would_still_have_found_is_made_good_too() -> None:
    told = run("""
import shedlight.workings.discharge as discharge
parent, real = os.getpid(), discharge.field_or_why
def dies(*arguments):
    if os.getpid() != parent:
        os.abort()
    return real(*arguments)
discharge.field_or_why = dies
work = workings.work_out(case, with_field=True, apart=True)
print(isinstance(work.field, str), isinstance(work.discharges, str))
""")
    assert told.split() == ["False", "False"]


@LINUX
def test_processes_end_with_what_they_work_for() -> None:
    told = run("""
def at_work():
    yield os.getpid()
    time.sleep(1000)
process = apart.Apart(at_work, 100.0)
number = process.take()
print(os.path.exists(f"/proc/{number}"))
del process
print(os.path.exists(f"/proc/{number}"))
process = apart.Apart(at_work, 100.0)
print(process.take())
""")
    first, second, left = told.splitlines()
    assert (first, second) == ("True", "False")
    assert not Path(f"/proc/{left}").exists()


@LINUX
def test_long_answers_and_many_of_them_come_whole() -> None:
    told = run("""
def answers():
    for number in range(20):
        yield bytes([number]) * 3_000_000
process = apart.Apart(answers, 100.0)
print([set(process.take()) for _ in range(20)] == [{number} for number in range(20)])
try:
    process.take()
except apart.LostError:
    print("no more")
slow = apart.Apart(lambda: iter([time.sleep(50)]), 0.2)
try:
    slow.take()
except apart.OverdueError:
    print("overdue")
""")
    assert told.split("\n")[:3] == ["True", "no more", "overdue"]
