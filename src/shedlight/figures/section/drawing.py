"""The drawing on its sheet: the largest standard scale that fits A4 or A3, or plain and small."""

import hashlib
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from shedlight.errors import CalculationError, InputError
from shedlight.figures import sheet as paper
from shedlight.figures.millimetres import given, measured
from shedlight.figures.scene import Box, Item, Layer, Placement, Scene, extent
from shedlight.figures.section import legend, paths
from shedlight.figures.section.marks import Mark
from shedlight.figures.section.picture import Subject, layers
from shedlight.figures.section.view import View
from shedlight.figures.sheet import Block
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation

Detail = Literal["full", "plain", "dimensioned"]
SheetName = Literal["A4", "A3"]
PLAIN_HEIGHT = 160.0  # [mm]
EDGE = 3.0  # round the plain picture [mm]
CLEAR = 4.0  # between drawing and frame or blocks [mm]
COLUMN = 76.0  # width of the column of blocks on A3 [mm]
ORIGIN = Placement(0.0, 0.0, 1.0)


def section_drawing(
    installation: Installation,
    section: Section,
    measures: Measures,
    *,
    detail: Detail = "full",
    marks: Sequence[Mark] = (),
    sheet: SheetName | None = None,
    scale: float | None = None,
    date: str | None = None,
    shown: Collection[str] | None = None,
    key: str | None = None,
) -> Scene:
    """The true-to-scale drawing of a bushing: left half from outside, right half cut.

    Args:
        installation: The installation.
        section: Its section.
        measures: What was measured on the section.
        detail: "full" on a sheet with dimensions, labels and title block; "plain" without, for a
            column, a page or an icon; "dimensioned" with dimensions and labels, without a sheet.
        marks: Places to light up.
        sheet: The sheet to use; left out, the one with the largest scale.
        scale: Without a sheet, millimetres on paper per metre; left out, the bushing is 160 mm
            high.
        date: A date for the title block.
        shown: Names of the layers to show; left out, all of a full drawing, and all but the paths
            of a plain one. Hidden layers are still in it, to be switched on.
        key: Begins every id; left out, one that differs between different drawings.

    Raises:
        InputError: an unknown detail, sheet or place of a mark.
    """
    subject = Subject(installation, section, measures, tuple(marks))
    if detail == "full":
        scene = _on_sheet(subject, sheet, date)
    elif detail in ("plain", "dimensioned"):
        scene = _off_sheet(subject, detail == "dimensioned", scale)
    else:
        wanted = "'full', 'plain' or 'dimensioned'"
        raise InputError(f"detail: given {detail!r}; expected {wanted}")
    scene = replace(scene, key=key or f"section-{_digest(subject, detail, sheet)}")
    if shown is None:
        return scene
    return replace(
        scene, layers=tuple(replace(layer, shown=layer.name in shown) for layer in scene.layers)
    )


def _off_sheet(subject: Subject, lettered: bool, wanted: float | None) -> Scene:
    heights = subject.section.heights
    scale = wanted or PLAIN_HEIGHT / (heights.top - heights.bottom)
    box = extent(_items(layers(subject, replace(ORIGIN, scale=scale), lettered)))
    placement = Placement(EDGE - box.left, EDGE - box.top, scale)
    width, height = box.width + 2 * EDGE, box.height + 2 * EDGE
    drawn = layers(subject, placement, lettered, paper=Box(0.0, 0.0, width, height))
    return _scene(subject, width, height, drawn, placement)


@dataclass(frozen=True)
class _Arrangement:
    """A sheet, a scale, and whether the blocks stand in a column beside the drawing."""

    sheet: str
    scale: float
    column: bool


def _on_sheet(subject: Subject, wanted: str | None, date: str | None) -> Scene:
    if wanted is not None and wanted not in paper.SIZES:
        raise InputError(f"sheet: given {wanted!r}; expected one of {', '.join(paper.SIZES)}")
    extents: dict[float, Box] = {}
    heights = subject.section.heights
    for choice in _arrangements(wanted):
        if 1e3 * choice.scale * (heights.top - heights.bottom) > paper.SIZES[choice.sheet][1]:
            continue  # not worth drawing to see that it does not fit
        if choice.scale not in extents:
            origin = replace(ORIGIN, scale=1e3 * choice.scale)
            extents[choice.scale] = extent(_items(layers(subject, origin, True)))
        box = extents[choice.scale]
        blocks, room = _blocks(subject, choice, date)
        if box.width <= room.width and box.height <= room.height:
            return _placed(subject, choice, box, room, blocks)
    raise CalculationError("section drawing: the bushing fits no sheet at any standard scale")


