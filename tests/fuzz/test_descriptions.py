"""Two thousand random and broken descriptions: never a traceback, always the field at fault.

``make fuzz`` runs many more. A case is repeated by its seed and number.
"""

from collections import Counter
from pathlib import Path

import pytest

from fuzz.broken import broken_description
from fuzz.long import SLOWEST, main
from fuzz.outcome import Outcome, checked

SEED = 1
BATCH = 250


@pytest.mark.parametrize("batch", range(8))
def test_descriptions_are_judged_or_refused_clearly(batch: int, tmp_path: Path) -> None:
    statuses: Counter[int] = Counter()
    for number in range(batch * BATCH, (batch + 1) * BATCH):
        outcome = checked(broken_description(SEED, number), tmp_path)
        assert not outcome.fault, f"case {SEED}-{number}: {outcome.fault}"
        assert outcome.seconds < SLOWEST, f"case {SEED}-{number} took {outcome.seconds:.1f} s"
        statuses[outcome.status] += 1

    # Broken ones are refused, but enough are sound to reach the formulas.
    assert statuses[2] > BATCH / 2
    assert statuses[0] + statuses[1] > BATCH / 20


def test_cases_are_the_same_every_time() -> None:
    again = [broken_description(SEED, number) for number in range(50)]

    assert again == [broken_description(SEED, number) for number in range(50)]
    assert len(set(again)) > 40


CLEAR = "shedlight: x/fuzzed.toml cannot be used:\n  duty.x (line 3): given 1; expected 2. Do it.\n"
RECORD = '{"installation": {}, "verdict": "pass", "checks": [], "results": {"x": 1.0}}'


@pytest.mark.parametrize(
    ("outcome", "fault"),
    [
        (Outcome(2, "", CLEAR, 0.1), ""),
        (Outcome(0, RECORD, "", 0.1), ""),
        (Outcome(3, "", "shedlight: a fault", 0.1), "exit status 3"),
        (Outcome(-9, "", "", 0.1), "exit status -9"),
        (Outcome(2, "", CLEAR + "Traceback (most recent call last)", 0.1), "a traceback"),
        (Outcome(2, "", "shedlight: gap: given 3; expected 4. Do it.\n", 0.1), "with the file"),
        (Outcome(2, "", CLEAR.split("\n", maxsplit=1)[0], 0.1), "not clear"),
        (Outcome(2, "", CLEAR.replace("; expected 2", ""), 0.1), "not clear"),
        (Outcome(2, "", CLEAR.replace(" Do it.", ""), 0.1), "not clear"),
        (Outcome(2, "", CLEAR.replace("Do", "\x1b[31m"), 0.1), "control characters"),
        (Outcome(2, "", CLEAR.replace("Do it", "a formula refuses"), 0.1), "names no field"),
        (Outcome(0, RECORD.replace("1.0", "NaN"), "", 0.1), "NaN in the record"),
        (Outcome(0, RECORD[:40], "", 0.1), "not JSON"),
        (Outcome(1, "{}", "", 0.1), "lacks"),
    ],
)
def test_faults_would_be_seen(outcome: Outcome, fault: str) -> None:
    assert fault in outcome.fault
    assert bool(fault) == bool(outcome.fault)


def test_long_run_keeps_what_shows_a_fault(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("1/0")

    monkeypatch.setattr("resource.setrlimit", lambda *_: None)
    monkeypatch.setattr("shedlight.checks.assessment.work_out", broken)
    status = main(60, SEED, tmp_path)

    assert status == 1
    assert "× exit status #" in capsys.readouterr().out
    kept = sorted(tmp_path.glob("*.toml"))
    assert len(kept) == 1, "alike faults are kept once"
    assert "ZeroDivisionError" in kept[0].with_suffix(".txt").read_text(encoding="utf-8")


def test_long_run_is_content_when_all_is_well(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("resource.setrlimit", lambda *_: None)

    assert main(20, SEED, tmp_path) == 0
    assert "0 faults of 0 kinds" in capsys.readouterr().out
