"""PDF and PNG from the very same SVG, through Typst, with only the shipped typeface."""

import html
import re
from importlib import resources
from typing import Literal

import typst

from shedlight.figures import lettering
from shedlight.figures.painters.svg import unfitted

# A fixed date (the first second of 2000) keeps equal pictures equal, byte for byte.
DATE = 946684800
_TITLE = re.compile(r"<title[^>]*>(.*?)</title>", re.DOTALL)
_TEXT = re.compile(r"<text[^>]*>(.*?)</text>", re.DOTALL)
_PAGE = """
#set document(title: sys.inputs.title, date: none)
#set page(width: {width}mm, height: {height}mm, margin: 0mm)
#image(bytes(sys.inputs.svg), format: "svg", width: 100%, alt: sys.inputs.title)
"""


def pdf(svg: str, width: float, height: float) -> bytes:
    """The picture as a one-page PDF, true to scale; equal pictures give equal bytes.

    Args:
        svg: What the SVG painter painted.
        width: Width of the paper [mm].
        height: Height of the paper [mm].
    """
    return _typeset(svg, width, height, "pdf")


def png(svg: str, width: float, height: float, ppi: float = 200.0) -> bytes:
    """The picture as a PNG.

    Args:
        svg: What the SVG painter painted.
        width: Width of the paper [mm].
        height: Height of the paper [mm].
        ppi: Picture elements per inch of paper.
    """
    return _typeset(svg, width, height, "png", ppi)


def _typeset(
    svg: str, width: float, height: float, form: Literal["pdf", "png"], ppi: float | None = None
) -> bytes:
    page = _PAGE.format(width=f"{width:.4f}", height=f"{height:.4f}")
    title = _TITLE.search(svg)
    inputs = {"svg": unfitted(svg), "title": html.unescape(title[1]) if title else ""}
    with resources.as_file(resources.files("shedlight.figures").joinpath("fonts")) as folder:
        fonts = typst.Fonts(
            include_system_fonts=not _covered(svg),
            include_embedded_fonts=False,
            font_paths=[str(folder)],
        )
        return bytes(
            typst.compile(
                page.encode("utf-8"),
                font_paths=fonts,
                format=form,
                ppi=ppi,
                sys_inputs=inputs,
                timestamp=DATE,
            )
        )


def _covered(svg: str) -> bool:
    """Whether the shipped typeface suffices; else the machine's own help out."""
    return all(lettering.covered(html.unescape(text)) for text in _TEXT.findall(svg))
