"""Many cases: every one once, whatever is killed; failures written down; the same anywhere."""

import csv
import math
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

import shedlight as sl
from shedlight.checks.check import Verdict
from shedlight.errors import DescriptionError
from shedlight.sizing.bench import apart_from_heat
from shedlight.variants.keeping import Keeping
from shedlight.variants.plan import Plan, read_plan
from shedlight.variants.running import run_plan
from shedlight.variants.summary import summary_of
from shedlight.variants.working import MARGIN, asked, row_of, rows_of_chunk

GRAVITY = (Verdict.NOT_ASSESSED, Verdict.PASS, Verdict.CAUTION, Verdict.FAIL)
EXAMPLES = Path(__file__).parents[2] / "examples"
PLAN = f"""
base = "{EXAMPLES / "quarry-36kv-cured.toml"}"
chunk = 3
[axes.shape]
path = "bushing.porcelain.air_length"
values = ["375 mm", "10 mm", "420 mm"]
[axes.altitude]
path = "site.altitude"
values = ["0 m", "1800 m", "3000 m", "100 kV"]
"""


def plan_in(folder: Path, text: str = PLAN) -> Plan:
    (folder / "plan.toml").write_text(text)
    return read_plan(folder / "plan.toml")


def plan_of_many(folder: Path) -> Plan:
    """Enough cases to be killed in the middle."""
    heights = ", ".join(f'"{n} m"' for n in range(300))
    text = PLAN.replace('"0 m", "1800 m", "3000 m", "100 kV"', heights).replace(', "10 mm"', "")
    return plan_in(folder, text.replace("chunk = 3", "chunk = 20"))


def started(folder: Path, *words: str) -> subprocess.Popen[bytes]:
    """The command at work on the plan of a folder, its first parts kept."""
    out = folder / "out"
    command = [sys.executable, "-c", "from shedlight.cli import main; main()", "variants"]
    running = subprocess.Popen(
        [*command, str(folder / "plan.toml"), "-o", str(out), *words], stderr=subprocess.DEVNULL
    )
    wait_until(lambda: bool(list(out.glob("part-*.parquet"))), "parts")
    assert running.poll() is None
    return running


def wait_until(holds: Callable[[], bool], what: str, seconds: float = 60.0) -> None:
    end = time.monotonic() + seconds
    while not holds():
        assert time.monotonic() < end, f"waited in vain for {what}"
        time.sleep(0.02)


def workers_of(process: int) -> list[int]:
    """Processes that a run has started to compute."""
    text = Path(f"/proc/{process}/task/{process}/children").read_text("ascii")
    spawned = [int(word) for word in text.split()]
    return [n for n in spawned if b"spawn_main" in Path(f"/proc/{n}/cmdline").read_bytes()]


def is_alive(process: int) -> bool:
    try:
        return ") Z " not in Path(f"/proc/{process}/stat").read_text("ascii")
    except OSError:
        return False


def test_cases_are_the_product_of_the_axes_the_last_one_fastest(tmp_path: Path) -> None:
    plan = plan_in(tmp_path)
    assert (plan.count, plan.chunks) == (12, 4)
    assert [plan.places(n) for n in (0, 1, 4, 11)] == [(0, 0), (0, 1), (1, 0), (2, 3)]


@pytest.mark.parametrize("depth", ["quick", "full"])
@pytest.mark.parametrize(("number", "altitude"), [(1, "1800 m"), (2, "3000 m")])
def test_a_case_says_what_a_single_check_says(
    tmp_path: Path, depth: str, number: int, altitude: str
) -> None:
    plan = plan_in(tmp_path, PLAN.replace("chunk = 3", f'chunk = 3\ndepth = "{depth}"'))
    row = row_of(plan, number)
    case = sl.changed(
        sl.read(EXAMPLES / "quarry-36kv-cured.toml"),
        bushing__porcelain__air_length="375 mm",
        site__altitude=altitude,
    )
    assessment = sl.assess(case)
    told = [check for check in assessment.checks if check.id in asked(plan)]
    margins = {MARGIN + check.id: check.margin for check in told if check.margin is not None}
    assert {name: row[name] for name in row if name.startswith(MARGIN)} == {
        name: margin for name, margin in margins.items() if math.isfinite(margin)
    }
    worst = max((check.verdict for check in told), key=GRAVITY.index)
    failing = "; ".join(check.id for check in told if check.verdict is Verdict.FAIL)
    assert (row["verdict"], row["failing"]) == (worst, failing)
    assert row["not_asked"] == len(assessment.checks) - len(told)
    if depth == "full":
        assert (row["verdict"], row["not_asked"]) == (assessment.verdict, 0)
    assert (row["shape"], row["altitude"], row["trouble"]) == ("375 mm", altitude, "")


