"""What a description leads to when it is checked, and what must never come of it."""

import contextlib
import io
import json
import re
import time
from dataclasses import dataclass
from pathlib import Path

from shedlight.cli.entry import run

PLACE = r"[^\n:]+?(?: \(line \d+\))?"
PROBLEM = re.compile(rf"  {PLACE}: given .+; expected .+\. .+\Z")
MORE = re.compile(r"  … and \d+ more\Z")
UNNAMED = "a formula refuses"


@dataclass(frozen=True)
class Outcome:
    """How checking a file went."""

    status: int
    printed: str
    told: str
    seconds: float

    @property
    def fault(self) -> str:
        """Why this must not happen; empty if all is well."""
        if self.status not in (0, 1, 2):
            return f"exit status {self.status}: {self.told.strip()}"
        if "Traceback" in self.told + self.printed:
            return f"a traceback: {self.told.strip()}"
        return _refusal_fault(self.told) if self.status == 2 else _record_fault(self.printed)


def checked(content: bytes, folder: Path) -> Outcome:
    """Write a description to a file and check it, as the command does."""
    file = folder / "fuzzed.toml"
    file.write_bytes(content)
    printed, told = io.StringIO(), io.StringIO()
    start = time.process_time()
    with contextlib.redirect_stdout(printed), contextlib.redirect_stderr(told):
        status = run(["check", str(file), "--json"])
    return Outcome(status, printed.getvalue(), told.getvalue(), time.process_time() - start)


def _refusal_fault(told: str) -> str:
    """A refusal names the file, then field, given, expected and cure, line by line."""
    head, *lines = told.rstrip("\n").split("\n")
    if not re.fullmatch(r"shedlight: .*fuzzed\.toml cannot be used:", head):
        return f"the refusal does not begin with the file: {head}"
    unclear = [line for line in lines if not PROBLEM.match(line) and not MORE.match(line)]
    if not lines or unclear:
        return f"a refusal that is not clear: {unclear or told}"
    if UNNAMED in told:
        return f"a refusal that names no field: {told}"
    if not told.isprintable() and not told.replace("\n", "").isprintable():
        return f"control characters in the message: {told!r}"
    return ""


def _record_fault(printed: str) -> str:
    def refuse(name: str) -> float:
        raise ValueError(f"{name} in the record")

    try:
        record = json.loads(printed, parse_constant=refuse)
    except ValueError as error:
        return f"the record is not JSON: {error}"
    wanted = {"installation", "verdict", "checks", "results"}
    return "" if wanted <= set(record) else f"the record lacks {wanted - set(record)}"
