"""Writes the reference pages: ``python -m shedlight.documents.reference docs/``."""

import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from shedlight.documents.catalogue import checks_page, formulas_page
from shedlight.documents.fields import description_page
from shedlight.documents.nomenclature import nomenclature_page
from shedlight.given.writing import write_whole

PAGES: Mapping[str, Callable[[], str]] = {
    "checks.md": checks_page,
    "formulas.md": formulas_page,
    "description.md": description_page,
    "nomenclature.md": nomenclature_page,
}
CURE = "python -m shedlight.documents.reference docs/"
MISUSED = 2


def write_pages(folder: Path) -> tuple[Path, ...]:
    """Write every reference page into a folder, each completely or not at all.

    Args:
        folder: Where to; made if it is missing.

    Raises:
        OSError: the folder cannot be written to.
    """
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in PAGES.items():
        write_whole(folder / name, text())
    return tuple(folder / name for name in PAGES)


def main(arguments: Sequence[str]) -> int:
    """Write the pages into the one folder named; gives the exit status."""
    if len(arguments) != 1:
        sys.stderr.write(f"usage: {CURE}\n")
        return MISUSED
    for path in write_pages(Path(arguments[0])):
        sys.stdout.write(f"wrote {path}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
