"""The page that says why, and the chart of compromises, as files."""

from shedlight.figures.compromises import front_picture
from shedlight.figures.painters.paper import pdf, png
from shedlight.figures.painters.svg import paint
from shedlight.figures.scene import Scene
from shedlight.figures.section.picture import Subject
from shedlight.figures.why import why_picture
from shedlight.given.bushing import Installation
from shedlight.sizing.comparison import Comparison
from shedlight.sizing.compromise import Front
from shedlight.sizing.reasons import Reason
from shedlight.workings import Workings

RESOLUTION = 150.0


def why_page(
    case: Installation, found: tuple[Reason, ...], comparison: Comparison | None, kind: str
) -> bytes:
    """The section with every dimension labelled by its reason, as a file.

    Args:
        case: The installation.
        found: Why each dimension is what it is.
        comparison: Air end against oil end, if known.
        kind: "svg", "pdf" or "png".
    """
    work = Workings(case)
    subject = Subject(case, work.section, work.measures)
    return scene_file(why_picture(subject, found, comparison), kind)


def front_page(front: Front, name: str, kind: str) -> bytes:
    """The best compromises between two objectives, as a file.

    Args:
        front: The compromises.
        name: What is sized.
        kind: "svg", "pdf" or "png".
    """
    return scene_file(front_picture(front, name), kind)


def scene_file(scene: Scene, kind: str) -> bytes:
    """A picture as a file.

    Args:
        scene: The picture.
        kind: "svg", "pdf" or "png".
    """
    svg = paint(scene)
    if kind == "pdf":
        return pdf(svg, scene.width, scene.height)
    if kind == "png":
        return png(svg, scene.width, scene.height, RESOLUTION)
    return svg.encode("utf-8")
