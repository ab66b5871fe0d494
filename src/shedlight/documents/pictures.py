"""Pictures of a bushing as files of their own."""

from collections.abc import Callable, Mapping

from shedlight.documents.field_pictures import FieldView, field_picture, stress_picture
from shedlight.documents.heat_pictures import HEAT_PICTURES
from shedlight.documents.load_pictures import LOAD_PICTURES
from shedlight.documents.surface_pictures import SURFACE_PICTURES
from shedlight.documents.weather_pictures import WEATHER_PICTURES, Weather, drying
from shedlight.figures.field import surface_field, surface_voltage
from shedlight.figures.painters.paper import pdf, png
from shedlight.figures.painters.svg import paint
from shedlight.figures.scene import Scene
from shedlight.figures.section import section_drawing
from shedlight.given.bushing import Installation
from shedlight.workings import Workings
from shedlight.workings.field import field_of
from shedlight.workings.surface_states import surface_states

RESOLUTION = 150.0


def picture_file(
    installation: Installation,
    picture: str,
    kind: str,
    weather: Weather | None = None,
    view: FieldView | None = None,
) -> bytes:
    """A picture of a bushing as a file.

    Args:
        installation: What to draw.
        picture: One of :data:`PICTURES`, or "drying".
        kind: "svg", "pdf" or "png".
        weather: What wets the surface, for "drying"; ten minutes of fog if nothing is said.
        view: How the field is shown, for "field"; as it is and in logarithmic steps if nothing is
            said.

    Raises:
        InputError: the dimensions make no body, or its field cannot be found.
    """
    if picture == "drying":
        scene = drying(installation, weather or Weather())
    elif picture == "field" and view is not None:
        scene = field_picture(installation, view)
    else:
        scene = PICTURES[picture](installation)
    svg = paint(scene)
    if kind == "pdf":
        return pdf(svg, scene.width, scene.height)
    if kind == "png":
        return png(svg, scene.width, scene.height, RESOLUTION)
    return svg.encode("utf-8")


def _section(installation: Installation) -> Scene:
    work = Workings(installation)
    return section_drawing(installation, work.section, work.measures, detail="full")


def _field(installation: Installation) -> Scene:
    return field_picture(installation, FieldView())


def _stress(installation: Installation) -> Scene:
    work = Workings(installation)
    return stress_picture(work, field_of(installation, work.section))


def _surface_voltage(installation: Installation) -> Scene:
    return surface_voltage(surface_states(Workings(installation)))


def _surface_field(installation: Installation) -> Scene:
    return surface_field(surface_states(Workings(installation)))


PICTURES: Mapping[str, Callable[[Installation], Scene]] = {
    "section": _section,
    "field": _field,
    "stress": _stress,
    "surface-voltage": _surface_voltage,
    "surface-field": _surface_field,
    **SURFACE_PICTURES,
    **HEAT_PICTURES,
    **WEATHER_PICTURES,
    **LOAD_PICTURES,
}
