import io
import re
import struct
from typing import cast

import pypdf
import pytest

from figures.subjects import drawable, example, subjects
from shedlight.figures.painters.paper import pdf, png
from shedlight.figures.painters.svg import paint
from shedlight.figures.scene import Scene
from shedlight.given.changing import changed

POINT = 25.4 / 72


def _pdf(scene: Scene) -> bytes:
    return pdf(paint(scene), scene.width, scene.height)


def _page(data: bytes) -> pypdf.PageObject:
    reader = pypdf.PdfReader(io.BytesIO(data))
    assert len(reader.pages) == 1
    return reader.pages[0]


def test_equal_input_gives_equal_bytes_and_other_input_others() -> None:
    first = _pdf(subjects()["quay"].full())
    again = _pdf(drawable(example("quay-24kv")).full())
    other = _pdf(subjects()["inland"].full())

    assert first == again
    assert first != other


@pytest.mark.parametrize(("name", "size"), [("quay", (297, 420)), ("quarry", (210, 297))])
def test_page_has_the_size_of_the_sheet(name: str, size: tuple[float, float]) -> None:
    box = _page(_pdf(subjects()[name].full())).mediabox

    assert float(box.width) * POINT == pytest.approx(size[0], abs=0.01)
    assert float(box.height) * POINT == pytest.approx(size[1], abs=0.01)


def test_text_is_text_in_the_shipped_typeface() -> None:
    page = _page(_pdf(subjects()["quay"].full()))
    fonts = _fonts(page)

    assert "Ostrel Quay, transformer 1" in page.extract_text()
    assert fonts
    assert all("Inter" in name for name in fonts)


def _fonts(page: pypdf.PageObject) -> set[str]:
    resources = cast(pypdf.generic.DictionaryObject, page["/Resources"].get_object())
    fonts = cast(pypdf.generic.DictionaryObject, resources["/Font"].get_object())
    return {
        str(cast(pypdf.generic.DictionaryObject, font.get_object())["/BaseFont"])
        for font in fonts.values()
    }


def test_document_carries_no_date() -> None:
    data = _pdf(subjects()["quay"].full())
    metadata = pypdf.PdfReader(io.BytesIO(data)).metadata

    assert metadata is not None
    assert metadata.title == subjects()["quay"].full().title
    assert metadata.creation_date is None


def test_png_has_as_many_points_as_asked() -> None:
    scene = subjects()["quay"].plain()
    data = png(paint(scene), scene.width, scene.height, ppi=100)
    width, height = struct.unpack(">II", data[16:24])

    assert width == pytest.approx(scene.width / 25.4 * 100, abs=1.5)
    assert height == pytest.approx(scene.height / 25.4 * 100, abs=1.5)


def test_a_name_in_another_script_still_gives_a_picture() -> None:
    scene = drawable(changed(example("quay-24kv"), name="變壓器 1")).full()

    assert _pdf(scene).startswith(b"%PDF")
    assert "變壓器 1" in paint(scene)


def test_svg_names_the_typeface_with_fallbacks() -> None:
    svg = paint(subjects()["quay"].full())
    family = re.search(r'font-family="([^"]+)"', svg)

    assert family is not None
    assert family[1].startswith("Inter,")
    assert family[1].endswith("sans-serif")
