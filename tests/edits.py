"""The example descriptions, and copies of them with something changed."""

from pathlib import Path

EXAMPLES = Path(__file__).parents[1] / "examples"
NAMES = tuple(sorted(path.stem for path in EXAMPLES.glob("*.toml")))


def example(name: str = "inland-12kv") -> str:
    return (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")


def edited(old: str, new: str, name: str = "inland-12kv") -> str:
    """An example with one place changed; the place must be there."""
    text = example(name)
    assert old in text, f"{old!r} stands no longer in {name}"
    return text.replace(old, new, 1)


def line_of(text: str, part: str) -> int:
    """The number of the first line that holds a part."""
    return next(n for n, line in enumerate(text.split("\n"), start=1) if part in line)
