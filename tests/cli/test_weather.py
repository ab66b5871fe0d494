"""The command for the weather of the day."""

import json
from typing import Any

import pytest

from edits import EXAMPLES
from shedlight.cli.entry import run

QUARRY = str(EXAMPLES / "quarry-36kv.toml")
WEATHER = ("--pressure", "82 kPa", "--temperature", "25 °C", "--humidity", "60 %")


@pytest.fixture
def told(capsys: pytest.CaptureFixture[str]) -> Any:
    def running(*words: str) -> tuple[int, str, str]:
        status = run(list(words))
        captured = capsys.readouterr()
        return status, captured.out, captured.err

    return running


def test_it_shows_what_to_apply_and_what_to_keep_in_mind(told: Any) -> None:
    status, printed, _ = told("test-day", QUARRY, *WEATHER)

    assert status == 0
    for part in ("lightning impulse, dry, peak", "K_t", "apply today", "wet", "not the creepage"):
        assert part in printed
    assert "Rod gap sparkover" not in printed
    assert "calculation aid" in printed


def test_a_reading_and_every_step_on_request(told: Any) -> None:
    _, printed, _ = told("test-day", QUARRY, *WEATHER, "--measured", "160 kV", "--steps")

    assert "The 160 kV read today are" in printed
    assert "Rod gap sparkover" in printed


def test_json_is_whole(told: Any) -> None:
    status, printed, _ = told("test-day", QUARRY, *WEATHER, "--json")

    assert status == 0
    assert {"density", "tests", "trace", "notes"} <= set(json.loads(printed))


@pytest.mark.parametrize(
    ("option", "value", "part"),
    [
        ("--pressure", "82", "--pressure: given '82'; expected a pressure"),
        ("--pressure", "820 kPa", "pressure: given 820 kPa"),
        ("--temperature", "25 K", "--temperature"),
        ("--humidity", "160 %", "humidity: given 160 %"),
        ("--measured", "much", "--measured"),
    ],
)
def test_misuse_is_told_with_the_option(told: Any, option: str, value: str, part: str) -> None:
    status, printed, said = told("test-day", QUARRY, *WEATHER, option, value)

    assert (status, printed) == (2, "")
    assert part in said
