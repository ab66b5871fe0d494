"""The working folder: its descriptions may be read and written, and nothing else anywhere."""

import hashlib
import os
import re
import secrets
from dataclasses import dataclass
from pathlib import Path

from shedlight.errors import InputError
from shedlight.given.writing import write_whole
from shedlight.toml import LARGEST_FILE, text_of

MOST_LISTED = 500
ENDING = ".toml"
_NAME = re.compile(r"[^\W_][\w .,()+\-]{0,100}\.toml\Z")


class NoSuchFile(InputError):  # noqa: N818
    """A name that no description in the folder has, or none may have."""


class ChangedMeanwhile(InputError):  # noqa: N818
    """The file is not as it was when it was last read, or there is one already."""


@dataclass(frozen=True)
class Stored:
    """A description as it stands in the folder, and the mark of that very content."""

    name: str
    text: str
    seen: str


class Folder:
    """One folder of descriptions."""

    def __init__(self, place: Path) -> None:
        """Keep the folder.

        Raises:
            InputError: it is not a folder.
        """
        self.place = place.resolve()
        if not self.place.is_dir():
            raise InputError(f"{place} is not a folder; make it first, or name another")

    def names(self) -> tuple[str, ...]:
        """The descriptions in the folder, by name."""
        found = (path.name for path in self.place.iterdir() if self._may_hold(path))
        return tuple(sorted(found, key=str.casefold)[:MOST_LISTED])

    def read(self, name: str) -> Stored:
        """A description.

        Raises:
            NoSuchFile: there is none of that name, or it lies outside the folder.
            DescriptionError: it cannot be read as text.
        """
        path = self._path(name)
        if not self._may_hold(path):
            raise NoSuchFile(f"there is no description {name} in the working folder")
        text = text_of(path)
        return Stored(name, text, mark(text))

    def write(self, name: str, text: str, seen: str) -> str:
        """Write a description whole, unless it changed since it was last seen.

        Args:
            name: Its name.
            text: All that it is to hold.
            seen: The mark of the content last seen; empty for a new file.

        Raises:
            NoSuchFile: no description may have such a name.
            ChangedMeanwhile: the file is not as it was seen, or one is there already.
        """
        path = self._path(name)
        if not seen:
            self._write_new(path, text)
        elif not self._may_hold(path) or mark(text_of(path)) != seen:
            raise ChangedMeanwhile(
                f"the file {name} was changed by something else since it was opened"
            )
        else:
            write_whole(path, text)
        return mark(text)

    def _write_new(self, path: Path, text: str) -> None:
        """A file that appears whole, and only where there was none."""
        neighbour = path.with_name(f".shedlight-{os.getpid()}-{secrets.token_hex(12)}")
        write_whole(neighbour, text)
        try:
            os.link(neighbour, path)
        except FileExistsError:
            raise ChangedMeanwhile(f"there is a file {path.name} already") from None
        finally:
            neighbour.unlink(missing_ok=True)

    def _path(self, name: str) -> Path:
        if not _NAME.match(name):
            raise NoSuchFile(
                f"{name[:60]!r} cannot be a description's name: letters, digits and a few signs, "
                f"ending in {ENDING}"
            )
        return self.place / name

    def _may_hold(self, path: Path) -> bool:
        """Whether a name leads to a description in this folder, a link's target included."""
        if not _NAME.match(path.name):
            return False
        try:
            real = path.resolve(strict=True)
            small = real.stat().st_size <= LARGEST_FILE
        except OSError:
            return False
        return real.parent == self.place and real.is_file() and small


def mark(text: str) -> str:
    """The mark of a content: equal texts have equal marks.

    Args:
        text: The content.
    """
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:24]
