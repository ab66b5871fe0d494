"""How long a cold `shedlight check` takes: a fresh process each time, imports included.

The goal is under 1 s on two cores without a field solution. Run by hand on a quiet machine.
"""

import statistics
import subprocess
import sys
import time
from pathlib import Path

HOME = Path(__file__).resolve().parents[1]
RUNS = 7


def main() -> None:
    """Time the three demonstrations."""
    command = str(Path(sys.executable).parent / "shedlight")
    for name in ("inland-12kv", "quay-24kv", "quarry-36kv"):
        seconds = []
        for _ in range(RUNS):
            start = time.perf_counter()
            subprocess.run(
                [command, "check", str(HOME / "examples" / f"{name}.toml")],
                check=False,
                stdout=subprocess.DEVNULL,
            )
            seconds.append(time.perf_counter() - start)
        print(
            f"{name:14} best {min(seconds):.2f} s, median {statistics.median(seconds):.2f} s, "
            f"worst {max(seconds):.2f} s"
        )


if __name__ == "__main__":
    main()
