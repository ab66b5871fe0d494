"""The section drawing as a document holds it."""

from dataclasses import dataclass

from shedlight.checks.assessment import Assessment
from shedlight.figures.painters.svg import paint
from shedlight.figures.section import section_drawing


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
    return Drawing(paint(scene), scene.width, scene.height, scene.title, scene.description)


def field_pictures_of(assessment: Assessment) -> tuple[Drawing, ...]:
    """The solved field of the bushing that was assessed, and its stress; none if it has none."""
    workings = assessment.workings
    found = workings.discharges
    if isinstance(found, str):
        return ()
    # The pictures open the solver's libraries: only where the field was solved.
    from shedlight.documents.field_pictures import solved_pictures  # noqa: PLC0415

    return tuple(
        Drawing(paint(scene), scene.width, scene.height, scene.title, scene.description)
        for scene in solved_pictures(workings, found.field)
    )
