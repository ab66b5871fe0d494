"""The section drawing and the pictures of the surface as a document holds them."""

from dataclasses import dataclass

from shedlight.checks.assessment import Assessment
from shedlight.documents.surface_pictures import rain_scene, ways_scene
from shedlight.figures.dirt import flashover_picture, heat_picture
from shedlight.figures.painters.svg import paint
from shedlight.figures.scene import Scene
from shedlight.figures.section import section_drawing

SURFACE = (ways_scene, rain_scene, heat_picture, flashover_picture)


@dataclass(frozen=True)
class Drawing:
    """A painted picture with its size on paper [mm] and its words for the ear."""

    svg: str
    width: float
    height: float
    title: str
    description: str


def drawing_of(assessment: Assessment) -> Drawing:
    """The true-to-scale section of the bushing that was assessed."""
    workings = assessment.workings
    scene = section_drawing(
        assessment.installation, workings.section, workings.measures, detail="full"
    )
    return _painted(scene)


def surface_drawings(assessment: Assessment) -> tuple[Drawing, ...]:
    """Both ways to earth, rain, leakage and flashover of the bushing that was assessed."""
    return tuple(_painted(scene(assessment.workings)) for scene in SURFACE)


def _painted(scene: Scene) -> Drawing:
    return Drawing(paint(scene), scene.width, scene.height, scene.title, scene.description)


def field_pictures_of(assessment: Assessment) -> tuple[Drawing, ...]:
    """The solved field of the bushing that was assessed, and its stress; none if it has none."""
    workings = assessment.workings
    found = workings.discharges
    if isinstance(found, str):
        return ()
    # The pictures open the solver's libraries: only where the field was solved.
    from shedlight.documents.field_pictures import solved_pictures  # noqa: PLC0415

    return tuple(_painted(scene) for scene in solved_pictures(workings, found.field))
