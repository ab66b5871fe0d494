"""Lettering: how wide a text is in the shipped typeface, and how to make it fit.

Heights are those of a capital letter [mm on paper], as drawing offices give them (ISO 3098-1).
Widths are sums of the typeface's own advance widths, read from its files; kerning is left out.
"""

import struct
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Literal

FAMILY = "Inter"
Face = Literal["regular", "bold", "italic"]
CAPITAL = 2048 / 2816  # height of a capital letter, in font sizes: sCapHeight / unitsPerEm
ASCENT = 0.06  # how much letters such as b and Å rise above a capital, in capital heights
DESCENT = 0.30  # how much g and p hang below the line
ELLIPSIS = "…"


@dataclass(frozen=True)
class _Metrics:
    em: int
    glyphs: Mapping[int, int]
    advances: tuple[int, ...]

    def advance(self, character: str) -> float:
        """Advance width in font sizes; a missing character is taken as wide as the font size."""
        glyph = self.glyphs.get(ord(character))
        if glyph is None:
            return 1.0
        return self.advances[min(glyph, len(self.advances) - 1)] / self.em


def font_size(capital: float) -> float:
    """The font size whose capitals have a height [mm]."""
    return capital / CAPITAL


def width(text: str, capital: float, face: Face = "regular") -> float:
    """Width of a text on paper [mm].

    Args:
        text: One line.
        capital: Height of a capital letter [mm].
        face: Which of the shipped faces.
    """
    metrics = _metrics(face)
    return font_size(capital) * sum(metrics.advance(character) for character in text)


def covered(text: str) -> bool:
    """Whether the shipped typeface has every character of a text."""
    glyphs = _metrics("regular").glyphs
    return all(ord(character) in glyphs for character in text if not character.isspace())


def shortened(text: str, room: float, capital: float, face: Face = "regular") -> str:
    """The text, or as much of its beginning as fits, with an ellipsis.

    Args:
        text: One line.
        room: Width there is [mm].
        capital: Height of a capital letter [mm].
        face: Which of the shipped faces.
    """
    if width(text, capital, face) <= room:
        return text
    kept = text
    while kept and width(kept.rstrip() + ELLIPSIS, capital, face) > room:
        kept = kept[:-1]
    return kept.rstrip(" ,;:–-") + ELLIPSIS


def wrapped(
    text: str, room: float, capital: float, face: Face = "regular", lines: int = 2
) -> tuple[str, ...]:
    """The text broken between words into at most so many lines, the last one shortened.

    Args:
        text: The text.
        room: Width there is [mm].
        capital: Height of a capital letter [mm].
        face: Which of the shipped faces.
        lines: How many lines there may be.
    """
    words = [word for word in text.split(" ") if word]  # a fixed space holds words together
    found: list[str] = []
    while words and len(found) < lines - 1:
        count = 1
        while count < len(words) and width(" ".join(words[: count + 1]), capital, face) <= room:
            count += 1
        if width(words[0], capital, face) > room:
            break
        found.append(" ".join(words[:count]))
        words = words[count:]
    if words:
        found.append(shortened(" ".join(words), room, capital, face))
    return tuple(found)


@cache
def _metrics(face: Face) -> _Metrics:
    name = f"{FAMILY}-{face.capitalize()}.otf"
    data = resources.files("shedlight.figures").joinpath("fonts", name).read_bytes()
    tables = _tables(data)
    em = struct.unpack_from(">H", data, tables["head"] + 18)[0]
    count = struct.unpack_from(">H", data, tables["hhea"] + 34)[0]
    advances = struct.unpack_from(">" + "Hh" * count, data, tables["hmtx"])[::2]
    return _Metrics(em, MappingProxyType(_character_map(data, tables["cmap"])), advances)


def _tables(data: bytes) -> dict[str, int]:
    """Where each table of an OpenType file starts."""
    count = struct.unpack_from(">H", data, 4)[0]
    records = (struct.unpack_from(">4sIII", data, 12 + 16 * index) for index in range(count))
    return {tag.decode("ascii"): offset for tag, _, offset, _ in records}


def _character_map(data: bytes, start: int) -> dict[int, int]:
    """Characters to glyphs, from the map in format 12 (OpenType, chapter cmap)."""
    count = struct.unpack_from(">H", data, start + 2)[0]
    places = (struct.unpack_from(">HHI", data, start + 4 + 8 * i)[2] for i in range(count))
    table = next(start + p for p in places if struct.unpack_from(">H", data, start + p)[0] == 12)
    groups = struct.unpack_from(">I", data, table + 12)[0]
    found: dict[int, int] = {}
    for index in range(groups):
        first, last, glyph = struct.unpack_from(">III", data, table + 16 + 12 * index)
        found.update((code, glyph + code - first) for code in range(first, last + 1))
    return found
