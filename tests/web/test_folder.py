"""The working folder: nothing outside it, nothing lost, nothing overwritten unseen."""

import threading
from pathlib import Path

import pytest

from edits import example
from shedlight.errors import InputError
from shedlight.web.folder import ChangedMeanwhile, Folder, NoSuchFile, mark

TEXT = example("quay-24kv")


@pytest.fixture
def place(tmp_path: Path) -> Path:
    folder = tmp_path / "bushings"
    folder.mkdir()
    (folder / "one.toml").write_text(TEXT, encoding="utf-8")
    (tmp_path / "secret.toml").write_text(TEXT, encoding="utf-8")
    return folder


BAD_NAMES = [
    "../secret.toml",
    "/etc/passwd",
    "..",
    ".",
    "",
    "one",
    "one.txt",
    ".hidden.toml",
    "a/b.toml",
    "a\\b.toml",
    "one.toml\x00",
    "one.toml\n",
    "x" * 200 + ".toml",
    "~root.toml",
    "%2e%2e.toml",
    "-rf.toml",
    "one.toml/",
    "_.toml",
]


@pytest.mark.parametrize("name", BAD_NAMES)
def test_bad_names_are_refused(place: Path, name: str) -> None:
    folder = Folder(place)
    with pytest.raises(NoSuchFile):
        folder.read(name)
    with pytest.raises(NoSuchFile):
        folder.write(name, TEXT, "")
    assert sorted(path.name for path in place.parent.rglob("*")) == [
        "bushings",
        "one.toml",
        "secret.toml",
    ]


def test_links_that_lead_out_are_no_descriptions(place: Path) -> None:
    (place / "out.toml").symlink_to(place.parent / "secret.toml")
    (place / "deep.toml").symlink_to("/etc/passwd")
    (place / "lost.toml").symlink_to(place / "nowhere.toml")
    (place / "folder.toml").mkdir()
    (place / "same.toml").symlink_to(place / "one.toml")
    folder = Folder(place)
    assert folder.names() == ("one.toml", "same.toml")
    for name in ("out.toml", "deep.toml", "lost.toml", "folder.toml"):
        with pytest.raises(NoSuchFile):
            folder.read(name)
    with pytest.raises(ChangedMeanwhile):
        folder.write("out.toml", "x", mark(TEXT))
    with pytest.raises(ChangedMeanwhile):
        folder.write("out.toml", "x", "")
    assert (place.parent / "secret.toml").read_text(encoding="utf-8") == TEXT


def test_a_file_changed_meanwhile_is_kept(place: Path) -> None:
    folder = Folder(place)
    seen = folder.read("one.toml").seen
    (place / "one.toml").write_text(TEXT + "# by another hand\n", encoding="utf-8")
    with pytest.raises(ChangedMeanwhile):
        folder.write("one.toml", "mine", seen)
    assert (place / "one.toml").read_text(encoding="utf-8").endswith("# by another hand\n")
    assert folder.write("one.toml", "mine", folder.read("one.toml").seen) == mark("mine")


def test_a_file_that_went_is_not_brought_back_unasked(place: Path) -> None:
    folder = Folder(place)
    seen = folder.read("one.toml").seen
    (place / "one.toml").unlink()
    with pytest.raises(ChangedMeanwhile):
        folder.write("one.toml", TEXT, seen)


def test_a_new_file_never_replaces_one(place: Path) -> None:
    with pytest.raises(ChangedMeanwhile):
        Folder(place).write("one.toml", "mine", "")
    assert (place / "one.toml").read_text(encoding="utf-8") == TEXT


def test_of_many_at_once_one_wins_and_leaves_nothing_behind(place: Path) -> None:
    folder, won = Folder(place), []

    def write(number: int) -> None:
        try:
            folder.write("new.toml", f"# {number}\n" * 1000, "")
            won.append(number)
        except ChangedMeanwhile:
            pass

    threads = [threading.Thread(target=write, args=(number,)) for number in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(won) == 1
    assert (place / "new.toml").read_text(encoding="utf-8") == f"# {won[0]}\n" * 1000
    assert sorted(path.name for path in place.iterdir()) == ["new.toml", "one.toml"]


def test_a_folder_has_to_be_one(place: Path) -> None:
    with pytest.raises(InputError, match="not a folder"):
        Folder(place / "one.toml")
