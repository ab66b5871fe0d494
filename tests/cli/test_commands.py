"""Each command does its job, leaves with the right status and says what went wrong."""

import json
import math
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

import shedlight as sl
from edits import EXAMPLES, NAMES, edited, example
from shedlight import verification
from shedlight.cli.entry import run

INLAND = str(EXAMPLES / "inland-12kv.toml")
COMMANDS = (
    "example",
    "check",
    "draw",
    "report",
    "verify",
    "catalogue",
    "explain",
    "questions",
    "what-if",
    "reading",
    "test-day",
)
KEYS = {
    "id",
    "part",
    "title",
    "demand",
    "capability",
    "unit",
    "margin",
    "verdict",
    "source",
    "basis",
}
SHEDLIGHT = Path(sys.executable).with_name("shedlight")


@pytest.fixture
def told(capsys: pytest.CaptureFixture[str]) -> Any:
    """Run a command; gives its status, what it printed and what it told."""

    def running(*words: str) -> tuple[int, str, str]:
        status = run(list(words))
        captured = capsys.readouterr()
        assert "Traceback" not in captured.out + captured.err
        return status, captured.out, captured.err

    return running


# --- help -----------------------------------------------------------------------------------


@pytest.mark.parametrize("command", COMMANDS)
def test_help_shows_an_example_that_begins_like_the_command(told: Any, command: str) -> None:
    status, printed, _ = told(command, "--help")

    assert status == 0
    assert f"Example: shedlight {command}" in " ".join(printed.split())


def test_help_lists_every_command(told: Any) -> None:
    status, printed, _ = told("--help")

    assert status == 0
    assert all(command in printed for command in COMMANDS)


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("nope",), "No such command 'nope'"),
        (("check",), "Missing argument 'FILE'"),
        (("check", "--nope", INLAND), "--nope"),
        (("check", INLAND, INLAND), "unexpected extra argument"),
        (("draw", INLAND), "Missing option '-o'"),
        (("example", "nope"), "'nope' is not one of 'inland-12kv'"),
    ],
)
def test_misuse_is_told_in_one_line(told: Any, words: tuple[str, ...], part: str) -> None:
    status, printed, said = told(*words)

    assert (status, printed) == (2, "")
    assert said.startswith("shedlight: ")
    assert said.count("\n") == 1
    assert part in said
    assert "--help" in said


def test_no_command_shows_the_help(told: Any) -> None:
    status, printed, said = told()

    assert status == 2
    assert "Usage: shedlight" in printed + said


# --- example --------------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_example_prints_and_writes_what_stands_in_the_folder(
    told: Any, name: str, tmp_path: Path
) -> None:
    target = tmp_path / "mine.toml"

    assert told("example", name) == (0, example(name), "")
    assert told("example", name, "-o", str(target)) == (0, f"wrote {target}\n", "")
    assert target.read_text(encoding="utf-8") == example(name)


def test_example_does_not_overwrite(told: Any, tmp_path: Path) -> None:
    target = tmp_path / "mine.toml"
    target.write_text("precious", encoding="utf-8")
    status, _, said = told("example", "inland-12kv", "-o", str(target))

    assert status == 2
    assert "given a file that exists; expected a new file" in said
    assert target.read_text(encoding="utf-8") == "precious"


# --- check ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("inland-12kv", 0),
        ("quay-24kv", 1),
        ("quarry-36kv", 1),
        ("quay-24kv-cured", 0),
        ("quarry-36kv-cured", 0),
    ],
)
def test_check_leaves_with_its_verdict(told: Any, name: str, expected: int) -> None:
    case = sl.read(EXAMPLES / f"{name}.toml")
    status, printed, said = told("check", str(EXAMPLES / f"{name}.toml"))

    assert (status, said) == (expected, "")
    assert case.name in printed
    assert "not assessed" in printed
    for check in sl.assess(case).checks:
        assert check.id in printed


