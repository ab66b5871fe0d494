"""How the room beside the bushing is shared out: cover ends, notes, dimension columns."""

from collections.abc import Sequence
from dataclasses import dataclass

from shedlight.figures.drafting import CAPITAL
from shedlight.figures.lettering import width
from shedlight.figures.millimetres import diameter
from shedlight.figures.section.cut import Window
from shedlight.figures.section.view import View, widest
from shedlight.geometry.section import Section

COVER_SHOWN = 7.0  # beyond the clamps [mm on paper]
OIL_LABEL = 22.0  # for the label of the oil path, from the hole on [mm on paper]
OIL_SHOWN = 3.0  # below the lower terminal [mm on paper]


@dataclass(frozen=True)
class Room:
    """Distances from the axis on paper [mm]."""

    window: Window
    elbow: float
    notes: float
    columns: float
    left_columns: float


def room_for(section: Section, view: View, notes: Sequence[str]) -> Room:
    """Share out the room beside a bushing.

    Args:
        section: The section.
        view: Its scale.
        notes: The texts that stand in the right margin.
    """
    cover_end = view.size(section.radii.ring_outer) + COVER_SHOWN
    window = Window(
        cover_end=view.metres(cover_end),
        oil_end=view.metres(cover_end - 1.0),
        oil_bottom=section.heights.bottom - view.metres(OIL_SHOWN),
    )
    elbow = max(view.size(widest(section)) + 1.2, cover_end + 1.6)
    at = elbow + 3.2
    long = max((width(text, CAPITAL) for text in notes), default=6.0)
    left = max(cover_end + 7.0, free_left_of_oil_end(section, view) + _left_lettering(section))
    return Room(window, elbow, at, at + max(long, 6.0) + 5.5, left)


def free_left_of_oil_end(section: Section, view: View) -> float:
    """Distance from the axis beyond which the left of the oil end is free [mm on paper]."""
    return view.size(max(section.radii.hole, section.radii.shield)) + 0.5


def _left_lettering(section: Section) -> float:
    """Width of what may stand left of the oil end: its label, diameters [mm]."""
    radii = section.radii
    edges = (radii.hole, radii.body, radii.bore, radii.conductor)
    return max(OIL_LABEL, max(width(diameter(radius), CAPITAL) for radius in edges) + 6.0)
