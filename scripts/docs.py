"""Write everything under docs/ that is made from the code: reference pages, parts, the picture."""

import sys
from pathlib import Path

from shedlight.documents.pictures import picture_file
from shedlight.documents.reference import write_pages
from shedlight.explain.parts import parts_page
from shedlight.given.reading import read
from shedlight.given.writing import write_whole

HOME = Path(__file__).resolve().parents[1]
PICTURE = "quay-24kv"


def main() -> int:
    """Write the pages and say which."""
    folder = HOME / "docs"
    written = list(write_pages(folder))
    write_whole(folder / "parts.md", parts_page())
    drawing = picture_file(read(HOME / "examples" / f"{PICTURE}.toml"), "section", "svg")
    write_whole(folder / f"{PICTURE}.svg", drawing)
    for path in (*written, folder / "parts.md", folder / f"{PICTURE}.svg"):
        sys.stdout.write(f"wrote {path.relative_to(HOME)}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
