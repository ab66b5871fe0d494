"""Plain text cannot become markup."""

from html import unescape

from hypothesis import given
from hypothesis import strategies as st

from shedlight.documents.markup import NOTHING, Markup, element, marked

DANGEROUS = "<>\"'&"


@given(st.text())
def test_text_is_escaped_and_reads_the_same(text: str) -> None:
    inside = element("p", text).removeprefix("<p>").removesuffix("</p>")

    assert not set("<>\"'") & set(inside)
    assert unescape(inside) == unescape(marked(text)) == text or "&" in text


@given(st.text(st.sampled_from(DANGEROUS + "ab;"), max_size=20))
def test_attributes_cannot_be_left(text: str) -> None:
    written = element("a", "x", href=text + "!")

    assert written.count('"') == 2
    assert written.count("<") == 2


def test_markup_is_not_escaped_again() -> None:
    inner = element("b", "1 < 2")
    assert element("p", inner, " & more") == "<p><b>1 &lt; 2</b> &amp; more</p>"
    assert Markup("<b>") + "<" == "<b>&lt;"
    assert Markup.joined([inner, "<"], "; ") == "<b>1 &lt; 2</b>; &lt;"


def test_names_of_attributes() -> None:
    assert element("a", class_="x", aria_label="y") == '<a class="x" aria-label="y"></a>'
    assert element("a", hidden=True, title="", lang=False) == "<a hidden></a>"
    assert element("td", colspan=2) == '<td colspan="2"></td>'
    assert element("meta", charset="utf-8") == '<meta charset="utf-8">'
    assert element("p", NOTHING) == "<p></p>"
