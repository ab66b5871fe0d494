"""The SVG painter: compact, real text, every id prefixed, one group per layer.

The picture is measured in millimetres; inside, whole hundredths of a millimetre with relative
steps, so that fifty sheds with their hatching stay far below 200 kB.
"""

import math
import re
from collections.abc import Iterable, Iterator
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from shedlight.figures.lettering import FAMILY, covered, font_size
from shedlight.figures.scene import Drawn, Item, Layer, Path, Pen, Round, Scene, Spot, Text

FINE = 100  # inner units per millimetre
INK = "#111111"
FAMILIES = f"{FAMILY}, 'Helvetica Neue', Arial, sans-serif"
_FACES = {"regular": "", "bold": ' font-weight="700"', "italic": ' font-style="italic"'}

_FITTED = re.compile(r' textLength=\\?"\d+\\?" lengthAdjust=\\?"spacingAndGlyphs\\?"')


def paint(scene: Scene) -> str:
    """The scene as SVG text.

    The root carries `data-axis`, `data-cover-top` (mm on paper) and `data-scale` (mm per metre),
    so that a page can turn a place on the picture into radius and height.

    Args:
        scene: What to paint.
    """
    key = scene.key
    place = scene.placement
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" id="{key}" class="figure" role="img" '
        f'aria-labelledby="{key}-title {key}-desc" '
        f'width="{_plain(scene.width)}mm" height="{_plain(scene.height)}mm" '
        f'viewBox="0 0 {_plain(scene.width)} {_plain(scene.height)}" '
        f'data-axis="{_plain(place.axis)}" data-cover-top="{_plain(place.cover_top)}" '
        f'data-scale="{_plain(place.scale)}">'
    )
    words = (
        f'<title id="{key}-title">{_words(scene.title)}</title>'
        f'<desc id="{key}-desc">{_words(scene.description)}</desc>'
    )
    # Lettering is set in the same fine units, so the one transform serves lines and text.
    body = "".join(_layer(key, layer) for layer in scene.layers)
    return (
        f'{head}{words}<g transform="scale({_plain(1 / FINE)})" fill="none" '
        f'stroke-linejoin="round" font-family="{FAMILIES}">{body}</g></svg>'
    )


def _layer(key: str, layer: Layer) -> str:
    hidden = "" if layer.shown else ' display="none"'
    return (
        f'<g class="layer" id="{key}-{layer.name.replace(" ", "-")}" '
        f"data-layer={quoteattr(layer.name)}{hidden}>"
        f"<title>{_words(layer.title)}</title>{_items(layer.items)}</g>"
    )


def _items(items: Iterable[Item]) -> str:
    """Neighbours drawn alike share one element, or one group."""
    return "".join(
        _texts(look, list(alike)) if isinstance(look, str) else _drawn(look, list(alike))
        for look, alike in groupby(items, key=_look)
    )


def _look(item: Item) -> str | tuple[Pen | None, str | None]:
    if isinstance(item, Text):
        return f'font-size="{_fine(font_size(item.capital))}" fill="{item.colour}"'
    return (item.pen, item.fill)


def _drawn(look: tuple[Pen | None, str | None], items: list[Item]) -> str:
    pen, fill = look
    paths = [path for item in items if isinstance(item, Drawn) for path in item.paths]
    data = "".join(_data(paths))
    if not data:
        return ""
    return f"<path{_stroke(pen)}{_fill(fill)} d={quoteattr(data)}/>"


def _stroke(pen: Pen | None) -> str:
    if pen is None:
        return ""
    parts = [f' stroke="{pen.colour}" stroke-width="{_fine(pen.width)}"']
    if pen.rounded:
        parts.append(' stroke-linecap="round"')
    if pen.dashes:
        parts.append(f' stroke-dasharray="{" ".join(str(_fine(dash)) for dash in pen.dashes)}"')
    if pen.opacity < 1:
        parts.append(f' stroke-opacity="{_plain(pen.opacity)}"')
    return "".join(parts)


def _fill(colour: str | None) -> str:
    return f' fill="{colour}"' if colour else ""


def _data(paths: Iterable[Path]) -> Iterator[str]:
    """Path data in whole fine units; each step is taken from the rounded place before it."""
    here: tuple[int, int] | None = None
    for path in paths:
        start = _rounded(path.start)
        if here is None:
            yield f"M{start[0]} {start[1]}"
        else:
            yield "m" + _pair(start[0] - here[0], start[1] - here[1])
        here = start
        for step in path.steps:
            end = _rounded(step.end)
            dx, dy = end[0] - here[0], end[1] - here[1]
            if dx or dy:
                yield _arc(step, dx, dy) if isinstance(step, Round) else _straight(dx, dy)
                here = end
        if path.closed:
            yield "z"
            here = start


def _straight(dx: int, dy: int) -> str:
    if dy == 0:
        return f"h{dx}"
    if dx == 0:
        return f"v{dy}"
    return "l" + _pair(dx, dy)


def _arc(step: Round, dx: int, dy: int) -> str:
    # Half a turn and its chord, rounded apart, would make a lens of a circle; a radius too short
    # for its chord is drawn as just half a turn (SVG 1.1, F.6.6).
    chord = math.hypot(dx, dy)
    half_turn = 2 * step.radius * FINE < chord + 3
    radius = max(1, int(chord / 2) if half_turn else _fine(step.radius))
    return f"a{radius} {radius} 0 {int(step.large)} {int(step.clockwise)} {_pair(dx, dy)}"


def _pair(dx: int, dy: int) -> str:
    return f"{dx}{dy}" if dy < 0 else f"{dx} {dy}"


def _texts(look: str, items: list[Item]) -> str:
    inside = "".join(_text(item) for item in items if isinstance(item, Text))
    return f"<g {look}>{inside}</g>"


def unfitted(text: str) -> str:
    """Pictures, or records with pictures in them, for where our typeface is at hand.

    There no lettering needs fitting, and fitted it would lose its kerning.

    Args:
        text: SVG, or JSON that holds SVG.
    """
    return _FITTED.sub("", text)


def _text(item: Text) -> str:
    x, y = _rounded(Spot(item.x, item.y))
    anchor = "" if item.anchor == "start" else f' text-anchor="{item.anchor}"'
    turn = f' transform="rotate(-90 {x} {y})"' if item.turned else ""
    face = _FACES[item.face]
    return f'<text x="{x}" y="{y}"{anchor}{face}{turn}{_room(item)}>{_words(item.text)}</text>'


def _room(item: Text) -> str:
    """The width that was reckoned with: a viewer without our typeface must fit its own into it."""
    if not item.text.strip() or not covered(item.text):
        return ""
    return f' textLength="{_fine(item.width)}" lengthAdjust="spacingAndGlyphs"'


def _rounded(spot: Spot) -> tuple[int, int]:
    return _fine(spot.x), _fine(spot.y)


def _fine(millimetres: float) -> int:
    return round(millimetres * FINE)


def _plain(number: float) -> str:
    return f"{number:.4f}".rstrip("0").rstrip(".")


def _words(text: str) -> str:
    """Text for XML: control characters, which XML forbids, become spaces."""
    return escape("".join(c if c.isprintable() else " " for c in text))
