"""The long fuzzing run: ``make fuzz`` or ``python -m fuzz.long COUNT SEED FOLDER``.

Checks COUNT random and broken descriptions, with the memory of the process bounded. Descriptions
that show a fault are kept in FOLDER. Leaves with 1 if there are any.
"""

import re
import resource
import sys
import tempfile
import time
import traceback
from collections import Counter
from pathlib import Path

from fuzz.broken import broken_description
from fuzz.outcome import checked

MEMORY = 3 * 1024**3
SLOWEST = 2.0  # seconds of processor time for one description
TOLD_EVERY = 1000


def main(count: int, seed: int, folder: Path) -> int:
    """Run it; returns the exit status."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    folder.mkdir(parents=True, exist_ok=True)
    statuses: Counter[int] = Counter()
    faults: Counter[str] = Counter()
    slowest, start = 0.0, time.monotonic()
    with tempfile.TemporaryDirectory() as place:
        for number in range(1, count + 1):
            content = broken_description(seed, number)
            try:
                outcome = checked(content, Path(place))
            except BaseException:
                if isinstance(sys.exception(), KeyboardInterrupt):
                    raise
                fault = traceback.format_exc()
            else:
                fault, slowest = outcome.fault, max(slowest, outcome.seconds)
                statuses[outcome.status] += 1
                if not fault and outcome.seconds > SLOWEST:
                    fault = f"took {outcome.seconds:.1f} s"
            if fault:
                kind = _kind(fault)
                if not faults[kind]:
                    _keep(folder, f"{seed}-{number}", content, fault)
                faults[kind] += 1
            if number % TOLD_EVERY == 0:
                _tell(f"{number} of {count}: {dict(statuses)}, {sum(faults.values())} faults")
    _tell(f"{count} descriptions in {time.monotonic() - start:.0f} s; statuses {dict(statuses)}; ")
    _tell(f"slowest {slowest:.2f} s; {sum(faults.values())} faults of {len(faults)} kinds")
    for kind, times in faults.most_common():
        _tell(f"{times} × {kind}")
    return 1 if faults else 0


def _kind(fault: str) -> str:
    """The fault without its numbers, so that alike ones are counted together."""
    return re.sub(r"[-+]?\d+(\.\d+)?(e[-+]?\d+)?", "#", fault)[-300:]


def _keep(folder: Path, name: str, content: bytes, fault: str) -> None:
    (folder / f"{name}.toml").write_bytes(content)
    (folder / f"{name}.txt").write_text(fault, encoding="utf-8")
    _tell(f"{name}: {fault[:300]}")


def _tell(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2]), Path(sys.argv[3])))
