"""Published curves beside ours as files, for whoever wants to see what `verify` proves."""

from collections.abc import Iterator

from shedlight.figures.painters.paper import png
from shedlight.figures.painters.svg import paint
from shedlight.figures.published import PUBLISHED

RESOLUTION = 150.0


def published_files(kind: str = "svg") -> Iterator[tuple[str, bytes]]:
    """Every published curve rebuilt: name of the file, content.

    Args:
        kind: "svg" or "png".
    """
    for name, picture in PUBLISHED.items():
        scene = picture()
        svg = paint(scene)
        content = svg.encode("utf-8")
        if kind == "png":
            content = png(svg, scene.width, scene.height, RESOLUTION)
        yield f"{name}.{kind}", content
