"""The section drawing of a bushing: left half from outside, right half cut."""

from shedlight.figures.section.drawing import Detail, SheetName, section_drawing
from shedlight.figures.section.marks import Mark, place_names

__all__ = ["Detail", "Mark", "SheetName", "place_names", "section_drawing"]
