"""The starting descriptions that come with the tool."""

from importlib import resources
from pathlib import Path

from shedlight.errors import InputError


def example_text(name: str) -> str:
    """The text of an example description.

    Args:
        name: File name without ending.

    Raises:
        InputError: no such example.
    """
    packed = resources.files("shedlight").joinpath("examples", f"{name}.toml")
    if packed.is_file():
        return packed.read_text(encoding="utf-8")
    # In a working copy the examples stand beside the package's source, where people look.
    beside = Path(__file__).parents[3] / "examples" / f"{name}.toml"
    if beside.is_file():
        return beside.read_text(encoding="utf-8")
    raise InputError(f"no example {name!r}; see the folder examples")
