"""The same results on a Dask scheduler as on this machine."""

import json
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from shedlight.variants.keeping import Keeping
from shedlight.variants.running import run_plan
from variants.test_variants import plan_in, plan_of_many, started, wait_until


@pytest.mark.filterwarnings("ignore")  # the library's own shutdown warns of sockets it closes late
def test_a_scheduler_somewhere_gives_the_same(tmp_path: Path) -> None:
    from distributed import LocalCluster  # noqa: PLC0415

    plan = plan_in(tmp_path)
    here, there = Keeping(plan, tmp_path / "here"), Keeping(plan, tmp_path / "there")
    run_plan(here, workers=1)
    with LocalCluster(
        n_workers=1, threads_per_worker=1, processes=False, dashboard_address=None
    ) as cluster:
        assert run_plan(there, scheduler=cluster.scheduler_address) == plan.count
    columns = ("case", "trouble", "verdict", "tightest", "least_margin")
    assert list(here.rows(*columns)) == list(there.rows(*columns))


@pytest.fixture
def scheduler(tmp_path: Path) -> Iterator[str]:
    """A scheduler and two workers, each a process of its own as a person starts them."""
    told = tmp_path / "scheduler.json"
    here = ("--scheduler-file", str(told), "--no-dashboard")
    place = ("--local-directory", str(tmp_path), "--nthreads", "1", "--no-nanny")
    commands = [
        ("dask_scheduler", "--port", "0", "--host", "127.0.0.1", *here),
        *[("dask_worker", *here, *place)] * 2,
    ]
    running = []
    try:
        for name, *words in commands:
            command = [sys.executable, "-m", f"distributed.cli.{name}", *words]
            running.append(subprocess.Popen(command, stderr=subprocess.DEVNULL))
            wait_until(told.exists, "the scheduler")
        yield json.loads(told.read_text("utf-8"))["address"]
    finally:
        for process in reversed(running):
            process.terminate()
            process.wait(timeout=20)


def test_a_run_killed_on_a_scheduler_started_by_hand_goes_on(
    tmp_path: Path, scheduler: str
) -> None:
    plan, out = plan_of_many(tmp_path), tmp_path / "out"
    running = started(tmp_path, "--scheduler", scheduler)
    running.send_signal(signal.SIGKILL)
    running.wait()

    kept = {path: path.stat().st_mtime_ns for path in out.glob("part-*.parquet")}
    keeping = Keeping(plan, out)
    left = keeping.open()
    assert 0 < len(left) == plan.chunks - len(kept) < plan.chunks
    assert run_plan(keeping, scheduler=scheduler) == sum(len(plan.cases_of(n)) for n in left)
    assert {path: path.stat().st_mtime_ns for path in kept} == kept
    assert [row["case"] for row in keeping.rows("case")] == list(range(plan.count))
    assert not any(row["trouble"] for row in keeping.rows("trouble"))