def numbers(value: Any) -> list[float]:
    if isinstance(value, dict):
        return [number for inner in value.values() for number in numbers(inner)]
    if isinstance(value, list):
        return [number for inner in value for number in numbers(inner)]
    return [value] if isinstance(value, float) else []


@pytest.mark.parametrize("name", NAMES)
def test_json_holds_everything_and_only_finite_numbers(told: Any, name: str) -> None:
    status, printed, said = told("check", str(EXAMPLES / f"{name}.toml"), "--json")
    record = json.loads(printed, parse_constant=pytest.fail)
    assessment = sl.assess(sl.read(EXAMPLES / f"{name}.toml"))

    assert said == ""
    assert {"installation", "verdict", "checks", "results"} <= set(record)
    assert [check["id"] for check in record["checks"]] == [c.id for c in assessment.by_urgency]
    assert all(set(check) >= KEYS for check in record["checks"])
    assert record["verdict"] == assessment.verdict
    assert status == (1 if record["verdict"] == "fail" else 0)
    assert all(math.isfinite(number) for number in numbers(record))
    assert sl.parse(sl.to_toml(assessment.installation)).model_dump() == (
        assessment.installation.model_dump()
    )


def test_json_gives_quantities_in_the_unit_beside_them(told: Any) -> None:
    record = json.loads(told("check", INLAND, "--json")[1])
    creepage = next(c for c in record["checks"] if c["id"] == "surface.creepage")
    check = sl.assess(sl.read(INLAND)).check("surface.creepage")

    assert creepage["unit"] == "mm"
    assert creepage["capability"] == pytest.approx(1e3 * float(check.capability or 0))
    assert creepage["margin"] == pytest.approx(creepage["capability"] / creepage["demand"] - 1)
    assert record["installation"]["bushing"]["porcelain"]["bore"] == "25 mm"
    assert record["results"]["surface.creepage"]["unit"] == "mm"


