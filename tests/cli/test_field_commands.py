"""The commands about the field, as a user meets them."""

import json
from pathlib import Path
from typing import Any

import pytest

from shedlight.cli.entry import run

QUAY = str(Path(__file__).parents[2] / "examples" / "quay-24kv.toml")


@pytest.fixture
def told(capsys: pytest.CaptureFixture[str]) -> Any:
    """Run a command; gives its status, what it printed and what it told."""

    def running(*words: str) -> tuple[int, str, str]:
        status = run(list(words))
        captured = capsys.readouterr()
        assert "Traceback" not in captured.out + captured.err
        return status, captured.out, captured.err

    return running


def test_a_what_if_prints_both_numbers_what_was_stated_and_the_lesson(told: Any) -> None:
    status, printed, _ = told("what-if", QUAY, "no-bushing")

    assert status == 0
    assert "as it is" in printed
    assert "what if" in printed
    assert "Lowest streamer inception in air" in printed
    assert "rounded" in printed
    assert "flashover" in printed
    assert "no permit to energise" in printed


def test_a_what_if_as_json_has_numbers_with_units(told: Any) -> None:
    status, printed, _ = told("what-if", QUAY, "off-centre", "--offset", "4 mm", "--json")
    record = json.loads(printed)

    assert status == 0
    assert record["what_if"] == "off-centre"
    assert {entry["before"]["unit"] for entry in record["numbers"]} == {"kV/mm"}
    assert all(entry["ratio"] > 1 for entry in record["numbers"])


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("what-if", QUAY, "no-gravity"), "no-gravity"),
        (("what-if", QUAY, "off-centre", "--offset", "9 mm"), "width of the oil space"),
        (("what-if", QUAY, "off-centre", "--offset", "9"), "Add the unit"),
        (("what-if", QUAY, "oil-drained", "--tank-level", "-5 m"), "tank level"),
        (("reading", QUAY, "45", "120 mm"), "Add the unit"),
        (("reading", QUAY, "900 m", "0 mm"), "place: given"),
    ],
)
def test_what_cannot_be_asked_is_told_in_one_line(
    told: Any, words: tuple[str, ...], part: str
) -> None:
    status, _, complaint = told(*words)

    assert status == 2
    assert part in complaint
    assert "report" not in complaint


def test_a_reading_tells_material_potential_and_field(told: Any) -> None:
    status, printed, _ = told("reading", QUAY, "25 mm", "100 mm")

    assert status == 0
    assert "porcelain C-120" in printed
    assert "kV rms" in printed
    assert "kV/mm rms" in printed


def test_a_reading_as_json_is_the_same(told: Any) -> None:
    _, printed, _ = told("reading", QUAY, "5 mm", "100 mm", "--json")
    record = json.loads(printed)

    assert record["region"] == "conductor"
    assert record["potential"]["unit"] == "kV"
    assert record["direction"] is None


@pytest.mark.parametrize("supposed", ["no-bushing", "oil-drained"])
def test_the_field_of_a_what_if_is_drawn(told: Any, tmp_path: Path, supposed: str) -> None:
    path = tmp_path / "field.svg"
    status, _, _ = told("draw", QUAY, "--show", "field", "--what-if", supposed, "-o", str(path))

    assert status == 0
    assert 10_000 < path.stat().st_size < 1_000_000


def test_a_conductor_off_the_middle_is_not_drawn(told: Any, tmp_path: Path) -> None:
    path = tmp_path / "field.svg"
    words = ("draw", QUAY, "--show", "field", "--what-if", "off-centre", "-o", str(path))
    status, _, complaint = told(*words)

    assert status == 2
    assert "not axisymmetric" in complaint
    assert not path.exists()


def test_shades_step_evenly_when_asked(told: Any, tmp_path: Path) -> None:
    path = tmp_path / "field.svg"
    told("draw", QUAY, "--show", "field", "--scale", "linear", "-o", str(path))

    assert "even steps" in path.read_text("utf-8")
