"""How long a cold `shedlight check` takes: a fresh process each time, imports included.

The goal is under 1 s on two cores without a field solution, and under 2 s with it. Run by hand on a
quiet machine; the processor's time of all processes is told beside, which others blur less.
"""

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

HOME = Path(__file__).resolve().parents[1]
RUNS = 7


def main() -> None:
    """Time the three demonstrations, without and with the field."""
    command = [sys.executable, "-c", "from shedlight.cli import main; main()"]
    for more in ((), ("--field",)):
        for name in ("inland-12kv", "quay-24kv", "quarry-36kv"):
            seconds, spent = [], []
            for _ in range(RUNS):
                before, start = used(), time.perf_counter()
                subprocess.run(
                    [*command, "check", *more, str(HOME / "examples" / f"{name}.toml")],
                    check=False,
                    stdout=subprocess.DEVNULL,
                )
                seconds.append(time.perf_counter() - start)
                spent.append(used() - before)
            print(
                f"{' '.join((name, *more)):20} best {min(seconds):.2f} s, median "
                f"{statistics.median(seconds):.2f} s, worst {max(seconds):.2f} s; "
                f"processor {min(spent):.2f} s"
            )


def used() -> float:
    """Processor seconds of all processes that have ended."""
    times = os.times()
    return times.children_user + times.children_system


if __name__ == "__main__":
    main()
