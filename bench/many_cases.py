"""How long many cases take on this machine: one worker against two, memory of the workers.

Goals on two cores: 10 000 closed-form cases under 30 s, 500 with their field under 3 minutes, two
workers at least 1.7 times one, memory flat. Run by hand on a quiet machine:

    python bench/many_cases.py [quick|full|field] [COUNT]
"""

import multiprocessing
import os
import sys
import tempfile
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path

from shedlight.variants.keeping import Keeping
from shedlight.variants.plan import Plan, read_plan
from shedlight.variants.running import run_plan

HOME = Path(__file__).resolve().parents[1]
COUNTS = {"quick": 10_000, "full": 1_000, "field": 500}
SITES = 50
DUTIES = ("12 kV", "17.5 kV", "24 kV", "36 kV")
LOOK = 0.5  # how often the memory is looked at [s]


@dataclass
class Memory:
    """Resident memory of the workers while a plan runs [MB]."""

    seen: list[tuple[float, float]] = field(default_factory=list)

    def watch(self, stop: threading.Event) -> None:
        """Look until told to stop."""
        while not stop.wait(LOOK):
            running = [child.pid for child in multiprocessing.active_children()]
            sizes = [_resident(process) for process in running or [os.getpid()]]
            self.seen.append((time.perf_counter(), max(sizes)))

    @property
    def said(self) -> str:
        """Largest worker after a third of the time, and at the end."""
        if len(self.seen) < 3:
            return "too short to look at the memory"
        third, last = self.seen[len(self.seen) // 3], self.seen[-2]
        return f"largest worker {third[1]:.0f} MB after a third, {last[1]:.0f} MB at the end"


def _resident(process: int | None) -> float:
    try:
        status = Path(f"/proc/{process}/status").read_text("ascii")
    except OSError:
        return 0.0
    line = next((line for line in status.splitlines() if line.startswith("VmRSS")), "VmRSS: 0 kB")
    return float(line.split()[1]) / 1024


def _processor_time() -> float:
    """Of this process and those it has waited for [s]."""
    used = os.times()
    return used.user + used.system + used.children_user + used.children_system


def plan_of(folder: Path, depth: str, count: int) -> Plan:
    """A plan of shapes, duties and sites: nearly as many cases as wanted.

    Args:
        folder: Where to write it.
        depth: Of the plan.
        count: How many cases.
    """
    sites, duties = SITES, DUTIES
    if depth == "field":
        sites, duties = 1, DUTIES[2:3]  # every case a shape of its own: none is shared
    shapes = max(1, round(count / sites / len(duties)))
    lengths = ", ".join(f'"{370 + 100 * n / shapes:.2f} mm"' for n in range(shapes))
    rows = ", ".join(
        f'{{name = "{n}", "site.altitude" = "{40 * n} m", '
        f'"site.pollution_class" = "{"abcde"[n % 5]}"}}'
        for n in range(sites)
    )
    chosen = ", ".join(f'"{duty}"' for duty in duties)
    text = f"""
base = "{HOME / "examples" / "quarry-36kv-cured.toml"}"
depth = "{depth}"
[axes.shape]
path = "bushing.porcelain.air_length"
values = [{lengths}]
[axes.duty]
path = "duty.highest_voltage"
values = [{chosen}]
[axes.site]
rows = [{rows}]
"""
    (folder / "plan.toml").write_text(text, "utf-8")
    return read_plan(folder / "plan.toml")


def timed(plan: Plan, folder: Path, workers: int) -> float:
    """Run a plan on some workers and tell how long it took [s]; the results are collected too.

    Args:
        plan: The plan.
        folder: Where to keep the results.
        workers: How many processes.
    """
    keeping, memory, stop = Keeping(plan, folder), Memory(), threading.Event()
    looker = threading.Thread(target=memory.watch, args=(stop,), daemon=True)
    looker.start()
    start, before = time.perf_counter(), _processor_time()
    run_plan(keeping, workers=workers)
    keeping.collect()
    seconds, used = time.perf_counter() - start, _processor_time() - before
    stop.set()
    looker.join()
    troubles = sum(bool(row["trouble"]) for row in keeping.rows("trouble"))
    print(
        f"{plan.depth}: {plan.count} cases on {workers} worker(s) in {seconds:.1f} s, "
        f"{1e3 * used / plan.count:.2f} ms of processor each; {troubles} in trouble; "
        f"{memory.said}"
    )
    return seconds


def main(depth: str, count: int) -> None:
    """One worker, then two."""
    with tempfile.TemporaryDirectory() as name:
        plan = plan_of(Path(name), depth, count)
        one, two = (timed(plan, Path(name) / f"on {n}", n) for n in (1, 2))
        print(f"two workers are {one / two:.2f} times one")


if __name__ == "__main__":
    wanted = (sys.argv[1:] or ["quick"])[0]
    main(wanted, int((sys.argv[2:] or [str(COUNTS[wanted])])[0]))