def test_description_that_cannot_be_used(told: Any, tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_text(edited('bore = "25 mm"', 'bore = "25"'), encoding="utf-8")
    status, printed, said = told("check", str(file))

    assert (status, printed) == (2, "")
    assert said.startswith(f"shedlight: {file} cannot be used:\n  bushing.porcelain.bore (line ")
    assert said.endswith('Add the unit: "25 mm", if so meant.\n')
    assert said.count("\n") == 2


@pytest.mark.parametrize(
    "command", [("check",), ("draw", "-o", "x.svg"), ("report", "-o", "x.pdf")]
)
def test_impossible_shape_names_file_field_and_line(
    told: Any, tmp_path: Path, command: tuple[str, ...]
) -> None:
    file = tmp_path / "mine.toml"
    file.write_text(edited("count = 4", "count = 40"), encoding="utf-8")
    name, *rest = command
    places = [str(tmp_path / word) if "." in word else word for word in rest]
    status, printed, said = told(name, str(file), *places)
    line = next(n for n, text in enumerate(example().split("\n"), 1) if "air_length" in text)

    assert (status, printed) == (2, "")
    assert said.startswith(f"shedlight: {file} cannot be used:\n  bushing.porcelain.air_length")
    assert f"(line {line}): given 40 sheds" in said
    assert list(tmp_path.iterdir()) == [file]


def test_missing_file_is_told(told: Any, tmp_path: Path) -> None:
    status, _, said = told("check", str(tmp_path / "nowhere.toml"))

    assert status == 2
    assert "file: given a name under which there is no file" in said


# --- our own fault --------------------------------------------------------------------------


@pytest.mark.parametrize("error", [ZeroDivisionError("1/0"), MemoryError(), RecursionError("deep")])
def test_our_own_fault_is_status_3_without_a_traceback(
    told: Any, monkeypatch: pytest.MonkeyPatch, error: Exception
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setattr("shedlight.checks.assessment.work_out", broken)
    status, printed, said = told("check", INLAND)

    assert (status, printed) == (3, "")
    assert said.startswith("shedlight: a fault of shedlight's own, please report it: ")
    assert said.count("\n") == 1


def test_no_number_is_our_own_fault(told: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise sl.CalculationError("no number")

    monkeypatch.setattr("shedlight.checks.assessment.work_out", broken)

    assert told("check", INLAND) == (3, "", "shedlight: no number\n")


def test_formula_that_refuses_still_names_the_file(
    told: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refusing(*_: object, **__: object) -> None:
        raise sl.InputError("gap: given 0; expected a finite number above 0")

    monkeypatch.setattr("shedlight.checks.assessment.work_out", refusing)
    status, _, said = told("check", INLAND)

    assert status == 2
    assert said.startswith(f"shedlight: {INLAND} cannot be used:\n  file: given values a formula")
    assert "gap: given 0" in said


def test_interrupt_is_told(told: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("shedlight.checks.assessment.work_out", stopped)

    assert told("check", INLAND) == (130, "", "shedlight: stopped before it was done\n")


# --- verify, catalogue ----------------------------------------------------------------------


def test_catalogue_prints_every_question(told: Any) -> None:
    status, printed, _ = told("catalogue")
    asked = {check.id for check in sl.assess(sl.read(INLAND)).checks}

    assert status == 0
    assert all(identifier in printed for identifier in asked)
    assert f"{len(asked)} questions." in printed


def test_verify_prints_every_row_and_passes(told: Any) -> None:
    status, printed, _ = told("verify")

    assert status == 0
    assert "rows agree" in printed


def test_verify_draws_published_curves_beside_ours(told: Any, tmp_path: Path) -> None:
    status, printed, _ = told("verify", "--figures", str(tmp_path / "curves"))

    assert status == 0
    assert "rain-fall-speed.svg" in printed
    assert {path.suffix for path in (tmp_path / "curves").iterdir()} == {".svg"}


def test_verify_leaves_with_1_if_a_row_disagrees(
    told: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = verification.outcomes()[0]
    monkeypatch.setattr(verification, "outcomes", lambda: (replace(first, ok=False),))
    status, printed, _ = told("verify")

    assert status == 1
    assert "0 of 1 rows agree" in printed


# --- the installed command ------------------------------------------------------------------


def installed(*words: str, **more: Any) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [SHEDLIGHT, *words], capture_output=True, text=True, encoding="utf-8", check=False, **more
    )


def test_installed_command_checks() -> None:
    done = installed("check", INLAND)

    assert (done.returncode, done.stderr) == (0, "")
    assert "Ostrel Meadow" in done.stdout
    assert installed("check", str(EXAMPLES / "quay-24kv.toml")).returncode == 1


def test_installed_command_refuses() -> None:
    done = installed("check", "/nowhere/at/all.toml")

    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("shedlight: /nowhere/at/all.toml cannot be used:")


@pytest.mark.parametrize("words", [("check", INLAND), ("check", INLAND, "--json"), ("catalogue",)])
def test_terminal_without_our_letters_is_no_fault(words: tuple[str, ...]) -> None:
    done = installed(*words, env={"PYTHONIOENCODING": "ascii", "PATH": ""})

    assert (done.returncode, done.stderr) == (0, "")
    assert "Ostrel Meadow" in done.stdout or "questions." in done.stdout


@pytest.mark.parametrize(
    ("words", "status"),
    [
        (f"check {INLAND}", 0),
        (f"check {EXAMPLES / 'quay-24kv.toml'}", 1),
        (f"check {EXAMPLES / 'quay-24kv.toml'} --json", 1),
        ("catalogue", 0),
        ("example inland-12kv", 0),
        ("--help", 0),
    ],
)
def test_reader_who_leaves_early_changes_no_verdict(words: str, status: int) -> None:
    line = f"set -o pipefail; {SHEDLIGHT} {words} | head -n 0"
    done = subprocess.run(["bash", "-c", line], capture_output=True, text=True, check=False)

    assert (done.returncode, done.stderr) == (status, "")
