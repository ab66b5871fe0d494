"""The long run of the field: ``make fuzz-field`` or ``python -m fuzz.fields COUNT SEED FOLDER``.

Solves the field of COUNT random bushings that can be built, with the memory of the process
bounded. Descriptions that show a fault are kept in FOLDER. Leaves with 1 if there are any.
"""

import gc
import json
import random
import re
import resource
import sys
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.section import Section, build_section
from shedlight.given.bushing import Installation
from shedlight.given.reading import from_data
from shedlight.workings.field import TOLERANCE, Field, field_of
from strategies import Data, SeededDice, described

MEMORY = 3 * 1024**3
TOLD_EVERY = 25
PER_SHED = 0.5  # seconds of processor time granted for every shed, and
BESIDES = 6.0  # besides


@dataclass(frozen=True)
class Candidate:
    """A random bushing that can be built."""

    name: str
    content: Data
    installation: Installation
    section: Section

    @property
    def granted(self) -> float:
        """Processor time within which its field has to stand [s]."""
        ribs = getattr(self.installation.bushing.sheds, "ribs", 0)
        return BESIDES + PER_SHED * len(self.section.sheds) * (1 + ribs)


def candidates(seed: int) -> Iterator[Candidate]:
    """Random bushings without end, always the same ones for a seed."""
    number = 0
    while True:
        number += 1
        content = described(SeededDice(random.Random(f"{seed}-{number}")))
        installation = from_data(content, "random")
        try:
            section = build_section(installation.bushing, installation.transformer)
        except ImpossibleShapeError:
            continue
        yield Candidate(f"{seed}-{number}", content, installation, section)


def fault_of(field: Field) -> str:
    """What is wrong with a field, or nothing."""
    proof = field.proof
    if not 0 <= proof.gap <= TOLERANCE:
        return f"gap {proof.gap:.2g}"
    if not 0 < proof.capacitance_low <= proof.capacitance_high:
        return f"bounds {proof.capacitance_low:.6g} to {proof.capacitance_high:.6g}"
    # Unequal losses raise the capacitance, by no more than half their range squared.
    losses = [float(filling.loss_factor) for filling in field.fillings]
    raised = 1.02 * ((max(losses) - min(losses)) / 2) ** 2
    if not proof.capacitance_low <= proof.capacitance * (1 + 1e-7):
        return f"capacitance {proof.capacitance:.8g} below {proof.capacitance_low:.8g}"
    if not proof.capacitance <= proof.capacitance_high * (1 + raised + 1e-7):
        return f"capacitance {proof.capacitance:.8g} above {proof.capacitance_high:.8g}"
    if proof.loss_disagreement > 1e-6 + 1e-4 * proof.loss_by_energy:
        return f"losses {proof.loss_by_admittance:.6g} and {proof.loss_by_energy:.6g}"
    return ""


def solved(candidate: Candidate) -> tuple[str, float, Field | None]:
    """Fault, processor time [s] and field of one bushing."""
    start = time.process_time()
    try:
        field = field_of(candidate.installation, candidate.section)
    except Exception:
        return traceback.format_exc(), time.process_time() - start, None
    seconds = time.process_time() - start
    fault = fault_of(field)
    if not fault and seconds > candidate.granted:
        fault = f"took {seconds:.1f} s for {len(candidate.section.sheds)} sheds"
    return fault, seconds, field


def main(count: int, seed: int, folder: Path) -> int:
    """Run it; returns the exit status."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    folder.mkdir(parents=True, exist_ok=True)
    faults: Counter[str] = Counter()
    rounds: Counter[int] = Counter()
    spent: list[float] = []
    for number, candidate in enumerate(candidates(seed), start=1):
        fault, seconds, field = solved(candidate)
        spent.append(seconds)
        rounds[field.proof.rounds if field else 0] += 1
        if fault:
            _keep(folder, candidate, fault)
            faults[re.sub(r"[-+]?\d+(\.\d+)?(e[-+]?\d+)?", "#", fault)[-300:]] += 1
        if number % TOLD_EVERY == 0:
            gc.collect()
            _tell(f"{number} of {count}: rounds {dict(sorted(rounds.items()))}, {_effort(spent)}")
        if number >= count:
            break
    _tell(f"{count} fields, {_effort(spent)}; {sum(faults.values())} faults of {len(faults)} kinds")
    for kind, times in faults.most_common():
        _tell(f"{times} × {kind}")
    return 1 if faults else 0


def _effort(spent: list[float]) -> str:
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    middle = sorted(spent)[len(spent) // 2]
    return f"middle {middle:.2f} s, slowest {max(spent):.2f} s, memory {memory:.0f} MB"


def _keep(folder: Path, candidate: Candidate, fault: str) -> None:
    content = json.dumps(candidate.content, indent=1, default=str)
    (folder / f"{candidate.name}.json").write_text(content, encoding="utf-8")
    (folder / f"{candidate.name}.txt").write_text(fault, encoding="utf-8")
    _tell(f"{candidate.name}, {len(candidate.section.sheds)} sheds: {fault[-300:]}")


def _tell(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2]), Path(sys.argv[3])))