def test_the_field_alone_is_solved_unless_the_section_is_asked_for(tmp_path: Path) -> None:
    text = PLAN.replace("chunk = 3", 'chunk = 3\ndepth = "field"')
    row = row_of(plan_in(tmp_path, text), 1)
    assert row[MARGIN + "field.proof"] > 0
    assert MARGIN + "oil.creep.cumulative" in row
    assert MARGIN + "body.stress-peak" not in row
    assert row["not_asked"] == 0
    with pytest.raises(DescriptionError, match="sections"):
        plan_in(tmp_path, PLAN.replace("chunk = 3", "chunk = 3\nsections = true"))


def test_axes_that_change_the_shape_change_slowest(tmp_path: Path) -> None:
    first, shape, altitude = PLAN.partition("[axes.shape]")[0], *PLAN.split("[axes.")[1:]
    plan = plan_in(tmp_path, f"{first}[axes.{altitude}[axes.{shape}")
    assert [axis.name for axis in plan.axes] == ["shape", "altitude"]


def test_a_quick_case_opens_no_slow_room(tmp_path: Path) -> None:
    slow = {"heat", "rain", "dirt", "flashover", "leakage", "odds"}
    case = sl.read(EXAMPLES / "quarry-36kv-cured.toml")
    opened = set(vars(sl.assess(case, only=apart_from_heat()).workings))
    assert not opened & slow


def test_failures_are_written_down_and_lose_nothing_else(tmp_path: Path) -> None:
    keeping = Keeping(plan_in(tmp_path), tmp_path / "out")
    assert run_plan(keeping, workers=1) == 12
    parquet, commas = keeping.collect()
    with commas.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert [int(row["case"]) for row in rows] == list(range(12))
    assert sum(bool(row["trouble"]) for row in rows) == 6
    assert all("10 mm" in row["trouble"] for row in rows if row["shape"] == "10 mm")
    assert parquet.stat().st_size > 0
    summary = summary_of(keeping)
    assert (summary.cases, summary.troubles, sum(summary.verdicts.values())) == (12, 6, 6)
    needed = [place.means["arcing_needed"] for place in summary.axes["altitude"]]
    assert needed == sorted(needed)


def test_what_is_done_is_not_done_again_and_another_plan_is_refused(tmp_path: Path) -> None:
    plan = plan_in(tmp_path)
    keeping = Keeping(plan, tmp_path / "out")
    keeping.open()
    keeping.keep(2, rows_of_chunk(plan, 2))
    before = (tmp_path / "out" / "part-000002.parquet").stat().st_mtime_ns

    assert run_plan(keeping, workers=1) == 9
    assert run_plan(keeping, workers=1) == 0
    assert (tmp_path / "out" / "part-000002.parquet").stat().st_mtime_ns == before
    other = plan_in(tmp_path, PLAN.replace('"3000 m"', '"2900 m"'))
    with pytest.raises(DescriptionError, match="another plan"):
        Keeping(other, tmp_path / "out").open()


def test_a_killed_run_goes_on_where_it_was(tmp_path: Path) -> None:
    plan, out = plan_of_many(tmp_path), tmp_path / "out"
    running = started(tmp_path, "--workers", "2")
    at_work = workers_of(running.pid)
    assert len(at_work) == 2
    running.send_signal(signal.SIGKILL)
    running.wait()
    wait_until(lambda: not any(map(is_alive, at_work)), "workers without a run")

    kept = {path: path.stat().st_mtime_ns for path in out.glob("part-*.parquet")}
    keeping = Keeping(plan, out)
    left = keeping.open()
    assert 0 < len(left) == plan.chunks - len(kept) < plan.chunks
    assert run_plan(keeping, workers=2) == sum(len(plan.cases_of(chunk)) for chunk in left)
    assert {path: path.stat().st_mtime_ns for path in kept} == kept
    assert [row["case"] for row in keeping.rows("case")] == list(range(plan.count))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (PLAN.replace("chunk = 3", "chunk = 0"), "chunk"),
        (PLAN.replace("chunk = 3", 'depth = "deep"'), "depth"),
        (PLAN.replace("[axes.altitude]", "[axes.altitude.more]"), r"axes\.altitude"),
        ("chunk = 3\n", "base"),
    ],
)
def test_a_plan_that_means_nothing_is_refused_by_name(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(DescriptionError, match=said):
        plan_in(tmp_path, text)
