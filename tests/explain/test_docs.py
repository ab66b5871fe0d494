"""What docs/ holds is what the code makes today; `make docs` cures a failure."""

from pathlib import Path

from shedlight.documents.pictures import picture_file
from shedlight.explain.parts import parts_page
from shedlight.given.reading import read

HOME = Path(__file__).parents[2]


def test_the_parts_page_is_up_to_date() -> None:
    stored = (HOME / "docs" / "parts.md").read_text(encoding="utf-8")

    assert stored == parts_page(), "run: make docs"


def test_the_picture_of_the_readme_is_up_to_date() -> None:
    drawn = picture_file(read(HOME / "examples" / "quay-24kv.toml"), "section", "svg")

    assert (HOME / "docs" / "quay-24kv.svg").read_bytes() == drawn, "run: make docs"