def _arrangements(wanted: str | None) -> Iterator[_Arrangement]:
    for scale in paper.SCALES:
        for name, column in (("A4", False), ("A3", True), ("A3", False)):
            if wanted in (None, name):
                yield _Arrangement(name, scale, column)


def _placed(
    subject: Subject, choice: _Arrangement, box: Box, room: Box, blocks: Sequence[Block]
) -> Scene:
    """The drawing in the middle of its room."""
    axis = room.left + (room.width - box.width) / 2 - box.left
    cover_top = room.top + (room.height - box.height) / 2 - box.top
    placement = Placement(round(axis, 2), round(cover_top, 2), 1e3 * choice.scale)
    drawn = layers(subject, placement, lettered=True, paper=paper.frame_of(choice.sheet))
    items = [item for block in blocks for item in block.items]
    drawn.append(
        Layer("sheet", "Frame, title block and lists", (*paper.frame(choice.sheet), *items))
    )
    width, height = paper.SIZES[choice.sheet]
    return _scene(subject, width, height, drawn, placement)


def _blocks(subject: Subject, choice: _Arrangement, date: str | None) -> tuple[list[Block], Box]:
    """Title block, parts list, key and remarks; and the room they leave for the drawing."""
    frame = paper.frame_of(choice.sheet)
    rows = legend.title_rows(
        subject.installation, choice.scale, choice.sheet, date, narrow=choice.column
    )
    parts = [row.part for row in subject.parts]
    view = View(replace(ORIGIN, scale=1e3 * choice.scale))
    found = paths.ways(subject.section, subject.measures, view)
    notes = legend.remarks(subject.installation, subject.section)
    left = frame.right - COLUMN if choice.column else max(frame.left, frame.right - 180.0)
    title = paper.title_block(rows, left, frame.right, frame.bottom)
    split = left if choice.column else frame.right - 108.0
    listed = paper.parts_list(parts, split, frame.right, title.box.top)
    if choice.column:
        near, far = left + 2.0, frame.right - 2.0
        said = legend.remark_block(notes, near, far, listed.box.top - 3.0)
        key = legend.key_block(found, choice.scale, near, far, said.box.top - 3.0)
        room = Box(frame.left + CLEAR, frame.top + CLEAR, left - CLEAR, frame.bottom - CLEAR)
        return [title, listed, said, key], room
    said = legend.remark_block([" ".join(notes)], split, frame.right - 2.0, listed.box.top - 2.0)
    key = legend.key_block(found, choice.scale, left + 2.0, split - 3.0, title.box.top - 2.0)
    top = min(said.box.top, key.box.top)
    room = Box(frame.left + CLEAR, frame.top + CLEAR, frame.right - CLEAR, top - CLEAR)
    return [title, listed, said, key], room


def _scene(
    subject: Subject, width: float, height: float, drawn: list[Layer], placement: Placement
) -> Scene:
    title = f"{subject.installation.name}: half section of the bushing"
    return Scene("section", title, _described(subject), width, height, tuple(drawn), placement)


def _described(subject: Subject) -> str:
    section, measures = subject.section, subject.measures
    heights, count = section.heights, len(section.sheds)
    sheds = {0: "no sheds", 1: "one shed"}.get(count, f"{count} sheds")
    air = given(heights.cap_base - heights.clamp_top)
    return (
        "Solid oil-filled porcelain bushing on the cover of a transformer, drawn to scale. "
        "Left half from outside, right half cut along the axis. "
        f"It stands {given(heights.top)} mm above the cover and reaches "
        f"{given(-heights.bottom)} mm below its top face; "
        f"the porcelain has {sheds} and an air length of {air} mm. "
        f"Creepage distance {measured(measures.creepage_length)} mm, arcing distance "
        f"{measured(measures.arcing.length)} mm, shortest way in oil "
        f"{measured(measures.oil_path.length)} mm."
    )


def _items(drawn: Sequence[Layer]) -> list[Item]:
    return [item for layer in drawn for item in layer.items]


def _digest(subject: Subject, *words: object) -> str:
    text = subject.installation.model_dump_json() + repr(words)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:8]
