"""Running text below a picture: lines that fit the paper, an indent kept."""

from collections.abc import Sequence

from shedlight.figures.drafting import SMALL
from shedlight.figures.scene import Layer, Placement, Scene, Text

WIDTH = 170.0
LEFT = 16.0
LINE = 3.6
INDENT = "    "
STEP_IN = 4.0


def words_scene(key: str, description: str, said: Sequence[str]) -> Scene:
    """Paragraphs as a picture of their own; those that begin with :data:`INDENT` stand further in.

    Args:
        key: Begins every id in it.
        description: What is told, in one line.
        said: The paragraphs; an empty one leaves a line free.
    """
    lines = [part for text in said for part in wrapped(text)]
    items = tuple(
        Text(
            text.strip(),
            LEFT + (STEP_IN if text.startswith(INDENT) else 0.0),
            4.0 + LINE * n,
            SMALL,
        )
        for n, text in enumerate(lines)
        if text
    )
    layers = (Layer("words", "Words", items),)
    height = 6.0 + LINE * len(lines)
    place = Placement(0.0, 0.0, 1.0)
    return Scene(key, "In words", description, WIDTH, height, layers, place)


def wrapped(text: str, room: float = WIDTH - LEFT - 6.0) -> list[str]:
    """A text in lines that fit the paper; an indent is kept.

    Args:
        text: What to set.
        room: Width of the lines [mm].
    """
    indent = text[: len(text) - len(text.lstrip())]
    lines = [indent]
    for word in text.split():
        longer = f"{lines[-1]}{'' if lines[-1] == indent else ' '}{word}"
        if lines[-1] != indent and Text(longer, 0.0, 0.0, SMALL).width > room:
            lines.append(f"{indent}{word}")
        else:
            lines[-1] = longer
    return lines
