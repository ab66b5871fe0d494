"""Widths are checked against a real typesetter using the same typeface files."""

import json
from importlib import resources

import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st

from shedlight.figures import lettering
from shedlight.figures.lettering import Face

SAMPLES = (
    "Ø 144",
    "4 × 48 (= 192)",
    "Creepage distance 607 mm",
    "Łódź, Ñandú, Ж",
    "lowest oil level",
)
STYLES: dict[Face, str] = {
    "regular": "",
    "bold": 'weight: "bold", ',
    "italic": 'style: "italic", ',
}


def _typeset_width(text: str, size: float, style: str) -> float:
    """Width in millimetres as Typst measures it, kerning off."""
    source = (
        f'#set text(font: "{lettering.FAMILY}", fallback: false, kerning: false, size: {size}mm)\n'
        f"#context [#metadata(measure(text({style}sys.inputs.text)).width.mm()) <width>]"
    )
    with resources.as_file(resources.files("shedlight.figures").joinpath("fonts")) as folder:
        fonts = typst.Fonts(False, False, [str(folder)])
        compiler = typst.Compiler(source.encode(), font_paths=fonts, sys_inputs={"text": text})
        found = compiler.query("<width>", field="value", one=True)
    return float(json.loads(found))


@pytest.mark.parametrize("face", STYLES)
@pytest.mark.parametrize("text", SAMPLES)
def test_width_is_that_of_a_typesetter(text: str, face: Face) -> None:
    expected = _typeset_width(text, lettering.font_size(2.5), STYLES[face])

    # The typesetter may join letters ("lo", "×" between figures) by contextual alternates.
    assert lettering.width(text, 2.5, face) == pytest.approx(expected, rel=0.02)


def test_capital_height_is_that_of_the_typeface_files() -> None:
    """sCapHeight of the OS/2 table over unitsPerEm of the head table."""
    for face in STYLES:
        name = f"{lettering.FAMILY}-{face.capitalize()}.otf"
        data = resources.files("shedlight.figures").joinpath("fonts", name).read_bytes()
        tables = lettering._tables(data)
        capital = int.from_bytes(data[tables["OS/2"] + 88 :][:2])
        em = int.from_bytes(data[tables["head"] + 18 :][:2])

        assert capital / em == pytest.approx(lettering.CAPITAL, abs=1e-12)


def test_licence_is_shipped_and_the_folder_is_small() -> None:
    files = [
        item
        for item in resources.files("shedlight.figures").joinpath("fonts").iterdir()
        if not item.name.startswith("__pycache__")
    ]
    licence = next(item for item in files if item.name == "OFL.txt")

    assert "SIL OPEN FONT LICENSE Version 1.1" in licence.read_text(encoding="utf-8")
    assert sum(len(item.read_bytes()) for item in files) < 1.5e6


def test_covered_knows_what_the_typeface_lacks() -> None:
    assert lettering.covered("Ø 36 kV, Łódź, Ωδ – ½")
    assert not lettering.covered("變壓器")


@given(st.text(min_size=1, max_size=80), st.floats(15, 120))
def test_shortened_text_fits_and_is_a_beginning(text: str, room: float) -> None:
    short = lettering.shortened(text, room, 2.5)

    assert lettering.width(short, 2.5) <= room
    assert short == text or (
        short.endswith(lettering.ELLIPSIS) and text.startswith(short[: -len(lettering.ELLIPSIS)])
    )


@given(st.lists(st.text("abcdefgh", min_size=1, max_size=12), min_size=1, max_size=20))
def test_wrapped_lines_fit_and_keep_the_words_in_order(words: list[str]) -> None:
    lines = lettering.wrapped(" ".join(words), 40.0, 2.5, lines=3)

    assert len(lines) <= 3
    assert all(lettering.width(line, 2.5) <= 40.0 for line in lines)
    whole = " ".join(lines).removesuffix(lettering.ELLIPSIS)
    assert " ".join(words).startswith(whole)
