"""The section filled with its field: the body from outside on the left, the field on the right."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from shedlight.figures.contours import Window
from shedlight.figures.field_layers import LEGEND, FieldSubject, Scale, field_layers
from shedlight.figures.scene import Drawn, Item, Layer, Placement, Scene
from shedlight.figures.section import section_drawing
from shedlight.figures.section.materials import SOLID
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.physics.field.adapt import Solution

PAPER = "#ffffff"
UNDER = ("hatching", "colour")  # layers that the field replaces


def field_section(
    installation: Installation,
    section: Section,
    measures: Measures,
    solution: Solution,
    voltage: float,
    *,
    scale: Scale = "log",
    case: str = "",
) -> Scene:
    """The right half of the section filled with field strength, with lines of equal potential.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        solution: Its field at one volt.
        voltage: Voltage on the live metal, rms [V].
        scale: Whether the shades go in logarithmic or in even steps.
        case: What is supposed, for the title, if it is not the bushing as described.
    """
    plain = section_drawing(installation, section, measures, detail="plain")
    window = window_of(plain.placement, plain.width, plain.height)
    subject = FieldSubject(solution, voltage, window, scale)
    found = field_layers(subject, plain.placement, plain.width)
    kept = [uncoloured(layer) for layer in plain.layers if layer.name not in UNDER]
    supposed = f" {case}" if case else ""
    return replace(
        plain,
        key=f"{plain.key}-field",
        title=f"Electric field of {installation.name}{supposed} at {voltage / 1e3:.4g} kV rms to "
        "earth",
        description=DESCRIPTION,
        width=plain.width + LEGEND,
        layers=(*found[:-2], *kept, *found[-2:]),
    )


DESCRIPTION = (
    "Field strength by material on the right half of the section, lines of equal potential at "
    "every tenth of the voltage, and field lines from the most stressed places."
)


def window_of(place: Placement, width: float, height: float) -> Window:
    """What a picture of some size shows of the half plane.

    Args:
        place: Where the section lies on paper.
        width: Of the picture [mm].
        height: Of the picture [mm].
    """
    return Window(
        (width - place.axis) / place.scale,
        (place.cover_top - height) / place.scale,
        place.cover_top / place.scale,
    )


def uncoloured(layer: Layer) -> Layer:
    """Metal and porcelain without tint, so that every colour means what is shown.

    Args:
        layer: Of a section.
    """
    return replace(layer, items=tuple(_plain(layer.items)))


def _plain(items: Sequence[Item]) -> Iterator[Item]:
    for item in items:
        if isinstance(item, Drawn) and item.fill not in (None, SOLID):
            yield replace(item, fill=PAPER)
        else:
            yield item
