"""Numbers in reasons and notes are told as the trace prints them, never cut by hand."""

import ast
from pathlib import Path

import pytest

CHECKS = Path(__file__).parents[2] / "src" / "shedlight" / "checks"
MODULES = sorted(path for path in CHECKS.glob("*.py") if path.name != "check.py")


def cut_by_hand(text: str) -> list[int]:
    """Lines with a number formatted in a text, such as {force / 1e3:.1f} kN."""
    return [
        node.lineno
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.FormattedValue) and node.format_spec is not None
    ]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.stem)
def test_no_number_is_cut_by_hand(path: Path) -> None:
    """``units.amount`` and ``units.digits`` tell it; ``check.py`` alone writes margins."""
    assert cut_by_hand(path.read_text("utf-8")) == []


def test_one_that_is_would_be_found() -> None:
    assert cut_by_hand('note = f"pressed with {force / 1e3:.1f} kN"') == [1]
    assert cut_by_hand('note = f"pressed with {amount(force)}"') == []
