"""Formulas as pictures for pages: Typst sets them, the browser shows the very same glyphs.

Browsers set MathML well only where a mathematical typeface is installed, so a page carries the
drawn formula and says it in words for those who listen.
"""

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import cast

import typst

from shedlight.documents.markup import Markup, element

SIZE = 12.0  # of the letters while they are drawn [pt]; pages scale them with their own text
MARGIN = 1.0  # round each formula, so that no overhang is cut [pt]
_TEMPLATE = b"""
#set page(width: auto, height: auto, margin: 1pt, fill: none)
#set text(size: 12pt)
#for (source, block) in json(bytes(sys.inputs.formulas)) {
  page(math.equation(block: block, eval(source, mode: "math")))
}
"""
_BOX = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
_GLYPH = re.compile(r'<symbol id="(\w+)".*?</symbol>', re.DOTALL)
_WORDS = ((re.compile(r'["\\]'), ""), (re.compile(r"\b(thin|quad)\b"), " "))


@dataclass(frozen=True)
class Drawn:
    """One formula drawn: its size [pt], what it consists of, the outlines of its glyphs by id."""

    width: float
    height: float
    body: str
    glyphs: tuple[tuple[str, str], ...]


_DRAWN: dict[tuple[str, bool], Drawn] = {}


def drawn(formulas: Iterable[tuple[str, bool]]) -> dict[tuple[str, bool], Drawn]:
    """Draw formulas, each once for as long as the program runs.

    Args:
        formulas: Typst mathematics, and whether it stands on a line of its own. In a line of text
            the baseline lies one margin above the lower edge, and deep letters overhang it.
    """
    wanted = list(dict.fromkeys(formulas))
    missing = [formula for formula in wanted if formula not in _DRAWN]
    if missing:
        _DRAWN.update(zip(missing, map(_read, _pages(missing)), strict=True))
    return {formula: _DRAWN[formula] for formula in wanted}


def _pages(formulas: list[tuple[str, bool]]) -> list[bytes]:
    pages = typst.compile(
        _TEMPLATE,
        format="svg",
        sys_inputs={"formulas": json.dumps(formulas)},
        ignore_system_fonts=True,
    )
    # A single page comes bare, several come in a list, whatever the stub says.
    return [pages] if len(formulas) == 1 else cast("list[bytes]", pages)


class Formulary:
    """The formulas of one page: each glyph is defined once and used wherever it is needed."""

    def __init__(self, formulas: Iterable[tuple[str, bool]]) -> None:
        """Draw all formulas at once, which is much quicker than one by one."""
        self._drawn = drawn(formulas)

    @property
    def glyphs(self) -> dict[str, str]:
        """The outline of every glyph, by its id."""
        return dict(pair for formula in self._drawn.values() for pair in formula.glyphs)

    @property
    def definitions(self) -> Markup:
        """The glyphs, to be put on the page once."""
        return self.definitions_beyond(None)

    def definitions_beyond(self, other: "Formulary | None") -> Markup:
        """The glyphs that another formulary on the same page does not define already."""
        there = other.glyphs if other else {}
        glyphs = {name: text for name, text in self.glyphs.items() if name not in there}
        return Markup(
            '<svg aria-hidden="true" width="0" height="0" style="position:absolute"><defs>'
            f"{''.join(glyphs[name] for name in sorted(glyphs))}</defs></svg>"
        )

    def inline(self, source: str) -> Markup:
        """A formula within a line of text, standing on its baseline."""
        return self._picture(source, False)

    def display(self, source: str) -> Markup:
        """A formula on a line of its own."""
        return self._picture(source, True)

    def _picture(self, source: str, block: bool) -> Markup:
        formula = self._drawn[source, block]
        size = f"width:{_em(formula.width)};height:{_em(formula.height)}"
        return element(
            "svg",
            Markup(formula.body),
            class_="maths",
            role="img",
            aria_label=spoken(source),
            viewBox=f"0 0 {formula.width:g} {formula.height:g}",
            style=size if block else f"{size};vertical-align:{_em(-MARGIN)}",
        )


def _em(points: float) -> str:
    return f"{points / SIZE:.3f}em"


def spoken(formula: str) -> str:
    """A formula in plain letters, for those who cannot see it."""
    for pattern, instead in _WORDS:
        formula = pattern.sub(instead, formula)
    return " ".join(formula.split())


def _read(page: bytes) -> Drawn:
    text = page.decode("utf-8")
    size = _BOX.search(text)
    assert size is not None, "Typst draws every page with a box"
    glyphs = tuple((found[1], found[0]) for found in _GLYPH.finditer(text))
    inside = text[text.index(">") + 1 : text.rindex("</svg>")].partition("<defs")[0]
    body = inside.replace("xlink:href", "href").replace("#000000", "currentColor")
    return Drawn(float(size[1]), float(size[2]), body, glyphs)
