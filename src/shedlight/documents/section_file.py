"""The section drawing as a file of its own."""

from shedlight.figures.painters.paper import pdf, png
from shedlight.figures.painters.svg import paint
from shedlight.figures.section import section_drawing
from shedlight.geometry.measures import measure
from shedlight.geometry.section import build_section
from shedlight.given.bushing import Installation

RESOLUTION = 150.0


def section_file(installation: Installation, kind: str) -> bytes:
    """The true-to-scale section of a bushing.

    Args:
        installation: What to draw.
        kind: "svg", "pdf" or "png".

    Raises:
        ImpossibleShapeError: the dimensions make no body.
    """
    section = build_section(installation.bushing, installation.transformer)
    measures = measure(section, installation.site.rain_angle)
    scene = section_drawing(installation, section, measures, detail="full")
    svg = paint(scene)
    if kind == "pdf":
        return pdf(svg, scene.width, scene.height)
    if kind == "png":
        return png(svg, scene.width, scene.height, RESOLUTION)
    return svg.encode("utf-8")
