"""HTML that cannot forget to escape: plain text becomes markup only through :func:`element`."""

from collections.abc import Iterable
from html import escape
from typing import Self

VOID = ("br", "meta", "hr", "input")


class Markup(str):
    """Text that is HTML already."""

    __slots__ = ()

    def __add__(self, other: str) -> "Markup":
        """Join with more markup or, escaped, with plain text."""
        return Markup(str(self) + str(marked(other)))

    @classmethod
    def joined(cls, parts: Iterable[str], between: str = "") -> Self:
        """Several parts as one, plain ones escaped."""
        return cls(str(marked(between)).join(str(marked(part)) for part in parts))


NOTHING = Markup()


def marked(text: str) -> Markup:
    """Plain text escaped; markup as it is."""
    return text if isinstance(text, Markup) else Markup(escape(text, quote=True))


def element(tag: str, /, *inside: str, **attributes: str | int | bool) -> Markup:
    """One element with what is in it.

    Args:
        tag: Its name.
        *inside: Plain texts, which are escaped, and markup, which is not.
        **attributes: A trailing underscore is dropped, others become hyphens; ``True`` writes the
            bare name, and ``False`` or an empty text leaves the attribute out.
    """
    written = "".join(
        _attribute(key.rstrip("_").replace("_", "-"), value) for key, value in attributes.items()
    )
    if tag in VOID:
        return Markup(f"<{tag}{written}>")
    return Markup(f"<{tag}{written}>{Markup.joined(inside)}</{tag}>")


def _attribute(name: str, value: str | int | bool) -> str:
    if value is False or value == "":
        return ""
    return f" {name}" if value is True else f' {name}="{escape(str(value), quote=True)}"'
