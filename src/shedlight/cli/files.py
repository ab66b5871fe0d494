"""Files at the door: descriptions in, documents out, every refusal one clear message."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import typer

from shedlight.errors import (
    DescriptionError,
    ImpossibleShapeError,
    InputError,
    Problem,
    RequestError,
)
from shedlight.given.bushing import Installation
from shedlight.given.overlay import overlay_from
from shedlight.given.reading import located, parse
from shedlight.given.writing import write_whole
from shedlight.tables import Confirmation
from shedlight.toml import text_of


@contextmanager
def described(file: Path) -> Iterator[Installation]:
    """The installation of a file; what later turns out impossible is told with file and line.

    Args:
        file: The description.

    Raises:
        DescriptionError: the file cannot be used, or the block found its shape impossible.
    """
    origin, text = str(file), text_of(file)
    try:
        yield parse(text, origin)
    except (DescriptionError, RequestError):
        raise
    except ImpossibleShapeError as error:
        raise located(error, origin, text) from None
    except InputError as error:
        # A formula refused a number that should have been refused, or set aside, before it.
        cure = "Please report this description: the field at fault should have been named."
        problem = Problem("file", f"values a formula refuses ({error})", "others", cure)
        raise DescriptionError(origin, (problem,)) from None


def overlay(path: Path | None) -> tuple[Confirmation, ...]:
    """The table rows that a user confirmed; none without a file.

    Args:
        path: The overlay, if there is one.

    Raises:
        DescriptionError: it cannot be used.
    """
    return () if path is None else overlay_from(text_of(path), str(path))


def ending(output: Path, kinds: tuple[str, ...]) -> str:
    """How a file is to be written, by its ending; refused before any work is done.

    Args:
        output: The file to write.
        kinds: The endings that can be written.

    Raises:
        DescriptionError: another ending, or no place for a file.
    """
    kind = output.suffix.lstrip(".").lower()
    if kind not in kinds:
        wanted = " or ".join(f".{known}" for known in kinds)
        given = f"the ending {output.suffix}" if output.suffix else "no ending"
        raise _refused(output, given, wanted, "Change the ending.")
    if output.is_dir():
        raise _refused(output, "a folder", "a file", "Add a file name.")
    if not output.parent.is_dir():
        given = f"the folder {output.parent}, which is not there"
        raise _refused(output, given, "a folder that exists", "Make the folder first.")
    return kind


def write(output: Path, content: str | bytes, *, replace: bool = True) -> None:
    """Write a file whole or not at all, and say so.

    Args:
        output: The file to write.
        content: What to write.
        replace: Whether a file that exists may be replaced.

    Raises:
        DescriptionError: it cannot be written there.
    """
    if not replace and output.exists():
        raise _refused(output, "a file that exists", "a new file", "Choose another name.")
    try:
        write_whole(output, content)
    except OSError as error:
        why = (error.strerror or type(error).__name__).lower()
        cure = "Choose another place, or make room there."
        raise _refused(output, why, "a place that can be written to", cure) from None
    typer.echo(f"wrote {output}")


def folder(output: Path) -> Path:
    """A folder for several files, made if it is not there.

    Args:
        output: The folder.

    Raises:
        DescriptionError: a file stands in its place, or it cannot be made.
    """
    if output.exists() and not output.is_dir():
        raise _refused(output, "a file", "a folder", "Choose another name.")
    try:
        output.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        why = (error.strerror or type(error).__name__).lower()
        raise _refused(output, why, "a place that can be written to", "Choose another.") from None
    return output


def _refused(output: Path, given: str, expected: str, cure: str) -> DescriptionError:
    return DescriptionError(str(output), (Problem("output", given, expected, cure),))
