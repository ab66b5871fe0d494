"""A file that is no description at all is refused in one clear message."""

import time
from pathlib import Path

import pytest

import shedlight as sl
from edits import EXAMPLES, NAMES, edited, example, line_of
from shedlight.errors import DescriptionError, Problem
from shedlight.toml import LARGEST_FILE


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(DescriptionError) as refused:
        sl.parse(text, "some.toml")
    assert str(refused.value).startswith("some.toml cannot be used:\n")
    assert all(str(problem).isprintable() for problem in refused.value.problems)
    return refused.value.problems


def bore(written: str) -> str:
    return edited('bore = "25 mm"', f"bore = {written}")


QUOTES = 'Text and quantities stand in quotes: bore = "25 mm".'
TWICE = "A name or table stands twice: leave one of them out."

# the text: given, expected, cure
TEXTS = {
    "no quotes": (bore("25 mm"), "'bore = 25 mm' (expected newline", "valid TOML", QUOTES),
    "twice": (bore('"25 mm"\nbore = "25 mm"'), "overwrite a value", "valid TOML", TWICE),
    "table twice": (example() + "\n[duty]\n", "'[duty]'", "valid TOML", TWICE),
    "open bracket": (example() + "\n[zz", "at the end of the file", "valid TOML", QUOTES),
    "open quote": (bore('"25 mm'), "'bore = \"25 mm'", "valid TOML", QUOTES),
    "old Mac": (example().replace("\n", "\r"), r"character '\r'", "valid TOML", QUOTES),
    "NUL": ("\0" + example(), r"'\x00# A 12 kV", "valid TOML", QUOTES),
    "prose": ("Dear sir, the bushing is 36 kV.", "'Dear sir", "valid TOML", QUOTES),
    "JSON": ('{"name": "x"}', "'{\"name", "valid TOML", QUOTES),
    "endless number": ("a = " + "9" * 5000, "exceeds the limit", "valid TOML", QUOTES),
    "nested": ("a = " + "[" * 5000, "deeply nested brackets", "plain tables", "Flatten it."),
    "nested tables": ("a = " + "{a=" * 5000, "deeply nested", "plain tables", "Flatten it."),
    "dots": (
        *("a" + ".a" * 3000 + " = 1", "a line full of dots", "short names"),
        "Write tables as headers, such as [bushing.sheds].",
    ),
}


@pytest.mark.parametrize("case", TEXTS)
def test_text_that_is_no_description(case: str) -> None:
    text, given, expected, cure = TEXTS[case]
    (found,) = problems(text)

    assert found.field == "file"
    assert given in found.given
    assert (found.expected, found.cure) == (expected, cure)


def test_line_of_broken_text_is_told() -> None:
    text = bore("25 mm")
    (found,) = problems(text)

    assert found.line == line_of(text, "bore = 25 mm")
    assert str(found).startswith(f"file (line {found.line}): given 'bore = 25 mm'")


@pytest.mark.parametrize("text", ["", "\n", "# only a comment\n", "\ufeff"])
def test_empty_file_lists_what_a_description_needs(text: str) -> None:
    found = problems(text)

    assert [item.field for item in found] == ["name", "duty", "site", "transformer", "bushing"]
    assert "Add [duty] and its fields." in [item.cure for item in found]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("share", range(1, 20))
def test_cut_description_is_refused_or_another_one(name: str, share: int) -> None:
    text, told = example(name), ""
    try:
        same = sl.parse(text[: len(text) * share // 20]) == sl.parse(text)
    except DescriptionError as refused:
        same, told = False, str(refused)

    assert not same
    assert not told or "expected" in told


@pytest.mark.parametrize("depth", [50, 300])
def test_deep_tables_are_no_trouble(depth: int) -> None:
    start = time.process_time()
    found = problems("a" + ".a" * depth + " = 1\n" + example())

    assert [item.field for item in found] == ["a"]
    assert time.process_time() - start < 1.0


# --- files ----------------------------------------------------------------------------------


def refusal(path: Path) -> Problem:
    with pytest.raises(DescriptionError) as refused:
        sl.read(path)
    assert refused.value.origin == str(path)
    assert refused.value.problems[0].field == "file"
    return refused.value.problems[0]


def test_file_that_is_not_there(tmp_path: Path) -> None:
    assert "there is no file" in refusal(tmp_path / "nowhere.toml").given


def test_folder(tmp_path: Path) -> None:
    assert refusal(tmp_path).given == "a folder"


def test_name_with_nothing_in_it() -> None:
    assert refusal(Path("a\0b")).given == "a name with NUL"


def test_name_too_long_for_the_disk() -> None:
    assert "too long" in refusal(Path("x" * 5000)).given


def test_binary_file(tmp_path: Path) -> None:
    file = tmp_path / "picture.toml"
    file.write_bytes(bytes(range(256)))

    assert refusal(file).expected == "UTF-8 text"


@pytest.mark.parametrize("encoding", ["utf-16", "latin-1", "cp1252"])
def test_other_encodings(tmp_path: Path, encoding: str) -> None:
    file = tmp_path / "old.toml"
    file.write_bytes(example().encode(encoding))

    assert refusal(file).expected == "UTF-8 text"


def test_huge_file_is_refused_without_being_read(tmp_path: Path) -> None:
    file = tmp_path / "huge.toml"
    with file.open("wb") as sparse:
        sparse.truncate(10 * 1024**3)
    start = time.process_time()

    assert refusal(file).expected == f"at most {LARGEST_FILE // 1024} KiB"
    assert time.process_time() - start < 1.0


def test_endless_file() -> None:
    assert refusal(Path("/dev/zero")).given == "a larger file"


def test_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def locked(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", locked)

    assert refusal(tmp_path / "locked.toml").given == "a file that you may not read"


def test_examples_are_far_from_the_limit() -> None:
    assert all(path.stat().st_size < LARGEST_FILE / 10 for path in EXAMPLES.glob("*.toml"))
